"""Where in the source stands what was changed in a Word file."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from physcalc.exact.number import DecimalSign
from physcalc.problems import Problem, Span

from ..document import Question, Tree
from ..sources import Source, find_quantities
from .aligning import Aligned, Token, tokens_of
from .comparing import Change
from .problems import WordChanged, WordComment
from .reading import Passage, WordText

_NUMBER = re.compile(r"(?:(?P<word>[^\W\d_]+) )?(?P<number>[0-9]{1,3}(?:\.[0-9]{1,3})*)(?![0-9.,]*[0-9])")
_MARKS = re.compile(r"[(\[](?P<marks>[0-9]{1,3})[)\]]")
#: Beside so many words a value is what matters.
_FEW = 8
#: Pairs of equal words; a long paper of which every line was changed has some hundred thousand.
_PATIENCE = 5_000_000


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
    within = _questions_of(ours.passages, tree, words)
    problems: list[Problem] = []
    for change in found:
        text = ours.passages[change.passage].text if change.passage >= 0 else ""
        place = places.of(change, text, within[change.passage] if change.passage >= 0 else _In("", ""))
        problems.append(
            WordChanged(
                place.span,
                place.number,
                change.ours,
                change.theirs,
                file,
                change.around,
                place.typed,
                place.elsewhere,
                change.sort,
                change.more,
            )
        )
    there = _questions_of(theirs.passages, tree, words)
    for comment in theirs.comments:
        known = 0 <= comment.passage < len(there)
        text = theirs.passages[comment.passage].text if known else ""
        about = Change(comment.about, "", 0, "", max(0, text.find(comment.about)))
        place = places.of(about, text, there[comment.passage] if known else _In("", ""))
        problems.append(WordComment(place.span, place.number, comment.text, comment.about, file, known))
    return problems


@dataclass(frozen=True, slots=True)
class _In:
    """The question of a passage.

    Attributes:
        number: its number; empty for what stands before the first, or in no question.
        behind: the number of the last question before it.
    """

    number: str
    behind: str


def _questions_of(passages: Sequence[Passage], tree: Tree, words: Collection[str]) -> list[_In]:
    """For each passage the question in which it stands."""
    known = set(tree.numbers.values())
    found: list[_In] = []
    number, level, inside = "", 0, False
    for passage in passages:
        begins = _NUMBER.match(passage.text)
        named = False
        if begins is not None and begins["number"] in known:
            word = (begins["word"] or "").lower()
            # A paragraph may begin with any number; a question's comes after the one before it.
            named = word in words if word else bool(passage.heading) or "." in begins["number"]
            named = named and _order(begins["number"]) > _order(number)
            if named:
                number, inside = begins["number"], True
                level = passage.heading or level
        if not named and 0 < passage.heading <= level:
            # A heading of the same rank, such as that of the data sheet.
            inside = False
        found.append(_In(number if inside else "", number))
    return found


def _order(number: str) -> tuple[int, ...]:
    return tuple(map(int, number.split("."))) if number else ()


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a change belongs.

    Attributes:
        number: the number of its question.
        span: its place, or that of its question.
        typed: whether it is its own.
        elsewhere: other places of the same value.
    """

    number: str
    span: Span
    typed: bool
    elsewhere: tuple[str, ...] = ()


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
        self.tokens: dict[str, list[Token]] = {}
        #: How much more work is done to lay passages beside the source; a file may have any number of comments.
        self.patience = _PATIENCE
        #: Changes of one passage come one after the other.
        self.last: tuple[str, str, Aligned] | None = None

    def of(self, change: Change, text: str, within: _In) -> _Place:
        """Where a change belongs.

        Args:
            change: the change.
            text: the passage in which it stands.
            within: the question of that passage.
        """
        number = within.number
        question = self.questions.get(number, self.questions[""])
        # What a part uses may stand in the question around it.
        outer = [number]
        while "." in outer[-1]:
            outer.append(outer[-1].rpartition(".")[0])
        marks = _MARKS.fullmatch(change.ours)
        for one in outer if marks is not None and number else ():
            said = self.questions[one].attribute("marks") if one in self.questions else None
            if marks is not None and said is not None and said.value.strip() == marks["marks"]:
                return _Place(one, said.span, True)
        if within.behind not in self.lines or change.sort == "renumbered":
            return _Place(number, question.span if number else Span(self.source.name), False)
        begins = self.lines[within.behind][0]
        aligned = self._aligned(text, within.behind)
        here = change.at, change.at + len(change.ours.split(" / ")[0])
        # In no question, the same words may stand anywhere.
        anywhere = bool(number) or not within.behind
        near = aligned.near(change.at)
        if anywhere and (place := self._found(change.ours, number, outer, near)):
            return place
        if change.ours and (stretch := aligned.stretch(*here)):
            return _Place(number, self._span(begins, stretch), True)
        for value in self._value_in(change.ours) if anywhere else ():
            if place := self._found(value, number, outer, near):
                return place
        if change.ours and (between := aligned.between(*here)):
            return _Place(number, self._span(begins, between), False)
        if not change.ours and (behind := aligned.behind(change.at)) is not None:
            return _Place(number, self.source.span(begins + behind, begins + behind), True)
        return _Place(number, question.span if number else Span(self.source.name), False)

    def _found(self, wanted: str, number: str, outer: Sequence[str], near: int | None) -> _Place | None:
        """The place of a text in a question or around it: of several the one where the passage has it."""
        for one in outer if wanted.strip() else ():
            if one not in self.lines or not (places := self._search(wanted, self.lines[one])):
                continue
            first = places[0]
            if near is not None and one == number:
                there = self.lines[number][0] + near
                first = min(places, key=lambda place: abs(self.source.offset(place) - there))
            value = bool(find_quantities(wanted, self.decimal))
            others = [place for place in places if place is not first] if value else []
            return _Place(number, first, True, tuple(f"{place.line}:{place.column}" for place in others[:5]))
        return None

    def _span(self, begins: int, stretch: tuple[int, int]) -> Span:
        start, end = begins + stretch[0], begins + stretch[1]
        text = self.source.text[start:end]
        blank = len(text) - len(text.lstrip())
        return self.source.span(start + blank, max(start + blank, end - len(text) + len(text.rstrip())))

    def _aligned(self, text: str, number: str) -> Aligned:
        if number not in self.tokens:
            start, end = self.lines[number]
            self.tokens[number] = tokens_of(self.source.text[start:end], self.decimal)
        if self.last is None or self.last[:2] != (text, number):
            passage = tokens_of(text, self.decimal) if self.patience > 0 else []
            self.last = text, number, Aligned(passage, self.tokens[number])
            self.patience -= self.last[2].pairs
        return self.last[2]

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
        starts = [0, *(start for start, _ in begins)]
        numbers = ["", *(number for _, number in begins)]
        # What stands before the first, which is all of it where no question has a number.
        found = dict(zip(numbers, pairwise([*starts, len(self.source.text)]), strict=True))
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
