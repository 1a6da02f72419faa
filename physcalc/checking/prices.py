"""Where money is counted: values put in the units that a price is for.

A price of R2,85/kWh goes with kilowatts and hours. A power typed in watts and a time typed in minutes are put in so,
and whoever types the line into a calculator gets the cost.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..exact import Number, Numeral, Real, Rounded
from ..language.names import Name
from ..units import ONE, Dimension, Unit, UnitFactor, coherent_unit, from_si, to_si, unit_of
from .scope import Datum
from .setup import Setup


def in_units_of_prices(setup: Setup) -> Setup:
    """A setup with its data in the units that its prices are for; itself where no money is counted.

    What fits none of these units stays in its own.
    """
    if not counts_money(setup):
        return setup
    wanted = _wanted(setup)
    data = {}
    for name, datum in setup.data.items():
        units = wanted.get(datum.quantity.unit.dimension, ())
        data[name] = datum if not units or datum.quantity.unit in units else _put_in(datum, units[0])
    return replace(setup, data=data)


def counts_money(setup: Setup) -> bool:
    """Whether money stands among the data or is asked."""
    return any(unit.dimension.money for unit in _units(setup))


def unit_on_the_way(setup: Setup, name: Name) -> Unit:
    """The unit of a quantity that is not asked, where the data stand in the units of prices; of SI where none fits."""
    dimension = setup.dimensions.of(name)
    if dimension is None:
        return ONE
    units = _wanted(setup).get(dimension)
    return units[0] if units else coherent_unit(dimension)


def _units(setup: Setup) -> list[Unit]:
    return [d.quantity.unit for d in setup.data.values()] + [a.unit for a in setup.asked]


def _wanted(setup: Setup) -> dict[Dimension, list[Unit]]:
    """For each dimension the units in which prices count it: what stands below their lines, and its factors."""
    wanted: dict[Dimension, list[Unit]] = {}
    for unit in _units(setup):
        if unit.price is None:
            continue
        below = [UnitFactor(factor.symbol, -factor.power) for factor in unit.factors if factor.power < 0]
        for factors in (below, *([factor] for factor in below)):
            counted = unit_of(factors, difference=True)
            if counted.dimension.powers:
                wanted.setdefault(counted.dimension, []).append(counted)
    return wanted


def _put_in(datum: Datum, unit: Unit) -> Datum:
    """A datum in another unit, with all digits where they end."""
    quantity = datum.quantity
    own = quantity.unit
    if own.offset or not own.factors or quantity.spread is not None:
        return datum
    if datum.kind == "result":
        return _answer_in(datum, unit)
    exact = from_si(quantity.value, unit).fraction
    digits = None if exact is None else _digits(exact) or _part_of_an_hour(exact, unit)
    number = None if exact is None or digits is None else Number(exact, digits, None, digits)
    return replace(datum, quantity=replace(quantity, unit=unit, number=number))


def _answer_in(datum: Datum, unit: Unit) -> Datum:
    """An earlier result in another unit, as it was answered; itself where its decimals would not end there."""
    rounded = datum.quantity.rounded
    if rounded is None or datum.printed is None:
        return datum
    exact = from_si(to_si(Real.of(rounded.fraction), datum.quantity.unit), unit).fraction
    digits = None if exact is None else _digits(exact)
    if exact is None or digits is None:
        return datum
    whole, _, part = digits.lstrip("-").partition(".")
    printed = replace(datum.printed, numeral=Numeral(exact < 0, whole, part), unit=unit)
    answered = Rounded(exact < 0, int(whole + part), len(part))
    return replace(datum, printed=printed, quantity=replace(datum.quantity, unit=unit, rounded=answered))


def _part_of_an_hour(exact: Fraction, unit: Unit) -> str | None:
    """Minutes as the fraction of an hour that they are, 1/3 for 20 min: exact, where decimals do not end."""
    hours = [factor.symbol for factor in unit.factors] == ["h"]
    return str(exact) if hours and 60 % exact.denominator == 0 else None


def _digits(exact: Fraction) -> str | None:
    """A number with all its decimals, at most six; None where it has more."""
    scaled = exact * 10**6
    if scaled.denominator != 1:
        return None
    whole, part = divmod(abs(scaled.numerator), 10**6)
    sign = "-" if exact < 0 else ""
    return f"{sign}{whole}.{part:06d}".rstrip("0").rstrip(".")
