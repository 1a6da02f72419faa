"""The keys of a field."""

from __future__ import annotations

from physcalc.figures.situation_reading import FieldText
from physcalc.language import Conventions

from ...blocks import Block
from .reading import BodyReader

KEYS = ("field", "lines", "equipotentials", "values")


def read(reader: BodyReader, block: Block, conventions: Conventions) -> FieldText:
    """What the block says of the field."""
    return FieldText(
        span=block.span,
        conventions=conventions,
        things=reader.texts(block, "field"),
        lines=reader.text(block, "lines"),
        equipotentials=reader.text(block, "equipotentials"),
        values=reader.text(block, "values"),
    )
