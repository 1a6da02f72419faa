"""Things that several pictures have: blocks, springs, pulleys, people."""

from __future__ import annotations

import math

from .board import Board, angle, around, beside, between, distance, polar
from .letters import width_of
from .picture import FINE, INK, LABEL_SIZE, Point, Run

#: The least width and the height of a block, in millimetres.
BLOCK, TALL = 13.0, 10.0
#: The radius of a pulley.
PULLEY = 4.2
#: A label that is no wider stands inside of its block.
INSIDE = 26.0


def block_width(runs: tuple[Run, ...], most: float = INSIDE) -> float:
    """How wide a block is for its label; the least where the label stands beside it."""
    wide = width_of(runs, LABEL_SIZE) + 3.2
    return max(BLOCK, wide) if wide <= most else BLOCK


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
    board.label(runs, [*beside(top, runs, turn + 90), *around(at, runs, gap=half)], role=f"label {key}")


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
