"""What the Pandoc filter answers: the JSON of an edition for the JSON of a document, and what it says.

The metadata `edition` and `draft` say what is written.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TextIO, get_args

import panflute as pf

from physcalc.problems import Problem, Span, nearest

from .document import Edition, read_json, write_json
from .editions.making import DRAWINGS, preamble
from .pipeline import filter_document
from .problems import AttributeUnreadable

_YES, _NO = {"true", "yes", "on", "1"}, {"false", "no", "off", "0", ""}


@dataclass(frozen=True, slots=True)
class Answer:
    """What the filter answers.

    Attributes:
        written: the JSON of the edition; None where there is none.
        said: problems and notes, as they are said on standard error.
        lasting: whether the same input has the same answer at another time; what could not be read at all has to be
            tried again.
    """

    written: str | None
    said: str
    lasting: bool


def answer(text: str, format: str) -> Answer:
    """The answer to a document.

    Args:
        text: pandoc's JSON of it.
        format: pandoc's name of the output format.
    """
    said = io.StringIO()
    try:
        document = read_json(text)
        edition, draft = _asked(document)
    except Problem as refused:
        _say(refused, said)
        return Answer(None, said.getvalue(), False)
    made, report = filter_document(document, edition, format, draft)
    for problem, question in zip(report.problems, report.questions, strict=True):
        _say(problem, said, question)
    written = write_json(preamble(made, format)) if made is not None else None
    if written is not None and made is not None and format == "docx" and DRAWINGS in made.metadata:
        from .figures import raster  # Here: most documents have no figure.

        written = raster.filled(written)
        raster.forget()
    return Answer(written, said.getvalue(), not report.unreadable)


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
