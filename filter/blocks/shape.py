"""Questions to a block: which keys it may have, and what shape a key's value has."""

from __future__ import annotations

from collections.abc import Collection

from physcalc.problems import Problem, Text, nearest

from ..problems import KeyShape, KeyUnknown
from .block import Block, Value


def expect(block: Block, allowed: Collection[str]) -> list[Problem]:
    """A problem for every key of `block` (not of what is nested in it) that is not in `allowed`."""
    known = tuple(allowed)
    return [
        KeyUnknown(key.span, key.value, nearest(key.value, known), known)
        for key, _ in block
        if key.value not in known
    ]


def text_of(key: Text, value: Value) -> Text:
    """The one text that a key holds.

    Raises:
        KeyShape: it holds a list or keys.
    """
    if isinstance(value, Text):
        return value
    raise KeyShape(key.span, key.value, "text")


def texts_of(key: Text, value: Value) -> tuple[Text, ...]:
    """The texts that a key holds, on its line or as a list below it.

    Raises:
        KeyShape: it holds keys, or an item of its list is no text.
    """
    if isinstance(value, Text):
        return (value,)
    if isinstance(value, tuple):
        texts = tuple(item for item in value if isinstance(item, Text))
        if len(texts) == len(value):
            return texts
    raise KeyShape(key.span, key.value, "texts")


def keys_of(key: Text, value: Value) -> Block:
    """The keys below a key.

    Raises:
        KeyShape: it holds a text or a list.
    """
    if isinstance(value, Block):
        return value
    raise KeyShape(key.span, key.value, "keys")


def items_of(key: Text, value: Value) -> tuple[Block, ...]:
    """The items of the list below a key, each with keys of its own.

    Raises:
        KeyShape: it holds no list, or an item of it holds no keys (then the place is the item's, if a text).
    """
    if not isinstance(value, tuple):
        raise KeyShape(key.span, key.value, "items")
    for item in value:
        if not isinstance(item, Block):
            raise KeyShape(item.span if isinstance(item, Text) else key.span, key.value, "items")
    return tuple(item for item in value if isinstance(item, Block))
