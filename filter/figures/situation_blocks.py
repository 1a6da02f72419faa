"""Blocks on a level surface, joined by strings, over pulleys and at springs."""

from __future__ import annotations

from physcalc.figures.situation_scenes import Block, Blocks, Thread

from .amounts import Labels
from .board import Board, between, polar
from .bodies import BLOCK, PULLEY, TALL, along, block, block_width, clear, over, pulley, solid, span, spring
from .letters import runs_of_text, width_of
from .picture import FINE, INK, LABEL_SIZE, Label, Point, Run
from .situation import Anchor, Placing
from .words import word

#: Between two blocks: room for a string and its label.
_BETWEEN = 18.0
#: How far a body hangs below a pulley, and above the ground.
_DOWN, _ABOVE = 16.0, 15.0
#: The pulley of two bodies that hang: its radius, and the largest.
_WHEEL, _LARGEST = 7.0, 11.0


def blocks(board: Board, scene: Blocks, labels: Labels) -> Placing:
    """Draws blocks on a surface and over pulleys."""
    if scene.surface == "slope":
        from .situation_slope import SlopeDrawing

        return SlopeDrawing(board, scene, labels).draw()
    drawing = LevelDrawing(board, scene, labels)
    return drawing.draw() if scene.surface else drawing.pulley_alone()


class BlocksDrawing:
    """What a level surface and a slope have in common."""

    def __init__(self, board: Board, scene: Blocks, labels: Labels) -> None:
        self.board, self.scene, self.labels = board, scene, labels
        self.placing = Placing()
        self.standing = [one for one in scene.blocks if one.place == "surface"]
        self.hanging = [one for one in scene.blocks if one.place == "pulley"]

    def runs(self, one: Block) -> tuple[Run, ...]:
        """The label of a block."""
        return self.labels.of(one.body.labels)

    def put(self, one: Block, at: Point, width: float, height: float = TALL, turn: float = 0.0) -> None:
        """A block, and those that lie on it."""
        block(self.board, at, width, height, turn, self.runs(one), one.body.key)
        self.placing.anchors[one.body.key] = Anchor(at, width / 2, height / 2, turn, False)
        for other in self.scene.blocks:
            if other.place == one.body.key:
                self.put(
                    other,
                    polar(at, height, turn + 90),
                    min(block_width(self.runs(other)), width),
                    height,
                    turn,
                )

    def gap(self, one: Block) -> float:
        """Room behind a block, for a string and its label."""
        wide = [
            width_of(self.labels.runs(thread.amount), LABEL_SIZE) + 5.0
            for thread in self.scene.threads
            if one.body.key in (thread.first, thread.second) and thread.amount is not None
        ]
        return max([_BETWEEN, *wide])

    def thread(self, thread: Thread, start: Point, end: Point, *, left: bool = True) -> None:
        """A string or spring with its label."""
        if thread.spring:
            spring(self.board, start, end)
        else:
            self.board.line((start, end), INK, role="string")
        if thread.amount is not None:
            places = along(
                start, end, self.labels.runs(thread.amount), left=left, gap=3.2 if thread.spring else 0.9
            )
            self.board.label(self.labels.runs(thread.amount), places, role="label string")

    def string_of(self, one: Block, level: list[Label], down: Point, side: int) -> None:
        """The label of the string on which a block hangs: beside the level part, or beside the other."""
        for thread in self.scene.threads:
            if one.body.key in (thread.first, thread.second) and thread.amount is not None:
                runs = self.labels.runs(thread.amount)
                spots = [clear(down, runs, 0 if side > 0 else 180), clear(down, runs, 180 if side > 0 else 0)]
                self.board.label(runs, [*level, *spots], role="label string")

    def level_places(self, one: Block, start: Point, end: Point, *, left: bool = True) -> list[Label]:
        """Places of that label beside the part of the string that runs along the surface."""
        for thread in self.scene.threads:
            if one.body.key in (thread.first, thread.second) and thread.amount is not None:
                return along(start, end, self.labels.runs(thread.amount), left=left)
        return []

    def hang(self, one: Block, at: Point, width: float) -> None:
        """A block that hangs, with its height above the ground."""
        self.put(one, at, width)
        if one.above is None:
            return
        low = at[1] - TALL / 2
        solid(self.board, (at[0] - 13.0, low - _ABOVE), (at[0] + 13.0, low - _ABOVE), "ground")
        span(
            self.board,
            (at[0], low - _ABOVE),
            (at[0], low),
            self.labels.runs(one.above),
            left=False,
            role="height",
        )


class LevelDrawing(BlocksDrawing):
    """Blocks from the left to the right, a pulley at an end where something hangs there."""

    def draw(self) -> Placing:
        """Draws them."""
        wall = any(thread.first == "wall" for thread in self.scene.threads)
        right = [one for one in self.hanging if not one.back][:1]
        left = [one for one in self.hanging if one not in right][:1]
        x = 24.0 if wall else 18.0 if left else 11.0
        places: list[tuple[Block, float, Point]] = []
        for n, one in enumerate(self.standing):
            width = block_width(self.runs(one))
            places.append((one, width, (x + width / 2, TALL / 2)))
            last = n + 1 == len(self.standing)
            x += width + (0.0 if last else self.gap(one))
        x += (self._room(right[0]) if right else 11.0) + (30.0 if not self.standing else 0.0)
        solid(self.board, (0.0, 0.0), (x, 0.0), "surface")
        if wall:
            solid(self.board, (0.0, 0.0), (0.0, 18.0), "wall")
        for one, width, at in places:
            self.put(one, at, width)
        for one, side, edge in [*((one, 1, x) for one in right), *((one, -1, 0.0) for one in left)]:
            self._over_edge(one, side, edge)
        self._between()
        if self.scene.finish:
            runs = runs_of_text(word(f"surface-{self.scene.finish}", self.labels.look.lang))
            shares = (0.5, 0.35, 0.65, 0.2, 0.8)
            spots = [clear((x * share, -2.0), runs, -90) for share in shares]
            self.board.label(runs, spots, role="label surface")
        return self.placing

    def _room(self, one: Block) -> float:
        return max(16.0, self.gap(one)) if self.level_places(one, (0.0, 0.0), (1.0, 0.0)) else 16.0

    def _over_edge(self, one: Block, side: int, edge: float) -> None:
        """A block that hangs over a pulley at an end of the surface; its string runs level to the nearest block."""
        height = TALL / 2
        width = block_width(self.runs(one), BLOCK + 12)
        reach = max(PULLEY + 3.0, width / 2 + 3.0 - PULLEY)
        centre = (edge + side * reach, height - PULLEY)
        self.board.line(((edge, 0.0), (edge, -_DOWN - TALL - 4.0)), INK, role="side")
        pulley(self.board, centre, (edge, -1.5))
        down = centre[0] + side * PULLEY
        start = self._edge(side)
        self.board.line(
            [(start, height), *over(centre, 90, 90 - side * 90), (down, -_DOWN)], INK, role="string"
        )
        level = self.level_places(one, (start, height), (edge, height), left=side > 0)
        self.string_of(one, level, (down, -_DOWN / 2 - 2), side)
        self.hang(one, (down, -_DOWN - TALL / 2), width)

    def _edge(self, side: int) -> float:
        """Where the string leaves the last block."""
        anchors = [self.placing.anchors[one.body.key] for one in self.standing]
        if not anchors:
            return 0.0
        return (
            max(a.at[0] + a.across for a in anchors) if side > 0 else min(a.at[0] - a.across for a in anchors)
        )

    def _between(self) -> None:
        """Strings and springs between what stands on the surface."""
        hanging = {one.body.key for one in self.hanging}
        for thread in self.scene.threads:
            if hanging & {thread.first, thread.second}:
                continue
            second = self.placing.anchors[thread.second]
            if thread.first == "wall":
                self.thread(thread, (0.0, second.at[1]), (second.at[0] - second.across, second.at[1]))
                continue
            first = self.placing.anchors[thread.first]
            if first.at > second.at:
                first, second = second, first
            self.thread(thread, polar(first.at, first.across, 0), polar(second.at, second.across, 180))

    def pulley_alone(self) -> Placing:
        """Two blocks over a pulley that is fixed to a ceiling."""
        solid(self.board, (16.0, 0.0), (-16.0, 0.0), "ceiling")
        widths = [block_width(self.runs(one), 2 * _LARGEST - 1.5) for one in self.hanging[:2]]
        radius = min(_LARGEST, max(_WHEEL, (max(widths) + 1.5) / 2))
        centre = (0.0, -radius - 5.0)
        self.board.line(((0.0, 0.0), centre), INK, role="holder")
        self.board.circle(centre, radius, INK, fill=1.0, role="pulley")
        self.board.dot(centre, 0.7, role="axle")
        drops = (26.0, 36.0)
        floor = centre[1] - drops[1] - TALL - _ABOVE
        heights = any(one.above is not None for one in self.hanging)
        if heights:
            reach = radius + 16.0
            solid(self.board, (-reach, floor), (reach, floor), "ground")
        for one, side, drop, width in zip(self.hanging, (-1, 1), drops, widths, strict=False):
            x, low = side * radius, centre[1] - drop
            wheel = [polar(centre, radius, 90 - side * 3 * n) for n in range(31)]
            self.board.line([*wheel, (x, low)], INK, role="string")
            self.put(one, (x, low - TALL / 2), width)
            if one.above is not None:
                # The height of the higher block is that of its lower edge, too.
                self.board.line(((x, low - TALL), (x + side * 1.0, low - TALL)), FINE, role="guide")
                runs = self.labels.runs(one.above)
                span(self.board, (x, floor), (x, low - TALL), runs, left=side < 0, role="height")
            self.string_of(one, [], (x, between((x, centre[1]), (x, low), 0.6)[1]), side)
        return self.placing


__all__ = ["BlocksDrawing", "blocks"]
