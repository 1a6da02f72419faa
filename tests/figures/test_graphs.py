"""Graphs: what is read, what is found from them, and what is wrong."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physcalc import engine
from physcalc.checking.scope import Scope
from physcalc.exact import NumberStyle
from physcalc.language import Calculation, GivenText
from physcalc.language.parser import parse_expression
from physcalc.limits import LIMITS
from physcalc.problems import Span, Text
from physcalc.sheets import load_sheet

from .graph_cases import POINT_SIGN, diagram_of, drawn, named, printed, scope_of, series, slugs

TABLE = ("t in s, v in m/s", "0, 0.2", "1.0, 2.1", "2.0, 4.0", "3.0, 6.2")
BARS = ("t in s, v in m/s ± 0.1", *TABLE[1:])
BUS = {"0 s to 4 s": "0 m/s to 8 m/s", "4 s to 10 s": "constant", "10 s to 12 s": "to 0 m/s"}
COMMA = replace(POINT_SIGN, decimal=",", style=NumberStyle(","))


def places(found, at: int = 0) -> list[tuple[Fraction, Fraction]]:  # type: ignore[no-untyped-def]
    return [(point.x, point.y) for point in diagram_of(found).series[at].points]


@pytest.mark.parametrize(
    "lines",
    [
        ("t in s, v in m/s", "0, 0.2", "1.5, 2.1"),
        ("t / s, v / m/s", "0, 0.2", "1.5, 2.1"),
        ("t (s), v (m·s⁻¹)", "0, 0.2", "1.5, 2.1"),
        ("v in m/s, t in s", "0.2, 0", "2.1, 1.5"),
        ("t in s; v in m/s", "0; 0.2", "1.5; 2.1"),
        ("t in s | v in m/s", "0 | 0.2", "1.5 | 2.1"),
        ("0 s, 0.2 m/s", "1.5 s, 2.1 m/s"),
        ("0, 0.2", "1.5 s, 2.1 m/s"),
        ("0 s, 0.2 m/s; 1.5 s, 2.1 m/s",),
        ("t in s, v in m/s", "0, 20 cm/s", "1500 ms, 2.1"),
        ("t in s, v in m/s", "0, w", "1.5, 2.1"),
    ],
)
def test_one_table_written_in_many_ways(lines: tuple[str, ...]) -> None:
    found = drawn("v against t", series(lines), scope=scope_of(w="0.2 m/s"))
    assert slugs(found) == []
    assert places(found) == [(0, Fraction(1, 5)), (Fraction(3, 2), Fraction(21, 10))]


def test_the_decimal_comma() -> None:
    table = ("t in s, v in m/s", "0, 0,2", "1,5, 2,1 ± 0,1")
    found = drawn("v against t", series(table), conventions=COMMA)
    assert places(found) == [(0, Fraction(1, 5)), (Fraction(3, 2), Fraction(21, 10))]
    assert diagram_of(found).series[0].points[1].y_bar == Fraction(1, 10)


def test_units_of_the_axes_are_those_asked() -> None:
    table = ("t in s, v in m/s", "0, 2", "90, 5")
    assert places(drawn("v in km/h against t in min", series(table))) == [
        (0, Fraction(36, 5)),
        (Fraction(3, 2), 18),
    ]


@pytest.mark.parametrize(
    ("typed", "bar"),
    [("2.0 ± 0.1", "0.1"), ("2.0 ± 5 %", "0.1"), ("2.0 m/s ± 10 cm/s", "0.1"), ("2.0", None)],
)
def test_error_bars(typed: str, bar: str | None) -> None:
    point = (
        diagram_of(drawn("v against t", series(("t in s, v in m/s", f"1.0, {typed}", "2.0, 3.0"))))
        .series[0]
        .points[0]
    )
    assert point.y_bar == (None if bar is None else Fraction(bar))


def test_an_expression_is_plotted_from_its_columns() -> None:
    """T² of 1.2 s ± 0.1 s is 1.44 s², with an uncertainty of 2 T u = 0.24 s² (GUM 5.1.2, to first order)."""
    table = ("L in cm, T in s", "36, 1.2 ± 0.1", "72, 1.7 ± 0.1")
    found = drawn("T^2 against L", series(table))
    assert places(found)[0] == (36, Fraction(144, 100))
    bar = diagram_of(found).series[0].points[0].y_bar
    assert bar is not None
    assert math.isclose(bar, 0.24, rel_tol=1e-9)
    assert diagram_of(found).y.unit.text() == "s²"


def test_columns_that_are_not_named_on_the_axis_are_series_of_their_own() -> None:
    table = ("U in V, I_A in mA, I_B in µA", "1.0, 2, 300", "2.0, 4, 700")
    found = drawn("I against U", series(table))
    assert places(found, 0)[1] == (2, 4)
    assert places(found, 1)[1] == (2, Fraction(7, 10))
    assert [str(one.label.name) for one in diagram_of(found).series] == ["I_A", "I_B"]  # type: ignore[union-attr]


# The line of best fit.


def test_gradient_and_intercept_become_quantities() -> None:
    found = drawn("v against t", series(TABLE, fit="line", gradient="a", intercept="v_0", r_squared="D"))
    # Sums by hand: n = 4, Σt = 6, Σv = 12.5, Σt² = 14, Σtv = 28.7; m = (4·28.7 − 6·12.5)/(4·14 − 36) = 39.8/20.
    assert found.results[named("a")].quantity.value.fraction == Fraction(398, 200)
    assert (
        found.results[named("v_0")].quantity.value.fraction
        == (Fraction(125, 10) - 6 * Fraction(199, 100)) / 4
    )
    assert (printed(found, "a"), printed(found, "v_0")) == ("1.99 m·s⁻²", "0.14 m·s⁻¹")
    assert found.results[named("a")].quantity.spread is None
    # r² = 9.95²/(5 · 19.8275).
    assert printed(found, "D") == "0.9986"


def test_points_with_uncertainties_give_one_to_the_gradient() -> None:
    """u(m) = u/√Σ(t − t̄)² = 0.1/√5 = 0.0447 for equal uncertainties u (GUM H.3)."""
    found = drawn("v against t", series(BARS, fit="line", gradient="a", intercept="v_0"))
    spread = found.results[named("a")].quantity.spread
    assert spread is not None
    assert math.isclose(spread.standard, 0.1 / math.sqrt(5), rel_tol=1e-12)
    assert printed(found, "a") == "(1.99 ± 0.04) m·s⁻²"
    assert diagram_of(found).series[0].fit.weighted  # type: ignore[union-attr]


@pytest.mark.parametrize(
    ("table", "fit", "uncertain"),
    [
        (TABLE, "line", False),
        (TABLE, "line with uncertainty", True),
        (BARS, "line", True),
        (BARS, "line without uncertainty", False),
        (BARS, "unweighted line", False),
        (BARS, "unweighted line with uncertainty", True),
    ],
)
def test_where_a_gradient_has_an_uncertainty(table: tuple[str, ...], fit: str, uncertain: bool) -> None:
    found = drawn("v against t", series(table, fit=fit, gradient="a"))
    assert slugs(found) == []
    assert (found.results[named("a")].quantity.spread is not None) == uncertain


def test_units_of_axes_go_into_the_gradient() -> None:
    table = ("x in cm, F in mN", "1, 20", "2, 40", "4, 80")
    found = drawn("F against x", series(table, fit="line", gradient=["k", "c in N/m to 3 sf"]))
    assert printed(found, "k") == "20.00 mN·cm⁻¹"
    assert printed(found, "c") == "2.00 N·m⁻¹"
    ohm = drawn("U against I", series(("I in A, U in V", "1, 3", "2, 6"), fit="line", gradient="R"))
    assert printed(ohm, "R") == "3.00 Ω"


def test_a_temperature_in_degrees_has_its_intercept_there() -> None:
    """Zero on the axis is 0 °C: p = 100 kPa + 0.5 kPa/K · θ."""
    table = ("θ in °C, p in kPa", "20, 110", "40, 120", "80, 140")
    found = drawn("p against θ", series(table, fit="line", gradient="k", intercept="p_0", x_intercept="θ_0"))
    assert printed(found, "k") == "0.50 kPa·K⁻¹" or printed(found, "k") == "0.50 kPa·°C⁻¹"
    assert printed(found, "p_0") == "100.00 kPa"
    assert printed(found, "θ_0") == "−200.00 °C"


def test_a_line_through_the_origin() -> None:
    found = drawn("v against t", series(TABLE, fit="line through origin", gradient="a"))
    # Σtv/Σt² = 28.7/14.
    assert found.results[named("a")].quantity.value.fraction == Fraction(287, 140)


def test_gradient_and_intercept_go_on_correlated() -> None:
    """The uncertainty of v at 1.5 s, the centre of the points, is that of a mean of four: 0.1/2 m·s⁻¹."""
    found = drawn("v against t", series(BARS, fit="line", gradient="a", intercept="v_0"))
    calculation = Calculation(
        Span(),
        POINT_SIGN,
        (GivenText(Text("t"), Text("1.5 s")),),
        formulas=(Text("v = v_0 + a t"),),
        find=(Text("v in m/s"),),
    )
    outcome = engine.calculate(calculation, Scope((found.results,)), load_sheet("school", None))
    spread = outcome.results[named("v")].quantity.spread
    assert spread is not None
    assert math.isclose(spread.standard, 0.05, rel_tol=1e-6)


def test_worst_lines_as_quantities() -> None:
    """By hand: from the bottom of the first bar to the top of the last, 6.6/3; from its top to the bottom, 5.8/3."""
    table = ("t in s, v in m/s ± 0.2", "0, 0", "1.0, 2.1", "2.0, 4.0", "3.0, 6.2")
    found = drawn("v against t", series(table, fit="line", steepest="m_1", shallowest="m_2", worst="yes"))
    assert found.results[named("m_1")].quantity.value.fraction == Fraction(22, 10)
    assert found.results[named("m_2")].quantity.value.fraction == Fraction(58, 30)
    assert len(diagram_of(found).series[0].worst) == 2


# Motion.


def test_area_and_gradients_of_pieces() -> None:
    found = drawn(
        "v against t",
        series(
            pieces=BUS,
            area=["s", "s_1 from 2 s to 5 s"],
            gradient=["a_1 from 0 s to 4 s", "a_2 at 11 s", "a_3 in m/s^2 to 3 dp from 0 s to 12 s"],
        ),
    )
    assert slugs(found) == []
    # ½·4·8 + 6·8 + ½·2·8 = 72; ½(4 + 8)·2 + 8 = 20.
    assert printed(found, "s") == "72.00 m"
    assert printed(found, "s_1") == "20.00 m"
    assert [printed(found, name) for name in ("a_1", "a_2", "a_3")] == [
        "2.00 m·s⁻²",
        "−4.00 m·s⁻²",
        "0.000 m·s⁻²",
    ]


def test_an_area_below_the_axis_counts_as_negative() -> None:
    found = drawn("v against t", series(pieces={"0 s to 2 s": "6 m/s to -6 m/s"}, area="s"))
    assert printed(found, "s") == "0.00 m"


@given(
    st.lists(st.integers(-9, 9), min_size=2, max_size=6),
    st.lists(st.integers(1, 9), min_size=6, max_size=6),
)
def test_an_area_is_that_of_numpy(heights: list[int], widths: list[int]) -> None:
    import numpy as np

    times = [0, *np.cumsum(widths[: len(heights) - 1]).tolist()]
    pieces = {
        f"{times[n]} s to {times[n + 1]} s": f"{heights[n]} m/s to {heights[n + 1]} m/s"
        for n in range(len(heights) - 1)
    }
    found = drawn("v against t", series(pieces=pieces, area="s"))
    exact = found.results[named("s")].quantity.value
    assert math.isclose(float(exact), float(np.trapezoid(heights, times)), abs_tol=1e-9)


def test_the_gradient_and_area_of_a_curve() -> None:
    scope = scope_of(u="3 m/s", a="2 m/s^2")
    curve = ["s = u t + 1/2 a t^2 for t from 0 s to 6 s"]
    found = drawn("s against t", series(curve=curve, gradient="v at 2 s", area="A"), scope=scope)
    assert printed(found, "v") == "7.00 m·s⁻¹"
    # ½ u t² + a t³/6 = 54 + 72.
    assert found.results[named("A")].quantity.value.fraction == 126
    assert diagram_of(found).series[0].tangents == (((2, 10), 7),)


@given(
    st.sampled_from(
        [
            "sin(x)",
            "cos(2 x)",
            "exp(-x)",
            "x^3 - 2 x",
            "1/x",
            "ln(x)",
            "sqrt(x)",
            "x exp(-x / 2)",
            "sin² x",
            "x^x",
            "tan(x)",
            "(x + 1) / (x^2 + 2)",
            "|x - 9|",
            "log(x)",
            "2^x",
        ]
    ),
    st.integers(1, 140),
)
@settings(max_examples=80)
def test_gradients_of_formulas_as_sympy_has_them(formula: str, hundredths: int) -> None:
    import sympy

    from physcalc.exact import Real
    from physcalc.figures.graph_diagram import Curve
    from physcalc.figures.graph_slope import slope

    x = sympy.Symbol("x", positive=True)
    spelt = {
        "sin² x": sympy.sin(x) ** 2,
        "|x - 9|": 9 - x,
        "log(x)": sympy.log(x) / sympy.log(10),
        "x^x": x**x,
        "2^x": 2**x,
        "sin(x)": sympy.sin(x),
        "cos(2 x)": sympy.cos(2 * x),
        "exp(-x)": sympy.exp(-x),
        "x^3 - 2 x": x**3 - 2 * x,
        "1/x": 1 / x,
        "ln(x)": sympy.log(x),
        "sqrt(x)": sympy.sqrt(x),
        "x exp(-x / 2)": x * sympy.exp(-x / 2),
        "tan(x)": sympy.tan(x),
        "(x + 1) / (x^2 + 2)": (x + 1) / (x**2 + 2),
    }
    at = Fraction(hundredths, 100)
    expected = spelt[formula].diff(x).subs(x, sympy.Rational(hundredths, 100)).evalf(30)
    curve = Curve(parse_expression(Text(formula)), named("x"), ())
    assert math.isclose(float(slope(curve, Real.of(at))), float(expected), rel_tol=1e-12, abs_tol=1e-15)


def test_a_curve_that_is_no_polynomial_has_no_area() -> None:
    found = drawn("y against x", series(curve=["y = sin(2 π x) for x from 0 to 1"], area="A"))
    assert slugs(found) == ["graph-quantity-missing"]


# What is wrong.

TWO_UNITS = ("t in s, v in m/s, h in m", "0, 1, 2", "1, 2, 3")


@pytest.mark.parametrize(
    ("found", "expected"),
    [
        (drawn("v against t", series()), ["graph-empty"]),
        (drawn("v against t", series(("t in s, v in m/s",), fit="line")), ["graph-empty"]),
        (drawn("v against t", series(TABLE[:2], fit="line")), ["fit-points-few"]),
        (drawn("v against t", series(TABLE[:3], fit="line with uncertainty")), ["fit-points-few"]),
        (drawn("v against t", series(pieces=BUS, fit="line")), ["fit-points-few"]),
        (drawn("v against t", series(("t in s, v in m/s", "1, 2", "1, 3"), fit="line")), ["fit-upright"]),
        (drawn("v against t", series((*BARS[:1], "0, 0.2", "1, 2 ± 0.1"), fit="line")), []),
        (drawn("v against t", series((*TABLE, "4.0, 8 ± 1"), fit="line")), ["fit-unweighted"]),
        (drawn("v against t", series((TWO_UNITS[0], "0, 1, 2"))), []),
        (drawn("u against t", series(TWO_UNITS)), ["graph-dimension"]),
        (drawn("v against t", series((*TABLE, "4.0 kg, 8.0"))), ["graph-dimension"]),
        (drawn("v in kg against t", series(TABLE)), ["graph-dimension"]),
        (drawn("v against t", series(TABLE), x_axis="0 m to 5 m"), ["graph-dimension"]),
        (drawn("v against t", series(TABLE, fit="line", gradient="a in kg")), ["graph-dimension"]),
        (drawn("v against t", series((*TABLE, "4.0, 8.0, 1.0"))), ["graph-columns-unmatched"]),
        (drawn("v against t", series((*TABLE, "4.0"))), ["graph-point-unreadable"]),
        (drawn("v against t", series((*TABLE, "4.0, fast"))), ["graph-point-unreadable"]),
        (drawn("v against t", series((*TABLE, "4.0, 2 m/s, right"))), ["graph-columns-unmatched"]),
        (drawn("v against t", series((*TABLE, "4.0, "))), ["graph-point-unreadable"]),
        (drawn("v against s", series(TABLE)), ["figure-name-unknown"]),
        (drawn("v against t", series((*TABLE, "4.0, 61000"))), ["graph-value-enormous"]),
        (drawn("v against t", series((*TABLE, "9e300, 6"))), ["graph-value-enormous"]),
        (
            drawn("v against t", series((*TABLE[:1], "1.0000000001, 2", "1.0000000002, 3"))),
            ["graph-values-close"],
        ),
        (drawn("v against t", series(TABLE), x_axis="0 s to 2 s"), ["graph-point-outside"]),
        (drawn("v against t", series(TABLE), x_axis="2 s to 0 s"), ["figure-phrase-unreadable"]),
        (
            drawn("v against t", series((*TABLE[:1], *["1, 2"] * (LIMITS["graph-points"].usual + 1)))),
            ["graph-points-many"],
        ),
        (drawn("v and t", series(TABLE)), ["figure-phrase-unreadable"]),
        (drawn("v against t", series(TABLE, fit="lien")), ["figure-phrase-unreadable"]),
        (drawn("v against t", series(TABLE, mark="stars")), ["figure-phrase-unreadable"]),
        (drawn("v against t", series(TABLE, gradient="a")), ["graph-quantity-missing"]),
        (drawn("v against t", series(TABLE, area="s")), ["graph-quantity-missing"]),
        (drawn("v against t", series(TABLE, fit="line", steepest="m")), ["graph-quantity-missing"]),
        (drawn("v against t", series(TABLE, triangle="yes")), ["figure-phrase-unreadable"]),
        (drawn("v against t", series((*BARS, "4, 99"), worst="yes")), ["worst-line-missing"]),
        (drawn("v against t", series(pieces={**BUS, "11 s to 13 s": "constant"})), ["graph-pieces-overlap"]),
        (drawn("v against t", series(pieces={**BUS, "13 s to 14 s": "constant"})), ["graph-pieces-gap"]),
        (drawn("v against t", series(pieces={"0 s to 4 s": "constant"})), ["figure-phrase-unreadable"]),
        (drawn("v against t", series(pieces={"4 s to 0 s": "2 m/s"})), ["figure-phrase-unreadable"]),
        (
            drawn("v against t", series(pieces={"0 s to 4 s": "2 kg to 3 kg", "4 s to 5 s": "1 m/s"})),
            ["graph-dimension"],
        ),
        (drawn("v against t", series(pieces=BUS, gradient="a")), ["graph-quantity-missing"]),
        (drawn("v against t", series(pieces=BUS, gradient="a at 4 s")), ["graph-quantity-missing"]),
        (drawn("v against t", series(pieces=BUS, gradient="a at 14 s")), ["graph-quantity-missing"]),
        (drawn("v against t", series(pieces=BUS, area="s from 5 s to 15 s")), ["graph-quantity-missing"]),
        (drawn("y against x", series(curve=["y = k x for x from 0 to 1"])), ["name-without-value"]),
        (drawn("y against x", series(curve=["y = 1/2 x for z from 0 to 1"])), ["figure-phrase-unreadable"]),
        (drawn("y against x", series(curve=["y = 2 x"])), ["figure-phrase-unreadable"]),
        (drawn("y against x", series(curve=["y = sqrt(-1 - x) for x from 0 to 1"])), ["number-beyond-sense"]),
        (drawn("1/y against x", series(("x, y", "1, 0", "2, 3"))), ["number-beyond-sense"]),
        (drawn("y against x", *[series(("x, y", "1, 0", "2, 3"))] * 7), ["figure-phrase-unreadable"]),
    ],
)
def test_what_is_wrong_is_said_once(found, expected: list[str]) -> None:  # type: ignore[no-untyped-def]
    assert slugs(found) == expected


def test_a_problem_stands_at_its_value() -> None:
    line = Text("4.0, fast", Span("a.md", 7, 5, 9))
    body = series(TABLE)
    found = drawn("v against t", replace(body, points=(*body.points, line)))
    (problem,) = found.problems
    assert (problem.span.line, problem.span.column, problem.span.length) == (7, 10, 4)


def test_a_curve_is_broken_where_its_formula_has_no_value() -> None:
    found = drawn("y against x", series(curve=["y = 1/x for x from -1 to 1"]), y_axis="-10 to 10")
    (stretch,) = diagram_of(found).series[0].stretches
    assert len(stretch.lines) == 2


def test_a_graph_of_two_thousand_points_is_made() -> None:
    lines = [f"{n}, {n * n % 97} ± 0.{1 + n % 7}" for n in range(LIMITS["graph-points"].usual)]
    found = drawn("v against t", series(("t in s, v in m/s", *lines), fit="line", gradient="a"))
    assert slugs(found) == []
    assert found.results[named("a")].quantity.spread is not None
