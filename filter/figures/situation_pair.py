"""Two balls on threads that repel or attract one another."""

from __future__ import annotations

import math

from physcalc.figures.situation_scenes import HangingPair

from .amounts import Labels
from .board import Board, around, between, polar
from .bodies import along, clear, mark_angle, solid
from .picture import BOLD, DASHED, INK, Point
from .situation import Anchor, Placing
from .situation_plan import levels

#: The length of a thread, the radius of a ball, and the arrow of a force, in millimetres.
LONG, BALL, ARROW = 46.0, 3.2, 13.0
#: The angle of a thread where none is known, and between which angles it is drawn, in degrees.
SOME, LEAST, MOST = 18.0, 7.0, 65.0
#: Half the distance of two points.
_HALF = 17.0


def pair(board: Board, scene: HangingPair, labels: Labels) -> Placing:
    """Draws two balls that hang from one point or two."""
    true = math.degrees(float(scene.turn)) if scene.turn is not None else SOME
    turn = min(max(true, LEAST), MOST)
    scaled = turn == true
    swing = -turn if scene.attracting else turn
    half = 0.0
    if scene.points == 2:
        # Balls that attract one another do not meet, and their arrows have room.
        half = _HALF if swing > 0 else LONG * math.sin(math.radians(turn)) + ARROW + BALL + 6.0
        half, to_scale = _half(scene, half)
        scaled = scaled and to_scale
    reach = half + 13.0
    solid(board, (reach, 0.0), (-reach, 0.0), "ceiling")
    placing = Placing(scaled=scaled)
    balls: list[Point] = []
    for side, body, sign in zip((-1, 1), scene.bodies, scene.signs, strict=True):
        pivot = (side * half, 0.0)
        ball = polar(pivot, LONG, 270 + side * swing)
        balls.append(ball)
        board.line((pivot, ball), INK, role="thread")
        if side > 0 and scene.angle is not None:
            board.line((pivot, (pivot[0], -LONG)), DASHED, role="vertical")
            low, high = sorted((270.0, 270.0 + swing))
            mark_angle(board, pivot, low, high, labels.runs(scene.angle), radius=16.0 if turn > 16 else 24.0)
        board.circle(ball, BALL, INK, fill=1.0, role=f"body {body.key}")
        placing.anchors[body.key] = Anchor(ball, BALL, BALL)
        if sign and not any(labels.hides(label) for label in body.labels):
            arm = 0.55 * BALL
            board.line(((ball[0] - arm, ball[1]), (ball[0] + arm, ball[1])), INK, role=f"sign {body.key}")
            if sign > 0:
                board.line(((ball[0], ball[1] - arm), (ball[0], ball[1] + arm)), INK, role=f"sign {body.key}")
        outwards = (0.0 if side > 0 else 180.0) + (180.0 if scene.attracting else 0.0)
        if scene.force is not None:
            tip = polar(ball, BALL + ARROW, outwards)
            board.arrow(polar(ball, BALL, outwards), tip, BOLD, role="arrow force")
            runs = labels.runs(scene.force)
            board.label(runs, [clear(tip, runs, outwards), clear(tip, runs, 90.0)], role="label force")
        runs = labels.of(body.labels)
        if runs:
            spots = [clear(polar(ball, BALL, t), runs, t) for t in (270.0, outwards + 180, 90.0)]
            board.label(runs, [*spots, *around(ball, runs, gap=BALL + 1)], role="label body")
        # Outside of both threads; the length at the left, the tension at both.
        if side < 0 and scene.length is not None:
            runs = labels.runs(scene.length)
            board.label(runs, along(pivot, ball, runs, left=False), role="label length")
        if scene.tension is not None:
            runs = labels.runs(scene.tension)
            lower = between(pivot, ball, 0.55)
            board.label(runs, along(lower, ball, runs, left=side > 0), role="label thread")
    if scene.distance is not None:
        wanted = [(balls[0], balls[1], labels.runs(scene.distance), None)]
        levels(board, wanted, first=13.0, lead=9.0 if scene.bodies[0].labels else BALL + 1.2)
    if scene.apart is not None and half:
        ends = ((-half, 0.0), (half, 0.0))
        board.measure(*ends, labels.runs(scene.apart), off=5.5, role="measure")
    return placing


def _half(scene: HangingPair, otherwise: float) -> tuple[float, bool]:
    """Half the distance of the two points in the picture, and whether that is to scale with the threads."""
    long = scene.length.value if scene.length is not None else None
    apart = scene.apart.value if scene.apart is not None else None
    if long is None or apart is None:
        return otherwise, True
    true = LONG * float(apart) / float(long) / 2
    least = otherwise if scene.attracting else 4.0
    drawn = min(max(true, least), 55.0)
    return drawn, drawn == true
