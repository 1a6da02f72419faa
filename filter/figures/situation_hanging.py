"""Pendulums, lifts, and bodies that hang from threads or a spring."""

from __future__ import annotations

import math

from physcalc.figures.situation_reading import Amount
from physcalc.figures.situation_scenes import Hanging

from .amounts import Labels
from .board import Board, around, beside, between, polar
from .bodies import TALL, along, block, block_width, clear, mark_angle, person, solid, span, spring
from .picture import DASHED, FINE, INK, Point
from .situation import Anchor, Placing

#: A pendulum's length and its bob's radius, in millimetres.
LONG, BOB = 52.0, 3.2
#: Angles where none is known.
SOME_SWING, SOME_THREAD = 25.0, 45.0


def hanging(board: Board, scene: Hanging, labels: Labels) -> Placing:
    """Draws a body that hangs."""
    match scene.kind:
        case "pendulum":
            return _pendulum(board, scene, labels)
        case "threads":
            return _threads(board, scene, labels)
        case "spring":
            return _spring(board, scene, labels)
        case "lift":
            return _lift(board, scene, labels)


def _degrees(amount: Amount | None, otherwise: float, least: float, most: float) -> tuple[float, bool]:
    """An angle as it is drawn, and whether that is what it is."""
    if amount is None or amount.value is None:
        return otherwise, True
    true = math.degrees(float(amount.value))
    return min(max(true, least), most), least <= true <= most


def _pendulum(board: Board, scene: Hanging, labels: Labels) -> Placing:
    tension, angle = scene.threads[0]
    swing, scaled = _degrees(angle, SOME_SWING, 6.0, 80.0)
    side = -1 if scene.left else 1
    pivot: Point = (0.0, 0.0)
    bob = polar(pivot, LONG, 270 + side * swing)
    low = (0.0, -LONG)
    solid(board, (13.0, 0.0), (-13.0, 0.0), "ceiling")
    board.line((pivot, low), DASHED, role="vertical")
    board.line((pivot, bob), INK, role="thread")
    if angle is not None:
        start, end = sorted((270.0, 270 + side * swing))
        mark_angle(board, pivot, start, end, labels.runs(angle), radius=16.0 if swing > 16 else 24.0)
    outside = side > 0
    if scene.length is not None:
        runs = labels.runs(scene.length)
        board.label(runs, along(pivot, bob, runs, left=outside), role="label length")
    if tension is not None:
        runs = labels.runs(tension)
        board.label(runs, along(between(pivot, bob, 0.5), bob, runs, left=outside), role="label thread")
    if scene.height is not None:
        board.circle(low, BOB, DASHED, fill=1.0, role="lowest")
        away = bob[0] + side * 11.0
        for point in (low, bob):
            board.line(
                (polar(point, BOB + 0.8, 0.0 if outside else 180.0), (away + side * 1.5, point[1])),
                FINE,
                role="guide",
            )
        span(
            board, (away, low[1]), (away, bob[1]), labels.runs(scene.height), left=not outside, role="height"
        )
    board.circle(bob, BOB, INK, fill=0.82, role=f"body {scene.body.key}")
    runs = labels.of(scene.body.labels)
    if runs:
        below = 270 + side * swing
        spots = [
            clear(polar(bob, BOB, turn), runs, turn)
            for turn in (below, 270.0, 180.0 if outside else 0.0, 90.0 - side * 45)
        ]
        board.label(runs, [*spots, *around(bob, runs, gap=BOB + 1)], role="label body")
    return Placing({scene.body.key: Anchor(bob, BOB, BOB)}, scaled)


def _threads(board: Board, scene: Hanging, labels: Labels) -> Placing:
    runs = labels.of(scene.body.labels)
    width = block_width(runs)
    top: Point = (0.0, 0.0)
    scaled = True
    ends: list[Point] = []
    angles: list[float] = []
    for number, (_, angle) in enumerate(scene.threads):
        alone = len(scene.threads) == 1 and angle is None
        turn, true = (90.0, True) if alone else _degrees(angle, SOME_THREAD, 12.0, 85.0)
        scaled = scaled and true
        angles.append(180 - turn if number == 0 and len(scene.threads) > 1 else turn)
    reach = sum(abs(1 / math.tan(math.radians(a))) if a != 90 else 0.0 for a in angles)
    height = min(34.0, 108.0 / max(reach, 0.1))
    for a in angles:
        ends.append((0.0 if a == 90 else height / math.tan(math.radians(a)), height))
    left, right = min([-12.0, *(x - 8 for x, _ in ends)]), max([12.0, *(x + 8 for x, _ in ends)])
    solid(board, (right, height), (left, height), "ceiling")
    for (label, angle), end in zip(scene.threads, ends, strict=True):
        board.line((top, end), INK, role="thread")
        turn = math.degrees(math.atan2(height, end[0]))
        if label is not None:
            text = labels.runs(label)
            board.label(text, along(top, end, text, left=end[0] < 0), role="label thread")
        if angle is not None:
            start, stop = (180.0, 180 + turn) if end[0] > 0 else (180 + turn, 360.0)
            mark_angle(board, end, start, stop, labels.runs(angle), radius=9.0 if 25 < turn < 155 else 15.0)
    at = (0.0, -TALL / 2)
    block(board, at, width, TALL, 0.0, runs, scene.body.key)
    if scene.length is not None:
        runs_length = labels.runs(scene.length)
        board.label(runs_length, along(top, ends[-1], runs_length), role="label length")
    return Placing({scene.body.key: Anchor(at, width / 2, TALL / 2, 0.0, False)}, scaled)


def _spring(board: Board, scene: Hanging, labels: Labels) -> Placing:
    runs = labels.of(scene.body.labels)
    width = block_width(runs)
    natural, end = -26.0, -40.0 if scene.extension is not None else -34.0
    solid(board, (14.0, 0.0), (-14.0, 0.0), "ceiling")
    spring(board, (0.0, 0.0), (0.0, end), turns=8)
    constant = scene.threads[0][0]
    if constant is not None:
        text = labels.runs(constant)
        board.label(text, beside((2.2, end * 0.45), text, 0), role="label spring")
    at = (0.0, end - TALL / 2)
    block(board, at, width, TALL, 0.0, runs, scene.body.key)
    away = max(width / 2, 8.0) + 8.0
    if scene.extension is not None:
        for y in (natural, end):
            board.line(((3.5, y), (away + 1.5, y)), DASHED if y == natural else FINE, role="guide")
        span(board, (away, end), (away, natural), labels.runs(scene.extension), left=False, role="extension")
    if scene.length is not None:
        board.line(((-3.5, end), (-away - 1.5, end)), FINE, role="guide")
        span(board, (-away, 0.0), (-away, end), labels.runs(scene.length), left=False, role="length")
    return Placing({scene.body.key: Anchor(at, width / 2, TALL / 2, 0.0, False)})


def _lift(board: Board, scene: Hanging, labels: Labels) -> Placing:
    half, tall = 14.0, 34.0
    cable = scene.threads[0][0]
    corners = ((-half, 0.0), (half, 0.0), (half, tall), (-half, tall))
    board.line(corners, INK, closed=True, fill=1.0, role=f"body {scene.body.key}")
    board.line(((0.0, tall), (0.0, tall + 18.0)), INK, role="cable")
    if cable is not None:
        runs = labels.runs(cable)
        board.label(runs, beside((0.0, tall + 10.0), runs, 0), role="label cable")
    placing = Placing({scene.body.key: Anchor((0.0, tall / 2), half, tall / 2, 0.0, False)})
    runs = labels.of(scene.body.labels)
    if scene.inside is None:
        if runs:
            board.label(runs, [(0.0, tall / 2), *beside((-half, tall / 2), runs, 180)], role="label lift")
        return placing
    board.label(runs, beside((-half, tall * 0.8), runs, 180), role="label lift")
    inner = labels.of(scene.inside.labels)
    if scene.inside.word in ("person", "passenger"):
        person(board, (0.0, 0.0), 19.0, scene.inside.key)
        placing.anchors[scene.inside.key] = Anchor((0.0, 9.5), 4.0, 9.5, 0.0, False)
        board.label(
            inner, [*beside((0.0, 19.5), inner, 90), *around((0.0, 24.0), inner)], role="label inside"
        )
    else:
        width = min(block_width(inner), 2 * half - 3)
        block(board, (0.0, TALL / 2), width, TALL, 0.0, inner, scene.inside.key)
        placing.anchors[scene.inside.key] = Anchor((0.0, TALL / 2), width / 2, TALL / 2, 0.0, False)
    return placing
