"""Graphs on the page: squared paper, editions, words, formats."""

from __future__ import annotations

import html
import json
import re
import subprocess
from contextlib import suppress
from fractions import Fraction
from itertools import pairwise
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.figures.graphs import MOST_ACROSS, MOST_UP, clipped, scales
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import Run
from physcalc_filter.sources import Source

from ..programs import program
from .graph_cases import BUS, TABLE, diagram_of, drawn, figure, lines, near, scope_of, series


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
