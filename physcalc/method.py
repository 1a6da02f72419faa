"""One method of a calculation on its way through the stages: steps, formula, solution, lines, what was typed.

Room 10, below the engine.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING

from .checking.given import describe, read_given
from .checking.plane import refuse_sizes_added, vector_formula
from .checking.points import headed
from .checking.printing import printed_datum
from .checking.scope import Datum, Layer, Quantity, Scope
from .checking.setup import Parsed, Setup, parse_calculation, resolve
from .compare import Result, compare_result, compare_show
from .exact import Numeral, Real, RealError
from .language.directions import printed_direction
from .language.headings import heading_words
from .language.names import Name, read_name
from .language.phrases import read_find
from .language.plain import plain, plain_printed
from .language.quantities import read_typed
from .language.statements import AnswerText, Calculation, Conventions, asked_names
from .language.tree import Printed
from .problems import Problem
from .problems.checking import AxisMissing, NameNotInFormula, NameWithoutValue, NothingToFind
from .problems.solving import CarryMatters, DirectionUnreasoned, NumberBeyondSense
from .problems.uncertainty import UncertaintyOfVector, UncertaintyVanishes
from .sheets import Sheet
from .solve.deviation import spreads
from .solve.stage import Found, carried, solve_setup
from .steps.lines import Answer, Line, LineKind, Origin
from .steps.uncertain import rounded_like
from .steps.working import write_working
from .units import from_si, to_si
from .vectors import component_trees, components_told, solve_vector

if TYPE_CHECKING:
    from .change import Changed

NOTHING_TAKEN: Layer = MappingProxyType({})


@dataclass(slots=True)
class Method:
    """One method on its way through the stages."""

    lines: list[Line] = field(default_factory=list)
    answers: dict[Name, Answer] = field(default_factory=dict)
    every: dict[Name, Answer] = field(default_factory=dict)
    results: dict[Name, Datum] = field(default_factory=dict)
    forms: dict[Name, Result] = field(default_factory=dict)
    origins: dict[Name, Origin] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    laws: list[str] = field(default_factory=list)
    constants: list[Name] = field(default_factory=list)
    scope: Scope = field(default_factory=Scope)
    setup: Setup | None = None
    found: Found | None = None
    shown: Printed | None = None
    changes: dict[Name, Changed] = field(default_factory=dict)
    otherwise: dict[Name, Real] = field(default_factory=dict)  # Where carrying matters: what it would be.
    parsed: Parsed | None = None
    failed: bool = False


def run_method(calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer = NOTHING_TAKEN) -> Method:
    """Steps first, each seeing what those before it found; then the calculation's own formula."""
    method = Method()
    layer, problems = read_given(calculation.given, scope, calculation.conventions)
    method.problems.extend(problems)
    method.failed = bool(problems)
    scope = scope.inside(layer) if calculation.given else scope
    lost: set[str] = set()
    for step in calculation.steps:
        inner = run_method(step, scope, sheet, taken)
        if step.why is not None and inner.lines:
            method.lines.append(Line(LineKind.REMARK, text=step.why.value.strip(), audience="guide"))
        _take_in(method, inner)
        # What a step that failed was to find is missed by later ones through no mistake of theirs.
        method.problems.extend(
            p for p in inner.problems if not (isinstance(p, NameWithoutValue) and p.name in lost)
        )
        if inner.failed:
            method.failed = True
            lost |= asked_names(step)
        scope = scope.inside(inner.results) if inner.results else scope
    method.scope = scope
    own = bool(calculation.formulas or calculation.use)
    if own:
        if method.failed and calculation.steps:
            return method
        _own_formula(calculation, scope, sheet, method)
    elif calculation.steps:
        _from_steps(calculation, method)
    else:
        if not calculation.find:
            method.problems.append(NothingToFind(calculation.span, "find"))
        method.problems.append(NothingToFind(calculation.span, "formula"))
        method.failed = True
    if own or calculation.steps:
        _typed_answers(calculation, method, method.problems)
        if not method.failed:
            method.shown = _shown(calculation, method, method.problems) or method.shown
    for name in taken.keys() & method.results.keys():
        # A value that the question states stays: who starts from it does not start from the learner's.
        method.results[name] = replace(taken[name], shown=method.results[name].shown)
    return method


def _take_in(method: Method, inner: Method) -> None:
    method.lines.extend(inner.lines)
    method.every.update(inner.every)
    method.results.update(inner.results)
    method.forms.update(inner.forms)
    # What the last step finds is what is asked, unless the calculation says otherwise.
    method.answers = inner.answers
    method.shown = inner.shown
    method.origins.update({n: o for n, o in inner.origins.items() if n not in method.origins})
    method.laws.extend(inner.laws)
    method.constants.extend(inner.constants)
    method.changes.update(inner.changes)
    method.otherwise.update(inner.otherwise)
    method.setup, method.found = inner.setup, inner.found


def _own_formula(calculation: Calculation, scope: Scope, sheet: Sheet, method: Method) -> None:
    conventions = calculation.conventions
    parsed, problems = parse_calculation(calculation, scope, sheet)
    method.problems.extend(problems)
    if parsed is None:
        method.failed = True
        return
    if calculation.change is not None:
        _changed(calculation, parsed, scope, method)
        return
    if _vector_formula(calculation, parsed, scope, method):
        return
    setup, problems = resolve(parsed, calculation, scope)
    method.problems.extend(problems)
    if setup is None:
        method.failed = True
        return
    found, problems = solve_setup(components_told(setup, scope), conventions)
    method.problems.extend(problems)
    if found is None:
        method.failed = True
        return
    directions, problems = _directions(calculation, setup)
    method.problems.extend(problems)
    trees = component_trees(found, scope, conventions)
    try:
        deviations, problems = spreads(setup, found, conventions)
        method.problems.extend(problems)
        written = write_working(found, conventions, directions, trees, deviations)
    except RealError as error:
        method.problems.append(NumberBeyondSense(setup.span, str(error)))
        method.failed = True
        return
    except UncertaintyVanishes as problem:
        method.problems.append(problem)
        method.failed = True
        return
    # The steps' own answers are on the way now; what is asked here is the answer.
    method.answers = {answer.name: answer for answer in written.answers}
    method.every.update(method.answers)
    method.lines.extend(written.lines)
    method.laws.extend(setup.laws)
    method.constants.extend(name for name, datum in setup.data.items() if datum.kind == "constant")
    reasons = partial(_reasons, setup, conventions)
    for name, datum in setup.data.items():
        printed = printed_datum(datum, conventions.style, conventions.form, conventions.rule)
        method.origins[name] = Origin(name, printed, datum.where, datum.span)
    rests_on = tuple(setup.data.values())
    for asked, answer in zip(setup.asked, written.answers, strict=True):
        name, value = answer.name, found.solution.values[answer.name]
        value = _signed(value, directions.get(name), conventions)
        where = calculation.span.line_in_words
        spread = deviations[name].spread if name in deviations else None
        quantity = Quantity(value, asked.unit, None, answer.printed.direction, answer.rounded, spread=spread)
        if asked.find.heading is not None:
            if spread is not None:
                method.problems.append(UncertaintyOfVector(asked.find.heading.span, name.key))
            try:
                plane = headed(abs(value), asked.find.heading, conventions.points)
                quantity = replace(quantity, value=abs(value), direction="", plane=plane)
            except Problem as problem:
                method.problems.append(problem)
        method.results[name] = Datum(
            name, quantity, "result", where, asked.find.span, answer.printed, rests_on
        )
        form = asked.find.form or conventions.form
        method.forms[name] = Result(
            name.key,
            abs(value) if asked.find.magnitude else value,
            asked.unit,
            form,
            answer.printed,
            name in directions or asked.find.magnitude,
            reasons,
            needs_direction=asked.find.with_direction,
            spread=spread,
        )
    method.setup, method.found = setup, found
    _carry_note(calculation, setup, found, written.answers, method)


def _changed(calculation: Calculation, parsed: Parsed, scope: Scope, method: Method) -> None:
    """By which factor what is found changes when data change."""
    from .change import compare_change, solve_change  # Here: few calculations ask for a change.

    changed, problems = solve_change(calculation, parsed, scope)
    method.problems.extend(problems)
    if changed is None:
        method.failed = True
        return
    method.lines.extend(changed.lines)
    method.answers = {changed.answer.name: changed.answer}
    method.changes[parsed.finds[0].name] = changed
    method.parsed, method.scope = parsed, scope
    method.every.update(method.answers)
    method.laws.extend([parsed.law.slug] if parsed.law else [])
    for answer in calculation.answers:
        asked = parsed.finds[0].name
        method.problems.extend(compare_change(answer.value, asked, changed, calculation.conventions))


def _vector_formula(calculation: Calculation, parsed: Parsed, scope: Scope, method: Method) -> bool:
    """Solve a formula between vectors in a plane; False where it is none."""
    conventions = calculation.conventions
    names = tuple(find.name for find in parsed.finds)
    if len(parsed.formulas) != 1 or len(names) != 1:
        try:
            for formula in parsed.formulas:
                refuse_sizes_added((formula.left, formula.right), scope)
        except Problem as problem:
            method.problems.append(problem)
            method.failed = True
            return True
        return False
    directed = parsed.finds[0].with_direction or _typed_heading(calculation)
    try:
        vector = vector_formula(parsed.formulas[0], names, scope, directed, conventions)
    except Problem as problem:
        method.problems.append(problem)
        method.failed = True
        return True
    if vector is None:
        return False
    work, problems = solve_vector(calculation, parsed, vector, scope, directed)
    method.problems.extend(problems)
    if work is None:
        method.failed = True
        return True
    name = work.answer.name
    for used, datum in work.data.items():
        if datum.quantity.spread is not None:
            method.problems.append(UncertaintyOfVector(parsed.span, used.key))
            method.failed = True
            return True
    method.lines.extend(work.lines)
    method.answers = {name: work.answer}
    method.every.update(method.answers)
    method.laws.extend([parsed.law.slug] if parsed.law else [])
    for used, datum in work.data.items():
        printed = printed_datum(datum, conventions.style, conventions.form, conventions.rule)
        method.origins[used] = Origin(used, printed, datum.where, datum.span)
    quantity = Quantity(work.value, work.unit, None, "", work.answer.rounded, work.plane)
    where = calculation.span.line_in_words
    rests_on = tuple(work.data.values())
    method.results[name] = Datum(
        name, quantity, "result", where, parsed.finds[0].span, work.answer.printed, rests_on
    )
    form = parsed.finds[0].form or conventions.form
    reasons = partial(_reasons, work.setup, conventions)
    method.forms[name] = Result(
        name.key,
        work.value,
        work.unit,
        form,
        work.answer.printed,
        directed,
        reasons,
        work.plane,
        parsed.finds[0].with_direction,
    )
    return True


def _typed_heading(calculation: Calculation) -> bool:
    """Whether an answer is typed with a direction in a plane."""
    for answer in calculation.answers:
        try:
            read = read_typed(answer.value, calculation.conventions.decimal, calculation.conventions.lang)
        except Problem:
            continue
        if read is not None and (read.heading is not None or read.direction is not None):
            return True
    return False


def _from_steps(calculation: Calculation, method: Method) -> None:
    """What a calculation asks that its steps have found already."""
    if not calculation.find:
        return
    wanted: dict[Name, Answer] = {}
    for text in calculation.find:
        try:
            find = read_find(text, calculation.conventions.form, calculation.conventions.decimal)
        except Problem as problem:
            method.problems.append(problem)
            method.failed = True
            continue
        if find.name in method.every:
            wanted[find.name] = method.every[find.name]
        elif not method.failed:
            names = tuple(n.key for n in method.every)
            method.problems.append(NameNotInFormula(find.span, find.name.key, "any of the steps", names))
            method.failed = True
    if wanted:
        method.answers = wanted


def _directions(calculation: Calculation, setup: Setup) -> tuple[dict[Name, str | None], list[Problem]]:
    """For which answers a direction is printed: where it is asked for, or typed.

    Its words come from the axis, or from the author's reasoning.
    """
    conventions = calculation.conventions
    out: dict[Name, str | None] = {}
    problems: list[Problem] = []
    typed = {}
    for answer in calculation.answers:
        name = read_name(answer.name.value) if answer.name else setup.asked[0].find.name
        try:
            read = read_typed(answer.value, conventions.decimal, conventions.lang)
        except Problem:
            continue  # The typed answer's own fault is said where it is compared.
        if read is not None and read.direction is not None and name is not None:
            typed[name] = read.direction
    for asked in setup.asked:
        name = asked.find.name
        if asked.find.heading is not None:
            out[name] = heading_words(asked.find.heading, conventions.style)
            continue
        if not asked.find.with_direction and name not in typed:
            continue
        if setup.magnitudes or conventions.axis is None:
            if name in typed:
                out[name] = printed_direction(typed[name].value, conventions.lang)
            elif conventions.axis is None:
                problems.append(AxisMissing(asked.find.direction_span, name.key))
            elif setup.law is not None and setup.law.magnitudes:
                problems.append(DirectionUnreasoned(asked.find.direction_span, name.key))
            else:
                out[name] = None
        else:
            out[name] = None
    return out, problems


def _signed(value: Real, words: str | None, conventions: Conventions) -> Real:
    """A size along the axis, in the direction that the author reasoned; below zero it has said where it points."""
    if words is None or conventions.axis is None or value.sign() <= 0:
        return value
    return -value if conventions.axis.sign_of(words) == -1 else value


def _reasons(setup: Setup, conventions: Conventions) -> tuple[str, ...]:
    formulas = " and ".join(plain(e, conventions.style, conventions.unit_style) for e in setup.equations)
    data = ", ".join(describe(d, conventions.style, conventions.unit_style) for d in setup.data.values())
    return (f"from {formulas}" + (f", with {data}" if data else ""),)


def _typed_answers(calculation: Calculation, method: Method, problems: list[Problem]) -> None:
    """Check what the author typed as answers."""
    if method.failed and not method.forms:
        return
    for answer in calculation.answers if calculation.change is None else ():
        result = _result_for(answer, method)
        if result is None:
            if answer.name is not None and not method.failed:
                names = tuple(n.key for n in method.answers)
                problems.append(NameNotInFormula(answer.name.span, answer.name.value, "what is found", names))
            continue
        problems.extend(compare_result(answer.value, result, calculation.conventions))


def _result_for(answer: AnswerText, method: Method) -> Result | None:
    if answer.name is not None:
        name = read_name(answer.name.value)
        return method.forms.get(name) if name is not None else None
    return next((method.forms[name] for name in method.answers if name in method.forms), None)


def _carry_note(
    calculation: Calculation, setup: Setup, found: Found, answers: Sequence[Answer], method: Method
) -> None:
    """Say where carrying earlier answers the other way would print another answer."""
    conventions = calculation.conventions
    other = "rounded" if conventions.carry == "unrounded" else "unrounded"
    if not any(
        not carried(d, other).equals(carried(d, conventions.carry))
        for d in setup.data.values()
        if d.kind == "result"
    ):
        return
    again, _ = solve_setup(setup, conventions, other)
    if again is None:
        return
    for asked, answer in zip(setup.asked, answers, strict=True):
        value = from_si(again.solution.values[answer.name], asked.unit)
        if answer.printed.direction:
            value = abs(value)
        rounded, numeral = rounded_like(answer, value, asked.find.form or conventions.form, conventions)
        if rounded != answer.rounded:
            shown = plain_printed(answer.printed, conventions.style, conventions.unit_style)
            would = plain_printed(Printed(numeral, asked.unit), conventions.style, conventions.unit_style)
            method.otherwise[answer.name] = again.solution.values[answer.name]
            method.problems.append(
                CarryMatters(asked.find.span, answer.name.key, shown, would, conventions.carry)
            )


def _shown(calculation: Calculation, method: Method, problems: list[Problem]) -> Printed | None:
    """The value that a "show that" states; later parts may start from it."""
    name = next((n for n in method.answers if n in method.forms), None)
    if calculation.show is None or name is None:
        return None
    conventions = calculation.conventions
    problems.extend(compare_show(calculation.show, method.forms[name], conventions))
    try:
        typed = read_typed(calculation.show, conventions.decimal)
    except Problem:
        return None
    if typed is None:
        return None
    value = to_si(Real.of(typed.number.value), typed.unit)
    if method.forms[name].directed and method.forms[name].value.sign() < 0 and value.sign() > 0:
        value = -value
    datum = method.results[name]
    quantity = Quantity(value, typed.unit, typed.number, datum.quantity.direction)
    method.results[name] = replace(datum, shown=quantity)
    return Printed(Numeral.of_number(typed.number), typed.unit, datum.quantity.direction)
