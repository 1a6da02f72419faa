"""What stands in a substitution, typed into a calculator, gives the answer below it.

The calculator is set to degrees, as pupils' are: an angle in degrees means its degrees in sin, cos and tan alone.
"""

from __future__ import annotations

import pytest

from physcalc import calculate

#: formula, what is asked, data, the substitution, and the answer as printed.
LINES = (
    ("s = r θ", "s in m", {"r": "2.5 m", "θ": "40°"}, "s = (2.5)(0.6981)", "s = 1.75 m"),
    ("s = r θ", "s in cm", {"r": "25 cm", "θ": "1.2 rad"}, "s = (25)(1.2)", "s = 30.00 cm"),
    ("s = r θ", "θ in ° to 1 dp", {"r": "2.5 m", "s": "1.75 m"}, "1.75 = 2.5 θ", "θ = 0.70 rad = 40.1°"),
    ("θ = ω t", "θ in rev to 1 dp", {"ω": "4 rad/s", "t": "10 s"}, "θ = (4)(10)", "θ = 40.00 rad = 6.4 rev"),
    (
        "x = A cos(ω t + φ)", "x in cm", {"A": "12 cm", "ω": "2.5 rad/s", "t": "0.3 s", "φ": "30°"},
        "x = 12 cos((2.5)(0.3) + 0.5236)", "x = 3.51 cm",
    ),
    ("A = 1/2 r^2 (α - sin α)", "A in m^2", {"r": "2 m", "α": "40°"}, "A = 1/2(2)² (0.6981 − sin(40°))", "A = 0.11 m²"),
    ("x = L sin(2 α)", "x in m", {"L": "2 m", "α": "40°"}, "x = 2 sin(2(40°))", "x = 1.97 m"),
    ("n = β / α", "n", {"α": "20°", "β": "42°"}, "n = 42° / 20°", "n = 2.10"),
    ("γ = 180° - α - β", "γ in ° to 1 dp", {"α": "40°", "β": "75°"}, "γ = 180° − 40° − 75°", "γ = 65.0°"),
    ("x = L sin α", "α in ° to 1 dp", {"L": "2 m", "x": "1.5 m"}, "1.5 = 2 sin α", "α = 48.6°"),
    ("α = asin(x / L)", "α in ° to 1 dp", {"L": "2 m", "x": "1.5 m"}, "α = sin⁻¹(1.5 / 2)", "α = 48.6°"),
    (
        "Q = m c (T_2 - T_1)", "Q in J to 0 dp",
        {"m": "250 g", "c": "900 J/(kg K)", "T_1": "22 °C", "T_2": "90 °C"},
        "Q = (0.250)(900)(90 − 22)", "Q = 15 300 J",
    ),
    (
        "P = K A (T_1 - T_2) / d", "P in kW to 1 dp",
        {"K": "0.8 W/(m K)", "A": "2 m^2", "d": "6 mm", "T_1": "21 °C", "T_2": "5 °C"},
        "P = (0.8)(2)(21 − 5) / 0.006", "P = 4 266.67 W = 4.3 kW",
    ),
    ("s = v t", "s in m to 2 dp", {"v": "120 km/h", "t": "41.5 s"}, "s = (33.3333)(41.5)", "s = 1 383.33 m"),
    ("s = v t", "s in m to 0 dp", {"v": "120 km/h", "t": "41.5 s"}, "s = (33.33)(41.5)", "s = 1 383 m"),
    (
        "E_k = 1/2 I ω^2", "E_k in J", {"I": "0.4 kg·m^2", "ω": "300 rev/min"},
        "E_k = 1/2(0.4)(31.416)²", "E_k = 197.39 J",
    ),
    (
        "n = a (γ - 1)", "n to 1 dp", {"v": "0.6", "γ": "1 / sqrt(1 - v^2)", "w": "0.9", "a": "1000 / sqrt(1 - w^2)"},
        "n = 2 294.16 (1.25 − 1)", "n = 573.5",
    ),
    (
        "n = T_1 / (T_2 - T_1)", "n", {"T_1": "-15 °C", "T_2": "30 °C"},
        "n = 258.15 / (303.15 − 258.15)", "n = 5.74",
    ),
    (
        "m g h = m c (T_2 - T_1)", "T_2 in °C to 1 dp",
        {"m": "0.5 kg", "g": "9.8 m/s^2", "h": "200 m", "c": "420 J/(kg K)", "T_1": "20 °C"},
        "(0.5)(9.8)(200) = (0.5)(420)(T₂ − 20)", "T₂ = 24.7 °C",
    ),
)  # fmt: skip


@pytest.mark.parametrize(
    ("formula", "find", "data", "substitution", "answer"), LINES, ids=lambda v: str(v)[:30]
)
def test_the_line_and_its_answer(
    formula: str, find: str, data: dict[str, str], substitution: str, answer: str
) -> None:
    solution = calculate(f"formula: {formula}\nfind: {find}", data)
    lines = {step.kind: step.text.replace("\u202f", " ").replace("\u00a0", " ") for step in solution.steps}
    assert (lines["substitution"], lines["answer"]) == (substitution, answer)


@pytest.mark.parametrize(
    ("formula", "find", "data", "substitution"),
    [
        ("R = V / I", "R in Ω", {"V": "3/4 V", "I": "1/8 A"}, "R = 3/4 / (1/8)"),
        ("R = V^2 / P", "R in Ω", {"V": "3/4 V", "P": "1/8 W"}, "R = (3/4)² / (1/8)"),
        ("1/f = 1/u + 1/v", "f in m", {"u": "1/2 m", "v": "1/3 m"}, "1 / f = 1 / (1/2) + 1 / (1/3)"),
    ],
)
def test_a_fraction_that_is_divided_by_stands_in_brackets(
    formula: str, find: str, data: dict[str, str], substitution: str
) -> None:
    lines = [step.text for step in calculate(f"formula: {formula}\nfind: {find}", data).steps]
    assert substitution in lines


def test_a_component_of_zero_stands_in_brackets_beside_a_number() -> None:
    data = {"m": "2 kg", "v": "3 m/s at east", "u": "4 m/s at north"}
    text = calculate("formula: p = m v + m u\nfind: p in kg·m/s with direction", data).text
    assert "p_x = (2)(3) + (2)(0)" in text
