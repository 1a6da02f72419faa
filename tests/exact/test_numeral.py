"""How numbers are set, against the rules of the SI Brochure and the IEC/ISO drafting rules."""

from __future__ import annotations

from fractions import Fraction

import pytest

from physcalc.exact import (
    PI,
    Form,
    Number,
    NumberStyle,
    Numeral,
    Real,
    TooLarge,
    grouped,
    numeral_text,
    read_number,
    sqrt,
    write,
)  # fmt: skip
from physcalc.problems import Text

R = Real.of
F = Fraction
COMMA = NumberStyle()
POINT = NumberStyle(decimal=".")
THIN = "\u202f"


def shown(value: Real | str, form: Form, style: NumberStyle = COMMA) -> str:
    """The text with its special blanks made visible: _ for the thin one, ~ for the no-break one."""
    x = value if isinstance(value, Real) else R(F(value))
    rounded, numeral = write(x, form, "half-up", style)
    text = numeral_text(numeral, style)
    assert " " not in text
    # What is printed is what was rounded, and nothing is rounded twice.
    exponent = 0 if numeral.exponent is None else numeral.exponent
    worth = F(f"{numeral.whole}.{numeral.part or 0}") * F(10) ** exponent * (-1 if numeral.negative else 1)
    assert worth == rounded.fraction
    return text.replace(THIN, "_").replace("\u00a0", "~")


@pytest.mark.parametrize(
    ("value", "form", "text"),
    [
        ("6752", Form(), "6_752,00"),
        ("8.1", Form(), "8,10"),
        ("-0.5", Form(), "−0,50"),
        ("4.17e-7", Form(), "4,17~×~10⁻⁷"),
        ("-4.17e-7", Form(), "−4,17~×~10⁻⁷"),
        # The threshold is put to the rounded value.
        ("0.0949", Form(), "9,49~×~10⁻²"),
        ("0.0951", Form(), "0,10"),
        ("0.09996", Form("figures", 3), "0,100"),
        ("0.0999", Form("figures", 3), "9,99~×~10⁻²"),
        ("99999.994", Form(), "99_999,99"),
        ("99999.996", Form(), "1,00~×~10⁵"),
        ("0", Form(), "0,00"),
        ("0", Form("places", 2, True), "0,00"),
        ("0", Form("figures", 3), "0,00"),
        ("0.00345", Form(), "3,45~×~10⁻³"),
        ("0.00345", Form("places", 2, False), "0,00"),
        ("-0.001", Form("places", 2, False), "0,00"),
        # Places in standard form count on the leading factor, and 10,00 is put right.
        ("9.996", Form("places", 2, True), "1,00~×~10¹"),
        ("9.994", Form("places", 2, True), "9,99~×~10⁰"),
        ("123456", Form("places", 0, True), "1~×~10⁵"),
        ("123456", Form("figures", 4), "1,235~×~10⁵"),
        ("12345", Form("figures", 3), "12_300"),
        ("123456", Form("figures", 2, False), "120_000"),
        ("123456", Form("places", 1, False), "123_456,0"),
        # Rounded once: by way of 0,10 it would be 1,00 × 10⁻¹, by way of 9,45 it would be 9,5.
        ("0.09446", Form("places", 1, True), "9,4~×~10⁻²"),
        ("3.14159265", Form("places", 7), "3,141_592_7"),
    ],
)
def test_write(value: str, form: Form, text: str) -> None:
    assert shown(value, form) == text


def test_write_irrational() -> None:
    assert shown(PI, Form("places", 5)) == "3,141_59"
    assert shown(sqrt(R(2)) * 10**9, Form("figures", 3)) == "1,41~×~10⁹"
    assert shown(PI / 10**12, Form(), POINT) == "3.14~×~10⁻¹²"


def test_thresholds_are_the_styles() -> None:
    style = NumberStyle(low=F(1, 1000), high=F(1000))
    assert shown("0.0123", Form("places", 4), style) == "0,0123"
    assert shown("1000", Form("places", 0), style) == "1~×~10³"


def test_half_even() -> None:
    rounded, _ = write(R(F("0.125")), Form(), "half-even")
    assert rounded.coefficient == 12


def test_a_number_of_thousands_of_digits_is_not_written_out() -> None:
    with pytest.raises(TooLarge):
        write(R(10) ** 4400, Form("places", 2, False))
    assert write(R(10) ** 4400, Form())[1] == Numeral(False, "1", "00", 4400)


@pytest.mark.parametrize(
    ("whole", "part", "style", "text"),
    [
        # 22nd CGPM (2003), Resolution 10, and NIST SP 811 10.5.3 (read): threes, set apart by a space.
        ("299792458", "", POINT, "299_792_458"),
        ("43279", "16829", POINT, "43_279.168_29"),
        # SI Brochure, 9th edition, 5.4.4 (from memory): four digits need not be split, 3279.1683 …
        ("3279", "1683", NumberStyle(decimal=".", group_four=False), "3279.1683"),
        # … and IEC/ISO drafting rules, ISO/IEC Directives Part 2:2011, 6.6.8 (read): 2 345 is split.
        ("2345", "", COMMA, "2_345"),
        # The same (read): a zero before the decimal sign.
        ("0", "001", COMMA, "0,001"),
        # Grouping behind the sign only from five decimals up: our own rule within what 5.4.4 allows.
        ("0", "1234", COMMA, "0,1234"),
        ("0", "12345", COMMA, "0,123_45"),
        ("123", "", COMMA, "123"),
        ("1234567", "1234567", NumberStyle(group=False), "1234567,1234567"),
        ("12345", "", NumberStyle(group_four=False), "12_345"),
    ],
)
def test_grouping(whole: str, part: str, style: NumberStyle, text: str) -> None:
    numeral = Numeral(False, whole, part)
    assert numeral_text(numeral, style).replace(THIN, "_") == text
    assert "".join(grouped(numeral, style)).replace(THIN, "") == whole + part


def test_the_sign_between_factor_and_power_is_a_cross() -> None:
    # ISO/IEC Directives Part 2:2011, 6.6.8 (read): 1,8 × 10⁻³, not 1,8 · 10⁻³ and not 1,8 * 10⁻³.
    assert numeral_text(Numeral(False, "1", "8", -3), COMMA) == "1,8\u00a0×\u00a010⁻³"


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ("6 752", "6_752"),
        ("0.750", "0,750"),
        ("-4.17e-7", "−4,17~×~10⁻⁷"),
        ("6*10^24", "6~×~10²⁴"),
        ("1/3", "1/3"),
        ("-1/3", "−1/3"),
        ("10000/3", "10_000/3"),
        ("10^6", "10⁶"),
        ("-10^-6", "−10⁻⁶"),
        ("1e6", "1~×~10⁶"),
        (".5", "0,5"),
        ("007", "007"),
    ],
)
def test_typed_digits_are_kept(typed: str, text: str) -> None:
    found = read_number(Text(typed), 0)
    assert found is not None
    assert isinstance(found[0], Number)
    assert numeral_text(Numeral.of_number(found[0]), COMMA).replace(THIN, "_").replace("\u00a0", "~") == text


@pytest.mark.parametrize(
    ("value", "text"),
    [("281250", "281_250"), ("999999999.4", "999_999_999"), ("2812500000", "3~×~10⁹"), ("0.04", "4~×~10⁻²")],
)
def test_a_whole_number_that_is_asked_is_written_out(value: str, text: str) -> None:
    """Common practice, no source: 281 250 J asked to the nearest joule is not 3 × 10⁵ J."""
    assert shown(value, Form("places", 0)) == text
