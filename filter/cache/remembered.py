"""Whole answers, remembered with the files that they were made from."""

from __future__ import annotations

import json
import os
import stat
import zlib

from .keys import digest
from .store import Store

#: What is known of a file that an answer was made from: its path as it was named, the path that this leads to, and
#: the digest of its content in hexadecimal; None where it was not there, or was not to be read.
Known = tuple[str, str, str | None]

#: Pages repeat themselves: the fastest compression leaves a twentieth, and costs less than to write the rest.
_LEVEL = 1
#: No file that is larger is read for an answer, in bytes.
_LARGEST = 100_000_000


class Witness:
    """Takes down the files from which an answer is made, as they were when they were read."""

    __slots__ = ("_known",)

    def __init__(self) -> None:
        self._known: dict[str, Known] = {}

    def note(self, path: str | os.PathLike[str], content: bytes | None) -> None:
        """A file with what was read of it; None where it was not read."""
        name = os.fspath(path)
        seen = (name, os.path.realpath(name), digest(content).hex() if content is not None else None)
        # A file that was read twice and had changed makes an answer that holds for no state of it.
        self._known[name] = seen if self._known.get(name, seen) == seen else (name, "", None)

    def files(self) -> list[Known]:
        """What is known of each."""
        return list(self._known.values())


def remember(store: Store, kind: str, key: bytes, answer: bytes, files: list[Known]) -> None:
    """Keep an answer, if the files that it was made from are as they were when it was begun.

    Args:
        store: where.
        kind: what sort of answer it is.
        key: the digest of everything that the answer depends on, but the files.
        answer: the answer.
        files: the files that it depends on; their paths start from a folder that is part of the key.
    """
    if not all(_holds(*file) for file in files):
        return
    head = json.dumps(files).encode("ascii")
    store.put(kind, key, b"%d\n" % len(head) + head + zlib.compress(answer, _LEVEL))


def recall(store: Store, kind: str, key: bytes) -> bytes | None:
    """The answer that was kept, if every file that it was made from is as it was; else None."""
    held = store.get(kind, key)
    if held is None:
        return None
    length, _, rest = held.partition(b"\n")
    # An entry that came through its checks was written by `remember`; what is not is somebody's trick.
    try:
        head = int(length)
        known = json.loads(rest[:head])
        if not all(_holds(*file) for file in known):
            return None
        return zlib.decompress(rest[head:])
    except (ValueError, TypeError, zlib.error):
        return None


def _holds(name: str, real: str, content: str | None) -> bool:
    try:
        # What is no file, such as a pipe, is not opened: it would be waited for.
        if os.path.realpath(name) != real:
            return False
        known = os.stat(name)
        if not stat.S_ISREG(known.st_mode):
            return content is None
        if content is None or known.st_size > _LARGEST:
            return False  # It is there now, or too large for what any answer was made from.
        with open(name, "rb") as file:
            return digest(file.read()).hex() == content
    except (FileNotFoundError, NotADirectoryError):
        return content is None
    except OSError:
        return False
