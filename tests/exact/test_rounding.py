"""Rounding against published examples, and against the two independent referees mpmath and decimal."""

from __future__ import annotations

from fractions import Fraction

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact import PI, Real, Rounded, exp, ln, round_figures, round_places, sin, sqrt

R = Real.of
F = Fraction

# ISO 80000-1:2009, Annex B (the same text as ISO 31-0:1992, Annex B); examples quoted from memory, their
# arithmetic recomputed. Given, rounding range as places, rule A (even), rule B (larger magnitude).
ISO_ANNEX_B = [
    ("12.223", 1, "12.2", "12.2"),
    ("12.251", 1, "12.3", "12.3"),
    ("12.275", 1, "12.3", "12.3"),
    ("1223.3", -1, "1220", "1220"),
    ("1225.1", -1, "1230", "1230"),
    ("1227.5", -1, "1230", "1230"),
    ("12.25", 1, "12.2", "12.3"),
    ("12.35", 1, "12.4", "12.4"),
    ("1225.0", -1, "1220", "1230"),
    ("1235.0", -1, "1240", "1240"),
    ("12.254", 1, "12.3", "12.3"),  # by way of 12.25 it would become 12.2
]


def text(rounded: Rounded) -> str:
    """Plain digits, for comparison with a printed table."""
    if rounded.places <= 0:
        body = str(rounded.coefficient * 10**-rounded.places)
    else:
        digits = str(rounded.coefficient).zfill(rounded.places + 1)
        body = f"{digits[: -rounded.places]}.{digits[-rounded.places :]}"
    return ("-" if rounded.negative else "") + body


@pytest.mark.parametrize(("given", "places", "rule_a", "rule_b"), ISO_ANNEX_B)
def test_iso_80000_1_annex_b(given: str, places: int, rule_a: str, rule_b: str) -> None:
    assert text(round_places(R(F(given)), places, "half-even")) == rule_a
    assert text(round_places(R(F(given)), places, "half-up")) == rule_b
    assert text(round_places(R(-F(given)), places, "half-up")) == "-" + rule_b


@pytest.mark.parametrize(("given", "places", "rule_a", "rule_b"), ISO_ANNEX_B)
def test_ties_are_seen_through_irrational_steps(given: str, places: int, rule_a: str, rule_b: str) -> None:
    one = (sqrt(R(2)) + 1) * (sqrt(R(2)) - 1)  # exactly 1, which only 200 digits tell
    assert one.fraction is None
    assert text(round_places(one * F(given), places, "half-even")) == rule_a
    assert text(round_places(one * F(given), places, "half-up")) == rule_b


# NIST SP 811 (2008), B.7.1: rule 3 is half to even. The figures were read in two unrelated transcriptions.
@pytest.mark.parametrize(("figures", "printed"), [(3, "6.97"), (2, "7.0"), (5, "6.9750"), (7, "6.974952")])
def test_nist_sp_811_b_7_1(figures: int, printed: str) -> None:
    assert text(round_figures(R(F("6.9749515")), figures, "half-even")) == printed


def test_nist_sp_811_b_7_1_even_digit_stays() -> None:
    assert text(round_figures(R(F("6.9749505")), 7, "half-even")) == "6.974950"
    assert text(round_figures(R(F("6.9749505")), 7, "half-up")) == "6.974951"


@pytest.mark.parametrize(
    ("given", "figures", "printed"),
    [
        # NIST SP 811 (2008), B.7.2 (read): 36 ft × 0.3048 m/ft printed to three figures.
        (F(36) * F("0.3048"), 3, "11.0"),
        # NIST, "Writing with metric units" (read): 36 in and 40.1 in in centimetres.
        (F(36) * F("2.54"), 2, "91"),
        (F("40.1") * F("2.54"), 4, "101.9"),
        # Examples after the Indian Standard IS 2:1960 (read on a secondary page).
        (F("2.355"), 1, "2"),
        (F("2.651"), 2, "2.7"),
        (F("0.3552"), 2, "0.36"),
        # CSA/ASME B125.1, Annex A (read as an excerpt): three figures, half to even.
        (F("1.655000"), 3, "1.66"),
        (F("1.625000"), 3, "1.62"),
    ],
)
def test_figures_half_even(given: Fraction, figures: int, printed: str) -> None:
    assert text(round_figures(R(given), figures, "half-even")) == printed


@pytest.mark.parametrize(
    ("given", "places", "rule", "printed"),
    [
        # Australian Curriculum, glossary, "Rounding" (read): five and more goes up.
        ("6.1234586", 5, "half-up", "6.12346"),
        ("4.02749", 3, "half-up", "4.027"),
        # Voluntary product standard PS 20-20 (second hand): 7½ in and 2½ in as whole millimetres.
        ("190.5", 0, "half-even", "190"),
        ("190.5", 0, "half-up", "191"),
        ("63.5", 0, "half-even", "64"),
        # IS 2:1960 as above.
        ("4.36", 0, "half-even", "4"),
        ("9.625", 0, "half-even", "10"),
        ("15.205", 1, "half-even", "15.2"),
        ("12.545001", 2, "half-even", "12.55"),
        # GUM 4.4.3 (from memory): the mean 100.145 °C is reported as 100.14 °C.
        ("100.145", 2, "half-even", "100.14"),
        # Binary floats get these wrong: Python's round(2.675, 2) is 2.67, round(0.125, 2) 0.12 (recomputed).
        ("2.675", 2, "half-up", "2.68"),
        ("0.125", 2, "half-up", "0.13"),
        ("2.5", 0, "half-up", "3"),
        ("-2.5", 0, "half-up", "-3"),
        ("-2.5", 0, "half-even", "-2"),
        ("-0.004", 2, "half-up", "0.00"),  # no minus before zero
        ("0.00345", 2, "half-up", "0.00"),
        ("5", -1, "half-up", "10"),
        ("5", -1, "half-even", "0"),
        ("4.9", -3, "half-up", "0"),
    ],
)
def test_places(given: str, places: int, rule: str, printed: str) -> None:
    assert text(round_places(R(F(given)), places, rule)) == printed


@pytest.mark.parametrize(
    ("given", "figures", "coefficient", "places"),
    [
        ("9.996", 3, 100, 1),
        ("99.95", 3, 100, 0),
        ("0.0009996", 3, 100, 5),
        ("0", 3, 0, 2),
        ("12345", 3, 123, -2),
        ("1000", 1, 1, -3),
        ("999.99", 1, 1, -3),
    ],
)
def test_figures_keep_their_number(given: str, figures: int, coefficient: int, places: int) -> None:
    assert round_figures(R(F(given)), figures) == Rounded(False, coefficient, places)


def test_at_least_one_figure() -> None:
    with pytest.raises(ValueError, match="at least one"):
        round_figures(PI, 0)


def test_exact_says_whether_anything_was_lost() -> None:
    assert round_places(R(F("0.25")), 2).exact
    assert not round_places(R(F("0.255")), 2).exact
    assert not round_places(PI, 2).exact
    assert round_places(ln(R(8)) / ln(R(2)), 2).exact
    assert round_figures(ln(R(8)) / ln(R(2)), 3).exact
    assert not round_places(ln(R(8)) / ln(R(2)) + F(1, 10**50), 2).exact


def test_just_beside_a_tie() -> None:
    one = (sqrt(R(2)) + 1) * (sqrt(R(2)) - 1)
    hair = F(1, 10**150)
    assert round_places(one / 2 + hair, 0, "half-even").coefficient == 1
    assert round_places(one / 2 - hair, 0, "half-up").coefficient == 0
    assert round_places(one / 2, 0, "half-up").coefficient == 1
    assert round_places(one / 2, 0, "half-even").coefficient == 0


def test_a_power_of_ten_reached_by_irrational_steps() -> None:
    thousand = exp(ln(R(7)) + ln(R(F(1000, 7))))
    assert thousand.fraction is None
    assert round_figures(thousand, 3) == Rounded(False, 100, -1)
    assert round_figures(thousand - F(1, 10**100), 3) == Rounded(False, 100, -1)
    assert round_figures(thousand, 1) == Rounded(False, 1, -3)


def test_sizes_far_apart() -> None:
    assert round_figures(exp(R(10000)), 5).coefficient == 88068  # e^10000 = 8.8068… · 10^4342 (mpmath)
    assert round_figures(exp(R(-10000)), 5).places == 4347
    assert not round_places(-exp(R(-10)), 2).negative  # no minus before zero
    assert round_places(exp(R(-10000)), 3) == Rounded(False, 0, 3)
    with mpmath.workdps(100):
        assert round_places(sin(R(1)) * 10**80, 0).coefficient == int(mpmath.nint(mpmath.sin(1) * 10**80))


@given(
    st.fractions(min_value=-(10**9), max_value=10**9, max_denominator=10**6),
    st.integers(min_value=-4, max_value=12),
    st.sampled_from(["half-up", "half-even"]),
)
def test_rounding_is_the_nearest_multiple(value: Fraction, places: int, rule: str) -> None:
    rounded = round_places(R(value), places, rule)
    step = F(10) ** -places
    assert abs(rounded.fraction - value) <= step / 2
    if abs(rounded.fraction - value) == step / 2:
        assert abs(rounded.fraction) > abs(value) if rule == "half-up" else rounded.coefficient % 2 == 0
    assert rounded.exact == (rounded.fraction == value)
