"""What a scan of raw LaTeX finds."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from typing import Literal

from physcalc.problems import Problem, Span

from ..front_matter import FrontMatter
from ..marks import Mark
from .woven import Woven

#: What a stand-in is: a block on its own, a point in a line, both ends of a stretch, an environment, the end of a
#: heading.
Sort = Literal["block", "point", "stretch", "div", "heading"]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing of ours.

    Attributes:
        sort: what its stand-in is.
        mark: what and where it is.
        titled: of a question, whether a heading was made of its title.
        defined: whether it stands in a definition of the author's, which may be used often or never.
    """

    sort: Sort
    mark: Mark
    titled: bool = False
    defined: bool = False


@dataclass(slots=True)
class TexScan:
    """What was found in a LaTeX source.

    Attributes:
        source: the source.
        stem: how the word of every stand-in begins: it occurs nowhere in the source.
        items: what is ours; the number in a stand-in's word is that of its item.
        settings: what the document sets for itself; a value may hold pairs.
        front: the places of that.
        problems: what is wrong.
        ends: for the number of each environment the offset of its end.
        unclosed: stretches of the openings of environments of other authors that nothing closes.
        pieces: the text for pandoc, piece by piece.
    """

    source: Woven
    stem: str
    items: list[Item] = field(default_factory=list)
    settings: dict[str, object] = field(default_factory=dict)
    front: FrontMatter = field(default_factory=lambda: FrontMatter(Span()))
    problems: list[Problem] = field(default_factory=list)
    ends: dict[int, int] = field(default_factory=dict)
    unclosed: list[tuple[int, int]] = field(default_factory=list)
    pieces: list[str] = field(default_factory=list)
    _starts: list[tuple[int, int, bool]] = field(default_factory=list)
    _length: int = 0

    @property
    def text(self) -> str:
        """The text for pandoc."""
        return "".join(self.pieces)

    def put(self, piece: str, begin: int, *, copied: bool) -> None:
        """More text for pandoc, and where it comes from."""
        if piece:
            self._starts.append((self._length, begin, copied))
            self.pieces.append(piece)
            self._length += len(piece)

    def origin(self, offset: int) -> int:
        """The offset in the source of what stands at an offset of the text for pandoc."""
        index = bisect_right(self._starts, (offset, 1 << 60, True)) - 1
        if index < 0:
            return 0
        start, begin, copied = self._starts[index]
        return min(len(self.source.text), begin + offset - start) if copied else begin

    def word(self, number: int, end: Literal["b", "e", "p", "v", "d", "h"]) -> str:
        """The word of a stand-in: beginning or end of a stretch, point, block, environment, heading."""
        return f"{self.stem}{number}{end}"

    def hide(self, text: str) -> str:
        """A piece of the text for pandoc as an author may read it."""
        return re.sub(rf"\{{?{self.stem}\d+[bepvdh]\}}?", "…", text, flags=re.IGNORECASE)
