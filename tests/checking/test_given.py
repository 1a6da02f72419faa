"""Data lines: values, units, directions, references, expressions, cycles, names given twice.

The expected values follow from the definitions of the units (SI Brochure, 9th edition) by hand.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from physcalc.checking.scope import Datum, Quantity, Scope
from physcalc.exact import Real, Rounded
from physcalc.language.names import Name, read_name
from physcalc.problems import Problem
from physcalc.units import read_unit

from ..authoring import COMMA, axis, given_problems, layer, text


def value(found: object, name: str) -> Fraction | None:
    datum = found[read_name(name)]  # type: ignore[index]
    assert isinstance(datum, Datum)
    return datum.quantity.value.fraction


def only(problems: list[Problem]) -> Problem:
    (problem,) = problems
    return problem


RIGHT = axis("right is positive")


@pytest.mark.parametrize(
    ("line", "si"),
    [
        ("m: 640 kg", Fraction(640)),
        ("m: 5 g", Fraction(1, 200)),
        ("v: 36 km/h", Fraction(10)),
        ("q: 6 µC", Fraction(6, 10**6)),
        ("T: 25 °C", Fraction(29815, 100)),
        ("ΔT: 25 °C", Fraction(25)),
        ("c: 4200 J/(kg·°C)", Fraction(4200)),
        ("E: 2 eV", Fraction("3.204353268e-19")),
        ("η: 40 %", Fraction(2, 5)),
        ("x: 1/3 m", Fraction(1, 3)),
        ("k: 3", Fraction(3)),
        ("λ: 0.02 /s", Fraction(1, 50)),
        ("A: 6 cm^2", Fraction(6, 10**4)),
    ],
)
def test_values_in_si_units(line: str, si: Fraction) -> None:
    assert value(layer(line), line.partition(":")[0]) == si


def test_an_expression_of_other_data_in_any_order() -> None:
    found = layer("A: π*r^2", "d: 2*r", "r: 3 cm", "r_2: r")
    assert value(found, "d") == Fraction(3, 50)
    assert found[Name("d")].quantity.unit.text() == "cm"
    assert value(found, "r_2") == Fraction(3, 100)
    assert found[Name("A")].quantity.unit.text() == "m²"
    assert found[Name("d")].rests_on == (found[Name("r")],)


def test_where_a_value_came_from() -> None:
    found = layer("a: 1 m", "b: 2 m")
    assert found[Name("b")].where == "line 2"
    assert found[Name("b")].span == text("2 m", 2, 4).span


# ---- directions ----------------------------------------------------------------------------------


def test_directions_sign_a_value_along_the_axis() -> None:
    found = layer("u: 4 m/s, left", "v: 3 m/s, right", "w: 2 m/s", conventions=RIGHT)
    assert [value(found, n) for n in "uvw"] == [-4, 3, 2]
    assert found[Name("u")].quantity.direction == "to the left"


def test_a_name_with_a_direction() -> None:
    up = axis("up is positive")
    found = layer("g: 9.8 m/s^2", "a: g, down", conventions=up)
    assert value(found, "a") == Fraction(-98, 10)
    assert found[Name("a")].quantity.direction == "downwards"


@pytest.mark.parametrize(("line", "marked"), [("v: 4 m/s, up", "up"), ("v: 4 m/s, sideways", "sideways")])
def test_a_direction_that_the_axis_does_not_have(line: str, marked: str) -> None:
    problem = only(given_problems(line, conventions=RIGHT))
    assert problem.slug == "direction-unknown"
    assert "to the right" in problem.mend()
    start = problem.span.column - 1
    assert line[start : start + problem.span.length] == marked


def test_a_direction_without_an_axis() -> None:
    problem = only(given_problems("v: 4 m/s, left"))
    assert problem.slug == "direction-unknown"
    assert "no axis" in problem.sentence()


# ---- references ------------------------------------------------------------------------------------


def _result(name: str, number: str, unit: str, shown: str = "") -> Datum:
    value = Real.of(Fraction(number))
    quantity = Quantity(
        value, read_unit(text(unit)), None, "", Rounded(False, int(Fraction(number) * 100), 2)
    )
    datum = Datum(Name(name), quantity, "result", "line 3", text("x", 3).span)
    if shown:
        datum = replace(datum, shown=Quantity(Real.of(Fraction(shown)), quantity.unit))
    return datum


ELSEWHERE = Scope((), {"lift": {Name("T"): _result("T", "6752", "N", "6750")}, "two": {
    Name("a"): _result("a", "1", "m"), Name("b"): _result("b", "2", "m")}})  # fmt: skip


@pytest.mark.parametrize(
    ("line", "si"),
    [("F: T from lift", 6752), ("T: from lift", 6752), ("F: from lift", 6752), ("F: T from lift shown", 6750),
     ("b: from two", 2)],
)  # fmt: skip
def test_a_result_found_elsewhere(line: str, si: int) -> None:
    found = layer(line, scope=ELSEWHERE)
    assert value(found, line[0]) == si


@pytest.mark.parametrize(
    ("line", "says", "mend"),
    [
        ("F: T from lfit", 'nothing before this has the id "lfit"', "is lift meant?"),
        ("F: N from lift", "lift does not find N", "it finds T"),
        ("c: from two", "two does not find c", "it finds a, b"),
        ("a: a from two shown", "two does not find a shown value of a", "it finds nothing"),
    ],
)
def test_a_reference_to_nothing(line: str, says: str, mend: str) -> None:
    problem = only(given_problems(line, scope=ELSEWHERE))
    assert (problem.slug, problem.sentence(), problem.mend()) == ("reference-unknown", says, mend)
    assert problem.span.column == 4


# ---- what is wrong with a block ----------------------------------------------------------------------


def test_a_cycle_is_said_once() -> None:
    problem = only(given_problems("r: d/2", "d: 2*r"))
    assert problem.slug == "given-cycle"
    assert problem.sentence() == "r, d are given in terms of each other"


def test_a_longer_cycle_and_what_hangs_on_it() -> None:
    problems = given_problems("a: b", "b: c", "c: a", "d: 2*a")
    assert [p.slug for p in problems] == ["given-cycle"]


def test_a_name_in_terms_of_itself_means_the_outer_one() -> None:
    outer = Scope((layer("r: 3 m"),))
    assert value(layer("r: 2*r", scope=outer), "r") == 6
    assert only(given_problems("r: r")).slug == "name-without-value"


def test_given_twice_with_two_values() -> None:
    problem = only(given_problems("m: 3 kg", "v: 2 m/s", "m: 4 kg"))
    assert (problem.slug, problem.span.line) == ("name-given-twice", 3)
    assert problem.sentence() == "m is given twice: 3 kg and 4 kg"
    assert not given_problems("m: 3 kg", "m: 3  kg")


def test_two_spellings_of_one_name_are_one_name() -> None:
    assert only(given_problems("theta: 30°", "θ: 31°")).slug == "name-given-twice"


@pytest.mark.parametrize(
    ("line", "slug"),
    [
        ("2m: 3 kg", "name-unreadable"),
        ("m: about 3 kg", "quantity-unreadable"),
        ("m:", "quantity-unreadable"),
        ("m: 3 kgs", "unit-unknown"),
        ("r: s/2", "name-without-value"),
        ("x: 1/0", None),
        ("x: 9^9^9", "number-beyond-sense"),
        ("y: (2 m", "formula-unreadable"),
        ("m: 1,000 kg", "number-ambiguous"),
        ("x: sin 30", "angle-unit-missing"),
    ],
)
def test_lines_refused(line: str, slug: str | None) -> None:
    problems = given_problems(line)
    if slug == "name-without-value":
        # It may cancel: whoever uses the name decides.
        from physcalc.checking.given import read_given

        from ..authoring import POINT, givens

        found, problems = read_given(givens([line]), Scope(), POINT)
        assert Name("r") not in found
        return
    assert problems, line
    assert slug is None or [p.slug for p in problems] == [slug]


def test_every_problem_of_a_block_is_said() -> None:
    problems = given_problems("m: 3 kgs", "v: 4 m/s, up", "2x: 1 m", "r: 2 m")
    assert [p.slug for p in problems] == ["name-unreadable", "unit-unknown", "direction-unknown"]


def test_the_document_with_decimal_commas() -> None:
    assert value(layer("m: 1,000 kg", conventions=COMMA), "m") == 1


@pytest.mark.parametrize("value", ["2 m g h", "2 m g", "3 g h"])
def test_a_product_of_quantities_is_no_unit(value: str) -> None:
    (problem,) = given_problems("m: 5 kg", "g: 9.8 m/s^2", "h: 2 m", f"E: {value}")
    assert problem.slug == "unit-ambiguous"
    product = value.replace(" ", "*")
    assert f'"{product}"' in problem.mend()
    assert layer("m: 5 kg", "g: 9.8 m/s^2", "h: 2 m", f"E: {product}")


@pytest.mark.parametrize("value", ["3 N m", "2 m g", "4 A h", "5 kg m"])
def test_units_stay_units(value: str) -> None:
    """N and m are names here, but a newton metre is a unit; m and g are none."""
    assert layer("N: 5 N", "A: 2 m^2", "h: 2 m", f"E: {value}")
