"""The digits that stand in a substitution."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..checking.printing import printed_datum
from ..checking.scope import Datum
from ..exact import Form, NumberStyle, Numeral, Real, Rounded, write
from ..language.statements import Conventions
from ..language.tree import Printed
from ..units import Unit, UnitFactor, coherent_unit, from_si, to_si, unit_of

#: A converted value is shown exactly where it ends within so many digits, else rounded.
_EXACT_FIGURES = 6


def put_value(datum: Datum, conventions: Conventions, as_typed: bool, magnitude: bool) -> Printed:
    """What stands for a name in a substitution line.

    Args:
        datum: the value.
        conventions: the settings in force.
        as_typed: whether the numbers go in in their own units; else in SI coherent units.
        magnitude: whether the sign is left out.

    Angles always go in in their own unit, with the degree sign.
    """
    quantity = datum.quantity
    unit = quantity.unit
    own = as_typed or unit.angle or (_is_coherent(unit) and not unit.offset)
    numeral = _own(datum, conventions) if own else _converted(datum, conventions)
    negative = quantity.value.sign() < 0 if not unit.offset or not own else numeral.negative
    if datum.quantity.rounded is not None and datum.kind == "result":
        negative = quantity.value.sign() < 0
    numeral = replace(numeral, negative=negative and not magnitude and _not_zero(numeral))
    shown: Unit | None = None
    if unit.angle:
        shown = unit
    elif conventions.units_in_substitution:
        shown = unit if own else coherent_unit(unit.dimension)
    return Printed(numeral, shown)


def worth(numeral: Numeral) -> Fraction | None:
    """The number that the digits say; None for one that is written as a fraction, which is exact."""
    if "/" in numeral.whole:
        return None
    size = Fraction(f"{numeral.whole or 0}.{numeral.part or 0}") * Fraction(10) ** (numeral.exponent or 0)
    return -size if numeral.negative else size


def said(numeral: Numeral, value: Real) -> Real:
    """What the digits say of a value: the number that they are, or the value itself where they are a fraction."""
    number = worth(numeral)
    return value if number is None else Real.of(number)


def says(numeral: Numeral, value: Real) -> bool:
    """Whether the digits say a value exactly."""
    said = worth(numeral)
    return said is None or (value.fraction is not None and value.fraction == said)


def with_figures(value: Real, figures: int, conventions: Conventions) -> Numeral:
    """A value to so many significant figures."""
    return write(value, Form("figures", figures, None), conventions.rule, conventions.style)[1]


def in_numbers_of_radians(datum: Datum, value: Real, conventions: Conventions) -> Printed:
    """What stands for an angle where it counts in radians: the number typed, or the one that its degrees come to."""
    unit = datum.quantity.unit
    numeral = _own(datum, conventions) if unit.text() == "rad" else plain_numeral(value, conventions)
    numeral = replace(numeral, negative=value.sign() < 0 and _not_zero(numeral))
    return Printed(numeral, _RADIAN if conventions.units_in_substitution else None)


_RADIAN = unit_of([UnitFactor("rad")])


def _not_zero(numeral: Numeral) -> bool:
    return any(c not in "0" for c in numeral.whole + numeral.part) or numeral.whole == ""


def _is_coherent(unit: Unit) -> bool:
    return unit.scale.fraction == 1


def _own(datum: Datum, conventions: Conventions) -> Numeral:
    quantity = datum.quantity
    computed = datum.kind == "given" or (datum.name.component and datum.printed is None)
    if computed and quantity.number is None and not quantity.direction:
        value = from_si(quantity.value, quantity.unit)
        if (fuller := _fuller(abs(value), conventions)) is not None:
            return replace(fuller, negative=value.sign() < 0)
    return printed_datum(datum, conventions.style, conventions.form, conventions.rule).numeral


def _converted(datum: Datum, conventions: Conventions) -> Numeral:
    """The value in SI coherent units; with the digits typed or answered where only a power of ten changes."""
    quantity = datum.quantity
    unit, style = quantity.unit, conventions.style
    scale = unit.scale.fraction
    value = abs(quantity.value)
    if quantity.number is not None and "/" not in quantity.number.digits and not unit.offset:
        shifted = _shifted(quantity.number.digits, quantity.number.exponent or 0, scale, style)
        if shifted is not None:
            return shifted
    if quantity.rounded is not None and datum.kind == "result" and scale is not None:
        value = abs(to_si(Real.of(quantity.rounded.fraction), unit))
        places = max(quantity.rounded.places, 0)
        digits = str(quantity.rounded.coefficient).rjust(places + 1, "0")
        if places:
            digits = f"{digits[:-places]}.{digits[-places:]}"
        shifted = _shifted(digits, 0, scale, style)
        if shifted is not None:
            return shifted
    return plain_numeral(value, conventions)


def plain_numeral(value: Real, conventions: Conventions) -> Numeral:
    """A value exactly where it ends within a few digits, else rounded in the document's form."""
    style = conventions.style
    exact = value.fraction
    if exact is not None:
        places = _ending_places(exact)
        if places is not None and len(str(abs(exact.numerator))) <= _EXACT_FIGURES + 6:
            coefficient = abs(exact) * Fraction(10) ** places
            digits = str(coefficient)
            if len(digits.rstrip("0") or "0") <= _EXACT_FIGURES and len(digits) <= 12:
                short = len(digits.rstrip("0")) < 4 and abs(exact) >= Fraction(1, 1000)
                if exact == 0 or short or style.low <= abs(exact) < style.high:
                    return Numeral.of_rounded(Rounded(exact < 0, int(coefficient), places))
                rounded = Rounded(exact < 0, int(coefficient), places)
                stripped = digits.rstrip("0")
                magnitude = rounded.magnitude or 0
                part = stripped[1:]
                return Numeral(exact < 0, stripped[0], part, magnitude)
    fuller = _fuller(abs(value), conventions)
    if fuller is not None:
        return replace(fuller, negative=value.sign() < 0)
    form = conventions.form
    if form.kind == "places" and form.count < 2:
        form = Form("places", 2, form.standard)
    return write(value, form, conventions.rule, style)[1]


#: A value worked out on the way is put in with so many figures at least, so that a marker who goes on from
#: what is printed comes to the answer that is printed.
LEAST_FIGURES = 4
#: More figures than this are never put in: the answer is asked more exactly than anybody writes down.
MOST_FIGURES = 9


def _fuller(value: Real, conventions: Conventions) -> Numeral | None:
    """A value that the document's form would round too coarsely: all its digits or four; None for any other."""
    form, rule, style = conventions.form, conventions.rule, conventions.style
    rounded, _ = write(value, form, rule, style)
    if rounded.exact or len(str(rounded.coefficient)) >= LEAST_FIGURES:
        return None
    for figures in range(LEAST_FIGURES, _EXACT_FIGURES + 1):
        whole, numeral = write(value, Form("figures", figures, None), rule, style)
        if whole.exact:
            return _without_zeros(numeral)
    return write(value, Form("figures", LEAST_FIGURES, None), rule, style)[1]


def _without_zeros(numeral: Numeral) -> Numeral:
    """Exact digits without zeros that only fill up the figures."""
    return replace(numeral, part=numeral.part.rstrip("0"))


def _ending_places(value: Fraction) -> int | None:
    """How many decimals a fraction has, or None where they do not end."""
    denominator, places = value.denominator, 0
    while denominator % 10 == 0:
        denominator //= 10
        places += 1
    twos = fives = 0
    while denominator % 2 == 0:
        denominator //= 2
        twos += 1
    while denominator % 5 == 0:
        denominator //= 5
        fives += 1
    return places + max(twos, fives) if denominator == 1 else None


def _shifted(digits: str, exponent: int, scale: Fraction | None, style: NumberStyle) -> Numeral | None:
    """Typed digits moved by a power of ten, or None where the unit is no power of ten of the coherent one."""
    if scale is None:
        return None
    shift = _power_of_ten(scale)
    if shift is None:
        return None
    negative = digits.startswith("-")
    whole, _, part = digits.lstrip("-").partition(".")
    coefficient = (whole + part).lstrip("0")
    if not coefficient:
        return Numeral(False, "0", part)
    power = exponent + shift - len(part)
    size = Fraction(int(coefficient)) * Fraction(10) ** power
    if style.low <= size < style.high or (
        Fraction(1, 1000) <= size < style.low and not exponent and len(coefficient) < 4
    ):
        if power >= 0:
            return Numeral(negative, coefficient + "0" * power, "")
        filled = coefficient.rjust(-power + 1, "0")
        return Numeral(negative, filled[:power], filled[power:])
    if exponent and whole.lstrip("0"):
        return Numeral(negative, whole.lstrip("0"), part, exponent + shift)
    magnitude = len(coefficient) - 1 + power
    rest = coefficient[1:]
    if not part and not exponent:
        # Zeros at the end of a whole number typed are not counted as digits of a power of ten.
        rest = rest.rstrip("0")
    return Numeral(negative, coefficient[0], rest, magnitude)


def _power_of_ten(scale: Fraction) -> int | None:
    for number, sign in ((scale.numerator, 1), (scale.denominator, -1)):
        other = scale.denominator if sign == 1 else scale.numerator
        text = str(number)
        if other == 1 and text.rstrip("0") == "1":
            return sign * (len(text) - 1)
    return None
