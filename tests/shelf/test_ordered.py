"""Results in order, and never more under way than allowed."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import Future
from threading import Barrier, Thread

from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.shelf.ordered import awaited, in_order
from physcalc_filter.shelf.turns import Turns


@given(st.data(), st.integers(0, 12), st.integers(1, 5))
def test_order_and_window(data: st.DataObject, count: int, window: int) -> None:
    open_futures: dict[int, Future[int]] = {}
    most = 0
    asked = handed = 0

    def tasks() -> Iterator[int]:
        nonlocal asked
        for number in range(count):
            asked += 1
            yield number

    def submit(number: int):  # type: ignore[no-untyped-def]
        nonlocal most
        future: Future[int] = Future()
        open_futures[number] = future
        most = max(most, asked - handed)
        return lambda seconds: awaited(future)(0)

    def waiting() -> None:
        # Any of those under way is the next to be done.
        number = data.draw(st.sampled_from(sorted(open_futures)))
        open_futures.pop(number).set_result(number)

    found = []
    for result in in_order(tasks(), submit, lambda: window, waiting):
        found.append(result)
        handed += 1
    assert found == list(range(count))
    assert most <= window


def test_one_alone_waits_for_all_and_all_wait_for_it() -> None:
    turns = Turns()
    together = Barrier(3)
    at_work: list[str] = []
    seen: list[list[str]] = []

    def many(name: str) -> None:
        with turns.together():
            at_work.append(name)
            together.wait()
            at_work.remove(name)

    def single(name: str) -> None:
        together.wait()
        with turns.alone():
            at_work.append(name)
            seen.append(list(at_work))
            at_work.remove(name)

    threads = [
        Thread(target=many, args=("a",)),
        Thread(target=many, args=("b",)),
        Thread(target=single, args=("c",)),
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(10)
    assert seen == [["c"]]
    with turns.together():
        pass
