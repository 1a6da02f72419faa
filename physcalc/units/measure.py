"""The measure of one symbol: its exact size in coherent SI units, its zero point and its dimension."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from .dimension import DIMENSIONLESS_DIMENSION, Dimension
from .money import CURRENCIES
from .spelling import PREFIXES, WRITTEN


@dataclass(frozen=True, slots=True)
class Measure:
    """How large a unit is.

    Attributes:
        scale: rational part of the number of coherent SI units in one unit.
        pi: power of π that goes with it.
        offset: where its zero point stands, in coherent SI units (273.15 for °C).
        dimension: its dimension.
    """

    scale: Fraction
    pi: int
    offset: Fraction
    dimension: Dimension


@cache
def measure(written: str) -> Measure:
    """The measure of a symbol as it is written out, prefix included ("kg", "µC", "°"), or of a currency by its code.

    Raises:
        KeyError: no unit is written so.
    """
    if written in CURRENCIES:
        money = Dimension(DIMENSIONLESS_DIMENSION.exponents, ((written, 1),))
        return Measure(Fraction(1), 0, Fraction(0), money)
    prefix, symbol = WRITTEN[written]
    plain = _plain(symbol)
    if not prefix:
        return plain
    return Measure(plain.scale * Fraction(10) ** PREFIXES[prefix], plain.pi, plain.offset, plain.dimension)


def _plain(symbol: str) -> Measure:
    from .table import TABLE

    row = TABLE.get(symbol)
    if row is None:
        # pint (and numpy with it) takes longer to import than an ordinary document takes to read, so it is
        # asked only about a unit that the table was not written for.
        from .registry import measure_by_pint

        return measure_by_pint(symbol)
    scale, pi, offset, exponents = row
    return Measure(Fraction(scale), pi, Fraction(offset), Dimension.of(*exponents))
