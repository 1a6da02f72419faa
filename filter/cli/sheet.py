"""`physcalc sheet`: the data and formula sheets."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click
from click.shell_completion import CompletionItem

from physcalc.problems import Problem

from . import screen
from .paths import NamedPath
from .settings import Overrides, settings_option

if TYPE_CHECKING:
    from physcalc.sheets import Sheet

    from ..report import Found
    from ..settings import Settings


def _names(context: click.Context, parameter: click.Parameter, begun: str) -> list[CompletionItem]:
    """The built-in sheets that begin so, and files, for a shell."""
    from physcalc.sheets import builtin_sheets

    found = [CompletionItem(name) for name in builtin_sheets() if name.startswith(begun)]
    return found or [CompletionItem(begun, type="file")]


@click.command(short_help="Print a data and formula sheet, or list them.")
@click.argument("name", required=False, shell_complete=_names)
@click.option(
    "-o",
    "--output",
    type=NamedPath(dir_okay=False),
    metavar="OUT",
    help="Write it as a document instead; the ending says what: .pdf .html .docx .epub .tex .typ .md",
)
@settings_option
def command(name: str | None, output: Path | None, overrides: Overrides) -> int:
    """Print a data and formula sheet: constants, formulas with the names that `use` takes, definitions.

    NAME is a built-in sheet or the path of a YAML file of your own. Without it, the built-in ones are listed.
    What is wrong in a file of your own is told with its place.

    \b
    physcalc sheet
    physcalc sheet school --set decimal=comma
    physcalc sheet school -o sheet.pdf --set lang=en-ZA
    physcalc sheet own/board.yaml             also checks it

    Exit code: 0 printed, 1 the sheet has problems, 2 it could not be read.
    """
    from physcalc.sheets import read_sheet

    if name is None:
        if output is not None:
            raise click.UsageError("name the sheet that is to be written")
        _list()
        return 0
    from ..settings import Settings

    settings, _ = Settings().with_overrides(overrides)
    try:
        sheet, faults = read_sheet(name, None, settings.decimal)
        if faults:
            return _show(faults)
        if output is None:
            from ..document.settling import conventions_of
            from .sheet_text import sheet_text

            click.echo(sheet_text(sheet, conventions_of(settings)), nl=False)
        else:
            _write(sheet, output, settings)
            screen.say(f"wrote {output}")
    except Problem as problem:
        return screen.refuse(problem)
    return 0


def _list() -> None:
    """One line for each built-in sheet."""
    from physcalc.sheets import builtin_sheets, load_sheet

    from .sheet_text import count_text

    names = builtin_sheets()
    for name in names:
        sheet = load_sheet(name)
        click.echo(f"{name:<{max(map(len, names))}}  {sheet.title} ({count_text(sheet)})")


def _show(problems: tuple[Problem, ...]) -> int:
    from ..report import Found

    # A sheet is named like a document: what is known of it is shown in the same way.
    runs: list[Found] = [Found(problems[0].span.file, problems)]
    screen.show(runs, err=True)
    return screen.exit_code(runs)


def _write(sheet: Sheet, output: Path, settings: Settings) -> None:
    """The sheet as a document.

    Raises:
        Problem: it could not be written.
    """
    from ..document.own_engine import OwnEngine
    from ..editions.sheet_page import sheet_page
    from ..outputs import kind_of, write

    kind_of(output)  # Raised before the sheet is laid out.
    write(sheet_page(sheet, settings, OwnEngine()), output, labels=dict(settings.labels))
