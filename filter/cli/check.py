"""`physcalc check`: everything that is wrong, and nothing written."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from . import screen
from .paths import NamedPath
from .settings import Overrides, cache_option, settings_option
from .shelf import FORMATS, Wish, format_of, report, report_pair


@click.command(short_help="Tell what is wrong; write nothing.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=NamedPath())
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="text",
    show_default=True,
    help="Text for a person, or a form that a program reads: json for scripts, junit for CI servers, sarif for "
    "code hosts and editors, github for the annotations of GitHub Actions.",
)
@click.option(
    "--strict", is_flag=True, help="Find numbers with units in questions that are tied to nothing, too."
)
@click.option("--pair", is_flag=True, help="PATH is a paper and its memo: tell where the two differ, too.")
@click.option(
    "--jobs",
    type=click.IntRange(min=1),
    metavar="N",
    help="How many documents are checked at once. Usual: as many as there are cores; a few documents are checked "
    "one after the other.",
)
@click.option(
    "--timeout",
    type=click.FloatRange(min=0, min_open=True),
    metavar="SECONDS",
    help="How long one document may take, before it is told as unfinished and the next one is begun. Usual: 120, and "
    "no end for a few documents.",
)
@click.option(
    "--cluster",
    metavar="ADDRESS",
    default="",
    help="Have a cluster check the documents: the address of its Dask scheduler, such as tcp://HOST:8786. They are "
    "sent there with the sheets that they name.",
)
@click.option(
    "--max-problems",
    type=click.IntRange(min=0),
    metavar="N",
    help="How many problems of one document are shown; all are counted. 0 shows all. Usual: 1000, for other programs "
    "10000.",
)
@cache_option
@settings_option
def command(
    paths: tuple[Path, ...],
    form: str,
    strict: bool,
    pair: bool,
    jobs: int | None,
    timeout: float | None,
    cluster: str,
    max_problems: int | None,
    overrides: Overrides,
) -> int:
    """Work every calculation out and compare it with what was typed.

    PATH is a document, or a folder: then every file in it and below it that ends in .md is checked, and every document
    in LaTeX that has environments or commands of ours, together with the files that it reads.

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
    physcalc check shelf/ --jobs 4           by four processes at once
    physcalc check shelf/ --cluster tcp://10.0.0.5:8786

    With --strict, a number with a unit in a question's text that no `value` span ties to a quantity is the problem
    number-loose, with the span to write where exactly one quantity equals it.

    With --pair, PATH is a paper and its memo, with blocks or written by hand: headings "Question 1", parts "1.1",
    marks in brackets at the end of a line. Compared are the numbers of questions, their marks, the letters of
    options, and whether the paper's data stand in the same question of the memo; answers where a file has blocks.

    Of many documents several are checked at once. The report has them in their order all the same, and is written
    as they become known. A document whose process dies, or takes too long, is told as such, and the others go on.

    Exit code: 0 all agrees (notes do no harm), 1 something does not, 2 something could not be read, 130 ended by
    Ctrl-C.
    """
    if pair and strict:
        raise click.UsageError("--pair and --strict are asked one after the other")
    if pair and (jobs or timeout or cluster):
        raise click.UsageError("--pair reads two files; it needs no --jobs, --timeout or --cluster")
    if jobs and cluster:
        raise click.UsageError("a cluster has its own workers: leave --jobs out")
    wanted = format_of(form)
    wish = Wish(strict, overrides, max_problems, jobs, timeout, cluster)
    total = report_pair(paths, wanted, wish) if pair else report(paths, wanted, wish)
    if form == "text":
        screen.say(total.text())
        if total.code and screen.is_terminal(sys.stderr):
            # A person reads it: a log needs no advice.
            screen.say("to know more of a problem: physcalc explain and its word, such as answer-disagrees")
    return total.code
