"""Paths on the command line, and the documents that they mean."""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence
from pathlib import Path, PurePath
from typing import Any

import click

from physcalc.problems import Span

from ..sources import is_tex
from .chapters import Chapters
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

    Of a folder no more is held than the names in the one that is being read, and those of chapters further down.
    """
    folders: list[Path] = []
    seen: set[str] = set()
    # Whoever names a chapter wants it checked, even behind a folder in which it is none of the documents.
    named = {os.path.realpath(path) for path in paths if is_tex(path.name) and not path.is_dir()}

    def known(real: str) -> bool:
        return real in seen or (real not in named and any(_reached(real, folder) for folder in folders))

    for path in paths:
        if not path.is_dir():
            real = os.path.realpath(path)
            if not known(real):
                seen.add(real)
                yield path
            continue
        root = Path(os.path.realpath(path))
        if root in folders:
            continue
        empty = True
        for document, real, linked in _below(path, root):
            empty = False
            # What a link leads to is met under its own name, too, if that is one of a document.
            if known(real) or (linked and _reached(real, root)):
                continue
            if linked or real in named:
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
    chapters = Chapters()
    for above, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        real_above = root / PurePath(above).relative_to(folder)
        files = [name for name in sorted(files) if _may_be_document(name)]
        in_tex = [Path(above) / name for name in files if is_tex(name)]
        chapters.enter(str(real_above), [path for path in in_tex if _inside(path, root)])
        for name in files:
            path = Path(above) / name
            if not _inside(path, root) or (is_tex(name) and not chapters.is_document(path)):
                continue
            linked = path.is_symlink()
            yield path, os.path.realpath(path) if linked else str(real_above / name), linked


def _may_be_document(name: str) -> bool:
    """Whether a file of that name may be a document: LaTeX has to be looked into."""
    return not name.startswith(".") and (name.endswith(_ENDING) or is_tex(name))


def _inside(path: Path, root: Path) -> bool:
    """Whether it is a file that lies in the folder, links followed."""
    linked = path.is_symlink()
    return path.is_file() and (not linked or PurePath(os.path.realpath(path)).is_relative_to(root))


def _reached(real: str, root: Path) -> bool:
    """Whether a file was met below a folder, by its real path."""
    path = PurePath(real)
    if not _may_be_document(path.name) or not path.is_relative_to(root):
        return False
    return not any(part.startswith(".") for part in path.relative_to(root).parts)
