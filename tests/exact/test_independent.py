"""Random expressions, computed once by us and once by mpmath at 60 digits with Python's decimal rounding."""

from __future__ import annotations

import decimal
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import mpmath
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import physcalc.exact as exact
from physcalc.exact import PI, Real, RealError, Rounded, round_figures, round_places

RULES = {"half-up": decimal.ROUND_HALF_UP, "half-even": decimal.ROUND_HALF_EVEN}
WORKING = 100
#: What mpmath gives at 100 digits is taken to be the tie that it misses by less than this.
TIE = mpmath.mpf(10) ** -70


@dataclass(frozen=True)
class Pair:
    """One expression, twice.

    Attributes:
        text: how it was made, for the report of a failure.
        ours: the exact number.
        theirs: the mpmath number.
    """

    text: str
    ours: Real
    theirs: Any


def leaf(value: Fraction) -> Pair:
    with mpmath.workdps(WORKING):
        return Pair(str(value), Real.of(value), mpmath.mpf(value.numerator) / value.denominator)


def whole_degrees(angle: int) -> Pair:
    with mpmath.workdps(WORKING):
        return Pair(f"{angle}°", PI * Fraction(angle, 180), mpmath.pi * angle / 180)


def twofold(operator: str, a: Pair, b: Pair) -> Pair | None:
    with mpmath.workdps(WORKING):
        if operator == "/" and abs(b.theirs) < 1e-30:
            return None
        theirs = {
            "+": lambda: a.theirs + b.theirs,
            "-": lambda: a.theirs - b.theirs,
            "*": lambda: a.theirs * b.theirs,
            "/": lambda: a.theirs / b.theirs,
        }[operator]()
        ours = {
            "+": lambda: a.ours + b.ours,
            "-": lambda: a.ours - b.ours,
            "*": lambda: a.ours * b.ours,
            "/": lambda: a.ours / b.ours,
        }[operator]()
    return Pair(f"({a.text} {operator} {b.text})", ours, theirs)


def applied(name: str, a: Pair) -> Pair | None:
    x = a.theirs
    allowed = {
        "sqrt": x > 1e-20,
        "ln": x > 1e-20,
        "log10": x > 1e-20,
        "exp": abs(x) < 50,
        "asin": abs(x) < 0.999,
        "acos": abs(x) < 0.999,
        "tan": abs(x) < 1e6 and abs(mpmath.cos(x)) > 1e-6,
    }
    if not allowed.get(name, abs(x) < 1e9):
        return None
    with mpmath.workdps(WORKING):
        return Pair(f"{name}({a.text})", getattr(exact, name)(a.ours), getattr(mpmath, name)(x))


def raised(a: Pair, exponent: Fraction) -> Pair | None:
    if abs(a.theirs) < 1e-10 or abs(a.theirs) > 1e10 or (a.theirs < 0 and exponent.denominator != 1):
        return None
    with mpmath.workdps(WORKING):
        power = mpmath.mpf(exponent.numerator) / exponent.denominator
        return Pair(f"{a.text}^{exponent}", a.ours**exponent, mpmath.power(a.theirs, power))


decimals = st.builds(
    lambda digits, places: Fraction(digits, 10**places), st.integers(-20000, 20000), st.integers(0, 4)
)
leaves = st.one_of(decimals.map(leaf), st.integers(-720, 720).map(whole_degrees))
functions = st.sampled_from(["sqrt", "sin", "cos", "tan", "asin", "acos", "atan", "exp", "ln", "log10"])
exponents = st.one_of(
    st.integers(-4, 4).map(Fraction),
    st.sampled_from([Fraction(1, 2), Fraction(3, 2), Fraction(1, 3), Fraction(-2, 3)]),
)


def grown(smaller: st.SearchStrategy[Pair]) -> st.SearchStrategy[Pair]:
    made = st.one_of(
        st.builds(twofold, st.sampled_from("+-*/"), smaller, smaller),
        st.builds(applied, functions, smaller),
        st.builds(raised, smaller, exponents),
    )
    return made.filter(lambda pair: pair is not None)


expressions = st.recursive(leaves, grown, max_leaves=8)


def referee(value: Any, places: int, rule: str) -> decimal.Decimal:
    """`value` to so many places by Python's decimal, ties restored that mpmath missed by a hair."""
    with mpmath.workdps(WORKING):
        doubled = value * 2 * mpmath.mpf(10) ** places
        near = mpmath.nint(doubled)
        if abs(doubled - near) < TIE * max(1, abs(doubled)):
            digits = decimal.Decimal(int(near)).scaleb(-places) / 2
        else:
            digits = decimal.Decimal(mpmath.nstr(value, WORKING, min_fixed=-mpmath.inf, max_fixed=mpmath.inf))
    with decimal.localcontext() as context:
        context.prec = 2 * WORKING
        return digits.quantize(decimal.Decimal(1).scaleb(-places), rounding=RULES[rule])


def as_decimal(rounded: Rounded) -> decimal.Decimal:
    with decimal.localcontext() as context:
        context.prec = 2 * WORKING
        size = decimal.Decimal(rounded.coefficient).scaleb(-rounded.places)
        return -size if rounded.negative else size


@settings(max_examples=400, deadline=None)
@given(expressions, st.integers(-1, 12), st.sampled_from(sorted(RULES)))
def test_places_agree(pair: Pair, places: int, rule: str) -> None:
    assume(abs(pair.theirs) < 1e40)
    with decimal.localcontext() as context:
        context.prec = 2 * WORKING
        assert as_decimal(round_places(pair.ours, places, rule)) == referee(pair.theirs, places, rule)


@settings(max_examples=300, deadline=None)
@given(expressions, st.integers(1, 15), st.sampled_from(sorted(RULES)))
def test_figures_agree(pair: Pair, figures: int, rule: str) -> None:
    assume(1e-30 < abs(pair.theirs) < 1e40)
    with mpmath.workdps(WORKING):
        # The power of ten of the first digit, put right where mpmath missed a power of ten by a hair.
        magnitude = int(mpmath.floor(mpmath.log10(abs(pair.theirs)) + TIE))
    with decimal.localcontext() as context:
        context.prec = 2 * WORKING
        rounded = round_figures(pair.ours, figures, rule)
        assert as_decimal(rounded) == referee(pair.theirs, figures - 1 - magnitude, rule)
        assert len(str(rounded.coefficient)) == figures


@settings(max_examples=200, deadline=None)
@given(expressions, st.integers(1, 60))
def test_approximations_agree(pair: Pair, digits: int) -> None:
    assume(abs(pair.theirs) > 1e-30)
    with mpmath.workdps(WORKING):
        wrong_by = abs(pair.ours.approximate(digits) - pair.theirs)
        assert wrong_by <= abs(pair.theirs) * mpmath.mpf(10) ** -digits


@settings(max_examples=200, deadline=None)
@given(expressions, expressions)
def test_order_agrees(a: Pair, b: Pair) -> None:
    with mpmath.workdps(WORKING):
        difference = a.theirs - b.theirs
        # mpmath's sine of 180° is not quite zero: what is far below every value made here counts as zero.
        close = abs(difference) <= TIE * max(abs(a.theirs), abs(b.theirs), 1)
        assert (a.ours - b.ours).sign() == (0 if close else mpmath.sign(difference))


@settings(max_examples=200, deadline=None)
@given(
    st.integers(-5000, 5000), st.integers(0, 4), st.integers(2, 50), st.sampled_from(sorted(RULES)), st.data()
)
def test_ties_made_irrational(half: int, places: int, n: int, rule: str, data: st.DataObject) -> None:
    tie = Fraction(2 * half + 1, 2 * 10**places)
    root = exact.sqrt(Real.of(n)) + 1
    disguises = [
        lambda: Real.of(tie),
        lambda: (root + tie) - root,
        lambda: root * tie / root,
        lambda: exact.ln(exact.exp(root)) * tie * (exact.sqrt(Real.of(n)) - 1) / (n - 1),
        lambda: exact.exp(exact.ln(Real.of(abs(tie)) * root) - exact.ln(root)) * (1 if tie > 0 else -1),
    ]
    value = data.draw(st.sampled_from(disguises))()
    size = decimal.Decimal(2 * half + 1).scaleb(-places) / 2
    expected = size.quantize(decimal.Decimal(1).scaleb(-places), rounding=RULES[rule])
    assert as_decimal(round_places(value, places, rule)) == expected


@settings(max_examples=300, deadline=None)
@given(st.lists(st.tuples(functions, st.sampled_from("+-*/^"), decimals), min_size=1, max_size=12), decimals)
def test_whatever_is_asked_ends_in_a_number_or_our_error(
    steps: list[tuple[str, str, Fraction]], start: Fraction
) -> None:
    value = Real.of(start)
    try:
        for name, operator, number in steps:
            value = getattr(exact, name)(value)
            match operator:
                case "+":
                    value = value + number
                case "-":
                    value = number - value
                case "*":
                    value = value * number
                case "/":
                    value = number / value
                case _:
                    value = value ** Fraction(number.numerator % 7, 3)
        round_figures(value, 10)
    except RealError:
        return
    assert value.equals(value)


def test_the_referee_knows_a_tie() -> None:
    with mpmath.workdps(WORKING):
        nearly = mpmath.mpf(1) / 8 * mpmath.sqrt(7) ** 2 / 7
    assert referee(nearly, 2, "half-up") == decimal.Decimal("0.13")
    assert referee(nearly, 2, "half-even") == decimal.Decimal("0.12")
