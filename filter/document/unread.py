"""Attributes and fences of ours that Markdown does not read, so that a page would show them as they were typed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from math import inf
from typing import Any

import panflute as pf

from physcalc.problems import Problem, Span
from physcalc.problems.checking import NameHidden, NameWithoutValue, ReferenceUnknown
from physcalc.problems.sheets import DefinitionUnknown, LawUnknown

from ..problems import (
    AttributesUnread,
    BlockUnreadable,
    ClassMissing,
    ClassMisspelt,
    DivUnbalanced,
    MarksUnequal,
    NumberOutOfOrder,
    ReferenceLater,
    SectionUnequal,
    TotalUnequal,
    UnreadReason,
    question_lost,
)
from ..sources import CLASSES, UNTIED, Source
from .findings import Findings
from .placing import kind
from .tree import Question, Tree
from .walking import held_in

_BLOCKS = "|".join(CLASSES["block"])
_CLASSES = "|".join(dict.fromkeys([*(name for names in CLASSES.values() for name in names), UNTIED]))
#: What stands for elements that are no words, and what was typed in front of the braces.
_CODE, _OTHER = "\ue000", "\ue001"
_LEFT = re.compile(
    rf"(?P<before>[^\s{{}}]*?)(?P<blank>\s*)"
    rf"(?P<braces>\{{\s*(?:\.\s*)?(?:{_CLASSES})(?![\w-])[^{{}}]*\}}|\{{[^{{}}]*(?<!\w)\.(?:{_CLASSES})(?![\w-])[^{{}}]*\}})"
)
_FENCE_AS_CODE = re.compile(rf"\{{\s*\.?\s*(?:{_BLOCKS})\b[^{{}}]*\}}(?=\s)")
_FENCE_INDENTED = re.compile(rf"\s*(?:`{{3,}}|~{{3,}})\s*(?P<braces>\{{\s*\.?(?:{_BLOCKS})\b[^{{}}\n]*\}})")
#: A heading or a div that pandoc takes for the next line of a paragraph.
_OPENING = re.compile(r"#{1,6} |:{3,}\s")
_QUOTES = "\"'“”‘’„«»"


def check_attributes(elements: Sequence[pf.Element], source: Source | None, findings: Findings) -> None:
    """A problem for everything of ours that pandoc took for ordinary text.

    Args:
        elements: everything in pandoc's tree, in its order.
        source: the text it was read from, to find the place; None where it is not known.
        findings: takes what is wrong.
    """
    at = 0
    for typed, reason in _unread(elements):
        span = Span(source.name if source else "")
        if source is not None:
            pattern = re.compile(_as_typed(typed))
            found = pattern.search(source.text, at) or pattern.search(source.text)
            if found:
                at = found.end()
                span = source.span(*found.span())
        findings.add(None, [AttributesUnread(span, " ".join(typed.split()), reason)])


def forget_consequences(tree: Tree, findings: Findings) -> None:
    """Take out what only follows from a sheet that could not be read whole, or from questions that were not seen.

    Their marks and numbers are missed elsewhere, and nobody knows the settings of what stands in them.

    Args:
        tree: the questions that were seen.
        findings: what was found, with the problems of attributes and classes among it.
    """
    if any(problem.level != "note" and problem.slug.startswith("sheet-") for problem in findings.at(None)):
        # What a line of the sheet was to say is missed through no mistake of the document's.
        findings.forget(
            lambda problem: isinstance(problem, DefinitionUnknown | LawUnknown | NameWithoutValue)
        )
    lost = [problem for problem in findings.every() if question_lost(problem)]
    if not lost:
        return
    swallowing = [problem for problem in lost if isinstance(problem, BlockUnreadable | DivUnbalanced)]
    # A question that is lost goes on to the next one.
    begins = sorted(part.span.line for part in tree.root.walk() if isinstance(part, Question))
    stretches = [
        (problem.span.line, min((line for line in begins if line > problem.span.line), default=inf))
        for problem in lost
        if problem.span.file and problem not in swallowing
    ]

    def follows(problem: Problem) -> bool:
        if isinstance(problem, AttributesUnread | ClassMissing | ClassMisspelt | DivUnbalanced):
            return False
        counted = isinstance(problem, TotalUnequal | SectionUnequal | MarksUnequal | NumberOutOfOrder)
        if swallowing and isinstance(problem, NameHidden | ReferenceUnknown | ReferenceLater):
            # What was swallowed is missed, and what a div took in stands in other scopes.
            return True
        return counted or any(first <= problem.span.line < end for first, end in stretches)

    findings.forget(follows)


def _unread(elements: Sequence[pf.Element]) -> Iterator[tuple[str, UnreadReason]]:
    questions = False
    for element in elements:
        match element:
            case pf.Header() | pf.Para() | pf.Plain() | pf.LineItem():
                yield from _in_text("".join(_pieces(element.content)), isinstance(element, pf.Header))
            case pf.Code() if found := _FENCE_AS_CODE.match(element.text):
                inside = _inside(found[0])
                yield found[0], "fence" if inside == "other" else inside
            # Below no question it may well be shown as an example.
            case pf.CodeBlock() if questions and not element.classes:
                if found := _FENCE_INDENTED.match(element.text):
                    yield found["braces"], "indented"
        questions = questions or kind(element) == "question"


def _in_text(text: str, heading: bool) -> Iterator[tuple[str, UnreadReason]]:
    for found in _LEFT.finditer(text):
        inside = _inside(found["braces"])
        line = text[text.rfind("\n", 0, found.start("braces")) + 1 : found.start("braces")]
        if inside == "other" and not heading and _OPENING.match(line):
            yield found["braces"], "no empty line"
        elif found["before"].endswith("```"):
            yield found["braces"], "open" if inside == "other" else inside
        elif re.search(r"[‘’'`´“”]{2,}$", found["before"]):
            yield found["braces"], "fence"
        elif found["blank"] and inside == "other" and not heading:
            yield found["braces"], "blank before"
        else:
            yield found["braces"], inside


def _inside(braces: str) -> UnreadReason:
    """What is wrong between the braces."""
    body = braces[1:-1].strip()
    if re.search(r"\s=|=\s", body):
        return "blank at ="
    if re.search(r"\w:", body):
        return "colon"
    if re.search(r"[.#]\s", body):
        return "blank behind sign"
    words = re.sub(rf"=(?:[{_QUOTES}][^{_QUOTES}]*[{_QUOTES}]|\S+)", "=", body).split()
    if any(re.fullmatch(_CLASSES, word) for word in words):
        return "no dot"
    if re.search(r"=[“”‘’„]", body):
        return "curly quotes"
    if re.search(r"=[^\s\"'=]+\s+[^.#\s=]+(?:\s|$)", body):
        return "quotes missing"
    if any(word[0] not in ".#" and not word.endswith("=") for word in words):
        return "word"
    return "other"


def _pieces(inlines: Any) -> Iterator[str]:
    for inline in held_in(inlines):
        match inline:
            case pf.Str():
                yield inline.text
            case pf.Space():
                yield " "
            case pf.SoftBreak() | pf.LineBreak():
                yield "\n"
            case pf.Code():
                yield _CODE
            case pf.Math() | pf.RawInline() | pf.Note() | pf.Image():
                yield _OTHER
            case pf.Quoted():
                sign = '"' if inline.quote_type == "DoubleQuote" else "'"
                yield sign
                yield from _pieces(inline.content)
                yield sign
            case _:
                yield from _pieces(getattr(inline, "content", ()))


def _as_typed(text: str) -> str:
    """A pattern for what pandoc made of a stretch of text: its blanks and quotation marks may be others."""
    pieces = re.split(rf"(\s+|[{_QUOTES}])", text)
    return "".join(
        r"\s+" if piece.isspace() else f"[{_QUOTES}]" if piece in _QUOTES and piece else re.escape(piece)
        for piece in pieces
    )
