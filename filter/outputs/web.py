"""What pandoc's HTML still needs, in a page and in the chapters of a book."""

from __future__ import annotations

import re
from typing import Any

from . import tree

#: A table whose columns hold longer words than this, in letters together with the blank between, may be wider
#: than a narrow screen: it can be moved sideways, by the keyboard too.
_NARROW = 26

#: A date as the metadata of a book hold it: a year, or a year and more (EPUB 3.3, 5.5.3.2; W3C NOTE-datetime).
_DATE = re.compile(r"\d{4}(-\d\d(-\d\d)?)?")

_NUMBER = re.compile(r'<mtext mathvariant="normal">([-−±]?\d[\d.,\u00a0\u2009\u202f]*)</mtext>')
_AFTER_WORDS = re.compile(r"</mtext><mo>([-−+=±×·])</mo>")


def with_numbers(html: str) -> str:
    """The MathML of a page with its numbers as numbers.

    They reach pandoc as text, which keeps their digits as they are; MathML takes text for blank space, and so
    the sign after it for the sign of a number (MathML Core, 3.2.4.1: space-like elements).
    """
    return _AFTER_WORDS.sub(r'</mtext><mo form="infix">\1</mo>', _NUMBER.sub(r"<mn>\1</mn>", html))


def with_ordered_headings(document: tree.Json) -> int:
    """By how much the headings of a page move down, so that they begin right below its title."""
    levels = [block["c"][0] for block in tree.elements(document["blocks"], "Header")]
    return 2 - min(levels) if levels else 0


def with_boxed_tables(document: tree.Json) -> None:
    """Puts each table into a box that can be moved sideways, and makes the first column of one without a head
    its head, in place."""
    for items in tree.lists(document["blocks"]):
        for at, block in enumerate(items):
            if isinstance(block, dict) and block.get("t") == "Table":
                _head(block["c"])
                attributes = [["tabindex", "0"]] if _letters(block["c"]) > _NARROW else []
                items[at] = {"t": "Div", "c": [["", ["wide"], attributes], [block]]}


def _letters(table: list[Any]) -> int:
    """How many letters of a table stand beside one another however narrow the screen is."""
    rows = [*table[3][1], *(row for body in table[4] for row in (*body[2], *body[3])), *table[5][1]]
    longest = [0] * len(table[2])
    for row in rows:
        for at, cell in enumerate(row[1][: len(longest)]):
            longest[at] = max([longest[at], *(len(word) for word in tree.words_of(cell[4]).split(" "))])
    return sum(longest) + 2 * len(longest)


def _head(table: list[Any]) -> None:
    """A table without a row of heads is read along its rows: what stands first in each is its head."""
    if not table[3][1]:
        for body in table[4]:
            body[1] = max(body[1], 1)


def date_of_book(meta: dict[str, Any]) -> str:
    """Takes a date that the metadata of a book cannot hold out of them; empty where there is none such."""
    said = tree.words_of(meta.get("date"))
    if not said or _DATE.fullmatch(said.strip()):
        return ""
    del meta["date"]
    return said


def book(made: bytes, style: str) -> bytes:
    """A book with its style sheet, which in its sandbox pandoc does not read, and its numbers as numbers."""
    from .archive import unzipped, zipped  # Here: a page is no archive.

    parts = unzipped(made)
    for name, content in parts.items():
        if name.endswith("stylesheet1.css"):
            parts[name] = style.encode()
        elif name.endswith(".xhtml"):
            parts[name] = _titled(with_numbers(content.decode())).encode()
    return zipped(parts)


def _titled(chapter: str) -> str:
    """A chapter whose title is its heading; pandoc takes the name of the file."""
    heading = re.search(r"<h1\b[^>]*>(.*?)</h1>", chapter, re.DOTALL)
    words = re.sub(r"<[^>]*>|\s+", " ", heading[1]).strip() if heading else ""
    return re.sub(
        r"<title>ch\d+\.xhtml</title>", lambda _: f"<title>{words or '–'}</title>", chapter, count=1
    )
