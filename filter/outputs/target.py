"""Where an output is put: a file that no source is, in one step."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from physcalc.problems import Span

from ..sources.whole import write_whole
from .problems import FILE_SYSTEM, OutputFailed, OutputFolderMissing, OutputOverSource


def allow(target: Path, source: Path | None, others: Sequence[Path] = ()) -> None:
    """Says whether a file may be written.

    Args:
        target: the file.
        source: what it is made from.
        others: more files that it is made from.

    Raises:
        OutputOverSource: it is one of those.
        OutputFolderMissing: its folder is not there.
    """
    if any(_same(one, target) for one in ((source, *others) if source is not None else others)):
        raise OutputOverSource(_place(target, source), target.name)
    if not target.absolute().parent.is_dir():
        raise OutputFolderMissing(Span(file=str(target)), str(target.parent))


def put(content: bytes, target: Path, source: Path | None) -> None:
    """Puts a file where it belongs, in one step.

    Args:
        content: its bytes.
        target: the file; one that is there is replaced.
        source: what it was made from, where a problem is shown.

    Raises:
        OutputFailed: the file system refuses.
    """
    try:
        write_whole(target, content)
    except OSError as error:
        said = (error.strerror or str(error)).lower()
        raise OutputFailed(_place(target, source), FILE_SYSTEM, said) from None


def _place(target: Path, source: Path | None) -> Span:
    return Span(file=str(source) if source else target.name)


def _same(source: Path, target: Path) -> bool:
    try:
        return os.path.samefile(source, target)
    except OSError:
        return source.absolute() == target.absolute()
