"""What a result does when data change: the factor, computed by solving before and after.

Room 10, beside the engine. Data without a value need none where they cancel: two trials with unlike numbers must
give the same factor.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from .checking.replace import put_in
from .checking.scope import Datum, Scope
from .checking.setup import Parsed, without_value
from .exact import Form, Number, Numeral, Real, Rounded, round_places, write
from .language import tree as t
from .language.changes import Change, read_changes, read_factor
from .language.names import Name
from .language.plain import plain, plain_name, plain_printed
from .language.statements import Calculation, Conventions
from .language.tree import Printed
from .problems import Problem, Text
from .problems.change import ChangeGoesOn, ChangeUnfit
from .problems.checking import NameNotInFormula
from .problems.solving import AnswerDisagrees, NoRealRoot
from .solve.system import solve_all
from .steps.lines import Answer, Line, LineKind


@dataclass(frozen=True, slots=True)
class Changed:
    """What came of a change.

    Attributes:
        lines: the working.
        answer: the factor.
        factor: the exact factor.
    """

    lines: tuple[Line, ...]
    answer: Answer
    factor: Real


def solve_change(
    calculation: Calculation, parsed: Parsed, scope: Scope
) -> tuple[Changed | None, list[Problem]]:
    """Work out by which factor what is found changes.

    Returns:
        The factor with its working, or None; and every problem.
    """
    assert calculation.change is not None
    conventions = calculation.conventions
    try:
        changes = read_changes(calculation.change, conventions.decimal)
    except Problem as problem:
        return None, [problem]
    names = t.names_in(*[side for e in parsed.formulas for side in (e.left, e.right)])
    asked = parsed.finds[0].name
    formula_names = tuple(n.key for n in names)
    problems: list[Problem] = [
        NameNotInFormula(change.span, change.name.key, "the formula", formula_names)
        for change in changes
        if change.name not in names
    ]
    if asked not in names:
        problems.append(NameNotInFormula(parsed.finds[0].span, asked.key, "the formula", formula_names))
    for key, text in (("accept", calculation.accept), ("show", calculation.show), ("take", calculation.take)):
        if text is not None:
            problems.append(ChangeUnfit(text.span, key))
    problems += [ChangeUnfit(find.span, "a second find") for find in parsed.finds[1:]]
    problems += [
        ChangeUnfit(change.span, f"a change of {asked.key} itself")
        for change in changes
        if change.name == asked
    ]
    if not problems:
        problems += _moved(parsed, changes, scope, names)
    if problems:
        return None, problems
    trial = _Trial(parsed, changes, scope, asked)
    factor = trial.factor({})
    if factor is None and trial.free:
        # With numbers of no meaning for them there was no value before or after: it takes their own.
        return None, [without_value(n, parsed.span, scope) for n in trial.free]
    if factor is None:
        why = "no value before or after the change"
        return None, [NoRealRoot(parsed.span, asked.key, plain(parsed.formulas[0], conventions.style), why)]
    # A name without a value matters where another value for it gives another factor.
    missing = [name for name in trial.free if not _same(trial.factor({name: Fraction(29, 11)}), factor)]
    if missing:
        return None, [without_value(n, parsed.span, scope) for n in missing]
    if any(not _same(trial.factor(dict.fromkeys(trial.free, value)), factor) for value in _OTHER_VALUES):
        return None, [without_value(n, parsed.span, scope) for n in trial.free]
    return _written(calculation, parsed, changes, asked, factor), []


def _moved(parsed: Parsed, changes: tuple[Change, ...], scope: Scope, names: Iterable[Name]) -> list[Problem]:
    """Data that were worked out from what changes: their values would be those of before."""
    changing = {change.name: datum for change in changes if (datum := scope.find(change.name)) is not None}
    out = {parsed.finds[0].name, *(change.name for change in changes), *_found_on_the_way(parsed, ())}
    problems: list[Problem] = []
    for name in names:
        datum = scope.find(name)
        if datum is None or name in out:
            continue
        below, waiting = list[Datum](), list(datum.rests_on)
        while waiting:
            below.append(waiting.pop())
            waiting += below[-1].rests_on
        moved = next(
            (key for key, changed in changing.items() if any(_alike(changed, one) for one in below)), None
        )
        if moved is not None:
            problems.append(ChangeGoesOn(parsed.span, name.key, moved.key))
    return problems


def _alike(one: Datum, other: Datum) -> bool:
    return one.span == other.span and one.quantity.value.equals(other.quantity.value)


_OTHER_VALUES = (Fraction(5, 2), Fraction(31, 13))


def slip_factor(equation: t.Equation, calculation: Calculation, parsed: Parsed, scope: Scope) -> Real | None:
    """The factor that a wrong formula leads to; None where it leads to none, or to none that data settle."""
    if calculation.change is None:
        return None
    changes = read_changes(calculation.change, calculation.conventions.decimal)
    names = t.names_in(equation.left, equation.right)
    changes = tuple(change for change in changes if change.name in names)
    asked = parsed.finds[0].name
    trial = _Trial(replace(parsed, formulas=(equation,)), changes, scope, asked)
    first = trial.factor({})
    other = trial.factor(dict.fromkeys(trial.free, Fraction(31, 13)))
    return first if first is not None and _same(other, first) else None


def _same(one: Real | None, other: Real) -> bool:
    return one is not None and one.equals(other)


def _found_on_the_way(parsed: Parsed, others: Collection[Name]) -> list[Name]:
    """In a list of formulas, what one of them stands for."""
    return [
        e.left.name
        for e in parsed.formulas
        if len(parsed.formulas) > 1 and isinstance(e.left, t.Sym) and e.left.name not in others
    ]


class _Trial:
    """The formulas solved before and after a change, with numbers of no meaning for names that have no value."""

    def __init__(self, parsed: Parsed, changes: tuple[Change, ...], scope: Scope, asked: Name) -> None:
        self._formulas = parsed.formulas
        self._changes = changes
        self._asked = asked
        names = t.names_in(*[side for e in parsed.formulas for side in (e.left, e.right)])
        changed = {change.name for change in changes}
        between = _found_on_the_way(parsed, {asked, *changed})
        self._unknowns = (asked, *dict.fromkeys(between))
        self._known: dict[Name, Real] = {}
        self.free: list[Name] = []
        for name in names:
            if name in self._unknowns:
                continue
            datum: Datum | None = scope.find(name)
            if datum is not None:
                self._known[name] = datum.quantity.value
            else:
                self.free.append(name)

    def factor(self, values: Mapping[Name, Fraction]) -> Real | None:
        """The factor, with other values for some of the free names; None where there is none."""
        before = dict(self._known)
        for index, name in enumerate(self.free):
            before[name] = Real.of(values.get(name, Fraction(7, 3)) + Fraction(index, 7))
        after = dict(before)
        for change in self._changes:
            after[change.name] = before[change.name] * Real.of(change.factor)
        found = []
        for data in (before, after):
            solutions = solve_all(self._formulas, self._unknowns, data).solutions
            roots = [s.values[self._asked] for s in solutions]
            if not roots:
                return None
            found.append(next((root for root in roots if root.sign() > 0), roots[0]))
        return _tidied(found[1] / found[0]) if found[0].sign() != 0 else None


def _tidied(factor: Real) -> Real:
    """A factor that is a simple fraction, as such: the cube root of 8 is 2."""
    if factor.fraction is not None or not 1e-6 < abs(float(factor)) < 1e6:
        return factor
    near = Real.of(Fraction(float(factor)).limit_denominator(_SIMPLE))
    return near if factor.equals(near) else factor


#: A factor is looked for among the fractions with denominators up to this.
_SIMPLE = 1000


def _factor_tree(factor: Fraction, decimal: bool) -> t.Num:
    """A factor as a fraction, or with decimals where the author wrote such."""
    digits = _decimals(factor) if decimal else None
    digits = digits or str(factor)
    return t.Num(Number(factor, digits, None, digits))


def _decimals(value: Fraction) -> str | None:
    """A fraction with at most six decimals, exactly; None where they do not end so soon."""
    for places in range(7):
        scaled = value * 10**places
        if scaled.denominator == 1:
            digits = str(abs(scaled.numerator)).rjust(places + 1, "0")
            text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
            return f"-{text}" if value < 0 else text
    return None


def _primed(name: Name) -> Name:
    return name._replace(primes=name.primes + 1)


def _written(
    calculation: Calculation, parsed: Parsed, changes: tuple[Change, ...], asked: Name, factor: Real
) -> Changed:
    """The formula, the same with the changed data in it, and the factor."""
    lines: list[Line] = []
    if parsed.sheet_form is not None:
        lines.append(Line(LineKind.FORMULA, (parsed.sheet_form.left, parsed.sheet_form.right)))
    new = _primed(asked)
    primed = {asked: new}
    touched = {change.name for change in changes}
    for equation in parsed.formulas:
        sides = (equation.left, equation.right)
        if parsed.sheet_form is None:
            lines.append(Line(LineKind.FORMULA, sides))
        elif sides != (parsed.sheet_form.left, parsed.sheet_form.right):
            lines.append(Line(LineKind.INSTANCE, sides))
        left = equation.left
        if isinstance(left, t.Sym) and left.name not in touched and touched.intersection(t.names_in(*sides)):
            # What is found on the way changes too, and is told from what it was by its prime.
            primed.setdefault(left.name, _primed(left.name))
            touched.add(left.name)
        changed = list(sides)
        for name, other in primed.items():
            changed = [put_in(side, name, t.Sym(other)) for side in changed]
        for change in changes:
            number = _factor_tree(change.factor, change.decimal)
            product = t.Product((number, t.Sym(change.name)), ("",))
            changed = [put_in(side, change.name, product) for side in changed]
        lines.append(Line(LineKind.SUBSTITUTION, tuple(changed)))
    decimal = any(change.decimal for change in changes)
    answer, tree = factor_answer(new, factor, decimal, calculation.conventions, parsed.finds[0].form)
    result: t.Expr = t.Sym(asked) if factor.fraction == 1 else t.Product((tree, t.Sym(asked)), ("",))
    lines.append(Line(LineKind.ANSWER, (t.Sym(new), result)))
    return Changed(tuple(lines), answer, factor)


def factor_answer(
    name: Name, factor: Real, decimal: bool, conventions: Conventions, form: Form | None = None
) -> tuple[Answer, t.Expr]:
    """A factor as an answer, and as a tree: exact where that is short, else rounded; in a form that is asked."""
    exact = factor.fraction if form is None else None
    if exact is not None and decimal and (digits := _decimals(exact)) is not None:
        whole, _, part = digits.partition(".")
        shown = Printed(Numeral(exact < 0, whole.lstrip("-"), part))
        return Answer(name, shown, Rounded(exact < 0, 0, 0)), _factor_tree(exact, True)
    if exact is not None and not decimal and exact.denominator < 1000 and exact.numerator < 10_000:
        shown = Printed(Numeral(exact < 0, str(abs(exact))))
        return Answer(name, shown, Rounded(exact < 0, 0, 0)), _factor_tree(exact, False)
    rounded, numeral = write(factor, form or conventions.form, conventions.rule, conventions.style)
    printed = Printed(numeral)
    return Answer(name, printed, rounded), t.Put(printed, name)


def compare_change(text: Text, asked: Name, changed: Changed, conventions: Conventions) -> list[Problem]:
    """Check a typed factor, or the words for what the result does."""
    said = read_factor(text, conventions.decimal, conventions.lang)
    factor = changed.factor
    trend = (factor - Real.of(1)).sign()
    name = plain_name(asked)
    words = {1: "increases", -1: "decreases", 0: "stays the same"}[trend]
    computed = f"{plain_printed(changed.answer.printed, conventions.style)} times what it was ({words})"
    if said is None:
        return [
            AnswerDisagrees(
                text.span,
                name,
                computed,
                f'"{text.value.strip()}"',
                (),
                "write a factor (1/8), doubles, halves, increases …",
            )
        ]
    if said.factor is None:
        agrees = said.trend == trend
    elif factor.equals(Real.of(said.factor)):
        agrees = True
    else:
        # A factor said with decimals agrees as a typed result does: the computed one must round to it.
        rounded = round_places(factor, said.places, conventions.rule)
        agrees = said.places > 0 and rounded.fraction == said.factor
    return [] if agrees else [AnswerDisagrees(text.part(0).span, name, computed, f'"{text.value.strip()}"')]
