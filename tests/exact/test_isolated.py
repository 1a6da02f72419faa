"""Roots between two fractions, against mpmath's own iteration and against numbers that are known exactly."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from mpmath import mp, mpf, workdps

from physcalc.exact import Real, isolated_root

FRACTIONS = st.fractions(-50, 50, max_denominator=20)


def product(roots: list[Fraction]) -> list[Fraction]:
    """The coefficients, constant first, of the polynomial with these roots."""
    coefficients = [Fraction(1)]
    for root in roots:
        shifted = [Fraction(0), *coefficients]
        coefficients = [
            high - root * low for high, low in zip(shifted, [*coefficients, Fraction(0)], strict=True)
        ]
    return coefficients


@pytest.mark.parametrize("digits", [15, 60, 400])
def test_the_square_root_of_two(digits: int) -> None:
    found = isolated_root([Fraction(-2), Fraction(0), Fraction(1)], Fraction(1), Fraction(2)).approximate(
        digits
    )
    with workdps(digits + 20):
        assert abs(found / mp.sqrt(2) - 1) < mpf(10) ** -digits


def test_a_root_at_zero_is_zero() -> None:
    """However near the ends, no digit of it is its first."""
    coefficients = [Fraction(0), Fraction(-20), Fraction(1)]
    assert isolated_root(coefficients, Fraction(-20, 3), Fraction(10)) == Real.of(0)
    assert isolated_root(coefficients, Fraction(0), Fraction(21)).equals(Real.of(20))


@given(st.lists(FRACTIONS, min_size=2, max_size=6, unique=True), st.integers(0, 5), st.integers(20, 120))
def test_known_roots(roots: list[Fraction], at: int, digits: int) -> None:
    ordered = sorted(roots)
    root = ordered[at % len(ordered)]
    gap = min(abs(root - other) for other in ordered if other != root)
    found = isolated_root(product(roots), root - gap / 3, root + gap / 2).approximate(digits)
    with workdps(digits + 20):
        exact = mpf(root.numerator) / root.denominator
        assert abs(found - exact) <= abs(exact) * mpf(10) ** -digits


@given(st.lists(FRACTIONS, min_size=2, max_size=5, unique=True))
def test_an_end_may_be_another_root(roots: list[Fraction]) -> None:
    low, high = sorted(roots)[:2]
    between = (low + high) / 2
    found = isolated_root(product([*roots, between]), low, high)
    assert found.equals(between)


@given(st.lists(st.integers(-30, 30), min_size=4, max_size=9))
def test_irrational_roots_against_simultaneous_iteration(coefficients: list[int]) -> None:
    coefficients = [*coefficients, 7]
    with workdps(60):
        try:
            roots = mp.polyroots(list(reversed(coefficients)), maxsteps=500, extraprec=400)
        except mp.NoConvergence:
            return
        real = sorted(mp.re(root) for root in roots if abs(mp.im(root)) < mpf(10) ** -25)
    gaps = [abs(b - a) for a, b in pairwise(real)]
    if any(gap < mpf(10) ** -6 for gap in gaps):
        return
    for at, root in enumerate(real):
        near = min([mpf(1), *(gap / 3 for gap in gaps[max(0, at - 1) : at + 1])])
        low, high = (Fraction(str(mp.nstr(end, 30))) for end in (root - near, root + near))
        found = isolated_root([Fraction(c) for c in coefficients], low, high).approximate(50)
        with workdps(60):
            assert abs(found - root) <= mpf(10) ** -45 * (1 + abs(root))
