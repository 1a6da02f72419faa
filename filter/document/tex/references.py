"""References to questions: `\\label` in a question and `\\ref` to it, which pandoc's reader leaves open."""

from __future__ import annotations

import panflute as pf

from ..walking import in_order, parts_of


def set_references(document: pf.Doc) -> None:
    """Lets every reference to the label of a question show the question's number.

    Args:
        document: pandoc's tree; changed.
    """
    numbers: dict[str, tuple[str, str]] = {}
    stack: list[tuple[object, pf.Div | None, str, list[int]]] = [(document, None, "", [0])]
    while stack:
        top, question, number, count = stack.pop()
        if isinstance(top, pf.Div) and "question" in top.classes:
            count[0] += 1
            question, number, count = top, f"{number}{count[0]}", [0]
            inside = number + "."
            _title_label(top, number, numbers)
        else:
            inside = number
        label = top.attributes.get("label", "") if isinstance(top, pf.Span) else ""
        if label and question is not None and isinstance(top, pf.Span):
            question.identifier = question.identifier or label
            numbers[label] = (number.rstrip("."), question.identifier)
            top.identifier = "" if question.identifier == label else top.identifier
        held = parts_of(top) if isinstance(top, pf.Element) else list(top)  # type: ignore[call-overload]
        stack += [(part, question, inside, count) for part in reversed(held) if part is not None]
    for element in in_order(document):
        if isinstance(element, pf.Link) and (target := numbers.get(element.attributes.get("reference", ""))):
            element.content = [pf.Str(target[0])]
            element.url = f"#{target[1]}"
    _drop_labels(document, frozenset(numbers))


def _title_label(question: pf.Div, number: str, numbers: dict[str, tuple[str, str]]) -> None:
    """Pandoc takes a label that follows a heading for the heading's own id."""
    first = question.content[0] if question.content else None
    if isinstance(first, pf.Header) and first.identifier:
        question.identifier = question.identifier or first.identifier
        numbers[first.identifier] = (number, question.identifier)
    if isinstance(first, pf.Header):
        first.identifier = question.identifier  # As the heading of a question has it in Markdown.


def _drop_labels(document: pf.Doc, labels: frozenset[str]) -> None:
    """Takes away the empty spans of labels, and the paragraphs that hold nothing else."""
    for element in list(in_order(document)):
        held = getattr(element, "content", None)
        if not isinstance(held, pf.ListContainer):
            continue
        kept = [one for one in held if not (_is_label(one, labels) or _only_label(one, labels))]
        if len(kept) != len(held):
            while kept and isinstance(kept[0], pf.Space | pf.SoftBreak):
                del kept[0]
            element.content = kept


def _is_label(one: object, labels: frozenset[str]) -> bool:
    return isinstance(one, pf.Span) and not one.content and one.attributes.get("label", "") in labels


def _only_label(one: object, labels: frozenset[str]) -> bool:
    if not isinstance(one, pf.Para | pf.Plain) or not one.content:
        return False
    return all(
        _is_label(inner, labels) or isinstance(inner, pf.Space | pf.SoftBreak) for inner in one.content
    ) and any(_is_label(inner, labels) for inner in one.content)
