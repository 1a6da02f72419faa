"""What the formats for other programs ask of a place."""

from __future__ import annotations

from pathlib import PurePosixPath, PureWindowsPath

from physcalc.problems import Span


def whole_file(span: Span) -> bool:
    """Whether a place says nothing but the file: a mark below its first character would mislead."""
    return span == Span(span.file)


def absolute(name: str) -> bool:
    """Whether a file's name begins at the root of a file system of either kind."""
    return PurePosixPath(name).is_absolute() or PureWindowsPath(name).is_absolute()
