"""`physcalc follow`: what follows from a learner's wrong value."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from physcalc.problems import Problem, Span, Text

from . import screen
from .paths import NamedPath
from .settings import PLACE, Overrides, settings_option

if TYPE_CHECKING:
    from ..sources import Source

_FORMATS = ("text", "json")
_OPTION = "--took "


@click.command(short_help="Tell what follows from a learner's wrong value.")
@click.argument("source", metavar="SOURCE", type=NamedPath())
@click.option(
    "--took",
    "taken",
    metavar="NAME=VALUE",
    multiple=True,
    help='A result with the learner\'s value: --took "T=6725 N". Where several questions find that name, the id or '
    "the number of the question stands before it: ID:T=6725 N. May be given several times.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(_FORMATS),
    default="text",
    show_default=True,
    help="A table for a person, or a list of objects for a program.",
)
@settings_option
def command(source: Path, taken: tuple[str, ...], form: str, overrides: Overrides) -> int:
    """Work out what follows from a learner's value, so that one error costs its marks once.

    Every later calculation that uses the result, directly or through others, is done again with the learner's
    value. Shown are the results that come out otherwise: the question, the memo's value, the value that follows,
    and the substitution that leads to it. A part that starts from the value of a "show that" does not change.

    A number without a sign is the size of a result that has a direction; -3 m/s counts along the axis, and
    "3 m/s, left" says it.

    \b
    physcalc follow test.md --took "T=6725 N"
    physcalc follow test.md --took "lift-tension:T=6725 N" --took "v=3.2 m/s, left"
    physcalc follow test.md --took "T=6725 N" --format json   keys: file, line, question, id,
                                                              name, memo, follows,
                                                              substitution, reason

    Exit code: 0 worked out, 1 the document has problems, 2 it or a value could not be read.
    """
    if not taken:
        raise click.UsageError(
            f'say what the learner has with --took, as in: physcalc follow {source} --took "T=6725 N"'
        )
    from .. import asking
    from ..report import Found, as_text
    from ..report.followed import followed_json, followed_text
    from ..sources import Source, read_source

    text: Source | None = None
    try:
        text = read_source(source)
        followed, report = asking.follow(text, _texts(taken), overrides)
    except Problem as problem:
        return screen.refuse(problem, text)
    if followed is None:
        if any(problem.span.file == PLACE for problem in report.problems):
            # The command line is a text like any other: the picture shows what is wrong with it.
            line = Source(PLACE, "\n".join(_OPTION + typed.replace("\n", " ") for typed in taken))
            shown = as_text([Found(PLACE, report.problems, line)])
            click.echo(shown, nl=False, err=True)
            return 2
        runs = [Found(str(source), report.problems, text)]
        screen.show(runs, err=True)
        screen.say("nothing follows from a memo that disagrees with itself: mend it first")
        return screen.exit_code(runs)
    if form == "json":
        click.echo(followed_json(followed), nl=False)
        return 0
    click.echo(followed_text(followed), nl=False)
    if not followed:
        screen.say("no other result changes")
    return 0


def _texts(taken: tuple[str, ...]) -> list[Text]:
    """What was typed, with its places on the command line."""
    column = len(_OPTION) + 1
    return [
        Text(typed, Span(PLACE, line, column, max(1, len(typed))))
        for line, typed in enumerate(taken, start=1)
    ]
