"""Amounts of money and prices as they are typed: R85.50, $0.31/kWh, ZAR 85.50, R2.85 per kWh."""

from __future__ import annotations

import re
from dataclasses import replace

from ..exact import Form, Number, read_number
from ..problems import Text
from ..problems.units import UnitUnreadable
from ..units import Unit, UnitFactor, before_amount, currency_of, read_unit, unit_of

_PER = re.compile(r"per\s+(?=\S)")


def read_money(text: Text, decimal: str) -> tuple[Number, Unit] | None:
    """An amount or a price whose currency stands before its number; None for anything else.

    A fraction and a mere power of ten are none, so that "R1/2" stays the half of R; nor is a number that another sign
    follows ("R2 * x").

    Args:
        text: the value without a direction.
        decimal: the document's decimal sign.

    Returns:
        The number, with the minus that stands before the sign, and the unit.

    Raises:
        NumberAmbiguous, NumberTooLong, and what units raise.
    """
    found = before_amount(text.value)
    if found is None:
        return None
    read = read_number(text, found.end(), decimal)  # type: ignore[arg-type]
    if read is None or read[0].is_fraction or read[0].bare_power:
        return None
    number, end = read
    rest = text.part(end)
    per = _PER.match(rest.value)
    if rest.value and not per and rest.value[0] != "/" and not rest.value[0].isalpha():
        return None
    if rest.value[:1] == "/" and not re.match(r"/\s*(?:\(\s*)?[^\W\d]", rest.value):
        return None
    money = UnitFactor(currency_of(found["word"]).code)
    if per:
        below = [UnitFactor(f.symbol, -f.power) for f in read_unit(rest.part(per.end())).factors]
    else:
        below = list(read_unit(rest).factors)
        if any(factor.power > 0 for factor in below):
            advice = "write a price with a solidus, as in R2.85/kWh"
            raise UnitUnreadable(rest.span, rest.value, "stands behind an amount of money", advice)
    if found["minus"] in ("-", "\u2212") and number.value:
        number = Number(-number.value, "-" + number.digits, number.exponent, found["minus"] + number.typed)
    return number, unit_of([money, *below])


def money_form(form: Form | None, unit: Unit) -> Form | None:
    """The form of a result: an amount of money has the decimals of its currency unless others are asked.

    It is in standard form only where that is asked.

    Args:
        form: what is asked; None for nothing.
        unit: the result's unit.
    """
    price = unit.price
    if price is None or price[1]:
        return form
    if form is None:
        return Form("places", price[0].decimals, False)
    return form if form.standard else replace(form, standard=False)


def may_be_product(text: Text) -> bool:
    """Whether an amount may be a product of a quantity as well: "R 5", but not "R5" or "$ 5"."""
    found = before_amount(text.value)
    return found is not None and bool(found["blank"]) and found["word"].isalpha()
