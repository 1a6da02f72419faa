"""Room 4, outputs: a finished tree becomes a file, through pandoc and Typst.

What may live here: runs of pandoc and Typst, the page around the content (templates, style sheets, the
reference document for Word), and the problems of writing. What a page says and where a mark stands is decided
in `editions`.
"""

from .kinds import ENDINGS, Kind, kind_of
from .write import write

__all__ = ["ENDINGS", "Kind", "kind_of", "write"]
