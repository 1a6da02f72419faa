"""Approximations that know how wrong they can be: a value with a bound on its error.

This is the one module that computes with mpmath, and it is imported only once an irrational number has to be
approximated. Every operation below returns a ball that surely holds the true result when its arguments held
theirs, so a sum that cancels is seen to be uncertain instead of being printed as noise. The bounds are the
usual first-order ones of numerical analysis, widened for the terms they leave out.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from mpmath import MPContext

from .errors import TooLarge

#: A context of our own: the precision set here is nobody else's, nor theirs ours.
_mp: Any = MPContext()

#: Largest power of ten of a magnitude, and the same counted in bits.
LARGEST_POWER = 5000
LARGEST_BITS = 16610
#: Two values that agree to this many digits count as equal.
EQUAL_DIGITS = 200
#: Bits by which the bound on one rounding is widened; mpmath's functions are right to the last bit or two.
_SLACK_BITS = 4


class Uncertain(Exception):
    """The precision does not suffice to tell; a higher one may."""


@dataclass(frozen=True, slots=True)
class Ball:
    """All numbers from value − error to value + error.

    Attributes:
        value: the middle, an mpf.
        error: at least the distance from the true number, an mpf; zero where the value is exact.
    """

    value: Any
    error: Any

    @property
    def sign(self) -> int | None:
        """−1, 0 or 1; None where the ball does not tell."""
        if self.error == 0 and self.value == 0:
            return 0
        if abs(self.value) <= self.error:
            return None
        return 1 if self.value > 0 else -1

    def digits(self) -> int:
        """How many leading digits are sure (a large number for an exact value)."""
        if self.error == 0:
            return 10**9
        if self.value == 0:
            return 0
        return max(0, int((_mp.mag(self.value) - _mp.mag(self.error)) * 0.30103) - 1)

    def bounds(self) -> tuple[Fraction, Fraction]:
        """The two ends, as exact fractions of the binary numbers held."""
        middle, reach = as_fraction(self.value), as_fraction(self.error)
        return middle - reach, middle + reach


def as_fraction(value: Any) -> Fraction:
    """The exact value of an mpf."""
    sign, mantissa, exponent, _ = value._mpf_
    whole = -int(mantissa) if sign else int(mantissa)
    return Fraction(whole << exponent) if exponent >= 0 else Fraction(whole, 1 << -exponent)


def set_digits(digits: int) -> None:
    """Choose the working precision of all that follows, in decimal digits."""
    _mp.dps = digits


def _unit() -> Any:
    return _mp.ldexp(_mp.one, _SLACK_BITS - _mp.prec)


def _ball(value: Any, error: Any) -> Ball:
    """A ball about a value just computed: its rounding is added, and its size guarded."""
    error = error * 1.0625 + abs(value) * _unit()
    if abs(value) > error and abs(_mp.mag(value)) > LARGEST_BITS:
        raise TooLarge(f"a value lies beyond 10^±{LARGEST_POWER}")
    return Ball(value, error)


def _settled(ball: Ball, scale: Any) -> Ball:
    """Exactly zero where a ball that came of cancellation vanishes to 200 digits of what cancelled."""
    if abs(ball.value) + ball.error <= scale * _mp.mpf(10) ** -EQUAL_DIGITS:
        return Ball(_mp.zero, _mp.zero)
    return ball


def closed(coefficient: Fraction, pi_power: int, radicand: int) -> Ball:
    """The ball of coefficient · π^pi_power · √radicand."""
    value = _mp.mpf(coefficient.numerator) / coefficient.denominator
    if pi_power:
        value = value * _mp.pi**pi_power
    if radicand != 1:
        value = value * _mp.sqrt(radicand)
    # π to the power k carries k times the rounding of π.
    return _ball(value, abs(value) * _unit() * (1 + abs(pi_power)))


def multiply(a: Ball, b: Ball) -> Ball:
    """The product."""
    error = abs(a.value) * b.error + abs(b.value) * a.error + a.error * b.error
    return _ball(a.value * b.value, error)


def add(a: Ball, b: Ball) -> Ball:
    """The sum; exactly zero where it vanishes to 200 digits of its terms."""
    return _settled(_ball(a.value + b.value, a.error + b.error), max(abs(a.value), abs(b.value)))


def power(a: Ball, exponent: int) -> Ball:
    """A whole power, positive or negative, by repeated squaring."""
    result = Ball(_mp.one, _mp.zero)
    square, left = a, abs(exponent)
    while left:
        if left & 1:
            result = multiply(result, square)
        left >>= 1
        if left:
            square = multiply(square, square)
    if exponent >= 0:
        return result
    least = abs(result.value) - result.error
    if least <= 0:
        raise Uncertain
    value = 1 / result.value
    return _ball(value, abs(value) * result.error / least)


def _sqrt(a: Ball) -> Ball:
    least = a.value - a.error
    if least <= 0:
        raise Uncertain
    return _ball(_mp.sqrt(a.value), a.error / _mp.sqrt(least))


def _exp(a: Ball) -> Ball:
    # ln 10^5000 is 11 513; beyond it mpmath would only toil.
    if abs(a.value) - a.error > 11515:
        raise TooLarge(f"an exponential lies beyond 10^±{LARGEST_POWER}")
    if a.error > 1:
        raise Uncertain
    value = _mp.exp(a.value)
    return _ball(value, value * 2 * a.error)


def _ln(a: Ball) -> Ball:
    least = a.value - a.error
    if least <= 0:
        raise Uncertain
    return _settled(_ball(_mp.ln(a.value), a.error / least), _mp.one)


def _sin(a: Ball) -> Ball:
    ball = _ball(_mp.sin(a.value), a.error)
    # Near 0 a small sine is no cancellation; near the other multiples of π it is.
    return _settled(ball, _mp.one) if abs(a.value) > 1 else ball


def _cos(a: Ball) -> Ball:
    return _settled(_ball(_mp.cos(a.value), a.error), _mp.one)


def _atan(a: Ball) -> Ball:
    return _ball(_mp.atan(a.value), a.error)


def _asin(a: Ball) -> Ball:
    # The slope grows without bound towards ±1, so the ends are taken, as the arcsine only rises.
    low, high = max(a.value - a.error, -_mp.one), min(a.value + a.error, _mp.one)
    if low > high:
        raise Uncertain
    ends = _mp.asin(low), _mp.asin(high)
    value = (ends[0] + ends[1]) / 2
    # Rounding of 1 − x² inside weighs as much as the ball's own width: counted at both ends.
    return _ball(value, ends[1] - ends[0])


def computed(compute: Callable[[int], Any], digits: int) -> Ball:
    """The ball about a number found by search, which is sure to `digits` digits."""
    found = compute(digits + 5)
    set_digits(digits)  # The search may have approximated other numbers, at other precisions.
    value = _mp.make_mpf(found._mpf_)
    return Ball(value, abs(value) * _mp.mpf(10) ** -digits)


FUNCTIONS: dict[str, Callable[[Ball], Ball]] = {
    "sqrt": _sqrt,
    "exp": _exp,
    "ln": _ln,
    "sin": _sin,
    "cos": _cos,
    "atan": _atan,
    "asin": _asin,
}


def exported(ball: Ball, digits: int) -> Any:
    """The value as an ordinary `mpmath.mpf` that carries `digits` digits."""
    from mpmath import mp

    with mp.workdps(digits + 5):
        return +mp.make_mpf(ball.value._mpf_)
