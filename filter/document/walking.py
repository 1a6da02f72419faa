"""Walking pandoc's tree in the order of the document; panflute's own walk visits children before parents."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

import panflute as pf
from panflute.containers import ListContainer


def in_order(element: Any) -> Iterator[pf.Element]:
    """The element and all below it, parents before children, without the document's metadata.

    Args:
        element: an element of panflute, or a list of them.
    """
    # A stack of our own: documents may be nested deeper than Python's recursion goes.
    stack: list[Any] = [element]
    while stack:
        top = stack.pop()
        if isinstance(top, pf.Element):
            yield top
            if _names(top.__class__):  # Most elements are words.
                stack += reversed(parts_of(top))
        elif top is not None:
            stack += reversed(held_in(top))


def parts_of(element: pf.Element) -> list[Any]:
    """What an element holds, in order: lists of elements and single elements."""
    # A table's and a figure's caption stands above its body in the source as often as below; pandoc's own
    # order is kept.
    return [part for name in _names(element.__class__) if (part := getattr(element, name)) is not None]


@cache
def _names(sort: type[pf.Element]) -> tuple[str, ...]:
    """Under which names elements of a sort hold others."""
    return tuple(name for name in sort._children if name != "metadata")


def held_in(holder: Any) -> list[Any]:
    """The elements of a list, panflute's or Python's. Panflute's own notes at each who holds it, which we never ask."""
    return holder.list if isinstance(holder, ListContainer) else list(holder)


def blocks_in(element: pf.Element) -> bool:
    """Whether an element holds blocks directly, in a list called `content`."""
    return isinstance(
        element, pf.Doc | pf.Div | pf.BlockQuote | pf.ListItem | pf.Definition | pf.Note | pf.TableCell
    )


def deepest(element: Any) -> int:
    """How many elements stand inside one another at the deepest place."""
    depth = 0
    stack: list[tuple[Any, int]] = [(element, 0)]
    while stack:
        top, level = stack.pop()
        if isinstance(top, pf.Element):
            depth = max(depth, level + 1)
            if _names(top.__class__):
                stack += [(part, level + 1) for part in parts_of(top)]
        elif top is not None:
            stack += [(inner, level) for inner in held_in(top)]
    return depth
