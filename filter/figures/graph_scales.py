"""Scales of axes: squares of 1 or 2 cm that stand for 1, 2 or 5 times a power of ten, and the numbers beside them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

from physcalc.exact import NumberStyle, Numeral, Real, numeral_text, round_figures, round_places, ten_to
from physcalc.figures.graph_diagram import Axis

#: The small squares of graph paper, in millimetres.
SMALL = 2.0
#: Zero lies on an axis where the smallest value is less than this share of the largest.
_NEAR = Fraction(2, 5)
#: Numbers from here up, and below, have a power of ten that is put beside the unit.
_HUGE, _TINY = Fraction(10_000), Fraction(1, 100)
#: What lies farther off than this, in millimetres, is drawn as if it lay here: a machine number holds it.
_FAR = Fraction(10**6)


@dataclass(frozen=True, slots=True)
class Scale:
    """The scale of an axis.

    Attributes:
        first: the number at its beginning, in steps.
        step: what one large square stands for.
        squares: how many large squares there are.
        side: how long the side of one is, in millimetres: 10 or 20.
        power: the power of ten taken out of the numbers beside it; 0 for none.
        places: decimals of these numbers.
    """

    first: int
    step: Fraction
    squares: int
    side: float
    power: int
    places: int

    @property
    def low(self) -> Fraction:
        """The value at its beginning."""
        return self.first * self.step

    @property
    def high(self) -> Fraction:
        """The value at its end."""
        return (self.first + self.squares) * self.step

    @property
    def length(self) -> float:
        """How long it is, in millimetres."""
        return self.squares * self.side

    @property
    def reading(self) -> Fraction:
        """What half a small square stands for: how finely values are read from it."""
        return self.step / (2 * round(self.side / SMALL))

    def at(self, value: Fraction) -> float:
        """Where a value lies, in millimetres from the beginning."""
        place = (value - self.low) / self.step * Fraction(round(self.side))
        return float(max(-_FAR, min(_FAR, place)))

    def zero(self) -> float:
        """Where the other axis crosses: at zero where zero lies on it, else at the beginning."""
        return self.at(Fraction(0)) if self.low <= 0 <= self.high else 0.0

    def numbers(self, style: NumberStyle) -> Iterator[tuple[Fraction, str]]:
        """The value of each large square's edge with the number beside it."""
        for n in range(self.squares + 1):
            value = (self.first + n) * self.step
            yield value, self.text(value, style, self.places)

    def text(self, value: Fraction, style: NumberStyle, places: int) -> str:
        """A value as a number on this scale, its power of ten taken out."""
        rounded = round_places(Real.of(value / ten_to(self.power)), places)
        return numeral_text(Numeral.of_rounded(rounded), style)


def scale_for(axis: Axis, values: Sequence[Fraction], most: int, headroom: bool = False) -> Scale:
    """The scale on which values fill most of an axis.

    Args:
        axis: the axis, with the range that the author asks, if any.
        values: everything that must lie on it, at least one.
        most: how many large squares of 1 cm fit.
        headroom: whether a square is left beyond what reaches an edge, where there is room for one.
    """
    low, high = (axis.low, axis.high) if axis.low is not None else (min(values), max(values))
    assert low is not None
    assert high is not None
    if axis.low is None:
        if axis.zero or low == high:
            low, high = min(low, Fraction(0)), max(high, Fraction(0))
        if 0 < low < _NEAR * high:
            low = Fraction(0)
        if low < high < 0 and -high < _NEAR * -low:
            high = Fraction(0)
        if low == high:
            high = low + 1
    step = _step((high - low) / most)
    while (first := floor(low / step)) + most < ceil(high / step):
        step = _step(step * Fraction(3, 2))
    squares = max(1, ceil(high / step) - first)
    if headroom and axis.low is None and high > 0 and (first + squares) * step == high and squares < most:
        squares += 1
    if headroom and axis.low is None and low < 0 and first * step == low and squares < most:
        first, squares = first - 1, squares + 1
    side = 20.0 if 2 * squares <= most else 10.0
    power = _power(max(abs(first), abs(first + squares)) * step)
    return Scale(first, step, squares, side, power, places_of(step / ten_to(power)))


def _step(least: Fraction) -> Fraction:
    """The smallest of 1, 2, 5, 10, … times a power of ten that is not below a size."""
    magnitude = round_figures(Real.of(least), 1).magnitude or 0
    for exponent in range(magnitude - 1, magnitude + 3):
        for leading in (1, 2, 5):
            if (step := leading * ten_to(exponent)) >= least:
                return step
    raise AssertionError(least)


def _power(largest: Fraction) -> int:
    """The power of ten taken out of the numbers of an axis: a multiple of three, as prefixes are."""
    if _TINY <= largest < _HUGE:
        return 0
    magnitude = 0
    while largest >= ten_to(magnitude + 3):
        magnitude += 3
    while largest < ten_to(magnitude):
        magnitude -= 3
    return magnitude


def places_of(value: Fraction) -> int:
    """How many decimals a value has that ends after some."""
    places = 0
    while (value * ten_to(places)).denominator != 1 and places < 12:
        places += 1
    return places
