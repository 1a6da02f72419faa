"""Where pandoc's elements stand in the source."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal

import panflute as pf

from ..sources import Kind, Mark, Source, attribute_text, kind_of
from .plain import plain_text
from .walking import in_order

#: Which sort of element each of panflute's is, for `kind_of`.
_SORTS: Mapping[Any, Literal["block", "code", "span", "section"]] = {
    pf.CodeBlock: "block",
    pf.Code: "code",
    pf.Span: "span",
    pf.Header: "section",
    pf.Div: "section",
}


def kind(element: pf.Element) -> Kind | None:
    """What an element is, or None where it is not ours."""
    sort = _SORTS.get(type(element))
    return kind_of(sort, element.classes) if sort is not None else None


def places(document: pf.Doc, source: Source | None) -> Mapping[int, Mark]:
    """The mark of every element of ours that the source shows, by Python's identity of the element.

    Args:
        document: pandoc's tree as it was read.
        source: the text it was read from; None where it is not known, as in a filter.
    """
    if source is None:
        return {}
    from ..sources import match, scan_markdown  # Here: a filter has no raw text.

    twins = _twins(document)
    ours: list[tuple[pf.Element, Kind]] = [
        (element, found)
        for element in in_order(document)
        if id(element) not in twins and (found := kind(element)) is not None
    ]
    marks = match(
        scan_markdown(source),
        [(found, _text(element)) for element, found in ours],
        [_attributes(element) for element, _ in ours],
    )
    placed = {id(element): mark for (element, _), mark in zip(ours, marks, strict=True) if mark is not None}
    return placed | {twin: placed[typed] for twin, typed in twins.items() if typed in placed}


def _twins(document: pf.Doc) -> dict[int, int]:
    """Elements that pandoc makes a second time, each with the one that was typed.

    A figure's caption is the description of its picture as well.
    """
    twins: dict[int, int] = {}
    for figure in in_order(document):
        if not isinstance(figure, pf.Figure):
            continue
        pictures = [inner for inner in in_order(list(figure.content)) if isinstance(inner, pf.Image)]
        typed = [element for element in in_order(figure.caption) if kind(element) is not None]
        copies = [
            element for picture in pictures for element in in_order(picture) if kind(element) is not None
        ]
        if len(pictures) == 1 and [_text(copy) for copy in copies] == [_text(element) for element in typed]:
            twins |= {id(copy): id(element) for copy, element in zip(copies, typed, strict=True)}
    return twins


def _attributes(element: pf.Element) -> str:
    return attribute_text(element.classes, element.attributes.items())


def _text(element: pf.Element) -> str:
    if isinstance(element, pf.CodeBlock | pf.Code):
        return str(element.text)
    if isinstance(element, pf.Span):
        return plain_text(element.content)
    return _attributes(element)
