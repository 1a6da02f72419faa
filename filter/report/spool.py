"""Stretches of a report that wait in a file until what stands before them is known."""

from __future__ import annotations

from collections.abc import Iterator
from tempfile import SpooledTemporaryFile

from .pieces import Out

#: Up to so many bytes wait in memory, more of them on the disk.
KEPT = 1_000_000
_STRETCH = 65_536


def replayed(waiting: SpooledTemporaryFile[str], out: Out) -> None:
    """Hands on all that was written."""
    waiting.seek(0)
    while stretch := waiting.read(_STRETCH):
        out(stretch)


def lines_of(waiting: SpooledTemporaryFile[str]) -> Iterator[str]:
    """The lines that were written, without their endings."""
    waiting.seek(0)
    for line in waiting:
        yield line.removesuffix("\n")
