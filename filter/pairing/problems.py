"""What can differ between a paper and its memo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem, Span


def _place(span: Span) -> str:
    return f"{span.file}:{span.line}:{span.column}"


@dataclass(eq=False, repr=False)
class PairUnreadable(Problem):
    """No question was found in one of two files that were to be compared.

    Found are documents with blocks, and papers written by hand whose headings or lines begin with "Question 1" or
    "1.1".

    Attributes:
        name: the file.
    """

    slug: ClassVar[str] = "pair-unreadable"
    level: ClassVar[Level] = "unreadable"
    wrong: ClassVar[str] = "Calculate the tension.  (4)"
    right: ClassVar[str] = "1.2 Calculate the tension.  (4)"

    name: str

    def sentence(self) -> str:
        return f'no question is found in "{self.name}"'

    def mend(self) -> str:
        return 'begin each question with its number: a heading "Question 1", a line "1.1 …"'


@dataclass(eq=False, repr=False)
class PairQuestionMissing(Problem):
    """A question of one file is not in the other.

    Attributes:
        number: its number.
        other: the file that lacks it.
        near: the place in that file after which it would stand; None for its beginning.
        parts: how many parts it has here.
    """

    slug: ClassVar[str] = "pair-question-missing"
    wrong: ClassVar[str] = "paper.md has 2.3; memo.md goes from 2.2 to 2.4"
    right: ClassVar[str] = "both have 2.3"

    number: str
    other: str
    near: Span | None = None
    parts: int = 0

    def sentence(self) -> str:
        parts = f" with its {self.parts} parts" if self.parts > 1 else ""
        return f"question {self.number}{parts} is not in {self.other}"

    def because(self) -> tuple[str, ...]:
        return (f"the question before it stands at {_place(self.near)}",) if self.near is not None else ()


@dataclass(eq=False, repr=False)
class PairQuestionTwice(Problem):
    """A number of a question stands twice in one file, so that nobody can tell which of them is meant.

    Attributes:
        number: the number.
        first: where it stands first.
    """

    slug: ClassVar[str] = "pair-question-twice"
    wrong: ClassVar[str] = "**1.2** Define power.\n**1.2** Calculate the power."
    right: ClassVar[str] = "**1.2** Define power.\n**1.3** Calculate the power."

    number: str
    first: Span

    def sentence(self) -> str:
        return f"the number {self.number} stands twice in this file"

    def because(self) -> tuple[str, ...]:
        return (f"first at {_place(self.first)}",)


@dataclass(eq=False, repr=False)
class PairMarksDiffer(Problem):
    """A question has other marks in the paper than in the memo, or has them in one of the two alone.

    Marks stand in brackets at the end of a line, (4) or [4]. Where both kinds are used, square brackets hold the sum
    of the whole question. A question without a sum has that of its parts.

    Attributes:
        number: the question.
        here: its marks in the paper; None for none.
        there: its marks in the memo; None for none.
        place: where they stand in the memo, or the question does.
        other: the memo.
    """

    slug: ClassVar[str] = "pair-marks-differ"
    wrong: ClassVar[str] = "paper: 1.2 Calculate the power.  (4)\nmemo: 1.2 P = F v ✓ …  (3)"
    right: ClassVar[str] = "(4) in both"

    number: str
    here: int | None
    there: int | None
    place: Span
    other: str

    def sentence(self) -> str:
        here = "no marks" if self.here is None else f"{self.here} mark{'s' if self.here != 1 else ''}"
        there = "none" if self.there is None else self.there
        return f"question {self.number} has {here} here, and {there} in {self.other}"

    def because(self) -> tuple[str, ...]:
        return (f"there at {_place(self.place)}",)


@dataclass(eq=False, repr=False)
class PairValueDiffers(Problem):
    """A datum of one file is not in the same question of the other, which has another number in its place.

    The other number is the nearest one there that this file does not have: look whether it is the one.

    Attributes:
        text: the datum.
        number: its question.
        there: the number in its place.
        place: where that stands.
        other: the other file.
    """

    slug: ClassVar[str] = "pair-value-differs"
    wrong: ClassVar[str] = "paper: a mass of 640 kg\nmemo: T − (650)(9,8) = (650)(0,75)"
    right: ClassVar[str] = "memo: T − (640)(9,8) = (640)(0,75)"

    text: str
    number: str
    there: str
    place: Span
    other: str

    def sentence(self) -> str:
        return f'"{self.text}" of question {self.number} is "{self.there}" in {self.other}'

    def because(self) -> tuple[str, ...]:
        return (f"there at {_place(self.place)}",)


@dataclass(eq=False, repr=False)
class PairValueMissing(Problem):
    """A datum of one file stands nowhere in the same question of the other. A memo need not use every datum.

    Attributes:
        text: the datum.
        number: its question.
        other: the other file.
    """

    slug: ClassVar[str] = "pair-value-missing"
    level: ClassVar[Level] = "note"

    text: str
    number: str
    other: str

    def sentence(self) -> str:
        return f'"{self.text}" of question {self.number} is not in {self.other}'


@dataclass(eq=False, repr=False)
class PairAnswerDiffers(Problem):
    """An answer that one file works out is another in the other file.

    Attributes:
        name: the quantity.
        text: its value here.
        number: the question.
        there: the value there, the last of its kind in that question.
        place: where it stands.
        other: the other file.
    """

    slug: ClassVar[str] = "pair-answer-differs"
    wrong: ClassVar[str] = "paper: find: T in N (6 752,00 N)\nmemo: T = 6725 N"
    right: ClassVar[str] = "memo: T = 6752 N"

    name: str
    text: str
    number: str
    there: str
    place: Span
    other: str

    def sentence(self) -> str:
        return f'{self.name} of question {self.number} is {self.text}, and "{self.there}" in {self.other}'

    def because(self) -> tuple[str, ...]:
        return (f"there at {_place(self.place)}",)


@dataclass(eq=False, repr=False)
class PairAnswerMissing(Problem):
    """An answer that one file works out is not in the same question of the other.

    Attributes:
        name: the quantity.
        text: its value here.
        number: the question.
        place: where the question stands there.
        other: the other file.
    """

    slug: ClassVar[str] = "pair-answer-missing"

    name: str
    text: str
    number: str
    place: Span
    other: str

    def sentence(self) -> str:
        return f"{self.name} of question {self.number}, {self.text}, is not in {self.other}"

    def because(self) -> tuple[str, ...]:
        return (f"the question there at {_place(self.place)}",)


@dataclass(eq=False, repr=False)
class PairKeyDiffers(Problem):
    """The right option of a multiple-choice question is another in the other file.

    Attributes:
        number: the question.
        here: the letter here.
        there: the letter there.
        place: where that stands.
        other: the other file.
    """

    slug: ClassVar[str] = "pair-key-differs"
    wrong: ClassVar[str] = "paper: answer: B\nmemo: 1.3 C ✓✓"
    right: ClassVar[str] = "memo: 1.3 B ✓✓"

    number: str
    here: str
    there: str
    place: Span
    other: str

    def sentence(self) -> str:
        return f"the right option of question {self.number} is {self.here} here, and {self.there} in {self.other}"

    def because(self) -> tuple[str, ...]:
        return (f"there at {_place(self.place)}",)
