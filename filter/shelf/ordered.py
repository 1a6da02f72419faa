"""Results in the order of what was asked, whichever is there first, with no more of them under way than allowed."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future
from concurrent.futures import TimeoutError as NotYet
from typing import TypeVar

#: How often somebody who waits is told that time goes by, in seconds.
_TICK = 0.2

_Task = TypeVar("_Task")
_Result = TypeVar("_Result")
#: Gives a result, or None when it is not there after so many seconds.
Awaited = Callable[[float], _Result | None]


def in_order(
    tasks: Iterable[_Task],
    submit: Callable[[_Task], Awaited[_Result]],
    window: Callable[[], int],
    waiting: Callable[[], None],
) -> Iterator[_Result]:
    """The results of tasks, in the order of the tasks.

    Args:
        tasks: what is to be done; the next one is asked for only when it can be begun.
        submit: begins a task.
        window: how many tasks may be under way, or done before one that is not.
        waiting: called now and then while the next result is not there.
    """
    under_way: deque[Awaited[_Result]] = deque()
    left = iter(tasks)
    more = True
    while more or under_way:
        while more and len(under_way) < window():
            for task in left:
                under_way.append(submit(task))
                break
            else:
                more = False
        if not under_way:
            continue
        first = under_way.popleft()
        while (result := first(_TICK)) is None:
            waiting()
        yield result


def at_once(result: _Result) -> Awaited[_Result]:
    """A result that is there already."""
    return lambda seconds: result


def awaited(future: Future[_Result]) -> Awaited[_Result]:
    """The result of a future."""

    def wait(seconds: float) -> _Result | None:
        try:
            return future.result(seconds)
        except NotYet:
            return None

    return wait
