"""How far a value may lie from what is stated, to first order: the one door to the `uncertainties` library.

A spread is a sum of independent deviations with their weights, so what two quantities share stays correlated
(GUM, JCGM 100:2008, 5.1 and 5.2). It knows no nominal value: that stays exact, elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Spread:
    """The deviation of a quantity, in coherent SI units.

    Attributes:
        deviation: an affine function of independent variables, of value zero.
    """

    deviation: Any

    @staticmethod
    def independent(size: float, tag: str = "") -> Spread:
        """The deviation of a quantity that is measured by itself.

        Args:
            size: its standard uncertainty (or half-width), not negative.
            tag: a name for it, for those who look at its parts.
        """
        # Loaded here only: few documents hold an uncertainty.
        from uncertainties import ufloat

        return Spread(ufloat(0.0, size, tag or None))

    @staticmethod
    def combined(parts: Iterable[tuple[float, Spread]]) -> Spread:
        """Deviations with their sensitivities added up; what they share is counted once."""
        return Spread(sum(weight * part.deviation for weight, part in parts))

    @property
    def standard(self) -> float:
        """The combined standard uncertainty: independent parts in quadrature (GUM 5.1.2)."""
        return float(getattr(self.deviation, "std_dev", 0.0))

    @property
    def worst(self) -> float:
        """The sum of the parts' sizes: the rule of thumb that adds absolute or fractional uncertainties."""
        return float(sum(self.parts()))

    def parts(self) -> list[float]:
        """The size that each independent deviation contributes, in the order in which they were made."""
        components: dict[Any, Any] = getattr(self.deviation, "error_components", dict)()
        return [abs(float(size)) for size in components.values()]
