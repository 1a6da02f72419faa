"""Sections below headings of ours, gathered into divs, so that every question is one element."""

from __future__ import annotations

import panflute as pf

from .walking import blocks_in, in_order

#: The classes that a heading carries for the section below it.
_CARRIED = frozenset({"question", "answer", "only", "grid"})


def gather_sections(document: pf.Doc) -> dict[int, pf.Header]:
    """Put every heading with class `question`, `answer`, `only` or `grid` and the section below it into a div.

    A section ends at the next heading of the same or a higher level in the same list of blocks. The div takes
    the heading's classes, attributes and id; the heading keeps its id, so that links still reach it.

    Args:
        document: pandoc's tree; changed.

    Returns:
        The heading of each div that was made, by Python's identity of the div.
    """
    made: dict[int, pf.Header] = {}
    for holder in [element for element in in_order(document) if blocks_in(element)]:
        blocks = list(holder.content)
        if any(_begins(block) for block in blocks):
            holder.content = _gathered(blocks, made)
    return made


def _begins(block: pf.Element) -> bool:
    return isinstance(block, pf.Header) and not _CARRIED.isdisjoint(block.classes)


def _gathered(blocks: list[pf.Element], made: dict[int, pf.Header]) -> list[pf.Element]:
    # Open sections, the innermost last, each with the level of its heading; the first list is the result.
    result: list[pf.Element] = []
    opened: list[tuple[int, list[pf.Element]]] = [(0, result)]

    def close() -> None:
        _, section = opened.pop()
        heading = section[0]
        div = pf.Div(
            *section, identifier=heading.identifier, classes=heading.classes, attributes=heading.attributes
        )
        made[id(div)] = heading
        heading.classes = [name for name in heading.classes if name not in _CARRIED]
        heading.attributes = {}
        opened[-1][1].append(div)

    for block in blocks:
        if isinstance(block, pf.Header):
            while len(opened) > 1 and opened[-1][0] >= block.level:
                close()
            if _begins(block):
                opened.append((block.level, []))
        opened[-1][1].append(block)
    while len(opened) > 1:
        close()
    return result
