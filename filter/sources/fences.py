"""Fenced code blocks in raw Markdown: their openings, bodies and closings, inside whatever wraps them."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from physcalc.problems import Span, Text

from .attributes import Attributes, read_attributes, read_word_class
from .marks import Mark, joined, kind_of
from .source import Source

#: Markers that open a list item, a definition or a footnote; a blank or the line's end follows.
_MARKER = re.compile(
    r"(?:[-+*:~]|\(?(?:\d{1,9}|[A-Za-z]{1,8}|\#|@[\w-]*)[.)]|\(?@[\w-]*\)|\[\^[^\]\s]+\]:)(?=[ \t]|$)"
)
_FENCE = re.compile(r"(`{3,}|~{3,})[ \t]*")
_CLOSING = re.compile(r"[ \t>]*(`{3,}|~{3,})[ \t]*$")

#: Tabs reach to the next column that is a multiple of this, as pandoc takes them.
_TAB = 4
#: How many lines that look like an opening a body may hold before its fence is taken to be unclosed.
_OPENINGS_IN_BODY = 3


@dataclass(frozen=True, slots=True)
class Prefix:
    """What stands before the content of a line.

    Attributes:
        wraps: widths (in columns) of indentation, and ">" for each block quote, from the left; the last is a
            width.
        end: how many characters it takes.
        marker: whether a list item (or a definition, a footnote) begins in it.
    """

    wraps: tuple[int | str, ...]
    end: int
    marker: bool


@dataclass(frozen=True, slots=True)
class Fence:
    """A code block with its closing.

    Attributes:
        opening, closing: numbers (from 0) of the lines that open and close it.
        start, end: offsets of the opening line's first character and past the closing line.
    """

    opening: int
    closing: int
    start: int
    end: int


def read_prefix(line: str) -> Prefix:
    """The indentation, block quotes and list markers that a line begins with."""
    wraps: list[int | str] = []
    at = column = since = 0
    marker = False
    while at < len(line):
        sign = line[at]
        if sign == " ":
            at, column = at + 1, column + 1
        elif sign == "\t":
            at, column = at + 1, column + _TAB - column % _TAB
        elif sign == ">":
            wraps += [column - since, ">"]
            at, column = at + 1, column + 1
            if line[at : at + 1] == " ":
                at, column = at + 1, column + 1
            since = column
        elif found := _MARKER.match(line, at):
            column += found.end() - at
            at, marker = found.end(), True
        else:
            break
    return Prefix((*wraps, column - since), at, marker)


def strip_prefix(line: str, prefix: Prefix) -> tuple[int, bool]:
    """How many characters of a later line belong to what wraps it, and whether all its block quotes do."""
    at = column = 0
    for wrap in prefix.wraps:
        if isinstance(wrap, int):
            stop = column + wrap
            while at < len(line) and line[at] in " \t":
                step = 1 if line[at] == " " else _TAB - column % _TAB
                if column + step > stop:
                    break
                at, column = at + 1, column + step
        else:
            sign = at
            while sign < len(line) and line[sign] == " ":
                sign += 1
            if line[sign : sign + 1] != ">":
                return at, False
            column += sign + 1 - at
            at = sign + 1
            if line[at : at + 1] == " ":
                at, column = at + 1, column + 1
    return at, True


class FenceScan:
    """All fenced code blocks of a source.

    Every line that looks like an opening is looked at, even inside another code block: pandoc decides which
    of them are blocks.
    """

    def __init__(self, source: Source) -> None:
        self.source = source
        self.lines = [source.line_text(number) for number in range(len(source.starts))]
        self.closings = [number for number, line in enumerate(self.lines) if _CLOSING.match(line)]

    def marks(self) -> Iterator[Mark]:
        """The blocks that carry a class of ours, in order."""
        for number in range(len(self.lines)):
            opened = self.opening(number)
            if opened is None:
                continue
            prefix, run, attributes, body = opened
            kind = None if attributes is None else kind_of("block", attributes.names)
            if kind is None or attributes is None:
                continue
            closing = self.closing(body, prefix, run)
            if closing is None:
                continue
            lines = tuple(self._line(line, prefix) for line in range(body, closing))
            starts = self.source.starts
            if lines:
                first = self.source.offset(lines[0].span)
                last = starts[closing - 1] + len(self.lines[closing - 1])
            else:
                first = last = starts[closing]
            yield Mark(kind, joined(lines), attributes.span, first, last, attributes, lines)

    def fences(self) -> Iterator[Fence]:
        """Code blocks of any class that do not lie in one another, in order."""
        number = 0
        while number < len(self.lines):
            opened = self.opening(number)
            closing = None if opened is None else self.closing(opened[3], opened[0], opened[1])
            if closing is None:
                number += 1
                continue
            end = self.source.starts[closing] + len(self.lines[closing])
            yield Fence(number, closing, self.source.starts[number], end)
            number = closing + 1

    def opening(self, number: int) -> tuple[Prefix, str, Attributes | None, int] | None:
        """What a line opens: its prefix, run of signs, attributes and the number of the body's first line."""
        line = self.lines[number]
        if "```" not in line and "~~~" not in line:
            return None
        prefix = read_prefix(line)
        found = _FENCE.match(line, prefix.end)
        if found is None:
            return None
        start = self.source.starts[number]
        at, end = start + found.end(), start + len(line.rstrip())
        if at >= end:
            return prefix, found[1], None, number + 1
        text = self.source.text
        # A word may stand before the attributes, as in ```` ```calc {#id} ````: it is one more class.
        brace = text.find("{", at, end)
        word = read_word_class(
            self.source, at, len(text[:end].rstrip()) if brace < 0 else at + len(text[at:brace].rstrip())
        )
        if brace < 0:
            return None if word is None else (prefix, found[1], word, number + 1)
        attributes = read_attributes(self.source, brace)
        if attributes is None:
            # A raw attribute (`{=html}`) opens a block too.
            return (prefix, found[1], None, number + 1) if text[end - 1] == "}" else None
        if brace > at:
            if word is None:
                return None
            attributes = Attributes(
                attributes.identifier,
                (*word.classes, *attributes.classes),
                attributes.pairs,
                attributes.span,
                attributes.end,
            )
        last = self.source.line_at(attributes.end - 1)
        if text[attributes.end : self.source.starts[last] + len(self.lines[last])].strip():
            return None
        return prefix, found[1], attributes, last + 1

    def closing(self, body: int, prefix: Prefix, run: str) -> int | None:
        """The number of the line that closes a block whose body begins on line `body`, or None."""
        openings = 0
        quoted = ">" in prefix.wraps
        at = body
        for number in self.closings[bisect_right(self.closings, body - 1) :]:
            for line in self.lines[at:number]:
                if quoted and not line.strip():
                    return None  # A blank line without its sign ends the block quote.
                if "{" in line and _FENCE.match(line, read_prefix(line).end):
                    openings += 1
            if openings > _OPENINGS_IN_BODY:
                return None
            line = self.lines[number]
            start, _ = strip_prefix(line, prefix)
            rest = line[start:]
            indent = len(rest) - len(rest.lstrip(" "))
            signs = rest.strip()
            if indent <= 3 and signs and set(signs) == {run[0]} and len(signs) >= len(run):
                return number
            at = number
        return None

    def _line(self, number: int, prefix: Prefix) -> Text:
        line = self.lines[number]
        start, _ = strip_prefix(line, prefix)
        return Text(line[start:], Span(self.source.name, number + 1, start + 1, max(1, len(line) - start)))
