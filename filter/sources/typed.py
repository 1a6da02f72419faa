"""The raw text of a typed value: where it stands, and another number or direction written into it.

What was compared is the value's plain text; in the raw text stand markup and mathematics. A place is used only where
it is certain: the raw text holds the number that was read once, and nowhere else.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from physcalc.exact import read_number
from physcalc.exact.number import DecimalSign
from physcalc.problems import Problem, Text

from .tex.arguments import argument, skip_blanks, trimmed
from .tex.options import typed_and_options

#: What makes the raw text of a value differ from its plain one.
MARKUP = re.compile(r"[\\$~^{}*_`<&]")
#: So far back the bracket is looked for that opens a typed value.
_FARTHEST = 400
_COMMAND = re.compile(r"\\phys(?:value|define)(?:[ \t]|%[^\n]*\n)*$")
_BEHIND = re.compile(r"\]\{[^{}\n]*\}")
#: What stands between two groups of digits, and for a decimal sign.
_BETWEEN = r"\\[,;: ]|\\thinspace(?![A-Za-z])[ ]?|\{\\,\}|~|[ \u00a0\u2009\u202f\u2007]"
_MARK = r"\{[.,]\}|[.,]"
_EXPONENT = (
    r"\^\{ ?(?P<braced>[-+\u2212]?[0-9]+) ?\}|\^(?P<marked>[-+\u2212]?[0-9]+)\^|\^\((?P<bracket>[-+\u2212]?[0-9]+)\)"
    r"|\\textsuperscript\{(?P<upright>[-+\u2212]?[0-9]+)\}|\^(?P<bare>[-+\u2212]?[0-9]+)|(?P<raised>[⁺⁻]?[⁰¹²³⁴-⁹]+)"
)
#: Not the index or the power of something, nor the end of a word or another number.
_NUMBER = re.compile(
    rf"(?<![\w^_.,])(?<![\^_]\{{)(?<![\^_]\{{[-\u2212])(?<![\^_][-\u2212])"
    rf"(?P<minus>[-\u2212])?(?P<factor>(?:{_MARK})?[0-9]+(?:(?:{_BETWEEN}|{_MARK})[0-9]+)*)"
    rf"(?:(?P<join>(?:{_BETWEEN}|\$)*(?:\\times(?![A-Za-z])|\\cdot(?![A-Za-z])|[×·⋅*xX])(?:{_BETWEEN}|\$)*)"
    rf"10(?P<power>{_EXPONENT})|(?P<e>[eE])(?P<exponent>[-+\u2212]?[0-9]+))?"
)
_PIECE = re.compile(rf"(?P<digits>[0-9]+)|(?P<mark>{_MARK})|(?P<between>{_BETWEEN})")
_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789-+")
_LOWERED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_SIGNS: tuple[DecimalSign, ...] = (".", ",")


@dataclass(frozen=True, slots=True)
class _Numeral:
    """A number as it is written: its sign, the digits before and behind the decimal sign, its power of ten."""

    minus: str
    whole: str
    part: str
    exponent: int | None

    @property
    def value(self) -> Fraction:
        size = Fraction(int((self.whole + self.part) or "0")) * Fraction(10) ** (
            (self.exponent or 0) - len(self.part)
        )
        return -size if self.minus else size


def typed_stretch(text: str, at: int) -> tuple[int, int] | None:
    """The raw text of the typed value that holds an offset; None where it is in no brackets, as in a block.

    Args:
        text: the source.
        at: the offset.
    """
    opening = at
    least = max(0, at - _FARTHEST)
    while True:
        opening = text.rfind("[", least, opening)
        if opening < 0:
            return None
        stretch = _stretch(text, opening)
        if stretch is not None and stretch[0] <= at < max(stretch[1], stretch[0] + 1):
            return stretch


def _stretch(text: str, opening: int) -> tuple[int, int] | None:
    """The value that a bracket opens; None where it opens none."""
    inner = argument(text, opening, "[]")
    if inner is None:
        return None
    if _COMMAND.search(text, max(0, opening - _FARTHEST), opening):
        behind = skip_blanks(text, inner[1] + 1)
        return trimmed(text, typed_and_options(text, inner)[0]) if text[behind : behind + 1] == "{" else None
    return trimmed(text, inner) if _BEHIND.match(text, inner[1]) else None


def with_number(raw: str, typed: str, new: str) -> str:
    """The raw text of a value with another number in it, written as the one that stands there.

    Args:
        raw: the raw text.
        typed: what was read of it, which begins with its number.
        new: what shall be read of it, likewise.

    Returns:
        The text; empty where the place of the number is not certain.
    """
    old_values = set(_values(typed))
    places = [found for found in _NUMBER.finditer(raw) if _numerals(found) & old_values]
    if len(places) != 1 or len(old_values) == 0 or "±" in raw:
        return ""
    place = places[0]
    for decimal in _SIGNS:
        with suppress(Problem):
            found = read_number(Text(new), 0, decimal)
            numeral = _plain(new[: found[1]], decimal) if found else None
            if numeral is None or found is None or numeral.value != found[0].value:
                continue
            sign = next((one for one in reversed(new[: found[1]]) if one in ".,"), decimal)
            written = _written(raw, place, numeral, sign)
            again = _NUMBER.fullmatch(written)
            if again is not None and numeral.value in _numerals(again):
                return raw[: place.start()] + written + raw[place.end() :]
    return ""


def direction_words(raw: str) -> str:
    """The words for a direction at the end of a value's raw text; empty for none, and where they hold markup."""
    behind = raw[raw.rfind(",") + 1 :].strip() if "," in raw else ""
    return "" if MARKUP.search(behind) else behind


def _values(text: str) -> Iterator[Fraction]:
    """The value of the number that a plain text begins with, as each decimal sign lets it be read."""
    for decimal in _SIGNS:
        with suppress(Problem):
            found = read_number(Text(text), 0, decimal)
            if found is not None:
                yield found[0].value


def _numerals(found: re.Match[str]) -> set[Fraction]:
    """The values that a number in raw text may have."""
    return {numeral.value for decimal in _SIGNS if (numeral := _from_match(found, decimal)) is not None}


def _plain(text: str, decimal: DecimalSign) -> _Numeral | None:
    found = _NUMBER.fullmatch(text)
    return _from_match(found, decimal) if found is not None else None


def _from_match(found: re.Match[str], decimal: DecimalSign) -> _Numeral | None:
    """A number with the decimal sign that its text has, or, where that may be either, with the given one."""
    marks = [one["mark"].strip("{}") for one in _PIECE.finditer(found["factor"]) if one["mark"]]
    sign = marks[-1] if marks and (len(set(marks)) > 1 or len(marks) == 1) else ""
    if len(marks) > 1 and (len(set(marks[:-1])) > 1 or len(set(marks)) == 1):
        sign = ""  # 1,234,567 has groups alone.
    if len(marks) == 1 and re.search(r"(?<![0-9])[0-9]{1,3}(?:\{.\}|[.,])[0-9]{3}$", found["factor"]):
        sign = marks[0] if marks[0] == decimal else ""
    whole, part, behind = "", "", False
    for one in _PIECE.finditer(found["factor"]):
        if one["digits"]:
            part += one["digits"] if behind else ""
            whole += "" if behind else one["digits"]
        elif one["mark"] and one["mark"].strip("{}") == sign:
            behind = True
    if len(whole) + len(part) > 100:
        return None
    raised = next((one for one in _exponents(found) if one is not None), None)
    exponent = int(raised.translate(_RAISED).replace("\u2212", "-")) if raised is not None else None
    if exponent is not None and abs(exponent) > 400:
        return None
    return _Numeral(found["minus"] or "", whole, part, exponent)


def _exponents(found: re.Match[str]) -> Iterator[str | None]:
    for name in ("braced", "marked", "bracket", "upright", "bare", "raised", "exponent"):
        yield found[name]


def _in_maths(raw: str, at: int) -> bool:
    return raw.count("$", 0, at) % 2 == 1 or "\\(" in raw[:at]


def _written(raw: str, place: re.Match[str], numeral: _Numeral, sign: str) -> str:
    """A number in the way of the one at a place, with that decimal sign where it has none."""
    factor = place["factor"]
    pieces = list(_PIECE.finditer(factor))
    marks = [one["mark"] for one in pieces if one["mark"]]
    groups = [one["between"] for one in pieces if one["between"]]
    if len(marks) > 1 and not groups:
        groups = marks[:-1]
    in_maths = _in_maths(raw, place.start())
    mark = marks[-1] if marks else "{,}" if sign == "," and in_maths else sign
    group = groups[0] if groups else ""
    whole, part = numeral.whole, numeral.part
    if group and len(whole) > 3:
        first = len(whole) % 3 or 3
        whole = group.join([whole[:first], *(whole[i : i + 3] for i in range(first, len(whole), 3))])
    if group and group not in marks and len(part) > 4:
        part = group.join(part[i : i + 3] for i in range(0, len(part), 3))
    minus = (place["minus"] or "-") if numeral.minus else ""
    return minus + whole + (mark + part if part else "") + _power(place, numeral.exponent, in_maths)


def _power(place: re.Match[str], exponent: int | None, in_maths: bool) -> str:
    """A power of ten as at a place; empty where there is none any more."""
    if exponent is None:
        return ""
    if place["e"]:
        return f"{place['e']}{exponent}"
    if place["power"] is None:
        return f"e{exponent}"
    shown = str(exponent)
    old = next(one for one in _exponents(place) if one is not None)
    if place["raised"]:
        shown = shown.translate(_LOWERED)
    elif "\u2212" in old:
        shown = shown.replace("-", "\u2212")
    if place["bare"] and len(shown) > 1 and in_maths:
        shown = "{" + shown + "}"
    return f"{place['join']}10{place['power'].replace(old, shown)}"
