"""Problems as JSON, for programs."""

from __future__ import annotations

import json
from collections.abc import Sequence

from physcalc.problems import Problem

from .found import Found


def as_json(runs: Sequence[Found]) -> str:
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
    return json.dumps([_object(problem) for run in runs for problem in run.problems], indent=2) + "\n"


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
