"""The tree of a block's body."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from physcalc.problems import Span, Text

NOWHERE = Span()


@dataclass(frozen=True, slots=True)
class BlockPlace:
    """Where a block's body stands in its document.

    Attributes:
        opening: the place of the block as a whole: what opens it, for problems that no line shows.
        lines: the place of the first character of each line of the body. Where it is shorter than the body
            (a source whose places are not known), `opening` stands in.
        block: the class of the block, for messages; empty where it is not known.
    """

    opening: Span = NOWHERE
    lines: tuple[Span, ...] = ()
    block: str = ""

    def at(self, line: int, column: int, length: int) -> Span:
        """The place of `length` characters from `column` of body line `line`, both counted from 0."""
        if line >= len(self.lines):
            return self.opening
        start = self.lines[line]
        return Span(start.file, start.line, start.column + column, max(1, length), start.among)


@dataclass(frozen=True, slots=True)
class Block:
    """Keys with their values, in the order typed; no key stands twice.

    Attributes:
        entries: each key with what it holds: one text, a list of values, or keys of its own.
        span: the place of the first key.
        place: where the whole of it stands: what opens the block, or for keys below a key, that key.
    """

    entries: tuple[tuple[Text, Value], ...]
    span: Span
    place: Span

    def __contains__(self, key: object) -> bool:
        return any(entry.value == key for entry, _ in self.entries)

    def __iter__(self) -> Iterator[tuple[Text, Value]]:
        return iter(self.entries)

    def __len__(self) -> int:
        return len(self.entries)

    def get(self, key: str) -> Value | None:
        """What a key holds, or None where the key does not stand here."""
        for entry, value in self.entries:
            if entry.value == key:
                return value
        return None

    def key(self, key: str) -> Text | None:
        """The key itself with its place, or None where it does not stand here."""
        for entry, _ in self.entries:
            if entry.value == key:
                return entry
        return None


Value = Text | tuple["Value", ...] | Block
