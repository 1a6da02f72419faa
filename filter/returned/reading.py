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
from .remarks import boxes_in, comments_in

#: What pandoc takes for the document's data when it is set as a title at the beginning.
_TITLES = ("title", "subtitle", "author", "date", "abstract")
#: What pandoc makes of insertions, deletions and comments (`--track-changes=all`).
_TRACKED = ("--track-changes=all",)
_POWER = re.compile(r"\^(?P<opening>\()?(?P<sign>[-−–]?) ?(?P<digits>[0-9]+)(?(opening)\))")
_RAISED = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")
_COMMAND = re.compile(r"\\(?=[A-Za-z])")
_BLANKS = re.compile(r"\s+")


@dataclass(frozen=True, slots=True)
class Passage:
    """A paragraph, a heading, or a row of a table.

    Attributes:
        text: its text on one line, changes that were tracked accepted.
        heading: its level as a heading, from 1; 0 where it is none.
    """

    text: str
    heading: int = 0


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment of a reader's.

    Attributes:
        text: what it says.
        about: the words that it is about; empty for a place between words.
        passage: the passage in which it begins, from 0; −1 where nothing says.
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
        raise WordUnreadable(Span(name), name, _reason(problem.reason)) from None
    reader = _Reader()
    document = read_json(json, name)
    for key in _TITLES:
        reader.title(document.metadata.content.get(key))
    reader.blocks(document.content)
    reader.close()
    lost = [one for number, one in comments_in(content).items() if number not in reader.met]
    said = {passage.text for passage in reader.passages}
    reader.passages += [Passage(text) for text in boxes_in(content) if text not in said]
    return WordText(tuple(reader.passages), (*reader.comments, *(Comment(one, "", -1) for one in lost)))


def _reason(said: str) -> str:
    """What pandoc says about a file, without what only those understand who work on it."""
    said = said.removeprefix("couldn't parse docx file: ").removeprefix("pandoc: ")
    if "DocxError" in said or "HasCallStack" in said:
        return "its text is missing or damaged"
    return said


@dataclass(slots=True)
class _Reader:
    passages: list[Passage] = field(default_factory=list)
    comments: list[Comment] = field(default_factory=list)
    #: The comments whose words have not ended: by id what they say, the words so far, and the passage.
    opened: dict[str, tuple[str, list[str], int]] = field(default_factory=dict)
    #: The ids of all comments that began.
    met: set[str] = field(default_factory=set)
    #: The footnotes of the paragraph that is read.
    notes: list[pf.Note] = field(default_factory=list)

    def title(self, given: pf.MetaValue | None) -> None:
        if isinstance(given, pf.MetaInlines):
            self._add(self._line(given.content))
        elif isinstance(given, pf.MetaBlocks):
            self.blocks(given.content)
        elif isinstance(given, pf.MetaList):
            for one in given.content:
                self.title(one)

    def close(self) -> None:
        """Ends the comments of which nothing says where they end."""
        for identifier in [*self.opened]:
            self._end(identifier, "")

    def blocks(self, blocks: Iterable[pf.Element]) -> None:
        for block in blocks:
            if isinstance(block, pf.Para | pf.Plain | pf.Header):
                self._add(self._line(block.content), block.level if isinstance(block, pf.Header) else 0)
                notes, self.notes = self.notes, []
                for note in notes:
                    self.blocks(note.content)
                for _, words, _ in self.opened.values():
                    words.append(" ")
            elif isinstance(block, pf.Table):
                self._caption(block)
                self._table(block)
            elif isinstance(block, pf.Figure):
                self.blocks(block.content)
                self._caption(block)
            elif isinstance(block, pf.CodeBlock):
                self._add(block.text)
            elif not isinstance(block, pf.RawBlock):
                self.blocks(getattr(block, "content", ()))

    def _caption(self, block: pf.Table | pf.Figure) -> None:
        if block.caption is not None:
            self.blocks(block.caption.content)

    def _table(self, table: pf.Table) -> None:
        bodies = [row for body in table.content for row in (*body.head, *body.content)]
        for row in (*table.head.content, *bodies, *table.foot.content):
            begun = len(self.passages)
            for cell in row.content:
                self.blocks(cell.content)
            texts = [passage.text for passage in self.passages[begun:]]
            del self.passages[begun:]
            if texts:
                # A wide blank: "A 2" and "B 4" in two cells are no two amperes and four bels.
                self.passages.append(Passage("\u2003".join(texts)))

    def _add(self, text: str, heading: int = 0) -> None:
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
            if isinstance(inline, pf.Strikeout):
                # Who strikes words out by hand takes them out.
                continue
            if "comment-start" in kinds:
                identifier = inline.attributes.get("id", "")
                self.met.add(identifier)
                self.opened[identifier] = (plain_text(inline.content), [], len(self.passages))
            elif "comment-end" in kinds:
                self._end(inline.attributes.get("id", ""))
            elif isinstance(inline, pf.Span | pf.Strong | pf.Emph | pf.Underline | pf.Link | pf.SmallCaps):
                pieces += self._pieces(inline.content)
                continue
            elif isinstance(inline, pf.Note):
                self.notes.append(inline)
            else:
                # By itself a blank at either end would be lost.
                blank = isinstance(inline, pf.Space | pf.SoftBreak | pf.LineBreak)
                piece = " " if blank else plain_text([_accepted(inline)])
                pieces.append(piece)
                for _, words, _ in self.opened.values():
                    words.append(piece)
        return pieces

    def _end(self, identifier: str, about: str | None = None) -> None:
        text, words, begun = self.opened.pop(identifier, ("", [], 0))
        if text:
            about = _BLANKS.sub(" ", "".join(words)).strip() if about is None else about
            self.comments.append(Comment(text, about, begun))


def _accepted(inline: pf.Element) -> pf.Element:
    """Raised, lowered or quoted text without what Word has tracked as taken out of it."""
    if not isinstance(inline, pf.Superscript | pf.Subscript | pf.Quoted):
        return inline
    return inline.walk(lambda one, _: [] if "deletion" in getattr(one, "classes", ()) else None)


def _raised(found: re.Match[str]) -> str:
    return ("⁻" if found["sign"] else "") + found["digits"].translate(_RAISED)
