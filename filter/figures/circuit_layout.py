"""Pieces of a circuit laid out along a line: how much room each takes, and where its parts stand."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from physcalc.figures.circuit_parts import Across, CircuitDiagram, InParallel, InSeries, Part, Piece

from .board import Board, beside, centred
from .circuit_labels import Runs, current_runs, is_battery, label_of, value_runs
from .circuit_symbols import ROUND, Symbol, put_symbol, symbol_of
from .figure import Look
from .letters import ABOVE, BELOW, width_of
from .picture import DASHED, LABEL_SIZE, POINT, Label, Pen, Point

WIRE = Pen(0.35)
#: The wire on each side of a symbol at least, and where an arrow stands on it.
LEAD = 3.2
LEAD_ARROW = 4.6
#: What is kept free on each side of a label, and between rows.
SIDE = 1.5
GAP = 2.2
#: How far a label stands from its symbol, and how high a line of letters is.
OFF = 1.0
LETTERS = (ABOVE + BELOW) * LABEL_SIZE * POINT
#: From a bus to what stands on its branches, and to what stands before it.
BUS = 2.0
#: From the tap of a voltmeter to what it measures, and to what stands before it.
TAP = 1.6
OUTSIDE = 2.0
#: The dashed box around a battery.
BOX = 1.6
_DOT = 0.65
#: Joints of wires that would lie closer than this are one.
_CLOSE = 5.0


@dataclass(frozen=True, slots=True)
class Room:
    """The room that a piece takes.

    Attributes:
        width: along the wire.
        above, below: on both sides of it.
    """

    width: float
    above: float
    below: float

    def turned_over(self) -> Room:
        """The room with its two sides exchanged."""
        return Room(self.width, self.below, self.above)


@dataclass(frozen=True, slots=True)
class Frame:
    """A line on the page along which a piece is laid out.

    Attributes:
        origin: where it begins.
        turn: its direction in degrees, above −90 and up to 90.
    """

    origin: Point = (0.0, 0.0)
    turn: float = 0.0

    def at(self, x: float, y: float) -> Point:
        """A point so far along the line and so far to its left."""
        cosine, sine = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        return self.origin[0] + x * cosine - y * sine, self.origin[1] + x * sine + y * cosine


class Layout:
    """Measures and draws the pieces of one circuit."""

    def __init__(self, board: Board, diagram: CircuitDiagram, look: Look, split: bool = False) -> None:
        self.board, self.diagram, self.look, self.split = board, diagram, look, split
        self.frame = Frame()

    # Room.

    def room(self, piece: Piece, side: int) -> Room:
        """The room of a piece whose labels stand above the wire (1) or below it (−1)."""
        match piece:
            case Part():
                room = self._battery_room(piece) if is_battery(piece) else self._part_room(piece)
                return room if side > 0 else room.turned_over()
            case InSeries():
                rooms = [self.room(inner, side) for inner in piece.pieces]
                return Room(
                    sum(room.width for room in rooms),
                    max((room.above for room in rooms), default=0.5),
                    max((room.below for room in rooms), default=0.5),
                )
            case InParallel():
                heights = self.stack(piece.branches, side)
                first, last = self.room(piece.branches[0], side), self.room(piece.branches[-1], side)
                middle = _middle(heights)
                width = max(self.room(branch, side).width for branch in piece.branches)
                return Room(width + 4 * BUS, first.above - middle, middle - heights[-1] + last.below)
            case Across(piece=InParallel()):
                return self.room(as_branch(piece, side), side)
            case Across():
                inner = self.room(piece.piece, side)
                deep = (
                    (inner.below if side > 0 else inner.above)
                    + GAP
                    + 2 * ROUND
                    + self._meter_letters(piece.meter)
                )
                width = max(inner.width, 2 * ROUND + 4) + 2 * (TAP + OUTSIDE)
                return Room(width, inner.above, deep) if side > 0 else Room(width, deep, inner.below)

    def stack(self, branches: Sequence[Piece], side: int, least: float = 0.0) -> list[float]:
        """The heights of branches over one another, the first one at 0, the others below it."""
        heights = [0.0]
        rooms = [self.room(branch, side) for branch in branches]
        for upper, lower in pairwise(rooms):
            heights.append(heights[-1] - max(upper.below + GAP + lower.above, least))
        return heights

    def _lead(self, part: Part) -> float:
        return LEAD_ARROW if part.number in self.diagram.currents else LEAD

    def _beyond(self, runs: Runs) -> float:
        """The height of a label beside a symbol; nothing for none."""
        return OFF + LETTERS if runs else 0.0

    def _part_room(self, part: Part) -> Room:
        if part.kind == "wire":
            return Room(6.0, 0.5, 0.5)
        symbol, label = symbol_of(part), label_of(part, self.diagram, self.look)
        current = current_runs(part, self.diagram, self.look)
        upper, lower = self._two(label.whole, label.name, label.value)
        width = max(width_of(runs, LABEL_SIZE) for runs in (upper, lower, current))
        return Room(
            max(symbol.length + 2 * self._lead(part), width + 2 * SIDE),
            symbol.above + self._beyond(upper),
            symbol.below + self._beyond(lower) + self._beyond(current),
        )

    def _two(self, whole: Runs, name: Runs, value: Runs) -> tuple[Runs, Runs]:
        """What stands on the side of the label, and on the other one."""
        return (name, value) if self.split and name else (whole, ())

    def _meter_letters(self, part: Part) -> float:
        return self._beyond(label_of(part, self.diagram, self.look).whole)

    def _pieces_of_battery(self, part: Part) -> list[tuple[Symbol, Runs, float]]:
        """The cells and the internal resistance, each with its label and the width of its place."""
        rating = self.diagram.ratings[part.number]
        name = label_of(part, self.diagram, self.look).whole if part.name is not None else ()
        emf = value_runs(rating.emf, self.diagram, self.look) or name
        out = [(symbol_of(part), emf, 0.0)]
        if rating.resistance is not None:
            out.append((_resistor(), value_runs(rating.resistance, self.diagram, self.look), 0.0))
        return [
            (symbol, runs, max(symbol.length + 3.0, width_of(runs, LABEL_SIZE) + 2 * SIDE))
            for symbol, runs, _ in out
        ]

    def _battery_room(self, part: Part) -> Room:
        pieces = self._pieces_of_battery(part)
        boxed = BOX if len(pieces) > 1 else 0.0
        current = current_runs(part, self.diagram, self.look)
        width = sum(wide for _, _, wide in pieces) + 2 * boxed + 2 * self._lead(part) - (0 if boxed else 3.0)
        tall = max(symbol.above for symbol, _, _ in pieces)
        return Room(
            max(width, width_of(current, LABEL_SIZE) + 2 * SIDE),
            tall + max(self._beyond(runs) for _, runs, _ in pieces) + boxed,
            tall + boxed + self._beyond(current),
        )

    # Drawing.

    def draw(self, piece: Piece, start: float, end: float, y: float, side: int) -> None:
        """A piece on a line of the frame, from one place to another; what is longer than it is wire."""
        match piece:
            case Part():
                self._part(piece, start, end, y, side)
            case InSeries():
                rooms = [self.room(inner, side) for inner in piece.pieces]
                more = (end - start - sum(room.width for room in rooms)) / max(1, len(rooms))
                if not rooms:
                    self.wire((start, y), (end, y))
                for inner, room in zip(piece.pieces, rooms, strict=True):
                    self.draw(inner, start, start + room.width + more, y, side)
                    start += room.width + more
            case InParallel():
                self._parallel(piece, start, end, y, side)
            case Across(piece=InParallel()):
                self._parallel(as_branch(piece, side), start, end, y, side)
            case Across():
                self._across(piece, start, end, y, side)

    def wire(self, *points: Point) -> None:
        """A wire through points of the frame."""
        self.board.line([self.frame.at(*point) for point in points], WIRE, role="wire")

    def dot(self, x: float, y: float) -> None:
        """A joint of wires."""
        self.board.dot(self.frame.at(x, y), _DOT, role="joint")

    def letters(self, runs: Runs, x: float, y: float, side: int, role: str) -> None:
        """A label whose nearest edge lies at a place, above it (1) or below."""
        if not runs:
            return
        if self.frame.turn == 0:
            place = centred(self.frame.at(x, y + LETTERS / 2 * side), runs)
            self.board.label(runs, [place], role=role)
            return
        # Beside a slanting branch: in the middle, or a little along it.
        turn = self.frame.turn + 90 * side
        spots = [self.frame.at(x + shift, y - side * OFF) for shift in (0.0, 4.0, -4.0, 8.0, -8.0)]
        self.board.label(
            runs, [one for spot in spots for one in beside(spot, runs, turn, LABEL_SIZE, OFF)], role=role
        )

    def _part(self, part: Part, start: float, end: float, y: float, side: int) -> None:
        middle = (start + end) / 2
        if is_battery(part):
            self._battery(part, start, end, y, side)
            return
        symbol = symbol_of(part)
        if part.kind == "wire":
            self.wire((start, y), (end, y))
        else:
            self._symbol(part, symbol, middle, y, part.backwards != part.reversed)
            self.wire((start, y), (middle - symbol.length / 2, y))
            self.wire((middle + symbol.length / 2, y), (end, y))
        label = label_of(part, self.diagram, self.look)
        upper, lower = self._two(label.whole, label.name, label.value)
        over, under = (symbol.above, symbol.below) if side > 0 else (symbol.below, symbol.above)
        self.letters(upper, middle, y + side * (over + OFF), side, f"label {part.number}")
        self.letters(lower, middle, y - side * (under + OFF), -side, f"value {part.number}")
        below = under + self._beyond(lower)
        self._current(part, (start + middle - symbol.length / 2) / 2, middle, y, below, side)

    def _symbol(self, part: Part, symbol: Symbol, x: float, y: float, flipped: bool) -> None:
        put_symbol(self.board, symbol, self.frame.at(x, y), self.frame.turn, flipped, f"symbol {part.number}")
        inside = label_of(part, self.diagram, self.look).inside
        if inside and symbol.rings:
            self.board.fixed(_inside(self.frame.at(x, y), inside, part))

    def _current(self, part: Part, arrow: float, x: float, y: float, below: float, side: int) -> None:
        runs = current_runs(part, self.diagram, self.look)
        if not runs:
            return
        # The total current flows as the battery drives it.
        back = part.backwards != (is_battery(part) and part.reversed)
        tip = self.frame.at(arrow + (-1.1 if back else 1.1), y)
        self.board.head(tip, self.frame.turn + (180 if back else 0), role=f"current {part.number}", size=2.2)
        if self.frame.turn == 0:
            self.letters(runs, x, y - side * (below + OFF), -side, f"current label {part.number}")
            return
        # Beside the arrow, on whichever side there is room.
        places = [
            place
            for way in (-side, side)
            for place in beside(
                self.frame.at(arrow, way * OFF), runs, self.frame.turn + 90 * way, LABEL_SIZE, OFF
            )
        ]
        self.board.label(runs, places, role=f"current label {part.number}")

    def _battery(self, part: Part, start: float, end: float, y: float, side: int) -> None:
        pieces = self._pieces_of_battery(part)
        if not part.rising:
            pieces.reverse()
        width = sum(wide for _, _, wide in pieces)
        place = (start + end - width) / 2
        tall = max(symbol.above for symbol, _, _ in pieces)
        reached = start
        first = place
        for symbol, runs, wide in pieces:
            middle = place + wide / 2
            flipped = not part.rising
            put_symbol(
                self.board,
                symbol,
                self.frame.at(middle, y),
                self.frame.turn,
                flipped,
                f"symbol {part.number}",
            )
            self.wire((reached, y), (middle - symbol.length / 2, y))
            reached = middle + symbol.length / 2
            self.letters(runs, middle, y + side * (tall + OFF), side, f"label {part.number}")
            place += wide
        self.wire((reached, y), (end, y))
        boxed = len(pieces) > 1
        if boxed:
            over, under = tall + OFF + LETTERS + 1.2, tall + BOX - 0.3
            top, bottom = (over, -under) if side > 0 else (under, -over)
            left, right = first - BOX / 2, place + BOX / 2
            corners = ((left, y + bottom), (right, y + bottom), (right, y + top), (left, y + top))
            points = [self.frame.at(*corner) for corner in corners]
            self.board.line(points, DASHED, closed=True, role=f"box {part.number}")
        below = tall + (BOX if boxed else 0.0)
        at = (start + first - (BOX / 2 if boxed else -1.5)) / 2
        self._current(part, at, (start + end) / 2, y, below, side)

    def _parallel(self, piece: InParallel, start: float, end: float, y: float, side: int) -> None:
        left, right = start + BUS, end - BUS
        heights = self.stack(piece.branches, side)
        top = y - _middle(heights)
        self.wire((start, y), (left, y))
        self.wire((right, y), (end, y))
        self.rails(piece, left, right, [top + height for height in heights], side, y)

    def rails(
        self,
        piece: InParallel,
        left: float,
        right: float,
        heights: Sequence[float],
        side: int,
        y: float | None,
    ) -> None:
        """Branches between two upright wires, with what the branches meet at a height outside, if they do."""
        for x in (left, right):
            self.wire((x, heights[0]), (x, heights[-1]))
            for joint in {*heights[1:-1], *([] if y is None else [y])}:
                self.dot(x, joint)
        for branch, height in zip(piece.branches, heights, strict=True):
            self.draw(branch, left, right, height, side)
        if self.diagram.nodes and piece.ends[0]:
            at = y if y is not None else heights[len(heights) // 2] if len(heights) > 2 else None
            for x, letter, way in ((left, piece.ends[0], 180.0), (right, piece.ends[1], 0.0)):
                if at is not None:
                    self.node(letter, x, at, way)

    def node(self, letter: str, x: float, y: float, way: float) -> None:
        """The letter of a node, once."""
        from .letters import runs_of_text

        role = f"node {letter}"
        if any(wish == role for wish in self._named):
            return
        self._named.append(role)
        runs = runs_of_text(letter)
        first = way + self.frame.turn
        places = [
            place for turn in (0, 45, -45) for place in beside(self.frame.at(x, y), runs, first + turn)[:1]
        ]
        places += beside(self.frame.at(x, y), runs, first)
        self.board.label(runs, places, role=role)

    @property
    def _named(self) -> list[str]:
        if not hasattr(self, "_roles"):
            self._roles: list[str] = []
        return self._roles

    def _across(self, piece: Across, start: float, end: float, y: float, side: int) -> None:
        inner, half = self.room(piece.piece, side), self.room(piece, side).width / 2
        # The taps stand close to what is measured; what is over is wire outside.
        half -= TAP + OUTSIDE
        left, right = (start + end) / 2 - half, (start + end) / 2 + half
        self.wire((start, y), (left, y))
        self.wire((right, y), (end, y))
        self.draw(piece.piece, left, right, y, side)
        deep = (inner.below if side > 0 else inner.above) + GAP + ROUND
        level, middle = y - side * deep, (start + end) / 2
        symbol = symbol_of(piece.meter)
        self._symbol(piece.meter, symbol, middle, level, piece.meter.backwards)
        self.wire((left, y), (left, level), (middle - symbol.length / 2, level))
        self.wire((right, y), (right, level), (middle + symbol.length / 2, level))
        self.dot(left, y)
        self.dot(right, y)
        label = label_of(piece.meter, self.diagram, self.look)
        self.letters(label.whole, middle, level - side * (ROUND + OFF), -side, f"label {piece.meter.number}")


def _middle(heights: Sequence[float]) -> float:
    """Where wires from outside meet branches that stand at heights: in the middle, or at a branch close to it."""
    middle = (heights[0] + heights[-1]) / 2
    near = min(heights, key=lambda height: abs(height - middle))
    return near if abs(near - middle) < _CLOSE else middle


def as_branch(piece: Across, side: int) -> InParallel:
    """Branches with a voltmeter across them as one more branch, outside."""
    assert isinstance(piece.piece, InParallel)
    branches = piece.piece.branches
    ordered = (*branches, piece.meter) if side > 0 else (piece.meter, *branches)
    return InParallel(ordered, piece.piece.ends)


def _resistor() -> Symbol:
    from physcalc.problems import Text

    return symbol_of(Part(0, "resistor", None, Text("")))


def _inside(at: Point, runs: Runs, part: Part) -> Label:
    label = centred(at, runs)
    return Label(label.at, label.runs, label.anchor, label.size, False, f"inside {part.number}")
