"""`physcalc build`: one edition of a document as a file, or all of them."""

from __future__ import annotations

from pathlib import Path

import click

from .building import EDITIONS, Wish, write_all
from .paths import NamedPath
from .settings import Overrides, cache_option, settings_option


@click.command(short_help="Write a paper, memo or guide.")
@click.argument("source", metavar="SOURCE", type=NamedPath())
@click.option(
    "-o",
    "--output",
    type=NamedPath(),
    metavar="OUT",
    help="The file to write; its ending says what: .pdf .html .docx .epub .tex .typ .md. With --all, the folder.",
)
@click.option(
    "--all",
    "every",
    is_flag=True,
    help="Write paper, memo and guide side by side into the folder OUT, as NAME-paper.pdf and so on.",
)
@click.option(
    "--formats",
    default="pdf",
    show_default=True,
    metavar="LIST",
    help="With --all: which formats, such as pdf,docx,html.",
)
@click.option(
    "--edition",
    type=click.Choice(EDITIONS, case_sensitive=False),
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
@click.option(
    "--watch",
    is_flag=True,
    help="Go on: write it again whenever SOURCE, or a sheet or picture of it, has changed. Ctrl-C ends it.",
)
@cache_option
@settings_option
def command(
    source: Path,
    output: Path | None,
    every: bool,
    formats: str,
    edition: str | None,
    draft: bool,
    pdf_engine: str | None,
    folders: tuple[Path, ...],
    watch: bool,
    overrides: Overrides,
) -> int:
    """Write one edition of SOURCE, or all of them.

    Needed is nothing but what pip installed: a PDF is made with Typst. On a problem nothing is written; with
    --draft the document is, and shows each problem where it stands.

    \b
    physcalc build test.md -o paper.pdf                    the question paper
    physcalc build test.md -o memo.pdf --edition memo      working, ticks, what to accept
    physcalc build test.md -o guide.html --edition guide   steps with their reasons
    physcalc build test.md -o draft.pdf --edition memo --draft
    physcalc build test.md -o memo.docx --edition memo --set decimal=comma
    physcalc build test.md --all -o out                    paper, memo and guide as PDF
    physcalc build test.md --all -o out --formats pdf,docx
    physcalc build test.md -o memo.pdf --edition memo --watch    again after each change
    physcalc build test.tex -o memo.pdf --edition memo     a document in LaTeX; TeX itself is not needed

    Exit code: 0 written, 1 the document has problems, 2 it could not be read or written.
    """
    wanted = _targets(source, output, every, formats, edition)
    wish = Wish(source, tuple(wanted), every, draft, pdf_engine, folders, overrides)
    if not watch:
        return write_all(wish)[0]
    from .watching import watched  # Here: few runs stay.

    return watched(source, lambda: write_all(wish))


def _targets(
    source: Path, output: Path | None, every: bool, formats: str, edition: str | None
) -> list[tuple[Path, str | None]]:
    """The files to write, each with the edition that is asked for.

    Raises:
        click.UsageError: the options do not go together.
    """
    name = source.stem or "document"
    if output is None:
        example = f"physcalc build {source} --all -o out"
        if not every:
            example = f"physcalc build {source} -o {name}.pdf"
            example = (
                f"{example.removesuffix('.pdf')}-{edition}.pdf --edition {edition}" if edition else example
            )
        raise click.UsageError(f"say what to write with -o, as in: {example}")
    if not every:
        if output.is_dir():
            raise click.UsageError(
                f"{output} is a folder: name a file, or write all editions into it with --all"
            )
        return [(output, edition)]
    if edition is not None:
        raise click.UsageError("--all writes every edition: leave out --edition, or leave out --all")
    endings = [word.strip().lower().removeprefix(".") for word in formats.split(",") if word.strip()]
    if not endings:
        raise click.UsageError("--formats names no format: write for instance --formats pdf,docx")
    if output.exists() and not output.is_dir():
        raise click.UsageError(f"{output} is a file: with --all, -o names a folder")
    twice = dict.fromkeys(endings)
    return [(output / f"{name}-{one}.{ending}", one) for ending in twice for one in EDITIONS]
