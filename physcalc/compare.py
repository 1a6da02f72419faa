"""Typed value against computed: the rules of agreement.

Room 8. A typed datum equals the given value exactly, after conversion. A typed result agrees when its unit
has the same dimension and the computed value, rounded as the typed digits are, equals it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction

from .checking.printing import printed_datum
from .checking.scope import Datum, Plane, Quantity
from .compare_style import direction_in_style_of, in_style_of
from .exact import PI, Form, Numeral, Real, RealError, Spread, atan2, round_places, write
from .language.directions import printed_direction
from .language.headings import Heading, heading_words, read_heading
from .language.plain import plain_name, plain_printed
from .language.quantities import Typed, read_typed
from .language.statements import Conventions
from .language.tree import Printed
from .language.words import english_direction
from .problems import Problem, Span, Text
from .problems.checking import DirectionUnknown, UnitDimensionWrong
from .problems.language import QuantityUnreadable
from .problems.solving import (
    AnswerCoarse,
    AnswerDisagrees,
    DatumDisagrees,
    DirectionDisagrees,
    DirectionMissing,
    ShowDisagrees,
)
from .units import Unit, difference_of, from_si, to_si

_TURN = Fraction(360)


@dataclass(frozen=True, slots=True)
class Result:
    """A computed result to compare with.

    Attributes:
        name: its name.
        value: the exact value in SI coherent units, signed along the axis.
        unit: the unit asked.
        form: places or figures asked.
        printed: as it is printed.
        directed: whether its direction belongs to it.
        plane: the components of a vector in a plane; None for anything else.
        spread: how far the value may lie off; None for a value without uncertainty.
        needs_direction: whether a typed answer without a direction is incomplete.
        reasons: gives the lines that say where it came from; written only where something disagrees.
    """

    name: str
    value: Real
    unit: Unit
    form: Form
    printed: Printed
    directed: bool
    reasons: Callable[[], tuple[str, ...]] = tuple
    plane: Plane | None = None
    needs_direction: bool = False
    spread: Spread | None = None


def _read(text: Text, conventions: Conventions) -> Typed:
    typed = read_typed(text, conventions.decimal, conventions.lang)
    if typed is None:
        raise QuantityUnreadable(text.span, text.value, "write a number and its unit, as in 6752 N")
    return typed


def _unit_for(typed: Typed, unit: Unit, name: str) -> Unit:
    """The typed unit, as a difference where the result is one. Raises UnitDimensionWrong."""
    chosen = typed.unit
    if not chosen.factors and unit.angle:
        raise UnitDimensionWrong(typed.span, name, "", unit.text())
    if chosen.dimension != unit.dimension or chosen.logarithmic != unit.logarithmic:
        raise UnitDimensionWrong(typed.span, name, chosen.text(), unit.text())
    return chosen if unit.offset else difference_of(chosen)


def typed_text(typed: Typed, conventions: Conventions) -> str:
    """A typed value in the document's own style, for messages."""
    numeral = Numeral.of_number(typed.number)
    if typed.uncertainty is not None:
        number, width_unit = typed.uncertainty
        width = Numeral.of_number(number)
        if width_unit.text() == typed.unit.text():
            printed = Printed(numeral, typed.unit, "", width)
            return plain_printed(printed, conventions.style, conventions.unit_style)
        value = plain_printed(Printed(numeral, typed.unit), conventions.style, conventions.unit_style)
        off = plain_printed(Printed(width, width_unit), conventions.style, conventions.unit_style)
        return f"{value} ± {off}"
    direction = printed_direction(typed.direction.value, conventions.lang) if typed.direction else ""
    if typed.heading is not None:
        direction = heading_words(typed.heading, conventions.style)
    return plain_printed(Printed(numeral, typed.unit, direction), conventions.style, conventions.unit_style)


def compare_result(
    text: Text, result: Result, conventions: Conventions, stated: bool = False
) -> list[Problem]:
    """Check a typed answer against a computed one. Returns problems and notes; none where it agrees.

    Args:
        text: the typed answer.
        result: the computed one.
        conventions: the settings in force.
        stated: whether a "show that" states it: then it has as many digits as its author likes.
    """
    try:
        typed = _read(text, conventions)
        unit = _unit_for(typed, result.unit, result.name)
    except Problem as problem:
        return [problem]
    computed = plain_printed(result.printed, conventions.style, conventions.unit_style)
    if typed.across is not None:
        return _components(text, typed, typed.across, result, conventions)
    shown = from_si(result.value, unit)
    if result.plane is not None and (typed.heading is not None or typed.direction is not None):
        wrong = _heading(typed, result, result.plane, conventions, computed)
        if wrong is not None:
            return [wrong]
    elif typed.direction is not None:
        wrong = _direction(typed, result, conventions, computed)
        if wrong is not None:
            return [wrong]
        shown = abs(shown)
    elif result.directed and not _signed(text):
        shown = abs(shown)
    try:
        agrees = _rounds_to(shown, typed, result, unit, conventions)
    except RealError as error:
        return [
            AnswerDisagrees(typed.span, result.name, computed, typed_text(typed, conventions), (str(error),))
        ]
    if not agrees:
        span = _value_span(typed, text)
        hint = ""
        if unit.text() != result.unit.text():
            _, numeral = write(shown, result.form, conventions.rule, conventions.style)
            hint = f"in {unit.text()}: {plain_printed(Printed(numeral, unit), conventions.style)}"
        typed_as = typed_text(typed, conventions)
        asked = result.form if unit.text() == result.unit.text() and not stated else None
        new = _replacement(text, span, shown, asked, conventions)
        if typed.uncertainty is not None:
            new = _as_printed(typed, result, conventions)
        return [AnswerDisagrees(span, result.name, computed, typed_as, result.reasons(), hint, new)]
    if typed.uncertainty is not None and not _width_agrees(typed, result, shown, unit, conventions):
        return [_width_disagrees(typed, result, computed, text, conventions)]
    bare = typed.direction is None and typed.heading is None
    if bare and result.needs_direction and not stated and result.value.sign() != 0:
        return [DirectionMissing(text.part(0).span, result.name, computed, typed_text(typed, conventions))]
    return _coarse(typed, shown, result, unit, conventions, computed)


def _width_agrees(typed: Typed, result: Result, shown: Real, unit: Unit, conventions: Conventions) -> bool:
    """Whether the computed uncertainty rounds to the typed one."""
    assert typed.uncertainty is not None
    number, width_unit = typed.uncertainty
    if result.spread is None:
        return number.value == 0
    size = result.spread.size(conventions.uncertainty)
    if _is_share(width_unit, unit):
        if shown.sign() == 0:
            return False
        size = size / difference_of(unit).scale / abs(shown) * Real.of(100)
    else:
        size = size / difference_of(width_unit).scale
    places = number.places - (number.exponent or 0)
    return round_places(size, places, conventions.rule).fraction == number.value


def _is_share(width_unit: Unit, unit: Unit) -> bool:
    """Whether an uncertainty is a percentage of its value."""
    return width_unit.text() == "%" and unit.text() != "%"


def _width_disagrees(
    typed: Typed, result: Result, computed: str, text: Text, conventions: Conventions
) -> AnswerDisagrees:
    """The problem of a typed uncertainty that is not the computed one."""
    hint = "" if result.spread is not None else "nothing that it is computed from has an uncertainty"
    return AnswerDisagrees(
        text.part(0).span,
        result.name,
        computed,
        typed_text(typed, conventions),
        result.reasons(),
        hint,
        _as_printed(typed, result, conventions),
    )


def _as_printed(typed: Typed, result: Result, conventions: Conventions) -> str:
    """The computed value with its uncertainty as an author can type it; empty where it has none, or another unit."""
    printed = result.printed
    if printed.uncertainty is None or printed.unit is None or printed.unit.text() != typed.unit.text():
        return ""
    plain = plain_printed(replace(printed, direction=""), conventions.style, conventions.unit_style)
    return plain.replace("\u00a0", " ").replace("\u202f", " ")


def _components(
    text: Text, typed: Typed, across: Typed, result: Result, conventions: Conventions
) -> list[Problem]:
    """Check an answer typed as two components."""
    if result.plane is None:
        hint = "this answer has no components: write a number and its unit, as in 6752 N"
        return [QuantityUnreadable(text.span, text.value, hint)]
    problems: list[Problem] = []
    second = across.span.column - text.span.column
    places = (text.at(0, len(text.value[:second].rstrip(" ,;"))), across.span)
    for component, one, place in zip("xy", (replace(typed, across=None), across), places, strict=True):
        try:
            unit = _unit_for(one, result.unit, result.name)
        except Problem as problem:
            return [problem]
        shown = from_si(result.plane.along(component), unit)
        if not _rounds_to(shown, one, result, unit, conventions):
            _, numeral = write(shown, result.form, conventions.rule, conventions.style)
            computed = plain_printed(Printed(numeral, unit), conventions.style, conventions.unit_style)
            name = f"{result.name}.{component}"
            problems.append(
                AnswerDisagrees(place, name, computed, typed_text(one, conventions), result.reasons())
            )
    return problems


def _replacement(text: Text, span: Span, shown: Real, asked: Form | None, conventions: Conventions) -> str:
    """What is to stand in the place of a typed value that disagrees; its direction, if any, is right."""
    start = span.column - text.span.column
    value = text.part(start, start + span.length)
    rule, style = conventions.rule, conventions.style
    return in_style_of(value, shown, asked, decimal=conventions.decimal, rule=rule, style=style)


def _signed(text: Text) -> bool:
    return text.value.lstrip()[:1] in ("-", "−", "+")


def _value_span(typed: Typed, text: Text) -> Span:
    start = text.part(0).span
    if typed.direction is not None:
        value = text.value[: typed.direction.span.column - text.span.column].strip(" ,")
    elif typed.heading is not None:
        value = text.value[: typed.heading.span.column - text.span.column].strip().removesuffix("at").strip()
    else:
        return start
    return replace(start, length=max(1, len(value)))


def _direction(typed: Typed, result: Result, conventions: Conventions, computed: str) -> Problem | None:
    assert typed.direction is not None
    words = typed.direction.value
    said = printed_direction(words, conventions.lang)
    if conventions.axis is None:
        if result.printed.direction and said != result.printed.direction:
            new = direction_in_style_of(words, result.printed.direction, conventions.lang)
            return DirectionDisagrees(typed.direction.span, result.name, computed, words, replacement=new)
        return None
    sign = conventions.axis.sign_of(words)
    if sign is None:
        return DirectionUnknown(typed.direction.span, words, *conventions.axis.in_words())
    if sign != result.value.sign() and result.value.sign() != 0:
        place = typed.direction.span
        new = direction_in_style_of(words, conventions.axis.words(result.value.sign()), conventions.lang)
        # In the document's own language it is told as it was typed.
        said = said if english_direction(words, conventions.lang) == words else words
        return DirectionDisagrees(place, result.name, computed, said, result.reasons(), replacement=new)
    return None


def _heading(
    typed: Typed, result: Result, plane: Plane, conventions: Conventions, computed: str
) -> Problem | None:
    """Check a typed direction in a plane: the computed one, turned from the same axis, must round to it."""
    heading = typed.heading
    if heading is None:
        assert typed.direction is not None
        try:
            heading = read_heading(typed.direction, conventions.decimal, conventions.lang)
        except Problem as problem:
            return problem
    if heading_agrees(heading, plane, conventions):
        return None
    said = heading.span
    return DirectionDisagrees(said, result.name, computed, typed_text(typed, conventions), result.reasons())


def heading_agrees(heading: Heading, plane: Plane, conventions: Conventions) -> bool:
    """Whether the direction of a vector in a plane rounds to a typed one; a zero vector has any direction."""
    if plane.x.sign() == 0 and plane.y.sign() == 0:
        return True
    turned = atan2(plane.y, plane.x) - PI * Real.of(Fraction(heading.base, 2))
    if heading.turn < 0:
        turned = -turned
    places = 0 if heading.angle is None else heading.angle.places
    degrees = turned if heading.radians else turned / (PI * Real.of(Fraction(1, 180)))
    whole = PI * Real.of(2) if heading.radians else Real.of(_TURN)
    wanted = Fraction(0) if heading.angle is None else heading.angle.value
    for turn in (-1, 0, 1):
        value = degrees + whole * Real.of(turn)
        if round_places(value, places, conventions.rule).fraction == wanted:
            return True
    return False


def _typed_places(typed: Typed) -> int:
    """How many decimal places of one unit the typed digits reach to (negative: tens, hundreds)."""
    return typed.number.places - (typed.number.exponent or 0)


def _rounds_to(shown: Real, typed: Typed, result: Result, unit: Unit, conventions: Conventions) -> bool:
    """Whether the computed value, rounded as the typed digits are, equals the typed value."""
    number = typed.number
    if "/" in number.digits:
        return shown.equals(Real.of(number.value))
    values = [shown]
    if unit.angle and [f.symbol for f in unit.factors] == ["°"]:
        # A direction may be given by any angle of the same place on the circle.
        values += [shown + Real.of(_TURN), shown - Real.of(_TURN)]
    for value in values:
        if round_places(value, _typed_places(typed), conventions.rule).fraction == number.value:
            return True
    whole = number.exponent is None and number.places == 0 and number.value != 0 and number.value % 10 == 0
    if whole:
        # Zeros that only hold the place: 6750 may stand for three figures, if that is what is asked.
        rounded, _ = write(shown, result.form, conventions.rule, conventions.style)
        return rounded.fraction == number.value
    return False


def _coarse(
    typed: Typed, shown: Real, result: Result, unit: Unit, conventions: Conventions, computed: str
) -> list[Problem]:
    if unit.text() != result.unit.text() or "/" in typed.number.digits or result.spread is not None:
        return []
    if shown.equals(Real.of(typed.number.value)):
        return []
    asked, _ = write(shown, result.form, conventions.rule, conventions.style)
    if asked.places > _typed_places(typed):
        return [AnswerCoarse(typed.span, result.name, computed, typed_text(typed, conventions))]
    return []


def compare_show(text: Text, result: Result, conventions: Conventions) -> list[Problem]:
    """Check the value that a "show that" states: the computed one must round to it."""
    found = compare_result(text, result, conventions, stated=True)
    out: list[Problem] = []
    for problem in found:
        if isinstance(problem, AnswerCoarse):
            continue
        if type(problem) is AnswerDisagrees:
            problem = ShowDisagrees(
                problem.span,
                problem.name,
                problem.computed,
                problem.typed,
                problem.reasons,
                replacement=problem.replacement,
            )
        out.append(problem)
    return out


def compare_typed(
    text: Text, datum: Datum, conventions: Conventions, form: Form | None = None
) -> list[Problem]:
    """Check a typed value in prose against what its name means there: data exactly, results as rounded.

    Args:
        text: the typed value.
        datum: what the name means.
        conventions: the settings in force.
        form: the form in which a result was asked; the document's where None.
    """
    quantity = datum.quantity
    name = plain_name(datum.name)
    printed = printed_datum(datum, conventions.style, conventions.form, conventions.rule)
    if datum.kind == "result" or (quantity.number is None and quantity.rounded is None):
        directed = bool(quantity.direction) or bool(printed.direction)
        chosen = form or conventions.form
        if quantity.rounded is not None and printed.numeral.exponent is None:
            chosen = Form("places", max(0, quantity.rounded.places), False)
        result = Result(
            name, quantity.value, quantity.unit, chosen, printed, directed, spread=quantity.spread
        )
        return compare_result(text, result, conventions)
    try:
        typed = _read(text, conventions)
        unit = _unit_for(typed, quantity.unit, name)
    except Problem as problem:
        return [problem]
    computed = plain_printed(printed, conventions.style, conventions.unit_style)
    typed_as = typed_text(typed, conventions)
    value = quantity.value
    if typed.direction is not None:
        sign = conventions.axis.sign_of(typed.direction.value) if conventions.axis else None
        if sign is None and printed_direction(typed.direction.value, conventions.lang) != quantity.direction:
            if conventions.axis is None:
                return [DirectionUnknown(typed.direction.span, typed.direction.value)]
            axis = conventions.axis
            return [DirectionUnknown(typed.direction.span, typed.direction.value, *axis.in_words())]
        if sign is not None and value.sign() not in (0, sign):
            return [DirectionDisagrees(typed.direction.span, name, computed, typed_as)]
        value = abs(value)
    elif quantity.direction and not _signed(text):
        value = abs(value)
    same = to_si(Real.of(typed.number.value), unit).equals(value)
    if not same or not _width_given(typed, quantity, unit):
        where = (f"given in {datum.where}",) if datum.span else ("a constant of the sheet",)
        return [DatumDisagrees(text.part(0).span, name, computed, typed_as, where)]
    return []


def _width_given(typed: Typed, quantity: Quantity, unit: Unit) -> bool:
    """Whether a typed uncertainty is the given one, exactly; a datum may be quoted without it."""
    if typed.uncertainty is None:
        return True
    if quantity.width is None:
        return typed.uncertainty[0].value == 0
    widths = (typed.uncertainty, (quantity.width, quantity.width_unit or quantity.unit))
    sizes = []
    for number, own in widths:
        if _is_share(own, unit):
            sizes.append(abs(quantity.value) * Real.of(number.value / 100))
        else:
            sizes.append(Real.of(number.value) * difference_of(own).scale)
    return sizes[0].equals(sizes[1])
