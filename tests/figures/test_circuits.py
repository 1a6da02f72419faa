"""Circuits worked out, against the rules of series and parallel, numerical analysis and published examples."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physcalc.checking.scope import Scope
from physcalc.figures.circuit_network import equations, network_of
from physcalc.figures.circuit_parts import parts_of
from physcalc.figures.circuit_reading import read_branches
from physcalc.figures.circuit_values import ratings_of
from physcalc.language import Conventions
from physcalc.problems import Text

from .circuit_cases import NETS, Net, drawn, given_of, names, slugs, value

F = Fraction


@settings(deadline=None)
@given(NETS, st.integers(1, 400), st.integers(0, 50))
def test_series_and_parallel_by_their_rules_exactly(net: Net, emf: int, inner: int) -> None:
    """The total of resistances is their sum in series, and the inverse of the sum of inverses in parallel."""
    numbers: list[int] = []
    circuit = f"battery (ε, r), switch S, {net.text(numbers)}, A"
    found = drawn(circuit, {"ε": f"{emf} V", "r": f"{inner / 10} ohm", **given_of(net)})
    if slugs(found) == ["circuit-wide"]:
        return
    current = F(emf) / (net.resistance + F(inner, 10))
    assert value(found, "I") == value(found, "A") == current
    assert value(found, "R_ext") == net.resistance
    assert value(found, "V_ext") == F(emf) - current * F(inner, 10)
    for at, (one, size) in enumerate(zip(net.currents(current), net.sizes(), strict=True), 1):
        assert value(found, f"I_{at}") == one
        assert value(found, f"V_{at}") == one * size
        assert value(found, f"P_{at}") == one**2 * size


BRANCHES = st.lists(
    st.tuples(
        st.integers(0, 5), st.integers(0, 5), st.integers(1, 900), st.integers(0, 300), st.booleans()
    ).filter(lambda branch: branch[0] != branch[1]),
    min_size=2,
    max_size=14,
)


@settings(deadline=None)
@given(BRANCHES)
def test_any_network_as_a_numerical_nodal_analysis_has_it(
    branches: list[tuple[int, int, int, int, bool]],
) -> None:
    """Node potentials from G v = i, with numpy: a method that shares nothing with the exact one."""
    letters = "ABCDEF"
    lines, wanted = [], []
    for at, (start, end, tenths, emf, reversed_) in enumerate(branches, 1):
        battery = f"battery ({emf} V, 0.5 Ω){' reversed' if reversed_ else ''}, " if emf else ""
        lines.append(f"{letters[start]} to {letters[end]}: {battery}R_{at} ({tenths / 10} Ω)")
        resistance = tenths / 10 + (0.5 if emf else 0.0)
        wanted.append((start, end, resistance, -emf if reversed_ else emf))
    conductance, sources = np.zeros((6, 6)), np.zeros(6)
    for start, end, resistance, emf in wanted:
        for one, other in ((start, end), (end, start)):
            conductance[one, one] += 1 / resistance
            conductance[one, other] -= 1 / resistance
        sources[start] -= emf / resistance
        sources[end] += emf / resistance
    potentials = np.linalg.pinv(conductance) @ sources
    read = read_branches([Text(line) for line in lines])
    network = network_of((one.start.value, one.end.value, one.piece) for one in read)
    ratings = {
        part.number: ratings_of(part, Scope(), Conventions()) for one in read for part in parts_of(one.piece)
    }
    system = equations(network, ratings)
    resistors = [link for link in network.links.values() if link.part.kind == "resistor"]
    for link, (start, end, resistance, emf) in zip(resistors, wanted, strict=True):
        known = system.value(link.current)
        assert known is not None
        expected = (potentials[start] - potentials[end] + emf) / resistance
        assert float(known.get("", F(0))) == pytest.approx(expected, rel=1e-7, abs=1e-7)


# Published worked examples.


def test_a_network_of_six_resistors() -> None:
    """OpenStax, Physics, section 19.3, Worked Example Find the Current through a Complex Resistor Circuit:
    25.71 Ω, 45.71 Ω, 29.09 Ω, 104.09 Ω and 0.096 A."""
    data = {
        "V_0": "10 V",
        "R_1": "75 Ω",
        "R_2": "50 Ω",
        "R_3": "30 Ω",
        "R_4": "45 Ω",
        "R_5": "60 Ω",
        "R_6": "20 Ω",
    }
    named = {
        "R_a": "resistance of (R_4 | R_5)",
        "R_c": "resistance of R_4, R_5 and R_6",
        "R_d": "resistance of (R_2, R_3 | R_4, R_5, R_6)",
        "R_e": "external resistance",
    }
    found = drawn("battery (V_0), R_1, (R_2, R_3 | (R_4 | R_5), R_6)", data, names=named)
    for name, printed in (("R_a", "25.71"), ("R_c", "45.71"), ("R_d", "29.09"), ("R_e", "104.09")):
        assert round(value(found, name), 2) == F(printed)
    assert round(value(found, "I"), 3) == F("0.096")


def test_three_currents_by_the_rules_of_kirchhoff() -> None:
    """OpenStax, University Physics Volume 2, section 10.3, Example 10.6: 0.20 A, 0.30 A and 0.50 A."""
    found = drawn(
        [
            "A to B: battery (0.5 V), R_1 (3 Ω)",
            "A to B: battery (2.30 V), R_2 (8 Ω)",
            "B to A: battery (0.6 V), R_3 (1 Ω)",
        ]
    )
    assert [value(found, name) for name in ("I_1", "I_2", "I_3")] == [F("0.2"), F("0.3"), F("0.5")]


def test_a_current_against_the_assumed_direction() -> None:
    """OpenStax, University Physics Volume 2, section 10.3, worked circuit in the text: 3.00 A, 5.00 A, −2.00 A."""
    found = drawn(
        [
            "A to B: battery (24 V), R_1 (3 Ω)",
            "B to A: R_2 (3 Ω)",
            "B to A: battery (29 V) reversed, R_3 (7 Ω)",
        ]
    )
    assert [value(found, name) for name in ("I_1", "I_2", "I_3")] == [3, 5, -2]


def test_a_balanced_bridge_has_no_current_in_the_middle() -> None:
    """Wheatstone's condition R_1/R_2 = R_3/R_4; common practice, no source."""
    lines = ["A to B: battery (6 V, 1 Ω)", "A to C: R_1 (2 Ω)", "C to B: R_2 (6 Ω)", "A to D: R_3 (5 Ω)"]
    found = drawn([*lines, "D to B: R_4 (15 Ω)", "C to D: G"])
    assert value(found, "G") == 0
    assert value(drawn([*lines, "D to B: R_4 (14 Ω)", "C to D: G"]), "G") != 0


# What is known and what is not.


def test_an_open_switch_stops_the_current_and_the_voltmeter_shows_the_emf() -> None:
    found = drawn("battery (ε, r) with V, switch S open, R_1", {"ε": "12 V", "r": "0.5 Ω", "R_1": "4 Ω"})
    assert slugs(found) == []
    assert value(found, "V") == 12
    assert value(found, "I") == value(found, "V_1") == value(found, "V_int") == 0
    assert "R_ext" not in names(found)


def test_a_reading_takes_the_place_of_a_missing_value() -> None:
    """ε = I (R + r): 9 V, 2 A and 4 Ω leave 0.5 Ω; common practice, no source."""
    found = drawn("battery (ε, r), A, R_1", {"ε": "9 V", "R_1": "4 Ω", "A": "2 A"})
    assert value(found, "r") == F(1, 2)
    assert value(found, "V_int") == 1
    assert "A" not in names(found)
    found = drawn("battery (ε, r), R_1, R_x with V_x", {"ε": "9 V", "r": "0.5 Ω", "R_1": "4 Ω", "I": "1.5 A"})
    assert value(found, "R_x") == F(3, 2)
    assert value(found, "V_x") == F(9, 4)


def test_what_an_earlier_circuit_found_is_no_reading_of_this_one() -> None:
    """With the switch open the current is zero, which says nothing of the current with the switch closed."""
    data = {"ε": "9 V", "R_1": "4 Ω"}
    before = drawn("battery (ε, r), switch S open, A, R_1", data)
    assert value(before, "A") == 0
    after = drawn("battery (ε, r), switch S, A, R_1", data, before)
    assert slugs(after) == []
    assert "A" not in names(after)
    assert "r" not in names(after)
    known = drawn("battery (ε, r), switch S, A, R_1", {**data, "r": "0.5 Ω"}, before)
    assert value(known, "A") == 2


def test_what_cannot_be_told_is_left_out_and_the_rest_is_there() -> None:
    found = drawn("battery (12 V), (R_1 | R_x)", {"R_1": "4 Ω"})
    assert slugs(found) == []
    assert value(found, "I_1") == 3
    assert value(found, "V_x") == 12
    assert names(found) & {"I", "I_x", "R_ext", "R_x"} == set()
    assert found.diagram is not None


def test_a_value_that_is_given_is_never_hidden_and_must_agree() -> None:
    data = {"R_1": "14 Ω", "R_2": "35 Ω"}
    circuit = "battery (12 V), (R_1 | R_2)"
    assert slugs(drawn(circuit, {**data, "I_1": "0.86 A"})) == []
    assert "I_1" not in names(drawn(circuit, {**data, "I_1": "0.86 A"}))
    found = drawn(circuit, {**data, "I_1": "0.87 A"})
    assert slugs(found) == ["circuit-disagrees"]
    assert "I_1 is 0,86\u00a0A in this circuit, but 0,87\u00a0A is given" in found.problems[0].sentence()
    # Another name for the current, and the letter may mean what it likes.
    assert slugs(drawn(circuit, {**data, "I_1": "5 A"}, names={"I_a": "current through R_1"})) == []


def test_readings_may_be_off_by_their_rounding_and_what_follows_from_them_by_as_much() -> None:
    data = {"R_1": "100 Ω", "R_x": "50 Ω", "I": "0.12 A"}
    # 100 Ω takes 12,0 V ± 0,5 V of a current of 0,12 A ± 0,005 A.
    assert slugs(drawn("battery (ε), R_1 with V_a, R_2", {**data, "V_a": "12.4 V"})) == []
    assert slugs(drawn("battery (ε), R_1 with V_a, R_2", {**data, "V_a": "13.0 V"})) == ["circuit-disagrees"]


def test_names_follow_the_parts_and_may_be_chosen_with_unit_and_form() -> None:
    named = {"I_a in mA to 1 dp": "current through R_1", "V_p": "voltage across (R_1 | R_2)"}
    found = drawn("battery (12 V), (R_1 | R_2), lamp L (2 Ω)", {"R_1": "4 Ω", "R_2": "12 Ω"}, names=named)
    assert {"I_a", "V_p", "I_2", "V_2", "P_2", "I_L", "V_L", "P_L", "I", "R_ext", "V_ext"} <= names(found)
    assert "I_1" not in names(found)
    assert value(found, "I_a") == F(9, 5)
    assert value(found, "V_p") == F(36, 5)


def test_results_rest_on_every_value_of_the_circuit() -> None:
    found = drawn("battery (ε, r), R_1", {"ε": "9 V", "r": "1 Ω", "R_1": "2 Ω"})
    for datum in found.results.values():
        assert {one.name.key for one in datum.rests_on} == {"ε", "r", "R_1"}


def test_the_resistance_between_terminals() -> None:
    found = drawn("terminals, R_1, (R_2 | R_3)", {"R_1": "4 Ω", "R_2": "6 Ω", "R_3": "3 Ω"})
    assert value(found, "R_ext") == 6
    assert names(found) == {"R_ext"}


def test_cells_and_meters_with_a_resistance_of_their_own() -> None:
    """Three cells in series have three times the emf and the internal resistance; common practice, no source."""
    assert value(drawn("3 cells (1.5 V, 0.2 Ω), R_1 (2.4 Ω)"), "I") == F(3, 2)
    found = drawn("battery (10 V), R_1 (5 Ω) with V_1 (20 Ω), A_1 (1 Ω)")
    assert value(found, "A_1") == 2
    assert value(found, "V_1") == 8


def test_a_capacitor_stops_a_steady_current() -> None:
    found = drawn("battery (10 V, 1 Ω), (R_1 | R_2, capacitor C)", {"R_1": "4 Ω", "R_2": "5 Ω"})
    assert value(found, "I_2") == 0
    assert value(found, "I_1") == 2


def test_values_that_are_no_fractions_count_to_sixty_figures() -> None:
    found = drawn("battery (10 V), R_1", {"R": "2.00 ohm", "R_1": "R sqrt(2)"})
    assert abs(value(found, "I_1") ** 2 - F(25, 2)) < F(1, 10**55)


def test_as_many_resistors_as_a_page_holds_are_worked_out_and_more_are_refused() -> None:
    rows = " | ".join(
        ", ".join(f"R_{{{row}x{n}}} ({17 * row + n}.{n}37 Ω)" for n in range(9)) for row in range(1, 12)
    )
    assert slugs(drawn(f"battery (12.345 V, 0.37 Ω), ({rows})")) == []
    many = " | ".join(f"R_{n} (2 Ω)" for n in range(1, 13))
    assert slugs(drawn(f"battery (12 V), ({many})")) == ["circuit-wide"]
    many = " | ".join(f"R_{n} (2 Ω)" for n in range(1, 250))
    assert slugs(drawn(f"battery (12 V), ({many})")) == ["circuit-large"]


def test_numbers_of_a_hundred_figures_come_to_an_end() -> None:
    rows = " | ".join(
        ", ".join(f"R_{{{row}x{n}}} ({row}.{'7' * 70}{n}{row} Ω)" for n in range(9)) for row in range(1, 12)
    )
    assert set(slugs(drawn(f"battery (12.345 V, 0.37 Ω), ({rows})"))) <= {"work-too-much"}
