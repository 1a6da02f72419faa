"""Links inside a document: where each leads, so that none leads nowhere."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

import panflute as pf

from physcalc.problems import Span, nearest

from ..problems import LinkUnknown
from ..sources import Source
from .findings import Findings
from .placing import kind

#: The places in raw markup that a link may lead to.
_ANCHOR = re.compile(r"\b(?:id|name)\s*=\s*[\"']?([^\s\"'>]+)|\\label\{([^{}]+)\}|<([\w:.-]+)>")

#: To so many dead links the place is named that was likely meant.
_SUGGESTED = 40


def inside_links(elements: Iterable[pf.Element]) -> Iterator[tuple[pf.Link, str]]:
    """Links to places of the document itself, each with the id of its place, in order."""
    for element in elements:
        if isinstance(element, pf.Link) and element.url.startswith("#") and len(element.url) > 1:
            yield element, element.url[1:]


def places_in(elements: Iterable[pf.Element]) -> set[str]:
    """The ids that a link may lead to."""
    found: set[str] = set()
    for element in elements:
        if isinstance(element, pf.RawBlock | pf.RawInline):
            found.update(name for match in _ANCHOR.finditer(element.text) for name in match.groups() if name)
        else:
            found.add(getattr(element, "identifier", ""))
    return found - {""}


def check_links(elements: Sequence[pf.Element], source: Source | None, findings: Findings) -> None:
    """A problem for every link that leads nowhere, or that would be printed without a word.

    Args:
        elements: everything in pandoc's tree, in its order.
        source: the text it was read from, to find the place; None where it is not known.
        findings: takes what is wrong.
    """
    links = list(inside_links(elements))
    if not links:
        return
    known = places_in(elements)
    named = {
        element.identifier
        for element in elements
        if isinstance(element, pf.Header) or kind(element) == "question"
    }
    names = tuple(sorted(known))
    at = told = 0
    for link, target in links:
        empty = not link.content
        if target in known and not (empty and target not in named):
            continue
        span = Span(source.name if source else "")
        if source is not None and (place := source.text.find(f"(#{target})", at)) >= 0:
            at = place + len(target) + 3
            span = source.span(place + 1, at - 1)
        # To look for the nearest name takes as long as there are names; who has so many slips mends the first ones.
        near = nearest(target, names) if told < _SUGGESTED else None
        told += 1
        findings.add(None, [LinkUnknown(span, target, near, empty and target in known)])
