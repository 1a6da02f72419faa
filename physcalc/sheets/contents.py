"""What a sheet's file holds, sorted by kind and not read yet; the tables and texts that it is made of."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Literal

from ..language import read_name
from ..problems import Problem, Span, Text, nearest
from ..problems.sheets import (
    SheetEntryMisshapen,
    SheetEntryTwice,
    SheetKeyMissing,
    SheetKeyUnknown,
    SheetNameUnreadable,
)
from .nodes import Listing, Node, Row, Scalar, Table

#: What is done with a mistake: it is collected, or raised.
Report = Callable[[Problem], None]


@dataclass(frozen=True, slots=True)
class Key:
    """A key that an entry of a sheet may have.

    Attributes:
        what: what stands under it, in words.
        shape: whether that is a text, a text or a list of texts, "yes" or "no", texts by name, or entries by name.
        needed: whether it must be there.
    """

    what: str
    shape: Literal["text", "texts", "yes-no", "by name", "entries"] = "text"
    needed: bool = False


Keys = Mapping[str, Key]

SHEET_KEYS: Keys = {
    "title": Key("the heading of the sheet"),
    "extends": Key("the sheet that this one is laid over: a built-in name, or the path of a file"),
    "constants": Key("constants by the name that formulas give them", "entries"),
    "formulas": Key("formulas by their short name, under their topics", "entries"),
    "definitions": Key("definitions by their short name", "entries"),
}

#: The short name of a formula or a definition.
SLUG = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def raising(problem: Problem) -> None:
    """The report that stops at the first mistake."""
    raise problem


@dataclass(frozen=True, slots=True)
class LawRow:
    """A formula of a file, not read yet.

    Attributes:
        topic: the heading that it stands under.
        shared: the meanings that its topic gives, by name.
        row: its slug with the table under it.
    """

    topic: str
    shared: Mapping[str, Text]
    row: Row


@dataclass(frozen=True, slots=True)
class Contents:
    """What a file holds, sorted and not read yet; later files lay theirs over it.

    Attributes:
        title: its heading; empty where it says none.
        extends: the sheet that it extends; None where it extends none.
        constants: rows by the name's key.
        topics: for each topic, in order, the meanings that it gives to all its formulas.
        laws: formulas by slug.
        definitions: rows by slug.
    """

    title: str = ""
    extends: Text | None = None
    constants: Mapping[str, Row] = field(default_factory=dict)
    topics: Mapping[str, Mapping[str, Text]] = field(default_factory=dict)
    laws: Mapping[str, LawRow] = field(default_factory=dict)
    definitions: Mapping[str, Row] = field(default_factory=dict)

    def over(self, base: Contents) -> Contents:
        """This sheet laid over the one that it extends: what it says again replaces what that one says.

        A formula added to a topic of the base may use what that topic explains; formulas of the base keep
        their own meanings. Formulas stay together by topic.
        """
        laws = dict(base.laws)
        for slug, law in self.laws.items():
            laws[slug] = LawRow(law.topic, {**base.topics.get(law.topic, {}), **law.shared}, law.row)
        topics = dict(base.topics)
        for topic, meanings in self.topics.items():
            topics[topic] = {**base.topics.get(topic, {}), **meanings}
        order = {topic: place for place, topic in enumerate(topics)}
        return Contents(
            self.title or base.title,
            None,
            {**base.constants, **self.constants},
            topics,
            dict(sorted(laws.items(), key=lambda item: order[item[1].topic])),
            {**base.definitions, **self.definitions},
        )


# Tables and texts


def rows_of(node: Node, key: Text, report: Report) -> tuple[Row, ...]:
    """The rows of the table under a key; none, and a report, where there is no table."""
    if isinstance(node, Table):
        return node.rows
    report(SheetEntryMisshapen(key.span, key.value, "a table of keys"))
    return ()


def keys_of(node: Node, key: Text, place: str, known: Keys, report: Report) -> dict[str, Row] | None:
    """The rows of an entry by their key; None, and a report, where there is no table."""
    if not isinstance(node, Table):
        report(SheetEntryMisshapen(key.span, key.value, "a table of keys"))
        return None
    return keyed(node.rows, place, known, report)


def keyed(rows: tuple[Row, ...], place: str, known: Keys, report: Report) -> dict[str, Row]:
    """Rows by their key; unknown and repeated keys are reported."""
    found: dict[str, Row] = {}
    for row in rows:
        word = row.key.value
        if word not in known:
            report(SheetKeyUnknown(row.key.span, word, place, tuple(known), nearest(word, tuple(known))))
        elif word in found:
            report(SheetEntryTwice(row.key.span, word, found[word].key.span.line))
        else:
            found[word] = row
    return found


def text_of(row: Row, report: Report) -> Text | None:
    """The text under a key; None, and a report, where there is none."""
    if isinstance(row.value, Scalar) and row.value.text.value.strip():
        return row.value.text
    report(SheetEntryMisshapen(row.key.span, row.key.value, "a text"))
    return None


def texts_of(row: Row, report: Report) -> tuple[Text, ...]:
    """The text or the list of texts under a key."""
    if isinstance(row.value, Listing) and row.value.items:
        texts = [
            item.text for item in row.value.items if isinstance(item, Scalar) and item.text.value.strip()
        ]
        if len(texts) == len(row.value.items):
            return tuple(texts)
    elif isinstance(row.value, Scalar) and row.value.text.value.strip():
        return (row.value.text,)
    report(SheetEntryMisshapen(row.key.span, row.key.value, "a text or a list of texts"))
    return ()


def needed(found: dict[str, Row], keys: Keys, place: str, span: Span, report: Report) -> bool:
    """Whether all keys are there that must be; each that is not is reported."""
    missing = [name for name, key in keys.items() if key.needed and name not in found]
    for key in missing:
        report(SheetKeyMissing(span, place, key))
    return not missing


# The file as a whole


def contents_of(table: Table, report: Report) -> Contents:
    """Sort what a file holds; what is inside an entry is not read yet."""
    found = keyed(table.rows, "the sheet", SHEET_KEYS, report)
    topics, laws = _sorted_laws(found["formulas"], report) if "formulas" in found else ({}, {})
    return Contents(
        optional(found, "title", report),
        text_of(found["extends"], report) if "extends" in found else None,
        _rows_under(found, "constants", _name_key, report),
        topics,
        laws,
        _rows_under(found, "definitions", _slug, report),
    )


def _rows_under(
    found: dict[str, Row], key: str, read_key: Callable[[Text, Report], str | None], report: Report
) -> dict[str, Row]:
    rows: dict[str, Row] = {}
    if key in found:
        _add(rows, rows_of(found[key].value, found[key].key, report), read_key, report)
    return rows


def _sorted_laws(formulas: Row, report: Report) -> tuple[dict[str, dict[str, Text]], dict[str, LawRow]]:
    """The meanings that each topic gives, and the formulas of all topics."""
    topics: dict[str, dict[str, Text]] = {}
    sorted_laws: dict[str, LawRow] = {}
    laws: dict[str, Row] = {}
    headings: dict[str, int] = {}
    for topic in rows_of(formulas.value, formulas.key, report):
        heading = topic.key.value
        if heading in headings:
            report(SheetEntryTwice(topic.key.span, heading, headings[heading]))
            continue
        headings[heading] = topic.key.span.line
        rows = rows_of(topic.value, topic.key, report)
        shared = meanings_of([row for row in rows if row.key.value == "symbols"], report)
        topics[heading] = shared
        before = set(laws)
        _add(laws, tuple(row for row in rows if row.key.value != "symbols"), _slug, report)
        for slug, row in laws.items():
            if slug not in before:
                sorted_laws[slug] = LawRow(heading, shared, row)
    return topics, sorted_laws


def optional(found: dict[str, Row], key: str, report: Report) -> str:
    """The text under a key that need not be there; empty where it is not."""
    text = text_of(found[key], report) if key in found else None
    return "" if text is None else text.value


def _name_key(key: Text, report: Report) -> str | None:
    name = read_name(key.value)
    if name is None:
        report(SheetNameUnreadable(key.span, key.value, "a name of a quantity"))
        return None
    return name.key


def _slug(key: Text, report: Report) -> str | None:
    if SLUG.fullmatch(key.value):
        return key.value
    report(SheetNameUnreadable(key.span, key.value, "a name in small letters and hyphens"))
    return None


def _add(
    into: dict[str, Row],
    rows: tuple[Row, ...],
    read_key: Callable[[Text, Report], str | None],
    report: Report,
) -> None:
    for row in rows:
        key = read_key(row.key, report)
        if key is None:
            continue
        if key in into:
            report(SheetEntryTwice(row.key.span, row.key.value, into[key].key.span.line))
        else:
            into[key] = row


def meanings_of(found: list[Row], report: Report) -> dict[str, Text]:
    """The `symbols` table of a topic or a formula: what each name means, by the name's key."""
    rows: dict[str, Row] = {}
    for table in found[1:]:
        report(SheetEntryTwice(table.key.span, table.key.value, found[0].key.span.line))
    for table in found[:1]:
        _add(rows, rows_of(table.value, table.key, report), _name_key, report)
    texts = {key: text_of(row, report) for key, row in rows.items()}
    return {key: text for key, text in texts.items() if text is not None}
