"""Numbers from one unit to another, and the unit that stands where none was asked for."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact import PI, Real
from physcalc.problems import Text
from physcalc.units import (
    DIMENSIONLESS_DIMENSION,
    ONE,
    Dimension,
    DimensionMismatch,
    Unit,
    coherent_unit,
    convert,
    difference_of,
    from_si,
    read_unit,
    to_si,
)
from physcalc.units.coherent import _USUAL
from physcalc.units.spelling import SYMBOLS


def unit(typed: str) -> Unit:
    return read_unit(Text(typed))


@pytest.mark.parametrize(
    ("value", "source", "target", "expected"),
    [
        # Arithmetic from the definitions of the prefixes and units; no further source needed.
        ("36", "km/h", "m/s", "10"),
        ("0.72", "µC", "C", "7.2e-7"),
        ("1", "kW h", "MJ", "3.6"),
        ("1", "g/cm³", "kg·m⁻³", "1000"),
        ("20", "°C", "K", "293.15"),
        ("300", "K", "°C", "26.85"),
        ("100", "°C", "°F", "212"),
        ("20", "°C", "°C", "20"),
        ("20", "Δ°C", "K", "20"),
        ("9", "Δ°F", "K", "5"),
        ("4200", "J/(kg·°C)", "J/(kg K)", "4200"),
        ("15", "%", "", "0.15"),
        ("0.2", "", "%", "20"),
        ("3", "dB", "dB", "3"),
        ("720", "°", "rev", "2"),
        ("1", "mol/dm³", "mol/m³", "1000"),
        ("1", "J·s", "kg·m²/s", "1"),
        ("1", "V/m", "N/C", "1"),
    ],
)
def test_convert(value: str, source: str, target: str, expected: str) -> None:
    assert convert(Real.of(Fraction(value)), unit(source), unit(target)).fraction == Fraction(expected)


def test_half_a_turn_is_pi() -> None:
    assert convert(Real.of(180), unit("°"), unit("rad")).equals(PI)
    assert convert(PI, unit("rad"), unit("°")).fraction == 180


@pytest.mark.parametrize(
    ("source", "target"),
    [("m", "s"), ("N m", "N/m"), ("dB", ""), ("dB", "%"), ("", "m"), ("V/Hz^(1/2)", "V/Hz")],
)
def test_other_dimensions_are_refused(source: str, target: str) -> None:
    with pytest.raises(DimensionMismatch) as found:
        convert(Real.of(1), unit(source), unit(target))
    assert isinstance(found.value, ValueError)
    assert (found.value.source, found.value.target) == (unit(source), unit(target))
    assert "convert" in str(found.value)


@given(st.fractions(-1000, 1000, max_denominator=1000), st.sampled_from(sorted(set(SYMBOLS) - {"c"})))
def test_there_and_back(value: Fraction, symbol: str) -> None:
    here = unit(symbol)
    assert from_si(to_si(Real.of(value), here), here).fraction == value


def test_a_point_and_a_difference_differ() -> None:
    assert to_si(Real.of(5), unit("°C")).fraction == Fraction("278.15")
    assert to_si(Real.of(5), difference_of(unit("°C"))).fraction == 5


@pytest.mark.parametrize("typed", _USUAL.split())
def test_usual_units_are_coherent(typed: str) -> None:
    here = unit(typed)
    assert here.scale.fraction == 1
    assert coherent_unit(here.dimension).text() == typed


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        # School practice (data sheets and textbooks); no single source.
        ("km/h", "m·s⁻¹"),
        ("cm/s²", "m·s⁻²"),
        ("kg·km/h", "kg·m·s⁻¹"),
        ("N s", "kg·m·s⁻¹"),
        ("g", "kg"),
        ("h", "s"),
        ("Hz", "s⁻¹"),
        ("Bq", "s⁻¹"),
        ("°", ""),
        ("%", ""),
        ("kN", "N"),
        ("N m", "J"),
        ("kW h", "J"),
        ("eV", "J"),
        ("kg·m²/s³", "W"),
        ("bar", "Pa"),
        ("mA h", "C"),
        ("J/C", "V"),
        ("V/A", "Ω"),
        ("V s", "Wb"),
        ("V/m", "N·C⁻¹"),
        ("N·m²/C²", "N·m²·C⁻²"),
        ("N·m²/kg²", "N·m²·kg⁻²"),
        ("cal/(g·°C)", "J·kg⁻¹·K⁻¹"),
        ("kJ/kg", "J·kg⁻¹"),
        ("N/m", "N·m⁻¹"),
        ("g/cm³", "kg·m⁻³"),
        ("L", "m³"),
        ("mol/L", "mol·m⁻³"),
        ("°C", "K"),
        ("D", "m⁻¹"),
        ("m² kg", "kg·m²"),
        ("H/m", "T·m·A⁻¹"),
    ],
)
def test_coherent_unit(typed: str, expected: str) -> None:
    found = coherent_unit(unit(typed).dimension)
    assert found.text() == expected
    assert found.dimension == unit(typed).dimension
    assert found.scale.fraction == 1
    assert found.offset == 0


@given(st.lists(st.integers(-4, 4), min_size=7, max_size=7))
def test_any_dimension_has_a_coherent_unit(exponents: list[int]) -> None:
    dimension = Dimension.of(*exponents)
    found = coherent_unit(dimension)
    assert found.dimension == dimension
    assert found.scale.fraction == 1
    assert read_unit(Text(found.text())) == found


def test_dimensions() -> None:
    force = unit("N").dimension
    assert force.text() == "kg·m·s⁻²"
    assert (force / force) == DIMENSIONLESS_DIMENSION
    assert (force * force) == force**2
    assert (force ** Fraction(1, 2)).text() == "kg^(1/2)·m^(1/2)·s⁻¹"
    assert DIMENSIONLESS_DIMENSION.text() == ""
    assert coherent_unit(DIMENSIONLESS_DIMENSION) == ONE
