"""Replacements for typed values: the author's spelling around the computed number.

The rules are our own: digits are as many as were asked, or as typed where that says as much; everything else
is as typed. That the replacement is worth the computed value is checked with Python's own decimal arithmetic.
"""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.compare_style import direction_in_style_of, in_style_of
from physcalc.exact import Form, Real, read_number
from physcalc.exact.number import DecimalSign
from physcalc.problems import Text

TWO = Form("places", 2)


def styled(typed: str, value: str, asked: Form | None = None, decimal: DecimalSign = ".") -> str:
    return in_style_of(Text(typed), Real.of(Fraction(value)), asked, decimal=decimal)


@pytest.mark.parametrize(
    ("typed", "value", "expected"),
    [
        # As many digits as typed where they say all, else as many as asked.
        ("6725 N", "6752", "6752 N"),
        ("6725 N", "6752.6", "6752.60 N"),
        ("6725.1 N", "6752.555", "6752.56 N"),
        ("6725.123 N", "6752.5", "6752.500 N"),
        ("0.67 C", "0.0061", "0.00610 C"),
        # Blanks, unit and its spelling.
        ("6725   m.s^-1", "6752", "6752   m.s^-1"),
        ("6725 km/h", "6752", "6752 km/h"),
        ("45°", "30", "30°"),
        # Grouping and decimal sign.
        ("6 725,00 N", "6752", "6 752,00 N"),
        ("12\u202f345 N", "1234567", "1\u202f234\u202f567 N"),
        ("6,725.5 N", "16752.25", "16,752.25 N"),
        # Powers of ten.
        ("4.17e-7 C", "0.00000531", "5.31e-6 C"),
        ("4.17E-7 C", "0.00000531", "5.31E-6 C"),
        ("4,17 × 10⁻⁷ C", "0.00000531", "5,31 × 10⁻⁶ C"),
        ("4.17*10^-7 C", "0.00000531", "5.31*10^-6 C"),
        ("4.17 x 10^{-7} C", "531000", "5.31 x 10^{5} C"),
        ("4.17·10^(−7) C", "0.00000531", "5.31·10^(−6) C"),
        ("4.17 × 10^-7^ C", "0.00000531", "5.31 × 10^-6^ C"),
        ("670 × 10^-6 C", "0.00061", "610 × 10^-6 C"),
        # Signs.
        ("-4.2 m", "4.75", "4.75 m"),
        ("4.2 m", "-4.75", "-4.75 m"),
        ("−4.2 m", "-4.75", "−4.75 m"),
        # Fractions.
        ("1/3", "1/4", "1/4"),
        ("2/3 m", "2", "2 m"),
    ],
)
def test_as_its_author_would_write(typed: str, value: str, expected: str) -> None:
    assert styled(typed, value, TWO) == expected


def test_a_stated_value_keeps_its_digits() -> None:
    assert styled("6.7 kN", "6.752") == "6.8 kN"
    assert styled("0.65", "0.625") == "0.63"


def test_three_decimals_are_never_made_ambiguous() -> None:
    # "1.234" would be refused where the comma is the decimal sign.
    assert styled("12.5 m", "1.234", Form("places", 3, False), ",") == "1,234 m"


def test_what_is_no_number_is_left_alone() -> None:
    assert styled("about 3 N", "4") == ""


@given(
    st.decimals(min_value="-1e6", max_value="1e6", places=4).filter(lambda value: abs(value) >= 1),
    st.sampled_from(["5.25 N", "5,25 N", "5 000,00 N", "-5.25 N", "5.25 × 10^3 N", "5.25e3 N"]),
    st.sampled_from([".", ","]),
)
def test_it_is_read_as_the_rounded_value(value: Decimal, typed: str, decimal: DecimalSign) -> None:
    text = styled(typed, str(value), None, decimal)
    found = read_number(Text(text), 0, decimal)
    assert found is not None
    number, end = found
    assert text[end:] == " N"
    exponent = number.exponent or 0
    if number.exponent is not None:
        assert 1 <= abs(Decimal(number.digits)) < 10
    wanted = value.quantize(Decimal(1).scaleb(exponent - 2), ROUND_HALF_UP)
    assert number.value == Fraction(wanted)


@pytest.mark.parametrize(
    ("typed", "wanted", "expected"),
    [
        ("left", "to the right", "right"),
        ("to the left", "to the right", "to the right"),
        ("upward", "downwards", "downward"),
        ("vertically up", "downwards", "vertically down"),
        ("away from B", "towards B", "towards B"),
        ("clockwise", "anticlockwise", "anticlockwise"),
        ("anticlockwise", "clockwise", "clockwise"),
        ("up the slope", "down the slope", "down the slope"),
        ("due north", "south", "due south"),
        ("into the page", "out of the page", "out of the page"),
        ("north", "east", "east"),
    ],
)
def test_directions_keep_their_wording(typed: str, wanted: str, expected: str) -> None:
    assert direction_in_style_of(typed, wanted) == expected
