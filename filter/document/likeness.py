"""Classes that are one slip of the finger away from one of ours, so that nothing of ours is seen in them."""

from __future__ import annotations

import re
from collections.abc import Mapping

import panflute as pf

from physcalc.problems import Span

from ..problems import ClassMisspelt
from ..sources import CLASSES, Source
from .findings import Findings
from .placing import kind
from .walking import in_order

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
_KEYED = re.compile(r"\s*[^\s:][^:\n]*: +\S")


def check_classes(document: pf.Doc, source: Source | None, findings: Findings) -> None:
    """A problem for every element whose class is almost one of ours, or is a word for one of ours.

    Args:
        document: pandoc's tree.
        source: the text it was read from, to find the place; None where it is not known.
        findings: takes what is wrong.
    """
    at = 0
    for element in in_order(document):
        meant = _meant(element) if kind(element) is None else None
        if meant is None:
            continue
        span = Span(source.name if source else "")
        found = re.compile(rf"(?<!\w){re.escape(meant[0])}(?!\w)").search(source.text, at) if source else None
        if found and source:
            at = found.end()
            span = source.span(*found.span())
        findings.add(None, [ClassMisspelt(span, *meant)])


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
