"""Data lines → values: numbers with units and directions, names, expressions, and results found elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from ..exact import Number, NumberStyle, Real, RealError, Spread, sqrt
from ..language import tree as t
from ..language.names import Name, read_name
from ..language.plain import plain_printed
from ..language.quantities import Formed, Reference, Typed, read_given_name, read_quantity
from ..language.statements import Conventions, GivenText
from ..problems import Problem, Span, Text
from ..problems.checking import (
    DirectionUnknown,
    GivenCycle,
    NameGivenTwice,
    NameWithoutValue,
    ReferenceUnknown,
)
from ..problems.language import UncertaintyTooLarge
from ..problems.solving import NumberBeyondSense
from ..problems.uncertainty import UncertaintyAtEdge, UncertaintyOfPoint, UncertaintyOfVector
from ..problems.units import UnitAmbiguous
from ..units import ONE, Unit, coherent_unit, difference_of, to_si
from .angles import angle_problems
from .dimensions import Dimensions
from .exponential import with_exponentials
from .plane import refuse_sizes_added, vector_value
from .points import headed, with_distances
from .printing import printed_datum
from .scope import Datum, GivenLayer, Plane, Quantity, Scope
from .value import evaluate


def directed(value: Real, words: Text | None, conventions: Conventions) -> tuple[Real, str]:
    """The signed value and the printed direction of a value with direction words.

    Raises:
        DirectionUnknown: no axis is in force, or the word is not of it.
    """
    if words is None:
        return value, ""
    axis = conventions.axis
    if axis is None:
        raise DirectionUnknown(words.span, words.value)
    sign = axis.sign_of(words.value)
    if sign is None:
        raise DirectionUnknown(words.span, words.value, *axis.in_words())
    return (value if sign > 0 else -value), axis.words(sign)


def sensitivity(at: Callable[[Real], Real], value: Real, spread: Spread) -> float:
    """How fast a result changes with a datum: the central difference over a millionth of its uncertainty.

    The central difference is right to second order, so to some twelve digits; GUM 5.1.4 takes the uncertainty itself.

    Args:
        at: the result for a value of the datum.
        value: the datum's value.
        spread: how far it may lie off.

    Raises:
        RealError: the formula does not hold on both sides of the value.
    """
    size = spread.size("quadrature")
    if size.sign() == 0:
        return 0.0  # What it rests on has cancelled out.
    step = size * Real.of(Fraction(1, 10**6))
    return float((at(value + step) - at(value - step)) / (Real.of(2) * step))


def typed_quantity(typed: Typed, name: Name | None, conventions: Conventions) -> Quantity:
    """The value of a typed number with its unit. Raises DirectionUnknown."""
    unit = difference_of(typed.unit) if name is not None and name.delta else typed.unit
    if typed.uncertainty is not None and typed.heading is not None:
        raise UncertaintyOfVector(typed.span, name.key if name else "the value")
    if typed.heading is not None:
        size = to_si(Real.of(typed.number.value), unit)
        plane = headed(size, typed.heading, conventions.points)
        return Quantity(size, unit, typed.number, plane=plane)
    if typed.across is not None:
        return _components(typed, typed.across, unit)
    value = to_si(Real.of(typed.number.value), unit)
    value, direction = directed(value, typed.direction, conventions)
    quantity = Quantity(value, unit, typed.number, direction)
    try:
        return _uncertain(quantity, typed, name)
    except RealError as error:
        raise NumberBeyondSense(typed.span, str(error)) from None


#: Half a unit of the last digit is taken as uncertainty, where it is asked what rounding can explain.
_HALF = Fraction(1, 2)


def last_digit(number: Number, unit: Unit) -> Real:
    """Half a unit of the last digit typed, in SI coherent units."""
    places = number.places - (number.exponent or 0)
    return Real.of(_HALF / Fraction(10) ** places) * difference_of(unit).scale


def _uncertain(quantity: Quantity, typed: Typed, name: Name | None) -> Quantity:
    """A typed value with its uncertainty, if it has one.

    Raises:
        UncertaintyTooLarge, UncertaintyOfPoint, RealError.
    """
    if typed.uncertainty is None:
        return quantity
    number, width_unit = typed.uncertainty
    unit, size_of_value = quantity.unit, abs(quantity.value)
    share = [factor.symbol for factor in width_unit.factors] == ["%"] and width_unit.text() != unit.text()
    if share and unit.offset:
        raise UncertaintyOfPoint(typed.span, unit.text())
    scale = difference_of(width_unit).scale
    size = size_of_value * Real.of(number.value / 100) if share else Real.of(number.value) * scale
    called = name.key if name else "the value"
    most = Real.of(1 if share else 10)
    if size_of_value.sign() != 0 and not unit.offset and (size - size_of_value * most).sign() > 0:
        percent = f"{float(size / size_of_value) * 100:.0f} %"
        raise UncertaintyTooLarge(typed.span, called, percent)
    own = width_unit if share or width_unit.text() != unit.text() else None
    if size.sign() == 0:
        # ± 0 says that the value is exact.
        return replace(quantity, width=number, width_unit=own)
    return replace(quantity, spread=Spread.independent(float(size), called), width=number, width_unit=own)


def _components(typed: Typed, across: Typed, unit: Unit) -> Quantity:
    """A vector typed by its two components."""
    if typed.uncertainty is not None or across.uncertainty is not None:
        raise UncertaintyOfVector(typed.span, "the value")
    x, y = to_si(Real.of(typed.number.value), unit), to_si(Real.of(across.number.value), across.unit)
    numbers = (typed.number, across.number) if typed.unit == across.unit else None
    return Quantity(sqrt(x * x + y * y), unit, plane=Plane(x, y, numbers=numbers))


#: Metres, grams and hours: no two of them are multiplied in a unit, and m, g and h are the commonest names.
_NEVER_MULTIPLIED = frozenset({"m", "g", "h"})


class _Reader:
    """Evaluates the lines of one given block, each when it is first needed."""

    def __init__(self, items: Sequence[GivenText], scope: Scope, conventions: Conventions) -> None:
        self.scope = scope
        self.conventions = conventions
        self.problems: list[Problem] = []
        self.done = GivenLayer()
        self.failed: set[Name] = set()
        self.waiting: list[Name] = []
        self.texts: dict[Name, GivenText] = {}
        for item in items:
            try:
                name = read_given_name(item.name)
            except Problem as problem:
                self.problems.append(problem)
                continue
            if name in self.texts:
                first = self.texts[name].value.value
                if first.split() != item.value.value.split():
                    self.problems.append(NameGivenTwice(item.name.span, name.key, first, item.value.value))
                continue
            self.texts[name] = item

    def all(self) -> GivenLayer:
        for name in self.texts:
            self.value(name)
        return self.done

    def value(self, name: Name) -> Datum | None:
        """The datum of this block's own name, or None where it can not be had (the problem is noted)."""
        if name in self.done:
            return self.done[name]
        if name in self.failed:
            return None
        if name in self.waiting:
            cycle = self.waiting[self.waiting.index(name) :]
            self.problems.append(GivenCycle(self.texts[name].name.span, tuple(n.key for n in cycle)))
            self.failed.update(cycle)
            return None
        self.waiting.append(name)
        try:
            item = self.texts[name]
            quantity = self._read(name, item)
            if quantity is not None and name not in self.failed:
                self.done[name] = quantity
            else:
                self.failed.add(name)
        except Problem as problem:
            self.problems.append(problem)
            self.failed.add(name)
        finally:
            self.waiting.pop()
        return self.done.get(name)

    def _read(self, name: Name, item: GivenText) -> Datum | None:
        read = read_quantity(item.value, self.conventions.decimal, self.conventions.lang)
        where = item.value.span.line_in_words
        if isinstance(read, Formed) and read.as_typed is not None and self._lacks(read.expression):
            read = read.as_typed
        if isinstance(read, Typed):
            self._refuse_product(read)
            return Datum(name, typed_quantity(read, name, self.conventions), "given", where, item.value.span)
        if isinstance(read, Reference):
            return self._referred(name, read)
        try:
            return self._formed(name, read, where)
        except NameWithoutValue as problem:
            # It may cancel from what is found: whoever uses the name decides.
            if isinstance(read.expression, t.Sym):
                raise
            self.done.leave_open(name, read.expression, problem)
            return None

    def _refuse_product(self, typed: Typed) -> None:
        """Refuse "2 m g h" where m, g and h are quantities: metre gram hours are not meant.

        Raises:
            UnitAmbiguous: two of the letters are units that nobody multiplies, and each one is a name with a value.
        """
        symbols = [f.symbol for f in typed.unit.factors if f.power == 1]
        if len(symbols) < len(typed.unit.factors) or len(_NEVER_MULTIPLIED.intersection(symbols)) < 2:
            return
        names = [read_name(symbol) for symbol in symbols]
        if all(n is not None and (n in self.texts or self.scope.find(n) is not None) for n in names):
            product = "*".join([typed.number.typed, *symbols])
            raise UnitAmbiguous(
                typed.span, " ".join(symbols), (product, f"{typed.number.typed} {typed.unit.text()}")
            )

    def _referred(self, name: Name, reference: Reference) -> Datum:
        results = self.scope.elsewhere.get(reference.target)
        if results is None:
            raise ReferenceUnknown(reference.span, reference.target, "", tuple(self.scope.elsewhere))
        wanted = reference.name or name
        found = results.get(wanted)
        if found is None and reference.name is None and len(results) == 1:
            found = next(iter(results.values()))
        if found is None:
            known = tuple(n.key for n in results)
            raise ReferenceUnknown(reference.span, reference.target, wanted.key, known)
        quantity = found.quantity
        if reference.shown:
            if found.shown is None:
                raise ReferenceUnknown(reference.span, reference.target, f"a shown value of {wanted.key}", ())
            return Datum(name, found.shown, "given", f"shown in {reference.target}", reference.span)
        return replace(
            found,
            name=name,
            quantity=quantity,
            kind="result",
            where=f"from {reference.target}",
            span=reference.span,
        )

    def _look(self, name: Name, at: Span, asking: Name) -> Datum | None:
        if name in self.texts and name != asking:
            found = self.value(name)
            if found is None:
                if (problem := self.done.open_problem(name)) is not None:
                    raise problem
                self.failed.add(asking)
            return found
        found = self.scope.find(name)
        if found is None:
            known = tuple(n.key for n in [*self.texts, *self.scope.names()])
            raise self.scope.open_problem(name) or NameWithoutValue(at, name.key, known)
        return found

    def _lacks(self, tree: t.Expr) -> bool:
        """Whether a name in an expression is neither of this block nor of what stands around it."""
        return any(n not in self.texts and self.scope.find(n) is None for n in t.names_in(tree))

    def _formed(self, name: Name, formed: Formed, where: str) -> Datum | None:
        tree = with_exponentials(formed.expression, self.scope, frozenset(), self.conventions.style)
        if formed.as_unit is not None and self._lacks(tree):
            raise formed.as_unit
        inner = tree.body if isinstance(tree, t.Group) else tree
        if isinstance(inner, t.Sym):
            source = self._look(inner.name, inner.span, name)
            if source is None:
                return None
            quantity = source.quantity
            value = abs(quantity.value) if formed.direction is not None else quantity.value
            value, direction = directed(value, formed.direction, self.conventions)
            if value.sign() != quantity.value.sign():
                quantity = quantity.turned()
            quantity = replace(quantity, value=value, direction=direction or quantity.direction)
            if formed.heading is not None:
                if quantity.spread is not None:
                    raise UncertaintyOfVector(formed.span, name.key)
                plane = headed(abs(value), formed.heading, self.conventions.points)
                quantity = replace(quantity, value=abs(value), plane=plane)
            return replace(source, name=name, quantity=quantity, shown=None)
        data: dict[Name, Datum] = {}
        for used in t.names_in(tree):
            place = next(part.span for part in t.walk(tree) if isinstance(part, t.Sym) and part.name == used)
            datum = self._look(used, place, name)
            if datum is None:
                return None
            data[used] = datum
        unit = self._unit(tree, data)
        for problem in angle_problems([(tree,)], lambda n: data[n].quantity.unit, {}):
            raise problem
        inner_scope = Scope((data,))
        parts = (
            vector_value(tree, inner_scope) if formed.heading is None and formed.direction is None else None
        )
        values = {n: d.quantity.value for n, d in data.items()}
        vector: Plane | None = None
        try:
            if parts is None:
                refuse_sizes_added((tree,), inner_scope)
                value = evaluate(tree, values)
            else:
                for used, datum in data.items():
                    if (own := datum.quantity.plane) is not None:
                        values[used.along("x")], values[used.along("y")] = own.x, own.y
                x, y = (evaluate(part, values) for part in parts[:2])
                value, vector = sqrt(x * x + y * y), Plane(x, y, parts[2].kind)
        except RealError as error:
            raise NumberBeyondSense(formed.span, str(error)) from None
        value, direction = directed(value, formed.direction, self.conventions)
        if formed.heading is not None:
            value = abs(value)
            vector = headed(value, formed.heading, self.conventions.points)
        spread = self._spread_of(tree, data, name, formed.span)
        if spread is not None and vector is not None:
            raise UncertaintyOfVector(formed.span, name.key)
        return Datum(
            name,
            Quantity(value, unit, None, direction, plane=vector, spread=spread),
            "given",
            where,
            formed.span,
            rests_on=tuple(data.values()),
        )

    def _spread_of(self, tree: t.Expr, data: dict[Name, Datum], asked: Name, span: Span) -> Spread | None:
        """The deviation of an expression, from those of its names. Raises UncertaintyAtEdge."""
        values = {n: d.quantity.value for n, d in data.items()}
        parts: list[tuple[float, Spread]] = []
        for name, datum in data.items():
            if datum.quantity.spread is not None:

                def at(value: Real, name: Name = name) -> Real:
                    return evaluate(tree, {**values, name: value})

                try:
                    slope = sensitivity(at, datum.quantity.value, datum.quantity.spread)
                except RealError:
                    raise UncertaintyAtEdge(span, asked.key, name.key) from None
                parts.append((slope, datum.quantity.spread))
        return Spread.combined(parts) if parts else None

    def _unit(self, tree: t.Expr, data: dict[Name, Datum]) -> Unit:
        dimensions = Dimensions(
            {n: d.quantity.unit.dimension for n, d in data.items()},
            exponents_of(data),
            {},
            self.conventions.style,
        )
        dimension = dimensions.check_expression(tree)
        same = {
            d.quantity.unit.text(): d.quantity.unit
            for d in data.values()
            if d.quantity.unit.dimension == dimension
        }
        if len(same) == 1 and dimension is not None:
            (unit,) = same.values()
            return difference_of(unit) if unit.offset else unit
        return coherent_unit(dimension) if dimension is not None else ONE


def exponents_of(data: dict[Name, Datum]) -> dict[Name, Fraction]:
    """The names that are plain rational numbers, with their values: what an exponent may be made of."""
    return {
        name: value
        for name, datum in data.items()
        if not datum.quantity.unit.factors and (value := datum.quantity.value.fraction) is not None
    }


def read_given(
    items: Sequence[GivenText], scope: Scope, conventions: Conventions
) -> tuple[GivenLayer, list[Problem]]:
    """Evaluate data lines into one layer of names.

    Args:
        items: the lines of a block.
        scope: what names outside the block mean, and the results that `from` reaches.
        conventions: the settings in force.

    Returns:
        The names with their values (those that could be read), and every problem of the block.
    """
    reader = _Reader(items, with_distances(scope, conventions.points), conventions)
    return reader.all(), reader.problems


def describe(datum: Datum, style: NumberStyle, unit_style: str = "powers") -> str:
    """A datum for messages: "m = 640 kg (line 15)"."""
    return (
        f"{datum.name.key} = {plain_printed(printed_datum(datum, style), style, unit_style)} ({datum.where})"
    )
