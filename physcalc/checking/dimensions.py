"""Dimensions, before any number is put in.

Every part of a formula has a dimension that is known or is a combination of unknowns' dimensions; each sum
and each equals sign asks two of them to be equal. The equations for the unknowns' dimensions are linear, so
they are solved on the way, and the first one that can not hold is the problem.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..exact import NumberStyle
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain
from ..problems import Span
from ..problems.checking import DimensionsDiffer, PlainNumberNeeded
from ..problems.language import AngleUnitMissing
from ..units import DIMENSIONLESS_DIMENSION, Dimension, coherent_unit

_ANGLES = ("sin", "cos", "tan")
_PLAIN = ("exp", "ln", "log", "log10", "asin", "acos", "atan")


@dataclass(frozen=True, slots=True)
class Form:
    """A known dimension times powers of unknown ones.

    Attributes:
        known: the known part.
        unknown: power of each unknown dimension.
    """

    known: Dimension
    unknown: tuple[tuple[Name, int | Fraction], ...] = ()

    def times(self, other: Form, power: int | Fraction = 1) -> Form:
        """This times a power of another."""
        if not self.unknown and not other.unknown:
            if power == 1:
                return Form(self.known * other.known)
            return Form(self.known / other.known) if power == -1 else Form(self.known * other.known**power)
        powers = dict(self.unknown)
        for name, p in other.unknown:
            powers[name] = powers.get(name, 0) + p * power
        return Form(self.known * other.known**power, tuple((n, p) for n, p in powers.items() if p))


_NONE = Form(DIMENSIONLESS_DIMENSION)


class Dimensions:
    """The dimensions of a set of formulas: what is known, and what follows for the rest."""

    def __init__(
        self,
        known: Mapping[Name, Dimension],
        exponents: Mapping[Name, Fraction],
        bare_angles: Mapping[Name, str],
        style: NumberStyle,
    ) -> None:
        """Take what is known.

        Args:
            known: dimensions of names with a value or a unit asked.
            exponents: values of names that are plain rational numbers, for exponents.
            bare_angles: names given a number without unit, and that number as typed; refused in sin, cos,
                tan.
            style: for messages.
        """
        self._known = dict(known)
        self._exponents = exponents
        self._bare = bare_angles
        self._style = style
        self._bound: dict[Name, Form] = {}

    def of(self, name: Name) -> Dimension | None:
        """The dimension of a name, where it is known or follows."""
        if name in self._known:
            return self._known[name]
        if name in self._bound:
            form = self._reduced(self._bound[name])
            return form.known if not form.unknown else None
        return None

    def check(self, equation: t.Equation, place: Span | None = None) -> None:
        """Check one formula, learning from it.

        Args:
            equation: the formula.
            place: where to report; None for the part of the formula itself.

        Raises:
            DimensionsDiffer, PlainNumberNeeded, AngleUnitMissing.
        """
        left, right = self._form(equation.left, place), self._form(equation.right, place)
        self._equal(left, right, "equal", equation.left, equation.right, place or equation.span)

    def check_expression(self, node: t.Expr, place: Span | None = None) -> Dimension | None:
        """Check an expression and give its dimension, None where that is open. Raises as `check`."""
        form = self._form(node, place)
        if form is None:
            return None
        form = self._reduced(form)
        return form.known if not form.unknown else None

    def _reduced(self, form: Form) -> Form:
        result = Form(form.known)
        for name, power in form.unknown:
            bound = self._bound.get(name)
            result = result.times(
                self._reduced(bound) if bound else Form(DIMENSIONLESS_DIMENSION, ((name, 1),)),
                power,
            )
        return result

    def _equal(
        self, a: Form | None, b: Form | None, relation: str, first: t.Expr, second: t.Expr, span: Span
    ) -> None:
        if a is None or b is None:
            return
        quotient = self._reduced(a.times(b, -1))
        if quotient.unknown:
            (name, power), rest = quotient.unknown[0], quotient.unknown[1:]
            inverse = Form(
                quotient.known ** Fraction(-1, power), tuple((n, Fraction(-p, power)) for n, p in rest)
            )
            self._bound[name] = inverse
        elif quotient.known != DIMENSIONLESS_DIMENSION:
            left, right = self._reduced(a), self._reduced(b)
            if left.unknown or right.unknown:
                # Both hold the same open unknowns: what differs is the known part.
                left, right = Form(left.known), Form(right.known)
            raise DimensionsDiffer(
                span,
                relation,
                plain(first, self._style),
                _unit(left.known),
                plain(second, self._style),
                _unit(right.known),
                currencies=left.known.exponents == right.known.exponents
                and bool(left.known.money and right.known.money),
            )

    def _must_be_plain(self, form: Form | None, node: t.Expr, where: str, place: Span | None) -> None:
        if form is None:
            return
        form = self._reduced(form)
        if form.unknown:
            self._equal(form, _NONE, "equal", node, node, place or _span(node))
        elif form.known != DIMENSIONLESS_DIMENSION:
            raise PlainNumberNeeded(place or _span(node), where, plain(node, self._style), _unit(form.known))

    def _form(self, node: t.Expr, place: Span | None) -> Form | None:
        """The form of a part; None for a zero, which fits everywhere."""
        match node:
            case t.Num(number, _):
                return None if number.value == 0 else _NONE
            case t.Pi():
                return _NONE
            case t.Sym(name) | t.Put(name=name):
                if name in self._known:
                    return Form(self._known[name])
                return Form(DIMENSIONLESS_DIMENSION, ((name, 1),))
            case t.Group(body) | t.Abs(body):
                return self._form(body, place)
            case t.Sum(terms):
                first: tuple[Form, t.Expr] | None = None
                for term in terms:
                    form = self._form(term, place)
                    if form is None:
                        continue
                    if first is None:
                        first = form, term
                    else:
                        self._equal(first[0], form, "added", first[1], term, place or _span(node))
                return first[0] if first else None
            case t.Product(factors, joins):
                total: Form = _NONE
                zero = False
                for factor, join in zip(factors, ("", *joins), strict=True):
                    form = self._form(factor, place)
                    if form is None:
                        zero = True
                    else:
                        total = total.times(form, -1 if join == "/" else 1)
                return None if zero else total
            case t.Power(base, exponent):
                return self._power(base, exponent, place)
            case t.Call():
                return self._call(node, place)

    def _power(self, base: t.Expr, exponent: t.Expr, place: Span | None) -> Form | None:
        below = self._form(base, place)
        self._must_be_plain(self._form(exponent, place), exponent, "an exponent", place)
        power = self._constant(exponent)
        if below is None:
            return None
        if power is not None:
            return _NONE.times(below, power)
        self._must_be_plain(below, base, "a power with a variable exponent", place)
        return _NONE

    def _constant(self, node: t.Expr) -> Fraction | None:
        """The value of an exponent made of plain rational numbers."""
        match node:
            case t.Num(number, ""):
                return number.value
            case t.Sym(name):
                return self._exponents.get(name)
            case t.Group(body):
                return self._constant(body)
            case t.Sum(terms, signs):
                total = Fraction(0)
                for term, sign in zip(terms, signs, strict=True):
                    value = self._constant(term)
                    if value is None:
                        return None
                    total += -value if sign == "-" else value
                return total
            case t.Product(factors, joins):
                result = Fraction(1)
                for factor, join in zip(factors, ("", *joins), strict=True):
                    value = self._constant(factor)
                    if value is None or (join == "/" and value == 0):
                        return None
                    result = result / value if join == "/" else result * value
                return result
            case _:
                return None

    def _call(self, call: t.Call, place: Span | None) -> Form | None:
        argument = call.arguments[0]
        if call.function in _ANGLES:
            inner = argument.body if isinstance(argument, t.Group) else argument
            if isinstance(inner, t.Num) and not inner.unit and inner.number.value != 0:
                raise AngleUnitMissing(place or inner.span, call.function, inner.number.typed)
            if isinstance(inner, t.Sym) and inner.name in self._bare:
                raise AngleUnitMissing(place or inner.span, call.function, self._bare[inner.name])
        form = self._form(argument, place)
        if call.function == "sqrt":
            result = None if form is None else _NONE.times(form, Fraction(1, 2))
        elif call.function == "abs":
            result = form
        elif call.function == "atan2":
            other = self._form(call.arguments[1], place)
            self._equal(form, other, "compared", argument, call.arguments[1], place or call.span)
            result = _NONE
        else:
            self._must_be_plain(form, argument, call.function, place)
            result = _NONE
        if call.power is not None and result is not None:
            power = self._constant(call.power)
            result = _NONE.times(result, power if power is not None else Fraction(1))
        return result


def _span(node: t.Expr) -> Span:
    return node.span


def _unit(dimension: Dimension) -> str:
    return coherent_unit(dimension).text()
