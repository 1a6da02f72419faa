"""Pictures that a LaTeX document shows: their endings may be left out, and their folders named once."""

from __future__ import annotations

import re
from collections.abc import Sequence
from os.path import realpath  # Unlike Path.resolve, it does not stop at a link that leads to itself.
from pathlib import Path

from physcalc.limits import limit
from physcalc.witness import listened, looked_at

_ENDINGS = (".pdf", ".png", ".jpg", ".jpeg", ".svg")
_NAMED = r"\{(?:[^{}\n]{0,200}|\\subfix[ \t]*\{[^{}\n]{0,200}\})\}"
_FOLDERS = re.compile(rf"\\graphicspath\s*\{{((?:\s*{_NAMED})+)\s*\}}")
#: The package subfiles puts the document's own folder before those of a `\\graphicspath` that follows it.
_OWN_FIRST = re.compile(r"\\usepackage[ \t]*(?:\[[^\]\n]{0,200}\][ \t]*)?\{[^{}]{0,500}\bsubfiles\b")
_FOLDER = re.compile(r"\{([^{}\\]*)\}")
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
        self.named = [name.rstrip("/") + "/" for name in named[:_MOST_FOLDERS] if name]
        self.own_first = found is not None and _OWN_FIRST.search(text, 0, found.start()) is not None
        self.folders = folders
        self._known: dict[tuple[str, tuple[str, ...]], str | None] = {}

    def find(self, name: str, paths: Sequence[str] = ()) -> str | None:
        """The picture of a name, from one of the folders; None where none is there.

        What lies outside the folders is as if it were not there.

        Args:
            name: as the document names it.
            paths: the folders of files that are imported, which come before all others there.
        """
        known = name, tuple(paths)
        if known not in self._known:
            # Nobody looks for pictures without end: the rest is found, or not, when the page is made.
            self._known[known] = self._find(*known) if len(self._known) < _MOST_PICTURES else name
        return self._known[known]

    def _find(self, name: str, paths: tuple[str, ...]) -> str | None:
        # Checked against TeX in `tests/latex`: the package import has the document's own folder searched last.
        nearer = (*paths, "", *self.named) if self.own_first or not paths else (*paths, *self.named, "")
        endings = ("",) if Path(name).suffix.lower() in _ENDINGS else ("", *_ENDINGS)
        for folder in self.folders:
            for beside in nearer:
                for ending in endings:
                    try:
                        path = folder / (beside + name + ending)
                        if path.is_file() and Path(realpath(path)).is_relative_to(realpath(folder)):
                            _seen(path)
                            return beside + name + ending
                        looked_at(path, None)
                    except OSError:
                        looked_at(path, None)
                    except ValueError:
                        continue
        return None


def _seen(path: Path) -> None:
    """Tells of a picture that is there. Its content need not be shown, and is read for whoever takes it down."""
    if listened():
        looked_at(path, path.read_bytes() if path.stat().st_size <= limit("picture-size") else None)
