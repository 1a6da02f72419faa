"""The keys of a free-body diagram."""

from __future__ import annotations

from physcalc.figures.forces import ForcesText
from physcalc.language import Conventions, GivenText

from ...blocks import Block
from .reading import BodyReader

KEYS = ("forces", "on", "shape", "slope", "key", "balance", "components", "scale", "values")


def read(reader: BodyReader, block: Block, conventions: Conventions) -> ForcesText:
    """What the block says of the forces."""
    return ForcesText(
        span=block.span,
        conventions=conventions,
        forces=tuple(GivenText(name, value) for name, value in reader.pairs(block, "forces")),
        on=reader.text(block, "on"),
        shape=reader.text(block, "shape"),
        slope=reader.text(block, "slope"),
        key=reader.pairs(block, "key"),
        balance=reader.text(block, "balance"),
        components=reader.text(block, "components"),
        scale=reader.text(block, "scale"),
        values=reader.text(block, "values"),
    )
