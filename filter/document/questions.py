"""Finding of questions, blocks, values, definitions and answers in pandoc's tree."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any

import panflute as pf

from physcalc.limits import limit
from physcalc.problems import Span, Text, nearest

from ..problems import AttributeMissing, AttributeUnreadable, DocumentPartsMany, IdTwice
from ..sources import Mark
from .findings import Findings
from .numbering import number_questions
from .placing import kind
from .plain import plain_text
from .sections import gather_sections
from .tree import (
    EDITIONS,
    EVERY_EDITION,
    AnswerPart,
    BlockPart,
    DefinePart,
    Edition,
    GridPart,
    OnlyPart,
    Part,
    Question,
    Tree,
    ValuePart,
)
from .walking import held_in, in_order, parts_of

#: Where a written answer stands, and a grid where it does not say.
_ANSWERED: frozenset[Edition] = frozenset({"memo", "guide"})


def find_questions(
    document: pf.Doc,
    marks: Mapping[int, Mark],
    findings: Findings,
    name: str = "",
    words: Collection[str] = (),
) -> Tree:
    """What a document holds that is ours; gathers the sections of its questions into divs.

    Args:
        document: pandoc's tree; changed.
        marks: the mark of each element, by its identity (`placing.places`).
        findings: takes what is wrong.
        name: the document's name in messages.
        words: further words for "question" in headings.

    Raises:
        DocumentPartsMany: it holds more than anybody works out in one document.
    """
    # A div that was made for a heading stands where the heading does.
    made = {
        div: marks[id(heading)] for div, heading in gather_sections(document).items() if id(heading) in marks
    }
    finder = _Finder({**marks, **made}, findings, name)
    root = finder.question(document, None, EVERY_EDITION, 0)
    numbers = number_questions(root, findings, words)
    _refuse_twins(root, findings)
    return Tree(document, root, finder.by_element, numbers)


class _Finder:
    def __init__(self, marks: Mapping[int, Mark], findings: Findings, name: str) -> None:
        self.marks = marks
        self.findings = findings
        self.name = name
        self.by_element: dict[int, Part] = {}
        self.count = 0
        self.counts = {"blocks": 0, "values": 0}
        self.most = {name: limit(name) for name in self.counts}
        self.answers = 0  # how many written answers are open

    def question(
        self, element: pf.Element, heading: pf.Header | None, editions: frozenset[Edition], depth: int
    ) -> Question:
        mark = self._mark(element)
        key = self._next_key() if depth else 0
        parts: list[Part] = []
        for child in parts_of(element):
            self.visit(child, parts, editions, depth)
        identifier = getattr(element, "identifier", "")
        question = Question(
            key, element, self._span(mark), mark, identifier, editions, heading, tuple(parts), depth
        )
        self.by_element[id(element)] = question
        return question

    def visit(self, element: Any, parts: list[Part], editions: frozenset[Edition], depth: int) -> None:
        """Adds what an element (or a list of them) holds to `parts`."""
        if not isinstance(element, pf.Element):
            for child in held_in(element):
                self.visit(child, parts, editions, depth)
            return
        sort = kind(element)
        part: Part
        match sort:
            case "question":
                first = element.content[0] if element.content else None
                heading = first if isinstance(first, pf.Header) else None
                parts.append(self.question(element, heading, editions, depth + 1))
                return
            case "given" | "calc" | "options" | "draw":
                part = BlockPart(*self._base(element, editions), kind=sort)
            case "code-value":
                part = self._code_value(element, editions)
            case "span-value":
                part = self._span_value(element, editions)
            case "define":
                part = self._define(element, editions)
            case "answer":
                editions = editions & _ANSWERED
                ticks = sum(1 for inner in spans_in(element) if "mark" in inner.classes)
                part = AnswerPart(*self._base(element, editions), ticks=ticks)
            case "only":
                # The div itself is a part too, so that its problems have a place.
                base = self._base(element, editions)
                part = OnlyPart(*base, inside=editions)
                editions = editions & self._only(part)
                part = replace(part, inside=editions)
            case "grid":
                part = GridPart(*self._base(element, editions))
                # Who writes the paper need not see what it is made up of, unless the author says so.
                asked = part.attribute("in") is not None
                part = replace(part, editions=editions & (self._only(part) if asked else _ANSWERED))
            case _:
                for child in parts_of(element):
                    self.visit(child, parts, editions, depth)
                return
        self._count(part)
        self.by_element[id(element)] = part
        parts.append(part)
        if sort in {"answer", "only"}:
            self.answers += sort == "answer"
            for child in parts_of(element):
                self.visit(child, parts, editions, depth)
            self.answers -= sort == "answer"

    def _count(self, part: Part) -> None:
        name = "blocks" if isinstance(part, BlockPart) else "values"
        self.counts[name] += 1
        if self.counts[name] > self.most[name]:
            raise DocumentPartsMany(part.span, name, self.most[name])

    def _code_value(self, element: pf.Code, editions: frozenset[Edition]) -> ValuePart:
        base = self._base(element, editions)
        return ValuePart(*base, name=Text(element.text.strip(), base[2]))

    def _span_value(self, element: pf.Span, editions: frozenset[Edition]) -> ValuePart:
        base = self._base(element, editions)
        text = plain_text(element.content)
        mark = base[3]
        exact = mark is None or _same(mark.text, text)
        part = ValuePart(*base, name=Text("", base[2]), typed=Text(text, base[2]), exact_columns=exact)
        name = part.attribute("of")
        if name is None or not name.value.strip():
            problem = AttributeMissing(base[2], "a typed value", "of", "[640 kg]{.value of=m}")
            self.findings.add(part, [problem])
            return part
        return replace(part, name=Text(name.value.strip(), name.span))

    def _define(self, element: pf.Span, editions: frozenset[Edition]) -> DefinePart:
        base = self._base(element, editions)
        text = Text(plain_text(element.content), base[2])
        part = DefinePart(*base, name=text, answered=self.answers > 0)
        name = part.attribute("of")
        return part if name is None else replace(part, name=name, typed=text)

    def _only(self, part: Part) -> frozenset[Edition]:
        typed = part.attribute("in")
        if typed is None or not typed.value.strip():
            example = 'a div {.only in="memo guide"}'
            self.findings.add(part, [AttributeMissing(part.span, "a div with class only", "in", example)])
            return EVERY_EDITION
        chosen: set[Edition] = set()
        for word in typed.value.replace(",", " ").split():
            known = next((edition for edition in EDITIONS if edition == word), None)
            if known is None:
                near = nearest(word, EDITIONS)
                self.findings.add(
                    part, [AttributeUnreadable(typed.span, "in", word, "paper, memo or guide", near)]
                )
            else:
                chosen.add(known)
        return frozenset(chosen) or EVERY_EDITION

    def _base(
        self, element: pf.Element, editions: frozenset[Edition]
    ) -> tuple[int, pf.Element, Span, Mark | None, str, frozenset[Edition]]:
        mark = self._mark(element)
        return (self._next_key(), element, self._span(mark), mark, element.identifier, editions)

    def _mark(self, element: pf.Element) -> Mark | None:
        return self.marks.get(id(element))

    def _span(self, mark: Mark | None) -> Span:
        return mark.span if mark is not None else Span(self.name)

    def _next_key(self) -> int:
        self.count += 1
        return self.count


def spans_in(element: pf.Element) -> list[pf.Span]:
    """The spans inside an element."""
    return [inner for inner in in_order(element) if isinstance(inner, pf.Span)]


def _same(typed: str, text: str) -> bool:
    """Whether a text reads as it was typed, so that a column in the one is that column in the other."""
    return typed.replace("\u00a0", " ") == text.replace("\u00a0", " ")


def _refuse_twins(root: Question, findings: Findings) -> None:
    first: dict[str, Part] = {}
    for part in root.walk():
        if not part.identifier or not isinstance(part, Question | BlockPart):
            continue
        if part.identifier in first:
            typed = part.mark.attributes.identifier if part.mark is not None else None
            span = typed.span if typed is not None else part.span
            findings.add(part, [IdTwice(span, part.identifier, first[part.identifier].span)])
        else:
            first[part.identifier] = part
