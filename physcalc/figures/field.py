"""Fields: of point charges, between plates, around wires and magnets; what there is, not yet its lines."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar, Literal

from ..checking.scope import Scope
from ..exact import Real
from ..problems import Problem, Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import (
    FieldChargesUnequal,
    FieldChargeUnknown,
    SituationEmpty,
    SituationThingsMany,
)
from .drawn import Diagram, Drawn, FigureKind
from .situation import overlong, said, unknown
from .situation_phrases import BODY
from .situation_plan import PlanMaker
from .situation_reading import MOST_LINES, Amount, AmountReader, FieldText, Line, dimension_of, fit
from .situation_scenes import Measure, Placed

#: How many times the smallest charge the largest may be.
MOST_RATIO = 8
#: The most charges in one figure, and the most lines of one.
MOST_CHARGES, MOST_LINES_EACH = 6, 48
_WORDS = (
    "charge",
    "positive charge",
    "negative charge",
    "point",
    "distance",
    "parallel plates",
    "wire",
    "solenoid",
    "bar magnet",
)
_SOME = ("charge", "parallel plates", "straight wire", "solenoid", "bar magnet")


@dataclass(frozen=True, slots=True)
class Charges:
    """Point charges.

    Attributes:
        placed: the charges and points, with their places.
        charges: of each its charge in coulombs; 0 for a point.
        measures: distances between them.
        scaled: whether every place is known.
    """

    placed: tuple[Placed, ...]
    charges: tuple[float, ...]
    measures: tuple[Measure, ...]
    scaled: bool


@dataclass(frozen=True, slots=True)
class Plates:
    """Two parallel plates.

    Attributes:
        apart: the label of their distance; None for none.
        voltage: the label of the voltage between them; None for none.
        top: the sign of the upper plate.
    """

    apart: Amount | None
    voltage: Amount | None
    top: int


@dataclass(frozen=True, slots=True)
class Wire:
    """A long straight wire, seen along itself.

    Attributes:
        current: the label of its current; None for none.
        out: whether the current comes towards the reader.
    """

    current: Amount | None
    out: bool


@dataclass(frozen=True, slots=True)
class Magnet:
    """A bar magnet or a solenoid, seen from the side.

    Attributes:
        kind: which.
        turns: how many turns of a solenoid are drawn.
        current: the label of its current; None for none.
        left: whether the north pole is at the left.
    """

    kind: Literal["bar magnet", "solenoid"]
    turns: int
    current: Amount | None
    left: bool


@dataclass(frozen=True, slots=True)
class FieldDiagram(Diagram):
    """A field.

    Attributes:
        source: what makes it.
        lines: how many lines the charge with the fewest has; None for as many as look well.
        equipotentials: how many equipotential lines; 0 for none.
        values: whether values stand beside symbols.
    """

    KIND: ClassVar[FigureKind] = "field"

    source: Charges | Plates | Wire | Magnet
    lines: int | None
    equipotentials: int
    values: bool = True


def field(body: FieldText, scope: Scope) -> Drawn:
    """The field that an author describes.

    Args:
        body: what is said.
        scope: what names mean there.

    Returns:
        What makes the field; nothing where a part of it cannot be drawn.
    """
    problems: list[Problem] = []
    if len(body.things) > MOST_LINES:
        return Drawn(None, {}, (SituationThingsMany(body.things[MOST_LINES].span, MOST_LINES),))
    too_long = [problem for text in body.things if (problem := overlong(text)) is not None]
    if too_long:
        return Drawn(None, {}, tuple(too_long))
    if not body.things:
        return Drawn(None, {}, (SituationEmpty(body.span),))
    reader = AmountReader(scope, body.conventions)
    lines = _number(body.lines, "lines", 3, 24, problems)
    surfaces = 0
    if body.equipotentials is not None and body.equipotentials.value.strip() not in ("yes", "no"):
        surfaces = _number(body.equipotentials, "equipotentials", 1, 24, problems) or 0
    elif said(body.equipotentials, "equipotentials", problems, False):
        surfaces = 8
    source = _source(body.things, reader, problems)
    if lines is not None and isinstance(source, Charges) and body.lines is not None:
        problems += _crowded(source, lines, body.lines)
    values = said(body.values, "values", problems, False)
    if source is None or any(problem.level != "note" for problem in problems):
        return Drawn(None, {}, tuple(problems))
    return Drawn(FieldDiagram(source, lines, surfaces, values), {}, tuple(problems))


def _crowded(source: Charges, lines: int, typed: Text) -> list[Problem]:
    """The problem of more lines at the largest charge than can be told apart."""
    sizes = [abs(size) for size in source.charges if size]
    most = int(MOST_LINES_EACH * min(sizes) / max(sizes))
    if lines <= most:
        return []
    return [FigurePhraseUnreadable(typed.span, "lines of these charges", typed.value, f"at most {most}")]


def _number(text: Text | None, what: str, least: int, most: int, problems: list[Problem]) -> int | None:
    if text is None:
        return None
    typed = text.value.strip()
    if re.fullmatch(r"[0-9]{1,3}", typed) and least <= int(typed) <= most:
        return int(typed)
    form = f"a whole number from {least} to {most}" + (", yes or no" if what != "lines" else "")
    problems.append(FigurePhraseUnreadable(text.span, what, typed, form))
    return None


def _source(
    things: Sequence[Text], reader: AmountReader, problems: list[Problem]
) -> Charges | Plates | Wire | Magnet | None:
    try:
        first = things[0]
        other = _other(first, reader)
        if other is None:
            return _charges(things, reader, problems)
        for text in things[1:]:
            raise FigurePhraseUnreadable(
                text.span, "a part of this field", text.value, "one source in each figure"
            )
        return other
    except Problem as problem:
        problems.append(problem)
        return None


def _other(text: Text, reader: AmountReader) -> Plates | Wire | Magnet | None:
    line = Line(text)
    head = line.clauses[0]
    if re.match(r"(?:two\s+)?(?:parallel\s+)?plates\b", head.value, re.IGNORECASE):
        line.head(r"(?:two\s+)?(?:parallel\s+)?plates", "plates", "parallel plates, d apart")
        apart = voltage = None
        if (found := line.take(r"(?:distance\s+(?P<far>.+)|(?P<apart>.+?)\s+apart)", "d apart")) is not None:
            apart = reader.length(found.part("far" if "far" in found else "apart"))
        if (
            found := line.take(r"(?:voltage|potential\s+difference)\s+(?P<volts>.+)", "voltage V")
        ) is not None:
            voltage = reader.amount(found.part("volts"), "voltage", "V")
        top = line.take(r"(?:top|upper)\s+(?:plate\s+)?(?P<sign>positive|negative)", "top positive")
        line.finish("plates")
        return Plates(apart, voltage, -1 if top is not None and top.word("sign") == "negative" else 1)
    if re.match(r"(?:long\s+)?(?:straight\s+)?wire\b", head.value, re.IGNORECASE):
        line.head(r"(?:long\s+)?(?:straight\s+)?wire", "a wire", "straight wire, current I, out of the page")
        current = _current(line, reader)
        way = line.take(r"(?P<way>out\s+of|into)\s+the\s+(?:page|paper|plane)", "out of the page")
        line.finish("a wire")
        return Wire(current, way is None or way.word("way") != "into")
    if re.match(r"solenoid\b|(?:bar\s+)?magnet\b", head.value, re.IGNORECASE):
        kind = line.head(r"(?P<kind>solenoid|(?:bar\s+)?magnet)", "a magnet", "bar magnet, or solenoid").word(
            "kind"
        )
        current, turns = _current(line, reader), 8
        if (found := line.take(r"(?P<count>\d{1,3})\s+turns", "8 turns")) is not None:
            turns = int(found.word("count"))
            if not 3 <= turns <= 16:
                raise FigurePhraseUnreadable(
                    found.text.span, "the turns of a solenoid", found.text.value, "3 to 16 turns"
                )
        left = line.take(r"north\s+(?:pole\s+)?(?:at|on)\s+the\s+(?P<side>left|right)", "north at the left")
        line.finish("a magnet")
        magnet: Literal["bar magnet", "solenoid"] = "solenoid" if kind == "solenoid" else "bar magnet"
        return Magnet(magnet, turns, current, left is not None and left.word("side") == "left")
    return None


def _current(line: Line, reader: AmountReader) -> Amount | None:
    found = line.take(r"current\s+(?P<amps>.+)", "current I")
    return reader.amount(found.part("amps"), "current", "A") if found is not None else None


def _charges(things: Sequence[Text], reader: AmountReader, problems: list[Problem]) -> Charges | None:
    pattern = rf"{BODY}|(?:(?:positive|negative)\s+)?(?:point\s+)?(?:charge|point|distance)\b.*"
    for text in things:
        if fit(pattern, text) is None:
            problems.append(unknown(text, _WORDS, _SOME))
    if problems:
        return None
    plan = PlanMaker(reader, problems).plan(things)
    if plan is None:
        return None
    values: list[float] = []
    known = any(_charge(one) is not None for one in plan.bodies)
    typed = [
        text for text in things if re.match(r"(?:distance|line|angle)\b", text.value, re.IGNORECASE) is None
    ]
    for text, placed in zip(typed, plan.bodies, strict=True):
        charge = _charge(placed)
        # Signs alone make charges of one size.
        value = float(charge) if charge is not None else 0.0 if known else float(placed.sign)
        if placed.kind == "charge" and value == 0:
            raise FieldChargeUnknown(text.span, placed.body.key)
        values.append(value if placed.kind == "charge" else 0.0)
    sizes = [(abs(value), one.body.key) for value, one in zip(values, plan.bodies, strict=True) if value]
    if not sizes:
        raise SituationEmpty(things[0].span)
    if len(sizes) > MOST_CHARGES:
        raise SituationThingsMany(things[0].span, MOST_CHARGES)
    if max(sizes)[0] > MOST_RATIO * min(sizes)[0] * (1 + 1e-9):
        ratio = f"{max(sizes)[0] / min(sizes)[0]:.0f}"
        raise FieldChargesUnequal(things[0].span, min(sizes)[1], ratio, MOST_RATIO)
    return Charges(plan.bodies, tuple(values), plan.measures, plan.scaled)


def _charge(placed: Placed) -> Real | None:
    """The charge that is written at a body; None where that is none."""
    for label in placed.body.labels:
        datum = label.datum
        if (
            placed.kind == "charge"
            and datum is not None
            and datum.quantity.unit.dimension == dimension_of("C")
        ):
            return datum.quantity.value
    return None
