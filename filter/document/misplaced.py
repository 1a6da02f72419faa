"""Values typed where Markdown reads no spans: in mathematics, in raw TeX, in the front matter."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

import panflute as pf

from physcalc.problems import Span

from ..problems import ValueMisplaced
from ..sources import Source
from .findings import Findings
from .placing import kind
from .walking import in_order

#: Attributes of ours behind a bracket, in text that nothing reads as a span.
_TYPED = re.compile(r"\[[^\[\]]*\]\{[^{}\n]*\.(?:value|define)\b[^{}\n]*\}")


def check_misplaced(
    document: pf.Doc, elements: Sequence[pf.Element], source: Source | None, findings: Findings
) -> None:
    """A problem for every typed value that would never be checked, because it is no span where it stands.

    Args:
        document: pandoc's tree.
        elements: everything in it, in order.
        source: the text it was read from, to find the place; None where it is not known.
        findings: takes what is wrong.
    """
    at = 0
    for where, typed in _misplaced(document, elements):
        span = Span(source.name if source else "")
        if source is not None:
            start = source.text.find(typed, at)
            if start < 0:  # Pandoc puts notes and captions elsewhere than they were typed.
                start = source.text.find(typed)
            if start >= 0:
                at = start + len(typed)
                span = source.span(start, at)
        findings.add(None, [ValueMisplaced(span, where, typed)])


def _misplaced(document: pf.Doc, elements: Sequence[pf.Element]) -> Iterator[tuple[str, str]]:
    for element in _metadata(document.metadata):
        if kind(element) in ("span-value", "code-value", "define"):
            yield "in the front matter", pf.stringify(element).strip()
    for element in elements:
        match element:
            case pf.Math():
                where = "in mathematics"
            case pf.RawBlock() | pf.RawInline():
                where = f"in raw {'HTML' if element.format.startswith('html') else 'TeX'}"
            case _:
                continue
        for found in _TYPED.finditer(element.text):
            yield where, found[0]


def _metadata(value: object) -> Iterator[pf.Element]:
    """The inline elements of the front matter's texts, whatever they stand in."""
    match value:
        case pf.MetaMap():
            for key in value.content:
                yield from _metadata(value[key])
        case pf.MetaList():
            for item in value:
                yield from _metadata(item)
        case pf.MetaInlines() | pf.MetaBlocks():
            yield from in_order(list(value.content))
