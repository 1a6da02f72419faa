"""The short phrases of a calculation: find, use, take, accept."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from ..exact import Form
from ..problems import Span, Text
from ..problems.language import NameUnreadable, PhraseUnreadable
from ..units import ONE, Unit, read_unit
from . import tree as t
from .headings import Heading, read_heading
from .names import NAME_PATTERN, Name, read_name
from .parser import parse_expression
from .quantities import Typed, read_typed


@dataclass(frozen=True, slots=True)
class Find:
    """What is asked.

    Attributes:
        name: the quantity.
        unit: the unit asked; None where not said.
        form: places or figures, and standard form; None where nothing is said.
        with_direction: whether the direction belongs to the answer.
        span: the whole phrase.
        heading: the direction in a plane that the author's reasoning gives it, after `at`; None for none.
        with_percentage: whether the uncertainty is asked as a percentage too.
        unit_span: the place of the unit, or of the whole phrase where none is said.
        direction_span: the place of the words "with direction", or of the whole phrase.
        magnitude: whether the magnitude alone is asked (`|a|`).
    """

    name: Name
    unit: Unit | None
    form: Form | None
    standard: bool
    with_direction: bool
    span: Span
    heading: Heading | None = None
    with_percentage: bool = False
    unit_span: Span = field(default_factory=Span)
    direction_span: Span = field(default_factory=Span)
    magnitude: bool = False


_ASKED = re.compile(rf"\|\s*(?P<sized>{NAME_PATTERN})\s*\||(?P<name>{NAME_PATTERN})")
_CLAUSE = re.compile(
    r"\s+in\s+(?P<standard>standard form)(?=\s|$)"
    r"|\s+to\s+(?P<count>\d{1,2})\s*(?P<kind>dp|sf|decimal places?|significant figures?)(?=\s|$)"
    r"|\s+(?P<direction>with direction)(?=\s|$)"
    r"|\s+(?P<percentage>with percentage)(?: uncertainty)?(?=\s|$)"
    r"|\s+at\s+(?P<heading>\S.*)$"
    r"|\s+in\s+(?P<unit>.+?)(?=\s+to\s+\d|\s+in\s+standard|\s+with\s+(?:direction|percentage)|\s+at\s+|\s*$)"
)
_FIND_FORM = "a name, then in UNIT, to 2 dp or to 3 sf, in standard form, with direction: T in N to 2 dp"


def read_find(text: Text, default: Form, decimal: str = ".") -> Find:
    """Read `q_B in µC to 2 dp`, `t to 3 sf`, `F in standard form`, `v with direction`, `|a| to 2 dp`.

    Raises:
        PhraseUnreadable, NameUnreadable, and what units raise.
    """
    head = _ASKED.match(text.value)
    if head is None:
        raise PhraseUnreadable(text.span, "find", text.value, _FIND_FORM)
    name = read_name(head["sized"] or head["name"])
    if name is None:
        raise NameUnreadable(text.at(0, head.end()), head[0])
    if bracket := re.compile(r"\(\w+\)").match(text.value, head.end()):
        raise NameUnreadable(text.at(0, bracket.end()), text.value[: bracket.end()])
    unit: Unit | None = None
    kind: Literal["places", "figures"] | None = None
    count = 0
    standard = direction = percentage = False
    heading: Heading | None = None
    unit_span = direction_span = text.span
    place = head.end()
    while place < len(text.value.rstrip()):
        found = _CLAUSE.match(text.value, place)
        if found is None:
            raise PhraseUnreadable(text.part(place).span, "find", text.value, _FIND_FORM)
        if found["standard"]:
            standard = True
        elif found["count"]:
            kind = "places" if found["kind"].startswith("d") else "figures"
            count = int(found["count"])
            if count > 30 or (kind == "figures" and count == 0):
                raise PhraseUnreadable(
                    text.at(found.start("count"), found.end("count")),
                    "find",
                    found["count"],
                    "at most 30 digits",
                )
        elif found["direction"]:
            direction = True
            direction_span = text.at(found.start("direction"), found.end("direction"))
        elif found["percentage"]:
            percentage = True
        elif found["heading"]:
            heading = read_heading(text.part(found.start("heading")), decimal)
        else:
            typed = text.part(found.start("unit"), found.end("unit"))
            unit, unit_span = read_unit(typed, alone=True), typed.span
        place = found.end()
    form: Form | None = None
    if kind is not None:
        form = Form(kind, count, True if standard else None)
    elif standard:
        form = Form(default.kind, default.count, True)
    return Find(
        name, unit, form, standard, direction, text.span, heading, percentage, unit_span, direction_span,
        bool(head["sized"]),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Use:
    """A formula of the sheet and what stands for what.

    Attributes:
        slug: its name on the sheet.
        slug_span: where that stands.
        replaced: the sheet's names and the expressions that take their place.
    """

    slug: str
    slug_span: Span
    replaced: tuple[tuple[Name, t.Expr, Span], ...]


def read_use(text: Text, decimal: str) -> Use:
    """Read `coulomb (Q_1 = q_A, Q_2 = q_B)`; the sheet's title of the formula may stand for its name.

    Raises:
        PhraseUnreadable, NameUnreadable, FormulaUnreadable.
    """
    form = "the formula's name on the sheet, then what stands for what: coulomb (Q_1 = q_A, Q_2 = q_B)"
    found = re.fullmatch(
        r"(?P<slug>[A-Za-z0-9](?:[\w'’ -]*[\w'’])?)\s*(?:\((?P<pairs>.*)\))?", text.value.strip()
    )
    if found is None:
        raise PhraseUnreadable(text.span, "use", text.value, form)
    lead = len(text.value) - len(text.value.lstrip())
    replaced = []
    if found["pairs"] is not None:
        start = lead + found.start("pairs")
        for begin, end in _pieces(found["pairs"]):
            piece = text.part(start + begin, start + end)
            name_text, equals, _ = piece.value.partition("=")
            name = read_name(name_text)
            if not equals or name is None:
                raise PhraseUnreadable(piece.span, "use", piece.value, form)
            replaced.append((name, parse_expression(piece.part(len(name_text) + 1), decimal), piece.span))
    return Use(found["slug"], text.at(lead, lead + len(found["slug"])), tuple(replaced))


def _pieces(text: str) -> list[tuple[int, int]]:
    """Stretches between the commas that stand outside brackets and braces and not between digits."""
    pieces, depth, start = [], 0, 0
    for index, character in enumerate(text):
        depth += (character in "({") - (character in ")}")
        between = text[index - 1 : index].isdigit() and text[index + 1 : index + 2].isdigit()
        if character in ",;" and depth == 0 and not (character == "," and between):
            pieces.append((start, index))
            start = index + 1
    pieces.append((start, len(text)))
    return pieces


@dataclass(frozen=True, slots=True)
class Take:
    """Which root is meant.

    Attributes:
        kind: "positive", "negative", "largest", "smallest", or a comparison "<", ">", "≤", "≥".
        name: the name compared; None for the words.
        bound: the value compared with.
        text: as typed.
        span: its place.
    """

    kind: str
    name: Name | None
    bound: Typed | None
    text: str
    span: Span


def read_take(text: Text, decimal: str) -> Take:
    """Read `positive`, `largest`, `t > 2 s`. Raises PhraseUnreadable and what quantities raise."""
    form = "positive, negative, largest, smallest, or a comparison: t > 2 s"
    word = text.value.strip().lower()
    if word in ("positive", "negative", "largest", "smallest"):
        return Take(word, None, None, text.value.strip(), text.span)
    found = re.fullmatch(
        rf"(?P<name>{NAME_PATTERN})\s*(?P<sign><=|>=|[<>≤≥])\s*(?P<value>.+)", text.value.strip()
    )
    if found is None:
        raise PhraseUnreadable(text.span, "take", text.value, form)
    lead = len(text.value) - len(text.value.lstrip())
    bound = read_typed(text.part(lead + found.start("value"), lead + found.end("value")), decimal)
    name = read_name(found["name"])
    if bound is None or name is None:
        raise PhraseUnreadable(text.span, "take", text.value, form)
    sign = {"<=": "≤", ">=": "≥"}.get(found["sign"], found["sign"])
    return Take(sign, name, bound, text.value.strip(), text.span)


@dataclass(frozen=True, slots=True)
class Accept:
    """What markers may accept.

    Attributes:
        kind: "percent" (of the computed value), "plus-minus", "range", or "choices": what honest choices lead to
            (intermediate results rounded or not, other customary values of a constant).
        low, high: percentage, or half-width, or the two ends (numbers in `unit`).
        unit: the unit; ONE for a percentage.
        span: its place.
    """

    kind: Literal["percent", "plus-minus", "range", "choices"]
    low: Fraction
    high: Fraction
    unit: Unit
    span: Span


def read_accept(text: Text, decimal: str) -> Accept:
    """Read `2 %`, `± 0.02 µC`, `0.70 to 0.74 µC` or `choices`. Raises PhraseUnreadable and what units raise."""
    form = "a percentage (2 %), a half-width (± 0.02 µC), a range (0.70 to 0.74 µC) or choices"
    value = text.value
    lead = len(value) - len(value.lstrip())
    if value.strip() == "choices":
        return Accept("choices", Fraction(0), Fraction(0), ONE, text.span)
    if value.strip().startswith("±"):
        start = value.index("±") + 1
        typed = read_typed(text.part(start), decimal)
        if typed is not None:
            return Accept("plus-minus", typed.number.value, typed.number.value, typed.unit, text.span)
    elif found := re.search(r"\s+to\s+", value):
        low = read_typed(text.part(lead, found.start()), decimal)
        high = read_typed(text.part(found.end()), decimal)
        if low is not None and high is not None and low.unit in (ONE, high.unit):
            return Accept("range", low.number.value, high.number.value, high.unit, text.span)
    else:
        typed = read_typed(text.part(lead), decimal)
        if typed is not None and typed.uncertainty is not None:
            number, unit = typed.number.value, typed.unit
            width, width_unit = typed.uncertainty
            if width_unit.text() == unit.text():
                return Accept("range", number - width.value, number + width.value, unit, text.span)
        elif typed is not None and [f.symbol for f in typed.unit.factors] == ["%"]:
            return Accept("percent", typed.number.value, typed.number.value, ONE, text.span)
    raise PhraseUnreadable(text.span, "accept", value, form)
