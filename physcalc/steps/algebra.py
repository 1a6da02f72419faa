"""Working with numbers put in: elimination in a linear set, and the quadratic formula.

Formulas of a set are numbered (1), (2), …; a line of elimination says what was done with them, in signs that need
no language: "(1) + (2)", and "(1) → (2)" for what (1) gives put into (2).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..exact import Number, Numeral, Real, sqrt
from ..language import tree as t
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Printed
from ..solve.linear import Linear
from ..solve.polynomial import Polynomial
from .lines import Line, LineKind
from .values import LEAST_FIGURES, plain_numeral, said, says, with_figures

_ZERO, _ONE = Real.of(0), Real.of(1)
_SAME = Name("")


@dataclass(frozen=True, slots=True)
class Elimination:
    """How one unknown of a set comes out.

    Attributes:
        unknown: the unknown.
        lines: the lines before its value.
        said: what they say that it is, by unknowns that came out before: with the digits of the coefficients printed.
    """

    unknown: Name
    lines: tuple[Line, ...]
    said: Linear


def number(value: Real, conventions: Conventions, figures: int = LEAST_FIGURES) -> t.Put:
    """A coefficient as it is printed, in at least so many figures; it stands for no name."""
    return t.Put(Printed(_digits(value, conventions, figures)), _SAME)


def _digits(value: Real, conventions: Conventions, figures: int) -> Numeral:
    numeral = plain_numeral(value, conventions)
    if figures == LEAST_FIGURES or says(numeral, value):
        return numeral
    return with_figures(value, figures, conventions)


def as_printed(value: Real, conventions: Conventions, figures: int) -> Real:
    """What the digits of a coefficient say."""
    return said(_digits(value, conventions, figures), value)


def eliminate(
    forms: Sequence[Linear], unknowns: Sequence[Name], conventions: Conventions, figures: int = LEAST_FIGURES
) -> list[Elimination] | None:
    """Eliminate line by line, as a person does.

    Two formulas in which an unknown has the same coefficient up to its sign are added or subtracted; else an
    unknown is expressed by one formula, the simplest, and put into the others.

    Args:
        forms: linear forms that vanish, in the order of their numbers.
        unknowns: their unknowns, those asked first; as many as forms.
        conventions: for printing coefficients.
        figures: how many figures coefficients have at least.

    Returns:
        The unknowns in the order in which they come out; None where the forms do not determine them so.
    """
    printer = _Printer(conventions, figures)
    left = {index + 1: form for index, form in enumerate(forms)}
    waiting = list(unknowns)
    lines: list[Line] = []
    expressed: list[tuple[Name, Linear]] = []
    while len(left) > 1:
        if len(left) == 2 and (done := _combined(left, waiting, printer)) is not None:
            line, name, form, source = done
            expressed.append((name, _expressed(left[source], name)))
            left = {max(left): form}
        else:
            choice = _simplest(left, waiting)
            if choice is None:
                return None
            source, name = choice
            expression = _expressed(left.pop(source), name)
            expressed.append((name, expression))
            line = printer.remark(f"({source}): ", t.Sym(name), printer.sum(expression))
            lines.append(line)
            for target, form in list(left.items()):
                if form[0].get(name, _ZERO).sign() == 0:
                    continue
                left[target] = _put(form, name, expression)
                sides = printer.equation(left[target])
                lines.append(printer.remark(f"({source}) → ({target}): ", *sides))
            waiting.remove(name)
            continue
        lines.append(line)
        waiting.remove(name)
    ((_, last),) = left.items()
    names = [name for name, c in last[0].items() if c.sign() != 0]
    if len(names) != 1:
        return None
    value = printer.worth(-last[1]) / printer.worth(last[0][names[0]])
    found = [Elimination(names[0], tuple(lines), ({}, value))]
    known = {names[0]}
    for name, expression in reversed(expressed):
        needs = {n for n, c in expression[0].items() if c.sign() != 0}
        if not needs <= known:
            return None
        back = Line(LineKind.ALGEBRA, (t.Sym(name), printer.sum(expression)))
        told = {n: printer.worth(c) for n, c in expression[0].items()}, printer.worth(expression[1])
        found.append(Elimination(name, (back,), told))
        known.add(name)
    return found


def _expressed(form: Linear, name: Name) -> Linear:
    """What a form that vanishes says an unknown is."""
    lead = -form[0][name]
    return {n: c / lead for n, c in form[0].items() if n != name}, form[1] / lead


def _put(form: Linear, name: Name, expression: Linear) -> Linear:
    factor = form[0][name]
    total = {n: c for n, c in form[0].items() if n != name}
    for n, c in expression[0].items():
        total[n] = total.get(n, _ZERO) + factor * c
    return total, form[1] + factor * expression[1]


def _combined(
    left: dict[int, Linear], waiting: Sequence[Name], printer: _Printer
) -> tuple[Line, Name, Linear, int] | None:
    """Two formulas added or subtracted so that an unknown goes; what is not asked goes first."""
    (first, a), (second, b) = sorted(left.items())
    for name in reversed(waiting):
        ca, cb = a[0].get(name, _ZERO), b[0].get(name, _ZERO)
        if ca.sign() == 0 or cb.sign() == 0:
            continue
        for sign, mark in ((1, "+"), (-1, "−")):
            if not ca.equals(-cb if sign > 0 else cb):
                continue
            names = [n for n in (*a[0], *b[0]) if n != name]
            total = {n: a[0].get(n, _ZERO) + _coefficient(b, n) * Real.of(sign) for n in dict.fromkeys(names)}
            form = total, a[1] + b[1] * Real.of(sign)
            if all(c.sign() == 0 for c in total.values()):
                return None
            line = printer.remark(f"({first}) {mark} ({second}): ", *printer.equation(form))
            return line, name, form, first
    return None


def _coefficient(form: Linear, name: Name) -> Real:
    return form[0].get(name, _ZERO)


def _simplest(left: dict[int, Linear], waiting: Sequence[Name]) -> tuple[int, Name] | None:
    """The formula and unknown to begin with: few unknowns, a coefficient of one, not what is asked."""
    best: tuple[tuple[int, bool, int, int], int, Name] | None = None
    for index, form in left.items():
        present = [n for n in waiting if form[0].get(n, _ZERO).sign() != 0]
        for name in present:
            unit = abs(form[0][name]).equals(_ONE)
            rank = (len(present), not unit, -waiting.index(name), index)
            if best is None or rank < best[0]:
                best = rank, index, name
    return (best[1], best[2]) if best is not None else None


class _Printer:
    def __init__(self, conventions: Conventions, figures: int) -> None:
        self.conventions = conventions
        self.figures = figures

    def worth(self, value: Real) -> Real:
        return as_printed(value, self.conventions, self.figures)

    def number(self, value: Real) -> t.Put:
        return number(value, self.conventions, self.figures)

    def remark(self, text: str, left: t.Expr, right: t.Expr) -> Line:
        return Line(LineKind.REMARK, text=text.strip(), pieces=(text, t.Equation(left, right)))

    def equation(self, form: Linear) -> tuple[t.Expr, t.Expr]:
        """A form that vanishes as an equation: unknowns on the left, the constant on the right."""
        coefficients = [c for c in form[0].values() if c.sign() != 0]
        if coefficients and all(c.sign() < 0 for c in coefficients):
            form = {n: -c for n, c in form[0].items()}, -form[1]
        return self.sum((form[0], _ZERO)), self._constant(-form[1])

    def _constant(self, value: Real) -> t.Expr:
        return self.number(value)

    def sum(self, form: Linear) -> t.Expr:
        """A linear form as a sum."""
        terms: list[t.Expr] = []
        signs: list[str] = []
        for name, coefficient in form[0].items():
            sign = coefficient.sign()
            if sign == 0:
                continue
            size = abs(coefficient)
            symbol = t.Sym(name)
            one = size.equals(_ONE)
            terms.append(symbol if one else t.Product((self.number(size), symbol), ("",)))
            signs.append("-" if sign < 0 else ("+" if signs else ""))
        if form[1].sign() != 0 or not terms:
            terms.append(self.number(abs(form[1])))
            signs.append("-" if form[1].sign() < 0 else ("+" if signs else ""))
        if signs[0] == "-" and len(terms) > 1 and any(s != "-" for s in signs[1:]):
            # A sum begins with a positive term where there is one.
            first = next(i for i, s in enumerate(signs) if s != "-")
            terms.insert(0, terms.pop(first))
            signs.pop(first)
            signs.insert(0, "")
        return terms[0] if len(terms) == 1 and signs[0] == "" else t.Sum(tuple(terms), tuple(signs))


def _scaled(polynomial: Polynomial) -> tuple[Real, Real, Real]:
    """The coefficients c, b, a as they stand in the standard form."""
    c, b, a = polynomial
    extreme = any(x.sign() != 0 and not 1e-3 <= abs(float(x)) < 1e5 for x in polynomial)
    if extreme or a.sign() < 0:
        lead = a if extreme else Real.of(-1)
        a, b, c = a / lead, b / lead, c / lead
    return c, b, a


def quadratic_roots(polynomial: Polynomial, conventions: Conventions, figures: int) -> list[Real]:
    """The roots that the coefficients give as they are printed, in so many figures; none where they give none.

    No figures stand for the exact coefficients.
    """
    c, b, a = _scaled(polynomial)
    if figures:
        c, b, a = (as_printed(x, conventions, figures) for x in (c, b, a))
    under = b * b - Real.of(4) * a * c
    if under.sign() < 0:
        return []
    root = sqrt(under)
    return [(-b + root) / (Real.of(2) * a), (-b - root) / (Real.of(2) * a)]


def quadratic_lines(
    unknown: Name, polynomial: Polynomial, conventions: Conventions, figures: int = LEAST_FIGURES
) -> list[Line]:
    """The standard form of a quadratic equation and the quadratic formula with its numbers.

    Args:
        unknown: the unknown.
        polynomial: c, b, a.
        conventions: for printing coefficients.
        figures: how many figures they have at least.
    """
    c, b, a = _scaled(polynomial)
    square = t.Power(t.Sym(unknown), _plain(2))
    terms: list[tuple[t.Expr, Real]] = [(square, a), (t.Sym(unknown), b)]
    sides: list[t.Expr] = []
    signs: list[str] = []
    for factor, coefficient in terms:
        if coefficient.sign() == 0:
            continue
        one = abs(coefficient).equals(_ONE)
        sides.append(
            factor if one else t.Product((number(abs(coefficient), conventions, figures), factor), ("",))
        )
        signs.append("-" if coefficient.sign() < 0 else ("+" if signs else ""))
    if c.sign() != 0:
        sides.append(number(abs(c), conventions, figures))
        signs.append("-" if c.sign() < 0 else "+")
    standard = Line(LineKind.ALGEBRA, (t.Sum(tuple(sides), tuple(signs)), _plain(0)))
    if b.sign() == 0 or c.sign() == 0:
        return [standard]
    under = t.Sum(
        (
            t.Power(number(b, conventions, figures), _plain(2)),
            t.Product(
                (_plain(4), number(a, conventions, figures), number(c, conventions, figures)), ("", "")
            ),
        ),
        ("", "-"),
    )
    top = t.Sum((number(b, conventions, figures), t.Call("sqrt", (under,))), ("-", "±"))
    formula = t.Product(
        (t.Group(top), t.Group(t.Product((_plain(2), number(a, conventions, figures)), ("",)))), ("/",)
    )
    return [standard, Line(LineKind.ALGEBRA, (t.Sym(unknown), formula))]


def _plain(value: int) -> t.Num:
    return t.Num(Number(Fraction(value), str(value), None, str(value)))
