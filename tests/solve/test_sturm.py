"""Isolation of real roots against sympy, which does it by continued fractions, and against roots that are known."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import cos, pi, prod

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact.work import CALCULATION, bounded
from physcalc.problems.stopped import WorkTooMuch
from physcalc.solve.sturm import isolated

X = sympy.Symbol("x")


def holds(coefficients: list[int]) -> None:
    """As many intervals as sympy counts roots, in order, each with one root by sympy's count."""
    whole, found = isolated(coefficients)
    given_one = sympy.Poly(coefficients[::-1], X)
    plain = given_one.sqf_part()
    assert sympy.Poly(whole[::-1], X).monic() == plain.monic()
    assert len(found) == plain.count_roots()
    for low, high in found:
        ends = [sympy.Rational(end.numerator, end.denominator) for end in (low, high)]
        if low == high:
            assert plain.eval(ends[0]) == 0
        else:
            assert plain.eval(ends[1]) != 0
            # sympy counts a root at either end, too.
            assert plain.count_roots(*ends) - (plain.eval(ends[0]) == 0) == 1
    assert all(one[1] <= other[0] for one, other in pairwise(found))


whole_numbers = st.integers(-60, 60)


@given(st.lists(whole_numbers, min_size=1, max_size=8), whole_numbers.filter(bool))
def test_polynomials_of_any_kind(lower: list[int], last: int) -> None:
    holds([*lower, last])


@given(st.lists(st.fractions(-9, 9, max_denominator=8), min_size=1, max_size=6))
def test_polynomials_with_rational_roots(roots: list[Fraction]) -> None:
    """Some of them several times."""
    coefficients = [Fraction(1)]
    for root in roots:
        coefficients = [
            (coefficients[i - 1] if i else 0) - root * (coefficients[i] if i < len(coefficients) else 0)
            for i in range(len(coefficients) + 1)
        ]
    scale = prod(root.denominator for root in roots)
    whole = [int(c * scale) for c in coefficients]
    holds(whole)
    for root, (low, high) in zip(sorted(set(roots)), isolated(whole)[1], strict=True):
        assert low < root < high or low == high == root


@pytest.mark.parametrize("degree", range(3, 13))
def test_roots_of_chebyshev_polynomials(degree: int) -> None:
    """T_n has the roots cos((2k − 1)π/(2n)): NIST Digital Library of Mathematical Functions, 18.16 and 18.5.1."""
    terms = sympy.chebyshevt_poly(degree, X, polys=True).all_coeffs()
    _, found = isolated([int(c) for c in terms[::-1]])
    expected = sorted(cos((2 * k - 1) * pi / (2 * degree)) for k in range(1, degree + 1))
    assert len(found) == degree
    for root, (low, high) in zip(expected, found, strict=True):
        assert low - 1e-12 <= root <= high + 1e-12


def test_roots_that_almost_meet() -> None:
    """Twelve roots, 10⁻³⁰ from each other."""
    p = sympy.Poly(1, X)
    for k in range(12):
        p *= sympy.Poly(10**30 * X - (10**30 + k), X)
    _, found = isolated([int(c) for c in p.all_coeffs()[::-1]])
    for k, (low, high) in enumerate(found):
        root = 1 + Fraction(k, 10**30)
        assert low < root < high or low == high == root
    assert len(found) == 12


def test_what_would_take_long_is_stopped() -> None:
    """Coefficients of three thousand digits: some minutes, if nobody counted."""
    with pytest.raises(WorkTooMuch), bounded(CALCULATION):
        isolated([3 ** (6000 + 7 * k) + k for k in range(13)])
