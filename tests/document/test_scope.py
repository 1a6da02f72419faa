"""What names mean (the language reference, "Scope")."""

from __future__ import annotations

from collections.abc import Callable

from physcalc_filter import pipeline
from physcalc_filter.document import Findings, Report, Worked
from physcalc_filter.document.own_engine import OwnEngine
from physcalc_filter.sources import Source

from physcalc.exact import numeral_text

Check = Callable[[str], Report]


def given(*lines: str) -> str:
    return "```{.given}\n" + "\n".join(lines) + "\n```\n\n"


def calc(*lines: str, identifier: str = "") -> str:
    return "```{.calc" + identifier + "}\n" + "\n".join(lines) + "\n```\n\n"


def worked(text: str) -> tuple[Worked, list[str]]:
    findings = Findings()
    done = pipeline._read_and_work(Source("test.md", text), (), None, OwnEngine(), findings)
    assert done is not None
    return done, [problem.slug for problem in findings.report().problems]


def answers(text: str) -> list[str]:
    """Every answer of a document in order, as printed without its unit."""
    done, _ = worked(text)
    style = done.settings.numbers
    return [
        numeral_text(answer.printed.numeral, style)
        for _, outcome in sorted(done.solved.outcomes.items())
        if outcome.working is not None
        for answer in outcome.working.answers
    ]


FORCE = ("formula: F = m a", "find: F in N to 0 dp")


def test_own_data_come_before_those_of_the_question() -> None:
    text = (
        "# A {.question}\n\n"
        + given("m: 2 kg", "a: 3 m/s^2")
        + calc("given:", "  m: 5 kg", *FORCE)
        + calc(*FORCE)
    )
    assert answers(text) == ["15", "6"]


def test_the_nearest_question_counts() -> None:
    text = (
        "# A {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2")
        + "## B {.question}\n\n" + given("m: 4 kg") + calc(*FORCE)
        + "## C {.question}\n\n" + calc(*FORCE)
    )  # fmt: skip
    assert answers(text) == ["12", "6"]


def test_data_below_a_calculation_count_too() -> None:
    text = "# A {.question}\n\n" + calc(*FORCE) + given("m: 2 kg", "a: 3 m/s^2")
    assert answers(text) == ["6"]


def test_data_for_the_whole_document() -> None:
    text = given("m: 2 kg", "a: 3 m/s^2") + "# A {.question}\n\n" + calc(*FORCE)
    assert answers(text) == ["6"]


def test_a_result_serves_later_in_the_same_question() -> None:
    text = "# A {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2", "s: 5 m") + calc(*FORCE)
    assert answers(text + calc("formula: W = F s", "find: W in J to 0 dp")) == ["6", "30"]


def test_a_result_serves_the_questions_inside() -> None:
    text = "# A {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2", "s: 5 m") + calc(*FORCE)
    text += "## B {.question}\n\n" + calc("formula: W = F s", "find: W in J to 0 dp")
    assert answers(text) == ["6", "30"]


def siblings(line: str) -> str:
    return (
        "# A {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2", "s: 5 m")
        + "## B {.question #b}\n\n" + calc(*FORCE, identifier=" #force")
        + "## C {.question}\n\n"
        + calc(*([f"given:\n  {line}"] if line else []), "formula: W = F s", "find: W in J to 0 dp")
    )  # fmt: skip


def test_a_result_of_a_sibling_needs_from(check: Check) -> None:
    assert [problem.slug for problem in check(siblings("")).problems] == ["name-without-value"]
    assert answers(siblings("F: from b")) == ["6", "30"]
    assert answers(siblings("F: F from b")) == ["6", "30"]
    assert answers(siblings("F: from force")) == ["6", "30"]


def test_a_question_has_the_results_of_those_inside_it() -> None:
    text = "# A {.question #a}\n\n## B {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2") + calc(*FORCE)
    text += "# C {.question}\n\n" + calc(
        "given:", "  F: from a", "  s: 5 m", "formula: W = F s", "find: W in J to 0 dp"
    )
    assert answers(text) == ["6", "30"]


def test_a_reference_to_what_comes_later_is_said_to_be_one(check: Check) -> None:
    text = "# C {.question}\n\n" + calc(
        "given:", "  F: from a", "  s: 5 m", "formula: W = F s", "find: W in J"
    )
    text += "# A {.question #a}\n\n" + given("m: 2 kg", "a: 3 m/s^2") + calc(*FORCE)
    (problem,) = check(text).problems
    assert problem.slug == "reference-later"
    assert problem.sentence() == '"a" stands further down, so it has no result yet'


def test_a_reference_to_itself_is_a_circle(check: Check) -> None:
    text = "# A {.question #a}\n\n" + calc(
        "given:", "  F: from a", "  s: 5 m", "formula: W = F s", "find: W in J"
    )
    (problem,) = check(text).problems
    assert problem.slug == "reference-later"
    assert "circle" in problem.sentence()


def test_a_reference_to_nothing(check: Check) -> None:
    text = "# A {.question #lift}\n\n" + calc(
        "given:", "  F: from lfit", "  s: 5 m", "formula: W = F s", "find: W in J"
    )
    assert [problem.slug for problem in check(text).problems] == ["reference-unknown"]


def test_hiding_a_name_of_another_value_is_noted(check: Check) -> None:
    text = "# A {.question}\n\n" + given("m: 2 kg", "a: 3 m/s^2")
    hidden = check(text + calc("given:", "  m: 5 kg", *FORCE))
    assert [(problem.slug, problem.span.line) for problem in hidden.problems] == [("name-hidden", 10)]
    assert not hidden.failed
    same = check(text + calc("given:", "  m: 2000 g", *FORCE))
    assert same.problems == ()


def test_letters_that_the_sheet_uses_for_something_else_are_free(check: Check) -> None:
    # The sheet's h is Planck's constant; a height of that name is no mistake.
    text = "# A {.question}\n\n" + calc(
        "given:", "  h: 3 m", "  m: 2 kg", "formula: E = m g h", "find: E in J"
    )
    assert check(text).problems == ()


def test_one_mistake_is_reported_once(check: Check) -> None:
    # The first calculation fails; what rests on it is no further mistake.
    text = "# A {.question}\n\n" + given("m: 2 kgg", "a: 3 m/s^2") + calc(*FORCE, identifier=" #f")
    text += calc("given:", "  s: 5 m", "formula: W = F s", "find: W in J")
    text += "Mass `m`{.value}, force [6 N]{.value of=F}.\n\n"
    text += "# B {.question}\n\n" + calc(
        "given:", "  F: from f", "  s: 5 m", "formula: W = F s", "find: W in J"
    )
    assert [problem.slug for problem in check(text).problems] == ["unit-unknown"]


def test_a_set_of_formulas_whose_data_are_wrong_is_not_too_few(check: Check) -> None:
    data = given("V: 220 V", "I: 6 A", "t: 2 hh")
    report = check(data + calc("formula:", "  - E = V I t", "  - P = E / t", "find: P in W"))
    assert [problem.slug for problem in report.problems] == ["unit-unknown"]
    # Where nothing else is wrong it is told.
    report = check(given("V: 220 V") + calc("formula:", "  - E = V I t", "  - P = E / t", "find: P in W"))
    assert [problem.slug for problem in report.problems] == ["formulas-too-few"]
