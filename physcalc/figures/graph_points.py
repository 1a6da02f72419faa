"""Measured data: a table of typed values → points on the axes of a graph."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..checking.scope import Datum, Quantity, Scope
from ..checking.value import evaluate
from ..exact import Number, Real, RealError, sqrt
from ..language import tree as t
from ..language.names import NAME_PATTERN, Name, read_name
from ..language.phrases import read_typed
from ..language.statements import Conventions
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown
from ..problems.figures_graphs import (
    GraphColumnsUnmatched,
    GraphDimension,
    GraphPointsMany,
    GraphPointUnreadable,
)
from ..units import ONE, Unit, difference_of, read_unit, to_si
from .graph_axes import AxisMaking, beyond, unit_of_formula, with_names
from .graph_diagram import Point
from .reading import value_of

#: More points than this are too many for one picture.
MOST_POINTS = 2000

_HEAD = re.compile(
    rf"(?P<name>{NAME_PATTERN})"
    r"(?:\s+in\s+(?P<in>[^±]+?)|\s*/\s*(?P<over>[^±]+?)|\s*\((?P<bracket>[^)±]+)\))?"
    r"(?:\s*±\s*(?P<width>[^±]+?))?\s*"
)
_PERCENT = ["%"]


@dataclass(slots=True)
class _Column:
    """A column of the table.

    Attributes:
        name: its quantity.
        unit: its unit; None until one is known.
        width: the uncertainty of each of its values, as the heading says; None for none.
        cells: its values.
    """

    name: Name
    unit: Unit | None = None
    width: tuple[Number, Unit] | None = None
    cells: list[_Cell] | None = None


@dataclass(frozen=True, slots=True)
class _Cell:
    """A value of a table in coherent SI units, and its uncertainty."""

    text: Text
    value: Real
    off: Real | None


def read_points(
    lines: tuple[Text, ...],
    x: AxisMaking,
    y: AxisMaking,
    scope: Scope,
    problems: list[Problem],
) -> list[tuple[Name | None, list[Point]]]:
    """The points of a table: one set for each column that stands upwards, with its name where there are several.

    Args:
        lines: the lines, a heading first where there is one; or one text with semicolons between the pairs.
        x, y: the axes, whose units the data settle.
        scope: what names mean.
        problems: takes what is wrong with single lines.

    Raises:
        Problem: nothing of the table can be read.
    """
    if len(lines) == 1:
        lines = tuple(_pieces(lines[0], ";"))
    rows = [(line, _cells(line)) for line in lines]
    columns = _heading(rows[0], x, y, scope) if rows else None
    if columns is not None:
        rows = rows[1:]
    elif rows:
        columns = _named_by_axes(x, y, scope)
    if columns is None or not rows:
        return []
    if len(rows) > MOST_POINTS:
        problems.append(GraphPointsMany(rows[MOST_POINTS][0].span, MOST_POINTS))
        rows = rows[:MOST_POINTS]
    sound = []
    for line, cells in rows:
        if len(cells) == 1 and len(columns) > 1:
            problems.append(GraphPointUnreadable(line.span, line.value))
        elif len(cells) != len(columns):
            problems.append(GraphColumnsUnmatched(line.span, line.value, len(cells), len(columns)))
        else:
            sound.append(cells)
    for at, column in enumerate(columns):
        _fill(column, [cells[at] for cells in sound], scope, x.conventions)
    return _plotted(columns, x, y, scope)


def _pieces(text: Text, sign: str) -> list[Text]:
    pieces, start = [], 0
    for part in text.value.split(sign):
        pieces.append(text.part(start, start + len(part)))
        start += len(part) + 1
    return [piece for piece in pieces if piece.value]


def _cells(line: Text) -> list[Text]:
    """The values of a line: between semicolons, else between bars, else between commas with a blank behind them."""
    for sign in (";", "|"):
        if sign in line.value:
            return _pieces(line, sign)
    cells, start = [], 0
    for found in re.finditer(r",\s+", line.value):
        cells.append(line.part(start, found.start()))
        start = found.end()
    return [*cells, line.part(start)]


def _heading(
    row: tuple[Text, list[Text]], x: AxisMaking, y: AxisMaking, scope: Scope
) -> list[_Column] | None:
    """The columns that the first line names; None where it is a line of data."""
    found = [_HEAD.fullmatch(cell.value) for cell in row[1]]
    names = [read_name(head["name"]) if head is not None else None for head in found]
    if any(name is None for name in names):
        return None
    plotted = {*t.names_in(x.tree), *t.names_in(y.tree)}
    bare = all(head is not None and head.group("in", "over", "bracket", "width") == (None,) * 4 for head in found)
    if bare and all(name is not None and name not in plotted and scope.find(name) for name in names):
        return None
    columns = []
    for cell, head, name in zip(row[1], found, names, strict=True):
        assert head is not None
        assert name is not None
        column = _Column(name)
        for group in ("in", "over", "bracket"):
            if head[group]:
                column.unit = read_unit(cell.part(head.start(group), head.end(group)))
                if name.delta:
                    column.unit = difference_of(column.unit)
        if head["width"]:
            width = cell.part(head.start("width"), head.end("width"))
            typed = read_typed(width, x.conventions.decimal)
            if typed is None:
                raise GraphPointUnreadable(width.span, width.value)
            column.width = (typed.number, typed.unit)
        columns.append(column)
    known = [column.name for column in columns]
    for axis in (x, y):
        for name in t.names_in(axis.tree):
            if name not in known and scope.find(name) is None and axis is x:
                keys = tuple(one.key for one in known)
                raise FigureNameUnknown(row[0].span, name.key, keys, nearest(name.key, keys))
    return columns


def _named_by_axes(x: AxisMaking, y: AxisMaking, scope: Scope) -> list[_Column]:
    """Two columns without a heading: what is plotted, x first."""
    columns = []
    for axis in (x, y):
        names = t.names_in(axis.tree)
        free = [name for name in names if scope.find(name) is None] or names
        columns.append(_Column(free[0] if free else Name("x")))
        if isinstance(axis.tree, t.Sym):
            columns[-1].unit = axis.unit
    return columns


def _fill(column: _Column, cells: Sequence[Text], scope: Scope, conventions: Conventions) -> None:
    typed = [read_typed(cell, conventions.decimal) if _begins_as_number(cell) else None for cell in cells]
    if column.unit is None:
        units = [one.unit for one in typed if one is not None and one.unit.factors]
        column.unit = units[0] if units and [f.symbol for f in units[0].factors] != _PERCENT else None
    out: list[_Cell] = []
    for cell, one in zip(cells, typed, strict=True):
        if one is None:
            out.append(_by_name(cell, column, scope, conventions))
            continue
        if one.direction is not None or one.heading is not None or one.across is not None:
            raise GraphPointUnreadable(cell.span, cell.value)
        own = one.unit
        width = one.uncertainty or column.width
        share = width is not None and [factor.symbol for factor in width[1].factors] == _PERCENT
        if share and [factor.symbol for factor in own.factors] == _PERCENT and column.unit != own:
            own = ONE  # "2.1 ± 2 %" in a column of seconds.
        if not own.factors:
            own = column.unit or ONE
        column.unit = column.unit or own
        if own.dimension != column.unit.dimension:
            raise GraphDimension(cell.span, column.name.key, own.text(), column.unit.text())
        if column.name.delta:
            own = difference_of(own)
        value = to_si(Real.of(one.number.value), own)
        out.append(_Cell(cell, value, _off(width, one.number.value, own, share)))
    column.cells = out


def _begins_as_number(cell: Text) -> bool:
    # What begins with a letter is a name; what is left must be a number, or reading it says why it is none.
    return bool(re.match(r"[(\s]*[-+−.]?\s*[0-9]", cell.value))


def _off(width: tuple[Number, Unit] | None, value: Fraction, unit: Unit, share: bool) -> Real | None:
    if width is None or width[0].value == 0:
        return None
    scale = difference_of(unit).scale
    if share and [factor.symbol for factor in unit.factors] != _PERCENT:
        off = Real.of(abs(value) * width[0].value / 100) * scale
    else:
        off = Real.of(width[0].value) * (difference_of(width[1]).scale if width[1].factors else scale)
    return off if off.sign() > 0 else None


def _by_name(cell: Text, column: _Column, scope: Scope, conventions: Conventions) -> _Cell:
    if not cell.value or not re.match(r"[^\W\d_]|[(√|]", cell.value):
        raise GraphPointUnreadable(cell.span, cell.value)
    name = read_name(cell.value)
    if name is not None and scope.find(name) is None:
        raise GraphPointUnreadable(cell.span, cell.value)
    datum = value_of(cell, scope, conventions)
    quantity = datum.quantity
    column.unit = column.unit or quantity.unit
    if quantity.unit.dimension != column.unit.dimension:
        raise GraphDimension(cell.span, column.name.key, quantity.unit.text(), column.unit.text())
    off = quantity.spread.size(conventions.uncertainty) if quantity.spread is not None else None
    return _Cell(cell, quantity.value, off)


def _plotted(
    columns: list[_Column], x: AxisMaking, y: AxisMaking, scope: Scope
) -> list[tuple[Name | None, list[Point]]]:
    names = [column.name for column in columns]
    across = _along(x, columns, scope)
    if any(name in names for name in t.names_in(y.tree)):
        upward = {None: _along(y, columns, scope)}
    else:
        used = t.names_in(x.tree)
        rest = [column for column in columns if column.name not in used]
        upward = {}
        for column in rest:
            own = AxisMaking(t.Sym(column.name), y.unit, y.conventions)
            upward[column.name if len(rest) > 1 else None] = _along(own, columns, scope)
            y.unit = own.unit
    return [
        (name, [_point(a, b, x, y) for a, b in zip(across, cells, strict=True)]) for name, cells in upward.items()
    ]


def _point(across: _Cell, up: _Cell, x: AxisMaking, y: AxisMaking) -> Point:
    return Point(
        x.number(across.value),
        y.number(up.value),
        x.length(across.off) if across.off is not None else None,
        y.length(up.off) if up.off is not None else None,
        across.text,
        up.text,
    )


def _along(axis: AxisMaking, columns: list[_Column], scope: Scope) -> list[_Cell]:
    """What a table gives along an axis: a column, or a formula of columns worked out line by line."""
    by_name = {column.name: column for column in columns}
    if axis.name is not None and axis.name in by_name:
        column = by_name[axis.name]
        assert column.cells is not None
        if column.cells:
            axis.settle(column.unit or ONE, column.cells[0].text.span)
        return column.cells
    own = {
        column.name: Datum(column.name, Quantity(Real.of(1), column.unit or ONE), "given", "") for column in columns
    }
    tree, data = with_names(axis.tree, scope, own, axis.conventions)
    cells = [column.cells or [] for column in columns if column.name in data]
    unit = unit_of_formula(tree, data, axis.conventions)
    fixed = {name: datum.quantity.value for name, datum in data.items() if name not in by_name}
    used = [name for name in data if name in by_name]
    out = []
    for at in range(max((len(column) for column in cells), default=0)):
        row = {name: (by_name[name].cells or [])[at] for name in used}
        first = row[used[0]].text
        try:
            values = {**fixed, **{name: cell.value for name, cell in row.items()}}
            out.append(_Cell(first, evaluate(tree, values), _carried(tree, values, row, axis.conventions)))
        except RealError as error:
            raise beyond(first.span, error) from None
    if out:
        axis.settle(unit, out[0].text.span)
    return out


def _carried(
    tree: t.Expr, values: dict[Name, Real], row: dict[Name, _Cell], conventions: Conventions
) -> Real | None:
    """The uncertainty of a formula's value from those of its data: the law of propagation, GUM (JCGM 100:2008) 5.1.2,
    with the derivative as a difference over a millionth of the uncertainty on both sides."""
    parts = []
    for name, cell in row.items():
        if cell.off is not None:
            step = cell.off * Real.of(Fraction(1, 10**6))
            up = evaluate(tree, {**values, name: cell.value + step})
            down = evaluate(tree, {**values, name: cell.value - step})
            parts.append(abs((up - down) * Real.of(500_000)))
    if not parts:
        return None
    if conventions.uncertainty == "sum" or len(parts) == 1:
        total = sum(parts, Real.of(0))
    else:
        total = sqrt(sum((part * part for part in parts), Real.of(0)))
    return total if total.sign() > 0 else None
