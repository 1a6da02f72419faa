"""Room −1: who is told of the files that are read: an answer that is kept holds only as long as they do."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from pathlib import Path

#: Takes a file and its bytes; None where it is not there, or was not read.
Note = Callable[[Path, bytes | None], None]

_told: ContextVar[Note | None] = ContextVar("told", default=None)


@contextmanager
def files_noted(note: Note) -> Iterator[None]:
    """Has `note` told, inside the `with`, of every file that a sheet or a picture is looked for in.

    What is our own, such as a built-in sheet, is no such file.
    """
    token = _told.set(note)
    try:
        yield
    finally:
        _told.reset(token)


def looked_at(path: Path, content: bytes | None) -> None:
    """Tells of a file."""
    note = _told.get()
    if note is not None:
        note(path, content)


def looked_into(folder: Path) -> None:
    """Tells of a folder whose names count. They are not taken down, so what rests on them is not kept."""
    looked_at(folder, b"")


def listened() -> bool:
    """Whether anybody is told: what is read for that alone need not be read else."""
    return _told.get() is not None
