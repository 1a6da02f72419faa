"""Computed values written over typed results that disagree, without touching another byte.

What may live here: which problems can be mended so, and the text that comes of it. Reading and writing of
files is the command's.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from physcalc.compare_style import in_style_of
from physcalc.exact import Form, Real, read_number
from physcalc.exact.number import DecimalSign
from physcalc.problems import Problem, Text
from physcalc.problems.solving import AnswerDisagrees, DatumDisagrees

from .sources import Edit, Source, splice

#: A mended value that others start from may bring new ones to light; no document has a longer chain of them.
_MOST_ROUNDS = 12
#: What Markdown takes out of a text: raised and lowered digits, escapes, maths.
_MARKUP = re.compile(r"[\^~\\$]")


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


def fix_files(
    source: Source,
    others: Sequence[Source],
    check: Callable[[Source, Mapping[str, Source]], Sequence[Problem]],
) -> list[tuple[Source, Fixed]]:
    """A document and the files that it reads, put right one after the other.

    Args:
        source: the document.
        others: the files that it reads.
        check: finds the problems of the document, with texts in the place of those of files, by name.

    Returns:
        Each file with what became of it, the document first; the problems that are left stand with the last.
    """
    done: list[tuple[Source, Fixed]] = []
    instead: dict[str, Source] = {}
    fixed = fix(source, lambda text: check(text, instead))
    done.append((source, fixed))
    for other in others:
        if any(problem.span.file == other.name for problem in fixed.problems):
            main = done[0][1].source
            fixed = fix(other, lambda text, main=main: check(main, {**instead, text.name: text}))  # type: ignore[misc]
            instead[other.name] = fixed.source
            done.append((other, fixed))
    return done


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
        new = _with_markup(old, problem.replacement) if _MARKUP.search(old) else problem.replacement
        # A place that begins with markup is wider than the value in it; equal texts would be mended in vain.
        if not new or old[:1] in ("[", "`", "") or "\n" in old or old == new:
            continue
        if found and found[-1].edit.end > start:
            continue
        found.append(Mend(problem, Edit(start, end, new), old))
    return found


def _with_markup(old: str, new: str) -> str:
    """The new value in the author's Markdown, as in 6.7 × 10^3^, of which only the plain text was compared.

    Empty where the old text cannot be read, markup and all.
    """
    signs: tuple[DecimalSign, ...] = (".", ",")
    for decimal in signs:
        with suppress(Problem):
            if found := read_number(Text(new), 0, decimal):
                number = found[0]
                plain = number.exponent is None
                form = Form("places", number.places, False) if plain else Form("figures", number.figures)
                if text := in_style_of(Text(old), Real.of(number.value), form, decimal=decimal):
                    return text
    return ""


def _others(problems: Iterable[Problem]) -> int:
    """How many problems there are that are no typed results."""
    return sum(problem.level != "note" and not isinstance(problem, AnswerDisagrees) for problem in problems)
