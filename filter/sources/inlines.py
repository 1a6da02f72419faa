"""Inline code and spans in raw Markdown."""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Iterator

from .attributes import Attributes, read_attributes, read_tag
from .fences import read_prefix
from .marks import Kind, Mark, kind_of
from .source import Source

_TOKEN = re.compile(r"\\.|`+|\[|\]|<!--|<span(?=[\s>])", re.DOTALL | re.IGNORECASE)
_RUN = re.compile(r"`+")
_BOUNDARY = re.compile(r"`{3,}|~{3,}|:{3,}")


def inline_marks(source: Source) -> Iterator[Mark]:
    """Everything that may be inline code or a span of ours, in no particular order.

    Neither reaches over a blank line, so each stretch between blank lines is scanned for itself; that also
    keeps one stray backtick from hiding the rest of the document.
    """
    for start, end in _stretches(source):
        if "{" in source.text[start:end] or "<" in source.text[start:end]:
            yield from _scan(source, start, end)


def _stretches(source: Source) -> Iterator[tuple[int, int]]:
    begin: int | None = None
    for number, start in enumerate(source.starts):
        line = source.line_text(number)
        prefix = read_prefix(line)
        ends = prefix.end >= len(line) or _BOUNDARY.match(line, prefix.end) is not None
        if begin is not None and (ends or prefix.marker):
            yield begin, start
            begin = None
        if not ends and begin is None:
            begin = start + prefix.end
    if begin is not None:
        yield begin, len(source.text)


def _scan(source: Source, start: int, end: int) -> Iterator[Mark]:
    text = source.text
    runs: dict[int, list[int]] = {}
    for run in _RUN.finditer(text, start, end):
        runs.setdefault(len(run[0]), []).append(run.start())
    brackets: list[int] = []
    at = start
    while found := _TOKEN.search(text, at, end):
        token, at = found[0], found.end()
        if token[0] == "`":
            same = runs.get(len(token), [])
            later = bisect_left(same, at)
            if later == len(same):
                continue
            closing = same[later]
            attributes = read_attributes(source, closing + len(token))
            if attributes is not None and (kind := kind_of("code", attributes.names)):
                yield _mark(source, kind, at, closing, attributes)
            at = closing + len(token) if attributes is None else attributes.end
        elif token == "[":
            brackets.append(at)
        elif token == "]":
            if not brackets:
                continue
            inner = brackets.pop()
            attributes = read_attributes(source, at)
            if attributes is None:
                continue
            if kind := kind_of("span", attributes.names):
                yield _mark(source, kind, inner, at - 1, attributes)
            at = attributes.end
        elif token == "<!--":
            closing = text.find("-->", at, end)
            if closing >= 0:
                at = closing + 3
        elif token[0] == "<":
            attributes = read_tag(source, found.start(), "span")
            closing = -1 if attributes is None else text.lower().find("</span>", attributes.end, end)
            if attributes is not None and closing >= 0 and (kind := kind_of("span", attributes.names)):
                yield _mark(source, kind, attributes.end, closing, attributes)


def _mark(source: Source, kind: Kind, start: int, end: int, attributes: Attributes) -> Mark:
    raw = source.text[start:end]
    first = start + len(raw) - len(raw.lstrip())
    last = max(first, start + len(raw.rstrip()))
    return Mark(kind, source.text[first:last], source.span(first, last), first, last, attributes)
