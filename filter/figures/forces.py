"""The picture of a free-body diagram."""

from __future__ import annotations

import math
from fractions import Fraction

from physcalc.exact import Form, Real, write
from physcalc.exact import numeral_text as written
from physcalc.figures.forces import Force, ForcesDiagram
from physcalc.figures.reading import Slope
from physcalc.language.words import punctuated

from .board import DASHED, Board, beside, polar
from .figure import Figure, KeyRow, Look
from .letters import runs_equal, runs_of_name, runs_of_text
from .picture import FINE, INK, LABEL_SIZE, Pen, Point, Run
from .words import way, word

#: The longest arrow and the one length of arrows that are not to scale, in millimetres.
LONGEST = 34.0
EQUAL = 24.0
#: Half the side of a block, and the radius of a point.
HALF_BLOCK = 6.0
DOT = 1.1
#: Two forces in one direction stand so far apart.
APART = 3.6


def forces(diagram: ForcesDiagram, look: Look) -> Figure:
    """The picture of a free-body diagram.

    Args:
        diagram: the forces.
        look: how figures look.
    """
    board = Board()
    origin: Point = (0.0, 0.0)
    tilt = math.degrees(float(diagram.slope.up)) if diagram.slope is not None else 0.0
    if diagram.slope is not None:
        _slope(board, diagram.slope, look)
    if diagram.block:
        corners = [polar(origin, HALF_BLOCK * math.sqrt(2), tilt + 45 + 90 * n) for n in range(4)]
        board.line(corners, INK, closed=True, fill=1.0, role="body")
    board.dot(origin, DOT if not diagram.block else 0.7, role="body")
    lengths = _lengths(diagram)
    for force, length, shift in zip(diagram.forces, lengths, _shifts(diagram), strict=True):
        _force(board, force, origin, length, shift, diagram, look)
    _angles(board, diagram, look)
    note = word("scale", look.lang, size=diagram.scale_unit) if diagram.scale_unit else ""
    return Figure(board.picture(), _alternative(diagram, look), _key(diagram), note)


def _lengths(diagram: ForcesDiagram) -> list[float]:
    sizes = [float(force.size) if force.size is not None else 0.0 for force in diagram.forces]
    if diagram.scale is not None:
        return [10 * size / float(diagram.scale) for size in sizes]
    if not diagram.scaled:
        return [EQUAL] * len(sizes)
    return [LONGEST * size / max(sizes) for size in sizes]


def _shifts(diagram: ForcesDiagram) -> list[float]:
    """How far each arrow stands to the left of its line, so that two in one direction can both be seen."""
    turns = [round(force.direction.degrees, 3) % 360 for force in diagram.forces]
    shifts = []
    for at, turn in enumerate(turns):
        alike = [n for n, other in enumerate(turns) if other == turn]
        shifts.append(APART * (alike.index(at) - (len(alike) - 1) / 2))
    return shifts


def _force(
    board: Board, force: Force, origin: Point, length: float, shift: float, diagram: ForcesDiagram, look: Look
) -> None:
    turn = force.direction.degrees
    start = polar(origin, shift, turn + 90)
    end = polar(start, length, turn)
    role = f"arrow {force.name.key}"
    board.arrow(start, end, role=role)
    runs: tuple[Run, ...] = runs_of_name(force.name)
    if diagram.values and force.datum is not None:
        runs = runs_equal(force.name, look.value(force.datum))
    board.label(runs, beside(end, runs, turn), role=f"label {force.name.key}")
    if force.components:
        _components(board, force, start, end, diagram)


def _components(board: Board, force: Force, start: Point, end: Point, diagram: ForcesDiagram) -> None:
    """The components of a force, dashed: along the slope and across it, or horizontal and vertical."""
    tilt = math.degrees(float(diagram.slope.up)) if diagram.slope is not None else 0.0
    axes = (("∥", tilt), ("⊥", tilt + 90)) if diagram.slope is not None else (("x", 0.0), ("y", 90.0))
    dx, dy = end[0] - start[0], end[1] - start[1]
    for mark, axis in axes:
        along = dx * math.cos(math.radians(axis)) + dy * math.sin(math.radians(axis))
        if abs(along) < 0.5:
            continue
        tip = polar(start, along, axis)
        role = f"component {mark} {force.name.key}"
        board.arrow(start, tip, DASHED, role=role, size=2.0)
        board.line((tip, end), GUIDE, role="guide")
        runs = _with_below(force, mark)
        board.label(
            runs, beside(tip, runs, axis if along > 0 else axis + 180, LABEL_SIZE), role=f"label {mark}"
        )


def _with_below(force: Force, mark: str) -> tuple[Run, ...]:
    below = force.name.below + mark if force.name.below in ("", "g") else f"{force.name.below},{mark}"
    if mark in ("x", "y"):
        return (*runs_of_name(force.name.along(mark)),)
    return (*(run for run in runs_of_name(force.name) if run.level >= 0), Run(below, level=-1))


GUIDE = Pen(0.18, "dotted")


def _slope(board: Board, slope: Slope, look: Look) -> None:
    up = math.degrees(float(slope.up))
    across = math.degrees(float(slope.normal))
    # The angle lies clear of the weight and its components.
    foot = polar(polar((0.0, 0.0), -HALF_BLOCK, across), -35.0, up)
    top = polar(foot, 61.0, up)
    level = (top[0], foot[1])
    board.line((foot, top), INK, role="slope")
    board.line((foot, level), INK, role="level")
    board.line((level, top), FINE, role="height")
    runs = runs_of_text(look.value(slope.datum))
    start, end = (0.0, up) if not slope.left else (up, 180.0)
    board.angle_mark(foot, start, end, runs, radius=11.0, role="angle")


def _angles(board: Board, diagram: ForcesDiagram, look: Look) -> None:
    """The angle of a force whose direction was typed as one: from the axis that it was turned from."""
    taken: list[tuple[float, float, float]] = []
    for force in diagram.forces:
        heading = force.direction.heading
        if heading is None or heading.angle is None or heading.radians:
            continue
        base = 90.0 * heading.base
        low, high = sorted((base, base + heading.turn * float(heading.angle.value)))
        # Two angles over one another are drawn at two distances.
        near = [far for other_low, other_high, far in taken if _overlap(low, high, other_low, other_high)]
        radius = max([9.0, *(far + 4.5 for far in near)])
        taken.append((low, high, radius))
        board.line(((0.0, 0.0), polar((0.0, 0.0), radius + 7, base)), DASHED, role="guide")
        text = _degrees(heading.angle.value, look)
        end = base + heading.turn * float(heading.angle.value)
        board.angle_mark((0.0, 0.0), base, end, runs_of_text(text), radius=radius, role="angle")


def _overlap(low: float, high: float, other_low: float, other_high: float) -> bool:
    """Whether two stretches of angles in degrees have more than an end in common, whole turns apart."""
    return any(low < other_high + turn - 0.1 and other_low + turn < high - 0.1 for turn in (-360, 0, 360))


def _degrees(value: Fraction, look: Look) -> str:
    places = 0 if value.denominator == 1 else 1 if (value * 10).denominator == 1 else 2
    _, numeral = write(
        Real.of(value), Form("places", places, False), look.conventions.rule, look.conventions.style
    )
    return written(numeral, look.conventions.style) + "°"


def _key(diagram: ForcesDiagram) -> tuple[KeyRow, ...]:
    return tuple(KeyRow(runs_of_name(force.name), force.meaning) for force in diagram.forces if force.meaning)


def _alternative(diagram: ForcesDiagram, look: Look) -> str:
    """What the picture shows, in words."""
    head = word("free-body", look.lang, on=diagram.on) if diagram.on else word("free-body-point", look.lang)
    if diagram.slope is not None:
        head += " " + word("on-slope", look.lang, angle=look.value(diagram.slope.datum))
    said = []
    for force in diagram.forces:
        size = f" = {look.value(force.datum)}" if diagram.values and force.datum is not None else ""
        meaning = f" ({force.meaning})" if force.meaning else ""
        said.append(f"{force.name.key}{size}{meaning}: {direction_words(force, look)}")
    return punctuated(f"{head}. {'; '.join(said)}.", look.lang)


def direction_words(force: Force, look: Look) -> str:
    """The direction of a force in words: as the author typed it, else from its angle."""
    turned = force.direction.degrees % 360
    for turn, key in ((0, "right"), (90, "up"), (180, "left"), (270, "down")):
        if abs(turned - turn) < 0.01:
            return word(key, look.lang)
    if said := way(force.direction, look.conventions.style, look.lang):
        return said
    return word("at", look.lang, angle=_degrees(Fraction(round(turned * 10), 10), look))
