"""The making of a picture: arrows, arcs, angles, and labels that keep clear of lines and of one another."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from .letters import ABOVE, BELOW, box_of
from .picture import (
    BOLD,
    DASHED,
    FINE,
    INK,
    LABEL_SIZE,
    POINT,
    Box,
    Circle,
    Label,
    Line,
    Pen,
    Picture,
    Point,
    Run,
    Shape,
)

#: Length and half width of an arrow's head.
HEAD = 2.6
HALF_HEAD = 0.85
#: How far a label keeps from what it labels.
GAP = 0.9

Head = Literal["end", "start", "both", "middle"]


def polar(origin: Point, length: float, degrees: float) -> Point:
    """The point at a distance and an angle (anticlockwise from the right) from another."""
    turn = math.radians(degrees)
    return origin[0] + length * math.cos(turn), origin[1] + length * math.sin(turn)


def between(one: Point, other: Point, share: float = 0.5) -> Point:
    """A point on the way from one point to another."""
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def distance(one: Point, other: Point) -> float:
    """How far two points lie from one another."""
    return math.hypot(other[0] - one[0], other[1] - one[1])


def angle(one: Point, other: Point) -> float:
    """The angle of the way from one point to another, in degrees anticlockwise from the right."""
    return math.degrees(math.atan2(other[1] - one[1], other[0] - one[0]))


@dataclass(frozen=True, slots=True)
class _Wish:
    """A label that is not placed yet: the places it may have, the best first, and its size and role."""

    places: tuple[Label, ...]
    size: float
    role: str


class Board:
    """A picture in the making."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self._wishes: list[_Wish] = []

    # Lines.

    def line(
        self,
        points: Sequence[Point],
        pen: Pen | None = INK,
        *,
        closed: bool = False,
        fill: float | None = None,
        role: str = "",
    ) -> None:
        """A line through points, or an area."""
        self.shapes.append(Line(tuple(points), pen, closed, fill, role))

    def circle(
        self,
        centre: Point,
        radius: float,
        pen: Pen | None = INK,
        *,
        fill: float | None = None,
        role: str = "",
    ) -> None:
        """A circle."""
        self.shapes.append(Circle(centre, radius, pen, fill, role))

    def dot(self, at: Point, radius: float = 0.8, *, role: str = "") -> None:
        """A point that is seen."""
        self.circle(at, radius, None, fill=0.0, role=role)

    def box(self, box: Box, pen: Pen | None = INK, *, fill: float | None = None, role: str = "") -> None:
        """A rectangle."""
        corners = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
        self.line(corners, pen, closed=True, fill=fill, role=role)

    def arc(
        self,
        centre: Point,
        radius: float,
        start: float,
        end: float,
        pen: Pen = FINE,
        *,
        role: str = "",
        head: bool = False,
    ) -> None:
        """A part of a circle, from one angle in degrees to another (anticlockwise where that is larger)."""
        steps = max(2, math.ceil(abs(end - start) / 4))
        points = [polar(centre, radius, start + (end - start) * n / steps) for n in range(steps + 1)]
        self.line(points, pen, role=role)
        if head:
            self._head(points[-1], angle(points[-2], points[-1]), role, 1.8)

    def arrow(
        self,
        start: Point,
        end: Point,
        pen: Pen = BOLD,
        *,
        head: Head = "end",
        role: str = "",
        size: float = HEAD,
    ) -> None:
        """An arrow, whose tip lies at its end exactly. Its shaft and its head have its role."""
        turn = angle(start, end)
        size = min(size, 0.6 * max(distance(start, end), 0.1))
        shaft_start, shaft_end = start, end
        if head in ("end", "both"):
            shaft_end = polar(end, -0.8 * size, turn)
        if head in ("start", "both"):
            shaft_start = polar(start, 0.8 * size, turn)
        self.line((shaft_start, shaft_end), pen, role=role)
        if head in ("end", "both"):
            self._head(end, turn, role, size)
        if head in ("start", "both"):
            self._head(start, turn + 180, role, size)
        if head == "middle":
            self._head(polar(between(start, end), size / 2, turn), turn, role, size)

    def _head(self, tip: Point, turn: float, role: str, size: float = HEAD) -> None:
        back = polar(tip, -size, turn)
        half = size * HALF_HEAD / HEAD
        sides = polar(back, half, turn + 90), polar(back, -half, turn + 90)
        self.line((tip, *sides), None, closed=True, fill=0.0, role=role)

    def head(self, tip: Point, turn: float, *, role: str = "", size: float = HEAD) -> None:
        """The head of an arrow alone, as on a ray or a field line."""
        self._head(tip, turn, role, size)

    def measure(
        self,
        start: Point,
        end: Point,
        runs: Sequence[Run],
        *,
        off: float = 5.0,
        role: str = "",
        size: float = LABEL_SIZE,
    ) -> None:
        """A distance: a fine double arrow beside the line between two points, with its label.

        Args:
            start, end: the two points.
            runs: the label.
            off: how far to the left of the way from start to end the arrow lies; negative for the right.
        """
        turn = angle(start, end) + 90
        near, far = polar(start, off, turn), polar(end, off, turn)
        if abs(off) > 0.5:
            over = off + math.copysign(1.2, off)
            for point in (start, end):
                self.line(
                    (polar(point, math.copysign(1.0, off), turn), polar(point, over, turn)), FINE, role=role
                )
        self.arrow(near, far, FINE, head="both", role=role, size=1.9)
        middle = between(near, far)
        self.label(runs, beside(middle, runs, turn if off >= 0 else turn + 180, size), size=size, role=role)

    def angle_mark(
        self,
        corner: Point,
        start: float,
        end: float,
        runs: Sequence[Run],
        *,
        radius: float = 8.0,
        role: str = "",
    ) -> None:
        """An angle between two directions: an arc with its label inside or just outside."""
        self.arc(corner, radius, start, end, FINE, role=role)
        middle = (start + end) / 2
        # Just outside of the middle of the arc, else elsewhere along it, else inside of it.
        turns = [middle + share * (end - start) for share in (0, 0.15, -0.15, 0.3, -0.3, 0.42, -0.42)]
        places = [
            next_to(polar(corner, far, turn), runs, turn)
            for some in (turns[:1], turns)
            for far in (radius + 0.6, radius + 3, radius + 6)
            for turn in some
        ]
        places += [next_to(polar(corner, radius - 0.6, turn), runs, turn + 180) for turn in turns]
        self.label(runs, places, role=role)

    # Labels.

    def label(
        self,
        runs: Sequence[Run],
        places: Sequence[Label | Point],
        *,
        size: float = LABEL_SIZE,
        role: str = "",
    ) -> None:
        """A label at the first of its places that is free when the picture is finished.

        Args:
            runs: its pieces.
            places: where it may stand, the best first (`beside`, `around`); a bare point is one it is centred on.
            size, role: as for `Label`.
        """
        given = [place if isinstance(place, Label) else centred(place, runs, size) for place in places]
        self._wishes.append(_Wish(tuple(given), size, role))

    def fixed(self, label: Label) -> None:
        """A label at its place, whatever else stands there (the numbers of an axis)."""
        self.shapes.append(label)

    # The end.

    def picture(self, margin: float = 1.0, least: Box | None = None) -> Picture:
        """The picture, its labels placed.

        Args:
            margin: what is kept free around it.
            least: a box that it fills at least.
        """
        taken = [box_of(shape) for shape in self.shapes if isinstance(shape, Label)]
        # A label may stand on a faint grid; what is left is asked again and again, so its box is known first.
        obstacles = [
            (bounds((shape,)), shape)
            for shape in self.shapes
            if not isinstance(shape, Label) and not (isinstance(shape, Line) and _faint(shape))
        ]
        placed: list[Label] = []
        for wish in self._wishes:
            best = replace(_placed(wish, taken, obstacles), role=wish.role)
            taken.append(box_of(best))
            placed.append(best)
        # Letters on the squares of a graph are read on white.
        grid = [shape for shape in self.shapes if isinstance(shape, Line) and _faint(shape)]
        whites = [_ground(box) for box in map(box_of, placed) if _on_grid(box, grid, obstacles)]
        shapes = (*self.shapes, *whites, *placed)
        whole = bounds(shapes)
        if least is not None:
            whole = whole.joined(least)
        return Picture(shapes, whole.grown(margin))


def centred(at: Point, runs: Sequence[Run], size: float = LABEL_SIZE) -> Label:
    """A label whose middle lies at a point."""
    return Label((at[0], at[1] - (ABOVE - BELOW) / 2 * size * POINT * 0.9), tuple(runs), "middle", size)


def beside(
    at: Point, runs: Sequence[Run], degrees: float, size: float = LABEL_SIZE, gap: float = GAP
) -> list[Label]:
    """Places of a label beside a point: on that side first, then turned away a little, then farther off."""
    turns = (0, 25, -25, 50, -50, 80, -80)
    return _towards(
        at, runs, [(degrees + turn, far) for far in (gap, gap + 2.5, gap + 5) for turn in turns], size
    )


def around(
    at: Point, runs: Sequence[Run], size: float = LABEL_SIZE, gap: float = GAP, first: float = 90
) -> list[Label]:
    """Places of a label all around a point, beginning on one side."""
    turns = (0, 180, 90, 270, 45, 315, 135, 225)
    return _towards(
        at, runs, [(first + turn, far) for far in (gap, gap + 3, gap + 6) for turn in turns], size
    )


def next_to(
    at: Point, runs: Sequence[Run], degrees: float, size: float = LABEL_SIZE, gap: float = GAP
) -> Label:
    """The first of the places `beside` a point."""
    return _towards(at, runs, [(degrees, gap)], size)[0]


def _towards(at: Point, runs: Sequence[Run], ways: Sequence[tuple[float, float]], size: float) -> list[Label]:
    """Labels whose nearest edge lies at a gap from a point, in a direction: for each direction and gap one."""
    runs = tuple(runs)
    probe = box_of(Label((0, 0), runs, "middle", size))
    half_width, half_height = probe.width / 2, probe.height / 2
    labels = []
    for degrees, gap in ways:
        dx, dy = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        # The middle lies where a box of that size, pushed that way, just touches the point.
        reach = min(
            half_width / abs(dx) if abs(dx) > 1e-9 else math.inf,
            half_height / abs(dy) if abs(dy) > 1e-9 else math.inf,
        )
        reach = min(reach, math.hypot(half_width, half_height) * 0.9)
        x, y = at[0] + dx * (gap + reach), at[1] + dy * (gap + reach)
        labels.append(Label((x, y - (probe.top + probe.bottom) / 2), runs, "middle", size))
    return labels


#: Where a label goes that is free in none of its places: at so many millimetres from the first of them.
_FARTHER = (1.0, 2.0, 3.0, 4.5, 6.0, 8.0, 10.0, 12.5, 15.0)


def _placed(wish: _Wish, taken: Sequence[Box], obstacles: Sequence[tuple[Box, Line | Circle]]) -> Label:
    """The first place of a label that is free; else the free one nearest to the first; else the least bad."""
    costs: list[tuple[float, int, Label]] = []
    for place in wish.places:
        label = place if place.size == wish.size else replace(place, size=wish.size)
        cost = _cost(label, taken, obstacles)
        if cost <= 0:
            return label
        costs.append((cost, len(costs), label))
    first = costs[0][2]
    for far in _FARTHER:
        for turn in range(0, 360, 20):
            label = replace(first, at=polar(first.at, far, 90.0 + turn))
            if _cost(label, taken, obstacles) <= 0:
                return label
    return min(costs)[2]


def _cost(label: Label, taken: Sequence[Box], obstacles: Sequence[tuple[Box, Line | Circle]]) -> float:
    """How badly a label would stand: 0 where it touches nothing."""
    box = box_of(label)
    cost = 10.0 * sum(box.meets(other, 0.3) for other in taken)
    around = box.grown(0.3)
    for reach, shape in obstacles:
        if not around.meets(reach):
            continue
        cost += line_meets_box(shape, around) if isinstance(shape, Line) else _circle_meets_box(shape, around)
    return cost


def _faint(line: Line) -> bool:
    """Whether a line is no more than the paper that is drawn on."""
    return line.pen is not None and line.pen.grey >= 0.6


def _on_grid(box: Box, grid: Sequence[Line], obstacles: Sequence[tuple[Box, Line | Circle]]) -> bool:
    """Whether a label stands on squares and on nothing else."""
    if not any(_segment_meets(line.points[0], line.points[-1], box) for line in grid):
        return False
    return not any(
        box.meets(reach)
        and (line_meets_box(shape, box) if isinstance(shape, Line) else _circle_meets_box(shape, box))
        for reach, shape in obstacles
    )


def _ground(box: Box) -> Line:
    """White below a label."""
    sides = ((box.left, box.bottom), (box.right, box.bottom), (box.right, box.top), (box.left, box.top))
    return Line(sides, None, closed=True, fill=1.0, role="ground of label")


def line_meets_box(line: Line, box: Box) -> float:
    """1 where a line passes through a box (2 where it is an area that a label would not be read on), else 0."""
    points = line.points if not line.closed else (*line.points, line.points[0])
    if line.pen is None and line.fill is None:
        return 0.0
    if _faint(line):
        return 0.0
    for one, other in pairwise(points):
        if _segment_meets(one, other, box):
            return 1.0 if line.pen is None or line.pen.width <= FINE.width else 2.0
    return 0.0


def _segment_meets(one: Point, other: Point, box: Box) -> bool:
    # Liang and Barsky's clipping: the part of the segment inside of the box, if there is any.
    (x, y), (dx, dy) = one, (other[0] - one[0], other[1] - one[1])
    low, high = 0.0, 1.0
    for start, step, least, most in ((x, dx, box.left, box.right), (y, dy, box.bottom, box.top)):
        if abs(step) < 1e-12:
            if not least <= start <= most:
                return False
            continue
        first, second = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, first), min(high, second)
        if low > high:
            return False
    return True


def _circle_meets_box(circle: Circle, box: Box) -> float:
    x, y = circle.centre
    near = distance((x, y), (min(max(x, box.left), box.right), min(max(y, box.bottom), box.top)))
    far = max(
        distance((x, y), (corner_x, corner_y))
        for corner_x in (box.left, box.right)
        for corner_y in (box.bottom, box.top)
    )
    if circle.fill is not None and circle.fill < 0.5:
        return 2.0 if near <= circle.radius else 0.0
    return 1.0 if near <= circle.radius <= far else 0.0


def bounds(shapes: Iterable[Shape]) -> Box:
    """The box around shapes."""
    boxes: list[Box] = []
    for shape in shapes:
        if isinstance(shape, Label):
            boxes.append(box_of(shape))
        elif isinstance(shape, Circle):
            (x, y), half = shape.centre, (shape.pen.width / 2 if shape.pen else 0)
            reach = shape.radius + half
            boxes.append(Box(x - reach, y - reach, x + reach, y + reach))
        else:
            half = shape.pen.width / 2 if shape.pen else 0
            xs, ys = [p[0] for p in shape.points], [p[1] for p in shape.points]
            boxes.append(Box(min(xs), min(ys), max(xs), max(ys)).grown(half))
    if not boxes:
        return Box(0, 0, 1, 1)
    whole = boxes[0]
    for box in boxes[1:]:
        whole = whole.joined(box)
    return whole


__all__ = [
    "BOLD", "DASHED", "FINE", "GAP", "INK", "Board", "angle", "around", "beside", "between", "bounds", "centred",
    "distance", "next_to", "polar",
]  # fmt: skip
