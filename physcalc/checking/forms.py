"""Which form of a sheet's formula is meant, and of which data in a formula the size alone."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass

from ..exact import NumberStyle
from ..language import tree as t
from ..language.names import Name
from ..language.phrases import Use
from ..language.plain import plain
from ..problems.checking import FormsSeveral, SignNotChosen
from ..sheets import Law
from .replace import put_all
from .scope import Datum, Scope


@dataclass(frozen=True, slots=True)
class Form:
    """A form of a sheet's formula.

    Attributes:
        printed: the form as the sheet prints it.
        instance: the same with the names of the calculation.
        names: the names in the instance.
        lacking: how badly it fits; zero where it holds what is asked and every other name of it has a value.
    """

    printed: t.Equation
    instance: t.Equation
    names: frozenset[Name]
    lacking: int


def choose_form(
    law: Law, use: Use, asked: Collection[Name], scope: Scope, own: Collection[Name], style: NumberStyle
) -> Form:
    """The form that fits best; of those that fit alike the first.

    Args:
        law: the sheet's formula.
        use: what stands for what in it.
        asked: what is found.
        scope: what has a value.
        own: the names of the calculation's own data: they are there to be used.
        style: how numbers in a message are written.

    Raises:
        SignNotChosen: the form holds ±.
        FormsSeveral: a longer form fits as well (a third resistor in parallel), and the question's data do not
            tell whether it is meant.
    """
    forms = [_form(form, use, asked, scope) for form in law.formulas]
    best = min(forms, key=lambda form: form.lacking)
    said = frozenset(name for name, _, _ in use.replaced)
    for form in forms:
        more = form.names - best.names
        if form.lacking > best.lacking or not best.names < form.names or not more:
            continue
        if more <= frozenset(own):
            best = form
        elif _data_in(best, asked) <= said:
            continue  # The brackets of `use` name everything that goes in.
        elif all((datum := scope.find(n)) is not None and datum.kind != "constant" for n in more):
            raise FormsSeveral(
                use.slug_span,
                plain(best.instance, style),
                plain(form.instance, style),
                tuple(sorted(n.key for n in more)),
            )
    if any(
        sign in "±∓"
        for side in (best.instance.left, best.instance.right)
        for n in t.walk(side)
        if isinstance(n, t.Sum)
        for sign in n.signs
        if sign
    ):
        raise SignNotChosen(use.slug_span, plain(best.printed, style))
    return best


def _data_in(form: Form, asked: Collection[Name]) -> frozenset[Name]:
    """The sheet's names for what goes into a form."""
    return frozenset(t.names_in(form.printed.left, form.printed.right)).difference(asked)


def form_above(law: Law, typed: Collection[t.Equation]) -> t.Equation:
    """The form of a sheet's formula that is printed above a typed instance of it.

    It is the one with most names in common. But F = m a does not stand above F − f = m a, where F is one force of
    several: F_net = m a does, if the sheet has it.
    """
    wanted = frozenset(n for e in typed for n in t.names_in(e.left, e.right))
    fitting = [form for form in law.formulas if not _term_of(form, law, typed)] or list(law.formulas)
    return max(fitting, key=lambda form: len(wanted.intersection(t.names_in(form.left, form.right))))


def _term_of(form: t.Equation, law: Law, typed: Collection[t.Equation]) -> bool:
    """Whether a form equates to the whole what is only a term of a sum in the typed formula.

    Another form, with another name for the whole, has to say the same.
    """
    if not isinstance(form.left, t.Sym):
        return False
    whole = form.left.name
    others = [
        other
        for other in law.formulas
        if isinstance(other.left, t.Sym)
        and other.left.name != whole
        and t.names_in(other.right) == t.names_in(form.right)
    ]
    terms = {
        term.name
        for equation in typed
        for side in (equation.left, equation.right)
        if isinstance(side, t.Sum) and len(side.terms) > 1
        for term in side.terms
        if isinstance(term, t.Sym)
    }
    return whole in terms and bool(others)


def _form(form: t.Equation, use: Use, asked: Collection[Name], scope: Scope) -> Form:
    pairs = [(name, expression) for name, expression, _ in use.replaced]
    instance = t.Equation(put_all(form.left, pairs), put_all(form.right, pairs), form.span)
    names = t.names_in(instance.left, instance.right)
    lacking = sum(1 for n in names if n not in asked and scope.find(n) is None)
    lacking += 3 * sum(1 for n in asked if n not in names)
    # A form without a name that the author replaced is not the one that is meant.
    meant = t.names_in(form.left, form.right)
    lacking += 3 * sum(1 for n, _ in pairs if n not in meant)
    return Form(form, instance, frozenset(names), lacking)


def beside_cosine(equations: Iterable[t.Equation], data: Mapping[Name, Datum]) -> frozenset[Name]:
    """Data with a direction on a line that stand two in a product with a cosine.

    The cosine of the angle between two vectors already says how they lie: a sign beside it would say it again, and
    the work of friction would come out positive.
    """
    out: set[Name] = set()
    for equation in equations:
        for side in (equation.left, equation.right):
            for node in t.walk(side):
                if not isinstance(node, t.Product):
                    continue
                factors = {f.name for f in node.factors if isinstance(f, t.Sym)}
                directed = {n for n in factors if n in data and data[n].quantity.direction}
                if len(directed) > 1 and any(_is_cosine(f) for f in node.factors):
                    out |= directed
    return frozenset(out)


def _is_cosine(node: t.Expr) -> bool:
    return isinstance(node, t.Call) and node.function == "cos"
