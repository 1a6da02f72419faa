"""Room 10: the stages of one calculation, in order.

statements → names and dimensions (checking) → exact solution (solve) → lines (steps) → marks (steps)
→ verdicts on what was typed (compare)
"""

from __future__ import annotations

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from types import MappingProxyType
from typing import Literal

from .change import Changed, compare_change, factor_answer, slip_factor, solve_change
from .checking.given import describe, read_given
from .checking.plane import refuse_sizes_added, vector_formula
from .checking.points import headed, with_distances
from .checking.printing import printed_datum
from .checking.scope import Datum, Layer, Quantity, Scope
from .checking.setup import Parsed, Setup, parse_calculation, resolve, without_value
from .compare import Result, accept_range, compare_result, compare_show, compare_typed
from .exact import Numeral, Real, RealError
from .language import tree as t
from .language.directions import printed_direction
from .language.headings import heading_words
from .language.names import Name, read_name
from .language.parser import parse_formula
from .language.phrases import read_find, read_typed
from .language.plain import plain, plain_printed
from .language.statements import AnswerText, Calculation, Conventions, GivenText
from .language.tree import Printed
from .methods import apart, carrying, explained
from .options import Options, OptionsOutcome, choose_option
from .problems import Problem, Text
from .problems.checking import AxisMissing, NameNotInFormula, NameWithoutValue, NothingToFind
from .problems.language import NameUnreadable
from .problems.solving import CarryMatters, MethodsDisagree, NumberBeyondSense, SlipRight
from .problems.uncertainty import UncertaintyOfVector, UncertaintyVanishes
from .sheets import Sheet
from .solve.deviation import spreads
from .solve.single import solve_one
from .solve.stage import Found, carried, solve_setup
from .steps.lines import Answer, Line, LineKind, Origin, Working
from .steps.marks import allot
from .steps.uncertain import rounded_like
from .steps.working import write_working
from .units import ONE, from_si, to_si
from .vectors import component_trees, solve_vector

_NOTHING_TAKEN: Layer = MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Outcome:
    """What came of one calculation.

    Attributes:
        working: its working; None where it could not be solved.
        results: what it found.
        problems: problems and notes, in no particular order.
        used_laws: slugs of the sheet's formulas it used.
        used_constants: the sheet's constants it used.
        changes: for names whose change it asks, by which factor they change.
    """

    working: Working | None
    results: Layer
    problems: tuple[Problem, ...]
    used_laws: tuple[str, ...] = ()
    used_constants: tuple[Name, ...] = ()
    changes: Mapping[Name, Changed] = field(default_factory=dict)


@dataclass(slots=True)
class _Method:
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
    parsed: Parsed | None = None
    failed: bool = False


def constants_layer(sheet: Sheet) -> Layer:
    """The sheet's constants as the outermost layer of names; read when they are first needed."""
    return _Constants(sheet)


class _Constants(dict[Name, Datum]):
    """A layer that makes a constant's datum when it is asked for: most papers use two or three of forty."""

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet
        self._keys = {name: key for key in sheet.constants if (name := read_name(key)) is not None}

    def __contains__(self, name: object) -> bool:
        return name in self._keys

    def __getitem__(self, name: Name) -> Datum:
        if not dict.__contains__(self, name):
            constant = self._sheet.constants[self._keys[name]]
            value = to_si(Real.of(constant.number.value), constant.unit)
            datum = Datum(name, Quantity(value, constant.unit, constant.number), "constant", "sheet")
            dict.__setitem__(self, name, datum)
        return dict.__getitem__(self, name)

    def __iter__(self):  # type: ignore[no-untyped-def]
        return iter(self._keys)

    def __len__(self) -> int:
        return len(self._keys)


def calculate(calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer = _NOTHING_TAKEN) -> Outcome:
    """Solve one calculation and write its working.

    Args:
        calculation: the statement; its conventions hold for it.
        scope: what names mean around it; the sheet's constants are its last layer.
        sheet: the data and formula sheet.
        taken: other values for some of its results (a learner's): its own working still ends in what it finds,
            but its later steps, and whoever uses its results, go on from these.

    Returns:
        The working, the results and every problem; never raises a Problem.
    """
    scope = with_distances(scope, calculation.conventions.points)
    method = _run_method(calculation, scope, sheet, taken)
    problems = method.problems
    if method.failed:
        return Outcome(None, method.results, tuple(problems), tuple(method.laws), tuple(method.constants))
    others = [
        _other_method(other, calculation, scope, sheet, method, problems) for other in calculation.others
    ]
    flipped = _flipped(calculation, scope, sheet) if calculation.conventions.signs == "both" else None
    lines, marks, found = allot(calculation, method.lines, len(method.answers))
    problems.extend(found)
    slips = _slips(calculation, method, problems)
    accepted = _accepted(calculation, scope, sheet, method, problems)
    workings = [
        _with_marks(o, calculation, marks, problems, why=statement.why.value.strip() if statement.why else "")
        for statement, o in zip(calculation.others, others, strict=True)
        if o is not None
    ]
    heading = ""
    axis = calculation.conventions.axis
    if flipped is not None and axis is not None:
        heading = f"{axis.positive} positive"
        workings.insert(0, _with_marks(flipped, calculation, marks, problems, f"{axis.negative} positive"))
    working = Working(
        tuple(lines), tuple(method.answers.values()), tuple(method.origins.values()), heading,
        calculation.why.value.strip() if calculation.why else "", tuple(workings), slips, accepted, method.shown,
        marks,
    )  # fmt: skip
    return Outcome(
        working,
        method.results,
        tuple(problems),
        tuple(dict.fromkeys([*method.laws, *(law for other in others if other for law in other.laws)])),
        tuple(dict.fromkeys(method.constants)),
        method.changes,
    )


def _run_method(
    calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer = _NOTHING_TAKEN
) -> _Method:
    """Steps first, each seeing what those before it found; then the calculation's own formula."""
    method = _Method()
    layer, problems = read_given(calculation.given, scope, calculation.conventions)
    method.problems.extend(problems)
    method.failed = bool(problems)
    scope = scope.inside(layer) if calculation.given else scope
    for step in calculation.steps:
        inner = _run_method(step, scope, sheet, taken)
        if step.why is not None and inner.lines:
            method.lines.append(Line(LineKind.REMARK, text=step.why.value.strip(), audience="guide"))
        _take_in(method, inner)
        if inner.failed:
            method.failed = True
        scope = scope.inside(inner.results) if inner.results else scope
        method.problems.extend(inner.problems)
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


def _take_in(method: _Method, inner: _Method) -> None:
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
    method.setup, method.found = inner.setup, inner.found


def _own_formula(calculation: Calculation, scope: Scope, sheet: Sheet, method: _Method) -> None:
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
    found, problems = solve_setup(setup, conventions)
    method.problems.extend(problems)
    if found is None:
        method.failed = True
        return
    directions, problems = _directions(calculation, setup)
    method.problems.extend(problems)
    trees = component_trees(setup, scope, conventions, found.as_typed)
    try:
        deviations, problems = spreads(setup, found, conventions)
        method.problems.extend(problems)
        written = write_working(setup, found, conventions, directions, trees, deviations)
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
        where = f"line {calculation.span.line}"
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
            value,
            asked.unit,
            form,
            answer.printed,
            name in directions,
            reasons,
            needs_direction=asked.find.with_direction,
            spread=spread,
        )
    method.setup, method.found = setup, found
    _carry_note(calculation, setup, found, written.answers, method)


def _changed(calculation: Calculation, parsed: Parsed, scope: Scope, method: _Method) -> None:
    """By which factor what is found changes when data change."""
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


def _vector_formula(calculation: Calculation, parsed: Parsed, scope: Scope, method: _Method) -> bool:
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
    where = f"line {calculation.span.line}"
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
            read = read_typed(answer.value, calculation.conventions.decimal)
        except Problem:
            continue
        if read is not None and (read.heading is not None or read.direction is not None):
            return True
    return False


def _from_steps(calculation: Calculation, method: _Method) -> None:
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
            read = read_typed(answer.value, conventions.decimal)
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
                out[name] = printed_direction(typed[name].value)
            elif conventions.axis is None:
                problems.append(AxisMissing(asked.find.direction_span, name.key))
            else:
                out[name] = None
        else:
            out[name] = None
    return out, problems


def _reasons(setup: Setup, conventions: Conventions) -> tuple[str, ...]:
    formulas = " and ".join(plain(e, conventions.style, conventions.unit_style) for e in setup.equations)
    data = ", ".join(describe(d, conventions.style, conventions.unit_style) for d in setup.data.values())
    return (f"from {formulas}" + (f", with {data}" if data else ""),)


def _typed_answers(calculation: Calculation, method: _Method, problems: list[Problem]) -> None:
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


def _result_for(answer: AnswerText, method: _Method) -> Result | None:
    if answer.name is not None:
        name = read_name(answer.name.value)
        return method.forms.get(name) if name is not None else None
    return next((method.forms[name] for name in method.answers if name in method.forms), None)


def _carry_note(
    calculation: Calculation, setup: Setup, found: Found, answers: Sequence[Answer], method: _Method
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
    again, problems = solve_setup(setup, conventions, other)
    if again is None or problems:
        return
    for asked, answer in zip(setup.asked, answers, strict=True):
        value = from_si(again.solution.values[answer.name], asked.unit)
        if answer.printed.direction:
            value = abs(value)
        rounded, numeral = rounded_like(answer, value, asked.find.form or conventions.form, conventions)
        if rounded != answer.rounded:
            shown = plain_printed(answer.printed, conventions.style, conventions.unit_style)
            would = plain_printed(Printed(numeral, asked.unit), conventions.style, conventions.unit_style)
            method.problems.append(
                CarryMatters(asked.find.span, answer.name.key, shown, would, conventions.carry)
            )


def _other_method(
    other: Calculation,
    calculation: Calculation,
    scope: Scope,
    sheet: Sheet,
    first: _Method,
    problems: list[Problem],
) -> _Method | None:
    """Another method for the same quantities; it must give the same."""
    other = _completed(other, calculation)
    method = _run_method(other, scope, sheet)
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


def _completed(other: Calculation, calculation: Calculation) -> Calculation:
    """Another method with what it leaves to the first to say."""
    return replace(
        other,
        find=other.find or _asked_texts(calculation),
        given=other.given or calculation.given,
        take=other.take or calculation.take,
        change=other.change or calculation.change,
    )


def _results_of(sheet: Sheet, calculation: Calculation, scope: Scope) -> Layer | None:
    """What a calculation finds; None where it fails."""
    method = _run_method(calculation, scope, sheet)
    return None if method.failed else method.results


def _asked_texts(calculation: Calculation) -> tuple[Text, ...]:
    """What a calculation asks: its own find, else its last step's."""
    if calculation.find or not calculation.steps:
        return calculation.find
    return _asked_texts(calculation.steps[-1])


def _with_marks(
    method: _Method,
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


def _flipped(calculation: Calculation, scope: Scope, sheet: Sheet) -> _Method | None:
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
        layer if isinstance(layer, _Constants) else {n: turned(d) for n, d in layer.items()}
        for layer in scope.layers
    )
    elsewhere = {i: {n: turned(d) for n, d in layer.items()} for i, layer in scope.elsewhere.items()}

    def opposite(statement: Calculation) -> Calculation:
        conventions = replace(statement.conventions, axis=axis.opposite(), signs="carried")
        return replace(
            statement, conventions=conventions, answers=(), steps=tuple(opposite(s) for s in statement.steps)
        )

    asked = opposite(calculation)
    method = _run_method(asked, Scope(layers, elsewhere), sheet)
    return None if method.failed else method


def _slips(
    calculation: Calculation, method: _Method, problems: list[Problem]
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
            continue  # The wrong way leads nowhere: there is no value for the marker to know.
        if printed is not None:
            out.append((label.value, printed))
    return tuple(out)


def _slip_in_change(
    label: Text, text: Text, calculation: Calculation, method: _Method, problems: list[Problem]
) -> Printed | None:
    """The factor that a wrong formula leads to."""
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
    label: Text, text: Text, conventions: Conventions, method: _Method, problems: list[Problem]
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
    if answer.printed.direction:
        shown = abs(shown)
    rounded, numeral = rounded_like(answer, shown, form, conventions)
    printed = Printed(numeral, unit)
    if rounded == answer.rounded:
        value = plain_printed(printed, conventions.style, conventions.unit_style)
        problems.append(SlipRight(label.span, label.value, value))
    return printed


def choices(calculation: Calculation, scope: Scope, sheet: Sheet) -> list[Answer]:
    """What honest choices lead to: each method, intermediate results carried rounded or not, and the customary
    values of the sheet's constants; every answer once, from the smallest to the largest."""

    def answers(scope: Scope) -> list[Answer]:
        found: list[Answer] = []
        for carry in policies:
            for method in (_run_method(carrying(way, carry), scope, sheet) for way in ways):
                found += [] if method.failed else list(method.answers.values())[:1]
        return found

    policies: tuple[Literal["unrounded", "rounded"], ...] = ("unrounded", "rounded")
    ways = (calculation, *(_completed(other, calculation) for other in calculation.others))
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
    found = [
        answer
        for chosen in itertools.islice(itertools.product(*varied), _MOST_CHOICES)
        for answer in answers(_with_constants(scope, chosen))
    ]
    distinct = {answer.rounded.fraction: answer for answer in found}
    return [distinct[value] for value in sorted(distinct)]


#: Combinations of customary values that are tried; three constants with four values each make as many.
_MOST_CHOICES = 64


def _with_constants(scope: Scope, chosen: Sequence[tuple[Name, Quantity]]) -> Scope:
    """A scope with other values for constants, also where data take one over under another name (a: g, down)."""
    if not chosen:
        return scope
    place = next((i for i, old in enumerate(scope.layers) if isinstance(old, _Constants)), len(scope.layers))
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


def _accepted(
    calculation: Calculation, scope: Scope, sheet: Sheet, method: _Method, problems: list[Problem]
) -> tuple[Printed, Printed] | None:
    result = next(iter(method.forms[n] for n in method.answers if n in method.forms), None)
    if calculation.accept is None or result is None:
        return None
    if calculation.accept.value.strip() == "choices":
        try:
            found_choices = choices(calculation, scope, sheet)
        except RealError:
            found_choices = []
        ends = [replace(answer.printed, uncertainty=None) for answer in found_choices]
        return (ends[0], ends[-1]) if len(ends) > 1 else None
    found, bad = accept_range(calculation.accept, result, calculation.conventions)
    problems.extend(bad)
    return (found.low, found.high) if found else None


def _shown(calculation: Calculation, method: _Method, problems: list[Problem]) -> Printed | None:
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


def written(name: Text, scope: Scope, conventions: Conventions) -> tuple[Printed | None, list[Problem]]:
    """The value that a name has, ready to print, for values written into prose."""
    read = read_name(name.value)
    if read is None:
        return None, [NameUnreadable(name.span, name.value)]
    datum = scope.find(read)
    if datum is None:
        return None, [NameWithoutValue(name.span, read.key, tuple(n.key for n in scope.names()))]
    return printed_datum(datum, conventions.style, conventions.form, conventions.rule), []


__all__ = [
    "GivenText", "Options", "OptionsOutcome", "Outcome", "calculate", "choose_option", "compare_typed",
    "constants_layer", "read_given", "written",
]  # fmt: skip
