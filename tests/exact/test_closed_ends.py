"""Closed forms rounded by whole numbers alone: as mpmath has them, and as the general way rounds them."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from mpmath import mp

from physcalc.exact import PI, Real, rounding, sqrt

fractions = st.fractions(min_value=Fraction(1, 10**9), max_value=10**12, max_denominator=10**9)


@settings(deadline=None)
@given(factor=fractions, power=st.integers(-8, 8), radicand=st.integers(1, 10**9))
@example(Fraction(1, 3), -8, 2)
@example(Fraction(10**40), 1, 3)
def test_the_value_lies_between_the_ends(factor: Fraction, power: int, radicand: int) -> None:
    """Against mpmath at 150 digits."""
    value = Real.of(factor) * PI**power * sqrt(Real.of(radicand))
    ends = rounding._closed_ends(value)
    assert ends is not None
    low, high = ends
    with mp.workdps(150):
        inside = mp.mpf(factor.numerator) / factor.denominator * mp.pi**power * mp.sqrt(radicand)
        slack = inside * mp.mpf(10) ** -140
        assert mp.mpf(low.numerator) / low.denominator <= inside + slack
        assert inside - slack <= mp.mpf(high.numerator) / high.denominator
    assert high - low < Fraction(1, 4) or factor > 10**17


def test_the_ends_of_pi() -> None:
    with mp.workdps(100):
        low, high = (mp.mpf(end.numerator) / end.denominator for end in rounding._PI)
        assert low < mp.pi < high
    assert rounding._PI[1] - rounding._PI[0] == Fraction(1, 10**60)


@settings(deadline=None)
@given(
    factor=fractions,
    power=st.integers(-3, 3),
    radicand=st.integers(1, 1000),
    places=st.integers(-3, 12),
    rule=st.sampled_from(["half-up", "half-even"]),
)
def test_rounded_as_in_general(
    factor: Fraction, power: int, radicand: int, places: int, rule: rounding.Rule
) -> None:
    value = Real.of(factor) * PI**power * sqrt(Real.of(radicand))
    with pytest.MonkeyPatch.context() as patched:
        quick = rounding.round_places(value, places, rule)
        patched.setattr(rounding, "_closed_ends", lambda size: None)
        assert rounding.round_places(value, places, rule) == quick


def test_forms_that_are_not_closed_are_left_out() -> None:
    assert rounding._closed_ends(Real.of(2) + sqrt(Real.of(2))) is None
    assert rounding._closed_ends(PI**9) is None
