"""YAML text → tables, lists and texts with their places. The only module that knows pyyaml.

The reader goes through pyyaml's events and builds nothing else: every scalar stays the text that was typed
(`no` is a word, `1e3` is not a number yet), so none of YAML's own types, tags or objects can come in.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import yaml

from ..limits import allow, limit
from ..problems import Span, Text
from ..problems.sheets import SheetUnreadable

#: A sheet needs a depth of 5; the limit keeps a hostile file cheap.
MAX_DEPTH = 12

#: libyaml in C where pyyaml was built with it, as its wheels are: ten times as fast.
_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)

_ANCHOR = "an anchor or an alias stands here, and a sheet does without them"

#: What the YAML library says, and what that means to somebody who typed a sheet. The first that fits is used.
_MEANINGS = (
    ("found character '\\t'", "a tab stands here; YAML indents with spaces"),
    ("scanning a block scalar", "a text that begins with | or > must stand in quotes"),
    ("cannot start any token", "a text cannot begin with this character unless it stands in quotes"),
    (
        "mapping values are not allowed",
        'a second colon stands here; a text that holds ": " must stand in quotes',
    ),
    ("could not find expected ':'", "a key without a colon stands here"),
    ("did not find expected key", "the indentation or a bracket is not right here"),
    ("did not find expected '-' indicator", "the indentation of this list is not right"),
    ("did not find expected ',' or", "a bracket is not closed, or a text with a comma needs quotes"),
    ("unexpected end of stream", "a quote is not closed"),
    ("control characters are not allowed", "a control character stands here"),
    ("undefined alias", _ANCHOR),
)


@dataclass(frozen=True, slots=True)
class Scalar:
    """A text.

    Attributes:
        text: the text and where it begins. A text of several lines is folded as YAML folds it, and its place
            covers the first line only.
    """

    text: Text

    @property
    def span(self) -> Span:
        return self.text.span


@dataclass(frozen=True, slots=True)
class Listing:
    """A list.

    Attributes:
        items: its entries.
        span: where it begins.
    """

    items: tuple[Node, ...]
    span: Span


@dataclass(frozen=True, slots=True)
class Row:
    """One key of a table with what stands under it.

    Attributes:
        key: the key.
        value: what stands under it.
    """

    key: Text
    value: Node


@dataclass(frozen=True, slots=True)
class Table:
    """Keys with what stands under each, in the order typed; a key may occur twice (the reader of entries
    tells).

    Attributes:
        rows: the keys with their values.
        span: where it begins.
    """

    rows: tuple[Row, ...]
    span: Span


Node = Scalar | Listing | Table


def read_nodes(source: str, file: str) -> Table:
    """Read a sheet's text.

    Args:
        source: the whole text.
        file: the name that places carry.

    Raises:
        SheetUnreadable: the text is no YAML, is too long or too deep, is not a table of keys, or uses
            anchors, aliases, tags or several documents.
    """
    if len(source) > (most := limit("sheet-length")):
        raise SheetUnreadable(
            Span(file),
            f"the sheet is longer than {most} characters",
            f"take out what no document uses{allow('sheet-length')}",
        )
    builder = _Builder(file, yaml.parse(source, Loader=_LOADER))
    try:
        return builder.whole()
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        place = Span(file) if mark is None else Span(file, mark.line + 1, mark.column + 1)
        said = f"{error.context or ''} {error.problem or ''}"
        if _begins_with_tab(source, place.line):
            # libyaml names the tab in some places and not in others.
            said = "found character '\\t'"
        raise SheetUnreadable(place, _meaning(said)) from None
    except yaml.YAMLError as error:
        raise SheetUnreadable(Span(file), _meaning(str(error))) from None


def _begins_with_tab(source: str, line: int) -> bool:
    lines = source.split("\n", line)
    return len(lines) >= line and lines[line - 1].lstrip(" ").startswith("\t")


def _meaning(said: str) -> str:
    for part, meaning in _MEANINGS:
        if part in said:
            return meaning
    return "the sheet is no YAML from here on"


class _Builder:
    """Takes events in their order; each method returns when its node is complete."""

    def __init__(self, file: str, events: Iterator[yaml.Event]) -> None:
        self.file = file
        self.events = events

    def whole(self) -> Table:
        next(self.events)  # the start of the stream
        first = next(self.events)
        if isinstance(first, yaml.StreamEndEvent):
            raise SheetUnreadable(Span(self.file), "the sheet is empty")
        root = self.node(next(self.events), 0)
        next(self.events)  # the end of the document
        after = next(self.events)
        if not isinstance(after, yaml.StreamEndEvent):
            raise SheetUnreadable(self.place(after), "a second YAML document begins here; a sheet is one")
        if not isinstance(root, Table):
            raise SheetUnreadable(
                root.span, "the sheet is no table of keys", 'begin it with a line "title: …"'
            )
        return root

    def place(self, event: yaml.Event, length: int = 1) -> Span:
        mark = event.start_mark
        assert mark is not None, "the parser marks every event"
        return Span(self.file, mark.line + 1, mark.column + 1, max(1, length))

    def node(self, event: yaml.Event, depth: int) -> Node:
        if depth > MAX_DEPTH:
            raise SheetUnreadable(
                self.place(event),
                f"the sheet is nested more than {MAX_DEPTH} deep here",
                "no key of a sheet stands so deep: look for a run of brackets",
            )
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None) is not None:
            raise SheetUnreadable(self.place(event), _ANCHOR, "write the text out")
        if getattr(event, "tag", None) is not None:
            raise SheetUnreadable(
                self.place(event), "a tag stands here, and a sheet does without them", "take it out"
            )
        if isinstance(event, yaml.ScalarEvent):
            return Scalar(self.text(event))
        if isinstance(event, yaml.SequenceStartEvent):
            items = []
            while not isinstance(inner := next(self.events), yaml.SequenceEndEvent):
                items.append(self.node(inner, depth + 1))
            return Listing(tuple(items), self.place(event))
        rows = []
        while not isinstance(inner := next(self.events), yaml.MappingEndEvent):
            key = self.node(inner, depth + 1)
            if not isinstance(key, Scalar):
                raise SheetUnreadable(key.span, "a key is a text, not a list or a table")
            rows.append(Row(key.text, self.node(next(self.events), depth + 1)))
        return Table(tuple(rows), self.place(event))

    def text(self, event: yaml.ScalarEvent) -> Text:
        quoted = event.style in ("'", '"')
        start, end = event.start_mark, event.end_mark
        assert start is not None, "the parser marks every event"
        assert end is not None, "the parser marks every event"
        length = end.column - start.column if end.line == start.line else 1
        # The text of a quoted scalar begins behind its quote, that of a plain one at the mark.
        column = start.column + 1 + (1 if quoted else 0)
        return Text(
            event.value, Span(self.file, start.line + 1, column, max(1, length - (2 if quoted else 0)))
        )
