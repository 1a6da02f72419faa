"""Numbers known only as the place where something vanishes: refined to whatever precision is asked for."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from typing import Any

from .errors import RealError, TooLarge
from .real import Real
from .work import spend

#: The largest denominator of a root that is recognised as a fraction.
_NEAT = 10**6


def root_between(function: Callable[[Real], Real], low: float, high: float) -> Real | None:
    """The number between two ends at which a continuous function changes its sign.

    Args:
        function: an exact function.
        low, high: the ends.

    Returns:
        The root, exactly where it is a fraction of small denominator, else as a number that refines itself;
        None where the function does not change its sign there or jumps.
    """

    def at(digits: int) -> Any:
        from mpmath import mp, mpf, workdps

        from .balls import as_fraction

        with workdps(digits + 15):

            def value(x: Any) -> Any:
                return function(Real.of(as_fraction(x))).approximate(digits + 10)

            try:
                found = mp.findroot(
                    value,
                    (mpf(low), mpf(high)),
                    solver="anderson",
                    tol=mpf(10) ** (-2 * digits),
                    verify=False,
                )
            except (ValueError, ZeroDivisionError) as error:
                raise TooLarge("a root does not settle") from error
            return +found

    try:
        ends = function(Real.of(Fraction(low))).sign(), function(Real.of(Fraction(high))).sign()
        if ends[0] * ends[1] > 0:
            return None
        first = at(20)
        if not low <= first <= high:
            return None
        neat = Fraction(str(first)).limit_denominator(_NEAT)
        if function(Real.of(neat)).sign() == 0:
            return Real.of(neat)
    except RealError:
        return None
    return Real.computed(at)


def polynomial_roots(coefficients: Sequence[Real]) -> list[Real]:
    """The real roots of a polynomial with irrational coefficients, constant first, in rising order.

    Found by simultaneous iteration; roots are told real where their imaginary part vanishes to half the
    digits.

    Raises:
        RealError: the iteration does not settle.
    """

    def at(digits: int) -> list[Any]:
        from mpmath import libmp, mp, mpf, workdps

        # Each of its steps takes every pair of roots; most often some twenty are made.
        spend(20 * len(coefficients) ** 2 // 10)
        with workdps(digits + 20):
            numbers = [c.approximate(digits + 15) for c in reversed(coefficients)]
            try:
                roots = mp.polyroots(numbers, maxsteps=200, extraprec=4 * digits)
            except libmp.NoConvergence as error:
                raise TooLarge("the roots of a formula do not settle") from error
            small = mpf(10) ** (-digits // 2)
            return sorted(mp.re(r) for r in roots if abs(mp.im(r)) <= small * (1 + abs(r)))

    def one(index: int) -> Callable[[int], Any]:
        return lambda digits: at(digits)[index]

    return [Real.computed(one(index)) for index in range(len(at(30)))]
