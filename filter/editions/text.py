"""Plain strings as inline elements."""

from __future__ import annotations

import re
from collections.abc import Sequence

import panflute as pf

from .layouts.base import Block, Inline


def inlines_of(text: str) -> list[Inline]:
    """A text as words with spaces between them; blanks that do not break stay in the words."""
    inlines: list[Inline] = []
    for piece in re.split(r"([ \n]+)", text):
        if piece.strip(" \n"):
            inlines.append(pf.Str(piece))
        elif piece:
            inlines.append(pf.Space())
    return inlines


def is_blank(inlines: Sequence[Inline]) -> bool:
    """Whether nothing but blanks and punctuation is left of a paragraph."""
    for inline in inlines:
        if isinstance(inline, pf.Math | pf.Image | pf.RawInline | pf.Code | pf.Note):
            return False
        if isinstance(inline, pf.Str) and any(sign.isalnum() for sign in inline.text):
            return False
        if not is_blank(getattr(inline, "content", ())):
            return False
    return True


def is_comment(element: pf.Element) -> bool:
    """Whether an element is a comment in HTML: an author's note to himself, which may name an answer."""
    return isinstance(element, pf.RawBlock | pf.RawInline) and element.text.lstrip().startswith("<!--")


def at_the_end(blocks: list[Block], inlines: Sequence[Inline]) -> list[Block]:
    """The blocks with inlines after the last word, in a paragraph of their own where the last is none."""
    if not inlines:
        return blocks
    if blocks and isinstance(blocks[-1], pf.Para | pf.Plain):
        last = blocks[-1]
        last.content = [*last.content, *inlines]
        return blocks
    return [*blocks, pf.Para(*inlines)]
