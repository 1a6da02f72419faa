"""Graph paper with its axes: squares, numbers and names of the quantities."""

from __future__ import annotations

from physcalc.exact import numeral_text
from physcalc.exact.numeral import Numeral
from physcalc.figures.graph_diagram import Axis
from physcalc.language import Conventions
from physcalc.language import tree as t
from physcalc.language.plain import plain

from .board import Board
from .graph_scales import SMALL, Scale
from .letters import ABOVE, BELOW, box_of, runs_of_name, runs_of_text, width_of
from .picture import LABEL_SIZE, POINT, Label, Pen, Run

#: Lines of small and of large squares, and axes.
_FAINT = Pen(0.1, grey=0.82)
_DARKER = Pen(0.15, grey=0.62)
_AXIS = Pen(0.4)
_TICK = Pen(0.25)
#: The size of the numbers beside axes, and how far they keep from the squares and from one another.
NUMBER_SIZE = 9.0
_GAP = 1.6
#: Numbers below the squares stand a little lower, clear of the lowest one beside them.
_BELOW = 2.4
_BETWEEN = 1.8


def runs_of_expression(tree: t.Expr, conventions: Conventions) -> tuple[Run, ...]:
    """A quantity or an expression of quantities as a label: T², 1/v, sin θ."""
    match tree:
        case t.Sym(name):
            return runs_of_name(name)
        case t.Num():
            return (Run(plain(tree, conventions.style)),)
        case t.Pi():
            return (Run("π"),)
        case t.Power(base, exponent) if isinstance(exponent, t.Num):
            # A slanted letter leans into what is raised behind it.
            raised = Run("\u200a" + plain(exponent, conventions.style), level=1)
            inner = runs_of_expression(base, conventions)
            return (
                (*inner, raised)
                if isinstance(base, t.Sym | t.Group | t.Num)
                else (*_bracketed(inner), raised)
            )
        case t.Product(factors, joins):
            runs = runs_of_expression(factors[0], conventions)
            for factor, join in zip(factors[1:], joins, strict=True):
                sign = {"/": "/", "": "\u202f"}.get(join, join)
                runs = (*runs, Run(sign), *runs_of_expression(factor, conventions))
            return runs
        case t.Call("sqrt", (argument,)):
            inner = runs_of_expression(argument, conventions)
            return (Run("√"), *(inner if isinstance(argument, t.Sym) else _bracketed(inner)))
        case t.Call(function, (argument,), _, None):
            inner = runs_of_expression(argument, conventions)
            return (Run(function + "\u202f"), *(inner if isinstance(argument, t.Sym) else _bracketed(inner)))
        case t.Group(body):
            return _bracketed(runs_of_expression(body, conventions))
        case _:
            return runs_of_text(plain(tree, conventions.style, conventions.unit_style))


def _bracketed(runs: tuple[Run, ...]) -> tuple[Run, ...]:
    return (Run("("), *runs, Run(")"))


def axis_label(axis: Axis, power: int, conventions: Conventions) -> tuple[Run, ...]:
    """What an axis is named: `v / m·s⁻¹` (a quantity over its unit is the number that stands beside the axis, SI
    Brochure 5.4.1), or `v (m·s⁻¹)`."""
    unit = axis.unit.text(conventions.unit_style)
    if power:
        ten = numeral_text(Numeral(False, "", "", power), conventions.style)
        unit = f"{ten}\u00a0{unit}" if unit else ten
    name = runs_of_expression(axis.label, conventions)
    if not unit:
        return name
    if conventions.axis_labels == "brackets":
        return (*name, Run("\u00a0"), *runs_of_text(f"({unit})"))
    if "/" in unit:
        unit = f"({unit})"
    if isinstance(axis.label, t.Sum) or (isinstance(axis.label, t.Product) and "/" in axis.label.joins):
        name = _bracketed(name)
    return (*name, Run("\u00a0/\u00a0"), *runs_of_text(unit))


def squares(board: Board, width: float, height: float, side_x: float, side_y: float) -> None:
    """Small squares of 2 mm, and larger ones with sides that are counted."""
    for span, length, side, upright in ((width, height, side_x, True), (height, width, side_y, False)):
        count = round(span / SMALL)
        every = round(side / SMALL)
        for pen, role in ((_FAINT, "grid small"), (_DARKER, "grid large")):
            for n in range(count + 1):
                if (n % every == 0) != (pen is _DARKER):
                    continue
                at = n * SMALL
                ends = ((at, 0.0), (at, length)) if upright else ((0.0, at), (length, at))
                board.line(ends, pen, role=role)


def axes(board: Board, x: Scale, y: Scale, x_axis: Axis, y_axis: Axis, conventions: Conventions) -> None:
    """The two axes with their numbers and names; the numbers stand at the edge of the squares, clear of the graph."""
    style = conventions.style
    board.line(((0.0, y.zero()), (x.length, y.zero())), _AXIS, role="axis x")
    board.line(((x.zero(), 0.0), (x.zero(), y.length)), _AXIS, role="axis y")
    unit = NUMBER_SIZE * POINT
    numbers = list(x.numbers(style))
    widest = max(width_of(runs_of_text(text), NUMBER_SIZE) for _, text in numbers)
    stride = next((n for n in (1, 2, 5, 10, 20) if n * x.side >= widest + _BETWEEN), 20)
    for n, (value, text) in enumerate(numbers):
        if (x.first + n) % stride == 0:
            at = x.at(value)
            board.line(((at, 0.0), (at, -1.0)), _TICK, role="tick x")
            board.fixed(
                Label(
                    (at, -_BELOW - ABOVE * unit), runs_of_text(text), "middle", NUMBER_SIZE, role="number x"
                )
            )
    left = 0.0
    for value, text in y.numbers(style):
        at = y.at(value)
        board.line(((0.0, at), (-1.0, at)), _TICK, role="tick y")
        label = Label((-_GAP, at - 0.36 * unit), runs_of_text(text), "end", NUMBER_SIZE, role="number y")
        left = min(left, box_of(label).left)
        board.fixed(label)
    size = LABEL_SIZE * POINT
    name = axis_label(x_axis, x.power, conventions)
    below = -_BELOW - (ABOVE + BELOW) * unit - _GAP
    board.fixed(Label((x.length / 2, below - ABOVE * size), name, "middle", role="name x"))
    name = axis_label(y_axis, y.power, conventions)
    board.fixed(
        Label((left - _GAP - (BELOW + 0.1) * size, y.length / 2), name, "middle", turned=True, role="name y")
    )
