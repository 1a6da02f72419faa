"""From paths on the command line to documents, and their problems."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem, Span

from . import screen
from .problems import FolderEmpty
from .settings import Overrides
from .start import fault_of

if TYPE_CHECKING:
    from ..report import Found

_ENDING = ".md"
#: Up to this many documents nobody wants to watch a bar.
_FEW = 3


def expand(paths: Sequence[Path]) -> list[Path | FolderEmpty]:
    """The documents that paths mean, in order, each once; a folder stands for the documents below it."""
    found: dict[str, Path | FolderEmpty] = {}
    for path in paths:
        below = list(_below(path)) if path.is_dir() else [path]
        for document in below:
            found.setdefault(os.path.realpath(document), document)
        if not below:
            found[os.path.realpath(path)] = FolderEmpty(Span(str(path)), str(path))
    return list(found.values())


def _below(folder: Path) -> Iterator[Path]:
    """The documents below a folder, sorted, folder by folder.

    Left out are hidden ones, and links that lead out of the folder: whoever sent it must not have other files
    of its reader's read, or mended.
    """
    inside = folder.resolve()
    for above, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(files):
            path = Path(above) / name
            named = name.endswith(_ENDING) and not name.startswith(".")
            if named and path.is_file() and path.resolve().is_relative_to(inside):
                yield path


def check_all(paths: Sequence[Path], overrides: Overrides, strict: bool = False) -> list[Found]:
    """What is wrong with each document, in order; a bar on standard error shows the way on a terminal."""
    from ..report import Found

    documents = expand(paths)
    hidden = len(documents) <= _FEW or not screen.is_terminal(sys.stderr)
    with click.progressbar(documents, label="checking", file=sys.stderr, hidden=hidden) as bar:
        return [
            Found(str(one.path), (one,))
            if isinstance(one, FolderEmpty)
            else check_one(one, overrides, strict)
            for one in bar
        ]


def check_pair(paths: Sequence[Path], overrides: Overrides) -> list[Found]:
    """What is wrong with a paper and its memo, and where the two differ.

    Raises:
        click.UsageError: they are not two files.
    """
    from .. import pipeline
    from ..report import Found
    from ..sources import Source, read_source

    if (
        len(paths) != 2
        or any(path.is_dir() for path in paths)
        or os.path.realpath(paths[0]) == os.path.realpath(paths[1])
    ):
        raise click.UsageError("--pair takes two files: the paper, then the memo")
    sources: list[Source] = []
    unread: list[Found] = []
    for path in paths:
        try:
            sources.append(read_source(path))
        except Problem as problem:
            unread.append(Found(str(path), (problem,)))
    if unread:
        return unread
    try:
        reports = pipeline.pair(sources[0], sources[1], overrides)
    except Exception as error:
        if screen.debugging():
            raise
        return [Found(str(paths[0]), (fault_of(error, str(paths[0])),), sources[0])]
    return [
        Found(source.name, report.problems, source) for source, report in zip(sources, reports, strict=True)
    ]


def check_one(path: Path, overrides: Overrides, strict: bool = False) -> Found:
    """What is wrong with a document. A fault of the program is a problem of that document, too."""
    from .. import pipeline
    from ..report import Found
    from ..sources import read_source

    source = None
    try:
        source = read_source(path)
        return Found(str(path), pipeline.check(source, overrides, strict=strict).problems, source)
    except Problem as problem:
        return Found(str(path), (problem,), source)
    except Exception as error:
        if screen.debugging():
            raise
        return Found(str(path), (fault_of(error, str(path)),), source)
