"""Agreement of typed values with computed ones, case by case.

A typed datum equals the given value exactly, after conversion. A typed result agrees when the computed value,
rounded as the typed digits are, equals it. The numbers are worked by hand.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from physcalc.compare import compare_typed
from physcalc.language.names import Name
from physcalc.problems import Problem

from .authoring import COMMA, POINT, axis, layer, slugs, text, work

# Computed: v² = 2·9.8·2.6 = 50.96, v = 7.13862…
GIVEN = ["h: 2.6 m", "γ: 9.8 m/s^2"]


def verdict(answer: str, find: str = "v in m/s to 2 dp", **keys: Any) -> list[str]:
    return slugs(work("v^2 = 2 γ h", find, given=GIVEN, answer=answer, **keys))


@pytest.mark.parametrize(
    ("answer", "find"),
    [
        ("7.14 m/s", "v in m/s to 2 dp"),
        ("7,14 m/s", "v in m/s to 2 dp"),
        ("7.14 m·s⁻¹", "v in m/s"),
        ("714 cm/s", "v in m/s to 2 dp"),
        ("25.70 km/h", "v in m/s"),
        ("25.699 km/h", "v in m/s"),
        ("7.14e0 m/s", "v in m/s"),
        ("7.14 × 10^-3 km/s", "v in m/s"),
        ("+7.14 m/s", "v in m/s"),
    ],
)
def test_results_that_agree(answer: str, find: str) -> None:
    assert verdict(answer, find) == []


@pytest.mark.parametrize(
    "answer",
    ["7.13 m/s", "7.15 m/s", "7.1387 m/s", "7.1 × 10^1 m/s", "-7.14 m/s", "71.4 m/s", "25.71 km/h", "0 m/s"],
)
def test_results_that_do_not(answer: str) -> None:
    assert verdict(answer) == ["answer-disagrees"]


def test_finer_than_asked_is_checked_to_its_own_digits() -> None:
    assert verdict("7.1386 m/s") == []
    assert verdict("7.1385 m/s") == ["answer-disagrees"]
    assert verdict("7.140 m/s") == ["answer-disagrees"]


def test_coarser_than_asked_agrees_with_a_note() -> None:
    assert verdict("7.1 m/s") == ["answer-coarse"]
    assert verdict("7 m/s") == ["answer-coarse"]
    assert verdict("7.2 m/s") == ["answer-disagrees"]


def test_coarser_but_exact_needs_no_note() -> None:
    # 640 · (9.8 + 0.75) = 6752 exactly.
    outcome = work("T - m g = m a", "T in N to 2 dp", given=["m: 640 kg", "a: 0.75 m/s^2"], answer="6752 N")
    assert slugs(outcome) == []


@pytest.mark.parametrize(
    ("find", "answer", "expected"),
    [
        # F = 3.7 · 1823.4 = 6746.58
        ("F to 3 sf", "6750 N", []),
        ("F to 2 sf", "6700 N", []),
        ("F to 3 sf", "6700 N", ["answer-disagrees"]),
        ("F to 4 sf", "6750 N", ["answer-disagrees"]),
        ("F to 2 dp", "6750 N", ["answer-disagrees"]),
        ("F to 3 sf", "6.75 kN", []),
        ("F to 3 sf", "6747 N", []),
        ("F to 3 sf", "6746 N", ["answer-disagrees"]),
    ],
)
def test_zeros_that_only_hold_a_place(find: str, answer: str, expected: list[str]) -> None:
    given = ["M: 3.7 kg", "a: 1823.4 m/s^2"]
    assert slugs(work("F = M a", find, given=given, answer=answer)) == expected


def test_the_other_way_of_rounding() -> None:
    # 1/8 = 0.125: half away from zero 0.13, half to even 0.12.
    keys: Any = {"given": ["a: 1", "b: 8"]}
    even = replace(POINT, rule="half-even")
    assert slugs(work("x = a / b", "x to 2 dp", answer="0.13", **keys)) == []
    assert slugs(work("x = a / b", "x to 2 dp", answer="0.12", **keys)) == ["answer-disagrees"]
    assert slugs(work("x = a / b", "x to 2 dp", answer="0.12", conventions=even, **keys)) == []
    assert slugs(work("x = a / b", "x to 2 dp", answer="1/8", **keys)) == []
    assert slugs(work("x = a / b", "x to 2 dp", answer="1/7", **keys)) == ["answer-disagrees"]


def test_the_unit_must_measure_the_same() -> None:
    for answer in ("7.14 m", "7.14", "7.14 N", "7.14 m/s^2"):
        assert verdict(answer) == ["unit-dimension-wrong"]
    assert verdict("7.14 ms-1") == ["unit-ambiguous"]
    assert verdict("fast") == ["quantity-unreadable"]


def test_the_message_says_both_and_where_it_came_from() -> None:
    outcome = work("v^2 = 2 γ h", "v in m/s to 2 dp", given=GIVEN, answer="7.41 m/s")
    (problem,) = outcome.problems
    assert problem.sentence().replace("\u00a0", " ") == "v is 7.14 m·s⁻¹, the document says 7.41 m·s⁻¹"
    assert "from v² = 2 γ h, with" in problem.because()[0]
    assert "h = 2.6" in problem.because()[0]
    assert (problem.span.line, problem.span.column, problem.span.length) == (50, 9, 8)


def test_an_answer_in_another_unit_is_told_in_that_unit() -> None:
    outcome = work("v^2 = 2 γ h", "v in m/s to 2 dp", given=GIVEN, answer="25.0 km/h")
    (problem,) = outcome.problems
    assert "25.70" in problem.mend()


def test_several_answers_by_name() -> None:
    keys: Any = {"given": ["m: 2 kg", "M: 3 kg"]}
    formulas, finds = ["T - m g = m a", "M g - T = M a"], ["a in m/s^2", "T in N"]
    assert slugs(work(formulas, finds, answer={"T": "23.52 N", "a": "1.96 m/s^2"}, **keys)) == []
    outcome = work(formulas, finds, answer={"T": "23.25 N", "a": "1.96 m/s^2"}, **keys)
    assert [getattr(p, "name", "") for p in outcome.problems] == ["T"]
    assert slugs(work(formulas, finds, answer={"b": "1 N"}, **keys)) == ["name-not-in-formula"]


# ---- directions -------------------------------------------------------------------------------------

RIGHT = axis("right is positive")
TROLLEYS = ["m_1: 2 kg", "m_2: 3 kg", "v_1: 4 m/s, right", "v_2: 6 m/s, left"]
COLLISION = "m_1 v_1 + m_2 v_2 = (m_1 + m_2) V"


@pytest.mark.parametrize(
    ("answer", "find", "expected"),
    [
        # V = (8 − 18)/5 = −2, to the left.
        ("2.00 m/s, left", "V in m/s with direction", []),
        ("2.00 m/s, to the left", "V in m/s with direction", []),
        ("2.00 m/s, right", "V in m/s with direction", ["direction-disagrees"]),
        ("2.00 m/s, up", "V in m/s with direction", ["direction-unknown"]),
        ("2.00 m/s", "V in m/s with direction", ["direction-missing"]),
        ("-2.00 m/s", "V in m/s with direction", ["direction-missing"]),
        ("3.00 m/s, left", "V in m/s with direction", ["answer-disagrees"]),
        ("-2.00 m/s", "V in m/s", []),
        ("2.00 m/s", "V in m/s", ["answer-disagrees"]),
        ("2.00 m/s, left", "V in m/s", []),
        ("2.00 m/s, right", "V in m/s", ["direction-disagrees"]),
    ],
)
def test_a_direction_must_agree(answer: str, find: str, expected: list[str]) -> None:
    outcome = work(COLLISION, find, given=TROLLEYS, conventions=RIGHT, answer=answer)
    assert slugs(outcome) == expected


def test_the_wrong_direction_is_pointed_at_alone() -> None:
    outcome = work(
        COLLISION, "V in m/s with direction", given=TROLLEYS, conventions=RIGHT, answer="2.00 m/s, right"
    )
    (problem,) = outcome.problems
    assert (problem.span.column, problem.span.length) == (9 + len("2.00 m/s, "), len("right"))


def test_with_direction_and_no_axis() -> None:
    outcome = work("F = M a", "F with direction", given=["M: 2 kg", "a: 3 m/s^2"])
    assert slugs(outcome) == ["axis-missing"]


# ---- angles and temperatures ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("answer", "expected"),
    [
        ("30°", []),
        ("30.00°", []),
        ("30.00 deg", []),
        ("390.00°", []),
        ("0.5236 rad", []),
        ("0.524", ["unit-dimension-wrong"]),
        ("29.00°", ["answer-disagrees"]),
    ],
)
def test_angles(answer: str, expected: list[str]) -> None:
    # sin 30° = 1/2, exactly: fewer digits need no note, and any angle of the same place will do.
    given = ["a: 1 m", "b: 2 m"]
    assert slugs(work("sin(θ) = a / b", "θ in ° to 2 dp", given=given, answer=answer)) == expected


def test_temperatures_are_points() -> None:
    given = ["T_1: 27 °C", "p_1: 100 kPa", "p_2: 150 kPa"]
    # T_2 = 300.15 · 1.5 = 450.225 K = 177.075 °C
    for answer, expected in (("177.08 °C", []), ("450.23 K", []), ("177.07 °C", ["answer-disagrees"])):
        outcome = work("p_1 / T_1 = p_2 / T_2", "T_2 in °C to 2 dp", given=given, answer=answer)
        assert slugs(outcome) == expected
    outcome = work("Q = C ΔT", "ΔT in °C", given=["Q: 500 J", "C: 100 J/K"], answer="5.00 °C")
    assert slugs(outcome) == []
    outcome = work("Q = C ΔT", "ΔT in °C", given=["Q: 500 J", "C: 100 J/K"], answer="5.00 K")
    assert slugs(outcome) == []


# ---- typed data in prose -------------------------------------------------------------------------------


def typed(value: str, datum: str = "a: 0.75 m/s^2", conventions: object = POINT) -> list[Problem]:
    found = layer(datum, conventions=conventions)  # type: ignore[arg-type]
    (only,) = found.values()
    return compare_typed(text(value), only, conventions)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("value", "datum"),
    [
        ("0.75 m/s^2", "a: 0.75 m/s^2"),
        ("0,75 m·s⁻²", "a: 0.75 m/s^2"),
        ("0.750 m/s²", "a: 0.75 m/s^2"),
        ("75 cm/s^2", "a: 0.75 m/s^2"),
        ("20 m/s", "v: 72 km/h"),
        ("300.15 K", "T: 27 °C"),
        ("6 × 10⁻⁶ C", "q: 6 µC"),
        ("1/4 kg", "m: 250 g"),
    ],
)
def test_a_datum_exactly_after_conversion(value: str, datum: str) -> None:
    assert typed(value, datum) == []


@pytest.mark.parametrize(
    ("value", "datum", "slug"),
    [
        ("0.57 m/s^2", "a: 0.75 m/s^2", "datum-disagrees"),
        ("0.8 m/s^2", "a: 0.75 m/s^2", "datum-disagrees"),
        ("13.89 m/s", "v: 50 km/h", "datum-disagrees"),
        ("0.75 m/s", "a: 0.75 m/s^2", "unit-dimension-wrong"),
        ("0.75 m/s^2, up", "a: 0.75 m/s^2", "direction-unknown"),
        ("much", "a: 0.75 m/s^2", "quantity-unreadable"),
    ],
)
def test_a_datum_that_is_another(value: str, datum: str, slug: str) -> None:
    assert [problem.slug for problem in typed(value, datum)] == [slug]


@pytest.mark.parametrize(
    ("value", "slugs_expected"),
    [
        ("4 m/s, left", []),
        ("4 m/s", []),
        ("-4 m/s", []),
        ("4 m/s, right", ["direction-disagrees"]),
        ("4 m/s, up", ["direction-unknown"]),
    ],
)
def test_a_directed_datum(value: str, slugs_expected: list[str]) -> None:
    assert [p.slug for p in typed(value, "v: 4 m/s, left", RIGHT)] == slugs_expected


def test_a_result_in_prose_agrees_as_rounded() -> None:
    outcome = work("v^2 = 2 γ h", "v in m/s to 2 dp", given=GIVEN)
    datum = outcome.results[Name("v")]
    for value, expected in (
        ("7.14 m/s", []), ("7,14 m/s", []), ("7.15 m/s", ["answer-disagrees"]), ("7.1386 m/s", []),
        ("7.1 m/s", ["answer-coarse"]), ("7.14 m", ["unit-dimension-wrong"]),
    ):  # fmt: skip
        assert [p.slug for p in compare_typed(text(value), datum, COMMA)] == expected
