"""The axes of a graph in the making: their quantities and units, and the values that lie on them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from ..checking.dimensions import Dimensions
from ..checking.exponential import with_exponentials
from ..checking.given import exponents_of
from ..checking.scope import Datum, Scope
from ..exact import Real, RealError, round_figures
from ..language import tree as t
from ..language.names import Name
from ..language.parser import parse_expression
from ..language.plain import plain
from ..language.quantities import read_typed
from ..language.statements import Conventions
from ..problems import Problem, Span, Text
from ..problems.checking import NameWithoutValue
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_graphs import GraphDimension
from ..problems.solving import NumberBeyondSense
from ..units import ONE, Unit, coherent_unit, difference_of, from_si, read_unit, to_si
from .reading import value_of

_AGAINST = re.compile(r"\s+(?:against|versus|vs\.?)\s+")
_IN = re.compile(r"\s+in\s+(?=\S+\s*(?:\S.*)?$)")
_FORM = "what stands upwards against what stands to the right: v against t, or v in km/h against t in min"
#: What an axis is named takes so many letters at most, its unit among them; more would not fit beside it.
_LONGEST = 50
#: Irrational coordinates are taken to so many figures: far more than a line, or a fit to measured data, can show.
_FIGURES = 50


@dataclass(slots=True)
class AxisMaking:
    """An axis in the making.

    Attributes:
        tree: its quantity, a name or an expression.
        unit: its unit; None until one is known.
        conventions: the settings in force.
        used: the data in scope that what lies on it is made from.
    """

    tree: t.Expr
    unit: Unit | None
    conventions: Conventions
    used: list[Datum] = field(default_factory=list)

    @property
    def name(self) -> Name | None:
        """Its name; None for an expression."""
        return self.tree.name if isinstance(self.tree, t.Sym) else None

    @property
    def key(self) -> str:
        """Its quantity in a message."""
        return plain(self.tree, self.conventions.style, self.conventions.unit_style)

    def settle(self, unit: Unit, span: Span) -> None:
        """Takes the unit of a value; the first is that of the axis.

        Raises:
            GraphDimension: the axis has another kind of unit.
        """
        if self.unit is None:
            delta = self.name is not None and self.name.delta
            self.unit = difference_of(unit) if delta else unit
        elif unit.dimension != self.unit.dimension:
            raise GraphDimension(span, f"the axis of {self.key}", unit.text(), self.unit.text())

    def use(self, datum: Datum, scope: Scope) -> None:
        """Takes note of a datum in scope, or of those that a value is made from."""
        known = scope.find(datum.name)
        self.used += [datum] if known is datum else datum.rests_on

    def number(self, value: Real) -> Fraction:
        """A value in coherent SI units as a number on the axis."""
        shown = from_si(value, self.unit or ONE)
        exact = shown.fraction
        return exact if exact is not None else round_figures(shown, _FIGURES).fraction

    def length(self, size: Real) -> Fraction:
        """A difference in coherent SI units as a number on the axis."""
        shown = size / difference_of(self.unit or ONE).scale
        exact = shown.fraction
        return exact if exact is not None else round_figures(shown, _FIGURES).fraction

    def value(self, number: Fraction) -> Real:
        """A number on the axis in coherent SI units."""
        return to_si(Real.of(number), self.unit or ONE)


def read_axes(text: Text, conventions: Conventions) -> tuple[AxisMaking, AxisMaking]:
    """The axes of `v in km/h against t in min`: x, then y.

    Raises:
        Problem: it cannot be read.
    """
    against = list(_AGAINST.finditer(text.value))
    if len(against) != 1:
        raise FigurePhraseUnreadable(text.span, "what is plotted", text.value, _FORM)
    y, x = text.part(0, against[0].start()), text.part(against[0].end())
    if not x.value or not y.value:
        raise FigurePhraseUnreadable(text.span, "what is plotted", text.value, _FORM)
    return _axis(x, conventions), _axis(y, conventions)


def _axis(text: Text, conventions: Conventions) -> AxisMaking:
    unit: Unit | None = None
    if (found := _IN.search(text.value)) is not None:
        unit = read_unit(text.part(found.end()), alone=True)
        text = text.part(0, found.start())
    tree = parse_expression(text, conventions.decimal)
    if len(plain(tree, conventions.style)) + (len(unit.text()) if unit is not None else 0) > _LONGEST:
        form = f"a quantity or an expression of at most {_LONGEST} letters"
        raise FigurePhraseUnreadable(text.span, "what stands on an axis", text.value, form)
    return AxisMaking(tree, unit, conventions)


def amount(text: Text, axis: AxisMaking, scope: Scope, hint: Unit | None = None) -> Real:
    """The value of a text on an axis, in coherent SI units; a bare number has the hint's unit, or the axis's.

    Raises:
        Problem: it cannot be read, or is of another kind than the axis.
    """
    conventions = axis.conventions
    unit, number = bare(text, conventions)
    if number is not None and not unit.factors:
        own = hint or axis.unit or ONE
        axis.settle(own, text.span)
        return to_si(Real.of(number), own)
    key = axis.name.key if axis.name is not None else ""
    datum = value_of(text, scope, conventions, key)
    axis.use(datum, scope)
    axis.settle(datum.quantity.unit, text.span)
    return datum.quantity.value


def bare(text: Text, conventions: Conventions) -> tuple[Unit, Fraction | None]:
    """The unit and the number of a text; None for a text that is no number with its unit."""
    try:
        typed = read_typed(text, conventions.decimal)
    except Problem:
        return ONE, None
    if typed is None or typed.direction is not None or typed.heading is not None or typed.across is not None:
        return (ONE if typed is None else typed.unit), None
    return typed.unit, typed.number.value


def amounts(first: Text, second: Text, axis: AxisMaking, scope: Scope) -> tuple[Real, Real]:
    """Two values, of which one may leave the unit to the other: `0 to 4 s`."""
    units = [unit for unit, _ in (bare(one, axis.conventions) for one in (first, second)) if unit.factors]
    hint = units[0] if units else None
    return amount(first, axis, scope, hint), amount(second, axis, scope, hint)


def with_names(
    tree: t.Expr, scope: Scope, own: Mapping[Name, Datum], conventions: Conventions
) -> tuple[t.Expr, dict[Name, Datum]]:
    """A formula with `e^…` read as in a calculation, and the data of its names; `own` counts before the scope.

    Raises:
        NameWithoutValue: a name has no value.
    """
    inner = scope.inside(own)
    tree = with_exponentials(tree, inner, frozenset(), conventions.style)
    data: dict[Name, Datum] = {}
    for part in t.walk(tree):
        if isinstance(part, t.Sym) and part.name not in data:
            datum = inner.find(part.name)
            if datum is None:
                raise NameWithoutValue(part.span, part.name.key, tuple(name.key for name in inner.names()))
            data[part.name] = datum
    return tree, data


def unit_of_formula(tree: t.Expr, data: dict[Name, Datum], conventions: Conventions) -> Unit:
    """The unit of a formula's value: that of its data where one of these has its dimension, else the usual one.

    Raises:
        Problem: its dimensions do not fit.
    """
    known = {name: datum.quantity.unit.dimension for name, datum in data.items()}
    dimension = Dimensions(known, exponents_of(data), {}, conventions.style).check_expression(tree)
    if dimension is None:
        return ONE
    same = {u.text(): u for d in data.values() if (u := d.quantity.unit).dimension == dimension}
    return next(iter(same.values())) if len(same) == 1 else coherent_unit(dimension)


def beyond(span: Span, error: RealError) -> NumberBeyondSense:
    """The problem of a value that a formula does not have, or that is beyond all sense."""
    return NumberBeyondSense(span, str(error))
