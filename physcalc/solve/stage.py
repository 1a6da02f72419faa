"""A setup → the one solution that is meant, with those set aside."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..checking.limits import ACUTE
from ..checking.prices import in_units_of_prices
from ..checking.printing import printed_datum
from ..checking.scope import Datum, Scope
from ..checking.setup import SIGNED, Setup, without_value
from ..exact import Form, Real, write
from ..language.names import Name
from ..language.plain import plain, plain_printed
from ..language.statements import Conventions
from ..language.tree import Equation, Printed, Sym, walk
from ..problems import Problem, Span
from ..problems.solving import (
    DividesByZero,
    FormulasContradict,
    FormulasTooFew,
    NoRealRoot,
    NumberBeyondSense,
    RootsExcluded,
    RootsSearched,
    RootsSeveral,
)
from ..units import Unit, from_si, to_si
from .as_typed import in_radians, put_as_typed
from .cancelled import ONE, OTHER, standing_in
from .choose import SetAside, choose
from .system import Solution, Solved, solve_all


@dataclass(frozen=True, slots=True)
class Found:
    """What solving came to.

    Attributes:
        solution: the values, in SI coherent units.
        aside: solutions that are not the one meant.
        as_typed: names whose numbers may stand in the units they were typed in, and what is asked, where that
            comes out in the unit asked; empty where all go in in SI coherent units.
        cancelled: names without a value that drop out.
        values: the values as they are put in: typed numbers for names of `as_typed`, else in SI coherent units.
        setup: what was solved, its data in the units in which they are put in.
        radians: angles that count in radians: data that go in as numbers of radians wherever they stand in no plain
            sin, cos or tan, and what is asked, where it comes out in radians.
    """

    solution: Solution
    aside: tuple[SetAside, ...]
    as_typed: frozenset[Name]
    cancelled: tuple[Name, ...]
    values: Mapping[Name, Real]
    setup: Setup
    radians: frozenset[Name] = frozenset()


def carried(datum: Datum, carry: str) -> Real:
    """The value of a datum under a carry policy: an earlier result exactly, or as it was answered."""
    quantity = datum.quantity
    if carry == "rounded" and datum.kind == "result" and quantity.rounded is not None:
        value = to_si(Real.of(quantity.rounded.fraction), quantity.unit)
        return -abs(value) if quantity.value.sign() < 0 and not quantity.unit.offset else value
    return quantity.value


def values_in(setup: Setup, carry: str) -> dict[Name, Real]:
    """The values that go into the formulas."""
    values = {name: carried(datum, carry) for name, datum in setup.data.items()}
    return {
        n: abs(v) if setup.unsigned(n) and not setup.data[n].quantity.unit.offset else v
        for n, v in values.items()
    }


def solve_setup(
    setup: Setup, conventions: Conventions, carry: str | None = None
) -> tuple[Found | None, list[Problem]]:
    """Find the solution that is meant.

    Args:
        setup: the formulas, names and data.
        conventions: the settings in force.
        carry: a policy other than the settings' one, for comparison.

    Returns:
        What was found, or None; and the problems.
    """
    values = values_in(setup, carry or conventions.carry)
    asked = tuple(a.find.name for a in setup.asked)
    cancelled: tuple[Name, ...] = ()
    if len(setup.unknowns) > len(setup.equations):
        extra = tuple(n for n in setup.unknowns if n not in asked)
        solved = _cancelling(setup, values, asked, extra) if len(asked) <= len(setup.equations) else None
        if solved is None:
            return None, _too_few(setup, asked, extra)
        cancelled = extra
    else:
        solved = solve_all(setup.equations, setup.unknowns, values)
    if not solved.solutions:
        return None, [_fault(setup, solved, conventions)]
    directed = any(d.quantity.direction or d.quantity.value.sign() < 0 for d in setup.data.values())
    plain_magnitudes = conventions.axis is None and not directed
    sized = any(a.find.magnitude for a in setup.asked)
    choice = choose(
        solved.solutions, asked, setup.limits, setup.take, plain_magnitudes or setup.magnitudes or sized
    )
    if not choice.kept:
        reason = "the sheet's limits and take leave none"
        if choice.aside:
            last = choice.aside[-1]
            if last.reason == "limits":
                reason = f"{last.title} is {setup.limits[last.name].words(conventions.style)}"
            elif setup.take:
                reason = f"take says {setup.take.text}"
        shown = tuple(_shown(setup, s, asked[0], conventions) for s in solved.solutions)
        span = setup.take.span if setup.take else setup.asked[0].find.span
        return None, [RootsExcluded(span, asked[0].key, _unique(shown), reason)]
    if len(choice.kept) > 1:
        differing = next(
            (n for n in asked if not all(s.values[n].equals(choice.kept[0].values[n]) for s in choice.kept)),
            None,
        )
        if differing is not None:
            shown = tuple(_shown(setup, s, differing, conventions) for s in choice.kept)
            span = next(a.find.span for a in setup.asked if a.find.name == differing)
            return None, [RootsSeveral(span, differing.key, _unique(shown))]
    solution = choice.kept[0]
    if setup.take is None and (nonsense := _beyond_sense(setup, solution, conventions)) is not None:
        return None, [nonsense]
    if cancelled:
        cancelled += _idle_constants(setup, values, asked, cancelled, solution)
    priced = in_units_of_prices(setup)
    as_typed = put_as_typed(priced, solution, values, cancelled)
    put = {
        name: from_si(value, unit)
        if name in as_typed and not (unit := priced.data[name].quantity.unit).angle
        else value
        for name, value in values.items()
    }
    radians = in_radians(setup, solution, values, cancelled)
    return Found(solution, choice.aside, as_typed, cancelled, put, priced, radians), _searched(
        setup, solution
    )


def _searched(setup: Setup, solution: Solution) -> list[Problem]:
    """A note where what is asked rests on a search for roots, which cannot vouch that there are no others."""
    for move in solution.moves:
        if move.one is not None and move.one.method == "numeric":
            near = f"{move.one.touching[0]:.3g}" if move.one.touching else ""
            return [RootsSearched(setup.asked[0].find.span, move.unknowns[0].key, near)]
    return []


def _unique(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(texts))


def _too_few(setup: Setup, asked: tuple[Name, ...], extra: tuple[Name, ...]) -> list[Problem]:
    if extra and len(setup.equations) == 1 and len(asked) == 1:
        scope = Scope((dict(setup.data),))
        return [without_value(name, _place_of(name, setup), scope) for name in extra]
    span = setup.asked[0].find.span
    return [FormulasTooFew(span, tuple(n.key for n in setup.unknowns), len(setup.equations))]


def _place_of(name: Name, setup: Setup) -> Span:
    for equation in setup.equations:
        for side in (equation.left, equation.right):
            for node in walk(side):
                if isinstance(node, Sym) and node.name == name and node.span != Span():
                    return node.span
    return setup.span


def _cancelling(
    setup: Setup, values: Mapping[Name, Real], asked: tuple[Name, ...], extra: tuple[Name, ...]
) -> Solved | None:
    """The solution where names without a value drop out: two trials with unlike numbers must agree."""
    trials = []
    for start in (ONE, OTHER):
        trials.append(solve_all(setup.equations, asked, {**values, **standing_in(extra, start)}))
    first, second = trials
    if not first.solutions or len(first.solutions) != len(second.solutions):
        return None
    for one, two in zip(first.solutions, second.solutions, strict=True):
        if not all(one.values[n].equals(two.values[n]) for n in asked):
            return None
    return first


def _beyond_sense(setup: Setup, solution: Solution, conventions: Conventions) -> Problem | None:
    """What is asked comes out as what it can not be: an efficiency above 1, a negative kinetic energy.

    Velocities, forces, accelerations and momenta may be negative, since a minus is a direction there; and where
    one angle alone satisfies a formula typed by hand, it need not be acute.
    """
    for asked in setup.asked:
        name = asked.find.name
        limit, value = setup.limits.get(name), solution.values[name]
        if limit is None or limit.title == ACUTE or limit.allow(value):
            continue
        if asked.unit.dimension.text() in SIGNED and limit.allow(-value):
            continue
        reason = f"{limit.title} is {limit.words(conventions.style)}"
        return RootsExcluded(asked.find.span, name.key, (_shown(setup, solution, name, conventions),), reason)
    return None


def _idle_constants(
    setup: Setup,
    values: Mapping[Name, Real],
    asked: tuple[Name, ...],
    cancelled: tuple[Name, ...],
    solution: Solution,
) -> tuple[Name, ...]:
    """Constants of the sheet that drop out beside names without a value.

    In a ratio of powers `R` is a resistance that nobody gave, and not the molar gas constant.
    """
    idle = []
    for name, datum in setup.data.items():
        if datum.kind != "constant":
            continue
        trial = {**values, name: values[name] * Real.of(Fraction(7, 5)), **standing_in(cancelled)}
        found = solve_all(setup.equations, asked, trial).solutions
        if any(all(s.values[n].equals(solution.values[n]) for n in asked) for s in found):
            idle.append(name)
    return tuple(idle)


def _shown(setup: Setup, solution: Solution, name: Name, conventions: Conventions) -> str:
    unit = next(a.unit for a in setup.asked if a.find.name == name)
    return shown_value(solution.values[name], unit, conventions)


def shown_value(value: Real, unit: Unit, conventions: Conventions, form: Form | None = None) -> str:
    """A value in a unit, as plain text, rounded in the document's form."""
    _, numeral = write(from_si(value, unit), form or conventions.form, conventions.rule, conventions.style)
    return plain_printed(Printed(numeral, unit), conventions.style, conventions.unit_style)


def data_lines(setup: Setup, conventions: Conventions) -> tuple[str, ...]:
    """The data that went in, for a message: one line."""
    style, unit_style = conventions.style, conventions.unit_style
    parts = [
        f"{name.key} = {plain_printed(printed_datum(d, style), style, unit_style)} ({d.where})"
        for name, d in setup.data.items()
    ]
    return ("with " + ", ".join(parts),) if parts else ()


def _fault(setup: Setup, solved: Solved, conventions: Conventions) -> Problem:
    number = solved.fault_equation
    equation: Equation = setup.equations[number] if number is not None else setup.equations[0]
    text = plain(equation, conventions.style)
    place = equation.span if equation.span.file == setup.span.file and equation.span.line > 0 else setup.span
    if setup.law is not None and setup.sheet_form is not None:
        place = setup.span
    data = data_lines(setup, conventions)
    if solved.free:
        return FormulasTooFew(place, tuple(n.key for n in solved.free), len(setup.equations))
    if "divisor" in solved.fault:
        return DividesByZero(place, text, data)
    if "beyond 10" in solved.fault or "too large" in solved.fault or "too many" in solved.fault:
        return NumberBeyondSense(place, solved.fault)
    if "contradict" in solved.fault:
        return FormulasContradict(place, solved.fault)
    return NoRealRoot(place, setup.asked[0].find.name.key, text, solved.fault, data)
