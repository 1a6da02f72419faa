"""The plain way of reading a body, without the library: bodies as nearly all of them are.

`key: text` in each line, and below a key that has no text one level of `- text` or of `key: text`. Whatever is
written otherwise, or wrongly, is left to the library, whose import alone takes as long as to read a hundred blocks.
"""

from __future__ import annotations

import re

from physcalc.problems import Text

from .block import Block, BlockPlace, Value

# A key begins with a letter and ends with none of the blanks; in it stands nothing that begins or ends something else.
_ENTRY = re.compile(r"(?P<key>[^\W\d_](?:[^:#\[\]<>\"]*[^:#\[\]<>\" ])?):(?: +(?P<text>[^ ].*))?")
_ITEM = re.compile(r"- +(?P<text>[^ ].*)")


def read_plain(lines: list[str], origin: BlockPlace) -> Block | None:
    """The tree of a body that is written plainly; None for any other.

    Args:
        lines: the lines of the body.
        origin: where they stand.
    """
    entries: list[tuple[Text, Value]] = []
    known: set[str] = set()
    at = 0
    while at < len(lines):
        raw = lines[at]
        if _is_nothing(raw):
            at += 1
            continue
        found = _ENTRY.fullmatch(raw)
        # What cannot be printed, a blank of another width among it, may be a blank or end a line for the library.
        if found is None or not raw.isprintable() or found["key"] in known:
            return None
        known.add(found["key"])
        key = Text(found["key"], origin.at(at, 0, found.end("key")))
        value: Value | None
        if found["text"] is not None:
            value, at = _text(raw, at, found.end("key") + 1, origin), at + 1
        else:
            value, at = _below(lines, at + 1, key, origin)
            if value is None:
                return None
        entries.append((key, value))
    return Block(tuple(entries), entries[0][0].span, origin.opening) if entries else None


def _below(lines: list[str], at: int, owner: Text, origin: BlockPlace) -> tuple[Value | None, int]:
    """What stands below a key, and the line behind it; None where it is not plain."""
    entries: list[tuple[Text, Value]] = []
    items: list[Value] = []
    known: set[str] = set()
    indent = 0
    while at < len(lines):
        raw = lines[at]
        if _is_nothing(raw):
            at += 1
            continue
        content = raw.lstrip(" ")
        depth = len(raw) - len(content)
        if depth == 0:
            break
        indent = indent or depth
        if depth != indent or not raw.isprintable():
            return None, at
        if _ITEM.fullmatch(content):
            items.append(_text(raw, at, depth + 1, origin))
        else:
            found = _ENTRY.fullmatch(content)
            if found is None or found["text"] is None or found["key"] in known:
                return None, at
            known.add(found["key"])
            end = depth + found.end("key")
            key = Text(found["key"], origin.at(at, depth, found.end("key")))
            entries.append((key, _text(raw, at, end + 1, origin)))
        at += 1
    if bool(entries) == bool(items):
        return None, at
    return (Block(tuple(entries), entries[0][0].span, owner.span) if entries else tuple(items)), at


def _is_nothing(raw: str) -> bool:
    content = raw.strip(" ")
    return not content or (content.startswith("#") and raw.isprintable())


def _text(raw: str, at: int, start: int, origin: BlockPlace) -> Text:
    """The text of a line from a column on, without the blanks around it."""
    text = Text(raw, origin.at(at, 0, len(raw))).part(start)
    return text if at < len(origin.lines) else Text(text.value, origin.opening)
