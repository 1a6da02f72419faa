"""Paths on the command line, and the documents that they mean."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path, PurePath
from typing import Any

import click

from physcalc.problems import Span

from .problems import FolderEmpty

_ENDING = ".md"


class NamedPath(click.Path):
    """A path that has to be there: an empty one, as a shell's unset variable leaves it, would mean the folder."""

    def __init__(self, *, dir_okay: bool = True) -> None:
        super().__init__(path_type=Path, dir_okay=dir_okay)

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The path that was typed.

        Raises:
            click.BadParameter: nothing was typed.
        """
        if value == "":
            self.fail("an empty text is no path", param, ctx)
        return super().convert(value, param, ctx)


def documents(paths: Sequence[Path]) -> Iterator[Path | FolderEmpty]:
    """The documents that paths mean, in order, each once; a folder stands for the documents below it.

    Of a folder no more is held than the names in the one that is being read.
    """
    folders: list[Path] = []
    seen: set[str] = set()

    def known(real: str) -> bool:
        return real in seen or any(_reached(real, folder) for folder in folders)

    for path in paths:
        if not path.is_dir():
            real = os.path.realpath(path)
            if not known(real):
                seen.add(real)
                yield path
            continue
        root = path.resolve()
        if root in folders:
            continue
        empty = True
        for document, real, linked in _below(path, root):
            empty = False
            # What a link leads to is met under its own name, too, if that is one of a document.
            if known(real) or (linked and _reached(real, root)):
                continue
            if linked:
                seen.add(real)
            yield document
        folders.append(root)
        if empty:
            yield FolderEmpty(Span(str(path)), str(path))


def _below(folder: Path, root: Path) -> Iterator[tuple[Path, str, bool]]:
    """The documents below a folder, sorted, folder by folder: each with its real path, and whether it is a link.

    Left out are hidden ones, and links that lead out of the folder: whoever sent it must not have other files
    of its reader's read, or mended.
    """
    for above, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        real_above = root / PurePath(above).relative_to(folder)
        for name in sorted(files):
            if not name.endswith(_ENDING) or name.startswith("."):
                continue
            path = Path(above) / name
            linked = path.is_symlink()
            real = os.path.realpath(path) if linked else str(real_above / name)
            if path.is_file() and (not linked or PurePath(real).is_relative_to(root)):
                yield path, real, linked


def _reached(real: str, root: Path) -> bool:
    """Whether a file is a document below a folder, by its real path."""
    path = PurePath(real)
    if not path.name.endswith(_ENDING) or not path.is_relative_to(root):
        return False
    return not any(part.startswith(".") for part in path.relative_to(root).parts)
