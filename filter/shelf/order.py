"""What is asked of a worker, and what it may answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from physcalc.problems import Problem, Text

from ..report import Format, Found, Piece, piece_of

#: One document of a shelf: its path, or what is wrong where there is none.
Task = Path | Problem


@dataclass(frozen=True, slots=True)
class Order:
    """What is asked about every document of a run.

    Attributes:
        form: the format of the report.
        most: how many problems of one document are shown; None for the format's own number, 0 for all.
        strict: whether numbers that are tied to nothing are problems too.
        overrides: settings of the command line.
        limits: the limits that the command line sets, as the environment variable holds them.
    """

    form: Format
    most: int | None = None
    strict: bool = False
    overrides: Sequence[tuple[Text, object]] = ()
    limits: str = ""


@dataclass(frozen=True, slots=True)
class Sent:
    """A document for a worker that does not see its file.

    Attributes:
        name: its path as it is shown; sheets are looked for beside it.
        text: its text, line endings as they are.
        bom: whether its file begins with a byte order mark.
        files: other files that it needs, by their paths: their bytes, None for a file that is not there, and an empty
            tuple for one that lies outside the document's folder.
    """

    name: str
    text: str
    bom: bool = False
    files: Mapping[str, bytes | tuple[()] | None] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Needs:
    """A worker's answer that it needs another file for a document.

    Attributes:
        path: the file, as the document's machine knows it.
    """

    path: str


def problem_piece(problem: Problem, order: Order) -> Piece:
    """What a document adds to the report of which nothing is known but that problem."""
    return piece_of(Found(problem.span.file, (problem,)), order.form, order.most)
