"""A circuit as nodes with parts between, and the equations that Kirchhoff's rules give for it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ..problems import Problem
from ..problems.figures_circuits import CircuitShorted, SourcesContradict
from .circuit_parts import (
    BLOCKING,
    CONDUCTING,
    RESISTIVE,
    SOURCES,
    Across,
    InParallel,
    InSeries,
    Part,
    Piece,
    Ratings,
)
from .circuit_system import Key, Sum, System, added
from .circuit_values import number_of

_ONE = Fraction(1)


@dataclass(frozen=True, slots=True)
class Link:
    """A part between two nodes, in the order in which it was typed.

    Attributes:
        part: the part.
        start, end: the nodes.
    """

    part: Part
    start: int
    end: int

    @property
    def current(self) -> dict[Key, Fraction]:
        """The current through it, from its start to its end."""
        return {("i", self.part.number): _ONE}

    @property
    def drop(self) -> dict[Key, Fraction]:
        """The potential at its start less that at its end."""
        return between(self.start, self.end)


def between(start: int, end: int) -> dict[Key, Fraction]:
    """The potential at one node less that at another."""
    return {("v", start): _ONE, ("v", end): -_ONE} if start != end else {}


@dataclass(frozen=True, slots=True)
class Group:
    """A piece of the circuit between two nodes.

    Attributes:
        piece: the piece.
        start, end: the nodes.
    """

    piece: Piece
    start: int
    end: int


@dataclass(slots=True)
class Network:
    """The nodes and parts of a circuit.

    Attributes:
        links: each part by its number.
        groups: each piece, runs of pieces in series included.
        nodes: how many nodes there are.
    """

    links: dict[int, Link] = field(default_factory=dict)
    groups: list[Group] = field(default_factory=list)
    nodes: int = 0

    def node(self) -> int:
        """A new node."""
        self.nodes += 1
        return self.nodes - 1

    def take(self, piece: Piece, start: int, end: int) -> None:
        """A piece between two nodes."""
        self.groups.append(Group(piece, start, end))
        match piece:
            case Part():
                ends = (end, start) if piece.backwards else (start, end)
                self.links[piece.number] = Link(piece, *ends)
            case Across():
                self.take(piece.piece, start, end)
                self.take(piece.meter, start, end)
            case InParallel():
                for branch in piece.branches:
                    self.take(branch, start, end)
            case InSeries():
                nodes = [start, *(self.node() for _ in piece.pieces[1:]), end]
                for at, inner in enumerate(piece.pieces):
                    self.take(inner, nodes[at], nodes[at + 1])
                for first in range(len(piece.pieces)):
                    for last in range(first + 1, len(piece.pieces)):
                        if (first, last) != (0, len(piece.pieces) - 1):
                            run = InSeries(piece.pieces[first : last + 1])
                            self.groups.append(Group(run, nodes[first], nodes[last + 1]))


def network_of(pieces: Iterable[tuple[object, object, Piece]]) -> Network:
    """The network of pieces between named nodes."""
    whole = list(pieces)
    known: dict[object, int] = {}
    for start, end, _ in whole:
        for name in (start, end):
            known.setdefault(name, len(known))
    # The nodes inside of pieces come behind the named ones.
    network = Network(nodes=len(known))
    for start, end, piece in whole:
        if not isinstance(piece, InSeries) or piece.pieces:
            network.take(piece, known[start], known[end])
    return network


def inflow(piece: Piece) -> dict[Key, Fraction]:
    """The current into a piece at its beginning."""
    match piece:
        case Part():
            return {("i", piece.number): -_ONE if piece.backwards else _ONE}
        case InSeries():
            return inflow(piece.pieces[0]) if piece.pieces else {}
        case Across():
            return added(inflow(piece.piece), inflow(piece.meter))
        case InParallel():
            total: dict[Key, Fraction] = {}
            for branch in piece.branches:
                total = added(total, inflow(branch))
            return total


def equations(
    network: Network, ratings: Mapping[int, Ratings], diodes: Mapping[int, bool] | None = None
) -> System:
    """Kirchhoff's rules and what is known of each part.

    The currents into a node add to zero. A resistance has V = I R across it, a battery ε − I r; ammeters, closed
    switches, fuses and wires have no voltage across them; no current passes voltmeters, open switches and
    capacitors. A diode that conducts has its voltage across it, no current passes one that does not. Of a part whose
    value is not known nothing is said.

    Args:
        network: the circuit.
        ratings: the values of its parts.
        diodes: of each diode, by its number, whether it conducts.
    """
    system = System()
    for link in network.links.values():
        rating = ratings[link.part.number]
        state = (diodes or {}).get(link.part.number)
        sums = _equation(link, rating) if state is None else _diode(link, rating, state)
        if sums is not None:
            system.add(sums[0], {"": sums[1]} if sums[1] else {})
    at: dict[int, dict[Key, Fraction]] = {}
    for link in network.links.values():
        at[link.start] = added(at.get(link.start, {}), link.current)
        at[link.end] = added(at.get(link.end, {}), link.current, -_ONE)
    for total in at.values():
        system.add(total, {})
    return system


def _equation(link: Link, ratings: Ratings) -> tuple[Sum, Fraction] | None:
    part = link.part
    emf, resistance = ratings.emf, ratings.resistance
    if resistance is None and stops(part):
        return link.current, Fraction(0)
    if resistance is None and conducts(part):
        return link.drop, Fraction(0)
    if resistance is not None and resistance.datum is None:
        return None
    own = (
        number_of(resistance.datum)
        if resistance is not None and resistance.datum is not None
        else Fraction(0)
    )
    if part.kind not in SOURCES and resistance is not None:
        # A resistor, or a meter whose own resistance is given.
        return added(link.drop, link.current, -own), Fraction(0)
    if emf is not None and emf.datum is not None:
        # From start to end the potential rises by ε − I r; the other way round for a reversed battery.
        rise = number_of(emf.datum)
        return added(link.drop, link.current, -own), rise if part.reversed else -rise
    return None


def _diode(link: Link, ratings: Ratings, conducting: bool) -> tuple[Sum, Fraction] | None:
    if not conducting:
        return link.current, Fraction(0)
    assert ratings.forward is not None
    assert ratings.forward.datum is not None
    forward = number_of(ratings.forward.datum)
    return link.drop, -forward if link.part.reversed else forward


def stops(part: Part) -> bool:
    """Whether no current passes a part."""
    return part.kind in BLOCKING or (part.kind == "switch" and part.open)


def conducts(part: Part) -> bool:
    """Whether a part has no voltage across it."""
    return part.kind in CONDUCTING or (part.kind == "switch" and not part.open)


# Loops without resistance.


def shorted(network: Network, ratings: Mapping[int, Ratings]) -> Problem | None:
    """What is wrong with a loop in which no part has a resistance, or None where nothing is."""
    near: dict[int, list[tuple[int, Link, Fraction]]] = {}
    for link, drop in sorted(_ideal(network, ratings), key=lambda pair: pair[0].part.kind in SOURCES):
        way = _way(near, link.start, link.end)
        if way is None:
            near.setdefault(link.start, []).append((link.end, link, drop))
            near.setdefault(link.end, []).append((link.start, link, -drop))
        elif sum((step for _, step in way), Fraction(0)) != drop:
            others = [other.part for other, _ in way]
            sources = [part for part in others if part.kind in SOURCES]
            if link.part.kind in SOURCES and sources:
                return SourcesContradict(link.part.text.span, tuple(part.text.value for part in sources))
            shown = link.part if link.part.kind in SOURCES else sources[0]
            names = [part.text.value for part in reversed(others) if part.kind not in ("wire", *SOURCES)]
            return CircuitShorted(shown.text.span, tuple(names))
    return None


def _ideal(network: Network, ratings: Mapping[int, Ratings]) -> Iterator[tuple[Link, Fraction]]:
    """The parts across which the voltage does not depend on the current, with that voltage."""
    for link in network.links.values():
        part, rating = link.part, ratings[link.part.number]
        resistance = rating.resistance
        none = resistance is None or (resistance.datum is not None and number_of(resistance.datum) == 0)
        if none and (conducts(part) or part.kind in RESISTIVE):
            yield link, Fraction(0)
        elif part.kind in SOURCES and none and rating.emf is not None and rating.emf.datum is not None:
            rise = number_of(rating.emf.datum)
            yield link, rise if part.reversed else -rise


def _way(
    near: Mapping[int, list[tuple[int, Link, Fraction]]], start: int, end: int
) -> list[tuple[Link, Fraction]] | None:
    """The way between two nodes through parts without resistance, each with the voltage along it; None for none."""
    came: dict[int, tuple[int, Link, Fraction] | None] = {start: None}
    waiting = deque([start])
    while waiting:
        node = waiting.popleft()
        if node == end:
            break
        for other, link, drop in near.get(node, ()):
            if other not in came:
                came[other] = (node, link, drop)
                waiting.append(other)
    if end not in came:
        return None
    way: list[tuple[Link, Fraction]] = []
    node = end
    while (step := came[node]) is not None:
        way.append(step[1:])
        node = step[0]
    return way[::-1]
