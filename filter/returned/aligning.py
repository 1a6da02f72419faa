"""A passage of a page laid beside the source that it was made from, word by word and value by value."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher

from physcalc.exact.number import DecimalSign

from ..sources import find_quantities

_WORD = re.compile(r"[^\W\d_]+|[0-9]+(?:[.,][0-9]+)*")
#: How many pairs of equal words are looked at.
_MOST = 200_000
#: What is set in the place of a name, such as a value, stands in so few characters of the source.
_NAME = 80


@dataclass(frozen=True, slots=True)
class Token:
    """A word as it is typed, or a number with its unit in whatever way."""

    key: str
    start: int
    end: int


def tokens_of(text: str, decimal: DecimalSign) -> list[Token]:
    """The words and values of a text, in order."""
    found: list[Token] = []
    at = 0
    for quantity in find_quantities(text, decimal):
        if quantity.number is not None:
            found += _words(text, at, quantity.start)
            found.append(Token(f"{quantity.number.value} {quantity.unit}", quantity.start, quantity.end))
            at = quantity.end
    return [*found, *_words(text, at, len(text))]


def _words(text: str, start: int, end: int) -> list[Token]:
    return [
        Token(found[0].replace(",", "."), found.start(), found.end())
        for found in _WORD.finditer(text, start, end)
    ]


class Aligned:
    """Which word of a passage is which of the source.

    Args:
        passage: the words of the passage.
        source: the words of the source.
    """

    def __init__(self, passage: Sequence[Token], source: Sequence[Token]) -> None:
        self.passage, self.source = passage, source
        keys = [one.key for one in passage], [one.key for one in source]
        often = Counter(keys[1])
        self.same: dict[int, int] = {}
        #: How much work it is.
        self.pairs = sum(often[key] for key in keys[0])
        if self.pairs <= _MOST:
            for block in SequenceMatcher(None, *keys, autojunk=False).get_matching_blocks():
                self.same.update((block.a + n, block.b + n) for n in range(block.size))
        self.matched = sorted(self.same)
        #: Whether the passage was typed there, for the most part: a few words are the same anywhere.
        self.typed = 2 * len(self.same) >= len(passage) > 0

    def near(self, at: int) -> int | None:
        """About where in the source something of the passage is; None where nothing says."""
        first = self._index(at)
        if first in self.same:
            return self.source[self.same[first]].start
        place = bisect_left(self.matched, first)
        if place:
            return self.source[self.same[self.matched[place - 1]]].end
        return self.source[self.same[self.matched[0]]].start if self.matched else None

    def stretch(self, start: int, end: int) -> tuple[int, int] | None:
        """From where to where the source has what stands in a stretch of the passage, if it was typed there."""
        first, last = self._index(start), self._index(end - 1)
        last += last < len(self.passage) and self.passage[last].start < end
        within = self.matched[bisect_left(self.matched, first) : bisect_left(self.matched, last)]
        if not self.typed or not within or 3 * len(within) < 2 * (last - first):
            return None
        begin, stop = self.source[self.same[within[0]]].start, self.source[self.same[within[-1]]].end
        return begin, stop

    def between(self, start: int, end: int) -> tuple[int, int] | None:
        """The stretch of the source between the words around, for something that is typed otherwise there."""
        first, last = self._index(start), self._index(end - 1)
        last += last < len(self.passage) and self.passage[last].start < end
        if not self.typed or first - 1 not in self.same or last not in self.same:
            return None
        left, right = self.source[self.same[first - 1]].end, self.source[self.same[last]].start
        return (left, right) if left < right <= left + _NAME else None

    def behind(self, at: int) -> int | None:
        """Where in the source the last word before a place in the passage ends."""
        first = bisect_right([one.end for one in self.passage], at)
        place = bisect_left(self.matched, first)
        if not self.typed or not place:
            return None
        return self.source[self.same[self.matched[place - 1]]].end

    def _index(self, at: int) -> int:
        """Which word stands at a place of the passage, or is the next one."""
        return bisect_right([one.end for one in self.passage], at)
