"""Blocks on a level surface or a slope, joined by strings, over pulleys and at springs."""

from __future__ import annotations

import math
from collections.abc import Callable

from physcalc.figures.situation_reading import Amount
from physcalc.figures.situation_scenes import Block, Blocks, Thread

from .amounts import Labels
from .board import Board, beside, between, polar
from .bodies import BLOCK, PULLEY, TALL, block, block_width, over, pulley, solid, spring
from .letters import runs_of_text, width_of
from .picture import FINE, INK, LABEL_SIZE, Box, Point
from .situation import Anchor, Placing
from .words import word

#: Between two blocks: room for a string and its label.
_BETWEEN = 18.0
#: The length of a slope, and the angle where none is known.
SLOPE, SOME_ANGLE = 82.0, 30.0
#: A slope is drawn as steep as it is between these; beyond, not to scale.
LEAST_STEEP, MOST_STEEP = 8.0, 70.0


def blocks(board: Board, scene: Blocks, labels: Labels) -> Placing:
    """Draws blocks on a surface and over pulleys."""
    drawing = _Drawing(board, scene, labels)
    if scene.surface == "slope":
        drawing.slope()
    elif any(one.place == "surface" for one in scene.blocks) or scene.surface:
        drawing.level()
    else:
        drawing.pulley_alone()
    return drawing.placing


class _Drawing:
    def __init__(self, board: Board, scene: Blocks, labels: Labels) -> None:
        self.board, self.scene, self.labels = board, scene, labels
        self.placing = Placing()
        self.standing = [one for one in scene.blocks if one.place == "surface"]
        self.hanging = [one for one in scene.blocks if one.place == "pulley"]
        self.threads = list(scene.threads)

    def _runs(self, one: Block):  # type: ignore[no-untyped-def]
        return self.labels.of(one.body.labels)

    def _put(self, one: Block, at: Point, width: float, turn: float = 0.0) -> None:
        block(self.board, at, width, TALL, turn, self._runs(one), one.body.key)
        self.placing.anchors[one.body.key] = Anchor(at, width / 2, TALL / 2, turn, False)
        for other in self.scene.blocks:
            if other.place == one.body.key:
                size = min(block_width(self._runs(other)), width)
                self._put(other, polar(at, TALL, turn + 90), size, turn)

    # On a level surface.

    def level(self) -> None:
        """Blocks from the left to the right, a pulley at an end where something hangs there."""
        wall = any(thread.first == "wall" for thread in self.threads)
        widths = [block_width(self._runs(one)) for one in self.standing]
        right = [one for one in self.hanging if not one.back][:1]
        left = [one for one in self.hanging if one not in right][:1]
        x = 0.0
        start = x
        if wall:
            x += 24.0
        elif left:
            x += 16.0
        else:
            x += 10.0
        places: list[Point] = []
        for one, width in zip(self.standing, widths, strict=True):
            places.append((x + width / 2, TALL / 2))
            x += width + self._gap(one)
        x += (16.0 if right else 10.0) - (self._gap(self.standing[-1]) if self.standing else -30.0)
        self._table(start, x, bool(right or left))
        if wall:
            solid(self.board, (start, 0.0), (start, 18.0), "wall")
            self.board.line(((start, 0), (start, 18.0)), INK, role="wall")
        for one, width, at in zip(self.standing, widths, places, strict=True):
            self._put(one, at, width)
        for one, side, edge in [*((one, 1, x) for one in right), *((one, -1, start) for one in left)]:
            self._over_edge(one, side, edge, TALL / 2)
        self._between(places, lambda at, off: (at[0] + off, at[1]))
        self._finish((start, 0.0), (x, 0.0))

    def _gap(self, one: Block) -> float:
        for thread in self.threads:
            if one.body.key in (thread.first, thread.second) and thread.amount is not None:
                return max(_BETWEEN, width_of(self.labels.runs(thread.amount), LABEL_SIZE) + 5.0)
        return _BETWEEN

    def _table(self, start: float, end: float, edges: bool) -> None:
        if not edges:
            solid(self.board, (start, 0.0), (end, 0.0), "surface")
            return
        right = any(not one.back for one in self.hanging)
        left = any(one.back for one in self.hanging) or len(self.hanging) > 1
        solid(self.board, (start, 0.0), (end, 0.0), "surface")
        for edge, there in ((end, right), (start, left)):
            if there:
                self.board.line(((edge, 0.0), (edge, -30.0)), INK, role="side")

    def _over_edge(self, one: Block, side: int, edge: float, height: float) -> None:
        """A block that hangs over a pulley at an end of the surface; its string runs level to the nearest block."""
        runs = self._runs(one)
        width = block_width(runs, BLOCK + 3)
        reach = max(PULLEY + 3.0, width / 2 + 2.5 - PULLEY)
        centre = (edge + side * reach, height - PULLEY)
        pulley(self.board, centre, (edge, -1.5))
        down = centre[0] + side * PULLEY
        bottom = -16.0
        start = self._nearest_edge(side)
        path = [(start, height), *over(centre, 90, 90 - side * 90), (down, bottom)]
        self.board.line(path, INK, role="string")
        self._string_label(one, between((start, height), (edge, height)), (down, bottom / 2 - 3), side)
        self._hang(one, (down, bottom - TALL / 2), width)

    def _nearest_edge(self, side: int) -> float:
        anchors = [self.placing.anchors[one.body.key] for one in self.standing]
        if not anchors:
            return 0.0
        return (
            max(a.at[0] + a.across for a in anchors) if side > 0 else min(a.at[0] - a.across for a in anchors)
        )

    def _string_label(self, one: Block, level: Point, down: Point, side: int) -> None:
        for thread in self.threads:
            if one.body.key in (thread.first, thread.second) and thread.amount is not None:
                runs = self.labels.runs(thread.amount)
                self.board.label(
                    runs,
                    [*beside(level, runs, 90), *beside(down, runs, 0 if side > 0 else 180)],
                    role="label string",
                )

    def _hang(self, one: Block, at: Point, width: float) -> None:
        self._put(one, at, width)
        if one.above is not None:
            floor = at[1] - TALL / 2 - 15.0
            solid(self.board, (at[0] - 14, floor), (at[0] + 14, floor), "ground")
            self.board.measure(
                (at[0] + 0.0, floor),
                (at[0] + 0.0, at[1] - TALL / 2),
                self.labels.runs(one.above),
                off=0.0,
                role="height",
            )

    def _between(self, places: list[Point], edge: Callable[[Point, float], Point]) -> None:
        """Strings and springs between what stands on the surface."""
        for thread in self.threads:
            ends = self._ends(thread)
            if ends is None:
                continue
            start, end = ends
            if thread.spring:
                spring(self.board, start, end)
            else:
                self.board.line((start, end), INK, role="string")
            if thread.amount is not None:
                runs = self.labels.runs(thread.amount)
                away = 2.2 if thread.spring else 0.0
                turn = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])) % 180
                spot = polar(between(start, end), away, turn + 90)
                self.board.label(
                    runs,
                    [*beside(spot, runs, turn + 90), *beside(spot, runs, turn - 90)],
                    role="label string",
                )

    def _ends(self, thread: Thread) -> tuple[Point, Point] | None:
        hanging = {one.body.key for one in self.hanging}
        if thread.first in hanging or thread.second in hanging:
            return None
        second = self.placing.anchors[thread.second]
        if thread.first == "wall":
            return self._wall(second), polar(second.at, -second.across, second.turn)
        first = self.placing.anchors[thread.first]
        if first.at > second.at:
            first, second = second, first
        along = second.turn if abs(second.turn) < 90 else second.turn - 180
        return polar(first.at, first.across, along), polar(second.at, -second.across, along)

    def _wall(self, anchor: Anchor) -> Point:
        return (0.0, anchor.at[1])

    def _finish(self, start: Point, end: Point) -> None:
        if not self.scene.finish:
            return
        runs = runs_of_text(word(f"surface-{self.scene.finish}", self.labels.look.lang))
        below = [
            beside(between(start, end, share), runs, -90, gap=3.0)[0] for share in (0.5, 0.35, 0.65, 0.2, 0.8)
        ]
        self.board.label(runs, below, role="label surface")

    # On a slope.

    def slope(self) -> None:
        """A slope that rises to the right; one that rises to the left is its mirror image."""
        scene = self.scene
        value = scene.angle.value if scene.angle is not None else None
        true = math.degrees(float(value)) if value is not None else SOME_ANGLE
        steep = min(max(true, LEAST_STEEP), MOST_STEEP)
        # A figure without an angle is a sketch, and says nothing of scale.
        self.placing.scaled = value is None or steep == true
        widths = [block_width(self._runs(one), 14.0) for one in self.standing]
        gaps = [self._gap(one) for one in self.standing]
        least = sum(widths) + sum(gaps) + 30.0
        length = max(SLOPE if steep < 50 else 66.0, min(least, 120.0))
        flip = -1.0 if scene.left else 1.0

        def at(along: float, across: float = 0.0) -> Point:
            x, y = polar((0.0, 0.0), along, steep)
            x, y = polar((x, y), across, steep + 90)
            return flip * x, y

        foot, top = at(0.0), at(length)
        corner = (top[0], 0.0)
        self.board.line((foot, top), INK, role="slope")
        self.board.line((foot, corner), INK, role="level")
        self.board.line((corner, top), INK, role="side")
        self._slope_labels(at, length, foot, top, corner, steep)
        turn = steep if not scene.left else -steep
        where = self._along(widths, gaps, length)
        for one, width, along in zip(self.standing, widths, where, strict=True):
            self._put(one, at(along, TALL / 2), width, turn)
        for one in self.hanging:
            self._over_top(one, at, length, steep, flip)
        self._slope_threads(at, where, widths)
        if scene.finish:
            runs = runs_of_text(word(f"surface-{scene.finish}", self.labels.look.lang))
            share = 0.25 if not self.standing else 0.8
            away = steep - 90 if not scene.left else 270 - steep
            self.board.label(
                runs,
                [
                    beside(at(length * s), runs, away + (0 if n == 0 else 180))[0]
                    for s in (share, 0.5, 0.65)
                    for n in (0, 1)
                ],
                role="label surface",
            )

    def _along(self, widths: list[float], gaps: list[float], length: float) -> list[float]:
        if len(widths) == 1:
            return [length * (0.55 if not self.hanging else 0.5)]
        places, x = [], max(18.0, (length - sum(widths) - sum(gaps[:-1])) / 2)
        for width, gap in zip(widths, gaps, strict=True):
            places.append(x + width / 2)
            x += width + gap
        return places

    def _slope_labels(
        self, at: Callable[..., Point], length: float, foot: Point, top: Point, corner: Point, steep: float
    ) -> None:
        scene, flip = self.scene, -1.0 if self.scene.left else 1.0
        if scene.angle is not None:
            start, end = (0.0, steep) if flip > 0 else (180.0 - steep, 180.0)
            self.board.angle_mark(
                foot,
                start,
                end,
                self.labels.runs(scene.angle),
                radius=12.0 if steep > 18 else 17.0,
                role="angle",
            )
        if scene.height is not None:
            off = 6.0 if not self.hanging else -6.0
            self.board.measure(corner, top, self.labels.runs(scene.height), off=-off * flip, role="height")
        if scene.length is not None:
            # Below the surface, so that nothing on it is in the way.
            self.board.measure(foot, top, self.labels.runs(scene.length), off=-5.0 * flip, role="length")

    def _over_top(
        self, one: Block, at: Callable[..., Point], length: float, steep: float, flip: float
    ) -> None:
        width = block_width(self._runs(one), BLOCK + 3)
        across = TALL / 2 - PULLEY
        need = width / 2 + 2.5 - PULLEY
        along = max(
            PULLEY + 2.0, (need + across * math.sin(math.radians(steep))) / math.cos(math.radians(steep))
        )
        centre = at(length + along, across)
        pulley(self.board, centre, at(length - 0.5))
        side = 1 if flip > 0 else -1
        start = at(self._top_of(length), TALL / 2)
        normal = steep + 90 if flip > 0 else 90 - steep
        end = 0.0 if flip > 0 else 180.0
        down = (centre[0] + side * PULLEY, centre[1])
        bottom = (down[0], down[1] - 15.0)
        self.board.line([start, *over(centre, normal, end), bottom], INK, role="string")
        self._string_label(one, between(start, at(length, TALL / 2)), (bottom[0], bottom[1] + 7), side)
        self._hang(one, (bottom[0], bottom[1] - TALL / 2), width)

    def _top_of(self, length: float) -> float:
        """How far up the slope the topmost block reaches."""
        if not self.standing:
            return length / 2
        anchor = self.placing.anchors[self.standing[-1].body.key]
        return (
            math.hypot(*anchor.at) * math.cos(math.asin(min(1.0, TALL / 2 / math.hypot(*anchor.at))))
            + anchor.across
        )

    def _slope_threads(self, at: Callable[..., Point], where: list[float], widths: list[float]) -> None:
        keys = {one.body.key: n for n, one in enumerate(self.standing)}
        for thread in self.threads:
            if thread.first not in keys or thread.second not in keys:
                continue
            low, high = sorted((keys[thread.first], keys[thread.second]))
            ends = at(where[low] + widths[low] / 2, TALL / 2), at(where[high] - widths[high] / 2, TALL / 2)
            if thread.spring:
                spring(self.board, *ends)
            else:
                self.board.line(ends, INK, role="string")
            if thread.amount is not None:
                runs = self.labels.runs(thread.amount)
                up = at(1.0, 1.0), at(1.0, 0.0)
                turn = math.degrees(math.atan2(up[0][1] - up[1][1], up[0][0] - up[1][0]))
                spot = polar(between(*ends), 2.2 if thread.spring else 0.0, turn)
                self.board.label(runs, beside(spot, runs, turn), role="label string")

    # A pulley alone.

    def pulley_alone(self) -> None:
        """Two blocks over a pulley that is fixed to a ceiling."""
        solid(self.board, (16.0, 0.0), (-16.0, 0.0), "ceiling")
        radius = 7.0
        centre = (0.0, -13.0)
        self.board.line(((0.0, 0.0), centre), INK, role="holder")
        self.board.circle(centre, radius, INK, fill=1.0, role="pulley")
        self.board.dot(centre, 0.7, role="axle")
        drops = (30.0, 40.0)
        floor = -13.0 - 40.0 - TALL - 14.0
        for one, side, drop in zip(self.hanging, (-1, 1), drops, strict=False):
            x = side * radius
            end = (x, -13.0 - drop)
            points = [polar(centre, radius, 90 - side * 3 * n) for n in range(31)]
            self.board.line([*points, end], INK, role="string")
            width = block_width(self._runs(one), 12.0)
            self._put(one, (x, end[1] - TALL / 2), min(width, 2 * radius - 1.0))
            if one.above is not None:
                self._above(one.above, x, end[1] - TALL, floor, side)
            self._string_label(one, (x, -13.0 - drop / 2), (x, -13.0 - drop / 2 - 3), side)
        if any(one.above is not None for one in self.hanging):
            solid(self.board, (-20.0, floor), (20.0, floor), "ground")

    def _above(self, height: Amount, x: float, low: float, floor: float, side: int) -> None:
        away = x + side * 11.0
        self.board.line(((x, low), (away + side * 1.5, low)), FINE, role="guide")
        self.board.measure((away, floor), (away, low), self.labels.runs(height), off=0.0, role="height")


_ = Box
