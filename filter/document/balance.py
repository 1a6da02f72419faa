"""Whether the marks of a paper are balanced: targets of its grid, its sections, its methods, its right options."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from physcalc.language import Calculation
from physcalc.problems import Span, nearest

from ..problems import (
    AttributeUnknown,
    AttributeUnreadable,
    MethodsMarksDiffer,
    OptionsUnbalanced,
    SectionUnequal,
)
from ..settings import Settings
from ..sources import Mark, Source
from .findings import Findings
from .likeness import slipped
from .marks import Marks, calculation_marks
from .parts_of_paper import Section, groups_of, sections_of
from .solving import Solved
from .statements import Statement
from .tree import BlockPart, Part, Question, Tree

#: From so many multiple-choice questions on their right letters are looked at. Common practice, no source.
_ENOUGH = 4


def check_balance(
    tree: Tree,
    statements: Mapping[int, Statement],
    marks: Marks,
    solved: Solved,
    settings: Settings,
    source: Source | None,
    findings: Findings,
    marked: Mapping[int, Mark] | None = None,
) -> None:
    """What is wrong, or worth knowing, about a paper as a whole.

    Args:
        tree: the document.
        statements: the statement of each block.
        marks: the marks of each part.
        solved: what the blocks led to.
        settings: the settings of the document.
        source: the text it was read from; None where it is not known.
        findings: takes what is found.
        marked: the marks of elements, by Python's identity of each.
    """
    if settings.grid is not None:
        from .grid import check_grid  # Here: few papers aim at one.

        check_grid(tree, marks, settings.grid, settings.numbers, findings)
    sections = sections_of(tree, marks)
    _check_sections(tree, marks, sections, source, findings, marked or {})
    for part in tree.root.walk():
        statement = statements.get(part.key)
        if isinstance(statement, Calculation):
            _check_methods(part, statement, marks.of.get(part.key), findings)
    for questions in groups_of(tree, sections):
        _check_keys(questions, solved, findings)


def _check_sections(
    tree: Tree,
    marks: Marks,
    sections: Sequence[Section],
    source: Source | None,
    findings: Findings,
    marked: Mapping[int, Mark],
) -> None:
    at = 0
    for section in sorted(sections, key=lambda section: section.end - len(section.questions)):
        mark = marked.get(id(section.heading))
        for key, _ in mark.attributes.pairs if mark is not None else ():
            if key.value != "marks":
                near = nearest(key.value, ["marks"])
                findings.add(None, [AttributeUnknown(key.span, "a section", key.value, near)])
        typed = section.heading.attributes.get("marks")
        if typed is None or any(slipped(name, "question") for name in section.heading.classes):
            continue
        span = Span(source.name) if source else Span()
        placed = mark.attribute("marks") if mark is not None else None
        # In Markdown headings that are no questions have no place in the scan of the source.
        pattern = re.compile(rf"\bmarks\s*=\s*[\"']?({re.escape(typed)})(?![\w.])")
        if placed is not None:
            span = placed.span
        elif source is not None and (found := pattern.search(source.text, at)):
            at = found.end()
            span = source.span(*found.span(1))
        if not re.fullmatch(r"[0-9]{1,4}", typed.strip()):
            findings.add(None, [AttributeUnreadable(span, "marks", typed, "a whole number")])
        elif int(typed) != section.marks:
            listed = tuple(
                (tree.numbers[question.key], marks.of.get(question.key, 0)) for question in section.questions
            )
            findings.add(None, [SectionUnequal(span, section.title, int(typed), section.marks, listed)])


def _check_methods(part: Part, calculation: Calculation, own: int | None, findings: Findings) -> None:
    said = calculation_marks(calculation)
    said = own if said is None else said
    for other in calculation.others:
        found = calculation_marks(other)
        if found is not None and said is not None and found != said:
            span = other.marks[0][1].span if other.marks else other.span
            findings.add(part, [MethodsMarksDiffer(span, said, found)])
    for step in calculation.steps:
        _check_methods(part, step, None, findings)


def _check_keys(questions: Sequence[Question], solved: Solved, findings: Findings) -> None:
    asked = [part for question in questions for part in _options(question)]
    keyed = [(part, chosen.key) for part in asked if (chosen := solved.chosen.get(part.key)) and chosen.key]
    if len(keyed) < _ENOUGH:
        return
    keys = tuple(key for _, key in keyed if key is not None)
    ((letter, count),) = Counter(keys).most_common(1)
    if 2 * count > len(keys):
        first = keyed[0][0]
        findings.add(first, [OptionsUnbalanced(first.span, letter, count, len(keys), keys)])


def _options(question: Question) -> Iterator[BlockPart]:
    for part in question.walk():
        if isinstance(part, BlockPart) and part.kind == "options" and part.editions & {"paper", "memo"}:
            yield part
