"""How many field lines each charge has, and how many of them run from which charge to which."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .field_way import way

#: Lines of the field of one charge alone, and about how many the largest of several has; the most of any.
ALONE, SEVERAL, MOST = 12, 16, 32
#: In how many directions around a charge it is looked where lines go, and how often the edge between two is halved.
_LOOKS, _HALVINGS = 36, 7
#: More than any difference between ways to share lines out: what a line more at a charge that lacks it is worth.
_WORTH = 1e6


@dataclass(frozen=True, slots=True)
class Zone:
    """An angle around a charge in which all lines go to the same end.

    Attributes:
        start: where it begins, in radians.
        width: how wide it is, anticlockwise; 2 π for all around.
        end: the charge to which lines go, by number; None for far away.
        seen: of some lines, in their order, where they leave, as a share of the width, and the direction in radians in
            which they arrive, seen from that charge; none for far away.
    """

    start: float
    width: float
    end: int | None
    seen: tuple[tuple[float, float], ...] = ()

    def spread(self, count: int, opposite: Sequence[Zone]) -> list[float]:
        """Directions in which so many lines leave, in radians: as even as can be at both of their ends.

        Args:
            count: how many.
            opposite: the zones around the charge at which they arrive.
        """
        # Shares of the angles at both ends, and their mean; lines are even in it.
        means = [(0.0, 0.0), *self._means(opposite), (1.0, 1.0)]
        if any(one[1] >= other[1] for one, other in pairwise(means)):
            means = [(0.0, 0.0), (1.0, 1.0)]
        shares = []
        for n in range(count):
            wanted = (n + 0.5) / count
            (s, low), (after, high) = next(pair for pair in pairwise(means) if pair[1][1] >= wanted)
            shares.append(s + (after - s) * (wanted - low) / (high - low))
        return [self.start + self.width * share for share in shares]

    def _means(self, opposite: Sequence[Zone]) -> list[tuple[float, float]]:
        means = []
        for share, turn in self.seen:
            for zone in opposite:
                far = (turn - zone.start) % (2 * math.pi) / zone.width
                if far <= 1:
                    # Lines that leave anticlockwise one after the other arrive clockwise.
                    means.append((share, (share + 1 - far) / 2))
                    break
        return means


def counts(charges: Sequence[float], least: int | None) -> list[int]:
    """How many lines each charge has: in the ratio of the charges, as nearly as whole numbers can be.

    Args:
        charges: the charges, in any unit.
        least: how many the smallest has; None for as many as look well.
    """
    sizes = [abs(charge) for charge in charges]
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


def axis_of(at: int, places: Sequence[complex]) -> float:
    """The direction from a charge to the middle of the others, about which its lines are symmetric."""
    others = [place for n, place in enumerate(places) if n != at]
    if not others:
        return 0.0
    way_ = sum(others) / len(others) - places[at]
    if abs(way_) < 1e-6:
        way_ = others[0] - places[at]
    return cmath.phase(way_)


def zones_of_pair(places: Sequence[complex], sizes: Sequence[float]) -> list[list[Zone]]:
    """The zones of two charges, by Gauss's law.

    Lines of charges of one sign all go far away. Of two signs all lines of the smaller charge q come from the larger Q,
    where they leave in the cone about the axis that has the share q/Q of all directions: (1 − cos α)/2 = q/Q.
    """
    whole = 2 * math.pi
    if sizes[0] * sizes[1] > 0:
        return [[Zone(0.0, whole, None)], [Zone(0.0, whole, None)]]
    zones = []
    for at, other in ((0, 1), (1, 0)):
        share = min(1.0, abs(sizes[other]) / abs(sizes[at]))
        axis = cmath.phase(places[other] - places[at])
        half = math.acos(1 - 2 * share)
        seen = []
        for n in range(1, 2 * _LOOKS):
            turn = half * (n / _LOOKS - 1)
            # The flux inside of the cone is the same at both ends.
            back = math.acos(max(-1.0, 1 - (1 - math.cos(turn)) * abs(sizes[at] / sizes[other])))
            seen.append((n / (2 * _LOOKS), axis + math.pi - math.copysign(back, turn)))
        zones.append([Zone(axis - half, 2 * half, other, tuple(seen))])
        if share < 1 - 1e-9:
            zones[at].append(Zone(axis + half, whole - 2 * half, None))
    return zones


def zones_seen(places: Sequence[complex], sizes: Sequence[float]) -> list[list[Zone]]:
    """The zones of several charges, found by following lines in many directions."""
    return [_zones(at, places, sizes) for at in range(len(places))]


def _zones(at: int, places: Sequence[complex], sizes: Sequence[float]) -> list[Zone]:
    whole = 2 * math.pi

    def look(turn: float) -> tuple[int | None, float]:
        """Where a line ends, and the direction in which it arrives there."""
        found = way(places, sizes, at, turn, rough=True)
        return found.end, cmath.phase(found.points[-2] - found.points[-1])

    # Not along an axis of symmetry, where a line may end between two charges.
    others = [place for n, place in enumerate(places) if n != at]
    first = cmath.phase(others[0] - places[at]) + whole / _LOOKS / 2
    turns = [first + whole * n / _LOOKS for n in range(_LOOKS)]
    looks = [look(turn) for turn in turns]
    edges: list[tuple[float, int | None]] = []
    for n in range(_LOOKS):
        (one, _), (other, _) = looks[n], looks[(n + 1) % _LOOKS]
        if one == other:
            continue
        low, high = turns[n], turns[n] + whole / _LOOKS
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            if look(middle)[0] == one:
                low = middle
            else:
                high = middle
        edges.append(((low + high) / 2, other))
    if not edges:
        edges = [(_cut(turns, looks, axis_of(at, places)), looks[0][0])]
    following = [*edges[1:], (edges[0][0] + whole, None)]
    zones = []
    for (start, target), (after, _) in zip(edges, following, strict=True):
        width = after - start
        seen = [
            ((turn - start) % whole / width, arriving)
            for turn, (end, arriving) in zip(turns, looks, strict=True)
            if end == target and target is not None and 0 < (turn - start) % whole < width
        ]
        zones.append(Zone(start, width, target, tuple(sorted(seen))))
    return zones


def _cut(turns: Sequence[float], looks: Sequence[tuple[int | None, float]], axis: float) -> float:
    """Where the lines of a charge that all end at one other are the farthest from one another there.

    Where that charge has no others, opposite to it.
    """

    def apart(n: int) -> float:
        return (looks[n][1] - looks[(n + 1) % len(looks)][1]) % (2 * math.pi)

    if looks[0][0] is None:
        return axis + math.pi
    widest = max(range(len(turns)), key=apart)
    if apart(widest) < 0.8:
        return axis + math.pi
    return turns[widest] + math.pi / len(turns)


def shared(
    zones: Sequence[Sequence[Zone]], sizes: Sequence[float], number: Sequence[int]
) -> list[list[tuple[Zone, int]]]:
    """At each charge the zones in which lines are begun, with how many.

    Args:
        zones: the zones around each charge.
        sizes: the charges.
        number: how many lines each is to have.
    """
    whole = 2 * math.pi
    width = [
        {end: sum(zone.width for zone in mine if zone.end == end) for end in {zone.end for zone in mine}}
        for mine in zones
    ]
    wanted: dict[tuple[int, int | None], float] = {}
    for at, mine in enumerate(width):
        for end, wide in mine.items():
            if end is None:
                wanted[at, None] = number[at] * wide / whole
            else:
                pair = (at, end) if sizes[at] > 0 else (end, at)
                back = width[end].get(at, 0.0)
                wanted[pair] = (number[at] * wide + number[end] * back) / whole / 2
    found = _flow(wanted, sizes, number)
    begun: list[list[tuple[Zone, int]]] = [[] for _ in zones]
    for (one, other), count in found.items():
        # Lines are spread evenly at the end where they have more room.
        at, end = one, other
        if other is not None and width[other].get(one, 0.0) > width[one].get(other, 0.0):
            at, end = other, one
        begun_in = [zone for zone in zones[at] if zone.end == end]
        begun[at] += zip(begun_in, _parted(count, [zone.width for zone in begun_in]), strict=True)
    return begun


def _parted(count: int, widths: Sequence[float]) -> list[int]:
    """A number of lines over zones: each to the zone where it has most room."""
    parts = [0] * len(widths)
    for _ in range(count):
        # Nearly equal zones (mirror images) are told apart by their order alone.
        room = [round(width / (2 * part + 1), 2) for width, part in zip(widths, parts, strict=True)]
        parts[room.index(max(room))] += 1
    return parts


def _flow(
    wanted: dict[tuple[int, int | None], float], sizes: Sequence[float], number: Sequence[int]
) -> dict[tuple[int, int | None], int]:
    """Whole numbers of lines between charges, as near as can be to those wanted, so that each charge has its number.

    A flow of least cost in a small network, a line at a time along the cheapest way (Busacker and Gowen 1961); the cost
    of a number n of lines where w are wanted is (n − w)²/(w + ½).

    Args:
        wanted: between a positive and a negative charge, or a charge and far away: how many lines there should be.
        sizes: the charges.
        number: how many lines each is to have.
    """
    # Nodes: the charges, far away, source, sink. Lines run from positive to negative charges.
    far, source, sink = len(sizes), len(sizes) + 1, len(sizes) + 2
    edges: dict[tuple[int, int], tuple[tuple[int, int | None] | None, float, int]] = {
        (source, far): (None, 0.0, sum(number)),
        (far, sink): (None, 0.0, sum(number)),
    }
    for pair, many in wanted.items():
        one, other = pair
        if other is not None:
            edges[one, other] = (pair, many, sum(number))
        else:
            edges[(one, far) if sizes[one] > 0 else (far, one)] = (pair, many, sum(number))
    for at, size in enumerate(sizes):
        edges[(source, at) if size > 0 else (at, sink)] = (None, -_WORTH, number[at])
    flow = dict.fromkeys(edges, 0)

    def cost(edge: tuple[int, int], step: int) -> float:
        """What a line more (1) or less (−1) costs; infinite where there can be none."""
        pair, many, most = edges[edge]
        now = flow[edge]
        if not 0 <= now + step <= most:
            return math.inf
        if pair is None:
            return step * many
        return (float((now + step - many) ** 2) - float((now - many) ** 2)) / (many + 0.5)

    for _ in range(2 * sum(number) + 1):
        reach = [math.inf] * (sink + 1)
        came: list[tuple[int, tuple[int, int], int] | None] = [None] * (sink + 1)
        reach[source] = 0.0
        for _ in range(sink + 1):
            for edge in edges:
                for start, end, step in ((*edge, 1), (edge[1], edge[0], -1)):
                    total = reach[start] + cost(edge, step)
                    if total < reach[end] - 1e-9:
                        reach[end] = total
                        came[end] = (start, edge, step)
        if not reach[sink] < 0:
            break
        node, passed = sink, 0
        while node != source and passed <= sink:
            back = came[node]
            assert back is not None
            flow[back[1]] += back[2]
            node, passed = back[0], passed + 1
    return {pair: flow[edge] for edge, (pair, _, _) in edges.items() if pair is not None and flow[edge] > 0}
