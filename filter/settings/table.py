"""What each setting may be: one row a setting, with the reader that turns its text into fields."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from physcalc.exact import Form, read_number
from physcalc.problems import Text, nearest

from ..problems import SettingUnknown
from .languages import DecimalSign

#: Words of the page that `labels` may put others in place of.
LABELS = (
    "paper", "memo", "guide", "page", "of", "total", "mark", "marks", "time", "instructions", "question",
    "answer", "given", "working", "or", "definition", "slips", "slip", "gives", "why", "accept", "to", "carried",
    "sheet", "constants", "formulas", "problem", "draft",
)  # fmt: skip

LANG = re.compile(r"[A-Za-z]{2,3}(?:[-_][A-Za-z0-9]{1,8}){0,4}")

#: Fields of `Settings` with their new values.
Change = Mapping[str, object]
#: Reads a value, given the decimal sign in force; None where the value is not allowed.
Reader = Callable[[object, DecimalSign], Change | None]

# `standard-from: never`: no number that can be typed or computed reaches this.
_NEVER = Fraction(10**6000)
# Lines for each mark where `writing-space` only says yes. Common practice, no source.
_LINES_PER_MARK = 2

_FORM = re.compile(r"(?:to\s+)?(\d{1,2})\s*(dp|sf)", re.IGNORECASE)
_LINES = re.compile(r"(\d{1,2})(?:\s*lines?(?:\s+per\s+mark)?)?")
_YES_NO = {"yes": True, "no": False, "true": True, "false": False, "on": True, "off": False}


@dataclass(frozen=True, slots=True)
class Row:
    """One setting.

    Attributes:
        allowed: what it may be, in words.
        read: its reader.
        words: the words that it may be, to find the nearest.
        whole_document: whether it belongs to the document as a whole.
    """

    allowed: str
    read: Reader
    words: tuple[str, ...] = ()
    whole_document: bool = False


def _choice(words: Mapping[str, Change], whole_document: bool = False) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        return words.get(value.value.strip()) if isinstance(value, Text) else None

    *first, last = words
    return Row(f"{', '.join(first)} or {last}", read, tuple(words), whole_document)


def _words(field: str, *words: str, whole_document: bool = False) -> Row:
    return _choice({word: {field: word} for word in words}, whole_document)


def _yes_no(field: str, whole_document: bool = False) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        truth = _YES_NO.get(value.value.strip().lower()) if isinstance(value, Text) else None
        return None if truth is None else {field: truth}

    return Row("yes or no", read, ("yes", "no"), whole_document)


def _text(
    field: str, allowed: str, pattern: str, make: Callable[[Text], object], whole_document: bool = True
) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        if not isinstance(value, Text) or not re.fullmatch(pattern, value.value.strip()):
            return None
        return {field: make(value.part(0))}

    return Row(allowed, read, (), whole_document)


def _limit(field: str, never: Fraction) -> Row:
    def read(value: object, decimal: DecimalSign) -> Change | None:
        if not isinstance(value, Text):
            return None
        text = value.part(0)
        if text.value == "never":
            return {field: never}
        found = read_number(text, 0, decimal)
        if found is None or found[1] != len(text.value) or found[0].value <= 0:
            return None
        return {field: found[0].value}

    return Row("a number above zero, or never", read, ("never",))


def _rounding(value: object, _: DecimalSign) -> Change | None:
    if not isinstance(value, Text):
        return None
    typed = value.value.strip()
    if typed in {"half-up", "half-even"}:
        return {"rule": typed}
    found = _FORM.fullmatch(typed)
    if found is None:
        return None
    kind: Literal["places", "figures"] = "places" if found[2].lower() == "dp" else "figures"
    count = int(found[1])
    return {"form": Form(kind, count, None)} if count <= 30 and (count or kind == "places") else None


def _writing_space(value: object, _: DecimalSign) -> Change | None:
    if not isinstance(value, Text):
        return None
    typed = value.value.strip().lower()
    if typed in _YES_NO:
        return {"writing_space": _LINES_PER_MARK if _YES_NO[typed] else 0}
    found = _LINES.fullmatch(typed)
    return {"writing_space": int(found[1])} if found else None


def _pairs(value: object) -> list[tuple[Text, Text]] | None:
    """Names with their texts, from keys below or from one text such as "A: 0 m, 0 m; B: 1 m, 0 m"."""
    found: list[tuple[Text, Text]] = []
    if isinstance(value, Text):
        at = 0
        for piece in value.value.split(";"):
            colon = piece.find(":")
            if colon < 0:
                return None
            found.append((value.part(at, at + colon), value.part(at + colon + 1, at + len(piece))))
            at += len(piece) + 1
    elif isinstance(value, Iterable):
        for pair in value:
            match pair:
                case (Text() as name, Text() as text):
                    found.append((name, text))
                case _:
                    return None
    return found if found and all(name.value and text.value for name, text in found) else None


def _points(value: object, _: DecimalSign) -> Change | None:
    found = _pairs(value)
    return None if found is None else {"points": tuple(found)}


def _labels(value: object, _: DecimalSign) -> Change | None:
    found = _pairs(value)
    if found is None:
        return None
    for name, _text_of_it in found:
        if name.value not in LABELS:
            raise SettingUnknown(name.span, name.value, nearest(name.value, LABELS))
    return {"labels": tuple((name.value, text.value) for name, text in found)}


#: Those that may also stand below `numbers`.
NUMBERS: Mapping[str, Row] = {
    "decimal": _choice({"comma": {"decimal_typed": ","}, "point": {"decimal_typed": "."}}),
    "grouping": _choice(
        {
            "yes": {"group": True, "group_four": True},
            "from-five": {"group": True, "group_four": False},
            "no": {"group": False, "group_four": False},
        }
    ),
    "units": _words("unit_style", "powers", "solidus"),
    "standard-from": _limit("high", _NEVER),
    "standard-below": _limit("low", Fraction(0)),
    "rounding": Row(
        "half-up, half-even, or a form such as 2 dp or 3 sf", _rounding, ("half-up", "half-even")
    ),
}

TABLE: Mapping[str, Row] = {
    "sheet": _text("sheet", "the name of a sheet or its file", ".+", lambda text: text.value),
    "total": _text("total", "a whole number of marks", "[0-9]{1,5}", lambda text: int(text.value)),
    "draft": _yes_no("draft", whole_document=True),
    "edition": _words("edition", "memo", "paper", "guide", whole_document=True),
    "lang": _text("lang", "a language tag such as en-ZA", LANG.pattern, lambda text: text.value),
    **NUMBERS,
    "carry": _words("carry", "unrounded", "rounded"),
    "signs": _words("signs", "carried", "magnitudes", "both"),
    "axis": _text(
        "axis",
        'which way is positive, such as "right is positive"',
        ".+",
        lambda text: text,
        whole_document=False,
    ),
    "points": Row('names with positions, such as "A: 0 m, 0 m; B: 3 m, 0 m"', _points),
    "units-in-substitution": _yes_no("units_in_substitution"),
    "writing-space": Row("yes, no, or how many lines for each mark", _writing_space, ("yes", "no")),
    "appendix": _words("appendix", "none", "used", "all", whole_document=True),
    "labels": Row('words of the page with others, such as "question: Problem"', _labels),
}
