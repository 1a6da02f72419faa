"""Things that several pictures have: blocks, springs, pulleys, people."""

from __future__ import annotations

import math
from collections.abc import Sequence

from .board import Board, angle, around, beside, between, centred, distance, polar
from .letters import box_of, width_of
from .picture import FINE, INK, LABEL_SIZE, Label, Pen, Point, Run

#: The least width and the height of a block, in millimetres.
BLOCK, TALL = 13.0, 10.0
#: The radius of a pulley.
PULLEY = 4.2
#: A label that is no wider stands inside of its block.
INSIDE = 26.0


def clear(at: Point, runs: Sequence[Run], degrees: float, gap: float = 0.9) -> Label:
    """The label beside a line through a point: wholly on the side to which a direction across the line leads."""
    box = box_of(Label((0.0, 0.0), tuple(runs)))
    c, s = abs(math.cos(math.radians(degrees))), abs(math.sin(math.radians(degrees)))
    return centred(polar(at, gap + box.width / 2 * c + box.height / 2 * s, degrees), runs)


def along(
    start: Point, end: Point, runs: Sequence[Run], *, left: bool = True, gap: float = 0.9
) -> list[Label]:
    """Places of a label along a line, on one side of it first (the left one, walking from start to end)."""
    turn = angle(start, end) + (90 if left else -90)
    sides = [(turn, gap), (turn + 180, gap), (turn, gap + 2.5), (turn + 180, gap + 2.5)]
    return [
        clear(between(start, end, share), runs, side, far)
        for side, far in sides
        for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
    ]


def span(
    board: Board,
    start: Point,
    end: Point,
    runs: Sequence[Run],
    *,
    left: bool = True,
    role: str = "",
    pen: Pen = FINE,
) -> None:
    """A distance: a fine double arrow from one point to another, with its label beside it."""
    board.arrow(start, end, pen, head="both", role=role, size=min(1.9, distance(start, end) / 2.2))
    board.label(runs, along(start, end, runs, left=left), role=f"label {role}")


def mark_angle(
    board: Board,
    corner: Point,
    start: float,
    end: float,
    runs: Sequence[Run],
    *,
    radius: float = 9.0,
    role: str = "angle",
) -> None:
    """An angle between two directions in degrees: an arc, with its label between the arms where there is room."""
    low, high = sorted((start, end))
    board.arc(corner, radius, low, high, FINE, role=role)
    middle = (low + high) / 2
    places = [
        clear(polar(corner, radius, turn), runs, turn, 0.7) for turn in (middle, middle - 5, middle + 5)
    ]
    places += [
        clear(polar(corner, radius + far, middle), runs, middle, 0.7) for far in (2.0, 4.0, 6.0, 8.0, 10.0)
    ]
    # Otherwise outside, behind the arm that is nearer to it.
    for turn, way in ((low, -1), (high, 1)):
        arm = polar(corner, radius + 2.0, turn)
        places += [clear(polar(arm, far, turn), runs, turn + way * 90, 1.0) for far in (0.0, 4.0, 8.0)]
    places += [clear(polar(corner, radius + far, middle), runs, middle, 0.7) for far in (13.0, 17.0)]
    board.label(runs, places, role=f"label {role}")


def block_width(runs: tuple[Run, ...], most: float = INSIDE) -> float:
    """How wide a block is for its label; the least where the label stands beside it."""
    wide = width_of(runs, LABEL_SIZE) + 3.2
    return max(BLOCK, wide) if wide <= most else BLOCK


def turned_size(runs: tuple[Run, ...], turn: float) -> tuple[float, float]:
    """How wide and high a turned block is, so that a level label stands inside; the least where that is too much."""
    wide, high = width_of(runs, LABEL_SIZE) + 1.6, 4.6
    c, s = abs(math.cos(math.radians(turn))), abs(math.sin(math.radians(turn)))
    width, height = wide * c + high * s + 0.6, wide * s + high * c + 0.6
    if width > INSIDE or height > 1.9 * TALL:
        return BLOCK, TALL
    return max(BLOCK, width), max(TALL, height)


def block(
    board: Board, at: Point, width: float, height: float, turn: float, runs: tuple[Run, ...], key: str
) -> None:
    """A block around a point, with its label inside or, where that is too wide, above it."""
    half = math.hypot(width, height) / 2
    tilt = math.degrees(math.atan2(height, width))
    corners = [polar(at, half, turn + side) for side in (tilt, 180 - tilt, 180 + tilt, -tilt)]
    board.line(corners, INK, closed=True, fill=1.0, role=f"body {key}")
    if not runs:
        return
    # A turned block shows less of a level line of writing.
    wide, high = width_of(runs, LABEL_SIZE), 4.0
    c, s = abs(math.cos(math.radians(turn))), abs(math.sin(math.radians(turn)))
    if wide * c + high * s <= width - 1 and wide * s + high * c <= height - 0.5:
        board.label(runs, [at], role=f"label {key}")
        return
    top = polar(at, height / 2, turn + 90)
    board.label(
        runs,
        [clear(top, runs, turn + 90), *beside(top, runs, turn + 90), *around(at, runs, gap=half)],
        role=f"label {key}",
    )


def spring(board: Board, start: Point, end: Point, *, turns: int = 7, half: float = 2.2) -> None:
    """A spring between two points: its coils as a zigzag, with straight ends."""
    length, way = distance(start, end), angle(start, end)
    lead = min(3.0, 0.12 * length)
    points = [start, polar(start, lead, way)]
    coils = length - 2 * lead
    for n in range(2 * turns):
        along = polar(start, lead + coils * (n + 0.5) / (2 * turns), way)
        points.append(polar(along, half if n % 2 else -half, way + 90))
    points += [polar(end, -lead, way), end]
    board.line(points, INK, role="spring")


def pulley(board: Board, at: Point, hold: Point) -> None:
    """A pulley with what holds it."""
    board.line((hold, at), INK, role="holder")
    board.circle(at, PULLEY, INK, fill=1.0, role="pulley")
    board.dot(at, 0.7, role="axle")


def over(centre: Point, start: float, end: float) -> list[Point]:
    """The part of a string that lies on a pulley, between two directions in degrees (clockwise where end is less)."""
    steps = max(2, math.ceil(abs(end - start) / 6))
    return [polar(centre, PULLEY, start + (end - start) * n / steps) for n in range(steps + 1)]


def person(board: Board, feet: Point, height: float, key: str) -> None:
    """A person, standing."""
    x, y = feet
    head = 0.13 * height
    hip, neck = y + 0.42 * height, y + 0.74 * height
    board.circle((x, y + height - head), head, INK, role=f"body {key}")
    board.line(((x, hip), (x, neck)), INK, role=f"body {key}")
    for side in (-1, 1):
        board.line(((x + side * 0.15 * height, y), (x, hip)), INK, role=f"body {key}")
        board.line(
            ((x + side * 0.2 * height, hip + 0.06 * height), (x, neck - 0.03 * height)),
            INK,
            role=f"body {key}",
        )


def hatch(board: Board, start: Point, end: Point, role: str) -> None:
    """Short strokes on the right-hand side of the way from one point to another: what is solid there."""
    turn, length = angle(start, end), distance(start, end)
    count = max(2, round(length / 2.6))
    for n in range(count):
        foot = between(start, end, (n + 0.6) / count)
        board.line((foot, polar(foot, 2.0, turn - 135)), FINE, role=role)


def solid(board: Board, start: Point, end: Point, role: str) -> None:
    """A surface that is solid on the right-hand side of the way from one point to another."""
    board.line((start, end), INK, role=role)
    hatch(board, start, end, role)
