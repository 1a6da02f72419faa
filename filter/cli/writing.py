"""Changed documents: shown as a difference, or written in one step."""

from __future__ import annotations

import difflib
import os
import tempfile
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from physcalc.problems import Span

from .problems import FileChanged, FileNotWritten

if TYPE_CHECKING:
    from ..sources import Source


def difference(old: Source, new: Source) -> Sequence[str]:
    """The lines of a unified difference, as tools that apply one read them."""
    # Both tools strip the first part of a path (`patch -p1`), and refuse one that begins at the root.
    name = os.path.normpath(old.name).replace(os.sep, "/").lstrip("/")
    lines = difflib.unified_diff(_lines(old.text), _lines(new.text), f"a/{name}", f"b/{name}")
    return [line if line.endswith("\n") else f"{line}\n\\ No newline at end of file\n" for line in lines]


def _lines(text: str) -> list[str]:
    """Lines with their endings. Only a line feed ends one: `splitlines` would also cut at rarer signs."""
    pieces = text.split("\n")
    return [piece + "\n" for piece in pieces[:-1]] + ([pieces[-1]] if pieces[-1] else [])


def replace(path: Path, before: bytes, after: bytes) -> None:
    """The file with new bytes, in one step.

    Raises:
        FileChanged: it no longer holds the bytes that were read.
        FileNotWritten: the file system refuses.
    """
    # The file behind a link is the one to write, so that the link stays one.
    target = Path(os.path.realpath(path))
    place = Span(str(path))
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(after)
                file.flush()
                os.fsync(file.fileno())
            os.chmod(name, target.stat().st_mode & 0o7777)
            if target.read_bytes() != before:
                raise FileChanged(place, str(path))
            os.replace(name, target)
        except BaseException:
            Path(name).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise FileNotWritten(place, str(path), (error.strerror or "no reason given").lower()) from None
