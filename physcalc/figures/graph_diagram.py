"""Graphs as data: what an author says of one, and what it shows."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar, Literal

from ..checking.scope import Datum
from ..exact import Real
from ..language import tree as t
from ..language.names import Name
from ..problems import Span, Text
from ..units import Unit
from .drawn import Diagram, FigureKind, FigureText
from .fit import LineFit

#: Quantities that a graph can give, by the keys that name them.
FOUND_KEYS = ("gradient", "intercept", "x intercept", "r squared", "steepest", "shallowest", "area")
FoundKind = Literal["gradient", "intercept", "x intercept", "r squared", "steepest", "shallowest", "area"]
#: How measured points are marked.
MARKS = ("crosses", "dots", "circles", "squares")
Mark = Literal["crosses", "dots", "circles", "squares"]

#: A place on a graph, in the units of its axes.
Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True)
class SeriesText:
    """What an author says of one set of data, or of one motion.

    Attributes:
        span: where it begins.
        name: its label; None for none.
        points: measured data, a heading first where there is one; each line a text, or one text with semicolons.
        pieces: `0 s to 4 s` with `0 m/s to 8 m/s`, `constant` or a formula.
        curves: `s = u t for t from 0 s to 5 s`.
        fit: `line`, `line through origin`, `unweighted line`, with or without uncertainty; None for none.
        found: the quantities that it is to give: a key of `FOUND_KEYS` and a phrase as behind `find`.
        triangle: whether the gradient triangle is drawn, or from where to where; None where not said.
        worst: whether the worst lines are drawn; None where not said.
        mark: how points are marked; None where not said.
        table: whether the data stand in a table as well; None where not said.
    """

    span: Span
    name: Text | None = None
    points: tuple[Text, ...] = ()
    pieces: tuple[tuple[Text, Text], ...] = ()
    curves: tuple[Text, ...] = ()
    fit: Text | None = None
    found: tuple[tuple[FoundKind, Text], ...] = ()
    triangle: Text | None = None
    worst: Text | None = None
    mark: Text | None = None
    table: Text | None = None


@dataclass(frozen=True, slots=True)
class GraphText(FigureText):
    """What an author says of a graph.

    Attributes:
        graph: what is plotted: `v in m/s against t in s`.
        series: what is drawn, at least one.
        x_axis, y_axis: their ranges, `0 s to 10 s`; None for what fits the data.
    """

    KIND: ClassVar[FigureKind] = "graph"

    graph: Text
    series: tuple[SeriesText, ...]
    x_axis: Text | None = None
    y_axis: Text | None = None


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis.

    Attributes:
        label: the quantity, a name or an expression such as T².
        unit: its unit.
        low, high: the range that the author asks, in that unit; None for what fits the data.
        zero: whether zero must lie on it.
    """

    label: t.Expr
    unit: Unit
    low: Fraction | None = None
    high: Fraction | None = None
    zero: bool = False


@dataclass(frozen=True, slots=True)
class Point:
    """A measured point, in the units of the axes.

    Attributes:
        x, y: where it lies.
        x_bar, y_bar: half the length of its error bars; None for none.
        x_text, y_text: what was typed.
    """

    x: Fraction
    y: Fraction
    x_bar: Fraction | None
    y_bar: Fraction | None
    x_text: Text
    y_text: Text


@dataclass(frozen=True, slots=True)
class Curve:
    """y as a formula of x.

    Attributes:
        tree: the formula's right side.
        variable: the name of x.
        values: the values of its other names, in coherent SI units.
    """

    tree: t.Expr
    variable: Name
    values: tuple[tuple[Name, Real], ...]


@dataclass(frozen=True, slots=True)
class Stretch:
    """A straight piece of a graph, or a curve.

    Attributes:
        start, end: the stretch of the x axis that it covers.
        lines: places along it, in order; in several parts where the formula has no value between them.
        curve: its formula; None for a straight piece.
        text: what was typed for its stretch.
    """

    start: Fraction
    end: Fraction
    lines: tuple[tuple[Pair, ...], ...]
    curve: Curve | None
    text: Text

    @property
    def first(self) -> Pair:
        """Where it begins."""
        return self.lines[0][0]

    @property
    def last(self) -> Pair:
        """Where it ends."""
        return self.lines[-1][-1]


@dataclass(frozen=True, slots=True)
class Found:
    """A quantity that a graph gives.

    Attributes:
        kind: what it is of the graph.
        datum: its name and value.
        stretch: the stretch of the x axis that an area lies above; None for the whole graph and for other kinds.
    """

    kind: FoundKind
    datum: Datum
    stretch: Pair | None = None


@dataclass(frozen=True, slots=True)
class Table:
    """Measured data as they are printed.

    Attributes:
        heads: the quantity of each column with its unit, and the uncertainty of all its values (in that unit, or in
            per cent) where the heading says one.
        rows: the values of each line, in these units.
    """

    heads: tuple[tuple[Name, Unit, t.Printed | None], ...]
    rows: tuple[tuple[t.Printed, ...], ...]


@dataclass(frozen=True, slots=True)
class Series:
    """One set of data, or one motion.

    Attributes:
        label: its label as an expression (a name); None for none.
        words: its label in words; empty for none.
        points: its measured points.
        stretches: its pieces and curves, in the order of x.
        joined: whether the stretches are pieces of one graph, so that jumps between them are marked.
        fit: the line of best fit; None for none.
        worst: gradient and intercept of the worst lines that are drawn.
        triangle: the ends of the gradient triangle on its line; None for none.
        tangents: places with the gradient of the curve there, drawn as tangents.
        found: the quantities that it gives.
        mark: how its points are marked.
        table: its data, where they are printed as well; None where not.
    """

    label: t.Expr | None = None
    words: str = ""
    points: tuple[Point, ...] = ()
    stretches: tuple[Stretch, ...] = ()
    joined: bool = False
    fit: LineFit | None = None
    worst: tuple[Pair, ...] = ()
    triangle: tuple[Pair, Pair] | Literal["fitting"] | None = None
    tangents: tuple[tuple[Pair, Fraction], ...] = ()
    found: tuple[Found, ...] = ()
    mark: Mark = "crosses"
    table: Table | None = None

    def gives(self, kind: FoundKind) -> bool:
        """Whether a quantity of a kind is found from it."""
        return any(found.kind == kind for found in self.found)


@dataclass(frozen=True, slots=True)
class GraphDiagram(Diagram):
    """A graph.

    Attributes:
        x, y: its axes.
        series: what is drawn.
    """

    KIND: ClassVar[FigureKind] = "graph"

    x: Axis
    y: Axis
    series: tuple[Series, ...]
