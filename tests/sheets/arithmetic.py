"""Values and dimensions of a sheet's formulas, worked out in floating point and apart from the solver."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from physcalc.language import tree as t
from physcalc.units import DIMENSIONLESS_DIMENSION, Dimension

_FUNCTIONS = {
    "sin": math.sin,
    "cos": math.cos,
    "tan": math.tan,
    "sqrt": math.sqrt,
    "exp": math.exp,
    "ln": math.log,
    "log10": math.log10,
}


@dataclass(frozen=True)
class Amount:
    """A number in coherent SI units with its dimension."""

    value: float
    dimension: Dimension = DIMENSIONLESS_DIMENSION


class DimensionError(Exception):
    """Two terms differ in dimension, or something that must be a plain number is not."""


def work_out(node: t.Expr, values: Mapping[str, Amount], signs: str = "+") -> Amount:
    """The amount of an expression; a ± takes the sign given, a ∓ its opposite."""

    def of(part: t.Expr) -> Amount:
        return work_out(part, values, signs)

    match node:
        case t.Num(number, unit):
            return Amount(float(number.value) * (math.pi / 180 if unit == "°" else 1))
        case t.Pi():
            return Amount(math.pi)
        case t.Sym(name):
            return values[name.key]
        case t.Group(body):
            return of(body)
        case t.Abs(body):
            inner = of(body)
            return Amount(abs(inner.value), inner.dimension)
        case t.Sum(terms, typed):
            parts = [of(term) for term in terms]
            if len({part.dimension for part in parts}) > 1:
                raise DimensionError([part.dimension.text() for part in parts])
            opposite = "-" if signs == "+" else "+"
            minus = {"-": True, "±": signs == "-", "∓": opposite == "-"}
            total = sum(
                -part.value if minus.get(sign, False) else part.value
                for part, sign in zip(parts, typed, strict=True)
            )
            return Amount(total, parts[0].dimension)
        case t.Product(factors, joins):
            result = of(factors[0])
            for factor, join in zip(factors[1:], joins, strict=True):
                by = of(factor)
                if join == "/":
                    result = Amount(result.value / by.value, result.dimension / by.dimension)
                else:
                    result = Amount(result.value * by.value, result.dimension * by.dimension)
            return result
        case t.Power(base, exponent):
            inner, power = of(base), of(exponent)
            if power.dimension != DIMENSIONLESS_DIMENSION:
                raise DimensionError("exponent")
            if inner.dimension == DIMENSIONLESS_DIMENSION:
                return Amount(inner.value**power.value)
            exact = Fraction(power.value).limit_denominator(12)
            return Amount(inner.value**power.value, inner.dimension**exact)
        case t.Call("sqrt", (argument,)):
            inner = of(argument)
            return Amount(math.sqrt(inner.value), inner.dimension ** Fraction(1, 2))
        case t.Call(function, (argument,)):
            inner = of(argument)
            if inner.dimension != DIMENSIONLESS_DIMENSION:
                raise DimensionError(function)
            return Amount(_FUNCTIONS[function](inner.value))
        case _:
            raise NotImplementedError(type(node))
