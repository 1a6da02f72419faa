"""Statements made from texts as an author types them, and working read back as plain lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any, Literal

from physcalc.checking.given import read_given
from physcalc.checking.scope import Layer, Scope
from physcalc.engine import Outcome, calculate, constants_layer
from physcalc.exact import NumberStyle
from physcalc.language.directions import read_axis
from physcalc.language.plain import plain
from physcalc.language.statements import AnswerText, Calculation, Conventions, GivenText
from physcalc.language.tree import Printed
from physcalc.problems import Problem, Span, Text
from physcalc.sheets import Sheet, load_sheet
from physcalc.steps.lines import Working

POINT = Conventions(decimal=".", style=NumberStyle(decimal="."))
COMMA = Conventions(decimal=",", style=NumberStyle(decimal=","))


@lru_cache
def sheet(name: str = "school") -> Sheet:
    return load_sheet(name)


def text(value: str, line: int = 1, column: int = 1) -> Text:
    return Text(value, Span("page.md", line, column, max(1, len(value))))


def axis(words: str, conventions: Conventions = POINT) -> Conventions:
    return replace(conventions, axis=read_axis(text(words)))


def givens(lines: Sequence[str], first_line: int = 1) -> tuple[GivenText, ...]:
    """Data lines "m: 640 kg", each on its own line, with the columns of the whole line."""
    out = []
    for number, line in enumerate(lines):
        name, _, value = line.partition(":")
        lead = len(value) - len(value.lstrip())
        at = first_line + number
        out.append(GivenText(text(name, at), text(value.strip(), at, len(name) + 2 + lead)))
    return tuple(out)


def layer(*lines: str, conventions: Conventions = POINT, scope: Scope | None = None) -> Layer:
    """The values of data lines, which must be sound."""
    found, problems = read_given(givens(lines), scope or Scope(), conventions)
    assert not problems, [str(problem) for problem in problems]
    return found


def given_problems(
    *lines: str, conventions: Conventions = POINT, scope: Scope | None = None
) -> list[Problem]:
    return read_given(givens(lines), scope or Scope(), conventions)[1]


def pairs(entries: dict[str, str], line: int) -> tuple[tuple[Text, Text], ...]:
    return tuple((text(k, line), text(v, line, len(k) + 3)) for k, v in entries.items())


def statement(
    formula: str | Sequence[str] = (),
    find: str | Sequence[str] = (),
    *,
    given: Sequence[str] = (),
    answer: str | dict[str, str] | None = None,
    use: str = "",
    take: str = "",
    show: str = "",
    accept: str = "",
    marks: str | dict[str, str] | None = None,
    slips: dict[str, str] | None = None,
    steps: Sequence[Calculation] = (),
    others: Sequence[Calculation] = (),
    why: str = "",
    total: int | None = None,
    conventions: Conventions = POINT,
) -> Calculation:
    """A calculation as the document side makes it; its keys stand on lines 10 to 90."""
    formulas = [formula] if isinstance(formula, str) else list(formula)
    finds = [find] if isinstance(find, str) else list(find)
    if isinstance(answer, str):
        answers: tuple[AnswerText, ...] = (AnswerText(text(answer, 50, 9)),)
    else:
        answers = tuple(
            AnswerText(text(v, 50 + i, 20), text(k, 50 + i))
            for i, (k, v) in enumerate((answer or {}).items())
        )
    if isinstance(marks, str):
        said: tuple[tuple[Text, Text], ...] = ((text("", 80), text(marks, 80, 8)),)
    else:
        said = pairs(marks or {}, 80)
    return Calculation(
        Span("page.md", 10),
        conventions,
        given=givens(given, 20),
        use=text(use, 30, 6) if use else None,
        formulas=tuple(text(f, 31 + i, 10) for i, f in enumerate(formulas)),
        find=tuple(text(f, 40 + i, 7) for i, f in enumerate(finds)),
        take=text(take, 45, 7) if take else None,
        answers=answers,
        show=text(show, 60, 7) if show else None,
        accept=text(accept, 61, 9) if accept else None,
        marks=said,
        steps=tuple(steps),
        others=tuple(others),
        slips=pairs(slips or {}, 70),
        why=text(why, 90) if why else None,
        total_marks=total,
    )


def work(
    formula: str | Sequence[str] = (),
    find: str | Sequence[str] = (),
    *,
    sheet_name: str = "school",
    scope: Scope | None = None,
    **keys: Any,
) -> Outcome:
    """What comes of a calculation; `scope` is what stands around it, within the sheet's constants."""
    book = sheet(sheet_name)
    outer = scope or Scope()
    around = replace(outer, layers=(*outer.layers, constants_layer(book)))
    return calculate(statement(formula, find, **keys), around, book)


def printed(value: Printed) -> str:
    return tidy(plain(value, POINT.style))


def tidy(words: str) -> str:
    """With ordinary blanks, so that expected lines can be typed."""
    return words.replace("\u00a0", " ").replace("\u202f", " ")


def shown(
    working: Working | None,
    audience: Literal["memo", "guide"] = "memo",
    conventions: Conventions = POINT,
) -> list[str]:
    """The lines of a working as plain text."""
    assert working is not None
    return [line for line, _ in marked(working, audience, conventions)]


def marked(
    working: Working | None,
    audience: Literal["memo", "guide"] = "memo",
    conventions: Conventions = POINT,
) -> list[tuple[str, int]]:
    """The lines of a working as plain text, each with its marks."""
    assert working is not None
    out = []
    for line in working.lines:
        if line.audience not in ("all", audience):
            continue
        words = line.text or " = ".join(plain(side, conventions.style) for side in line.sides)
        out.append((tidy(words), line.marks))
    return out


def slugs(outcome: Outcome) -> list[str]:
    return [problem.slug for problem in outcome.problems]


def answers(outcome: Outcome) -> dict[str, str]:
    """What was found, as printed."""
    assert outcome.working is not None, [str(problem) for problem in outcome.problems]
    return {answer.name.key: printed(answer.printed) for answer in outcome.working.answers}
