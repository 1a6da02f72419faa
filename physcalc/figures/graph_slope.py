"""Curves: their values, their gradients, and the areas below them, exactly."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal, localcontext
from fractions import Fraction
from functools import lru_cache

from ..checking.value import evaluate
from ..exact import Real, RealError, cos, exp, ln, round_figures, sin, sqrt, tan
from ..language import tree as t
from ..language.names import Name
from .graph_diagram import Curve

_ZERO, _ONE = Real.of(0), Real.of(1)


def height(curve: Curve, x: Real) -> Real:
    """A curve's y at an x, both in coherent SI units. Raises RealError."""
    return evaluate(curve.tree, {**dict(curve.values), curve.variable: x})


def slope(curve: Curve, x: Real) -> Real:
    """A curve's gradient at an x, in coherent SI units. Raises RealError where it has none."""
    return _pair(curve.tree, {**dict(curve.values), curve.variable: x}, curve.variable)[1]


def area(curve: Curve, start: Real, end: Real) -> Real | None:
    """The area below a curve; None where it is not found to twenty figures (a curve with a corner).

    Simpson's rule is exact for polynomials of the third degree at most. A curve is one where the polynomial through
    four of its points passes through four others as well. Of any other it is found by quadrature.

    Raises:
        RealError: the curve has no value somewhere between.
    """
    width = end - start

    def at(share: Fraction) -> Real:
        return height(curve, start + width * Real.of(share))

    four = [Fraction(n, 3) for n in range(4)]
    known = [at(share) for share in four]
    for share in (Fraction(1, 7), Fraction(5, 11), Fraction(8, 13), Fraction(16, 17)):
        through = _ZERO
        for n, own in enumerate(four):
            weight = Fraction(1)
            for other in four:
                if other != own:
                    weight *= (share - other) / (own - other)
            through = through + known[n] * Real.of(weight)
        if not through.equals(at(share)):
            return _quadrature(at, width)
    middle = at(Fraction(1, 2))
    return width * (known[0] + middle * Real.of(4) + known[3]) * Real.of(Fraction(1, 6))


#: Steps of quadrature in each unit of its variable: a coarse sum, and the finer one that it is compared with, whose
#: error is about the square of their difference.
_STEPS = 16
_AGREED = Fraction(1, 10**11)
_DIGITS = 40


@lru_cache(maxsize=1)
def _nodes() -> tuple[tuple[Fraction, Fraction, bool], ...]:
    """Places between 0 and 1, their weights, and whether the coarse sum has them: the double exponential formula of
    H. Takahasi and M. Mori (Publications of RIMS 9, 1974, 721), x = (1 + tanh(π/2 sinh t))/2."""
    found = []
    with localcontext(prec=_DIGITS + 10):
        half_pi = Decimal("1.57079632679489661923132169163975144209858469968755")
        reach = int(4.2 * 2 * _STEPS)
        for n in range(-reach, reach + 1):
            grown = (Decimal(n) / (2 * _STEPS)).exp()
            sine, cosine = (grown - 1 / grown) / 2, (grown + 1 / grown) / 2
            power = (2 * half_pi * sine).exp()
            place = power / (1 + power)
            weight = half_pi * cosine * 2 * place / (1 + power) / (2 * _STEPS)
            found.append((Fraction(place), Fraction(weight), n % 2 == 0))
    return tuple(found)


def _quadrature(at: Callable[[Fraction], Real], width: Real) -> Real | None:
    """The area below a curve by its heights at shares of its width; None where they do not settle."""
    fine = coarse = size = Fraction(0)
    for place, weight, both in _nodes():
        value = at(place)
        if value.sign():
            part = weight * round_figures(value, _DIGITS).fraction
            fine += part
            coarse += 2 * part if both else 0
            size += abs(part)
    if abs(fine - coarse) > _AGREED * size:
        return None
    # What is left where parts above and below the axis are equal is no area.
    return width * Real.of(fine) if abs(fine) > size * Fraction(1, 10**18) else _ZERO


def _pair(node: t.Expr, values: Mapping[Name, Real], by: Name) -> tuple[Real, Real]:
    """The value of a formula and its derivative by a name, from those of its parts."""
    if by not in t.names_in(node):
        return evaluate(node, values), _ZERO
    match node:
        case t.Sym() | t.Put():
            return evaluate(node, values), _ONE
        case t.Group(body):
            return _pair(body, values, by)
        case t.Abs(body) | t.Call("abs", (body,)):
            value, rate = _pair(body, values, by)
            if value.sign() == 0:
                raise RealError("a magnitude has no gradient where it is zero")
            return (value, rate) if value.sign() > 0 else (-value, -rate)
        case t.Sum(terms, signs):
            total, rate = _ZERO, _ZERO
            for term, sign in zip(terms, signs, strict=True):
                one, own = _pair(term, values, by)
                total, rate = (total - one, rate - own) if sign == "-" else (total + one, rate + own)
            return total, rate
        case t.Product(factors, joins):
            total, rate = _pair(factors[0], values, by)
            for factor, join in zip(factors[1:], joins, strict=True):
                one, own = _pair(factor, values, by)
                if join == "/":
                    total, rate = total / one, (rate * one - total * own) / (one * one)
                else:
                    total, rate = total * one, rate * one + total * own
            return total, rate
        case t.Power(base, exponent):
            return _power(_pair(base, values, by), _pair(exponent, values, by))
        case t.Call(function, (argument, *_), _, power):
            inner = _pair(argument, values, by)
            value, rate = _called(function, *inner)
            if power is None:
                return value, rate
            return _power((value, rate), _pair(power, values, by))
        case _:
            return evaluate(node, values), _ZERO


def _power(base: tuple[Real, Real], exponent: tuple[Real, Real]) -> tuple[Real, Real]:
    (value, rate), (power, growth) = base, exponent
    whole = value**power
    out = _ZERO
    if rate.sign() != 0:
        out = power * value ** (power - _ONE) * rate
    if growth.sign() != 0:
        out = out + whole * ln(value) * growth
    return whole, out


def _called(function: str, value: Real, rate: Real) -> tuple[Real, Real]:
    """A function's value and derivative, for an argument with its own."""
    match function:
        case "sin":
            return sin(value), cos(value) * rate
        case "cos":
            return cos(value), -sin(value) * rate
        case "tan":
            return tan(value), rate / (cos(value) ** 2)
        case "sqrt":
            root = sqrt(value)
            return root, rate / (root * 2)
        case "exp":
            grown = exp(value)
            return grown, grown * rate
        case "ln":
            return ln(value), rate / value
        case "log" | "log10":
            return ln(value) / ln(Real.of(10)), rate / (value * ln(Real.of(10)))
        case _:
            raise RealError(f"the gradient of {function} is not known")
