"""Measured data on the axes of a graph: columns of a table, or formulas of columns, as points."""

from __future__ import annotations

from fractions import Fraction

from ..checking.scope import Datum, Quantity, Scope
from ..checking.value import evaluate
from ..exact import Real, RealError, sqrt
from ..language import tree as t
from ..language.names import Name
from ..language.statements import Conventions
from ..problems import Problem, Text
from ..units import ONE
from .graph_axes import AxisMaking, beyond, unit_of_formula, with_names
from .graph_diagram import Point
from .graph_table import Cell, Column, read_table


def read_points(
    lines: tuple[Text, ...], x: AxisMaking, y: AxisMaking, scope: Scope, problems: list[Problem]
) -> tuple[list[tuple[Name | None, list[Point]]], list[Column]]:
    """The points of a table: one set for each column that stands upwards, with its name where there are several; and
    the columns themselves.

    Args:
        lines: the lines of the table.
        x, y: the axes, whose units the data settle.
        scope: what names mean.
        problems: takes what is wrong with single lines.

    Raises:
        Problem: nothing of the table can be read, or it cannot lie on the axes.
    """
    columns = read_table(lines, x, y, scope, problems)
    return (_plotted(columns, x, y, scope) if columns else []), columns


def _plotted(
    columns: list[Column], x: AxisMaking, y: AxisMaking, scope: Scope
) -> list[tuple[Name | None, list[Point]]]:
    names = [column.name for column in columns]
    across = _along(x, columns, scope)
    if any(name in names for name in t.names_in(y.tree)):
        upward: dict[Name | None, list[Cell]] = {None: _along(y, columns, scope)}
    else:
        used = t.names_in(x.tree)
        rest = [column for column in columns if column.name not in used]
        upward = {}
        for column in rest:
            own = AxisMaking(t.Sym(column.name), y.unit, y.conventions, y.used)
            upward[column.name if len(rest) > 1 else None] = _along(own, columns, scope)
            y.unit = own.unit
    return [
        (name, [_point(a, b, x, y) for a, b in zip(across, cells, strict=True)])
        for name, cells in upward.items()
    ]


def _point(across: Cell, up: Cell, x: AxisMaking, y: AxisMaking) -> Point:
    return Point(
        x.number(across.value),
        y.number(up.value),
        x.length(across.off) if across.off is not None else None,
        y.length(up.off) if up.off is not None else None,
        across.text,
        up.text,
    )


def _along(axis: AxisMaking, columns: list[Column], scope: Scope) -> list[Cell]:
    """What a table gives along an axis: a column, or a formula of columns worked out line by line."""
    by_name = {column.name: column for column in columns}
    if axis.name is not None and axis.name in by_name:
        column = by_name[axis.name]
        assert column.cells is not None
        if column.cells:
            axis.settle(column.unit or ONE, column.cells[0].text.span)
        return column.cells
    own = {
        column.name: Datum(column.name, Quantity(Real.of(1), column.unit or ONE), "given", "")
        for column in columns
    }
    tree, data = with_names(axis.tree, scope, own, axis.conventions)
    cells = [column.cells or [] for column in columns if column.name in data]
    unit = unit_of_formula(tree, data, axis.conventions)
    fixed = {name: datum.quantity.value for name, datum in data.items() if name not in by_name}
    axis.used += [datum for name, datum in data.items() if name not in by_name]
    used = [name for name in data if name in by_name]
    out = []
    for at in range(max((len(column) for column in cells), default=0)):
        row = {name: (by_name[name].cells or [])[at] for name in used}
        first = row[used[0]].text
        try:
            values = {**fixed, **{name: cell.value for name, cell in row.items()}}
            out.append(Cell(first, evaluate(tree, values), _carried(tree, values, row, axis.conventions)))
        except RealError as error:
            raise beyond(first.span, error) from None
    if out:
        axis.settle(unit, out[0].text.span)
    return out


def _carried(
    tree: t.Expr, values: dict[Name, Real], row: dict[Name, Cell], conventions: Conventions
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
