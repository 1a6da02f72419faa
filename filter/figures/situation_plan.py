"""Charges, masses and points on a line or in a plane."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import combinations, pairwise

from physcalc.figures.situation_scenes import Measure, Placed, Plan

from .amounts import Labels
from .board import Board, angle, around, beside, between, centred, distance, polar
from .bodies import along, clear, mark_angle
from .letters import width_of
from .picture import DASHED, FINE, INK, LABEL_SIZE, Point, Run
from .situation import Anchor, Placing

#: Radius of a sphere and of a point, in millimetres.
SPHERE = 3.2
DOT = 0.85
#: How wide and how high a picture of bodies is.
WIDE, HIGH = 112.0, 76.0
#: The least gap between two bodies on a line, and the length of a line of few.
GAP, USUAL = 17.0, 74.0
#: Gaps more unequal than this are drawn less unequal, not to scale.
UNEQUAL = 8.0
#: How far below a line the first distance is written, and the next below that.
_FIRST, _NEXT = 8.5, 7.5


def plan(board: Board, scene: Plan, labels: Labels) -> Placing:
    """Draws bodies on a line or in a plane."""
    places, scaled = placed(scene.bodies, _least(scene, labels))
    placing = Placing(scaled=scaled and scene.scaled)
    radius = _radius(list(places.values()))
    for one in scene.bodies:
        reach = DOT if one.kind == "point" else radius
        placing.anchors[one.body.key] = Anchor(places[one.body.key], reach, reach)
    for first, second in scene.links:
        board.line((places[first], places[second]), INK, role="link")
    vertical = _vertical(scene.bodies)
    if on_line(scene.bodies):
        ends = sorted(places.values())
        if len(ends) > 1 and not scene.links:
            board.line((ends[0], ends[-1]), DASHED, role="guide")
        levels(
            board,
            [(places[m.first], places[m.second], labels.runs(m.amount), m) for m in scene.measures],
            vertical,
        )
    else:
        _measures(board, scene.measures, places, labels)
    for mark in scene.angles:
        _angle(
            board, [places[key] for key in (mark.corner, mark.first, mark.second)], labels.runs(mark.amount)
        )
    for one in scene.bodies:
        _body(board, one, places[one.body.key], radius, labels, scene)
    return placing


def apart(bodies: Sequence[Placed]) -> list[Point]:
    """Where bodies are, from the first of them, in metres; exact differences keep places far from the origin apart."""
    first = bodies[0]
    return [(float(one.x - first.x), float(one.y - first.y)) for one in bodies]


def on_line(bodies: Sequence[Placed]) -> bool:
    """Whether bodies stand on a horizontal or vertical line."""
    return len({y for _, y in apart(bodies)}) == 1 or _vertical(bodies)


def _vertical(bodies: Sequence[Placed]) -> bool:
    return len({x for x, _ in apart(bodies)}) == 1 and len(bodies) > 1


def _least(scene: Plan, labels: Labels) -> float:
    """The least gap on a line, so that labels beside one another do not touch."""
    widest = max((width_of(labels.of(one.body.labels), LABEL_SIZE) for one in scene.bodies), default=0.0)
    return GAP if _vertical(scene.bodies) else max(GAP, min(widest + 3.0, 30.0))


def placed(bodies: Sequence[Placed], least: float = GAP) -> tuple[dict[str, Point], bool]:
    """The places of bodies in the picture, and whether they are to scale.

    Args:
        bodies: the bodies, with places in metres.
        least: the least gap on a line, in millimetres.
    """
    xs, ys = ([point[axis] for point in apart(bodies)] for axis in (0, 1))
    keys = [one.body.key for one in bodies]
    if len(set(ys)) == 1 or len(set(xs)) == 1:
        values = xs if len(set(ys)) == 1 else ys
        spread, scaled = line_places(values, least, WIDE if values is xs else HIGH)
        points = [(at, 0.0) if values is xs else (0.0, at) for at in spread]
        return dict(zip(keys, points, strict=True)), scaled
    nearest = min(math.hypot(a[0] - b[0], a[1] - b[1]) for a, b in combinations(zip(xs, ys, strict=True), 2))
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    scale = min(78.0 / width, 60.0 / height)
    if nearest * scale < GAP - 3:
        scale = min(WIDE / width, HIGH / height, (GAP - 3) / nearest)
    if nearest * scale >= 10.0:
        return {key: (x * scale, y * scale) for key, x, y in zip(keys, xs, ys, strict=True)}, True
    across, _ = line_places(xs, 15.0, WIDE, even=True)
    up, _ = line_places(ys, 13.0, HIGH, even=True)
    return dict(zip(keys, zip(across, up, strict=True), strict=True)), False


def line_places(
    values: Sequence[float], least: float = GAP, most: float = WIDE, *, even: bool = False
) -> tuple[list[float], bool]:
    """Places on a line in millimetres, and whether they are to scale: gaps are proportional unless too unequal.

    Args:
        values: places in metres.
        least: the least gap, in millimetres.
        most: the longest line.
        even: whether gaps may be drawn less unequal at any ratio.
    """
    ordered = sorted(set(values))
    gaps = [high - low for low, high in pairwise(ordered)]
    if not gaps:
        return [0.0] * len(values), True
    ratio = max(gaps) / min(gaps)
    scaled = ratio <= (3.0 if even else UNEQUAL)
    power = 1.0 if scaled else math.log(4.0) / math.log(ratio)
    drawn = [gap**power for gap in gaps]
    total = sum(drawn)
    length = min(most, max(min(USUAL, most), least / min(drawn) * total))
    places = [0.0]
    for gap in drawn:
        places.append(places[-1] + gap / total * length)
    where = dict(zip(ordered, places, strict=True))
    return [where[value] for value in values], scaled


def _radius(points: Sequence[Point]) -> float:
    near = min((distance(one, other) for one, other in combinations(points, 2)), default=100.0)
    return min(SPHERE, 0.3 * near)


def _body(board: Board, one: Placed, at: Point, radius: float, labels: Labels, scene: Plan) -> None:
    key = one.body.key
    sphere(board, one, at, radius, labels)
    runs = labels.of(one.body.labels)
    if not runs:
        return
    reach = (DOT if one.kind == "point" else radius) * 0.95
    first = 180.0 if _vertical(scene.bodies) else 90.0 if on_line(scene.bodies) else _outwards(one, scene)
    places = [
        place
        for turn in (0, 180, 45, -45, 90, -90, 135, -135)
        for place in beside(polar(at, reach, first + turn), runs, first + turn)[:1]
    ]
    board.label(runs, [*places, *around(at, runs, gap=reach + 3)], role=f"label {key}")


def sphere(board: Board, one: Placed, at: Point, radius: float, labels: Labels) -> None:
    """A charge with its sign, a mass, or a point."""
    key = one.body.key
    if one.kind == "point":
        board.dot(at, DOT, role=f"body {key}")
        return
    board.circle(at, radius, INK, fill=1.0 if one.kind == "charge" else 0.82, role=f"body {key}")
    hidden = not one.sign_typed and any(labels.hides(label) for label in one.body.labels)
    if one.sign and not hidden:
        half = radius * 0.55
        board.line(((at[0] - half, at[1]), (at[0] + half, at[1])), INK, role=f"sign {key}")
        if one.sign > 0:
            board.line(((at[0], at[1] - half), (at[0], at[1] + half)), INK, role=f"sign {key}")


def _outwards(one: Placed, scene: Plan) -> float:
    """The direction away from the middle of all bodies."""
    points = apart(scene.bodies)
    at = points[scene.bodies.index(one)]
    away = at[0] - sum(x for x, _ in points) / len(points), at[1] - sum(y for _, y in points) / len(points)
    return math.degrees(math.atan2(away[1], away[0])) if away != (0.0, 0.0) else 90.0


def levels(
    board: Board,
    measures: Sequence[tuple[Point, Point, tuple[Run, ...], Measure | None]],
    vertical: bool = False,
    *,
    first: float = _FIRST,
    lead: float = 4.4,
) -> None:
    """Distances along a line, those that would cross one another below one another.

    Args:
        board: what is drawn on.
        measures: both ends, the label, and what the role is made of.
        vertical: whether the line is; distances then stand at its right.
        first: how far from the line the first is.
        lead: how far from it the lines begin that lead to the distances.
    """
    rows: list[list[tuple[float, float]]] = []
    offs: list[float] = []
    axis = 1 if vertical else 0
    drawn: set[tuple[float, float]] = set()
    room = 0.0
    ordered = sorted(measures, key=lambda m: distance(m[0], m[1]))
    for number, (one, other, runs, _) in enumerate(ordered):
        start, end = sorted((one, other))
        low, high = start[axis], end[axis]
        wide = 0.0 if vertical else width_of(runs, LABEL_SIZE) + 1.0
        # Lines that lead down to longer distances pass this one.
        ends = {point[axis] for longer in ordered[number + 1 :] for point in longer[:2]}
        label = (low, high) if vertical else _label_room(low, high, wide, ends)
        taken = (min(low, label[0]), max(high, label[1]))
        at = next(
            (
                n
                for n, row in enumerate(rows)
                if all(taken[1] <= a + 1e-6 or taken[0] >= b - 1e-6 for a, b in row)
            ),
            len(rows),
        )
        if at == len(rows):
            rows.append([])
            # Beside a vertical line, labels stand between two rows.
            offs.append(first if not offs else offs[-1] + (room if vertical else _NEXT))
            room = 0.0
        rows[at].append(taken)
        off = offs[at]
        room = max(room, width_of(runs, LABEL_SIZE) + 4.5)
        for point in (start, end):
            reach = (point[axis], off)
            if reach in drawn:
                continue
            drawn.add(reach)
            away = 0.0 if vertical else 270.0
            board.line((polar(point, lead, away), polar(point, off + 1.2, away)), FINE, role="guide")
        # Walking from the left to the right, below is at the right hand; upwards, the right is.
        turn = angle(start, end) - 90
        near, far = polar(start, off, turn), polar(end, off, turn)
        board.arrow(near, far, FINE, head="both", role="measure", size=1.9)
        places = [clear(between(near, far), runs, turn)]
        if label[0] >= high or label[1] <= low:
            places = [centred(((label[0] + label[1]) / 2, near[1]), runs)]
        board.label(runs, [*places, *beside(between(near, far), runs, turn)], role="label measure")


def _label_room(low: float, high: float, wide: float, ends: set[float]) -> tuple[float, float]:
    """Where the label of a distance along a level line stands: in its middle, or beside it where others would cross it.

    Args:
        low, high: the ends of the distance.
        wide: how wide the label is.
        ends: where lines lead down to distances.
    """
    middle = (low + high) / 2
    places = [
        (middle - wide / 2, middle + wide / 2),
        (low - 1.5 - wide, low - 1.5),
        (high + 1.5, high + 1.5 + wide),
    ]
    for left, right in places:
        if not any(left < end < right for end in ends):
            return left, right
    return places[0]


def _measures(board: Board, measures: Sequence[Measure], places: dict[str, Point], labels: Labels) -> None:
    """Distances in a plane: along dashed lines, on the side away from everything."""
    count = len(places)
    middle = sum(x for x, _ in places.values()) / count, sum(y for _, y in places.values()) / count
    for measure in measures:
        one, other = places[measure.first], places[measure.second]
        board.line((one, other), DASHED, role="guide")
        runs = labels.runs(measure.amount)
        half = between(one, other)
        side = angle(one, other) + 90
        left = distance(polar(half, 1, side), middle) >= distance(polar(half, -1, side), middle)
        board.label(runs, along(one, other, runs, left=left), role="label measure")


def _angle(board: Board, points: Sequence[Point], runs: tuple[Run, ...]) -> None:
    corner, first, second = points
    low, high = angle(corner, first), angle(corner, second)
    if (high - low) % 360 > 180:
        low, high = high, low
    high = low + (high - low) % 360
    board.line((corner, first), DASHED, role="guide")
    board.line((corner, second), DASHED, role="guide")
    mark_angle(board, corner, low, high, runs)
