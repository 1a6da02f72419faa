"""The usual SI unit of a quantity that no unit was asked for."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from ..problems import Text
from .dimension import DIMENSIONLESS_DIMENSION, Dimension
from .reading import read_unit
from .unit import ONE, Unit, UnitFactor, unit_of

#: Usual names, as school and first-year books print them. Where one dimension has several (J and N·m,
#: N·C⁻¹ and V·m⁻¹, s⁻¹ and Hz and Bq), the one that is right for the most quantities stands here.
_USUAL = """
    N  J  W  Pa  C  V  Ω  S  F  Wb  T  H
    N·m⁻¹  N·C⁻¹  N·m²·C⁻¹  N·m²·C⁻²  N·m²·kg⁻²  T·m·A⁻¹
    J·kg⁻¹  J·kg⁻¹·K⁻¹  J·K⁻¹  J·mol⁻¹  J·mol⁻¹·K⁻¹  J·s  J·m⁻³·K⁻¹
    W·m⁻²  W·m⁻¹·K⁻¹  W·m⁻²·K⁻¹  W·m⁻²·K⁻⁴  W·K⁻¹
    Pa·s  V·s⁻¹  Ω·m  Ω·m⁻¹  S·m⁻¹  F·m⁻¹  T·s⁻¹  T·m  T·m⁻¹
    C·m  C·m⁻¹  C·m⁻²  C·m⁻³  C·kg⁻¹  C·mol⁻¹
"""


@cache
def _named() -> dict[Dimension, Unit]:
    # Worked out at the first question only, since a document that types its units never asks.
    units = [read_unit(Text(text)) for text in _USUAL.split()]
    return {unit.dimension: unit for unit in reversed(units)}


@cache
def coherent_unit(dimension: Dimension) -> Unit:
    """The coherent SI unit that is usual for a dimension: N, J·kg⁻¹·K⁻¹, m·s⁻¹; else base units.

    Momentum stays kg·m·s⁻¹ and a rate s⁻¹. One unit of it is always one coherent SI unit.
    """
    if not dimension.powers:
        return ONE
    named = _named().get(dimension)
    if named is not None:
        return named
    if dimension.money:
        money = [UnitFactor(code, Fraction(power)) for code, power in dimension.money]
        # Money is counted for each joule, not for each kilogram and square metre over a square second.
        below = coherent_unit(DIMENSIONLESS_DIMENSION / Dimension(dimension.exponents))
        return unit_of([*money, *(UnitFactor(f.symbol, -f.power) for f in below.factors)])
    powers = dimension.powers
    # What is divided by stands last: m·s⁻¹, mol·m⁻³.
    ordered = sorted(powers, key=lambda factor: factor[1] < 0)
    return unit_of(UnitFactor(symbol, Fraction(power)) for symbol, power in ordered)


def coherent_with_angles(unit: Unit) -> Unit:
    """The coherent SI unit of what a unit measures, with rad where the unit has °, rev or rad: rad·s⁻¹ for rev/min."""
    powers = [f.power for f in unit.factors if f.symbol in ("°", "rev", "rad")]
    coherent = coherent_unit(unit.dimension)
    return unit_of([UnitFactor("rad", powers[0]), *coherent.factors]) if len(powers) == 1 else coherent
