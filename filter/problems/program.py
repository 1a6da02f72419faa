"""The problem of a fault in the program itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class ProgramFault(Problem):
    """The program itself has a fault: it met something that its makers did not think of.

    Nothing was written. The fault is worth a report, with the command and the document that show it. What
    exactly happened is shown when the environment variable `PHYSCALC_DEBUG` is set to 1.

    Attributes:
        fault: the kind of fault, for its makers.
        said: what it says of itself; may be empty.
    """

    slug: ClassVar[str] = "program-fault"
    level: ClassVar[Level] = "unreadable"

    fault: str
    said: str

    def sentence(self) -> str:
        details = f"{self.fault}: {' '.join(self.said.split())[:200]}" if self.said else self.fault
        return f"physcalc itself has a fault here ({details})"

    def mend(self) -> str:
        return "please report it with the document; PHYSCALC_DEBUG=1 shows all that is known"
