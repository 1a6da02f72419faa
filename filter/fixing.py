"""Computed values written over typed results that disagree, without touching another byte.

What may live here: which problems can be mended so, and the text that comes of it. Reading and writing of
files is the command's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass

from physcalc.compare_style import in_style_of
from physcalc.exact import Form, Real, read_number
from physcalc.exact.number import DecimalSign
from physcalc.language.directions import printed_direction
from physcalc.problems import Problem, Text
from physcalc.problems.solving import AnswerDisagrees, DatumDisagrees, DirectionDisagrees
from physcalc.units import before_amount

from .sources import MARKUP, Edit, Source, direction_words, splice, typed_stretch, with_number

#: A mended value that others start from may bring new ones to light; no document has a longer chain of them.
_MOST_ROUNDS = 12
#: So many changes are tried one by one where all of them together do harm.
_MOST_TRIED = 50
#: What is said of a value in whose raw text the place of the number is not certain.
UNCERTAIN = "it is left as it is typed: in its markup the place of what is wrong is not certain"


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

    Each round of changes is checked: one that brings a problem of another kind to light is taken back, and its
    changes are tried one by one.

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
        changed, left = _changed(source, found, check)
        if not _harmless(changed, left, problems, len(found)):
            found = _harmless_ones(source, found, problems, check)
            if found:
                source, problems = _changed(source, found, check)
                mends += found
            break
        mends += found
        source, problems = changed, left
    _say_why(source, problems)
    return Fixed(source, tuple(mends), problems)


def _changed(
    source: Source, mends: Sequence[Mend], check: Callable[[Source], Sequence[Problem]]
) -> tuple[Source, tuple[Problem, ...]]:
    changed = Source(source.name, splice(source.text, (mend.edit for mend in mends)), source.bom)
    return changed, tuple(check(changed))


def _harmless(source: Source, left: Sequence[Problem], before: Sequence[Problem], count: int) -> bool:
    """Whether so many changes brought nothing of another kind to light, and no more to mend than there was."""
    return _others(left) <= _others(before) and len(mends_of(source, left)) <= count


def _harmless_ones(
    source: Source,
    mends: Sequence[Mend],
    problems: Sequence[Problem],
    check: Callable[[Source], Sequence[Problem]],
) -> list[Mend]:
    kept: list[Mend] = []
    for mend in mends[:_MOST_TRIED] if len(mends) > 1 else ():
        changed, left = _changed(source, [*kept, mend], check)
        if _harmless(changed, left, problems, len(mends) - len(kept) - 1):
            kept.append(mend)
    return kept


def _say_why(source: Source, problems: Iterable[Problem]) -> None:
    """Tells of each typed result that could be mended why it is not."""
    for problem in problems:
        if (
            isinstance(problem, AnswerDisagrees)
            and not isinstance(problem, DatumDisagrees)
            and problem.replacement
            and problem.span.file == source.name
            and UNCERTAIN not in problem.reasons
            and _edit(source, problem) is None
        ):
            problem.reasons = (*problem.reasons, UNCERTAIN)


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
    for _, fixed in done:
        _say_why(fixed.source, done[-1][1].problems)
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
        edit = _edit(source, problem)
        if edit is None:
            continue
        if found and found[-1].edit.end > edit.start:
            continue
        found.append(Mend(problem, edit, source.text[edit.start : edit.end]))
    return found


def _edit(source: Source, problem: AnswerDisagrees) -> Edit | None:
    """What is written over a typed value; None where nothing is."""
    start = source.offset(problem.span)
    stretch = typed_stretch(source.text, start)
    if stretch is not None and MARKUP.search(source.text, *stretch):
        old = source.text[slice(*stretch)]
        new = (
            _with_direction(old, problem)
            if isinstance(problem, DirectionDisagrees)
            else with_number(old, problem.typed, problem.replacement)
        )
        return Edit(*stretch, new) if new and new != old else None
    end = start + problem.span.length
    old = source.text[start:end]
    # The dollar before an amount in a block begins no mathematics.
    money = before_amount(old)
    marked = MARKUP.search(old, money.end() if money is not None and stretch is None else 0)
    new = _with_markup(old, problem.replacement) if marked else problem.replacement
    # A place that begins with markup is wider than the value in it; equal texts would be mended in vain.
    if not new or old[:1] in ("[", "`", "") or "\n" in old or old == new:
        return None
    return Edit(start, end, new)


def _with_direction(old: str, problem: DirectionDisagrees) -> str:
    words = direction_words(old)
    if not words or problem.typed not in (words, printed_direction(words)):
        return ""
    return old.removesuffix(words) + problem.replacement


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
