"""Symbols of the parts of circuits (IEC 60617), as lines and circles of ours: the door of schemdraw."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache

from physcalc.figures.circuit_parts import Part

from .board import Board, angle
from .picture import FINE, INK, Pen, Point

#: Millimetres in a unit of schemdraw's: a resistor is 8 mm long.
UNIT = 8.0
#: The radius of a meter, a lamp and a motor.
ROUND = 0.5 * UNIT
#: The pen of symbols, and that of the arrow through one.
_PEN = Pen(0.35)
_CONTACT = 0.8

#: For each kind the class of schemdraw's symbol.
_CLASSES = {
    "resistor": "ResistorIEC", "variable resistor": "ResistorVarIEC", "thermistor": "Thermistor",
    "light-dependent resistor": "PhotoresistorIEC", "lamp": "Lamp2", "motor": "Motor", "fuse": "FuseIEC",
    "ammeter": "MeterA", "voltmeter": "MeterV", "galvanometer": "MeterA", "capacitor": "Capacitor", "diode": "Diode",
    "LED": "LED", "switch": "Switch", "cell": "BatteryCell", "battery": "Battery",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line of a symbol.

    Attributes:
        points: from its middle, in millimetres, the wire along x.
        closed: whether it ends where it begins.
        head: whether it ends in an arrow's head.
    """

    points: tuple[Point, ...]
    closed: bool = False
    head: bool = False


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol, its wire along x, its middle at the origin.

    Attributes:
        length: how far apart the wires end that lead to it.
        above, below: how far it reaches above the wire and below it.
        strokes: its lines.
        rings: its circles, each with its radius.
        letter: what stands inside; empty for nothing.
    """

    length: float
    above: float
    below: float
    strokes: tuple[Stroke, ...]
    rings: tuple[tuple[Point, float], ...] = ()
    letter: str = ""


def symbol_of(part: Part) -> Symbol:
    """The symbol of a part; that of a battery is the one of its cells, the positive end on the right."""
    cells = min(max(part.count, 1), 6)
    return _symbol(part.kind, part.open, cells if part.kind in ("battery", "cell") else 1)


@lru_cache(maxsize=64)
def _symbol(kind: str, open_: bool, cells: int) -> Symbol:
    if kind == "wire":
        return Symbol(0.0, 0.0, 0.0, ())
    if kind == "terminals":
        half = 5.0
        ends = (((-half, 0.0), _CONTACT), ((half, 0.0), _CONTACT))
        return Symbol(2 * (half + _CONTACT), _CONTACT, _CONTACT, (), ends)
    if cells > 1:
        kind = "cell"
    strokes, rings = _drawn(kind)
    if cells > 1:
        step = 0.375 * UNIT
        strokes = [
            Stroke(tuple((x + n * step, y) for x, y in stroke.points))
            for n in range(cells)
            for stroke in strokes
        ]
    if kind == "switch":
        # The contacts first; a closed switch joins them.
        (left, _), (right, _) = rings[0], rings[1]
        rings = [(left, _CONTACT), (right, _CONTACT)]
        strokes = (
            [Stroke(((left[0] + 0.75 * _CONTACT, 0.6 * _CONTACT), (right[0] - 1.0, 0.42 * UNIT)))]
            if open_
            else [Stroke(((left[0] + _CONTACT, 0.0), (right[0] - _CONTACT, 0.0)))]
        )
    xs = [x for stroke in strokes if not stroke.head for x, _ in stroke.points]
    xs += [centre[0] + way * radius for centre, radius in rings for way in (-1, 1)]
    ys = [y for stroke in strokes for _, y in stroke.points]
    ys += [centre[1] + way * radius for centre, radius in rings for way in (-1, 1)]
    left_end, right_end = min(xs), max(xs)
    middle = (left_end + right_end) / 2
    # schemdraw has the positive end first.
    way = -1.0 if kind in ("battery", "cell") else 1.0

    def moved(point: Point) -> Point:
        return way * (point[0] - middle), point[1]

    return Symbol(
        right_end - left_end,
        max(ys),
        -min(ys),
        tuple(Stroke(tuple(map(moved, one.points)), one.closed, one.head) for one in strokes),
        tuple((moved(centre), radius) for centre, radius in rings),
        {"ammeter": "A", "voltmeter": "V", "galvanometer": "G", "motor": "M"}.get(kind, ""),
    )


def _drawn(kind: str) -> tuple[list[Stroke], list[tuple[Point, float]]]:
    """The lines and circles of a symbol of schemdraw's, in millimetres, without the wires that lead to it."""
    # Here: only a document with a circuit needs it, and it draws nothing itself.
    from schemdraw import elements, segments

    strokes: list[Stroke] = []
    rings: list[tuple[Point, float]] = []
    for segment in getattr(elements, _CLASSES[kind])().segments:
        if isinstance(segment, segments.SegmentCircle):
            centre = (float(segment.center[0]) * UNIT, float(segment.center[1]) * UNIT)
            rings.append((centre, float(segment.radius) * UNIT))
        elif isinstance(segment, segments.SegmentPoly):
            corners = tuple((float(x) * UNIT, float(y) * UNIT) for x, y in segment.verts)
            strokes.append(Stroke(corners, closed=True))
        elif isinstance(segment, segments.Segment):
            run: list[Point] = []
            for x, y in [*segment.path, (math.nan, math.nan)]:
                if math.isnan(x):
                    # A single point is where a wire ends.
                    if len(set(run)) > 1:
                        closed = run[0] == run[-1]
                        points = tuple(run[:-1] if closed else run)
                        strokes.append(Stroke(points, closed, bool(segment.arrow)))
                    run = []
                else:
                    run.append((float(x) * UNIT, float(y) * UNIT))
    return strokes, rings


def put_symbol(board: Board, symbol: Symbol, at: Point, turn: float, flipped: bool, role: str) -> None:
    """Draws a symbol.

    Args:
        board: where.
        symbol: the symbol.
        at: where its middle lies.
        turn: the direction of its wire, in degrees.
        flipped: whether it is turned end for end.
        role: its role.
    """
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    way = -1.0 if flipped else 1.0

    def placed(point: Point) -> Point:
        x, y = way * point[0], point[1]
        return at[0] + x * cosine - y * sine, at[1] + x * sine + y * cosine

    for stroke in symbol.strokes:
        points = tuple(map(placed, stroke.points))
        board.line(points, FINE if stroke.head else _PEN, closed=stroke.closed, role=role)
        if stroke.head:
            board.head(points[-1], angle(points[-2], points[-1]), role=role, size=1.7)
    for centre, radius in symbol.rings:
        board.circle(placed(centre), radius, INK if radius < 1 else _PEN, role=role)
