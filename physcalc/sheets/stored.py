"""Built-in sheets as they were read once: to read their YAML anew would take longer than many a document.

The JSON beside each YAML file is written by `storing`. Rows are made when they are asked for, with their places in the
YAML.
"""

from __future__ import annotations

import json
from functools import partial
from pathlib import Path
from typing import Any

from ..problems import Span, Text
from .contents import Contents, LawRow
from .nodes import Listing, Node, Row, Scalar, Table
from .sheet import Lazy

BUILTIN = Path(__file__).with_name("builtin")


def stored_contents(name: str) -> Contents:
    """What a built-in sheet's own file holds.

    Args:
        name: the sheet's name: "school".
    """
    held = json.loads((BUILTIN / f"{name}.json").read_text(encoding="utf-8"))
    file = f"{name}.yaml"
    topics = {
        topic: {key: _text(text, file) for key, text in meanings.items()}
        for topic, meanings in held["topics"].items()
    }

    def row(kind: str, key: str) -> Row:
        return _row(held[kind][key], file)

    def law(slug: str) -> LawRow:
        topic, found = held["laws"][slug]
        return LawRow(topic, topics[topic], _row(found, file))

    return Contents(
        held["title"],
        _text(held["extends"], file) if held["extends"] else None,
        Lazy(partial(tuple, held["constants"]), partial(row, "constants")),
        topics,
        Lazy(partial(tuple, held["laws"]), law),
        Lazy(partial(tuple, held["definitions"]), partial(row, "definitions")),
    )


# A text is [its characters, line, column, length], a row [its key, its value]. A list and a table have their place
# first: [line, column, length, "list" or "table", items or rows].


def _text(held: list[Any], file: str) -> Text:
    value, line, column, length = held
    return Text(value, Span(file, line, column, length))


def _row(held: list[Any], file: str) -> Row:
    key, value = held
    return Row(_text(key, file), _node(value, file))


def _node(held: list[Any], file: str) -> Node:
    if len(held) == 4:
        return Scalar(_text(held, file))
    line, column, length, shape, inner = held
    span = Span(file, line, column, length)
    if shape == "list":
        return Listing(tuple(_node(item, file) for item in inner), span)
    return Table(tuple(_row(row, file) for row in inner), span)
