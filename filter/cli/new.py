"""`physcalc new`: a small paper to begin with."""

from __future__ import annotations

from importlib import resources
from pathlib import Path
from shlex import quote

import click

from physcalc.problems import Problem, Span

from . import screen
from .paths import NamedPath
from .problems import FileExists, FileNotWritten

_ENDING = ".md"
_PAPER = "new_paper.md"


@click.command(short_help="Write a small paper to begin with.")
@click.argument("path", metavar="FILE", type=NamedPath(dir_okay=False))
def command(path: Path) -> int:
    """Write a small paper with comments that teach: three questions, one of each kind.

    It agrees with itself and builds in every edition. Change a number and see what `physcalc check` says.
    FILE ends in .md; a file that is there already is left alone.

    \b
    physcalc new test.md
    physcalc new papers/november.md && physcalc build papers/november.md -o november.pdf

    Exit code: 0 written, 2 not.
    """
    if path.suffix != _ENDING:
        raise click.BadParameter(f'the name of a document ends in {_ENDING}: "{path}" does not')
    try:
        _write(path, (resources.files(__package__) / _PAPER).read_text(encoding="utf-8"))
    except Problem as problem:
        return screen.refuse(problem)
    paper = path.with_suffix(".pdf").name
    screen.say(f"wrote {path}; physcalc build {quote(str(path))} -o {quote(paper)} makes the paper")
    return 0


def _write(path: Path, text: str) -> None:
    """A new file.

    Raises:
        FileExists: there is one of that name.
        FileNotWritten: the file system refuses.
    """
    try:
        # "x" asks and writes in one step: nobody's file can come between.
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise FileExists(Span(str(path)), str(path)) from None
    except OSError as error:
        raise FileNotWritten(
            Span(str(path)), str(path), (error.strerror or "no reason given").lower()
        ) from None
