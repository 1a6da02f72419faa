"""The keys of a graph."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import get_args

from physcalc.figures.graph_diagram import FOUND_KEYS, FoundKind, GraphText, SeriesText
from physcalc.language import Conventions
from physcalc.problems import Text

from ...blocks import Block, expect, keys_of
from .reading import BodyReader

#: What may be said of one set of data: beside the graph where there is one, below each name of `series` for several.
_SERIES = ("points", "pieces", "curve", "fit", "triangle", "worst lines", "mark", "table", *FOUND_KEYS)
KEYS = ("graph", "x axis", "y axis", "series", *_SERIES)


#: A comma with the name of a quantity behind it.
_COMMA = re.compile(r",\s+(?=[^\W\d])")


def read(reader: BodyReader, block: Block, conventions: Conventions) -> GraphText:
    """What the block says of the graph."""
    series = []
    if any(key in block for key in _SERIES) or "series" not in block:
        series.append(_series(reader, block))
    several = reader.of(block, "series", keys_of)
    for name, _ in several or ():
        item = reader.of(several, name.value, keys_of) if several is not None else None
        if item is not None:
            for problem in expect(item, _SERIES):
                reader.problem(problem)
            series.append(_series(reader, item, name))
    return GraphText(
        span=block.span,
        conventions=conventions,
        graph=reader.text(block, "graph") or Text("", block.span),
        series=tuple(series),
        x_axis=reader.text(block, "x axis"),
        y_axis=reader.text(block, "y axis"),
    )


def _series(reader: BodyReader, block: Block, name: Text | None = None) -> SeriesText:
    return SeriesText(
        span=block.span,
        name=name,
        points=reader.texts(block, "points"),
        pieces=reader.pairs(block, "pieces"),
        curves=reader.texts(block, "curve"),
        fit=reader.text(block, "fit"),
        found=_found(reader, block),
        triangle=reader.text(block, "triangle"),
        worst=reader.text(block, "worst lines"),
        mark=reader.text(block, "mark"),
        table=reader.text(block, "table"),
    )


def _found(reader: BodyReader, block: Block) -> tuple[tuple[FoundKind, Text], ...]:
    found: list[tuple[FoundKind, Text]] = []
    for kind in get_args(FoundKind):
        found += [(kind, one) for text in reader.texts(block, kind) for one in _parted(text)]
    return tuple(found)


def _parted(text: Text) -> Iterator[Text]:
    """Several quantities on one line, with commas between: `v_1 from 0 s to 4 s, v_2 from 6 s to 8 s`."""
    start = 0
    for comma in _COMMA.finditer(text.value):
        yield text.part(start, comma.start())
        start = comma.end()
    yield text.part(start) if start else text
