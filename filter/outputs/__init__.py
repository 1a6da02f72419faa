"""Room 4, outputs: a finished tree becomes a file, through pandoc and Typst.

What may live here: runs of pandoc and Typst, the page around the content (templates, style sheets, the
reference document for Word), the problems of writing, and outputs that were made before. What a page says and where a
mark stands is decided in `editions`.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from .kept import Built, remembered
from .kinds import ENDINGS, Kind, kind_of
from .target import allow, put

if TYPE_CHECKING:
    from .writing import content_of, write

__all__ = ["ENDINGS", "Built", "Kind", "allow", "content_of", "kind_of", "put", "remembered", "write"]


def __getattr__(name: str) -> object:
    # With these comes the whole program, which a run that finds its output made does without.
    if name not in ("content_of", "write"):
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(".writing", __name__), name)
