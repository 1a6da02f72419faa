"""A datum as it is printed: with its own digits and unit."""

from __future__ import annotations

from ..exact import Form, NumberStyle, Numeral, Rounded, Rule, ten_to, write
from ..language.headings import heading_words
from ..language.money import money_form
from ..language.tree import Printed
from ..units import from_si
from .scope import Datum, Quantity


def printed_datum(
    datum: Datum, style: NumberStyle, form: Form | None = None, rule: Rule = "half-up"
) -> Printed:
    """A value ready to print.

    Typed data keep the digits they were typed with, results those they were answered with; what was computed
    from data (an expression) is rounded by `form`, two decimals where none is given.
    """
    if datum.printed is not None and datum.kind == "result":
        return datum.printed
    quantity = datum.quantity
    if quantity.number is not None:
        numeral = Numeral.of_number(quantity.number)
    else:
        value = from_si(quantity.value, quantity.unit)
        if quantity.direction:
            value = abs(value)
        chosen = money_form(None, quantity.unit) or form or Form("places", 2, None)
        _, numeral = write(value, chosen, rule, style)
    width = _width(quantity, numeral)
    direction = quantity.direction
    if quantity.plane is not None and quantity.plane.heading is not None:
        direction = heading_words(quantity.plane.heading, style)
    return Printed(numeral, quantity.unit, direction, width, quantity.width_unit if width else None)


def _width(quantity: Quantity, numeral: Numeral) -> Numeral | None:
    """The uncertainty with the digits it was typed with, under the value's own power of ten."""
    if quantity.width is None:
        return None
    typed = Numeral.of_number(quantity.width)
    if quantity.width_unit is not None or typed.exponent == numeral.exponent or quantity.width.is_fraction:
        return typed
    places = quantity.width.places - (typed.exponent or 0)
    coefficient = quantity.width.value * ten_to(places)
    return Numeral.of_rounded(Rounded(False, int(coefficient), places), numeral.exponent)
