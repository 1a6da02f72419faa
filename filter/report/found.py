"""What a run found, file by file, and the lines that its problems point at."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from physcalc.problems import Problem, Span

from ..sources import Source, is_tex, read_source

#: Other files than documents that a problem may point into: sheets.
_SHEETS = (".yaml", ".yml")


@dataclass(frozen=True, slots=True)
class Found:
    """What was found in one document.

    Attributes:
        name: the document's name as it is shown.
        problems: problems and notes in the order of the document.
        source: its text; None where it could not be read.
    """

    name: str
    problems: tuple[Problem, ...] = ()
    source: Source | None = None

    def count(self, *, notes: bool) -> int:
        """How many notes there are, or how many problems that are none."""
        return sum((problem.level == "note") is notes for problem in self.problems)


class Lines:
    """The lines of sources, by the place of a problem."""

    def __init__(self, sources: Iterable[Source] = ()) -> None:
        self._known: dict[str, Source | None] = {source.name: source for source in sources}
        self._latex = [source for source in self._known.values() if source and is_tex(source.name)]
        # A line may have a megabyte and thousands of problems, and to cut it out each time would take the square.
        self._last: tuple[tuple[str, int], str | None] = (("", 0), None)

    @classmethod
    def of(cls, runs: Sequence[Found]) -> Lines:
        """The lines of the documents of a run."""
        return cls(run.source for run in runs if run.source is not None)

    def at(self, span: Span) -> str | None:
        """The line that holds a place, without its ending; None where it is not to be had."""
        if self._last[0] != (span.file, span.line):
            self._last = ((span.file, span.line), self._line(span))
        return self._last[1]

    def _line(self, span: Span) -> str | None:
        source = self._source(span.file)
        if source is None or not 1 <= span.line <= len(source.starts):
            return None
        return source.line_text(span.line - 1)

    def _source(self, name: str) -> Source | None:
        while name not in self._known and self._latex:
            # What a document in LaTeX reads, by the rules by which it was read: nothing outside its folder.
            from ..sources import weave  # Here: few documents are in LaTeX.

            document = self._latex.pop()
            for other in weave(document, Path(document.name).parent)[0].others():
                self._known.setdefault(other.name, other)
        if name not in self._known:
            self._known[name] = None
            if name.endswith(_SHEETS):
                # Where it cannot be read, its own reader has said so; here only the picture is lost.
                with suppress(Problem):
                    self._known[name] = read_source(Path(name))
        return self._known[name]
