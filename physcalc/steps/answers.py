"""Answers: a result rounded once, its line, and what stands for it in the lines after it."""

from __future__ import annotations

from dataclasses import replace

from ..checking.setup import Asked, Setup
from ..exact import Form, Numeral, Real, round_places, write
from ..language import tree as t
from ..language.money import money_form
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Printed
from ..units import Unit, coherent_unit, coherent_with_angles, from_si
from .lines import Answer, Line, LineKind
from .values import MOST_FIGURES, with_figures, worth


def make_answer(
    asked: Asked, value: Real, conventions: Conventions, directions: dict[Name, str | None]
) -> Answer:
    """Round a result once and write it with unit and direction."""
    name = asked.find.name
    shown = from_si(value, asked.unit)
    direction = ""
    if asked.find.magnitude:
        shown = abs(shown)
    elif name in directions:
        fixed = directions[name]
        if fixed is not None:
            direction, shown = fixed, abs(shown)
        elif conventions.axis is not None and shown.sign() != 0:
            direction, shown = conventions.axis.words(shown.sign()), abs(shown)
    form = asked.find.form or conventions.form
    rounded, numeral = write(shown, form, conventions.rule, conventions.style)
    return Answer(name, Printed(numeral, asked.unit, direction), rounded)


def put_answer(answer: Answer, value: Real, as_typed: bool, conventions: Conventions) -> Printed:
    """What stands for an answer in the lines after it: its own digits, signed, or its value in SI coherent units."""
    unit = answer.printed.unit
    if unit is not None and unit.angle:
        return Printed(answer.printed.numeral, unit)
    if unit is not None and not as_typed and (unit.scale.fraction != 1 or unit.offset):
        return Printed(_in_si(value, answer, conventions))
    return Printed(replace(answer.printed.numeral, negative=value.sign() < 0))


def answer_line(
    asked: Asked, answer: Answer, value: Real, as_typed: bool, radians: bool, conventions: Conventions
) -> Line:
    """The answer; where its unit is not the coherent one that went in, the value in that one first."""
    subject: t.Expr = t.Abs(t.Sym(answer.name)) if asked.find.magnitude else t.Sym(answer.name)
    sides: tuple[t.Expr | Printed, ...] = (subject, answer.printed)
    if _is_converted(asked.unit, as_typed, radians):
        coherent = coherent_with_angles(asked.unit)
        shown = abs(value) if answer.printed.direction or asked.find.magnitude else value
        sides = (subject, Printed(_in_si(shown, answer, conventions), coherent), answer.printed)
    return Line(LineKind.ANSWER, sides)


def _is_converted(unit: Unit, as_typed: bool, radians: bool) -> bool:
    """Whether an answer comes out in another unit than the one it is asked in."""
    if radians and unit.scale.fraction != 1:
        return True
    other = unit.scale.fraction != 1 or bool(unit.offset)
    return not as_typed and not unit.angle and not unit.logarithmic and other


def printed_root(
    asked: Asked, value: Real, as_typed: bool, radians: bool, conventions: Conventions
) -> Printed:
    """A root of what is asked, in the unit in which it comes out."""
    answer = make_answer(asked, value, conventions, {})
    if _is_converted(asked.unit, as_typed, radians):
        return Printed(_in_si(value, answer, conventions), coherent_with_angles(asked.unit))
    return Printed(answer.printed.numeral, asked.unit)


def answer_again(
    asked: Asked,
    answer: Answer,
    value: Real,
    other: Real,
    as_typed: bool,
    radians: bool,
    conventions: Conventions,
) -> bool:
    """Whether another value, in SI coherent units, has the same line as an answer's own."""
    again = make_answer(asked, other, conventions, {})
    if abs(again.rounded.fraction) != abs(answer.rounded.fraction):
        return False
    if not _is_converted(asked.unit, as_typed, radians):
        return True
    numeral = _in_si(value, answer, conventions)
    places = len(numeral.part) - (numeral.exponent or 0)
    said = worth(numeral)
    return said is None or abs(round_places(other, places, conventions.rule).fraction) == abs(said)


#: Decimals of an energy from which a cost comes out to the cent at any price below 100 for a unit of it.
_TO_THE_CENT = 4


def _in_si(value: Real, answer: Answer, conventions: Conventions) -> Numeral:
    """An answer's value in SI coherent units, with no fewer figures than the answer: 0,113 m for 11,3 cm.

    It has so many that converting it gives the answer.
    """
    figures = len(str(answer.rounded.coefficient)) if answer.rounded.coefficient else 0
    rounded, numeral = write(value, _si_form(conventions), conventions.rule, conventions.style)
    shown = len(str(rounded.coefficient))
    if figures and answer.printed.uncertainty is not None:
        # With an uncertainty it has as many as that leaves the answer.
        return with_figures(value, figures, conventions)
    if figures and shown < figures and not rounded.exact:
        numeral = with_figures(value, figures, conventions)
    for wider in range(max(figures, shown) + 1, MOST_FIGURES + 1):
        if _converts(numeral, answer, conventions):
            break
        numeral = with_figures(value, wider, conventions)
    return numeral


def _converts(numeral: Numeral, answer: Answer, conventions: Conventions) -> bool:
    """Whether what is printed in SI coherent units gives the answer in its own unit."""
    said, unit = worth(numeral), answer.printed.unit
    if said is None or unit is None:
        return True
    again = round_places(from_si(Real.of(said), unit), answer.rounded.places, conventions.rule)
    return abs(again.fraction) == abs(answer.rounded.fraction)


def _si_form(conventions: Conventions) -> Form:
    form = conventions.form
    return form if form.count >= 2 else Form(form.kind, 2, form.standard)


def on_the_way(
    setup: Setup, name: Name, value: Real, conventions: Conventions, unit: Unit | None = None
) -> tuple[Line, Printed]:
    """The line of a quantity that was not asked, and what is put in for it afterwards.

    In SI coherent units, or in the `unit` that prices count it in.
    """
    dimension = setup.dimensions.of(name)
    counted = unit is not None
    if unit is not None:
        value = from_si(value, unit)
    else:
        unit = coherent_unit(dimension) if dimension is not None else None
    form = (money_form(None, unit) if unit is not None else None) or _si_form(conventions)
    rounded, numeral = write(value, form, conventions.rule, conventions.style)
    if counted and unit is not None and unit.price is None and not rounded.exact:
        # What is multiplied by a price is needed to the cent.
        _, numeral = write(value, Form("places", _TO_THE_CENT, None), conventions.rule, conventions.style)
    return Line(LineKind.ANSWER, (t.Sym(name), Printed(numeral, unit))), Printed(numeral)
