"""The sections of a paper: headings that are no questions, with the questions below them and their marks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import panflute as pf

from .marks import Marks
from .tree import Question, Tree


@dataclass(frozen=True, slots=True, eq=False)
class Section:
    """A section of a paper.

    Attributes:
        heading: its heading, which is no question's.
        title: the heading's words.
        questions: the whole questions below it, those of inner sections included.
        marks: the sum of their marks.
        end: the number of its last question's block among the document's; -1 where it has none.
        told: whether its total is printed: it says its marks, or stands beside another section with questions.
    """

    heading: pf.Header
    title: str
    questions: tuple[Question, ...]
    marks: int
    end: int
    told: bool


def sections_of(tree: Tree, marks: Marks) -> tuple[Section, ...]:
    """The sections that hold questions with marks, an inner one before the one around it.

    A section ends at the next heading of the same or a higher level, a question's own heading included.
    To be asked before an edition takes the document's blocks.

    Args:
        tree: the document.
        marks: the marks of each part.
    """
    found: list[tuple[pf.Header, tuple[Question, ...], int]] = []
    opened: list[tuple[pf.Header, list[Question]]] = []
    places: dict[int, int] = {}

    def close(level: int) -> None:
        while opened and opened[-1][0].level >= level:
            heading, questions = opened.pop()
            found.append((heading, tuple(questions), places[questions[-1].key] if questions else -1))

    for at, block in enumerate(tree.root.element.content):
        part = tree.of(block)
        if isinstance(part, Question):
            if part.heading is not None:
                close(part.heading.level)
            places[part.key] = at
            for _, questions in opened:
                questions.append(part)
        elif isinstance(block, pf.Header):
            close(block.level)
            opened.append((block, []))
    close(0)
    bearing = [
        (heading, questions, end, sum(marks.of.get(question.key, 0) for question in questions))
        for heading, questions, end in found
    ]
    levels = [heading.level for heading, _, _, total in bearing if total]
    return tuple(
        Section(
            heading,
            " ".join(pf.stringify(heading).split()),
            questions,
            total,
            end,
            "marks" in heading.attributes or levels.count(heading.level) > 1,
        )
        for heading, questions, end, total in bearing
        if total or "marks" in heading.attributes
    )


def groups_of(tree: Tree, sections: Sequence[Section]) -> list[list[Question]]:
    """The whole questions by the innermost section that they stand in; those in none are a group, too."""
    groups: dict[int, list[Question]] = {}
    for question in tree.root.questions():
        inner = next((at for at, section in enumerate(sections) if question in section.questions), -1)
        groups.setdefault(inner, []).append(question)
    return list(groups.values())
