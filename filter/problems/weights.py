"""Problems of the weighting grid, of sections and of option keys."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem, nearest


@dataclass(eq=False, repr=False)
class GridTargetsSum(Problem):
    """The shares that a grid sets as targets for all topics, or for all levels, do not add up to 100 %.

    Attributes:
        kind: "topics" or "levels".
        found: their sum as printed, such as "90 %".
    """

    slug: ClassVar[str] = "grid-targets-sum"
    wrong: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 30 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    found: str

    def sentence(self) -> str:
        return f"the targets of the {self.kind} add up to {self.found}"

    def mend(self) -> str:
        return "set shares that make 100 % together"


@dataclass(eq=False, repr=False)
class GridTargetUnused(Problem):
    """A grid sets a target for a topic or a level that no question of the paper has.

    A question says its own: `{.question marks=4 topic=forces level=2}`. What it does not say it has from the
    question around it. Capitals make no difference.

    Attributes:
        kind: "topic" or "level".
        name: the topic or level as typed.
        nearest: the one of the paper that was most likely meant; None where nothing is close.
    """

    slug: ClassVar[str] = "grid-target-unused"
    wrong: ClassVar[str] = "grid:\n  topics: {force: 60 %, energy: 40 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    name: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'no question has the {self.kind} "{self.name}", for which the grid sets a target'

    def mend(self) -> str:
        if self.nearest is not None:
            return f'if it is what was meant, write "{self.nearest}"'
        return f"write {self.kind}= at the questions that belong to it, or take the target out"


@dataclass(eq=False, repr=False)
class GridOffTarget(Problem):
    """A topic or a level has more or fewer of the paper's marks than its target and the tolerance allow.

    A topic of the paper that has no target, where others have one, is to have none of the marks.

    Attributes:
        kind: "topic" or "level".
        name: the topic or level.
        share: its share of the marks, as printed.
        target: what it is to be, as printed, with the tolerance.
    """

    slug: ClassVar[str] = "grid-off-target"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "grid:\n  topics: {forces: 20 %, energy: 80 %}"
    right: ClassVar[str] = "grid:\n  topics: {forces: 60 %, energy: 40 %}"

    kind: str
    name: str
    share: str
    target: str

    def sentence(self) -> str:
        return f'the {self.kind} "{self.name}" has {self.share} of the marks, the target is {self.target}'

    def mend(self) -> str:
        return "see physcalc grid for the whole table"


@dataclass(eq=False, repr=False)
class SectionUnequal(Problem):
    """A heading without a question says marks, and the questions of its section have others.

    Attributes:
        title: the heading.
        said: the marks that it says.
        found: the sum of its questions' marks.
        questions: each question's number and marks.
    """

    slug: ClassVar[str] = "section-unequal"
    wrong: ClassVar[str] = "# Section A {marks=8}"
    right: ClassVar[str] = "# Section A {marks=9}"

    title: str
    said: int
    found: int
    questions: tuple[tuple[str, int], ...]

    def sentence(self) -> str:
        return f'the section "{self.title}" says {self.said} marks, its questions have {self.found}'

    def mend(self) -> str:
        return "write the sum, or correct the marks of a question"

    def because(self) -> tuple[str, ...]:
        listed = ", ".join(f"question {number}: {marks}" for number, marks in self.questions)
        return (listed,) if listed else ()


@dataclass(eq=False, repr=False)
class MethodsMarksDiffer(Problem):
    """Another method of a calculation says other marks than the first one.

    Whichever method a learner chooses, the marks are the same.

    Attributes:
        said: the marks of the calculation.
        found: the marks that this method says.
    """

    slug: ClassVar[str] = "methods-marks-differ"
    wrong: ClassVar[str] = "or:\n  -\n    formula: v = sqrt(v_0^2 + 2 a (v_0 t + 1/2 a t^2))\n    marks: 3"
    right: ClassVar[str] = "or:\n  -\n    formula: v = sqrt(v_0^2 + 2 a (v_0 t + 1/2 a t^2))\n    marks: 4"

    said: int
    found: int

    def sentence(self) -> str:
        return f"this method says {self.found} marks, the calculation has {self.said}"

    def mend(self) -> str:
        return "let both methods earn the same, or leave the marks of this one out"


@dataclass(eq=False, repr=False)
class OptionsUnbalanced(Problem):
    """The right options of a section's multiple-choice questions have one letter more than half of the time.

    Whoever notices gains marks without physics. It is looked at from four questions on.

    Attributes:
        letter: the letter.
        count: how many questions have it as their answer.
        total: how many questions there are.
        keys: the right letters in the order of the questions.
    """

    slug: ClassVar[str] = "options-unbalanced"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = (
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: C\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```"
    )
    right: ClassVar[str] = (
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: A\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: C\n"
        "```\n"
        "\n"
        "```{.options}\n"
        "A: one\n"
        "B: two\n"
        "C: three\n"
        "answer: B\n"
        "```"
    )

    letter: str
    count: int
    total: int
    keys: tuple[str, ...]

    def sentence(self) -> str:
        return f"{self.letter} is the right option of {self.count} of {self.total} multiple-choice questions"

    def mend(self) -> str:
        return "change the order of options in some of them"

    def because(self) -> tuple[str, ...]:
        return (f"the right options in order: {' '.join(self.keys)}",)


@dataclass(eq=False, repr=False)
class SlipUnknown(Problem):
    """An option names a slip that no calculation before it in the same question has.

    Attributes:
        label: the slip as named.
        known: the slips that there are.
    """

    slug: ClassVar[str] = "slip-unknown"
    wrong: ClassVar[str] = "B: slip forgot the angle"
    right: ClassVar[str] = "B: slip forgot to square v"

    label: str
    known: tuple[str, ...]

    def sentence(self) -> str:
        return f'no calculation before these options has the slip "{self.label}"'

    def mend(self) -> str:
        close = nearest(self.label, self.known)
        if close:
            return f'is "{close}" meant?'
        return "write it under slips of a calculation that stands before the options, in the same question"
