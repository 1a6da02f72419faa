"""Marks of questions (the language reference, "Marks", and "Where things are written" for answers)."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import Report
from physcalc_filter.sources import Source

Check = Callable[[str], Report]

CALC = "```{.calc}\ngiven:\n  m: 2 kg\n  a: 3 m/s^2\nformula: F = m a\nfind: F in N\n%s```\n"


def sentences(report: Report) -> list[str]:
    return [problem.sentence() for problem in report.problems]


def test_a_question_says_the_sum_of_its_parts(check: Check) -> None:
    text = "# A {.question marks=9}\n\n::: {.question marks=2}\nx\n:::\n\n::: {.question marks=4}\ny\n:::\n"
    (problem,) = check(text).problems
    assert problem.sentence() == "question 1 says 9 marks, its parts have 6"
    assert problem.because() == ("1.1: 2, 1.2: 4",)
    assert (problem.span.line, problem.span.column, problem.span.length) == (1, 22, 1)


def test_one_part_alone_may_be_unsaid(check: Check) -> None:
    text = "# A {.question marks=5}\n\n" + CALC % "marks: 3\n" + "\n" + CALC % ""
    assert sentences(check(text)) == []


def test_two_parts_unsaid_cannot_share(check: Check) -> None:
    text = "# A {.question marks=5}\n\n" + CALC % "" + "\n" + CALC % ""
    (sentence,) = sentences(check(text))
    assert sentence.startswith("the 5 marks of question 1 cannot be shared")


def test_nothing_is_left_for_the_unsaid_part(check: Check) -> None:
    text = "# A {.question marks=3}\n\n" + CALC % "marks: 3\n" + "\n" + CALC % ""
    assert sentences(check(text)) == ["question 1 says 3 marks, its parts have 3"]


def test_marks_by_line_add_up(check: Check) -> None:
    text = "# A {.question marks=4}\n\n" + CALC % "marks:\n  formula: 1\n  answer: 1\n"
    assert sentences(check(text)) == ["question 1 says 4 marks, its parts have 2"]


def test_some_said_and_some_not_without_a_sum(check: Check) -> None:
    text = "# A {.question}\n\n" + CALC % "marks: 3\n" + "\n" + CALC % ""
    (sentence,) = sentences(check(text))
    assert "does not say how many marks it has" in sentence


def test_a_question_without_any_marks_is_none_the_worse(check: Check) -> None:
    assert sentences(check("# A {.question}\n\n" + CALC % "" + "\n" + CALC % "")) == []


def test_ticks_of_an_answer_add_up(check: Check) -> None:
    text = "# A {.question marks=2}\n\n::: {.answer marks=2}\n[At rest]{.mark}.\n:::\n"
    (problem,) = check(text).problems
    assert problem.slug == "ticks-unequal"
    assert problem.span.line == 3


def test_ticks_alone_say_the_marks_of_an_answer(check: Check) -> None:
    text = "# A {.question marks=3}\n\n::: answer\n[At rest]{.mark} [here]{.mark}.\n:::\n"
    assert sentences(check(text)) == ["question 1 says 3 marks, its parts have 2"]


def test_ticks_must_fit_what_the_question_leaves_them(check: Check) -> None:
    text = "# A {.question marks=5}\n\n::: {.answer marks=x}\n[At rest]{.mark}.\n:::\n"
    assert {problem.slug for problem in check(text).problems} >= {"attribute-unreadable"}


def test_the_papers_total(check: Check) -> None:
    text = (
        "---\nphyscalc:\n  total: 10\n---\n\n# A {.question marks=4}\n\nx\n\n# B {.question marks=5}\n\ny\n"
    )
    (problem,) = check(text).problems
    assert problem.sentence() == "the total is said to be 10 marks, the questions have 9"
    assert problem.because() == ("question 1: 4, question 2: 5",)
    assert (problem.span.line, problem.span.column) == (3, 10)


@pytest.mark.parametrize("marks", ["four", "1.5", "-1", ""])
def test_marks_are_whole_numbers(check: Check, marks: str) -> None:
    assert [problem.slug for problem in check(f'# A {{.question marks="{marks}"}}\n\nx\n').problems] == [
        "attribute-unreadable"
    ]


def test_what_stands_in_the_guide_alone_bears_no_marks() -> None:
    text = "# A {.question marks=3}\n\n" + CALC % "" + "\n::: {.only in=guide}\n" + CALC % "" + ":::\n"
    assert pipeline.check(Source("test.md", text)).problems == ()


BROKEN = "```{.calc}\nmarks: 2\nsteps:\n  - formula: F = m a\n    find: F in N\n```\n"


@pytest.mark.parametrize("said", [" marks=5", ""])
def test_what_a_block_says_that_cannot_be_read_nobody_misses(check: Check, said: str) -> None:
    text = f"---\nphyscalc:\n  total: 5\n---\n\n# A {{.question{said}}}\n\n"
    report = check(text + CALC % "marks: 3\n" + "\n" + BROKEN)
    assert [problem.slug for problem in report.problems] == ["block-indentation"]


def test_marks_around_a_block_that_cannot_be_read_are_not_added_up(check: Check) -> None:
    inner = "::: {.question}\n" + BROKEN + ":::\n\n::: {.question marks=2}\nx\n:::\n"
    report = check("# A {.question marks=5}\n\n" + inner)
    assert [problem.slug for problem in report.problems] == ["block-indentation"]
    # What can be read is added up as before.
    report = check(
        "# A {.question marks=5}\n\n" + inner.replace("marks=2", "") + "\n::: {.question}\ny\n:::\n"
    )
    assert [problem.slug for problem in report.problems] == ["marks-missing", "block-indentation"]
