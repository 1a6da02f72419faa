"""Whatever is typed as a graph ends in a picture or in problems."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.figures.figure import Look
from physcalc_filter.figures.picture import Label, Line
from physcalc_filter.figures.stage import figure_of

from .graph_cases import POINT_SIGN, drawn, scope_of, series

LOOK = Look("en", "guide", lambda datum: "1 N", POINT_SIGN)
SCOPE = scope_of(u="3 m/s", a="2 m/s^2", m="3.0 ± 0.1 kg")
TYPED = (
    "0 1 2.5 -3 1e390 -4e-390 7e12 s m/s kg °C % ° ± , ; | / in to from at for against constant line through origin "
    "with uncertainty unweighted t v x s a u T_1 ^2 ^ sqrt( sin( ) ( 1/0 e π to_ 0 s 4 s 8 m/s = 1/2 a t^2 u t yes no "
    "_ { } $"
)
PIECES = st.sampled_from(TYPED.split(" "))
WORDS = st.lists(PIECES, min_size=1, max_size=7).map(" ".join)
NUMBER = st.builds(
    lambda sign, digits, power: f"{sign}{digits}e{power}",
    st.sampled_from(["", "-"]),
    st.sampled_from(["0", "1", "2.5", "99999", "1.0000000001", "0.3"]),
    st.sampled_from([-399, -30, -3, 0, 3, 30, 399]) | st.integers(-8, 8),
)


def pictured(found) -> None:  # type: ignore[no-untyped-def]
    assert found.diagram is not None or found.problems
    if found.diagram is None:
        return
    for choice in ("drawn", "points", "axes", "grid"):
        figure = figure_of(found.diagram, Look("en", "guide", LOOK.value, POINT_SIGN, choice))
        assert figure.alternative
        for shape in figure.picture.shapes:
            places = (
                shape.points
                if isinstance(shape, Line)
                else [shape.at if isinstance(shape, Label) else shape.centre]
            )
            assert all(abs(value) < 400 for place in places for value in place)


@given(
    st.tuples(WORDS, WORDS, WORDS, WORDS, WORDS, WORDS),
    st.lists(st.tuples(NUMBER | WORDS, NUMBER | WORDS), max_size=5),
    st.sampled_from(["v against t", "v in km/h against t", "T^2 against L", "1/v against t", "s against t"]),
)
@settings(max_examples=60, deadline=None)
def test_words_in_any_order(typed: tuple[str, ...], points: list[tuple[str, str]], plotted: str) -> None:
    one, two, three, four, five, six = typed
    lines = ["t in s, v in m/s", *(f"{x}, {y}" for x, y in points)]
    pictured(drawn(plotted, series(lines, fit=one, gradient=two), scope=SCOPE))
    pictured(
        drawn(
            "v against t", series(lines, fit="line", gradient=three, triangle=four, worst="yes"), scope=SCOPE
        )
    )
    pictured(
        drawn(
            "v against t",
            series(pieces={"0 s to 4 s": two, one: three}, area=four, gradient=five),
            scope=SCOPE,
        )
    )
    pictured(
        drawn("s against t", series(curve=[f"{one} for t from {two} to {three}"], gradient=six), scope=SCOPE)
    )
    pictured(drawn(f"{one} against {two}", series((three, four, five)), scope=SCOPE))
    pictured(drawn("v against t", series(lines), x_axis=one, y_axis=two, scope=SCOPE))


@given(
    st.lists(st.tuples(NUMBER, NUMBER, NUMBER), min_size=1, max_size=6),
    st.sampled_from(["line", "line with uncertainty", "line through origin", "unweighted line"]),
)
@settings(max_examples=60, deadline=None)
def test_numbers_of_any_size(points: list[tuple[str, str, str]], fit: str) -> None:
    lines = ["t in s, v in m/s", *(f"{x}, {y} ± {u.lstrip('-')}" for x, y, u in points)]
    asked = {"gradient": "a", "intercept": "b", "x_intercept": "c", "r_squared": "d"}
    pictured(drawn("v against t", series(lines, fit=fit, triangle="yes", **asked)))
    pictured(drawn("v against t", series(lines, worst="yes", steepest="p")))
    pictured(drawn("v^2 against 1/t", series(lines, fit=fit, gradient="a")))
