"""Blocks become statements with their places (the language reference, "A calculation's keys")."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from physcalc_filter.document import (
    Findings,
    GivenBlock,
    Options,
    Report,
    Statement,
    find_questions,
    places,
    read_markup,
    read_statements,
    settle_parts,
)
from physcalc_filter.settings import Settings
from physcalc_filter.sources import Source

from physcalc.language import Calculation

Check = Callable[[str], Report]


def statement(text: str, source: bool = True) -> tuple[Statement | None, list[str]]:
    findings = Findings()
    document = read_markup(text)
    marks = places(document, Source("test.md", text) if source else None)
    tree = find_questions(document, marks, findings)
    settled = settle_parts(tree, Settings(), findings)
    found = read_statements(tree, settled, findings)
    problems = [problem.slug for problem in findings.report().problems]
    return next(iter(found.values()), None), problems


FULL = """
Text.

> ```{.calc}
> given:
>   m: 2 kg
> use: newton-2
> formula:
>   - F = m a
>   - p = m v
> find:
>   - F in N
>   - p in kg m/s
> answer:
>   F: 6 N
> marks:
>   formula: 1
>   answer: 2
> rounding: half-even
> steps:
>   -
>     formula: a = v / t
>     find: a
>     why: first
> or:
>   -
>     formula: F = p / t
> slips:
>   forgot to square: F = m
> why: because
> ```
"""


def test_every_key_arrives_with_its_place() -> None:
    made, problems = statement(FULL)
    assert problems == []
    assert isinstance(made, Calculation)
    assert [line.name.value for line in made.given] == ["m"]
    assert (made.given[0].value.value, made.given[0].value.span.line, made.given[0].value.span.column) == (
        "2 kg",
        6,
        8,
    )
    assert [text.value for text in made.formulas] == ["F = m a", "p = m v"]
    assert [(a.name.value if a.name else "", a.value.value) for a in made.answers] == [("F", "6 N")]
    assert [(key.value, value.value) for key, value in made.marks] == [("formula", "1"), ("answer", "2")]
    assert made.conventions.rule == "half-even"
    assert made.steps[0].conventions.rule == "half-even"
    assert made.steps[0].why is not None
    assert [text.value for text in made.others[0].find] == ["F in N", "p in kg m/s"]
    assert [(key.value, value.value) for key, value in made.slips] == [("forgot to square", "F = m")]


def test_without_a_source_lines_are_counted_in_the_block() -> None:
    made, _ = statement(FULL, source=False)
    assert isinstance(made, Calculation)
    span = made.given[0].value.span
    assert (span.file, span.line, span.column) == ("", 2, 6)


@pytest.mark.parametrize(
    ("typed", "answers"),
    [
        ("answer: 6 N", [("", "6 N")]),
        ("answer:\n  F: 6 N\n  a: 2 m/s", [("F", "6 N"), ("a", "2 m/s")]),
        ("answer:\n  - F: 6 N\n  - a: 2 m/s", [("F", "6 N"), ("a", "2 m/s")]),
    ],
)
def test_answers_in_each_shape(typed: str, answers: list[tuple[str, str]]) -> None:
    made, _ = statement(f"```{{.calc}}\nfind: F\nformula: F = m a\n{typed}\n```\n")
    assert isinstance(made, Calculation)
    assert [(a.name.value if a.name else "", a.value.value) for a in made.answers] == answers


def test_data_and_options() -> None:
    made, _ = statement("```{.given}\nm: 2 kg\n```\n")
    assert isinstance(made, GivenBlock)
    made, problems = statement("```{.options}\nof: 2*F\nA: 1 N\nB: 2 N\nanswer: B\nmarks: 2\n```\n")
    assert isinstance(made, Options)
    assert problems == []
    assert [letter.value for letter, _ in made.options] == ["A", "B"]


@pytest.mark.parametrize(
    ("body", "slug"),
    [
        ("fnd: F", "key-unknown"),
        ("steps: x", "key-shape"),
        ("find: F\nfind: G", "key-twice"),
        ("take:\n  - x", "key-shape"),
        ("sheet: codata", "key-unknown"),
        ("rounding: sideways", "setting-unreadable"),
        ("axis: sideways is positive", "phrase-unreadable"),
        ("steps:\n  -\n    fnd: F", "key-unknown"),
    ],
)
def test_what_is_wrong_with_a_block(body: str, slug: str) -> None:
    assert slug in statement(f"```{{.calc}}\n{body}\n```\n")[1]
