"""Numbers from one unit to another, exactly."""

from __future__ import annotations

from ..exact import Real
from .unit import Unit


class DimensionMismatch(ValueError):
    """Two units measure different quantities, so that no number goes from one to the other.

    Attributes:
        source, target: the units.
    """

    def __init__(self, source: Unit, target: Unit) -> None:
        super().__init__(f"{source.text() or 'a plain number'} does not convert to {target.text() or 'one'}")
        self.source = source
        self.target = target


def to_si(value: Real, unit: Unit) -> Real:
    """The number in coherent SI units (kg, m, s, A, K, mol, cd, rad) of `value` in `unit`.

    A lone °C is a point: 20 °C gives 293.15. Decibels come back as they are.
    """
    scaled = value * unit.scale
    return scaled + Real.of(unit.offset) if unit.offset else scaled


def from_si(value: Real, unit: Unit) -> Real:
    """The number in `unit` of `value` in coherent SI units: `to_si` backwards."""
    shifted = value - Real.of(unit.offset) if unit.offset else value
    return shifted / unit.scale


def convert(value: Real, source: Unit, target: Unit) -> Real:
    """A number typed in `source` as the number in `target`.

    Where either unit is a temperature point the value is one; make both differences (`difference_of`) where
    it is not.

    Raises:
        DimensionMismatch: the units differ in dimension, or only one of them is logarithmic.
    """
    if source.dimension != target.dimension or source.logarithmic != target.logarithmic:
        raise DimensionMismatch(source, target)
    if source == target:
        return value
    return from_si(to_si(value, source), target)
