"""Units as data, and how they are written out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import cache
from typing import Literal

from ..exact import PI, Real
from .dimension import DIMENSIONLESS_DIMENSION, Dimension
from .measure import measure
from .money import CURRENCIES, Currency
from .powers import power_text
from .spelling import COMPOUNDS, DOUBTFUL_BELOW, RUN_TOGETHER, SYMBOLS, WRITTEN, Symbol

Style = Literal["powers", "solidus"]


@dataclass(frozen=True, slots=True)
class UnitFactor:
    """One factor of a unit.

    Attributes:
        symbol: the symbol as written out, prefix included: "µC", "°C", "kg".
        power: its power, never 0.
    """

    symbol: str
    power: Fraction = Fraction(1)

    def text(self) -> str:
        """Symbol and power, "s⁻¹"; in brackets, "(ms)⁻¹", where it would be taken for two symbols."""
        doubtful = self.power < 0 and self.symbol in RUN_TOGETHER
        return (f"({self.symbol})" if doubtful else self.symbol) + power_text(self.power)


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit. Two are equal that are written alike and mean the same (a point or a difference of °C).

    Attributes:
        factors: its factors, in the order typed.
        scale: number of coherent SI units in one unit, exact (degrees hold π).
        offset: its zero point in coherent SI units: 273.15 for a lone °C, else 0.
        dimension: its dimension; plane and solid angles have none.
        angle: whether it is a plain angle (°, rad, rev), nothing more.
        logarithmic: whether it holds a logarithm of a ratio (dB), which has no size to convert.
    """

    factors: tuple[UnitFactor, ...]
    scale: Real = field(compare=False)
    offset: Fraction
    dimension: Dimension = field(compare=False)
    angle: bool = field(compare=False, default=False)
    logarithmic: bool = field(compare=False, default=False)

    @property
    def spaced(self) -> bool:
        """Whether a space stands between number and unit: not for the degree of angle (SP 811, 7.2)."""
        return self.text() not in ("", "°")

    def text(self, style: Style = "powers") -> str:
        """The unit in its one spelling.

        The half-high dot between factors, and either negative powers or one solidus with brackets round
        several factors below it (SP 330, 5.2).

        Args:
            style: "powers" for "J·kg⁻¹·K⁻¹", "solidus" for "J/(kg·K)".
        """
        if self.dimension.money:
            return self._money_text()
        if style == "powers" or any(f.power < 0 and f.symbol in DOUBTFUL_BELOW for f in self.factors):
            return "·".join(factor.text() for factor in self.factors)
        above = "·".join(factor.text() for factor in self.factors if factor.power > 0)
        below = [replace(factor, power=-factor.power).text() for factor in self.factors if factor.power < 0]
        if not below:
            return above
        under = "·".join(below)
        return f"{above or 1}/({under})" if len(below) > 1 else f"{above or 1}/{under}"

    @property
    def price(self) -> tuple[Currency, str] | None:
        """The currency of an amount or a price, and what it is for ("/kWh", empty for an amount); None for no such."""
        if not self.dimension.money:
            return None
        above = [factor for factor in self.factors if factor.power > 0]
        if len(above) != 1 or above[0].power != 1 or above[0].symbol not in CURRENCIES:
            return None
        return CURRENCIES[above[0].symbol], self._below()

    def _money_text(self) -> str:
        """A unit with money in it, always with a solidus; a sign stands for a code at the head of a price alone."""
        if (price := self.price) is not None:
            return price[0].shown + price[1]
        return ("·".join(factor.text() for factor in self.factors if factor.power > 0) or "1") + self._below()

    def _below(self) -> str:
        """The solidus and what stands below it, energy with its symbols joined as bills join them: "/kWh"."""
        below = tuple(replace(f, power=-f.power).text() for f in self.factors if f.power < 0)
        under = _JOINED.get(below, "·".join(below))
        return f"/({under})" if "·" in under else f"/{under}" if under else ""

    def __str__(self) -> str:
        return self.text()


#: Products below the line of a price whose symbols are joined: kW and h as "kWh".
_JOINED = {tuple(s for s, _ in parts): text for text, parts in COMPOUNDS.items() if parts[-1] == ("h", 1)}


def unit_of(factors: Iterable[UnitFactor], difference: bool = False) -> Unit:
    """The unit made of these factors.

    Args:
        factors: symbols as written out, with powers.
        difference: whether a lone °C is a difference and not a point.

    Raises:
        KeyError: a symbol is no unit.
        exact.RealError: the unit is too large or too small to hold.
    """
    held = tuple(factors)
    scale, dimension = Real.of(1), DIMENSIONLESS_DIMENSION
    for factor in held:
        scale = scale * _size(factor)
        dimension = dimension * measure(factor.symbol).dimension ** factor.power
    alone = len(held) == 1 and held[0].power == 1
    return Unit(
        factors=held,
        scale=scale,
        # The zero point counts only where the unit stands alone: J/(kg·°C) is about a difference.
        offset=measure(held[0].symbol).offset if alone and not difference else Fraction(0),
        dimension=dimension,
        angle=alone and _symbol(held[0]).angle,
        logarithmic=any(_symbol(factor).logarithmic for factor in held),
    )


#: What a currency has of a unit of physics: no prefixes, and no recipe.
_MONEY = Symbol("", ())


def _symbol(factor: UnitFactor) -> Symbol:
    known = WRITTEN.get(factor.symbol)
    return _MONEY if known is None else SYMBOLS[known[1]]


@cache
def _size(factor: UnitFactor) -> Real:
    size = measure(factor.symbol)
    if factor.power.denominator == 1:
        scale = Real.of(size.scale ** int(factor.power))
    else:
        scale = Real.of(size.scale) ** Real.of(factor.power)
    return scale * PI ** Real.of(size.pi * factor.power) if size.pi else scale


def difference_of(unit: Unit) -> Unit:
    """The unit of a difference of two values: °C without its zero point; any other unit itself."""
    return replace(unit, offset=Fraction(0)) if unit.offset else unit


#: The unit of a plain number; its text is empty.
ONE = unit_of(())
