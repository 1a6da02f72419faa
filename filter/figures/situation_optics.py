"""An object before a lens or a mirror, with its image and the principal rays."""

from __future__ import annotations

import math
from itertools import pairwise

from physcalc.figures.situation_reading import Amount
from physcalc.figures.situation_scenes import Optics

from .amounts import Labels
from .board import Board, angle, beside, between, distance, polar
from .bodies import hatch
from .letters import runs_of_text
from .picture import BOLD, DASHED, FINE, INK, Pen, Point, Run
from .situation import Placing
from .situation_plan import levels
from .words import word

#: The longest axis, the usual height of the object and the largest of an image, in millimetres.
AXIS, OBJECT, TALLEST = 138.0, 15.0, 36.0
#: An image that is so many times as far away as all else is not in the picture.
FAR = 6.0
_RAY = Pen(0.28)


def optics(board: Board, scene: Optics, labels: Labels) -> Placing:
    """Draws the object, the lens or mirror, and what light makes of it."""
    return _Drawing(board, scene, labels).draw()


class _Drawing:
    """Distances are positive towards where light comes from (the left), as in the formula; x to the right."""

    def __init__(self, board: Board, scene: Optics, labels: Labels) -> None:
        self.board, self.scene, self.labels = board, scene, labels
        self.mirror = scene.kind.endswith("mirror")
        self.u = float(scene.distance.size or 0)
        self.power = float(scene.power)
        self.f = 1 / self.power if self.power else math.inf
        self.v = float(scene.image) if scene.image is not None else math.inf
        near = max(self.u, abs(self.f) if self.power else self.u)
        self.shown = scene.rays and scene.image is not None and abs(self.v) <= FAR * near
        #: Magnification.
        self.m = -self.v / self.u if math.isfinite(self.v) else math.inf
        reach = [-self.u, *((self._x(self.v),) if self.shown else ())]
        if self.power:
            reach += [-abs(self.f), abs(self.f)] if not self.mirror else [-self.f]
        left, right = min(reach), max([*reach, 0.0])
        if not self.mirror and scene.rays:
            right = max(right, 0.7 * self.u if not self.power else min(abs(self.f) * 1.5, self.u * 1.5))
        if self.mirror and scene.kind == "plane mirror":
            right = max(right, 0.0)
        self.scale = min((AXIS - 22.0) / (right - left), 84.0 / (near if near else 1.0))
        self.left, self.right = left * self.scale - 11.0, right * self.scale + 11.0
        height = OBJECT
        if self.shown:
            height = min(
                height,
                max(5.0, TALLEST / max(1.0, abs(self.m)) if abs(self.m) > TALLEST / OBJECT else OBJECT),
            )
        self.h = height
        self.half = max(height, min(abs(self.m) * height, TALLEST + 6) if self.shown else height) + 6.0

    def _x(self, image: float) -> float:
        """Where an image stands: real ones behind a lens, and before a mirror."""
        return -image if self.mirror else image

    def _at(self, x: float, y: float = 0.0) -> Point:
        return x * self.scale, y

    def draw(self) -> Placing:
        self.board.line(((self.left, 0.0), (self.right, 0.0)), FINE, role="axis")
        self._element()
        self._points()
        if self.scene.rays:
            self._rays()
        self._object()
        if self.shown:
            self._image()
        self._measures()
        note = ""
        if self.scene.rays and self.scene.image is None:
            note = word("optics-no-image", self.labels.look.lang)
        elif self.scene.rays and not self.shown:
            note = word("optics-far-image", self.labels.look.lang)
        return Placing(note=note)

    def _element(self) -> None:
        half, board = self.half, self.board
        kind = self.scene.kind
        if kind.endswith("lens"):
            board.line(((0.0, -half), (0.0, half)), DASHED, role="plane")
            thick, rim = (3.4, 0.0) if kind == "converging lens" else (1.0, 3.4)
            sides: list[Point] = []
            for n in range(25):
                y = -half + 2 * half * n / 24
                share = 1 - (y / half) ** 2
                sides.append((thick * share + rim * (1 - share), y))
            outline = [*sides, *((-x, y) for x, y in reversed(sides))]
            board.line(outline, INK, closed=True, role="lens")
            return
        bend = {"concave mirror": -3.0, "convex mirror": 3.0, "plane mirror": 0.0}[kind]
        straight = half - 5.0 if bend else half
        points = (
            [(bend, -half), (0.0, -straight), (0.0, straight), (bend, half)]
            if bend
            else [(0.0, -half), (0.0, half)]
        )
        board.line(points, BOLD, role="mirror")
        for one, other in pairwise(points):
            hatch(board, one, other, "mirror back")

    def _points(self) -> None:
        if not self.power:
            return
        names = [(-self.f, "F")] if self.mirror else [(-abs(self.f), "F"), (abs(self.f), "F")]
        if self.mirror and -2 * self.f * self.scale > self.left and -2 * self.f * self.scale < self.right:
            names.append((-2 * self.f, "C"))
        for x, letter in names:
            self.board.dot(self._at(x), 0.7, role=f"point {letter}")
            runs = (Run(letter),)
            self.board.label(
                runs,
                [*beside(self._at(x), runs, -90), *beside(self._at(x), runs, 90)],
                role=f"label {letter}",
            )

    def _object(self) -> None:
        foot, tip = self._at(-self.u), self._at(-self.u, self.h)
        self.board.arrow(foot, tip, BOLD, role="object", size=2.6)
        self._named(self.scene.height, "object", foot, tip, 180)

    def _image(self) -> None:
        foot, tip = self._at(self._x(self.v)), self._at(self._x(self.v), self.m * self.h)
        real = self.v > 0
        self.board.arrow(foot, tip, BOLD if real else Pen(0.45, "dashed"), role="image", size=2.6)
        self._named(self.scene.image_height, "image", foot, tip, 0 if foot[0] > 0 else 180)

    def _named(self, height: Amount | None, what: str, foot: Point, tip: Point, side: float) -> None:
        up = 90.0 if tip[1] > foot[1] else -90.0
        words = runs_of_text(word(f"optics-{what}", self.labels.look.lang))
        self.board.label(
            words,
            [*beside(tip, words, up), *beside(tip, words, side), *beside(tip, words, side + 180)],
            role=f"label {what}",
        )
        if height is not None:
            runs = self.labels.runs(height)
            middle = between(foot, tip)
            self.board.label(
                runs,
                [
                    *beside(middle, runs, side)[:1],
                    *beside(middle, runs, side + 180)[:1],
                    *beside(middle, runs, side),
                ],
                role=f"label height {what}",
            )

    # Rays.

    def _rays(self) -> None:
        """Parallel to the axis, through the middle, and through the focal point; where there is none, the first two."""
        tip = self._at(-self.u, self.h)
        hits = [("parallel", self.h), ("middle", 0.0)]
        if not self.power:
            hits = [("parallel", self.h), ("middle", 0.0), ("slanting", -0.45 * self.half)]
        elif self.shown and abs(self.m * self.h) <= self.half - 1.5:
            hits.append(("focus", self.m * self.h))
        for name, y in hits:
            hit = (0.0, y)
            self._ray(tip, hit, f"ray {name}")
            self._outgoing(hit, name)
            if name == "focus":
                self._through_focus(tip, hit)

    def _through_focus(self, tip: Point, hit: Point) -> None:
        """Where the ray only points at the focal point, its way there is dashed."""
        x = -self.f * self.scale
        if tip[0] < x < 0:
            return
        start = tip if x <= tip[0] else hit
        self.board.line((start, (x, 0.0)), DASHED, role="extension focus")

    def _outgoing(self, hit: Point, name: str) -> None:
        """Behind the lens or before the mirror a ray runs to the image, or as if from it."""
        way = -1.0 if self.mirror else 1.0
        edge = self.left if self.mirror else self.right
        if math.isfinite(self.v):
            target = self._at(self._x(self.v), self.m * self.h)
            slope = (target[1] - hit[1]) / (target[0] - hit[0])
        else:
            # All rays leave parallel to the one through the middle.
            slope = -self.h / (self.u * self.scale) * way
            target = (math.inf, 0.0)
        end = edge
        # No ray leaves the picture above or below.
        limit = max(self.half + 4.0, TALLEST + 8.0)
        if slope:
            for y in (limit, -limit):
                x = hit[0] + (y - hit[1]) / slope
                if x * way > 0:
                    end = min(end, x) if way > 0 else max(end, x)
        if self.shown and self.v > 0:
            beyond = target[0] + way * 9.0
            end = min(end, beyond) if way > 0 else max(end, beyond)
        last = (end, hit[1] + slope * (end - hit[0]))
        # On a way back along itself the two heads stand apart.
        self._ray(hit, last, f"ray {name}", 0.7 if self.mirror else 0.5)
        if self.shown and self.v < 0:
            self.board.line((hit, target), DASHED, role=f"extension {name}")
        elif not math.isfinite(self.v):
            back = -way * 0.6 * self.u * self.scale
            self.board.line((hit, (back, hit[1] + slope * back)), DASHED, role=f"extension {name}")

    def _ray(self, start: Point, end: Point, role: str, share: float = 0.5) -> None:
        self.board.line((start, end), _RAY, role=role)
        if distance(start, end) > 7:
            turn = angle(start, end)
            self.board.head(polar(between(start, end, share), 1.1, turn), turn, role=role, size=2.2)

    # Distances.

    def _measures(self) -> None:
        wanted: list[tuple[Point, Point, tuple[Run, ...], None]] = []
        zero = (0.0, 0.0)
        wanted.append((self._at(-self.u), zero, self.labels.runs(self.scene.distance), None))
        if self.scene.focal is not None and self.power:
            x = -self.f if self.mirror else self.f
            wanted.append((zero, self._at(x), self.labels.runs(self.scene.focal), None))
        if self.scene.image_distance is not None and self.shown:
            wanted.append(
                (zero, self._at(self._x(self.v)), self.labels.runs(self.scene.image_distance), None)
            )
        levels(self.board, wanted, first=self.half + 5.0)
