"""The JSON Schema of front matter, made from the table that reads it, for editors that check YAML."""

from __future__ import annotations

from typing import Any

from .table import NUMBERS, TABLE, Row

#: The draft of JSON Schema that the schemas are written in.
DRAFT = "https://json-schema.org/draft/2020-12/schema"


def front_matter_schema() -> dict[str, Any]:
    """The schema of a document's front matter.

    What stands beside `physcalc` belongs to pandoc and is left alone, but for the keys that pages are made from.
    """
    settings = {name: _property(row) for name, row in TABLE.items()}
    settings["numbers"] = {
        "description": "how numbers are written",
        "type": "object",
        "properties": {name: _property(row) for name, row in NUMBERS.items()},
        "additionalProperties": False,
    }
    return {
        "$schema": DRAFT,
        "title": "Front matter of a calculation document",
        "type": "object",
        "properties": {
            "title": {"description": "the name of the paper or chapter", "type": ["string", "number"]},
            "lang": _property(TABLE["lang"]),
            "date": {"description": "when the paper is written; 2026-11-05 is put in order by physcalc grid"},
            "time": {"description": "the time that is allowed", "type": ["string", "number"]},
            "instructions": {"description": "what candidates are told"},
            "physcalc": {
                "description": "settings of the document",
                "type": "object",
                "properties": settings,
                "additionalProperties": False,
            },
        },
    }


def _property(row: Row) -> dict[str, Any]:
    return {"description": f"{row.what} ({row.allowed})", **row.schema}
