"""Room 1 of the document side: the body of a block, from text to keys and texts that know their places.

What may live here: the frozen tree of a block, its strict reading, and the questions one asks of it (may this
key stand here, is this a list). It is the door to the nestedtext library. What a key means is not known here.
"""

from .block import Block, BlockPlace, Value
from .reading import LARGEST_BODY, LARGEST_DEPTH, read_block
from .shape import expect, items_of, keys_of, text_of, texts_of

__all__ = [
    "LARGEST_BODY",
    "LARGEST_DEPTH",
    "Block",
    "BlockPlace",
    "Value",
    "expect",
    "items_of",
    "keys_of",
    "read_block",
    "text_of",
    "texts_of",
]
