"""Points in a plane, by their coordinates: what distances between them and directions from one to another rest on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..exact import Real, sqrt
from ..problems import Text
from ..problems.language import PhraseUnreadable
from ..problems.units import UnitUnreadable
from ..units import Unit, to_si
from .quantities import read_typed

_MOST = 26


@dataclass(frozen=True, slots=True)
class Points:
    """Named points.

    Attributes:
        places: each point's name with its coordinates in metres, x to the right or east, y up or north.
        unit: the unit in which distances are printed: that of the first coordinate.
    """

    places: tuple[tuple[str, Real, Real], ...]
    unit: Unit

    def place(self, name: str) -> tuple[Real, Real] | None:
        """A point's coordinates, or None where there is no such point."""
        return next(((x, y) for point, x, y in self.places if point == name), None)

    def step(self, start: str, end: str) -> tuple[Real, Real] | None:
        """From one point to another, as components; None where one is not there."""
        a, b = self.place(start), self.place(end)
        return None if a is None or b is None else (b[0] - a[0], b[1] - a[1])

    def distance(self, start: str, end: str) -> Real | None:
        """How far two points are apart; None where one is not there."""
        step = self.step(start, end)
        return None if step is None else sqrt(step[0] * step[0] + step[1] * step[1])


def read_points(pairs: Sequence[tuple[Text, Text]], decimal: str) -> Points | None:
    """Read names with positions, such as A with `0 m, 0 m`; None where there are none.

    Raises:
        PhraseUnreadable: a name of another form, a position that is not two lengths, or too many points.
    """
    places: list[tuple[str, Real, Real]] = []
    unit: Unit | None = None
    for name, text in pairs:
        if len(places) == _MOST:
            form = f"at most {_MOST} points, as many as there are letters"
            raise PhraseUnreadable(name.span, "points", name.value, form)
        try:
            typed = read_typed(text, decimal)
        except UnitUnreadable:
            typed = None  # "3 m, 4 s": what stands behind the comma is no second length.
        lengths = typed is not None and typed.across is not None and typed.unit.dimension.text() == "m"
        if typed is None or typed.across is None or not lengths or typed.across.unit.dimension.text() != "m":
            raise PhraseUnreadable(text.span, "points", text.value, "two lengths, as in 0 m, 3 m")
        if not name.value.strip().isalnum() or len(name.value.strip()) > 4:
            raise PhraseUnreadable(
                name.span, "points", name.value, "a letter for each point, as in A: 0 m, 3 m"
            )
        x, y = (to_si(Real.of(t.number.value), t.unit) for t in (typed, typed.across))
        places.append((name.value.strip(), x, y))
        unit = unit or typed.unit
    return Points(tuple(places), unit) if unit is not None else None
