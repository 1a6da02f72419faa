"""Answers with their uncertainty, and the lines that say how it came about."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..checking.setup import Asked
from ..exact import Form, Number, Numeral, Real, Rounded, Spread, round_figures, round_places, sqrt, write
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain_printed
from ..language.statements import Conventions
from ..language.tree import Printed
from ..problems import Text
from ..problems.uncertainty import UncertaintyVanishes
from ..solve.deviation import Deviation
from ..units import Unit, difference_of, read_unit
from .lines import Answer, Line, LineKind
from .thumb import FIGURES, added, enough, factors_of, powers_of, short
from .values import said


def rounded_size(size: Real, conventions: Conventions) -> Rounded:
    """An uncertainty rounded: one figure, two where the first is a 1, unless a setting says how many.

    Common practice, no source; GUM 7.2.6 asks for two figures at most.
    """
    if conventions.uncertainty_figures is not None:
        return round_figures(size, conventions.uncertainty_figures)
    one, two = round_figures(size, 1), round_figures(size, 2)
    if str(two.coefficient)[0] == "1":
        return two
    if str(one.coefficient)[0] == "1":
        # 0.098 is 0.1 to one figure and 0.098 to two: the first figure counts as it is shown.
        return replace(one, coefficient=10, places=one.places + 1)
    return one


def uncertain_answer(
    asked: Asked,
    answer: Answer,
    value: Real,
    deviation: Deviation,
    conventions: Conventions,
    tree: t.Expr | None = None,
) -> tuple[Answer, list[Line]]:
    """The answer rounded to the place of its uncertainty, and the lines of the uncertainty.

    Args:
        asked: what was asked; where it says places or figures, the uncertainty goes to the same place.
        answer: the answer without uncertainty.
        value: the exact value in the unit asked, signed as printed.
        deviation: how far it may lie off.
        conventions: the settings in force.
        tree: the formula with what is asked as its subject; None where it is not made so.

    Raises:
        UncertaintyVanishes: the places asked round the uncertainty to zero.
        RealError: a size is beyond what a machine number holds.
    """
    unit = asked.unit
    scale = difference_of(unit).scale
    size = deviation.spread.size(conventions.uncertainty) / scale
    rule = conventions.rule
    if asked.find.form is not None:
        places = answer.rounded.places
        width = round_places(size, places, rule)
        if width.coefficient == 0:
            shown = Printed(Numeral.of_rounded(rounded_size(size, conventions)), unit)
            text = plain_printed(shown, conventions.style, conventions.unit_style)
            raise UncertaintyVanishes(asked.find.span, answer.name.key, text)
    else:
        width = rounded_size(size, conventions)
        places = width.places
    rounded = round_places(value, places, rule)
    exponent = _exponent(rounded, width, answer, conventions)
    numeral = Numeral.of_rounded(rounded, exponent)
    width_numeral = Numeral.of_rounded(width, exponent)
    printed = replace(answer.printed, numeral=numeral, uncertainty=width_numeral)
    uncertain = Answer(answer.name, printed, rounded)
    final = _rounding_to(width, size, conventions)
    total = Printed(Numeral.of_rounded(final, _power(size, conventions)), unit)
    thumb = None
    if conventions.uncertainty == "sum" and tree is not None and deviation.independent:
        thumb = _by_rule_of_thumb(uncertain, value, deviation, tree, unit, size, total, final)
    lines, told = thumb or ([_line(answer.name, deviation, unit, total, final, conventions)], False)
    if asked.find.with_percentage and not told and value.sign() != 0 and not unit.offset:
        lines.append(Line(LineKind.UNCERTAINTY, (_ratio(answer.name), _percent(size / abs(value)))))
    return uncertain, lines


def _rounding_to(width: Rounded, size: Real, conventions: Conventions) -> Rounded:
    """An uncertainty with two figures at least, and as many as it takes to see why it is rounded as it is.

    0,0447 is rounded to 0,04; as 0,045 it would seem to be 0,05.
    """
    least = max(2, len(str(width.coefficient)))
    for figures in range(least, least + 4):
        final = round_figures(size, figures)
        again = round_places(Real.of(final.fraction), width.places, conventions.rule)
        if again.fraction == width.fraction:
            return final
    return round_figures(size, least)


def rounded_like(
    answer: Answer, value: Real, form: Form, conventions: Conventions
) -> tuple[Rounded, Numeral]:
    """Another value in the place of an answer, rounded as that was: to its form, or to its uncertainty's place."""
    if answer.printed.uncertainty is None:
        return write(value, form, conventions.rule, conventions.style)
    rounded = round_places(value, answer.rounded.places, conventions.rule)
    standard = answer.printed.numeral.exponent is not None
    return rounded, Numeral.of_rounded(rounded, rounded.magnitude if standard else None)


def _exponent(rounded: Rounded, width: Rounded, answer: Answer, conventions: Conventions) -> int | None:
    """The power of ten taken out of value and uncertainty, as it would be out of the value alone."""
    if rounded.coefficient == 0:
        # (0 ± 3) × 10⁻⁷, but 0,00 ± 0,03.
        small = width.fraction < Fraction(1, 1000) or width.fraction >= conventions.style.high
        return width.magnitude if small else None
    if answer.printed.numeral.exponent is not None:
        return rounded.magnitude
    if rounded.places < 0:
        # Zeros that only hold the place would claim digits: 2 300 ± 200 stays, 2.3 × 10⁵ does not.
        size = abs(rounded.fraction)
        return rounded.magnitude if size >= conventions.style.high else None
    return None


def _width_name(name: Name) -> Name:
    return Name("u", name.key) if name.delta else name._replace(delta=True)


def _width(name: Name) -> t.Expr:
    """`ΔR`."""
    return t.Sym(_width_name(name))


def _ratio(name: Name) -> t.Expr:
    """`ΔR / R`."""
    return t.Product((t.Sym(_width_name(name)), t.Sym(name)), ("/",))


def _percent(share: Real) -> Printed:
    return Printed(Numeral.of_rounded(round_figures(share * Real.of(100), 2)), read_unit(Text("%")))


def _by_rule_of_thumb(
    answer: Answer,
    value: Real,
    deviation: Deviation,
    tree: t.Expr,
    unit: Unit,
    size: Real,
    total: Printed,
    final: Rounded,
) -> tuple[list[Line], bool] | None:
    """The lines that add absolute uncertainties (a sum) or fractional ones (a product), and whether the percentage
    stands in them; None for a formula that is neither."""
    name = answer.name
    delta = t.Sym(_width_name(name))
    sizes = {part: spread.size("sum") / difference_of(unit).scale for part, spread in deviation.parts}
    factors = factors_of(tree, frozenset(sizes))
    if factors and factors.keys() == sizes.keys():
        widths = {part: own / Real.of(abs(factors[part])) for part, own in sizes.items()}
        symbols, numbers = added(factors, _width, widths.__getitem__, lambda sum_: _is(sum_, final))
        sides = (delta, symbols, total) if isinstance(symbols, t.Sym) else (delta, symbols, numbers, total)
        return [Line(LineKind.UNCERTAINTY, sides)], False
    powers = powers_of(tree, frozenset(sizes))
    if powers and powers.keys() == sizes.keys() and value.sign() != 0 and not unit.offset:
        shares = {part: own / abs(value) / Real.of(abs(powers[part])) for part, own in sizes.items()}
        share = size / abs(value)
        percent = round_figures(share * Real.of(100), 2)
        symbols, numbers = added(
            powers, _ratio, shares.__getitem__, lambda sum_: _is(sum_ * Real.of(100), percent)
        )
        shown, fraction = _factors(answer, abs(value), share, final)
        product = t.Product((t.Put(Printed(fraction), name), t.Put(Printed(shown), name)), ("",))
        return [
            Line(LineKind.UNCERTAINTY, (_ratio(name), symbols, numbers, _percent(share))),
            Line(LineKind.UNCERTAINTY, (delta, product, total)),
        ], True
    return None


#: So many digits more than the answer has may stand for the value beside its fractional uncertainty.
_MORE_PLACES = 3


def _factors(answer: Answer, value: Real, share: Real, final: Rounded) -> tuple[Numeral, Numeral]:
    """The value and its fractional uncertainty with the digits that their product needs: those printed, or more."""
    printed = replace(answer.printed.numeral, negative=False)
    shown = printed
    for more in range(_MORE_PLACES + 1):
        if more:
            shown = Numeral.of_rounded(round_places(value, answer.rounded.places + more), printed.exponent)
        for figures in FIGURES:
            fraction = short(share, figures)
            if _is(said(fraction, share) * said(shown, value), final):
                return shown, fraction
    return printed, short(share)


def _is(value: Real, printed: Rounded) -> bool:
    """Whether a value is printed as what stands there."""
    return round_places(value, printed.places).fraction == printed.fraction


def _line(
    name: Name, deviation: Deviation, unit: Unit, total: Printed, final: Rounded, conventions: Conventions
) -> Line:
    """`Δρ = √((0,012)² + (0,030)²) = 0,032 Ω·m`: what each datum contributes, and the sum.

    Where data share what they rest on, the contributions are those of what they share.
    """
    scale = difference_of(unit).scale
    if deviation.independent:
        sizes = [spread.size(conventions.uncertainty) / scale for _, spread in deviation.parts]
    else:
        sizes = [Spread.rounded(part) / scale for part in deviation.spread.parts()]
    sizes = [size for size in sizes if size.sign() > 0]

    def fits(figures: int) -> bool:
        parts = [Real.of(round_figures(size, figures).fraction) for size in sizes]
        if conventions.uncertainty == "sum":
            return _is(sum(parts, Real.of(0)), final)
        return _is(sqrt(sum((part * part for part in parts), Real.of(0))), final)

    figures = enough(fits)
    shown: list[t.Expr] = [
        t.Put(Printed(Numeral.of_rounded(round_figures(p, figures), _power(p, conventions))), name)
        for p in sizes
    ]
    if len(shown) == 1:
        return Line(LineKind.UNCERTAINTY, (t.Sym(_width_name(name)), total))
    if conventions.uncertainty == "sum":
        tree: t.Expr = t.Sum(tuple(shown), ("", *("+" for _ in shown[1:])))
    else:
        two = t.Num(Number(Fraction(2), "2", None, "2"))
        squares = tuple(t.Power(part, two) for part in shown)
        tree = t.Call("sqrt", (t.Sum(squares, ("", *("+" for _ in squares[1:]))),))
    return Line(LineKind.UNCERTAINTY, (t.Sym(_width_name(name)), tree, total))


def _power(value: Real, conventions: Conventions) -> int | None:
    rounded = round_figures(value, 2)
    size = abs(rounded.fraction)
    plain = Fraction(1, 1000) <= size < conventions.style.high
    return None if plain or not rounded.coefficient else rounded.magnitude
