"""Which numbers may stand in a substitution as they were typed, and which angles go in in radians."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction

from ..checking.angles import INVERSE, TRIGONOMETRIC, is_mixed, outer, put_bare
from ..checking.prices import counts_money, unit_on_the_way
from ..checking.setup import Setup
from ..exact import Real
from ..language import tree as t
from ..language.names import Name
from ..units import Dimension, UnitFactor, from_si, unit_of
from .cancelled import standing_in
from .system import Solution, solve_all


def is_pure(setup: Setup, name: Name) -> bool:
    """Whether a name is an angle or a plain number, so that it may stand in degrees within sin, cos or tan."""
    dimension = setup.dimensions.of(name)
    return dimension is None or not dimension.powers


def in_radians(
    setup: Setup, solution: Solution, values: Mapping[Name, Real], cancelled: tuple[Name, ...]
) -> frozenset[Name]:
    """Angles that count in radians: whoever puts in their degrees (as in s = r θ) gets another answer.

    Those that stand in sin, cos and tan alone do not; nor do those that are added, subtracted or divided by each
    other, all in one unit.
    """
    sides = [side for e in setup.equations for side in (e.left, e.right)]
    calls = [n for side in sides for n in t.walk(side) if isinstance(n, t.Call)]
    if any(call.function in INVERSE for call in calls):
        return frozenset()  # A calculator set to degrees gives and takes them.
    units = {n: d.quantity.unit for n, d in setup.data.items()} | {a.find.name: a.unit for a in setup.asked}
    angles = frozenset(n for n, unit in units.items() if unit.angle)
    if not angles:
        return frozenset()
    mixed = frozenset(
        n.name
        for call in calls
        if call.function in TRIGONOMETRIC and is_mixed(call, lambda name: is_pure(setup, name))
        for n in t.walk(call)
        if isinstance(n, t.Sym) and n.name in angles
    )
    outside = frozenset(
        n.name for side in sides for n in outer(side) if isinstance(n, t.Sym) and n.name in angles
    )
    inside = frozenset(
        n.name
        for call in calls
        if call.function in TRIGONOMETRIC
        for n in t.walk(call)
        if isinstance(n, t.Sym) and n.name in angles
    )
    alike = len({units[n].text() for n in outside}) <= 1 and not outside & inside
    if outside and alike:
        scaled = {n: v / units[n].scale if n in outside else v for n, v in values.items()}
        wanted = {n: v / units[n].scale if n in outside else v for n, v in solution.values.items()}
        degrees = units[next(iter(outside))].text() == "°"
        equations = tuple(map(_numbers_of_degrees, setup.equations)) if degrees else setup.equations
        if _gives(wanted, replace(setup, equations=equations), scaled, cancelled):
            outside = frozenset(n for n in outside if units[n].text() == "rad")
    return outside | mixed


def _numbers_of_degrees(equation: t.Equation) -> t.Equation:
    """A formula with 180 for 180° outside of sin, cos and tan."""

    def plain(node: t.Expr) -> t.Expr:
        return replace(node, unit="") if isinstance(node, t.Num) and node.unit == "°" else node

    left, right = (put_bare(side, plain, lambda _: True) for side in (equation.left, equation.right))
    return t.Equation(left, right, equation.span)


def put_as_typed(
    setup: Setup, solution: Solution, values: Mapping[Name, Real], cancelled: tuple[Name, ...]
) -> frozenset[Name]:
    """Names whose numbers may stand as they were typed and still give the very answer in the unit asked.

    Tried with every datum, then with those that measure the same as what is asked (a mass that stays in grams
    beside a time in seconds).
    """
    units = [d.quantity.unit for d in setup.data.values()] + [a.unit for a in setup.asked]
    asked = frozenset(a.find.name for a in setup.asked)
    coherent = all(u.angle or (u.scale.fraction == 1 and not u.offset) for u in units)
    # Beside a constant with a unit of its own (k, G, g) a marker expects SI units, even where they would cancel.
    constants = any(d.kind == "constant" and d.quantity.unit.factors for d in setup.data.values())
    money = counts_money(setup)
    between = frozenset(setup.unknowns) - asked - frozenset(cancelled)
    if coherent or (between and not money):
        return frozenset()
    if constants:
        return _points_as_typed(setup, solution, values, cancelled)
    wanted = {
        a.find.name: solution.values[a.find.name]
        if a.unit.angle
        else from_si(solution.values[a.find.name], a.unit)
        for a in setup.asked
    }
    # Energy on the way to a cost comes out in the kilowatt-hours that the price is for.
    wanted |= {n: from_si(solution.values[n], unit_on_the_way(setup, n)) for n in between}
    measured = {a.unit.dimension for a in setup.asked}
    alike = frozenset(n for n, d in setup.data.items() if d.quantity.unit.dimension in measured)
    differences = frozenset(n for n, d in setup.data.items() if not d.quantity.unit.offset)

    def fits(names: frozenset[Name]) -> bool:
        raw: dict[Name, Real] = {}
        for name, datum in setup.data.items():
            unit = datum.quantity.unit
            raw[name] = values[name] if unit.angle or name not in names else from_si(values[name], unit)
        return _gives(wanted, setup, raw, cancelled)

    # A cost from a price for each kilowatt-hour: energies and prices stay as they are.
    in_coherent = (
        not money
        and any(a.unit.factors and not a.unit.angle for a in setup.asked)
        and all(a.unit.angle or (a.unit.scale.fraction == 1 and not a.unit.offset) for a in setup.asked)
    )
    for names in dict.fromkeys((frozenset(setup.data), differences, alike)):
        if fits(names):
            if not money and not _one_size_each(setup, names):
                # Square metres over millimetres may come to kilowatts, but nobody writes that down.
                continue
            if in_coherent and not all(fits(kind) for kind in _kinds(setup, names)):
                # Grams over milliseconds give newtons too, but a marker expects kilograms and seconds.
                continue
            points = frozenset(n for n, d in setup.data.items() if d.quantity.unit.offset)
            return names | asked | between | (points if points and fits(names | points) else frozenset())
    return _points_as_typed(setup, solution, values, cancelled)


def _one_size_each(setup: Setup, names: frozenset[Name]) -> bool:
    """Whether lengths are all in one unit, times in one unit, and so on, within compound units too."""
    sizes: dict[Dimension, set[Fraction | None]] = {}
    for name in names:
        unit = setup.data[name].quantity.unit
        for factor in () if unit.offset or unit.angle else unit.factors:
            one = unit_of([UnitFactor(factor.symbol)], difference=True)
            if one.dimension.powers:
                sizes.setdefault(one.dimension, set()).add(one.scale.fraction)
    return all(len(found) == 1 for found in sizes.values())


def _points_as_typed(
    setup: Setup, solution: Solution, values: Mapping[Name, Real], cancelled: tuple[Name, ...]
) -> frozenset[Name]:
    """Temperatures that may stay in degrees Celsius, since only differences of them go in."""
    units = {n: d.quantity.unit for n, d in setup.data.items()} | {a.find.name: a.unit for a in setup.asked}
    points = frozenset(n for n, unit in units.items() if unit.offset)
    if not points.intersection(setup.data):
        return frozenset()
    raw = {n: from_si(v, units[n]) if n in points else v for n, v in values.items()}
    wanted = {n: from_si(v, units[n]) if n in points else v for n, v in solution.values.items()}
    return points if _gives(wanted, setup, raw, cancelled) else frozenset()


def _gives(
    wanted: Mapping[Name, Real], setup: Setup, values: Mapping[Name, Real], cancelled: tuple[Name, ...]
) -> bool:
    """Whether the formulas with these values have a solution that is the wanted one."""
    unknowns = tuple(n for n in setup.unknowns if n not in cancelled)
    solutions = solve_all(setup.equations, unknowns, {**values, **standing_in(cancelled)}).solutions
    return any(all(s.values[n].equals(v) for n, v in wanted.items()) for s in solutions)


def _kinds(setup: Setup, names: frozenset[Name]) -> set[frozenset[Name]]:
    """Names with equal dimensions together: the masses, the times, …"""
    dimensions = {n: setup.data[n].quantity.unit.dimension for n in names}
    return {frozenset(n for n in names if dimensions[n] == d) for d in dimensions.values()}
