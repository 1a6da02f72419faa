"""Field lines of point charges: how many each charge has, where they begin, and their way."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .board import angle, distance
from .picture import Box, Point

#: Lines of the field of one charge alone, and about how many the largest of several has; the most of any.
ALONE, SEVERAL, MOST = 12, 16, 32
#: How near the middle of a charge a line begins, and how near it has arrived, in millimetres.
_START, _ARRIVED = 0.04, 0.06
#: The step along a line: this share of the distance to the nearest charge, between these lengths.
_SHARE, _LEAST, _LONGEST = 0.05, 0.003, 0.6
#: A line that is so many millimetres away comes back no more, or outside of every picture.
_AWAY = 6000.0
_STEPS = 4000
#: Points of a drawn line are no nearer to one another.
_APART = 0.8


@dataclass(frozen=True, slots=True)
class Charge:
    """A charge in the picture.

    Attributes:
        at: its place in millimetres.
        size: the charge, in any unit.
    """

    at: Point
    size: float


@dataclass(frozen=True, slots=True)
class FieldLine:
    """A line, in the direction of the field.

    Attributes:
        points: its points, in millimetres.
        start, end: the charge at which it begins and ends, by number; None where it comes from or goes far away.
    """

    points: tuple[Point, ...]
    start: int | None
    end: int | None


def counts(charges: Sequence[Charge], least: int | None) -> list[int]:
    """How many lines each charge has: in the ratio of the charges, as nearly as whole numbers can be.

    Args:
        charges: the charges.
        least: how many the smallest has; None for as many as look well.
    """
    sizes = [abs(charge.size) for charge in charges]
    ratio = max(sizes) / min(sizes)
    if least is not None:
        return [max(1, round(least * size / min(sizes))) for size in sizes]
    wanted = ALONE if ratio < 1.05 else SEVERAL

    def badness(count: int) -> float:
        shares = [count * size / min(sizes) for size in sizes]
        off = max(abs(share - round(share)) / share for share in shares)
        return 20 * off + 0.03 * abs(max(shares) - wanted) + 0.15 * (count % 2)

    best = min(range(3, ALONE + 1), key=badness)
    return [min(MOST, round(best * size / min(sizes))) for size in sizes]


def strength(at: Point, charges: Sequence[Charge]) -> Point:
    """The field at a point: Σ q r / r³ (Coulomb's law, in units without the constant)."""
    x = y = 0.0
    for charge in charges:
        dx, dy = at[0] - charge.at[0], at[1] - charge.at[1]
        cube = (dx * dx + dy * dy) ** 1.5
        if cube > 0:
            x += charge.size * dx / cube
            y += charge.size * dy / cube
    return x, y


def potential(at: Point, charges: Sequence[Charge]) -> float:
    """The potential at a point: Σ q / r, in units without the constant."""
    return sum(charge.size / max(distance(at, charge.at), 1e-9) for charge in charges)


def field_lines(charges: Sequence[Charge], least: int | None = None) -> list[FieldLine]:
    """The lines of the field.

    They begin at the charges of the sign that has less in all: every line of theirs runs to or comes from a charge of
    the other sign. What is left of the others' number begins at those, where lines go far away.

    Args:
        charges: the charges.
        least: how many lines the smallest charge has; None for as many as look well.
    """
    number = counts(charges, least)
    total = sum(charge.size for charge in charges)
    major = -1 if total < 0 else 1
    lines: list[FieldLine] = []
    arrived: list[list[float]] = [[] for _ in charges]
    for at, charge in enumerate(charges):
        if charge.size * major > 0:
            continue
        odd = number[at] % 2 == 1
        for n in range(number[at]):
            turn = _axis(at, charges) + (n + (0.0 if odd else 0.5)) * 2 * math.pi / number[at]
            points, end = _way(at, turn, charges)
            lines.append(_line(points, at, end, charge.size > 0))
            if end is not None:
                arrived[end].append(_came(points))
    for at, charge in enumerate(charges):
        if charge.size * major < 0:
            continue
        for turn in _fill(number[at], arrived[at], at, charges):
            points, end = _way(at, turn, charges)
            lines.append(_line(points, at, end, charge.size > 0))
    return lines


def _line(points: list[Point], start: int, end: int | None, forwards: bool) -> FieldLine:
    kept = _thinned(points)
    return FieldLine(tuple(kept), start, end) if forwards else FieldLine(tuple(reversed(kept)), end, start)


def _thinned(points: list[Point]) -> list[Point]:
    """Fewer points, but for where the line bends."""
    kept = [points[0]]
    for point, after in pairwise(points[1:]):
        far = distance(point, kept[-1])
        bend = (angle(point, after) - angle(kept[-1], point) + 180) % 360 - 180
        if far >= _APART or (abs(bend) > 0.8 and far > 0.2):
            kept.append(point)
    return [*kept, points[-1]]


def _axis(at: int, charges: Sequence[Charge]) -> float:
    """The direction from a charge to the middle of the others, about which its lines are symmetric."""
    others = [charge.at for n, charge in enumerate(charges) if n != at]
    if not others:
        return 0.0
    x = sum(point[0] for point in others) / len(others) - charges[at].at[0]
    y = sum(point[1] for point in others) / len(others) - charges[at].at[1]
    if math.hypot(x, y) < 1e-6:
        x, y = others[0][0] - charges[at].at[0], others[0][1] - charges[at].at[1]
    return math.atan2(y, x)


def _fill(number: int, taken: Sequence[float], at: int, charges: Sequence[Charge]) -> list[float]:
    """Directions for the lines that a charge has beside those that arrive at it."""
    axis = _axis(at, charges)
    if not taken:
        return [axis + (n + 0.5) * 2 * math.pi / number for n in range(number)]
    zones = _zones(taken, at, charges)
    inside = [0] * len(zones)
    left = number - len(taken)
    while left > 0:
        widest = max(width / (n + 1) for (_, width), n in zip(zones, inside, strict=True))
        # Zones that are alike (mirror images) are filled alike, as long as lines are left.
        for k, (_, width) in enumerate(zones):
            if left > 0 and width / (inside[k] + 1) > widest * (1 - 1e-4):
                inside[k] += 1
                left -= 1
    return [
        start + width * (n + 0.5) / many
        for (start, width), many in zip(zones, inside, strict=True)
        for n in range(many)
    ]


def _zones(taken: Sequence[float], at: int, charges: Sequence[Charge]) -> list[tuple[float, float]]:
    """Where lines of a charge go far away: directions at which that begins, and for how wide an angle.

    Between two lines that arrive there is such a zone where a line in the middle goes far away; its edges are found by
    halving. Without any (charges that are equal in all), everything between two lines is one.
    """
    ordered = sorted(turn % (2 * math.pi) for turn in taken)
    gaps = [
        (one, ((other - one) % (2 * math.pi)) or 2 * math.pi)
        for one, other in pairwise([*ordered, ordered[0]])
    ]
    free = []
    for start, width in gaps:
        middle = start + width / 2
        if _way(at, middle, charges)[1] is None:
            low, high = _edge(at, middle, start, charges), _edge(at, middle, start + width, charges)
            free.append((low, high - low))
    return free or gaps


def _edge(at: int, away: float, caught: float, charges: Sequence[Charge]) -> float:
    """The direction between one that goes far away and one that does not, at which that changes."""
    for _ in range(11):
        middle = (away + caught) / 2
        if _way(at, middle, charges)[1] is None:
            away = middle
        else:
            caught = middle
    return away


def _came(points: list[Point]) -> float:
    """The direction, seen from the charge, from which a line arrives at it."""
    end = points[-1]
    before = next(point for point in reversed(points[:-1]) if distance(point, end) > _ARRIVED / 2)
    return math.atan2(before[1] - end[1], before[0] - end[0])


def _way(at: int, turn: float, charges: Sequence[Charge]) -> tuple[list[Point], int | None]:
    """The way from a charge along (a negative one: against) the field, by Runge and Kutta's method of fourth order."""
    sign = 1.0 if charges[at].size > 0 else -1.0
    x, y = charges[at].at
    points = [(x, y)]
    x, y = x + _START * math.cos(turn), y + _START * math.sin(turn)

    def heading(px: float, py: float) -> tuple[float, float]:
        fx, fy = strength((px, py), charges)
        size = math.hypot(fx, fy) or 1.0
        return sign * fx / size, sign * fy / size

    for _ in range(_STEPS):
        points.append((x, y))
        near, target = min((distance((x, y), charge.at), n) for n, charge in enumerate(charges))
        if near < _ARRIVED and charges[target].size * sign < 0:
            return [*points, charges[target].at], target
        if near > _AWAY:
            break
        step = max(_LEAST, _SHARE * near)
        if near < 200.0:
            step = min(step, _LONGEST)
        ax, ay = heading(x, y)
        bx, by = heading(x + step / 2 * ax, y + step / 2 * ay)
        cx, cy = heading(x + step / 2 * bx, y + step / 2 * by)
        dx, dy = heading(x + step * cx, y + step * cy)
        x += step / 6 * (ax + 2 * bx + 2 * cx + dx)
        y += step / 6 * (ay + 2 * by + 2 * cy + dy)
    return points, None


def clipped(points: Sequence[Point], box: Box) -> list[list[Point]]:
    """The parts of a line that lie in a box, cut off at its edges exactly."""
    parts: list[list[Point]] = []
    for one, other in pairwise(points):
        cut = _inside(one, other, box)
        if cut is None:
            continue
        if parts and distance(parts[-1][-1], cut[0]) < 1e-9:
            parts[-1].append(cut[1])
        else:
            parts.append(list(cut))
    return parts


def _inside(one: Point, other: Point, box: Box) -> tuple[Point, Point] | None:
    dx, dy = other[0] - one[0], other[1] - one[1]
    low, high = 0.0, 1.0
    for at, step, least, most in ((one[0], dx, box.left, box.right), (one[1], dy, box.bottom, box.top)):
        if abs(step) < 1e-12:
            if not least <= at <= most:
                return None
            continue
        first, second = sorted(((least - at) / step, (most - at) / step))
        low, high = max(low, first), min(high, second)
        if low >= high:
            return None
    start = one if low == 0.0 else (one[0] + low * dx, one[1] + low * dy)
    end = other if high == 1.0 else (one[0] + high * dx, one[1] + high * dy)
    return start, end
