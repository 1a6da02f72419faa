"""Which form of a sheet's formula is taken: no datum of a calculation is left out in silence."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from physcalc import CalculationFailed, calculate

#: use, what is asked, the data, and the value by hand in SI units times the factor of the unit asked.
LONG = (
    ("resistors-parallel", "R_p in Ω to 2 dp", "R_1: 4 Ω\nR_2: 6 Ω\nR_3: 12 Ω", 1 / (1 / 4 + 1 / 6 + 1 / 12)),
    ("resistors-series", "R_s in Ω to 2 dp", "R_1: 4 Ω\nR_2: 6 Ω\nR_3: 12 Ω", 22.0),
    ("kirchhoff-voltage", "V_2 in V to 2 dp", "V: 12 V\nV_1: 4 V\nV_3: 3 V", 5.0),
    ("capacitors-series", "C_s in µF to 2 dp", "C_1: 4 µF\nC_2: 6 µF\nC_3: 12 µF", 2.0),
    ("capacitor-plates", "C in pF to 2 dp", "A: 20 cm^2\nd: 1.5 mm\nκ: 3", 3 * 8.85e-12 * 20e-4 / 1.5e-3 * 1e12),
    ("field-loop", "B in µT to 2 dp", "I: 2 A\nr: 5 cm\nN: 40", 1.257e-6 * 40 * 2 / 0.1 * 1e6),
    ("field-wire", "B in µT to 2 dp", "I: 2 A\nr: 5 cm", 1.257e-6 * 2 / (2 * pi * 0.05) * 1e6),
)  # fmt: skip


@pytest.mark.parametrize(
    ("use", "find", "data", "value"), LONG, ids=lambda v: v if isinstance(v, str) else ""
)
def test_the_form_that_holds_all_the_data_of_the_block(use: str, find: str, data: str, value: float) -> None:
    given = "\n".join("  " + line for line in data.splitlines())
    solution = calculate(f"given:\n{given}\nuse: {use}\nfind: {find}", sheet="school")
    assert float(solution[find.split()[0]]) == pytest.approx(value, abs=0.005001)


def test_data_of_the_question_do_not_say_which_form_is_meant() -> None:
    """A third resistor of the question may be in series with the two: the author says which is meant."""
    data = {"R_1": "4 Ω", "R_2": "6 Ω", "R_3": "12 Ω"}
    with pytest.raises(CalculationFailed) as failed:
        calculate("use: resistors-parallel\nfind: R_p in Ω", data, sheet="school")
    (problem,) = failed.value.problems
    assert problem.slug == "forms-several"
    assert "R_3" in problem.sentence()
    solution = calculate(
        "formula: 1/R_p = 1/R_1 + 1/R_2\nuse: resistors-parallel\nfind: R_p in Ω", data, sheet="school"
    )
    assert solution["R_p"].number.as_integer_ratio() == (12, 5)


def test_brackets_that_name_all_that_goes_in_say_which_form_is_meant() -> None:
    data = {"R_1": "4 Ω", "R_2": "6 Ω", "R_3": "12 Ω"}
    for pair in ("R_1 = R_1, R_2 = R_2", "R_1 = R_3, R_2 = R_2"):
        solution = calculate(f"use: resistors-parallel ({pair})\nfind: R_p in Ω", data, sheet="school")
        one = 4 if "R_1 = R_1" in pair else 12
        assert solution["R_p"].exact == 1 / (Fraction(1, one) + Fraction(1, 6))
    with pytest.raises(CalculationFailed) as failed:
        calculate("use: resistors-parallel (R_1 = R_1)\nfind: R_p in Ω", data, sheet="school")
    assert [problem.slug for problem in failed.value.problems] == ["forms-several"]


def test_two_resistors_of_two() -> None:
    data = {"R_1": "4 Ω", "R_2": "6 Ω"}
    assert float(calculate("use: resistors-parallel\nfind: R_p in Ω", data, sheet="school")["R_p"]) == 2.4


@pytest.mark.parametrize("formula", ["use: work", "formula: W = F Δx cos θ"])
@pytest.mark.parametrize(
    ("ways", "angle", "work"),
    [(("right", "left"), "180°", -30), (("left", "left"), "0°", 30), (("left", "right"), "180°", -30)],
)
def test_the_cosine_says_how_force_and_displacement_lie(
    formula: str, ways: tuple[str, str], angle: str, work: int
) -> None:
    """W = F Δx cos θ takes magnitudes: the work of a force against the displacement is negative."""
    data = {"F": f"10 N, {ways[0]}", "Δx": f"3 m, {ways[1]}", "θ": angle}
    solution = calculate(f"{formula}\nfind: W in J", data, sheet="school", axis="right is positive")
    assert solution["W"].number == work
    assert "(10)(3)" in solution.text


def test_without_an_angle_the_signs_say_it() -> None:
    data = {"F": "10 N, left", "Δx": "3 m, right"}
    solution = calculate("formula: W = F Δx\nfind: W in J", data, axis="right is positive")
    assert solution["W"].number == -30


@pytest.mark.parametrize(
    ("formula", "above"),
    [("F - f = m a", "F_net = m a"), ("T - m g = m a", "F_net = m a"), ("a = F / m", "F = m a")],
)
def test_one_force_of_several_is_not_the_whole(formula: str, above: str) -> None:
    """F = m a above F − f = m a would say that f is zero."""
    data = {"F": "12 N", "f": "3 N", "T": "60 N", "m": "4.5 kg"}
    working = calculate(f"use: newton-2\nformula: {formula}\nfind: a in m/s^2", data, sheet="school")
    assert str(working).splitlines()[0].split("  ")[0].strip() == above
