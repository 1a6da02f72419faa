"""The JSON beside a built-in sheet's YAML, as `stored` reads it.

`python -m physcalc.sheets.storing` writes it; do so after every change of a built-in sheet.
"""

from __future__ import annotations

import json
from typing import Any

from ..problems import Text
from .contents import contents_of, raising
from .nodes import Listing, Node, Row, Scalar, read_nodes
from .stored import BUILTIN


def stored(name: str) -> str:
    """What the JSON beside a built-in sheet's file has to hold."""
    source = (BUILTIN / f"{name}.yaml").read_text(encoding="utf-8")
    contents = contents_of(read_nodes(source, f"{name}.yaml"), raising)
    held = {
        "title": contents.title,
        "extends": _of_text(contents.extends) if contents.extends is not None else None,
        "constants": {key: _of_row(row) for key, row in contents.constants.items()},
        "topics": {
            topic: {key: _of_text(text) for key, text in meanings.items()}
            for topic, meanings in contents.topics.items()
        },
        "laws": {slug: [law.topic, _of_row(law.row)] for slug, law in contents.laws.items()},
        "definitions": {slug: _of_row(row) for slug, row in contents.definitions.items()},
    }
    return json.dumps(held, ensure_ascii=True, separators=(",", ":")) + "\n"


def _of_text(text: Text) -> list[Any]:
    return [text.value, text.span.line, text.span.column, text.span.length]


def _of_row(row: Row) -> list[Any]:
    return [_of_text(row.key), _of_node(row.value)]


def _of_node(node: Node) -> list[Any]:
    place = [node.span.line, node.span.column, node.span.length]
    if isinstance(node, Scalar):
        return _of_text(node.text)
    if isinstance(node, Listing):
        return [*place, "list", [_of_node(item) for item in node.items]]
    return [*place, "table", [_of_row(row) for row in node.rows]]


if __name__ == "__main__":
    for found in BUILTIN.glob("*.yaml"):
        found.with_suffix(".json").write_text(stored(found.stem), encoding="utf-8")
