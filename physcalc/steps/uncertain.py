"""Answers with their uncertainty, and the line that says how it came about."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..checking.setup import Asked
from ..exact import Number, Numeral, Real, Rounded, Spread, round_figures, round_places
from ..language import tree as t
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Printed
from ..problems import Text
from ..units import Unit, difference_of, read_unit
from .lines import Answer, Line, LineKind


def size_of(spread: Spread, conventions: Conventions) -> float:
    """The uncertainty in SI units, combined as the settings say."""
    return spread.worst if conventions.uncertainty == "sum" else spread.standard


def _real(value: float) -> Real:
    return Real.of(Fraction(repr(value)))


def rounded_size(size: Real, conventions: Conventions) -> Rounded:
    """An uncertainty rounded: one figure, two where the first is a 1, unless a setting says how many.

    Common practice, no source; GUM 7.2.6 asks for two figures at most.
    """
    if conventions.uncertainty_figures is not None:
        return round_figures(size, conventions.uncertainty_figures)
    one = round_figures(size, 1)
    return round_figures(size, 2) if str(one.coefficient)[0] == "1" else one


def uncertain_answer(
    asked: Asked, answer: Answer, value: Real, spread: Spread, conventions: Conventions
) -> tuple[Answer, list[Line]]:
    """The answer rounded to the place of its uncertainty, and the line of the uncertainty.

    Args:
        asked: what was asked; where it says places or figures, the uncertainty goes to the same place.
        answer: the answer without uncertainty.
        value: the exact value in the unit asked, signed as printed.
        spread: how far it may lie off.
        conventions: the settings in force.
    """
    unit = asked.unit
    scale = difference_of(unit).scale
    size = _real(size_of(spread, conventions)) / scale
    if size.sign() == 0:
        return answer, []
    rule = conventions.rule
    if asked.find.form is not None:
        places = answer.rounded.places
        width = round_places(size, places, rule)
    else:
        width = rounded_size(size, conventions)
        places = width.places
    rounded = round_places(value, places, rule)
    exponent = _exponent(rounded, answer, conventions)
    numeral = Numeral.of_rounded(rounded, exponent)
    width_numeral = replace(Numeral.of_rounded(width, exponent), exponent=exponent)
    printed = replace(answer.printed, numeral=numeral, uncertainty=width_numeral)
    return Answer(answer.name, printed, rounded), [
        _line(answer.name, spread, size, scale, unit, width, conventions)
    ]


def _exponent(rounded: Rounded, answer: Answer, conventions: Conventions) -> int | None:
    """The power of ten taken out of value and uncertainty, as it would be out of the value alone."""
    if answer.printed.numeral.exponent is not None and rounded.coefficient:
        return rounded.magnitude
    if rounded.places < 0:
        # Zeros that only hold the place would claim digits: 2 300 ± 200 stays, 2.3 × 10⁵ does not.
        size = abs(rounded.fraction)
        return rounded.magnitude if size >= conventions.style.high else None
    return None


def _width_name(name: Name) -> Name:
    return Name("u", name.key) if name.delta else replace(name, delta=True)


def _line(
    name: Name, spread: Spread, size: Real, scale: Real, unit: Unit, width: Rounded, conventions: Conventions
) -> Line:
    """`Δρ = √((0,012)² + (0,030)²) = 0,032 Ω·m`: what each datum contributes, and the sum."""
    parts = [p for p in (_real(part) / scale for part in spread.parts()) if p.sign() != 0]
    shown = [
        t.Put(Printed(Numeral.of_rounded(round_figures(p, 2), _power(p, conventions))), name) for p in parts
    ]
    final = round_figures(size, max(2, len(str(width.coefficient))))
    total = Printed(Numeral.of_rounded(final, _power(size, conventions)), unit)
    if len(shown) == 1:
        return Line(LineKind.ALGEBRA, (t.Sym(_width_name(name)), total))
    if conventions.uncertainty == "sum":
        tree: t.Expr = t.Sum(tuple(shown), ("", *("+" for _ in shown[1:])))
    else:
        two = t.Num(Number(Fraction(2), "2", None, "2"))
        squares = tuple(t.Power(part, two) for part in shown)
        tree = t.Call("sqrt", (t.Sum(squares, ("", *("+" for _ in squares[1:]))),))
    return Line(LineKind.ALGEBRA, (t.Sym(_width_name(name)), tree, total))


def _power(value: Real, conventions: Conventions) -> int | None:
    rounded = round_figures(value, 2)
    size = abs(rounded.fraction)
    plain = Fraction(1, 1000) <= size < conventions.style.high
    return None if plain or not rounded.coefficient else rounded.magnitude


def percentage(name: Name, value: Real, spread: Spread, scale: Real, conventions: Conventions) -> Line | None:
    """`Δρ/ρ = 6,7 %`; None for a value of zero."""
    if value.sign() == 0:
        return None
    share = _real(size_of(spread, conventions)) / scale / abs(value) * Real.of(100)
    ratio = t.Product((t.Sym(_width_name(name)), t.Sym(name)), ("/",))
    printed = Printed(Numeral.of_rounded(round_figures(share, 2)), read_unit(Text("%")))
    return Line(LineKind.ALGEBRA, (ratio, printed))
