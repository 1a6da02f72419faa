"""Numbers of questions: 1, 1.1, 1.1.1, counted, or typed in a heading and checked."""

from __future__ import annotations

import re
from collections.abc import Collection

import panflute as pf

from ..problems import NumberOutOfOrder
from .findings import Findings
from .tree import Question

#: Words that stand before a number in the heading of a question, in the languages of the page's own words.
QUESTION_WORDS = frozenset(
    {
        "question",
        "vraag",
        "aufgabe",
        "frage",
        "opgave",
        "pregunta",
        "questão",
        "questao",
        "exercise",
        "exercice",
    }
)

_WORD_NUMBER = re.compile(r"(\w+)\s+(\d{1,4}(?:\.\d{1,4})*)(?![\w])", re.UNICODE)
_NUMBER = re.compile(r"(\d{1,4}(?:\.\d{1,4})*)(?:[.:)]?\s*$|[.:)]\s|\s+(?=[^\W\d_]))")


def typed_number(heading: pf.Header, words: Collection[str] = ()) -> str | None:
    """The number that a heading carries: "2" of "Question 2: Waves", "1.1" of "1.1 The lift"; None for none.

    A lone whole number before a small letter ("2 trolleys collide") is no number of a question.

    Args:
        heading: the heading.
        words: further words that may stand before the number, in small letters.
    """
    text = " ".join(pf.stringify(heading).split())
    found = _WORD_NUMBER.match(text)
    if found and found[1].lower() in QUESTION_WORDS.union(words):
        return found[2]
    found = _NUMBER.match(text)
    if found is None:
        return None
    rest = text[found.end() :]
    if "." not in found[1] and rest[:1].islower() and text[found.end(1)] == " ":
        return None
    return found[1]


def number_questions(root: Question, findings: Findings, words: Collection[str] = ()) -> dict[int, str]:
    """The number of every question, by its key.

    The first question may begin at any number (a section of a longer paper); every other one follows on.
    A number that is out of order is a problem, and counting goes on from it.
    """
    numbers: dict[int, str] = {}
    stack: list[tuple[Question, str]] = [(root, "")]
    while stack:
        parent, prefix = stack.pop()
        following = 1
        for index, question in enumerate(parent.questions()):
            number = f"{prefix}{following}"
            typed = typed_number(question.heading, words) if question.heading is not None else None
            if typed is not None and typed != number:
                if typed.startswith(prefix) and typed[len(prefix) :].isdecimal():
                    following = int(typed[len(prefix) :])
                if prefix or index or "." in typed:
                    findings.add(question, [NumberOutOfOrder(question.span, typed, number)])
                number = typed
            numbers[question.key] = number
            following += 1
            stack.append((question, number + "."))
    return numbers
