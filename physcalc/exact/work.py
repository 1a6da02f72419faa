"""How much arithmetic a calculation may take: counted, not timed, so that every machine stops at the same place."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

from ..limits import limit
from ..problems import Span
from ..problems.solving import WorkTooMuch

#: The limit of one calculation. A calculation of a paper takes some hundred.
CALCULATION = "work"
#: The limit of all calculations of a document together.
DOCUMENT = "document-work"

_left: ContextVar[list[int] | None] = ContextVar("work left", default=None)


def spend(work: int) -> None:
    """Count some work; one unit is an operation on numbers of 60 digits.

    Raises:
        WorkTooMuch: no work is left. It is no RealError: whoever tries other ways must not catch it.
    """
    left = _left.get()
    if left is not None:
        left[0] -= work
        if left[0] < 0:
            raise WorkTooMuch(Span())


@contextmanager
def bounded(what: str) -> Iterator[None]:
    """What is done inside may take so much work, and no more than is left around it.

    Args:
        what: the limit that holds: `CALCULATION` or `DOCUMENT`.
    """
    outer, most = _left.get(), limit(what)
    allowed = most if outer is None else min(most, max(0, outer[0]))
    inner = [allowed]
    token = _left.set(inner)
    try:
        yield
    finally:
        _left.reset(token)
        if outer is not None:
            outer[0] -= allowed - inner[0]
