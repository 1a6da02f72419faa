"""A learner's value in the place of a result, so that what follows from it can be worked out.

Room 8, beside `compare`, and by its rules: a bare number of a result with a direction is its size, in the direction of
the result; a signed one counts along the axis.
"""

from __future__ import annotations

from dataclasses import replace

from .checking.given import directed, typed_quantity
from .checking.printing import printed_datum
from .checking.scope import Datum, Plane, Quantity
from .exact import Real
from .language.directions import opposite_of, printed_direction
from .language.plain import plain_name
from .language.quantities import Typed, read_typed
from .language.statements import Conventions
from .problems import Text
from .problems.checking import UnitDimensionWrong
from .problems.language import QuantityUnreadable
from .units import difference_of


def take_value(typed: Text, result: Datum, conventions: Conventions) -> Datum:
    """A result with another value.

    Args:
        typed: the learner's number with its unit, perhaps with a direction.
        result: what is computed.
        conventions: the settings of the calculation that found it; directions are those of its axis.

    Raises:
        QuantityUnreadable: no number stands at the beginning, or a direction in a plane is typed for a quantity that
            has none.
        UnitDimensionWrong: the unit measures something else.
        DirectionUnknown: the direction is none of the axis; and what numbers, units and directions raise.
    """
    text = typed.part(0)
    read = read_typed(text, conventions.decimal, conventions.lang)
    if read is None:
        raise QuantityUnreadable(text.span, text.value, "write a number and its unit, as in 6725 N")
    own = result.quantity
    fits = read.unit.dimension == own.unit.dimension and read.unit.logarithmic == own.unit.logarithmic
    if not fits or (own.unit.angle and not read.unit.factors):
        raise UnitDimensionWrong(text.span, plain_name(result.name), read.unit.text(), own.unit.text())
    if not own.unit.offset:
        read = replace(read, unit=difference_of(read.unit))
    quantity, direction = _quantity(read, text, result, conventions)
    as_typed = Datum(result.name, quantity, "given", result.where)
    printed = printed_datum(as_typed, conventions.style, conventions.form, conventions.rule)
    if direction:
        printed = replace(printed, numeral=replace(printed.numeral, negative=False), direction=direction)
    return replace(result, quantity=quantity, printed=printed)


def _quantity(read: Typed, text: Text, result: Datum, conventions: Conventions) -> tuple[Quantity, str]:
    """The learner's value, and its direction as printed where its number is printed without a sign."""
    own = result.quantity
    if own.plane is not None:
        return _in_plane(read, text, result, own.plane, conventions)
    if read.heading is not None or read.across is not None:
        hint = f"{plain_name(result.name)} has no direction in a plane: write a number and its unit, as in 6725 N"
        raise QuantityUnreadable(text.span, text.value, hint)
    quantity = typed_quantity(replace(read, direction=None), result.name, conventions)
    value = quantity.value
    if read.direction is not None:
        value = _along(read.direction, value, result, conventions)
    elif own.direction and text.value[:1] not in ("-", "−", "+"):
        value = -value if own.value.sign() < 0 else value
    elif not own.direction:
        return quantity, ""
    direction = _words(value, read, result, conventions)
    return replace(quantity, value=value, direction=direction), direction


def _along(words: Text, size: Real, result: Datum, conventions: Conventions) -> Real:
    """A size with its sign: that of the result in the same direction. Raises DirectionUnknown."""
    own = result.quantity
    if own.direction and own.value.sign() != 0:
        # The author may have reasoned the direction of a magnitude, so that the axis says nothing of its sign.
        said = printed_direction(words.value, conventions.lang)
        turned = own.value.sign() < 0
        if said == own.direction:
            return -size if turned else size
        if said == _other(own.direction, conventions):
            return size if turned else -size
    return directed(size, words, conventions)[0]


def _words(value: Real, read: Typed, result: Datum, conventions: Conventions) -> str:
    """How the direction of a signed value is printed."""
    own = result.quantity
    if own.direction and own.value.sign() != 0:
        same = value.sign() in (0, own.value.sign())
        return own.direction if same else _other(own.direction, conventions)
    if conventions.axis is not None:
        return conventions.axis.words(value.sign())
    if read.direction is None:
        return own.direction
    return printed_direction(read.direction.value, conventions.lang)


def _other(direction: str, conventions: Conventions) -> str:
    """The opposite of a printed direction; empty where nothing says it."""
    axis = conventions.axis
    if axis is not None and direction in (axis.positive, axis.negative):
        return axis.negative if direction == axis.positive else axis.positive
    return opposite_of(direction) or ""


def _in_plane(
    read: Typed, text: Text, result: Datum, plane: Plane, conventions: Conventions
) -> tuple[Quantity, str]:
    """A vector in a plane; a bare size goes in the direction of the result."""
    if read.heading is not None or read.across is not None:
        return typed_quantity(read, result.name, conventions), ""
    quantity = typed_quantity(replace(read, direction=None), result.name, conventions)
    own = result.quantity.value
    if read.direction is not None or own.sign() == 0:
        hint = "write its direction too, as in 12 N at 30°"
        raise QuantityUnreadable(text.span, text.value, hint)
    share = quantity.value / own
    scaled = Plane(plane.x * share, plane.y * share, plane.kind)
    direction = result.printed.direction if result.printed is not None else ""
    return replace(quantity, plane=scaled), direction


__all__ = ["take_value"]
