"""`physcalc grid`: the marks of papers by topic and level."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem

from . import screen
from .documents import expand
from .paths import NamedPath
from .problems import FolderEmpty
from .settings import Overrides, settings_option
from .start import fault_of

if TYPE_CHECKING:
    from ..report import Found, Weighed
    from ..sources import Source

# `weights.WEIGHTS` has the same names; to ask it here would import the reports for every `--help`.
_FORMATS = ("text", "csv", "json")


@click.command(short_help="Show marks by topic and level, against targets.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=NamedPath())
@click.option(
    "--format",
    "form",
    type=click.Choice(_FORMATS),
    default="text",
    show_default=True,
    help="Tables for a person, or rows and objects for a program.",
)
@settings_option
def command(paths: tuple[Path, ...], form: str, overrides: Overrides) -> int:
    """Show how the marks of each paper are spread over topics and levels.

    A question says its own, and what it does not say it has from the question around it:
    {.question marks=4 topic=forces level=2}. Marks of which it is not said are counted apart. PATH is a document,
    or a folder: then a last table says which topics were asked when, by the `date` of each front matter.

    Targets stand in the front matter. What is further off than the tolerance (5 % of the paper where it is not
    said) is marked too low or too high:

    \b
    physcalc:
      grid:
        topics: {forces: 60 %, energy: 40 %}
        levels: {1: 15 %, 2: 35 %, 3: 50 %}
        tolerance: 5 %

    \b
    physcalc grid test.md
    physcalc grid past-papers/                       also topics, paper by paper
    physcalc grid past-papers/ --format csv          columns: file, date, title, topic, level,
                                                     marks, share
    physcalc grid test.md --format json

    Exit code: 0 on target (or none is set), 1 something is off, or marks do not add up, 2 something could not be
    read.
    """

    from ..report import WEIGHTS, weights_text

    papers: list[Weighed] = []
    runs: list[Found] = []
    for one in expand(paths):
        found, paper = _weighed(one, overrides)
        runs.append(found)
        if paper is not None:
            papers.append(paper)
    if form == "text":
        coloured = screen.coloured(sys.stdout)
        click.echo(weights_text(papers, colour=coloured), nl=False, color=coloured)
    else:
        click.echo(WEIGHTS[form](papers), nl=False)
    faulty = [run for run in runs if run.problems]
    if faulty:
        screen.show(faulty, err=True)
    weighed = {paper.name for paper in papers}
    for run in runs:
        if run.name not in weighed and not run.problems:
            screen.say(f"{screen.named(run.name)}: no question has marks")
    off = any(paper.grid.off_target for paper in papers)
    return max(screen.exit_code(runs), int(off))


def _weighed(one: Path | FolderEmpty, overrides: Overrides) -> tuple[Found, Weighed | None]:
    """A paper's grid, and what is wrong with its marks; nothing is calculated."""
    from .. import pipeline
    from ..report import Found, Weighed
    from ..sources import read_source

    if isinstance(one, FolderEmpty):
        return Found(one.path, (one,)), None
    name = str(one)
    source: Source | None = None
    try:
        source = read_source(one)
        paper, report = pipeline.grid(source, overrides)
        # What is off its target stands in the table.
        problems = tuple(problem for problem in report.problems if problem.level != "note")
        found = Found(name, problems, source)
        if paper is None:
            return found, None
        return found, Weighed(name, paper.title, paper.date, paper.grid, paper.style)
    except Problem as problem:
        return Found(name, (problem,), source), None
    except Exception as error:
        if screen.debugging():
            raise
        return Found(name, (fault_of(error, name),), source), None
