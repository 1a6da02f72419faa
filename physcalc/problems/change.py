"""Problems of questions that ask by which factor something changes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class ChangeUnfit(Problem):
    """Where `change` asks for a factor, there is no value to accept, to show or to choose among roots."""

    slug: ClassVar[str] = "change-unfit"
    wrong: ClassVar[str] = "accept: 2 %"
    right: ClassVar[str] = "answer: 1/4"

    key: str

    def sentence(self) -> str:
        return f"{self.key} has no meaning where change asks for a factor"

    def mend(self) -> str:
        return f"take {self.key} out"


@dataclass(eq=False, repr=False)
class ChangeGoesOn(Problem):
    """A datum beside a change was worked out from what changes, so that it would change as well.

    Only what the list of formulas itself stands for changes along; a value that was found or given stays.
    """

    slug: ClassVar[str] = "change-goes-on"
    wrong: ClassVar[str] = "formula: P = F v"
    right: ClassVar[str] = "formula:\n  - F = b v^2\n  - P = F v"

    name: str
    rests_on: str

    def sentence(self) -> str:
        return f"{self.name} rests on {self.rests_on}, which changes here, but has a fixed value"

    def mend(self) -> str:
        return (
            f"write the formula for {self.name} above the other, as a list; if {self.name} is to stay the same, "
            "call it by a name without a value"
        )
