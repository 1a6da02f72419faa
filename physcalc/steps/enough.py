"""Numbers that are rounded when they are put in keep so many figures that they still give the answer printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from ..checking.setup import Asked, Setup
from ..exact import Form, Numeral, Real, RealError, write
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Expr, Printed
from ..solve.cancelled import standing_in
from ..solve.stage import Found
from ..solve.system import solve_all
from ..units import to_si
from .answers import make_answer
from .lines import Answer

#: More figures than this are never put in: the answer is asked more exactly than anybody writes down.
_MOST_FIGURES = 9
_LEAST_FIGURES = 4

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

    33,33 m·s⁻¹ for 120 km/h is such a number, or 2,294 for a factor worked out under `given`. Earlier results are
    left as they were answered: that is a choice of the author's (`carry`).

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
        if datum.kind == "given" and (shown := _shown(name, known, radians)) is not None
        if (worth := _worth(shown.numeral)) is not None and not _equals(found.values[name], worth)
    ]
    if not rounded:
        return known, radians
    for figures in range(_LEAST_FIGURES, _MOST_FIGURES + 1):
        if figures > _LEAST_FIGURES:
            for name in rounded:
                _widen(name, found.values[name], figures, known, radians, conventions)
        values = dict(found.values)
        for name in rounded:
            shown = _shown(name, known, radians)
            worth = _worth(shown.numeral) if shown is not None else None
            if worth is not None:
                values[name] = Real.of(worth)
        if _same_answers(setup, found, values, conventions, answers):
            break
    return known, radians


def _shown(name: Name, known: Known, radians: Mapping[Name, Printed]) -> Printed | None:
    shown = radians.get(name, known.get(name))
    if not isinstance(shown, Printed) or (
        name not in radians and shown.unit is not None and shown.unit.angle
    ):
        return None
    return shown


def _worth(numeral: Numeral) -> Fraction | None:
    """The number that the digits say; None for one that is written as a fraction, which is exact."""
    if "/" in numeral.whole:
        return None
    size = Fraction(f"{numeral.whole or 0}.{numeral.part or 0}") * Fraction(10) ** (numeral.exponent or 0)
    return -size if numeral.negative else size


def _equals(value: Real, worth: Fraction) -> bool:
    return value.fraction is not None and value.fraction == worth


def _widen(
    name: Name,
    value: Real,
    figures: int,
    known: Known,
    radians: dict[Name, Printed],
    conventions: Conventions,
) -> None:
    _, numeral = write(abs(value), Form("figures", figures, None), conventions.rule, conventions.style)
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
    again = make_answer(asked, value, conventions, {})
    return abs(again.rounded.fraction) == abs(answers[name].rounded.fraction)
