"""Characters of a document made safe and measurable for a terminal."""

from __future__ import annotations

import json
import re
import unicodedata
from functools import lru_cache

TAB_WIDTH = 4
#: Shown for a character that would steer the terminal or turn the reading direction.
REPLACEMENT = "\ufffd"

# Marks that turn the direction of what follows could make a line look like another one
# (Unicode Technical Report 36, section 2.5; the marks are those of Unicode Annex 9, section 2).
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def cell(character: str, column: int) -> tuple[str, int]:
    """How one character of a source line is shown.

    Args:
        character: the character.
        column: the terminal column it starts in, counted from 0, for tabs.

    Returns:
        What is written and how many columns it takes (Unicode Annex 11: wide and fullwidth take two).
    """
    if character == "\t":
        width = TAB_WIDTH - column % TAB_WIDTH
        return " " * width, width
    return _shown(character)


@lru_cache(maxsize=4096)
def _shown(character: str) -> tuple[str, int]:
    """`cell` for a character whose column makes no difference; a document uses few of them, again and again."""
    category = unicodedata.category(character)
    if character in _TURNING or category in ("Cc", "Cs", "Zl", "Zp"):
        return REPLACEMENT, 1
    if category in ("Mn", "Me", "Cf"):
        return character, 0
    return character, 2 if unicodedata.east_asian_width(character) in ("W", "F") else 1


def cells(line: str) -> list[tuple[str, int]]:
    """How each character of a source line is shown, and how many columns it takes."""
    if line.isascii() and line.isprintable():
        return [(character, 1) for character in line]
    shown: list[tuple[str, int]] = []
    column = 0
    for character in line:
        text, width = cell(character, column)
        shown.append((text, width))
        column += width
    return shown


def clean(text: str) -> str:
    """A sentence on one line, without characters that steer a terminal.

    Sentences quote what a document says, and a document may hold anything.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(" " if character in "\t\n\r" else cell(character, 0)[0] for character in text)


_LONE = re.compile("[\ud800-\udfff]")


def whole(text: str) -> str:
    """A text that UTF-8 can hold: the halves of characters with which Python spells odd names of files are replaced."""
    return text if text.isascii() else _LONE.sub(REPLACEMENT, text)


def as_json(value: object) -> str:
    """A value as JSON that any reader takes, indented by two: its texts are whole."""
    return json.dumps(_whole(value), indent=2)


def _whole(value: object) -> object:
    match value:
        case str():
            return whole(value)
        case dict():
            return {whole(key): _whole(inner) for key, inner in value.items()}
        case list() | tuple():
            return [_whole(inner) for inner in value]
        case _:
            return value


def several(count: int, thing: str) -> str:
    """A count with its noun: "1 file", "2 files"."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"
