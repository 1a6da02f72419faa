"""Documents checked by several processes, their pieces in the order in which the documents come."""

from __future__ import annotations

import os
from collections.abc import Callable, Generator, Iterable
from concurrent.futures import ThreadPoolExecutor
from queue import LifoQueue

from physcalc.problems import Problem, Span

from ..report import Piece
from .member import Member, MemberDied, MemberLate
from .order import Order, Task, problem_piece
from .ordered import Awaited, at_once, awaited, in_order
from .problems import DocumentUnfinished, WorkerDied
from .turns import Turns

#: For each process so many documents may be under way or wait for a slower one before them.
_WINDOW = 16


def usable_cores() -> int:
    """How many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def checked_by_processes(
    documents: Iterable[Task],
    order: Order,
    jobs: int,
    seconds: float,
    done: Callable[[object], None],
    waiting: Callable[[], None],
) -> Generator[Piece]:
    """The documents checked by processes of their own.

    A process that dies is replaced, and its document tried once more while no other is checked; one that takes too
    long is ended. Closing the iterator ends all of them.

    Args:
        documents, order: what is checked, and what is asked; no more documents are asked for than can be under way.
        jobs: how many processes.
        seconds: how long each document may take.
        done: called, perhaps in another thread, when a document is done.
        waiting: called now and then while the next piece is not there.
    """
    members: LifoQueue[Member] = LifoQueue()
    hired = [Member() for _ in range(jobs)]
    for member in hired:
        members.put(member)
    turns = Turns()

    def ask(name: str) -> Piece:
        member = members.get()
        try:
            answer = member.ask(order, name, seconds)
        finally:
            members.put(member)
        assert isinstance(answer, Piece)  # Nothing was sent, so nothing can be missing.
        return answer

    def one(name: str) -> Piece:
        try:
            try:
                with turns.together():
                    return ask(name)
            except MemberDied:
                # Perhaps all of them together took too much memory, and others were what filled it.
                with turns.alone():
                    return ask(name)
        except MemberLate:
            return problem_piece(DocumentUnfinished(Span(name), seconds), order)
        except MemberDied as death:
            return problem_piece(WorkerDied(Span(name), str(death)), order)

    threads = ThreadPoolExecutor(jobs, "shelf")

    def submit(document: Task) -> Awaited[Piece]:
        if isinstance(document, Problem):
            return at_once(problem_piece(document, order))
        future = threads.submit(one, str(document))
        future.add_done_callback(done)
        return awaited(future)

    try:
        yield from in_order(documents, submit, lambda: _WINDOW * jobs, waiting)
    finally:
        for member in hired:
            member.end()
        threads.shutdown(wait=True, cancel_futures=True)
