"""Problems of calculations that take more than is done for one: counted, or ended."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..limits import allow
from .base import Problem


@dataclass(eq=False, repr=False)
class WorkTooMuch(Problem):
    """A calculation takes more arithmetic than any that a learner could be asked to do.

    Sets of many formulas with powers or angles in each, and equations with very many roots, take more and more
    work with every unknown. The work is counted, so this does not depend on the machine. What all calculations of a
    document take together is counted too.

    Attributes:
        name: the limit that was reached: "work" or "document-work".
    """

    slug: ClassVar[str] = "work-too-much"
    wrong: ClassVar[str] = "a list of twelve formulas with a square in each"
    right: ClassVar[str] = "steps, each with the formulas for what it finds"

    name: str = "work"

    def sentence(self) -> str:
        if self.name == "document-work":
            return "this takes more arithmetic than the calculations before it have left for this document"
        return "this takes more arithmetic than is done for one calculation"

    def mend(self) -> str:
        if self.name == "document-work":
            return "split the document, or write its heaviest calculations in steps" + allow(self.name)
        return "write it in steps with fewer unknowns each, or give more of the data" + allow(self.name)


@dataclass(eq=False, repr=False)
class RootCombinationsMany(Problem):
    """Each of several formulas has several roots, and together they have too many combinations to be followed.

    Attributes:
        most: how many are followed.
    """

    slug: ClassVar[str] = "root-combinations-many"
    wrong: ClassVar[str] = "a list of seven formulas with a square in each"
    right: ClassVar[str] = "steps, each with a take that says which root is meant"

    most: int

    def sentence(self) -> str:
        return f"the formulas have more than {self.most} combinations of roots"

    def mend(self) -> str:
        return "write it in steps, and say with take which root of each is meant" + allow("root-combinations")


@dataclass(eq=False, repr=False)
class UnknownsMany(Problem):
    """A set of formulas has more unknowns than anybody solves together.

    Attributes:
        found: how many it has.
        most: how many are solved together.
    """

    slug: ClassVar[str] = "unknowns-many"
    wrong: ClassVar[str] = "a list of thirty formulas with an unknown in each"
    right: ClassVar[str] = "steps, each with the formulas for what it finds"

    found: int
    most: int

    def sentence(self) -> str:
        return f"the formulas have {self.found} unknowns, and at most {self.most} are found together"

    def mend(self) -> str:
        return "write it in steps with fewer unknowns each, or give more of the data" + allow("unknowns")


@dataclass(eq=False, repr=False)
class ChoicesMany(Problem):
    """So many constants of the sheet have several customary values that not all combinations can be tried.

    Attributes:
        found: how many there are.
        most: how many are tried.
    """

    slug: ClassVar[str] = "choices-many"
    wrong: ClassVar[str] = "accept: choices"
    right: ClassVar[str] = "accept: 2 %"

    found: int
    most: int

    def sentence(self) -> str:
        values = f"the customary values of the constants have {self.found} combinations"
        return f"{values}, and at most {self.most} are tried"

    def mend(self) -> str:
        return "say what may be accepted, as in accept: 2 %" + allow("choices")


#: What ends a calculation wherever it stands; it is told at the block.
STOPPED = (WorkTooMuch, RootCombinationsMany)
