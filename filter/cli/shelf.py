"""Documents checked by this process, by several, or by a cluster: which of them, and what is shown meanwhile."""

from __future__ import annotations

import os
import sys
from collections.abc import Generator, Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from itertools import chain, islice
from pathlib import Path
from typing import TYPE_CHECKING

from physcalc.problems import Problem

from . import screen
from .documents import check_pair
from .paths import documents
from .progress import Progress, out
from .settings import Overrides

if TYPE_CHECKING:
    from ..report import Format, Found, Piece, Tally
    from ..shelf import Order

#: The names of the formats of a report: `report.FORMATS` has the same, but to ask it would load it for every `--help`.
FORMATS = ("text", "json", "junit", "sarif", "github")
#: Up to this many documents it takes longer to start processes than to read them, and nobody wants to watch.
_FEW = 3
#: How many seconds a document is given where nobody says how many.
_PATIENCE = 120.0


@dataclass(frozen=True, slots=True)
class Wish:
    """What was asked for on the command line.

    Attributes:
        strict: whether numbers that are tied to nothing are problems too.
        overrides: settings.
        most: how many problems of a document are shown; None for the format's own number, 0 for all.
        jobs: how many processes; None for what is usual.
        seconds: how long a document may take; None for what is usual.
        cluster: the address of a cluster's scheduler; empty for none.
    """

    strict: bool
    overrides: Overrides
    most: int | None
    jobs: int | None
    seconds: float | None
    cluster: str


def report(paths: Sequence[Path], form: Format, wish: Wish) -> Tally:
    """Writes what is wrong with each document to standard output, in order, as it becomes known.

    Returns:
        What was counted.

    Raises:
        ClusterMissing, ClusterUnreachable, ClusterUnlike: no cluster checks them.
    """
    from physcalc.limits import VARIABLE

    from ..shelf import Order

    order = Order(form, wish.most, wish.strict, wish.overrides, os.environ.get(VARIABLE, ""))
    begun = documents(paths)
    first = list(islice(begun, _FEW + 1))
    progress = Progress(lambda: sum(1 for _ in documents(paths)), len(first) > _FEW)
    pieces = _checked(chain(first, begun), len(first), order, wish, progress)
    # However this ends, the processes end with it.
    with closing(pieces):
        return _written(pieces, form, progress)


def report_pair(paths: Sequence[Path], form: Format, wish: Wish) -> Tally:
    """The same of a paper and its memo.

    Raises:
        click.UsageError: they are not two files.
    """
    return report_found(check_pair(paths, wish.overrides), form, wish.most)


def report_found(runs: Sequence[Found], form: Format, most: int | None = None) -> Tally:
    """Writes what was found already to standard output; what was counted."""
    from ..report import piece_of

    return _written((piece_of(run, form, most) for run in runs), form, Progress(int, False))


def _written(pieces: Iterable[Piece], form: Format, progress: Progress) -> Tally:
    from ..report import Tally

    total = Tally()

    def counted() -> Iterator[Piece]:
        nonlocal total
        progress.show()
        for piece in pieces:
            total += piece.tally
            yield piece
            progress.show()

    try:
        form.write(counted(), out(progress))
    finally:
        progress.clear()
    return total


def _checked(
    found: Iterator[Path | Problem], count: int, order: Order, wish: Wish, progress: Progress
) -> Generator[Piece]:
    from .. import shelf

    seconds = wish.seconds or _PATIENCE
    if wish.cluster:
        from ..shelf.cluster import checked_by_cluster  # Here: it asks for a library that few have.

        return checked_by_cluster(found, order, wish.cluster, seconds, progress.one_more, progress.show)
    if wish.jobs is None and (wish.seconds is None and count <= _FEW):
        return _told(shelf.checked_here(found, order, screen.debugging()), progress)
    jobs = wish.jobs or shelf.usable_cores()
    # No more processes than documents; beyond a few their number is not known.
    jobs = min(jobs, count) if count <= _FEW else jobs
    return shelf.checked_by_processes(found, order, max(1, jobs), seconds, progress.one_more, progress.show)


def _told(pieces: Iterator[Piece], progress: Progress) -> Generator[Piece]:
    for piece in pieces:
        progress.one_more()
        yield piece


def format_of(form: str) -> Format:
    """The format of a name of `FORMATS`."""
    from .. import report as reports

    if form == "text":
        return reports.AsText(screen.coloured(sys.stdout), screen.width(sys.stdout))
    return reports.FORMATS[form]
