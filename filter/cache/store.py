"""Contents by their keys, in a folder: bounded, safe for several writers, and never a reason to fail."""

from __future__ import annotations

import os
import re
import stat
import time
from collections.abc import Iterator
from contextlib import suppress

from .keys import Key

#: How many bytes a store may take on the disk.
LIMIT = 256_000_000

#: The form of an entry's file. Entries of another form lie in another folder, and are taken for old ones.
FORM = 1
_MAGIC = b"physcalc cache %d\n" % FORM
_DIGEST = 32
_HEAD = len(_MAGIC) + _DIGEST

_KIND = re.compile(r"[a-z][a-z0-9-]{0,30}")
_ENTRY = re.compile(r"[0-9a-f]{62}")
_SHARD = re.compile(r"[0-9a-f]{2}")
_HALF_MADE = ".new-"
#: Counts what was written since the oldest entries were last looked for: by its size, a byte for each stretch.
_WRITTEN = "physcalc-written"
#: What systems put into folders, and what backups look for (https://bford.info/cachedir/).
#: The counter of earlier versions is ours, too.
_HARMLESS = frozenset({"written", ".DS_Store", "CACHEDIR.TAG", "Thumbs.db", "desktop.ini", "lost+found"})
_STRETCH = 65_536
#: No file takes less than this on a disk.
_LEAST = 4_096
#: An entry that is used is young again, but its time is not set anew at each use.
_YOUNG = 3_600.0
#: A file that was begun so many seconds ago is nobody's any more.
_ABANDONED = 3_600.0

# Where the system has no such flag, a link is looked for first. In binary, or Windows would change line endings.
_READ = os.O_RDONLY | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
_NEW = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_BINARY", 0)
_MORE = os.O_WRONLY | os.O_CREAT | os.O_APPEND | getattr(os, "O_NOFOLLOW", 0)


class Store:
    """A folder of entries, each a content with the digest of its kind, key and content before it.

    Nothing here raises: where the disk is full, the folder cannot be written, belongs to somebody else or holds
    anything else (a home folder, the root of a disk), nothing is kept, nothing is found and nothing is taken away.
    Files and folders are for their owner alone.

    Args:
        folder: where it lies; it is made with the first content.
        limit: how many bytes it may take on the disk. About an eighth more may lie there for a while, since the
            oldest entries are looked for only when so much was written.
    """

    __slots__ = ("_limit", "_usable", "folder")

    def __init__(self, folder: str | os.PathLike[str], limit: int = LIMIT) -> None:
        # Paths are plain texts here: to import Python's paths takes longer than to find an entry.
        self.folder = os.fspath(folder)
        self._limit = limit
        self._usable = False

    def get(self, kind: str, key: bytes | str) -> bytes | None:
        """The content that was put under a key; None where there is none, or it is not whole.

        Args:
            kind: what sort of content it is: small letters, digits, hyphens.
            key: what it depends on: bytes, mostly a digest, or the same in hexadecimal.
        """
        try:
            if not self._is_usable():
                return None
            path = self._path(kind, key)
            held = self._read(path)
        except (OSError, ValueError):
            return None
        if held is None or not held.startswith(_MAGIC):
            return None
        content = held[_HEAD:]
        return content if held[len(_MAGIC) : _HEAD] == _checked(kind, key, content) else None

    def put(self, kind: str, key: bytes | str, content: bytes) -> None:
        """Keep a content. One that would take an eighth of the store or more is not kept.

        Args:
            kind, key: as for `get`.
            content: what is kept; the same for the same key, whoever puts it.
        """
        size = _HEAD + len(content)
        if size > self._limit // 8:
            return
        with suppress(OSError, ValueError):
            if not self._is_usable(make=True):
                return
            path = self._path(kind, key)
            self._write(path, (_MAGIC, _checked(kind, key, content), content))
            self._count(size)

    def entries(self) -> Iterator[tuple[str, os.stat_result]]:
        """Every entry's file, with what the system knows of it."""
        if self._is_usable():
            for path, known in _files(self.folder):
                if _is_entry(path):
                    yield path, known

    def clear(self) -> int:
        """Take all entries away; how many there were. Files that are none of the store's stay."""
        count = 0
        if not self._is_usable():
            return 0
        for path, _ in list(_files(self.folder)):
            with suppress(OSError):
                os.unlink(path)
                count += _is_entry(path)
        with suppress(OSError):
            os.unlink(os.path.join(self.folder, _WRITTEN))
        return count

    def _path(self, kind: str, key: bytes | str) -> str:
        if not _KIND.fullmatch(kind):
            raise ValueError(f"{kind!r} is no kind")
        name = Key(_MAGIC, kind, key).digest().hex()
        return os.path.join(self.folder, f"{kind}.{FORM}", name[:2], name[2:])

    def refused(self) -> str:
        """Why the folder is not used; empty where it is, or is not there yet."""
        try:
            known = os.lstat(self.folder)
        except FileNotFoundError:
            return ""
        except (OSError, ValueError):
            return "it cannot be looked at"
        return _fault(known) or self._strange()

    def _strange(self) -> str:
        """Why a folder is none of the store's, by what lies in it; empty where all of it is ours."""
        try:
            with os.scandir(self.folder) as found:
                for entry in found:
                    if entry.name != _WRITTEN and entry.name not in _HARMLESS and not _is_kind(entry.name):
                        return "other files lie in it: name a folder for this alone"
        except OSError:
            return "it cannot be looked at"
        return ""

    def _is_usable(self, make: bool = False) -> bool:
        """Whether the folder is there and is ours alone; `make` has it made."""
        if not self._usable:
            if make:
                os.makedirs(os.path.dirname(self.folder), exist_ok=True)
                _make(self.folder)
            self._usable = os.path.lexists(self.folder) and not self.refused()
        return self._usable

    def _read(self, path: str) -> bytes | None:
        if not getattr(os, "O_NOFOLLOW", 0) and os.path.islink(path):
            return None
        handle = os.open(path, _READ)
        with os.fdopen(handle, "rb") as file:
            known = os.fstat(handle)
            if not stat.S_ISREG(known.st_mode) or known.st_size > self._limit:
                return None
            if time.time() - known.st_mtime > _YOUNG:
                with suppress(OSError):  # On a disk that cannot be written it is read all the same.
                    os.utime(path)
            return file.read()

    def _write(self, path: str, pieces: tuple[bytes, ...]) -> None:
        shard = os.path.dirname(path)
        new = os.path.join(shard, f"{_HALF_MADE}{os.getpid()}-{os.urandom(8).hex()}")
        try:
            handle = os.open(new, _NEW, 0o600)
        except FileNotFoundError:
            _make(os.path.dirname(shard))
            _make(shard)
            handle = os.open(new, _NEW, 0o600)
        try:
            with os.fdopen(handle, "wb") as file:
                for piece in pieces:
                    file.write(piece)
            # Whoever reads has the old entry or the new one, both whole.
            os.replace(new, path)
        except BaseException:
            with suppress(OSError):
                os.unlink(new)
            raise

    def _count(self, size: int) -> None:
        """Note that so much was written; when it is enough, take the oldest entries out."""
        counter = os.path.join(self.folder, _WRITTEN)
        handle = os.open(counter, _MORE, 0o600)
        try:
            os.write(handle, b"." * (1 + size // _STRETCH))
            enough = os.fstat(handle).st_size * _STRETCH > self._limit // 8
            if enough:
                os.ftruncate(handle, 0)
        finally:
            os.close(handle)
        if enough:
            self._sweep()

    def _sweep(self) -> None:
        """Take out what was begun and left, and the oldest entries, until seven eighths of the limit are left."""
        now = time.time()
        kept: list[tuple[float, int, str]] = []
        for path, known in _files(self.folder):
            if _is_entry(path):
                kept.append((known.st_mtime, max(known.st_size, _LEAST), path))
            elif now - known.st_mtime > _ABANDONED:
                with suppress(OSError):
                    os.unlink(path)
        total = sum(size for _, size, _ in kept)
        if total <= self._limit:
            return
        for _, size, path in sorted(kept, key=lambda entry: entry[0]):
            if total <= self._limit * 7 // 8:
                break
            with suppress(OSError):  # Another writer may have been first.
                os.unlink(path)
            total -= size


def _checked(kind: str, key: bytes | str, content: bytes) -> bytes:
    """What stands before a content: it holds for this content under this key and no other."""
    return Key(_MAGIC, kind, key, content).digest()


def _is_entry(path: str) -> bool:
    return _ENTRY.fullmatch(os.path.basename(path)) is not None


def _is_kind(name: str) -> bool:
    """Whether a folder's name is that of a kind of entries, of any form."""
    kind, _, form = name.rpartition(".")
    return form.isdecimal() and _KIND.fullmatch(kind) is not None


def _make(folder: str) -> None:
    with suppress(FileExistsError):
        os.mkdir(folder, 0o700)


def _fault(known: os.stat_result) -> str:
    """Why a folder is not one that only this user writes into; empty where it is."""
    if stat.S_ISLNK(known.st_mode):
        return "it is a link"
    if not stat.S_ISDIR(known.st_mode):
        return "it is no folder"
    if (
        os.name != "posix"
    ):  # Elsewhere owners and rights are kept otherwise, and the user's own folder is theirs.
        return ""
    if known.st_uid != os.geteuid():
        return "it belongs to somebody else"
    return "others may write into it" if known.st_mode & (stat.S_IWGRP | stat.S_IWOTH) else ""


def _files(folder: str) -> Iterator[tuple[str, os.stat_result]]:
    """The files where entries lie, of any form, links not followed."""
    for kind in _folders(folder):
        if not _is_kind(kind.name):
            continue
        for shard in _folders(kind):
            if not _SHARD.fullmatch(shard.name):
                continue
            with suppress(OSError), os.scandir(shard) as found:
                for file in found:
                    ours = _ENTRY.fullmatch(file.name) or file.name.startswith(_HALF_MADE)
                    if ours and file.is_file(follow_symlinks=False):
                        with suppress(OSError):
                            yield file.path, file.stat(follow_symlinks=False)


def _folders(folder: str | os.DirEntry[str]) -> list[os.DirEntry[str]]:
    try:
        with os.scandir(folder) as found:
            return [entry for entry in found if entry.is_dir(follow_symlinks=False)]
    except OSError:
        return []
