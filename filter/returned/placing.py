"""Where in the source stands what was changed in a Word file."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence

from physcalc.exact.number import DecimalSign
from physcalc.problems import Problem, Span

from ..document import Question, Tree
from ..sources import Source, find_quantities
from .comparing import Change
from .problems import WordChanged, WordComment
from .reading import Passage, WordText

_NUMBER = re.compile(r"(?:(?P<word>[^\W\d_]+) )?(?P<number>[0-9]{1,3}(?:\.[0-9]{1,3})*)(?![0-9.,]*[0-9])")
_MARKS = re.compile(r"[(\[](?P<marks>[0-9]{1,3})[)\]]")
#: Beside so many words a value is what matters.
_FEW = 8


def problems_of(
    found: Iterable[Change],
    ours: WordText,
    theirs: WordText,
    tree: Tree,
    source: Source,
    decimal: DecimalSign,
    words: Collection[str],
    file: str,
) -> list[Problem]:
    """Changes and comments as problems of the source.

    Args:
        found: the changes.
        ours, theirs: what was handed out, and what came back.
        tree: the document's questions.
        source: its text.
        decimal: its decimal sign.
        words: the words that stand before a question's number, in small letters.
        file: the name of the Word file.
    """
    places = _Places(tree, source, decimal)
    numbers = _numbers(ours.passages, tree, words)
    problems: list[Problem] = []
    for change in found:
        number = numbers[change.passage] if change.passage >= 0 else ""
        span, typed, elsewhere = places.of(change, number)
        problems.append(
            WordChanged(span, number, change.ours, change.theirs, file, change.around, typed, elsewhere)
        )
    there = _numbers(theirs.passages, tree, words)
    for comment in theirs.comments:
        number = there[min(comment.passage, len(there) - 1)] if there else ""
        span = places.of(Change(comment.about, "", 0, ""), number)[0]
        problems.append(WordComment(span, number, comment.text, comment.about, file))
    return problems


def _numbers(passages: Sequence[Passage], tree: Tree, words: Collection[str]) -> list[str]:
    """For each passage the number of the question in which it stands; empty before the first."""
    known = set(tree.numbers.values())
    found: list[str] = []
    number = ""
    for passage in passages:
        begins = _NUMBER.match(passage.text)
        if begins is not None and begins["number"] in known:
            word = (begins["word"] or "").lower()
            # A paragraph may begin with any number; a question's comes after the one before it.
            named = word in words if word else passage.heading or "." in begins["number"]
            if named and _order(begins["number"]) > _order(number):
                number = begins["number"]
        found.append(number)
    return found


def _order(number: str) -> tuple[int, ...]:
    return tuple(map(int, number.split("."))) if number else ()


class _Places:
    def __init__(self, tree: Tree, source: Source, decimal: DecimalSign) -> None:
        self.source = source
        self.decimal = decimal
        self.questions: dict[str, Question] = {"": tree.root}
        for part in tree.root.walk():
            if isinstance(part, Question) and part.key in tree.numbers:
                self.questions.setdefault(tree.numbers[part.key], part)
        # A document in LaTeX may stand in several files: there the question has to do.
        whole = all(one.span.file in ("", source.name) for one in self.questions.values())
        self.lines = self._stretches() if whole else {}

    def of(self, change: Change, number: str) -> tuple[Span, bool, tuple[str, ...]]:
        """Where a change belongs.

        Returns:
            Its place or that of its question; whether it is its own; other places of the same value.
        """
        question = self.questions.get(number, self.questions[""])
        marks = _MARKS.fullmatch(change.ours)
        said = question.attribute("marks") if number else None
        if marks is not None and said is not None and said.value.strip() == marks["marks"]:
            return said.span, True, ()
        # What a part uses may stand in the question around it.
        outer = [number]
        while "." in outer[-1]:
            outer.append(outer[-1].rpartition(".")[0])
        for text in (change.ours, *self._value_in(change.ours)):
            for one in outer if text.strip() else ():
                if one in self.lines and (places := self._search(text, self.lines[one])):
                    others = tuple(f"{span.line}:{span.column}" for span in places[1:6])
                    return places[0], True, others
        if not change.ours and number in self.lines and (before := self._behind(change.anchor, number)):
            return before, True, ()
        return (question.span if number else Span(self.source.name)), False, ()

    def _behind(self, anchor: str, number: str) -> Span | None:
        """The place behind some words, of which the first may be typed otherwise or not at all, as a number is."""
        words = anchor.split()
        for first in range(len(words)):
            places = self._search(" ".join(words[first:]), self.lines[number])
            if len(places) == 1:
                (found,) = places
                return Span(found.file, found.line, found.column + found.length)
        return None

    def _value_in(self, text: str) -> list[str]:
        """The one quantity in some words: those around it may be typed otherwise."""
        found = find_quantities(text, self.decimal)
        return [found[0].text] if len(found) == 1 and len(text.split()) <= _FEW else []

    def _stretches(self) -> dict[str, tuple[int, int]]:
        """From where to where the source of each question reaches, up to the first one inside it, as offsets."""
        begins = sorted(
            (self.source.starts[question.span.line - 1], number)
            for number, question in self.questions.items()
            if number and 0 < question.span.line <= len(self.source.starts)
        )
        ends = [*(start for start, _ in begins[1:]), len(self.source.text)]
        found = {number: (start, end) for (start, number), end in zip(begins, ends, strict=True)}
        found[""] = (0, begins[0][0] if begins else len(self.source.text))
        return found

    def _search(self, text: str, stretch: tuple[int, int]) -> list[Span]:
        start, end = stretch
        raw = self.source.text[start:end]
        wanted = [one for one in find_quantities(text, self.decimal) if one.number is not None]
        if len(wanted) == 1 and (wanted[0].start, wanted[0].end) == (0, len(text)):
            one = wanted[0]
            same = [
                found
                for found in find_quantities(raw, self.decimal)
                if found.number is not None
                and one.number is not None
                and (found.number.value, found.unit) == (one.number.value, one.unit)
            ]
            return [self.source.span(start + found.start, start + found.end) for found in same]
        # Blanks and ends of lines may be others, and emphasis and what stands for signs may stand between.
        pieces = [re.escape(piece) for piece in text.split()]
        pattern = r"[\s*_\\]+".join(pieces).replace("−", "[-−–]").replace("–", "[-−–]+").replace(",", "[.,]")
        return [
            self.source.span(start + found.start(), start + found.end())
            for found in re.finditer(pattern, raw)
        ]
