"""The picture of a situation, by the kind of its scene."""

from __future__ import annotations

from dataclasses import dataclass, field

from physcalc.figures import situation_scenes as s

from .amounts import Labels
from .board import Board, angle, beside, distance, polar
from .figure import Figure, Look
from .picture import BOLD, Pen, Point
from .situation_words import describe
from .words import word

#: How long arrows on bodies are, in millimetres.
ARROW = 17.0
#: The shortest arrow that can be seen for one, as a share of the longest of its kind.
_SHORTEST = 0.35
#: Arrows of velocities and accelerations are thinner than those of forces.
_MOTION = Pen(0.35)


@dataclass(frozen=True, slots=True)
class Anchor:
    """Where a body is, for arrows.

    Attributes:
        at: its middle.
        across, up: half its size along its own axes.
        turn: how far it is turned, in degrees.
        round: whether it is a sphere.
    """

    at: Point
    across: float
    up: float
    turn: float = 0.0
    round: bool = True

    def edge(self, degrees: float) -> float:
        """How far its edge is from its middle in a direction."""
        if self.round:
            return self.across
        from math import cos, radians, sin

        turned = radians(degrees - self.turn)
        c, sn = abs(cos(turned)), abs(sin(turned))
        return min(self.across / c if c > 1e-9 else 1e9, self.up / sn if sn > 1e-9 else 1e9)


@dataclass(slots=True)
class Placing:
    """What came of drawing a scene.

    Attributes:
        anchors: where bodies are, by their keys.
        scaled: whether the picture is to scale, as far as it says anything of scale.
        note: a line below it; empty for none.
    """

    anchors: dict[str, Anchor] = field(default_factory=dict)
    scaled: bool = True
    note: str = ""


def situation(diagram: s.SituationDiagram, look: Look) -> Figure:
    """The picture of a situation.

    Args:
        diagram: what there is.
        look: how figures look.
    """
    board = Board()
    labels = Labels(look, diagram.values)
    placing = _scene(board, diagram.scene, labels)
    _arrows(board, diagram.arrows, placing, labels)
    note = placing.note if placing.scaled else word("not-to-scale", look.lang)
    return Figure(board.picture(), describe(diagram, labels), (), note)


def _scene(board: Board, scene: s.Scene, labels: Labels) -> Placing:
    # A document has few kinds of scenes; each is imported where there is one.
    match scene:
        case s.Plan():
            from .situation_plan import plan

            return plan(board, scene, labels)
        case s.Blocks():
            from .situation_blocks import blocks

            return blocks(board, scene, labels)
        case s.Hanging():
            from .situation_hanging import hanging

            return hanging(board, scene, labels)
        case s.HangingPair():
            from .situation_pair import pair

            return pair(board, scene, labels)
        case s.Collision() | s.Projectile():
            from .situation_motion import collision, projectile

            return (
                collision(board, scene, labels)
                if isinstance(scene, s.Collision)
                else projectile(board, scene, labels)
            )
        case s.Optics():
            from .situation_optics import optics

            return optics(board, scene, labels)
        case s.Interface():
            from .situation_interface import interface

            return interface(board, scene, labels)
        case s.Wave() | s.Standing() | s.Fronts():
            from .situation_waves import fronts, standing, wave

            if isinstance(scene, s.Wave):
                return wave(board, scene, labels)
            return (
                standing(board, scene, labels)
                if isinstance(scene, s.Standing)
                else fronts(board, scene, labels)
            )


def _arrows(board: Board, arrows: tuple[s.Arrow, ...], placing: Placing, labels: Labels) -> None:
    taken: list[tuple[str, int]] = []
    shares = _shares(arrows)
    for arrow, share in zip(arrows, shares, strict=True):
        anchor = placing.anchors[arrow.body]
        turn = arrow.direction.degrees
        count = taken.count((arrow.body, round(turn)))
        taken.append((arrow.body, round(turn)))
        force = arrow.kind == "force"
        name = arrow.amount.name.key if arrow.amount.name is not None else arrow.kind
        role = f"arrow {name}"
        if force or anchor.round:
            start = polar(anchor.at, anchor.edge(turn) + (0.0 if force else 1.2), turn)
            start = polar(start, 3.4 * count, turn + 90)
        else:
            # How something moves is drawn beside it, not on it: above, or at its right where it moves up or down.
            side = anchor.turn + 90 if abs(_along(turn - anchor.turn)) > 0.6 else anchor.turn
            middle = polar(anchor.at, anchor.edge(side) + 3.5 + 5.0 * count, side)
            start = polar(middle, -ARROW * share / 2, turn)
        length = ARROW * share
        if anchor.round:
            length = _length(anchor, start, turn, placing, length)
        end = polar(start, length, turn)
        board.arrow(start, end, BOLD if force else _MOTION, role=role)
        runs = labels.runs(arrow.amount)
        places = beside(end, runs, turn) + beside(polar(start, length / 2, turn), runs, turn + 90)
        board.label(runs, places, role=f"label {name}")


def _shares(arrows: tuple[s.Arrow, ...]) -> list[float]:
    """How long each arrow is, as a share of the longest: in proportion among those of a kind whose values are given."""
    largest: dict[str, float] = {}
    sizes = [
        float(arrow.amount.size) if arrow.amount.size is not None and not arrow.amount.found else None
        for arrow in arrows
    ]
    for arrow, size in zip(arrows, sizes, strict=True):
        largest[arrow.kind] = max(largest.get(arrow.kind, 0.0), size or 0.0)
    return [
        max(_SHORTEST, size / largest[arrow.kind]) if size else 1.0
        for arrow, size in zip(arrows, sizes, strict=True)
    ]


def _length(anchor: Anchor, start: Point, turn: float, placing: Placing, length: float) -> float:
    """How long an arrow is: shorter where it points at another body that is near."""
    for other in placing.anchors.values():
        if other is anchor or abs((angle(anchor.at, other.at) - turn + 180) % 360 - 180) > 15:
            continue
        length = min(length, 0.62 * (distance(start, other.at) - other.across))
    return max(length, 5.0)


def _along(degrees: float) -> float:
    from math import cos, radians

    return cos(radians(degrees))
