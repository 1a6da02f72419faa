"""Problems of words and parts of values that are typed in the text."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem, nearest


@dataclass(eq=False, repr=False)
class WordUnknown(Problem):
    """A word that was typed as an answer means nothing that can be computed.

    Checked are words for a sign (positive, negative), for what two charges do (attract, repel) and for what a
    result does when data change (doubles, decreases), in English and in the document's language.

    Attributes:
        word: the word as typed.
        what: what it should have been a word for.
        known: words that would be understood, the usual ones first.
    """

    slug: ClassVar[str] = "word-unknown"
    wrong: ClassVar[str] = "The charge is [postive]{.value of=q part=sign}."
    right: ClassVar[str] = "The charge is [positive]{.value of=q part=sign}."

    word: str
    what: str
    known: tuple[str, ...]

    def sentence(self) -> str:
        return f'"{self.word}" is no word for {self.what}'

    def mend(self) -> str:
        close = nearest(self.word, self.known)
        return f"is {close} meant?" if close else f"write {' or '.join(self.known)}"


@dataclass(eq=False, repr=False)
class PartUnfit(Problem):
    """A part of a value is typed that this value does not have, or that cannot be told.

    A direction belongs to a vector, a force between two bodies is told of two charges, and a change is one that
    a calculation with the key `change` asks for in the same question.

    Attributes:
        name: the quantity.
        part: which part.
        why: why it has none.
        hint: how to mend it.
    """

    slug: ClassVar[str] = "part-unfit"
    wrong: ClassVar[str] = "[halves]{.value of=F part=change}"
    right: ClassVar[str] = "[3 N]{.value of=F}"

    name: str
    part: str
    why: str
    hint: str = ""

    def sentence(self) -> str:
        return f"{self.name} has no {self.part} to check: {self.why}"

    def mend(self) -> str:
        return self.hint
