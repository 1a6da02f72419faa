"""`physcalc fix --tie`: loose numbers tied to the quantities that they equal."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem

from . import screen
from .documents import expand
from .problems import FolderEmpty
from .settings import Overrides
from .start import fault_of
from .writing import difference, replace

if TYPE_CHECKING:
    from ..report import Found
    from ..sources import Source
    from ..tying import Tie, Tied


def tie_all(paths: Sequence[Path], overrides: Overrides, *, dry_run: bool, yes: bool) -> int:
    """Tie what can be tied in each document; the exit code.

    Raises:
        click.UsageError: nobody is there to be asked.
    """
    if not (yes or dry_run or screen.is_terminal(sys.stdin)):
        raise click.UsageError(
            "there is no terminal to ask at; --yes ties without asking, --dry-run shows the difference"
        )
    asking = _Asking(everything=yes or dry_run)
    runs: list[Found] = []
    differs = False
    for one in expand(paths):
        if asking.ended:
            break
        found, tied = _tied(one, overrides, asking, dry_run)
        runs.append(found)
        differs = differs or bool(tied and tied.ties)
    screen.show(runs, err=True)
    return max(screen.exit_code(runs), int(dry_run and differs))


def _tied(
    one: Path | FolderEmpty, overrides: Overrides, asking: _Asking, dry_run: bool
) -> tuple[Found, Tied | None]:
    """One document with its numbers tied and written (or, on a dry run, shown); what is left in it."""
    from .. import pipeline
    from ..report import Found
    from ..sources import read_source
    from ..tying import tie, ties_of

    if isinstance(one, FolderEmpty):
        return Found(one.path, (one,)), None
    name = str(one)
    source: Source | None = None

    def check(text: Source) -> Sequence[Problem]:
        return pipeline.check(text, overrides, strict=True).problems

    try:
        source = read_source(one)
        problems = tuple(check(source))
        chosen = [found for found in ties_of(source, problems) if asking.wanted(source, found)]
        if not chosen:
            return Found(name, problems, source), None
        tied = tie(source, chosen, check)
        if tied.ties and dry_run:
            click.echo("".join(difference(source, tied.source)), nl=False)
        elif tied.ties:
            replace(one, source.encode(source.text), source.encode(tied.source.text))
            for done in tied.ties:
                screen.say(_told(done))
        return Found(name, tied.problems, tied.source), tied
    except Problem as problem:
        return Found(name, (problem,), source), None
    except click.Abort:
        raise
    except Exception as error:
        if screen.debugging():
            raise
        return Found(name, (fault_of(error, name),), source), None


def _told(tie: Tie) -> str:
    from ..report import clean

    span = tie.problem.span
    return clean(
        f"{span.file}:{span.line}:{span.column}: {tie.problem.raw} is tied to {tie.problem.names[0]}"
    )


class _Asking:
    """Asks for each number, until the answer is for all or for none that follow."""

    def __init__(self, *, everything: bool) -> None:
        self.everything = everything
        self.ended = False

    def wanted(self, source: Source, tie: Tie) -> bool:
        """Whether a number shall be tied."""
        from ..report import clean, picture

        if self.everything or self.ended:
            return self.everything and not self.ended
        span = tie.problem.span
        above, marks = picture(span, source.line_text(span.line - 1), screen.width(sys.stderr))
        screen.say(f"{clean(span.file)}:{span.line}:{span.column}:\n{above}\n{marks}")
        question = f"   tie it to {clean(tie.problem.names[0])}? [y]es, [n]o, [a]ll, [q]uit"
        answers = click.Choice(("y", "n", "a", "q", "yes", "no", "all", "quit"), case_sensitive=False)
        answer = click.prompt(question, type=answers, show_choices=False, err=True)
        self.everything = answer[0] == "a"
        self.ended = answer[0] == "q"
        return answer[0] in "ya"
