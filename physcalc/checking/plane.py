"""Formulas between vectors in a plane: which are such, and the two formulas of components that they stand for."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from ..exact import Number
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain
from ..language.statements import Conventions
from ..problems import Span
from ..problems.checking import VectorMeetsScalar
from .replace import put_in
from .scope import Scope

_ZERO = Number(Fraction(0), "0", None, "0")


@dataclass(frozen=True, slots=True)
class VectorFormula:
    """A formula between vectors.

    Attributes:
        equation: as typed.
        x, y: the same for the components.
        unknown: the vector that is asked.
    """

    equation: t.Equation
    x: t.Equation
    y: t.Equation
    unknown: Name


def _terms(node: t.Expr) -> list[t.Expr]:
    if isinstance(node, t.Group):
        return _terms(node.body)
    if isinstance(node, t.Sum):
        return [inner for term in node.terms for inner in _terms(term)]
    return [node]


def _bare(term: t.Expr) -> list[Name]:
    """The names that stand as plain factors of a term (not below a fraction line, in a power or a function)."""
    match term:
        case t.Sym(name):
            return [name] if not name.component else []
        case t.Group(body):
            return (
                _bare(body)
                if not isinstance(body, t.Sum)
                else [n for inner in _terms(body) for n in _bare(inner)]
            )
        case t.Product(factors, joins):
            if any(isinstance(f, t.Call) and f.function in ("sin", "cos", "tan") for f in factors):
                return []  # F cos θ is a component already.
            above = [f for f, join in zip(factors, ("", *joins), strict=True) if join != "/"]
            return [name for factor in above for name in _bare(factor)]
        case _:
            return []


def _zero(term: t.Expr) -> bool:
    return isinstance(term, t.Num) and term.number.value == 0


def vector_formula(
    equation: t.Equation, asked: tuple[Name, ...], scope: Scope, directed: bool, conventions: Conventions
) -> VectorFormula | None:
    """Tell whether a formula is one between vectors in a plane, and take it apart.

    It is where vectors are added or subtracted in it, or where what is asked is to carry a direction, and one thing
    is asked. Elsewhere a vector stands as its size.

    Args:
        equation: the formula.
        asked: what is found.
        scope: what names mean.
        directed: whether the answer carries a direction.
        conventions: for messages.

    Raises:
        VectorMeetsScalar: a vector is added to a quantity without direction.
    """
    if len(asked) != 1:
        return None
    (unknown,) = asked
    if unknown.component:
        return None
    typed, sized = equation, False
    if isinstance(equation.right, t.Abs) and isinstance(equation.left, t.Sym):
        # F = |F_1 + F_2|: the size of a sum of vectors.
        equation, sized = t.Equation(equation.left, equation.right.body, equation.span), True

    def vectors(term: t.Expr) -> list[Name]:
        found = []
        for name in _bare(term):
            datum = scope.find(name)
            if name != unknown and datum is not None and datum.quantity.plane is not None:
                found.append(name)
        return found

    terms = [*_terms(equation.left), *_terms(equation.right)]
    counts = [len(vectors(term)) for term in terms]
    if not any(counts) or any(count > 1 for count in counts):
        return None
    sides = [_terms(side) for side in (equation.left, equation.right)]
    added = any(len(side) > 1 and any(vectors(term) for term in side) for side in sides)
    if not added and not (directed and not sized):
        return None
    for term, count in zip(terms, counts, strict=True):
        if count == 0 and unknown not in _bare(term) and not _zero(term):
            vector = next(v for other in terms for v in vectors(other))
            raise VectorMeetsScalar(_place(term, equation), plain(term, conventions.style), vector.key)
    if not any(unknown in _bare(term) for term in terms):
        return None
    swapped = {unknown, *(name for term in terms for name in vectors(term))}
    x, y = (_along(equation, swapped, component) for component in ("x", "y"))
    return VectorFormula(typed, x, y, unknown)


def _place(term: t.Expr, equation: t.Equation) -> Span:
    return term.span if term.span != Span() else equation.span


def _along(equation: t.Equation, names: set[Name], component: str) -> t.Equation:
    left, right = equation.left, equation.right
    for name in names:
        part = t.Sym(name.along(component))
        left, right = put_in(left, name, part), put_in(right, name, part)
    return t.Equation(left, right, equation.span)


def component_tree(name: Name, scope: Scope, size: t.Expr) -> t.Expr | None:
    """A component as a teacher writes it: the size times the cosine or sine of the angle typed; None where it was
    typed as a component or computed.

    Args:
        name: the component.
        scope: what names mean.
        size: what stands for the vector's size.
    """
    whole = scope.find(name.whole)
    if not name.component or whole is None or whole.quantity.plane is None:
        return None
    heading = whole.quantity.plane.heading
    if heading is None:
        return None
    sign, function = heading.parts()[name.component == "y"]
    if not function:
        return t.Num(_ZERO)
    tree = size
    if function != "one":
        assert heading.angle is not None
        angle = t.Num(heading.angle, "rad" if heading.radians else "°")
        tree = t.Product((size, t.Call(function, (angle,))), ("",))
    return t.Group(t.Sum((tree,), ("-",))) if sign < 0 else tree
