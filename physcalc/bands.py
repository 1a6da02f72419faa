"""Bands of values with the marks they earn: they must neither overlap nor leave a gap.

Room 9, beside what markers need. Two bands meet without a gap where the next begins one step of the last digit
after the one before ends ("0.70 to 0.74" and "0.75 to 0.80").
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from .compare import Result
from .exact import Form, Real, write
from .language.phrases import Accept, read_accept
from .language.plain import plain_printed
from .language.statements import Calculation, Conventions
from .language.tree import Printed
from .problems import Problem, Text
from .problems.checking import UnitDimensionWrong
from .problems.language import PhraseUnreadable
from .problems.solving import BandsUnfit
from .units import ONE, Unit, convert, difference_of, from_si

Band = tuple[Printed, Printed, int]


def read_bands(calculation: Calculation, result: Result) -> tuple[tuple[Band, ...], list[Problem]]:
    """Read a calculation's bands and check them against each other and against the computed value.

    Returns:
        The bands, lowest first, ready to print; and every problem.
    """
    conventions = calculation.conventions
    problems: list[Problem] = []
    read: list[tuple[Fraction, Fraction, int, int, Text]] = []
    for text, marks in calculation.bands:
        try:
            low, high, places = _ends(text, result, conventions)
            read.append((low, high, _marks(marks), places, text))
        except Problem as problem:
            problems.append(problem)
    read.sort(key=lambda band: band[0])
    for before, after in pairwise(read):
        step = Fraction(1, 10 ** max(before[3], after[3]))
        first, second = before[4].value.strip(), after[4].value.strip()
        if after[0] <= before[1]:
            hint = "end one before the other begins, so that every value has one mark"
            problems.append(BandsUnfit(after[4].span, f"the bands {first} and {second} overlap", hint))
        elif after[0] - before[1] > step:
            hint = "let the next begin one step of the last digit after the one before ends"
            problems.append(BandsUnfit(after[4].span, f"the bands {first} and {second} leave a gap", hint))
    if read and not problems:
        problems.extend(_best(read, result, conventions))
    return tuple(
        _printed(low, high, marks, places, result, conventions) for low, high, marks, places, _ in read
    ), problems


def _ends(text: Text, result: Result, conventions: Conventions) -> tuple[Fraction, Fraction, int]:
    """The two ends in the result's unit, and their decimal places."""
    accept: Accept = read_accept(text, conventions.decimal)
    if accept.kind != "range" or accept.low > accept.high:
        raise PhraseUnreadable(
            text.span, "bands", text.value, "a range, the smaller end first: 0.70 to 0.74 µC"
        )
    unit = result.unit if accept.unit == ONE else accept.unit
    if unit.dimension != result.unit.dimension:
        raise UnitDimensionWrong(text.span, result.name, unit.text(), result.unit.text())
    ends = [_in_unit(end, unit, result.unit) for end in (accept.low, accept.high)]
    return ends[0], ends[1], max(_places(ends[0]), _places(ends[1]))


def _in_unit(value: Fraction, source: Unit, target: Unit) -> Fraction:
    converted = convert(Real.of(value), difference_of(source), difference_of(target)).fraction
    return converted if converted is not None else value


def _places(value: Fraction) -> int:
    places = 0
    while value.denominator != 1 and places < 12:
        value, places = value * 10, places + 1
    return places


def _marks(text: Text) -> int:
    value = text.value.strip()
    if not value.isdigit() or len(value) > 3:
        raise PhraseUnreadable(text.span, "bands", text.value, "a whole number of marks")
    return int(value)


def _best(
    read: list[tuple[Fraction, Fraction, int, int, Text]], result: Result, conventions: Conventions
) -> list[Problem]:
    """The computed value must lie in a band that earns the most."""
    value = from_si(result.value, result.unit)
    if result.directed:
        value = abs(value)
    most = max(marks for _, _, marks, _, _ in read)
    for low, high, marks, places, _ in read:
        step = Real.of(Fraction(1, 2 * 10**places))
        if marks == most and Real.of(low) - step <= value <= Real.of(high) + step:
            return []
    computed = plain_printed(result.printed, conventions.style, conventions.unit_style)
    span = read[0][4].span
    what = f"{result.name} is {computed}, and no band with {most} mark{'s' if most != 1 else ''} holds it"
    return [BandsUnfit(span, what, "move the band, or the marks")]


def _printed(
    low: Fraction, high: Fraction, marks: int, places: int, result: Result, conventions: Conventions
) -> Band:
    ends = [
        Printed(
            write(Real.of(end), Form("places", places, None), conventions.rule, conventions.style)[1],
            result.unit,
        )
        for end in (low, high)
    ]
    return ends[0], ends[1], marks
