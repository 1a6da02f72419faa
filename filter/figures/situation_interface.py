"""Light at the plane between two media."""

from __future__ import annotations

import math

from physcalc.figures.situation_reading import Amount
from physcalc.figures.situation_scenes import Interface

from .amounts import Labels
from .board import Board, angle, between, polar
from .bodies import mark_angle
from .letters import box_of, runs_of_text
from .picture import DASHED, INK, Label, Pen, Point, Run
from .situation import Placing

#: Half the width of the picture, and how long rays are, in millimetres.
HALF, RAY = 44.0, 38.0
_LIGHT = Pen(0.4)


def interface(board: Board, scene: Interface, labels: Labels) -> Placing:
    """Draws the ray that comes in, what is reflected and what is refracted, each with its angle to the normal."""
    incident = math.degrees(float(scene.incident))
    refracted = math.degrees(float(scene.refracted)) if scene.refracted is not None else None
    # Directions away from where the light meets the plane; turned over where it comes from below.
    flip = 1.0 if scene.down else -1.0
    board.line(((-HALF, 0.0), (HALF, 0.0)), INK, role="interface")
    board.line(((0.0, -30.0), (0.0, 30.0)), DASHED, role="normal")
    normal, other = 90.0 * flip, -90.0 * flip
    _ray(board, polar((0.0, 0.0), RAY, normal + flip * incident), (0.0, 0.0), "ray incident")
    _mark(board, normal, normal + flip * incident, labels, scene.labels[0], "incident")
    if scene.reflects:
        _ray(board, (0.0, 0.0), polar((0.0, 0.0), RAY, normal - flip * incident), "ray reflected")
        _mark(board, normal, normal - flip * incident, labels, scene.labels[1], "reflected")
    if refracted is not None:
        _ray(board, (0.0, 0.0), polar((0.0, 0.0), RAY, other + flip * refracted), "ray refracted")
        _mark(board, other, other + flip * refracted, labels, scene.labels[2], "refracted")
    for words, index, side in zip(scene.media, scene.indices, (flip, -flip), strict=True):
        _medium(board, words, index, side, labels)
    return Placing()


def _ray(board: Board, start: Point, end: Point, role: str) -> None:
    board.line((start, end), _LIGHT, role=role)
    turn = angle(start, end)
    board.head(polar(between(start, end), 1.3, turn), turn, role=role)


def _mark(board: Board, start: float, end: float, labels: Labels, amount: Amount | None, role: str) -> None:
    if amount is None or abs(end - start) < 1:
        return
    low, high = sorted((start, end))
    mark_angle(
        board,
        (0.0, 0.0),
        low,
        high,
        labels.runs(amount),
        radius=11.0 if high - low > 22 else 19.0,
        role=f"angle {role}",
    )


def _medium(board: Board, words: str, index: Amount | None, side: float, labels: Labels) -> None:
    """The name of a medium and its refractive index, at the edge of the picture."""
    runs: tuple[Run, ...] = runs_of_text(words)
    if index is not None:
        runs = (*runs, Run(" ("), *labels.runs(index), Run(")"))
    box = box_of(Label((0.0, 0.0), runs, "start"))
    high = 1.6 - box.bottom if side > 0 else -1.6 - box.top
    places = [
        place
        for y in (high, side * 26.0)
        for place in (Label((-HALF, y), runs, "start"), Label((HALF, y), runs, "end"))
    ]
    board.label(runs, places, role=f"label {words}")
