"""What a quantity can be: the limits of sense that the sheet knows."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from ..exact import PI, Form, NumberStyle, Real, numeral_text, write
from ..language import tree as t
from ..language.names import Name
from ..language.remarks import remark
from ..problems import Problem, Span, Text
from ..problems.units import PercentTwice
from ..sheets import Symbol
from ..units import Unit, from_si, read_unit, to_si
from .dimensions import Dimensions


def percent_twice(equations: Iterable[t.Equation], asked: Iterable[tuple[Name, Unit, Span]]) -> list[Problem]:
    """What is asked in % by a formula that multiplies by 100 already.

    Args:
        equations: the formulas.
        asked: what is found, with its unit and its place.
    """
    found: list[Problem] = []
    for name, unit, span in asked:
        alone = [e.right for e in equations if e.left == t.Sym(name, e.left.span)]
        if unit.text() == "%" and any(_hundredfold(side) for side in alone):
            found.append(PercentTwice(span, name.key))
    return found


def _hundredfold(side: t.Expr) -> bool:
    """Whether 100 is a factor above the line."""
    if not isinstance(side, t.Product):
        return False
    above = (f for f, join in zip(side.factors, ("", *side.joins), strict=True) if join != "/")
    return any(isinstance(f, t.Num) and f.number.value == 100 and not f.unit for f in above)


@dataclass(frozen=True, slots=True)
class Limits:
    """What a quantity can be, in SI coherent units.

    Attributes:
        minimum, maximum: the ends; None for no end.
        above, below: whether the minimum, the maximum itself is excluded.
        title: what the quantity is called ("mass").
        unit: the unit in which the limits are said; None for the coherent one.
    """

    minimum: Real | None
    maximum: Real | None
    above: bool
    below: bool
    title: str
    unit: Unit | None = None

    def allow(self, value: Real) -> bool:
        """Whether a value makes sense."""
        if self.minimum is not None:
            sign = (value - self.minimum).sign()
            if sign < 0 or (self.above and sign == 0):
                return False
        if self.maximum is not None:
            sign = (self.maximum - value).sign()
            if sign < 0 or (self.below and sign == 0):
                return False
        return True

    def words(self, style: NumberStyle, lang: str = "en") -> str:
        """The limits in words: "not negative", "at least 0° and at most 90°"."""
        if self.minimum is not None and self.minimum.sign() == 0 and self.maximum is None:
            return remark("more than zero" if self.above else "not negative", lang)
        parts = []
        if self.minimum is not None:
            parts.append(
                f"{remark('more than' if self.above else 'at least', lang)} {self._short(self.minimum, style)}"
            )
        if self.maximum is not None:
            parts.append(
                f"{remark('less than' if self.below else 'at most', lang)} {self._short(self.maximum, style)}"
            )
        return f" {remark('and', lang)} ".join(parts)

    def _short(self, value: Real, style: NumberStyle) -> str:
        shown = value if self.unit is None else from_si(value, self.unit)
        fraction = shown.fraction
        if fraction is not None and fraction.denominator == 1 and abs(fraction) < 10**6:
            text = str(fraction).replace("-", "\u2212")
        else:
            text = numeral_text(write(shown, Form("figures", 4, None), "half-up", style)[1], style)
        if self.unit is None or not self.unit.factors:
            return text
        return text + ("\u00a0" if self.unit.spaced else "") + self.unit.text()


def _of_symbol(symbol: Symbol) -> Limits | None:
    if symbol.minimum is None and symbol.maximum is None:
        return None
    low = None if symbol.minimum is None else to_si(Real.of(symbol.minimum), symbol.unit)
    high = None if symbol.maximum is None else to_si(Real.of(symbol.maximum), symbol.unit)
    return Limits(low, high, symbol.exclusive, symbol.exclusive_maximum, symbol.title, symbol.unit)


#: Letters that mean one thing wherever a formula is typed by hand, and the usual name of that thing.
_NEVER_NEGATIVE = {"m": "mass", "t": "time", "r": "distance", "λ": "wavelength", "M": "mass"}
_UNIT_OF = {"m": "kg", "M": "kg", "t": "s", "r": "m", "λ": "m"}


#: Title of the limit of an angle in a formula typed by hand.
ACUTE = "the acute angle"
_ACUTE = Limits(Real.of(0), PI * Real.of(Fraction(1, 2)), False, False, ACUTE, read_unit(Text("°")))


def limits_of(
    names: tuple[Name, ...], symbols: Mapping[Name, Symbol], dimensions: Dimensions, angles: frozenset[Name]
) -> dict[Name, Limits]:
    """The limits of names.

    A name that a formula of the sheet explains has that formula's limits. In a formula typed by hand, a
    letter with its customary dimension (m a mass, t or Δt a time, r a distance, λ a wavelength) is not
    negative, and neither is an absolute temperature. Of several angles that satisfy a formula the one from
    0° to 90° is meant.

    Args:
        names: the names of the formulas.
        symbols: what the sheet says of them.
        dimensions: their dimensions.
        angles: names that stand as angles.
    """
    found: dict[Name, Limits] = {}
    for name in names:
        symbol = symbols.get(name)
        if symbol is not None:
            limits = _of_symbol(symbol)
            if limits is not None:
                found[name] = limits
            continue
        if name in angles:
            found[name] = _ACUTE
            continue
        title = _NEVER_NEGATIVE.get(name.base)
        if title is None or (name.delta and name.base != "t"):
            continue
        dimension = dimensions.of(name)
        if dimension is not None and dimension.text() == _UNIT_OF[name.base]:
            found[name] = Limits(Real.of(0), None, False, False, title)
    return found
