"""Headings and divs in raw Markdown."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .attributes import Attributes, read_attributes, read_tag, read_word_class
from .fences import read_prefix
from .marks import Mark, kind_of, section_text
from .source import Source

_DIV = re.compile(r":{3,}[ \t]*")
_HASHES = re.compile(r"#{1,6}(?=[^#])[ \t]*")
_UNDERLINE = re.compile(r"(?:=+|-+)[ \t]*$")


def section_marks(source: Source) -> Iterator[Mark]:
    """Everything that may be a heading or a div of ours, in order."""
    for number, start in enumerate(source.starts):
        line = source.line_text(number)
        if not any(sign in line for sign in ("{", ":::", "<")):
            continue
        at = read_prefix(line).end
        if found := _DIV.match(line, at):
            yield from _div(source, start + found.end(), start + len(line.rstrip()))
        elif line[at : at + 4].lower() == "<div":
            attributes = read_tag(source, start + at, "div")
            if attributes is not None:
                yield from _section(source, start + at, attributes.end, attributes)
        elif found := _HASHES.match(line, at):
            yield from _heading(source, start + found.end(), start + len(line))
        elif number + 1 < len(source.starts):
            below = source.line_text(number + 1)
            if _UNDERLINE.match(below.lstrip(" \t>")):  # Here hyphens are no list marker.
                yield from _heading(source, start + at, start + len(line))


def _div(source: Source, at: int, end: int) -> Iterator[Mark]:
    attributes = read_attributes(source, at)
    if attributes is None:
        word = source.text[at:end].rstrip(": \t")
        attributes = read_word_class(source, at, at + len(word)) if word else None
    if attributes is not None:
        yield from _section(source, at, attributes.end, attributes)


def _heading(source: Source, at: int, end: int) -> Iterator[Mark]:
    brace = source.text.find("{", at, end)
    while brace >= 0:
        attributes = read_attributes(source, brace)
        if attributes is not None and not source.text[attributes.end : end].strip():
            title = source.text[at:brace].rstrip(" \t#")
            yield from _section(source, at, at + len(title), attributes)
            return
        brace = source.text.find("{", brace + 1, end)


def _section(source: Source, start: int, end: int, attributes: Attributes) -> Iterator[Mark]:
    if kind := kind_of("section", attributes.names):
        yield Mark(kind, section_text(attributes), source.span(start, end), start, end, attributes)
