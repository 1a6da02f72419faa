"""Free-body diagrams: directions, balance, and the geometry of what is drawn."""

from __future__ import annotations

import json
import math
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.figures.board import angle, distance, line_meets_box
from physcalc_filter.figures.figure import Look
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import Label, Line, Picture
from physcalc_filter.figures.stage import figure_of
from physcalc_filter.sources import Source

from physcalc.checking.scope import Scope
from physcalc.figures.drawn import Drawn
from physcalc.figures.forces import ForcesDiagram, ForcesText
from physcalc.figures.stage import draw
from physcalc.language import Conventions, GivenText
from physcalc.problems import Span, Text


def drawn(forces: dict[str, str], **keys: str) -> Drawn:
    lines = tuple(GivenText(Text(name), Text(value)) for name, value in forces.items())
    body = ForcesText(Span(), Conventions(), lines, **{key: Text(value) for key, value in keys.items()})  # type: ignore[arg-type]
    return draw(body, Scope())


def slugs(found: Drawn) -> list[str]:
    return [problem.slug for problem in found.problems]


def picture_of(found: Drawn) -> Picture:
    assert found.diagram is not None, found.problems
    look = Look("en", "memo", lambda datum: "1 N", Conventions())
    return figure_of(found.diagram, look).picture


def shaft(picture: Picture, name: str) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the arrow of a force begins, and its tip."""
    lines = [shape for shape in picture.with_role(f"arrow {name}") if isinstance(shape, Line)]
    body = next(line for line in lines if not line.closed)
    head = next(line for line in lines if line.closed)
    return body.points[0], head.points[0]


@pytest.mark.parametrize(
    ("typed", "degrees"),
    [
        ("5 N, up", 90),
        ("5 N, down", 270),
        ("5 N, to the left", 180),
        ("5 N at 30° above right", 30),
        ("5 N, at 30° below left", 210),
        ("5 N at 30° above the horizontal, to the right", 30),
        ("5 N, at 40° below the horizontal, to the left", 220),
        ("5 N at bearing 120°", -30),
        ("5 N at 20° north of east", 20),
        ("5 N, up the slope", 25),
        ("5 N, down the slope", 205),
        ("5 N, perpendicular to the slope", 115),
        ("5 N, perpendicular to the slope, into it", 295),
    ],
)
def test_an_arrow_points_where_the_words_say(typed: str, degrees: float) -> None:
    start, tip = shaft(picture_of(drawn({"F": typed}, slope="25°")), "F")
    assert math.isclose((angle(start, tip) - degrees + 180) % 360 - 180, 0, abs_tol=1e-6)


@pytest.mark.parametrize(
    ("direction", "degrees"), [("up the slope", 155), ("perpendicular to the slope", 65)]
)
def test_a_slope_that_rises_to_the_left(direction: str, degrees: float) -> None:
    picture = picture_of(drawn({"F": f"5 N, {direction}"}, slope="25° rising to the left"))
    assert math.isclose(angle(*shaft(picture, "F")) % 360, degrees, abs_tol=1e-6)


@given(st.lists(st.integers(10, 70), min_size=2, max_size=4), st.integers(0, 359))
def test_arrows_to_scale_are_as_long_as_their_sizes_say(sizes: list[int], turn: int) -> None:
    forces = {f"F_{n}": f"{size} N at {(turn + 80 * n) % 360}°" for n, size in enumerate(sizes)}
    picture = picture_of(drawn(forces, scale="1 cm for 10 N"))
    for n, size in enumerate(sizes):
        assert math.isclose(distance(*shaft(picture, f"F_{n}")), size, rel_tol=1e-9)


@given(
    st.lists(
        st.tuples(st.integers(1, 400), st.integers(0, 359)),
        min_size=1,
        max_size=8,
        unique_by=lambda pair: pair[1] // 24,
    )
)
def test_labels_keep_clear_of_each_other_and_of_the_edge(forces: list[tuple[int, int]]) -> None:
    typed = {f"F_{n}": f"{size} N at {turn}°" for n, (size, turn) in enumerate(forces)}
    picture = picture_of(drawn(typed, scale="no"))
    boxes = [box_of(label) for label in picture.labels() if label.role.startswith("label")]
    for at, box in enumerate(boxes):
        assert all(not box.meets(other) for other in boxes[:at])
        assert picture.box.left <= box.left
        assert box.right <= picture.box.right
        assert picture.box.bottom <= box.bottom
        assert box.top <= picture.box.top


@given(st.integers(1, 900), st.integers(1, 80))
def test_weight_and_its_reactions_on_a_slope_balance(newtons: int, slope: int) -> None:
    """Common practice, no source: the components of a weight along and across a slope are mg sin θ and mg cos θ."""
    across = round(newtons * math.cos(math.radians(slope)), 2)
    along = round(newtons * math.sin(math.radians(slope)), 2)
    forces = {
        "F_g": f"{newtons} N, down",
        "N": f"{across:.2f} N, perpendicular to the slope",
        "f": f"{along:.2f} N, up the slope",
    }
    # A whole number of newtons may lie off by half of one; the typed hundredths make no difference to that.
    assert slugs(drawn(forces, slope=f"{slope}°", balance="yes")) == []
    forces["f"] = f"{along + newtons / 4 + 2:.2f} N, up the slope"
    assert slugs(drawn(forces, slope=f"{slope}°", balance="yes")) == ["forces-unbalanced"]


def test_the_net_force_is_told_with_its_direction() -> None:
    (problem,) = drawn({"F_g": "49.0 N, down", "N": "45.0 N, up"}, balance="yes").problems
    assert "the net force is 4,00\u00a0N, down" in problem.sentence()


def test_balance_in_one_direction_alone() -> None:
    forces = {"F_g": "49.0 N, down", "N": "49.0 N, up", "F": "12.0 N, right", "f": "2.0 N, left"}
    assert slugs(drawn(forces, balance="vertically")) == []
    assert slugs(drawn(forces, balance="horizontally")) == ["forces-unbalanced"]


def test_a_rounded_size_balances_within_its_rounding() -> None:
    """Three forces of 100/3 N as printed: 33.33 N each against 100.0 N, where hundredths are left over."""
    forces = {"A": "100.0 N, down", "B": "66.67 N, up", "C": "33.3 N, up"}
    assert slugs(drawn(forces, balance="yes")) == []


@pytest.mark.parametrize(
    ("forces", "keys", "expected"),
    [
        ({"F": "12 N"}, {}, "force-undirected"),
        ({"F": "12 N, sideways"}, {}, "heading-unreadable"),
        ({"F": "12 N, up the slope"}, {}, "heading-unreadable"),
        ({"F": "12 kg, up"}, {}, "force-dimension"),
        ({"F": "up"}, {"balance": "yes"}, "force-size-missing"),
        ({"F": "1 N, up"}, {"balance": "maybe"}, "figure-phrase-unreadable"),
        ({"F": "1 N, up"}, {"scale": "1 cm for 0.01 N"}, "figure-phrase-unreadable"),
        ({"F": "up"}, {"scale": "yes"}, "force-size-missing"),
        ({"F": "1 N, up"}, {"components": "G"}, "figure-name-unknown"),
        ({"F": "1 N, up"}, {"shape": "blok"}, "figure-phrase-unreadable"),
        ({"F": "1 N, up"}, {"slope": "95°"}, "heading-unreadable"),
        ({"F": "m g, up"}, {}, "name-without-value"),
        ({f"F_{n}": "1 N, up" for n in range(13)}, {}, "figure-phrase-unreadable"),
    ],
)
def test_what_cannot_be_drawn_is_said(forces: dict[str, str], keys: dict[str, str], expected: str) -> None:
    assert slugs(drawn(forces, **keys)) == [expected]


def test_very_unequal_arrows_are_not_to_scale_and_equal_in_length() -> None:
    found = drawn({"F_g": "1000 N, down", "f": "1 N, left"})
    assert isinstance(found.diagram, ForcesDiagram)
    assert not found.diagram.scaled
    picture = picture_of(found)
    assert math.isclose(distance(*shaft(picture, "F_g")), distance(*shaft(picture, "f")))


def test_components_end_where_they_must() -> None:
    picture = picture_of(drawn({"T": "40 N at 30° above right"}, components="T"))
    start, tip = shaft(picture, "T")
    for mark, end in (("x", (tip[0], start[1])), ("y", (start[0], tip[1]))):
        shapes = [
            one for one in picture.with_role(f"component {mark} T") if isinstance(one, Line) and one.closed
        ]
        assert math.isclose(distance(shapes[0].points[0], end), 0, abs_tol=1e-9)


DOCUMENT = """---
lang: {lang}
---

# Question 1 {{.question #a}}

```{{.given}}
m: 5 kg
```

```{{.draw}}
forces:
  F_g: m g, down
  N: 49.00 N, up
values: yes
on: a case
key:
  F_g: weight
balance: yes
marks: 1
```

What follows is marked `m`{{.value}}.
"""


def built(edition: str, format: str, lang: str = "en") -> str:
    from physcalc_filter.document import write_json

    source = Source("a.md", DOCUMENT.format(lang=lang))
    document, report = pipeline.build(source, edition, format)  # type: ignore[arg-type]
    assert document is not None, report.problems
    return json.dumps(json.loads(write_json(document)), ensure_ascii=False)


def test_a_paper_leaves_room_and_shows_no_force() -> None:
    paper, memo = built("paper", "html"), built("memo", "html")
    assert "drawing-space" in paper
    assert "weight" not in paper
    assert "<svg" not in paper
    assert "<svg" in memo
    assert "weight" in memo


def test_the_description_says_what_is_drawn_in_the_language_of_the_document() -> None:
    assert "Free-body diagram of a case. F_g = 49.00\u00a0N (weight): down; N = 49.00\u00a0N: up." in built(
        "memo", "html"
    )
    assert "Kräfteplan für a case. F_g = 49,00\u00a0N (weight): nach unten" in built("memo", "html", "de")


@pytest.mark.parametrize("format", ["typst", "latex", "html", "docx", "markdown"])
def test_every_format_has_the_picture(format: str) -> None:
    signs = {"typst": "#drawn(figure(alt:", "latex": "tikzpicture", "html": "<svg", "docx": "data:image/png"}
    assert signs.get(format, "data:image/svg") in built("memo", format).replace('\\"', '"')


def test_a_force_from_scope_and_an_exact_sum() -> None:
    """5 kg · 9,8 m·s⁻² is 49 N exactly, so no rounding is needed for the two to balance."""
    assert Fraction(5) * Fraction(98, 10) == 49
    source = Source("a.md", DOCUMENT.format(lang="en"))
    assert pipeline.check(source).problems == ()
    wrong = pipeline.check(Source("a.md", DOCUMENT.format(lang="en").replace("49.00 N", "48.00 N")))
    (problem,) = wrong.problems
    assert problem.slug == "forces-unbalanced"
    assert re.search(r"balance: yes", DOCUMENT.splitlines()[problem.span.line - 1])


def test_no_library_is_loaded_for_figures_where_there_is_none(tmp_path: Path) -> None:
    import subprocess
    import sys

    path = tmp_path / "a.md"
    path.write_text("# Question 1 {.question}\n\nText.\n", encoding="utf-8")
    code = (
        "import sys; from physcalc_filter.cli import main\n"
        f"try: main(['check', {str(path)!r}])\nexcept SystemExit: pass\n"
        "bad = [m for m in sys.modules if m.split('.')[0] in ('numpy', 'matplotlib', 'schemdraw', 'contourpy')"
        " or m.startswith(('physcalc.figures.f', 'physcalc_filter.figures'))]\nassert not bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_words_below_a_label_keep_their_blanks() -> None:
    """Forces of a pair are told apart by what acts on what (common practice, no source)."""
    picture = picture_of(drawn({"F_{A on B}": "12 N, right", "F_{k (max)}": "12 N, left"}))
    below = {
        "".join(run.text for run in shape.runs if run.level < 0)
        for shape in picture.shapes
        if isinstance(shape, Label)
    }
    assert below == {"A on B", "k(max)"}


def test_angles_over_one_another_are_written_clear_of_the_arrows() -> None:
    """Bearings are turned from the north, so that the arc of a large one passes below the arrows of smaller ones."""
    forces = {"P": "30 N, at bearing 060°", "Q": "20 N, at bearing 150°", "R": "36 N, at bearing 274°"}
    picture = picture_of(drawn(forces))
    for label in picture.with_role("angle"):
        if isinstance(label, Line):
            continue
        for name in forces:
            assert not line_meets_box(Line(shaft(picture, name)), box_of(label)), (label, name)  # type: ignore[arg-type]


def test_what_does_not_balance_is_told_with_its_sizes() -> None:
    text = (
        "# Question 1 {.question}\n\n```{.given}\nm: 5 kg\n```\n\n"
        "```{.draw}\nforces:\n  F_g: m g, down\n  N: 45 N, up\nbalance: yes\n```\n"
    )
    report = pipeline.check(Source("test.md", "---\nphyscalc:\n  sheet: school\n---\n\n" + text))
    (problem,) = report.problems
    assert problem.slug == "forces-unbalanced"
    (reason,) = problem.because()
    # 5 kg × 9,8 m·s⁻² = 49 N.
    assert "F_g = 49.00\u00a0N" in reason
    assert "N = 45\u00a0N (line 15)" in reason
