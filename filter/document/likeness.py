"""Classes that are one slip of the finger away from one of ours, so that nothing of ours is seen in them."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

import panflute as pf

from physcalc.problems import Span

from ..problems import ClassMissing, ClassMisspelt, DivUnbalanced
from ..sources import CLASSES, Source
from .findings import Findings
from .numbering import typed_number
from .placing import kind

_BLOCKS = tuple(CLASSES["block"])
_SECTIONS = tuple(CLASSES["section"])
_INLINE = ("value", "define")
#: What authors write who do not remember the class of a block.
_SYNONYMS: Mapping[str, str] = {
    "calculate": "calc",
    "calculation": "calc",
    "choices": "options",
    "circuit": "draw",
    "data": "given",
    "diagram": "draw",
    "drawing": "draw",
    "field": "draw",
    "figure": "draw",
    "forces": "draw",
    "graph": "draw",
    "situation": "draw",
    "solution": "calc",
}
#: What only a question says.
_OF_QUESTIONS = ("marks", "topic", "level")
#: What may have a class, and paragraphs; the rest of a document is words.
_LOOKED_AT = frozenset((pf.CodeBlock, pf.Div, pf.Header, pf.Span, pf.Code, pf.Para))
_COLONS = re.compile(r":{3,}")
_KEYED = re.compile(r"\s*[^\s:][^:\n]*: +\S")


def check_classes(
    elements: Sequence[pf.Element],
    source: Source | None,
    findings: Findings,
    words: Sequence[str] = (),
) -> None:
    """A problem for every element whose class is almost one of ours, is a word for one of ours, or is missing.

    Args:
        elements: everything in pandoc's tree, in its order.
        source: the text it was read from, to find the place; None where it is not known.
        findings: takes what is wrong.
        words: further words for "question" that may stand before a number, in small letters.
    """
    at = 0
    strays = _strays(source) if source is not None else iter(())
    questions = any(kind(element) == "question" for element in elements)
    for element in elements:
        if type(element) not in _LOOKED_AT or kind(element) is not None:
            continue
        meant = _meant(element)
        if meant is None:
            if isinstance(element, pf.Para) and _is_colons(element):
                span = next(strays, Span(source.name if source else ""))
                findings.add(None, [DivUnbalanced(span, opens=False)])
            elif questions and (shown := _like_a_question(element, words)) is not None:
                missing, at = _class_missing(shown, source, at)
                findings.add(None, [missing])
            continue
        span = Span(source.name if source else "")
        found = re.compile(rf"(?<!\w){re.escape(meant[0])}(?!\w)").search(source.text, at) if source else None
        if found and source:
            at = found.end()
            span = source.span(*found.span())
        findings.add(None, [ClassMisspelt(span, *meant)])


def _is_colons(paragraph: pf.Para) -> bool:
    """Whether a paragraph is a fence of colons that opens or closes nothing."""
    first = paragraph.content[0] if paragraph.content else None
    return (
        isinstance(first, pf.Str)
        and first.text.startswith(":::")
        and _COLONS.fullmatch(pf.stringify(paragraph).strip()) is not None
    )


def _meant(element: pf.Element) -> tuple[str, str] | None:
    ours: tuple[str, ...]
    match element:
        case pf.CodeBlock():
            ours = _BLOCKS
        case pf.Div() | pf.Header():
            ours = _SECTIONS
        case pf.Span() | pf.Code():
            ours = _INLINE
        case _:
            return None
    for typed in element.classes:
        for name in ours:
            if slipped(typed, name):
                return typed, name
        # Other programs have blocks of such classes, too; ours begin with a key.
        if ours is _BLOCKS and typed.lower() in _SYNONYMS and _KEYED.match(element.text):
            return typed, _SYNONYMS[typed.lower()]
    return None


def slipped(typed: str, name: str) -> bool:
    """Whether a word is another with one letter wrong, too many or missing, or with two neighbours swapped.

    Capitals alone count as a slip. Short words that are words of their own come close to nothing of ours.
    """
    word = typed.lower()
    if word == name:
        return typed != name
    if abs(len(word) - len(name)) > 1:
        return False
    start = 0
    while start < min(len(word), len(name)) and word[start] == name[start]:
        start += 1
    rest, other = word[start:], name[start:]
    swapped = len(rest) > 1 and len(other) > 1 and rest[0] == other[1] and rest[1] == other[0]
    return (
        rest[1:] == other[1:] or rest[1:] == other or rest == other[1:] or (swapped and rest[2:] == other[2:])
    )


def _like_a_question(element: pf.Element, words: Sequence[str]) -> tuple[str, str, str] | None:
    """What looks like a question: "heading" or "div", by what, and a pattern for its line; None for nothing."""
    match element:
        case pf.Header() if number := typed_number(element, words):
            text = " ".join(pf.stringify(element).split())
            # Braces that were not read have a problem of their own.
            if not text[0].isdigit() and "{" not in text:
                word = text.partition(" ")[0]
                return "heading", f"{word} {number}", rf"^#+[ \t]+{re.escape(word)}\s+{re.escape(number)}\b.*"
        case pf.Div() if not element.classes and (
            name := next((key for key in _OF_QUESTIONS if key in element.attributes), None)
        ):
            known = rf"#{re.escape(element.identifier)}\b" if element.identifier else rf"\b{name}\s*="
            return "div", name, rf"^[ \t>]*:::+\s*\{{[^{{}}\n]*{known}.*"
    return None


def _class_missing(shown: tuple[str, str, str], source: Source | None, at: int) -> tuple[ClassMissing, int]:
    """The problem, with its place at or behind an offset, and where that ends."""
    element, what, line = shown
    if source is None or (found := re.compile(line, re.MULTILINE).search(source.text, at)) is None:
        return ClassMissing(Span(source.name if source else ""), element, what), at
    return ClassMissing(source.span(*found.span()), element, what), found.end()


def _strays(source: Source) -> Iterator[Span]:
    """Lines of colons where no div is open, in order."""
    from ..sources.fences import FenceScan  # Here: a filter has no raw text.

    code = {line for fence in FenceScan(source).fences() for line in range(fence.opening, fence.closing + 1)}
    depth = 0
    for number, start in enumerate(source.starts):
        text = source.line_text(number).strip()
        if number in code or not text.startswith(":::"):
            continue
        if not _COLONS.fullmatch(text):
            depth += 1
        elif depth:
            depth -= 1
        else:
            yield source.span(start, source.line_end(number))
