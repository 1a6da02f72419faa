"""The keys of a situation."""

from __future__ import annotations

from physcalc.figures.situation_reading import SituationText
from physcalc.language import Conventions

from ...blocks import Block
from .reading import BodyReader

KEYS = ("situation", "values")


def read(reader: BodyReader, block: Block, conventions: Conventions) -> SituationText:
    """What the block says of the situation."""
    return SituationText(
        span=block.span,
        conventions=conventions,
        lines=reader.texts(block, "situation"),
        values=reader.text(block, "values"),
    )
