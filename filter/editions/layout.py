"""The parts of a page as pandoc elements, for whichever output format is asked for."""

from __future__ import annotations

from collections.abc import Sequence

from .layouts import DocxLayout, HtmlLayout, LatexLayout, Layout, Note, Option, PlainLayout, Row, TypstLayout
from .layouts.base import Block, Inline
from .words import ENGLISH, Words

__all__ = [
    "Layout", "Note", "Option", "Row", "definition", "framed", "heading_word", "layout_for", "marks_margin",
    "option_list", "question_head", "ticks", "total_line", "working", "writing_lines",
]  # fmt: skip

_HTML = frozenset({"html", "html4", "html5", "epub", "epub2", "epub3", "chunkedhtml", "slidy", "revealjs"})
_LATEX = frozenset({"latex", "beamer"})


def layout_for(format: str, words: Words = ENGLISH) -> Layout:
    """The layout for one of pandoc's output format names; extensions (`html+smart`) are not looked at.

    A format that has no layout of its own gets plain elements that every writer knows.
    """
    name = format.split("+")[0].split("-")[0].lower()
    if name == "typst":
        return TypstLayout()
    if name in _HTML:
        return HtmlLayout(words, book=name.startswith("epub"))
    if name in _LATEX:
        return LatexLayout()
    if name == "docx":
        return DocxLayout()
    return PlainLayout(words["colon"])


def working(
    rows: Sequence[Row], format: str, words: Words = ENGLISH, notes: Sequence[Note] = ()
) -> list[Block]:
    """Lines of working, aligned at the relation sign, with ticks and the bracketed total at the right."""
    return layout_for(format, words).working(rows, notes)


def ticks(count: int, format: str, words: Words = ENGLISH) -> list[Inline]:
    """So many ticks, to stand in a sentence or at its end."""
    return layout_for(format, words).ticks(count)


def marks_margin(text: str, format: str) -> list[Inline]:
    """Inlines that put bracketed marks at the right margin; they go at the end of a paragraph."""
    return layout_for(format).marks_margin(text)


def question_head(number: str, blocks: Sequence[Block], format: str) -> list[Block]:
    """A numbered part: the number ("1.1") hangs at the left, its blocks stand beside it."""
    return layout_for(format).question_head(number, blocks)


def heading_word(word: str, format: str) -> list[Block]:
    """A small heading inside a question ("Working", "or")."""
    return layout_for(format).heading_word(word)


def writing_lines(count: int, format: str) -> list[Block]:
    """Ruled lines to write an answer on."""
    return layout_for(format).writing_lines(count)


def definition(blocks: Sequence[Block], format: str) -> list[Block]:
    """The wording of a definition, set apart."""
    return layout_for(format).definition(blocks)


def framed(blocks: Sequence[Block], format: str) -> list[Block]:
    """A problem framed in its place, for a draft."""
    return layout_for(format).framed(blocks)


def option_list(options: Sequence[Option], format: str, words: Words = ENGLISH) -> list[Block]:
    """The options of a multiple-choice question, in as many columns as fit."""
    return layout_for(format, words).option_list(options)


def total_line(text: str, format: str) -> list[Block]:
    """A sum of marks on a line of its own, at the right margin."""
    return layout_for(format).total_line(text)
