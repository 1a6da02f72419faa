"""`physcalc build`: one edition of a document as a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, cast

import click

from physcalc.problems import Problem, Span, Text

from . import screen
from .paths import NamedPath
from .settings import Overrides, cache_option, settings_option

if TYPE_CHECKING:
    from ..document import Edition, Report
    from ..sources import Source

_EDITIONS = ("paper", "memo", "guide")


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
    physcalc build test.tex -o memo.pdf --edition memo     a document in LaTeX; TeX itself is not needed

    Exit code: 0 written, 1 the document has problems, 2 it could not be read or written.
    """
    from ..outputs import kind_of
    from ..report import Found
    from ..sources import read_source

    text: Source | None = None
    try:
        wanted = _targets(source, output, every, formats, edition)
        text = read_source(source)
        for target, _ in wanted:
            kind_of(target)  # Of several files none is written where an ending is none.
        for at, (target, asked) in enumerate(wanted):
            chosen, document, report = _laid_out(text, target, asked, pdf_engine, draft, overrides, folders)
            if report.problems and not at:
                screen.show([Found(str(source), report.problems, text)], err=True)
            if document is None:
                if not draft:
                    screen.say("nothing was written; --draft writes it with each problem framed in its place")
                return screen.exit_code([Found(str(source), report.problems)])
            if every and not at:
                _make_folder(target.parent)
            _write(document, target, text, pdf_engine, chosen, overrides, folders)
            screen.say(f"wrote {screen.named(target)} ({chosen})")
    except Problem as problem:
        return screen.refuse(problem, text)
    return 0


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
    return [(output / f"{name}-{one}.{ending}", one) for ending in twice for one in _EDITIONS]


def _make_folder(folder: Path) -> None:
    """The folder of the output, where it is not there; not those around it, whose names may be a slip.

    Raises:
        OutputFolderMissing: the folder around it is not there, or it cannot be made.
    """
    from ..outputs.problems import OutputFolderMissing

    try:
        folder.mkdir(exist_ok=True)
    except OSError:
        raise OutputFolderMissing(Span(file=str(folder)), str(folder)) from None


def _laid_out(
    text: Source,
    target: Path,
    asked: str | None,
    pdf_engine: str | None,
    draft: bool,
    overrides: Overrides,
    folders: tuple[Path, ...],
) -> tuple[Edition, Any, Report]:
    """One edition of the document, laid out for a file."""
    from .. import pipeline
    from ..outputs import kind_of

    engine = pdf_engine if target.suffix.lower() == ".pdf" else None
    layout = kind_of(target, engine).layout
    chosen = _edition(text, asked, overrides)
    document, report = pipeline.build(text, chosen, layout, draft, overrides, pictures=folders)
    return chosen, document, report


def _write(
    document: Any,
    target: Path,
    text: Source,
    pdf_engine: str | None,
    chosen: Edition,
    overrides: Overrides,
    folders: tuple[Path, ...],
) -> None:
    from ..outputs import write
    from ..sources import is_tex

    source = Path(text.name)
    others: list[Path] = []
    if is_tex(text.name):
        from ..sources import weave  # Here: few documents are in LaTeX.

        others = [Path(one.name) for one in weave(text, source.parent)[0].others()]
    engine = pdf_engine if target.suffix.lower() == ".pdf" else None
    write(
        document,
        target,
        source=source,
        others=others,
        pdf_engine=engine,
        edition=chosen,
        labels=_labels(document, overrides),
        resource_path=folders,
    )


def _edition(source: Source, asked: str | None, overrides: Overrides) -> Edition:
    """The edition that is asked for: by the option, by `--set`, by the front matter; else the paper.

    A paper is what may lie about: nobody should get a memo who did not ask for it.
    """
    from .. import sources

    typed = [asked] if asked else []
    typed += [value.value for key, value in overrides if key.value == "edition" and isinstance(value, Text)]
    latex = sources.is_tex(source.name)
    front = sources.tex_settings(source) if latex else sources.front_matter(source)
    if front is not None and (placed := front.below("physcalc").get("edition")) is not None:
        typed.append(placed[1].value)
    # A word that is no edition is a problem that the settings' own reader finds.
    return cast("Edition", next((word for word in typed if word in _EDITIONS), "paper"))


def _labels(document: Any, overrides: Overrides) -> dict[str, str]:
    """The words that the document puts in the place of the page's own."""
    from ..document import Findings, settle_document

    # What is wrong with the settings was found when the document was worked out.
    return dict(settle_document(document, None, overrides, Findings()).labels)
