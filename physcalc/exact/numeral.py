"""Rounded and typed numbers as the pieces that are printed, and how they are set.

Sources: groups of three digits set apart by a thin space and never by comma or point, CGPM 22 (2003)
Resolution 10 and SI Brochure 5.4.4; four digits may stand unsplit (SI Brochure) or be split (IEC/ISO drafting
rules, 6.6.8); a zero before the decimal sign and a cross before the power of ten, IEC/ISO drafting rules.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from .errors import TooLarge
from .number import Number
from .real import Real
from .rounding import Rounded, Rule, count_digits, round_figures, round_places

GROUP_SPACE = "\u202f"
NO_BREAK_SPACE = "\u00a0"
MINUS = "\u2212"
TIMES = "\u00d7"
_MOST_DIGITS = 4000
_SUPERSCRIPTS = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")


@dataclass(frozen=True, slots=True)
class NumberStyle:
    """How numbers are set.

    Attributes:
        decimal: the decimal sign, "," or ".".
        group: whether digits are set in groups of three.
        group_four: whether four digits before the decimal sign are split too ("6 752").
        low: where the form is not said, rounded values below this are in standard form.
        high: and so are those from this up.
        money: where the sign of a currency stands: straight before the digits, apart before them, or behind them.
        lang: the language of the words behind a number, such as its direction.
    """

    decimal: str = ","
    group: bool = True
    group_four: bool = True
    low: Fraction = Fraction(1, 10)
    high: Fraction = Fraction(100_000)
    money: Literal["before", "apart", "behind"] = "before"
    lang: str = "en"


@dataclass(frozen=True, slots=True)
class Form:
    """To what a result is rounded, and in which form it is written.

    Attributes:
        kind: decimal places or significant figures.
        count: how many; places in standard form count on the leading factor.
        standard: in standard form, or not; None leaves it to the style's thresholds.
    """

    kind: Literal["places", "figures"] = "places"
    count: int = 2
    standard: bool | None = None


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number as the pieces that are printed.

    Attributes:
        negative: whether a minus stands before it.
        whole: digits before the decimal sign, ungrouped; "1/3" for a typed fraction; empty for a power of ten
            that stands alone.
        part: digits after the decimal sign; empty for none, and then no decimal sign is printed.
        exponent: the power of ten that follows; None for none.
    """

    negative: bool
    whole: str
    part: str = ""
    exponent: int | None = None

    @classmethod
    def of_number(cls, number: Number) -> Numeral:
        """A typed number, with the digits it was typed with."""
        digits = number.digits.lstrip("-")
        whole, _, part = digits.partition(".")
        if number.bare_power:
            whole = ""
        return cls(number.digits.startswith("-"), whole, part, number.exponent)

    @classmethod
    def of_rounded(cls, rounded: Rounded, exponent: int | None = None) -> Numeral:
        """A rounded number, with the power of ten `exponent` taken out of it.

        Raises:
            TooLarge: it has thousands of digits.
        """
        if count_digits(rounded.coefficient) > _MOST_DIGITS:
            raise TooLarge("a number has too many digits to be written out")
        places = rounded.places + (exponent or 0)
        if places <= 0:
            return cls(rounded.negative, str(rounded.coefficient * 10**-places), "", exponent)
        digits = str(rounded.coefficient).zfill(places + 1)
        return cls(rounded.negative, digits[:-places], digits[-places:], exponent)


#: Whole numbers are written out below this.
_WHOLE = 10**9


def write(
    x: Real, form: Form, rule: Rule = "half-up", style: NumberStyle | None = None
) -> tuple[Rounded, Numeral]:
    """`x` rounded once and written in the form asked for.

    Where `form.standard` is None, a value that rounds to less than `style.low`, or to `style.high` and more,
    is in standard form, and is then rounded in that form (from `x`, not from the rounded value). Zero is
    never in standard form. A whole number that is asked is written out to a thousand million, unless the style has a
    bound of its own: standard form would leave one digit of it.

    Raises:
        TooLarge: x cannot be rounded so.
    """
    style = style or NumberStyle()
    plain = (
        round_figures(x, form.count, rule) if form.kind == "figures" else round_places(x, form.count, rule)
    )
    standard = form.standard
    if standard is None:
        whole = (form.kind, form.count) == ("places", 0) and style.high == NumberStyle().high
        high = _WHOLE if whole else style.high
        standard = not style.low <= abs(plain.fraction) < high
    if not standard or x.sign() == 0:
        return plain, Numeral.of_rounded(plain)
    rounded = round_figures(x, form.count + 1, rule) if form.kind == "places" else plain
    return rounded, Numeral.of_rounded(rounded, rounded.magnitude)


def grouped(numeral: Numeral, style: NumberStyle) -> tuple[str, str]:
    """The digits before and after the decimal sign, in groups of three where the style says so.

    Decimals are grouped from five up, whole digits from five up or from four up.
    """
    whole, part = numeral.whole, numeral.part
    if style.group:
        least = 4 if style.group_four else 5
        whole = "/".join(_from_right(side) if len(side) >= least else side for side in whole.split("/"))
        if len(part) >= 5:
            part = GROUP_SPACE.join(part[i : i + 3] for i in range(0, len(part), 3))
    return whole, part


def _from_right(digits: str) -> str:
    first = len(digits) % 3
    groups = [digits[:first]] if first else []
    return GROUP_SPACE.join(groups + [digits[i : i + 3] for i in range(first, len(digits), 3)])


def numeral_text(numeral: Numeral, style: NumberStyle) -> str:
    """The number as plain text: "6 752,00", "−4,17 × 10⁻⁷", with no-break spaces."""
    whole, part = grouped(numeral, style)
    text = whole + (style.decimal + part if part else "")
    if numeral.exponent is not None:
        power = "10" + str(numeral.exponent).translate(_SUPERSCRIPTS)
        text = f"{text}{NO_BREAK_SPACE}{TIMES}{NO_BREAK_SPACE}{power}" if text else power
    return (MINUS if numeral.negative else "") + text
