"""What parts two methods for the same quantity: rounded values on the way, the digits of the data, or a mistake.

Room 10, beside the engine, which hands in how a method is run.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Literal

from .checking.given import last_digit, read_given
from .checking.scope import Datum, Layer, Scope
from .exact import Numeral, Real, RealError, Spread, round_figures
from .language.names import Name
from .language.plain import plain_printed
from .language.statements import Calculation, Conventions
from .language.tree import Printed
from .units import Unit, difference_of

#: Works a calculation in a scope; what it found, or None where it failed.
Runner = Callable[[Calculation, Scope], Mapping[Name, Datum] | None]
#: "carried": the same where nothing is rounded on the way. "digits": within half a unit of the last digit of the
#: data. "": neither.
Explanation = Literal["carried", "digits", ""]


def carrying(calculation: Calculation, carry: Literal["unrounded", "rounded"]) -> Calculation:
    """The same calculation, its steps included, under a carry policy; nothing typed is checked in it."""
    conventions = replace(calculation.conventions, carry=carry)
    steps = tuple(carrying(step, carry) for step in calculation.steps)
    return replace(calculation, conventions=conventions, steps=steps, answers=(), show=None)


def apart(one: Real, other: Real, unit: Unit, conventions: Conventions) -> str:
    """How far two values lie apart, as words: "0,013 N (0,045 %)"."""
    off = abs(other - one) / difference_of(unit).scale
    rounded = round_figures(off, 2)
    magnitude = rounded.magnitude or 0
    exponent = None if -4 <= magnitude <= 4 else magnitude
    printed = Printed(Numeral.of_rounded(rounded, exponent), unit)
    text = plain_printed(printed, conventions.style, conventions.unit_style)
    if one.sign() == 0 or unit.offset:
        return text
    share = Printed(Numeral.of_rounded(round_figures(abs(other - one) / abs(one) * Real.of(100), 2)))
    return f"{text} ({plain_printed(share, conventions.style)}\u00a0%)"


def explained(name: Name, methods: tuple[Calculation, Calculation], scope: Scope, run: Runner) -> Explanation:
    """Whether rounding explains that two methods give different values.

    Args:
        name: the quantity.
        methods: the two calculations.
        scope: what names mean around both.
        run: works one of them.
    """
    try:
        first, second = (run(carrying(method, "unrounded"), scope) for method in methods)
        if first is None or second is None or name not in first or name not in second:
            return ""
        off = second[name].quantity.value - first[name].quantity.value
        if off.sign() == 0:
            return "carried"
        return "digits" if _within_digits(name, methods, scope, run) else ""
    except RealError:
        return ""


def _within_digits(name: Name, methods: tuple[Calculation, Calculation], scope: Scope, run: Runner) -> bool:
    """Whether the data, each off by half a unit of its last digit at most, could make the two methods agree."""
    wide = _widened_scope(scope)
    layers: dict[int, Layer] = {}
    found: list[Mapping[Name, Datum]] = []
    for method in methods:
        # Data that both methods read are one and the same datum.
        if id(method.given) not in layers:
            layers[id(method.given)] = _widened(read_given(method.given, wide, method.conventions)[0])
        inner = wide.inside(layers[id(method.given)]) if method.given else wide
        results = run(carrying(replace(method, given=()), "unrounded"), inner)
        if results is None or name not in results:
            return False
        found.append(results)
    one, other = (results[name].quantity for results in found)
    parts = [(sign, q.spread) for sign, q in ((1.0, one), (-1.0, other)) if q.spread is not None]
    if not parts:
        return False
    reach = Spread.combined(parts).worst
    return float(abs(other.value - one.value)) <= reach * (1 + 1e-9)


def _widened_scope(scope: Scope) -> Scope:
    elsewhere = {target: _widened(layer) for target, layer in scope.elsewhere.items()}
    return Scope(tuple(_widened(layer) for layer in scope.layers), elsewhere)


def _widened(layer: Layer) -> Layer:
    """A layer whose values may lie off by half a unit of their last digit, and by nothing else."""
    return {name: _wide(layer[name]) for name in layer}


def _wide(datum: Datum) -> Datum:
    quantity = datum.quantity
    spread: Spread | None = None
    if quantity.number is not None and not quantity.number.is_fraction and quantity.plane is None:
        half = last_digit(quantity.number, quantity.unit)
        spread = Spread.independent(float(half), datum.name.key)
    return replace(datum, quantity=replace(quantity, spread=spread))
