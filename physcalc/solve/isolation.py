"""Real roots of a polynomial of higher degree, isolated by sympy in a process of its own.

What sympy takes is counted before (`polynomial`), which bounds it on every machine alike. But it cannot be stopped from
inside once it runs; so it runs where it can be ended: after `solve-seconds`, or with more than `solve-memory`.
"""

from __future__ import annotations

import atexit
import json
import os
import signal
import subprocess
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from fractions import Fraction
from pathlib import Path
from threading import Lock, Timer
from typing import Any

from ..limits import limit
from ..problems import Span
from ..problems.stopped import RootsStopped
from .isolation_worker import number, written

#: Seconds for Python to start and sympy to be loaded, whatever else the machine does.
_START = 60
#: The process ends itself after so many seconds of a processor's time. By the clock it gets so much more of them, on a
#: machine that has much else to do; where it cannot count (Windows), or does nothing at all, the clock alone ends it.
_PATIENCE = 5
_PROGRAM = Path(__file__).with_name("isolation_worker.py")

#: How a process ends that has used up its processor's time.
_OUT_OF_TIME = -getattr(signal, "SIGXCPU", 1_000)

#: The polynomial without its repeated factors, constant first, and the ends about each real root in rising order.
Isolated = tuple[list[Fraction], list[tuple[Fraction, Fraction]]]


class _Ended(Exception):
    """The process ended without an answer; its words say how."""


class _Late(Exception):
    """The process took too long, and was ended."""


class Isolator:
    """The process as whoever asks knows it: it begins with the first question and stays for the next.

    One question is asked at a time, from whatever thread.
    """

    def __init__(self) -> None:
        self._lock = Lock()
        self._process: subprocess.Popen[bytes] | None = None

    def ask(self, coefficients: Sequence[Fraction]) -> Isolated:
        """Isolate the real roots of a polynomial.

        Args:
            coefficients: constant first; the last is not zero.

        Raises:
            RootsStopped: there is no answer. The next question is answered by a new process.
        """
        seconds, memory = limit("solve-seconds"), limit("solve-memory")
        asked = {
            "memory": memory,
            "seconds": seconds,
            "coefficients": [written(c) for c in coefficients],
        }
        line = json.dumps(asked).encode("ascii") + b"\n"
        with self._lock:
            try:
                try:
                    answer = self._answer(line, _PATIENCE * seconds)
                except _Ended:
                    # Somebody may have ended it: that is no reason to fail twice.
                    answer = self._answer(line, _PATIENCE * seconds)
            except _Late:
                raise RootsStopped(Span(), "late", f"{seconds} seconds") from None
            except _Ended as how:
                raise RootsStopped(Span(), "ended", str(how)) from None
        if "plain" not in answer:
            raise RootsStopped(Span(), "memory", f"{memory} MB of memory")
        return [number(c) for c in answer["plain"]], [(number(a), number(b)) for a, b in answer["roots"]]

    def end(self) -> None:
        """Ends the process, whatever it is doing; another question begins a new one."""
        process, self._process = self._process, None
        if process is not None:
            _kill(process)
            process.wait()
            for stream in (process.stdin, process.stdout):
                if stream is not None:
                    with suppress(OSError):
                        stream.close()

    def forget(self) -> None:
        """In a copy of this process: the process belongs to the other one, and so do its threads with their lock."""
        process, self._process, self._lock = self._process, None, Lock()
        if process is not None:
            process.returncode = 0  # It is no child of the copy, which could not wait for it.
            for stream in (process.stdin, process.stdout):
                if stream is not None:
                    with suppress(OSError):
                        stream.close()

    def _answer(self, line: bytes, seconds: float) -> dict[str, Any]:
        process = self._running()

        def exchanged() -> bytes:
            assert process.stdin is not None
            process.stdin.write(line)
            process.stdin.flush()
            return _line_of(process)

        return self._in_time(exchanged, process, seconds)

    def _running(self) -> subprocess.Popen[bytes]:
        process = self._process
        if process is None:
            process = self._process = _started()
            try:
                self._in_time(lambda: _line_of(process), process, _START)
            except _Late:
                raise _Ended(f"it was not ready after {_START} seconds") from None
        return process

    def _in_time(
        self, answered: Callable[[], bytes], process: subprocess.Popen[bytes], seconds: float
    ) -> dict[str, Any]:
        late = False

        def stop() -> None:
            nonlocal late
            late = True
            _kill(process)

        timer = Timer(seconds, stop)
        timer.daemon = True
        timer.start()
        try:
            found: dict[str, Any] = json.loads(answered())
        except (OSError, ValueError):
            self.end()
            if late or process.returncode == _OUT_OF_TIME:
                raise _Late from None
            raise _Ended(_how(process.returncode)) from None
        except BaseException:
            self.end()  # Ctrl-C: its answer would be taken for that of the next question.
            raise
        finally:
            timer.cancel()
        if late:
            self.end()  # The answer came just in time, and its process was ended all the same.
        return found


def _started() -> subprocess.Popen[bytes]:
    if not sys.executable:
        raise _Ended("this Python cannot start another")
    # Without -P a file beside the program could stand for one of Python's own modules.
    alone = "-I" if sys.flags.isolated else "-P"
    said = None if os.environ.get("PHYSCALC_DEBUG", "") not in ("", "0") else subprocess.DEVNULL
    try:
        return subprocess.Popen(
            [sys.executable, alone, str(_PROGRAM)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=said,
            # Ctrl-C reaches us alone.
            start_new_session=True,
        )
    except OSError as error:
        raise _Ended(f"it could not be started: {error.strerror or error}") from None


def _line_of(process: subprocess.Popen[bytes]) -> bytes:
    assert process.stdout is not None
    line = process.stdout.readline()
    if not line.endswith(b"\n"):
        raise ValueError("no whole line")
    return line


def _kill(process: subprocess.Popen[bytes]) -> None:
    # Of a process that was waited for, the number may be another's.
    if process.returncode is None:
        with suppress(OSError):
            process.kill()


def _how(code: int | None) -> str:
    if code is None or code >= 0:
        return f"exit code {code}"
    with suppress(ValueError):
        return f"ended by {signal.Signals(-code).name}"
    return f"ended by signal {-code}"


ISOLATOR = Isolator()
atexit.register(ISOLATOR.end)
if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=ISOLATOR.forget)
