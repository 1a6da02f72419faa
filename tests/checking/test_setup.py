"""Names resolved and dimensions checked before any number is put in."""

from __future__ import annotations

from typing import Any

import pytest

from physcalc.checking.given import read_given
from physcalc.checking.scope import Scope
from physcalc.engine import calculate
from physcalc.problems import Problem

from ..authoring import POINT, answers, givens, layer, sheet, slugs, statement, work


def problem_of(formula: Any, find: Any, *given: str, **keys: Any) -> Problem:
    outcome = work(formula, find, given=given, **keys)
    (problem,) = [p for p in outcome.problems if p.level != "note"]
    return problem


def under(problem: Problem, line: str, first_column: int = 10) -> str:
    start = problem.span.column - first_column
    return line[start : start + problem.span.length]


# ---- dimensions ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("formula", "find", "given", "says"),
    [
        ("T - m g = m", "T in N", ["m: 2 kg"], "T − m g and m can not be equal: N and kg"),
        ("v = u + a", "v in m/s", ["u: 1 m/s", "a: 2 m/s^2"], "u and a can not be added: m·s⁻¹ and m·s⁻²"),
        ("s = 1/2 a t", "s in m", ["a: 2 m/s^2", "t: 3 s"], "s and 1/2 a t can not be equal: m and m·s⁻¹"),
        ("x = d + 3", "x", ["d: 2 m"], "d and 3 can not be added: m and a plain number"),
    ],
)
def test_sides_and_terms_that_differ(formula: str, find: str, given: list[str], says: str) -> None:
    outcome = work(formula, find, given=given)
    (problem,) = outcome.problems
    assert problem.slug in ("dimensions-differ", "unit-dimension-wrong")
    if problem.slug == "dimensions-differ":
        assert problem.sentence() == says
    assert outcome.working is None


def test_a_sum_is_pointed_at_where_it_stands() -> None:
    line = "v = k (u + a)"
    problem = problem_of(line, "v", "u: 1 m/s", "a: 2 m/s^2", "k: 3")
    assert problem.slug == "dimensions-differ"
    assert under(problem, line) == "u + a"


@pytest.mark.parametrize(
    ("formula", "given", "where", "marked"),
    [
        ("N = N_0 exp(-t)", ["N_0: 100", "t: 3 s"], "exp", "-t"),
        ("x = 2^t", ["t: 3 s"], "an exponent", "t"),
        ("x = ln(d)", ["d: 3 m"], "ln", "d"),
        ("x = sin(d)", ["d: 3 m"], "sin", "d"),
    ],
)
def test_where_only_a_plain_number_fits(formula: str, given: list[str], where: str, marked: str) -> None:
    problem = problem_of(formula, formula[0], *given)
    assert problem.slug == "plain-number-needed"
    assert where in problem.sentence()
    assert under(problem, formula) == marked


@pytest.mark.parametrize(
    ("formula", "given"), [("F = G cos 30", []), ("F = G cos(θ)", ["θ: 30"]), ("F = G cos(30)", [])]
)
def test_a_bare_number_in_an_angle_function(formula: str, given: list[str]) -> None:
    problem = problem_of(formula, "F in N", "G: 10 N", *given)
    assert problem.slug == "angle-unit-missing"
    assert "30°" in problem.mend()


def test_zero_needs_no_angle_unit() -> None:
    assert answers(work("F = G cos(θ)", "F in N", given=["G: 10 N", "θ: 0"])) == {"F": "10.00 N"}


def test_the_unit_asked_measures_something_else() -> None:
    problem = problem_of("T - m g = m a", "T in kg", "m: 2 kg", "a: 1 m/s^2")
    assert problem.slug == "unit-dimension-wrong"
    assert problem.sentence() == "T is measured in N, not in kg"
    problem = problem_of((), "F_net in kg", "m: 2 kg", "a: 1 m/s^2", use="newton-2")
    assert problem.sentence() == "F_net is measured in N, not in kg"


def test_a_datum_with_the_wrong_unit_is_blamed_where_the_sheet_knows() -> None:
    problem = problem_of((), "F_net in N", "m: 2 m", "a: 1 m/s^2", use="newton-2")
    assert problem.slug == "unit-dimension-wrong"
    assert problem.sentence() == "m is measured in kg, not in m"
    assert problem.span.line == 20


@pytest.mark.parametrize(
    ("formula", "find", "given", "unit"),
    [
        ("F = m a", "F", ["m: 2 kg", "a: 3 m/s^2"], "N"),
        ("E = m g h", "E", ["m: 2 kg", "h: 3 m"], "J"),
        ("v^2 = 2 g h", "v", ["h: 3 m"], "m·s⁻¹"),
        ("k = F / x", "k", ["F: 2 N", "x: 3 m"], "N·m⁻¹"),
        ("x_1 + x_2 = L", "x_1", ["x_2: 2 cm", "L: 5 cm"], "cm"),
        ("n = sin(θ_1) / sin(θ_2)", "n", ["θ_1: 30°", "θ_2: 20°"], ""),
        ("sin(θ) = a / b", "θ", ["a: 1 m", "b: 2 m"], "°"),
        ("tan θ = a / b", "θ", ["a: 1 m", "b: 2 m"], "°"),
    ],
)
def test_units_that_follow(formula: str, find: str, given: list[str], unit: str) -> None:
    outcome = work(formula, find, given=given, take="smallest" if "θ" in find else "")
    assert outcome.working is not None, outcome.problems
    (answer,) = outcome.working.answers
    assert answer.printed.unit is not None
    assert answer.printed.unit.text() == unit


def test_a_bare_zero_fits_everywhere() -> None:
    assert answers(work("v = v_0 + a t", "v in m/s", given=["v_0: 0", "a: 2 m/s^2", "t: 3 s"])) == {
        "v": "6.00 m·s⁻¹"
    }
    assert not slugs(work("0 = u + a t", "t in s", given=["u: 4 m/s", "a: -2 m/s^2"]))


def test_dimensions_of_names_on_the_way_follow_from_the_set() -> None:
    outcome = work(["p = m v", "p = F t"], "t in s", given=["m: 2 kg", "v: 3 m/s", "F: 4 N"])
    assert answers(outcome) == {"t": "1.50 s"}


# ---- names -----------------------------------------------------------------------------------------


def test_a_name_without_a_value_and_the_nearest_that_has_one() -> None:
    line = "F = m_1 a"
    problem = problem_of(line, "F in N", "m_2: 2 kg", "a: 3 m/s^2")
    assert problem.slug == "name-without-value"
    assert under(problem, line) == "m_1"
    assert "m_2" in problem.mend()


def test_a_run_of_letters_that_is_a_product() -> None:
    problem = problem_of("F = mg", "F in N", "m: 2 kg")
    assert problem.mend() == 'for a product write "m g"'
    problem = problem_of("E = qV_1", "E in J", "q: 2 C", "V_1: 3 V")
    assert problem.mend() == 'for a product write "q V_1"'


def test_e_to_a_power_is_the_exponential_only_where_no_e_is_in_scope() -> None:
    line = "N = N_0 e^(-k)"
    problem = problem_of(line, "N to 2 dp", "N_0: 100", "k: 1")
    # The sheet holds e, the elementary charge.
    assert problem.slug == "exponential-unclear"
    assert problem.mend() == "for the exponential write exp(…)"
    assert under(problem, line) == "e^(-k)"


def test_e_to_a_power_without_any_e_on_the_sheet() -> None:
    given = givens(["N_0: 100", "k: 1"])
    bare = calculate(
        statement("N = N_0 e^(-k)", "N"), Scope((read_given(given, Scope(), POINT)[0],)), sheet()
    )
    # e⁻¹ = 0.36787944… (Abramowitz and Stegun, table 1.1)
    assert answers(bare) == {"N": "36.79"}


def test_e_with_a_whole_number_above_is_the_charge() -> None:
    outcome = work(
        "F = k e^2 / r^2", "F in N to 3 sf", given=["r: 5.3e-11 m", "k: 8.99e9 N·m²/C²", "e: 1.60e-19 C"]
    )
    # By hand: 8.99e9 · 2.56e-38 / 2.809e-21.
    assert answers(outcome) == {"F": "8.19 × 10⁻⁸ N"}


def test_a_coefficient_of_restitution_may_be_raised() -> None:
    assert answers(work("h = e^(2 n) H", "h in m to 4 dp", given=["e: 0.5", "n: 2", "H: 16 m"])) == {
        "h": "1.0000 m"
    }


def test_another_question_finds_it() -> None:
    there = layer("T: 3 N")
    problem = problem_of("F = 2 T", "F in N", scope=Scope((), {"lift-tension": there}))
    assert problem.mend() == 'another question finds it: give "T: from lift-tension"'


def test_the_nearest_value_holds() -> None:
    question = Scope((layer("m: 2 kg", "a: 3 m/s^2"),))
    assert answers(work("F = m a", "F in N", scope=question)) == {"F": "6.00 N"}
    assert answers(work("F = m a", "F in N", scope=question, given=["m: 5 kg"])) == {"F": "15.00 N"}
    inner = question.inside(layer("a: 7 m/s^2"))
    assert answers(work("F = m a", "F in N", scope=inner)) == {"F": "14.00 N"}


def test_constants_of_the_sheet_come_last() -> None:
    assert answers(work("w = m g", "w in N", given=["m: 2 kg"])) == {"w": "19.60 N"}
    assert answers(work("w = m g", "w in N", given=["m: 2 kg", "g: 10 m/s^2"])) == {"w": "20.00 N"}


def test_what_is_found_is_unknown_even_if_the_sheet_holds_it() -> None:
    outcome = work("T = 2 π √(L / g)", "g in m/s^2 to 2 dp", given=["L: 1.00 m", "T: 2.01 s"])
    # By hand: 4 π² · 1.00 / 2.01² = 9.7716…
    assert answers(outcome) == {"g": "9.77 m·s⁻²"}


def test_a_name_that_cancels_needs_no_value() -> None:
    outcome = work("m g h = 1/2 m v^2", "v in m/s", given=["h: 2.5 m"])
    assert answers(outcome) == {"v": "7.00 m·s⁻¹"}
    problem = problem_of("m g h = 1/2 v^2 m^2", "v", "h: 2.5 m")
    assert problem.slug in ("name-without-value", "dimensions-differ")


@pytest.mark.parametrize(
    ("formula", "find", "given", "keys", "slug"),
    [
        ((), "F in N", ["m: 2 kg"], {}, "nothing-to-find"),
        ("F = m a", (), ["m: 2 kg", "a: 3 m/s^2"], {}, "nothing-to-find"),
        ("F = m a", "v in m/s", ["m: 2 kg", "a: 3 m/s^2"], {}, "name-not-in-formula"),
        ((), "F in N", ["m: 2 kg"], {"use": "newton-9"}, "law-unknown"),
        ((), "F_net in N", ["b: 2 kg", "a: 3 m/s^2"], {"use": "newton-2 (mm = b)"}, "name-not-in-formula"),
        ("F = m (a", "F in N", ["m: 2 kg"], {}, "formula-unreadable"),
        ("F = m a", "F as N", ["m: 2 kg", "a: 3 m/s^2"], {}, "phrase-unreadable"),
        ("F = m a", "F in N", ["m: 2 kg", "a: 3 m/s^2"], {"take": "biggest"}, "phrase-unreadable"),
        (["a = F / m", "b = a c"], ["a", "b"], ["m: 2 kg"], {}, "formulas-too-few"),
        ("F = m a", ["F", "a"], ["m: 2 kg"], {}, "formulas-too-few"),
    ],
)
def test_statements_refused(formula: Any, find: Any, given: list[str], keys: Any, slug: str) -> None:
    outcome = work(formula, find, given=given, **keys)
    assert outcome.working is None
    assert slugs(outcome) == [slug]


def test_all_formulas_of_a_list_are_read() -> None:
    outcome = work(["F = m (a", "v = u +"], "F")
    assert slugs(outcome) == ["formula-unreadable", "formula-unreadable"]


# ---- limits of sense ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("given", "use", "find", "says"),
    [
        (["m: -2 kg", "a: 1 m/s^2"], "newton-2", "F_net", "m is −2 kg"),
    ],
)
def test_data_beyond_sense(given: list[str], use: str, find: str, says: str) -> None:
    problem = problem_of((), find, *given, use=use)
    assert problem.slug == "beyond-sense"
    assert says in problem.sentence().replace("\u00a0", " ")
    assert problem.span.line == 20


def test_a_negative_velocity_is_a_direction() -> None:
    assert answers(work("p = m v", "p in kg m/s", given=["m: 2 kg", "v: -3 m/s"])) == {"p": "−6.00 kg·m·s⁻¹"}


def test_the_conventions_are_those_of_the_calculation() -> None:
    assert POINT.axis is None


@pytest.mark.parametrize(
    ("formula", "find", "data", "letter"),
    [
        ("F = k x", "F in N", "x: 2 cm", "k"),
        ("E = m g h", "E in J", "m: 2 kg", "h"),
        ("I = V / R", "I in A", "V: 12 V", "R"),
    ],
)
def test_a_forgotten_datum_that_is_a_constant_of_the_sheet_is_named(
    formula: str, find: str, data: str, letter: str
) -> None:
    """k is Coulomb's constant only where nobody gave a spring constant."""
    problem = problem_of(formula, find, data)
    assert f"so give {letter} a value" in problem.mend()


def test_a_slip_without_a_constant_names_none() -> None:
    assert "the sheet's" not in problem_of("F = m v", "F in N", "m: 2 kg", "v: 3 m/s").mend()
