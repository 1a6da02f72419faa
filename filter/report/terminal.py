"""Problems as a person reads them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce
from operator import add
from typing import Any

import click

from physcalc.problems import Problem, Span

from .found import Found, Lines
from .picture import picture
from .pieces import Format, Out, Piece, Tally
from .places import whole_file
from .wording import clean

_COLOURS: dict[str, dict[str, Any]] = {
    "place": {"bold": True},
    "problem": {"fg": "red", "bold": True},
    "unreadable": {"fg": "red", "bold": True},
    "note": {"fg": "cyan", "bold": True},
    "mend": {"fg": "green"},
    "plain": {},
}
#: What hangs below a sentence stands this far in.
_INDENT = "   "


def as_text(runs: Sequence[Found], *, colour: bool = False, width: int = 100) -> str:
    """The problems of a run, file by file, each with a picture of its place; empty where there are none.

    Args:
        runs: what was found, in the order in which the files were named.
        colour: whether colours are wanted.
        width: how many columns the terminal has.
    """
    lines = Lines.of(runs)
    texts = [_problem(problem, lines, colour, width) for run in runs for problem in run.problems]
    return "".join(text + "\n" for text in texts)


class AsText(Format):
    """The problems of a run for a person; the same as `as_text`, document by document.

    Args:
        colour, width: as for `as_text`.
    """

    most = 1_000

    def __init__(self, colour: bool = False, width: int = 100) -> None:
        self._colour = colour
        self._width = width

    def piece(self, run: Found) -> Piece:
        """All that is said of a document."""
        return Piece((as_text([run], colour=self._colour, width=self._width),))

    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """What is said of each document, as soon as it comes."""
        for piece in pieces:
            out("".join(piece.parts))


def count_text(runs: Sequence[Found]) -> str:
    """The last line of a run: "3 problems, 1 note in 2 of 5 files"."""
    return reduce(add, map(Tally.of, runs), Tally()).text()


def _problem(problem: Problem, lines: Lines, colour: bool, width: int) -> str:
    def paint(text: str, kind: str) -> str:
        return click.style(text, **_COLOURS[kind]) if colour else text

    span = problem.span
    line = lines.at(span)
    slug = paint(problem.slug, problem.level) + (" (note)" if problem.level == "note" else "")
    place = paint(clean(_place(span, line)), "place")
    out = [f"{place} {slug}: {clean(problem.sentence())}"]
    if line is not None and not whole_file(span):
        above, marks = picture(span, line, width)
        out += [above, paint(marks, problem.level)]
    out += [_INDENT + clean(reason) for reason in problem.because()]
    if problem.mend():
        out.append(_INDENT + paint("mend:", "mend") + " " + clean(problem.mend()))
    return "\n".join(out)


def _place(span: Span, line: str | None) -> str:
    """`file:line:column:`; the file alone where there is no such line, as when it could not be read."""
    if not span.file or (line is None and whole_file(span)):
        return f"{span.file or 'physcalc'}:"
    return f"{span.file}:{span.line}:{span.column}:"
