"""Documents in LaTeX: the scan of their raw text, and the files that they read."""

from .flat import flatten_tex
from .found import Item, TexScan
from .scan import scan_tex, tex_settings
from .woven import Woven, weave

__all__ = [
    "Item",
    "TexScan",
    "Woven",
    "flatten_tex",
    "scan_tex",
    "tex_settings",
    "weave",
]
