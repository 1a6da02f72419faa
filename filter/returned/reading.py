"""A Word file as plain text: one line for a paragraph, a heading or a row of a table."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field

import panflute as pf

from physcalc.problems import Span

from ..document import read_json, run_reader
from ..document.plain import plain_text
from ..problems import DocumentUnreadable
from .problems import WordUnreadable

#: What pandoc makes of insertions, deletions and comments (`--track-changes=all`).
_TRACKED = ("--track-changes=all",)
_POWER = re.compile(r"\^\(?(?P<sign>[-−–]?) ?(?P<digits>[0-9]+)(?(sign)\)?|)")
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_COMMAND = re.compile(r"\\(?=[A-Za-z])")
_BLANKS = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph, a heading, or a row of a table.

    Attributes:
        text: its text on one line, changes that were tracked accepted.
        heading: whether it is a heading.
    """

    text: str
    heading: bool = False


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment of a reader's.

    Attributes:
        text: what it says.
        about: the words that it is about; empty for a place between words.
        passage: the passage in which it begins, from 0.
    """

    text: str
    about: str
    passage: int


@dataclass(frozen=True, slots=True)
class WordText:
    """What a Word file says.

    Attributes:
        passages: its text, in order.
        comments: its comments, in order.
    """

    passages: tuple[Passage, ...]
    comments: tuple[Comment, ...] = ()


def read_word(content: bytes, name: str) -> WordText:
    """The text of a Word file.

    Args:
        content: its bytes.
        name: its name in messages.

    Raises:
        WordUnreadable: it is none.
        DocumentTooHeavy, DocumentNested: see `read_markup`.
    """
    try:
        json, _ = run_reader(content, name, "docx", _TRACKED)
    except DocumentUnreadable as problem:
        raise WordUnreadable(
            Span(name), name, problem.reason.removeprefix("couldn't parse docx file: ")
        ) from None
    reader = _Reader()
    reader.blocks(read_json(json, name).content)
    return WordText(tuple(reader.passages), tuple(reader.comments))


@dataclass(slots=True)
class _Reader:
    passages: list[Passage] = field(default_factory=list)
    comments: list[Comment] = field(default_factory=list)
    #: The comments whose words have not ended: by id what they say, and the words so far.
    opened: dict[str, tuple[str, list[str]]] = field(default_factory=dict)

    def blocks(self, blocks: Iterable[pf.Element]) -> None:
        for block in blocks:
            if isinstance(block, pf.Para | pf.Plain | pf.Header):
                self._add(self._line(block.content), isinstance(block, pf.Header))
            elif isinstance(block, pf.Table):
                self._table(block)
            elif isinstance(block, pf.CodeBlock):
                self._add(block.text, False)
            elif not isinstance(block, pf.RawBlock):
                self.blocks(getattr(block, "content", ()))

    def _table(self, table: pf.Table) -> None:
        bodies = [row for body in table.content for row in (*body.head, *body.content)]
        for row in (*table.head.content, *bodies, *table.foot.content):
            begun = len(self.passages)
            for cell in row.content:
                self.blocks(cell.content)
            texts = [passage.text for passage in self.passages[begun:]]
            del self.passages[begun:]
            self._add(" ".join(texts), False)

    def _add(self, text: str, heading: bool) -> None:
        text = _BLANKS.sub(" ", text).strip()
        if text:
            self.passages.append(Passage(text, heading))

    def _line(self, inlines: Iterable[pf.Element]) -> str:
        text = "".join(self._pieces(inlines))
        return _COMMAND.sub("", _POWER.sub(_raised, text))

    def _pieces(self, inlines: Iterable[pf.Element]) -> list[str]:
        pieces: list[str] = []
        for inline in inlines:
            kinds = inline.classes if isinstance(inline, pf.Span) else ()
            if "deletion" in kinds or "paragraph-deletion" in kinds:
                continue
            if "comment-start" in kinds:
                self.opened[inline.attributes.get("id", "")] = (plain_text(inline.content), [])
            elif "comment-end" in kinds:
                self._end(inline.attributes.get("id", ""))
            elif isinstance(inline, pf.Span | pf.Strong | pf.Emph | pf.Underline | pf.Link | pf.SmallCaps):
                pieces += self._pieces(inline.content)
                continue
            else:
                # By itself a blank at either end would be lost.
                blank = isinstance(inline, pf.Space | pf.SoftBreak | pf.LineBreak)
                piece = " " if blank else plain_text([inline])
                pieces.append(piece)
                for _, words in self.opened.values():
                    words.append(piece)
        return pieces

    def _end(self, identifier: str) -> None:
        text, words = self.opened.pop(identifier, ("", []))
        if text:
            about = _BLANKS.sub(" ", "".join(words)).strip()
            self.comments.append(Comment(text, about, len(self.passages)))


def _raised(found: re.Match[str]) -> str:
    return ("⁻" if found["sign"] else "") + found["digits"].translate(_RAISED)
