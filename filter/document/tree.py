"""What a document holds that is ours: questions with their parts, as data that points into pandoc's tree."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

import panflute as pf

from physcalc.problems import Span, Text

from ..sources import Mark

Edition = Literal["paper", "memo", "guide"]
EDITIONS: tuple[Edition, ...] = ("paper", "memo", "guide")
EVERY_EDITION: frozenset[Edition] = frozenset(EDITIONS)

BlockKind = Literal["given", "calc", "options", "draw"]


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """Anything of ours in a document.

    Attributes:
        key: its place in the order of the document, counted over everything of ours.
        element: its element in pandoc's tree.
        span: where it stands in the source; a place without a file where that is not known.
        mark: its mark in the source; None where the source is not known or does not show it.
        identifier: its id; empty for none.
        editions: the editions in which it stands.
    """

    key: int
    element: pf.Element
    span: Span
    mark: Mark | None
    identifier: str
    editions: frozenset[Edition]

    def attribute(self, name: str) -> Text | None:
        """An attribute of the element with its place, or None where it has none of that name."""
        value = dict(self.element.attributes).get(name)
        if value is None:
            return None
        typed = self.mark.attribute(name) if self.mark else None
        return typed if typed is not None else Text(value, self.span)

    def attribute_key(self, name: str) -> Text:
        """The name of an attribute with its place."""
        typed = self.mark.attributes.key(name) if self.mark else None
        return typed if typed is not None else Text(name, self.span)


@dataclass(frozen=True, slots=True, eq=False)
class BlockPart(Part):
    """A code block of ours.

    Attributes:
        kind: which one.
    """

    kind: BlockKind


@dataclass(frozen=True, slots=True, eq=False)
class ValuePart(Part):
    """A value in the text.

    Attributes:
        name: the quantity that is written in or checked.
        typed: the value as typed; None where it is written in.
        exact_columns: whether the columns of `typed` are those of the source.
    """

    name: Text
    typed: Text | None = None
    exact_columns: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class DefinePart(Part):
    """A definition in the text.

    Attributes:
        name: its name in the sheet.
        typed: the wording as typed; None where the sheet's is written in.
        answered: whether it stands in a written answer, whose marks are that answer's.
    """

    name: Text
    typed: Text | None = None
    answered: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class AnswerPart(Part):
    """A written answer.

    Attributes:
        ticks: how many of its phrases are ticked.
    """

    ticks: int


@dataclass(frozen=True, slots=True, eq=False)
class OnlyPart(Part):
    """A div that stands in some editions only; what it holds are parts of the question around it.

    Attributes:
        inside: the editions in which what it holds stands.
    """

    inside: frozenset[Edition]


@dataclass(frozen=True, slots=True, eq=False)
class GridPart(Part):
    """A place for the table of marks by topic and level; its text stands above the table."""


@dataclass(frozen=True, slots=True, eq=False)
class Question(Part):
    """A question: a heading with its section, or a div. The document as a whole is one too, without a number.

    Attributes:
        heading: its heading; None where it has none.
        parts: what it holds, in the order of the document, questions inside it included.
        depth: 0 for the document, 1 for a question, 2 for one inside it.
    """

    heading: pf.Header | None
    parts: tuple[Part, ...]
    depth: int

    def questions(self) -> Iterator[Question]:
        """The questions directly inside it."""
        for part in self.parts:
            if isinstance(part, Question):
                yield part

    def walk(self) -> Iterator[Part]:
        """Everything inside it, in the order of the document; a question before its parts."""
        stack: list[Part] = list(reversed(self.parts))
        while stack:
            part = stack.pop()
            yield part
            if isinstance(part, Question):
                stack += reversed(part.parts)


@dataclass(frozen=True, slots=True, eq=False)
class Tree:
    """A document with what it holds.

    Attributes:
        document: pandoc's tree, sections of questions gathered into divs.
        root: the document as a question.
        by_element: each part by Python's identity of its element.
        numbers: the number of each question, by its key.
    """

    document: pf.Doc
    root: Question
    by_element: Mapping[int, Part] = field(default_factory=dict)
    numbers: Mapping[int, str] = field(default_factory=dict)

    def question_numbers(self) -> dict[int, str]:
        """The number of the question that each part is or stands in, by the part's key."""
        found: dict[int, str] = {self.root.key: ""}
        for question in (self.root, *(part for part in self.root.walk() if isinstance(part, Question))):
            own = self.numbers.get(question.key, "")
            found[question.key] = own
            found.update({part.key: own for part in question.parts if not isinstance(part, Question)})
        return found

    def of(self, element: pf.Element) -> Part | None:
        """The part that an element is, or None where it is not ours."""
        return self.by_element.get(id(element))
