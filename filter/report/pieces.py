"""A report in pieces, one for each document, so that no more of it is held at once than has to be.

A piece is made where the document is checked, perhaps in another process or on another machine: it holds text only,
and no source and no problem. The pieces are put together where the report is written, in the order of the documents.
"""

from __future__ import annotations

import io
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from physcalc.problems import EXIT_CODES, Problem, Span

from .found import Found
from .problems import ProblemsNotShown
from .wording import several

#: Takes the next stretch of a report.
Out = Callable[[str], object]


@dataclass(frozen=True, slots=True)
class Tally:
    """What is counted of a run, whatever is shown of it.

    Attributes:
        files: how many documents there were.
        concerned: how many of them have a problem or a note.
        problems, notes: how many there are in all.
        code: the exit code: 2 beats 1, notes count for nothing.
    """

    files: int = 0
    concerned: int = 0
    problems: int = 0
    notes: int = 0
    code: int = 0

    @classmethod
    def of(cls, run: Found) -> Tally:
        """What is counted of one document."""
        notes = run.count(notes=True)
        code = max((EXIT_CODES[problem.level] for problem in run.problems), default=0)
        return cls(1, int(bool(run.problems)), len(run.problems) - notes, notes, code)

    def __add__(self, other: Tally) -> Tally:
        return Tally(
            self.files + other.files,
            self.concerned + other.concerned,
            self.problems + other.problems,
            self.notes + other.notes,
            max(self.code, other.code),
        )

    def text(self) -> str:
        """The last line of a run: "3 problems, 1 note in 2 of 5 files"."""
        parts = [several(self.problems, "problem")] if self.problems else ["everything agrees"]
        if self.notes:
            parts.append(several(self.notes, "note"))
        if self.concerned in (0, self.files):
            where = several(self.files, "file")
        else:
            where = f"{self.concerned} of {several(self.files, 'file')}"
        return f"{', '.join(parts)} in {where}"


@dataclass(frozen=True, slots=True)
class Piece:
    """What one document adds to a report.

    Attributes:
        parts: stretches of the report, as its format has them: mostly one for each problem.
        tally: what is counted of the document.
        slugs: for each part the slug of its problem, where the format asks for it.
        rules: what the format says of each kind of problem, by slug, where it does.
        files: the names of the document and of others that its problems point at, where the format lists them.
        counts: tests, failures and errors, where the format counts them.
    """

    parts: tuple[str, ...] = ()
    tally: Tally = Tally()
    slugs: tuple[str, ...] = ()
    rules: tuple[tuple[str, str], ...] = ()
    files: tuple[str, ...] = ()
    counts: tuple[int, int, int] = (0, 0, 0)


class Format(ABC):
    """A format of the report: how a document's piece looks, and how pieces become a whole.

    Called with all runs it gives the whole text, its last line ending included.
    """

    #: How many problems of one document are shown where nobody says how many.
    most: int = 10_000

    @abstractmethod
    def piece(self, run: Found) -> Piece:
        """What a document adds; nothing is counted here."""

    @abstractmethod
    def write(self, pieces: Iterable[Piece], out: Out) -> None:
        """Hands on the report, stretch by stretch, as the pieces come."""

    def __call__(self, runs: Sequence[Found]) -> str:
        text = io.StringIO()
        self.write((self.piece(run) for run in runs), text.write)
        return text.getvalue()


def piece_of(run: Found, form: Format, most: int | None = None) -> Piece:
    """What a document adds to a report, cut to a number of problems and counted in full.

    Args:
        run: what was found in it.
        form: the format of the report.
        most: how many problems are shown; the format's own number where it is None, all for 0.
    """
    shown = shortened(run, form.most if most is None else most)
    return replace(form.piece(shown), tally=Tally.of(run))


def shortened(run: Found, most: int) -> Found:
    """A run with so many problems, and the one that says how many more there are; 0 for all."""
    count = len(run.problems)
    if not 0 < most < count:
        return run
    # Notes go first: a note that is shown must not hide a problem.
    by_weight = sorted(range(count), key=lambda at: run.problems[at].level == "note")
    kept = sorted(by_weight[:most])
    notes = sum(run.problems[at].level == "note" for at in by_weight[most:])
    more: Problem = ProblemsNotShown(Span(run.name), count - most - notes, notes)
    return Found(run.name, (*(run.problems[at] for at in kept), more), run.source)
