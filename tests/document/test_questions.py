"""Ids, attributes, classes and editions of a document's parts."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from physcalc_filter.document import Report
from physcalc_filter.document.likeness import slipped

from physcalc.problems import Problem

Check = Callable[[str], Report]


def slugs(report: Report) -> list[str]:
    return [problem.slug for problem in report.problems]


def only(report: Report) -> Problem:
    (problem,) = report.problems
    return problem


def test_an_id_used_twice_is_named_with_its_first_place(check: Check) -> None:
    problem = only(check("# A {.question #lift}\n\nText.\n\n# B {.question #lift}\n"))
    assert problem.sentence() == 'the id "lift" is used a second time, first on line 1'
    assert problem.span.line == 5


def test_an_unknown_attribute_is_named_with_the_nearest(check: Check) -> None:
    problem = only(check("# A {.question mark=9}\n"))
    assert problem.slug == "attribute-unknown"
    assert '"marks"' in problem.mend()
    assert (problem.span.line, problem.span.column, problem.span.length) == (1, 16, 4)


def test_a_key_of_a_block_among_its_attributes_is_a_line_of_the_block(check: Check) -> None:
    problem = only(check("# A {.question}\n\n```{.calc marks=3}\nformula: a = 2 + 3\nfind: a\n```\n"))
    assert problem.slug == "attribute-unknown"
    assert "write marks: 3" in problem.mend()
    other = only(check("# A {.question}\n\n```{.given colour=red}\nm: 2 kg\n```\n"))
    assert "data-" in other.mend()


def test_a_setting_of_the_document_is_misplaced_on_a_question(check: Check) -> None:
    assert slugs(check("# A {.question total=9}\n")) == ["setting-misplaced"]


def test_settings_and_data_attributes_may_stand_on_a_question(check: Check) -> None:
    assert slugs(check("# A {.question carry=rounded topic=forces level=2 data-bank=7}\n")) == []


def test_a_typed_value_says_of_what(check: Check) -> None:
    assert slugs(check("[640 kg]{.value}\n")) == ["attribute-missing"]


def test_an_edition_is_spelt_right(check: Check) -> None:
    problem = only(check('::: {.only in="memos guide"}\nx\n:::\n'))
    assert problem.slug == "attribute-unreadable"
    assert '"memo"' in problem.mend()


@pytest.mark.parametrize("text", ["```{.clac}\nfind: T\n```\n", "::: anwser\nx\n:::\n", "`m`{.valeu}\n"])
def test_a_misspelt_class_is_a_problem(check: Check, text: str) -> None:
    # What carries it would be printed as it stands: a paper would give answers away.
    assert slugs(check(text)) == ["class-misspelt"]


@pytest.mark.parametrize("text", ["```{.python}\nx\n```\n", "::: note\nx\n:::\n", "`m`{.scala}\n"])
def test_other_classes_are_left_alone(check: Check, text: str) -> None:
    assert slugs(check(text)) == []


@pytest.mark.parametrize(
    ("typed", "name", "slip"),
    [
        ("clac", "calc", True),
        ("Calc", "calc", True),
        ("calcs", "calc", True),
        ("cal", "calc", True),
        ("talc", "calc", True),
        ("calc", "calc", False),
        ("scala", "calc", False),
        ("c", "calc", False),
        ("note", "mark", False),
    ],
)
def test_slips_of_the_finger(typed: str, name: str, slip: bool) -> None:
    assert slipped(typed, name) is slip


def test_a_document_nested_beyond_use_is_refused(check: Check) -> None:
    assert slugs(check(">" * 400 + " x\n")) == ["document-nested"]


def test_front_matter_that_pandoc_refuses_is_unreadable(check: Check) -> None:
    report = check("---\ntitle: [\n---\n\nText.\n")
    assert report.unreadable


def test_every_div_without_its_class_is_told_at_its_own_place(check: Check) -> None:
    text = "# A {.question marks=1}\n\nx\n\n" + "::: {marks=2}\ny\n:::\n\n" * 3
    report = check(text)
    assert slugs(report) == ["class-missing"] * 3
    assert [problem.span.line for problem in report.problems] == [5, 9, 13]
