"""Sizes and dimensions against astropy.units, which shares no code and no table with ours."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest
from astropy import units
from astropy.units import imperial
from hypothesis import given
from hypothesis import strategies as st

from physcalc.problems import Text
from physcalc.units import Unit, read_unit
from physcalc.units.spelling import PREFIXES, SYMBOLS

#: Our symbol → astropy's unit. Those that astropy lacks (cmHg, D, c, kgf, °F, °C) are checked elsewhere.
ASTROPY: dict[str, Any] = {
    symbol: getattr(units, symbol)
    for symbol in (
        "m", "g", "s", "A", "K", "mol", "cd", "Hz", "N", "Pa", "J", "W", "C", "V", "F", "S", "Wb", "T", "H",
        "lm", "lx", "Bq", "kat", "rad", "sr", "min", "h", "d", "yr", "L", "t", "eV", "u", "AU", "pc", "bar",
        "Ci", "G", "Torr", "mmHg", "dyn", "erg",
    )
    if hasattr(units, symbol)
} | {
    "Ω": units.ohm,
    "°": units.deg,
    "rev": units.cycle,
    "ly": units.lyr,
    "Å": units.angstrom,
    "Gy": units.J / units.kg,
    "Sv": units.J / units.kg,
    "%": units.percent,
    "atm": 101325 * units.Pa,
    "cal": imperial.cal,
    "mi": imperial.mi,
    "in": imperial.inch,
    "ft": imperial.ft,
    "yd": imperial.yd,
    "nmi": imperial.nmi,
    "knot": imperial.kn,
    "lb": imperial.lb,
    "oz": imperial.oz,
    "slug": imperial.slug,
    "lbf": imperial.lbf,
    "psi": imperial.psi,
    "hp": imperial.hp,
}  # fmt: skip

#: astropy's base units in the order of our dimensions.
BASE = (units.m, units.kg, units.s, units.A, units.K, units.mol, units.cd)


def compare(ours: Unit, theirs: Any, relative: float) -> None:
    found = units.Unit(theirs).decompose(bases=[*BASE, units.rad])
    assert float(ours.scale) == pytest.approx(float(found.scale), rel=relative)
    powers = {base.name: Fraction(power) for base, power in zip(found.bases, found.powers, strict=True)}
    powers.pop("rad", None)
    expected = {base.name: exponent for base, exponent in zip(BASE, ours.dimension.exponents, strict=True)}
    assert powers == {name: power for name, power in expected.items() if power}


def test_most_symbols_are_compared() -> None:
    left = set(SYMBOLS) - set(ASTROPY)
    assert left <= {"°C", "°F", "cmHg", "mmHg", "Torr", "D", "c", "kgf", "dB", "ha", "Da"}


#: Where astropy's own figure is coarser: u is measured (another year's value), and its slug and all that it
#: builds on the slug is rounded.
COARSE = {"u": 1e-8, "slug": 1e-7, "lbf": 1e-7, "psi": 1e-7, "hp": 1e-7}


@pytest.mark.parametrize("symbol", sorted(ASTROPY))
def test_symbol(symbol: str) -> None:
    compare(read_unit(Text(symbol)), ASTROPY[symbol], COARSE.get(symbol, 1e-11))


@st.composite
def factors(draw: st.DrawFn) -> tuple[str, Any]:
    """A symbol, prefix and power as typed, and the same in astropy."""
    symbol = draw(st.sampled_from(sorted(set(ASTROPY) - set(COARSE))))
    # Small enough that astropy's floats hold the product of five: (10⁻¹⁹ · 10⁻⁹)²·⁵ is above 10⁻³⁰⁰.
    known = [prefix for prefix in SYMBOLS[symbol].prefixes if abs(PREFIXES[prefix]) <= 9]
    prefix = draw(st.sampled_from(["", "", *known]))
    power = draw(st.sampled_from([-2, -1, 1, 2]))
    raised = str(power).translate(str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹"))
    # In brackets, since mN^-1 and its like are refused without.
    typed = f"({prefix}{symbol})" + draw(st.sampled_from([raised, f"^{power}", f"^({power})"]))
    return typed, (10.0 ** PREFIXES.get(prefix, 0) * units.Unit(ASTROPY[symbol])) ** power


@given(
    st.lists(factors(), min_size=1, max_size=3),
    st.lists(factors(), max_size=2),
    st.sampled_from([" ", "·", ".", "*"]),
)
def test_compound_units(above: list[tuple[str, Any]], below: list[tuple[str, Any]], separator: str) -> None:
    typed, theirs = separator.join(text for text, _ in above), units.dimensionless_unscaled
    for _, unit in above:
        theirs = theirs * unit
    if below:
        typed += f"/({separator.join(text for text, _ in below)})"
    for _, unit in below:
        theirs = theirs / unit
    ours = read_unit(Text(typed))
    compare(ours, theirs, 1e-9)
    assert read_unit(Text(ours.text())).factors == ours.factors
