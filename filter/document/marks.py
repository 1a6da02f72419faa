"""Marks of questions and their parts: what is said, what follows from it, and whether it adds up."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from physcalc.language import Calculation
from physcalc.problems import Span, Text

from ..problems import (
    AttributeUnreadable,
    KeyMarksFewer,
    MarkingUnequal,
    MarksMissing,
    MarksUnequal,
    TicksUnequal,
    TotalUnequal,
)
from .drawings import Drawing
from .findings import Findings
from .statements import Options, Statement
from .tree import AnswerPart, BlockPart, DefinePart, Part, Question, Tree


@dataclass(frozen=True, slots=True)
class Marks:
    """Marks as they are printed.

    Attributes:
        of: the marks of each part that bears some, by its key; parts without are not in it.
        total: the sum over all questions; None where no question has marks.
    """

    of: Mapping[int, int]
    total: int | None


def spread_marks(
    tree: Tree,
    statements: Mapping[int, Statement],
    total: int | None,
    total_span: Span,
    findings: Findings,
) -> Marks:
    """The marks of every question, calculation, definition and written answer.

    What a part says counts; where one part alone of a question says nothing, it gets what is left of the
    question's marks.

    Args:
        tree: the document.
        statements: the statement of each block.
        total: what all marks must add up to; None where that is not said.
        total_span: where that is said.
        findings: takes what is wrong.
    """
    spread = _Spread(tree, statements, findings)
    spread.read_said()
    spread.share()
    questions = [
        (tree.numbers[question.key], spread.of[question.key])
        for question in tree.root.questions()
        if question.key in spread.of
    ]
    found = sum(marks for _, marks in questions)
    unknown = any(question.key in spread.unread for question in tree.root.questions())
    if total is not None and found != total and not unknown:
        findings.add(None, [TotalUnequal(total_span, total, found, tuple(questions))])
    return Marks(spread.of, found if questions else None)


class _Spread:
    def __init__(self, tree: Tree, statements: Mapping[int, Statement], findings: Findings) -> None:
        self.tree = tree
        self.statements = statements
        self.findings = findings
        #: What each part says by itself; the marks of what is inside a question are not in it.
        self.said: dict[int, int] = {}
        self.of: dict[int, int] = {}
        #: Blocks that could not be read, and questions whose marks they hide: nobody knows what they say.
        self.unread: set[int] = set()

    def read_said(self) -> None:
        for part in self.tree.root.walk():
            marks = self._said(part)
            if marks is not None:
                self.said[part.key] = marks
            if isinstance(part, BlockPart) and part.kind != "given" and part.key not in self.statements:
                self.unread.add(part.key)

    def share(self) -> None:
        """From the outside in, so that a question may get what is left of the one around it."""
        root = self.tree.root
        questions = [root, *(part for part in root.walk() if isinstance(part, Question))]
        for question in reversed(questions):
            self._add_up(question)
        for question in questions:
            if question.depth:
                self._share_one(question)
        for part in root.parts:
            if not isinstance(part, Question) and part.key in self.said:
                self.of[part.key] = self.said[part.key]

    def _add_up(self, question: Question) -> None:
        """A question that says nothing has the sum of its parts, where all of them are known."""
        items = self._bearing(question)
        if question.key not in self.said and not self.unread.isdisjoint(item.key for item in items):
            self.unread.add(question.key)
        if question.key not in self.said and items and all(item.key in self.said for item in items):
            self.of[question.key] = sum(self.said[item.key] for item in items)
            self.said[question.key] = self.of[question.key]

    def _share_one(self, question: Question) -> None:
        items = self._bearing(question)
        known = {item.key: self.said[item.key] for item in items if item.key in self.said}
        unread = [item for item in items if item.key in self.unread]
        open_ = [item for item in items if item.key not in known and item not in unread]
        said = self.said.get(question.key)
        number = self.tree.numbers[question.key]
        typed = question.attribute("marks")
        span = typed.span if typed is not None else question.span
        self.of.update(known)
        if said is None:
            if known and open_:
                self.findings.add(
                    question, [MarksMissing(span, number, None, tuple(map(self._words, open_)))]
                )
            return
        self.of[question.key] = said
        parts = tuple((self._words(item), known[item.key]) for item in items if item.key in known)
        left = said - sum(known.values())
        if len(open_) > 1:
            self.findings.add(question, [MarksMissing(span, number, said, tuple(map(self._words, open_)))])
        elif unread:
            return
        elif (open_ and left < 1) or (items and not open_ and left):
            self.findings.add(question, [MarksUnequal(span, number, said, parts)])
        elif open_:
            self.of[open_[0].key] = self.said[open_[0].key] = left
            self._check_ticks(open_[0], left, span)

    def _said(self, part: Part) -> int | None:
        statement = self.statements.get(part.key)
        match part, statement:
            case Question() | DefinePart() | AnswerPart(), _:
                typed = part.attribute("marks")
                marks = None if typed is None else self._whole(part, typed)
                if isinstance(part, AnswerPart):
                    if marks is None and typed is None and part.ticks:
                        return part.ticks
                    if marks is not None and typed is not None:
                        self._check_ticks(part, marks, typed.span)
                return marks
            case BlockPart(), Calculation():
                return calculation_marks(statement)
            case BlockPart(), Drawing() if statement.marks is not None or statement.marking:
                return self._of_figure(part, statement)
            case BlockPart(), Options() if statement.marks is not None:
                return self._whole(part, statement.marks)
            case _:
                return None

    def _bearing(self, question: Question) -> list[Part]:
        """The parts of a question that bear marks; a figure does where it says so."""
        return [
            part
            for part in _bearing(question)
            if not (isinstance(part, BlockPart) and part.kind == "draw")
            or part.key in self.said
            or part.key in self.unread
        ]

    def _check_ticks(self, part: Part, marks: int, span: Span) -> None:
        if isinstance(part, AnswerPart) and part.ticks and part.ticks != marks:
            self.findings.add(part, [TicksUnequal(span, marks, part.ticks)])

    def _of_figure(self, part: Part, statement: Drawing) -> int | None:
        """The marks of a figure: what it says, or what its lines of marking add up to."""
        lines = sum(marks for _, marks in statement.marking)
        if statement.marks is None:
            return lines
        said = self._whole(part, statement.marks)
        # What a free-body diagram earns beyond its lines, the rows of its key earn.
        spare = statement.kind == "forces"
        if said is not None and statement.marking and (lines > said or (lines < said and not spare)):
            self.findings.add(part, [MarkingUnequal(statement.marks.span, said, lines)])
        labels = len(getattr(statement.body, "key", ())) if spare else 0
        if said is not None and 0 < said - lines < labels:
            self.findings.add(part, [KeyMarksFewer(statement.marks.span, labels, said - lines)])
        return said

    def _whole(self, part: Part, typed: Text) -> int | None:
        marks = whole_number(typed)
        if marks is None:
            self.findings.add(part, [AttributeUnreadable(typed.span, "marks", typed.value, "a whole number")])
        return marks

    def _words(self, part: Part) -> str:
        """What a part is, for messages."""
        where = f" ({part.span.line_in_words})" if part.span.file else ""
        match part:
            case Question():
                return self.tree.numbers[part.key]
            case BlockPart():
                return {"options": "options", "draw": "a figure"}.get(part.kind, "a calculation") + where
            case DefinePart():
                return f'the definition of "{part.name.value}"'
            case _:
                return "a written answer" + where


def _bearing(question: Question) -> list[Part]:
    """The parts of a question that bear marks."""
    return [
        part
        for part in question.parts
        if part.editions & {"paper", "memo"}
        and (
            isinstance(part, Question | AnswerPart)
            or (isinstance(part, BlockPart) and part.kind != "given")
            or (isinstance(part, DefinePart) and not part.answered)
        )
    ]


def whole_number(text: Text) -> int | None:
    """A number of marks, or None where it is none."""
    typed = text.value.strip()
    return int(typed) if re.fullmatch(r"[0-9]{1,3}", typed) else None


def calculation_marks(calculation: Calculation) -> int | None:
    """The marks that a calculation says by itself or by its steps; None where it does not.

    Marks that cannot be read are not said either; that they cannot, the engine finds.
    """
    if calculation.marks:
        numbers = [whole_number(value) for _, value in calculation.marks]
        return None if None in numbers else sum(number for number in numbers if number is not None)
    if calculation.steps:
        steps = [calculation_marks(step) for step in calculation.steps]
        return None if None in steps else sum(step for step in steps if step is not None)
    return None
