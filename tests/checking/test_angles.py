"""Angles and turns in formulas: nothing is out by a factor of 57 or of 2 π in silence."""

from __future__ import annotations

import pytest

from physcalc import CalculationFailed, calculate


def slugs(text: str, data: dict[str, str], **settings: object) -> list[str]:
    with pytest.raises(CalculationFailed) as failed:
        calculate(text, data, sheet="school", **settings)
    return [problem.slug for problem in failed.value.problems]


@pytest.mark.parametrize(
    ("formula", "find", "data"),
    [
        ("γ = 180 - α - β", "γ in °", {"α": "40°", "β": "75°"}),
        ("s = (θ / 360) 2 π r", "s in cm", {"θ": "75°", "r": "30 cm"}),
        ("s = r θ π / 180", "s in cm", {"θ": "75°", "r": "30 cm"}),
        ("φ = 360 t / T", "φ in °", {"t": "0.3 s", "T": "2 s"}),
        ("x = L cos(90 - θ)", "x in m", {"L": "2 m", "θ": "30°"}),
        ("x = L sin β", "x in m", {"L": "2 m", "θ": "30°", "β": "90 - θ"}),
    ],
)
def test_a_bare_number_of_degrees(formula: str, find: str, data: dict[str, str]) -> None:
    assert slugs(f"formula: {formula}\nfind: {find}", data) == ["angle-not-number"]


@pytest.mark.parametrize(
    ("formula", "find", "data", "value"),
    [
        ("γ = 180° - α - β", "γ in ° to 1 dp", {"α": "40°", "β": "75°"}, 65),
        ("s = (θ / 360°) 2 π r", "s in cm to 3 dp", {"θ": "90°", "r": "30 cm"}, 47.124),
        ("s = (n / 360) 2 π r", "s in cm to 3 dp", {"n": "90", "r": "30 cm"}, 47.124),
        ("φ = 360° t / T", "φ in ° to 1 dp", {"t": "0.3 s", "T": "2 s"}, 54),
        ("x = 180 L sin θ", "x in m to 1 dp", {"L": "2 m", "θ": "30°"}, 180),
        ("x = L sin β", "x in m to 1 dp", {"L": "2 m", "θ": "60°", "β": "90° - θ"}, 1),
        ("v = 2 π r f", "v in m/s to 3 dp", {"f": "30 min^-1", "r": "1 m"}, 3.142),
        ("v = ω r", "v in m/s to 3 dp", {"ω": "30 rev/min", "r": "1 m"}, 3.142),
    ],
)
def test_what_says_its_unit(formula: str, find: str, data: dict[str, str], value: float) -> None:
    solution = calculate(f"formula: {formula}\nfind: {find}", data)
    assert float(solution[find.split()[0]]) == value


@pytest.mark.parametrize(
    ("formula", "find", "data"),
    [
        ("v = 2 π r f", "v in m/s", {"f": "33 rev/min", "r": "15 cm"}),
        ("v = 2 π r ω", "v in m/s", {"ω": "33 rpm", "r": "15 cm"}),
        ("F = 4 π^2 m r ν^2", "F in N", {"ν": "33 rpm", "r": "15 cm", "m": "20 g"}),
        ("T = 1 / f", "T in s", {"f": "33 rev/min"}),
        ("T = t / n", "T in s", {"n": "5 rev", "t": "2 s"}),
        ("ω = 2 π f", "f in rev/min", {"ω": "3 rad/s"}),
    ],
)
def test_turns_are_no_frequency(formula: str, find: str, data: dict[str, str]) -> None:
    assert slugs(f"formula: {formula}\nfind: {find}", data) == ["turns-counted"]


def test_an_angle_of_the_sheet_needs_its_unit() -> None:
    assert slugs("use: arc-length\nfind: s in m", {"θ": "75", "r": "3 m"}) == ["angle-unit-missing"]
    solution = calculate("use: arc-length\nfind: s in m", {"θ": "1.5 rad", "r": "3 m"}, sheet="school")
    assert solution["s"].number == 4.5
