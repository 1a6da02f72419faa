"""A computed value in the style in which an author typed a wrong one, to be put in its place.

Room 8. The author's decimal sign, grouping, way of writing a power of ten and unit stay; digits are as many
as were asked, or as many as were typed where that says as much.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from .exact import (
    Form,
    NumberStyle,
    Numeral,
    Real,
    RealError,
    Rounded,
    Rule,
    read_number,
    round_figures,
    round_places,
    write,
)
from .exact.number import DecimalSign, Number
from .language.directions import printed_direction
from .language.words import direction_words, english_direction
from .problems import Problem, Text
from .units import before_amount

#: A typed power of ten in its parts, once without a factor before it and once with E notation.
_POWER = re.compile(
    r"(?P<join>[\s\u00a0\u2009\u202f\u2007]*[×*·⋅xX][\s\u00a0\u2009\u202f\u2007]*|)10"
    r"(?P<open>\^\{|\^\(|\^|)(?P<exponent>[-+\u2212]?[0-9]+|[⁺⁻]?[⁰¹²³⁴-⁹]+)(?P<close>[})^]?)$"
)
_E = re.compile(r"(?P<sign>[eE])[-+\u2212]?[0-9]+$")
_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_GROUP = re.compile(r"[0-9]([ \u00a0\u2009\u202f\u2007.,])[0-9]{3}(?![0-9])")
#: Words that turn a direction round; those that hold another one come first.
_PAIRS = (
    ("anticlockwise", "clockwise"), ("counterclockwise", "clockwise"), ("away from", "towards"),
    ("out of", "into"), ("right", "left"), ("up", "down"), ("north", "south"), ("east", "west"),
    ("forward", "backward"), ("inward", "outward"), ("toward", "away from"),
)  # fmt: skip
_OPPOSITES = {second: first for first, second in reversed(_PAIRS)} | dict(_PAIRS)
_OPPOSED = re.compile(
    "|".join(rf"\b{word}" for word in sorted(_OPPOSITES, key=len, reverse=True)), re.IGNORECASE
)
#: A fraction is put for a typed fraction only where it is as simple as one that a person would write.
_LARGEST_PART = 999


def in_style_of(
    typed: Text,
    value: Real,
    asked: Form | None = None,
    *,
    decimal: DecimalSign = ".",
    rule: Rule = "half-up",
    style: NumberStyle | None = None,
) -> str:
    """The text that says `value` as `typed` says another one.

    Args:
        typed: a number with its unit, without a direction, as the author wrote it.
        value: the computed value in the unit that was typed.
        asked: the form in which the result was asked; None where it was asked in another unit or not at all.
        decimal: the document's decimal sign.
        rule: how ties are rounded.
        style: the document's number style, for its thresholds of standard form.

    Returns:
        The text; empty where `typed` begins with no number, or nothing can be written that would be read as
        that value again.
    """
    if money := before_amount(typed.value):
        inner = in_style_of(
            typed.part(money.end()), abs(value), asked, decimal=decimal, rule=rule, style=style
        )
        minus = (money["minus"] if money["minus"] in ("-", "\u2212") else "-") if value.sign() < 0 else ""
        return f"{minus}{money['word']}{money['blank']}{inner}" if inner else ""
    try:
        found = read_number(typed, 0, decimal)
        if found is None:
            return ""
        number, end = found
        wanted, numerals = _digits(number, value, asked, rule, style or NumberStyle(decimal))
    except (Problem, RealError):
        return ""
    for numeral in numerals:
        for text in _spellings(number.typed, numeral, decimal):
            if _reads_as(text + typed.value[end:], len(text), wanted, decimal):
                return text + typed.value[end:]
    return ""


def direction_in_style_of(typed: str, wanted: str, lang: str = "en") -> str:
    """The words for a direction, in the way in which the author worded another: "right" for "left".

    Args:
        typed: the author's words.
        wanted: the right direction; it is printed where the author's words have no such counterpart.
        lang: the document's language, in which the author may have worded it.
    """
    if english_direction(typed, lang) != typed:
        return direction_words(wanted, lang)
    printed = printed_direction(wanted)
    turned = _OPPOSED.sub(lambda found: _OPPOSITES[found[0].lower()], typed, count=1)
    return turned if printed_direction(turned) == printed else printed


def _digits(
    number: Number, value: Real, asked: Form | None, rule: Rule, style: NumberStyle
) -> tuple[Rounded | str, tuple[Numeral, ...]]:
    """What is to be written, and the ways to set it, the best first."""
    if number.is_fraction:
        exact = value.fraction
        if exact is not None and max(abs(exact.numerator), exact.denominator) <= _LARGEST_PART:
            text = f"{exact.numerator}/{exact.denominator}" if exact.denominator > 1 else str(exact.numerator)
            return text, (Numeral(exact < 0, text.lstrip("-")),)
        rounded, numeral = write(value, asked or Form(), rule, style)
        return rounded, (numeral,)
    if number.exponent is not None:
        return _standard(number, value, asked, rule)
    rounded = _plain(number, value, asked, rule, style)
    return rounded, (Numeral.of_rounded(rounded),)


def _plain(number: Number, value: Real, asked: Form | None, rule: Rule, style: NumberStyle) -> Rounded:
    """The value rounded, for a number that was typed without a power of ten."""
    as_typed = round_places(value, number.places, rule)
    figures = number.figures
    if asked is not None:
        rounded, numeral = write(value, asked, rule, style)
        if numeral.exponent is None:
            enough = as_typed.exact or number.places >= rounded.places
            return as_typed if enough else rounded
        figures = max(figures, asked.count + (asked.kind == "places"))
    # Fewer digits than were typed would say less than the author meant to: 0.61 for a typed 6.8.
    if as_typed.exact or _figures(as_typed) >= min(number.figures, 2):
        return as_typed
    return round_figures(value, figures, rule)


def _standard(
    number: Number, value: Real, asked: Form | None, rule: Rule
) -> tuple[Rounded, tuple[Numeral, ...]]:
    """The value as a factor and a power of ten."""
    if value.sign() == 0:
        zero = round_places(value, 0, rule)
        return zero, (Numeral.of_rounded(zero),)
    if number.bare_power:
        figures = 1 if asked is None else asked.count + (asked.kind == "places")
        rounded = round_figures(value, figures, rule)
        return rounded, (Numeral.of_rounded(rounded, rounded.magnitude),)
    leading = abs(float(number.digits))
    if 1 <= leading < 10:
        figures = number.places + 1
        if asked is not None:
            wanted = asked.count + (asked.kind == "places")
            if wanted > figures and not round_figures(value, figures, rule).exact:
                figures = wanted
        rounded = round_figures(value, figures, rule)
        return rounded, (Numeral.of_rounded(rounded, rounded.magnitude),)
    # Another power than that of standard form was chosen on purpose (670 × 10⁻⁶): it stays.
    exponent = number.exponent or 0
    rounded = round_places(value, number.places - exponent, rule)
    if not rounded.exact and _figures(rounded) < min(number.figures, 2):
        rounded = round_figures(value, number.figures, rule)
    return rounded, (Numeral.of_rounded(rounded, exponent),)


def _figures(rounded: Rounded) -> int:
    return len(str(rounded.coefficient)) if rounded.coefficient else 0


def _spellings(typed: str, numeral: Numeral, decimal: DecimalSign) -> Iterator[str]:
    """Ways to write a numeral, that of the typed number first."""
    power = _power(typed, numeral)
    minus = ""
    if numeral.negative:
        minus = typed[0] if typed[0] in "-\u2212" else "-"
    factor = _factor(typed)
    group = _grouping(factor)
    mark = _decimal_mark(factor, group)
    for sign, blank in ((mark or decimal, group), (mark or decimal, ""), (decimal, "")):
        yield minus + _grouped(numeral, sign, blank) + power


def _factor(typed: str) -> str:
    """The leading factor of a typed number."""
    for pattern in (_E, _POWER):
        if found := pattern.search(typed):
            return typed[: found.start()]
    return typed


def _grouping(factor: str) -> str:
    """The sign between groups of three digits; empty for none."""
    found = _GROUP.findall(factor)
    if not found:
        return ""
    if found[0] in ".," and len(found) < 2 and len(re.findall("[.,]", factor)) < 2:
        return ""  # A lone sign is the decimal one.
    return str(found[0])


def _decimal_mark(factor: str, group: str) -> str:
    """The decimal sign that was typed; empty where there is none."""
    marks = [sign for sign in factor if sign in ".," and sign != group]
    return marks[-1] if marks else ""


def _grouped(numeral: Numeral, sign: str, blank: str) -> str:
    whole, part = numeral.whole, numeral.part
    if not whole:
        return ""
    if blank and len(whole) > 3:
        first = len(whole) % 3 or 3
        whole = blank.join([whole[:first], *(whole[i : i + 3] for i in range(first, len(whole), 3))])
    if blank and blank not in ".," and len(part) > 4:
        part = blank.join(part[i : i + 3] for i in range(0, len(part), 3))
    return whole + (sign + part if part else "")


def _power(typed: str, numeral: Numeral) -> str:
    """The power of ten behind the factor, spelled as the typed one."""
    if numeral.exponent is None:
        return ""
    exponent = str(numeral.exponent)
    if found := _E.search(typed):
        return found["sign"] + exponent
    found = _POWER.search(typed)
    if found is None:
        return f"e{exponent}"
    join = found["join"] or (" × " if numeral.whole else "")
    if found["open"]:
        if "\u2212" in found["exponent"]:
            exponent = exponent.replace("-", "\u2212")
        return f"{join}10{found['open']}{exponent}{found['close']}"
    return f"{join}10{exponent.translate(_RAISED)}"


def _reads_as(text: str, end: int, wanted: Rounded | str, decimal: DecimalSign) -> bool:
    """Whether a text begins with the number that was to be written, and that ends where it should."""
    try:
        found = read_number(Text(text), 0, decimal)
    except Problem:
        return False
    if found is None or found[1] != end:
        return False
    return found[0].digits == wanted if isinstance(wanted, str) else found[0].value == wanted.fraction
