"""Pieces of motion graphs and curves of formulas, read from what an author types."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from ..checking.scope import Datum, Quantity, Scope
from ..exact import Real, RealError
from ..language import tree as t
from ..language.names import NAME_PATTERN, Name, read_name
from ..language.parser import parse_expression
from ..problems import Problem, Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_graphs import GraphPiecesGap, GraphPiecesOverlap
from ..units import ONE, read_unit
from .graph_axes import AxisMaking, amount, amounts, beyond, unit_of_formula, with_names
from .graph_diagram import Curve, Pair, Stretch
from .graph_slope import height

#: A number with what may be its unit.
_WITH_UNIT = re.compile(r"(?<![\w^_.,])\d+(?:[.,]\d+)?\s*(?P<unit>[^\W\d_][\w\^⁻¹²³⁴/·-]*)")
#: More pieces or curves than this are too many for one picture.
MOST_PIECES = 40
#: A curve is drawn through so many places.
SAMPLES = 144

_TO = re.compile(r"\s+to\s+")
_EQUALS = re.compile(rf"\s*(?P<name>{NAME_PATTERN})\s*=\s*")
_FOR = re.compile(rf"\s+(?:for\s+(?P<name>{NAME_PATTERN})\s+)?from\s+(?P<start>.+?)\s+to\s+(?P<end>.+)")
_STRETCH = "where it begins and ends, 0 s to 4 s"
_HEIGHT = "0 m/s to 8 m/s, to 8 m/s, 8 m/s, constant or a formula"
_CURVE = "a formula with its range: s = u t + 1/2 a t^2 for t from 0 s to 5 s"


def read_pieces(
    lines: Sequence[tuple[Text, Text]], x: AxisMaking, y: AxisMaking, scope: Scope, problems: list[Problem]
) -> list[Stretch]:
    """The pieces of one graph, in the order of x.

    Args:
        lines: each piece: its stretch of x, and its y.
        x, y: the axes, whose units the pieces settle.
        scope: what names mean.
        problems: takes what is wrong with single pieces.
    """
    pieces: list[Stretch] = []
    for key, value in lines[:MOST_PIECES]:
        try:
            piece = _piece(key, value, pieces[-1] if pieces else None, x, y, scope)
        except Problem as problem:
            problems.append(problem)
            if not pieces:
                return []  # What follows may rest on it.
            continue
        if pieces and piece.start < pieces[-1].end:
            problems.append(GraphPiecesOverlap(key.span, key.value, pieces[-1].text.value))
            continue
        if pieces and piece.start > pieces[-1].end:
            problems.append(GraphPiecesGap(key.span, key.value, pieces[-1].text.value))
        pieces.append(piece)
    for key, _ in lines[MOST_PIECES:]:
        form = f"at most {MOST_PIECES} pieces, or nobody could read the picture"
        problems.append(FigurePhraseUnreadable(key.span, "a piece of this graph", key.value, form))
    return pieces


def _piece(
    key: Text, value: Text, before: Stretch | None, x: AxisMaking, y: AxisMaking, scope: Scope
) -> Stretch:
    ends = _split(key)
    if ends is None:
        raise FigurePhraseUnreadable(key.span, "a stretch of the x axis", key.value, _STRETCH)
    start, end = (x.number(one) for one in amounts(*ends, x, scope))
    if end <= start:
        raise FigurePhraseUnreadable(
            key.span, "a stretch of the x axis", key.value, f"{_STRETCH}, from left to right"
        )
    typed = value.part(0)
    formula = _formula_in(typed, x)
    if formula is not None:
        return curve_between(formula, start, end, x, y, scope, key)
    last = before.last[1] if before is not None else None
    if re.fullmatch(r"constant(?:\s+at\s+.+)?", typed.value) and " at " not in typed.value:
        if last is None:
            raise FigurePhraseUnreadable(
                value.span, "the first piece", value.value, "constant at 8 m/s, or 8 m/s"
            )
        heights = (last, last)
    elif typed.value.startswith("to ") and last is not None:
        heights = (last, y.number(amount(typed.part(3), y, scope)))
    elif (sides := _split(typed)) is not None:
        low, high = amounts(*sides, y, scope)
        heights = (y.number(low), y.number(high))
    else:
        level = typed.part(len("constant at")) if typed.value.startswith("constant at") else typed
        if not level.value or level.value.startswith("to "):
            raise FigurePhraseUnreadable(value.span, "the height of a piece", value.value, _HEIGHT)
        one = y.number(amount(level, y, scope))
        heights = (one, one)
    return Stretch(start, end, (((start, heights[0]), (end, heights[1])),), None, key)


def _split(text: Text) -> tuple[Text, Text] | None:
    """The two sides of a `to`."""
    found = list(_TO.finditer(text.value))
    if len(found) != 1:
        return None
    return text.part(0, found[0].start()), text.part(found[0].end())


def _formula_in(text: Text, x: AxisMaking) -> Text | None:
    """The formula that a piece is given by; None for a height or two."""
    equals = _EQUALS.match(text.value)
    if equals is not None:
        return text.part(equals.end())
    if x.name is None or _TO.search(text.value):
        return None
    try:
        tree = parse_expression(text, x.conventions.decimal)
    except Problem:
        return None
    return text if x.name in t.names_in(tree) else None


def read_curve(text: Text, x: AxisMaking, y: AxisMaking, scope: Scope) -> tuple[Name | None, Stretch]:
    """A curve by its formula and its range, and the name on its left side where that is not the axis's.

    Raises:
        Problem: it cannot be read or has no value anywhere.
    """
    found = _FOR.search(text.value)
    if found is None or found.end() != len(text.value):
        raise FigurePhraseUnreadable(text.span, "a curve", text.value, _CURVE)
    # "from 0 s to 5 s" can mean the x axis alone.
    if found["name"] is not None and (x.name is None or read_name(found["name"]) != x.name):
        form = f"for {x.key} from … to …: {x.key} is what stands on the x axis"
        place = text.part(found.start("name"), found.end("name"))
        raise FigurePhraseUnreadable(
            place.span, "the quantity that the curve is drawn along", place.value, form
        )
    ends = amounts(
        text.part(found.start("start"), found.end("start")), text.part(found.start("end")), x, scope
    )
    start, end = (x.number(one) for one in ends)
    if end <= start:
        place = text.part(found.start("start"))
        raise FigurePhraseUnreadable(
            place.span, "a range", place.value, "from the smaller value to the larger"
        )
    whole = text.part(0, found.start())
    equals = _EQUALS.match(whole.value)
    name = read_name(equals["name"]) if equals is not None else None
    formula = whole.part(equals.end()) if equals is not None else whole
    return (name if name != y.name else None), curve_between(formula, start, end, x, y, scope, text)


def _no_units(formula: Text, scope: Scope) -> None:
    """Raises FigurePhraseUnreadable for a number with its unit in a formula, whose letters mean quantities."""
    for found in _WITH_UNIT.finditer(formula.value):
        first = re.match(NAME_PATTERN, found["unit"])
        name = read_name(first[0]) if first is not None else None
        if name is None or scope.find(name) is not None:
            continue
        try:
            read_unit(Text(found["unit"]))
        except Problem:
            continue
        place = formula.part(found.start(), found.end())
        form = f'a name there, and its value under "given": "k: {place.value}"'
        raise FigurePhraseUnreadable(place.span, "a part of a formula of names", place.value, form)


def curve_between(
    formula: Text, start: Fraction, end: Fraction, x: AxisMaking, y: AxisMaking, scope: Scope, text: Text
) -> Stretch:
    """The curve of a formula between two places of the x axis.

    Raises:
        Problem: it cannot be read, its dimension is not that of y, or it has no value anywhere.
    """
    if x.name is None:
        form = "a straight piece: a formula needs a name on the x axis"
        raise FigurePhraseUnreadable(formula.span, "a piece of this graph", formula.value, form)
    own = {x.name: Datum(x.name, Quantity(Real.of(1), x.unit or ONE), "given", "")}
    _no_units(formula, scope.inside(own))
    tree, data = with_names(parse_expression(formula, x.conventions.decimal), scope, own, x.conventions)
    y.settle(unit_of_formula(tree, data, x.conventions), formula.span)
    values = tuple((name, datum.quantity.value) for name, datum in data.items() if name != x.name)
    y.used += [datum for name, datum in data.items() if name != x.name]
    curve = Curve(tree, x.name, values)
    lines: list[list[Pair]] = [[]]
    failed: RealError | None = None
    for at in range(SAMPLES + 1):
        place = start + (end - start) * Fraction(at, SAMPLES)
        try:
            lines[-1].append((place, y.number(height(curve, x.value(place)))))
        except RealError as error:
            failed = error
            if lines[-1]:
                lines.append([])
    drawn = tuple(tuple(line) for line in lines if len(line) > 1)
    if not drawn:
        raise beyond(formula.span, failed or RealError("the formula has no value here"))
    return Stretch(start, end, drawn, curve, text)
