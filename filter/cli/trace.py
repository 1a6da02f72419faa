"""`physcalc trace`: what a value rests on, and what rests on it."""

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


@click.command(short_help="Tell what a value rests on, and what rests on it.")
@click.argument("source", metavar="SOURCE", type=NamedPath())
@click.argument("name", metavar="NAME")
@click.option(
    "--format",
    "form",
    type=click.Choice(_FORMATS),
    default="text",
    show_default=True,
    help="A tree for a person, or an object for a program.",
)
@settings_option
def command(source: Path, name: str, form: str, overrides: Overrides) -> int:
    """Trace a value of SOURCE.

    Shown are the formulas, data and constants that the value NAME rests on, down to what was typed; where it
    stands in the document; and everything that rests on it in turn. Where several questions have that name, the
    id or the number of the question stands before it: ID:NAME.

    \b
    physcalc trace test.md q_B
    physcalc trace test.md spheres:q_B
    physcalc trace test.md g                        a constant of the sheet: what rests on it
    physcalc trace test.md q_B --format json        keys: value, places, dependents

    Exit code: 0 traced, 1 traced in a document that has problems, 2 it could not be read, or the name means
    nothing or several things.
    """
    from .. import asking
    from ..report import Found, count_text
    from ..report.traced import traced_json, traced_text
    from ..sources import Source, read_source

    text: Source | None = None
    try:
        text = read_source(source)
        found, report = asking.trace_value(text, Text(name, Span(PLACE, 1, 1, max(1, len(name)))), overrides)
    except Problem as problem:
        if problem.span.file == PLACE:
            text = Source(PLACE, name.replace("\n", " "))
        return screen.refuse(problem, text)
    runs = [Found(str(source), report.problems, text)]
    if found is None:
        screen.show(runs, err=True)
        return screen.exit_code(runs)
    click.echo((traced_json if form == "json" else traced_text)(found), nl=False)
    if report.failed:
        screen.say(f"{count_text(runs)}: physcalc check tells them")
    return screen.exit_code(runs)
