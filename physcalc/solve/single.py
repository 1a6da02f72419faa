"""One formula, one unknown: every value that it can have."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from ..checking.value import NoValueError, Values, evaluate, residual_vanishes
from ..exact import Number, Real, RealError
from ..language import tree as t
from ..language.names import Name
from .invert import Branch, peel
from .polynomial import Polynomial, as_ratio, real_roots, trimmed

Method = Literal["direct", "polynomial", "numeric"]


@dataclass(frozen=True, slots=True)
class Root:
    """A value that satisfies the formula.

    Attributes:
        value: the value.
        tree: what the unknown equals, where it could be made the subject; None otherwise.
        reason: what made it a second way ("−", "180° − θ"); empty for the first.
    """

    value: Real
    tree: t.Expr | None = None
    reason: str = ""


@dataclass(frozen=True, slots=True)
class OneUnknown:
    """All that came of solving one formula for one unknown.

    Attributes:
        roots: the verified values, each once.
        method: how they were found.
        polynomial: the coefficients, constant first, where it was solved as a polynomial.
        fault: why there is no root, in words, where there is none.
        cancelled: whether the unknown drops out of the formula.
        touching: where a search believes that there may be roots besides.
    """

    roots: tuple[Root, ...]
    method: Method
    polynomial: Polynomial | None = None
    fault: str = ""
    cancelled: bool = False
    touching: tuple[float, ...] = ()


_ZERO = Real.of(0)
_NOTHING = t.Num(Number(Fraction(0), "0", None, "0"))


def solve_one(equation: t.Equation, unknown: Name, values: Values) -> OneUnknown:
    """Every value of the unknown that satisfies the formula with the others' values put in.

    The formula is taken apart from the outside as far as it goes; what is left is solved as a polynomial,
    else by a verified numerical search. Each root is put back and must satisfy the formula.
    """
    branches = peel(equation, unknown)
    if branches is None:
        core: t.Expr = t.Sum((_grouped(equation.left), _grouped(equation.right)), ("", "-"))
        branches = [Branch(_NOTHING, core=core)]
    found: list[Root] = []
    faults: list[str] = []
    method: Method = "direct"
    polynomial: Polynomial | None = None
    cancelled = False
    touching: list[float] = []
    stretch: tuple[float, float] | None = None
    for branch in branches:
        try:
            target = evaluate(branch.tree, values)
            if branch.core is None:
                found.append(Root(target, branch.tree, branch.reason))
                continue
            ratio = as_ratio(branch.core, unknown, values)
            if ratio is not None:
                method = "polynomial"
                over = list(ratio[0]) + [_ZERO] * max(0, len(ratio[1]) - len(ratio[0]))
                for power, coefficient in enumerate(ratio[1]):
                    over[power] = over[power] - target * coefficient
                polynomial = trimmed(tuple(over))
                if len(polynomial) == 1:
                    cancelled = polynomial[0].sign() == 0
                    continue
                found.extend(Root(value, None, branch.reason) for value in real_roots(polynomial))
            else:
                method = "numeric"
                from .numeric import numeric_roots  # Here: few formulas need a search.

                search = numeric_roots(branch.core, target, unknown, values)
                found.extend(Root(value, None, branch.reason) for value in search.roots)
                touching += search.touching
                stretch = search.stretch or stretch
        except RealError as error:
            faults.append(str(error))
    kept: list[Root] = []
    for root in found:
        try:
            satisfied = residual_vanishes(equation, {**values, unknown: root.value})
        except (RealError, NoValueError):
            continue
        if satisfied and not any(root.value.equals(other.value) for other in kept):
            kept.append(root)
    fault = "" if kept else (faults[0] if faults else _no_root(method, touching, stretch))
    return OneUnknown(tuple(kept), method, polynomial, fault, cancelled, tuple(touching))


def _no_root(method: Method, touching: Sequence[float], stretch: tuple[float, float] | None) -> str:
    """Why there is no root: none at all, or none that a search can be sure of."""
    if stretch is not None:
        return f"every value from {stretch[0]:.3g} to {stretch[1]:.3g} seems to satisfy it"
    if touching:
        return f"its two sides seem to touch near {touching[0]:.3g} without crossing: give it in another form"
    if method == "numeric":
        return "a search finds no real number that satisfies it"
    return "no real number satisfies it"


def _grouped(node: t.Expr) -> t.Expr:
    return t.Group(node) if isinstance(node, t.Sum) else node
