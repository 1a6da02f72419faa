"""Vectors of published examples and of chance, and the working of both."""

from __future__ import annotations

import cmath
import math
import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from physcalc.units import from_si, read_unit

from .authoring import (
    answers,
    printed,
    shown,
    slugs,
    statement,
    text,
    work,
)  # fmt: skip
from .vectors_worked import FORCES, degrees, plane, points

CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for case in yaml.safe_load(
        (Path(__file__).parent / "cases" / "worked_examples.yaml").read_text(encoding="utf-8")
    )
}


@pytest.mark.parametrize(
    ("case", "given_", "formula", "find", "size", "direction", "wrong"),
    [
        # The data are those of the example, with their directions; the size is the printed one of the file.
        ("two-leg-walk", ["A: 53.0 m at 20.0°", "B: 34.0 m at 63.0°"], "R = A + B", "R in m to 3 sf", "R", "36.6°", ""),
        # Drawn with ruler and protractor: 22.6 m and 6.8° follow from the data.
        ("boat-wrong-leg", ["A: 27.5 m at 66.0°", "B: 30.0 m at 112°"], "R = A - B", "R in m to 3 sf", "R",
         "7.5° south of east", "direction-disagrees"),
        ("boat-wrong-leg", ["A: 27.5 m at 66.0°", "B: 30.0 m at 112°"], "R = A - B", "R in m to 3 sf", "R",
         "6.8° south of east", "answer-disagrees"),
        ("dark-room-collision",
         ["m_1: 0.250 kg", "m_2: 0.400 kg", "v_1: 2 m/s at 0°", "u_1: 1.50 m/s at 45.0°"],
         "m_1 v_1 = m_1 u_1 + m_2 u_2", "u_2 in m/s to 3 sf", "u_2", "312°", ""),
        # The book adds components that it has rounded; 8.30 follows from the data.
        ("four-forces-magnitude",
         ["m: 4.0 kg", "F_1: 10.0 N at 30°", "F_2: 40.0 N at down", "F_3: 5.0 N at left", "F_4: 2.0 N at up"],
         "F_1 + F_2 + F_3 + F_4 = m a", "a in m/s^2 to 2 sf", "a", "276°", "answer-disagrees"),
        ("crossroads-wreck",
         ["m_c: 1200 kg", "v_c: 60 km/h at east", "m_T: 3000 kg", "v_T: 40 km/h at north"],
         "m_c v_c + m_T v_T = (m_c + m_T) v", "v in km/h to 3 sf", "v", "59° north of east", ""),
        ("barge-drag", ["F_1: 2.7e5 N at right", "F_2: 3.6e5 N at up", "m: 5.0e6 kg", "a: 7.5e-2 m/s^2 at 53.1301°"],
         "F_1 + F_2 + F_D = m a", "F_D in N to 2 sf", "F_D", "53.1° below left", ""),
        # From the sides that the book has rounded.
        ("fireworks-displacement", ["x: 125 m at right", "y: 233 m at up"], "s = x + y", "s in m to 3 sf", "s",
         "61.8° above right", ""),
        ("circular-total-acceleration", ["a_c: 3.1 m/s^2 at up", "a_T: 1.5 m/s^2 at right"], "a = a_c + a_T",
         "a in m/s^2 to 3 sf", "a", "64° above right", ""),
    ],
)  # fmt: skip
def test_published(
    case: str, given_: list[str], formula: str, find: str, size: str, direction: str, wrong: str
) -> None:
    """OpenStax; the source of each is named in the file, by its id."""
    value = CASES[case]["find"][size]
    outcome = work(formula, find, given=given_, answer=f"{value} at {direction}", sheet_name="codata")
    assert [slug for slug in slugs(outcome) if slug != "answer-coarse"] == ([wrong] if wrong else [])


def test_two_source_charges() -> None:
    """OpenStax, University Physics Volume 2, example 5.2 (`coulomb-2d-net`): 4.08e-14 N, 58° above −x."""
    printed_ = CASES["coulomb-2d-net"]["find"]
    conventions = points(A="0 m, 2.0e-7 m", B="4.0e-7 m, 0 m", P="0 m, 0 m")
    data = ["q_1: 3.204e-19 C", "q_2: 4.806e-19 C", "q_3: 8.01e-19 C", "k: 8.99e9 N*m^2/C^2"]
    steps = [
        statement("F_A = k q_1 q_2 / AP^2", "F_A in N at P to A", conventions=conventions),
        statement("F_B = k q_2 q_3 / BP^2", "F_B in N at B to P", conventions=conventions),
        statement(
            "F = F_A + F_B",
            "F in N to 3 sf",
            conventions=conventions,
            answer=f"{printed_['F']} at 58° above left",
        ),
    ]
    outcome = work(steps=steps, given=data, conventions=conventions, sheet_name="codata")
    assert slugs(outcome) == []
    vector = plane(outcome, "F")
    assert (f"{float(vector.x):.3g} N", f"{float(vector.y):.3g} N") == (printed_["F_x"], printed_["F_y"])


def test_working_of_a_sum() -> None:
    assert shown(work("F = F_1 + F_2", "F in N with direction", given=FORCES).working) == [
        "F = F₁ + F₂",
        "F_x = F_1x + F_2x",
        "F_x = 12 cos(30°) + 5 cos(90°)",
        "F_x = 10.39 N",
        "F_y = F_1y + F_2y",
        "F_y = 12 sin(30°) + 5 sin(90°)",
        "F_y = 11.00 N",
        "F = √(F_x² + F_y²)",
        "F = √((10.39)² + (11.00)²)",
        "F = 15.13 N",
        "tan θ = |F_y| / |F_x|",
        "tan θ = 11.00 / 10.39",
        "θ = 46.63°",
        "F = 15.13 N at 46.63°",
    ]


def test_working_with_bearings() -> None:
    data = ["A: 3 km at bearing 030°", "B: 4 km at bearing 120°"]
    # A right angle between the legs: 5 km, and 30° + atan(4/3) = 083.13°. Components have the digits that give 6.87°:
    # atan(0.60/4.96) is 6.90°.
    assert shown(work("R = A + B", "R in km with direction", given=data).working) == [
        "R = A + B",
        "R_x = A_x + B_x",
        "R_x = 3 sin(030°) + 4 sin(120°)",
        "R_x = 4.964 km",
        "R_y = A_y + B_y",
        "R_y = 3 cos(030°) + 4 cos(120°)",
        "R_y = 0.598 km",
        "R = √(R_x² + R_y²)",
        "R = √((4.964)² + (0.598)²)",
        "R = 5.00 km",
        "tan θ = |R_y| / |R_x|",
        "tan θ = 0.598 / 4.964",
        "θ = 6.87°",
        "R = 5.00 km at a bearing of 083.13°",
    ]


def test_working_with_typed_components() -> None:
    lines = shown(work("F = A - B", "F in N", given=["A: 3 N, 4 N", "B: -1 N, 2 N"]).working)
    assert lines[1:4] == ["F_x = A_x − B_x", "F_x = 3 − (−1)", "F_x = 4.00 N"]
    assert lines[-1] == "F = 4.47 N"


def test_working_of_momentum() -> None:
    data = ["m_1: 2 kg", "v_1: 3 m/s at east", "m_2: 3 kg", "v_2: 4 m/s at 30° north of west"]
    lines = shown(work("m_1 v_1 + m_2 v_2 = (m_1 + m_2) v", "v in m/s with direction", given=data).working)
    assert lines[:4] == [
        "m₁ v₁ + m₂ v₂ = (m₁ + m₂) v",
        "m₁ v_1x + m₂ v_2x = (m₁ + m₂) v_x",
        "(2)(3) + 3 (−4 cos(30°)) = (2 + 3) v_x",
        "v_x = −0.8785 m·s⁻¹",
    ]
    # By hand: components (6 − 12 cos 30°)/5 = −0.8785 and 6/5, and atan(1.2/0.8785) = 53.79°.
    assert lines[-1] == "v = 1.49 m·s⁻¹ at 53.79° north of west"


def test_working_of_a_component() -> None:
    assert shown(work("W = F.x d", "W in J", given=["F: 60 N at 35°", "d: 2 m"]).working) == [
        "W = F_x d",
        "W = (60 cos(35°))(2)",
        "W = 98.30 J",
    ]


def test_working_along_an_axis_needs_no_angle() -> None:
    lines = shown(
        work("F = A + B", "F in N with direction", given=["A: 3 N at right", "B: 8 N at left"]).working
    )
    assert "F_x = 3 + (−8)" in lines
    assert not [line for line in lines if "tan" in line]
    assert lines[-1] == "F = 5.00 N to the left"


_SIZE = st.integers(1, 9999).map(lambda n: n / 100)


_FORMS = (
    "{0}°",
    "bearing {1}°",
    "{2}° north of east",
    "{2}° west of north",
    "{2}° below left",
    "{2}° left of down",
)


@st.composite
def _vectors(draw: st.DrawFn) -> tuple[str, complex]:
    """A vector as typed, and as a complex number (x + iy)."""
    size, angle = draw(_SIZE), draw(st.integers(0, 3599)) / 10
    if draw(st.booleans()):
        x, y = draw(_SIZE) * draw(st.sampled_from([1, -1])), draw(_SIZE) * draw(st.sampled_from([1, -1]))
        return f"{x} N, {y} N", complex(x, y)
    form = draw(st.sampled_from(_FORMS))
    turned = angle % 90
    whole = {0: angle, 1: 90 - angle, 2: turned, 3: 90 + turned, 4: 180 + turned, 5: 270 - turned}
    typed = form.format(angle, angle, turned)
    return f"{size} N at {typed}", cmath.rect(size, math.radians(whole[_FORMS.index(form)]))


@settings(max_examples=120, deadline=None)
@given(
    st.lists(st.tuples(_vectors(), st.sampled_from(["+", "-"]), st.integers(1, 9)), min_size=1, max_size=4)
)
def test_random_sums(parts: list[tuple[tuple[str, complex], str, int]]) -> None:
    formula, data, expected = "R =", [], 0j
    for index, ((typed, vector), sign, factor) in enumerate(parts):
        formula += f" {sign} {factor} A_{index}" if index or sign == "-" else f" {factor} A_{index}"
        data.append(f"A_{index}: {typed}")
        expected += (factor if sign == "+" or (not index and sign == "+") else -factor) * vector
    outcome = work(formula, "R in N with direction", given=data)
    vector = plane(outcome, "R")
    assert complex(float(vector.x), float(vector.y)) == pytest.approx(expected, abs=1e-9)
    (answer,) = outcome.working.answers if outcome.working else ()
    assert float(answer.rounded.fraction) == pytest.approx(
        abs(expected), abs=max(0.00501, 1e-2 * abs(expected))
    )
    words = printed(answer.printed)
    direction = re.search(r" N (?:at )?(.*)$", words)
    if abs(expected) > 1e-6:
        assert direction is not None
        turned = math.radians(degrees(direction[1])) - cmath.phase(expected)
        assert math.degrees(math.remainder(turned, math.tau)) == pytest.approx(0, abs=0.00501)


@settings(max_examples=60, deadline=None)
@given(_vectors(), st.integers(1, 99), st.integers(1, 99))
def test_random_momenta(typed: tuple[str, complex], first: int, second: int) -> None:
    """Two bodies stick together, the second one at rest in the beginning."""
    given_ = [f"m_1: {first} kg", f"m_2: {second} kg", f"p: {typed[0]}".replace(" N", " kg m/s")]
    outcome = work("p = (m_1 + m_2) v", "v in m/s with direction", given=given_)
    vector = plane(outcome, "v")
    assert complex(float(vector.x), float(vector.y)) == pytest.approx(typed[1] / (first + second), abs=1e-12)


def test_a_result_in_another_unit() -> None:
    outcome = work("F = F_1 + F_2", "F in kN to 3 sf", given=FORCES)
    vector = plane(outcome, "F")
    assert float(from_si(vector.y, read_unit(text("kN")))) == pytest.approx(0.011)
    assert answers(outcome) == {"F": "1.51 × 10⁻² kN"}
