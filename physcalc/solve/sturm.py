"""Where the real roots of a polynomial with whole coefficients lie: each in an interval of its own.

Sturm's theorem: in the chain p, p′, and the remainders with their signs turned, the changes of sign at a less those at
b are the number of different roots in (a, b]. An interval with several is halved. (D. E. Knuth, The Art of Computer
Programming, volume 2, section 4.6.2, exercise 22; from memory.)

Everything is exact, and counted as it is done, so that a polynomial made to take long is stopped at the same place on
every machine.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from math import gcd

from ..exact import spend

#: Whole coefficients, the constant first, the last one not zero.
Whole = list[int]

#: Bits of numbers whose product, for each pair of coefficients, counts as one unit of work.
_BITS = 1_000


def isolated(polynomial: Sequence[int]) -> tuple[Whole, list[tuple[Fraction, Fraction]]]:
    """A polynomial without its repeated factors, and an interval about each of its real roots.

    Args:
        polynomial: coefficients, the constant first; the last one is not zero, and there are two at least.

    Returns:
        The polynomial with the same roots, each of them simple; and for each root, in rising order, two fractions
        between which no other root lies. Where the two are equal they are the root; the lower one may be another root,
        the upper one is none.

    Raises:
        WorkTooMuch: it takes more work than is left.
    """
    whole = _primitive(list(polynomial))
    shared = _chain(whole, _slope(whole))[-1]
    if len(shared) > 1:
        whole = _quotient(whole, shared)
    chain = _chain(whole, _slope(whole))
    # Beyond this power of two there is no root (Cauchy: 1 + the largest ratio to the last coefficient).
    far = 1 << (1 + max(0, max(map(abs, whole[:-1])).bit_length() - abs(whole[-1]).bit_length() + 1))
    found: list[tuple[Fraction, Fraction]] = []
    left, right = Fraction(-far), Fraction(far)
    waiting = [(left, _changes(chain, left), right, _changes(chain, right))]
    while waiting:
        low, before, high, after = waiting.pop()
        if before == after:
            continue
        if before - after == 1:
            found.append((high, high) if _sign(whole, high) == 0 else (low, high))
            continue
        middle = (low + high) / 2
        between = _changes(chain, middle)
        waiting += [(middle, between, high, after), (low, before, middle, between)]
    return whole, found


def _primitive(polynomial: Whole) -> Whole:
    """Without the factor that all coefficients share; signs stay."""
    shared = gcd(*polynomial)
    return [c // shared for c in polynomial]


def _slope(polynomial: Whole) -> Whole:
    return [power * c for power, c in enumerate(polynomial)][1:]


def _chain(first: Whole, second: Whole) -> list[Whole]:
    """Sturm's chain of two polynomials, each up to a positive factor; the last one is what the two share."""
    chain = [first, _primitive(second)]
    while len(chain[-1]) > 1:
        rest = _remainder(chain[-2], chain[-1])
        if not rest:
            break
        chain.append(_primitive([-c for c in rest]))
    return chain


def _remainder(divided: Whole, by: Whole) -> Whole:
    """The remainder times a positive number; nothing where it vanishes."""
    rest, leading = list(divided), by[-1]
    positive = abs(leading)
    while len(rest) >= len(by):
        _count(rest, by)
        factor = rest[-1] if leading > 0 else -rest[-1]
        shift = len(rest) - len(by)
        rest = [positive * c for c in rest]
        for place, c in enumerate(by):
            rest[shift + place] -= factor * c
        while rest and rest[-1] == 0:
            rest.pop()
    return rest


def _quotient(divided: Whole, by: Whole) -> Whole:
    """A polynomial divided by one that it is a multiple of."""
    rest = [Fraction(c) for c in divided]
    out: list[Fraction] = []
    while len(rest) >= len(by):
        factor = rest[-1] / by[-1]
        out.insert(0, factor)
        shift = len(rest) - len(by)
        for place, c in enumerate(by):
            rest[shift + place] -= factor * c
        rest.pop()
    # What divides a primitive polynomial and is primitive leaves whole numbers (Gauss's lemma).
    return _primitive([c.numerator for c in out])


def _changes(chain: list[Whole], at: Fraction) -> int:
    """How often the chain changes its sign at a point; what is zero there is passed over."""
    signs = [sign for polynomial in chain if (sign := _sign(polynomial, at))]
    return sum(one != other for one, other in pairwise(signs))


def _sign(polynomial: Whole, at: Fraction) -> int:
    """The sign of its value, in whole numbers: the value times a power of the denominator."""
    _count(polynomial, [at.numerator, at.denominator])
    value, scale = 0, 1
    for c in reversed(polynomial):
        value = value * at.numerator + c * scale
        scale *= at.denominator
    return (value > 0) - (value < 0)


def _count(one: Whole, other: Whole) -> None:
    """Counts what a product of the two takes."""
    bits = max(c.bit_length() for c in one) + max(c.bit_length() for c in other)
    spend(1 + len(one) * len(other) * bits // _BITS)
