"""Standard output and standard error: what may be printed on each, and how."""

from __future__ import annotations

import codecs
import io
import os
import shutil
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING, TextIO

import click

from physcalc.problems import EXIT_CODES, Problem

if TYPE_CHECKING:
    from ..report import Found
    from ..sources import Source

#: Columns where there is no terminal to ask: a page of a mail or a log holds as many.
_WIDTH = 100

#: Encodings that lack nothing; Click writes UTF-8 where ASCII is said.
_WHOLE = ("utf-8", "ascii")


def prepare() -> None:
    """Make the streams take any character: for one that their encoding lacks stands what an author would type."""
    for name in ("stdout", "stderr"):
        stream = getattr(sys, name)
        if not isinstance(stream, io.TextIOWrapper):
            continue
        if codecs.lookup(stream.encoding).name in _WHOLE:
            stream.reconfigure(errors="replace")
            continue
        from .lookalike import Fitted  # Here: most streams take everything.

        lines, encoding = stream.line_buffering, stream.encoding
        setattr(sys, name, Fitted(stream.detach(), encoding, "replace", line_buffering=lines))


def debugging() -> bool:
    """Whether the user asked for all that is known of a fault."""
    return os.environ.get("PHYSCALC_DEBUG", "") not in ("", "0")


def is_terminal(stream: TextIO) -> bool:
    """Whether a person looks at a stream."""
    return stream.isatty() and os.environ.get("TERM") != "dumb"


def coloured(stream: TextIO) -> bool:
    """Whether colours are wanted on a stream (https://no-color.org: NO_COLOR, when set and not empty)."""
    return is_terminal(stream) and not os.environ.get("NO_COLOR")


def width(stream: TextIO) -> int:
    """How many columns a stream has."""
    return shutil.get_terminal_size((_WIDTH, 24)).columns if is_terminal(stream) else _WIDTH


def say(text: str) -> None:
    """One line, or several, for the person at the terminal, out of the way of the result.

    Names of files stand in it, so what would steer the terminal is taken out.
    """
    if not text.isprintable():
        from ..report import clean  # Here: most runs say nothing that needs it.

        text = "\n".join(map(clean, text.split("\n")))
    click.echo(text, err=True)


def named(name: object) -> str:
    """A file's name on one line, for `say`."""
    text = str(name)
    return text if text.isprintable() else " ".join(text.split("\n"))


def show(runs: Sequence[Found], *, err: bool) -> None:
    """Problems with their pictures, and the count of them on standard error."""
    tell(told(runs, err=err), err=err)


def told(runs: Sequence[Found], *, err: bool) -> tuple[str, str]:
    """What `show` shows: the pictures, and the count."""
    from ..report import as_text, count_text  # Here: a run without problems draws no picture.

    stream = sys.stderr if err else sys.stdout
    return as_text(runs, colour=coloured(stream), width=width(stream)), count_text(runs)


def tell(shown: tuple[str, str], *, err: bool) -> None:
    """Shows what `told` gave; nothing where both are empty."""
    text, count = shown
    click.echo(text, nl=False, err=err, color=coloured(sys.stderr if err else sys.stdout))
    if count:
        say(count)


def refuse(problem: Problem, source: Source | None = None) -> int:
    """A problem that ended the command, on standard error; the exit code that it asks for.

    Args:
        problem: what stopped it.
        source: the text that its place is in; None where there is none.
    """
    from ..report import Found, as_text

    text = as_text([Found("", (problem,), source)], colour=coloured(sys.stderr), width=width(sys.stderr))
    click.echo(text, nl=False, err=True, color=coloured(sys.stderr))
    return EXIT_CODES[problem.level]


def exit_code(runs: Sequence[Found]) -> int:
    """The code of a run: 2 beats 1, notes count for nothing."""
    return max((EXIT_CODES[problem.level] for run in runs for problem in run.problems), default=0)
