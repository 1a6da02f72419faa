"""Room 3 of the document side: a paper and its memo in two files, compared question by question.

What may live here: the reading of papers and memos written by hand, the same of documents with blocks, and the
comparison. How a question of ours is worked out is not known here.
"""

from .by_hand import read_by_hand
from .comparing import compare_sides
from .side import Asked, Mark, Side, Stated, Value
from .worked_side import side_of

__all__ = ["Asked", "Mark", "Side", "Stated", "Value", "compare_sides", "read_by_hand", "side_of"]
