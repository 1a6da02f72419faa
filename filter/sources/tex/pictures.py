"""Pictures that a LaTeX document shows: their endings may be left out, and their folders named once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

_ENDINGS = (".pdf", ".png", ".jpg", ".jpeg", ".svg")
_FOLDERS = re.compile(r"\\graphicspath\s*\{((?:\s*\{[^{}\n]{0,200}\})+)\s*\}")
_FOLDER = re.compile(r"\{([^{}]*)\}")
_MOST_FOLDERS, _MOST_PICTURES = 20, 1_000


class Pictures:
    """Where pictures may lie."""

    def __init__(self, text: str, folders: Sequence[Path]) -> None:
        """Begin.

        Args:
            text: the source, for its `\\graphicspath`.
            folders: the document's folder, then others.
        """
        found = _FOLDERS.search(text)
        named = [one[1].strip() for one in _FOLDER.finditer(found[1])] if found is not None else []
        self.beside = ["", *(name.rstrip("/") + "/" for name in named[:_MOST_FOLDERS] if name)]
        self.folders = folders
        self._known: dict[str, str | None] = {}

    def find(self, name: str) -> str | None:
        """The picture of a name, from one of the folders; None where none is there.

        What lies outside the folders is as if it were not there.
        """
        if name not in self._known:
            # Nobody looks for pictures without end: the rest is found, or not, when the page is made.
            self._known[name] = self._find(name) if len(self._known) < _MOST_PICTURES else name
        return self._known[name]

    def _find(self, name: str) -> str | None:
        endings = ("",) if Path(name).suffix.lower() in _ENDINGS else ("", *_ENDINGS)
        for folder in self.folders:
            for beside in self.beside:
                for ending in endings:
                    try:
                        path = folder / (beside + name + ending)
                        if path.is_file() and path.resolve().is_relative_to(folder.resolve()):
                            return beside + name + ending
                    except (OSError, ValueError):
                        continue
        return None
