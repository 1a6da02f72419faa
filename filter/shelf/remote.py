"""What a worker of a cluster does with a document that was sent: it has a process of its own check it."""

from __future__ import annotations

import atexit
from dataclasses import dataclass
from queue import Empty, LifoQueue

from physcalc import __version__
from physcalc.problems import Span

from ..report import Piece
from .member import Member, MemberDied, MemberLate
from .order import Needs, Order, Sent, problem_piece
from .problems import DocumentUnfinished, WorkerDied

#: Processes that wait for a document; there are as many as this worker had threads at work at once.
_idle: LifoQueue[Member] = LifoQueue()


@dataclass(frozen=True, slots=True)
class Unlike:
    """A worker's answer that it has another version.

    Attributes:
        version: the one that it has.
    """

    version: str


def check_sent(version: str, order: Order, sent: Sent, seconds: float) -> Piece | Needs | Unlike:
    """What a document adds to the report.

    Args:
        version: the version of the program that asks.
        order, sent: what is asked, about which document.
        seconds: how long it may take.
    """
    if version != __version__:
        return Unlike(__version__)
    try:
        try:
            return _asked(order, sent, seconds)
        except MemberDied:
            return _asked(order, sent, seconds)
    except MemberLate:
        return problem_piece(DocumentUnfinished(Span(sent.name), seconds), order)
    except MemberDied as death:
        return problem_piece(WorkerDied(Span(sent.name), str(death)), order)


def _asked(order: Order, sent: Sent, seconds: float) -> Piece | Needs:
    try:
        member = _idle.get_nowait()
    except Empty:
        member = Member()
        atexit.register(member.end)
    try:
        return member.ask(order, sent, seconds)
    finally:
        _idle.put(member)
