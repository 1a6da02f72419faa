"""What a marker needs beside the working: other methods, both choices of direction, slips, accepted ranges.

Room 10, below the engine: it runs a method again under other conditions.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Literal

from .accepted import accept_range
from .checking.scope import Datum, Layer, Quantity, Scope
from .checking.setup import without_value
from .constants import Constants
from .exact import Real, RealError
from .language import tree as t
from .language.names import Name, read_name
from .language.parser import parse_formula
from .language.plain import plain, plain_printed
from .language.statements import Calculation, Conventions, GivenText
from .language.tree import Printed
from .limits import limit
from .method import Method, run_method
from .methods import apart, carrying, explained
from .problems import Problem, Text
from .problems.checking import NameNotInFormula
from .problems.solving import CarryMatters, MethodsDisagree, SlipNowhere, SlipRight
from .problems.stopped import ChoicesMany
from .sheets import Sheet
from .solve.single import solve_one
from .steps.lines import Answer, Working
from .steps.marks import allot
from .steps.uncertain import rounded_like
from .units import ONE, from_si, to_si


def other_method(
    other: Calculation,
    calculation: Calculation,
    scope: Scope,
    sheet: Sheet,
    first: Method,
    problems: list[Problem],
) -> Method | None:
    """Another method for the same quantities; it must give the same."""
    other = completed(other, calculation)
    method = run_method(other, scope, sheet)
    problems.extend(method.problems)
    if method.failed:
        return None
    for name, answer in first.answers.items():
        mine = method.answers.get(name)
        if mine is None or mine.printed == answer.printed:
            continue
        if name in method.results and name in first.results:
            values = (first.results[name].quantity.value, method.results[name].quantity.value)
        else:
            changes = [m.changes[asked] for m in (first, method) for asked in m.changes]
            values = (changes[0].factor, changes[-1].factor)
        if values[0].equals(values[1]):
            continue
        methods = (calculation, other)
        why = (
            explained(name, methods, scope, partial(_results_of, sheet)) if calculation.change is None else ""
        )
        result = first.forms.get(name)
        if why and result is not None and calculation.accept is not None:
            text = calculation.accept
            if text.value.strip() == "choices":
                continue  # It holds what every method leads to.
            if not accept_range(text, result, calculation.conventions, values[1])[1]:
                continue
        style, unit_style = calculation.conventions.style, calculation.conventions.unit_style
        shown = [plain_printed(a.printed, style, unit_style) for a in (answer, mine)]
        unit, other_unit = answer.printed.unit or ONE, mine.printed.unit or ONE
        if unit == other_unit and calculation.change is None:
            # As far as the printed values are apart, so that the message can be followed.
            values = (
                to_si(Real.of(answer.rounded.fraction), unit),
                to_si(Real.of(mine.rounded.fraction), unit),
            )
        off = apart(*values, unit, calculation.conventions)
        problems.append(MethodsDisagree(other.span, name.key, shown[0], shown[1], off, why))
    return method


def completed(other: Calculation, calculation: Calculation) -> Calculation:
    """Another method with what it leaves to the first to say; of data with one name its own count."""
    own = {_key(item) for item in other.given}
    return replace(
        other,
        find=other.find or _asked_texts(calculation),
        given=(*(item for item in calculation.given if _key(item) not in own), *other.given),
        take=other.take or calculation.take,
        change=other.change or calculation.change,
    )


def _key(item: GivenText) -> str:
    name = read_name(item.name.value)
    return name.key if name is not None else item.name.value


def _results_of(sheet: Sheet, calculation: Calculation, scope: Scope) -> Layer | None:
    """What a calculation finds; None where it fails."""
    method = run_method(calculation, scope, sheet)
    return None if method.failed else method.results


def _asked_texts(calculation: Calculation) -> tuple[Text, ...]:
    """What a calculation asks: its own find, else its last step's."""
    if calculation.find or not calculation.steps:
        return calculation.find
    return _asked_texts(calculation.steps[-1])


def with_marks(
    method: Method,
    calculation: Calculation,
    marks: int,
    problems: list[Problem],
    heading: str = "",
    why: str = "",
) -> Working:
    """Another method's working: it earns what the first one does."""
    lines, _, found = allot(replace(calculation, total_marks=marks), method.lines, len(method.answers))
    problems.extend(found)
    answers, origins = tuple(method.answers.values()), tuple(method.origins.values())
    return Working(tuple(lines), answers, origins, heading, why, marks=marks)


def flipped_method(calculation: Calculation, scope: Scope, sheet: Sheet) -> Method | None:
    """The same calculation with the other direction positive."""
    axis = calculation.conventions.axis
    if axis is None:
        return None

    def turned(datum: Datum) -> Datum:
        quantity = datum.quantity
        if not quantity.direction or quantity.unit.offset:
            return datum
        return replace(datum, quantity=quantity.turned())

    layers = tuple(
        layer if isinstance(layer, Constants) else {n: turned(d) for n, d in layer.items()}
        for layer in scope.layers
    )
    elsewhere = {i: {n: turned(d) for n, d in layer.items()} for i, layer in scope.elsewhere.items()}

    def opposite(statement: Calculation) -> Calculation:
        conventions = replace(statement.conventions, axis=axis.opposite(), signs="carried")
        return replace(
            statement, conventions=conventions, answers=(), steps=tuple(opposite(s) for s in statement.steps)
        )

    asked = opposite(calculation)
    method = run_method(asked, Scope(layers, elsewhere), sheet)
    return None if method.failed else method


def slip_values(
    calculation: Calculation, method: Method, problems: list[Problem]
) -> tuple[tuple[str, Printed], ...]:
    """What each wrong way leads to, in the unit of what is found."""
    out: list[tuple[str, Printed]] = []
    for label, text in calculation.slips:
        try:
            if calculation.change is not None:
                printed = _slip_in_change(label, text, calculation, method, problems)
            else:
                printed = _slip(label, text, calculation.conventions, method, problems)
        except Problem as problem:
            problems.append(problem)
            continue
        except RealError:
            printed = None
        if printed is None:
            # The wrong way leads nowhere: there is no value for the marker to know.
            problems.append(SlipNowhere(label.span, label.value))
            continue
        out.append((label.value, printed))
    return tuple(out)


def _slip_in_change(
    label: Text, text: Text, calculation: Calculation, method: Method, problems: list[Problem]
) -> Printed | None:
    """The factor that a wrong formula leads to."""
    from .change import factor_answer, slip_factor  # Here: few calculations ask for a change.

    conventions = calculation.conventions
    equation = parse_formula(text, conventions.decimal)
    if method.parsed is None:
        return None
    asked = method.parsed.finds[0].name
    if asked not in t.names_in(equation.left, equation.right):
        raise NameNotInFormula(text.span, asked.key, plain(equation, conventions.style))
    factor = slip_factor(equation, calculation, method.parsed, method.scope)
    if factor is None:
        return None
    answer, _ = factor_answer(asked, factor, False, conventions)
    if factor.equals(method.changes[asked].factor):
        value = plain_printed(answer.printed, conventions.style)
        problems.append(SlipRight(label.span, label.value, value))
    return answer.printed


def _slip(
    label: Text, text: Text, conventions: Conventions, method: Method, problems: list[Problem]
) -> Printed | None:
    """One slip: its formula is solved for what is asked, or for the last thing on the way that stands in it."""
    equation = parse_formula(text, conventions.decimal)
    names = t.names_in(equation.left, equation.right)
    asked = list(method.answers)
    name = next((n for n in [*asked, *reversed(method.every)] if n in names), None)
    if name is None:
        raise NameNotInFormula(text.span, asked[0].key, plain(equation, conventions.style))
    values: dict[Name, Real] = {}
    for used in names:
        if used == name:
            continue
        datum = method.results.get(used) or method.scope.find(used)
        if datum is None:
            raise without_value(used, text.span, method.scope)
        values[used] = datum.quantity.value
    roots = [root.value for root in solve_one(equation, name, values).roots]
    if not roots:
        return None
    answer = method.every[name]
    unit, form = answer.printed.unit or ONE, method.forms[name].form
    shown = from_si(next((r for r in roots if r.sign() > 0), roots[0]), unit)
    if method.forms[name].directed:
        shown = abs(shown)
    rounded, numeral = rounded_like(answer, shown, form, conventions)
    printed = Printed(numeral, unit)
    if rounded == answer.rounded:
        value = plain_printed(printed, conventions.style, conventions.unit_style)
        problems.append(SlipRight(label.span, label.value, value))
    return printed


def choices(calculation: Calculation, scope: Scope, sheet: Sheet) -> list[Answer]:
    """What honest choices lead to: each method, intermediate results carried rounded or not, and the customary
    values of the sheet's constants; every answer once, from the smallest to the largest.

    Raises:
        ChoicesMany: those values have too many combinations.
    """

    def answers(scope: Scope) -> list[Answer]:
        found: list[Answer] = []
        for carry in policies:
            for method in (run_method(carrying(way, carry), scope, sheet) for way in ways):
                found += [] if method.failed else list(method.answers.values())[:1]
        return found

    policies: tuple[Literal["unrounded", "rounded"], ...] = ("unrounded", "rounded")
    ways = (calculation, *(completed(other, calculation) for other in calculation.others))
    usual = {answer.rounded for answer in answers(scope)}
    varied: list[list[tuple[Name, Quantity]]] = []
    for key, constant in sheet.constants.items():
        name = read_name(key)
        if name is None or not constant.also:
            continue
        values = ((constant.number, constant.unit), *constant.also)
        quantities = [(name, Quantity(to_si(Real.of(n.value), u), u, n)) for n, u in values]
        # A constant that does not stand in the working is not varied: the ways would multiply for nothing.
        if any({a.rounded for a in answers(_with_constants(scope, (q,)))} != usual for q in quantities[1:]):
            varied.append(quantities)
    if (combined := math.prod(len(quantities) for quantities in varied)) > limit("choices"):
        place = calculation.accept.span if calculation.accept is not None else calculation.span
        raise ChoicesMany(place, combined, limit("choices"))
    found = [
        answer for chosen in itertools.product(*varied) for answer in answers(_with_constants(scope, chosen))
    ]
    distinct = {answer.rounded.fraction: answer for answer in found}
    return [distinct[value] for value in sorted(distinct)]


def _with_constants(scope: Scope, chosen: Sequence[tuple[Name, Quantity]]) -> Scope:
    """A scope with other values for constants, also where data take one over under another name (a: g, down)."""
    if not chosen:
        return scope
    place = next((i for i, old in enumerate(scope.layers) if isinstance(old, Constants)), len(scope.layers))
    usual = scope.layers[place] if place < len(scope.layers) else {}
    layer = {name: Datum(name, quantity, "constant", "sheet") for name, quantity in chosen}

    def taken_over(datum: Datum) -> Datum:
        for name, quantity in chosen:
            old = usual[name].quantity if name in usual else None
            here = datum.quantity
            if old is None or datum.kind != "constant" or here.number != old.number or here.unit != old.unit:
                continue
            value = quantity.value if here.value.sign() == old.value.sign() else -quantity.value
            return replace(datum, quantity=replace(quantity, value=value, direction=here.direction))
        return datum

    inner = tuple({n: taken_over(old[n]) for n in old} for old in scope.layers[:place])
    return replace(scope, layers=(*inner, layer, *scope.layers[place:]))


def accepted_range(
    calculation: Calculation, scope: Scope, sheet: Sheet, method: Method, problems: list[Problem]
) -> tuple[Printed, Printed] | None:
    result = next(iter(method.forms[n] for n in method.answers if n in method.forms), None)
    if calculation.accept is None or result is None:
        return None
    if calculation.accept.value.strip() == "choices":
        try:
            found_choices = choices(calculation, scope, sheet)
        except RealError:
            found_choices = []
        except ChoicesMany as problem:
            problems.append(problem)
            return None
        ends = [replace(answer.printed, uncertainty=None) for answer in found_choices]
        return (ends[0], ends[-1]) if len(ends) > 1 else None
    found, bad = accept_range(calculation.accept, result, calculation.conventions)
    problems.extend(bad)
    return (found.low, found.high) if found else None


def not_accepted(problems: Sequence[Problem], calculation: Calculation, method: Method) -> list[Problem]:
    """Problems without the notes on carrying whose other answer markers are told to accept."""
    name = next((n for n in method.answers if n in method.forms), None)
    text, other = calculation.accept, method.otherwise.get(name) if name is not None else None
    if text is None or name is None or other is None:
        return list(problems)
    # The range of honest choices holds both ways of carrying.
    if (
        text.value.strip() != "choices"
        and accept_range(text, method.forms[name], calculation.conventions, other)[1]
    ):
        return list(problems)
    return [p for p in problems if not (isinstance(p, CarryMatters) and p.name == name.key)]
