"""Room 1 of the document side: a source file's text, and where in it everything of ours stands.

Pandoc's readers give no places, so the raw text is scanned for what may be a block, a typed value or a
question, and pandoc's elements are matched to these marks by order and text. Pandoc decides what an element
is; the scan only has to find its place, so it may well find too much.

What may live here: reading of a file, offsets and places, the scan of raw text, matching, and writing values
over typed ones without touching another byte. What a value means is not known here.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from ..problems import TEX_ENDINGS
from .attributes import Attributes, read_attributes
from .front_matter import FrontMatter, front_matter, refuse_aliases
from .marks import CLASSES, KINDS, UNTIED, Kind, Mark, attribute_text, kind_of
from .mathematics import MATHS
from .source import LARGEST_FILE, Edit, Source, is_tex, read_bytes, read_source, splice
from .tex_text import script, tex_text, upright_text

if TYPE_CHECKING:
    from .flat import Flat, flatten
    from .matching import align, match
    from .quantities import GAP, Quantity, find_numbers, find_quantities
    from .scan import scan_markdown
    from .shadows import dark_stretches
    from .tex import (
        Item,
        Look,
        TexScan,
        Woven,
        flatten_tex,
        look_at,
        plain_lines,
        scan_tex,
        tex_settings,
        weave,
    )
    from .typed import MARKUP, direction_words, typed_stretch, with_number

#: What a run of the filter, which has no raw text, does without, by the module that has it.
_LATER = {
    "flat": ("Flat", "flatten"),
    "matching": ("align", "match"),
    "quantities": ("GAP", "Quantity", "find_numbers", "find_quantities"),
    "scan": ("scan_markdown",),
    "shadows": ("dark_stretches",),
    "typed": ("MARKUP", "typed_stretch", "with_number", "direction_words"),
    "tex": (
        "Item",
        "Look",
        "TexScan",
        "Woven",
        "flatten_tex",
        "look_at",
        "plain_lines",
        "scan_tex",
        "tex_settings",
        "weave",
    ),
}
_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "CLASSES",
    "GAP",
    "KINDS",
    "LARGEST_FILE",
    "MARKUP",
    "MATHS",
    "TEX_ENDINGS",
    "UNTIED",
    "Attributes",
    "Edit",
    "Flat",
    "FrontMatter",
    "Item",
    "Kind",
    "Look",
    "Mark",
    "Quantity",
    "Source",
    "TexScan",
    "Woven",
    "align",
    "attribute_text",
    "dark_stretches",
    "direction_words",
    "find_numbers",
    "find_quantities",
    "flatten",
    "flatten_tex",
    "front_matter",
    "is_tex",
    "kind_of",
    "look_at",
    "match",
    "plain_lines",
    "read_attributes",
    "read_bytes",
    "read_source",
    "refuse_aliases",
    "scan_markdown",
    "scan_tex",
    "script",
    "splice",
    "tex_settings",
    "tex_text",
    "typed_stretch",
    "upright_text",
    "weave",
    "with_number",
]


def __getattr__(name: str) -> object:
    # Imported when it is asked for.
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_MODULES[name]}", __name__), name)
