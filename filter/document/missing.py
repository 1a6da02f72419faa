"""Which names are missing because what would have given or found them is wrong itself."""

from __future__ import annotations

from collections.abc import Iterable

from physcalc.checking.scope import Layer
from physcalc.language import GivenText, read_name
from physcalc.problems import Span

from .tree import Question

#: Stands for every name, where a block of data or a calculation could not be read.
ANY = "*"


def outermost(root: Question, place: Span) -> Question:
    """The outermost question in which a place stands; all there is where nobody knows."""
    before = [
        part
        for part in root.parts
        if isinstance(part, Question) and place.file and part.span.line <= place.line
    ]
    return before[-1] if before else root


def unread_names(items: Iterable[GivenText], layer: Layer) -> set[str]:
    """The names of lines that led to no value."""
    typed = {item.name.value.strip() for item in items}
    names = {word: read_name(word) for word in typed}
    if None in names.values():
        return {ANY}  # Nobody knows which name was meant.
    return {name.key for name in names.values() if name is not None} - {name.key for name in layer}
