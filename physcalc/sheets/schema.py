"""The JSON Schema of a sheet's file, made from the tables of keys that read it, for editors that check YAML."""

from __future__ import annotations

from typing import Any

from .contents import SHEET_KEYS, SLUG, Keys
from .entries import CONSTANT_KEYS, DEFINITION_KEYS, LAW_KEYS, YES_NO

Schema = dict[str, Any]

# A text is read as it is typed: what a reader of YAML takes for a number or a truth value is one, too.
_TEXT: Schema = {"type": ["string", "number", "boolean"], "minLength": 1}
_TEXTS: Schema = {"anyOf": [_TEXT, {"type": "array", "items": _TEXT, "minItems": 1}]}
_BY_NAME: Schema = {"type": "object", "additionalProperties": _TEXT}
_SHAPES: dict[str, Schema] = {
    "text": _TEXT,
    "texts": _TEXTS,
    "yes-no": {"enum": [True, False, *YES_NO]},
    "by name": _BY_NAME,
}


def sheet_schema() -> Schema:
    """The schema of a sheet's file. What it passes may still be refused: it knows no units and no formulas."""
    slug = {"pattern": f"^(?:{SLUG.pattern})$"}
    topic = {
        "type": "object",
        "properties": {"symbols": {**_BY_NAME, "description": "meanings for all formulas of the topic"}},
        "additionalProperties": _entry(LAW_KEYS),
        "propertyNames": slug,
    }
    entries: dict[str, Schema] = {
        "constants": {"type": "object", "additionalProperties": _entry(CONSTANT_KEYS)},
        "formulas": {"type": "object", "additionalProperties": topic},
        "definitions": {
            "type": "object",
            "additionalProperties": _entry(DEFINITION_KEYS),
            "propertyNames": slug,
        },
    }
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Data and formula sheet",
        **_entry(SHEET_KEYS, entries),
    }


def _entry(keys: Keys, entries: dict[str, Schema] | None = None) -> Schema:
    """The schema of a table with these keys.

    Args:
        keys: the keys.
        entries: what stands under those whose shape is "entries".
    """
    properties = {
        name: {
            "description": key.what,
            **((entries or {})[name] if key.shape == "entries" else _SHAPES[key.shape]),
        }
        for name, key in keys.items()
    }
    schema: Schema = {"type": "object", "properties": properties, "additionalProperties": False}
    if required := [name for name, key in keys.items() if key.needed]:
        schema["required"] = required
    return schema
