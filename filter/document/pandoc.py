"""Where pandoc is, and what of it is a person's own."""

from __future__ import annotations

import os
import shutil
from functools import cache
from importlib.util import find_spec
from pathlib import Path

#: A folder that is none: what a person has put into pandoc's own (templates, abbreviations) changes no result here.
NO_DATA = f"--data-dir={os.devnull}"

#: Names another pandoc than the one that would be found (pypandoc's own variable).
_NAMED = "PYPANDOC_PANDOC"


@cache
def find_pandoc() -> tuple[str, bool]:
    """The pandoc to run, and whether it is the one that pip installed with pypandoc.

    Of several pandocs pypandoc chooses the newest. For that it starts each of them, and to import it takes as long as
    to read a document; so it is asked only where there is a choice.

    Raises:
        OSError: there is none.
    """
    own = _installed()
    if own is not None and not os.environ.get(_NAMED) and shutil.which("pandoc") is None:
        return str(own), True
    import pypandoc

    path = str(pypandoc.get_pandoc_path())
    return path, own is not None and Path(path) == own


def _installed() -> Path | None:
    """The program in pypandoc's own folder, where its wheel has one."""
    spec = find_spec("pypandoc")
    for folder in spec.submodule_search_locations or () if spec is not None else ():
        own = Path(folder) / "files" / ("pandoc.exe" if os.name == "nt" else "pandoc")
        if os.access(own, os.X_OK):
            return own
    return None
