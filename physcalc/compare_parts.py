"""A part of a value, or a word that follows from values, typed in the text against what is computed.

Room 8, beside `compare`. A number alone agrees as a whole typed value does; a unit alone must be the very unit; words
for a direction, a sign, attraction or repulsion must say what the values say.
"""

from __future__ import annotations

from typing import Literal

from .checking.printing import printed_datum
from .checking.scope import Datum
from .compare import compare_typed, heading_agrees
from .compare_style import direction_in_style_of
from .exact import read_number
from .language.directions import Axis, printed_direction
from .language.headings import read_heading
from .language.plain import plain_name, plain_printed
from .language.statements import Conventions
from .language.words import (
    at_rest,
    direction_words,
    english_direction,
    force_of,
    force_words,
    says_at_rest,
    sign_of,
    sign_words,
)
from .problems import Problem, Text
from .problems.checking import DirectionUnknown, UnitDimensionWrong
from .problems.language import QuantityUnreadable
from .problems.solving import AnswerDisagrees, DatumDisagrees, DirectionDisagrees
from .problems.words import PartUnfit, WordUnknown
from .units import Unit, coherent_unit, difference_of, from_si, read_unit

#: What may be typed of a value.
TypedPart = Literal["number", "unit", "direction", "sign"]


def compare_part(
    text: Text, datum: Datum, part: TypedPart, conventions: Conventions, unit: Text | None = None
) -> list[Problem]:
    """Check a typed part of a value.

    Args:
        text: what was typed.
        datum: what its name means.
        part: which part it is.
        conventions: the settings in force; a direction and a sign are those along its axis.
        unit: the unit that a number is counted in, or that a unit must be; the datum's own where None.

    Returns:
        Problems and notes; none where it agrees.
    """
    try:
        match part:
            case "number":
                return _number(text, datum, conventions, _unit(datum, unit))
            case "unit":
                return _same_unit(text, datum, conventions, _unit(datum, unit))
            case "direction":
                return _direction(text, datum, conventions)
            case "sign":
                return _sign(text, datum, conventions)
    except Problem as problem:
        return [problem]


def compare_force(text: Text, one: Datum, other: Datum, conventions: Conventions) -> list[Problem]:
    """Check a word for what two charges do: like charges repel, unlike ones attract each other."""
    said = force_of(text.value, conventions.lang)
    both = f"the force between {plain_name(one.name)} and {plain_name(other.name)}"
    for datum in (one, other):
        if datum.quantity.unit.dimension != read_unit(Text("C")).dimension:
            why = f"{plain_name(datum.name)} is measured in {coherent_unit(datum.quantity.unit.dimension).text()}"
            return [PartUnfit(text.part(0).span, both, "word", f"{why}, and part=force is told of charges")]
    sign = one.quantity.value.sign() * other.quantity.value.sign()
    if sign == 0:
        zero = one if one.quantity.value.sign() == 0 else other
        why = f"{plain_name(zero.name)} is zero, so there is no force"
        return [PartUnfit(text.part(0).span, both, "word", why)]
    if said is None:
        known = (force_words(-1, conventions.lang), force_words(1, conventions.lang), "attract", "repel")
        word = text.value.strip()
        return [WordUnknown(text.part(0).span, word, "attraction or repulsion", tuple(dict.fromkeys(known)))]
    if said == sign:
        return []
    reasons = tuple(_stated(datum, conventions) for datum in (one, other))
    computed = force_words(sign, conventions.lang)
    new = force_words(sign, conventions.lang, text.value.strip())
    return [_disagrees(text, both, computed, (one, other), reasons, new)]


def _unit(datum: Datum, unit: Text | None) -> Unit:
    """The unit that was asked for. Raises UnitDimensionWrong and what units raise."""
    own = datum.quantity.unit
    if unit is None:
        return own
    chosen = read_unit(unit)
    if chosen.dimension != own.dimension or chosen.logarithmic != own.logarithmic:
        raise UnitDimensionWrong(unit.part(0).span, plain_name(datum.name), chosen.text(), own.text())
    return chosen if own.offset else difference_of(chosen)


def _number(text: Text, datum: Datum, conventions: Conventions, unit: Unit) -> list[Problem]:
    typed = text.part(0)
    found = read_number(typed, 0, conventions.decimal)
    if found is None or found[1] != len(typed.value):
        raise QuantityUnreadable(typed.span, typed.value, "write the number alone, as in 4.7e-7")
    behind = f" {unit.text()}" if unit.text() else ""
    whole = Text(typed.value + behind, typed.span)
    problems = compare_typed(whole, datum, conventions)
    for problem in problems:
        # The unit was never typed: the place and what is written over it are the number's alone.
        problem.span = typed.span
        if isinstance(problem, AnswerDisagrees):
            problem.replacement = problem.replacement.removesuffix(behind)
    return problems


def _same_unit(text: Text, datum: Datum, conventions: Conventions, unit: Unit) -> list[Problem]:
    typed = text.part(0)
    said = read_unit(typed)
    wanted = unit if unit.offset else difference_of(unit)
    said_size = said if unit.offset else difference_of(said)
    alike = said_size.dimension == wanted.dimension and said_size.logarithmic == wanted.logarithmic
    if alike and said_size.offset == wanted.offset and said_size.scale.equals(wanted.scale):
        return []
    computed = unit.text(conventions.unit_style) or "none (it is a plain number)"
    name = f"the unit of {plain_name(datum.name)}"
    reasons = (_stated(datum, conventions),)
    return [_disagrees(text, name, computed, (datum,), reasons, unit.text(conventions.unit_style))]


def _sign(text: Text, datum: Datum, conventions: Conventions) -> list[Problem]:
    typed, quantity = text.part(0), datum.quantity
    name = plain_name(datum.name)
    if quantity.plane is not None:
        raise PartUnfit(typed.span, name, "sign", "it is a vector in a plane")
    said = sign_of(typed.value, conventions.lang)
    if said is None:
        known = (sign_words(1, conventions.lang), sign_words(-1, conventions.lang), "positive", "negative")
        raise WordUnknown(typed.span, typed.value, "a sign", tuple(dict.fromkeys(known)))
    sign = from_si(quantity.value, quantity.unit).sign()
    if said == sign:
        return []
    computed = sign_words(sign, conventions.lang, typed.value)
    reasons = (_stated(datum, conventions),)
    return [_disagrees(text, f"the sign of {name}", computed, (datum,), reasons, computed)]


def _direction(text: Text, datum: Datum, conventions: Conventions) -> list[Problem]:
    typed, quantity = text.part(0), datum.quantity
    lang = conventions.lang
    name = f"the direction of {plain_name(datum.name)}"
    reasons = (_stated(datum, conventions),)
    if quantity.value.sign() == 0:
        if says_at_rest(typed.value, lang):
            return []
        return [_disagrees(text, name, f"none ({at_rest(lang)}: it is zero)", (datum,), reasons)]
    if quantity.plane is not None:
        start = len("at") if typed.value.startswith("at ") else 0
        heading = read_heading(typed.part(start), conventions.decimal, lang)
        if heading_agrees(heading, quantity.plane, conventions):
            return []
        computed = printed_datum(datum, conventions.style, conventions.form, conventions.rule).direction
        return [_disagrees(text, name, computed, (datum,), reasons)]
    right = _words_of(datum, conventions.axis)
    if right is None:
        why = "nothing says which direction is positive"
        hint = "set the axis, for example axis: right is positive"
        raise PartUnfit(typed.span, plain_name(datum.name), "direction", why, hint)
    said = printed_direction(english_direction(typed.value, lang))
    if said.casefold() == printed_direction(english_direction(right, lang)).casefold():
        return []
    axis = conventions.axis
    known = {printed_direction(english_direction(w, lang)).casefold() for w in _both(axis)}
    if axis is not None and said.casefold() not in known and not says_at_rest(typed.value, lang):
        raise DirectionUnknown(typed.span, typed.value, *axis.in_words())
    computed = right if english_direction(typed.value, lang) == typed.value else direction_words(right, lang)
    new = direction_in_style_of(typed.value, right) if computed == right else computed
    return [
        DirectionDisagrees(typed.span, name, computed, typed.value, reasons, replacement=new)
        if datum.kind == "result"
        else DatumDisagrees(typed.span, name, computed, typed.value, reasons)
    ]


def _words_of(datum: Datum, axis: Axis | None) -> str | None:
    """The direction of a quantity on a line: as it is printed, else as the axis says; None where neither does."""
    if datum.quantity.direction:
        return datum.quantity.direction
    return axis.words(datum.quantity.value.sign()) if axis is not None else None


def _both(axis: Axis | None) -> tuple[str, ...]:
    return (axis.positive, axis.negative) if axis is not None else ()


def _stated(datum: Datum, conventions: Conventions) -> str:
    """Where a part comes from: the whole value."""
    printed = printed_datum(datum, conventions.style, conventions.form, conventions.rule)
    return f"{plain_name(datum.name)} is {plain_printed(printed, conventions.style, conventions.unit_style)}"


def _disagrees(
    text: Text,
    what: str,
    computed: str,
    data: tuple[Datum, ...],
    reasons: tuple[str, ...],
    replacement: str = "",
) -> Problem:
    """The one problem of a part that is wrong; data are never written over."""
    typed = text.part(0)
    if any(datum.kind == "result" for datum in data):
        return AnswerDisagrees(typed.span, what, computed, typed.value, reasons, replacement=replacement)
    return DatumDisagrees(typed.span, what, computed, typed.value, reasons)


__all__ = ["TypedPart", "compare_force", "compare_part"]
