"""Who may work: many together, or one alone."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Condition


class Turns:
    """Lets many work at once until one has to be alone; it waits for those who work, and all others wait for it."""

    def __init__(self) -> None:
        self._changed = Condition()
        self._working = 0
        self._wishing = 0

    @contextmanager
    def together(self) -> Iterator[None]:
        """What is done inside may be done beside others."""
        with self._changed:
            self._changed.wait_for(lambda: not self._wishing)
            self._working += 1
        try:
            yield
        finally:
            self._over()

    @contextmanager
    def alone(self) -> Iterator[None]:
        """What is done inside is done by nobody else meanwhile."""
        with self._changed:
            self._wishing += 1
            self._changed.wait_for(lambda: not self._working)
            self._working += 1
        try:
            yield
        finally:
            self._over(wished=True)

    def _over(self, *, wished: bool = False) -> None:
        with self._changed:
            self._working -= 1
            self._wishing -= wished
            self._changed.notify_all()
