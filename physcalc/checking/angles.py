"""Angles in formulas: numbers that are taken for angles, turns that are counted, and where radians go in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from fractions import Fraction

from ..language import tree as t
from ..language.names import Name
from ..problems import Problem, Span
from ..problems.checking import AngleNotNumber, TurnsCounted
from ..problems.language import AngleUnitMissing
from ..sheets import Symbol
from ..units import Unit
from .scope import Datum

#: Whole numbers of degrees that formulas hold: a bare one beside an angle is meant in degrees.
_DEGREES = frozenset(map(Fraction, (90, 180, 270, 360)))
TRIGONOMETRIC = ("sin", "cos", "tan")
INVERSE = ("asin", "acos", "atan", "atan2")

#: What tells the unit of a name; None for a name without a known unit.
UnitOf = Callable[[Name], Unit | None]


def angle_problems(
    equations: Iterable[tuple[t.Expr, ...]], unit_of: UnitOf, places: Mapping[Name, Span]
) -> list[Problem]:
    """Angles in degrees beside bare numbers of degrees, and turns that are taken for a plain count.

    Either would be wrong by a factor of 57 or of 2 π, since an angle goes in in radians.

    Args:
        equations: the sides of each formula.
        unit_of: the units of data and of what is asked.
        places: where the units of names stand; for others the name's own place is told.
    """
    problems: dict[Name, Problem] = {}
    for sides in equations:
        names = t.names_in(*sides)
        degrees = [n for n in names if (u := unit_of(n)) is not None and u.angle and u.text() == "°"]
        number = _bare_degrees(sides, frozenset(degrees)) if degrees else None
        if number is not None:
            name = degrees[0]
            problems.setdefault(name, AngleNotNumber(number.span, name.key, number.number.typed))
        for name in names:
            unit = unit_of(name)
            if unit is None or not any(f.symbol == "rev" for f in unit.factors):
                continue
            # Angles and angular velocities have Greek names; a Latin one is a frequency or a number of turns.
            if name.base.isascii() or name.base == "ν" or _times_pi(name, sides):
                place = places.get(name) or _place(name, sides)
                problems.setdefault(name, TurnsCounted(place, name.key, unit.text(), unit.angle))
    return list(problems.values())


def angle_faults(
    equations: Iterable[t.Equation],
    data: Mapping[Name, Datum],
    asked: Mapping[Name, Unit],
    places: Mapping[Name, Span],
    symbols: Mapping[Name, Symbol],
) -> list[Problem]:
    """What is wrong with the angles of a calculation: see `angle_problems`; and units left out.

    Args:
        equations: its formulas.
        data: the values that go in.
        asked: the units of what is found.
        places: where those units were typed.
        symbols: what the sheet says of names.
    """
    units = {name: datum.quantity.unit for name, datum in data.items()} | dict(asked)
    spans = {name: datum.span for name, datum in data.items() if datum.span is not None} | dict(places)
    problems = angle_problems([(e.left, e.right) for e in equations], units.get, spans)
    for name, datum in data.items():
        number, symbol = datum.quantity.number, symbols.get(name)
        if number is None or symbol is None or datum.quantity.unit.factors or number.value == 0:
            continue
        if symbol.unit.angle:
            problems.append(AngleUnitMissing(datum.span or Span(), "", number.typed, name.key))
    return problems


def _place(name: Name, sides: tuple[t.Expr, ...]) -> Span:
    return next(n.span for side in sides for n in t.walk(side) if isinstance(n, t.Sym) and n.name == name)


def _bare_degrees(sides: tuple[t.Expr, ...], degrees: frozenset[Name]) -> t.Num | None:
    """A number without ° that stands for degrees: beside angles outside of sin, cos and tan, or in one sum with one."""
    outside = [node for side in sides for node in outer(side)]
    angles = any(isinstance(n, t.Sym) and n.name in degrees for n in outside)
    if angles:
        for node in outside:
            if isinstance(node, t.Num) and not node.unit and node.number.value in _DEGREES:
                return node
    for side in sides:
        for node in t.walk(side):
            if isinstance(node, t.Sum) and any(
                isinstance(x, t.Sym) and x.name in degrees for x in node.terms
            ):
                for term in node.terms:
                    if isinstance(term, t.Num) and not term.unit and term.number.value != 0:
                        return term
    return None


def outer(node: t.Expr) -> Iterator[t.Expr]:
    """The parts of a tree that stand in no sin, cos or tan."""
    yield node
    if isinstance(node, t.Call) and node.function in TRIGONOMETRIC:
        return
    for child in t.children(node):
        yield from outer(child)


def _times_pi(name: Name, sides: tuple[t.Expr, ...]) -> bool:
    """Whether a product holds both the name and π."""
    for side in sides:
        for node in t.walk(side):
            if isinstance(node, t.Product):
                factors = [f.base if isinstance(f, t.Power) else f for f in node.factors]
                named = any(isinstance(f, t.Sym) and f.name == name for f in factors)
                if named and any(isinstance(f, t.Pi) for f in factors):
                    return True
    return False


def is_mixed(call: t.Expr, pure: Callable[[Name], bool]) -> bool:
    """Whether the argument of a sin, cos or tan holds more than angles and plain numbers, as in cos(ω t + φ)."""
    names = t.names_in(*t.children(call))
    return any(not pure(name) for name in names)


def put_bare(node: t.Expr, put: Callable[[t.Expr], t.Expr], pure: Callable[[Name], bool]) -> t.Expr:
    """A tree with names and numbers changed where an angle counts in radians.

    That is outside of sin, cos and tan, and within one that holds ω t or its like.

    Args:
        node: the tree.
        put: what stands in the place of a name or a number.
        pure: whether a name is an angle or a plain number.
    """

    def inner(part: t.Expr) -> t.Expr:
        return put_bare(part, put, pure)

    match node:
        case t.Sym() | t.Num():
            return put(node)
        case t.Call(function) if function in TRIGONOMETRIC and not is_mixed(node, pure):
            return node
        case _:
            return t.rebuilt(node, inner)


def is_angle(name: Name, equations: list[t.Equation]) -> bool:
    """Whether a name stands as an angle: alone in sin, cos, tan, or alone against an inverse one."""
    for equation in equations:
        for one, other in ((equation.left, equation.right), (equation.right, equation.left)):
            alone = isinstance(one, t.Sym) and one.name == name
            if alone and isinstance(other, t.Call) and other.function in INVERSE:
                return True
            for node in t.walk(one):
                if isinstance(node, t.Call) and node.function in TRIGONOMETRIC:
                    inner = node.arguments[0]
                    inner = inner.body if isinstance(inner, t.Group) else inner
                    if isinstance(inner, t.Sym) and inner.name == name:
                        return True
    return False
