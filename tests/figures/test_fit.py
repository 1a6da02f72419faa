"""Least squares against certified values, other implementations, and what defines them."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from mpmath import lu_solve, matrix, mp, mpf
from scipy import optimize

from physcalc.exact import Real, RealError, Spread, round_figures
from physcalc.figures.fit import FitError, LineFit, fit_both, fit_line, tamed, worst_lines

#: NIST Statistical Reference Datasets, linear regression, "Norris" (36 points), as transcribed in SciPy's own tests of
#: `linregress`; itl.nist.gov/div898/strd/lls/data/Norris.shtml.
NORRIS_X = (
    "0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9 338.0 447.5 11.6 "
    "556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3 229.2 669.1 448.9 0.5"
)
NORRIS_Y = (
    "0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8 339.3 448.9 10.8 "
    "557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6 228.9 668.4 449.2 0.2"
)


def numbers(typed: str) -> list[Fraction]:
    return [Fraction(one) for one in typed.split()]


def certified_as(value: Real | Fraction | None, certified: str) -> bool:
    """Whether a value rounds to every digit of a certified one."""
    assert value is not None
    exact = value if isinstance(value, Real) else Real.of(value)
    figures = len(certified.lstrip("-0.").replace(".", ""))
    return round_figures(exact, figures).fraction == Fraction(certified)


@pytest.mark.parametrize(
    ("pick", "certified"),
    [
        (lambda fit: fit.gradient, "1.00211681802045"),
        (lambda fit: fit.intercept, "-0.262323073774029"),
        (lambda fit: fit.gradient_error, "0.000429796848199937"),
        (lambda fit: fit.intercept_error, "0.232818234301152"),
        (lambda fit: fit.r_squared, "0.999993745883712"),
    ],
)
def test_every_certified_digit_of_norris(pick, certified: str) -> None:  # type: ignore[no-untyped-def]
    fit = fit_line(numbers(NORRIS_X), numbers(NORRIS_Y))
    assert certified_as(pick(fit), certified)


def test_the_no_intercept_sets_of_nist() -> None:
    """NIST StRD "NoInt1" and "NoInt2" (lines through the origin): values from memory of the published pages, and
    confirmed by the defining sums below."""
    x, y = [Fraction(n) for n in range(60, 71)], [Fraction(n) for n in range(130, 141)]
    fit = fit_line(x, y, through_origin=True)
    assert certified_as(fit.gradient, "2.07438016528926")
    assert certified_as(fit.gradient_error, "0.0165289256198347")
    assert certified_as(fit.r_squared, "0.999365492298663")
    assert fit.gradient == sum(a * b for a, b in zip(x, y, strict=True)) / sum(a * a for a in x)
    small = fit_line(numbers("4 5 6"), numbers("3 4 4"), through_origin=True)
    assert certified_as(small.gradient, "0.727272727272727")
    assert certified_as(small.gradient_error, "0.0420827318078432")
    assert certified_as(small.r_squared, "0.993348115299335")


def test_the_calibration_of_a_thermometer() -> None:
    """GUM (JCGM 100:2008) H.3, table H.6: its data, and its coefficients with their uncertainties and correlation,
    to the digits that it prints."""
    read = numbers("21.521 22.012 22.512 23.003 23.507 23.999 24.513 25.002 25.503 26.010 26.511")
    correction = numbers("-0.171 -0.169 -0.166 -0.159 -0.164 -0.165 -0.156 -0.157 -0.159 -0.161 -0.160")
    fit = fit_line([one - 20 for one in read], correction)
    assert certified_as(fit.intercept, "-0.1712")
    assert certified_as(fit.intercept_error, "0.0029")
    assert certified_as(fit.gradient, "0.00218")
    assert certified_as(fit.gradient_error, "0.00067")
    assert fit.covariance is not None
    assert fit.gradient_error is not None
    assert fit.intercept_error is not None
    correlation = Real.of(fit.covariance) / (fit.gradient_error * fit.intercept_error)
    assert certified_as(correlation, "-0.930")
    # H.3.4: the correction at 30 °C is −0.1494 °C with 0.0041 °C, which takes the correlation.
    tilt, lift = fit.deviations()
    assert tilt is not None
    assert lift is not None
    assert certified_as(fit.at(Fraction(10)), "-0.1494")
    assert round(Spread.combined([(1.0, lift), (10.0, tilt)]).standard, 4) == 0.0041


COORDINATE = st.decimals(-1000, 1000, places=2).map(Fraction)
POINTS = st.lists(st.tuples(COORDINATE, COORDINATE), min_size=3, max_size=12)


@given(POINTS)
def test_as_scipy_has_it(points: list[tuple[Fraction, Fraction]]) -> None:
    from scipy import stats

    x, y = [point[0] for point in points], [point[1] for point in points]
    assume(max(x) - min(x) > 1)
    assume(max(y) - min(y) > 1)
    fit = fit_line(x, y)
    other = stats.linregress([float(a) for a in x], [float(b) for b in y])
    size = float(max(map(abs, y)))
    assert math.isclose(fit.gradient, other.slope, rel_tol=1e-8, abs_tol=1e-8)
    assert math.isclose(fit.intercept, other.intercept, rel_tol=1e-7, abs_tol=1e-7 * (size + 1))
    if fit.gradient_error is not None and len(points) > 2:
        assert math.isclose(float(fit.gradient_error), other.stderr, rel_tol=1e-4, abs_tol=1e-6)


@given(
    st.lists(
        st.tuples(COORDINATE, COORDINATE, st.decimals("0.01", 50, places=2).map(Fraction)),
        min_size=3,
        max_size=10,
    ),
    st.booleans(),
)
@settings(max_examples=60)
def test_weighted_as_the_normal_equations_say(
    points: list[tuple[Fraction, Fraction, Fraction]], through_origin: bool
) -> None:
    """Independent: (AᵀWA) p = AᵀWy solved with mpmath at 60 digits, and the covariance (AᵀWA)⁻¹ (GUM H.3)."""
    x, y, u = ([point[n] for point in points] for n in range(3))
    assume(len(set(x)) > 1)
    fit = fit_line(x, y, u, through_origin)
    with mp.workdps(60):
        rows = [[real(a)] if through_origin else [real(a), mpf(1)] for a in x]
        design, weights = matrix(rows), [1 / real(one) ** 2 for one in u]
        scaled = matrix([[w * cell for cell in row] for w, row in zip(weights, rows, strict=True)])
        normal = scaled.T * design
        solution = lu_solve(normal, scaled.T * matrix([real(b) for b in y]))
        inverse = normal**-1
        assert abs(real(fit.gradient) - solution[0]) < mpf(10) ** -30
        assert fit.gradient_error is not None
        assert abs(fit.gradient_error.approximate(40) ** 2 / inverse[0, 0] - 1) < mpf(10) ** -30
        if through_origin:
            assert fit.intercept == 0
            return
        assert abs(real(fit.intercept) - solution[1]) < mpf(10) ** -25
        assert fit.intercept_error is not None
        assert fit.covariance is not None
        assert abs(fit.intercept_error.approximate(40) ** 2 / inverse[1, 1] - 1) < mpf(10) ** -30
        assert abs(real(fit.covariance) - inverse[0, 1]) < mpf(10) ** -25


def real(value: Fraction) -> mpf:
    return mpf(value.numerator) / value.denominator


def test_gradient_and_intercept_stay_correlated() -> None:
    """The line's error at its centre is what is left of that of c + m x̄: GUM 5.2.2 with the covariance of the fit."""
    fit = fit_line(numbers(NORRIS_X), numbers(NORRIS_Y))
    tilt, lift = fit.deviations()
    assert tilt is not None
    assert lift is not None
    assert fit.intercept_error is not None
    assert math.isclose(lift.standard, float(fit.intercept_error), rel_tol=1e-12)
    assert fit.covariance is not None
    for x in (0.0, 100.0, float(fit.centre), 2000.0):
        along = Spread.combined([(1.0, lift), (x, tilt)]).standard
        assert fit.gradient_error is not None
        variance = (
            float(fit.intercept_error) ** 2
            + (x * float(fit.gradient_error)) ** 2
            + 2 * x * float(fit.covariance)
        )
        assert math.isclose(along, math.sqrt(variance), rel_tol=1e-6)


@given(st.integers(-(10**40), 10**40), st.fractions(-5, 5, max_denominator=50), st.integers(2, 30))
def test_points_on_a_line_give_that_line_exactly(offset: int, gradient: Fraction, count: int) -> None:
    x = [Fraction(offset + n) for n in range(count)]
    fit = fit_line(x, [gradient * one + 7 for one in x])
    assert (fit.gradient, fit.intercept) == (gradient, 7)
    assert fit.gradient_error is None
    assert fit.r_squared in (1, None)


@pytest.mark.parametrize(
    ("x", "through_origin"), [([], False), ([1], False), ([1, 1, 1], False), ([], True), ([0, 0], True)]
)
def test_no_line(x: list[int], through_origin: bool) -> None:
    with pytest.raises(FitError):
        fit_line([Fraction(one) for one in x], [Fraction(n) for n in range(len(x))], None, through_origin)


def test_many_reciprocals_do_not_grow_without_bound() -> None:
    """Two thousand fractions of fifteen digits; their exact sum would take tens of thousands of digits."""
    x = [Fraction(1, 10**15 + 37 * n * n + 1) for n in range(2000)]
    fit = fit_line(x, [3 * one for one in x])
    assert max(one.denominator.bit_length() for one in tamed(x)) < 600
    assert abs(fit.gradient - 3) < Fraction(1, 10**30)


@given(
    st.lists(
        st.tuples(st.integers(0, 20), st.integers(0, 40), st.integers(0, 6)),
        min_size=2,
        max_size=7,
        unique_by=lambda point: point[0],
    )
)
def test_the_worst_lines_are_the_extremes_of_all_lines_through_the_bars(
    points: list[tuple[int, int, int]],
) -> None:
    """Independent: the two linear programmes, solved by scipy."""
    from scipy.optimize import linprog

    x, y, u = ([point[n] for point in points] for n in range(3))
    found = worst_lines(*([Fraction(one) for one in column] for column in (x, y, u)))
    above = [[-a, -1] for a in x] + [[a, 1] for a in x]
    bounds = [-(b - v) for b, v in zip(y, u, strict=True)] + [b + v for b, v in zip(y, u, strict=True)]
    solved = [
        linprog([sign, 0], A_ub=above, b_ub=bounds, bounds=[(None, None)] * 2, method="highs")
        for sign in (1, -1)
    ]
    if found is None:
        assert any(one.status == 2 for one in solved)
        return
    assert math.isclose(found.shallowest[0], solved[0].fun, abs_tol=1e-6)
    assert math.isclose(found.steepest[0], -solved[1].fun, abs_tol=1e-6)
    for gradient, intercept in (found.steepest, found.shallowest):
        for a, b, v in zip(x, y, u, strict=True):
            assert abs(gradient * a + intercept - b) <= v


def test_numbers_beyond_all_sense_are_refused() -> None:
    huge = Fraction(10) ** 4000
    try:
        fit = fit_line([Fraction(0), Fraction(1), Fraction(2)], [huge, -huge, huge])
    except RealError:
        return
    assert isinstance(fit, LineFit)


# Uncertainties in x and in y.

#: Pearson's points (1901) with York's weights (1966), an example of York et al., Am. J. Phys. 72 (2004) 367, table II.
PEARSON_X, PEARSON_Y = "0 0.9 1.8 2.6 3.3 4.4 5.2 6.1 6.5 7.4", "5.9 5.4 4.4 4.6 3.5 3.7 2.8 2.8 2.4 1.5"
WEIGHTS_X, WEIGHTS_Y = "1000 1000 500 800 200 80 60 20 1.8 1", "1 1.8 4 8 20 20 70 70 100 500"


def from_weights(typed: str) -> list[Fraction]:
    return [Fraction(float(weight) ** -0.5) for weight in map(Fraction, typed.split())]


def test_the_line_of_york() -> None:
    """Slope −0.48053, intercept 5.47991, standard errors 0.0580 and 0.2950: the 2004 paper, from memory, and confirmed by
    the sum of squares of the next test."""
    fit = fit_both(numbers(PEARSON_X), numbers(PEARSON_Y), from_weights(WEIGHTS_X), from_weights(WEIGHTS_Y))
    assert math.isclose(fit.gradient, -0.480533, abs_tol=1e-6)
    assert math.isclose(fit.intercept, 5.479910, abs_tol=1e-6)
    assert fit.gradient_error is not None
    assert fit.intercept_error is not None
    assert math.isclose(float(fit.gradient_error), 0.0580, abs_tol=6e-5)
    assert math.isclose(float(fit.intercept_error), 0.2950, abs_tol=1e-3)


@given(
    st.lists(st.tuples(st.integers(-40, 40), st.integers(1, 9), st.integers(1, 9)), min_size=3, max_size=9),
    st.integers(-5, 5),
    st.booleans(),
)
@settings(max_examples=30, deadline=None)
def test_a_line_by_both_uncertainties_is_that_of_orthogonal_distances(
    points: list[tuple[int, int, int]], gradient: int, through: bool
) -> None:
    """The weighted squares of the distances in x and y are least: by scipy, with the true x of each point as unknowns."""
    x = [Fraction(10 * n) for n in range(1, len(points) + 1)]
    y = [gradient * a + Fraction(off, 20) for a, (off, _, _) in zip(x, points, strict=True)]
    x_off, y_off = [Fraction(one, 10) for _, one, _ in points], [Fraction(one, 5) for _, _, one in points]
    fit = fit_both(x, y, x_off, y_off, through)
    a, b, u, v = (numpy.array([float(one) for one in many]) for many in (x, y, x_off, y_off))
    lines = 1 if through else 2

    def away(unknown: numpy.ndarray) -> numpy.ndarray:
        true = unknown[lines:]
        height = unknown[0] * true + (0 if through else unknown[1])
        return numpy.concatenate([(a - true) / u, (b - height) / v])

    start = numpy.concatenate([[float(gradient), 0.0][:lines], a])
    found = optimize.least_squares(away, start, method="lm", xtol=1e-15, ftol=1e-15, gtol=1e-15)
    spread = numpy.linalg.inv(found.jac.T @ found.jac)
    assert math.isclose(fit.gradient, found.x[0], rel_tol=1e-6, abs_tol=1e-7)
    assert fit.gradient_error is not None
    # The errors of both follow from the same squares, taken at nearly the same places.
    assert math.isclose(float(fit.gradient_error), spread[0][0] ** 0.5, rel_tol=0.03)
    if not through:
        assert math.isclose(fit.intercept, found.x[1], rel_tol=1e-5, abs_tol=1e-4)
        assert fit.intercept_error is not None
        assert math.isclose(float(fit.intercept_error), spread[1][1] ** 0.5, rel_tol=0.03)
        assert fit.covariance is not None
        assert math.isclose(fit.covariance, spread[0][1], rel_tol=0.05)


def test_a_line_by_both_with_certain_x_is_the_weighted_line() -> None:
    x, y = numbers("1 2 3 5 8"), numbers("2.1 3.9 6.2 9.8 16.3")
    bars = numbers("0.1 0.2 0.1 0.3 0.2")
    both = fit_both(x, y, [Fraction(0)] * 5, bars)
    plain = fit_line(x, y, bars)
    assert math.isclose(both.gradient, plain.gradient, rel_tol=1e-15)
    assert both.gradient_error is not None
    assert plain.gradient_error is not None
    assert math.isclose(float(both.gradient_error), float(plain.gradient_error), rel_tol=1e-15)
    assert both.covariance is not None
    assert plain.covariance is not None
    assert math.isclose(both.covariance, plain.covariance, rel_tol=1e-15)


def test_points_above_one_another_have_no_line_by_both() -> None:
    with pytest.raises(FitError):
        fit_both(numbers("2 2 2"), numbers("1 2 3"), numbers("1 1 1"), numbers("1 1 1"))
