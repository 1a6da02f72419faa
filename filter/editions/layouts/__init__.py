"""Room 3, the pages: one module for each kind of output format, all with the same parts.

What may live here: pandoc elements for the parts of a page, and the macros that they call in the format
itself (`parts.typ`, `parts.tex`, `parts.css`). No text is decided here and nothing is computed.
"""

from .base import Layout, Note, Option, Row
from .docx import DocxLayout
from .html import HtmlLayout
from .latex import LatexLayout
from .plain import PlainLayout
from .typst import TypstLayout

__all__ = [
    "DocxLayout", "HtmlLayout", "LatexLayout", "Layout", "Note", "Option", "PlainLayout", "Row", "TypstLayout",
]  # fmt: skip
