"""How much arithmetic a calculation may take: counted, not timed, so that every machine stops at the same place."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

from ..limits import limit
from ..problems import Span
from ..problems.stopped import WorkTooMuch

#: The limit of one calculation. A calculation of a paper takes some hundred.
CALCULATION = "work"
#: The limit of all calculations of a document together.
DOCUMENT = "document-work"


@dataclass(slots=True)
class _Left:
    """How much work is left, and the limit that says so."""

    work: int
    name: str


_left: ContextVar[_Left | None] = ContextVar("work left", default=None)


def spend(work: int) -> None:
    """Count some work; one unit is an operation on numbers of 60 digits.

    Raises:
        WorkTooMuch: no work is left. It is no RealError: whoever tries other ways must not catch it.
    """
    left = _left.get()
    if left is not None:
        left.work -= work
        if left.work < 0:
            raise WorkTooMuch(Span(), left.name)


@contextmanager
def bounded(what: str) -> Iterator[None]:
    """What is done inside may take so much work, and no more than is left around it.

    Args:
        what: the limit that holds: `CALCULATION` or `DOCUMENT`.
    """
    outer, most = _left.get(), limit(what)
    if outer is None or most <= outer.work:
        allowed, name = most, what
    else:
        allowed, name = max(0, outer.work), outer.name
    inner = _Left(allowed, name)
    token = _left.set(inner)
    try:
        yield
    finally:
        _left.reset(token)
        if outer is not None:
            outer.work -= allowed - inner.work
