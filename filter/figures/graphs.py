"""The picture of a graph."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from physcalc.exact import ten_to
from physcalc.figures.graph_diagram import Axis, GraphDiagram, Pair, Point, Series
from physcalc.language import tree as t
from physcalc.language.plain import with_money

from .board import Board, around, beside, between
from .figure import Figure, Look
from .graph_paper import NUMBER_SIZE, axes, runs_of_expression, squares
from .graph_scales import Scale, places_of, scale_for
from .graph_words import alternative, note
from .letters import runs_of_text, width_of
from .picture import FINE, INK, LABEL_SIZE, Box, Dash, Label, Pen, Run
from .picture import Point as Place
from .words import word

#: Squares of 1 cm that fit on a page: across, and upwards.
MOST_ACROSS, MOST_UP = 12, 10
#: Half the size of a mark, and half the cap of an error bar, in millimetres.
HALF_MARK = 1.1
HALF_CAP = 0.8
#: Names of series that are no wider may stand in the margin at the right.
_MARGIN = 12.0
#: Lines of one graph are told apart by their dashes.
_DASHES: tuple[Dash, ...] = ("", "dashed", "dotted")
_LINE = Pen(0.45)
#: The grey of an area.
_SHADE = 0.86
#: Where on its leg a label of the triangle may stand.
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
_LEG = Pen(0.22, "dashed")
#: A line is lengthened to the x axis by so many times the reach of its points at most.
_FARTHEST = 3
#: A part of a curve that is so many times as high as most of it does not make the scale.
_RUNAWAY = 4


def graph(diagram: GraphDiagram, look: Look) -> Figure:
    """The picture of a graph, or the blank paper for it.

    Args:
        diagram: the graph.
        look: how figures look; its choice is "grid", "axes", "points" or "drawn".
    """
    board = Board()
    if look.choice == "grid":
        squares(board, 10.0 * MOST_ACROSS, 10.0 * MOST_UP, 10.0, 10.0)
        return Figure(board.picture(), word("graph-grid", look.lang))
    x, y = scales(diagram)
    drawing = _Drawing(board, diagram, x, y, look)
    if look.choice == "drawn" and drawing.answers:
        drawing.areas()  # First, so that the squares are seen upon them.
    squares(board, x.length, y.length, x.side, y.side)
    axes(board, x, y, diagram.x, diagram.y, look.conventions)
    if look.choice != "axes":
        lines = [series for series in diagram.series if series.stretches]
        for series in diagram.series:
            drawing.series(series, lines.index(series) if series.stretches else 0)
    return Figure(board.picture(), alternative(diagram, look), (), note(diagram, look))


def scales(diagram: GraphDiagram) -> tuple[Scale, Scale]:
    """The scales of both axes."""
    across = [value for series in diagram.series for value in _across(series, diagram.x.zero)]
    up = [value for series in diagram.series for value in _up(series, diagram.x.zero)]
    return scale_for(diagram.x, across, MOST_ACROSS), scale_for(diagram.y, up, MOST_UP, headroom=True)


def _across(series: Series, zero: bool) -> Iterator[Fraction]:
    for point in series.points:
        yield from _with_bar(point.x, point.x_bar)
    for stretch in series.stretches:
        yield from (stretch.start, stretch.end)
    if zero:
        yield Fraction(0)
    yield from _crossing(series)
    if isinstance(series.triangle, tuple):
        yield from (end[0] for end in series.triangle)


def _up(series: Series, zero: bool) -> Iterator[Fraction]:
    for point in series.points:
        yield from _with_bar(point.y, point.y_bar)
    for stretch in series.stretches:
        heights = sorted((height for line in stretch.lines for _, height in line), key=abs)
        most = abs(heights[len(heights) * 9 // 10 - 1]) * _RUNAWAY if stretch.curve is not None else None
        yield from (height for height in heights if not most or abs(height) <= most)
    for gradient, intercept in _lines(series):
        yield from (gradient * end + intercept for end in _ends(series, zero))
    if isinstance(series.triangle, tuple):
        yield from (end[1] for end in series.triangle)


def _with_bar(value: Fraction, bar: Fraction | None) -> tuple[Fraction, Fraction]:
    """The ends of an error bar that a scale holds: one that reaches over zero needs no squares beyond it."""
    low, high = value - (bar or 0), value + (bar or 0)
    return (max(low, Fraction(0)) if value >= 0 else low), (min(high, Fraction(0)) if value < 0 else high)


def _lines(series: Series) -> Iterator[Pair]:
    if series.fit is not None:
        yield series.fit.gradient, series.fit.intercept
    yield from series.worst


def _ends(series: Series, zero: bool) -> tuple[Fraction, Fraction]:
    """From where to where a line through points is drawn: across all, and to an axis where it is read there."""
    values = [point.x for point in series.points] + ([Fraction(0)] if zero else [])
    values += _crossing(series)
    return min(values), max(values)


def _crossing(series: Series) -> list[Fraction]:
    """Where the line of best fit meets the x axis, if that is asked and no farther off than can be drawn."""
    if series.fit is None or not series.fit.gradient or not series.gives("x intercept"):
        return []
    place = -series.fit.intercept / series.fit.gradient
    low, high = min(point.x for point in series.points), max(point.x for point in series.points)
    span = max(high - low, abs(low), abs(high))
    return [place] if low - _FARTHEST * span <= place <= high + _FARTHEST * span else []


class _Drawing:
    def __init__(self, board: Board, diagram: GraphDiagram, x: Scale, y: Scale, look: Look) -> None:
        self.board, self.diagram, self.x, self.y, self.look = board, diagram, x, y, look
        self.box = Box(0.0, 0.0, x.length, y.length)
        #: Whether what learners have to find is drawn as well.
        self.answers = look.edition != "paper"

    def place(self, pair: Pair) -> Place:
        return self.x.at(pair[0]), self.y.at(pair[1])

    def areas(self) -> None:
        """The areas that are asked, between graph and x axis."""
        for series in self.diagram.series:
            for found in series.found:
                if found.kind != "area":
                    continue
                low, high = found.stretch or (series.stretches[0].start, series.stretches[-1].end)
                for line in (line for stretch in series.stretches for line in stretch.lines):
                    part = [_between(one, other, low, high) for one, other in pairwise(line)]
                    pairs = [pair for ends in part if ends is not None for pair in ends]
                    if pairs:
                        base = [(pairs[-1][0], Fraction(0)), (pairs[0][0], Fraction(0))]
                        places = [self.inside(self.place(pair)) for pair in (*pairs, *base)]
                        self.board.line(places, None, closed=True, fill=_SHADE, role="area")

    def inside(self, place: Place) -> Place:
        return min(max(place[0], 0.0), self.x.length), min(max(place[1], 0.0), self.y.length)

    def series(self, series: Series, at: int) -> None:
        points_only = self.look.choice == "points" and bool(series.points)
        pen = replace(_LINE, dash=_DASHES[at % 3] if not series.points else "")
        end: Place | None = None
        for before, after in pairwise(series.stretches) if series.joined else ():
            if before.end == after.start and before.last != after.first:
                self.line((before.last, after.first), Pen(0.3, "dotted"), "jump")
        for stretch in series.stretches:
            for line in stretch.lines:
                shown = self.line(line, pen, "curve" if stretch.curve is not None else "piece")
                end = shown[-1] if shown else end
        if not points_only:
            for gradient, intercept in series.worst if self.answers else ():
                self.through(series, gradient, intercept, _LEG, "worst line")
            if series.fit is not None:
                shown = self.through(series, series.fit.gradient, series.fit.intercept, _LINE, "fit")
                end = shown[-1] if shown else end
        for point in series.points:
            self.bars(point)
        for point in series.points:
            self.mark(self.place((point.x, point.y)), series.mark)
        if series.points and end is None:
            last = max(series.points, key=lambda point: point.x)
            end = self.place((last.x, last.y))
        if self.answers and not points_only:
            for place, gradient in series.tangents:
                self.tangent(place, gradient)
            if series.triangle is not None:
                self.triangle(series)
        runs = self.label(series)
        if runs and end is not None:
            # A long name stands over its line rather than in the margin; where there is no room, farther back.
            first = 60 if width_of(runs, LABEL_SIZE) < _MARGIN else 130
            places = beside(end, runs, first)
            for back in (end, *self.along(series)):
                places += around(back, runs)
            self.board.label(runs, places, role="label series")

    def along(self, series: Series) -> Iterator[Place]:
        """Places on a series where its name may stand, from its end backwards."""
        pairs = [pair for stretch in series.stretches for line in stretch.lines for pair in line]
        pairs = pairs or sorted((point.x, point.y) for point in series.points)
        for share in (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1):
            place = self.place(pairs[int(share * (len(pairs) - 1))])
            if 0 <= place[1] <= self.y.length:
                yield place

    def label(self, series: Series) -> tuple[Run, ...]:
        if series.label is not None:
            return runs_of_expression(series.label, self.look.conventions)
        return runs_of_text(series.words)

    def line(self, pairs: Sequence[Pair], pen: Pen, role: str) -> list[Place]:
        """A line as far as it lies on the paper; returns the places of its parts."""
        shown: list[list[Place]] = []
        for one, other in pairwise(map(self.place, pairs)):
            part = clipped(one, other, self.box)
            if part is None:
                continue
            if shown and shown[-1][-1] == part[0]:
                shown[-1].append(part[1])
            else:
                shown.append([*part])
        for places in shown:
            self.board.line(places, pen, role=role)
        return [place for places in shown for place in places]

    def through(
        self, series: Series, gradient: Fraction, intercept: Fraction, pen: Pen, role: str
    ) -> list[Place]:
        ends = _ends(series, self.diagram.x.zero)
        return self.line([(end, gradient * end + intercept) for end in ends], pen, role)

    def bars(self, point: Point) -> None:
        for bar, upright in ((point.y_bar, True), (point.x_bar, False)):
            if not bar:
                continue
            pairs = [
                (point.x, point.y + s * bar) if upright else (point.x + s * bar, point.y) for s in (-1, 1)
            ]
            low, high = (self.place(pair) for pair in pairs)
            part = clipped(low, high, self.box)
            if part is None:
                continue
            self.board.line(part, FINE, role="bar")
            for end in {low, high} & set(part):
                cap = (
                    ((end[0] - HALF_CAP, end[1]), (end[0] + HALF_CAP, end[1]))
                    if upright
                    else ((end[0], end[1] - HALF_CAP), (end[0], end[1] + HALF_CAP))
                )
                self.board.line(cap, FINE, role="cap")

    def mark(self, at: Place, mark: str) -> None:
        (x, y), half = at, HALF_MARK
        match mark:
            case "dots":
                self.board.dot(at, 0.75, role="point")
            case "circles":
                self.board.circle(at, 0.9, INK, fill=1.0, role="point")
            case "squares":
                self.board.box(Box(x - 0.8, y - 0.8, x + 0.8, y + 0.8), INK, fill=1.0, role="point")
            case _:
                for turn in (1, -1):
                    ends = ((x - half, y - turn * half), (x + half, y + turn * half))
                    self.board.line(ends, INK, role="point")

    def tangent(self, place: Pair, gradient: Fraction) -> None:
        x, y = place
        ends = [(end, y + gradient * (end - x)) for end in (self.x.low, self.x.high)]
        self.line(ends, _LEG, "tangent")
        self.board.dot(self.place(place), 0.6, role="tangent point")

    # The gradient triangle.

    def triangle(self, series: Series) -> None:
        ends = series.triangle if isinstance(series.triangle, tuple) else self.fitting(series)
        if ends is None:
            return
        (x_1, y_1), (x_2, y_2) = ends
        start, end = self.place(ends[0]), self.place(ends[1])
        corner = (end[0], start[1])
        self.board.line((start, corner), _LEG, role="triangle run")
        self.board.line((corner, end), _LEG, role="triangle rise")
        below = 270 if y_2 >= y_1 else 90
        run = self.change(self.diagram.x, self.x, x_1, x_2)
        rise = self.change(self.diagram.y, self.y, y_1, y_2)
        self.board.label(run, self.alongside(start, corner, run, (below,)), role="label triangle")
        # Where it would stand over the edge of the squares, the label of the rise goes inside of the triangle.
        over = corner[0] + width_of(rise, LABEL_SIZE) + 2 > self.x.length
        sides = (180.0, 0.0) if over else (0.0, 180.0)
        self.board.label(rise, self.alongside(corner, end, rise, sides), role="label triangle")
        for at, pair, turn in ((start, ends[0], 180 - below / 3), (end, ends[1], below / 2)):
            runs = runs_of_text(self.reading(pair))
            places = [*beside(at, runs, turn, NUMBER_SIZE), *around(at, runs, NUMBER_SIZE)]
            for gap in (4.0, 7.0, 10.0):
                places += around(at, runs, NUMBER_SIZE, gap)
            self.board.label(runs, places, size=NUMBER_SIZE, role="reading")

    def alongside(self, start: Place, end: Place, runs: Sequence[Run], sides: Sequence[float]) -> list[Label]:
        """Places of a label along a leg of the triangle: in its middle first, on the first side first."""
        steps = [beside(between(start, end, share), runs, side) for side in sides for share in _SHARES]
        return [*(places[0] for places in steps), *(place for places in steps for place in places)]

    def fitting(self, series: Series) -> tuple[Pair, Pair] | None:
        """Two places on the line of best fit, above edges of squares, as far apart as readings are best taken."""
        assert series.fit is not None
        low, high = _ends(series, self.diagram.x.zero)
        for step in (self.x.step, self.x.reading * 2):
            inset = (high - low) / 12
            first, last = -(-(low + inset) // step), (high - inset) // step
            if (last - first) * step * 2 >= high - low:
                ends = first * step, last * step
                return (ends[0], series.fit.at(ends[0])), (ends[1], series.fit.at(ends[1]))
        return (low, series.fit.at(low)), (high, series.fit.at(high))

    def read(self, scale: Scale, value: Fraction) -> tuple[Fraction, str]:
        """A value as it is read off, to half a small square, and its number on the scale."""
        seen = round(value / scale.reading) * scale.reading
        places = places_of(scale.reading / ten_to(scale.power))
        return seen, scale.text(seen, self.look.conventions.style, places)

    def reading(self, pair: Pair) -> str:
        between = "; " if self.look.conventions.style.decimal == "," else ", "
        return f"({self.read(self.x, pair[0])[1]}{between}{self.read(self.y, pair[1])[1]})"

    def change(self, axis: Axis, scale: Scale, start: Fraction, end: Fraction) -> tuple[Run, ...]:
        """ "Δt = 4,0 s": a side of the triangle, as read off."""
        change = self.read(scale, end)[0] - self.read(scale, start)[0]
        style = self.look.conventions.style
        text = scale.text(change, style, places_of(scale.reading / ten_to(scale.power)))
        if scale.power:
            ten = "10" + str(scale.power).translate(str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻"))
            text += f"\u00a0×\u00a0{ten}"
        unit = axis.unit.text(self.look.conventions.unit_style)
        if (price := axis.unit.price) is not None:
            text = with_money(text, price, style)
        elif unit:
            text += ("\u00a0" if axis.unit.spaced else "") + unit
        name = runs_of_expression(axis.label, self.look.conventions)
        if not isinstance(axis.label, t.Sym):
            name = (Run("("), *name, Run(")"))
        return (Run("Δ"), *name, Run("\u00a0=\u00a0"), *runs_of_text(text))


def _between(one: Pair, other: Pair, low: Fraction, high: Fraction) -> tuple[Pair, Pair] | None:
    """The part of a straight line that lies between two values of x; None for none."""
    start, end = max(one[0], low), min(other[0], high)
    if start >= end:
        return None
    rate = (other[1] - one[1]) / (other[0] - one[0])
    return (start, one[1] + rate * (start - one[0])), (end, one[1] + rate * (end - one[0]))


def clipped(one: Place, other: Place, box: Box) -> tuple[Place, Place] | None:
    """The part of a line between two places that lies in a box (Liang and Barsky's algorithm); None for none."""
    dx, dy = other[0] - one[0], other[1] - one[1]
    low, high = 0.0, 1.0
    for start, step, least, most in ((one[0], dx, box.left, box.right), (one[1], dy, box.bottom, box.top)):
        if abs(step) < 1e-12:
            if not least - 1e-9 <= start <= most + 1e-9:
                return None
            continue
        first, last = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, first), min(high, last)
    if low > high + 1e-12:
        return None
    begin = one if low <= 0 else (one[0] + low * dx, one[1] + low * dy)
    end = other if high >= 1 else (one[0] + high * dx, one[1] + high * dy)
    return begin, end
