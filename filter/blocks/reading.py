"""Strict reading of a block's body, through the nestedtext library, with the place of every key and text."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from physcalc.limits import LIMITS, limit
from physcalc.problems import Span, Text

from ..problems import (
    BlockEmpty,
    BlockIndentation,
    BlockTab,
    BlockTooLong,
    BlockUnreadable,
    KeyEmpty,
    KeyTwice,
)
from .block import Block, BlockPlace, Value
from .quick import read_plain

if TYPE_CHECKING:
    from nestedtext import NestedTextError

#: The longest body that is read, in characters, and how deep its keys may be nested.
LARGEST_BODY = LIMITS["block-length"].usual
LARGEST_DEPTH = LIMITS["block-depth"].usual

#: What begins and ends blocks and divs.
_FENCES = ("```", "~~~", ":::")
#: A line that may well belong to a body.
_KEYED = re.compile(r"\s|$|[#>]|-(?:\s|$)|[^\s:][^:]*:(?:\s|$)")


def read_block(body: str, origin: BlockPlace) -> Block:
    """The keys and texts of a block's body, each with its place in the document.

    Texts are verbatim to the end of their line, without the blanks around them. Lines that begin with `> `
    are one text, joined by spaces, whose place is that of its first line.

    Args:
        body: the lines of the body, joined by line feeds, without the fence and without what wraps it.
        origin: where these lines stand.

    Raises:
        BlockEmpty, BlockTab, BlockIndentation, BlockUnreadable, BlockTooLong, KeyTwice, KeyEmpty: the first
            thing wrong with the body.
    """
    if len(body) > (most := limit("block-length")):
        raise BlockTooLong(origin.opening, "characters", most)
    # A lone carriage return ends a line for the library, but not for the document.
    body = body.replace("\r", " ")
    lines = body.split("\n")
    _refuse_tabs(lines, origin)
    if all(not line.strip(" ") or line.lstrip(" ").startswith("#") for line in lines):
        raise BlockEmpty(origin.opening, origin.block)
    _refuse_fences(lines, origin)
    _refuse_depth(lines, origin)
    plain = read_plain(lines, origin)
    return plain if plain is not None else read_by_library(body, lines, origin)


def read_by_library(body: str, lines: list[str], origin: BlockPlace) -> Block:
    """The same of any body that has lines.

    Args:
        body, origin: as for `read_block`.
        lines: the lines of the body.

    Raises:
        BlockIndentation, BlockUnreadable, KeyTwice, KeyEmpty: the first thing wrong with the body.
    """
    # Imported here because the import takes 50 ms, which a document whose blocks are plain should not pay.
    import nestedtext

    # The library's own types are behind its code (no dialect, only texts as keys).
    loads: Any = nestedtext.loads
    keymap: dict[tuple[str | int, ...], Any] = {}
    try:
        # Dialect "i" takes inline lists and mappings away: a value may begin with a bracket.
        data = loads(body, top="any", keymap=keymap, dialect="i")
    except nestedtext.NestedTextError as error:
        raise _explained(error, lines, origin) from None
    value = _Builder(lines, keymap, origin).value(data, (), origin.opening)
    if not isinstance(value, Block):
        first = next(n for n, line in enumerate(lines) if line.strip(" ") and line.lstrip(" ")[0] != "#")
        raise BlockUnreadable(_whole(lines, first, origin), lines[first].strip(), "key expected")
    return value


class _Builder:
    """Turns the library's plain data, with its keymap, into the tree."""

    def __init__(
        self, lines: list[str], keymap: dict[tuple[str | int, ...], Any], origin: BlockPlace
    ) -> None:
        self.lines = lines
        self.keymap = keymap
        self.origin = origin

    def value(self, data: Any, keys: tuple[str | int, ...], owner: Span) -> Value:
        if isinstance(data, dict):
            entries: list[tuple[Text, Value]] = []
            for name, inner in data.items():
                line, column = self.keymap[(*keys, name)].as_tuple("key")
                if self.lines[line].lstrip(" ").startswith(":"):
                    raise BlockUnreadable(
                        _whole(self.lines, line, self.origin), self.lines[line].strip(), "long key"
                    )
                key = Text(name, self.origin.at(line, column, len(name)))
                entries.append((key, self.value(inner, (*keys, name), key.span)))
            return Block(tuple(entries), entries[0][0].span, owner)
        if isinstance(data, list):
            return tuple(self.value(inner, (*keys, index), owner) for index, inner in enumerate(data))
        return self.text(keys)

    def text(self, keys: tuple[str | int, ...]) -> Text:
        # The library's column of a value is off where blanks stand before the colon, so the text is found
        # again in its own line.
        location = self.keymap[keys]
        line, _ = location.as_tuple("value")
        key_line, key_column = location.as_tuple("key")
        raw = self.lines[line]
        name = keys[-1] if keys else ""
        content = raw.lstrip(" ")
        if content == ">" or content.startswith("> "):
            return self._joined(line, str(name))
        if isinstance(name, str):
            start = raw.index(":", key_column + len(name)) + 1
        else:
            start = key_column + 1
        whole = Text(raw, self.origin.at(line, 0, len(raw)))
        text = whole.part(start)
        if not text.value:
            shown = name if isinstance(name, str) else "-"
            raise KeyEmpty(
                self.origin.at(key_line, key_column, len(shown)), name if isinstance(name, str) else ""
            )
        if line >= len(self.origin.lines):
            return Text(text.value, self.origin.opening)
        return text

    def _joined(self, line: int, name: str) -> Text:
        depth = len(self.lines[line]) - len(self.lines[line].lstrip(" "))
        parts: list[str] = []
        for raw in self.lines[line:]:
            content = raw.lstrip(" ")
            if not content or content.startswith("#"):
                continue
            if len(raw) - len(content) != depth or not (content == ">" or content.startswith("> ")):
                break
            parts.append(content[2:].strip())
        joined = " ".join(part for part in parts if part)
        if not joined:
            raise KeyEmpty(self.origin.at(line, depth, 1), name)
        lead = len(self.lines[line]) - len(self.lines[line][depth + 1 :].lstrip())
        return Text(joined, self.origin.at(line, lead, len(parts[0])))


def _refuse_tabs(lines: list[str], origin: BlockPlace) -> None:
    for number, line in enumerate(lines):
        if "\t" in line and not line.lstrip(" ").startswith("#"):
            raise BlockTab(origin.at(number, line.index("\t"), 1))


def _refuse_fences(lines: list[str], origin: BlockPlace) -> None:
    # Nothing of ours begins so: it is the next block or div, read as part of this one, as is the text before it.
    fence = next((number for number, line in enumerate(lines) if line.startswith(_FENCES)), None)
    if fence is not None:
        number = next((n for n, line in enumerate(lines[:fence]) if not _KEYED.match(line)), fence)
        raise BlockUnreadable(_whole(lines, number, origin), lines[number].strip(), "not closed")


def _refuse_depth(lines: list[str], origin: BlockPlace) -> None:
    # The library reads nested levels by recursion, so the depth is counted before it begins.
    levels: list[int] = []
    most = limit("block-depth")
    for number, line in enumerate(lines):
        content = line.lstrip(" ")
        if not content or content.startswith("#"):
            continue
        indent = len(line) - len(content)
        while levels and levels[-1] >= indent:
            levels.pop()
        levels.append(indent)
        if len(levels) > most:
            raise BlockTooLong(origin.at(number, indent, len(content)), "levels", most)


def _whole(lines: list[str], number: int, origin: BlockPlace) -> Span:
    raw = lines[number]
    content = raw.strip()
    return origin.at(number, len(raw) - len(raw.lstrip()), len(content))


def _explained(
    error: NestedTextError, lines: list[str], origin: BlockPlace
) -> BlockIndentation | BlockUnreadable | KeyTwice:
    """Our own words for what the library refuses.

    The library's wording is not part of its interface, so the line itself is looked at; only the kind of a
    repeated key, of which the library alone knows, is taken from the error.
    """
    number: int = error.lineno
    raw = lines[number]
    content = raw.strip()
    indent = len(raw) - len(raw.lstrip(" "))
    place = _whole(lines, number, origin)
    template = str(error.template)
    if template.startswith("duplicate key"):
        key = str(error.args[0])
        return KeyTwice(origin.at(number, indent, len(key)), key, _first_line(key, number, lines, origin))
    if raw[indent : indent + 1].isspace():
        return BlockIndentation(origin.at(number, indent, 1), "blank")
    if "indent" in template or "column 1" in template:
        above = _above(number, lines)
        if above is None:
            return BlockIndentation(place, "first")
        if len(above) - len(above.lstrip(" ")) < indent:
            return BlockIndentation(place, "below text", above.strip())
        return BlockIndentation(place, "partial")
    if content.startswith(":"):
        return BlockUnreadable(place, content, "long key")
    if template.startswith("expected list"):
        return BlockUnreadable(place, content, "no space" if content.startswith("-") else "item expected")
    if template.startswith("expected dict"):
        return BlockUnreadable(place, content, "key expected")
    if any(line.startswith(_FENCES) for line in lines[number:]):
        # The fence of the next block: what stands here is the text between the two.
        return BlockUnreadable(place, content, "not closed")
    if ":" in content or content.startswith("-"):
        return BlockUnreadable(place, content, "no space")
    return BlockUnreadable(place, content, "no colon")


def _above(number: int, lines: list[str]) -> str | None:
    for line in reversed(lines[:number]):
        content = line.strip(" ")
        if content and not content.startswith("#"):
            return line
    return None


def _first_line(key: str, number: int, lines: list[str], origin: BlockPlace) -> int:
    """The line of the document on which `key` stands first, at the same depth, above body line `number`."""
    indent = len(lines[number]) - len(lines[number].lstrip(" "))
    for above in range(number - 1, -1, -1):
        raw = lines[above]
        content = raw.lstrip(" ")
        if len(raw) - len(content) != indent or not content.startswith(key):
            continue
        if content[len(key) :].lstrip().startswith(":"):
            return origin.at(above, indent, len(key)).line
    return origin.opening.line
