"""Room 4 of the document side: problems become text for a person or for a program.

What may live here: how a problem and its place look on a terminal, and the formats that other programs read,
one module each and one row in `formats`. Nothing here prints: the commands do.
"""

from .formats import FORMATS
from .found import Found, Lines
from .picture import picture
from .pieces import Format, Piece, Tally, piece_of
from .terminal import AsText, as_text, count_text
from .weights import WEIGHTS, Weighed, weights_text
from .wording import clean

__all__ = [
    "FORMATS",
    "WEIGHTS",
    "AsText",
    "Format",
    "Found",
    "Lines",
    "Piece",
    "Tally",
    "Weighed",
    "as_text",
    "clean",
    "count_text",
    "picture",
    "piece_of",
    "weights_text",
]
