"""The picture of a circuit."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

from physcalc.figures.circuit_parts import (
    Across,
    CircuitDiagram,
    InParallel,
    InSeries,
    Part,
    Piece,
    Route,
    parts_of,
    turned,
)
from physcalc.figures.circuit_shape import named_nodes

from .board import Board, angle, between, distance, polar
from .circuit_layout import Frame, Layout, as_branch
from .circuit_words import alternative
from .figure import Figure, Look
from .picture import LABEL_SIZE, SMALLEST_SIZE, WIDEST, Picture, Point

#: Two rows of a loop lie so far apart at least.
APART = 17.0
#: The wire beside the pieces of a row.
MARGIN = 3.0
#: A step of the grid at least.
STEP = 26.0


def circuit(diagram: CircuitDiagram, look: Look) -> Figure:
    """The picture of a circuit.

    Args:
        diagram: the circuit.
        look: how figures look.
    """
    wide = WIDEST
    for split, briefly, labels in (
        (False, look, diagram.labels),
        (True, look, diagram.labels),
        # What a page does not hold is left out: the values of currents, then those of parts that have names.
        (True, replace(look, edition="paper"), diagram.labels),
        (True, replace(look, edition="paper"), "names"),
    ):
        picture = _drawn(replace(diagram, labels=labels), briefly, split)
        if picture.box.width <= wide:
            break
        # Letters may become a little smaller where that saves a value.
        wide = WIDEST * LABEL_SIZE / SMALLEST_SIZE
    return Figure(picture, alternative(diagram, look))


def _drawn(diagram: CircuitDiagram, look: Look, split: bool) -> Picture:
    board = Board()
    layout = Layout(board, diagram, look, split)
    if diagram.loop is not None:
        _loop(layout, *diagram.loop)
    else:
        _routes(layout, diagram)
    return board.picture(1.5)


def _loop(layout: Layout, upper: Piece, lower: Piece) -> None:
    """A closed loop: two rows between two upright wires; branches that close it alone are rows of their own."""
    if isinstance(lower, Across) and isinstance(lower.piece, InParallel):
        lower = as_branch(lower, 1)
    below = list(lower.branches) if isinstance(lower, InParallel) else [lower]
    ends = lower.ends if isinstance(lower, InParallel) else ("", "")
    # Voltmeters stand outside: above the upper row, whose labels are then below it.
    side = -1 if _measured(upper) else 1
    rooms = [layout.room(upper, side), *(layout.room(piece, 1) for piece in below)]
    width = max(room.width for room in rooms) + 2 * MARGIN
    heights = [0.0]
    for one, other in pairwise(rooms):
        heights.append(heights[-1] - max(one.below + 3.0 + other.above, APART))
    for x in (0.0, width):
        layout.wire((x, heights[0]), (x, heights[-1]))
        for height in heights[1:-1]:
            layout.dot(x, height)
    for piece, height in zip((upper, *below), heights, strict=True):
        layout.wire((0.0, height), (MARGIN, height))
        layout.draw(piece, MARGIN, width - MARGIN, height, side if piece is upper else 1)
        layout.wire((width - MARGIN, height), (width, height))
    if layout.diagram.nodes and ends[0] and len(heights) > 2:
        middle = heights[len(heights) // 2]
        layout.node(ends[0], 0.0, middle, 180.0)
        layout.node(ends[1], width, middle, 0.0)


def _measured(piece: Piece) -> bool:
    match piece:
        case Across():
            return True
        case InSeries():
            return any(map(_measured, piece.pieces))
        case InParallel():
            return any(map(_measured, piece.branches))
        case Part():
            return False


# Nodes with places.


def _routes(layout: Layout, diagram: CircuitDiagram) -> None:
    right, up = _steps(layout, diagram)

    def spot(route: Route, at: int) -> Point:
        x, y = route.points[at]
        return float(x) * right, float(y) * up

    every = [spot(route, at) for route in diagram.routes for at in range(len(route.points))]
    xs, ys = [x for x, _ in every], [y for _, y in every]
    centre = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
    for route in diagram.routes:
        points = [spot(route, at) for at in range(len(route.points))]
        layout.frame = Frame()
        start, end = points[route.along], points[route.along + 1]
        if route.along:
            layout.wire(*points[: route.along + 1])
        if route.along + 2 < len(points):
            layout.wire(*points[route.along + 1 :])
        piece = route.piece
        turn = angle(start, end)
        if not -90 + 1e-6 < turn <= 90 + 1e-6:
            start, end, piece = end, start, turned(piece)
            turn = angle(start, end)
        layout.frame = Frame(start, 0.0 if abs(turn) < 1e-6 else turn)
        layout.draw(piece, 0.0, distance(start, end), 0.0, _outside(between(start, end), turn, centre))
    layout.frame = Frame()
    for name, (x, y) in named_nodes(diagram.routes).items():
        at = float(x) * right, float(y) * up
        layout.dot(*at)
        if diagram.nodes:
            layout.node(name, *at, _free(diagram, at, right, up))


def _outside(at: Point, turn: float, centre: Point) -> int:
    """The side of a branch on which its labels stand: above one that is level, else away from the middle."""
    if abs(turn) < 1e-6:
        return 1
    over = polar(at, 1.0, turn + 90)
    return 1 if distance(over, centre) >= distance(at, centre) else -1


def _free(diagram: CircuitDiagram, at: Point, right: float, up: float) -> float:
    """The direction in which a node has the most room: the middle of the widest gap between its wires."""
    turns: list[float] = []
    for route in diagram.routes:
        points = [(float(x) * right, float(y) * up) for x, y in route.points]
        for end, near in ((points[0], points[1]), (points[-1], points[-2])):
            if distance(end, at) < 1e-6:
                turns.append(angle(end, near) % 360)
    turns.sort()
    gaps = [((turns[(n + 1) % len(turns)] - turn) % 360 or 360.0, turn) for n, turn in enumerate(turns)]
    gap, turn = max(gaps)
    return turn + gap / 2


def _steps(layout: Layout, diagram: CircuitDiagram) -> tuple[float, float]:
    """How far a step of the grid is to the right and upwards, so that every branch has its room."""
    right = up = STEP
    slanting: list[tuple[float, float, float]] = []
    for route in diagram.routes:
        room = layout.room(route.piece, 1)
        (x_0, y_0), (x_1, y_1) = route.points[route.along], route.points[route.along + 1]
        dx, dy = abs(float(x_1 - x_0)), abs(float(y_1 - y_0))
        # Labels beside an upright wire lie along it, so it needs no more than its symbols do.
        needed = room.width + 4.0
        if dy == 0:
            right = max(right, needed / dx)
            up = max(up, room.above + room.below + 4.0)
        elif dx == 0:
            up = max(up, needed / dy)
            right = max(right, _aside(layout, route.piece))
        else:
            slanting.append((dx, dy, needed + 6.0 + (12.0 if diagram.currents else 0.0)))
    for dx, dy, needed in slanting:
        length = math.hypot(dx * right, dy * up)
        if length < needed:
            right, up = right * needed / length, up * needed / length
    return right, up


def _aside(layout: Layout, piece: Piece) -> float:
    """What an upright branch takes to both sides: its labels are written across it."""
    widest = max((layout.room(part, 1).width for part in parts_of(piece)), default=0.0)
    room = layout.room(piece, 1)
    return max(room.above + room.below, widest + 8.0)
