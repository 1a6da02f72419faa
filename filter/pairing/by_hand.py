"""Reading of a paper or memo that was written by hand, in ordinary Markdown or LaTeX.

Read are headings and lines that begin with "Question 1" or "1.1", marks in brackets at the ends of lines, and the
numbers between.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from collections.abc import Collection
from dataclasses import replace

from physcalc.exact.number import DecimalSign

from ..sources import (
    Source,
    Woven,
    dark_stretches,
    find_numbers,
    find_quantities,
    flatten,
    flatten_tex,
    plain_lines,
)
from .side import Asked, Mark, Side, Value

#: What may stand before a question's number: the signs of headings, quotations, lists, cells and emphasis.
_LEAD = re.compile(r"[ \t]*(?P<signs>(?:(?:#{1,6}|>|[-+*](?=[ \t])|\|)[ \t]*)*)(?P<strong>\*\*|__)?")
_PART = re.compile(r"(?P<number>[0-9]{1,2}(?:\.[0-9]{1,2}){1,2})(?=[.:)]?(?:\*\*|__)?(?:[ \t|]|$))")
_TOP = re.compile(r"(?P<number>[0-9]{1,2})[.:)]?(?=[ \t]+[^a-z \t]|[ \t]*$)")
_MARKS = re.compile(
    r"(?:\((?P<round>[0-9]{1,3})(?P<word> marks?| punte?)?\)|\\?\[(?P<square>[0-9]{1,3})(?: marks?| punte?)?\\?\])$"
)
#: What may stand behind the marks on their line.
_TAIL = " \t*_|\\"
_ATTRIBUTES = re.compile(r"[ \t]*\{[^{}]*\}[ \t]*$")
_LETTER = re.compile(r"[.:)*_| \t]*(?P<letter>[A-H])(?=[*_]*(?:[ \t]*[✓✔√|]|[ \t]*\(|[ \t]*$))")
#: "1.2 A trolley": the letter is a word.
_ARTICLE = re.compile(r"[.:)]?[ \t]+A[ \t]+[a-z]")
#: "3.2 N = m g": what looks like a unit is the symbol of a quantity.
_SYMBOL = re.compile(r"[.:)]?[ \t]+[^\s=]{1,12}[ \t]*=")


def read_by_hand(source: Source, decimal: DecimalSign, words: Collection[str], paper: bool) -> Side:
    """The questions of a file.

    Args:
        source: the file; one in LaTeX with the files that it reads.
        decimal: its decimal sign.
        words: the words that stand before a question's number, in small letters.
        paper: whether it is the paper, whose numbers with units are data.
    """
    return _Reader(source, decimal, words, paper).side()


class _Reader:
    def __init__(self, source: Source, decimal: DecimalSign, words: Collection[str], paper: bool) -> None:
        self.source = source
        self.decimal = decimal
        self.paper = paper
        listed = "|".join(sorted(map(re.escape, words), key=len, reverse=True))
        self.word = re.compile(
            rf"(?:{listed})[ \t]+(?P<number>[0-9]{{1,2}}(?:\.[0-9]{{1,2}}){{0,2}})\b", re.IGNORECASE
        )
        self.flat = flatten_tex(source) if isinstance(source, Woven) else flatten(source)
        #: The lines of LaTeX with the signs that Markdown has; none for Markdown.
        self.lines = plain_lines(source) if isinstance(source, Woven) else []
        self.units = {
            self.flat.starts[found.start]: found for found in find_quantities(self.flat.text, decimal)
        }
        self.last: tuple[int, ...] = ()
        #: Where marks stand, which are no values.
        self.marked: list[tuple[int, int]] = []

    def side(self) -> Side:
        begins: list[tuple[int, int, str]] = []  # offsets of the beginning and behind the number, the number
        marks: list[tuple[int, Mark]] = []
        dark = self._dark()
        for line, start in enumerate(self.source.starts):
            text = self._line(line)
            if line in dark or not text.strip():
                continue
            if (found := self._number(text, start)) is not None:
                begins.append((start, start + found[1], found[0]))
                self.last = tuple(map(int, found[0].split(".")))
            if (mark := self._marks(text, start)) is not None:
                marks.append((start, mark))
        round_ones = any(not mark.total for _, mark in marks)
        asked: dict[str, Asked] = {}
        twice: list[Asked] = []
        limits = [*(begin[0] for begin in begins), len(self.source.text)][1:]
        for (start, behind, number), end in zip(begins, limits, strict=True):
            one = self._asked(number, start, behind, end)
            if number in asked:
                twice.append(one)
                continue
            asked[number] = one
        for start, mark in marks:
            holder = next((number for at, _, number in reversed(begins) if at <= start), None)
            if holder is None:
                continue
            # Square brackets hold the sum of a question, unless the file has no others.
            number = holder.partition(".")[0] if mark.total and round_ones else holder
            if number in asked:
                asked[number] = replace(asked[number], marks=mark)
        return Side(self.source.name, asked, tuple(twice), not self.paper)

    def _line(self, line: int) -> str:
        return self.lines[line] if self.lines else self.source.line_text(line)

    def _dark(self) -> set[int]:
        """The numbers of lines that are no running text."""
        found: set[int] = set()
        if self.lines:
            return found
        for start, end in dark_stretches(self.source):
            found.update(range(self.source.line_at(start), self.source.line_at(max(start, end - 1)) + 1))
        return found

    def _number(self, text: str, start: int) -> tuple[str, int] | None:
        """The number of the question that a line begins, and where it ends on the line."""
        lead = _LEAD.match(text)
        at = lead.end() if lead else 0
        marked = bool(lead and (lead["strong"] or "#" in lead["signs"]))
        if found := self.word.match(text, at):
            return found["number"], found.end()
        if found := _PART.match(text, at):
            number = tuple(map(int, found["number"].split(".")))
            told = any(form.match(text, found.end()) for form in (_ARTICLE, _LETTER, _SYMBOL))
            quantity = start + at in self.units and not told
            # A line of a paragraph may begin with any number; a question's comes after the one before it.
            follows = number > self.last and (not self.last or number[0] in (self.last[0], self.last[0] + 1))
            return (found["number"], found.end()) if not quantity and (marked or follows) else None
        if lead and "#" in lead["signs"] and (found := _TOP.match(text, at)):
            return found["number"], found.end()
        return None

    def _marks(self, text: str, start: int) -> Mark | None:
        line = _ATTRIBUTES.sub("", text).rstrip(_TAIL)
        found = _MARKS.search(line)
        if found is None:
            return None
        typed = found["round"] or found["square"]
        span = self.source.span(start + found.start(), start + found.end())
        self.marked.append((start + found.start(), start + found.end()))
        return Mark(int(typed), span, found["round"] is None)

    def _asked(self, number: str, start: int, behind: int, end: int) -> Asked:
        line = self._line(self.source.line_at(start))
        rest = line[behind - start :]
        letter = _LETTER.match(rest)
        values: list[Value] = []
        with_units: list[Value] = []
        low, high = self._index(behind), self._index(end)
        text = self.flat.text[low:high]
        taken: set[int] = set()
        for quantity in find_quantities(text, self.decimal):
            if quantity.number is not None:
                first, last, _ = self.flat.stretch(low + quantity.start, low + quantity.end)
                span = self.source.span(first, last)
                with_units.append(Value(span, quantity.text, quantity.number, quantity.unit))
                taken.update(range(quantity.start, quantity.end))
        for begin, stop, one in find_numbers(text, self.decimal):
            if one is not None and begin not in taken:
                first, last, _ = self.flat.stretch(low + begin, low + stop)
                at = bisect_left(self.marked, (first + 1,)) - 1
                if at >= 0 and first < self.marked[at][1]:
                    continue
                values.append(Value(self.source.span(first, last), text[begin:stop], one))
        place = start + len(line) - len(line.lstrip(" \t#>*|_"))
        return Asked(
            number,
            self.source.span(place, max(behind, place + 1)),
            data=tuple(with_units) if self.paper else (),
            values=(*with_units, *values),
            letter=None
            if letter is None
            else (
                letter["letter"],
                self.source.span(behind + letter.start("letter"), behind + letter.end("letter")),
            ),
        )

    def _index(self, offset: int) -> int:
        return bisect_left(self.flat.starts, offset)
