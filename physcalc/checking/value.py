"""The exact value of a tree."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from ..exact import PI, Real, RealError, acos, asin, atan, atan2, cos, exp, ln, log10, sin, sqrt, tan
from ..language import tree as t
from ..language.names import Name

Values = Mapping[Name, Real]

_DEGREE = PI * Real.of(Fraction(1, 180))
_ONE_ARGUMENT = {
    "sin": sin, "cos": cos, "tan": tan, "asin": asin, "acos": acos, "atan": atan, "sqrt": sqrt, "exp": exp,
    "ln": ln, "log": log10, "log10": log10,
}  # fmt: skip


class NoValueError(KeyError):
    """A name without a value stands in the tree."""


def evaluate(node: t.Expr, values: Values) -> Real:
    """The value of a tree, in SI coherent units, angles in radians.

    Args:
        node: the tree, without ± signs.
        values: the value of each name.

    Raises:
        NoValueError: a name is not in `values`.
        RealError: division by zero, a root or logarithm of a negative number, a number beyond all sense.
    """
    match node:
        case t.Num(number, unit):
            value = Real.of(number.value)
            return value * _DEGREE if unit == "°" else value
        case t.Sym(name) | t.Put(name=name):
            try:
                return values[name]
            except KeyError:
                raise NoValueError(name) from None
        case t.Pi():
            return PI
        case t.Sum(terms, signs):
            total: Real | None = None
            for term, sign in zip(terms, signs, strict=True):
                value = evaluate(term, values)
                if sign == "-":
                    value = -value
                elif sign not in ("", "+"):
                    raise ValueError("a sign is not chosen")
                total = value if total is None else total + value
            assert total is not None
            return total
        case t.Product(factors, joins):
            result = evaluate(factors[0], values)
            for factor, join in zip(factors[1:], joins, strict=True):
                value = evaluate(factor, values)
                result = result / value if join == "/" else result * value
            return result
        case t.Power(base, exponent):
            return evaluate(base, values) ** evaluate(exponent, values)
        case t.Call(function, arguments, _, power):
            if function == "abs":
                value = abs(evaluate(arguments[0], values))
            elif function == "atan2":
                value = atan2(evaluate(arguments[0], values), evaluate(arguments[1], values))
            else:
                value = _ONE_ARGUMENT[function](evaluate(arguments[0], values))
            return value if power is None else value ** evaluate(power, values)
        case t.Group(body):
            return evaluate(body, values)
        case t.Abs(body):
            return abs(evaluate(body, values))


def residual_vanishes(equation: t.Equation, values: Values) -> bool:
    """Whether the values satisfy the formula, to within what 50 digits can tell.

    Both sides are computed with guard digits; they count as equal where they agree to 40 significant digits
    (of the larger side), or where the difference vanishes exactly.
    """
    left = evaluate(equation.left, values)
    right = evaluate(equation.right, values)
    if left.fraction is not None and right.fraction is not None:
        return left.fraction == right.fraction
    if left == right:  # In closed form: exactly.
        return True
    a, b = left.approximate(60), right.approximate(60)
    size = max(abs(a), abs(b), _largest_term(equation, values))
    return bool(abs(a - b) * 10**40 <= size)


def _largest_term(equation: t.Equation, values: Values) -> object:
    """The largest term of either side: what an honest residual is small against when a side is zero."""
    sizes = []
    for side in (equation.left, equation.right):
        if isinstance(side, t.Sum):
            for term in side.terms:
                sizes.append(abs(evaluate(term, values).approximate(30)))
    return max(sizes, default=0)


__all__ = ["NoValueError", "RealError", "Values", "evaluate", "residual_vanishes"]
