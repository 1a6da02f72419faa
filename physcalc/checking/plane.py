"""Formulas between vectors in a plane: which are such, and the two formulas of components that they stand for."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import dataclass

from ..exact import Numeral
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain
from ..language.statements import Conventions
from ..language.tree import Printed
from ..problems import Span
from ..problems.checking import NameWithoutValue
from ..problems.vectors import VectorMeetsScalar, VectorsAsSizes
from .scope import Plane, Scope


@dataclass(frozen=True, slots=True)
class VectorFormula:
    """A formula between vectors.

    Attributes:
        equation: as typed.
        x, y: the same for the components.
        unknown: the vector that is asked.
        sized: whether its size alone is asked, as in F = |F_1 + F_2|.
    """

    equation: t.Equation
    x: t.Equation
    y: t.Equation
    unknown: Name
    sized: bool = False


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
            return _bare(body)
        case t.Sum(terms):
            return [name for inner in terms for name in _bare(inner)]
        case t.Product():
            return [name for factor in _above(term) for name in _bare(factor)]
        case _:
            return []


def _above(product: t.Product) -> list[t.Expr]:
    """The factors above the fraction line; none where one is a component already, as in F cos θ."""
    if any(isinstance(f, t.Call) and f.function in ("sin", "cos", "tan") for f in product.factors):
        return []
    return [f for f, join in zip(product.factors, ("", *product.joins), strict=True) if join != "/"]


def _degree(node: t.Expr, vectors: Collection[Name]) -> int | None:
    """How many vectors are multiplied with one another in a tree; None where terms of a sum differ in it."""
    match node:
        case t.Sym(name):
            return int(name in vectors)
        case t.Group(body):
            return _degree(body, vectors)
        case t.Sum(terms):
            found = {_degree(term, vectors) for term in terms if not _zero(term)} or {0}
            return found.pop() if len(found) == 1 else None
        case t.Product():
            degrees = [_degree(factor, vectors) for factor in _above(node)]
            return None if None in degrees else sum(d for d in degrees if d is not None)
        case _:
            return 0


def _zero(term: t.Expr) -> bool:
    return isinstance(term, t.Num) and term.number.value == 0


def _resting(term: t.Expr, scope: Scope) -> Name | None:
    """The factor of a term that is zero and so needs no direction, as in m u for u = 0 m/s; None for none."""
    for name in _bare(term):
        datum = scope.find(name)
        if datum is not None and datum.quantity.plane is None and datum.quantity.value.sign() == 0:
            return name
    return None


def _in_plane(tree: t.Expr, scope: Scope) -> list[Name]:
    """The plain factors of a tree that are vectors in a plane."""
    found = []
    for name in _bare(tree):
        datum = scope.find(name)
        if datum is not None and datum.quantity.plane is not None:
            found.append(name)
    return found


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
        VectorsAsSizes: vectors are added where only their sizes could be.
    """
    found = _taken_apart(equation, asked, scope, directed, conventions)
    if found is None:
        refuse_sizes_added((equation.left, equation.right), scope)
    return found


def _taken_apart(
    equation: t.Equation, asked: tuple[Name, ...], scope: Scope, directed: bool, conventions: Conventions
) -> VectorFormula | None:
    if len(asked) != 1:
        return None
    (unknown,) = asked
    if unknown.component:
        return None
    typed, sized = equation, False
    if isinstance(equation.right, t.Abs) and isinstance(equation.left, t.Sym):
        # F = |F_1 + F_2|: the size of a sum of vectors.
        equation, sized = t.Equation(equation.left, equation.right.body, equation.span), True
    sides = (equation.left, equation.right)
    vectors = {name for side in sides for name in _in_plane(side, scope) if name != unknown}
    terms = [term for side in sides for term in _terms(side)]
    degrees = [_degree(term, vectors) for term in terms]
    if not vectors or any(degree is None or degree > 1 for degree in degrees):
        return None
    summed = [side.body if isinstance(side, t.Group) else side for side in sides]
    added = any(
        isinstance(part, t.Sum) and vectors.intersection(_bare(part))
        for side in summed
        for part in t.walk(side)
    )
    if not added and not (directed and not sized):
        return None
    for term, degree in zip(terms, degrees, strict=True):
        if degree == 0 and unknown not in _bare(term) and not _zero(term):
            resting = _resting(term, scope)
            if resting is not None:
                vectors.add(resting)
                continue
            missing = next((n for n in _bare(term) if scope.find(n) is None), None)
            if missing is not None:
                known = tuple(n.key for n in scope.names())
                raise NameWithoutValue(_place(term, equation.span), missing.key, known)
            vector = next(name for name in _bare(t.Sum(tuple(terms), ("",) * len(terms))) if name in vectors)
            raise VectorMeetsScalar(_place(term, equation.span), plain(term, conventions.style), vector.key)
    if not any(unknown in _bare(term) for term in terms):
        return None
    x, y = (_along(equation, {unknown, *vectors}, component) for component in ("x", "y"))
    return VectorFormula(typed, x, y, unknown, sized and not directed)


def refuse_sizes_added(trees: Iterable[t.Expr], scope: Scope) -> None:
    """Refuse sums of vectors in a plane in what is worked out as plain numbers: only their sizes would be added.

    Args:
        trees: an expression, or the sides of a formula.
        scope: what names mean.

    Raises:
        VectorsAsSizes: there is one.
    """
    for tree in trees:
        for part in t.walk(tree):
            if not isinstance(part, t.Sum):
                continue
            for term in part.terms:
                vectors = _in_plane(term, scope)
                if vectors and _degree(term, vectors) == 1:
                    raise VectorsAsSizes(_place(term, _place(part, Span())), vectors[0].key)


def vector_value(tree: t.Expr, scope: Scope) -> tuple[t.Expr, t.Expr, Plane] | None:
    """The two components that an expression between vectors stands for, and the first of the vectors in it.

    Args:
        tree: the expression, such as `F_1 + F_2` or `2 v`.
        scope: what names mean.

    Returns:
        None where it is no vector.

    Raises:
        VectorsAsSizes: vectors are added in it where only their sizes could be.
    """
    vectors = _in_plane(tree, scope)
    if not vectors or _degree(tree, set(vectors)) != 1:
        refuse_sizes_added((tree,), scope)
        return None
    first = scope.find(vectors[0])
    assert first is not None
    assert first.quantity.plane is not None
    x, y = (_part(tree, set(vectors), component) for component in ("x", "y"))
    return x, y, first.quantity.plane


def _place(term: t.Expr, otherwise: Span) -> Span:
    return term.span if term.span != Span() else otherwise


def _along(equation: t.Equation, names: set[Name], component: str) -> t.Equation:
    left, right = (_part(side, names, component) for side in (equation.left, equation.right))
    return t.Equation(left, right, equation.span)


def _part(node: t.Expr, names: set[Name], component: str) -> t.Expr:
    """A tree with the component of each vector that is a plain factor in it; elsewhere a vector stays as its size."""
    match node:
        case t.Sym(name, span):
            return t.Sym(name.along(component), span) if name in names else node
        case t.Group(body, span):
            return t.Group(_part(body, names, component), span)
        case t.Sum(terms, signs, span):
            return t.Sum(tuple(_part(term, names, component) for term in terms), signs, span)
        case t.Product(factors, joins, span):
            above = {id(factor) for factor in _above(node)}
            put = tuple(_part(f, names, component) if id(f) in above else f for f in factors)
            return t.Product(put, joins, span)
        case _:
            return node


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
    if heading is None or heading.between is not None:
        return None
    sign, function = heading.parts()[name.component == "y"]
    if not function:
        return t.Put(Printed(Numeral(False, "0", "")), name)
    tree = size
    if function != "one":
        assert heading.angle is not None
        angle = t.Num(heading.angle, "rad" if heading.radians else "°")
        tree = t.Product((size, t.Call(function, (angle,))), ("",))
    return t.Group(t.Sum((tree,), ("-",))) if sign < 0 else tree
