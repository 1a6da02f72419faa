"""The quantities that a graph gives: gradients, intercepts, areas, with their uncertainties."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from ..checking.scope import Datum, Quantity, Scope
from ..checking.setup import Asked
from ..exact import Form, Real, RealError, Spread
from ..language.phrases import Find, read_find
from ..problems import Text
from ..problems.figures_graphs import GraphDimension, GraphQuantityMissing
from ..solve.deviation import Deviation
from ..steps.uncertain import uncertain_answer
from ..steps.working import make_answer
from ..units import ONE, Unit, UnitFactor, coherent_unit, difference_of, from_si, unit_of
from .fit import LineFit, WorstLines
from .graph_axes import AxisMaking, amount, amounts, beyond
from .graph_diagram import Found, FoundKind, Pair, Stretch
from .graph_slope import area, height, slope

_FROM = re.compile(r"\s+from\s+(?P<start>.+?)\s+to\s+(?P<end>(?:(?!\s+to\s).)+)$")
_AT = re.compile(r"\s+at\s+(?P<at>.+)$")
_FIT_FIRST = 'write "fit: line" as well'


@dataclass(slots=True)
class Sources:
    """What quantities are found from.

    Attributes:
        x, y: the axes.
        stretches: the pieces and curves of the series.
        fit: its line of best fit; None for none.
        spreads: the deviations of the fit's gradient and intercept, where these are asked.
        worst: its worst lines; None for none.
        scope: what names mean.
        tangents: takes the places where the gradient of a curve is asked.
    """

    x: AxisMaking
    y: AxisMaking
    stretches: Sequence[Stretch]
    fit: LineFit | None
    spreads: tuple[Spread | None, Spread | None]
    worst: WorstLines | None
    scope: Scope
    tangents: list[tuple[Pair, Fraction]]


def find_quantity(kind: FoundKind, text: Text, known: Sources) -> Found:
    """One quantity of a graph.

    Args:
        kind: what it is of the graph.
        text: its name, with unit, form and stretch: `a in m/s^2 to 1 dp from 0 s to 4 s`.
        known: what it is found from.

    Raises:
        Problem: the phrase cannot be read, or the graph has no such quantity.
    """
    conventions = known.x.conventions
    phrase, stretch, at = text, None, None
    if (found := _FROM.search(text.value)) is not None:
        ends = text.part(found.start("start"), found.end("start")), text.part(found.start("end"))
        stretch = tuple(known.x.number(one) for one in amounts(*ends, known.x, known.scope))
        phrase = text.part(0, found.start())
    elif (found := _AT.search(text.value)) is not None:
        at = known.x.number(amount(text.part(found.start("at")), known.x, known.scope))
        phrase = text.part(0, found.start())
    find = read_find(phrase, conventions.form, conventions.decimal)
    if kind == "r squared" and find.form is None:
        find = replace(
            find, form=Form("places", 4, False)
        )  # It is near 1, and two decimals would say just that.
    spread: Spread | None = None
    try:
        if kind == "area":
            value, unit = _area(text, stretch, known), _times(known.y.unit, known.x.unit)
        elif kind in ("steepest", "shallowest"):
            if known.worst is None:
                why = "there are no points with error bars"
                raise GraphQuantityMissing(
                    text.span, f"{kind} gradient", why, "give points their uncertainties"
                )
            line = known.worst.steepest if kind == "steepest" else known.worst.shallowest
            value, unit = _rate(Real.of(line[0]), known), _over(known.y.unit, known.x.unit)
        elif kind == "gradient" and (known.fit is None or stretch is not None or at is not None):
            value, unit = _gradient(text, stretch, at, known), _over(known.y.unit, known.x.unit)
        else:
            value, unit, spread = _of_fit(kind, text, known)
    except RealError as error:
        raise beyond(text.span, error) from None
    part = (stretch[0], stretch[1]) if stretch is not None and kind == "area" else None
    return Found(kind, _datum(text, find, value, unit, spread, known), part)


def _datum(text: Text, find: Find, value: Real, unit: Unit, spread: Spread | None, known: Sources) -> Datum:
    if find.unit is not None:
        if find.unit.dimension != unit.dimension:
            raise GraphDimension(find.unit_span, find.name.key, find.unit.text(), unit.text())
        unit = find.unit
    conventions = known.x.conventions
    asked = Asked(find, unit, find.unit is not None)
    answer = make_answer(asked, value, conventions, {})
    if spread is not None:
        deviation = Deviation(spread, ((find.name, spread),))
        answer, _ = uncertain_answer(asked, answer, from_si(value, unit), deviation, conventions)
    quantity = Quantity(value, unit, None, "", answer.rounded, spread=spread)
    where = text.span.line_in_words
    rests_on = {datum.name: datum for datum in (*known.x.used, *known.y.used)}
    return Datum(find.name, quantity, "result", where, text.span, answer.printed, tuple(rests_on.values()))


def _rate(gradient: Real, known: Sources) -> Real:
    """A gradient in units of the axes as one in coherent SI units."""
    return gradient * difference_of(known.y.unit or ONE).scale / difference_of(known.x.unit or ONE).scale


def _of_fit(kind: FoundKind, text: Text, known: Sources) -> tuple[Real, Unit, Spread | None]:
    fit, x, y = known.fit, known.x.unit or ONE, known.y.unit or ONE
    if fit is None:
        what = {"r squared": "R²"}.get(kind, kind)
        raise GraphQuantityMissing(text.span, what, "there is no line of best fit", _FIT_FIRST)
    tilt, lift = known.spreads
    if kind == "gradient":
        scale = float(difference_of(y).scale / difference_of(x).scale)
        spread = Spread.combined([(scale, tilt)]) if tilt is not None else None
        return _rate(Real.of(fit.gradient), known), _over(y, x), spread
    if kind == "intercept":
        spread = Spread.combined([(float(difference_of(y).scale), lift)]) if lift is not None else None
        return known.y.value(fit.intercept), y, spread
    if kind == "x intercept":
        if fit.gradient == 0:
            raise GraphQuantityMissing(text.span, kind, "the line is level", "leave it out")
        # x₀ = −c/m, so its deviation is −(δc + x₀ δm)/m.
        zero, rate = -fit.intercept / fit.gradient, float(difference_of(x).scale / Real.of(fit.gradient))
        parts = [(-rate, lift)] if lift is not None else []
        parts += [(-rate * float(Real.of(zero)), tilt)] if tilt is not None else []
        return known.x.value(zero), x, Spread.combined(parts) if parts and zero else None
    if fit.r_squared is None:
        raise GraphQuantityMissing(text.span, "R²", "all points have the same y", "leave it out")
    return Real.of(fit.r_squared), ONE, None


def _gradient(text: Text, stretch: tuple[Fraction, ...] | None, at: Fraction | None, known: Sources) -> Real:
    what = "gradient"
    if not known.stretches:
        raise GraphQuantityMissing(text.span, what, "there is no line of best fit", _FIT_FIRST)
    if stretch is not None:
        start, end = stretch
        if end <= start:
            raise GraphQuantityMissing(
                text.span, what, "its stretch has no length", "write from the left to the right"
            )
        low, high = (_height(one, inside, text, known) for one, inside in ((start, end), (end, start)))
        return (high - low) / (known.x.value(end) - known.x.value(start))
    pieces = list(known.stretches)
    if at is not None:
        pieces = [piece for piece in pieces if piece.start <= at <= piece.end]
        if not pieces:
            raise GraphQuantityMissing(
                text.span, what, "nothing is drawn there", "write a place on the graph"
            )
        if len(pieces) > 1:
            pieces = [piece for piece in pieces if piece.start < at < piece.end] or pieces
    rates = []
    for piece in pieces:
        if piece.curve is None:
            (x_0, y_0), (x_1, y_1) = piece.first, piece.last
            rates.append(
                (known.y.value(y_1) - known.y.value(y_0)) / (known.x.value(x_1) - known.x.value(x_0))
            )
        elif at is None:
            why = "the gradient of a curve differs from place to place"
            raise GraphQuantityMissing(text.span, what, why, 'write where: "gradient: v at 2 s"')
        else:
            rates.append(slope(piece.curve, known.x.value(at)))
            place = known.y.number(height(piece.curve, known.x.value(at)))
            run = known.x.length(Real.of(1))
            known.tangents.append(((at, place), known.y.length(rates[-1]) / run))
    if any(not rate.equals(rates[0]) for rate in rates[1:]):
        why = "the pieces have different gradients" if at is None else "the graph has a corner there"
        raise GraphQuantityMissing(text.span, what, why, 'write where: "gradient: a from 0 s to 4 s"')
    return rates[0]


def _height(at: Fraction, inside: Fraction, text: Text, known: Sources) -> Real:
    """The graph's y at a place; at a jump that of the side on which another place lies."""
    pieces = [piece for piece in known.stretches if piece.start <= at <= piece.end]
    if not pieces:
        why, form = "nothing is drawn there", "write a place on the graph"
        raise GraphQuantityMissing(text.span, "gradient", why, form)
    piece = pieces[0] if inside < at else pieces[-1]
    return _on(piece, at, known)


def _on(piece: Stretch, at: Fraction, known: Sources) -> Real:
    if piece.curve is not None:
        return height(piece.curve, known.x.value(at))
    (x_0, y_0), (x_1, y_1) = piece.first, piece.last
    return known.y.value(y_0 + (y_1 - y_0) * (at - x_0) / (x_1 - x_0))


def _area(text: Text, stretch: tuple[Fraction, ...] | None, known: Sources) -> Real:
    """The area between a graph and the x axis, below it counted as negative."""
    what = "area"
    if not known.stretches:
        raise GraphQuantityMissing(
            text.span, what, "there are no pieces and no curve", "give the graph pieces"
        )
    if (known.y.unit or ONE).offset:
        raise GraphQuantityMissing(text.span, what, "its axis has a zero point of its own", "take K for °C")
    start, end = stretch if stretch is not None else (known.stretches[0].start, known.stretches[-1].end)
    total, reached = Real.of(0), start
    for piece in known.stretches:
        low, high = max(start, piece.start), min(end, piece.end)
        if low >= high:
            continue
        if low > reached:
            break
        one, other = known.x.value(low), known.x.value(high)
        if piece.curve is None:
            part: Real | None = (
                (other - one) * (_on(piece, low, known) + _on(piece, high, known)) / Real.of(2)
            )
        else:
            part = area(piece.curve, one, other)
        if part is None:
            why = "a curve has no area in whole steps unless it is a polynomial of the third degree at most"
            raise GraphQuantityMissing(text.span, what, why, "find it by a formula in a calculation")
        total, reached = total + part, high
    if reached < end or end <= start:
        why, form = "the graph does not cover that stretch", "write a stretch that is drawn without a gap"
        raise GraphQuantityMissing(text.span, what, why, form)
    return total


def _over(upper: Unit | None, lower: Unit | None) -> Unit:
    return _named(difference_of(upper or ONE), difference_of(lower or ONE), -1)


def _times(upper: Unit | None, other: Unit | None) -> Unit:
    return _named(difference_of(upper or ONE), difference_of(other or ONE), 1)


def _named(first: Unit, second: Unit, power: int) -> Unit:
    """A product or quotient of units: powers of one symbol joined; by its own name where it has one (V/A is Ω)."""
    powers: dict[str, Fraction] = {factor.symbol: factor.power for factor in first.factors}
    for factor in second.factors:
        powers[factor.symbol] = powers.get(factor.symbol, Fraction(0)) + factor.power * power
    ordered = sorted(((s, p) for s, p in powers.items() if p), key=lambda item: item[1] < 0)
    unit = unit_of((UnitFactor(symbol, own) for symbol, own in ordered), difference=True)
    usual = coherent_unit(unit.dimension)
    plain = unit.scale.equals(usual.scale) and not any(
        factor.symbol in ("rad", "°") for factor in unit.factors
    )
    return usual if plain and len(usual.factors) == 1 else unit
