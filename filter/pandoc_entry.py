"""The Pandoc filter: JSON in, JSON out, problems on standard error.

Pandoc runs it with the output format as its first argument. The metadata `edition` and `draft` say what is
written: `pandoc test.md --filter physcalc-filter -M edition=memo -o memo.docx`.
"""

from __future__ import annotations

import gc
import sys
from collections.abc import Sequence
from typing import TextIO, get_args

import panflute as pf

from physcalc.problems import Problem, Span, nearest

from .document import Edition, read_json, write_json
from .editions.making import preamble
from .pipeline import filter_document
from .problems import AttributeUnreadable

#: What somebody is told who runs it by hand.
_USE = """physcalc-filter is run by pandoc, which hands it a document:

  pandoc test.md --filter physcalc-filter -M edition=memo -o memo.docx

`-M edition=` paper, memo or guide; `-M draft=true` writes a document that has problems, each framed in its place.
physcalc build does the same without pandoc's options; see physcalc build --help."""

_YES, _NO = {"true", "yes", "on", "1"}, {"false", "no", "off", "0", ""}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the filter on standard input and output.

    Args:
        arguments: what follows the program's name: pandoc's name of the output format.

    Returns:
        0, or 1 where the document has problems and is no draft (pandoc then stops with a code of its own).
    """
    arguments = sys.argv[1:] if arguments is None else arguments
    if sys.stdin.isatty() or any(word in ("-h", "--help", "--version") for word in arguments):
        print(_USE, file=sys.stderr)
        return 0
    # The program and a document's tree are large and live to the end: looking through them for rubbish again and
    # again costs a tenth of the run.
    gc.freeze()
    gc.set_threshold(100_000, 50, 100)
    # Pandoc speaks UTF-8 to its filters, whatever the terminal's encoding is.
    text = sys.stdin.buffer.read().decode("utf-8")
    format = arguments[0] if arguments else "markdown"
    written = run(text, format, sys.stderr)
    if written is None:
        return 1
    sys.stdout.buffer.write(written.encode("utf-8"))
    return 0


def run(text: str, format: str, errors: TextIO) -> str | None:
    """The JSON of the edition, or None where there is none; problems and notes are written to `errors`."""
    try:
        document = read_json(text)
        edition, draft = _asked(document)
    except Problem as refused:
        _say(refused, errors)
        return None
    made, report = filter_document(document, edition, format, draft)
    for problem, question in zip(report.problems, report.questions, strict=True):
        _say(problem, errors, question)
    return write_json(preamble(made, format)) if made is not None else None


def _asked(document: pf.Doc) -> tuple[Edition | None, bool]:
    """The edition (None for none) and whether a draft is asked for, from the metadata.

    Raises:
        AttributeUnreadable: one of them cannot be read.
    """
    edition: Edition | None = None
    typed = _word(document, "edition")
    if typed:
        edition = next((known for known in get_args(Edition) if known == typed), None)
        if edition is None:
            close = nearest(typed, get_args(Edition))
            raise AttributeUnreadable(Span(), "edition", typed, "paper, memo or guide", close)
    draft = _word(document, "draft").lower()
    if draft not in _YES | _NO:
        raise AttributeUnreadable(Span(), "draft", draft, "true or false")
    return edition, draft in _YES


def _word(document: pf.Doc, key: str) -> str:
    value = document.metadata.content.get(key)
    match value:
        case pf.MetaBool():
            return "true" if value.boolean else "false"
        case pf.MetaString():
            return str(value.text).strip()
        case pf.MetaInlines():
            return str(pf.stringify(value)).strip()
        case _:
            return ""


def _say(problem: Problem, errors: TextIO, question: str = "") -> None:
    # Pandoc gives a filter no places: what is known is the question, and the line inside the block.
    words = [f"question {question}"] if question else []
    words += [f"line {problem.span.line}"] if problem.span.line > 1 else []
    place = ", ".join(words) + ": " if words else ""
    note = "note: " if problem.level == "note" else ""
    print(f"physcalc: {place}{note}{problem}", file=errors)
    for line in (problem.mend(), *problem.because()):
        if line:
            print(f"    {line}", file=errors)
