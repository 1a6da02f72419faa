"""The picture of a field. The one door to numpy and contourpy: no document without a field loads them."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from physcalc.figures.field import Charges, FieldDiagram, Magnet, Plates, Wire
from physcalc.figures.situation_scenes import Plan
from physcalc.language.words import punctuated

from .amounts import Labels
from .board import Board, beside, distance, polar
from .field_lines import Charge, clipped, field_lines, potential, strength
from .field_sources import magnet, plates, wire
from .figure import Figure, Look
from .kept import kept
from .letters import box_of
from .picture import Box, Pen, Point
from .situation_plan import levels, placed, sphere
from .situation_words import plan_words
from .words import word

#: Charges fill no more than this of a picture, in millimetres; around them is room for their field.
_WIDE, _HIGH, _AROUND = 58.0, 42.0, 29.0
_RADIUS = 3.2
_LINE = Pen(0.28)
_SURFACE = Pen(0.18, "dashed")
#: The grid in which equipotential lines are looked for, in millimetres.
_STEP = 0.5


def field(diagram: FieldDiagram, look: Look) -> Figure:
    """The picture of a field.

    Args:
        diagram: what makes the field.
        look: how figures look.
    """
    labels = Labels(look, diagram.values)
    board = Board()
    match diagram.source:
        case Charges():
            note = _charges(board, diagram.source, diagram, labels)
            # Labels at the edge are not to be cut off, and the room beside the lines is even.
            return Figure(board.picture(), _words(diagram.source, diagram, labels), (), note)
        case Plates():
            said = plates(board, diagram.source, diagram, labels)
        case Wire():
            said = wire(board, diagram.source, labels)
        case Magnet():
            said = magnet(board, diagram.source, labels, contours)
    text = "; ".join(part for part in said if part)
    return Figure(board.picture(), text[:1].upper() + text[1:] + ".")


def contours(
    values: Callable[[Any, Any], Any], box: Box, step: float, heights: Sequence[float]
) -> list[list[list[Point]]]:
    """Lines of equal height of a function, for each height a list of lines.

    Args:
        values: the function of arrays of x and y.
        box: where it is looked at.
        step: of the grid, in millimetres.
        heights: the heights.
    """
    # Here, so that a document without a field loads neither.
    import contourpy
    import numpy

    across, up = max(2, round(box.width / step)) + 1, max(2, round(box.height / step)) + 1
    x, y = numpy.meshgrid(
        numpy.linspace(box.left, box.right, across), numpy.linspace(box.bottom, box.top, up)
    )
    made = contourpy.contour_generator(x, y, values(x, y), name="serial")
    found: list[Any] = [made.lines(height) for height in heights]
    return [[[(float(a), float(b)) for a, b in line] for line in lines] for lines in found]


# Charges.


def layout(source: Charges) -> tuple[dict[str, Point], bool, Box]:
    """The places of charges and points in the picture, whether they are to scale, and the frame of the lines."""
    places, scaled = placed(source.placed)
    xs, ys = [x for x, _ in places.values()], [y for _, y in places.values()]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    scale = min(1.0, _WIDE / width if width else 1.0, _HIGH / height if height else 1.0)
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    places = {key: ((x - middle[0]) * scale, (y - middle[1]) * scale) for key, (x, y) in places.items()}
    half_x, half_y = width * scale / 2 + _AROUND, height * scale / 2 + _AROUND
    return places, scaled and source.scaled, Box(-half_x, -half_y, half_x, half_y)


def charges_of(source: Charges) -> list[Charge]:
    """The charges as they stand in the picture."""
    places, _, _ = layout(source)
    return [
        Charge(places[one.body.key], size)
        for one, size in zip(source.placed, source.charges, strict=True)
        if size
    ]


def _charges(board: Board, source: Charges, diagram: FieldDiagram, labels: Labels) -> str:
    places, scaled, frame = layout(source)
    charges = charges_of(source)
    near = min(
        (distance(a, b) for n, a in enumerate(places.values()) for b in list(places.values())[n + 1 :]),
        default=99.0,
    )
    radius = min(_RADIUS, 0.3 * near)
    drawn, level = kept(
        ("charges", tuple(charges), diagram.lines, frame, diagram.equipotentials, radius),
        lambda: [
            [part for line in field_lines(charges, diagram.lines) for part in clipped(line.points, frame)],
            _surfaces(charges, frame, diagram.equipotentials, radius) if diagram.equipotentials else [],
        ],
    )
    for part in level:
        board.line(part, _SURFACE, role="equipotential")
    for part in drawn:
        board.line(part, _LINE, role="field line")
        _head(board, part, charges, radius)
    for one in source.placed:
        at = places[one.body.key]
        sphere(board, one, at, radius, labels)
        _label(board, labels.of(one.body.labels), at, 0.9 if one.kind == "point" else radius, one.body.key)
    if source.measures:
        bottom = frame.bottom - min(y for _, y in places.values())
        found = [(places[m.first], places[m.second], labels.runs(m.amount), m) for m in source.measures]
        if all(abs(y) < 1e-9 for _, y in places.values()):
            levels(board, found, first=-bottom + 4.0, lead=-frame.bottom + 1.0)
    return "" if scaled else word("not-to-scale", labels.look.lang)


def _head(board: Board, part: list[Point], charges: Sequence[Charge], radius: float) -> None:
    """The head of a line in the middle of what is seen of it, in the direction of the field there."""
    seen = [point for point in part if all(distance(point, charge.at) > radius for charge in charges)]
    length = sum(distance(a, b) for a, b in pairwise(seen))
    if length < 7.0:
        return
    gone = 0.0
    for one, other in pairwise(seen):
        gone += distance(one, other)
        if gone >= length / 2:
            x, y = strength(one, charges)
            turn = math.degrees(math.atan2(y, x))
            board.head(polar(one, 1.1, turn), turn, role="field head", size=2.2)
            return


def _label(board: Board, runs: Any, at: Point, radius: float, key: str) -> None:
    """A label on paper of its own, as lines run everywhere."""
    if not runs:
        return
    label = beside(polar(at, radius, 90), runs, 90, gap=0.7)[0]
    board.box(box_of(label).grown(0.25), None, fill=1.0, role=f"paper {key}")
    board.fixed(replace(label, role=f"label {key}"))


def surfaces(charges: Sequence[Charge], frame: Box, number: int) -> list[float]:
    """The potentials of the lines that are drawn, each so many times the last, and 0 between both signs."""
    largest = max(abs(charge.size) for charge in charges)
    signs = [sign for sign in (1, -1) if any(charge.size * sign > 0 for charge in charges)]
    each = max(1, number // len(signs))
    high, low = largest / 7.5, largest / (0.42 * math.hypot(frame.width, frame.height))
    ratio = (low / high) ** (1 / max(1, each - 1))
    found = [sign * high * ratio**n for sign in signs for n in range(each)]
    return sorted(found + ([0.0] if len(signs) == 2 else []))


def _surfaces(charges: Sequence[Charge], frame: Box, number: int, radius: float) -> list[list[Point]]:
    def values(x: Any, y: Any) -> Any:
        total: Any = 0.0
        for charge in charges:
            # The middle of a charge has no potential: its grid points are as high as those around.
            square = (x - charge.at[0]) ** 2 + (y - charge.at[1]) ** 2 + 1e-6
            total = total + charge.size / square**0.5
        return total

    found = []
    heights = surfaces(charges, frame, number)
    for height, lines in zip(heights, contours(values, frame, _STEP, heights), strict=True):
        for line in lines:
            points = [_settled(point, charges, height) for point in line]
            outside = all(distance(point, charge.at) > radius for point in points for charge in charges)
            if outside and len(points) > 3:
                found.append(_thinned(points))
    return found


def _settled(point: Point, charges: Sequence[Charge], height: float) -> Point:
    """The point of the exact equipotential line next to one that was found in the grid (Newton's method)."""
    for _ in range(3):
        fx, fy = strength(point, charges)
        square = fx * fx + fy * fy
        if square == 0:
            break
        # The field is the slope of the potential downwards.
        off = (potential(point, charges) - height) / square
        point = point[0] + max(-0.3, min(0.3, off * fx)), point[1] + max(-0.3, min(0.3, off * fy))
    return point


def _thinned(points: list[Point]) -> list[Point]:
    kept = [points[0]]
    for point in points[1:-1]:
        if distance(point, kept[-1]) >= 0.7:
            kept.append(point)
    return [*kept, points[-1]]


def _words(source: Charges, diagram: FieldDiagram, labels: Labels) -> str:
    plan = Plan(source.placed, source.measures, (), (), source.scaled)
    lang = labels.look.lang
    text = word("f-charges", lang) + ". " + "; ".join(plan_words(plan, labels))
    if diagram.equipotentials:
        text += "; " + word("f-equipotentials", lang)
    return punctuated(text + ".", lang)


__all__ = ["charges_of", "contours", "field", "layout", "surfaces"]
