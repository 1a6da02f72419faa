"""What a result does when data change: the factor, computed by solving before and after.

Room 10, beside the engine. Data without a value need none where they cancel: two trials with unlike numbers must
give the same factor.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from .checking.replace import put_in
from .checking.scope import Datum, Scope
from .checking.setup import Parsed, without_value
from .exact import Number, Numeral, Real, Rounded, write
from .language import tree as t
from .language.changes import Change, read_changes, read_factor
from .language.names import Name
from .language.plain import plain_name, plain_printed
from .language.statements import Calculation, Conventions
from .language.tree import Printed
from .problems import Problem, Text
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
    if problems:
        return None, problems
    factors = [_trial(parsed, changes, scope, asked, start) for start in (Fraction(7, 3), Fraction(29, 11))]
    first, second = factors
    if first is None or second is None:
        return None, [
            NoRealRoot(parsed.span, asked.key, "the formula", "no value before or after the change")
        ]
    if not first.equals(second):
        missing = [n for n in names if n != asked and scope.find(n) is None]
        return None, [without_value(n, parsed.span, scope) for n in missing]
    return _written(calculation, parsed, changes, asked, first), []


def _trial(
    parsed: Parsed, changes: tuple[Change, ...], scope: Scope, asked: Name, start: Fraction
) -> Real | None:
    names = t.names_in(*[side for e in parsed.formulas for side in (e.left, e.right)])
    before: dict[Name, Real] = {}
    for index, name in enumerate(n for n in names if n != asked):
        datum: Datum | None = scope.find(name)
        known = datum is not None and datum.quantity.value.sign() != 0
        before[name] = datum.quantity.value if datum is not None and known else Real.of(start + index)
    after = dict(before)
    for change in changes:
        after[change.name] = before[change.name] * Real.of(change.factor)
    values = []
    for data in (before, after):
        solutions = [s.values[asked] for s in solve_all(parsed.formulas, (asked,), data).solutions]
        if not solutions:
            return None
        values.append(next((v for v in solutions if v.sign() > 0), solutions[0]))
    return values[1] / values[0] if values[0].sign() != 0 else None


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


def _written(
    calculation: Calculation, parsed: Parsed, changes: tuple[Change, ...], asked: Name, factor: Real
) -> Changed:
    """The formula, the same with the changed data in it, and the factor."""
    lines: list[Line] = []
    if parsed.sheet_form is not None:
        lines.append(Line(LineKind.FORMULA, (parsed.sheet_form.left, parsed.sheet_form.right)))
    new = Name(asked.base, asked.subscript, asked.delta, asked.primes + 1, asked.component)
    for equation in parsed.formulas:
        sides = (equation.left, equation.right)
        if parsed.sheet_form is None:
            lines.append(Line(LineKind.FORMULA, sides))
        elif sides != (parsed.sheet_form.left, parsed.sheet_form.right):
            lines.append(Line(LineKind.INSTANCE, sides))
        changed = [put_in(side, asked, t.Sym(new)) for side in sides]
        for change in changes:
            number = _factor_tree(change.factor, change.decimal)
            product = t.Product((number, t.Sym(change.name)), ("",))
            changed = [put_in(side, change.name, product) for side in changed]
        lines.append(Line(LineKind.SUBSTITUTION, tuple(changed)))
    decimal = any(change.decimal for change in changes)
    answer, tree = _answer(new, factor, decimal, calculation.conventions)
    result: t.Expr = t.Sym(asked) if factor.fraction == 1 else t.Product((tree, t.Sym(asked)), ("",))
    lines.append(Line(LineKind.ANSWER, (t.Sym(new), result)))
    return Changed(tuple(lines), answer, factor)


def _answer(name: Name, factor: Real, decimal: bool, conventions: Conventions) -> tuple[Answer, t.Expr]:
    exact = factor.fraction
    if exact is not None and decimal and (digits := _decimals(exact)) is not None:
        whole, _, part = digits.partition(".")
        shown = Printed(Numeral(exact < 0, whole.lstrip("-"), part))
        return Answer(name, shown, Rounded(exact < 0, 0, 0)), _factor_tree(exact, True)
    if exact is not None and exact.denominator < 1000 and exact.numerator < 10_000:
        shown = Printed(Numeral(exact < 0, str(abs(exact))))
        return Answer(name, shown, Rounded(exact < 0, 0, 0)), _factor_tree(exact, False)
    rounded, numeral = write(factor, conventions.form, conventions.rule, conventions.style)
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
    if isinstance(said, int):
        agrees = said == trend
    elif factor.equals(Real.of(said)):
        agrees = True
    else:
        rounded, _ = write(factor, conventions.form, conventions.rule, conventions.style)
        agrees = factor.fraction is None and rounded.fraction == said
    return [] if agrees else [AnswerDisagrees(text.part(0).span, name, computed, f'"{text.value.strip()}"')]
