"""The rule of thumb that schools teach: fractional uncertainties add in a product, absolute ones in a sum.

Both are the first order of the formula itself, so the lines end in the very value that was computed. Common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from ..exact import Number, Numeral, Real, round_figures
from ..language import tree as t
from ..language.names import Name
from ..language.tree import Printed
from .values import said

Powers = dict[Name, Fraction]


def powers_of(tree: t.Expr, uncertain: frozenset[Name]) -> Powers | None:
    """The powers in which names stand in a pure product or quotient; None for any other tree.

    Args:
        tree: a formula's side.
        uncertain: the names that count; what holds none of them is a number.
    """
    if uncertain.isdisjoint(t.names_in(tree)):
        return {}
    match tree:
        case t.Sym(name):
            return {name: Fraction(1)}
        case t.Group(body) | t.Abs(body):
            return powers_of(body, uncertain)
        case t.Sum(terms) if len(terms) == 1:
            return powers_of(terms[0], uncertain)
        case t.Call("sqrt", (inside,)):
            return _raised(powers_of(inside, uncertain), Fraction(1, 2))
        case t.Power(base, exponent) if (power := rational(exponent)) is not None:
            return _raised(powers_of(base, uncertain), power)
        case t.Product(factors, joins):
            total: Powers = {}
            for factor, join in zip(factors, ("", *joins), strict=True):
                own = powers_of(factor, uncertain)
                if own is None:
                    return None
                for name, power in own.items():
                    total[name] = total.get(name, Fraction(0)) + (-power if join == "/" else power)
            return {name: power for name, power in total.items() if power}
        case _:
            return None


def _raised(powers: Powers | None, power: Fraction) -> Powers | None:
    return None if powers is None else {name: own * power for name, own in powers.items()}


def factors_of(tree: t.Expr, uncertain: frozenset[Name]) -> Powers | None:
    """The numbers that names are multiplied by in a sum of them; None for any other tree. As `powers_of`."""
    if uncertain.isdisjoint(t.names_in(tree)):
        return {}
    match tree:
        case t.Sym(name):
            return {name: Fraction(1)}
        case t.Group(body):
            return factors_of(body, uncertain)
        case t.Sum(terms, signs):
            total: Powers = {}
            for term, sign in zip(terms, signs, strict=True):
                own = factors_of(term, uncertain)
                if own is None or sign not in ("", "+", "-"):
                    return None
                for name, factor in own.items():
                    total[name] = total.get(name, Fraction(0)) + (-factor if sign == "-" else factor)
            return {name: factor for name, factor in total.items() if factor}
        case t.Product(factors, joins):
            number = Fraction(1)
            names: Powers | None = None
            for part, join in zip(factors, ("", *joins), strict=True):
                own_number = rational(part)
                if own_number is not None and (own_number or join != "/"):
                    number = number / own_number if join == "/" else number * own_number
                elif names is None and join != "/":
                    names = factors_of(part, uncertain)
                    if not names:
                        return None
                else:
                    return None
            return None if names is None else {name: own * number for name, own in names.items()}
        case _:
            return None


def rational(tree: t.Expr) -> Fraction | None:
    """A tree of plain numbers as a fraction; None for any other."""
    match tree:
        case t.Num(number, ""):
            return number.value
        case t.Group(body):
            return rational(body)
        case t.Sum((term,), (sign,)):
            inner = rational(term)
            return None if inner is None else (-inner if sign == "-" else inner)
        case t.Product(factors, joins):
            value = Fraction(1)
            for factor, join in zip(factors, ("", *joins), strict=True):
                own = rational(factor)
                if own is None or (join == "/" and own == 0):
                    return None
                value = value / own if join == "/" else value * own
            return value
        case _:
            return None


def added(
    weights: Mapping[Name, Fraction],
    term: Callable[[Name], t.Expr],
    size: Callable[[Name], Real],
    fits: Callable[[Real], bool],
) -> tuple[t.Expr, t.Expr]:
    """`ΔV/V + 2 Δd/d` and the same with its numbers, `0,017 + 2(0,02)`.

    Args:
        weights: what each term is multiplied by; signs do not count.
        term: the symbolic term of a name.
        size: its value.
        fits: whether a sum is the one that is printed behind.
    """
    symbols = [_weighted(abs(weight), term(name), first=True) for name, weight in weights.items()]

    def total(figures: int) -> Real:
        terms = (
            Real.of(abs(weight)) * said(short(size(name), figures), size(name))
            for name, weight in weights.items()
        )
        return sum(terms, Real.of(0))

    figures = enough(lambda count: fits(total(count)))
    numbers = [
        _weighted(abs(weight), t.Put(Printed(short(size(name), figures)), name), first=False)
        for name, weight in weights.items()
    ]
    return _sum(symbols), _sum(numbers)


#: Figures of what is added on the way: two, and more where the sum printed would come out otherwise.
FIGURES = range(2, 7)


def enough(fits: Callable[[int], bool]) -> int:
    """The least number of figures with which a line gives what is printed at its end."""
    return next((figures for figures in FIGURES if fits(figures)), FIGURES[0])


def _sum(terms: list[t.Expr]) -> t.Expr:
    return terms[0] if len(terms) == 1 else t.Sum(tuple(terms), ("", *("+" for _ in terms[1:])))


def _weighted(weight: Fraction, term: t.Expr, first: bool) -> t.Expr:
    if weight == 1:
        return term
    number = t.Num(Number(weight, str(weight), None, str(weight)))
    if first and isinstance(term, t.Product) and weight.denominator == 1:
        return t.Product((number, *term.factors), ("", *term.joins))
    inner = t.Group(term) if isinstance(term, t.Product) else term
    return t.Product((number, inner), ("",))


def short(value: Real, figures: int = 2) -> Numeral:
    """A size to two figures, or so many, without the zeros at the end of an exact one: 0.017, but 0.02."""
    # It rests on machine numbers: a hair beside 0.02 is 0.02.
    rounded = round_figures(Real.of(round_figures(value, 9).fraction), figures)
    exponent = rounded.magnitude if _far(rounded.fraction) else None
    numeral = Numeral.of_rounded(rounded, exponent)
    if not rounded.exact or not numeral.part:
        return numeral
    return Numeral(numeral.negative, numeral.whole, numeral.part.rstrip("0"), numeral.exponent)


def _far(size: Fraction) -> bool:
    return size != 0 and not Fraction(1, 10_000) <= size < 100_000
