"""Circuits with diodes, against the same model solved by numbers."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.figures.picture import Label, Line
from scipy.optimize import brentq

from .circuit_cases import drawn, names, picture_of, slugs, value

F = Fraction
DATA = {"ε": "6.0 V", "R_1": "100 ohm", "R_2": "50 ohm", "V_D": "0.70 V"}


@pytest.mark.parametrize(
    ("circuit", "current"),
    [
        ("battery (ε), diode D (0.70 V), R_1", F(53, 1000)),
        ("battery (ε), diode D (V_D), R_1", F(53, 1000)),
        ("battery (ε), diode D (0.70 V) reversed, R_1", F(0)),
        ("battery (ε) reversed, diode D (0.70 V) reversed, R_1", F(53, 1000)),
        ("battery (0.5 V), diode D (0.70 V), R_1", F(0)),
        ("battery (ε), LED (2.0 V), R_1", F(40, 1000)),
        ("battery (ε), diode D (0 V), R_1", F(60, 1000)),
        ("battery (ε), diode D (0.70 V), LED (2.0 V), R_1", F(33, 1000)),
        ("battery (ε), diode D (0.70 V), LED (2.0 V) reversed, R_1", F(0)),
    ],
)
def test_a_diode_in_series_with_a_resistor(circuit: str, current: Fraction) -> None:
    """By hand: I = (ε − V_D)/R where that is forward, else none."""
    found = drawn(circuit, DATA)
    assert slugs(found) == []
    assert abs(value(found, "I_1")) == current


def test_a_diode_across_which_a_voltmeter_reads_what_it_blocks() -> None:
    found = drawn("battery (ε), (diode D (0.70 V) reversed with V), R_1", DATA)
    assert abs(value(found, "V")) == 6


def test_the_branch_whose_diode_points_along_the_current_has_it() -> None:
    found = drawn("battery (ε), (R_1, diode D_1 (0.70 V) | R_2, diode D_2 (0.70 V) reversed)", DATA)
    assert value(found, "I_1") == F(53, 1000)
    assert value(found, "I_2") == 0


BRANCHES = st.lists(st.tuples(st.integers(1, 200), st.integers(0, 30)), min_size=1, max_size=4)


@settings(deadline=None, max_examples=40)
@given(BRANCHES, st.integers(1, 120), st.integers(1, 100))
def test_branches_with_diodes_as_numbers_have_them(
    branches: list[tuple[int, int]], emf: int, inner: int
) -> None:
    """(ε − V)/r = Σ max(0, (V − V_i)/R_i), whose root scipy finds."""
    e, r = emf / 10, inner / 10
    typed = " | ".join(f"R_{n}, diode D_{n} ({v / 10} V)" for n, (_, v) in enumerate(branches, 1))
    data = {f"R_{n}": f"{size} ohm" for n, (size, _) in enumerate(branches, 1)}
    inside = typed if len(branches) == 1 else f"({typed})"
    found = drawn(f"battery ({e} V, {r} ohm), {inside}", data)

    def off(voltage: float) -> float:
        return (e - voltage) / r - sum(max(0.0, (voltage - v / 10) / size) for size, v in branches)

    root = brentq(off, 0.0, e, xtol=1e-13)
    for n, (size, v) in enumerate(branches, 1):
        assert abs(float(value(found, f"I_{n}")) - max(0.0, (root - v / 10) / size)) < 1e-9


def test_what_equal_diodes_in_parallel_share_is_not_known() -> None:
    found = drawn("battery (ε), (diode D_1 (0.70 V), A_1 | diode D_2 (0.70 V), A_2), R_1", DATA)
    assert value(found, "I_1") == F(53, 1000)
    assert not {"A_1", "A_2"} & names(found)


def test_a_diode_without_a_voltage_is_drawn_and_not_worked_out() -> None:
    found = drawn("battery (ε), diode D, R_1", DATA)
    assert slugs(found) == []
    assert "I_1" not in names(found)


@pytest.mark.parametrize(
    ("circuit", "expected"),
    [
        ("battery (ε), diode D (5 ohm), R_1", "component-dimension"),
        ("battery (ε), diode D (-1 V), R_1", "component-negative"),
        ("battery (ε), diode D (0.7 V, 0.6 V), R_1", "circuit-unreadable"),
    ],
)
def test_what_a_diode_cannot_have(circuit: str, expected: str) -> None:
    assert slugs(drawn(circuit, DATA)) == [expected]


def test_a_diode_on_a_battery_has_no_current_that_is_known() -> None:
    found = drawn("battery (ε), diode D (0.70 V)", DATA)
    assert "I" not in names(found)


def test_the_voltage_of_a_diode_stands_beside_it() -> None:
    drawing = picture_of(drawn("battery (ε), diode D (0.70 V), R_1", DATA), printed="0,70 V")
    texts = [shape.text for shape in drawing.shapes if isinstance(shape, Label)]
    assert any("0,70" in text and "D" in text for text in texts)


def test_a_reversed_diode_is_drawn_against_the_others() -> None:
    """The triangle of a diode points along the current that it lets through (IEC 60617)."""
    drawing = picture_of(
        drawn("battery (ε), (R_1, diode D_1 (0.70 V) | R_2, diode D_2 (0.70 V) reversed)", DATA)
    )
    symbols = [
        [shape for shape in drawing.with_role(f"symbol {n}") if isinstance(shape, Line)] for n in range(5)
    ]
    ways = []
    for symbol in symbols:
        triangles = [line for line in symbol if len(line.points) in (3, 4) and len(symbol) > 1]
        if triangles:
            # The bar lies at the tip of the triangle.
            bars = [
                line for line in symbol if len(line.points) == 2 and line.points[0][0] == line.points[1][0]
            ]
            corners = set(triangles[0].points)
            ways.append(bars[0].points[0][0] > sum(x for x, _ in corners) / len(corners))
    # The battery drives to the right above, so below the current comes from the right.
    assert ways == [False, True]
