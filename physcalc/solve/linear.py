"""Sets of formulas that are linear in their unknowns."""

from __future__ import annotations

from ..checking.value import Values, evaluate
from ..exact import Real
from ..language import tree as t
from ..language.names import Name

_ZERO, _ONE = Real.of(0), Real.of(1)

#: Coefficient of each unknown, and the constant.
Linear = tuple[dict[Name, Real], Real]


def as_linear(node: t.Expr, unknowns: frozenset[Name], values: Values) -> Linear | None:
    """A tree as a linear form in the unknowns, or None where it is not linear. Raises as `evaluate` does."""
    if not any(name in unknowns for name in t.names_in(node)):
        return {}, evaluate(node, values)
    match node:
        case t.Sym(name):
            return {name: _ONE}, _ZERO
        case t.Group(body):
            return as_linear(body, unknowns, values)
        case t.Sum(terms, signs):
            total: dict[Name, Real] = {}
            constant = _ZERO
            for term, sign in zip(terms, signs, strict=True):
                part = as_linear(term, unknowns, values)
                if part is None:
                    return None
                for name, c in part[0].items():
                    c = -c if sign == "-" else c
                    total[name] = total[name] + c if name in total else c
                constant = constant - part[1] if sign == "-" else constant + part[1]
            return total, constant
        case t.Product(factors, joins):
            scale = _ONE
            form: Linear | None = None
            for factor, join in zip(factors, ("", *joins), strict=True):
                if any(name in unknowns for name in t.names_in(factor)):
                    if form is not None or join == "/":
                        return None
                    form = as_linear(factor, unknowns, values)
                    if form is None:
                        return None
                else:
                    value = evaluate(factor, values)
                    scale = scale / value if join == "/" else scale * value
            assert form is not None
            return {name: c * scale for name, c in form[0].items()}, form[1] * scale
        case _:
            return None


def solve_linear(forms: list[Linear], unknowns: list[Name]) -> dict[Name, Real] | None:
    """The one solution of forms that all vanish, or None where there is none or more than one.

    Elimination with exact numbers; rows may outnumber unknowns, the extra ones are checked by the caller.
    """
    rows = [([form[0].get(name, _ZERO) for name in unknowns], -form[1]) for form in forms]
    # The column of the unknown is the row of its pivot too: a column without one has no single solution.
    for column in range(len(unknowns)):
        pivot = next((i for i in range(column, len(rows)) if rows[i][0][column].sign() != 0), None)
        if pivot is None:
            return None
        rows[column], rows[pivot] = rows[pivot], rows[column]
        lead = rows[column][0][column]
        coefficients = [c / lead for c in rows[column][0]]
        constant = rows[column][1] / lead
        rows[column] = (coefficients, constant)
        for i in range(len(rows)):
            factor = rows[i][0][column]
            if i != column and factor.sign() != 0:
                rows[i] = (
                    [c - factor * p for c, p in zip(rows[i][0], coefficients, strict=True)],
                    rows[i][1] - factor * constant,
                )
    return {name: rows[i][1] for i, name in enumerate(unknowns)}
