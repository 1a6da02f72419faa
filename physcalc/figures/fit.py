"""Lines through measured points: least squares, and the steepest and shallowest line through all error bars.

The formulas of the straight-line fit are those of GUM (JCGM 100:2008) H.3, with each point counted by its weight, 1/u²,
where its uncertainty u is known. They are worked out in fractions about the centre of the points, so nothing is lost
where the values are large beside their scatter.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..exact import Real, Spread, round_figures, sqrt

#: Denominators that have more bits than this together are not brought over one another: see `tamed`.
_MOST_BITS = 20_000
#: To so many figures numbers are then taken.
_FIGURES = 60


class FitError(ArithmeticError):
    """There is no such line: too few points, or all above one another."""


@dataclass(frozen=True, slots=True)
class LineFit:
    """The line y = m x + c that fits points best.

    Attributes:
        gradient: m, exactly.
        intercept: c, exactly; 0 for a line through the origin.
        gradient_error: the standard error of m; None where two points or a perfect line leave none.
        intercept_error: that of c.
        mean_error: the standard error of the line at the centre of the points, which is independent of that of m.
        covariance: the covariance of m and c, in the units of both; None where there is none.
        r_squared: the share of the variance of y that the line explains (about zero for a line through the
            origin, which has no constant); None where y does not vary.
        weighted: whether points count by 1/u² of their uncertainties.
        both: whether the uncertainties of x count too.
        through_origin: whether the line is forced through the origin.
        count: the number of points.
        centre: the mean of x, weighted as the points are.
    """

    gradient: Fraction
    intercept: Fraction
    gradient_error: Real | None
    intercept_error: Real | None
    mean_error: Real | None
    covariance: Fraction | None
    r_squared: Fraction | None
    weighted: bool
    through_origin: bool
    count: int
    centre: Fraction
    both: bool = False

    def at(self, x: Fraction) -> Fraction:
        """The line's y at an x."""
        return self.gradient * x + self.intercept

    def deviations(self) -> tuple[Spread | None, Spread | None]:
        """The deviations of m and c, in the units of both, correlated as the fit has them.

        c = ȳ − m x̄, and ȳ and m are independent (both follow from y by orthogonal combinations), so c has a part
        of its own and a part that it shares with m.

        Raises:
            exact.RealError: one is beyond what a machine number holds.
        """
        if self.gradient_error is None:
            return None, None
        tilt = Spread.independent(float(self.gradient_error), "gradient")
        if self.mean_error is None:
            return tilt, None
        mean = Spread.independent(float(self.mean_error), "mean")
        return tilt, Spread.combined([(1.0, mean), (-float(Real.of(self.centre)), tilt)])


def fit_line(
    x: Sequence[Fraction],
    y: Sequence[Fraction],
    uncertainties: Sequence[Fraction] | None = None,
    through_origin: bool = False,
) -> LineFit:
    """The line of best fit.

    With uncertainties the standard errors follow from these (GUM 5.1.2); without, from the scatter of the points
    about the line, with two degrees of freedom fewer than points (one fewer through the origin).

    Args:
        x, y: the coordinates, one of each for a point.
        uncertainties: the standard uncertainty of each y, above zero; None where not all are known.
        through_origin: whether the line is forced through the origin.

    Raises:
        FitError: fewer than two points, or no two that lie beside one another.
        exact.RealError: a number is beyond all sense.
    """
    count = len(x)
    free = 1 if through_origin else 2
    if count < free or len(set(x)) < free or (through_origin and not any(x)):
        raise FitError("no line is the best one")
    x, y = tamed(x), tamed(y)
    weights = [Fraction(1)] * count if uncertainties is None else tamed([1 / u**2 for u in uncertainties])
    total = sum(weights, Fraction(0))
    if through_origin:
        mean_x = mean_y = Fraction(0)
    else:
        mean_x = sum((w * a for w, a in zip(weights, x, strict=True)), Fraction(0)) / total
        mean_y = sum((w * b for w, b in zip(weights, y, strict=True)), Fraction(0)) / total
    points = [(w, a - mean_x, b - mean_y) for w, a, b in zip(weights, x, y, strict=True)]
    s_xx = sum((w * a * a for w, a, _ in points), Fraction(0))
    s_xy = sum((w * a * b for w, a, b in points), Fraction(0))
    s_yy = sum((w * b * b for w, _, b in points), Fraction(0))
    gradient = s_xy / s_xx
    rest = s_yy - gradient * s_xy
    variance: Fraction | None = Fraction(1)
    if uncertainties is None:
        variance = rest / (count - free) if count > free else None
    gradient_error = intercept_error = mean_error = covariance = None
    if variance:
        gradient_error = sqrt(Real.of(_short(variance / s_xx)))
        if not through_origin:
            intercept_error = sqrt(Real.of(_short(variance * (1 / total + mean_x**2 / s_xx))))
            mean_error = sqrt(Real.of(_short(variance / total)))
            covariance = -mean_x * variance / s_xx
    return LineFit(
        gradient,
        mean_y - gradient * mean_x,
        gradient_error,
        intercept_error,
        mean_error,
        covariance,
        1 - rest / s_yy if s_yy else None,
        uncertainties is not None,
        through_origin,
        count,
        mean_x,
    )


#: How often the gradient of a line by both uncertainties is improved, and to which share it then stays.
_ROUNDS, _SETTLED = 400, Fraction(1, 10**24)


def fit_both(
    x: Sequence[Fraction],
    y: Sequence[Fraction],
    x_off: Sequence[Fraction],
    y_off: Sequence[Fraction],
    through_origin: bool = False,
) -> LineFit:
    """The line of best fit to points that are uncertain in x and in y, with the standard errors of York's equations.

    D. York et al., Unified equations for the slope, intercept, and standard errors of the best straight line, American
    Journal of Physics 72 (2004) 367, equations 13 without correlation: each point counts by W = 1/(u_y² + m² u_x²),
    and m is improved until it stays as it is.

    Args:
        x, y: the coordinates, one of each for a point.
        x_off, y_off: the standard uncertainties of each; one of both is above zero at each point.
        through_origin: whether the line is forced through the origin.

    Raises:
        FitError: there is no such line, or it is not found.
        exact.RealError: a number is beyond all sense.
    """
    start = fit_line(x, y, None, through_origin)
    gradient = start.gradient
    for _ in range(_ROUNDS):
        found = _york(x, y, x_off, y_off, gradient, through_origin)
        change = abs(found[0] - gradient)
        gradient = found[0]
        if change <= _SETTLED * abs(gradient):
            break
    else:
        raise FitError("no line is found")
    _, mean_x, mean_y, total, s_uu, centre, rest, whole = _york(x, y, x_off, y_off, gradient, through_origin)
    error = sqrt(Real.of(_short(1 / s_uu)))
    lift = mean = covariance = None
    if not through_origin:
        lift = sqrt(Real.of(_short(1 / total + centre**2 / s_uu)))
        mean = sqrt(Real.of(_short(1 / total)))
        covariance = -centre / s_uu
    return LineFit(
        gradient,
        mean_y - gradient * mean_x,
        error,
        lift,
        mean,
        covariance,
        1 - rest / whole if whole else None,
        True,
        through_origin,
        len(x),
        centre,
        True,
    )


def _york(
    x: Sequence[Fraction],
    y: Sequence[Fraction],
    x_off: Sequence[Fraction],
    y_off: Sequence[Fraction],
    gradient: Fraction,
    through_origin: bool,
) -> tuple[Fraction, ...]:
    """One round of York's equations: the new gradient, the means, the sums that the errors follow from, and the
    weighted squares that are left and that there are."""
    weights = _rounded(
        [
            1 / (up * up + gradient * gradient * across * across)
            for across, up in zip(x_off, y_off, strict=True)
        ]
    )
    zero = Fraction(0)
    total = sum(weights, zero)
    mean_x = mean_y = zero
    if not through_origin:
        mean_x = sum((w * a for w, a in zip(weights, x, strict=True)), zero) / total
        mean_y = sum((w * b for w, b in zip(weights, y, strict=True)), zero) / total
        mean_x, mean_y = _rounded([mean_x, mean_y])
    away = [(a - mean_x, b - mean_y) for a, b in zip(x, y, strict=True)]
    beta = _rounded(
        [
            w * (u * up * up + gradient * v * across * across)
            for w, (u, v), across, up in zip(weights, away, x_off, y_off, strict=True)
        ]
    )
    below = sum((w * b * u for w, b, (u, _) in zip(weights, beta, away, strict=True)), zero)
    above = sum((w * b * v for w, b, (_, v) in zip(weights, beta, away, strict=True)), zero)
    if not below:
        raise FitError("no line is the best one")
    middle = zero
    if not through_origin:
        middle = sum((w * b for w, b in zip(weights, beta, strict=True)), zero) / total
    s_uu = sum((w * (b - middle) ** 2 for w, b in zip(weights, beta, strict=True)), zero)
    if not s_uu:
        raise FitError("no line is the best one")
    (new,) = _rounded([above / below])
    rest = sum((w * (v - new * u) ** 2 for w, (u, v) in zip(weights, away, strict=True)), zero)
    whole = sum((w * v * v for w, (_, v) in zip(weights, away, strict=True)), zero)
    return new, mean_x, mean_y, total, s_uu, mean_x + middle, rest, whole


def _rounded(values: Sequence[Fraction]) -> list[Fraction]:
    """Numbers to 40 figures: what is improved again and again would grow longer each time."""
    return [round_figures(Real.of(value), 40).fraction if value else value for value in values]


def tamed(values: Sequence[Fraction]) -> list[Fraction]:
    """Numbers whose sums stay short: themselves, or to 60 figures where their denominators have little in common.

    Typed decimals have denominators that divide one another. Reciprocals do not, and thousands of them would add up
    to a fraction of thousands of digits.
    """
    if sum(bottom.bit_length() for bottom in {value.denominator for value in values}) <= _MOST_BITS:
        return list(values)
    return [round_figures(Real.of(value), _FIGURES).fraction for value in values]


def _short(value: Fraction) -> Fraction:
    """A variance below a root: as it is, or to 60 figures where it takes more than a root can hold."""
    if value.numerator.bit_length() + value.denominator.bit_length() < 4000:
        return value
    return round_figures(Real.of(value), _FIGURES).fraction


@dataclass(frozen=True, slots=True)
class WorstLines:
    """The extreme lines that still pass through every error bar.

    Attributes:
        steepest, shallowest: gradient and intercept of each.
    """

    steepest: tuple[Fraction, Fraction]
    shallowest: tuple[Fraction, Fraction]


def worst_lines(x: Sequence[Fraction], y: Sequence[Fraction], bars: Sequence[Fraction]) -> WorstLines | None:
    """The steepest and the shallowest line through all error bars; None where no line passes through all.

    A line c + m x passes through the bar from l to h at x where l − m x ≤ c ≤ h − m x. There is such a c for all bars
    just where m (xⱼ − xᵢ) ≤ hⱼ − lᵢ for every two of them, which bounds m from both sides.

    Args:
        x, y: the points.
        bars: half the length of the bar of each; 0 for a point without one.

    Raises:
        FitError: fewer than two points that lie beside one another.
    """
    ends = [(a, b - u, b + u) for a, b, u in zip(x, y, bars, strict=True)]
    highest: Fraction | None = None
    lowest: Fraction | None = None
    for a, low, high in ends:
        for other, other_low, other_high in ends:
            if other > a:
                up, down = (other_high - low) / (other - a), (other_low - high) / (other - a)
                highest = up if highest is None else min(highest, up)
                lowest = down if lowest is None else max(lowest, down)
            elif other == a and other_low > high:
                return None
    if highest is None or lowest is None:
        raise FitError("no line is the worst one")
    if lowest > highest:
        return None
    return WorstLines(
        (highest, max(low - highest * a for a, low, _ in ends)),
        (lowest, max(low - lowest * a for a, low, _ in ends)),
    )
