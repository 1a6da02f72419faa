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
    from ..tying import Tie


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
        differs = differs or tied
    screen.show(runs, err=True)
    return max(screen.exit_code(runs), int(dry_run and differs))


def _tied(
    one: Path | FolderEmpty, overrides: Overrides, asking: _Asking, dry_run: bool
) -> tuple[Found, bool]:
    """One document, with the files that it reads: its numbers tied and written (or, on a dry run, shown).

    Returns:
        What is left in it, and whether anything was tied.
    """
    from .. import pipeline
    from ..report import Found
    from ..sources import is_tex, read_source, weave
    from ..tying import tie, ties_of

    if isinstance(one, FolderEmpty):
        return Found(one.path, (one,)), False
    name = str(one)
    source: Source | None = None
    instead: dict[str, Source] = {}

    def check(text: Source) -> Sequence[Problem]:
        if text.name == name:
            return pipeline.check(text, overrides, strict=True, instead=instead).problems
        assert source is not None
        main = instead.get(name, source)
        return pipeline.check(main, overrides, strict=True, instead={**instead, text.name: text}).problems

    try:
        source = read_source(one)
        problems = tuple(check(source))
        others = weave(source, one.parent)[0].others() if is_tex(name) else ()
        for file in (source, *others):
            chosen = [found for found in ties_of(file, problems) if asking.wanted(file, found)]
            if not chosen:
                continue
            tied = tie(file, chosen, check)
            problems = tied.problems
            if not tied.ties:
                continue
            instead[file.name] = tied.source
            if dry_run:
                click.echo("".join(difference(file, tied.source)), nl=False)
                continue
            replace(Path(file.name), file.encode(file.text), file.encode(tied.source.text))
            for done in tied.ties:
                screen.say(_told(done))
        return Found(name, problems, instead.get(name, source)), bool(instead)
    except Problem as problem:
        return Found(name, (problem,), source), False
    except click.Abort:
        raise
    except Exception as error:
        if screen.debugging():
            raise
        return Found(name, (fault_of(error, name),), source), False


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
