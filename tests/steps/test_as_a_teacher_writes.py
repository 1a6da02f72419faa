"""Lines that a teacher would write so and not otherwise.

What is expected is common practice, no source; every number can be followed by hand from the line above it.
"""

from __future__ import annotations

import pytest

from physcalc.language.plain import plain
from physcalc.language.quantities import Formed, Typed, read_quantity
from physcalc.problems import Problem
from physcalc.problems.language import UnitInExpression
from physcalc.problems.units import UnitUnreadable
from physcalc.render import tex
from physcalc.steps.lines import LineKind, Working

from ..authoring import COMMA, POINT, answers, shown, slugs, text, tidy, work


def remarks(working: Working | None) -> list[str]:
    """Lines of words and formulas, whole."""
    assert working is not None
    return [
        tidy("".join(p if isinstance(p, str) else plain(p, POINT.style) for p in line.pieces))
        for line in working.lines
        if line.pieces
    ]


# ---- what goes in -----------------------------------------------------------------------------------------


def test_names_are_replaced_at_once() -> None:
    given = ["R_2: 6 ohm", "R_3: 3 ohm"]
    outcome = work((), "R_p in ohm", use="resistors-parallel (R_1 = R_2, R_2 = R_3)", given=given)
    assert answers(outcome) == {"R_p": "2.00 Ω"}
    # A swap does not end where it began.
    outcome = work(
        (), "V_out in V", use="potential-divider (R_1 = R_2, R_2 = R_1)",
        given=["R_1: 1 ohm", "R_2: 3 ohm", "V_in: 8 V"],
    )  # fmt: skip
    assert answers(outcome) == {"V_out": "2.00 V"}


def test_a_form_with_the_names_that_were_replaced_is_meant() -> None:
    given = ["I: 2 A", "V_p: 6 V", "R_3: 3 ohm"]
    outcome = work((), "P in W", use="electric-power (V = V_p, R = R_3)", given=given)
    assert answers(outcome) == {"P": "12.00 W"}  # V²/R, and not V I.


def test_grams_over_milliseconds_are_converted() -> None:
    given = ["m: 156 g", "Δt: 1.8 ms", "v_i: 28 m/s", "v_f: 35 m/s"]
    lines = shown(work("F Δt = m v_f - m v_i", "F in N", given=given).working)
    assert "F (0.0018) = (0.156)(35) − (0.156)(28)" in lines


def test_kilopascals_stay_where_they_cancel_beside_temperatures() -> None:
    given = ["p_1: 100 kPa", "V_1: 2.4 m^3", "T_1: 22 °C", "p_2: 62 kPa", "T_2: -8 °C"]
    lines = shown(work((), "V_2 in m^3", use="gas-general", given=given).working)
    assert lines[1] == "(100)(2.4) / 295.15 = (62) V₂ / 265.15"


def test_a_price_for_each_kilowatt_hour_is_put_in_as_it_is() -> None:
    lines = shown(work("C = W p", "C", given=["W: 225 kWh", "p: 2.85 kWh^-1"]).working)
    assert lines[1] == "C = (225)(2.85)"


def test_a_constant_that_drops_out_of_a_ratio_is_no_number() -> None:
    given = ["I_2: 1.2*I", "P_1: I^2 R", "P_2: I_2^2 R"]
    lines = shown(work("n = P_2 / P_1", "n", given=given).working)
    assert lines[0] == "n = P₂ / P₁"
    assert "8.31" not in " ".join(lines)
    assert lines[-1] == "n = 1.44"


def test_derived_data_keep_digits_to_go_on_with() -> None:
    given = ["t: 37.1 s", "L: 0.85 m", "T: t / 20"]
    lines = shown(work((), "g in m/s^2", use="pendulum", given=given).working)
    assert lines[1].startswith("1.855 = ")
    given = ["v: 0.995 c", "Δt_0: 2.2 s"]
    lines = shown(work((), "Δt in s", use="time-dilation", given=given).working)
    assert "2.985 × 10⁸" in lines[1]


# ---- what comes out ---------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("find", "given", "line"),
    [
        ("s in cm to 1 dp", "a: 0.1134 m", "s = 0.113 m = 11.3 cm"),
        ("s in km to 2 dp", "a: 6575.22 m", "s = 6 575.22 m = 6.58 km"),
        ("s in cm to 1 dp", "a: 0.30 m", "s = 0.30 m = 30.0 cm"),
    ],
)
def test_both_sides_of_a_conversion_are_as_fine(find: str, given: str, line: str) -> None:
    assert shown(work("s = a", find, given=[given]).working)[-1] == line


def test_no_supplement_of_an_angle_of_refraction() -> None:
    lines = shown(work((), "θ_2 in °", use="snell", given=["n_1: 1.33", "n_2: 1.52", "θ_1: 48°"]).working)
    assert len(lines) == 3
    assert lines[-1] == "θ₂ = 40.56°"


def test_what_a_formula_says_alone_is_put_in() -> None:
    given = ["v: 9.0 m/s", "a: 1.5 m/s^2"]
    outcome = work(
        ["Δx = v Δt", "Δx = 1/2 a Δt^2"],
        ["Δt in s", "Δx in m"],
        given=given,
        take="Δt > 0 s",
        conventions=POINT,
    )
    assert "(1) → (2): 9.0 Δt = 1/2(1.5) Δt²" in remarks(outcome.working)
    assert "0.75 Δt² − 9 Δt = 0" in shown(outcome.working)


def test_coefficients_lead_to_the_printed_answer() -> None:
    given = ["m: 23 kg", "θ: 40°", "μ: 0.28"]
    outcome = work(["F cos θ - μ N = 0", "N + F sin θ - m g = 0"], ["F in N", "N in N"], given=given)
    assert "(2) → (1): 0.9460 F = 63.112" in remarks(outcome.working)  # 63.112 / 0.9460 = 66.71
    assert "F = 66.71 N" in shown(outcome.working)


def test_equal_halves_go_before_a_formula_is_rearranged() -> None:
    outcome = work("1/2 k x^2 = 1/2 m v^2", "v in m/s", given=["k: 340 N/m", "x: 0.06 m", "m: 0.012 kg"])
    assert outcome.working is not None
    (line,) = [line for line in outcome.working.lines if line.kind is LineKind.REARRANGED]
    assert tex(line.sides[1], POINT) == r"\sqrt{\frac{k x^{2}}{m}}"  # type: ignore[arg-type]


# ---- what can not be --------------------------------------------------------------------------------------


def test_a_single_result_beyond_sense_is_told() -> None:
    outcome = work((), "η in %", use="efficiency-power", given=["P_out: 500 W", "P_in: 400 W"])
    assert slugs(outcome) == ["roots-excluded"]
    given = ["f: 5e14 Hz", "W_0: 3 eV"]
    outcome = work("h f = W_0 + E_{k(max)}", "E_{k(max)} in eV", use="photoelectric", given=given)
    assert slugs(outcome) == ["roots-excluded"]
    # A minus is a direction here.
    outcome = work((), "v_f in m/s", use="velocity-time", given=["v_i: 2 m/s", "a: -3 m/s^2", "Δt: 2 s"])
    assert answers(outcome) == {"v_f": "−4.00 m·s⁻¹"}


def test_limits_of_an_angle_are_in_degrees() -> None:
    outcome = work((), "θ_2 in °", use="snell", given=["n_1: 1.33", "n_2: 1.52", "θ_1: 120°"])
    (problem,) = outcome.problems
    assert problem.slug == "beyond-sense"
    assert "at least 0° and at most 90°" in str(problem)


def test_beyond_the_critical_angle_no_angle_is_found() -> None:
    outcome = work((), "θ_2 in °", use="snell", given=["n_1: 1.5", "n_2: 1.0", "θ_1: 60°"])
    assert slugs(outcome) == ["no-real-root"]


# ---- units where names belong -----------------------------------------------------------------------------


@pytest.mark.parametrize("typed", ["41 °C - 5 °C", "30 * 2.5 h", "20 + 273 K", "1.44 × 2 W", "3 min 2 s"])
def test_a_unit_in_an_expression_is_refused(typed: str) -> None:
    with pytest.raises(UnitInExpression):
        read_quantity(text(typed), ".")


@pytest.mark.parametrize(
    ("typed", "slug"), [("6.0 kg - m_1", "unit-in-expression"), ("28 kg * g", "unit-unreadable")]
)
def test_it_is_told_where_the_name_has_no_value(typed: str, slug: str) -> None:
    read = read_quantity(text(typed), ".")
    assert isinstance(read, Formed)
    assert isinstance(read.as_unit, UnitInExpression | UnitUnreadable)
    assert read.as_unit.slug == slug


@pytest.mark.parametrize("typed", ["0.5*g", "2π/T", "4 * 2 r", "0.40 M_E", "2*3*g", "1/2 g t^2"])
def test_expressions_of_names_stay_what_they_are(typed: str) -> None:
    assert isinstance(read_quantity(text(typed), "."), Formed)


@pytest.mark.parametrize("typed", ["12 km h^-1 s^-1", "5 N s", "3 Ω mm^2/m", "1/2 m", "2.5 kW h"])
def test_quantities_stay_what_they_are(typed: str) -> None:
    assert isinstance(read_quantity(text(typed), "."), Typed)


def test_mends_say_what_to_do() -> None:
    outcome = work("F = 3 kg a", "F in N", given=["a: 2 m/s^2"])
    assert "formulas hold no units" in outcome.problems[0].mend()
    outcome = work((), "T_2 in K", use="gas-pressure", given=["p_1: 1 kPa", "p_2: 2 kPa", "T_1: 20 C"])
    assert "°C" in outcome.problems[0].mend()


def test_a_torn_brace_is_explained() -> None:
    from physcalc.problems.language import NameUnreadable

    problem: Problem = NameUnreadable(text("v_{i1").span, "v_{i1")
    assert 'of="v_{i1}"' in problem.mend()


# ---- brackets ---------------------------------------------------------------------------------------------


def _last_substitution(formula: str, find: str, given: list[str]) -> str:
    outcome = work(formula, find, given=given, conventions=COMMA)
    assert outcome.working is not None
    lines = [line for line in outcome.working.lines if line.kind is LineKind.SUBSTITUTION]
    return tex(lines[-1].sides[-1], COMMA)


@pytest.mark.parametrize(
    ("formula", "find", "given", "maths"),
    [
        ("F = m v^2 / r", "F in N", ["m: 1250 kg", "v: 12 m/s", "r: 48 m"],
         "\\frac{(\\text{1\u202f250})(12)^{2}}{48}"),
        ("E = m v^2", "E in J", ["m: 3e-28 kg", "v: 3e8 m/s"],
         r"(3 \times 10^{-28})(3 \times 10^{8})^{2}"),
        ("A = A_0 (1/2)^(t / T)", "A in Bq", ["A_0: 400 Bq", "t: 20 d", "T: 8 d"],
         r"400\left(\frac{1}{2}\right)^{20/8}"),
    ],
)  # fmt: skip
def test_numbers_side_by_side_stand_in_brackets(
    formula: str, find: str, given: list[str], maths: str
) -> None:
    assert _last_substitution(formula, find, given) == maths


def test_a_function_has_one_pair_of_brackets_and_a_half_life_no_gaps() -> None:
    outcome = work("A = A_0 (1/2)^(t / T_{1/2})", "t in d", given=["A_0: 8 Bq", "A: 1 Bq", "T_{1/2}: 3 d"])
    assert outcome.working is not None
    (line,) = [line for line in outcome.working.lines if line.kind is LineKind.REARRANGED]
    maths = tex(line.sides[1], POINT)  # type: ignore[arg-type]
    assert r"\ln\left(\frac{1}{2}\right)" in maths
    assert "T_{1/2}" in maths
