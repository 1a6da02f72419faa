"""Documents in LaTeX: the scan of their raw text, and the files that they read."""

from .flat import flatten_tex
from .found import Item, TexScan
from .scan import scan_tex, tex_settings
from .whole import Look, look_at
from .woven import Woven, weave

__all__ = [
    "Item",
    "Look",
    "TexScan",
    "Woven",
    "flatten_tex",
    "look_at",
    "scan_tex",
    "tex_settings",
    "weave",
]
