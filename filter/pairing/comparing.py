"""Two files against one another.

Compared are the numbers of questions, their marks, and values. A datum of the paper must stand somewhere in the same
question of the memo, in its own unit, in another of its kind, or as a bare number in a substitution. What a memo
alone has (results on the way, constants) is not compared, unless the other file has blocks that work it out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from difflib import SequenceMatcher

from physcalc.problems import Problem, Span

from .problems import (
    PairAnswerDiffers,
    PairAnswerMissing,
    PairKeyDiffers,
    PairMarksDiffer,
    PairQuestionMissing,
    PairQuestionTwice,
    PairUnreadable,
    PairValueDiffers,
    PairValueMissing,
)
from .side import Asked, Mark, Side, Stated, Value

#: A number that replaces another after a change is seldom further from it than this.
_FARTHEST = 3.0


def compare_sides(paper: Side, memo: Side) -> list[Problem]:
    """What differs between a paper and its memo, each problem with both places."""
    empty: list[Problem] = [
        PairUnreadable(Span(side.name), side.name) for side in (paper, memo) if not side.questions
    ]
    if empty:
        return empty
    return [
        *(
            PairQuestionTwice(one.span, one.number, side.questions[one.number].span)
            for side in (paper, memo)
            for one in side.twice
        ),
        *_missing(paper, memo),
        *_missing(memo, paper),
        *_marks(paper, memo),
        *_values(paper, memo),
        *_values(memo, paper),
        *_answers(paper, memo),
        *_answers(memo, paper),
        *_keys(paper, memo),
    ]


def _there(number: str, side: Side) -> bool:
    """Whether a file has a question, or at least parts of it."""
    return number in side.questions or bool(side.parts(number))


def _missing(one: Side, other: Side) -> Iterator[Problem]:
    for number, asked in one.questions.items():
        above = number.rpartition(".")[0]
        if _there(number, other) or (above and above in one.questions and not _there(above, other)):
            continue
        before = [known for known in other.questions.values() if _order(known.number) < _order(number)]
        near = before[-1].span if before else None
        yield PairQuestionMissing(asked.span, number, other.name, near, len(one.parts(number)))


def _order(number: str) -> tuple[int, ...]:
    return tuple(map(int, number.split(".")))


def _marks(paper: Side, memo: Side) -> Iterator[Problem]:
    for number in dict.fromkeys((*paper.questions, *memo.questions)):
        here, there = _mark(paper, number), _mark(memo, number)
        if here is None and there is None:
            continue
        whole = bool(paper.parts(number) or memo.parts(number))
        # A sum that differs because a part does is told at the part.
        if (
            whole
            and not (_typed(paper, number) and _typed(memo, number))
            and not _same_parts(paper, memo, number)
        ):
            continue
        if here is not None and there is not None:
            if here.count != there.count:
                yield PairMarksDiffer(here.span, number, here.count, there.count, there.span, memo.name)
        elif not whole and number in paper.questions and number in memo.questions:
            span = here.span if here is not None else paper.questions[number].span
            place = there.span if there is not None else memo.questions[number].span
            yield PairMarksDiffer(
                span, number, here.count if here else None, there.count if there else None, place, memo.name
            )


def _typed(side: Side, number: str) -> bool:
    """Whether a question says its own marks."""
    asked = side.questions.get(number)
    return asked is not None and asked.marks is not None


def _same_parts(paper: Side, memo: Side, number: str) -> bool:
    """Whether a question has the same parts with the same marks in both files."""
    both = [
        {part.number: part.marks.count if part.marks else None for part in side.parts(number)}
        for side in (paper, memo)
    ]
    return both[0] == both[1]


def _mark(side: Side, number: str) -> Mark | None:
    """The marks of a question: those that stand there, or the sum of its parts where all of them have some."""
    asked = side.questions.get(number)
    if asked is not None and asked.marks is not None:
        return asked.marks
    leaves = [part for part in side.parts(number) if not side.parts(part.number)]
    marks = [part.marks for part in leaves]
    if not leaves or any(mark is None for mark in marks):
        return None
    return Mark(sum(mark.count for mark in marks if mark), (asked or leaves[0]).span)


def _values(one: Side, other: Side) -> Iterator[Problem]:
    for asked in one.questions.values():
        if not _there(asked.number, other):
            continue
        pool = [value for part in other.whole(asked.top) for value in part.values]
        known = [value for part in one.whole(asked.top) for value in part.values]
        answers = [
            answer for side in (one, other) for part in side.whole(asked.top) for answer in part.answers
        ]
        told: list[Value] = []
        for value in asked.data:
            if any(typed.says(value) for typed in pool) or any(value.says(before) for before in told):
                continue
            told.append(value)
            strangers = [
                typed
                for typed in pool
                if not any(typed.says(mine) or mine.says(typed) for mine in known)
                # What is worked out took nothing's place.
                and not any(_gives(answer, typed) for answer in answers)
            ]
            nearest = _nearest(value, strangers)
            if nearest is not None:
                yield PairValueDiffers(
                    value.span, value.text, asked.number, nearest.text, nearest.span, other.name
                )
            else:
                yield PairValueMissing(value.span, value.text, asked.number, other.name)


def _gives(answer: Stated, typed: Value) -> bool:
    """Whether a number is an answer, also where it goes on as a bare number."""
    bare = f"{typed.text} {answer.unit.text()}"
    return answer.agrees(typed if typed.unit is not None else replace(typed, text=bare, unit=answer.unit))


def _nearest(value: Value, others: Sequence[Value]) -> Value | None:
    """The number that most likely took another's place: of its kind or bare, of about its size, with its digits."""
    found: list[tuple[float, Value]] = []
    for typed in others:
        if typed.unit is not None and (value.unit is None or typed.unit.dimension != value.unit.dimension):
            continue
        mine, theirs = float(value.size()), float(typed.size())
        sizes = [(mine, theirs)] if typed.unit else [(mine, theirs), (float(value.plain), theirs)]
        close = any(a and b and a * b > 0 and max(a / b, b / a) <= _FARTHEST for a, b in sizes) or (
            typed.significant == value.significant and len(value.significant) > 1
        )
        if not close:
            continue
        alike = SequenceMatcher(None, value.significant, typed.significant).ratio()
        # A bare number needs more than its size: two-figure numbers of a substitution are often near others.
        if typed.unit is None and (alike < 0.5 or len(typed.significant) < 2):
            continue
        found.append((alike + (0.5 if typed.unit else 0), typed))
    return max(found, key=lambda one: one[0])[1] if found else None


def _answers(one: Side, other: Side) -> Iterator[Problem]:
    """Answers that one file works out, in the other; a paper written by hand has none, but a memo has."""
    for asked in one.questions.values():
        there = other.questions.get(asked.number)
        if there is None or not other.tells:
            continue
        for answer in asked.answers:
            if there.answers:
                yield from _computed(answer, asked, there, other)
                continue
            values = [value for value in there.values if value.unit is not None or not answer.unit.factors]
            if any(answer.agrees(value) for value in values):
                continue
            alike = [
                value
                for value in values
                if value.unit is not None and value.unit.dimension == answer.unit.dimension
            ]
            if alike:
                last = alike[-1]
                yield PairAnswerDiffers(
                    answer.span, answer.name, answer.text, asked.number, last.text, last.span, other.name
                )
            else:
                yield PairAnswerMissing(
                    answer.span, answer.name, answer.text, asked.number, there.span, other.name
                )


def _computed(answer: Stated, asked: Asked, there: Asked, other: Side) -> Iterator[Problem]:
    """An answer of two files that both work it out, told once."""
    same = [found for found in there.answers if found.name == answer.name]
    if same and same[0].text != answer.text and asked.span.file < there.span.file:
        yield PairAnswerDiffers(
            answer.span, answer.name, answer.text, asked.number, same[0].text, same[0].span, other.name
        )


def _keys(paper: Side, memo: Side) -> Iterator[Problem]:
    for number, asked in paper.questions.items():
        there = memo.questions.get(number)
        if there is not None and asked.letter and there.letter and asked.letter[0] != there.letter[0]:
            yield PairKeyDiffers(
                asked.letter[1], number, asked.letter[0], there.letter[0], there.letter[1], memo.name
            )
