"""Dimensions: the powers of the seven base quantities in a unit, and of money."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from .powers import power_text

#: The base units, in the order of `Dimension.exponents`: length, mass, time, electric current,
#: thermodynamic temperature, amount of substance, luminous intensity.
BASE_UNITS = ("m", "kg", "s", "A", "K", "mol", "cd")

#: The order in which they are printed: the SI Brochure's tables write kg m s⁻², mass first.
_PRINTED = (1, 0, 2, 3, 4, 5, 6)


#: Exponents are whole numbers nearly always, and arithmetic with those is many times faster.
Power = int | Fraction


def _plain(power: Power) -> Power:
    """A power as an `int` where it is whole."""
    return power if type(power) is int or power.denominator != 1 else power.numerator


@dataclass(frozen=True, slots=True)
class Dimension:
    """The dimension of a quantity.

    A plane or solid angle has none, as in the SI.

    Attributes:
        exponents: powers of length, mass, time, current, temperature, amount and luminous intensity.
        money: currencies by their codes, with their powers, in the order of the codes. Each one is a dimension of
            its own: nothing in physics says how many of one another is worth.
    """

    exponents: tuple[Power, ...]
    money: tuple[tuple[str, Power], ...] = ()

    @classmethod
    def of(cls, *exponents: Power) -> Dimension:
        """The dimension with these exponents; those left out at the end are 0."""
        padded = (*exponents, *(0,) * (len(BASE_UNITS) - len(exponents)))
        return cls(tuple(map(_plain, padded)))

    def __mul__(self, other: Dimension) -> Dimension:
        exponents = tuple(_plain(a + b) for a, b in zip(self.exponents, other.exponents, strict=True))
        if not self.money and not other.money:
            return Dimension(exponents)
        return Dimension(exponents, _joined(self.money, other.money))

    def __truediv__(self, other: Dimension) -> Dimension:
        exponents = tuple(_plain(a - b) for a, b in zip(self.exponents, other.exponents, strict=True))
        if not self.money and not other.money:
            return Dimension(exponents)
        return Dimension(exponents, _joined(self.money, tuple((code, -power) for code, power in other.money)))

    def __pow__(self, power: Power) -> Dimension:
        exponents = tuple(_plain(exponent * power) for exponent in self.exponents)
        if not self.money:
            return Dimension(exponents)
        return Dimension(exponents, tuple((code, _plain(of * power)) for code, of in self.money if power))

    @property
    def powers(self) -> tuple[tuple[str, Power], ...]:
        """Currencies and base units with their powers in printing order, those with power 0 left out."""
        return self.money + tuple((BASE_UNITS[i], self.exponents[i]) for i in _PRINTED if self.exponents[i])

    def text(self) -> str:
        """The base units, "kg·m·s⁻²", after the codes of currencies; empty for a plain number."""
        return "·".join(symbol + power_text(Fraction(power)) for symbol, power in self.powers)


def _joined(
    first: tuple[tuple[str, Power], ...], second: tuple[tuple[str, Power], ...]
) -> tuple[tuple[str, Power], ...]:
    """Powers of currencies added up."""
    powers = dict(first)
    for code, power in second:
        powers[code] = _plain(powers.get(code, 0) + power)
    return tuple(sorted((code, power) for code, power in powers.items() if power))


DIMENSIONLESS_DIMENSION = Dimension.of()
