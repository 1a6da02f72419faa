"""Money as a dimension of its own: each currency alone, with the decimals that ISO 4217 gives it."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact import Real
from physcalc.problems import Problem, Text
from physcalc.units import (
    CURRENCIES,
    ONE,
    Dimension,
    DimensionMismatch,
    Unit,
    UnitFactor,
    coherent_unit,
    convert,
    read_unit,
    unit_of,
)
from physcalc.units.spelling import COMPOUNDS, KNOWN

#: ISO 4217, list one, published 2026-01-01: codes of currencies whose minor unit is no hundredth.
OTHER_MINOR_UNITS = {"CLP": 0, "ISK": 0, "JPY": 0, "KRW": 0, "RWF": 0, "UGX": 0, "JOD": 3, "KWD": 3}
#: Codes of the same list that are spelled as words, or as the coefficient of performance.
WORDS = ("ALL", "BAM", "COP", "CUP", "MAD", "MOP", "PEN", "SOS", "TOP", "TRY")


def unit(text: str, alone: bool = False) -> Unit:
    return read_unit(Text(text), alone)


def test_minor_units_are_those_of_the_standard() -> None:
    assert {code: c.decimals for code, c in CURRENCIES.items() if c.decimals != 2} == OTHER_MINOR_UNITS
    assert not set(CURRENCIES).intersection(WORDS)


@pytest.mark.parametrize("code", sorted(CURRENCIES))
def test_a_code_is_no_other_unit_and_is_its_own_dimension(code: str) -> None:
    assert code not in KNOWN
    assert code not in COMPOUNDS
    assert len(code) == 3
    found = unit(code)
    assert found.dimension.money == ((code, 1),)
    assert found.scale.fraction == 1
    assert coherent_unit(found.dimension) == found
    assert unit(found.text(), alone=True) == found


@pytest.mark.parametrize(
    ("typed", "printed", "coherent"),
    [
        ("ZAR", "R", "R"),
        ("ZAR/kWh", "R/kWh", "R/J"),
        ("ZAR·kW⁻¹·h⁻¹", "R/kWh", "R/J"),
        ("USD/(kW h)", "$/kWh", "$/J"),
        ("€/kWh", "€/kWh", "€/J"),
        ("£/d", "£/d", "£/s"),
        ("KES/L", "KES/L", "KES/m³"),
        ("ZAR/(kg·d)", "R/(kg·d)", "R/(kg·s)"),
        ("ZAR/USD", "R/USD", "R/USD"),
        ("kWh/ZAR", "kW·h/ZAR", "J/ZAR"),
        ("1/ZAR", "1/ZAR", "1/ZAR"),
        ("ZAR²", "ZAR²", "ZAR²"),
    ],
)
def test_one_spelling_is_printed_and_reads_back(typed: str, printed: str, coherent: str) -> None:
    found = unit(typed)
    assert found.text() == found.text("solidus") == printed
    assert unit(printed, alone=True).dimension == found.dimension
    if coherent[0] not in "J":
        assert coherent_unit(found.dimension).text() == coherent
    assert unit(coherent_unit(found.dimension).text(), alone=True).dimension == found.dimension
    assert coherent_unit(found.dimension).scale.fraction == 1


def test_two_currencies_do_not_convert() -> None:
    with pytest.raises(DimensionMismatch):
        convert(Real.of(1), unit("ZAR"), unit("USD"))
    with pytest.raises(DimensionMismatch):
        convert(Real.of(1), unit("ZAR"), ONE)


def test_a_price_converts_as_what_it_is_for_does() -> None:
    # 3,6 MJ to the kilowatt-hour: SI Brochure, 9th edition, table 8, hour.
    assert convert(Real.of(36), unit("ZAR/kWh"), unit("ZAR/MJ")).equals(Real.of(10))


_POWERS = st.dictionaries(st.sampled_from(["ZAR", "USD", "EUR"]), st.integers(-3, 3).filter(bool))


def _dimension(powers: dict[str, int], length: int) -> Dimension:
    money = unit_of([UnitFactor(code, Fraction(power)) for code, power in powers.items()])
    return money.dimension * Dimension.of(length)


@given(_POWERS, _POWERS, st.integers(-3, 3), st.integers(-3, 3))
def test_dimensions_with_money_are_a_group(
    first: dict[str, int], second: dict[str, int], length: int, other: int
) -> None:
    a, b = _dimension(first, length), _dimension(second, other)
    assert a * b == b * a
    assert a * b / b == a
    assert a / a == Dimension.of()
    assert a**2 == a * a
    assert a**0 == Dimension.of()
    assert (a == b) == (first == second and length == other)


@pytest.mark.parametrize(
    "typed", ["R", "R/kWh", "kWh/R", "R·m", "cents/kWh", "c/kWh", "kZAR", "zar", "m$", "$m R", "€€"]
)
def test_behind_a_number_these_are_no_money(typed: str) -> None:
    with pytest.raises(Problem):
        unit(typed)


@pytest.mark.parametrize(("typed", "code"), [("R", "ZAR"), ("$", "USD"), ("€/kWh", "EUR"), (" R/kWh", "ZAR")])
def test_alone_a_sign_may_begin_a_unit(typed: str, code: str) -> None:
    price = unit(typed, alone=True).price
    assert price is not None
    assert price[0].code == code


def test_prefixed_metres_stay_what_they_are() -> None:
    assert unit("Rm", alone=True).dimension == unit("m").dimension
