"""The geometry of graphs: scales, ticks, points and lines at the right millimetre, labels apart from one another."""

from __future__ import annotations

import math
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.figures.graph_scales import SMALL, Scale, scale_for
from physcalc_filter.figures.graphs import clipped, scales
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import WIDEST, Box, Circle, Line

from physcalc.exact import NumberStyle
from physcalc.figures.graph_diagram import Axis
from physcalc.language.parser import parse_expression
from physcalc.problems import Text
from physcalc.units import read_unit

from .graph_cases import POINT_SIGN, TABLE, at, diagram_of, drawn, figure, lines, near, scope_of, series

AXIS = Axis(parse_expression(Text("v")), read_unit(Text("m/s")))


VALUE = st.fractions(-(10**6), 10**6, max_denominator=10**4)


@given(VALUE, VALUE, st.sampled_from([10, 12]), st.booleans(), st.integers(-30, 30))
def test_a_scale_has_sensible_steps_and_fills_the_paper(
    one: Fraction, other: Fraction, most: int, headroom: bool, power: int
) -> None:
    """Steps of 1, 2 or 5 (common practice, no source) and at least a third of the paper in use."""
    values = [one * Fraction(10) ** power, other * Fraction(10) ** power]
    scale = scale_for(AXIS, values, most, headroom)
    leading = scale.step
    while leading >= 10:
        leading /= 10
    while leading < 1:
        leading *= 10
    assert leading in (1, 2, 5)
    assert scale.low <= min(values)
    assert max(values) <= scale.high
    assert scale.length <= 10 * most
    assert scale.squares >= 1
    if one != other:
        kept = max(*values, Fraction(0)) - min(*values, Fraction(0))
        assert scale.high - scale.low <= 3 * kept or scale.squares <= 3


@pytest.mark.parametrize(
    ("low", "high", "numbers"),
    [
        ("0", "9.7", ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10"]),
        ("0.2", "0.71", ["0.0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6", "0.7", "0.8"]),
        ("91", "99.5", ["91", "92", "93", "94", "95", "96", "97", "98", "99", "100"]),
        ("-3", "2", ["−3.0", "−2.5", "−2.0", "−1.5", "−1.0", "−0.5", "0.0", "0.5", "1.0", "1.5", "2.0"]),
        ("0", "45000", ["0", "5", "10", "15", "20", "25", "30", "35", "40", "45"]),
        ("0", "0.00000041", ["0", "50", "100", "150", "200", "250", "300", "350", "400", "450"]),
    ],
)
def test_numbers_beside_an_axis(low: str, high: str, numbers: list[str]) -> None:
    scale = scale_for(AXIS, [Fraction(low), Fraction(high)], 10)
    assert [text for _, text in scale.numbers(NumberStyle("."))] == numbers


def test_a_power_of_ten_goes_into_the_name_of_the_axis() -> None:
    found = drawn("λ against t", series(("t in s, λ in m", "0, 4.1e-7", "70000, 4.4e-7")))
    names = {
        label.role: label.text for label in figure(found).picture.labels() if label.role.startswith("name")
    }
    assert names == {"name x": "t\u00a0/\u00a0103\u00a0s", "name y": "λ\u00a0/\u00a010−9\u00a0m"}


@pytest.mark.parametrize(
    ("style", "units", "expected"),
    [
        ("solidus", "powers", "v\u00a0/\u00a0m·s−1"),
        ("brackets", "powers", "v\u00a0(m·s−1)"),
        ("solidus", "solidus", "v\u00a0/\u00a0(m/s)"),
        ("brackets", "solidus", "v\u00a0(m/s)"),
    ],
)
def test_the_name_of_an_axis_with_its_unit(style: str, units: str, expected: str) -> None:
    conventions = replace(POINT_SIGN, axis_labels=style, unit_style=units)  # type: ignore[arg-type]
    found = drawn("v against t", series(TABLE), conventions=conventions)
    assert expected in [label.text for label in figure(found, conventions=conventions).picture.labels()]


@given(st.integers(-400, 400), st.sampled_from([1, 2, 5]), st.integers(-12, 12))
def test_half_a_small_square_is_one_millimetre(first: int, leading: int, power: int) -> None:
    scale = Scale(first, leading * Fraction(10) ** power, 8, 10.0, 0, 0)
    assert math.isclose(scale.at(scale.low + scale.reading), SMALL / 2)
    assert math.isclose(scale.at(scale.high), scale.length)


def test_ticks_stand_on_large_squares_and_at_their_numbers() -> None:
    found = drawn("v against t", series(TABLE))
    picture = figure(found).picture
    across, _ = scales(diagram_of(found))
    ticks = sorted(line.points[0][0] for line in lines(picture, "tick x"))
    assert ticks == pytest.approx([across.side * n for n in range(across.squares + 1)])
    for label in picture.labels():
        if label.role == "number x":
            assert label.at[0] == pytest.approx(across.at(Fraction(label.text)))
    squares = [line for line in lines(picture, "grid large") if line.points[0][0] == line.points[1][0]]
    assert sorted(line.points[0][0] for line in squares) == pytest.approx(ticks)


def test_small_squares_have_two_millimetres() -> None:
    picture = figure(drawn("v against t", series(TABLE))).picture
    upright = [one for role in ("grid small", "grid large") for one in lines(picture, role)]
    places = sorted(line.points[0][0] for line in upright if line.points[0][0] == line.points[1][0])
    assert [b - a for a, b in pairwise(places)] == pytest.approx([SMALL] * (len(places) - 1))


@pytest.mark.parametrize("mark", ["crosses", "dots", "circles", "squares"])
def test_points_lie_at_their_millimetre(mark: str) -> None:
    found = drawn("v against t", series(TABLE, mark=mark))
    shapes = figure(found).picture.with_role("point")
    for x, y in ((0, Fraction("0.4")), (1, Fraction("2.1")), (2, Fraction(4)), (3, Fraction("6.2"))):
        expected = at(found, x, y)
        middles = []
        for shape in shapes:
            if isinstance(shape, Circle):
                middles.append(shape.centre)
            elif isinstance(shape, Line):
                xs, ys = [p[0] for p in shape.points], [p[1] for p in shape.points]
                middles.append(((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2))
        assert any(near(middle, expected) for middle in middles)


def test_error_bars_reach_as_far_as_the_uncertainty() -> None:
    found = drawn("v against t", series(TABLE))
    bars = {(line.points[0], line.points[1]) for line in lines(figure(found).picture, "bar")}
    low, high = at(found, 1, Fraction("1.9")), at(found, 1, Fraction("2.3"))
    assert any(near(one, low) and near(other, high) for one, other in bars)
    # One that reaches below zero would not make the axis begin there.
    below = drawn("v against t", series(("t in s, v in m/s ± 0.5", "0, 0.1", "1, 4")))
    assert scales(diagram_of(below))[1].low == 0


def test_the_line_of_best_fit_passes_where_it_should() -> None:
    found = drawn("v against t", series(TABLE, fit="line", intercept="c"))
    fit = diagram_of(found).series[0].fit
    assert fit is not None
    (line,) = lines(figure(found).picture, "fit")
    for place, x in zip((line.points[0], line.points[-1]), (0, 3), strict=True):
        assert near(place, at(found, x, fit.at(Fraction(x))))  # type: ignore[arg-type]
    # It passes through the centre of the points (a property of least squares).
    centre = at(found, fit.centre, fit.at(fit.centre))  # type: ignore[arg-type]
    (x_0, y_0), (x_1, y_1) = line.points[0], line.points[-1]
    assert math.isclose(y_0 + (y_1 - y_0) * (centre[0] - x_0) / (x_1 - x_0), centre[1], abs_tol=1e-6)


def test_pieces_and_jumps() -> None:
    pieces = {"0 s to 2 s": "3 m/s^2", "2 s to 5 s": "-1 m/s^2"}
    found = drawn("a against t", series(pieces=pieces))
    picture = figure(found).picture
    assert [len(lines(picture, role)) for role in ("piece", "jump")] == [2, 1]
    (jump,) = lines(picture, "jump")
    assert near(jump.points[0], at(found, 2, 3))
    assert near(jump.points[1], at(found, 2, -1))
    (axis,) = lines(picture, "axis x")
    assert near(axis.points[0], at(found, 0, 0))


def test_a_curve_lies_on_its_formula() -> None:
    found = drawn(
        "s against t",
        series(curve=["s = u t + 1/2 a t^2 for t from 0 s to 6 s"]),
        scope=scope_of(u="3 m/s", a="-1 m/s^2"),
    )
    across, up = scales(diagram_of(found))
    for line in lines(figure(found).picture, "curve"):
        for x, y in line.points:
            t = float(across.low) + x / across.side * float(across.step)
            s = float(up.low) + y / up.side * float(up.step)
            assert math.isclose(s, 3 * t - t * t / 2, abs_tol=1e-6)


def test_a_pole_neither_makes_the_scale_nor_leaves_the_paper() -> None:
    found = drawn("y against x", series(curve=["y = 1/x for x from 0 to 4"]))
    _, up = scales(diagram_of(found))
    assert up.high <= 20
    for line in lines(figure(found).picture, "curve"):
        assert all(-1e-6 <= y <= up.length + 1e-6 for _, y in line.points)


def test_the_gradient_triangle_ends_on_its_line() -> None:
    found = drawn("v against t", series(TABLE, fit="line", triangle="yes"))
    picture = figure(found).picture
    (run,), (rise,) = lines(picture, "triangle run"), lines(picture, "triangle rise")
    fit = diagram_of(found).series[0].fit
    assert fit is not None
    start, corner, end = run.points[0], run.points[1], rise.points[1]
    assert corner == rise.points[0]
    across, up = scales(diagram_of(found))
    gradient = float(fit.gradient) * up.side / float(up.step) * float(across.step) / across.side
    assert math.isclose((end[1] - corner[1]) / (corner[0] - start[0]), gradient, rel_tol=1e-9)
    # Over half the line (common practice of examiners), from edge to edge of squares.
    (line,) = lines(picture, "fit")
    assert corner[0] - start[0] > (line.points[-1][0] - line.points[0][0]) / 2
    assert start[0] % 2 == pytest.approx(0) or start[0] % 2 == pytest.approx(2)
    assert len([label for label in picture.labels() if label.role == "reading"]) == 2


def test_a_side_of_the_triangle_that_is_money_has_its_sign_before() -> None:
    table = ("W in kWh, C in R", "1, 3", "2, 6", "4, 12")
    picture = figure(drawn("C in R against W in kWh", series(table, fit="line", triangle="yes"))).picture
    texts = ["".join(run.text for run in label.runs) for label in picture.labels()]
    (side,) = [text for text in texts if text.startswith("ΔC")]
    assert side.partition("=")[2].strip().startswith("R")
    assert any(text.startswith("ΔW") and text.endswith("kW·h") for text in texts)


def test_a_tangent_touches_its_curve() -> None:
    found = drawn("y against x", series(curve=["y = x^2 for x from 0 to 4"], gradient="m at 2"))
    (tangent,) = lines(figure(found).picture, "tangent")
    (x_0, y_0), (x_1, y_1) = tangent.points[0], tangent.points[-1]
    across, up = scales(diagram_of(found))
    slope = (y_1 - y_0) / (x_1 - x_0) * across.side / float(across.step) * float(up.step) / up.side
    assert slope == pytest.approx(4)
    place = at(found, 2, 4)
    assert y_0 + (y_1 - y_0) * (place[0] - x_0) / (x_1 - x_0) == pytest.approx(place[1])


MOTION = st.lists(st.integers(-12, 25), min_size=2, max_size=7)


@given(
    st.lists(
        st.tuples(st.integers(-50, 3000), st.integers(-900, 900)),
        min_size=2,
        max_size=9,
        unique_by=lambda pair: pair[0],
    ),
    st.integers(-9, 9),
    st.integers(-9, 9),
    st.booleans(),
)
@settings(max_examples=60, deadline=None)
def test_labels_keep_apart_and_on_the_page(
    points: list[tuple[int, int]], power: int, other: int, two: bool
) -> None:
    table = [f"{x}e{power}, {y}e{other}" + (f", {900 - y}e{other}" if two else "") for x, y in points]
    head = "t in s, v_A in m/s, v_B in m/s" if two else "t in s, v in m/s"
    found = drawn("v against t", series((head, *table), fit="line", triangle="yes"))
    if found.diagram is None:
        assert {problem.slug for problem in found.problems} <= {"graph-value-enormous"}
        return
    picture = figure(found).picture
    assert picture.box.width <= WIDEST + 1e-6
    labels = list(picture.labels())
    outside = ("number x", "number y", "name x", "name y")
    boxes = [(label, box_of(label)) for label in labels]
    for n, (label, box) in enumerate(boxes):
        assert inside(box, picture.box)
        for second, box_2 in boxes[:n]:
            if label.role in outside and second.role in outside:
                assert not box.meets(box_2), (label, second)
            elif not box.meets(box_2):
                continue
            else:
                pytest.fail(f"{label} on {second}")


def inside(box: Box, page: Box) -> bool:
    return (
        page.left <= box.left
        and box.right <= page.right
        and page.bottom <= box.bottom
        and box.top <= page.top
    )


@given(st.tuples(*[st.floats(-50, 50)] * 4))
def test_clipping_keeps_to_the_line_and_to_the_box(ends: tuple[float, float, float, float]) -> None:
    box = Box(-10, -20, 30, 15)
    one, other = ends[:2], ends[2:]
    part = clipped(one, other, box)
    probes = [
        (one[0] + (other[0] - one[0]) * n / 60, one[1] + (other[1] - one[1]) * n / 60) for n in range(61)
    ]
    within = [p for p in probes if box.left <= p[0] <= box.right and box.bottom <= p[1] <= box.top]
    if part is None:
        assert not [p for p in within if box.left < p[0] < box.right and box.bottom < p[1] < box.top]
        return
    for x, y in part:
        assert box.left - 1e-6 <= x <= box.right + 1e-6
        assert box.bottom - 1e-6 <= y <= box.top + 1e-6
