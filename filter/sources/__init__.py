"""Room 1 of the document side: a source file's text, and where in it everything of ours stands.

Pandoc's readers give no places, so the raw text is scanned for what may be a block, a typed value or a
question, and pandoc's elements are matched to these marks by order and text. Pandoc decides what an element
is; the scan only has to find its place, so it may well find too much.

What may live here: reading of a file, offsets and places, the scan of raw text, matching, and writing values
over typed ones without touching another byte. What a value means is not known here.
"""

from .attributes import Attributes, read_attributes
from .front_matter import FrontMatter, front_matter
from .marks import KINDS, Kind, Mark, attribute_text, kind_of
from .matching import match
from .scan import scan_markdown
from .source import LARGEST_FILE, Edit, Source, read_source, splice

__all__ = [
    "KINDS",
    "LARGEST_FILE",
    "Attributes",
    "Edit",
    "FrontMatter",
    "Kind",
    "Mark",
    "Source",
    "attribute_text",
    "front_matter",
    "kind_of",
    "match",
    "read_attributes",
    "read_source",
    "scan_markdown",
    "splice",
]
