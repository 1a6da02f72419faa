"""Blocks on a slope, with a pulley at its top."""

from __future__ import annotations

import math

from physcalc.figures.situation_scenes import Block

from .board import polar
from .bodies import (
    BLOCK,
    PULLEY,
    TALL,
    along,
    block_width,
    clear,
    mark_angle,
    over,
    pulley,
    span,
    turned_size,
)
from .letters import runs_of_text
from .picture import BOLD, FINE, INK, Point
from .situation import Placing
from .situation_blocks import BlocksDrawing
from .words import word

#: The length of a slope, the longest, and the angle where none is known.
_LONG, _LONGEST, _SOME = 82.0, 120.0, 30.0
#: A slope is drawn as steep as it is between these; beyond, not to scale.
_LEAST, _MOST = 8.0, 70.0


class SlopeDrawing(BlocksDrawing):
    """A slope that rises to the right; one that rises to the left is its mirror image."""

    def draw(self) -> Placing:
        """Draws it."""
        scene = self.scene
        value = scene.angle.value if scene.angle is not None else None
        true = math.degrees(float(value)) if value is not None else _SOME
        self.steep = min(max(true, _LEAST), _MOST)
        # A figure without an angle is a sketch, and says nothing of scale.
        self.placing.scaled = value is None or abs(self.steep - true) < 1e-9
        self.flip = -1.0 if scene.left else 1.0
        #: Direction up the slope, and away from it.
        self.up = self.steep if not scene.left else 180 - self.steep
        self.away = self.steep + 90 if not scene.left else 90 - self.steep
        sizes = [turned_size(self.runs(one), self.steep) for one in self.standing]
        self.tall = max([TALL, *(height for _, height in sizes)])
        gaps = [self.gap(one) for one in self.standing]
        usual = _LONG if self.steep < 50 else 66.0
        self.length = max(usual, min(sum(width for width, _ in sizes) + sum(gaps) + 34.0, _LONGEST))
        foot, top = self.at(0.0), self.at(self.length)
        corner = (top[0], 0.0)
        self.board.line((foot, corner, top), INK, closed=True, role="slope")
        self._blocks([width for width, _ in sizes], gaps)
        for one in self.hanging:
            self._over_top(one)
        self._threads()
        self._labels(foot, top, corner)
        return self.placing

    def at(self, up: float, across: float = 0.0) -> Point:
        """A place so far up the slope, and so far away from it."""
        x, y = polar(polar((0.0, 0.0), up, self.steep), across, self.steep + 90)
        return self.flip * x, y

    def _blocks(self, widths: list[float], gaps: list[float]) -> None:
        self.where: dict[str, tuple[float, float]] = {}
        total = sum(widths) + sum(gaps[:-1])
        x = max(20.0, (self.length - total) * (0.62 if not self.hanging else 0.5))
        turn = self.steep if not self.scene.left else -self.steep
        for one, width, gap in zip(self.standing, widths, gaps, strict=True):
            self.put(one, self.at(x + width / 2, self.tall / 2), width, self.tall, turn)
            self.where[one.body.key] = (x, x + width)
            x += width + gap

    def _over_top(self, one: Block) -> None:
        width = block_width(self.runs(one), BLOCK + 12)
        across = self.tall / 2 - PULLEY
        need = width / 2 + 3.0 - PULLEY
        turn = math.radians(self.steep)
        beyond = max(PULLEY + 2.0, (need + across * math.sin(turn)) / math.cos(turn))
        centre = self.at(self.length + beyond, across)
        pulley(self.board, centre, self.at(self.length - 0.5))
        side = 1 if self.flip > 0 else -1
        start = self.at(
            max((high for _, high in self.where.values()), default=self.length / 2), self.tall / 2
        )
        low = (centre[0] + side * PULLEY, centre[1] - 15.0)
        self.board.line(
            [start, *over(centre, self.away, 0.0 if side > 0 else 180.0), low], INK, role="string"
        )
        level = self.level_places(one, start, self.at(self.length, self.tall / 2), left=side > 0)
        self.string_of(one, level, (low[0], low[1] + 7), side)
        self.hang(one, (low[0], low[1] - TALL / 2), width)

    def _threads(self) -> None:
        for thread in self.scene.threads:
            if thread.second not in self.where:
                continue
            if thread.first == "wall":
                edge = self.where[thread.second][1]
                self.board.line(
                    (self.at(self.length - 1), self.at(self.length - 1, self.tall)), BOLD, role="wall"
                )
                self.thread(
                    thread,
                    self.at(edge, self.tall / 2),
                    self.at(self.length - 1, self.tall / 2),
                    left=self.flip > 0,
                )
            elif thread.first in self.where:
                one, other = sorted((self.where[thread.first], self.where[thread.second]))
                self.thread(
                    thread,
                    self.at(one[1], self.tall / 2),
                    self.at(other[0], self.tall / 2),
                    left=self.flip > 0,
                )

    def _labels(self, foot: Point, top: Point, corner: Point) -> None:
        scene = self.scene
        if scene.length is not None:
            runs = self.labels.runs(scene.length)
            if self.hanging or scene.blocks:
                # Below the surface, so that nothing on it is in the way.
                self.board.label(runs, along(foot, top, runs, left=self.flip < 0)[1:], role="label length")
            else:
                ends = self.at(0.0, 5.0), self.at(self.length, 5.0)
                for end, across in zip(ends, (foot, top), strict=True):
                    self.board.line(
                        (polar(across, 1.0, self.away), polar(end, 1.2, self.away)), FINE, role="guide"
                    )
                span(self.board, *ends, runs, left=self.flip > 0, role="length")
        if scene.height is not None:
            runs = self.labels.runs(scene.height)
            off = 6.0 * self.flip
            ends = (corner[0] + off, 0.0), (corner[0] + off, top[1])
            if not self.hanging:
                for y in (0.0, top[1]):
                    self.board.line(
                        ((corner[0] + 1.0 * self.flip, y), (corner[0] + off + 1.2 * self.flip, y)),
                        FINE,
                        role="guide",
                    )
                span(self.board, *ends, runs, left=self.flip < 0, role="height")
            else:
                # Outside, something hangs there: the side itself is labelled.
                self.board.label(runs, along(corner, top, runs, left=self.flip > 0), role="label height")
        if scene.angle is not None:
            low, high = (0.0, self.steep) if self.flip > 0 else (180.0 - self.steep, 180.0)
            radius = 12.0 if self.steep > 18 else 20.0
            mark_angle(self.board, foot, low, high, self.labels.runs(scene.angle), radius=radius)
        if scene.finish:
            runs = runs_of_text(word(f"surface-{scene.finish}", self.labels.look.lang))
            spots = [
                clear(self.at(self.length * share), runs, self.away + 180 * turn)
                for share in (0.85, 0.3, 0.7)
                for turn in (0, 1)
            ]
            self.board.label(runs, spots, role="label surface")
