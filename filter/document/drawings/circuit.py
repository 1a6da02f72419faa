"""The keys of a circuit."""

from __future__ import annotations

from physcalc.figures.circuit_parts import CircuitText
from physcalc.language import Conventions

from ...blocks import Block
from .reading import BodyReader

KEYS = ("circuit", "at", "names", "labels", "currents", "nodes")


def read(reader: BodyReader, block: Block, conventions: Conventions) -> CircuitText:
    """What the block says of the circuit."""
    return CircuitText(
        span=block.span,
        conventions=conventions,
        lines=reader.texts(block, "circuit"),
        at=reader.pairs(block, "at"),
        names=reader.pairs(block, "names"),
        labels=reader.text(block, "labels"),
        currents=reader.text(block, "currents"),
        nodes=reader.text(block, "nodes"),
    )
