"""A file that is written whole, or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def write_whole(target: Path, content: bytes) -> None:
    """Puts a file into its place in one step, with the rights of any new file; one that is there is replaced.

    Raises:
        OSError: the file system refuses.
    """
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.absolute().parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        # mkstemp makes a private file.
        mask = os.umask(0)
        os.umask(mask)
        os.chmod(name, 0o666 & ~mask)
        os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
