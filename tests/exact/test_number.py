"""Numbers as typed: every form of the language reference, what is refused, and where."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact import Number, read_number
from physcalc.problems import Span, Text
from physcalc.problems.numbers import NumberAmbiguous, NumberTooLong


def read(text: str, decimal: str = ".", plain: bool = False) -> Number:
    """The number that `text` is as a whole."""
    found = read_number(Text(text), 0, decimal, plain)
    assert found is not None
    assert found[1] == len(text)
    return found[0]


@pytest.mark.parametrize("decimal", [".", ","])
@pytest.mark.parametrize(
    ("typed", "digits", "exponent", "value"),
    [
        ("6752", "6752", None, Fraction(6752)),
        ("6 752", "6752", None, Fraction(6752)),
        ("6\u00a0752", "6752", None, Fraction(6752)),
        ("6\u202f752", "6752", None, Fraction(6752)),
        ("6\u2009752", "6752", None, Fraction(6752)),
        ("299 792 458", "299792458", None, Fraction(299792458)),
        ("0.15", "0.15", None, Fraction(3, 20)),
        ("0,15", "0.15", None, Fraction(3, 20)),
        ("0.750", "0.750", None, Fraction(3, 4)),
        ("0,750", "0.750", None, Fraction(3, 4)),
        (".5", "0.5", None, Fraction(1, 2)),
        ("43 279.168 29", "43279.16829", None, Fraction(4327916829, 100000)),
        ("1,602 176 634", "1.602176634", None, Fraction(1602176634, 10**9)),
        ("1 234,567", "1234.567", None, Fraction(1234567, 1000)),
        ("1234,567", "1234.567", None, Fraction(1234567, 1000)),
        ("1,0000", "1.0000", None, Fraction(1)),
        ("1,234,567", "1234567", None, Fraction(1234567)),
        ("1,234.5", "1234.5", None, Fraction(12345, 10)),
        ("1.234,5", "1234.5", None, Fraction(12345, 10)),
        ("6e-6", "6", -6, Fraction(6, 10**6)),
        ("6E3", "6", 3, Fraction(6000)),
        ("6e+3", "6", 3, Fraction(6000)),
        ("6e\u22123", "6", -3, Fraction(6, 1000)),
        ("1.602e-19", "1.602", -19, Fraction(1602, 10**22)),
        ("1,602 × 10^-19", "1.602", -19, Fraction(1602, 10**22)),
        ("6 × 10^-6", "6", -6, Fraction(6, 10**6)),
        ("6*10^-6", "6", -6, Fraction(6, 10**6)),
        ("6·10^-6", "6", -6, Fraction(6, 10**6)),
        ("6 x 10^-6", "6", -6, Fraction(6, 10**6)),
        ("6 × 10⁻⁶", "6", -6, Fraction(6, 10**6)),
        ("6\u00a0×\u00a010⁻⁶", "6", -6, Fraction(6, 10**6)),
        ("6 × 10²⁴", "6", 24, Fraction(6 * 10**24)),
        ("6 × 10^{-6}", "6", -6, Fraction(6, 10**6)),
        ("6 × 10^(-6)", "6", -6, Fraction(6, 10**6)),
        ("6 × 10^-6^", "6", -6, Fraction(6, 10**6)),
        ("6 × 10^\u22126", "6", -6, Fraction(6, 10**6)),
        ("10^6", "1", 6, Fraction(10**6)),
        ("-10⁻⁶", "-1", -6, Fraction(-1, 10**6)),
        ("1/3", "1/3", None, Fraction(1, 3)),
        ("-1/3", "-1/3", None, Fraction(-1, 3)),
        ("-4.17", "-4.17", None, Fraction(-417, 100)),
        ("\u22124,17", "-4.17", None, Fraction(-417, 100)),
        ("+5", "5", None, Fraction(5)),
    ],
)
def test_forms(decimal: str, typed: str, digits: str, exponent: int | None, value: Fraction) -> None:
    assert read(typed, decimal) == Number(value, digits, exponent, typed)


@pytest.mark.parametrize(
    ("text", "start", "end"),
    [
        ("F = 6 752 N", 4, 9),
        ("6 752 N", 0, 5),
        ("5 m", 0, 1),
        ("6 eV", 0, 1),  # an e without digits is a unit's
        ("6eV", 0, 1),
        ("6e-6C", 0, 4),
        ("2 × 10^3 m", 0, 8),
        ("10^-6^ C", 0, 6),
        ("3 × 4", 0, 1),
        ("2 × 10 m", 0, 1),
        ("1270.", 0, 4),  # a full stop ends the sentence
        ("2,5, 3,0", 0, 3),
        ("0 m, 0 m", 0, 1),
        ("1 2", 0, 1),
        ("6 7520", 0, 1),  # a group has three digits
        ("1234 567", 0, 4),
        ("12 345 6", 0, 6),
        ("1/2^2", 0, 1),  # 1/(2²), which is the formula's business
        ("1/2²", 0, 1),
        ("1/2.5", 0, 1),
        ("1/0", 0, 1),
        ("6e3.5", 0, 1),
        ("2*10^2^3", 0, 1),
        ("2*10^2.5", 0, 1),
        ("1,2,3", 0, 3),
    ],
)
def test_ends(text: str, start: int, end: int) -> None:
    found = read_number(Text(text), start)
    assert found is not None
    assert found[1] == end
    assert found[0].typed == text[start:end]


@pytest.mark.parametrize("text", ["", "N", "- 5", "e5", ".", ",5", "\u0663", "--5", "±5"])
def test_none_begins(text: str) -> None:
    assert read_number(Text(text), 0) is None


@pytest.mark.parametrize(
    ("text", "end", "value"), [("1/2 m", 1, 1), ("2*10^3", 1, 2), ("10^2", 2, 10), ("2e3", 3, 2000)]
)
def test_plain_leaves_operators_to_the_formula(text: str, end: int, value: int) -> None:
    found = read_number(Text(text), 0, plain=True)
    assert found is not None
    assert found[1] == end
    assert found[0].value == value


@pytest.mark.parametrize(
    ("typed", "decimal", "whole", "parted"),
    [
        ("1,000", ".", "1000", "1.000"),
        ("1.000", ",", "1000", "1,000"),
        ("12,345", ".", "12345", "12.345"),
        ("999.001", ",", "999001", "999,001"),
        ("-1,000", ".", "1000", "1.000"),
        ("12.345e3", ",", "12345", "12,345"),
    ],
)
def test_one_sign_before_three_digits_is_refused(typed: str, decimal: str, whole: str, parted: str) -> None:
    shift = len("m: ")
    place = Span("test.md", 7, 11, 40)
    with pytest.raises(NumberAmbiguous) as caught:
        read_number(Text(f"m: {typed} kg", place), shift, decimal)
    problem = caught.value
    bare = typed.lstrip("-").partition("e")[0]
    assert (problem.typed, problem.whole, problem.parted) == (bare, whole, parted)
    sign = typed.startswith("-")
    assert problem.span == Span("test.md", 7, 11 + shift + sign, len(bare))
    assert problem.slug == "number-ambiguous"
    assert whole in problem.sentence()
    assert parted in problem.sentence()
    # The mend must hold: both spellings it offers are read, to the two readings.
    assert read(whole, decimal).value == int(whole)
    assert read(parted, decimal).value == Fraction(parted.replace(",", "."))


def test_the_documents_own_sign_settles_it() -> None:
    assert read("1.000", ".").digits == "1.000"
    assert read("1,000", ",").digits == "1.000"


@pytest.mark.parametrize(
    "typed", ["9" * 101, "0." + "1" * 101, "1e401", "1e-401", "3 × 10^99999999999", "1/" + "3" * 100, "10⁵⁰⁰"]
)
def test_too_long(typed: str) -> None:
    with pytest.raises(NumberTooLong) as caught:
        read_number(Text("q " + typed), 2)
    assert caught.value.span == Span("", 1, 3, len(typed))
    assert len(caught.value.sentence()) < 120


def test_the_longest_that_are_read() -> None:
    assert read("9" * 100).value == 10**100 - 1
    assert read("1e400").value == 10**400
    assert read("1e-400").value == Fraction(1, 10**400)


@pytest.mark.parametrize(
    ("typed", "places", "figures"),
    [
        # Digit counts printed in ASTM E29 (read): "1270." and "32.00" have four figures, 1.40 × 10⁵ has
        # three. Of 140 000 it says two to six; the digits typed are six.
        ("1270", 0, 4),
        ("32.00", 2, 4),
        ("1.40 × 10^5", 2, 3),
        ("140 000", 0, 6),
        # The rest is common practice, no source.
        ("0.050", 3, 2),
        ("-0.75", 2, 2),
        ("6,752", 3, 4),
        ("0", 0, 1),
        ("0.00", 2, 1),
        ("6e-6", 0, 1),
        ("1/3", 0, 1),
    ],
)
def test_places_and_figures(typed: str, places: int, figures: int) -> None:
    number = read(typed, ",")
    assert (number.places, number.figures) == (places, figures)


@given(st.decimals(allow_nan=False, allow_infinity=False, places=6, min_value=-(10**12), max_value=10**12))
def test_a_plain_decimal_is_worth_what_python_says(value: object) -> None:
    typed = format(value, "f")  # type: ignore[str-format]
    assert read(typed).value == Fraction(typed)
    assert read(typed).digits == typed


@given(st.text(alphabet="0123456789.,eE+-−×*·x^{}()/ ⁻⁶²\u202f", max_size=30), st.sampled_from([".", ","]))
def test_any_text_is_read_or_refused(text: str, decimal: str) -> None:
    found, refused = None, None
    try:
        found = read_number(Text(text), 0, decimal)
    except (NumberAmbiguous, NumberTooLong) as problem:
        refused = problem
    if refused is not None:
        assert 1 <= refused.span.column <= len(text)
    if found is not None:
        number, end = found
        assert number.typed == text[:end]
        assert number.value == Fraction(number.digits) * Fraction(10) ** (number.exponent or 0)
