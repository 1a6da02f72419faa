"""Sections below the headings of questions, gathered into divs, so that every question is one element."""

from __future__ import annotations

import panflute as pf

from .walking import blocks_in, in_order


def gather_sections(document: pf.Doc) -> None:
    """Put every heading with class `question` and the section below it into a div; changes the tree.

    A section ends at the next heading of the same or a higher level in the same list of blocks. The div takes
    the heading's classes, attributes and id; the heading keeps its id, so that links still reach it.
    """
    for holder in [element for element in in_order(document) if blocks_in(element)]:
        blocks = list(holder.content)
        if any(_asks(block) for block in blocks):
            holder.content = _gathered(blocks)


def is_section(element: pf.Element) -> bool:
    """Whether a div stands for the section of a heading that `gather_sections` put into it."""
    return bool(
        isinstance(element, pf.Div)
        and element.content
        and isinstance(element.content[0], pf.Header)
        and "question" in element.classes
        and element.identifier == element.content[0].identifier
    )


def _asks(block: pf.Element) -> bool:
    return isinstance(block, pf.Header) and "question" in block.classes


def _gathered(blocks: list[pf.Element]) -> list[pf.Element]:
    # Open sections, the innermost last, each with the level of its heading; the first list is the result.
    result: list[pf.Element] = []
    opened: list[tuple[int, list[pf.Element]]] = [(0, result)]

    def close() -> None:
        _, section = opened.pop()
        heading = section[0]
        div = pf.Div(
            *section, identifier=heading.identifier, classes=heading.classes, attributes=heading.attributes
        )
        heading.classes = [name for name in heading.classes if name != "question"]
        heading.attributes = {}
        opened[-1][1].append(div)

    for block in blocks:
        if isinstance(block, pf.Header):
            while len(opened) > 1 and opened[-1][0] >= block.level:
                close()
            if _asks(block):
                opened.append((block.level, []))
        opened[-1][1].append(block)
    while len(opened) > 1:
        close()
    return result
