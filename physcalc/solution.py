"""Room 10.5: what `physcalc.calculate` gives: values, steps, and the working as text and as TeX."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from .problems import Problem


@dataclass(frozen=True, slots=True)
class Value:
    """A quantity that was found.

    Attributes:
        name: its name: "T", "v_0".
        number: the number as printed, in `unit`; its sign is the printed one.
        unit: the unit as printed: "N", "m·s⁻¹"; empty for a bare number.
        direction: the direction as printed; empty for none.
        exact: the exact value in `unit` before it was rounded; None where it is no fraction (a root, a sine).
        text: number, unit and direction as the document prints them.
        tex: the same as TeX maths.
    """

    name: str
    number: Fraction
    unit: str
    direction: str
    exact: Fraction | None
    text: str
    tex: str

    def __float__(self) -> float:
        return float(self.number)

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the working.

    Attributes:
        kind: "formula", "instance", "rearranged", "substitution", "algebra", "uncertainty", "answer" or "remark".
        text: the line as plain text.
        tex: the line as TeX maths; empty for a remark that is a sentence.
        marks: how many marks it earns, where the block says its marks.
    """

    kind: str
    text: str
    tex: str
    marks: int = 0

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True, slots=True)
class Solution(Mapping[str, Value]):
    """What came of a calculation: its values by name, and the way to them.

    `solution["T"]` is a value, `print(solution)` prints the working, `solution.tex` is an `aligned` environment.

    Attributes:
        found: the values by name, in the order asked.
        steps: the lines of the working, without those that only a guide shows.
        methods: the steps of the other methods (`or`), one tuple each.
        notes: what is worth knowing though nothing is wrong.
        tex: the working as TeX maths: an `aligned` environment, aligned at the relation signs.
    """

    found: Mapping[str, Value]
    steps: tuple[Step, ...]
    methods: tuple[tuple[Step, ...], ...] = ()
    notes: tuple[Problem, ...] = ()
    tex: str = ""

    @property
    def text(self) -> str:
        """The working as plain text, a line a step."""
        return "\n".join(step.text for step in self.steps)

    def __getitem__(self, name: str) -> Value:
        return self.found[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self.found)

    def __len__(self) -> int:
        return len(self.found)

    def __str__(self) -> str:
        return self.text


class CalculationFailed(Exception):
    """A calculation could not be done, or a typed answer in it disagrees.

    Attributes:
        problems: everything that is wrong; each has a `slug`, a `sentence()`, a `mend()` and a `span` whose line
            is counted in the text that was handed in.
    """

    def __init__(self, problems: Sequence[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(_told(problem) for problem in self.problems))


def _told(problem: Problem) -> str:
    mend = f" ({problem.mend()})" if problem.mend() else ""
    return f"line {problem.span.line}: {problem.slug}: {problem.sentence()}{mend}"
