"""Problems as workflow commands of GitHub Actions, which shows them at the lines of a change.

The form of a command, its properties and what must be escaped in it are those of GitHub's documentation,
"Workflow commands for GitHub Actions", and of the function `issueCommand` of the actions toolkit.
"""

from __future__ import annotations

from collections.abc import Iterable

from physcalc.problems import Level, Problem

from .found import Found
from .pieces import Format, Out, Piece
from .places import whole_file
from .wording import clean

_COMMANDS: dict[Level, str] = {"note": "notice", "problem": "error", "unreadable": "error"}


class AsGithub(Format):
    """One command a line for each problem or note: `::error file=…,line=…,col=…,title=…::text`.

    Lines and columns are counted from 1. A note is a notice. Line ends, percent signs and, in properties,
    colons and commas are escaped, so that nothing a document says can be a command of its own.
    """

    def piece(self, run: Found) -> Piece:
        """A command for each problem."""
        return Piece(tuple(_command(problem) + "\n" for problem in run.problems))

    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """Line by line."""
        for piece in pieces:
            out("".join(piece.parts))


def _command(problem: Problem) -> str:
    span = problem.span
    properties: list[tuple[str, str]] = []
    if span.file:
        properties.append(("file", span.file.replace("\\", "/")))
        if not whole_file(span):
            properties += [
                ("line", str(span.line)),
                ("endLine", str(span.line)),
                ("col", str(span.column)),
                ("endColumn", str(span.column + max(1, span.length))),
            ]
    properties.append(("title", problem.slug))
    lines = [problem.sentence(), *problem.because()]
    if problem.mend():
        lines.append(f"mend: {problem.mend()}")
    listed = ",".join(f"{name}={_property(value)}" for name, value in properties)
    return f"::{_COMMANDS[problem.level]} {listed}::{_data(chr(10).join(map(clean, lines)))}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")
