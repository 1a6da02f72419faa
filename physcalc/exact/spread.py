"""How far a value may lie from what is stated, to first order: the one door to the `uncertainties` library.

A spread is a sum of independent deviations with their weights, so what two quantities share stays correlated
(GUM, JCGM 100:2008, 5.1 and 5.2). It knows no nominal value: that stays exact, elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import inf, isfinite
from typing import Any, Literal

from .errors import TooLarge
from .real import Real

#: How uncertainties combine: in quadrature, or by the rule of thumb that adds them.
Combining = Literal["quadrature", "sum"]


#: What is left of the deviations that were added, where they cancel.
_CANCELLED = 1e-10


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
            size: its standard uncertainty (or half-width), above zero.
            tag: a name for it, for those who look at its parts.

        Raises:
            TooLarge: the size is beyond what a machine number holds.
        """
        if not (isfinite(size) and size > 0):
            raise TooLarge("an uncertainty is too large or too small for any physics")
        # Loaded here only: few documents hold an uncertainty.
        from uncertainties import ufloat

        return Spread(ufloat(0.0, size, tag or None))

    @staticmethod
    def combined(parts: Iterable[tuple[float, Spread]]) -> Spread:
        """Deviations with their sensitivities added up; what they share is counted once.

        What cancels out leaves nothing: sensitivities are right to some twelve digits, so a remainder that is
        smaller than that against what was added is none.
        """
        added = [(weight, part) for weight, part in parts]
        whole = Spread(sum(weight * part.deviation for weight, part in added))
        if whole.standard < _CANCELLED * sum(abs(weight) * part.standard for weight, part in added):
            return Spread(0.0)
        return whole

    @property
    def standard(self) -> float:
        """The combined standard uncertainty: independent parts in quadrature (GUM 5.1.2)."""
        try:
            return float(getattr(self.deviation, "std_dev", 0.0))
        except OverflowError:
            return inf

    def size(self, combining: Combining) -> Real:
        """The uncertainty, combined one way or the other, to ten digits.

        It rests on machine numbers: without the cut an exact 0.35 could be a hair less, and round down.

        Raises:
            TooLarge: it is beyond what a machine number holds.
        """
        return self.rounded(self.worst if combining == "sum" else self.standard)

    @staticmethod
    def rounded(value: float) -> Real:
        """A machine number to ten digits. Raises TooLarge."""
        if not isfinite(value):
            raise TooLarge("an uncertainty is too large for any physics")
        return Real.of(Fraction(f"{value:.10g}"))

    def shares(self, other: Spread) -> bool:
        """Whether the two rest on a deviation in common, so that they are correlated."""
        return not self._components().keys().isdisjoint(other._components())

    @property
    def worst(self) -> float:
        """The sum of the parts' sizes: the rule of thumb that adds absolute or fractional uncertainties."""
        return float(sum(self.parts()))

    def parts(self) -> list[float]:
        """The size that each independent deviation contributes, in the order in which they were made."""
        return [abs(float(size)) for size in self._components().values()]

    def _components(self) -> dict[Any, Any]:
        components: dict[Any, Any] = getattr(self.deviation, "error_components", dict)()
        return components
