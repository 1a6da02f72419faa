"""Going on: something is done again whenever a file that it was done with has changed."""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterable
from pathlib import Path

from . import screen

#: Seconds between two looks at the files: soon enough for a person, and nothing for the machine.
_PAUSE = 0.2
#: Looks that files have to stay as they are before they are read: an editor may write one in several pieces.
_STILL = 2

#: A file as it was: its size and the time of its change; None where it is not there.
_State = tuple[int, int, int] | None


def watched(named: Path, run: Callable[[], tuple[int, Iterable[Path]]]) -> int:
    """Does something, and does it again whenever one of its files has changed, until Ctrl-C.

    Args:
        named: the document, for what is said.
        run: does it; returns its exit code and the files that it looked for.

    Returns:
        0 when Ctrl-C ended it; the exit code of the first time where there is nothing to watch.
    """
    first = True
    try:
        while True:
            before = time.time_ns()
            code, files = run()
            if first:
                if not os.path.lexists(named):
                    return code
                screen.say(f"watching {screen.named(named)}; Ctrl-C ends it")
                first = False
            _wait({path: _state(path) for path in files}, before)
            screen.say(time.strftime("%H:%M:%S") + " again")
    except KeyboardInterrupt:
        # Nothing is broken off: whoever watches ends it so. What is being written is old or new.
        screen.say("")
        return 0


def _wait(known: dict[Path, _State], begun: int) -> None:
    """Waits until a file is not as it was, and then until none changes any more.

    Args:
        known: the files as they are now.
        begun: when they began to be read, in nanoseconds: one that has changed since was read too early.
    """
    # A time to come is that of another clock, and no news.
    if any(state is not None and begun <= state[2] <= time.time_ns() for state in known.values()):
        return
    while True:
        time.sleep(_PAUSE)
        now = {path: _state(path) for path in known}
        if now == known:
            continue
        still = 0
        while still < _STILL:
            time.sleep(_PAUSE / 2)
            later = {path: _state(path) for path in known}
            still = still + 1 if later == now else 0
            now = later
        return


def _state(path: Path) -> _State:
    try:
        known = os.stat(path)
    except (OSError, ValueError):
        return None
    return known.st_ino, known.st_size, known.st_mtime_ns
