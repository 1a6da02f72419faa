"""`physcalc fix`: computed values over typed results that disagree, and loose numbers tied."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
from .tie import tie_all
from .writing import difference, replace

if TYPE_CHECKING:
    from ..fixing import Fixed
    from ..report import Found
    from ..sources import Source


@click.command(short_help="Write computed values over typed results that disagree.")
@click.argument("paths", nargs=-1, required=True, metavar="PATH...", type=NamedPath())
@click.option("--dry-run", is_flag=True, help="Show the difference on standard output and write nothing.")
@click.option(
    "--tie", "ties", is_flag=True, help="Tie loose numbers to their quantities, and change nothing else."
)
@click.option("--yes", is_flag=True, help="With --tie: tie all that can be tied, without asking.")
@settings_option
def command(paths: tuple[Path, ...], dry_run: bool, ties: bool, yes: bool, overrides: Overrides) -> int:
    """Put typed results right.

    The computed value is written over each typed answer, `value of=` and `show` that disagrees with it, in
    the author's own number style. Data are never changed, nor is any other character of the file. What cannot
    be mended so is told as `physcalc check` tells it.

    With --tie, a span is written around each number with a unit in a question's text that is tied to nothing
    and equals exactly one quantity there; each is asked for first. What is left is told as
    `physcalc check --strict` tells it.

    \b
    physcalc fix test.md --dry-run     look at the difference first
    physcalc fix papers/               every document of a folder
    physcalc fix test.md --tie         0,75 m·s⁻² becomes [0,75 m·s⁻²]{.value of=a}

    Exit code: 0 nothing is wrong any more, 1 something is (with --dry-run: or would be mended), 2 something
    could not be read or written.
    """
    from ..report import clean

    if ties:
        return tie_all(paths, overrides, dry_run=dry_run, yes=yes)
    if yes:
        raise click.UsageError("--yes goes with --tie; nothing else is asked")
    runs: list[Found] = []
    differs = False
    for one in expand(paths):
        found, done = _fixed(one, overrides, dry_run)
        runs.append(found)
        for fixed in done:
            differs = differs or bool(fixed.mends)
            for mend in () if dry_run else fixed.mends:
                span = mend.problem.span
                place = f"{span.file}:{span.line}:{span.column}:"
                screen.say(clean(f"{place} {mend.old} is now {mend.edit.new}"))
    screen.show(runs, err=True)
    return max(screen.exit_code(runs), int(dry_run and differs))


def _fixed(one: Path | FolderEmpty, overrides: Overrides, dry_run: bool) -> tuple[Found, list[Fixed]]:
    """One document, with the files that it reads, put right and written (or, on a dry run, shown).

    Returns:
        What is left to mend in it, and what was done to each file.
    """
    from .. import pipeline
    from ..fixing import fix_files
    from ..report import Found
    from ..sources import is_tex, read_source, weave

    if isinstance(one, FolderEmpty):
        return Found(one.path, (one,)), []
    name = str(one)
    source: Source | None = None

    def check(text: Source, instead: Mapping[str, Source]) -> Sequence[Problem]:
        if not instead:
            return pipeline.check(text, overrides).problems
        return pipeline.check(text, overrides, instead=instead).problems

    try:
        source = read_source(one)
        others = weave(source, one.parent)[0].others() if is_tex(name) else ()
        done = fix_files(source, others, check)
        for old, fixed in done:
            if fixed.mends and dry_run:
                click.echo("".join(difference(old, fixed.source)), nl=False)
            elif fixed.mends:
                replace(Path(old.name), old.encode(old.text), old.encode(fixed.source.text))
        return Found(name, done[-1][1].problems, done[0][1].source), [fixed for _, fixed in done]
    except Problem as problem:
        return Found(name, (problem,), source), []
    except Exception as error:
        if screen.debugging():
            raise
        return Found(name, (fault_of(error, name),), source), []
