"""What can go wrong with an exact number. These errors know no place in a source: the caller adds it."""

from __future__ import annotations


class RealError(ArithmeticError):
    """The root of them; its text is a lower-case sentence without a full stop."""


class DivisionByZero(RealError):
    """A divisor is zero, or vanishes to 200 digits."""


class OutOfDomain(RealError):
    """A function has no real value there: the root or logarithm of a negative, the arcsine beyond 1."""


class TooLarge(RealError):
    """A number, or the working that leads to it, is larger than anything a calculation needs."""
