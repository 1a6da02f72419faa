"""Values and definitions in the text (the language reference, "Scope" and "Agreement")."""

from __future__ import annotations

from collections.abc import Callable

from physcalc_filter.document import Report

Check = Callable[[str], Report]

ZA = "---\nlang: en-ZA\n---\n\n"
GIVEN = "```{.given}\nm: 640 kg\na: 0.75 m/s^2\n```\n\n"
CALC = "```{.calc}\nformula: F = m a\nfind: F in N to 0 dp\n%s```\n\n"


def slugs(report: Report) -> list[str]:
    return [problem.slug for problem in report.problems]


def test_a_typed_datum_agrees_after_conversion(check: Check) -> None:
    text = ZA + "# A {.question}\n\nAt [0,75 m·s^−2^]{.value of=a} or [75 cm·s⁻²]{.value of=a}.\n\n" + GIVEN
    assert slugs(check(text)) == []


def test_a_typed_datum_that_differs_is_shown_at_its_place(check: Check) -> None:
    text = ZA + "# A {.question}\n\nAt [0,57 m·s⁻²]{.value of=a}.\n\n" + GIVEN
    (problem,) = check(text).problems
    assert problem.slug == "datum-disagrees"
    assert (problem.span.line, problem.span.column) == (7, 5)


def test_where_markdown_changed_the_text_the_whole_value_is_shown(check: Check) -> None:
    text = ZA + "# A {.question}\n\nAt [**0,57** m·s^-2^]{.value of=a}.\n\n" + GIVEN
    (problem,) = check(text).problems
    assert (problem.span.line, problem.span.column, problem.span.length) == (7, 5, 16)


def test_a_result_in_the_text_gives_the_answer_away(check: Check) -> None:
    text = "# A {.question}\n\nThe force is `F`{.value}.\n\n" + GIVEN + CALC % ""
    assert slugs(check(text)) == ["answer-printed"]
    typed = text.replace("`F`{.value}", "[480 N]{.value of=F}")
    assert slugs(check(typed)) == ["answer-printed"]


def test_a_result_may_stand_in_memo_and_guide(check: Check) -> None:
    result = '::: {.only in="memo guide"}\nThe force is `F`{.value}.\n:::\n\n'
    answer = "::: answer\nThe force is `F`{.value}.\n:::\n\n"
    assert slugs(check("# A {.question}\n\n" + GIVEN + CALC % "" + result + answer)) == []


def test_a_value_to_be_shown_may_stand_in_the_text(check: Check) -> None:
    text = "# A {.question}\n\nShow that it is [0.5 kN]{.value of=F}.\n\n" + GIVEN + CALC % "show: 0.5 kN\n"
    assert slugs(check(text)) == []


def test_a_name_means_what_the_questions_own_calculation_says(check: Check) -> None:
    own = "```{.calc}\ngiven:\n  m: 3 kg\n  a: 2 m/s^2\nformula: F = m a\nfind: F in N\n```\n\n"
    assert slugs(check("# A {.question}\n\nAt [2 m/s²]{.value of=a}.\n\n" + own)) == []


def test_two_values_of_one_name_are_a_problem_where_the_text_uses_it(check: Check) -> None:
    one = "```{.calc}\ngiven:\n  m: 3 kg\n  a: 2 m/s^2\nformula: F = m a\nfind: F in N\n```\n\n"
    other = "```{.calc}\ngiven:\n  m: 4 kg\n  v: 2 m/s\nformula: p = m v\nfind: p in kg m/s\n```\n\n"
    (problem,) = check("# A {.question}\n\nOf `m`{.value}.\n\n" + one + other).problems
    assert (
        problem.sentence()
        == "m means two things in this question: 3\u00a0kg (line 7) and 4\u00a0kg (line 15)"
    )
    assert slugs(check("# A {.question}\n\nOf `a`{.value}.\n\n" + one + other)) == []


def test_the_sheets_constant_may_be_written_in(check: Check) -> None:
    assert slugs(check("Take g as `g`{.value}.\n")) == []


def test_a_name_without_value(check: Check) -> None:
    (problem,) = check("# A {.question}\n\nOf `M_x`{.value}.\n\n" + GIVEN).problems
    assert problem.slug == "name-without-value"
    assert (problem.span.line, problem.span.column) == (3, 5)


def test_no_name_at_all(check: Check) -> None:
    assert slugs(check("Of `2 m`{.value}.\n")) == ["name-unreadable"]


def test_definitions_are_found_by_name(check: Check) -> None:
    assert slugs(check("[Newton's second law]{.define}\n")) == []
    (problem,) = check("[Newton's secnd law]{.define}\n").problems
    assert problem.slug == "definition-unknown"
    assert "Newton's second law" in problem.mend()


def test_a_typed_definition_has_the_key_phrases(check: Check) -> None:
    (problem,) = check('[A push.]{.define of="Newton\'s second law"}\n').problems
    assert problem.slug == "definition-incomplete"
    wording = problem.because()[0].removeprefix("the sheet says: ")
    assert slugs(check(f'[{wording.upper()}]{{.define of="Newton\'s second law"}}\n')) == []


def test_typed_values_have_the_decimal_sign_of_the_page(check: Check) -> None:
    data = "```{.given}\nm: 2.5 kg\nh: 1,5 m\nt: 12 s\n```\n"
    text = (
        "# A {.question}\n\nAfter [12 s]{.value of=t}: [2.5 kg]{.value of=m}, [1,5 m]{.value of=h}.\n\n"
        + data
    )
    for decimal, typed, mended in (("comma", "2.5 kg", "2,5 kg"), ("point", "1,5 m", "1.5 m")):
        front = f"---\nphyscalc:\n  decimal: {decimal}\n---\n\n"
        (note,) = check(front + text).problems
        assert (note.slug, note.level) == ("decimal-sign-other", "note")
        assert f'"{typed}"' in note.sentence()
        assert f'"{mended}"' in note.mend()
    # One note for all of them; a value that disagrees is told for that alone.
    (note,) = check(front + text.replace("2.5 kg]", "2,5 kg]")).problems
    assert "one other value" in note.sentence()
    assert slugs(check(front + text.replace("1,5 m]", "1,6 m]"))) == ["datum-disagrees"]
