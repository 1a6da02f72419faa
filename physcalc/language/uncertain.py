"""Values with ±: `0.200 ± 0.005 m`, `(0.200 ± 0.005) m`, `0.200 m ± 2 %`, `(4.17 ± 0.05) × 10^-7 C`."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from ..exact import Number, read_number
from ..exact.number import DecimalSign
from ..problems import Text
from ..problems.language import UncertaintyUnfit
from ..problems.uncertainty import UncertaintyNegative, UncertaintyUnreadable
from ..units import ONE, Unit, read_unit

#: Reads a number with its unit; None where the text does not begin with a number.
Reader = Callable[[Text], tuple[Number, Unit] | None]

_POWER_BEHIND = re.compile(r"\s*(?:(?P<cross>[×*·⋅xX])\s*(?=10)|(?P<e>[eE])(?=[-+−]?\d))")


@dataclass(frozen=True, slots=True)
class Uncertain:
    """A value with its uncertainty, as typed.

    Attributes:
        number: the value.
        unit: its unit.
        width: the number after ±.
        width_unit: its unit: that of the value, another of the same dimension, or % for a share of the value.
    """

    number: Number
    unit: Unit
    width: Number
    width_unit: Unit


def read_uncertain(text: Text, decimal: DecimalSign, read: Reader) -> Uncertain:
    """Read a value with its uncertainty, without a direction.

    Args:
        text: a text that holds ±.
        decimal: the document's decimal sign.
        read: reads either side of ±.

    Raises:
        UncertaintyUnreadable, UncertaintyNegative, UncertaintyUnfit, and what numbers and units raise.
    """
    value = text.part(0)
    sign = value.value.index("±")
    bracketed = value.value.startswith("(")
    close = value.value.find(")", sign) if bracketed else len(value.value)
    if close < 0 or value.value.count("±") > 1:
        raise UncertaintyUnreadable(value.span, value.value, "± or a bracket has no counterpart")
    first = read(value.part(1 if bracketed else 0, sign))
    behind_sign = value.part(sign + 1, close)
    second = read(behind_sign)
    if first is None or second is None:
        side = value.part(1 if bracketed else 0, sign) if first is None else behind_sign
        raise UncertaintyUnreadable(value.span, value.value, f'"{side.value}" is not a number')
    (number, unit), (width, width_unit) = first, second
    if width.value < 0:
        raise UncertaintyNegative(behind_sign.span, behind_sign.value)
    if bracketed and value.value[close + 1 :].strip():
        if unit.factors or width_unit.factors:
            raise UncertaintyUnreadable(
                value.span, value.value, "the unit stands in the bracket and behind it"
            )
        number, width, unit = _behind(value, close + 1, number, width, decimal)
        return Uncertain(number, unit, width, unit)
    percent = [factor.symbol for factor in width_unit.factors] == ["%"] and bool(unit.factors)
    # 1.44 ± 0.07 × 10^-6 m may be meant for both; 7e-8 is one number, however it is read.
    crossed = width.exponent is not None and not re.search("[eE]", width.typed)
    if crossed and number.exponent is None and number.value and not unit.factors and not bracketed:
        raise UncertaintyUnreadable(
            value.span, value.value, "the power of ten stands behind the uncertainty alone"
        )
    if percent or unit.factors:
        width_unit = width_unit if width_unit.factors or percent else unit
    else:
        unit = width_unit
    if width_unit.dimension != unit.dimension and not percent:
        raise UncertaintyUnfit(behind_sign.span, width_unit.text(), unit.text())
    return Uncertain(number, unit, width, width_unit)


def _behind(
    value: Text, start: int, number: Number, width: Number, decimal: DecimalSign
) -> tuple[Number, Number, Unit]:
    """Value and width with the power of ten behind the bracket, and the unit behind that."""
    found = _POWER_BEHIND.match(value.value, start)
    if found is None:
        rest = value.part(start)
        return number, width, read_unit(rest)
    if found["e"]:
        # "e-7" behind the bracket: read as behind a 1.
        stretch = Text("1" + value.value[found.start("e") :], value.at(found.start("e")))
        power = read_number(stretch, 0, decimal)
        end = found.start("e") + (power[1] - 1 if power else 0)
    else:
        power = read_number(value, found.end(), decimal)
        end = power[1] if power else start
    if (
        power is None
        or power[0].exponent is None
        or number.exponent is not None
        or width.exponent is not None
    ):
        raise UncertaintyUnreadable(
            value.span, value.value, "the power of ten behind the bracket is not clear"
        )
    exponent = power[0].exponent
    rest = value.part(end)
    unit = read_unit(rest) if rest.value else ONE
    return _times_power(number, exponent), _times_power(width, exponent), unit


def _times_power(number: Number, exponent: int) -> Number:
    return Number(
        number.value * Fraction(10) ** exponent, number.digits, exponent, f"{number.typed}e{exponent}"
    )
