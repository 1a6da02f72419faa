"""What a circuit is made of: parts, in series and in parallel, with their values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import ClassVar, Literal

from ..checking.scope import Datum
from ..language.names import Name
from ..problems import Text
from .drawn import Diagram, FigureKind, FigureText

Kind = Literal[
    "battery", "cell", "resistor", "variable resistor", "thermistor", "light-dependent resistor", "lamp", "motor",
    "switch", "ammeter", "voltmeter", "galvanometer", "fuse", "capacitor", "diode", "LED", "wire", "terminals",
]  # fmt: skip
Labels = Literal["names", "values", "both"]

#: What has an emf; what has a resistance of its own; what has none; what lets no steady current through.
SOURCES: frozenset[Kind] = frozenset(("battery", "cell"))
RESISTIVE: frozenset[Kind] = frozenset(
    ("resistor", "variable resistor", "thermistor", "light-dependent resistor", "lamp", "motor")
)
CONDUCTING: frozenset[Kind] = frozenset(("ammeter", "galvanometer", "fuse", "wire"))
BLOCKING: frozenset[Kind] = frozenset(("voltmeter", "capacitor", "terminals"))

#: More parts than this are no circuit of a paper; brackets stand in brackets so many times at most.
MOST_PARTS = 200
MOST_DEPTH = 12


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a circuit as typed.

    Attributes:
        number: its place among the parts of the circuit, from 0.
        kind: what it is.
        name: its name: "R_1", "S", "A_2"; None for none.
        text: what was typed.
        values: what stands in brackets behind it.
        open: of a switch, whether it is open.
        reversed: of a battery, whether it drives against the order in which it is typed.
        count: of a battery, the number of cells in series that are counted; 1 for a battery as a whole.
        backwards: whether the tree around it runs against the order in which it was typed.
    """

    number: int
    kind: Kind
    name: Name | None
    text: Text
    values: tuple[Text, ...] = ()
    open: bool = False
    reversed: bool = False
    count: int = 1
    backwards: bool = False

    @property
    def rising(self) -> bool:
        """Of a battery: whether its positive end is the later one in the tree around it."""
        return self.reversed == self.backwards


@dataclass(frozen=True, slots=True)
class InSeries:
    """Pieces one after the other; none for a wire.

    Attributes:
        pieces: in order.
    """

    pieces: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class InParallel:
    """Branches between the same two points.

    Attributes:
        branches: each of them, from the first point to the second.
        ends: the names of the two points, where the author gives them; empty otherwise.
    """

    branches: tuple[Piece, ...]
    ends: tuple[str, str] = ("", "")


@dataclass(frozen=True, slots=True)
class Across:
    """A piece with a voltmeter across it.

    Attributes:
        piece: what is measured.
        meter: the voltmeter.
    """

    piece: Piece
    meter: Part


Piece = Part | InSeries | InParallel | Across


def parts_of(piece: Piece) -> Iterator[Part]:
    """Every part of a piece, voltmeters included, in order."""
    match piece:
        case Part():
            yield piece
        case InSeries():
            for inner in piece.pieces:
                yield from parts_of(inner)
        case InParallel():
            for inner in piece.branches:
                yield from parts_of(inner)
        case Across():
            yield from parts_of(piece.piece)
            yield piece.meter


def turned(piece: Piece) -> Piece:
    """The piece from its other end."""
    match piece:
        case Part():
            return replace(piece, backwards=not piece.backwards)
        case InSeries():
            return InSeries(tuple(turned(inner) for inner in reversed(piece.pieces)))
        case InParallel():
            return InParallel(
                tuple(turned(inner) for inner in piece.branches), (piece.ends[1], piece.ends[0])
            )
        case Across():
            return Across(turned(piece.piece), replace(piece.meter, backwards=not piece.meter.backwards))


def in_series(*pieces: Piece) -> Piece:
    """Pieces in series as one, without series in series."""
    flat: list[Piece] = []
    for piece in pieces:
        flat += piece.pieces if isinstance(piece, InSeries) else (piece,)
    return flat[0] if len(flat) == 1 else InSeries(tuple(flat))


@dataclass(frozen=True, slots=True)
class Value:
    """A value of a part.

    Attributes:
        name: its symbol; None for a bare number.
        datum: the value; None where it is not known.
    """

    name: Name | None
    datum: Datum | None


@dataclass(frozen=True, slots=True)
class Ratings:
    """The values of a part.

    Attributes:
        emf: of a battery; None for what has none.
        resistance: the internal one of a battery, the own one of anything else; None for none at all.
    """

    emf: Value | None = None
    resistance: Value | None = None


@dataclass(frozen=True, slots=True)
class Branch:
    """A line of a circuit that is given by its nodes.

    Attributes:
        start, end: the nodes.
        piece: what lies between, from the first to the second.
    """

    start: Text
    end: Text
    piece: Piece


@dataclass(frozen=True, slots=True)
class Route:
    """A branch with its way over the page.

    Attributes:
        start, end: its nodes.
        piece: what lies between, from the first to the second.
        points: the way, in steps of a grid to the right and upwards.
        along: on which stretch of it the parts stand, from 0.
    """

    start: str
    end: str
    piece: Piece
    points: tuple[tuple[Fraction, Fraction], ...]
    along: int = 0


@dataclass(frozen=True, slots=True)
class CircuitText(FigureText):
    """What an author says of a circuit.

    Attributes:
        lines: the loop in one text, or a branch between two nodes in each.
        at: the places of nodes in steps of a grid.
        names: names of quantities, each with the words that say what it is.
        labels: `names`, `values` or `both`; None where not said.
        currents: `yes`, `no`, or the names of the currents whose arrows are drawn; None where not said.
        nodes: whether the nodes have their letters; None where not said.
    """

    KIND: ClassVar[FigureKind] = "circuit"

    #: All its parts may stand in one line.
    LONGER: ClassVar[int] = 20

    lines: tuple[Text, ...] = ()
    at: tuple[tuple[Text, Text], ...] = ()
    names: tuple[tuple[Text, Text], ...] = ()
    labels: Text | None = None
    currents: Text | None = None
    nodes: Text | None = None


@dataclass(frozen=True, slots=True)
class Current:
    """An arrow beside a part.

    Attributes:
        name: the symbol of the current.
        datum: the current, positive in the order in which its part is typed; None where it is not known.
    """

    name: Name
    datum: Datum | None


@dataclass(frozen=True, slots=True)
class CircuitDiagram(Diagram):
    """A circuit.

    Attributes:
        loop: two rows of a closed loop, the upper one from left to right and the lower one from left to right as
            well; None where the nodes have places of their own.
        routes: the branches between nodes with places of their own; empty for a loop.
        ratings: the values of each part, by its number.
        currents: the arrows, by the number of their part.
        labels: what stands beside a part.
        nodes: whether nodes have their letters.
    """

    KIND: ClassVar[FigureKind] = "circuit"

    loop: tuple[Piece, Piece] | None
    routes: tuple[Route, ...] = ()
    ratings: Mapping[int, Ratings] = field(default_factory=dict)
    currents: Mapping[int, Current] = field(default_factory=dict)
    labels: Labels = "both"
    nodes: bool = True

    def parts(self) -> Iterator[Part]:
        """Every part, in the order of the drawing."""
        pieces = self.loop if self.loop is not None else (route.piece for route in self.routes)
        for piece in pieces:
            yield from parts_of(piece)
