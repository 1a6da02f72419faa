"""`physcalc build`: one edition of a document as a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click

from physcalc.problems import Problem, Text

from . import screen
from .paths import NamedPath
from .settings import Overrides, settings_option

if TYPE_CHECKING:
    from ..document import Edition
    from ..sources import Source

_EDITIONS = ("paper", "memo", "guide")


@click.command(short_help="Write a paper, memo or guide.")
@click.argument("source", metavar="SOURCE", type=NamedPath())
@click.option(
    "-o",
    "--output",
    required=True,
    type=NamedPath(dir_okay=False),
    metavar="OUT",
    help="The file to write; its ending says what: .pdf .html .docx .epub .tex .typ .md",
)
@click.option(
    "--edition",
    type=click.Choice(_EDITIONS, case_sensitive=False),
    help="Which edition. Left out, the front matter's `edition` counts, and else the paper is written, "
    "which gives no answer away.",
)
@click.option("--draft", is_flag=True, help="Write it with every problem framed in its place.")
@click.option(
    "--pdf-engine",
    metavar="NAME",
    help="Make a PDF with another program than Typst: a TeX that is there, such as lualatex.",
)
@click.option(
    "--resource-path",
    "folders",
    multiple=True,
    type=NamedPath(),
    metavar="DIR",
    help="Another folder where pictures may lie. May be given several times.",
)
@settings_option
def command(
    source: Path,
    output: Path,
    edition: str | None,
    draft: bool,
    pdf_engine: str | None,
    folders: tuple[Path, ...],
    overrides: Overrides,
) -> int:
    """Write one edition of SOURCE.

    Needed is nothing but what pip installed: a PDF is made with Typst. On a problem nothing is written; with
    --draft the document is, and shows each problem where it stands.

    \b
    physcalc build test.md -o paper.pdf                    the question paper
    physcalc build test.md -o memo.pdf --edition memo      working, ticks, what to accept
    physcalc build test.md -o guide.html --edition guide   steps with their reasons
    physcalc build test.md -o draft.pdf --edition memo --draft
    physcalc build test.md -o memo.docx --edition memo --set decimal=comma

    Exit code: 0 written, 1 the document has problems, 2 it could not be read or written.
    """
    from .. import pipeline
    from ..outputs import kind_of, write
    from ..report import Found
    from ..sources import read_source

    text: Source | None = None
    try:
        layout = kind_of(output, pdf_engine).layout
        text = read_source(source)
        chosen = _edition(text, edition, overrides)
        document, report = pipeline.build(text, chosen, layout, draft, overrides)
        if report.problems:
            screen.show([Found(str(source), report.problems, text)], err=True)
        if document is None:
            if not draft:
                screen.say("nothing was written; --draft writes it with each problem framed in its place")
            return screen.exit_code([Found(str(source), report.problems)])
        labels = _labels(document, overrides)
        write(
            document,
            output,
            source=source,
            pdf_engine=pdf_engine,
            edition=chosen,
            labels=labels,
            resource_path=folders,
        )
    except Problem as problem:
        return screen.refuse(problem, text)
    screen.say(f"wrote {output} ({chosen})")
    return 0


def _edition(source: Source, asked: str | None, overrides: Overrides) -> Edition:
    """The edition that is asked for: by the option, by `--set`, by the front matter; else the paper.

    A paper is what may lie about: nobody should get a memo who did not ask for it.
    """
    from ..sources import front_matter

    typed = [asked] if asked else []
    typed += [value.value for key, value in overrides if key.value == "edition" and isinstance(value, Text)]
    front = front_matter(source)
    if front is not None and (placed := front.below("physcalc").get("edition")) is not None:
        typed.append(placed[1].value)
    # A word that is no edition is a problem that the settings' own reader finds.
    return cast("Edition", next((word for word in typed if word in _EDITIONS), "paper"))


def _labels(document: Any, overrides: Overrides) -> dict[str, str]:
    """The words that the document puts in the place of the page's own."""
    from ..document import Findings, settle_document

    # What is wrong with the settings was found when the document was worked out.
    return dict(settle_document(document, None, overrides, Findings()).labels)
