"""Numbers as authors type them: read with their digits, valued exactly."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from ..limits import limit
from ..problems import Text
from ..problems.numbers import NumberAmbiguous, NumberTooLong

DecimalSign = Literal[".", ","]


#: Blanks that may set groups of digits apart: space, no-break, thin, narrow no-break, figure space.
_BLANK = "[ \u00a0\u2009\u202f\u2007]"
_SIGN = "[-+\u2212]"

#: Digits, possibly grouped by blanks, with at most one decimal sign.
_PLAIN = re.compile(
    rf"""
    (?P<whole> [0-9]{{1,3}} (?:{_BLANK}[0-9]{{3}}(?![0-9]))+ | [0-9]+ )
    (?: (?P<mark>[.,]) (?P<part>
        [0-9]{{3}} (?:{_BLANK}[0-9]{{3}}(?![0-9]))+ (?:{_BLANK}[0-9]{{1,2}}(?![0-9]))?
      | [0-9]{{3}} {_BLANK}[0-9]{{1,2}}(?![0-9/^⁰¹²³⁴-⁹⁻.,])
      | [0-9]+ ) )?
    | (?P<bare> \. [0-9]+ )
    """,
    re.VERBOSE,
)
#: Whole digits grouped by comma or by point, at least twice, or once before the other sign as decimal sign.
_GROUPED = re.compile(
    r"""
    (?P<whole> [1-9][0-9]{0,2} (?:,[0-9]{3})+ ) (?: \. (?P<part>[0-9]+) )? (?![0-9]|,[0-9])
    | (?P<whole2> [1-9][0-9]{0,2} (?:\.[0-9]{3})+ ) (?: , (?P<part2>[0-9]+) )? (?![0-9]|\.[0-9])
    """,
    re.VERBOSE,
)
_FRACTION = re.compile(r"(?P<above>[0-9]++)/(?P<below>[0-9]++)(?![.,][0-9]|[⁰¹²³⁴-⁹⁻^]|[eE][-+]?[0-9])")
_E_POWER = re.compile(rf"[eE](?P<exponent>{_SIGN}?[0-9]+)(?![0-9]|[.,][0-9])")
_TEN = rf"""10(?:
      \^ (?P<exponent> {_SIGN}?[0-9]+ ) (?: \^(?![-+\u2212\w({{]) | (?![0-9^]|[.,][0-9]) )
    | \^ (?: \{{ (?P<braced> {_SIGN}?[0-9]+ ) \}} | \( (?P<bracketed> {_SIGN}?[0-9]+ ) \) ) (?!\^)
    | (?P<raised> [⁺⁻]?[⁰¹²³⁴-⁹]+ ) (?![⁰¹²³⁴-⁹^])
    )"""
_TIMES_POWER = re.compile(rf"{_BLANK}* [×*·⋅xX] {_BLANK}* {_TEN}", re.VERBOSE)
_BARE_POWER = re.compile(_TEN, re.VERBOSE)
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")


@dataclass(frozen=True, slots=True)
class Number:
    """A number as typed.

    Attributes:
        value: what it is worth, exactly.
        digits: the leading factor as typed, with its minus, "." as decimal sign and no grouping ("-4.17");
            "1/3" for a fraction; "1" for a power of ten that stands alone.
        exponent: the power of ten typed after it; None for none.
        typed: the characters themselves.
    """

    value: Fraction
    digits: str
    exponent: int | None
    typed: str

    @property
    def places(self) -> int:
        """Decimal places of the leading factor; 0 for a fraction."""
        return len(self.digits.partition(".")[2])

    @property
    def figures(self) -> int:
        """Significant figures, at least 1: all digits from the first that is not zero.

        The zeros that end a whole number are counted, though they may only hold a place (ASTM E29). A
        fraction counts the digits of its numerator.
        """
        return max(1, len(self.digits.partition("/")[0].replace(".", "").lstrip("-0")))

    @property
    def is_fraction(self) -> bool:
        """Whether it was typed as one whole number over another."""
        return "/" in self.digits

    @property
    def bare_power(self) -> bool:
        """Whether it is a power of ten typed without a factor, as in 10^6."""
        return self.exponent is not None and self.typed.lstrip("+-\u2212").startswith("10")


def read_number(
    text: Text, start: int, decimal: DecimalSign = ".", plain: bool = False
) -> tuple[Number, int] | None:
    """The longest number that begins at `text.value[start]`, and where it ends; None where none begins there.

    Read are 6752, 6 752 (any blank), 0.15, 0,15, .15, 1,234,567.8, 6e-6, 6 × 10^-6 (also with *, ·, x, and
    with ⁻⁶, ^{-6}, ^-6^), 10^6 and 1/3, each with a sign straight before it. Both decimal signs are read
    whatever the document's; one sign before exactly three digits is read only where `decimal` settles it, or
    where a power of ten follows and one digit leads, as in standard form (1.602e-19).

    Args:
        text: the source.
        start: index of the first character.
        decimal: the document's decimal sign.
        plain: leave fractions and written-out powers of ten to the caller, as in a formula, where / and ^
            are operators.

    Raises:
        NumberAmbiguous: "1,000" where the decimal sign is the point, "1.000" where it is the comma.
        NumberTooLong: more than 100 digits, or a power of ten beyond ±400.
    """
    value = text.value
    begin = start + 1 if re.match(_SIGN, value[start : start + 1]) else start
    sign = "-" if value[start:begin] in ("-", "\u2212") else ""
    fraction = None if plain else _FRACTION.match(value, begin)
    if fraction and fraction["below"].strip("0"):
        _guard(text, start, fraction.end(), fraction["above"] + fraction["below"], 0)
        digits = f"{sign}{fraction['above']}/{fraction['below']}"
        return Number(Fraction(digits), digits, None, value[start : fraction.end()]), fraction.end()
    exponent: str | None = None
    power = None if plain else _BARE_POWER.match(value, begin)
    if power:
        digits = sign + "1"
    else:
        found = _leading(text, begin, decimal, plain)
        if found is None:
            return None
        digits, end = sign + found[0], found[1]
        power = _power_after(value, end, plain)
    if power:
        end, exponent = power.end(), _exponent(power)
    size = exponent or "0"
    _guard(text, start, end, digits, int(size) if len(size) < 6 else limit("exponent") + 1)
    worth = Fraction(digits)
    if power:
        worth *= Fraction(10) ** int(size)
    return Number(worth, digits, None if exponent is None else int(exponent), value[start:end]), end


def _power_after(value: str, end: int, plain: bool) -> re.Match[str] | None:
    return _E_POWER.match(value, end) or (None if plain else _TIMES_POWER.match(value, end))


def _exponent(power: re.Match[str]) -> str:
    found: str = next(text for text in power.groupdict().values() if text is not None)
    return found.translate(_RAISED).replace("\u2212", "-")


def _leading(text: Text, begin: int, decimal: DecimalSign, plain: bool) -> tuple[str, int] | None:
    """The leading factor at `begin`, without blanks and with "." as decimal sign, and where it ends."""
    value = text.value
    grouped = _GROUPED.match(value, begin)
    if grouped:
        whole = grouped["whole"] or grouped["whole2"]
        part = grouped["part"] or grouped["part2"]
        if part is not None or len(re.findall("[.,]", whole)) > 1:
            digits = re.sub("[.,]", "", whole)
            return (f"{digits}.{part}" if part else digits), grouped.end()
    match = _PLAIN.match(value, begin)
    if match is None:
        return None
    if match["bare"]:
        return "0" + match["bare"], match.end()
    whole = re.sub(_BLANK, "", match["whole"])
    if match["mark"] is None:
        return whole, match.end()
    part = re.sub(_BLANK, "", match["part"])
    unsettled = match["mark"] != decimal and re.fullmatch(r"[1-9][0-9]{0,2}[.,][0-9]{3}", match[0])
    if unsettled and not (len(whole) == 1 and _power_after(value, match.end(), plain)):
        raise NumberAmbiguous(
            text.at(begin, match.end()), typed=match[0], whole=whole + part, parted=whole + decimal + part
        )
    return f"{whole}.{part}", match.end()


def _guard(text: Text, start: int, end: int, digits: str, exponent: int) -> None:
    most = limit("digits")
    long = len(digits) > most and len(re.findall("[0-9]", digits)) > most
    if long or (exponent and abs(exponent) > limit("exponent")):
        raise NumberTooLong(
            text.at(start, end),
            typed=text.value[start:end],
            digits=most,
            exponent=limit("exponent"),
            name="digits" if long else "exponent",
        )
