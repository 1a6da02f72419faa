"""Spans written around loose numbers that equal exactly one quantity, without touching another byte.

What may live here: which numbers can be tied so, and what becomes of the text. Asking, reading and writing of
files are the command's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from physcalc.problems import Problem

from .problems import NumberLoose
from .sources import Edit, Source, splice


@dataclass(frozen=True, slots=True)
class Tie:
    """One number that can be tied.

    Attributes:
        problem: the loose number.
        edit: the stretch of the text and what shall stand there.
    """

    problem: NumberLoose
    edit: Edit


@dataclass(frozen=True, slots=True)
class Tied:
    """A document with its numbers tied as far as that goes.

    Attributes:
        source: the text as it is now; the one handed in where nothing was tied.
        ties: what was tied, in the order of the document.
        problems: what is left, notes included.
    """

    source: Source
    ties: tuple[Tie, ...]
    problems: tuple[Problem, ...]


def ties_of(source: Source, problems: Iterable[Problem]) -> list[Tie]:
    """The numbers of a document that can be tied, in the order of its text.

    Args:
        source: the document.
        problems: what a strict check found in it.
    """
    found: list[Tie] = []
    loose = [problem for problem in problems if isinstance(problem, NumberLoose) and problem.tie]
    for problem in sorted(loose, key=lambda problem: problem.end):
        start = problem.end - len(problem.raw)
        # A place that shows other characters than were found is another text's.
        if problem.span.file != source.name or source.text[start : problem.end] != problem.raw:
            continue
        if found and found[-1].edit.end > start:
            continue
        found.append(Tie(problem, Edit(start, problem.end, problem.tie)))
    return found


def tie(source: Source, chosen: Sequence[Tie], check: Callable[[Source], Sequence[Problem]]) -> Tied:
    """The document with the chosen numbers tied.

    What comes of it is checked: a span that Markdown does not take for one, or that brings a problem to light,
    is taken back.

    Args:
        source: the document.
        chosen: what of `ties_of` is wanted.
        check: finds the problems of a document, loose numbers included.
    """
    before = tuple(check(source))
    changed, after = _with(source, chosen, check)
    if _sound(before, after, len(chosen)):
        return Tied(changed, tuple(chosen), after)
    kept: list[Tie] = []
    for one in chosen:
        changed, after = _with(source, [*kept, one], check)
        if _sound(before, after, len(kept) + 1):
            kept.append(one)
    changed, after = _with(source, kept, check)
    return Tied(changed, tuple(kept), after)


def _with(
    source: Source, ties: Sequence[Tie], check: Callable[[Source], Sequence[Problem]]
) -> tuple[Source, tuple[Problem, ...]]:
    if not ties:
        return source, tuple(check(source))
    changed = Source(source.name, splice(source.text, [one.edit for one in ties]), source.bom)
    return changed, tuple(check(changed))


def _sound(before: Sequence[Problem], after: Sequence[Problem], count: int) -> bool:
    """Whether so many loose numbers fewer are left, and nothing else has come up."""
    return _loose(before) - _loose(after) == count and len(after) - _loose(after) <= len(before) - _loose(
        before
    )


def _loose(problems: Sequence[Problem]) -> int:
    return sum(isinstance(problem, NumberLoose) for problem in problems)
