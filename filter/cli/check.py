"""`physcalc check`: everything that is wrong, and nothing written."""

from __future__ import annotations

from pathlib import Path

import click

from . import screen
from .documents import check_all
from .paths import NamedPath
from .settings import Overrides, settings_option

# `formats.FORMATS` has the same names; to ask it here would import the reports for every `--help`.
_FORMATS = ("text", "json", "junit", "sarif", "github")


@click.command(short_help="Tell what is wrong; write nothing.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=NamedPath())
@click.option(
    "--format",
    "form",
    type=click.Choice(_FORMATS),
    default="text",
    show_default=True,
    help="Text for a person, or a form that a program reads: json for scripts, junit for CI servers, sarif for "
    "code hosts and editors, github for the annotations of GitHub Actions.",
)
@settings_option
def command(paths: tuple[Path, ...], form: str, overrides: Overrides) -> int:
    """Work every calculation out and compare it with what was typed.

    PATH is a document, or a folder: then every file in it and below it that ends in .md is checked.

    Each problem is one line with its place, a picture of the place, where the computed value comes from, and
    how to mend it. Problems go to standard output, their count to standard error.

    \b
    physcalc check test.md
    physcalc check papers/                   every document of a folder
    physcalc check papers/ --format json     keys: file, line, column, length, slug, level,
                                             sentence, mend, because
    physcalc check papers/ --format junit > report.xml
    physcalc check papers/ --format sarif > report.sarif
    physcalc check papers/ --format github   in a job: problems stand at their lines
    physcalc check test.md --set rounding=half-even

    Exit code: 0 all agrees (notes do no harm), 1 something does not, 2 something could not be read.
    """
    runs = check_all(paths, overrides)
    if form == "text":
        screen.show(runs, err=False)
    else:
        from ..report import FORMATS

        click.echo(FORMATS[form](runs), nl=False)
    return screen.exit_code(runs)
