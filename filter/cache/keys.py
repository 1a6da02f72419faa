"""Keys: everything on which a content depends, in one digest."""

from __future__ import annotations

import hashlib


class Key:
    """Takes what a content depends on, part by part, in an order that the user of the key fixes."""

    __slots__ = ("_hash",)

    def __init__(self, *parts: bytes | str) -> None:
        self._hash = hashlib.sha256()
        for part in parts:
            self.add(part)

    def add(self, part: bytes | str) -> None:
        """One more part. Parts do not run into one another: each goes in with its length."""
        data = part.encode("utf-8", "surrogatepass") if isinstance(part, str) else part
        self._hash.update(b"%d:" % len(data))
        self._hash.update(data)

    def digest(self) -> bytes:
        """32 bytes that stand for the parts."""
        return self._hash.digest()


def digest(content: bytes) -> bytes:
    """32 bytes that stand for a content."""
    return hashlib.sha256(content).digest()
