"""An independent evaluation of formula trees with mpmath: none of the product's arithmetic is used.

Numbers enter as fractions, are worked at 80 digits, and are rounded with `decimal`.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Context, Decimal
from fractions import Fraction

import mpmath

from physcalc.language import tree as t

DIGITS = 80
mp = mpmath.mp.clone()
mp.dps = DIGITS

_FUNCTIONS = {
    "sin": mp.sin, "cos": mp.cos, "tan": mp.tan, "asin": mp.asin, "acos": mp.acos, "atan": mp.atan,
    "sqrt": mp.sqrt, "exp": mp.exp, "ln": mp.log, "log": mp.log10, "log10": mp.log10, "abs": abs,
    "atan2": mp.atan2,
}  # fmt: skip


def number(value: Fraction) -> mpmath.mpf:
    return mp.mpf(value.numerator) / value.denominator


def work_out(node: t.Expr, values: Mapping[str, mpmath.mpf]) -> mpmath.mpf:
    """The value of a tree; names by key, angles in radians.

    Raises:
        ValueError: a value on the way is complex, or beyond 10^±300.
        ZeroDivisionError: something is divided by zero.
    """
    value = _work_out(node, values)
    if isinstance(value, mp.mpc) or not mp.isfinite(value) or (value and abs(mp.log10(abs(value))) > 300):
        raise ValueError("beyond what is compared here")
    return value


def _work_out(node: t.Expr, values: Mapping[str, mpmath.mpf]) -> mpmath.mpf:
    match node:
        case t.Num(n, unit):
            return number(n.value) * (mp.pi / 180 if unit == "°" else 1)
        case t.Sym(name) | t.Put(name=name):
            return values[name.key]
        case t.Pi():
            return mp.pi
        case t.Group(body):
            return work_out(body, values)
        case t.Abs(body):
            return abs(work_out(body, values))
        case t.Sum(terms, signs):
            total = mp.mpf(0)
            for term, sign in zip(terms, signs, strict=True):
                total += {"-": -1}.get(sign, 1) * work_out(term, values)
            return total
        case t.Product(factors, joins):
            result = work_out(factors[0], values)
            for factor, join in zip(factors[1:], joins, strict=True):
                by = work_out(factor, values)
                result = result / by if join == "/" else result * by
            return result
        case t.Power(base, exponent):
            return work_out(base, values) ** work_out(exponent, values)
        case t.Call(function, arguments, _, power):
            value = _FUNCTIONS[function](*(work_out(x, values) for x in arguments))
            return value if power is None else value ** work_out(power, values)
    raise AssertionError(node)


def decimal_of(value: mpmath.mpf) -> Decimal:
    """The value with 60 digits."""
    return Decimal(mp.nstr(value, 60, min_fixed=1, max_fixed=0))


def rounded_places(value: mpmath.mpf, places: int, rule: str = "half-up") -> Decimal:
    way = ROUND_HALF_UP if rule == "half-up" else ROUND_HALF_EVEN
    return decimal_of(value).quantize(Decimal(1).scaleb(-places), rounding=way, context=Context(prec=200))


def rounded_figures(value: mpmath.mpf, figures: int, rule: str = "half-up") -> Decimal:
    way = ROUND_HALF_UP if rule == "half-up" else ROUND_HALF_EVEN
    return Context(prec=figures, rounding=way).plus(decimal_of(value))
