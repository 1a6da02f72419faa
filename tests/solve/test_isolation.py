"""Roots of higher degree from a process of its own: against numpy, and when it is late, full, ended or not there."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from physcalc.problems.stopped import RootsStopped
from physcalc.solve import isolation
from physcalc.solve.isolation import ISOLATOR, Isolator

CUBIC = [Fraction(-73, 10), Fraction(5), Fraction(-3), Fraction(1)]
#: A program that says that it is ready, and is never heard of again.
SILENT = "print('{\"ready\": true}', flush=True)\nimport time\ntime.sleep(600)\n"


def near(digits: int) -> list[Fraction]:
    """Three roots with so many digits between them: sympy takes a step for each of their binary places."""
    gap = Fraction(1, 10**digits)
    out = [Fraction(1)]
    for root in (Fraction(1), 1 + gap, 1 + 2 * gap):
        out = [
            (out[at - 1] if at else 0) - root * (out[at] if at < len(out) else 0)
            for at in range(len(out) + 1)
        ]
    return out


@pytest.fixture
def isolator() -> Iterator[Isolator]:
    one = Isolator()
    yield one
    one.end()


def process_of(isolator: Isolator) -> int:
    assert isolator._process is not None
    return isolator._process.pid


def gone(pid: int) -> bool:
    """Whether a process ends within some seconds."""
    for _ in range(200):
        try:
            os.kill(pid, 0)
        except ProcessLookupError:
            return True
        state = Path(f"/proc/{pid}/stat")
        if state.exists() and state.read_text().rpartition(")")[2].split()[0] == "Z":
            return True  # It ended, and whoever started it has not looked yet.
        time.sleep(0.05)
    return False


@pytest.mark.parametrize("roots", [[1, 2, 3], [-5, -5, 7, 7], [Fraction(1, 3), Fraction(-2, 7), 11, 10**30]])
def test_each_interval_holds_the_root_that_it_was_made_from(
    roots: list[Fraction | int], isolator: Isolator
) -> None:
    made = [Fraction(1)]
    for root in roots:
        made = [
            (made[at - 1] if at else 0) - root * (made[at] if at < len(made) else 0)
            for at in range(len(made) + 1)
        ]
    plain, ends = isolator.ask(made)
    assert len(plain) == len(set(roots)) + 1
    assert len(ends) == len(set(roots))
    for (low, high), root in zip(ends, sorted(set(roots)), strict=True):
        assert low <= root <= high


def test_irrational_roots_against_numpy(isolator: Isolator) -> None:
    (low, high), *others = isolator.ask(CUBIC)[1]
    real = [r.real for r in np.roots([float(c) for c in reversed(CUBIC)]) if abs(r.imag) < 1e-12]
    assert not others
    assert low <= real[0] <= high


def test_numbers_longer_than_python_reads_in_decimal(isolator: Isolator) -> None:
    constant = 2 + Fraction(1, 10**5000)
    ((low, high),) = isolator.ask([-constant, Fraction(0), Fraction(0), Fraction(1)])[1]
    assert low**3 <= constant <= high**3


def test_what_takes_too_long_is_ended_and_the_next_is_answered(
    isolator: Isolator, monkeypatch: pytest.MonkeyPatch
) -> None:
    isolator.ask(CUBIC)
    first = process_of(isolator)
    monkeypatch.setenv("PHYSCALC_LIMITS", "solve-seconds=1")
    with pytest.raises(RootsStopped) as caught:
        isolator.ask(near(12_000))
    assert "not found within 1 seconds" in caught.value.sentence()
    assert "--limit solve-seconds=2" in caught.value.mend()
    assert gone(first)
    monkeypatch.delenv("PHYSCALC_LIMITS")
    assert len(isolator.ask(CUBIC)[1]) == 1
    assert process_of(isolator) != first


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux bounds the memory of a process reliably")
def test_what_takes_too_much_memory_is_refused_and_the_process_stays(
    isolator: Isolator, monkeypatch: pytest.MonkeyPatch
) -> None:
    isolator.ask(CUBIC)
    first = process_of(isolator)
    monkeypatch.setenv("PHYSCALC_LIMITS", "solve-memory=20")
    with pytest.raises(RootsStopped) as caught:
        isolator.ask(near(12_000))
    assert "not found within 20 MB of memory" in caught.value.sentence()
    assert "--limit solve-memory=40" in caught.value.mend()
    monkeypatch.delenv("PHYSCALC_LIMITS")
    assert len(isolator.ask(CUBIC)[1]) == 1
    assert process_of(isolator) == first


def test_a_process_that_was_ended_between_two_questions_is_replaced(isolator: Isolator) -> None:
    isolator.ask(CUBIC)
    os.kill(process_of(isolator), signal.SIGKILL)
    assert len(isolator.ask(CUBIC)[1]) == 1


def test_a_process_that_is_ended_while_it_works_is_replaced_once(
    isolator: Isolator, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    silent = tmp_path / "silent.py"
    silent.write_text(SILENT, encoding="utf-8")
    monkeypatch.setattr(isolation, "_PROGRAM", silent)
    stop = threading.Event()
    ended: list[int] = []

    def end_it() -> None:
        while not stop.wait(0.2):
            process = isolator._process
            if process is not None and process.pid not in ended:
                ended.append(process.pid)
                process.send_signal(signal.SIGKILL)

    thread = threading.Thread(target=end_it)
    thread.start()
    try:
        with pytest.raises(RootsStopped) as caught:
            isolator.ask(CUBIC)
    finally:
        stop.set()
        thread.join()
    assert len(ended) == 2
    assert "gave no answer: ended by SIGKILL" in caught.value.sentence()
    assert "run it again" in caught.value.mend()


@pytest.mark.parametrize("executable", ["/nowhere/python", ""])
def test_where_no_process_can_be_started_that_is_said(
    executable: str, isolator: Isolator, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "executable", executable)
    with pytest.raises(RootsStopped) as caught:
        isolator.ask(CUBIC)
    assert "start" in caught.value.sentence()


@pytest.mark.parametrize("said", ["exit(3)", "print('no JSON', flush=True)", "print('{\"ready\"', end='')"])
def test_a_program_that_says_something_else_is_no_answer(
    said: str, isolator: Isolator, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    other = tmp_path / "other.py"
    other.write_text(f"from sys import exit\n{said}\n", encoding="utf-8")
    monkeypatch.setattr(isolation, "_PROGRAM", other)
    with pytest.raises(RootsStopped, match="gave no answer"):
        isolator.ask(CUBIC)


def test_threads_ask_one_after_the_other(isolator: Isolator) -> None:
    def root_of(number: int) -> list[tuple[Fraction, Fraction]]:
        # (x - n)(x² + 1)
        return isolator.ask([Fraction(-number), Fraction(1), Fraction(-number), Fraction(1)])[1]

    with ThreadPoolExecutor(8) as pool:
        for number, ends in enumerate(pool.map(root_of, range(1, 60)), 1):
            assert len(ends) == 1
            assert ends[0][0] <= number <= ends[0][1]


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system copies no processes")
@pytest.mark.filterwarnings("ignore:.*multi-threaded, use of fork:DeprecationWarning")
def test_a_copy_of_the_program_has_a_process_of_its_own() -> None:
    ISOLATOR.ask(CUBIC)
    first = process_of(ISOLATOR)
    pid = os.fork()
    if pid == 0:
        fine = ISOLATOR._process is None and len(ISOLATOR.ask(CUBIC)[1]) == 1
        fine = fine and process_of(ISOLATOR) != first
        ISOLATOR.end()
        os._exit(0 if fine else 1)
    assert os.waitpid(pid, 0)[1] == 0
    assert len(ISOLATOR.ask(CUBIC)[1]) == 1
    assert process_of(ISOLATOR) == first


PROGRAM = """
import os, sys, threading, time
from fractions import Fraction
from physcalc.solve.isolation import ISOLATOR
ISOLATOR.ask([Fraction(c) for c in (-7, 5, -3, 1)])
print(ISOLATOR._process.pid, flush=True)
if sys.argv[1] == "busy":
    gap = Fraction(1, 10**12_000)
    a, b, c = 1, 1 + gap, 1 + 2 * gap
    ends = [-a * b * c, a * b + b * c + c * a, -a - b - c, Fraction(1)]
    threading.Thread(target=ISOLATOR.ask, args=(ends,), daemon=True).start()
    time.sleep(1)
    os._exit(0)
"""


@pytest.mark.skipif(sys.platform == "win32", reason="looks for processes as POSIX does")
@pytest.mark.parametrize("how", ["idle", "busy"])
def test_no_process_outlives_the_program(how: str) -> None:
    done = subprocess.run(
        [sys.executable, "-c", PROGRAM, how], capture_output=True, text=True, timeout=60, check=True
    )
    assert not done.stderr
    assert gone(int(done.stdout))


def test_no_process_is_started_without_need() -> None:
    code = (
        "import physcalc, sys\n"
        "physcalc.calculate('formula: W = F x\\nfind: W in J', {'F': '12 N', 'x': '2.5 m'})\n"
        "print('physcalc.solve.isolation' in sys.modules, 'sympy' in sys.modules)\n"
        "physcalc.calculate('formula: x^3 + x = a\\nfind: x', {'a': '3'})\n"
        "print('physcalc.solve.isolation' in sys.modules, 'sympy' in sys.modules)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout.split() == ["False", "False", "True", "False"]


def test_a_process_that_does_nothing_at_all_is_ended_by_the_clock(
    isolator: Isolator, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    silent = tmp_path / "silent.py"
    silent.write_text(SILENT, encoding="utf-8")
    monkeypatch.setattr(isolation, "_PROGRAM", silent)
    monkeypatch.setattr(isolation, "_PATIENCE", 1)
    monkeypatch.setenv("PHYSCALC_LIMITS", "solve-seconds=1")
    with pytest.raises(RootsStopped, match="not found within 1 seconds"):
        isolator.ask(CUBIC)
    assert isolator._process is None
