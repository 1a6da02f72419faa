"""Waves with their amplitude and wavelength, standing waves, and wavefronts of a moving source."""

from __future__ import annotations

import math

from physcalc.figures.situation_scenes import Fronts, Standing, Wave

from .amounts import Labels
from .board import Board, around, beside, between
from .bodies import clear, solid
from .letters import runs_of_text
from .picture import BOLD, DASHED, FINE, INK, Pen, Point, Run
from .situation import Placing
from .words import word

#: How long a wave is, and how high a crest, in millimetres.
LONG, CREST = 100.0, 12.0
_CURVE = Pen(0.45)


def wave(board: Board, scene: Wave, labels: Labels) -> Placing:
    """Draws a transverse or a longitudinal wave."""
    each = min(48.0, max(LONG, 22.0 * scene.count) / scene.count)
    length = each * scene.count
    if scene.kind == "transverse":
        _transverse(board, scene, labels, each, length)
    else:
        _longitudinal(board, scene, labels, each, length)
    if scene.way:
        # Beside the wavelength where there is room, else above everything.
        beside_it = scene.wavelength is not None and scene.count > 1
        high, middle = CREST + 5.0, length / 2
        if beside_it:
            middle = each * 1.25 + 16.0 if scene.kind == "transverse" else each * 1.5 + 14.0
        elif scene.wavelength is not None and scene.kind == "longitudinal":
            high += 12.0
        start, end = (middle - scene.way * 8.0, high), (middle + scene.way * 8.0, high)
        board.arrow(start, end, BOLD, role="arrow speed")
        if scene.speed is not None:
            runs = labels.runs(scene.speed)
            board.label(runs, [clear((middle, high), runs, 90, 1.4), clear(end, runs, 0)], role="label speed")
    return Placing(note=word("w-parts", labels.look.lang) if scene.named else "")


def _transverse(board: Board, scene: Wave, labels: Labels, each: float, length: float) -> None:
    board.line(((-6.0, 0.0), (length + 6.0, 0.0)), DASHED, role="axis")
    count = 40 * scene.count
    points = [
        (length * n / count, CREST * math.sin(2 * math.pi * length * n / count / each))
        for n in range(count + 1)
    ]
    board.line(points, _CURVE, role="wave")
    if scene.amplitude is not None:
        crest = each / 4 if scene.count == 1 or scene.wavelength is None else each * (scene.count - 0.75)
        board.arrow((crest, 0.0), (crest, CREST), FINE, head="both", role="amplitude", size=1.9)
        runs = labels.runs(scene.amplitude)
        middle = (crest, CREST * 0.42)
        outside = [
            place
            for at in ((length + 1.0, CREST * 0.6), (-1.0, CREST * 0.6))
            for place in beside(at, runs, 0 if at[0] > 0 else 180)[:1]
        ]
        board.label(
            runs,
            [
                *beside(middle, runs, 0)[:1],
                *beside(middle, runs, 180)[:1],
                *beside((crest, 0.0), runs, -90),
                *outside,
            ],
            role="label amplitude",
        )
    if scene.wavelength is not None:
        if scene.count == 1:
            _span(board, (0.0, -CREST - 5.0), (each, -CREST - 5.0), 0.0, labels.runs(scene.wavelength))
        else:
            _span(
                board,
                (each / 4, CREST + 4.5),
                (each * 1.25, CREST + 4.5),
                CREST,
                labels.runs(scene.wavelength),
            )


def _span(
    board: Board, start: Point, end: Point, level: float, runs: tuple[Run, ...], role: str = "wavelength"
) -> None:
    """A wavelength between two places, with lines that lead to them."""
    up = 1.0 if start[1] > level else -1.0
    for x, y in (start, end):
        board.line(((x, level + up * 1.0), (x, y + up * 1.2)), FINE, role="guide")
    board.arrow(start, end, FINE, head="both", role=role, size=1.9)
    board.label(runs, beside(between(start, end), runs, 90 * up), role=f"label {role}")


def _longitudinal(board: Board, scene: Wave, labels: Labels, each: float, length: float) -> None:
    """Layers of the medium, displaced along the wave: close together in compressions."""
    layers = 16 * scene.count
    for n in range(layers + 1):
        x = length * n / layers
        moved = x - 0.13 * each * math.sin(2 * math.pi * x / each - math.pi)
        board.line(((moved, -8.0), (moved, 8.0)), FINE if n % 16 else INK, role="layer")
    if scene.named:
        # Layers are displaced towards the middles of waves, and away from their ends.
        spots = [(each * (n + 0.5), "C") for n in range(scene.count)]
        spots += [(each * n, "R") for n in range(scene.count + 1) if scene.count == 1 or 0 < n < scene.count]
        for x, letter in sorted(spots):
            text = runs_of_text(letter)
            board.label(text, [clear((x, -8.0), text, -90)], role=f"label {letter}")
    if scene.wavelength is not None:
        first = each / 2 if scene.count > 1 else 0.0
        _span(board, (first, 13.0), (first + each, 13.0), 8.0, labels.runs(scene.wavelength))
    if scene.amplitude is not None:
        runs = labels.runs(scene.amplitude)
        board.label(runs, beside((length / 2, -9.0), runs, -90), role="label amplitude")


def standing(board: Board, scene: Standing, labels: Labels) -> Placing:
    """Draws both ends of the motion of a standing wave, with its nodes."""
    quarter = min(26.0, LONG / scene.quarters)
    length = quarter * scene.quarters
    half = min(CREST, 9.0 if scene.medium == "pipe" else 11.0)
    # The displacement is largest at a free end, and none at a fixed one.
    shift = math.pi / 2 if scene.open[0] else 0.0

    def height(x: float) -> float:
        return math.sin(math.pi / 2 * x / quarter + shift)

    count = 16 * scene.quarters
    for sign, pen, role in ((1, _CURVE, "wave"), (-1, DASHED, "wave other")):
        board.line(
            [(length * n / count, sign * half * 0.92 * height(length * n / count)) for n in range(count + 1)],
            pen,
            role=role,
        )
    for n in range(scene.quarters + 1):
        if abs(height(n * quarter)) < 1e-9:
            board.dot((n * quarter, 0.0), 0.8, role="node")
    if scene.medium == "pipe":
        for y in (-half - 1.0, half + 1.0):
            board.line(((0.0, y), (length, y)), BOLD, role="pipe")
        for x, free in ((0.0, scene.open[0]), (length, scene.open[1])):
            if not free:
                board.line(((x, -half - 1.0), (x, half + 1.0)), BOLD, role="end")
    else:
        board.line(((0.0, 0.0), (length, 0.0)), Pen(0.18, "dotted"), role="axis")
        solid(board, (0.0, -8.0), (0.0, 8.0), "end")
        solid(board, (length, 8.0), (length, -8.0), "end")
    if scene.wavelength is not None:
        first = 0.0
        _span(
            board,
            (first, half + 7.0),
            (first + 4 * quarter, half + 7.0),
            half + 1.0,
            labels.runs(scene.wavelength),
        )
    if scene.length is not None:
        _span(
            board, (0.0, -half - 7.0), (length, -half - 7.0), -half - 1.0, labels.runs(scene.length), "length"
        )
    return Placing()


def fronts(board: Board, scene: Fronts, labels: Labels) -> Placing:
    """Draws the wavefronts that a source has sent out, each around where the source was then."""
    ratio = float(scene.ratio) if scene.ratio is not None else 0.5
    step = min(5.6, 34.0 / max(1.0, ratio) / 6)
    for n in range(1, 7):
        board.circle((-scene.way * ratio * step * n, 0.0), step * n, FINE, role=f"front {n}")
        if scene.way and ratio:
            board.dot((-scene.way * ratio * step * n, 0.0), 0.35, role=f"earlier {n}")
    board.dot((0.0, 0.0), 1.1, role="source")
    # Ahead and behind, as far as the waves have come.
    reach = [-scene.way * ratio * step * 6 + side * step * 6 for side in (-1, 1)]
    left, right = min(*reach, -8.0), max(*reach, 8.0)
    if scene.way:
        start = (right + 4.0, 0.0) if scene.way > 0 else (left - 4.0, 0.0)
        if ratio < 1:
            start = (0.0, 0.0)
        end = (start[0] + scene.way * 15.0, 0.0)
        board.arrow(start, end, BOLD, role="arrow source")
        if scene.source is not None:
            runs = labels.runs(scene.source)
            outer = right if scene.way > 0 else left
            spots = beside(end, runs, 60 if scene.way > 0 else 120)
            board.label(
                runs,
                [*spots[:1], *beside((outer, 9.0), runs, 0 if scene.way > 0 else 180)],
                role="label source",
            )
    for body, ahead in scene.observers:
        side = (1 if ahead else -1) * (scene.way or 1)
        x = right + 24.0 if side > 0 else left - 12.0
        if scene.way < 0:
            x = left - 24.0 if side < 0 else right + 12.0
        board.dot((x, 0.0), 0.9, role=f"body {body.key}")
        runs = labels.of(body.labels) or runs_of_text(word("observer", labels.look.lang))
        board.label(runs, around((x, 0.0), runs), role=f"label {body.key}")
    if scene.wave is not None:
        runs = labels.runs(scene.wave)
        edge = (-scene.way * ratio * step * 6, step * 6)
        board.label(runs, beside(edge, runs, 90), role="label wave")
    return Placing(scaled=scene.ratio is not None)
