"""The way of one field line of point charges in a plane."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

#: How near the middle of a charge a line begins and has arrived: in millimetres, and as a share of the least distance
#: between charges. Inside of that the charge's own field is so strong that the line is straight.
_NEAR, _NEAR_SHARE = 0.4, 0.04
#: A line that is so many millimetres away comes back no more, or outside of every picture.
_AWAY = 6000.0
_STEPS = 600
#: The longest step, as a share of the distance to the nearest charge.
_SHARE = 0.45
#: The error of a step: this share of the distance to the nearest charge, for a line that is drawn and for one that is
#: only to show where it goes.
_FINE, _ROUGH = 3e-5, 2e-3
#: Points of a drawn line: no farther apart than this in millimetres, nor bending more between two of them than this.
_APART, _BEND = 1.0, math.radians(1.5)
#: So far from the nearest charge a line is outside of every picture, and no points of it are wanted.
_SEEN = 150.0


@dataclass(frozen=True, slots=True)
class Way:
    """The way of a line from a charge, along the field or, from a negative charge, against it.

    Attributes:
        points: its points, in millimetres: x + i y.
        end: the charge at which it arrives, by number; None where it goes far away.
    """

    points: tuple[complex, ...]
    end: int | None


def way(places: Sequence[complex], sizes: Sequence[float], at: int, turn: float, rough: bool = False) -> Way:
    """The way of a line from a charge: by the method of Dormand and Prince, of fifth order with its error (1980).

    Args:
        places: where the charges are, x + i y in millimetres.
        sizes: the charges, in any unit.
        at: the charge at which it begins.
        turn: in which direction, in radians.
        rough: whether only its end is wanted.
    """
    sign = 1.0 if sizes[at] > 0 else -1.0
    charges = [(place, sign * size) for place, size in zip(places, sizes, strict=True)]
    least = min((abs(a - b) for n, a in enumerate(places) for b in places[:n]), default=10.0)
    near = min(_NEAR, _NEAR_SHARE * least)
    wanted = _ROUGH if rough else _FINE
    z = places[at] + cmath.rect(near, turn)
    points = [places[at], z]
    k1 = _heading(z, charges)
    h = near
    for _ in range(_STEPS):
        distances = [abs(z - place) for place in places]
        close = min(distances)
        target = distances.index(close)
        if close <= near * 1.0001 and len(points) > 2 and charges[target][1] < 0:
            return Way((*points, places[target]), target)
        if close > _AWAY:
            break
        h = min(h, _SHARE * close)
        if charges[target][1] < 0:
            # Not beyond the charge at which it arrives.
            h = min(h, max(close - 0.9 * near, 0.1 * near))
        while True:
            k2 = _heading(z + h * (k1 / 5), charges)
            k3 = _heading(z + h * (3 / 40 * k1 + 9 / 40 * k2), charges)
            k4 = _heading(z + h * (44 / 45 * k1 - 56 / 15 * k2 + 32 / 9 * k3), charges)
            k5 = _heading(
                z + h * (19372 / 6561 * k1 - 25360 / 2187 * k2 + 64448 / 6561 * k3 - 212 / 729 * k4), charges
            )
            k6 = _heading(
                z
                + h
                * (9017 / 3168 * k1 - 355 / 33 * k2 + 46732 / 5247 * k3 + 49 / 176 * k4 - 5103 / 18656 * k5),
                charges,
            )
            step = h * (35 / 384 * k1 + 500 / 1113 * k3 + 125 / 192 * k4 - 2187 / 6784 * k5 + 11 / 84 * k6)
            k7 = _heading(z + step, charges)
            error = h * abs(
                71 / 57600 * k1
                - 71 / 16695 * k3
                + 71 / 1920 * k4
                - 17253 / 339200 * k5
                + 22 / 525 * k6
                - k7 / 40
            )
            allowed = wanted * close
            growth = 4.0 if error == 0 else min(4.0, max(0.2, 0.9 * (allowed / error) ** 0.2))
            if error <= allowed or h < 1e-3 * near:
                break
            h *= growth
        if not rough and close < _SEEN:
            points += _between(z, k1, z + step, k7, h)
        z += step
        points.append(z)
        if abs(step) < 1e-4 * near:
            break  # Where the field is zero no line goes on.
        k1 = k7
        h *= growth
    return Way(tuple(points), None)


def _heading(z: complex, charges: Sequence[tuple[complex, float]]) -> complex:
    """The direction of the field Σ q r / r³ (Coulomb's law) at a point; 0 where there is none."""
    total = 0j
    for place, size in charges:
        step = z - place
        far = abs(step)
        if far:
            total += size / far**3 * step
    size = abs(total)
    return total / size if size else 0j


def _between(start: complex, first: complex, end: complex, last: complex, h: float) -> list[complex]:
    """Points between the ends of a step, on the cubic curve with the directions that it has at both (Hermite's)."""
    bend = abs(cmath.phase(last / first)) if first and last else 0.0
    count = min(200, max(math.ceil(h / _APART), math.ceil(bend / _BEND)))
    found = []
    for n in range(1, count):
        t = n / count
        s = 1 - t
        found.append(
            s * s * (1 + 2 * t) * start
            + t * s * s * h * first
            + t * t * (3 - 2 * t) * end
            - t * t * s * h * last
        )
    return found
