"""`physcalc changes`: what was changed in a Word file that was built from a document."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, get_args

import click

from physcalc.problems import Problem, Span

from . import screen
from .building import EDITIONS, labels_of
from .paths import NamedPath
from .settings import Overrides, settings_option
from .shelf import FORMATS, format_of, report_found

if TYPE_CHECKING:
    from ..document import Edition
    from ..returned import WordText
    from ..sources import Source

#: With a smaller share of the text unchanged a file was not built from the document.
_LEAST = 0.15


@click.command(short_help="Tell what was changed in a Word file built from a document.")
@click.argument("source", metavar="SOURCE", type=NamedPath(dir_okay=False))
@click.argument("word", metavar="WORD", type=NamedPath(dir_okay=False))
@click.option(
    "--edition",
    type=click.Choice(EDITIONS),
    help="The edition that WORD was; else it is the one that is most like it.",
)
@click.option(
    "--format",
    "form",
    type=click.Choice(FORMATS),
    default="text",
    show_default=True,
    help="For a person, or for other programs.",
)
@settings_option
def command(source: Path, word: Path, edition: str | None, form: str, overrides: Overrides) -> int:
    """Compare WORD, a .docx that was built from SOURCE and comes back, with what SOURCE makes now.

    Shown is each change with the place in SOURCE where the words stand that were handed out, or their question's
    place where they were worked out; and each comment. Changes that Word tracks count as accepted. Nothing is
    written: change SOURCE where a change is meant, and what follows from it is worked out anew.

    \b
    physcalc build test.md -o paper.docx          handed to a moderator
    physcalc changes test.md paper-back.docx      what came back
    physcalc changes test.md memo-back.docx --edition memo

    Exit code: 0 nothing was changed, 1 something was, 2 a file could not be read, or WORD is of another document.
    """
    from .. import pipeline
    from ..document import QUESTION_WORDS
    from ..report import Found
    from ..returned import changes, problems_of, read_word
    from ..sources import read_bytes, read_source

    try:
        text = read_source(source)
        worked, report = pipeline.work_out(text, overrides)
        if worked is None or report.failed:
            runs = [Found(str(source), report.problems, text)]
            screen.show(runs, err=True)
            return screen.exit_code(runs)
        theirs = read_word(read_bytes(word, str(word), "word-size"), str(word))
        ours = _most_like(theirs, text, overrides, edition, word.name)
    except Problem as problem:
        return screen.refuse(problem)
    decimal = worked.settings.decimal
    words = {*QUESTION_WORDS, *pipeline.question_words(worked.settings)}
    found = changes(ours, theirs, decimal)
    problems = problems_of(found, ours, theirs, worked.tree, text, decimal, words, word.name)
    total = report_found([Found(str(source), tuple(problems), text)], format_of(form))
    if form == "text":
        told = sum(one.level != "note" for one in problems)
        count = {0: "nothing was changed", 1: "1 change"}.get(told, f"{told} changes")
        screen.say(f"{count} in {screen.named(word.name)}")
    return total.code


def _most_like(
    theirs: WordText, source: Source, overrides: Overrides, asked: str | None, name: str
) -> WordText:
    """The text of the edition that a Word file was, as the document makes it now.

    Raises:
        WordUnlike: it has next to nothing in common with any.
        OutputFailed: an edition cannot be made.
    """
    from ..document import Edition
    from ..returned import WordUnlike, likeness

    best: tuple[float, WordText] | None = None
    for edition in get_args(Edition):
        if asked in (None, edition):
            ours = _edition(source, edition, overrides)
            share = likeness(ours, theirs)
            if best is None or share > best[0]:
                best = share, ours
    if best is None or best[0] < _LEAST:
        raise WordUnlike(Span(name), name, source.name, asked or "")
    return best[1]


def _edition(source: Source, edition: Edition, overrides: Overrides) -> WordText:
    from .. import pipeline
    from ..outputs import content_of, kind_of
    from ..returned import WordText, read_word

    path = Path(source.name)
    kind = kind_of(path.with_suffix(".docx"))
    document, _ = pipeline.build(source, edition, kind.layout, False, overrides)
    if document is None:
        return WordText(())
    labels = labels_of(document, overrides)
    return read_word(content_of(document, kind, source=path, edition=edition, labels=labels), source.name)
