"""What each setting may be: one row a setting, with the reader that turns its text into fields."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal

from physcalc.exact import Form, read_number
from physcalc.problems import Text, nearest

from ..problems import SettingUnknown
from .grid import GRID_KEYS, GRID_SCHEMA, read_grid
from .languages import DecimalSign

#: Words of the page that `labels` may put others in place of.
LABELS = (
    "paper", "memo", "guide", "page", "of", "total", "mark", "marks", "time", "instructions", "question",
    "answer", "given", "working", "or", "definition", "slips", "slip", "gives", "why", "accept", "to", "carried",
    "sheet", "constants", "formulas", "problem", "draft",
    "topic", "level", "target", "unsaid", "colon",
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

#: A part of a JSON Schema.
Schema = Mapping[str, Any]
# YAML's readers make truth values of some of these words, or of all.
_YES_NO_SCHEMA: Schema = {"enum": [True, False, *_YES_NO]}


@dataclass(frozen=True, slots=True)
class Row:
    """One setting.

    Attributes:
        what: what it sets, in words.
        allowed: what it may be, in words.
        read: its reader.
        schema: what it may be, as a JSON Schema for an editor; what it passes the reader may still refuse.
        words: the words that it may be, to find the nearest.
        whole_document: whether it belongs to the document as a whole.
    """

    what: str
    allowed: str
    read: Reader
    schema: Schema
    words: tuple[str, ...] = ()
    whole_document: bool = False


def _choice(what: str, words: Mapping[str, Change], whole_document: bool = False) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        return words.get(value.value.strip()) if isinstance(value, Text) else None

    *first, last = words
    # `grouping: yes` is a truth value for some readers of YAML.
    spelt = [_YES_NO[word] for word in words if word in _YES_NO]
    schema = {"enum": [*words, *spelt]}
    return Row(what, f"{', '.join(first)} or {last}", read, schema, tuple(words), whole_document)


def _words(what: str, field: str, *words: str, whole_document: bool = False) -> Row:
    return _choice(what, {word: {field: word} for word in words}, whole_document)


def _yes_no(what: str, field: str, whole_document: bool = False) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        truth = _YES_NO.get(value.value.strip().lower()) if isinstance(value, Text) else None
        return None if truth is None else {field: truth}

    return Row(what, "yes or no", read, _YES_NO_SCHEMA, ("yes", "no"), whole_document)


def _text(
    what: str,
    field: str,
    allowed: str,
    pattern: str,
    make: Callable[[Text], object],
    whole_document: bool = True,
    schema: Schema | None = None,
) -> Row:
    def read(value: object, _: DecimalSign) -> Change | None:
        if not isinstance(value, Text) or not re.fullmatch(pattern, value.value.strip()):
            return None
        return {field: make(value.part(0))}

    typed = {"type": "string", "pattern": rf"^\s*(?:{pattern})\s*$"}
    return Row(what, allowed, read, schema or typed, (), whole_document)


def _limit(what: str, field: str, never: Fraction) -> Row:
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

    number = {"type": "number", "exclusiveMinimum": 0}
    typed = {"type": "string", "pattern": r"^\s*(never|[0-9.,].*)$"}
    schema = {"anyOf": [{"const": "never"}, number, typed]}
    return Row(what, "a number above zero, or never", read, schema, ("never",))


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


_NAMED_TEXTS: Schema = {
    "anyOf": [
        {"type": "object", "additionalProperties": {"type": ["string", "number"]}, "minProperties": 1},
        {"type": "string", "pattern": ":"},
    ]
}

#: Those that may also stand below `numbers`.
NUMBERS: Mapping[str, Row] = {
    "decimal": _choice(
        "the decimal sign; left out, the language decides",
        {"comma": {"decimal_typed": ","}, "point": {"decimal_typed": "."}},
    ),
    "grouping": _choice(
        "whether digits are set in groups of three",
        {
            "yes": {"group": True, "group_four": True},
            "from-five": {"group": True, "group_four": False},
            "no": {"group": False, "group_four": False},
        },
    ),
    "units": _words("units by negative powers or with a solidus", "unit_style", "powers", "solidus"),
    "standard-from": _limit("from which value up results are in standard form", "high", _NEVER),
    "standard-below": _limit("below which value results are in standard form", "low", Fraction(0)),
    "rounding": Row(
        "how ties are rounded, or to what results are rounded where find does not say",
        "half-up, half-even, or a form such as 2 dp or 3 sf",
        _rounding,
        {
            "anyOf": [
                {"enum": ["half-up", "half-even"]},
                {"type": "string", "pattern": r"^\s*([Tt][Oo]\s+)?[0-9]{1,2}\s*([Dd][Pp]|[Ss][Ff])\s*$"},
            ]
        },
        ("half-up", "half-even"),
    ),
}

TABLE: Mapping[str, Row] = {
    "sheet": _text(
        "the data and formula sheet",
        "sheet",
        "the name of a sheet or its file",
        ".+",
        lambda text: text.value,
        schema={"type": "string", "minLength": 1, "examples": ["school", "codata", "own.yaml"]},
    ),
    "total": _text(
        "the sum that the questions' marks must reach",
        "total",
        "a whole number of marks",
        "[0-9]{1,5}",
        lambda text: int(text.value),
        schema={
            "anyOf": [
                {"type": "integer", "minimum": 0, "maximum": 99_999},
                {"type": "string", "pattern": "^\\s*[0-9]{1,5}\\s*$"},
            ]
        },
    ),
    "draft": _yes_no(
        "whether a document with problems is written, each framed in its place", "draft", whole_document=True
    ),
    "edition": _words(
        "which edition is written where the command line does not say",
        "edition",
        "memo",
        "paper",
        "guide",
        whole_document=True,
    ),
    "lang": _text(
        "the language of the document",
        "lang",
        "a language tag such as en-ZA",
        LANG.pattern,
        lambda text: text.value,
    ),
    **NUMBERS,
    "carry": _words(
        "whether intermediate results go on unrounded or as printed", "carry", "unrounded", "rounded"
    ),
    "uncertainty": _words("how uncertainties combine", "uncertainty", "quadrature", "sum"),
    "uncertainty-figures": _choice(
        "to how many figures an uncertainty is printed",
        {"1": {"uncertainty_figures": 1}, "2": {"uncertainty_figures": 2}},
    ),
    "axes": _words(
        "how an axis of a graph names its unit: v / m·s⁻¹ or v (m·s⁻¹)", "axis_labels", "solidus", "brackets"
    ),
    "signs": _words("what goes into a substitution", "signs", "carried", "magnitudes", "both"),
    "axis": _text(
        "which direction is positive",
        "axis",
        'which way is positive, such as "right is positive"',
        ".+",
        lambda text: text,
        whole_document=False,
    ),
    "points": Row(
        "positions in a plane",
        'names with positions, such as "A: 0 m, 0 m; B: 3 m, 0 m"',
        _points,
        _NAMED_TEXTS,
    ),
    "units-in-substitution": _yes_no("whether units stand in the substitution", "units_in_substitution"),
    "writing-space": Row(
        "ruled lines in the paper for each mark",
        "yes, no, or how many lines for each mark",
        _writing_space,
        {
            "anyOf": [
                _YES_NO_SCHEMA,
                {"type": "integer", "minimum": 0, "maximum": 99},
                {"type": "string", "pattern": r"^\s*[0-9]{1,2}(\s*lines?(\s+per\s+mark)?)?\s*$"},
            ]
        },
        ("yes", "no"),
    ),
    "appendix": _words(
        "whether the data and formula sheet follows the document: nothing of it, what is used, or all",
        "appendix",
        "none",
        "used",
        "all",
        whole_document=True,
    ),
    "grid": Row(
        "what share of the marks each topic and each level is to have",
        f"keys below it: {', '.join(GRID_KEYS)}",
        read_grid,
        GRID_SCHEMA,
        whole_document=True,
    ),
    "labels": Row(
        "words of the page with others in their place",
        'words of the page with others, such as "question: Problem"',
        _labels,
        {
            "anyOf": [
                {
                    "type": "object",
                    "propertyNames": {"enum": list(LABELS)},
                    "additionalProperties": {"type": ["string", "number"]},
                    "minProperties": 1,
                },
                {"type": "string", "pattern": ":"},
            ]
        },
    ),
}
