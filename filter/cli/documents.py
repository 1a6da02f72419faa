"""From paths on the command line to documents, and their problems."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem

from . import screen
from .paths import documents
from .problems import FolderEmpty
from .settings import Overrides
from .start import fault_of

if TYPE_CHECKING:
    from ..report import Found


def expand(paths: Sequence[Path]) -> list[Path | FolderEmpty]:
    """The documents that paths mean, in order, each once; a folder stands for the documents below it."""
    return list(documents(paths))


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
