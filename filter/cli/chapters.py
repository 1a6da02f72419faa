"""Of the files in LaTeX below a folder, those that are documents of ours; chapters go with what reads them."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..sources import Look


class Chapters:
    """Tells documents from chapters while a folder is walked from above, its own files before those below it.

    A file that begins a document is one. Any other is a chapter where a document of ours reads it, and else a
    document of its own, so that nothing goes unchecked. A document reads files of its folder and below it alone, so
    what is met further down is known by then.
    """

    def __init__(self) -> None:
        #: By folder the files there that a document has been found to read, and that have not been met yet.
        self._read: dict[str, set[str]] = {}
        self._here: Sequence[Path] = ()
        self._above = ""
        self._looks: dict[Path, Look] = {}
        self._fragments: set[Path] | None = None

    def enter(self, real_above: str, here: Sequence[Path]) -> None:
        """The walk comes to a folder.

        Args:
            real_above: its real path; those that are left are never asked for again.
            here: its files in LaTeX, sorted.
        """
        self._read.pop(self._above, None)
        self._above, self._here, self._looks, self._fragments = real_above, here, {}, None

    def is_document(self, path: Path) -> bool:
        """Whether one of the folder's files is a document of ours."""
        look = self._look(path)
        if look.whole or not look.ours:
            return look.ours
        if self._fragments is None:
            self._fragments = self._alone()
        return path in self._fragments

    def _look(self, path: Path) -> Look:
        from ..sources import look_at  # Here: most folders have nothing in LaTeX.

        if path not in self._looks:
            look = self._looks[path] = look_at(path)
            if look.whole and look.ours:
                self._note(look)
        return self._looks[path]

    def _note(self, look: Look) -> None:
        for real in look.reads:
            self._read.setdefault(os.path.dirname(real), set()).add(real)

    def _alone(self) -> set[Path]:
        """The folder's files that begin no document and are read by none."""
        looks = {path: self._look(path) for path in self._here}
        left = [
            (path, os.path.realpath(path))
            for path, look in looks.items()
            if look.ours and not look.whole and not self._is_read(os.path.realpath(path))
        ]
        inner = {real: {read for read in looks[path].reads if read != real} for path, real in left}
        first = [one for one in left if not any(one[1] in reads for reads in inner.values())]
        found: set[Path] = set()
        # Behind those that nobody reads come those that read one another in a circle.
        for path, real in (*first, *left):
            if path not in found and not self._is_read(real):
                found.add(path)
                self._note(looks[path])
        return found

    def _is_read(self, real: str) -> bool:
        return real in self._read.get(os.path.dirname(real), ())
