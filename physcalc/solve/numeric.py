"""Roots of a formula without a closed form: found by a scan, refined to any precision asked, verified."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..checking.value import Values, evaluate
from ..exact import Real, RealError, root_between, spend
from ..language import tree as t
from ..language.names import Name

_FLOAT: dict[str, Callable[[float], float]] = {
    "sin": math.sin, "cos": math.cos, "tan": math.tan, "asin": math.asin, "acos": math.acos,
    "atan": math.atan, "sqrt": math.sqrt, "exp": math.exp, "ln": math.log,
    "log": math.log10, "log10": math.log10, "abs": abs,
}  # fmt: skip


#: Differences below this share of the value aimed at are rounding noise of floating point.
_NOISE = 1e-13
#: A curve that comes so near, as a share of the values around, may touch.
_TOUCH = 1e-11


def evaluate_float(node: t.Expr, values: Mapping[Name, float]) -> float:
    """The value of a tree in ordinary floating point; for scans only, never for a digit that is printed."""
    match node:
        case t.Num(number, unit):
            return float(number.value) * (math.pi / 180 if unit == "°" else 1)
        case t.Sym(name) | t.Put(name=name):
            return values[name]
        case t.Pi():
            return math.pi
        case t.Sum(terms, signs):
            return sum(
                -evaluate_float(x, values) if s == "-" else evaluate_float(x, values)
                for x, s in zip(terms, signs, strict=True)
            )
        case t.Product(factors, joins):
            result = evaluate_float(factors[0], values)
            for factor, join in zip(factors[1:], joins, strict=True):
                value = evaluate_float(factor, values)
                result = result / value if join == "/" else result * value
            return result
        case t.Power(base, exponent):
            raised: float | complex = evaluate_float(base, values) ** evaluate_float(exponent, values)
            if isinstance(raised, complex):
                raise ValueError("complex")
            return raised
        case t.Call(function, arguments, _, power):
            if function == "atan2":
                value = math.atan2(evaluate_float(arguments[0], values), evaluate_float(arguments[1], values))
            else:
                value = _FLOAT[function](evaluate_float(arguments[0], values))
            return value if power is None else value ** evaluate_float(power, values)
        case t.Group(body):
            return evaluate_float(body, values)
        case t.Abs(body):
            return abs(evaluate_float(body, values))


def only_in_angles(unknown: Name, *nodes: t.Expr) -> bool:
    """Whether the unknown stands inside sin, cos or tan only: then one turn holds all its roots."""

    def bare(node: t.Expr) -> bool:
        if isinstance(node, t.Sym):
            return node.name == unknown
        if isinstance(node, t.Call) and node.function in ("sin", "cos", "tan"):
            return False
        return any(bare(child) for child in t.children(node))

    return not any(bare(node) for node in nodes)


def _scan_points(angle: bool) -> list[float]:
    if angle:
        # One turn, from just above −180°, at places no neat angle falls on.
        return [-math.pi + 1e-9 + 2 * math.pi * i / 2000 for i in range(2001)]
    grid = [10 ** (exponent / 12) for exponent in range(-360, 361)]
    near = [0.0123 * i for i in range(1, 400)]
    positive = sorted(grid + near)
    return [-x for x in reversed(positive)] + [1e-300] + positive


@dataclass(frozen=True, slots=True)
class Search:
    """What a scan found.

    Attributes:
        roots: the verified roots; each refines itself to whatever precision rounding asks for.
        touching: places where the curve seems to touch the value without crossing it: perhaps roots, not verified.
        stretch: a stretch all of whose values are roots, so far as can be told; None for none.
    """

    roots: tuple[Real, ...]
    touching: tuple[float, ...] = ()
    stretch: tuple[float, float] | None = None


def numeric_roots(core: t.Expr, target: Real, unknown: Name, values: Values) -> Search:
    """Where `core` takes the value `target`: every sign change that a scan over 60 decades each way finds.

    Two roots nearer to one another than two places of the scan are not seen.

    Raises:
        RealError: a value on the way is beyond sense.
    """
    floats = {name: float(value) for name, value in values.items()}
    goal = float(target)

    def difference(x: float) -> float | None:
        floats[unknown] = x
        try:
            result = evaluate_float(core, floats) - goal
        except (ArithmeticError, ValueError):
            return None
        return result if math.isfinite(result) else None

    brackets: list[tuple[float, float]] = []
    recent: list[tuple[float, float]] = []
    touching: list[float] = []
    stretch: tuple[float, float] | None = None
    touched: list[float] = []
    before: tuple[float, float] | None = None
    unsure: list[float] = []
    last: float | None = None
    points = _scan_points(only_in_angles(unknown, core))
    # Ordinary floating point is some hundred times as fast as exact arithmetic.
    spend(len(points) * sum(1 for _ in t.walk(core)) // 100)
    for x in points:
        y = difference(x)
        place, last = last, x
        if y is None:
            if before is not None and place is not None:
                _cross(brackets, before, _edge(difference, before[0], x))
            before, unsure, recent = None, [], []
            continue
        if abs(y) <= _NOISE * abs(goal or y or 1):
            # Floating point can not tell on which side of the root this point lies: the next one decides.
            unsure.append(x)
            continue
        if len(unsure) == 1:
            touched.append(unsure[0])
        elif len(unsure) > 1 and unsure[0] < unsure[-1]:
            stretch = (unsure[0], unsure[-1])
        recent = [*recent[-2:], (x, y)] if not unsure else [(x, y)]
        if (near := _touch(difference, recent, goal)) is not None:
            touching.append(near)
        if before is None and place is not None and not unsure:
            before = _edge(difference, x, place)
        if before is not None:
            _cross(brackets, before, (x, y))
        before, unsure = (x, y), []

    def gap(x: Real) -> Real:
        return evaluate(core, {**values, unknown: x}) - target

    roots = [root_between(gap, low, high) for low, high in brackets]
    found = [root for root in roots if root is not None]
    if stretch is not None and not _vanishes(gap, Real.of(Fraction(0.3 * stretch[0] + 0.7 * stretch[1]))):
        # Flat there, and too near to tell in floating point: it touches, and is not the value throughout.
        touching.append((stretch[0] + stretch[1]) / 2)
        stretch = None
    found += [Real.of(Fraction(x)) for x in touched if _vanishes(gap, Real.of(Fraction(x)))]
    return Search(tuple(found), tuple(touching), stretch)


def _touch(
    difference: Callable[[float], float | None], recent: list[tuple[float, float]], goal: float
) -> float | None:
    """Where the curve comes down to the value between three places and goes back, without crossing it."""
    if len(recent) < 3:
        return None
    (low, first), (_, middle), (high, last) = recent
    if not ((first > 0) == (middle > 0) == (last > 0)):
        return None
    # Where it touches, the middle one of three places lies much lower than the higher of its neighbours.
    if abs(middle) >= abs(first) or abs(middle) > abs(last) or abs(middle) > 0.6 * max(abs(first), abs(last)):
        return None
    for _ in range(80):
        # A third of the stretch is left out each time: the least lies in what is kept.
        one, two = low + (high - low) / 3, high - (high - low) / 3
        left, right = difference(one), difference(two)
        if left is None or right is None:
            return None
        low, high = (low, two) if abs(left) < abs(right) else (one, high)
    least = difference((low + high) / 2)
    size = max(abs(goal), abs(first), abs(last))
    return (low + high) / 2 if least is not None and abs(least) <= _TOUCH * size else None


def _cross(brackets: list[tuple[float, float]], one: tuple[float, float], two: tuple[float, float]) -> None:
    """Note the stretch between two points with their differences, where these differ in sign."""
    if (one[1] < 0) != (two[1] < 0):
        low, high = sorted((one[0], two[0]))
        brackets.append((low, high))


def _edge(difference: Callable[[float], float | None], inside: float, outside: float) -> tuple[float, float]:
    """The last point, towards one that has no value, that has one, and the difference there."""
    start = inside
    for _ in range(60):
        middle = (inside + outside) / 2
        if difference(middle) is None:
            outside = middle
        else:
            inside = middle
    # A hair back from the edge, where exact arithmetic has a value as well.
    inside += (start - inside) * 1e-9
    value = difference(inside)
    return (start, difference(start) or 0.0) if value is None else (inside, value)


def _vanishes(gap: Callable[[Real], Real], x: Real) -> bool:
    try:
        return gap(x).sign() == 0
    except RealError:
        return False
