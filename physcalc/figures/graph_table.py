"""Measured data as a table: columns with their units, and typed values with their uncertainties."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..checking.scope import Scope
from ..exact import Number, Numeral, Real
from ..language import tree as t
from ..language.names import NAME_PATTERN, Name, read_name
from ..language.quantities import read_typed
from ..language.statements import Conventions
from ..language.tree import Printed
from ..limits import limit
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown
from ..problems.figures_graphs import (
    GraphColumnsUnmatched,
    GraphDimension,
    GraphPointsMany,
    GraphPointUnreadable,
)
from ..steps.values import plain_numeral
from ..units import ONE, Unit, difference_of, from_si, read_unit, to_si
from .graph_axes import AxisMaking
from .graph_diagram import Table
from .reading import value_of

#: More points than this are too many for one picture.

_HEAD = re.compile(
    rf"(?P<name>{NAME_PATTERN})"
    r"(?:\s+in\s+(?P<in>[^±]+?)|\s*/\s*(?P<over>[^±]+?)|\s*\((?P<bracket>[^)±]+)\))?"
    r"(?:\s*±\s*(?P<width>[^±]+?))?\s*"
)
_PERCENT = ["%"]


@dataclass(slots=True)
class Column:
    """A column of a table.

    Attributes:
        name: its quantity.
        unit: its unit; None until one is known.
        width: the uncertainty of each of its values, as the heading says; None for none.
        cells: its values.
    """

    name: Name
    unit: Unit | None = None
    width: tuple[Number, Unit] | None = None
    cells: list[Cell] | None = None


@dataclass(frozen=True, slots=True)
class Cell:
    """A value of a table.

    Attributes:
        text: what was typed.
        value: what it is, in coherent SI units.
        off: its uncertainty; None for none.
        number: the number as typed, where its unit is the column's; None for any other.
        width: the uncertainty typed beside it, in that unit; None for none.
    """

    text: Text
    value: Real
    off: Real | None
    number: Number | None = None
    width: Number | None = None


def read_table(
    lines: tuple[Text, ...], x: AxisMaking, y: AxisMaking, scope: Scope, problems: list[Problem]
) -> list[Column]:
    """The columns of a table with their values; none where it has no data.

    Args:
        lines: the lines, a heading first where there is one; or one text with semicolons between the pairs.
        x, y: the axes, which name the columns where no heading does.
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
    if len(rows) > (most := limit("graph-points")):
        problems.append(GraphPointsMany(rows[most][0].span, most))
        rows = rows[:most]
    sound = []
    for line, cells in rows:
        if len(cells) == 1 and len(columns) > 1:
            problems.append(GraphPointUnreadable(line.span, line.value))
        elif len(cells) != len(columns):
            problems.append(GraphColumnsUnmatched(line.span, line.value, len(cells), len(columns)))
        else:
            sound.append(cells)
    for at, column in enumerate(columns):
        _fill(column, [cells[at] for cells in sound], scope, x)
    return columns


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


def _heading(row: tuple[Text, list[Text]], x: AxisMaking, y: AxisMaking, scope: Scope) -> list[Column] | None:
    """The columns that the first line names; None where it is a line of data."""
    found = [_HEAD.fullmatch(cell.value) for cell in row[1]]
    names = [read_name(head["name"]) if head is not None else None for head in found]
    if any(name is None for name in names):
        return None
    plotted = {*t.names_in(x.tree), *t.names_in(y.tree)}
    bare = all(
        head is not None and head.group("in", "over", "bracket", "width") == (None,) * 4 for head in found
    )
    if bare and all(name is not None and name not in plotted and scope.find(name) for name in names):
        return None
    columns = []
    for cell, head, name in zip(row[1], found, names, strict=True):
        assert head is not None
        assert name is not None
        column = Column(name)
        for group in ("in", "over", "bracket"):
            if head[group]:
                column.unit = read_unit(cell.part(head.start(group), head.end(group)), alone=True)
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
    for name in t.names_in(x.tree):
        if name not in known and scope.find(name) is None:
            keys = tuple(one.key for one in known)
            raise FigureNameUnknown(row[0].span, name.key, keys, nearest(name.key, keys))
    return columns


def _named_by_axes(x: AxisMaking, y: AxisMaking, scope: Scope) -> list[Column]:
    """Two columns without a heading: what is plotted, x first."""
    columns = []
    for axis in (x, y):
        names = t.names_in(axis.tree)
        free = [name for name in names if scope.find(name) is None] or names
        columns.append(Column(free[0] if free else Name("x")))
        if isinstance(axis.tree, t.Sym):
            columns[-1].unit = axis.unit
    return columns


def _fill(column: Column, cells: Sequence[Text], scope: Scope, axis: AxisMaking) -> None:
    conventions = axis.conventions
    typed = [read_typed(cell, conventions.decimal) if _begins_as_number(cell) else None for cell in cells]
    if column.unit is None:
        units = [one.unit for one in typed if one is not None and one.unit.factors]
        column.unit = units[0] if units and [f.symbol for f in units[0].factors] != _PERCENT else None
    out: list[Cell] = []
    for cell, one in zip(cells, typed, strict=True):
        if one is None:
            out.append(_by_name(cell, column, scope, axis))
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
        plain = own == column.unit
        beside = one.uncertainty[0] if plain and one.uncertainty is not None and not share else None
        off = _off(width, one.number.value, own, share)
        out.append(Cell(cell, value, off, one.number if plain else None, beside))
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


def _by_name(cell: Text, column: Column, scope: Scope, axis: AxisMaking) -> Cell:
    if not cell.value or not re.match(r"[^\W\d_]|[(√|]", cell.value):
        raise GraphPointUnreadable(cell.span, cell.value)
    name = read_name(cell.value)
    if name is not None and scope.find(name) is None:
        raise GraphPointUnreadable(cell.span, cell.value)
    datum = value_of(cell, scope, axis.conventions)
    axis.use(datum, scope)
    quantity = datum.quantity
    column.unit = column.unit or quantity.unit
    if quantity.unit.dimension != column.unit.dimension:
        raise GraphDimension(cell.span, column.name.key, quantity.unit.text(), column.unit.text())
    off = quantity.spread.size(axis.conventions.uncertainty) if quantity.spread is not None else None
    return Cell(cell, quantity.value, off)


def printed_table(columns: Sequence[Column], conventions: Conventions) -> Table:
    """A table as it is printed: numbers with the digits they were typed with, units in its heading."""
    cells = [column.cells or [] for column in columns]
    return Table(
        tuple((column.name, column.unit or ONE, _width(column)) for column in columns),
        tuple(
            tuple(
                _printed(cell, column.unit or ONE, conventions)
                for cell, column in zip(row, columns, strict=True)
            )
            for row in zip(*cells, strict=True)
        ),
    )


def _width(column: Column) -> Printed | None:
    if column.width is None:
        return None
    number, unit = column.width
    own = unit if unit.factors and unit.text() != (column.unit or ONE).text() else None
    return Printed(Numeral.of_number(number), own)


def _printed(cell: Cell, unit: Unit, conventions: Conventions) -> Printed:
    if cell.number is None:
        return Printed(plain_numeral(from_si(cell.value, unit), conventions))
    numeral = Numeral.of_number(cell.number)
    width = Numeral.of_number(cell.width) if cell.width is not None else None
    if width is not None and width.exponent != numeral.exponent:
        return Printed(numeral)
    return Printed(numeral, None, "", width)
