"""Room 10: the stages of one calculation, in order.

statements → names and dimensions (checking) → exact solution (solve) → lines (steps) → marks (steps)
→ verdicts on what was typed (compare)
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from .bands import read_bands
from .checking.given import read_given
from .checking.points import with_distances
from .checking.printing import printed_datum
from .checking.scope import Layer, Scope
from .compare import compare_typed
from .constants import constants_layer
from .exact.work import CALCULATION, bounded
from .language.names import Name, read_name
from .language.remarks import remark
from .language.statements import Calculation, Conventions, GivenText
from .language.tree import Printed
from .language.words import direction_words
from .marking import (
    accepted_range,
    choices,
    flipped_method,
    not_accepted,
    other_method,
    slip_values,
    with_marks,
)
from .method import NOTHING_TAKEN, run_method
from .problems import Problem, Text
from .problems.checking import NameWithoutValue
from .problems.language import NameUnreadable
from .problems.stopped import STOPPED
from .sheets import Sheet
from .steps.lines import Working
from .steps.marks import allot

if TYPE_CHECKING:
    from .change import Changed


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


def calculate(calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer = NOTHING_TAKEN) -> Outcome:
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
    try:
        with bounded(CALCULATION):
            return _calculate(calculation, scope, sheet, taken)
    except STOPPED as problem:
        return Outcome(None, {}, (replace(problem, span=calculation.span),), (), ())


def _calculate(calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer) -> Outcome:
    scope = with_distances(scope, calculation.conventions.points)
    method = run_method(calculation, scope, sheet, taken)
    problems = method.problems
    if method.failed:
        return Outcome(None, method.results, tuple(problems), tuple(method.laws), tuple(method.constants))
    others = [
        other_method(other, calculation, scope, sheet, method, problems) for other in calculation.others
    ]
    flipped = flipped_method(calculation, scope, sheet) if calculation.conventions.signs == "both" else None
    lines, marks, found = allot(calculation, method.lines, len(method.answers))
    problems.extend(found)
    slips = slip_values(calculation, method, problems)
    accepted = accepted_range(calculation, scope, sheet, method, problems)
    if accepted is not None:
        problems[:] = not_accepted(problems, calculation, method)
    result = next((method.forms[n] for n in method.answers if n in method.forms), None)
    bands, found = read_bands(calculation, result) if result is not None else ((), [])
    problems.extend(found)
    workings = [
        with_marks(o, calculation, marks, problems, why=statement.why.value.strip() if statement.why else "")
        for statement, o in zip(calculation.others, others, strict=True)
        if o is not None
    ]
    heading, lang = "", calculation.conventions.lang
    axis = calculation.conventions.axis
    if flipped is not None and axis is not None:
        heading, other = (
            remark("positive", lang, way=direction_words(way, lang)) for way in (axis.positive, axis.negative)
        )
        workings.insert(0, with_marks(flipped, calculation, marks, problems, other))
    working = Working(
        lines=tuple(lines),
        answers=tuple(method.answers.values()),
        origins=tuple(method.origins.values()),
        heading=heading,
        why=calculation.why.value.strip() if calculation.why else "",
        others=tuple(workings),
        slips=slips,
        accepted=accepted,
        bands=bands,
        shown=method.shown,
        marks=marks,
    )
    return Outcome(
        working,
        method.results,
        tuple(problems),
        tuple(dict.fromkeys([*method.laws, *(law for other in others if other for law in other.laws)])),
        tuple(dict.fromkeys(method.constants)),
        method.changes,
    )


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
    "GivenText", "Outcome", "calculate", "choices", "compare_typed", "constants_layer", "read_given", "written",
]  # fmt: skip
