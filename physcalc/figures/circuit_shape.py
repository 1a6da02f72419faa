"""How a circuit stands on the page: two rows of a loop, or branches between places of a grid."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from ..problems import Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_circuits import CircuitEndLoose, CircuitLayoutMissing, CircuitWide
from .circuit_parts import (
    SOURCES,
    Across,
    Branch,
    InParallel,
    InSeries,
    Part,
    Piece,
    Route,
    in_series,
    parts_of,
    turned,
)

#: So many parts stand side by side on a page at most.
MOST_COLUMNS = 9
MOST_ROWS = 12
#: A step of the grid is as wide as so many parts at least; a grid has no labels between rows of parts.
_STEP = Fraction(8, 5)
_MOST_OF_GRID = 10
#: Places of nodes lie so many steps apart at most.
_MOST_STEPS = 12
#: What stands beside the battery in the upper row, where there is room.
_SMALL = frozenset((*SOURCES, "switch", "ammeter", "galvanometer", "fuse", "wire", "terminals"))
_PLACE_FORM = "two numbers of steps, to the right and upwards: 2, 1"

Spot = tuple[Fraction, Fraction]


def columns(piece: Piece) -> int:
    """How many parts of a piece stand side by side."""
    match piece:
        case Part():
            return 2 if piece.kind in SOURCES and len(piece.values) > 1 else 1
        case Across():
            return max(1, columns(piece.piece))
        case InSeries():
            return sum(map(columns, piece.pieces))
        case InParallel():
            return max(map(columns, piece.branches))


def rows(piece: Piece) -> int:
    """How many parts of a piece stand over one another."""
    match piece:
        case Part():
            return 1
        case Across():
            return rows(piece.piece) + 1
        case InSeries():
            return max(map(rows, piece.pieces), default=1)
        case InParallel():
            return sum(map(rows, piece.branches))


def _has_source(piece: Piece) -> bool:
    return any(part.kind in SOURCES for part in parts_of(piece))


def two_rows(loop: Piece, text: Text) -> tuple[Piece, Piece]:
    """The two rows of a loop, both from left to right: the battery with what stands beside it, and the rest.

    The current leaves the battery to the right and comes back in the lower row from right to left.

    Raises:
        CircuitWide: there is not room enough for it on a page.
    """
    if isinstance(loop, InParallel):
        # Branches alone: the ones without a battery close the way of its current.
        order = sorted(loop.branches, key=lambda branch: not _has_source(branch))
        rest: list[Piece] = [branch if _has_source(branch) else turned(branch) for branch in order[1:]]
        return _narrow((order[0], rest[0] if len(rest) == 1 else InParallel(tuple(rest))), text)
    pieces = list(loop.pieces) if isinstance(loop, InSeries) else [loop]
    first = next((at for at, piece in enumerate(pieces) if _has_source(piece)), None)
    if first is None:
        ends = (
            at for at, piece in enumerate(pieces) if isinstance(piece, Part) and piece.kind == "terminals"
        )
        first = next(ends, 0)
    pieces = pieces[first:] + pieces[:first]
    for _ in pieces[1:]:  # A loop of nothing but batteries has no end of them.
        if len(pieces) <= 2 or not _only_sources(pieces[-1]):
            break
        pieces = [pieces[-1], *pieces[:-1]]
    head = 1
    while head < len(pieces) - 1 and _only_sources(pieces[head]):
        head += 1
    whole = sum(map(columns, pieces))
    if whole > 2 * MOST_COLUMNS:
        raise CircuitWide(text.part(0).span, (whole + 1) // 2, MOST_COLUMNS)
    best: tuple[tuple[float, ...], int, int] | None = None
    for before in range(head, len(pieces) + 1):
        for after in range(before, len(pieces) + 1):
            above, below = pieces[after:] + pieces[:before], pieces[before:after]
            wide, low = sum(map(columns, above)), sum(map(columns, below))
            large = sum(not _is_small(piece) for piece in above) - (not _is_small(pieces[0]))
            cost = (max(wide, low) + 0.6 * large + (2 if not below and len(pieces) > 1 else 0), abs(wide - low),
                    len(pieces) - after, -before)  # fmt: skip
            if best is None or cost < best[0]:
                best = (cost, before, after)
    assert best is not None
    _, before, after = best
    upper = in_series(*pieces[after:], *pieces[:before])
    return _narrow((upper, turned(in_series(*pieces[before:after]))), text)


def _is_small(piece: Piece) -> bool:
    return isinstance(piece, Part) and piece.kind in _SMALL


def _only_sources(piece: Piece) -> bool:
    return all(part.kind in (*SOURCES, "voltmeter") for part in parts_of(piece)) and _has_source(piece)


def _narrow(both: tuple[Piece, Piece], text: Text) -> tuple[Piece, Piece]:
    widest, highest = max(map(columns, both)), sum(map(rows, both))
    if widest > MOST_COLUMNS:
        raise CircuitWide(text.part(0).span, widest, MOST_COLUMNS)
    if highest > MOST_ROWS:
        raise CircuitWide(text.part(0).span, highest, MOST_ROWS, "over one another")
    return both


# Branches between nodes.


@dataclass(frozen=True, slots=True)
class _Edge:
    """What lies between two nodes while a circuit is put together."""

    start: str
    end: str
    piece: Piece
    main: bool = False

    def from_(self, node: str) -> _Edge:
        """The same, beginning at one of its nodes."""
        if self.start == node:
            return self
        return _Edge(self.end, self.start, turned(self.piece), self.main)


def no_loose_ends(branches: Sequence[Branch]) -> None:
    """Raises CircuitEndLoose where a node has one branch."""
    ends: dict[str, list[Text]] = {}
    for branch in branches:
        for text in (branch.start, branch.end):
            ends.setdefault(text.value, []).append(text)
    for name, texts in ends.items():
        if len(texts) == 1:
            others = tuple(other for other, found in ends.items() if len(found) > 1)
            near = next((other for other in others if other.lower() == name.lower()), nearest(name, others))
            raise CircuitEndLoose(texts[0].span, name, near)


def put_together(branches: Sequence[Branch], text: Text) -> tuple[Piece, Piece] | tuple[Route, ...]:
    """The two rows of a loop, or the routes of a bridge.

    Two branches between the same nodes are put together in parallel, and two at a node that has no third one in
    series, until a loop of two is left.

    Raises:
        CircuitLayoutMissing: it is neither.
        CircuitWide: there is not room enough on a page.
    """
    main = next((at for at, branch in enumerate(branches) if _has_source(branch.piece)), 0)
    edges = [
        _Edge(branch.start.value, branch.end.value, branch.piece, at == main)
        for at, branch in enumerate(branches)
    ]
    while len(edges) > 2:
        joined = _parallel(edges) or _series(edges)
        if joined is None:
            break
        edges = joined
    root = next(edge for edge in edges if edge.main)
    if len(edges) == 2:
        other = next(edge for edge in edges if not edge.main)
        if {root.start, root.end} == {other.start, other.end}:
            other = other.from_(root.start)
            return _narrow((root.piece, other.piece), text)
    routes = _bridge(edges, root, text)
    if routes is None:
        what = "the branches of the circuit cannot be laid out by themselves"
        how = 'give the places of the nodes in steps of a grid: "at:" with lines such as "A: 0, 1" below it'
        raise CircuitLayoutMissing(text.part(0).span, what, how)
    return routes


def _parallel(edges: Sequence[_Edge]) -> list[_Edge] | None:
    for one in edges:
        alike = [
            other for other in edges if not other.main and {other.start, other.end} == {one.start, one.end}
        ]
        if one.main or len(alike) < 2:
            continue
        pieces: list[Piece] = []
        for other in alike:
            piece = other.from_(one.start).piece
            pieces += piece.branches if isinstance(piece, InParallel) else (piece,)
        joined = _Edge(one.start, one.end, InParallel(tuple(pieces), (one.start, one.end)))
        return [joined if edge is one else edge for edge in edges if edge is one or edge not in alike]
    return None


def _series(edges: Sequence[_Edge]) -> list[_Edge] | None:
    for node in dict.fromkeys(name for edge in edges for name in (edge.start, edge.end)):
        here = [edge for edge in edges if node in (edge.start, edge.end)]
        if len(here) != 2:
            continue
        one, other = sorted(here, key=lambda edge: not edge.main)
        # The typed direction of the first one is kept.
        if one.end == node:
            pieces = one.piece, other.from_(node).piece
            joined = _Edge(one.start, other.from_(node).end, in_series(*pieces), one.main)
        else:
            before = other.from_(other.start if other.end == node else other.end)
            joined = _Edge(before.start, one.end, in_series(before.piece, one.piece), one.main)
        if joined.start == joined.end:
            continue
        return [joined if edge is one else edge for edge in edges if edge is not other]
    return None


def _bridge(edges: Sequence[_Edge], root: _Edge, text: Text) -> tuple[Route, ...] | None:
    """A bridge: four nodes, each connected with each; the battery's branch runs below the other five."""
    nodes = list(dict.fromkeys(name for edge in edges for name in (edge.start, edge.end)))
    pairs = {frozenset((edge.start, edge.end)) for edge in edges}
    if len(nodes) != 4 or len(edges) != 6 or len(pairs) != 6:
        return None
    one, other = (name for name in nodes if name not in (root.start, root.end))
    half, zero, two = Fraction(1), Fraction(0), Fraction(2)
    at: dict[str, Spot] = {
        root.start: (zero, zero),
        root.end: (two, zero),
        one: (half, half),
        other: (half, -half),
    }
    low = Fraction(-19, 10)
    below: tuple[Spot, ...] = ((zero, zero), (zero, low), (two, low), (two, zero))
    routes = [Route(root.start, root.end, root.piece, below, 1)]
    for edge in edges:
        if edge is not root:
            routes.append(Route(edge.start, edge.end, edge.piece, (at[edge.start], at[edge.end])))
    _not_too_wide(routes, text)
    return tuple(routes)


def routes_at(branches: Sequence[Branch], at: Sequence[tuple[Text, Text]]) -> tuple[Route, ...]:
    """Branches straight between nodes at the author's places.

    Raises:
        Problem: a place is missing or cannot be read, or branches cross.
    """
    names = tuple(dict.fromkeys(text.value for branch in branches for text in (branch.start, branch.end)))
    places: dict[str, Spot] = {}
    for key, value in at:
        if key.value not in names:
            raise FigureNameUnknown(key.span, key.value, names, nearest(key.value, names))
        places[key.value] = spot = _spot(value)
        twin = next((name for name in places if name != key.value and places[name] == spot), None)
        if twin is not None:
            what = f"{key.value} and {twin} stand at the same place"
            raise CircuitLayoutMissing(value.span, what, "give each node a place of its own")
    for branch in branches:
        for text in (branch.start, branch.end):
            if text.value not in places:
                what, how = f"the node {text.value} has no place", f'write "{text.value}: 0, 1" below "at"'
                raise CircuitLayoutMissing(text.span, what, how)
    for one, other in combinations(branches, 2):
        first, second = ((places[b.start.value], places[b.end.value]) for b in (one, other))
        if _cross(first, second):
            what = (
                f"the branch from {other.start.value} to {other.end.value} crosses the one from "
                f"{one.start.value} to {one.end.value}"
            )
            raise CircuitLayoutMissing(
                other.start.span, what, "move a node, or lead a branch around over one more node"
            )
    routes = tuple(
        Route(b.start.value, b.end.value, b.piece, (places[b.start.value], places[b.end.value]))
        for b in branches
    )
    _not_too_wide(routes, at[0][0])
    return routes


def _not_too_wide(routes: Sequence[Route], text: Text) -> None:
    """Raises CircuitWide where the steps, each as long as what lies on it, are more than a page holds."""
    steps = {0: [_STEP], 1: [_STEP]}
    for route in routes:
        first, last = route.points[route.along], route.points[route.along + 1]
        away = [abs(one - other) for one, other in zip(first, last, strict=True)]
        for way in (0, 1):
            if away[way]:
                # A slanting branch is longer than what it covers to either side.
                steps[way].append(columns(route.piece) / away[way] * (Fraction(7, 10) if all(away) else 1))
        if not away[1]:
            steps[1].append(Fraction(rows(route.piece)))
    for way, most, words in ((0, _MOST_OF_GRID, "side by side"), (1, MOST_ROWS, "over one another")):
        across = [point[way] for route in routes for point in route.points]
        widest = max(steps[way]) * (max(across) - min(across))
        if widest > most:
            raise CircuitWide(text.part(0).span, math.ceil(widest), most, words)


def _spot(text: Text) -> Spot:
    numbers: list[Fraction] = []
    for part in text.value.split(","):
        try:
            numbers.append(Fraction(part.strip()) if len(part.strip()) <= 8 else Fraction(1000))
        except (ValueError, ZeroDivisionError):
            break
    if len(numbers) != 2 or any(abs(number) > _MOST_STEPS for number in numbers):
        form = f"{_PLACE_FORM}, at most {_MOST_STEPS} of them"
        raise FigurePhraseUnreadable(text.span, "the place of a node", text.value, form)
    return numbers[0], numbers[1]


def _cross(one: tuple[Spot, Spot], other: tuple[Spot, Spot]) -> bool:
    """Whether two straight ways have more than an end in common."""
    shared = set(one) & set(other)
    if len(shared) == 2:
        return True
    turns = [_turn(*one, point) for point in other], [_turn(*other, point) for point in one]
    if shared:
        # From a common end two ways overlap where they run in the same direction.
        (corner,) = shared
        a, b = (next(point for point in way if point != corner) for way in (one, other))
        along = (a[0] - corner[0]) * (b[0] - corner[0]) + (a[1] - corner[1]) * (b[1] - corner[1])
        return _turn(corner, a, b) == 0 and along > 0
    if all(turn == 0 for turn in turns[0]):
        key = 0 if one[0][0] != one[1][0] else 1
        low, high = sorted(point[key] for point in one)
        return any(low <= point[key] <= high for point in other) or _around(one, other, key)
    return turns[0][0] * turns[0][1] <= 0 and turns[1][0] * turns[1][1] <= 0


def _around(one: tuple[Spot, Spot], other: tuple[Spot, Spot], key: int) -> bool:
    low, high = sorted(point[key] for point in other)
    return low <= one[0][key] <= high


def _turn(start: Spot, end: Spot, point: Spot) -> Fraction:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])


def named_nodes(routes: Sequence[Route]) -> Mapping[str, Spot]:
    """The nodes at which three or more branches meet."""
    met: dict[str, list[Spot]] = {}
    for route in routes:
        met.setdefault(route.start, []).append(route.points[0])
        met.setdefault(route.end, []).append(route.points[-1])
    return {name: spots[0] for name, spots in met.items() if len(spots) > 2}
