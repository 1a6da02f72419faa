"""Field lines of point charges: so many at each charge as it is large, and how they run."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .board import distance
from .field_bundles import Zone, axis_of, counts, shared, zones_of_pair, zones_seen
from .field_way import Way, way
from .picture import Box, Point


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

    Each charge has lines in proportion to its size (`counts`). From where around a charge lines run to which other
    charge, or far away, is found first; then how many run between each two, so that every charge has its number; and
    those are spread evenly over the angle in which they leave, at the end where that angle is wider.

    Args:
        charges: the charges.
        least: how many lines the smallest charge has; None for as many as look well.
    """
    sizes = [charge.size for charge in charges]
    places = [complex(*charge.at) for charge in charges]
    number = counts(sizes, least)
    if len(charges) == 1:
        zones = [[Zone(0.0, 2 * math.pi, None)]]
    elif len(charges) == 2:
        zones = zones_of_pair(places, sizes)
    else:
        zones = zones_seen(places, sizes)
    lines = []
    for at, turns in enumerate(shared(zones, sizes, number)):
        for zone, count in turns:
            whole = zone.end is None and zone.width >= 2 * math.pi
            opposite = [other for other in zones[zone.end] if other.end == at] if zone.end is not None else ()
            spread = _around(count, at, places) if whole else zone.spread(count, opposite)
            for turn in spread:
                lines.append(_line(way(places, sizes, at, turn), at, sizes[at] > 0))
    return lines


def _line(found: Way, start: int, forwards: bool) -> FieldLine:
    points = tuple((point.real, point.imag) for point in found.points)
    return FieldLine(points, start, found.end) if forwards else FieldLine(points[::-1], found.end, start)


def _around(count: int, at: int, places: Sequence[complex]) -> list[float]:
    """Directions of so many lines that all go far away."""
    axis = axis_of(at, places)
    # No line runs along the axis towards others, where it would end between two charges.
    start = axis + (math.pi if count % 2 else math.pi / count)
    return [start + 2 * math.pi * n / count for n in range(count)]


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
    left, bottom, right, top = box.left, box.bottom, box.right, box.top
    if left <= one[0] <= right and left <= other[0] <= right:
        if bottom <= one[1] <= top and bottom <= other[1] <= top:
            return one, other
    elif max(one[0], other[0]) < left or min(one[0], other[0]) > right:
        return None
    dx, dy = other[0] - one[0], other[1] - one[1]
    low, high = 0.0, 1.0
    for at, step, least, most in ((one[0], dx, left, right), (one[1], dy, bottom, top)):
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
