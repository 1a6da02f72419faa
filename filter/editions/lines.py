"""Lines of working as rows of a page."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import panflute as pf

from physcalc.language import Conventions
from physcalc.language.remarks import remark
from physcalc.language.words import direction_words, punctuated
from physcalc.steps.lines import Line, LineKind, Working

from ..document import Edition, Engine
from .layouts import Note, Row
from .layouts.base import Inline, math, relation_tex
from .text import inlines_of
from .words import Words


@dataclass(frozen=True, slots=True)
class Method:
    """One way of working a calculation, as rows.

    Attributes:
        heading: a word above it; empty for none.
        why: the author's sentence; empty for none or where the edition does not show it.
        rows: its rows.
    """

    heading: str
    why: str
    rows: tuple[Row, ...]


def methods_of(
    working: Working,
    edition: Edition,
    engine: Engine,
    conventions: Conventions,
    words: Words,
) -> list[Method]:
    """The methods of a calculation, the author's first one first.

    Args:
        working: what the engine made.
        edition: memo (ticks, no rearranged lines) or guide (no ticks, reasons).
        engine: what writes TeX.
        conventions: the settings in force.
        words: the words of the page.
    """
    methods = [_method(working, working.heading, edition, engine, conventions)]
    for other in working.others:
        method = _method(other, other.heading or words["or"], edition, engine, conventions)
        methods.append(method)
    return methods


def with_total(rows: Sequence[Row], total: str) -> list[Row]:
    """The rows with the bracketed total on the last one that is no remark."""
    done = list(rows)
    for index in range(len(done) - 1, -1, -1):
        if not done[index].remark:
            done[index] = replace(done[index], total=total)
            return done
    if done:
        done[-1] = replace(done[-1], total=total)
    return done


def slips_of(
    working: Working, engine: Engine, conventions: Conventions
) -> list[tuple[list[Inline], list[Inline]]]:
    """Each wrong way worth knowing, and what it leads to."""
    return [(inlines_of(what), [math(engine.tex(printed, conventions))]) for what, printed in working.slips]


def notes_of(
    working: Working,
    engine: Engine,
    conventions: Conventions,
    words: Words,
    carried: Sequence[str],
    letters: Mapping[str, str],
    positive: str = "",
) -> list[Note]:
    """For the one who marks: which direction is positive, what may be accepted and is carried through, what slips give.

    Args:
        working: what the engine made.
        engine: what writes TeX.
        conventions: the settings in force.
        words: the words of the page.
        carried: the numbers of the questions whose answers go into this one.
        letters: the letter of the option that each slip leads to, by its words.
        positive: which direction is positive; empty where that need not be told.
    """
    notes = [Note(positive)] if positive else []
    if working.accepted is not None:
        low, high = (math(engine.tex(end, conventions)) for end in working.accepted)
        between = [pf.Space(), pf.Str(words["to"]), pf.Space()]
        notes.append(Note(words["accept"], [low, *between, high]))
    for at, (bottom, top, marks) in enumerate(working.bands):
        ends = [math(engine.tex(end, conventions)) for end in (bottom, top)]
        between = [pf.Space(), pf.Str(words["to"]), pf.Space()]
        earned = f"({marks})"
        notes.append(Note(words["accept"] if at == 0 else "", [ends[0], *between, ends[1]], [pf.Str(earned)]))
    if carried:
        notes.insert(0, Note(f"{words['carried']} {', '.join(carried)}"))
    for at, (what, value) in enumerate(slips_of(working, engine, conventions)):
        letter = letters.get(" ".join(working.slips[at][0].split()), "")
        chosen = [pf.Space(), pf.Str(f"({letter})")] if letter else []
        notes.append(Note(words["slip"] if at == 0 else "", what, [*value, *chosen]))
    return notes


def positive_in(working: Working, conventions: Conventions) -> str:
    """Which direction is positive, for the one who marks; empty where no direction has a sign in the working."""
    axis = conventions.axis
    # Two signs of one working stand above it.
    if axis is None or working.heading:
        return ""
    shown = [answer.printed for answer in working.answers] + [origin.printed for origin in working.origins]
    if not any(printed.direction for printed in shown):
        return ""
    said = remark("positive", conventions.lang, way=direction_words(axis.positive, conventions.lang))
    return said[:1].upper() + said[1:]


def _method(
    working: Working, heading: str, edition: Edition, engine: Engine, conventions: Conventions
) -> Method:
    lines = [
        line
        for line in working.lines
        if line.audience in {"all", edition} and not (line.kind is LineKind.REARRANGED and edition != "guide")
    ]
    rows = tuple(
        replace(_row(line, engine, conventions, ticked=edition == "memo"), opens=_opens(before, line))
        for before, line in zip((None, *lines), lines, strict=False)
    )
    return Method(heading, working.why if edition == "guide" else "", rows)


def _opens(before: Line | None, line: Line) -> bool:
    """Whether a step begins with a line: with the reason that the author gives for it, or with its formula."""
    if before is None:
        return False
    reason = not line.sides and not line.pieces
    return reason or (before.kind is LineKind.ANSWER and line.kind in (LineKind.FORMULA, LineKind.INSTANCE))


def _row(line: Line, engine: Engine, conventions: Conventions, ticked: bool) -> Row:
    marks = line.marks if ticked else 0
    if not line.sides:
        return Row(remark=_sentence(line, engine, conventions), ticks=marks)
    sides = [engine.tex(side, conventions) for side in line.sides]
    relations = list(line.relations) or ["="] * (len(sides) - 1)
    if len(sides) == 1:
        return Row(right_tex=sides[0], ticks=marks)
    right = sides[1]
    for relation, side in zip(relations[1:], sides[2:], strict=True):
        right += f" {relation_tex(relation) or relation} {side}"
    if line.label:
        right += rf" \qquad \text{{{line.label}}}"
    return Row(left_tex=sides[0], right_tex=right, relation=relations[0], ticks=marks)


def _sentence(line: Line, engine: Engine, conventions: Conventions) -> list[Inline]:
    """A remark, its names and values set as maths."""
    if not line.pieces:
        return inlines_of(punctuated(line.text, conventions.lang))
    out: list[Inline] = []
    for piece in line.pieces:
        if isinstance(piece, str):
            out += inlines_of(punctuated(piece, conventions.lang))
        else:
            out.append(math(engine.tex(piece, conventions)))
    return out
