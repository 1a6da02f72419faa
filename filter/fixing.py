"""Computed values written over typed results that disagree, without touching another byte.

What may live here: which problems can be mended so, and the text that comes of it. Reading and writing of
files is the command's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from physcalc.problems import Problem
from physcalc.problems.solving import AnswerDisagrees, DatumDisagrees

from .sources import Edit, Source, splice

#: A mended value that others start from may bring new ones to light; a document has no longer chain than this.
_MOST_ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Mend:
    """One value that was put right.

    Attributes:
        problem: what was wrong.
        edit: the stretch of the text and what stands there now.
        old: what stood there.
    """

    problem: AnswerDisagrees
    edit: Edit
    old: str


@dataclass(frozen=True, slots=True)
class Fixed:
    """A document put right as far as that goes.

    Attributes:
        source: the text as it is now; the one handed in where nothing could be mended.
        mends: what was changed, in the order in which it was.
        problems: what is left, notes included.
    """

    source: Source
    mends: tuple[Mend, ...]
    problems: tuple[Problem, ...]


def fix(source: Source, check: Callable[[Source], Sequence[Problem]]) -> Fixed:
    """The document with every typed result put right that can be.

    Each round of changes is checked: one that brings a problem of another kind to light is taken back.

    Args:
        source: the document.
        check: finds its problems.
    """
    mends: list[Mend] = []
    problems = tuple(check(source))
    for _ in range(_MOST_ROUNDS):
        found = mends_of(source, problems)
        if not found:
            break
        changed = Source(source.name, splice(source.text, (mend.edit for mend in found)), source.bom)
        left = tuple(check(changed))
        if _others(left) > _others(problems) or len(mends_of(changed, left)) > len(found):
            break
        mends += found
        source, problems = changed, left
    return Fixed(source, tuple(mends), problems)


def mends_of(source: Source, problems: Iterable[Problem]) -> list[Mend]:
    """What can be put right in a document, in the order of its text.

    Data are never changed: which of the two that differ is right, the author alone knows.
    """
    found: list[Mend] = []
    for problem in sorted(problems, key=lambda problem: problem.span.order):
        if not isinstance(problem, AnswerDisagrees) or isinstance(problem, DatumDisagrees):
            continue
        if not problem.replacement or problem.span.file != source.name:
            continue
        start = source.offset(problem.span)
        end = start + problem.span.length
        old = source.text[start:end]
        # A place that begins with markup is wider than the value in it; equal texts were mended in vain.
        if old[:1] in ("[", "`", "") or "\n" in old or old == problem.replacement:
            continue
        if found and found[-1].edit.end > start:
            continue
        found.append(Mend(problem, Edit(start, end, problem.replacement), old))
    return found


def _others(problems: Iterable[Problem]) -> int:
    """How many problems there are that are no typed results."""
    return sum(problem.level != "note" and not isinstance(problem, AnswerDisagrees) for problem in problems)
