"""Lines that took long to compute, kept for the next build."""

from __future__ import annotations

import json
import math
from collections.abc import Callable
from typing import Any

from ..cache import Key, opened, stamp
from .picture import Point

#: Several groups of lines, each line its points.
Groups = list[list[list[Point]]]
#: What these lines are called in the store.
_KIND = "lines"


def kept(what: tuple[object, ...], make: Callable[[], Groups]) -> Groups:
    """The lines that were made of the same things before; else they are made.

    Args:
        what: everything that the lines are computed from: numbers, texts, and frozen dataclasses and tuples of them.
            Their `repr` stands for them, which for numbers is exact.
        make: makes the lines.
    """
    store = opened()
    if store is None:
        return make()
    key = Key(repr(what), stamp()).digest()
    held = store.get(_KIND, key)
    if held is not None:
        read = _read(held)
        if read is not None:
            return read
    made = make()
    store.put(_KIND, key, json.dumps(made, separators=(",", ":")).encode("ascii"))
    return made


def _read(held: bytes) -> Groups | None:
    try:
        found = json.loads(held)
        return [[[_point(point) for point in line] for line in lines] for lines in found]
    except (ValueError, TypeError, RecursionError):
        return None


def _point(value: Any) -> Point:
    x, y = value
    if not (type(x) is float and type(y) is float and math.isfinite(x) and math.isfinite(y)):
        raise ValueError(value)
    return x, y
