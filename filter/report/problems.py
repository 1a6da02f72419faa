"""What a report says of itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem

from .wording import several


@dataclass(eq=False, repr=False)
class ProblemsNotShown(Problem):
    """A document has more problems than a report shows of one document.

    They are counted all the same, and the exit code is that of all of them. What is shown are the first ones in the
    order of the document, problems before notes. Mostly thousands of problems have one cause: mend what is shown,
    and see what is left.

    Attributes:
        problems, notes: how many of each are not shown.
    """

    slug: ClassVar[str] = "problems-not-shown"
    level: ClassVar[Level] = "note"

    problems: int
    notes: int

    def sentence(self) -> str:
        counts = [(self.problems, "more problem"), (self.notes, "more note")]
        told = " and ".join(several(count, thing) for count, thing in counts if count)
        return f"{told} {'is' if self.problems + self.notes == 1 else 'are'} not shown"

    def mend(self) -> str:
        return "mend the ones above first; --max-problems 0 shows all"
