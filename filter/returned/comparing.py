"""What differs between two texts of Word files, word by word; how their blanks are set counts for nothing."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from itertools import groupby

from physcalc.exact.number import DecimalSign

from ..sources import find_quantities
from .problems import Sort
from .reading import Passage, WordText

_WORD = re.compile(r"[0-9]+(?:[.,][0-9]+)*|[^\W\d_⁰¹²³⁴-⁹]+|[⁻⁰¹²³⁴-⁹]+|\S")
#: What word processors put in the place of what was typed: quotation marks, hyphens, blanks.
_ALIKE = str.maketrans("‘’‚“”„–—−‑\u00a0\u202f\u2009", "'''\"\"\"----   ")
#: Changes with no more words between them are one; of numbers each is one by itself.
_NEAR = 3
#: How much of the words around is shown.
_AROUND = 34
#: How many pairs of equal words are looked at; a page of a paper has some ten thousand with another page. The work
#: grows faster than they do where the same words come again and again.
_MOST = 500_000
#: Letters of the longest passage that need not be of one paper.
_HEADING = 16
#: A passage with fewer words may have come in and gone by itself.
_SENTENCE = 4
#: The number of a part, which is another one as soon as a part before it came in or went.
_PART = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,3})+(?=\s)")


@dataclass(frozen=True, slots=True)
class _Word:
    key: str
    passage: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Change:
    """A stretch that differs.

    Attributes:
        ours: what was handed out; empty where something came in between.
        theirs: what is there now; empty where it was taken out.
        passage: the passage of ours in which it stands, from 0; −1 before the first.
        around: what is there now with the words around it.
        at: where it begins in that passage; where it came in, the end of the word before it.
        sort: whether words were changed, a passage was moved as a whole, or a question has another number and is
            the same else.
        more: how many other questions have another number.
    """

    ours: str
    theirs: str
    passage: int
    around: str
    at: int = 0
    sort: Sort = "words"
    more: int = 0


def likeness(ours: WordText, theirs: WordText) -> float:
    """Which share of two texts stands in passages that both have, from 0 to 1."""
    keys = [[_key(passage.text) for passage in one.passages] for one in (ours, theirs)]
    # Headings and totals are the same in many papers.
    keys = [[key for key in one if len(key) > _HEADING] or one for one in keys]
    both = set(keys[0]).intersection(keys[1])
    shared = sum(len(key) for one in keys for key in one if key in both)
    return shared / max(1, sum(len(key) for one in keys for key in one))


def changes(ours: WordText, theirs: WordText, decimal: DecimalSign) -> list[Change]:
    """Every stretch that differs, in the order of what was handed out.

    Args:
        ours: what was handed out.
        theirs: what came back.
        decimal: the decimal sign of both.
    """
    # Without their numbers: else a part that came in would change every part behind it.
    a, b = ([_bare(one.text) for one in side.passages] for side in (ours, theirs))
    found: list[Change] = []
    # Passages first: most are the same, and words are many.
    for tag, i1, i2, j1, j2 in _opcodes(a, b):
        if tag != "equal":
            found += _Stretch(ours.passages, (i1, i2), theirs.passages, (j1, j2), decimal).changes()
            continue
        for i, j in zip(range(i1, i2), range(j1, j2), strict=True):
            one, other = ours.passages[i].text, theirs.passages[j].text
            numbers = _number_of(one), _number_of(other)
            if numbers[0] != numbers[1]:
                around = other[: len(numbers[1]) + _AROUND].strip()
                found.append(Change(*numbers, i, around, 0, "renumbered"))
    return _numbers_once(_moved(found))


def _moved(found: Sequence[Change]) -> list[Change]:
    """The changes, what was taken out and stands elsewhere as it was told once."""
    came = {_bare(one.theirs): one for one in found if not one.ours and len(one.theirs.split()) >= _SENTENCE}
    went = {_bare(one.ours) for one in found if not one.theirs} & {*came}
    return [
        replace(one, theirs=came[_bare(one.ours)].theirs, around=came[_bare(one.ours)].around, sort="moved")
        if not one.theirs and _bare(one.ours) in went
        else one
        for one in found
        if one.ours or came.get(_bare(one.theirs)) is not one or _bare(one.theirs) not in went
    ]


def _numbers_once(found: Sequence[Change]) -> list[Change]:
    """The changes, of other numbers of questions only the first: they follow from one another."""
    numbers = [one for one in found if one.sort == "renumbered"]
    kept = [one for one in found if one.sort != "renumbered" or one is numbers[0]]
    return [replace(one, more=len(numbers) - 1) if one.sort == "renumbered" else one for one in kept]


def _bare(text: str) -> str:
    return _key(_PART.sub("", text, 1) if _PART.match(text) else text)


def _number_of(text: str) -> str:
    found = _PART.match(text)
    return found[0] if found else ""


def _opcodes(ours: Sequence[str], theirs: Sequence[str]) -> list[tuple[str, int, int, int, int]]:
    """How to make the one of the other (see `difflib`); as a whole where to compare them would take too long."""
    often = Counter(theirs)
    if sum(often[one] for one in ours) > _MOST:
        return [("replace", 0, len(ours), 0, len(theirs))]
    return [*SequenceMatcher(None, ours, theirs, autojunk=False).get_opcodes()]


def _key(text: str) -> str:
    """A text without its blanks: word processors set those of formulas otherwise."""
    return "".join(text.translate(_ALIKE).split())


class _Stretch:
    """Passages of ours and theirs that are not the same."""

    def __init__(
        self,
        ours: Sequence[Passage],
        our: tuple[int, int],
        theirs: Sequence[Passage],
        their: tuple[int, int],
        decimal: DecimalSign,
    ) -> None:
        self.texts = ([one.text for one in ours], [one.text for one in theirs])
        self.begins = our[0]
        self.words = (_words(self.texts[0], our), _words(self.texts[1], their))
        self.decimal = decimal

    def changes(self) -> list[Change]:
        ours, theirs = self.words
        keys = [word.key for word in ours], [word.key for word in theirs]
        groups: list[list[int]] = []
        for tag, i1, i2, j1, j2 in _opcodes(*keys):
            if tag == "equal":
                continue
            numbers = all(key[0].isdigit() for key in (*keys[0][i1:i2], *keys[1][j1:j2]))
            near = 0 if numbers else _NEAR
            if groups and i1 - groups[-1][1] <= near and j1 - groups[-1][3] <= near:
                groups[-1][1], groups[-1][3] = i2, j2
            else:
                groups.append([i1, i2, j1, j2])
        found = [self._change(*group) for group in groups]
        return [change for change in found if _key(change.ours) != _key(change.theirs)]

    def _change(self, i1: int, i2: int, j1: int, j2: int) -> Change:
        one, other = list(self._cut(0, i1, i2)), list(self._cut(1, j1, j2))
        passage, at = self._place(i1, i2, j1, j2)
        return Change(
            " / ".join(text[start:end] for text, start, end in one),
            " / ".join(text[start:end] for text, start, end in other),
            passage,
            self._around(other, self.words[1], j1),
            at,
        )

    def _place(self, i1: int, i2: int, j1: int, j2: int) -> tuple[int, int]:
        """In which passage of ours a change begins, and where in it."""
        ours, theirs = self.words
        if i1 < i2:
            return ours[i1].passage, ours[i1].start
        # What came in at the beginning of a passage is told there, not at the end of the one before.
        begins = j1 == 0 or theirs[j1 - 1].passage < theirs[j1].passage
        goes_on = j2 < len(theirs) and theirs[j2].passage == theirs[j2 - 1].passage
        if begins and goes_on and i1 < len(ours):
            return ours[i1].passage, ours[i1].start
        if i1:
            return ours[i1 - 1].passage, ours[i1 - 1].end
        before = self.begins - 1
        return before, len(self.texts[0][before]) if before >= 0 else 0

    def _cut(self, side: int, first: int, last: int) -> Iterator[tuple[str, int, int]]:
        """The stretches of words, passage by passage; a number with its unit, and marks with their brackets."""
        words = self.words[side][first:last]
        for passage, group in groupby(words, lambda word: word.passage):
            within = [*group]
            text, start, end = self.texts[side][passage], within[0].start, within[-1].end
            for quantity in find_quantities(text, self.decimal):
                # "1.3 A winch" has the number of a question, no current.
                number = quantity.start < len(_number_of(text))
                if not number and quantity.start < end and start < quantity.end:
                    start, end = min(start, quantity.start), max(end, quantity.end)
            if text[start - 1 : start] in ("(", "[") and text[end : end + 1] in (")", "]"):
                start, end = start - 1, end + 1
            for opening, closing in ("()", "[]"):
                if text.count(opening, start, end) > text.count(closing, start, end):
                    end += text[end : end + 1] == closing
            yield text, start, end

    def _around(self, cut: list[tuple[str, int, int]], words: Sequence[_Word], at: int) -> str:
        if cut:
            text, start, end = cut[0]
        elif words:
            word = words[min(at, len(words) - 1)]
            text, start, end = self.texts[1][word.passage], word.start, word.start
        else:
            return ""
        left, right = max(0, start - _AROUND), min(len(text), end + _AROUND)
        # No word is cut in two.
        while 0 < left < start and not text[left - 1].isspace():
            left += 1
        while end < right < len(text) and not text[right].isspace():
            right -= 1
        return ("… " if left else "") + text[left:right].strip() + (" …" if right < len(text) else "")


def _words(texts: Sequence[str], stretch: tuple[int, int]) -> list[_Word]:
    return [
        _Word(found[0], at, found.start(), found.end())
        for at in range(*stretch)
        for found in _WORD.finditer(texts[at].translate(_ALIKE))
    ]
