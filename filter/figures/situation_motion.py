"""Bodies before and after a collision; the path of a projectile."""

from __future__ import annotations

import math

from physcalc.figures.situation_scenes import Collision, Mover, Projectile

from .amounts import Labels
from .board import Board, around, beside, between, polar
from .bodies import TALL, along, block, block_width, clear, mark_angle, solid, span
from .letters import runs_of_text, width_of
from .picture import BOLD, DASHED, FINE, INK, LABEL_SIZE, Label, Pen, Point
from .situation import Anchor, Placing
from .words import word

#: The longest arrow of a velocity, and the one length of arrows that are not to scale, in millimetres.
LONGEST, EQUAL = 24.0, 17.0
#: From one row to the next.
_ROW = 31.0
_PATH = Pen(0.35, "dashed")


def collision(board: Board, scene: Collision, labels: Labels) -> Placing:
    """Draws bodies before and after, a row for each."""
    movers = [mover for _, row in scene.rows for mover in row]
    lengths = _lengths(movers, labels)
    widths = [
        [[block_width(labels.of(body.labels)) for body in mover.bodies] for mover in row]
        for _, row in scene.rows
    ]
    needed = [
        sum(
            max(sum(sizes), lengths[id(mover)], _label_width(mover, labels)) + 12.0
            for mover, sizes in zip(row, wide, strict=True)
        )
        for (_, row), wide in zip(scene.rows, widths, strict=True)
    ]
    heads = [runs_of_text(word(f"row-{when}", labels.look.lang)) for when, _ in scene.rows]
    margin = max(width_of(runs, LABEL_SIZE) for runs in heads) + 4.0
    total = min(max(80.0, *needed) if len(needed) > 1 else max(80.0, needed[0]), 130.0)
    for at, ((when, row), runs, wide) in enumerate(zip(scene.rows, heads, widths, strict=True)):
        base = -_ROW * at
        board.fixed(Label((0.0, base + TALL / 2 - 1.2), runs, "start", role=f"heading {when}"))
        solid(board, (margin, base), (margin + total, base), f"surface {when}")
        slot = total / len(row)
        for n, (mover, sizes) in enumerate(zip(row, wide, strict=True)):
            middle = margin + slot * (n + 0.5)
            _mover(board, mover, sizes, middle, base, lengths[id(mover)], labels, when)
    return Placing()


def _label_width(mover: Mover, labels: Labels) -> float:
    return width_of(labels.runs(mover.velocity), LABEL_SIZE) if mover.velocity is not None else 0.0


def _lengths(movers: list[Mover], labels: Labels) -> dict[int, float]:
    """How long each arrow is: to scale among those whose velocities are given; others tell nothing of theirs."""
    sizes = {
        id(mover): float(mover.velocity.size)
        for mover in movers
        if mover.velocity is not None and mover.velocity.size is not None and not mover.velocity.found
    }
    lengths = {id(mover): EQUAL for mover in movers}
    if sizes and min(sizes.values()) > 0 and max(sizes.values()) <= 4 * min(sizes.values()):
        longest = max(sizes.values())
        lengths |= {key: LONGEST * size / longest for key, size in sizes.items()}
    return lengths


def _mover(
    board: Board,
    mover: Mover,
    sizes: list[float],
    middle: float,
    base: float,
    length: float,
    labels: Labels,
    when: str,
) -> None:
    x = middle - sum(sizes) / 2
    for body, size in zip(mover.bodies, sizes, strict=True):
        block(
            board,
            (x + size / 2, base + TALL / 2),
            size,
            TALL,
            0.0,
            labels.of(body.labels),
            f"{body.key} {when}",
        )
        x += size
    top: Point = (middle, base + TALL)
    if mover.rest:
        runs = runs_of_text(word("at-rest", labels.look.lang))
        board.label(runs, beside((middle, base + TALL + 1.0), runs, 90), role=f"label rest {when}")
    if mover.velocity is None:
        return
    name = mover.velocity.name.key if mover.velocity.name is not None else "velocity"
    start, end = (
        (middle - mover.way * length / 2, top[1] + 3.5),
        (middle + mover.way * length / 2, top[1] + 3.5),
    )
    board.arrow(start, end, BOLD, role=f"arrow {name} {when}")
    runs = labels.runs(mover.velocity)
    board.label(runs, beside((middle, top[1] + 4.2), runs, 90), role=f"label {name}")


# Projectiles.


def projectile(board: Board, scene: Projectile, labels: Labels) -> Placing:
    """Draws the path of a projectile: a parabola that begins in the direction of its launch."""
    angle = scene.angle.value if scene.angle is not None else None
    known = scene.angle is None or angle is not None
    degrees = math.degrees(float(angle)) if angle is not None else (0.0 if scene.angle is None else 50.0)
    if scene.below:
        degrees = -degrees
    points, start_height, scaled = path(degrees, scene)
    end = points[-1][0]
    platform = 14.0 if scene.height is not None else 8.0
    solid(board, (0.0 if scene.height is not None else -platform, 0.0), (end + 10.0, 0.0), "ground")
    if scene.height is not None:
        solid(board, (-platform, start_height), (0.0, start_height), "platform")
        board.line(((0.0, start_height), (0.0, 0.0)), INK, role="cliff")
        span(
            board,
            (4.0 - platform, 0.0),
            (4.0 - platform, start_height - 2.2),
            labels.runs(scene.height),
            role="height",
        )
        board.line(((-platform, 0.0), (0.0, 0.0)), FINE, role="guide")
    board.line(points, _PATH, role="path")
    start = points[0]
    _launch(board, scene, start, degrees, labels)
    top = max(points, key=lambda point: point[1])
    if scene.top is not None:
        board.line(((top[0] - 6, top[1]), (top[0] + 6, top[1])), FINE, role="guide")
        span(board, (top[0], 0.0), top, labels.runs(scene.top), left=False, role="top")
    if scene.reach is not None:
        ends = (start[0], -6.5), (end, -6.5)
        for x, _ in ends:
            board.line(((x, -2.6), (x, -7.7)), FINE, role="guide")
        board.arrow(*ends, FINE, head="both", role="range", size=1.9)
        runs = labels.runs(scene.reach)
        board.label(runs, beside(between(*ends), runs, -90), role="label range")
    board.circle(start, 1.7, INK, fill=0.82, role=f"body {scene.body.key}")
    runs = labels.of(scene.body.labels)
    if runs:
        board.label(runs, around(start, runs, gap=2.6, first=135), role="label body")
    return Placing({scene.body.key: Anchor(start, 1.7, 1.7)}, scaled and known)


def path(degrees: float, scene: Projectile) -> tuple[list[Point], float, bool]:
    """The path in millimetres, the height of its beginning, and whether it is to scale.

    From the ground y = x tan θ (1 − x/R); from a height h, in units of h,
    y = 1 + x tan θ − x² (g h/v²) / (2 cos² θ) (uniform acceleration, no air resistance).
    """
    tangent = math.tan(math.radians(degrees))
    if scene.height is None:
        width = min(112.0, 62.0 * 4 / tangent if tangent > 0 else 112.0)
        return [(x, x * tangent * (1 - x / width)) for x in (width * n / 48 for n in range(49))], 0.0, True
    drop = float(scene.drop) if scene.drop is not None else 0.9 if tangent >= 0 else 0.4
    bend = drop / (2 * math.cos(math.radians(degrees)) ** 2)
    reach = (tangent + math.sqrt(tangent * tangent + 4 * bend)) / (2 * bend)
    highest = 1 + (tangent * tangent / (4 * bend) if tangent > 0 else 0.0)
    scale = min(104.0 / reach, 66.0 / highest)
    across, up = scale, scale
    # A path that is very flat or very steep is stretched, and then not to scale.
    if highest * scale < 22.0:
        up = 22.0 / highest
    if reach * scale < 26.0:
        across = 26.0 / reach
    true = across == up and scene.drop is not None
    xs = [reach * n / 48 for n in range(49)]
    return [(x * across, max(0.0, (1 + x * tangent - bend * x * x)) * up) for x in xs], up, true


def _launch(board: Board, scene: Projectile, start: Point, degrees: float, labels: Labels) -> None:
    if scene.speed is not None:
        name = scene.speed.name.key if scene.speed.name is not None else "velocity"
        tip = polar(start, 20.0, degrees)
        board.arrow(polar(start, 1.7, degrees), tip, BOLD, role=f"arrow {name}")
        runs = labels.runs(scene.speed)
        # On the side of its arrow on which neither the angle nor the path is.
        left = degrees >= 0
        places = [
            clear(tip, runs, degrees + (60 if left else -60)),
            *along(start, tip, runs, left=left),
            clear(tip, runs, degrees),
        ]
        board.label(runs, places, role=f"label {name}")
    if scene.angle is not None:
        board.line((start, (start[0] + 20.0, start[1])), DASHED, role="guide")
        low, high = sorted((0.0, degrees))
        mark_angle(
            board, start, low, high, labels.runs(scene.angle), radius=9.0 if abs(degrees) > 24 else 14.0
        )
