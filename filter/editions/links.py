"""Links inside an edition: what those without words say, and none to what the edition does not show."""

from __future__ import annotations

import json
from collections.abc import Mapping

import panflute as pf
from panflute.elements import from_json

from ..document import Question, Worked
from ..document.links import inside_links, places_in
from ..document.walking import in_order
from .text import inlines_of
from .words import Words


def headings_of(worked: Worked) -> dict[str, str]:
    """The words of headings to which links without words lead, by their ids; asked before the edition takes them.

    They are kept as JSON: an element of panflute knows those around it, so that to copy one copies all of them.
    """
    document = worked.tree.document
    wanted = {target for link, target in inside_links(in_order(document)) if not link.content}
    if not wanted:
        return {}
    return {
        element.identifier: json.dumps([word.to_json() for word in element.content])
        for element in in_order(document)
        if isinstance(element, pf.Header) and element.identifier in wanted
    }


def settle_links(document: pf.Doc, worked: Worked, words: Words, headings: Mapping[str, str]) -> None:
    """Put numbers of questions and words of headings into links without words, and take dead links out.

    Args:
        document: the edition; it is changed.
        worked: the document that it was made of.
        words: the words of the page.
        headings: as `headings_of` gives them.
    """
    links = list(inside_links(in_order(document)))
    if not links:
        return
    numbers = {
        question.identifier: worked.tree.numbers[question.key]
        for question in worked.tree.root.walk()
        if isinstance(question, Question) and question.identifier
    }
    known = places_in(in_order(document))
    dead: set[int] = set()
    for link, target in links:
        if not link.content and target in numbers:
            number = numbers[target]
            link.content = inlines_of(number if "." in number else f"{words['question']}\u00a0{number}")
        elif not link.content:
            link.content = json.loads(headings.get(target, "[]"), object_hook=from_json)
        if target not in known:
            dead.add(id(link))
    if dead:
        # They lead to what another edition shows; Typst would set nothing at all.
        document.walk(lambda element, _: list(element.content) if id(element) in dead else None)
