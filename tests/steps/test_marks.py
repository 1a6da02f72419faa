"""How marks are spread: one to each answer, one to each formula line, the rest to the substitutions in order."""

from __future__ import annotations

from typing import Any

import pytest

from physcalc.steps.lines import LineKind

from ..authoring import marked, slugs, statement, work


def marks(total: int | None, formula: Any = "F = M a", find: Any = "F in N", **keys: Any) -> list[int]:
    keys.setdefault("given", ["M: 2 kg", "a: 3 m/s^2"])
    return [m for _, m in marked(work(formula, find, total=total, **keys).working)]


@pytest.mark.parametrize(
    ("total", "spread"), [(1, [0, 0, 1]), (2, [1, 0, 1]), (3, [1, 1, 1]), (4, [1, 2, 1]), (5, [1, 3, 1])]
)
def test_one_formula(total: int, spread: list[int]) -> None:
    assert marks(total) == spread
    # A sheet's form and its instance are one line, ticked at the sheet's form.
    given = ["m: 2 kg", "a: 3 m/s^2"]
    with_sheet = marks(total, "T - m g = m a", "T in N", use="newton-2", given=given)
    assert with_sheet == [spread[0], 0, *spread[1:]]


def test_without_marks_none_are_spread() -> None:
    assert marks(None) == [0, 0, 0]


@pytest.mark.parametrize(
    ("said", "spread"),
    [
        ("4", [1, 2, 1]),
        ({"formula": "1", "substitution": "2", "answer": "2"}, [1, 2, 2]),
        ({"substitution": "3"}, [0, 3, 0]),
        ({"answer": "1"}, [0, 0, 1]),
    ],
)
def test_marks_as_the_author_says(said: Any, spread: list[int]) -> None:
    assert marks(None, marks=said) == spread


def test_said_marks_win_over_the_question() -> None:
    assert marks(9, marks="3") == [1, 1, 1]


@pytest.mark.parametrize(
    ("said", "slug"),
    [({"formulas": "1"}, "phrase-unreadable"), ("two", "phrase-unreadable"), ("1.5", "phrase-unreadable"),
     ("-1", "phrase-unreadable")],
)  # fmt: skip
def test_marks_refused(said: Any, slug: str) -> None:
    assert slugs(work("F = M a", "F", given=["M: 2 kg", "a: 3 m/s^2"], marks=said)) == [slug]


def test_marks_that_do_not_come_out() -> None:
    # Without a name to substitute there is no substitution line to take the rest.
    outcome = work("x = 2 + 3", "x", total=4)
    assert slugs(outcome) == ["marks-do-not-come-out"]
    assert "formula, substitution, answer" in outcome.problems[0].mend()
    outcome = work("x = 2 + 3", "x", marks={"substitution": "2"})
    assert slugs(outcome) == ["marks-do-not-come-out"]


def test_two_answers_and_two_formulas() -> None:
    keys: dict[str, Any] = {"given": ["m: 2 kg", "M: 3 kg"]}
    formulas, finds = ["T - m g = m a", "M g - T = M a"], ["a in m/s^2", "T in N"]

    def kinds(total: int) -> dict[LineKind, list[int]]:
        working = work(formulas, finds, total=total, **keys).working
        assert working is not None
        found: dict[LineKind, list[int]] = {}
        for line in working.lines:
            found.setdefault(line.kind, []).append(line.marks)
        return found

    six, seven, three = kinds(6), kinds(7), kinds(3)
    assert sum(six[LineKind.FORMULA]) == sum(six[LineKind.SUBSTITUTION]) == sum(six[LineKind.ANSWER]) == 2
    assert seven[LineKind.SUBSTITUTION][:2] == [2, 1]
    # Fewer marks than lines: the answers asked come first.
    assert (sum(three[LineKind.ANSWER]), sum(three[LineKind.FORMULA])) == (2, 1)


STEPS = [
    statement("v^2 = 2 g h", "v in m/s", given=["h: 5 m"]),
    statement("p = m v", "p in kg m/s", given=["m: 2 kg"]),
]


@pytest.mark.parametrize(
    ("total", "spread"),
    [
        (3, [1, 0, 0, 1, 0, 1]),
        (4, [1, 1, 0, 1, 0, 1]),
        (5, [1, 1, 0, 1, 1, 1]),
        (6, [1, 2, 0, 1, 1, 1]),
    ],
)
def test_steps_own_answers_count_only_where_marks_are_left(total: int, spread: list[int]) -> None:
    assert marks(total, (), "p", steps=STEPS, given=[]) == spread


def test_the_guide_earns_what_the_memo_earns() -> None:
    outcome = work("T - m g = m a", "T in N", given=["m: 2 kg", "a: 3 m/s^2"], total=4)
    memo, guide = marked(outcome.working), marked(outcome.working, "guide")
    assert sum(m for _, m in memo) == sum(m for _, m in guide) == 4
