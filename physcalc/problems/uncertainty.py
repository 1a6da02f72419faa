"""Problems of uncertainties: as they are typed, and as they are carried through a formula."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class UncertaintyUnreadable(Problem):
    """What stands round ± is not a number, its uncertainty and a unit."""

    slug: ClassVar[str] = "uncertainty-unreadable"
    wrong: ClassVar[str] = "q: 4.17 ± 0.05 × 10^-7 C"
    right: ClassVar[str] = "q: (4.17 ± 0.05) × 10^-7 C"

    typed: str
    why: str

    def sentence(self) -> str:
        return f'"{self.typed}" can not be read: {self.why}'

    def mend(self) -> str:
        return "write 0.200 ± 0.005 m, 0.200 m ± 2 %, or (4.17 ± 0.05) × 10^-7 C"


@dataclass(eq=False, repr=False)
class UncertaintyNegative(Problem):
    """An uncertainty is a size: it has no sign of its own."""

    slug: ClassVar[str] = "uncertainty-negative"
    wrong: ClassVar[str] = "L: 0.200 ± -0.005 m"
    right: ClassVar[str] = "L: 0.200 ± 0.005 m"

    typed: str

    def sentence(self) -> str:
        return f'the uncertainty "{self.typed}" is negative'

    def mend(self) -> str:
        return "take the sign away: ± says both ways already"


@dataclass(eq=False, repr=False)
class UncertaintyOfPoint(Problem):
    """A percentage of a temperature on a scale such as °C means nothing: its zero is a matter of choice."""

    slug: ClassVar[str] = "uncertainty-of-point"
    wrong: ClassVar[str] = "T: 20 °C ± 2 %"
    right: ClassVar[str] = "T: 20.0 ± 0.4 °C"

    unit: str

    def sentence(self) -> str:
        return f"a percentage of a point on a scale in {self.unit} means nothing"

    def mend(self) -> str:
        return f"write the uncertainty in {self.unit}"


@dataclass(eq=False, repr=False)
class UncertaintyOfVector(Problem):
    """A vector in a plane is worked with exactly: uncertainties are carried through numbers only."""

    slug: ClassVar[str] = "uncertainty-of-vector"
    wrong: ClassVar[str] = "F: 12.0 ± 0.3 N at 30°"
    right: ClassVar[str] = "F: 12.0 ± 0.3 N\nθ: 30° ± 1°"

    name: str

    def sentence(self) -> str:
        return f"{self.name} can not have both an uncertainty and a direction in a plane"

    def mend(self) -> str:
        return "give its size and its angle as data of their own, and work with F cos θ and F sin θ"


@dataclass(eq=False, repr=False)
class UncertaintyAtEdge(Problem):
    """Near this value a formula has no slope that would carry the uncertainty through to first order.

    The root of 0 ± 0.1, or the angle whose sine is 1.00 ± 0.01, are such: within its uncertainty the datum
    leaves the values for which the formula holds.
    """

    slug: ClassVar[str] = "uncertainty-at-edge"
    wrong: ClassVar[str] = "s: 1.00 ± 0.01"
    right: ClassVar[str] = "s: 0.97 ± 0.01"

    name: str
    datum: str

    def sentence(self) -> str:
        return f"the uncertainty of {self.datum} can not be carried through to {self.name}"

    def mend(self) -> str:
        return f"at this value of {self.datum} the formula has no slope: leave its uncertainty out"


@dataclass(eq=False, repr=False)
class UncertaintyVanishes(Problem):
    """The places or figures asked round the uncertainty of a result to zero."""

    slug: ClassVar[str] = "uncertainty-vanishes"
    wrong: ClassVar[str] = "find: R in Ω to 1 dp"
    right: ClassVar[str] = "find: R in Ω"

    name: str
    width: str

    def sentence(self) -> str:
        return f"{self.name} is asked so coarsely that its uncertainty, {self.width}, would vanish"

    def mend(self) -> str:
        return "leave out how many digits: the uncertainty says it"
