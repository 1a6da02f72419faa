"""How far a run is: one line at the bottom of a terminal, and nothing anywhere else."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from threading import Lock

import click

from . import screen

#: Seconds between two lines, and before anything is said of the time that is left.
_STEP, _SOON = 0.1, 1.0
_ERASE = "\r\x1b[K"


class Progress:
    """The line "checking 12 of 40, 8 s left" on standard error, when a person looks at it.

    Args:
        total: counts the documents; called only where the line is shown.
        wanted: whether there are so many that somebody wants to know.
    """

    def __init__(self, total: Callable[[], int], wanted: bool) -> None:
        self._shown = wanted and screen.is_terminal(sys.stderr)
        self._total = total() if self._shown else 0
        self._began = time.monotonic()
        self._last = 0.0
        self._done = 0
        self._lock = Lock()

    def one_more(self, _: object = None) -> None:
        """One more document is done; any thread may say so."""
        with self._lock:
            self._done += 1

    def show(self) -> None:
        """The line as it is now."""
        now = time.monotonic()
        if not self._shown or now - self._last < _STEP:
            return
        self._last = now
        sys.stderr.write(f"{_ERASE}checking {self._done} of {self._total}{self._left(now)}")
        sys.stderr.flush()

    def clear(self) -> None:
        """No line, so that something else can be written."""
        if self._shown and self._last:
            self._last = 0.0
            sys.stderr.write(_ERASE)
            sys.stderr.flush()

    def _left(self, now: float) -> str:
        passed = now - self._began
        if not self._done or passed < _SOON:
            return ""
        seconds = round(passed / self._done * max(0, self._total - self._done))
        return f", {in_words(seconds)} left"


def in_words(seconds: int) -> str:
    """A duration as a person says it: "8 s", "3 min", "2 h 5 min"."""
    if seconds < 60:
        return f"{seconds} s"
    minutes = round(seconds / 60)
    return f"{minutes} min" if minutes < 60 else f"{minutes // 60} h {minutes % 60} min"


def out(progress: Progress) -> Callable[[str], None]:
    """Writes a stretch of a report to standard output, with the line out of its way."""
    colour = screen.coloured(sys.stdout)

    def write(text: str) -> None:
        if text:
            progress.clear()
            click.echo(text, nl=False, color=colour)

    return write
