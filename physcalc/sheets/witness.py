"""Who is told of the files that sheets are read from: an answer that is kept holds only as long as they do."""

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
    """Has `note` told, inside the `with`, of every file that a sheet is looked for in; built-in ones are none."""
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
