"""The geometry of graphs: scales, ticks, points and lines at the right millimetre, labels apart from one another."""

from __future__ import annotations

import html
import json
import math
import re
import subprocess
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.figures.figure import Figure, Look
from physcalc_filter.figures.graph_scales import SMALL, Scale, scale_for
from physcalc_filter.figures.graphs import MOST_ACROSS, MOST_UP, clipped, scales
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import WIDEST, Box, Circle, Line, Picture, Run
from physcalc_filter.figures.stage import figure_of
from physcalc_filter.sources import Source

from physcalc.exact import NumberStyle
from physcalc.figures.drawn import Drawn
from physcalc.figures.graph_diagram import Axis
from physcalc.language import Conventions
from physcalc.language.parser import parse_expression
from physcalc.problems import Text
from physcalc.units import read_unit

from ..programs import program
from .graph_cases import POINT_SIGN, diagram_of, drawn, scope_of, series

TABLE = ("t in s, v in m/s ± 0.2", "0, 0.4", "1.0, 2.1", "2.0, 4.0", "3.0, 6.2")
BUS = {"0 s to 4 s": "0 m/s to 8 m/s", "4 s to 10 s": "constant", "10 s to 12 s": "to 0 m/s"}
AXIS = Axis(parse_expression(Text("v")), read_unit(Text("m/s")))


def figure(
    found: Drawn, choice: str = "drawn", edition: str = "memo", conventions: Conventions = POINT_SIGN
) -> Figure:
    look = Look("en", edition, lambda datum: "1 N", conventions, choice)
    return figure_of(diagram_of(found), look)


def lines(picture: Picture, role: str) -> list[Line]:
    return [shape for shape in picture.with_role(role) if isinstance(shape, Line)]


def at(found: Drawn, x: float, y: float) -> tuple[float, float]:
    across, up = scales(diagram_of(found))
    return across.at(Fraction(x)), up.at(Fraction(y))


def near(one: tuple[float, float], other: tuple[float, float], by: float = 1e-6) -> bool:
    return math.isclose(one[0], other[0], abs_tol=by) and math.isclose(one[1], other[1], abs_tol=by)


# Scales.

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


# Where things lie.


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


# The paper.


def test_what_the_paper_shows() -> None:
    found = drawn("v against t", series(TABLE, fit="line", gradient="a", triangle="yes"))
    shown = {
        choice: {shape.role for shape in figure(found, choice, "paper").picture.shapes}
        for choice in ("drawn", "points", "axes", "grid")
    }
    assert {"point", "fit", "axis x"} <= shown["drawn"]
    assert "triangle run" not in shown["drawn"]
    assert "point" in shown["points"]
    assert "fit" not in shown["points"]
    assert shown["axes"] == {role for role in shown["points"] if role not in ("point", "bar", "cap")}
    assert shown["grid"] == {"grid small", "grid large"}
    blank = figure(found, "grid", "paper").picture.box
    assert (blank.width, blank.height) == pytest.approx((10 * MOST_ACROSS + 2, 10 * MOST_UP + 2), abs=0.5)
    assert not figure(found, "drawn", "paper").note
    assert figure(found).note[:2] == (Run("Gradient "), Run("a", slant=True))


def test_the_description_is_made_from_the_data() -> None:
    words = figure(drawn("v against t", series(pieces=BUS))).alternative.replace("\u00a0", " ")
    assert words == (
        "Graph of v against t: straight from (0 s; 0 m·s⁻¹) to (4 s; 8 m·s⁻¹); straight from (4 s; 8 m·s⁻¹) to "
        "(10 s; 8 m·s⁻¹); straight from (10 s; 8 m·s⁻¹) to (12 s; 0 m·s⁻¹)."
    )
    words = figure(drawn("v against t", series(TABLE, fit="line"))).alternative.replace("\u00a0", " ")
    assert "4 points from (0 s; 0.4 m·s⁻¹) to (3 s; 6.2 m·s⁻¹); line of best fit" in words


DOCUMENT = """---
lang: {lang}
---

# Question 1 {{.question}}

```{{.draw #plot}}
graph: v against t
points:
  - t in s, v in m/s
  - 0, 0.2
  - 1.0, 2.1
  - 2.0, 4.0
  - 3.0, 6.2
fit: line
gradient: a to 3 sf
caption: A trolley
{more}
```

```{{.calc}}
given:
  m: 2 kg
formula: F = m a
find: F in N to 2 dp
answer: 3.98 N
marks: 2
```
"""


def built(edition: str, format: str, lang: str = "en", more: str = "axes: solidus") -> str:
    from physcalc_filter.document import write_json

    source = Source("a.md", DOCUMENT.format(lang=lang, more=more))
    document, report = pipeline.build(source, edition, format)  # type: ignore[arg-type]
    assert document is not None, report.problems
    return json.dumps(json.loads(write_json(document)), ensure_ascii=False)


def test_a_gradient_is_used_in_the_calculation_after_it() -> None:
    assert pipeline.check(Source("a.md", DOCUMENT.format(lang="en", more="mark: dots"))).problems == ()
    wrong = pipeline.check(
        Source("a.md", DOCUMENT.format(lang="en", more="mark: dots").replace("3.98", "3.99"))
    )
    assert [problem.slug for problem in wrong.problems] == ["answer-disagrees"]


@pytest.mark.parametrize("format", ["typst", "latex", "html", "docx"])
def test_every_format_has_the_graph(format: str) -> None:
    signs = {"typst": "#drawn(figure(alt:", "latex": "tikzpicture", "html": "<svg", "docx": "data:image/png"}
    assert signs[format] in built("guide", format).replace('\\"', '"')


def test_a_graph_that_earns_marks_is_squared_paper_in_the_paper() -> None:
    paper = built("paper", "html", more="marks: 4")
    assert "Blank squared paper" in paper
    assert "6.2" not in paper
    assert "Gradient" in built("memo", "html", more="marks: 4")
    assert "Steigung" in built("memo", "html", "de", more="marks: 4")
    assert "3 points" not in paper


def test_the_paper_gives_no_gradient_away() -> None:
    paper = built("paper", "html")
    assert "1.99" not in paper
    assert "<svg" in paper


SEVERAL = """# Question 1 {.question}

```{.draw}
graph: v against t
series:
  bus:
    pieces:
      0 s to 4 s: 0 m/s to 8 m/s
    area: s_1
  the other bus:
    pieces:
      0 s to 4 s: 6 m/s
    area: s_2
```

```{.calc}
formula: d = s_2 - s_1
find: d in m
answer: 8.00 m
```
"""


def test_several_series_by_their_names() -> None:
    assert pipeline.check(Source("a.md", SEVERAL)).problems == ()
    wrong = pipeline.check(Source("a.md", SEVERAL.replace("    area: s_1", "    aera: s_1"))).problems
    assert "key-unknown" in [problem.slug for problem in wrong]


def test_measured_data_as_a_table() -> None:
    """Numbers keep the digits they were typed with; the memo does not repeat them."""
    more = "table: yes\nmarks: 4"
    paper, memo = built("paper", "html", more=more), built("memo", "html", more=more)
    assert '"t": "Table"' in paper.replace('"t":"', '"t": "')
    # The memo's own table has the ticks of the drawing.
    cell = '"c":"6.2"'
    assert cell in paper.replace(" ", "")
    assert cell not in memo.replace(" ", "")


def test_the_setting_of_axes_in_front_matter_and_block() -> None:
    assert "(m·s" in built("guide", "html", more="axes: brackets").replace("<tspan", "")
    with_front = DOCUMENT.replace("lang: {lang}", "lang: {lang}\nphyscalc:\n  axes: bracket")
    problems = pipeline.check(Source("a.md", with_front.format(lang="en", more="mark: dots"))).problems
    assert [problem.slug for problem in problems] == ["setting-unreadable"]


WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')


@pytest.mark.parametrize("lang", ["en", "de"])
def test_numbers_stand_at_their_squares_in_the_printed_page(tmp_path: Path, lang: str) -> None:
    """In the PDF itself, by poppler: 0 to 3 on the x axis lie 20 mm apart, and no word lies on another."""
    reader = program("pdftotext")
    source = tmp_path / "a.md"
    source.write_text(DOCUMENT.format(lang=lang, more="triangle: yes"), encoding="utf-8")
    from physcalc_filter.cli import main

    with suppress(SystemExit):
        main(["build", str(source), "-o", str(tmp_path / "a.pdf"), "--edition", "guide"])
    boxes = subprocess.run(
        [reader, "-bbox", str(tmp_path / "a.pdf"), "-"], check=True, capture_output=True, text=True
    ).stdout
    words = [(*map(float, found.groups()[:4]), html.unescape(found[5])) for found in WORD.finditer(boxes)]
    decimal = "," if lang == "de" else "."
    line = next(
        row
        for row in (  # The numbers below the squares stand on one line.
            [word for word in words if abs(word[1] - first[1]) < 1]
            for first in words
            if first[4] == f"1{decimal}0"
        )
        if {f"0{decimal}5", f"2{decimal}5"} <= {word[4] for word in row}
    )
    middles = {word[4]: (word[0] + word[2]) / 2 for word in line}
    step = middles[f"1{decimal}0"] - middles[f"0{decimal}5"]
    assert step * 25.4 / 72 == pytest.approx(20, abs=0.1)
    assert middles[f"3{decimal}0"] - middles[f"0{decimal}0"] == pytest.approx(6 * step, abs=0.3)
    for at, one in enumerate(words):
        for other in words[:at]:
            apart = one[0] >= other[2] - 0.5 or other[0] >= one[2] - 0.5
            assert apart or one[1] >= other[3] - 3.5 or other[1] >= one[3] - 3.5, (one, other)


@pytest.mark.parametrize("name", ["<b onload=x>", 'x #panic("x")', r"\input{x} $x$", "[x]{.value}", "`*_"])
def test_the_name_of_a_series_is_text_in_every_format(name: str, tmp_path: Path) -> None:
    from physcalc_filter.figures.svg import svg
    from physcalc_filter.figures.tikz import tikz

    picture = figure(drawn("v against t", series(TABLE, name=name))).picture
    assert name in [label.text for label in picture.labels()]
    assert "<b" not in svg(picture, name)
    assert "\\input" not in tikz(picture, "")
    source = tmp_path / "a.md"
    source.write_text(SEVERAL.replace("the other bus", name), encoding="utf-8")
    from physcalc_filter.cli import main

    with suppress(SystemExit):
        main(["build", str(source), "-o", str(tmp_path / "a.pdf"), "--edition", "guide"])
    assert (tmp_path / "a.pdf").stat().st_size


FOLLOWED = """# Question 1 {{.question}}

::: {{.question #plotting}}
```{{.draw}}
graph: v against t
points:
  - t in s, v in m/s
  - 0, 0.2
  - 1.0, 2.1
  - 2.0, 4.0
  - 3.0, 6.2
fit: line
gradient: a to 3 sf
```
:::

::: {{.question #using}}
```{{.calc}}
given:
  m: 2 kg
  a: from plotting
formula: F = m a
find: F in N to 2 dp
```
:::
"""


def command(tmp_path: Path, capsys: pytest.CaptureFixture[str], *words: str) -> str:
    from physcalc_filter.cli import main

    source = tmp_path / "a.md"
    source.write_text("---\nlang: en\n---\n\n" + FOLLOWED.format(), encoding="utf-8")
    with suppress(SystemExit):
        main([words[0], str(source), *words[1:]])
    return capsys.readouterr().out.replace("\u00a0", " ")


def test_a_learner_who_reads_another_gradient_goes_on_from_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """F = 2 kg · 2.20 m·s⁻² = 4.40 N."""
    said = command(tmp_path, capsys, "follow", "--took", "plotting:a=2.20 m/s^2")
    assert "3.98 N" in said
    assert "4.40 N" in said


def test_what_a_result_rests_on_goes_back_to_the_graph(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert "a = 1.99 m·s⁻²   found, question 1.1" in command(tmp_path, capsys, "trace", "F")
    assert "F = 3.98 N   found, question 1.2" in command(tmp_path, capsys, "trace", "a")


def test_a_graph_that_cannot_be_drawn_is_the_only_problem() -> None:
    for text in (DOCUMENT, FOLLOWED):
        wrong = text.replace("  - 2.0, 4.0", "  - 2.0, fast").format(lang="en", more="mark: dots")
        problems = pipeline.check(Source("a.md", wrong)).problems
        assert [problem.slug for problem in problems] == ["graph-point-unreadable"]


PHOTO = ("f in Hz, V_s in V", "6.0e14, 0.42", "7.0e14, 0.83", "8.0e14, 1.22", "9.0e14, 1.67", "10e14, 2.05")
CELL = ("I in A, V in V", "0.20, 1.40", "0.40, 1.31", "0.60, 1.19", "0.80, 1.10", "1.00, 1.01")


def test_a_line_reaches_the_axis_where_its_intercept_is_read() -> None:
    """The threshold frequency is read where the line meets the f axis, and the work function where it meets the other."""
    found = drawn("V_s against f", series(PHOTO, fit="line", x_intercept="f_0"))
    (line,) = lines(figure(found).picture, "fit")
    (axis,) = lines(figure(found).picture, "axis x")
    assert near(min(line.points), (min(line.points)[0], axis.points[0][1]), 1e-3)
    assert scales(diagram_of(found))[1].low == 0
    found = drawn("V_s against f", series(PHOTO, fit="line", intercept="c"))
    (line,) = lines(figure(found).picture, "fit")
    assert scales(diagram_of(found))[0].low == 0
    assert min(line.points)[0] == 0


def test_a_line_that_is_all_but_level_is_not_lengthened_for_ever() -> None:
    points = ("t in s, v in m/s", "0, 5.000", "1, 5.001", "2, 5.000", "3, 5.0012")
    found = drawn("v against t", series(points, fit="line", x_intercept="t_0"))
    assert scales(diagram_of(found))[0].high <= 4


@pytest.mark.parametrize(
    ("plotted", "points"), [("V_s against f", PHOTO), ("V against I", CELL), ("v against t", TABLE)]
)
@pytest.mark.parametrize("intercept", ["intercept", "x_intercept"])
def test_labels_of_a_triangle_cross_no_line(plotted: str, points: tuple[str, ...], intercept: str) -> None:
    keys = {"fit": "line", "triangle": "yes", intercept: "c"}
    picture = figure(drawn(plotted, series(points, **keys))).picture
    drawn_lines = [
        line for role in ("fit", "triangle run", "triangle rise", "axis x") for line in lines(picture, role)
    ]
    for label in (*picture.with_role("label triangle"), *picture.with_role("reading")):
        box = box_of(label)  # type: ignore[arg-type]
        for line in drawn_lines:
            for one, other in pairwise(line.points):
                assert clipped(one, other, box) is None, (label, line.role)


def test_an_area_that_is_asked_is_shaded_for_those_who_see_answers() -> None:
    """From 0 s to 4 s the bus speeds up to 8 m/s: a triangle of 4 s times 8 m/s halved, 16 m (area by Gauss's formula)."""
    found = drawn("v against t", series(pieces=BUS, area="x from 0 s to 4 s"))
    (area,) = lines(figure(found).picture, "area")
    x, y = scales(diagram_of(found))
    points = [(px / x.at(Fraction(1)), py / y.at(Fraction(1))) for px, py in area.points]
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]]))
    assert abs(doubled) / 2 == pytest.approx(16)
    assert area.fill is not None
    assert 0.7 < area.fill < 1
    assert not lines(figure(found, edition="paper").picture, "area")


def test_a_curve_beside_its_points_is_drawn_through() -> None:
    found = drawn(
        "p against V",
        series(
            ("V in cm^3, p in kPa", "20, 150", "30, 101", "40, 75"),
            curve=["p = k / V from 20 cm^3 to 40 cm^3"],
        ),
        scope=scope_of(k="3000 kPa cm^3"),
    )
    (curve,) = lines(figure(found).picture, "curve")
    assert curve.pen is not None
    assert curve.pen.dash == ""


def test_names_of_what_is_found_are_symbols() -> None:
    found = drawn("V against I", series(CELL, fit="line", gradient="k_Q"))
    assert figure(found).note[1:3] == (Run("k", slant=True), Run("Q", level=-1))
