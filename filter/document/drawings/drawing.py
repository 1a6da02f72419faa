"""A figure as the author wrote it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from physcalc.language import Conventions, GivenText
from physcalc.problems import Span, Text

if TYPE_CHECKING:
    from physcalc.figures.drawn import FigureText

#: What stands in the paper in a figure's place: itself, room to draw it, of a graph its points without a line, its
#: axes or a blank grid, or nothing.
PaperChoice = Literal["drawn", "space", "points", "axes", "grid", "nothing"]

#: Each kind of figure, by the key that names it, with what stands in the paper where the author does not say.
KINDS: dict[str, PaperChoice] = {
    "forces": "space",
    "situation": "drawn",
    "field": "space",
    "circuit": "drawn",
    "graph": "drawn",
}

#: The kinds that find quantities, which other blocks may be waiting for.
FINDING = frozenset({"circuit", "graph"})

#: Keys that every kind has, settings aside.
SHARED_KEYS = ("given", "caption", "alt", "paper", "width", "marks", "marking", "why")


@dataclass(frozen=True, slots=True)
class Drawing:
    """A block of class `draw`.

    Attributes:
        span: where it begins.
        conventions: the settings in force for it.
        kind: the key that names its kind.
        body: what is said of that kind.
        paper: what stands in the paper.
        given: its own data.
        caption: the line below it; None for none.
        alternative: what it shows, in the author's words; None for words made from the data.
        width: how wide it is to be, in millimetres; None for as wide as it comes.
        marks: its marks as typed; None where it earns none, or what its lines of marking add up to.
        marking: what earns its marks in the memo, each line with its marks.
        why: the sentence for the guide; None for none.
    """

    span: Span
    conventions: Conventions
    kind: str
    body: FigureText
    paper: PaperChoice
    given: tuple[GivenText, ...] = ()
    caption: Text | None = None
    alternative: Text | None = None
    width: float | None = None
    marks: Text | None = None
    marking: tuple[tuple[Text, int], ...] = ()
    why: Text | None = None
