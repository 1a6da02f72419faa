"""Fields between plates, around a wire, of a bar magnet and of a solenoid."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

from physcalc.figures.field import FieldDiagram, Magnet, Plates, Wire

from .amounts import Labels
from .board import Board, angle, around, beside, centred, distance, polar
from .kept import kept
from .letters import runs_of_text
from .picture import INK, Box, Label, Pen, Point
from .words import word

Contours = Callable[[Callable[[Any, Any], Any], Box, float, Sequence[float]], list[list[list[Point]]]]
_LINE = Pen(0.28)
_DASHED = Pen(0.18, "dashed")


def plates(board: Board, source: Plates, diagram: FieldDiagram, labels: Labels) -> list[str]:
    """Draws the uniform field between two plates; the words of it."""
    half, tall, thick = 36.0, 32.0, 1.6
    number = diagram.lines or 7
    for y, sign in ((tall, source.top), (0.0, -source.top)):
        up = 1 if y else -1
        board.box(
            Box(-half, min(y, y + up * thick), half, max(y, y + up * thick)), INK, fill=0.82, role="plate"
        )
        for n in range(number):
            x = -half + 2 * half * (n + 0.5) / number
            middle = y + up * (thick + 2.4)
            board.line(((x - 1.3, middle), (x + 1.3, middle)), INK, role="sign")
            if sign > 0:
                board.line(((x, middle - 1.3), (x, middle + 1.3)), INK, role="sign")
    for n in range(number):
        x = -half + 2 * half * (n + 0.5) / number
        start, end = ((x, tall), (x, 0.0)) if source.top > 0 else ((x, 0.0), (x, tall))
        board.line((start, end), _LINE, role="field line")
        turn = angle(start, end)
        board.head(polar((x, tall / 2), 1.1, turn), turn, role="field head", size=2.2)
    for n in range(diagram.equipotentials):
        y = tall * (n + 1) / (diagram.equipotentials + 1)
        board.line(((-half, y), (half, y)), _DASHED, role="equipotential")
    if source.apart is not None:
        board.measure((half, 0.0), (half, tall), labels.runs(source.apart), off=-5.0, role="measure")
    if source.voltage is not None:
        runs = labels.runs(source.voltage)
        board.measure((-half, 0.0), (-half, tall), runs, off=5.0, role="measure")
    lang = labels.look.lang
    said = [word("f-plates", lang), word("f-upper" if source.top > 0 else "f-lower", lang)]
    said += [word("q-distance", lang, size=labels.text(source.apart))] if source.apart is not None else []
    said += [word("q-voltage", lang, size=labels.text(source.voltage))] if source.voltage is not None else []
    return said + ([word("f-equipotentials", lang)] if diagram.equipotentials else [])


def wire(board: Board, source: Wire, labels: Labels) -> list[str]:
    """Draws the lines around a wire, so near to one another as the field is strong (1/r); the words of it."""
    middle = (0.0, 0.0)
    _current(board, middle, 2.4, source.out, "wire")
    way = 1 if source.out else -1
    radius = 6.0
    for n in range(5):
        board.circle(middle, radius, _LINE, role="field line")
        for turn in (0.0, 180.0):
            at = polar(middle, radius, turn + 45 * (n % 2))
            heading = turn + 45 * (n % 2) + way * 90
            board.head(polar(at, 1.1, heading), heading, role="field head", size=2.2)
        radius *= 1.48
    if source.current is not None:
        runs = labels.runs(source.current)
        board.label(
            runs, around((0.0, 0.0), runs, gap=radius / 1.48 + 1.0, first=0.0)[:1], role="label current"
        )
    lang = labels.look.lang
    said = [word("f-wire-out" if source.out else "f-wire-in", lang)]
    return said + (
        [word("q-current", lang, size=labels.text(source.current))] if source.current is not None else []
    )


def _current(board: Board, at: Point, radius: float, out: bool, role: str) -> None:
    """A wire seen along itself: a dot for a current that comes towards the reader, a cross for one that leaves."""
    board.circle(at, radius, INK, fill=1.0, role=role)
    if out:
        board.dot(at, 0.28 * radius, role=f"{role} out")
        return
    reach = 0.7 * radius
    for turn in (45.0, 135.0):
        board.line((polar(at, reach, turn), polar(at, -reach, turn)), INK, role=f"{role} in")


# Magnets.


def flux(x: Any, y: Any, turns: Sequence[float], radius: float) -> Any:
    """The flux through a circle about the axis that goes through a point, of circular currents; any unit.

    ψ = ρ A with the vector potential of a loop, A ∝ √(a/ρ)/k · ((1 − k²/2) K − E), k² = 4 a ρ / ((a + ρ)² + z²)
    (every textbook of electrodynamics). Lines of equal ψ are field lines.

    Args:
        x, y: along the axis and away from it; numbers or arrays.
        turns: the places of the loops on the axis.
        radius: of the loops.
    """
    rho = abs(y) + 1e-9
    total: Any = 0.0
    for place in turns:
        square = (radius + rho) ** 2 + (x - place) ** 2
        modulus = 4 * radius * rho / square
        first, second = _elliptic(modulus * (1 - 1e-12))
        total = total + (square**0.5) * ((1 - modulus / 2) * first - second)
    return total


def _elliptic(m: Any) -> tuple[Any, Any]:
    """The complete elliptic integrals K and E of a parameter, by the arithmetic-geometric mean (Gauss)."""
    a: Any = 1.0 + 0 * m
    b: Any = (1 - m) ** 0.5
    c: Any = m**0.5
    share: Any = c * c / 2
    power = 0.5
    for _ in range(9):
        a, b, c = (a + b) / 2, (a * b) ** 0.5, (a - b) / 2
        power *= 2
        share = share + power * c * c
    first = math.pi / (2 * a)
    return first, first * (1 - share)


def magnet(board: Board, source: Magnet, labels: Labels, contours: Contours) -> list[str]:
    """Draws the lines of a bar magnet or a solenoid (they are the same outside); the words of it."""
    bar = source.kind == "bar magnet"
    half, radius = (23.0, 7.0) if bar else (24.0, 11.0)
    frame = Box(-62.0, -40.0, 62.0, 40.0)
    count = 24 if bar else source.turns
    turns = [-half + 2 * half * (n + 0.5) / count for n in range(count)]
    # Lines by where they cross the middle, beside the magnet: those that close in the picture, and some that do not.
    crossings = (
        (12.0, 18.0, 26.0, 37.0, 58.0, 105.0, 230.0) if bar else (19.0, 27.0, 37.0, 62.0, 130.0, 330.0)
    )
    heights = [float(flux(0.0, rho, turns, radius)) for rho in crossings]
    way = -1 if source.left else 1
    of = ("magnet", tuple(turns), radius, frame, crossings)
    for lines in kept(
        of, lambda: contours(lambda x, y: flux(x, y, turns, radius), frame, 0.5, sorted(heights))
    ):
        for line in lines:
            board.line(_kept(line), _LINE, role="field line")
            _heads(board, line, way, bar, half)
    reach = half if bar else 0.0
    for side in (-1, 1):
        board.line(((side * reach, 0.0), (side * frame.right, 0.0)), _LINE, role="field line")
        at = (side * (frame.right + half) / 2, 0.0)
        turn = 0.0 if way > 0 else 180.0
        board.head(polar(at, 1.1, turn), turn, role="field head", size=2.2)
    south = word("f-south", labels.look.lang)
    if bar:
        board.box(Box(-half, -radius, half, radius), INK, fill=1.0, role="magnet")
        board.line(((0.0, -radius), (0.0, radius)), INK, role="magnet")
        for side, letter in ((way, "N"), (-way, south)):
            runs = runs_of_text(letter)
            board.fixed(_named(centred((side * half * 0.62, 0.0), runs), letter))
    else:
        for x in turns:
            for y in (radius, -radius):
                # Fingers along the current, the thumb shows the north pole: above, it comes out for N at the left.
                _current(board, (x, y), 1.9, (y > 0) == (way < 0), "turn")
        if source.current is not None:
            runs = labels.runs(source.current)
            board.label(runs, beside((0.0, frame.bottom - 1.0), runs, -90), role="label current")
    lang = labels.look.lang
    said = [word(f"f-{source.kind}", lang)]
    return said + (
        [word("q-current", lang, size=labels.text(source.current))] if source.current is not None else []
    )


def _named(label: Label, letter: str) -> Label:
    return replace(label, role=f"label {letter}")


def _kept(points: list[Point]) -> list[Point]:
    kept = [points[0]]
    for point in points[1:-1]:
        if distance(point, kept[-1]) >= 0.7:
            kept.append(point)
    return [*kept, points[-1]]


def _heads(board: Board, line: list[Point], way: int, bar: bool, half: float) -> None:
    """A head where a line is farthest from the axis, and one inside of a coil."""
    above = [point for point in line if abs(point[0]) < 1.0]
    if above:
        outer = max(above, key=lambda point: abs(point[1]))
        inner = min(above, key=lambda point: abs(point[1]))
        back = 180.0 if way > 0 else 0.0
        if abs(outer[1]) - abs(inner[1]) > 4.0:
            board.head(polar((0.0, outer[1]), 1.1, back), back, role="field head", size=2.2)
        if not bar:
            board.head(polar((0.0, inner[1]), 1.1, back + 180), back + 180, role="field head", size=2.2)
        return
    # A line that leaves the picture: where it is halfway out.
    for side in (-1, 1):
        part = [point for point in line if point[0] * side > half + 4.0]
        if len(part) > 8:
            middle = part[len(part) // 2]
            before, after = part[len(part) // 2 - 1], part[len(part) // 2 + 1]
            turn = angle(before, after)
            outwards = math.cos(math.radians(turn)) * side > 0
            if outwards != (side == way):
                turn += 180
            board.head(polar(middle, 1.1, turn), turn, role="field head", size=2.2)
