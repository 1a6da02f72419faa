"""`physcalc latex`: a document in TeX itself, worked out between two runs of TeX."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem, Span

from . import screen
from .paths import NamedPath
from .problems import FileExists, FileNotWritten
from .settings import Overrides, settings_option

if TYPE_CHECKING:
    from ..latex import Done
    from ..report import Found


@click.command(short_help="Work a TeX document out between two runs of TeX.")
@click.argument("path", metavar="[DOCUMENT]", required=False, type=NamedPath())
@click.option(
    "--install",
    "installing",
    is_flag=True,
    help="Put the package physcalc.sty and a rule for latexmk into a folder: DOCUMENT is that folder, or this one.",
)
@click.option(
    "--root",
    metavar="DIR",
    type=NamedPath(),
    help="The folder in which TeX ran, where that is not DOCUMENT's.",
)
@settings_option
def command(path: Path | None, installing: bool, root: Path | None, overrides: Overrides) -> int:
    """Work out what TeX wrote about DOCUMENT, tell what is wrong, and write what TeX sets in its next run.

    A document that says \\usepackage[edition=memo]{physcalc} has TeX write its calculations to NAME.physin. This
    command reads that file, checks what was typed, and writes NAME.physout: workings, values, definitions and
    marks of that edition. TeX runs no program by itself; latexmk runs this one with the rule of --install.

    \b
    physcalc latex --install                 physcalc.sty and .latexmkrc into this folder
    physcalc latex --install papers/
    pdflatex main && physcalc latex main && pdflatex main
    physcalc latex build/main --root .       TeX ran here, and writes to build/

    Where something is wrong the file is written too: the next run shows each problem framed in its place, in a
    paper its place alone.

    Exit code: 0 all agrees, 1 something does not, 2 TeX has to run first, or something could not be read.
    """
    if installing:
        return _install(path or Path())
    if path is None:
        raise click.UsageError("name the document, such as physcalc latex main; or ask for --install")
    from ..latex import process

    try:
        done = process(path, root, overrides)
        runs = _runs(done)
        screen.show(runs, err=False)
        _write(done)
    except Problem as problem:
        return screen.refuse(problem)
    return screen.exit_code(runs)


def _runs(done: Done) -> list[Found]:
    """What was found, file by file, so that each problem is shown in its own."""
    from ..report import Found

    files = dict.fromkeys(problem.span.file for problem in done.report.problems)
    names = [
        *(name for name in done.sources if name in files),
        *(name for name in files if name not in done.sources),
    ]
    found = [
        Found(
            name,
            tuple(problem for problem in done.report.problems if problem.span.file == name),
            done.sources.get(name),
        )
        for name in names
    ]
    # A run without problems counts as one document that agrees.
    return found or [Found(str(done.target))]


def _write(done: Done) -> None:
    """What TeX reads back.

    Raises:
        FileExists: a file of that name is somebody else's.
        FileNotWritten: the file system refuses.
    """
    from ..latex import foreign
    from ..sources.whole import write_whole

    if foreign(done.target):
        raise FileExists(Span(str(done.target)), str(done.target))
    try:
        write_whole(done.target, done.text.encode("utf-8", "replace"))
    except OSError as error:
        raise _refused(error, done.target) from None
    screen.say(f"wrote {screen.named(done.target)}; now TeX sets it")


def _install(folder: Path) -> int:
    """The package and latexmk's rule into a folder."""
    from ..latex import RULE, install

    try:
        if not folder.is_dir():
            raise FileNotWritten(Span(str(folder)), str(folder), "there is no such folder")
        package, rule = install(folder)
    except Problem as problem:
        return screen.refuse(problem)
    except OSError as error:
        return screen.refuse(_refused(error, folder))
    if package.done == "foreign":
        return screen.refuse(FileExists(Span(str(package.path)), str(package.path)))
    screen.say(f"{package.path}: {package.done}")
    if rule.done == "foreign":
        screen.say(f"{rule.path} is your own and was left alone; these lines belong into it:")
        click.echo(RULE, nl=False)
    else:
        screen.say(f"{rule.path}: {rule.done}")
    screen.say("latexmk -pdf, or by hand: pdflatex main && physcalc latex main && pdflatex main")
    return 0


def _refused(error: OSError, path: Path) -> FileNotWritten:
    return FileNotWritten(Span(str(path)), str(path), (error.strerror or "no reason given").lower())
