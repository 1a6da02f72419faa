"""The one root of a polynomial between two fractions, refined in whole numbers to whatever precision is asked for."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from .real import Real
from .work import spend

#: Halvings before Newton's method is trusted to stay near.
_HALVINGS = 40


def isolated_root(coefficients: Sequence[Fraction], low: Fraction, high: Fraction) -> Real:
    """The root of a polynomial that lies between two fractions, where it changes its sign.

    Newton's method in fixed-point numbers, each approximation held between the two ends by exact signs: every digit
    is proved, none is believed.

    Args:
        coefficients: constant first.
        low, high: ends between which lies one simple root and no other (they may be roots themselves); where they
            are equal, the root itself.
    """
    if low == high:
        return Real.of(low)
    scale = math.lcm(*(c.denominator for c in coefficients))
    whole = [int(c * scale) for c in coefficients]
    if low < 0 < high and whole[0] == 0:
        # Its digits could be looked for without end.
        return Real.of(0)
    slope = [power * c for power, c in enumerate(whole)][1:]
    # An end may be another root: then the sign just beyond it is that of the slope there.
    at_low = _sign(whole, low) or _sign(slope, low)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        sign = _sign(whole, middle)
        if sign == 0:
            return Real.of(middle)
        low, high = (middle, high) if sign == at_low else (low, middle)

    def compute(digits: int) -> Any:
        from mpmath import mpf, workdps

        bottom, top = _narrowed(whole, low, high, at_low, digits)
        with workdps(digits + 10):
            middle = (bottom + top) / 2
            return mpf(middle.numerator) / mpf(middle.denominator)

    return Real.computed(compute)


def _narrowed(
    whole: Sequence[int], low: Fraction, high: Fraction, at_low: int, digits: int
) -> tuple[Fraction, Fraction]:
    """Ends about the root whose distance is less than its size by so many digits."""
    slope = [power * c for power, c in enumerate(whole)][1:]
    wanted = Fraction(1, 10 ** (digits + 2))
    while high - low > wanted * min(abs(low), abs(high)) or low * high <= 0:
        spend(len(whole) * digits // 60 + 1)
        width = high - low
        middle = (low + high) / 2
        steep = _value(slope, middle)
        found = None
        if steep:
            # A step of Newton's, rounded to a little more than the digits that it gains.
            guess = middle - _value(whole, middle) / steep
            if low < guess < high:
                found = _cut(guess, width * width)
        for end in _around(found, width, low, high) if found is not None else (middle,):
            sign = _sign(whole, end)
            if sign == 0:
                return end, end
            low, high = (max(low, end), high) if sign == at_low else (low, min(high, end))
        if high - low > width / 2:
            middle = (low + high) / 2
            sign = _sign(whole, middle)
            if sign == 0:
                return middle, middle
            low, high = (middle, high) if sign == at_low else (low, middle)
    return low, high


def _around(found: Fraction, width: Fraction, low: Fraction, high: Fraction) -> tuple[Fraction, ...]:
    """A place on either side of an approximation, as near as Newton's method is likely to have come."""
    near = _cut(width * width + width / 2**30, width * width)
    return tuple(end for end in (found - near, found + near) if low < end < high)


def _cut(value: Fraction, size: Fraction) -> Fraction:
    """A value with no more binary places than a size needs."""
    places = max(0, size.denominator.bit_length() - size.numerator.bit_length()) + 8
    return Fraction(round(value * 2**places), 2**places)


def _value(whole: Sequence[int], x: Fraction) -> Fraction:
    total, power = 0, 1
    numerator, denominator = x.numerator, x.denominator
    # Σ c_i p^i q^(n−i), by Horner from the top, in whole numbers.
    for c in reversed(whole):
        total = total * numerator + c * power
        power *= denominator
    return Fraction(total, power // denominator) if whole else Fraction(0)


def _sign(whole: Sequence[int], x: Fraction) -> int:
    total, power = 0, 1
    for c in reversed(whole):
        total = total * x.numerator + c * power
        power *= x.denominator
    return (total > 0) - (total < 0)
