"""What is refused, where the mark stands, and what is advised."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.problems import Problem, Span, Text
from physcalc.problems.units import UnitAmbiguous, UnitUnknown, UnitUnreadable
from physcalc.units import Unit, read_unit


def refusal(typed: str) -> Problem:
    with pytest.raises(Problem) as found:
        read_unit(Text(typed, Span("test.md", 7, 11, max(1, len(typed)))))
    return found.value


def marked(typed: str, problem: Problem) -> str:
    """The characters that the problem's span covers."""
    assert (problem.span.file, problem.span.line) == ("test.md", 7)
    start = problem.span.column - 11
    return typed[start : start + problem.span.length]


@pytest.mark.parametrize(
    ("typed", "mark", "nearest"),
    [
        ("Nm", "Nm", "N·m"),
        ("Nms-1", "Nms", "N·m·s"),
        ("Js", "Js", "J·s"),
        ("kNm", "kNm", "kN·m"),
        ("kgm-3", "kgm", "kg·m"),
        ("kgms^-1", "kgms", "kg·m·s"),
        ("m² Pas", "Pas", "Pa·s"),
        ("J/kg°C", "kg°C", "kg·°C"),
        ("Kg", "Kg", "kg"),
        ("KG", "KG", "kg"),
        ("KM/h", "KM", "km"),
        ("pa", "pa", "Pa"),
        ("hz", "hz", "Hz"),
        ("MHZ", "MHZ", "MHz"),
        ("ev", "ev", "eV"),
        ("mev", "mev", "MeV"),
        ("KW", "KW", "kW"),
        ("kwh", "kwh", "kWh"),
        ("kgs", "kgs", "kg"),
        ("cms", "cms", "cm"),
        ("sec", "sec", "s"),
        ("m/sec", "sec", "s"),
        ("km/hr", "hr", "h"),
        ("kph", "kph", "km/h"),
        ("mps", "mps", "m/s"),
        ("cc", "cc", "cm³"),
        ("newtons", "newtons", "N"),
        ("ohms", "ohms", "Ω"),
        ("Nw", "Nw", "N"),
        ("hh", "hh", "h"),
        ("kiloohms", "kiloohms", "kΩ"),
        ("kilometres", "kilometres", "km"),
        ("Joule", "Joule", "J"),
        ("degrees", "degrees", "°"),
        ("mµm", "mµm", "nm"),
        ("µkg", "µkg", "mg"),
        ("° C", "° C", "°C"),
        ("J/(kg ° C)", "° C", "°C"),
        ("deg C", "deg C", "°C"),
        ("°K", "°K", "K"),
        ("c", "c", "C"),
        ("m/c", "c", "C"),
        ("turns", "turns", None),
        ("photons", "photons", None),
        ("lines/mm", "lines", None),
        ("A·turns", "turns", None),
        ("m per s", "per", "/"),
        ("__import__", "__import__", None),
    ],
)
def test_unknown(typed: str, mark: str, nearest: str | None) -> None:
    problem = refusal(typed)
    assert isinstance(problem, UnitUnknown)
    assert (marked(typed, problem), problem.word, problem.nearest) == (mark, mark, nearest)
    assert mark in problem.sentence()
    assert nearest is None or nearest in problem.mend()


@pytest.mark.parametrize(
    ("typed", "mark", "readings"),
    [
        ("ms-1", "ms-1", ("m·s⁻¹", "(ms)⁻¹")),
        ("ms−1", "ms−1", ("m·s⁻¹", "(ms)⁻¹")),
        ("ms^-1", "ms^-1", ("m·s⁻¹", "(ms)⁻¹")),
        ("ms⁻²", "ms⁻²", ("m·s⁻²", "(ms)⁻²")),
        ("kg ms-1", "ms-1", ("m·s⁻¹", "(ms)⁻¹")),
        ("W mK^-1", "mK^-1", ("m·K⁻¹", "(mK)⁻¹")),
        ("J/kg K", "J/kg K", ("J/(kg·K)", "J·K/kg")),
        ("J/kg·K", "J/kg·K", ("J/(kg·K)", "J·K/kg")),
        ("J/kg.K", "J/kg.K", ("J/(kg·K)", "J·K/kg")),
        (" J/kg K ", "J/kg K", ("J/(kg·K)", "J·K/kg")),
        ("N (J/kg K)", "J/kg K", ("J/(kg·K)", "J·K/kg")),
        ("1/m s", "1/m s", ("1/(m·s)", "s/m")),
        ("J/kg K-1", "J/kg K-1", ("J·K/kg", "J/(kg·K)")),
        ("kg/m/s", "kg/m/s", ("kg/(m·s)", "kg·s/m")),
        ("kg/m/s²", "kg/m/s²", ("kg/(m·s²)", "kg·s²/m")),
        ("W/m²/K", "W/m²/K", ("W/(m²·K)", "W·K/m²")),
        ("W/mK", "W/mK", ("W/(m·K)", "W·(mK)⁻¹")),
        ("W/(mK)", "W/(mK)", ("W/(m·K)", "W·(mK)⁻¹")),
    ],
)
def test_ambiguous(typed: str, mark: str, readings: tuple[str, str]) -> None:
    problem = refusal(typed)
    assert isinstance(problem, UnitAmbiguous)
    assert marked(typed, problem).strip() == mark
    assert problem.text == mark
    assert problem.readings == readings
    first, second = (read_unit(Text(reading)) for reading in readings)
    assert first != second
    assert all(reading in problem.mend() for reading in readings)


@pytest.mark.parametrize(
    ("typed", "mark"),
    [
        ("m/s^", "^"),
        ("m/s**2", "**"),
        ("m**2", "**"),
        ("m^2^3", "^"),
        ("m ^2", "^"),
        ("m^13", "^13"),
        ("m^-13", "^-13"),
        ("m^99999999999999999999", "^99999999999999999999"),
        ("m¹³", "¹³"),
        ("N (m^12)^12", "(m^12)^12"),
        ("m⁰", "⁰"),
        ("m^0", "^0"),
        ("m^(1/0)", "^(1/0)"),
        ("m^(1/13)", "^(1/13)"),
        ("1", "1"),
        ("3 m", "3"),
        ("m 3", "3"),
        ("3.5 m", "3.5"),
        ("-1", "-1"),
        ("1/", "/"),
        ("J/", "/"),
        ("J/)", ")"),
        ("()", ")"),
        ("m)", ")"),
        ("(m", "("),
        ("((((( m)))))", "("),
        ("m·", "·"),
        ("·m", "·"),
        ("N··m", "·"),
        ("N-m", "-"),
        ("kW-h", "-"),
        ("&", "&"),
        ("m$", "$"),
        ("m\\cdot s", "\\"),
        ("m,s", ","),
        ("√Hz", "√"),
        ("m·s·m·s·m·s·m·s·m·s·m·s·m", "m·s·m·s·m·s·m·s·m·s·m·s·m"),
    ],
)
def test_unreadable(typed: str, mark: str) -> None:
    problem = refusal(typed)
    assert isinstance(problem, UnitUnreadable)
    assert marked(typed, problem) == mark
    assert mark in problem.sentence()


def test_too_long() -> None:
    assert read_unit(Text("m" + " " * 79)).text() == "m"
    problem = refusal("m" + " " * 80)
    assert isinstance(problem, UnitUnreadable)
    assert "80" in problem.sentence()


def test_the_largest_unit_that_the_limits_allow_is_held() -> None:
    typed = " ".join(["Qm^12"] * 12)
    assert read_unit(Text(typed)).scale.fraction == 10**4320


def test_the_same_text_is_refused_at_its_own_place() -> None:
    for column in (3, 30):
        with pytest.raises(UnitUnknown) as found:
            read_unit(Text("N parrot", Span("a.md", 2, column, 8)))
        assert found.value.span == Span("a.md", 2, column + 2, 6)


def outcome(typed: str) -> Unit | Problem:
    try:
        return read_unit(Text(typed))
    except Problem as problem:
        return problem


@given(st.text(alphabet="mskgNCJKΩ°µ%/·. *^()-−123⁻¹²{}Δ_", max_size=30))
def test_anything_typed_is_read_or_refused_inside_its_text(typed: str) -> None:
    found = outcome(typed)
    if isinstance(found, Problem):
        assert isinstance(found, UnitUnknown | UnitAmbiguous | UnitUnreadable)
        assert 1 <= found.span.column <= len(typed)
        assert found.span.column + found.span.length - 1 <= len(typed)
        assert found.sentence()
    else:
        assert read_unit(Text(found.text())).factors == found.factors
        assert read_unit(Text(found.text("solidus"))).dimension == found.dimension


@pytest.mark.parametrize("problem", [UnitUnknown, UnitAmbiguous, UnitUnreadable])
def test_the_examples_of_a_problem_show_it(
    problem: type[UnitUnknown | UnitAmbiguous | UnitUnreadable],
) -> None:
    assert isinstance(outcome(problem.wrong.split(" ", 2)[2]), problem)
    assert isinstance(outcome(problem.right.split(" ", 2)[2]), Unit)


@pytest.mark.parametrize(
    ("typed", "advice"),
    [
        ("N north", "a direction stands behind a comma: 3 m/s, north"),
        ("N to the left", "a direction stands behind a comma: 3 m/s, to the left"),
        ("m/s towards B", "a direction stands behind a comma: 3 m/s, towards the wall"),
        ("N clockwise", "a direction stands behind a comma: 3 m/s, clockwise"),
        ("N, 57.5°", "a direction in a plane stands behind at: 12 N at 30°"),
        ("N, right", "what is found with its direction says so: F in N with direction"),
        ("N @ 30°", "a direction in a plane stands behind at: 12 N at 30°"),
        ("N)", "take it out; two components stand without brackets: 3 N, 4 N"),
        # 31/60 = 0.5166…, and 15/60 = 0.25.
        ("arcmin", "write minutes of arc as a part of a degree: 31/60 ° for 31′, and 30.25° for 30° 15′"),
        ("'", "write minutes of arc as a part of a degree: 31/60 ° for 31′, and 30.25° for 30° 15′"),
        ("° 15'", "write minutes of arc as a part of a degree: 31/60 ° for 31′, and 30.25° for 30° 15′"),
    ],
)
def test_what_a_teacher_may_type_is_answered_with_what_is_meant(typed: str, advice: str) -> None:
    assert refusal(typed).mend() == advice
