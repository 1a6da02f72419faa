"""Documents in LaTeX: the scan of their raw text, and the files that they read."""

from .flat import flatten_tex
from .found import Item, TexScan
from .scan import scan_tex, tex_settings
from .woven import ENDINGS, Woven, is_tex, weave

__all__ = [
    "ENDINGS",
    "Item",
    "TexScan",
    "Woven",
    "flatten_tex",
    "is_tex",
    "scan_tex",
    "tex_settings",
    "weave",
]
