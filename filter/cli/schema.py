"""`physcalc schema`: what may stand in front matter and in sheets, for editors."""

from __future__ import annotations

import json

import click

_WHICH = ("front-matter", "sheet")


@click.command(short_help="Print a JSON Schema, for editors that check YAML.")
@click.argument("which", type=click.Choice(_WHICH), metavar="front-matter|sheet")
def command(which: str) -> int:
    """Print the JSON Schema of a document's front matter, or of a sheet's file.

    An editor that knows it proposes keys while you type, tells what each is for, and marks what is misspelt.
    The schema is made from the tables that read these files, so it fits the version that printed it.

    \b
    physcalc schema front-matter > front-matter.schema.json
    physcalc schema sheet > sheet.schema.json

    An editor with a YAML language server finds it by the first line of the file:

    \b
    # yaml-language-server: $schema=sheet.schema.json

    It knows words, not physics: `physcalc check` and `physcalc sheet FILE` say whether units and formulas are
    right.
    """
    # ASCII, so that it survives any encoding of the stream.
    if which == "sheet":
        from physcalc.sheets import sheet_schema

        click.echo(json.dumps(sheet_schema(), indent=2))
    else:
        from ..settings import front_matter_schema

        click.echo(json.dumps(front_matter_schema(), indent=2))
    return 0
