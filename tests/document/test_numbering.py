"""Numbers of questions (the language reference, "Numbers of questions")."""

from __future__ import annotations

import panflute as pf
import pytest
from physcalc_filter.document import Findings, Question, Tree, find_questions, read_markup, typed_number


def tree_of(text: str) -> tuple[Tree, Findings]:
    findings = Findings()
    return find_questions(read_markup(text), {}, findings), findings


def numbers_of(text: str) -> tuple[list[str], list[str]]:
    tree, findings = tree_of(text)
    numbers = [tree.numbers[part.key] for part in tree.root.walk() if isinstance(part, Question)]
    return numbers, [problem.sentence() for problem in findings.report().problems]


@pytest.mark.parametrize(
    ("heading", "number"),
    [
        ("Question 2", "2"),
        ("Question 2: Waves", "2"),
        ("Vraag 3", "3"),
        ("1.1 The lift", "1.1"),
        ("1.1.2", "1.1.2"),
        ("2. Waves", "2"),
        ("2 Waves", "2"),
        ("2 trolleys collide", None),
        ("2.5 kg falls", "2.5"),
        ("Waves", None),
        ("Unit 3", None),
        ("100%", None),
    ],
)
def test_number_typed_in_a_heading(heading: str, number: str | None) -> None:
    assert typed_number(read_markup(f"# {heading}\n").content[0]) == number


def test_a_word_of_the_documents_own_may_stand_before_the_number() -> None:
    heading = pf.Header(pf.Str("Task"), pf.Space(), pf.Str("4"))
    assert typed_number(heading) is None
    assert typed_number(heading, ["task"]) == "4"


def test_questions_are_counted_as_they_nest() -> None:
    text = "# A {.question}\n\n## B {.question}\n\n### C {.question}\n\n## D {.question}\n\n# E {.question}\n"
    assert numbers_of(text) == (["1", "1.1", "1.1.1", "1.2", "2"], [])


def test_divs_and_headings_count_alike() -> None:
    text = "# A {.question}\n\n::: question\nx\n:::\n\n::: question\ny\n:::\n\n::: question\nz\n:::\n"
    assert numbers_of(text) == (["1", "1.1", "1.2", "1.3"], [])


def test_a_number_out_of_order_is_a_problem_and_counting_goes_on_from_it() -> None:
    text = "# Question 1 {.question}\n\n# Question 3 {.question}\n\n# Next {.question}\n"
    numbers, problems = numbers_of(text)
    assert numbers == ["1", "3", "4"]
    assert problems == ["the question is numbered 3, but 2 comes next"]


def test_a_number_of_another_question_is_out_of_order() -> None:
    _numbers, problems = numbers_of("# Question 1 {.question}\n\n## 2.1 Power {.question}\n")
    assert problems == ["the question is numbered 2.1, but 1.1 comes next"]


def test_a_paper_may_begin_at_any_question() -> None:
    # Section B of a longer paper; common practice, no source.
    assert numbers_of("# Question 8 {.question}\n\n# Question 9 {.question}\n") == (["8", "9"], [])


def test_a_section_ends_at_a_heading_of_the_same_level() -> None:
    tree, _ = tree_of("# A {.question}\n\n`m`{.value}\n\n## Data\n\n`a`{.value}\n\n# Other\n\n`b`{.value}\n")
    (question,) = tree.root.questions()
    assert len(question.parts) == 2
    assert len(tree.root.parts) == 2
