"""Problems as they are found, each with the part of the document that it is framed at in a draft."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from types import TracebackType

from physcalc.problems import Problem

from .tree import Part


@dataclass(frozen=True, slots=True)
class Report:
    """What a run found.

    Attributes:
        problems: problems and notes in the order of the document, each once.
        questions: for each of them the number of the question in which it was found; empty for none.
    """

    problems: tuple[Problem, ...] = ()
    questions: tuple[str, ...] = ()

    @property
    def failed(self) -> bool:
        """Whether anything but notes was found."""
        return any(problem.level != "note" for problem in self.problems)

    @property
    def unreadable(self) -> bool:
        """Whether something could not be read at all."""
        return any(problem.level == "unreadable" for problem in self.problems)


class Findings:
    """Collects the problems of one run."""

    def __init__(self) -> None:
        self._found: list[tuple[int, Problem]] = []
        self._seen: set[tuple[object, ...]] = set()
        self._at: dict[int, list[Problem]] = {}

    def add(self, part: Part | None, problems: Iterable[Problem]) -> None:
        """Problems of a part (None: of the document as a whole); what was found before is left out."""
        for problem in problems:
            # Without a file, places are counted inside each block: equal places may be two.
            block = part.key if part and not problem.span.file else 0
            same = (problem.slug, problem.span, problem.sentence(), block)
            if same not in self._seen:
                self._seen.add(same)
                key = part.key if part else 0
                self._found.append((key, problem))
                self._at.setdefault(key, []).append(problem)

    def catching(self, part: Part | None) -> Catching:
        """Collects the problem that ends what is done inside a `with`."""
        return Catching(self, part)

    def at(self, part: Part | None) -> list[Problem]:
        """The problems of one part (None: of the document)."""
        return list(self._at.get(part.key if part else 0, ()))

    def every(self) -> list[Problem]:
        """All problems, in the order in which they were found."""
        return [problem for _, problem in self._found]

    def forget(self, follows: Callable[[Problem], bool]) -> None:
        """Take out the problems that only follow from another."""
        self._found = [(key, problem) for key, problem in self._found if not follows(problem)]

    def failed(self, part: Part) -> bool:
        """Whether a part has anything but notes."""
        return any(problem.level != "note" for problem in self.at(part))

    def report(self, numbers: Mapping[int, str] | None = None) -> Report:
        """Everything found, in the order of the document.

        Args:
            numbers: the number of the question in which each part stands, by the part's key.
        """
        if any(problem.span.file for _, problem in self._found):
            # Python's sort is stable: problems of one place stay in the order of the stages.
            ordered = sorted(self._found, key=lambda found: found[1].span.order)
        else:
            ordered = sorted(self._found, key=lambda found: (found[0], found[1].span.order))
        questions = tuple((numbers or {}).get(key, "") for key, _ in ordered)
        return Report(tuple(problem for _, problem in ordered), questions)


class Catching:
    """See `Findings.catching`."""

    def __init__(self, findings: Findings, part: Part | None) -> None:
        self._findings = findings
        self._part = part

    def __enter__(self) -> None:
        return None

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> bool:
        if not isinstance(error, Problem):
            return False
        self._findings.add(self._part, [error])
        return True
