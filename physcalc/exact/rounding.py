"""The one place where digits are dropped.

A value is rounded once, from the exact number. The rounding rules are those of ISO 80000-1:2009, Annex B: the
nearest multiple of the rounding range; where two are equally near, rule B takes the one of larger magnitude
(`half-up`, what schools teach) and rule A the even one (`half-even`).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from math import isqrt
from typing import Literal

from .errors import TooLarge
from .real import Real

Rule = Literal["half-up", "half-even"]

_MOST_PLACES = 6000


@dataclass(frozen=True, slots=True)
class Rounded:
    """A decimal number, the outcome of one rounding: ±coefficient · 10^−places.

    Attributes:
        negative: whether it is below zero; False for zero.
        coefficient: its digits as a whole number.
        places: how many of them stand after the decimal sign; negative where zeros follow before it.
        exact: whether nothing was lost (not compared).
    """

    negative: bool
    coefficient: int
    places: int
    exact: bool = field(default=True, compare=False)

    @property
    def fraction(self) -> Fraction:
        """Its value."""
        size = self.coefficient * ten_to(-self.places)
        return -size if self.negative else size

    @property
    def magnitude(self) -> int | None:
        """The power of ten of its first digit (2 for 345, −1 for 0.5); None for zero."""
        return count_digits(self.coefficient) - 1 - self.places if self.coefficient else None


def count_digits(whole: int) -> int:
    """How many decimal digits a whole number has that is not negative; 0 has none.

    Counted from its bits, as Python does not write out whole numbers of more than 4300 digits.
    """
    guess = max(0, whole.bit_length() * 30103 // 100_000 - 1)  # right, or too low by one or two
    return next(digits for digits in range(guess, guess + 4) if whole < 10**digits)


def ten_to(exponent: int) -> Fraction:
    """10^exponent."""
    if abs(exponent) > _MOST_PLACES:
        raise TooLarge("a power of ten is too large")
    return Fraction(10**exponent) if exponent >= 0 else Fraction(1, 10**-exponent)


def round_places(x: Real, places: int, rule: Rule = "half-up") -> Rounded:
    """`x` to so many decimal places (negative: to tens, hundreds, …).

    A tie is decided on the exact value; one that agrees with a tie to 200 digits is a tie.

    Raises:
        TooLarge: more places than anything needs, or a value that cannot be told.
    """
    scale = ten_to(places)
    value = x.fraction
    if value is not None:
        return _of_fraction(value, places, scale, rule)
    sign = x.sign()
    if sign == 0:
        return Rounded(False, 0, places)
    size = x * (scale * sign)
    low, high = _close(size)
    whole = (low + Fraction(1, 2)).__floor__()  # candidate: the whole number nearest to the low end
    edge = whole + Fraction(1, 2)
    if high >= edge:  # The ends straddle a tie: on which side the value lies is asked exactly.
        side = (size - edge).sign()
        if side > 0 or (side == 0 and (rule == "half-up" or whole % 2)):
            whole += 1
        return Rounded(sign < 0 and whole > 0, whole, places, exact=False)
    exact = low <= whole <= high and (size - whole).sign() == 0
    return Rounded(sign < 0 and whole > 0, whole, places, exact)


def _of_fraction(value: Fraction, places: int, scale: Fraction, rule: Rule) -> Rounded:
    size = abs(value) * scale
    whole, rest = divmod(size.numerator, size.denominator)
    twice = 2 * rest - size.denominator
    if twice > 0 or (twice == 0 and (rule == "half-up" or whole % 2)):
        whole += 1
    return Rounded(value < 0 and whole > 0, whole, places, exact=rest == 0)


#: π lies between these two (OEIS A000796).
_PI = (
    Fraction(3141592653589793238462643383279502884197169399375105820974944, 10**60),
    Fraction(3141592653589793238462643383279502884197169399375105820974945, 10**60),
)
#: A higher power of π is left to whoever approximates.
_MOST_PI = 8


def _closed_ends(size: Real) -> tuple[Fraction, Fraction] | None:
    """Two ends that hold a positive value in closed form, c · π^k · √r, by whole numbers alone; None for any other."""
    if size.node is not None or abs(size.pi_power) > _MOST_PI:
        return None
    factor, power = size.coefficient, size.pi_power
    bits = max(0, factor.numerator.bit_length() - factor.denominator.bit_length()) + 64
    root = isqrt(size.radicand << 2 * bits)
    low, high = (factor * Fraction(end, 1 << bits) for end in (root, root + 1))
    below, above = _PI if power >= 0 else (_PI[1], _PI[0])
    return low * below**power, high * above**power


def _close(size: Real) -> tuple[Fraction, Fraction]:
    """Two ends less than a quarter apart that hold a positive value, the lower not below zero."""
    ends = _closed_ends(size)
    if ends is not None and ends[1] - ends[0] < Fraction(1, 4):
        return ends
    from .evaluation import refined  # Here: it brings mpmath in.

    digits = 0
    for ball in refined(size):
        low, high = ball.bounds()
        if high - low < Fraction(1, 4):
            return max(low, Fraction(0)), high
        if low > 0:
            digits = count_digits(high.__floor__())
            break
    for ball in refined(size, digits + 2):
        low, high = ball.bounds()
        if high - low < Fraction(1, 4):
            return max(low, Fraction(0)), high
    raise AssertionError("refined() ends with an error")


def round_figures(x: Real, figures: int, rule: Rule = "half-up") -> Rounded:
    """`x` to so many significant figures (at least one). Zero is written with figures − 1 places.

    Raises:
        ValueError: fewer than one figure is asked for.
        TooLarge: more figures than anything needs, or a value that cannot be told.
    """
    if figures < 1:
        raise ValueError("a number has at least one significant figure")
    if x.sign() == 0:
        return Rounded(False, 0, figures - 1)
    rounded = round_places(x, figures - 1 - _magnitude(x, figures), rule)
    if rounded.coefficient >= 10**figures:  # 9.996 went up to 10.00: one digit too many.
        return Rounded(rounded.negative, rounded.coefficient // 10, rounded.places - 1, rounded.exact)
    return rounded


def _magnitude(x: Real, figures: int) -> int:
    """The power of ten of the first digit.

    An irrational value within 10^−(figures + 20) of a power of ten may be put a step too high: it rounds to
    that power of ten in any case.
    """
    value = x.fraction
    if value is None:
        from .evaluation import refined

        for ball in refined(x, figures + 20):
            if ball.digits() >= figures + 20:
                value = ball.bounds()[1] if ball.sign == 1 else ball.bounds()[0]
                break
    assert value is not None  # refined() ends with an error
    above, below = abs(value.numerator), value.denominator
    guess = count_digits(above) - count_digits(below)  # right, or one too high
    return guess if abs(value) >= ten_to(guess) else guess - 1
