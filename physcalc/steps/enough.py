"""Numbers that are rounded when they are put in keep so many figures that they still give the answer printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from ..checking.setup import Asked, Setup
from ..exact import Real, RealError
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Expr, Printed
from ..solve.cancelled import standing_in
from ..solve.stage import Found
from ..solve.system import solve_all
from ..units import to_si
from .answers import answer_again, make_answer
from .lines import Answer
from .values import LEAST_FIGURES, MOST_FIGURES, says, with_figures, worth

Known = dict[Name, Printed | Expr]


def enough_figures(
    setup: Setup,
    found: Found,
    conventions: Conventions,
    answers: Mapping[Name, Answer],
    known: Known,
    radians: Mapping[Name, Printed],
) -> tuple[Known, dict[Name, Printed]]:
    """What is put in, with more figures where whoever types it into a calculator would get another answer.

    33,33 m·s⁻¹ for 120 km/h is such a number, or 2,294 for a factor worked out under `given`, or a component of a
    vector found before. Other earlier results are left as they were answered: that is a choice of the author's
    (`carry`).

    Args:
        setup, found, conventions: what was solved, and how.
        answers: the answers as they are printed.
        known: what stands for names; radians: the same where an angle counts in radians.

    Returns:
        `known` and `radians`, changed where that is needed.
    """
    known, radians = dict(known), dict(radians)
    rounded = [
        name
        for name, datum in setup.data.items()
        if (datum.kind == "given" or name.component) and (shown := _shown(name, known, radians)) is not None
        if not says(shown.numeral, found.values[name])
    ]
    if not rounded:
        return known, radians
    for figures in range(LEAST_FIGURES, MOST_FIGURES + 1):
        if figures > LEAST_FIGURES:
            for name in rounded:
                _widen(name, found.values[name], figures, known, radians, conventions)
        values = dict(found.values)
        for name in rounded:
            shown = _shown(name, known, radians)
            said = worth(shown.numeral) if shown is not None else None
            if said is not None:
                values[name] = Real.of(said)
        if _same_answers(setup, found, values, conventions, answers):
            break
    return known, radians


def enough_for_sizes(
    found: Found, conventions: Conventions, sizes: Mapping[Name, Printed], exact: Mapping[Name, Real]
) -> dict[Name, Printed]:
    """Sizes of vectors, by the names of their components, with more figures where the answers need them.

    Args:
        found, conventions: what was solved, and how.
        sizes: what stands for the size of each vector, as a factor of its component.
        exact: these sizes, exactly.
    """
    rounded = [name for name, put in sizes.items() if not says(put.numeral, exact[name])]
    out = dict(sizes)
    if not rounded:
        return out
    setup = found.setup
    answers = {
        a.find.name: make_answer(a, found.solution.values[a.find.name], conventions, {}) for a in setup.asked
    }
    for figures in range(LEAST_FIGURES, MOST_FIGURES + 1):
        values = dict(found.values)
        for name in rounded:
            if figures > LEAST_FIGURES:
                numeral = with_figures(exact[name], figures, conventions)
                out[name] = replace(sizes[name], numeral=numeral)
            said = worth(out[name].numeral)
            if said is not None:
                values[name] = values[name] / exact[name] * Real.of(said)
        if _same_answers(setup, found, values, conventions, answers):
            break
    return out


def _shown(name: Name, known: Known, radians: Mapping[Name, Printed]) -> Printed | None:
    shown = radians.get(name, known.get(name))
    if not isinstance(shown, Printed) or (
        name not in radians and shown.unit is not None and shown.unit.angle
    ):
        return None
    return shown


def _widen(
    name: Name,
    value: Real,
    figures: int,
    known: Known,
    radians: dict[Name, Printed],
    conventions: Conventions,
) -> None:
    numeral = with_figures(abs(value), figures, conventions)
    shown = _shown(name, known, radians)
    assert shown is not None
    wider = replace(shown, numeral=replace(numeral, negative=shown.numeral.negative))
    if name in radians:
        radians[name] = wider
    else:
        known[name] = wider


def _same_answers(
    setup: Setup,
    found: Found,
    values: Mapping[Name, Real],
    conventions: Conventions,
    answers: Mapping[Name, Answer],
) -> bool:
    """Whether these values give what is printed."""
    unknowns = tuple(n for n in setup.unknowns if n not in found.cancelled)
    try:
        solutions = solve_all(setup.equations, unknowns, {**values, **standing_in(found.cancelled)}).solutions
    except RealError:
        return True
    return not solutions or any(
        all(_prints(asked, s.values[asked.find.name], found, conventions, answers) for asked in setup.asked)
        for s in solutions
    )


def _prints(
    asked: Asked, value: Real, found: Found, conventions: Conventions, answers: Mapping[Name, Answer]
) -> bool:
    name = asked.find.name
    if name in found.as_typed and not asked.unit.angle:
        value = to_si(value, asked.unit)
    own, raw, radians = found.solution.values[name], name in found.as_typed, name in found.radians
    return answer_again(asked, answers[name], own, value, raw, radians, conventions)
