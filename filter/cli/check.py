"""`physcalc check`: everything that is wrong, and nothing written."""

from __future__ import annotations

from pathlib import Path

import click

from . import screen
from .documents import check_all, check_pair
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
@click.option(
    "--strict", is_flag=True, help="Find numbers with units in questions that are tied to nothing, too."
)
@click.option("--pair", is_flag=True, help="PATH is a paper and its memo: tell where the two differ, too.")
@settings_option
def command(paths: tuple[Path, ...], form: str, strict: bool, pair: bool, overrides: Overrides) -> int:
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
    physcalc check test.md --strict          numbers that are tied to nothing are problems, too
    physcalc check paper.md memo.md --pair   where a paper and its memo differ

    With --strict, a number with a unit in a question's text that no `value` span ties to a quantity is the problem
    number-loose, with the span to write where exactly one quantity equals it.

    With --pair, PATH is a paper and its memo, with blocks or written by hand: headings "Question 1", parts "1.1",
    marks in brackets at the end of a line. Compared are the numbers of questions, their marks, the letters of
    options, and whether the paper's data stand in the same question of the memo; answers where a file has blocks.

    Exit code: 0 all agrees (notes do no harm), 1 something does not, 2 something could not be read.
    """
    if pair and strict:
        raise click.UsageError("--pair and --strict are asked one after the other")
    runs = check_pair(paths, overrides) if pair else check_all(paths, overrides, strict)
    if form == "text":
        screen.show(runs, err=False)
    else:
        from ..report import FORMATS

        click.echo(FORMATS[form](runs), nl=False)
    return screen.exit_code(runs)
