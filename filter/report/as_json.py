"""Problems as JSON, for programs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from physcalc.problems import Problem

from .found import Found
from .pieces import Format, Out, Piece
from .wording import as_json


class AsJson(Format):
    """A list of objects, one a problem or note, file by file and in the order of each document.

    The keys of an object, which stay as they are:

    - `file`, `line`, `column`, `length`: the place; lines and columns are counted from 1, in characters.
    - `slug`: what kind of problem it is, as `physcalc explain` knows it.
    - `level`: "problem", "note" or "unreadable".
    - `sentence`: what is wrong, in one line.
    - `mend`: what to do about it; may be empty.
    - `because`: a list of further lines; may be empty.

    Everything but ASCII is escaped, so that the text survives any encoding of the stream it is written to.
    """

    def piece(self, run: Found) -> Piece:
        """An object for each problem."""
        return Piece(tuple(indented(_object(problem), 2) for problem in run.problems))

    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """The list, object by object."""
        listed((part for piece in pieces for part in piece.parts), out, 0)
        out("\n")


def indented(value: Any, depth: int) -> str:
    """A value as JSON, lines behind the first so far in."""
    # No text in JSON holds a line feed of its own.
    return as_json(value).replace("\n", "\n" + " " * depth)


def listed(parts: Iterable[str], out: Out, depth: int) -> None:
    """A list as JSON, of parts that are JSON already, its end so far in."""
    pad, empty = " " * depth, True
    for part in parts:
        out(("[" if empty else ",") + f"\n{pad}  {part}")
        empty = False
    out("[]" if empty else f"\n{pad}]")


def _object(problem: Problem) -> dict[str, object]:
    span = problem.span
    return {
        "file": span.file,
        "line": span.line,
        "column": span.column,
        "length": span.length,
        "slug": problem.slug,
        "level": problem.level,
        "sentence": problem.sentence(),
        "mend": problem.mend(),
        "because": list(problem.because()),
    }
