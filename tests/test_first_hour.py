"""Mistakes of an author's first hour: each is one problem, at its place, and its mend is what puts it right.

The list is common experience with text files, no source. The small paper around them is this project's own.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from physcalc_filter.cli import main

PAPER = """---
title: Small
lang: en-ZA
physcalc:
  sheet: school
---

# Question 1 {.question #cart marks=4}

A cart of mass `m`{.value} is pulled with a force of [12 N]{.value of=F}. Friction is `f`{.value}.

```{.given}
m: 4.5 kg
F: 12 N
f: 3 N
```

Calculate its acceleration.

```{.calc}
formula: F - f = m a
find: a in m/s^2 to 2 dp
answer: 2.00 m/s^2
```
"""


class Mistake(NamedTuple):
    """What stands in the paper in the place of what, and what is said of it."""

    right: str
    wrong: str
    slug: str
    line: int
    mend: str


FENCE = "three backticks (```)"
MISTAKES = [
    # What pandoc would print as it stands, and nobody would have noticed.
    Mistake("marks=4}", "marks = 4}", "attributes-unread", 8, "blanks around the equals sign"),
    Mistake("marks=4}", "marks:4}", "attributes-unread", 8, "equals sign in the place of the colon"),
    Mistake("#cart", "cart", "attributes-unread", 8, "# before an id"),
    Mistake("#cart", "#my cart", "attributes-unread", 8, "no blank in either"),
    Mistake("{.question", "{question", "attributes-unread", 8, "a dot before the class: .question"),
    Mistake("{.question", "{. question", "attributes-unread", 8, "blank behind the dot"),
    Mistake("\n# Question", "\nAnswer it.\n# Question", "attributes-unread", 9, "an empty line above it"),
    Mistake("`m`{.value}", "`m` {.value}", "attributes-unread", 10, "take out the blank before"),
    Mistake("`m`{.value}", "`m`{value}", "attributes-unread", 10, "a dot before the class: .value"),
    Mistake("N]{.value of=F}", "N] {.value of=F}", "attributes-unread", 10, "take out the blank before"),
    Mistake("N]{.value of=F}", "N]{.value F}", "attributes-unread", 10, "behind of="),
    Mistake("```{.calc}", "```{calc}", "attributes-unread", 20, "a dot before the class: .calc"),
    Mistake("```{.calc}", "‘‘‘{.calc}", "attributes-unread", 20, FENCE),
    Mistake("```{.calc}", "    ```{.calc}", "attributes-unread", 20, "at the margin"),
    Mistake("m/s^2\n```\n", "m/s^2\n", "attributes-unread", 20, "below the block"),
    Mistake("f: 3 N\n```\n", "f: 3 N\n", "block-unreadable", 17, FENCE),
    Mistake("{.calc}", "{.calculation}", "class-misspelt", 20, '"calc"'),
    Mistake("{.given}", "{.data}", "class-misspelt", 12, '"given"'),
    Mistake("{.question", "{.questions", "class-misspelt", 8, '"question"'),
    Mistake("m/s^2\n```\n", "m/s^2\n\n:::\n\n```{.given}\nq: 1 C\n```\n", "block-unreadable", 25, FENCE),
    Mistake(
        "answer: 2.00 m/s^2\n```\n",
        "answer: 2.00 m/s^2\n```\n\n:::\n",
        "div-unbalanced",
        26,
        "take the line out",
    ),
    Mistake(
        "Calculate its",
        "::: {.answer marks=1}\nIt moves.\n\nCalculate its",
        "div-unbalanced",
        18,
        "three colons",
    ),
    # Lines of a block.
    Mistake("m: 4.5 kg", "m = 4.5 kg", "block-unreadable", 13, '"m: 4.5 kg"'),
    Mistake("F: 12 N\n", "- F: 12 N\n", "block-unreadable", 14, '"F: 12 N"'),
    Mistake("m: 4.5 kg", "cart mass: 4.5 kg", "name-unreadable", 13, '"cart_mass"'),
    Mistake("of=F}", "of=“F”}", "name-unreadable", 10, "straight quotes"),
    Mistake("F: 12 N\nf: 3 N", "f: 3 N\nF: 12 N, f_2: 3 N", "direction-unknown", 15, "a line of its own"),
    Mistake("f: 3 N", "f: 3 N.", "unit-unreadable", 15, "full stop"),
    Mistake("f: 3 N", "f: 3 N # of the wheels", "unit-unreadable", 15, "a comment stands"),
    Mistake("f: 3 N", "f: 25 % of F", "unit-unknown", 15, "0.25*F"),
    Mistake("f: 3 N", "f: 25 % F", "unit-unreadable", 15, "0.25*F"),
    Mistake("f: 3 N", "f: 25% * F", "unit-unreadable", 15, "0.25*F"),
    Mistake("f: 3 N", "f: from Question 3", "quantity-unreadable", 15, "the id that stands behind #"),
    Mistake("f: 3 N", "f: 3 N upwards", "unit-unknown", 15, "3 m/s, upwards"),
    Mistake("marks=4}", "marks=4 axis=“up is positive”}", "attributes-unread", 8, "straight quotes"),
    Mistake("marks=4}", "marks=4 axis=up is positive}", "attributes-unread", 8, "in quotes"),
    # Keys and phrases.
    Mistake("formula:", "equation:", "key-unknown", 21, '"formula"'),
    Mistake("find:", "Find:", "key-unknown", 22, '"find"'),
    Mistake("m a\n", "m x a\n", "name-without-value", 21, "for times write"),
    Mistake("F - f", "F – f", "formula-unreadable", 21, "for minus write"),
    Mistake("to 2 dp", "2 dp", "unit-unreadable", 22, "to 2 dp"),
    Mistake("answer: 2.00 m/s^2", "answer: 2.00", "unit-dimension-wrong", 23, "write m·s⁻²"),
    Mistake("find: a in", "find: a_k(max) in", "name-unreadable", 22, "a_{k(max)}"),
    # The front matter.
    Mistake("physcalc:", "physicscalc:", "setting-unknown", 4, '"physcalc"'),
    Mistake("  sheet: school", "sheet: school", "setting-unknown", 4, "indented by two spaces"),
    Mistake("sheet: school", "sheet:school", "setting-unknown", 4, "sheet: school"),
    Mistake("title: Small", "title: Test 1: carts", "front-matter-unreadable", 2, 'title: "Test 1: carts"'),
]


Check = Callable[[str], list[dict[str, Any]]]


@pytest.fixture
def check(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Check:
    def run(text: str) -> list[dict[str, Any]]:
        path = tmp_path / "page.md"
        path.write_text(text, encoding="utf-8")
        main(["check", str(path), "--format", "json"])
        found: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
        return found

    return run


def test_the_paper_itself_agrees(check: Check) -> None:
    assert check(PAPER) == []


@pytest.mark.parametrize("mistake", MISTAKES, ids=lambda mistake: mistake.wrong.strip())
def test_a_mistake_is_one_problem_with_its_mend(check: Check, mistake: Mistake) -> None:
    assert mistake.right in PAPER
    (problem,) = check(PAPER.replace(mistake.right, mistake.wrong, 1))
    assert (problem["slug"], problem["line"]) == (mistake.slug, mistake.line)
    assert mistake.mend in problem["mend"]


CLASSLESS = """
# Question 2 {.question #two marks=2}

::: {.question #state marks=2}
State the law.
:::

# Question 3 {.question #three marks=1}

Name it.
"""


@pytest.mark.parametrize(
    ("right", "wrong", "line", "mend"),
    [
        ("# Question 2 {.question #two", "# Question 2 {#two", 27, "{.question}"),
        ("# Question 2 {.question #two marks=2}", "# Question 2", 27, "{.question}"),
        ("::: {.question #state", "::: {#state", 29, ".question"),
        ("::: {.question #state marks=2}", '::: {topic="forces"}', 29, ".question"),
    ],
)
def test_a_question_without_its_class_is_told(
    check: Check, right: str, wrong: str, line: int, mend: str
) -> None:
    text = PAPER.replace("  sheet: school", "  sheet: school\n  total: 7") + CLASSLESS
    assert check(text) == []
    (problem,) = check(text.replace(right, wrong, 1))
    assert (problem["slug"], problem["line"]) == ("class-missing", line)
    assert mend in problem["mend"]


def test_other_headings_and_divs_need_no_class(check: Check) -> None:
    text = "\n# Section A {marks=4}\n" + PAPER.partition("---\n\n")[2].replace("# Q", "## Q")
    text += "\n# 2 Forces\n\n::: {custom-style=Box}\nText.\n:::\n\n# Questions and answers\n\nText.\n"
    assert check("---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n" + text) == []
    # By hand, as for a comparison of two files, no heading has a class.
    assert check("# Question 1\n\nName it.  (2)\n") == []


def test_what_a_div_takes_in_that_is_not_closed_is_not_told(check: Check) -> None:
    text = (PAPER + CLASSLESS).replace("law.\n:::", "law.") + LATER.replace("Question 2", "Question 4")
    (problem,) = check(text)
    assert (problem["slug"], problem["line"]) == ("div-unbalanced", 28)


def test_what_a_figure_holds_is_what_was_typed(check: Check) -> None:
    """The key of a force that cannot be drawn is no mistake of its own."""
    figure = (
        "\n```{.draw}\nforces:\n  F: 12 N, right\n  N: 3 kg, up\nkey:\n  N: normal force\n  T: tension\n```\n"
    )
    found = check(PAPER + figure)
    assert [problem["slug"] for problem in found] == ["force-dimension", "figure-name-unknown"]
    assert '"T"' in found[1]["sentence"]


@pytest.mark.parametrize("slope", ["25", "θ"])
def test_a_slope_without_its_degrees_is_told_so(check: Check, slope: str) -> None:
    figure = f"\n```{{.draw}}\ngiven:\n  θ: 25\nforces:\n  F: 12 N, up the slope\nslope: {slope}\n```\n"
    (problem,) = check(PAPER + figure)
    assert problem["slug"] == "angle-unit-missing"
    assert "25°" in problem["mend"]


def test_data_under_a_misspelt_key_are_not_missed(check: Check) -> None:
    text = PAPER.replace("find: a in", "Given:\n  w: 2 m/s^2\nfind: a in").replace("= m a", "= m (a - w)")
    (problem,) = check(text)
    assert (problem["slug"], problem["line"]) == ("key-unknown", 22)


def test_a_place_in_other_words_is_told_how_places_are_written(check: Check) -> None:
    figure = "\n```{.draw}\nsituation:\n  - charge A\n  - charge B, r to the right A\n```\n"
    (problem,) = check(PAPER + figure)
    assert problem["slug"] == "figure-phrase-unreadable"
    assert "0.3 m right of A" in problem["mend"]


def test_a_tab_in_the_front_matter_is_told_at_its_line(check: Check) -> None:
    (problem,) = check(PAPER.replace("  sheet", "\tsheet").replace("school\n", "school\n  total: 4\n", 1))
    assert (problem["slug"], problem["line"]) == ("front-matter-unreadable", 5)
    assert "spaces" in problem["mend"]


LATER = """
# Question 2 {.question #up marks=2 axis="up is positive"}

Calculate the velocity.

```{.given}
v_i: 3 m/s, up
R: 2 s
```

```{.calc}
formula: v = v_i + g R
find: v in m/s to 2 dp with direction
```
"""


@pytest.mark.parametrize(
    ("right", "wrong", "slug"),
    [
        # The total, the number and the axis of a question that was not seen are no mistakes of their own.
        ('"up is positive"', "“up is positive”", "attributes-unread"),
        ("# Question 2 {.question", "# Question 2 {.questoin", "class-misspelt"),
        # The gas constant does not stand in for a datum that cannot be read.
        ("R: 2 s", "R: 2 sekonds", "unit-unknown"),
    ],
)
def test_what_follows_from_a_mistake_is_not_told(check: Check, right: str, wrong: str, slug: str) -> None:
    text = PAPER.replace("  sheet: school", "  sheet: school\n  total: 6") + LATER
    assert check(text) == []
    found = check(text.replace(right, wrong, 1))
    assert [problem["slug"] for problem in found] == [slug]


def test_an_axis_that_is_missing_is_told_once(check: Check) -> None:
    text = LATER.replace(' axis="up is positive"', "").replace("R: 2 s", "a: g, down\nΔy: 2 m, down")
    text = text.replace("formula: v = v_i + g R", "use: velocity-displacement").replace(
        "find: v ", "find: v_f "
    )
    (problem,) = check(PAPER + text)
    assert problem["slug"] == "direction-unknown"


def test_a_subscript_in_brackets_is_told_its_braces(check: Check) -> None:
    for right, wrong in (("F - f", "F(max) - f"), ("= m a", "= m a_k(max)")):
        found = check(PAPER.replace(right, wrong, 1))
        assert any("E_{k(max)}" in problem["mend"] for problem in found)
    text = PAPER.replace("= m a", "= m a_k(max)").replace("find: a ", "find: a_{k(max)} ")
    (problem,) = check(text)
    assert "E_{k(max)}" in problem["mend"]


@pytest.mark.parametrize("parts", ["R_1 parallel R_2", "(R_1 / R_2)"])
def test_parallel_branches_typed_as_a_word_or_a_solidus(check: Check, parts: str) -> None:
    circuit = f"\n```{{.draw}}\ngiven:\n  R_1: 3 Ω\n  R_2: 6 Ω\ncircuit: battery (6 V), {parts}\n```\n"
    (problem,) = check(PAPER + circuit)
    assert problem["slug"] == "circuit-word-unknown"
    assert "(R_1 | R_2)" in problem["mend"]


@pytest.mark.parametrize(
    ("steps", "mend"),
    [
        ("- use: newton-2\n    formula: F - f = m a", "the hyphen on a line of its own"),
        ("B) 3 m/s", '"B: 3 m/s"'),
    ],
)
def test_lines_that_are_typed_as_in_other_places(check: Check, steps: str, mend: str) -> None:
    (problem,) = check(PAPER.replace("answer: 2.00 m/s^2", f"or:\n  {steps}"))
    assert mend in problem["mend"]


@pytest.mark.parametrize(
    "text",
    [
        "Here `{.value}` and `` `m`{.value} `` are shown as code.",
        "The set {1, 2} and the brace {this is only prose, with no dot}.",
        "    ```{.calc}\n    formula: F = m a\n    ```",
        "$\\{.value\\}$",
        "```{.data}\n1 2 3\n```",
    ],
)
def test_what_shows_braces_on_purpose_is_left_alone(check: Check, text: str) -> None:
    assert check(f"---\nlang: en-ZA\n---\n\n{text}\n") == []


def test_a_formula_of_the_sheet_may_be_named_by_its_title(check: Check) -> None:
    assert check(PAPER.replace("formula:", "use: Newton’s second law\nformula:")) == []
