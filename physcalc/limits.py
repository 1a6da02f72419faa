"""Room −1: how much of anything is read or done, so that no document takes all time or memory.

A document cannot change a limit, or it would be none. Whoever runs the program can: by `--limit NAME=VALUE`, or for the
filter and for processes that it starts by the environment variable `PHYSCALC_LIMITS` (`NAME=VALUE,NAME=VALUE`).
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from types import MappingProxyType

VARIABLE = "PHYSCALC_LIMITS"


@dataclass(frozen=True, slots=True)
class Limit:
    """One limit.

    Attributes:
        usual: its value where nobody says another.
        most: the largest value that can be asked for: beyond it the program itself would not hold.
        what: what it limits, for those who ask.
    """

    usual: int
    most: int
    what: str


LIMITS: Mapping[str, Limit] = MappingProxyType(
    {
        "file-size": Limit(2_000_000, 100_000_000, "bytes of a document"),
        "nesting": Limit(60, 120, "lists, quotations and divs inside one another"),
        "aliases": Limit(
            20, 1_000, "aliases in the front matter, each of which repeats what its anchor holds"
        ),
        "blocks": Limit(10_000, 1_000_000, "blocks of ours in a document"),
        "values": Limit(20_000, 1_000_000, "values, definitions and answers in the text of a document"),
        "block-length": Limit(200_000, 5_000_000, "characters of a block"),
        "block-depth": Limit(8, 30, "keys inside one another in a block"),
        "formula-length": Limit(600, 5_000, "characters of a formula"),
        "formula-depth": Limit(40, 100, "brackets, powers or roots inside one another in a formula"),
        "unknowns": Limit(24, 200, "unknowns of a set of formulas"),
        "digits": Limit(100, 1_000, "digits of a typed number"),
        "exponent": Limit(400, 4_000, "the largest power of ten of a typed number, either way"),
        "root-combinations": Limit(
            64, 10_000, "combinations of roots of a set of formulas that are followed"
        ),
        "choices": Limit(
            64, 10_000, "combinations of customary values of constants that are tried for what is accepted"
        ),
        "work": Limit(60_000, 10**9, "arithmetic of one calculation, in operations on 60 digits"),
        "document-work": Limit(300_000, 10**10, "arithmetic of all calculations of a document"),
        "sheet-length": Limit(1_000_000, 20_000_000, "characters of a sheet"),
        "graph-points": Limit(2_000, 20_000, "points of a graph"),
        "tex-files": Limit(200, 5_000, "files that a document in LaTeX reads"),
        "tex-depth": Limit(12, 50, "such files inside one another"),
        "tex-entries": Limit(20_000, 1_000_000, "entries that a run of TeX writes for us"),
        "word-size": Limit(20_000_000, 500_000_000, "bytes of a Word file that comes back"),
        "picture-size": Limit(40_000_000, 1_000_000_000, "bytes of a picture"),
        "pictures-size": Limit(100_000_000, 4_000_000_000, "bytes of all pictures of a document together"),
        "read-seconds": Limit(
            8, 3_600, "seconds for pandoc to read a document, and 5 for each megabyte of it"
        ),
        "read-memory": Limit(600, 64_000, "megabytes of memory for that"),
        "write-seconds": Limit(
            20, 3_600, "seconds for pandoc or Typst to write a document, and more for a large one"
        ),
        "write-memory": Limit(1_000, 64_000, "megabytes of memory for that"),
    }
)

#: What was read of the variable, with its text: it is read again when that changes.
_read: tuple[str, dict[str, int]] = ("", {})


#: The values in force while a document is worked out; None between.
_held: dict[str, int] | None = None


@contextmanager
def limits_held() -> Iterator[None]:
    """What is done inside does not look at the variable again: a document asks for limits some thousand times."""
    global _held
    before = _held
    _held = {name: limit(name) for name in LIMITS}
    try:
        yield
    finally:
        _held = before


class LimitUnreadable(ValueError):
    """A text that is no limit with its value; its words say why."""


def limit(name: str) -> int:
    """The value of a limit that is in force.

    Args:
        name: a key of `LIMITS`.
    """
    global _read
    if _held is not None:
        return _held[name]
    text = os.environ.get(VARIABLE, "")
    if text != _read[0]:
        values: dict[str, int] = {}
        for piece in text.split(","):
            try:
                values.update([read_limit(piece)])
            except LimitUnreadable:
                continue  # The usual value holds; the command line has told what cannot be read.
        _read = (text, values)
    return _read[1].get(name, LIMITS[name].usual)


def read_limit(text: str) -> tuple[str, int]:
    """Read `formula-length=1200`.

    Raises:
        LimitUnreadable: there is no such limit, or it cannot have that value.
    """
    name, _, value = (part.strip() for part in text.partition("="))
    if name not in LIMITS:
        raise LimitUnreadable(f'there is no limit "{name}"; there are {", ".join(LIMITS)}')
    if not re.fullmatch(r"[0-9]{1,12}", value) or not 1 <= int(value) <= LIMITS[name].most:
        raise LimitUnreadable(
            f'"{value}" is no value of {name}: write a whole number from 1 to {LIMITS[name].most}'
        )
    return name, int(value)


def allow(name: str) -> str:
    """How to allow more of something, for the mend of a problem; empty where no more can be allowed."""
    limited = LIMITS[name]
    more = min(2 * limit(name), limited.most)
    return f"; if it is meant, allow more with --limit {name}={more}" if more > limit(name) else ""
