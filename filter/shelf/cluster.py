"""Documents checked by the workers of a cluster: the door of the library `distributed`.

A document is sent as text; what it needs beside it, a sheet, is sent when a worker asks for it, and remembered for the
other documents of that folder. So workers share no disk with the machine that asks. A worker has its own process check
the document, as on one machine, so what kills that process kills no worker of the cluster.
"""

from __future__ import annotations

import logging
import os
import time
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from physcalc import __version__
from physcalc.problems import Problem, Span

from ..report import Piece, piece_of
from ..sources import Source, read_source
from .beside import Held, held, inputs
from .order import Needs, Order, Sent, Task, problem_piece
from .ordered import Awaited, at_once, in_order
from .problems import ClusterMissing, ClusterUnlike, ClusterUnreachable, WorkerDied
from .remote import Unlike, check_sent

#: Seconds until a scheduler that does not answer is given up, and one that has no workers.
CONNECT, WORKERS = 10.0, 30.0
#: For each thread of the cluster so many documents are under way, so that none waits for the network; so many at least,
#: and at most.
_WINDOW, _LEAST, _MOST = 8, 32, 4_000
#: A document asks for its sheet, and for those that this one extends, one after the other.
_MOST_FILES = 20
#: Of so many folders so many sheets are remembered, and sent with each document before it asks.
_FOLDERS, _SHEETS = 64, 8
#: See `Sent.files`.
_Files = dict[str, Held]


def checked_by_cluster(
    documents: Iterable[Task],
    order: Order,
    address: str,
    seconds: float,
    done: Callable[[object], None],
    waiting: Callable[[], None],
) -> Generator[Piece]:
    """The documents checked by a cluster, their pieces in the order in which the documents come.

    Args:
        documents, order: what is checked, and what is asked.
        address: the address of the scheduler.
        seconds: how long each document may take.
        done, waiting: as for `checked_by_processes`.

    Raises:
        ClusterMissing, ClusterUnreachable, ClusterUnlike: there are no workers, or none that could be asked.
    """
    with _quiet(), _connected(address) as client:
        asking = _Asking(client, address, order, seconds, done)
        yield from in_order(documents, asking.submit, asking.window, waiting)


@contextmanager
def _quiet() -> Iterator[None]:
    """What goes wrong is told as a problem; the library's own words would stand between the lines of the report."""
    before = logging.root.manager.disable
    logging.disable(logging.CRITICAL)
    try:
        yield
    finally:
        logging.disable(before)


@contextmanager
def _connected(address: str) -> Iterator[Any]:
    try:
        from distributed import Client
    except ModuleNotFoundError as error:
        raise ClusterMissing(Span(), str(error.name)) from None
    try:
        client = Client(address, timeout=CONNECT, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        raise ClusterUnreachable(Span(), address, f"does not answer ({_said(error)})") from None
    try:
        try:
            client.wait_for_workers(1, timeout=WORKERS)
        except OSError:
            raise ClusterUnreachable(Span(), address, f"had no worker within {WORKERS:g} s") from None
        yield client
    finally:
        # What is under way is given up with the client, which holds the only claim to it.
        with suppress(Exception):
            client.close(timeout=5)


def _said(error: BaseException) -> str:
    return " ".join(str(error).split())[:200] or type(error).__name__


class _Asking:
    """Hands documents to a cluster, and takes its answers."""

    def __init__(
        self, client: Any, address: str, order: Order, seconds: float, done: Callable[[object], None]
    ) -> None:
        self._client = client
        self._address = address
        self._order = order
        self._seconds = seconds
        self._done = done
        self._near: dict[str, _Files] = {}
        self._confined = all(key.value != "sheet" for key, _ in order.overrides)
        self._looked = 0.0
        self._threads = 0
        self._lonely: float | None = None

    def window(self) -> int:
        """How many documents may be under way: workers come and go."""
        self._look()
        return min(_MOST, max(_LEAST, _WINDOW * self._threads))

    def submit(self, document: Task) -> Awaited[Piece]:
        """Sends a document."""
        if isinstance(document, Problem):
            return at_once(problem_piece(document, self._order))
        try:
            source = read_source(document)
        except Problem as problem:
            self._done(problem)
            return at_once(problem_piece(problem, self._order))
        try:
            files = self.near(source)
        except Exception as error:  # A fault of the program is a problem of that document alone.
            from .one import fault_in

            self._done(error)
            return at_once(piece_of(fault_in(source.name, error), self._order.form, self._order.most))
        return _Answer(self, source, files).wait

    def ask(self, source: Source, files: _Files) -> Any:
        """A future of the answer about a document, to be checked with those files."""
        sent = Sent(source.name, source.text, source.bom, dict(files))
        # Not pure: the same text may be asked for twice in a run, and each time it is a document of its own.
        return self._client.submit(check_sent, __version__, self._order, sent, self._seconds, pure=False)

    def near(self, source: Source) -> _Files:
        """What a document reads, and what other documents of its folder have asked for."""
        return {**self._near.get(os.path.dirname(source.name), {}), **inputs(source)}

    def read(self, source: Source, path: str) -> Held:
        """A file that a document needs."""
        folder = os.path.dirname(source.name)
        known_now = held(Path(path), Path(folder), self._confined)
        self._near.setdefault(folder, {})[path] = known_now
        for known, most in ((self._near[folder], _SHEETS), (self._near, _FOLDERS)):
            while len(known) > most:
                known.pop(next(iter(known)))
        return known_now

    def finished(self, piece: Piece) -> Piece:
        """The answer, counted."""
        self._done(piece)
        return piece

    def died(self, source: Source) -> Piece:
        """What is told of a document whose workers were lost, again and again."""
        return problem_piece(
            WorkerDied(Span(source.name), "the workers of the cluster were lost"), self._order
        )

    def watch(self) -> None:
        """Looks whether anybody is there to answer.

        Raises:
            ClusterUnreachable: nobody has been for a while.
        """
        self._look()
        if self._threads:
            self._lonely = None
        elif self._lonely is None:
            self._lonely = time.monotonic()
        elif time.monotonic() - self._lonely > WORKERS:
            raise self.lost()

    def lost(self) -> ClusterUnreachable:
        """The problem that nobody is there to answer."""
        return ClusterUnreachable(Span(), self._address, "was lost while it checked documents")

    def _look(self) -> None:
        now = time.monotonic()
        if now - self._looked < 1:
            return
        self._looked = now
        try:
            self._threads = sum(self._client.nthreads().values())
        except Exception:  # The library raises many kinds when its scheduler is gone.
            self._threads = 0


class _Answer:
    """The answer about one document, asked again with what it needs."""

    def __init__(self, asking: _Asking, source: Source, files: _Files) -> None:
        self._asking = asking
        self._source = source
        self._files = files
        self._future = asking.ask(source, self._files)
        self._again = 0
        self._died = False

    def wait(self, seconds: float) -> Piece | None:
        """The piece, or None when it is not there after so many seconds.

        Raises:
            ClusterUnreachable, ClusterUnlike: nobody answers, or somebody else.
        """
        from concurrent.futures import CancelledError as Cancelled

        from distributed import CancelledError, KilledWorker, TimeoutError

        try:
            answer = self._future.result(timeout=seconds)
        except TimeoutError:
            self._asking.watch()
            return None
        except KilledWorker:
            if self._died:
                return self._asking.finished(self._asking.died(self._source))
            # Perhaps it was only beside others that killed its workers.
            self._died = True
            self._future = self._asking.ask(self._source, self._files)
            return None
        except (CancelledError, Cancelled, OSError):
            raise self._asking.lost() from None
        except (ImportError, AttributeError, RuntimeError):
            # So the library says that a scheduler or a worker cannot read what it was sent.
            raise ClusterUnlike(Span(), "", __version__) from None
        if isinstance(answer, Unlike):
            raise ClusterUnlike(Span(), answer.version, __version__)
        if isinstance(answer, Needs) and self._again < _MOST_FILES:
            self._again += 1
            self._files[answer.path] = self._asking.read(self._source, answer.path)
            self._future = self._asking.ask(self._source, self._files)
            return None
        assert isinstance(answer, Piece)
        return self._asking.finished(answer)
