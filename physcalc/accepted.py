"""The values that markers may accept, as an author types them after `accept`."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from .compare import Result
from .exact import Form, Real, write
from .language.phrases import Accept, read_accept
from .language.plain import plain_printed
from .language.statements import Conventions
from .language.tree import Printed
from .problems import Problem, Text
from .problems.checking import UnitDimensionWrong
from .problems.language import PhraseUnreadable
from .problems.solving import AcceptMisses
from .units import DIMENSIONLESS_DIMENSION, ONE, difference_of, from_si


@dataclass(frozen=True, slots=True)
class Range:
    """The values that markers may accept, as printed."""

    low: Printed
    high: Printed


def accept_range(
    text: Text, result: Result, conventions: Conventions, other: Real | None = None
) -> tuple[Range | None, list[Problem]]:
    """Read `accept` and check that it holds the computed value (its magnitude, where it is directed).

    Args:
        text: what stands after `accept`.
        result: the computed result, which a percentage and a half-width go from.
        conventions: the settings in force.
        other: another value that it should hold instead, in SI coherent units: that of another method.
    """
    try:
        accept: Accept = read_accept(text, conventions.decimal)
        if accept.kind == "range" and accept.low > accept.high:
            raise PhraseUnreadable(text.span, "accept", text.value, "the smaller end first")
        unit = result.unit if accept.kind == "percent" else accept.unit
        if unit == ONE and result.unit.dimension != DIMENSIONLESS_DIMENSION:
            unit = result.unit
        if unit.dimension != result.unit.dimension:
            raise UnitDimensionWrong(text.span, result.name, unit.text(), result.unit.text())
    except Problem as problem:
        return None, [problem]
    unit = unit if result.unit.offset else difference_of(unit)
    value = from_si(result.value, unit)
    if result.directed:
        value = abs(value)
    places = max(
        0,
        _places_of(accept.low),
        _places_of(accept.high),
        result.form.count if result.form.kind == "places" else 0,
    )
    if accept.kind == "percent":
        share = abs(value) * Real.of(accept.low / 100)
        low, high = value - share, value + share
    elif accept.kind == "plus-minus":
        low, high = value - Real.of(accept.low), value + Real.of(accept.low)
    else:
        low, high = Real.of(accept.low), Real.of(accept.high)
    tested = value if other is None else from_si(other, unit)
    tested = abs(tested) if result.directed else tested
    rounded, _ = write(tested, result.form, conventions.rule, conventions.style)
    inside = (tested - low).sign() >= 0 and (high - tested).sign() >= 0
    near = low <= Real.of(rounded.fraction) <= high
    if not (inside or near):
        computed = plain_printed(result.printed, conventions.style, conventions.unit_style)
        return None, [AcceptMisses(text.span, result.name, computed, text.value.strip())]
    form = Form("places", places, None) if accept.kind == "range" else result.form
    ends = [write(end, form, conventions.rule, conventions.style)[1] for end in (low, high)]
    if accept.kind == "range" and any(end.exponent is not None for end in ends):
        # Places count on the leading factor there: what was typed has figures, 3.4e-6 two.
        form = Form("figures", max(2, _figures_of(accept.low), _figures_of(accept.high)), None)
        ends = [write(end, form, conventions.rule, conventions.style)[1] for end in (low, high)]
    return Range(Printed(ends[0], unit), Printed(ends[1], unit)), []


def _places_of(value: Fraction) -> int:
    places = 0
    while value.denominator != 1 and places < 12:
        value, places = value * 10, places + 1
    return places


def _figures_of(value: Fraction) -> int:
    """How many figures a number has without the zeros around them."""
    while value.denominator != 1 and value.denominator % 2 * (value.denominator % 5) == 0:
        value *= 10
    return len(str(abs(value.numerator)).rstrip("0"))
