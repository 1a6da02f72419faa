"""Lists whose items are questions: LaTeX counts them, and so do we."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import panflute as pf

from ...problems import TexItemsNoQuestions
from ...sources import Mark
from ..walking import held_in, in_order, parts_of

_BLOCKS = frozenset({"given", "calc", "options"})


def set_items(document: pf.Doc, marks: Mapping[int, Mark]) -> list[TexItemsNoQuestions]:
    """Takes away numbered lists that do nothing but number questions, which have numbers of their own.

    Args:
        document: pandoc's tree; changed.
        marks: the mark of each element of ours, by its identity.

    Returns:
        A note for each list whose items hold blocks and are no questions.
    """
    for element in list(in_order(document)):
        held = getattr(element, "content", None)
        if isinstance(held, pf.ListContainer) and any(_numbers_questions(one, marks) for one in held.list):
            element.content = list(_spliced(held.list, marks))
    notes: list[TexItemsNoQuestions] = []
    told: set[int] = set()
    for element in in_order(document):
        if not isinstance(element, pf.OrderedList) or id(element) in told:
            continue
        first = [mark for item in held_in(element.content) if (mark := _block(item, marks)) is not None]
        if len(first) > 1:
            told.update(id(inner) for inner in in_order(element) if isinstance(inner, pf.OrderedList))
            notes.append(TexItemsNoQuestions(first[0].span))
    return notes


def _numbers_questions(element: object, marks: Mapping[int, Mark]) -> bool:
    return isinstance(element, pf.OrderedList) and all(
        any(_is_question(block, marks) for block in held_in(item.content))
        for item in held_in(element.content)
    )


def _spliced(elements: list[pf.Element], marks: Mapping[int, Mark]) -> Iterator[pf.Element]:
    for one in elements:
        if _numbers_questions(one, marks):
            for item in held_in(one.content):
                yield from _spliced(held_in(item.content), marks)
        else:
            yield one


def _is_question(element: object, marks: Mapping[int, Mark]) -> bool:
    mark = marks.get(id(element))
    return mark is not None and mark.kind == "question"


def _block(item: pf.Element, marks: Mapping[int, Mark]) -> Mark | None:
    """The first block of an item that stands in no question inside of it."""
    stack: list[object] = [item]
    while stack:
        top = stack.pop()
        mark = marks.get(id(top))
        if mark is not None and mark.kind in _BLOCKS:
            return mark
        if mark is not None and mark.kind == "question":
            continue
        if isinstance(top, pf.Element):
            stack += reversed(parts_of(top))
        elif top is not None:
            stack += reversed(held_in(top))
    return None
