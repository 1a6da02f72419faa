"""Exact arithmetic: identities that are theorems, domains, bounds."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable
from fractions import Fraction

import mpmath
import pytest

from physcalc.exact import (
    ONE,
    PI,
    ZERO,
    DivisionByZero,
    OutOfDomain,
    Real,
    RealError,
    TooLarge,
    acos,
    asin,
    atan,
    atan2,
    cos,
    exp,
    ln,
    log10,
    round_figures,
    round_places,
    sin,
    sqrt,
    tan,
)  # fmt: skip

R = Real.of
F = Fraction


def degrees(angle: int | Fraction) -> Real:
    return PI * F(angle) / 180


@pytest.mark.parametrize(
    ("made", "value"),
    [
        (lambda: sqrt(R(2)) * sqrt(R(2)), 2),
        (lambda: sqrt(R(8)) / sqrt(R(2)), 2),
        (lambda: sqrt(R(2)) * sqrt(R(3)) * sqrt(R(6)), 6),
        (lambda: (sqrt(R(12)) - sqrt(R(3))) / sqrt(R(3)), 1),
        (lambda: sqrt(R(F(49, 25))), F(7, 5)),
        (lambda: sqrt(PI * PI * 4) / PI, 2),
        (lambda: PI / PI, 1),
        (lambda: (2 * PI - PI) / PI, 1),
        (lambda: R(8) ** F(1, 3), 2),
        (lambda: R(F(27, 8)) ** F(-2, 3), F(4, 9)),
        (lambda: (R(8) ** F(1, 6)) ** 2, 2),
        (lambda: R(2) ** -3, F(1, 8)),
        (lambda: R(0) ** 0, 1),
        (lambda: R(-2) ** 3, -8),
        (lambda: sqrt(R(3)) ** -4, F(1, 9)),
        (lambda: sin(degrees(30)), F(1, 2)),
        (lambda: sin(degrees(210)), F(-1, 2)),
        (lambda: cos(degrees(-60)), F(1, 2)),
        (lambda: cos(degrees(90)), 0),
        (lambda: tan(degrees(45)), 1),
        (lambda: tan(degrees(135)), -1),
        (lambda: sin(degrees(60)) ** 2, F(3, 4)),
        (lambda: tan(degrees(30)) * sqrt(R(3)), 1),
        (lambda: cos(degrees(45)) * sqrt(R(2)), 1),
        (lambda: sin(degrees(40)) / cos(degrees(50)), 1),
        (lambda: exp(ZERO), 1),
        (lambda: ln(ONE), 0),
        (lambda: ln(exp(R(F(7, 3)))), F(7, 3)),
        (lambda: exp(ln(R(8)) / 3), 2),
        (lambda: exp(R(3)) * exp(R(-3)), 1),
        (lambda: log10(R(1000)), 3),
        (lambda: log10(R(F(1, 100))), -2),
        (lambda: log10(sqrt(R(10))), F(1, 2)),
        (lambda: log10(R(10) ** F(3, 10)), F(3, 10)),
        (lambda: R(10) ** R(-3), F(1, 1000)),
        (lambda: asin(R(F(1, 2))) / PI, F(1, 6)),
        (lambda: asin(-sqrt(R(3)) / 2) / PI, F(-1, 3)),
        (lambda: acos(R(F(-1, 2))) / PI, F(2, 3)),
        (lambda: acos(R(-1)) / PI, 1),
        (lambda: atan(R(-1)) / PI, F(-1, 4)),
        (lambda: atan(sqrt(R(3))) / PI, F(1, 3)),
        (lambda: atan2(R(-1), R(-1)) / PI, F(-3, 4)),
        (lambda: atan2(R(0), R(-1)) / PI, 1),
        (lambda: atan2(R(5), R(0)) / PI, F(1, 2)),
        (lambda: abs(R(-3)), 3),
    ],
)
def test_closed_forms_are_held_exactly(made: Callable[[], Real], value: int | Fraction) -> None:
    assert made().fraction == value


@pytest.mark.parametrize(
    ("left", "right"),
    [
        (lambda: (sqrt(R(2)) + 1) * (sqrt(R(2)) - 1), lambda: ONE),
        (lambda: (sqrt(R(2)) + sqrt(R(3))) ** 2, lambda: 5 + 2 * sqrt(R(6))),
        (lambda: sin(degrees(15)), lambda: (sqrt(R(6)) - sqrt(R(2))) / 4),
        (lambda: cos(degrees(36)), lambda: (1 + sqrt(R(5))) / 4),
        (lambda: sin(R(1)) ** 2 + cos(R(1)) ** 2, lambda: ONE),
        (lambda: tan(degrees(20)) * tan(degrees(70)), lambda: ONE),
        (lambda: ln(R(8)) / ln(R(2)), lambda: R(3)),
        (lambda: R(2) ** F(1, 3) * R(2) ** F(2, 3), lambda: R(2)),
        (lambda: 4 * (4 * atan(R(F(1, 5))) - atan(R(F(1, 239)))), lambda: PI),  # Machin's formula
        (lambda: asin(R(F(3, 5))) + asin(R(F(4, 5))), lambda: PI / 2),
        (lambda: sqrt(3 + 2 * sqrt(R(2))), lambda: 1 + sqrt(R(2))),
        (lambda: asin((sqrt(R(2)) + 1) * (sqrt(R(2)) - 1)), lambda: PI / 2),
        (lambda: R(2) ** sqrt(R(2)), lambda: exp(sqrt(R(2)) * ln(R(2)))),
    ],
)
def test_identities_without_a_closed_form(left: Callable[[], Real], right: Callable[[], Real]) -> None:
    assert left().equals(right())
    assert (left() - right()).sign() == 0
    assert not left() < right()
    assert left() <= right()


def test_nearly_equal_is_not_equal() -> None:
    near = sqrt(R(2)) + F(1, 10**190)
    assert not near.equals(sqrt(R(2)))
    assert near > sqrt(R(2))
    # exp(π √163) misses a whole number by 7.5 · 10⁻¹³ (well known; recomputed by mpmath below).
    almost = exp(PI * sqrt(R(163)))
    assert almost < 640320**3 + 744
    with mpmath.workdps(60):
        expected = mpmath.exp(mpmath.pi * mpmath.sqrt(163)) - (640320**3 + 744)
        assert mpmath.almosteq((almost - (640320**3 + 744)).approximate(30), expected, 1e-25)


def test_agreement_to_200_digits_counts_as_equal() -> None:
    assert (sqrt(R(2)) + F(1, 10**210)).equals(sqrt(R(2)))
    with pytest.raises(DivisionByZero):
        ONE / (sqrt(R(2)) + F(1, 10**210) - sqrt(R(2)))


def test_a_small_number_is_no_zero() -> None:
    assert exp(R(-2000)).sign() == 1
    assert sin(R(F(1, 10**300))).sign() == 1
    assert (exp(R(1)) * F(1, 10**400)).sign() == 1


@pytest.mark.parametrize(
    ("wrong", "error"),
    [
        (lambda: ONE / ZERO, DivisionByZero),
        (lambda: ONE / (PI - PI), DivisionByZero),
        (lambda: ONE / ((sqrt(R(2)) + sqrt(R(3))) ** 2 - 5 - 2 * sqrt(R(6))), DivisionByZero),
        (lambda: ZERO**-1, DivisionByZero),
        (lambda: ZERO ** F(-1, 2), DivisionByZero),
        (lambda: sqrt(R(-1)), OutOfDomain),
        (lambda: sqrt(1 - sqrt(R(2))), OutOfDomain),
        (lambda: R(-8) ** F(1, 3), OutOfDomain),
        (lambda: ln(ZERO), OutOfDomain),
        (lambda: ln(R(-1)), OutOfDomain),
        (lambda: log10(ZERO), OutOfDomain),
        (lambda: asin(R(F(1000001, 1000000))), OutOfDomain),
        (lambda: acos(-sqrt(R(2))), OutOfDomain),
        (lambda: tan(PI / 2), OutOfDomain),
        (lambda: tan(asin(R(F(3, 5))) + asin(R(F(4, 5)))), OutOfDomain),
        (lambda: atan2(ZERO, ZERO), OutOfDomain),
        (lambda: R(2) ** 10**9, TooLarge),
        (lambda: R(F(1, 2)) ** 10**9, TooLarge),
        (lambda: R(10) ** (10**300), TooLarge),
        (lambda: sqrt(R(2)) ** 100_001, TooLarge),
        (lambda: PI**100_000, TooLarge),
        (lambda: R(2) ** R(2) ** R(2) ** R(2) ** 5, TooLarge),
        (lambda: exp(R(10) ** 300), TooLarge),
        (lambda: exp(exp(exp(R(5)))), TooLarge),
        (lambda: exp(R(-20000)), TooLarge),
        (lambda: R(10) ** 3000 * R(10) ** 3000, TooLarge),
        (lambda: float(R(10) ** 400), TooLarge),
        (lambda: float(exp(R(1000))), TooLarge),
        (lambda: PI.approximate(10**6), TooLarge),
        (lambda: sin(R(10) ** 4000).sign(), TooLarge),
    ],
)
def test_errors(wrong: Callable[[], object], error: type[RealError]) -> None:
    with pytest.raises(error) as caught:
        wrong()
    text = str(caught.value)
    assert text[0].islower()
    assert not text.endswith(".")


def test_endless_growth_is_stopped() -> None:
    def grow(x: Real) -> None:
        for _ in range(100):
            x = x * x + F(1, 3)

    with pytest.raises(TooLarge):
        grow(R(F(123456789, 10**7)))
    with pytest.raises(TooLarge):
        grow(sqrt(R(3)))


def test_a_power_too_long_to_write_out_is_still_a_number() -> None:
    grown = R(F(10001, 10000)) ** 100_000
    with mpmath.workdps(40):
        assert mpmath.almosteq(grown.approximate(30), mpmath.mpf("1.0001") ** 100_000, 1e-28)


def test_long_chains_are_walked_without_recursion() -> None:
    x = 1 + sqrt(R(2))
    for _ in range(3000):
        x = x / 2 + sqrt(R(3))
    # x → 2 √3 as the first term halves away.
    assert round_places(x, 30) == round_places(2 * sqrt(R(3)), 30)


def test_a_large_argument_is_reduced_with_care() -> None:
    with mpmath.workdps(150):
        expected = mpmath.sin(mpmath.mpf(10) ** 100)
    assert mpmath.almosteq(sin(R(10) ** 100).approximate(30), expected, 1e-28)


def test_a_number_found_by_search() -> None:
    def cube_root(digits: int) -> object:
        with mpmath.workdps(digits + 5):
            return mpmath.cbrt(5)

    x = Real.computed(cube_root)
    assert (x**3).equals(5)
    assert (x / x).fraction == 1
    assert (1 / x).equals(x * x / 5)
    assert round_figures(x, 12).coefficient == 170997594668  # 5^(1/3) = 1.709 975 946 676…


def test_comparison_and_hash() -> None:
    assert sqrt(R(8)) == 2 * sqrt(R(2))
    assert hash(sqrt(R(8))) == hash(2 * sqrt(R(2)))
    assert R(F(1, 2)) == F(1, 2)
    assert hash(R(5)) == hash(5)
    assert sqrt(R(2)) != sqrt(R(3))
    assert -sqrt(R(2)) != sqrt(R(2))
    assert R(3) != PI
    x = ln(R(2)) + 1
    assert x == x + 0
    e = exp(ONE)
    assert sorted([PI, e, R(3), sqrt(R(8))]) == [e, sqrt(R(8)), R(3), PI]
    assert bool(PI)
    assert not ZERO


def test_approximations_keep_their_digits() -> None:
    # π to 50 digits, from memory of any table; mpmath agrees.
    assert mpmath.nstr(PI.approximate(51), 50) == "3.1415926535897932384626433832795028841971693993751"
    assert float(sqrt(R(2))) == 2**0.5
    assert (sqrt(R(2)) - sqrt(R(2)) * 1 + 0 * PI).approximate(5) == 0
    with mpmath.workdps(1010):
        assert mpmath.almosteq(PI.approximate(1000), mpmath.pi, mpmath.mpf(10) ** -999)


def test_fractions_alone_do_not_load_mpmath() -> None:
    code = (
        "import sys; from fractions import Fraction as F; from physcalc.exact import *; "
        "x = Real.of(F(98, 10)) * 3 / F(7, 2) - 1; write(x, Form()); sqrt(x * x); sin(PI / 6); x > 2; "
        "sys.exit('mpmath' in sys.modules)"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
