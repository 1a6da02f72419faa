"""Room 4 of the document side: problems become text for a person or for a program.

What may live here: how a problem and its place look on a terminal, and the formats that other programs read,
one module each and one row in `formats`. Nothing here prints: the commands do.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from .found import Found, Lines
from .picture import picture
from .pieces import Format, Piece, Tally, piece_of
from .terminal import AsText, as_text, count_text
from .wording import clean

if TYPE_CHECKING:
    from .formats import FORMATS
    from .weights import WEIGHTS, Weighed, weights_text

#: What few runs need, by the module that has it.
_LATER = {
    "formats": ("FORMATS",),
    "weights": ("WEIGHTS", "Weighed", "weights_text"),
}
_MODULES = {name: module for module, names in _LATER.items() for name in names}

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


def __getattr__(name: str) -> object:
    # Imported when it is asked for.
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_MODULES[name]}", __name__), name)
