"""`e^(…)`: the exponential where no quantity e is in scope, never the elementary charge to a power."""

from __future__ import annotations

from ..exact import NumberStyle
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain, plain_printed
from ..problems.checking import ExponentialUnclear
from .printing import printed_datum
from .scope import Scope

_E = Name("e")


def with_exponentials(node: t.Expr, scope: Scope, asked: frozenset[Name], style: NumberStyle) -> t.Expr:
    """A tree in which `e^(…)` is the exponential, where no e is in scope.

    A whole number above e is left alone (`k e^2 / r^2` squares a charge); so is an e that is a plain number
    (a coefficient of restitution).

    Raises:
        ExponentialUnclear: e stands for a quantity with a unit here, and has something else above it.
    """
    if _E in asked or not any(_raised_e(part) for part in t.walk(node)):
        return node

    def inner(part: t.Expr) -> t.Expr:
        return with_exponentials(part, scope, asked, style)

    match node:
        case t.Power(t.Sym(), exponent) if _raised_e(node):
            datum = scope.find(_E)
            if datum is None:
                body = exponent.body if isinstance(exponent, t.Group) else exponent
                return t.Call("exp", (inner(body),), True, None, node.span)
            if datum.quantity.unit.factors:
                value = plain_printed(printed_datum(datum, style), style)
                raise ExponentialUnclear(node.span, plain(node, style), value)
            return node
        case _:
            return t.rebuilt(node, inner)


def _raised_e(node: t.Expr) -> bool:
    """Whether a node is e to a power that is no whole number."""
    if not (isinstance(node, t.Power) and isinstance(node.base, t.Sym) and node.base.name == _E):
        return False
    above = node.exponent
    return not (isinstance(above, t.Num) and above.number.value.denominator == 1)
