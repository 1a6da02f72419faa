"""What an author types of a circuit, and what is said where it cannot be read, laid out or worked out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.figures.circuit_naming import WORDS
from physcalc.figures.circuit_parts import Across, InParallel, InSeries, Part, Piece
from physcalc.figures.circuit_reading import read_branches, read_loop
from physcalc.problems import Text

from .circuit_cases import drawn, slugs, value


def told(piece: Piece) -> str:
    """A piece in one spelling."""
    match piece:
        case Part():
            name = f" {piece.name.key}" if piece.name is not None else ""
            values = f" ({'; '.join(text.value for text in piece.values)})" if piece.values else ""
            state = " open" if piece.open else " reversed" if piece.reversed else ""
            count = f"{piece.count} " if piece.count > 1 else ""
            return f"{count}{piece.kind}{name}{values}{state}"
        case InSeries():
            return "[" + ", ".join(map(told, piece.pieces)) + "]"
        case InParallel():
            return "(" + " | ".join(map(told, piece.branches)) + ")"
        case Across():
            return f"{told(piece.piece)} with {told(piece.meter)}"


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("R_1", "resistor R_1"),
        ("R1", "resistor R_1"),
        ("R₁", "resistor R_1"),
        ("a resistor R_1", "resistor R_1"),
        ("R_1 (4 Ω)", "resistor R_1 (4 Ω)"),
        ("R_1 = 4,5 Ω", "resistor R_1 (4,5 Ω)"),
        ("resistor of 4 Ω", "resistor (4 Ω)"),
        ("4 Ω resistor", "resistor (4 Ω)"),
        ("4 Ω", "resistor (4 Ω)"),
        ("12 V battery", "battery (12 V)"),
        ("battery (12,5 V, 0,5 Ω)", "battery (12,5 V; 0,5 Ω)"),
        ("battery ε", "battery (ε)"),
        ("battery ε (r)", "battery (ε; r)"),
        ("cell B_1 (ε_1, r_1) reversed", "cell B_1 (ε_1; r_1) reversed"),
        ("3 cells (1.5 V)", "3 battery (1.5 V)"),
        ("S", "switch S"),
        ("switch S open", "switch S open"),
        ("an open switch S", "switch S open"),
        ("closed switch", "switch"),
        ("light bulb L_1 (R_L)", "lamp L_1 (R_L)"),
        ("variable resistor R_v", "variable resistor R_v"),
        ("A", "ammeter A"),
        ("R_1 with V", "resistor R_1 with voltmeter V"),
        ("R_1 with a voltmeter V_1", "resistor R_1 with voltmeter V_1"),
        ("[R_1, R_2] with V", "[resistor R_1, resistor R_2] with voltmeter V"),
        ("(R_1 | R_2, A_2)", "(resistor R_1 | [resistor R_2, ammeter A_2])"),
        ("(R_1 || R_2)", "(resistor R_1 | resistor R_2)"),
        (
            "R_1, ((R_2 | R_3), R_4 | wire)",
            "[resistor R_1, ([(resistor R_2 | resistor R_3), resistor R_4] | wire)]",
        ),
    ],
)
def test_a_circuit_reads_as_a_teacher_says_it(typed: str, read: str) -> None:
    assert told(read_loop([Text(typed)])) == read


def test_a_loop_may_be_typed_in_several_lines() -> None:
    found = drawn(
        ["battery (12 V, 1 Ω), switch S", "(R_1 | R_2)", "R_3"], {"R_1": "6 Ω", "R_2": "3 Ω", "R_3": "1 Ω"}
    )
    assert value(found, "I") == 3


@pytest.mark.parametrize("line", ["A to B: R_1", "A-B: R_1", "A–B: R_1", "  A to B :R_1"])
def test_a_branch_names_its_nodes(line: str) -> None:
    (branch,) = read_branches([Text(line)])
    assert (branch.start.value, branch.end.value, told(branch.piece)) == ("A", "B", "resistor R_1")


LOOP = ["A to B: battery (9 V, 1 Ω)", "B to A: R_1 (2 Ω)"]
GROUPED = "battery (12 V), R_1, (R_2 | R_3)"
#: Seven branches that are neither a bridge nor in series and parallel.
TANGLE = [
    "A to B: battery (9 V)", "A to C: R_1", "A to D: R_2", "C to D: R_3", "C to E: R_4", "D to B: R_5",
    "E to B: R_6", "E to D: R_7",
]  # fmt: skip


@pytest.mark.parametrize(
    ("circuit", "keys", "slug", "marked"),
    [
        ("battery (12 V), resister R_1", {}, "circuit-word-unknown", "resister R_1"),
        ("battery (12 V), X_1", {}, "circuit-word-unknown", "X_1"),
        ("battery (12 V), (R_1 | R_2", {}, "circuit-unreadable", "("),
        ("battery (12 V, R_1", {}, "circuit-unreadable", "("),
        ("battery (12 V), R_1)", {}, "circuit-unreadable", ")"),
        ("battery (12 V), R_1 | R_2", {}, "circuit-unreadable", "|"),
        ("battery (12 V), , R_1", {}, "circuit-unreadable", ","),
        ("battery (12 V), R_1,", {}, "circuit-unreadable", ""),
        ("battery (12 V) R_1", {}, "circuit-unreadable", "R"),
        ("battery (12 V), R_1 (4 Ω, 5 Ω)", {}, "circuit-unreadable", "5 Ω"),
        ("battery (12 V, 9 V), R_1", {}, "circuit-unreadable", "9 V"),
        ("battery (12 V), R_1 with A", {}, "circuit-unreadable", "A"),
        ("battery (12 V), R_1 open", {}, "circuit-unreadable", "R_1 open"),
        ("battery (12 V), S (4 Ω)", {}, "circuit-unreadable", "4 Ω"),
        ("", {}, "circuit-unreadable", ""),
        ("battery (12 V), R_1, R1", {}, "component-repeated", "R1"),
        ("battery (12 V), R_1 (4 A)", {}, "component-dimension", "4 A"),
        ("battery (12 A), R_1", {}, "component-dimension", "12 A"),
        ("battery (12 V), R_1 (-4 Ω)", {}, "component-negative", "-4 Ω"),
        ("battery (-12 V), R_1", {}, "component-negative", "-12 V"),
        ("battery (12 V), switch S, A", {}, "circuit-shorted", "battery (12 V)"),
        ("battery (12 V, 0 Ω), (R_1 | wire)", {}, "circuit-shorted", "battery (12 V, 0 Ω)"),
        ("(battery (9 V) | battery (8 V)), R_1", {}, "sources-contradict", "battery (8 V)"),
        ("battery (12 V), wire with V_1, R_1", {}, "voltmeter-unplaced", "V_1"),
        ("battery (12 V), R_1, V_1", {}, "voltmeter-unplaced", "V_1"),
        ("battery (12 V), " + "(" * 14 + "R_1" + ")" * 14, {}, "circuit-large", "("),
        ("13 cells (1 V), R_1", {}, "circuit-large", "13 cells"),
        ("battery (12 V), R_1 (2 apples)", {}, "unit-unknown", "apples"),
        (LOOP[:1], {}, "circuit-end-loose", "A"),
        ([*LOOP, "B to C: R_2"], {}, "circuit-end-loose", "C"),
        ([*LOOP, "R_2"], {}, "circuit-unreadable", "R_2"),
        ([*LOOP, "A to A: R_2"], {}, "circuit-unreadable", "A"),
        (TANGLE, {}, "circuit-layout-missing", TANGLE[0]),
        (LOOP, {"at": {"A": "0, 0"}}, "circuit-layout-missing", "B"),
        (LOOP, {"at": {"A": "0, 0", "B": "1, 0"}}, "circuit-layout-missing", "B"),
        (LOOP, {"at": {"A": "0, 0", "X": "1, 0"}}, "figure-name-unknown", ""),
        (LOOP, {"at": {"A": "0, zero"}}, "figure-phrase-unreadable", ""),
        (LOOP, {"at": {"A": "0, 1/0"}}, "figure-phrase-unreadable", ""),
        (LOOP, {"at": {"A": "0, 99999999"}}, "figure-phrase-unreadable", ""),
        ("battery (12 V), R_1", {"at": {"A": "0, 0"}}, "circuit-unreadable", ""),
        ("battery (12 V), R_1", {"labels": "value"}, "figure-phrase-unreadable", ""),
        ("battery (12 V), R_1", {"currents": "I_2"}, "figure-name-unknown", ""),
        ("battery (12 V), R_1", {"names": {"I_a": "curent in R_1"}}, "figure-phrase-unreadable", ""),
        ("battery (12 V), R_1", {"names": {"I_a": "current through R_2"}}, "figure-name-unknown", ""),
        ("battery (12 V), R_1", {"names": {"I_a in V": "current through R_1"}}, "component-dimension", ""),
        (GROUPED, {"names": {"R_p": "resistance of R_1 and R_2"}}, "figure-phrase-unreadable", ""),
    ],
)  # fmt: skip
def test_what_is_wrong_is_said_in_its_place(
    circuit: str | list[str], keys: dict[str, str | dict[str, str]], slug: str, marked: str
) -> None:
    found = drawn(circuit, {"R_1": "4 Ω", "R_2": "3 Ω", "R_3": "6 Ω"}, **keys)
    assert slugs(found) == [slug]
    assert found.diagram is None or slug.startswith("figure-name")
    (problem,) = found.problems
    assert problem.sentence()
    assert problem.mend()
    lines = [circuit] if isinstance(circuit, str) else circuit
    if marked:
        line = lines[problem.span.line - 1]
        assert line[problem.span.column - 1 : problem.span.column - 1 + problem.span.length] == marked


def test_a_short_circuit_names_what_it_leads_through() -> None:
    (problem,) = drawn("battery (12 V), switch S, A_1").problems
    assert problem.sentence() == "the battery is short-circuited through switch S, A_1"
    (problem,) = drawn("battery (12 V), (R_1 (2 Ω) | wire)").problems
    assert problem.sentence() == "the battery is short-circuited through a wire"


def test_equal_batteries_side_by_side_do_not_contradict() -> None:
    found = drawn("(battery (9 V) | battery (9 V)), R_1", {"R_1": "3 Ω"})
    assert slugs(found) == []
    assert value(found, "I_1") == 3


def test_an_open_switch_takes_away_a_short_circuit() -> None:
    assert slugs(drawn("battery (12 V), (R_1 (2 Ω) | switch S open)")) == []


def test_crossing_branches_need_other_places() -> None:
    at = {"A": "0, 0", "B": "2, 2", "C": "0, 2", "D": "2, 0", "E": "1, 3"}
    (problem,) = drawn(TANGLE, at=at).problems
    assert problem.slug == "circuit-layout-missing"
    assert "crosses" in problem.sentence()
    good = {"A": "0, 0", "C": "1, 1", "D": "2, 0", "E": "3, 1", "B": "4, 0"}
    around = ["A to P: battery (9 V)", "P to Q: wire", "Q to B: wire", *TANGLE[1:]]
    found = drawn(around, at={**good, "P": "0, -1", "Q": "4, -1"})
    assert slugs(found) == []


@given(st.text(st.sampled_from("RAVS_12 ,|()[]=εΩ.wither"), max_size=60))
def test_any_text_is_read_or_refused(typed: str) -> None:
    for problem in drawn(typed).problems:
        assert problem.sentence()


@given(
    st.lists(
        st.sampled_from([*WORDS, "R_1", ",", "|", "(", ")", "with", "4 Ω", "[", "]", "A to B:"]), max_size=20
    )
)
def test_any_words_are_read_or_refused(words: list[str]) -> None:
    for problem in drawn(" ".join(words)).problems:
        assert problem.sentence()


@pytest.mark.parametrize(
    ("part", "mend"),
    [
        ("R_1 4 Ω", "a value stands in brackets or behind =: R_1 (4 Ω)"),
        ("R1 4 ohm", "a value stands in brackets or behind =: R1 (4 ohm)"),
        ("voltmeter V across R_2", "a voltmeter follows what it is connected across: R_2 with V"),
    ],
)
def test_what_a_teacher_may_type_is_answered_with_what_is_meant(part: str, mend: str) -> None:
    (problem,) = drawn(f"battery (12 V), R_2, {part}", {"R_2": "3 Ω"}).problems
    assert (problem.slug, problem.mend()) == ("circuit-word-unknown", mend)
