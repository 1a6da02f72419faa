"""Graphs: measured points with their line of best fit, motion in pieces, and curves of formulas.

Coordinates are kept in the units of the axes, as fractions, so the line of best fit is exact.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from ..checking.scope import Datum, Scope
from ..language.names import Name
from ..problems import Problem, Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_graphs import (
    GraphEmpty,
    GraphPointOutside,
    GraphValueEnormous,
    GraphValuesClose,
)
from ..units import ONE
from .drawn import Drawn
from .graph_axes import AxisMaking, amounts, read_axes
from .graph_diagram import (
    Axis,
    GraphDiagram,
    GraphText,
    Series,
)
from .graph_series import SeriesMaker, caught

#: A value that is so many times the next one makes a scale on which the rest cannot be told apart.
ENORMOUS = 1000
#: Values on an axis differ by this share of their size at least.
_CLOSEST = Fraction(1, 10**8)
#: More series than this cannot be told apart in black and white.
MOST_SERIES = 6


def graph(body: GraphText, scope: Scope) -> Drawn:
    """The graph that an author describes.

    Args:
        body: what is said.
        scope: what names mean there.

    Returns:
        The graph with the quantities that it gives; no graph where a part of it cannot be drawn.
    """
    problems: list[Problem] = []
    x, y = read_axes(body.graph, body.conventions)
    series: list[Series] = []
    for text in body.series[:MOST_SERIES]:
        maker = SeriesMaker(text, x, y, scope, problems)
        series += caught(maker.all, problems) or []
    for text in body.series[MOST_SERIES:]:
        form = f"at most {MOST_SERIES} series, or nobody could read the picture"
        problems.append(FigurePhraseUnreadable(text.span, "a series of this graph", "series", form))
    if any(problem.level != "note" for problem in problems):
        return Drawn(None, {}, tuple(problems))
    if not any(one.points or one.stretches for one in series):
        return Drawn(None, {}, (GraphEmpty(body.graph.span), *problems))
    x_axis = caught(lambda: _range(body.x_axis, x, scope), problems) or _plain(x)
    y_axis = caught(lambda: _range(body.y_axis, y, scope), problems) or _plain(y)
    if any(one.fit is not None and one.gives("intercept") for one in series):
        x_axis = replace(x_axis, zero=_holds_zero(x_axis))
    if any(one.joined or (one.fit is not None and one.gives("x intercept")) for one in series):
        y_axis = replace(y_axis, zero=_holds_zero(y_axis))
    if any(one.fit is not None and one.fit.through_origin for one in series):
        x_axis, y_axis = (replace(axis, zero=_holds_zero(axis)) for axis in (x_axis, y_axis))
    problems += _unfit(series, x, y, x_axis, y_axis, body)
    results: dict[Name, Datum] = {}
    for one in series:
        for found in one.found:
            results[found.datum.name] = found.datum
    failed = any(problem.level != "note" for problem in problems)
    diagram = None if failed else GraphDiagram(x_axis, y_axis, tuple(series))
    return Drawn(diagram, results, tuple(problems))


def _plain(axis: AxisMaking) -> Axis:
    return Axis(axis.tree, axis.unit or ONE)


def _holds_zero(axis: Axis) -> bool:
    """Whether an axis can hold zero: one whose range is asked does not always."""
    return axis.low is None or (axis.high is not None and axis.low <= 0 <= axis.high)


def _range(text: Text | None, axis: AxisMaking, scope: Scope) -> Axis:
    if text is None:
        return _plain(axis)
    low, separator, high = text.value.partition(" to ")
    form = "from the smaller value to the larger: 0 s to 10 s"
    if not separator or " to " in high:
        raise FigurePhraseUnreadable(text.span, "the range of an axis", text.value, form)
    ends = amounts(text.part(0, len(low)), text.part(len(low) + len(separator)), axis, scope)
    least, most = (axis.number(end) for end in ends)
    if least >= most or most - least < _CLOSEST * max(abs(least), abs(most)):
        raise FigurePhraseUnreadable(text.span, "the range of an axis", text.value, form)
    return Axis(axis.tree, axis.unit or ONE, least, most)


# What no scale can show.


def _unfit(
    series: Sequence[Series], x: AxisMaking, y: AxisMaking, x_axis: Axis, y_axis: Axis, body: GraphText
) -> Iterator[Problem]:
    for making, axis, pick in ((x, x_axis, 0), (y, y_axis, 1)):
        values = [value for one in series for value in _values(one, pick)]
        sizes = sorted(((abs(value), text) for value, text in values if value), key=lambda pair: pair[0])
        outside = next(
            (
                text
                for value, text in values
                if axis.low is not None and not axis.low <= value <= (axis.high or 0)
            ),
            None,
        )
        if outside is not None:
            yield GraphPointOutside(outside.span, outside.value, making.key)
            continue
        if axis.low is not None:
            continue
        if len(sizes) > 2 and sizes[-1][0] > ENORMOUS * sizes[-2][0]:
            text = sizes[-1][1]
            yield GraphValueEnormous(text.span, text.value, f"more than {ENORMOUS}")
            continue
        if len(values) > 1:
            low, high = min(value for value, _ in values), max(value for value, _ in values)
            if low != high and high - low < _CLOSEST * max(abs(low), abs(high)):
                yield GraphValuesClose(body.graph.span, making.key)


def _values(series: Series, pick: int) -> Iterator[tuple[Fraction, Text]]:
    for point in series.points:
        yield (point.x, point.x_text) if pick == 0 else (point.y, point.y_text)
    for stretch in series.stretches:
        if stretch.curve is None:
            yield stretch.first[pick], stretch.text
            yield stretch.last[pick], stretch.text
