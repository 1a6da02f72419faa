"""Pictures of circuits: nothing overlaps, wires end where symbols begin, and all fits on the page."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.figures.board import bounds, distance, line_meets_box
from physcalc_filter.figures.letters import box_of
from physcalc_filter.figures.picture import SMALLEST_SIZE, WIDEST, Box, Circle, Line, Picture, Point
from physcalc_filter.sources import Source

from .circuit_cases import NETS, Net, drawn, given_of, picture_of, slugs

BATTERY = "battery (ε, r)"
LOOPS = [
    f"{BATTERY}, R_1",
    f"{BATTERY} with V_1, switch S, A_1, (R_1 | R_2, A_2) with V_2, R_3",
    f"{BATTERY}, [R_1, R_2] with V_1, (R_3 | R_4 with V_4)",
    f"{BATTERY}, switch S open, lamp L (R_L), (R_1 | R_2 | (R_3, fuse F | variable resistor R_v, diode D), motor M)",
    "(battery (ε_1, r_1) | battery (ε_2, r_2)), R_1, R_2",
    "3 cells (ε), capacitor C, LED, thermistor R_t, LDR R_l, galvanometer G",
    "terminals, R_1, (R_2 | R_3)",
    f"{BATTERY}, wire, R_1, (wire | R_2 | [R_3 with V_3, R_4] with V_5)",
]
BRANCHES = [
    ["A to B: battery (ε_1, r_1), R_1", "B to A: R_2", "A to B: R_3, battery (ε_2, r_2)"],
    [
        "A to B: battery (6 V, 1 Ω)", "A to C: R_1", "C to B: R_2", "A to D: R_3", "D to B: R_4", "C to D: G",
    ],
]  # fmt: skip
PLACED = [
    "P to Q: battery (ε, r)", "P to A: wire", "Q to B: wire", "A to B: R_1 with V_1", "A to E: R_2",
    "E to F: lamp L (R_L)", "F to B: switch S",
]  # fmt: skip
PLACES = {"P": "0, 2", "Q": "2, 2", "A": "0, 1", "B": "2, 1", "E": "0, 0", "F": "2, 0"}


def symbols(picture: Picture) -> dict[str, Box]:
    """The box of each symbol; of a battery one for its cells and one for its resistance."""
    out: dict[str, list[Line | Circle]] = {}
    for shape in picture.shapes:
        if shape.role.startswith("symbol ") and isinstance(shape, Line | Circle):
            out.setdefault(shape.role, []).append(shape)
    boxes: dict[str, Box] = {}
    for role, shapes in out.items():
        # A battery's resistance is the closed line among them.
        closed = [shape for shape in shapes if isinstance(shape, Line) and shape.closed]
        rest = [shape for shape in shapes if shape not in closed]
        if closed and rest and f"box {role.split()[1]}" in {shape.role for shape in picture.shapes}:
            boxes[f"{role} r"], boxes[role] = bounds(closed), bounds(rest)
        else:
            boxes[role] = bounds(shapes)
    return boxes


def wires(picture: Picture) -> list[Line]:
    return [shape for shape in picture.with_role("wire") if isinstance(shape, Line)]


def on_wire(point: Point, wire: Line) -> bool:
    return any(
        abs(distance(one, point) + distance(point, other) - distance(one, other)) < 1e-6
        for one, other in pairwise(wire.points)
    )


def check(picture: Picture) -> None:
    """What holds of every picture of a circuit."""
    boxes = symbols(picture)
    for (one, box), (other, second) in combinations(boxes.items(), 2):
        assert not box.meets(second), (one, other)
    labels = list(picture.labels())
    for one, other in combinations(labels, 2):
        assert not box_of(one).meets(box_of(other)), (one.text, other.text)
    for label in labels:
        inside = label.role.startswith("inside")
        box = box_of(label)
        for shape in picture.shapes:
            if shape.role.startswith("symbol") and not inside:
                assert not crosses(shape, box), (label.text, shape.role)
        for wire in wires(picture):
            assert not line_meets_box(wire, box), (label.text, wire.points)
        assert picture.box.joined(box) == picture.box
        assert label.size >= SMALLEST_SIZE
    assert picture.box.width <= WIDEST + 1e-6
    meets_exactly(picture)


def crosses(shape: object, box: Box) -> bool:
    """Whether a part of a symbol lies in a box."""
    if isinstance(shape, Line):
        return line_meets_box(shape, box) > 0
    assert isinstance(shape, Circle)
    return bounds([shape]).meets(box)


def meets_exactly(picture: Picture) -> None:
    """Every end of a wire lies on another wire or where a symbol begins; no wire runs into a symbol."""
    every = wires(picture)
    shapes = [shape for shape in picture.shapes if shape.role.startswith("symbol ")]
    for wire in every:
        for end in (wire.points[0], wire.points[-1]):
            others = any(on_wire(end, other) for other in every if other is not wire)
            assert others or any(touches(end, shape) for shape in shapes), end


def touches(point: Point, shape: object) -> bool:
    """Whether a point lies on the outline of a shape, half the width of a line aside."""
    if isinstance(shape, Circle):
        return abs(distance(shape.centre, point) - shape.radius) < 1e-6
    assert isinstance(shape, Line)
    points = (*shape.points, shape.points[0]) if shape.closed else shape.points
    return on_wire(point, Line(tuple(points)))


@pytest.mark.parametrize("circuit", LOOPS)
@pytest.mark.parametrize("labels", ["names", "values", "both"])
def test_loops(circuit: str, labels: str) -> None:
    data = {
        "ε": "12 V",
        "r": "0.5 Ω",
        "R_1": "4 Ω",
        "R_2": "6 Ω",
        "R_3": "3 Ω",
        "R_L": "9 Ω",
        "ε_1": "9 V",
        "r_1": "1 Ω",
    }
    found = drawn(circuit, data, labels=labels, currents="no")
    assert slugs(found) == []
    check(picture_of(found))


@pytest.mark.parametrize("lines", BRANCHES)
def test_branches_between_nodes(lines: list[str]) -> None:
    data = {
        "ε_1": "9 V",
        "r_1": "1 Ω",
        "R_1": "4 Ω",
        "R_2": "6 Ω",
        "R_3": "5 Ω",
        "R_4": "7 Ω",
        "ε_2": "6 V",
        "r_2": "1 Ω",
    }
    found = drawn(lines, data, currents="yes")
    picture = picture_of(found)
    check(picture)
    letters = {label.text for label in picture.labels() if label.role.startswith("node")}
    assert letters == {line[0] for line in lines} | {line[5] for line in lines}


def test_nodes_at_places_of_the_author() -> None:
    found = drawn(PLACED, {"ε": "9 V", "R_1": "4 Ω", "R_2": "3 Ω", "R_L": "5 Ω"}, at=PLACES)
    picture = picture_of(found)
    check(picture)
    assert {label.text for label in picture.labels() if label.role.startswith("node")} == {"A", "B"}


@settings(deadline=None, max_examples=60)
@given(NETS, st.booleans(), st.booleans())
def test_any_circuit_in_series_and_parallel(net: Net, meters: bool, arrows: bool) -> None:
    extra = "V" if meters else ""
    circuit = f"{BATTERY}, switch S, A, {net.text([], extra)}"
    found = drawn(circuit, {"ε": "12 V", "r": "0.5 Ω", **given_of(net)}, currents="yes" if arrows else "no")
    if slugs(found) == ["circuit-wide"]:
        return
    check(picture_of(found))


def test_nine_parts_side_by_side_fit_a_page_and_twenty_are_refused() -> None:
    def row(count: int) -> str:
        return f"battery (12 V), ({', '.join(f'R_{n}' for n in range(1, count + 1))} | R_{{30}})"

    values = {f"R_{n}": "12.50 Ω" for n in range(1, 10)}
    check(picture_of(drawn(row(9), values)))
    assert slugs(drawn(row(10))) == ["circuit-wide"]


def test_the_battery_stands_above_and_its_positive_end_leads_to_what_follows() -> None:
    """Convention of schematic diagrams (IEC 60617): the long line is the positive end."""
    picture = picture_of(drawn("cell (ε), R_1", {"ε": "9 V"}))
    lines = [shape for shape in picture.with_role("symbol 0") if isinstance(shape, Line)]
    long, short = sorted(lines, key=lambda line: -abs(line.points[0][1] - line.points[1][1]))
    # The current leaves to the right, where the loop goes on.
    assert long.points[0][0] > short.points[0][0]
    assert bounds(lines).bottom > bounds(picture.with_role("symbol 1")).top
    turned = picture_of(drawn("cell (ε) reversed, R_1", {"ε": "9 V"}))
    lines = [shape for shape in turned.with_role("symbol 0") if isinstance(shape, Line)]
    long, short = sorted(lines, key=lambda line: -abs(line.points[0][1] - line.points[1][1]))
    assert long.points[0][0] < short.points[0][0]


def test_a_switch_is_open_or_closed() -> None:
    for word, level in (("closed", True), ("open", False)):
        picture = picture_of(drawn(f"battery (9 V), switch S {word}, R_1"))
        (lever,) = [shape for shape in picture.with_role("symbol 1") if isinstance(shape, Line)]
        assert (lever.points[0][1] == lever.points[1][1]) is level


def test_an_arrow_points_the_way_the_current_is_counted() -> None:
    lines = ["A to B: battery (9 V, 1 Ω)", "B to A: R_1", "A to B: R_2"]
    picture = picture_of(drawn(lines, {"R_1": "4 Ω", "R_2": "3 Ω"}, currents="I, I_1, I_2"))
    # A stands on the left: the battery drives from there, R_1 leads back, R_2 is counted from there.
    for number, way in ((0, 1), (1, -1), (2, 1)):
        (head,) = [shape for shape in picture.with_role(f"current {number}") if isinstance(shape, Line)]
        assert (head.points[0][0] - head.points[1][0]) * way > 0


def test_a_paper_shows_no_current_and_no_value_that_has_to_be_found() -> None:
    found = drawn("battery (9 V), R_1", {"R_1": "4 Ω"}, currents="I_1")
    assert any(
        "= 2 A" in label.text.replace("\u00a0", " ") for label in picture_of(found, "memo", "2 A").labels()
    )
    texts = [
        label.text for label in picture_of(found, "paper", "2 A").labels() if label.role == "current label 1"
    ]
    assert texts == ["I1"]


DOCUMENT = """---
lang: {lang}
---

# Question 1 {{.question #a}}

A battery of emf `ε`{{.value}} is connected as drawn.

```{{.given}}
ε: 12 V
R_1: 4 ohm
R_2: 6 ohm
```

```{{.draw}}
circuit: battery (ε), switch S, A_1, (R_1 | R_2), R_x
given:
  A_1: 2.0 A
```

::: {{.question #b}}
```{{.calc}}
formula: P = V_1^2 / R_1
find: P in W
```
:::

The ammeter reads [2,0 A]{{.value of=A_1}}.

::: {{.only in="memo guide"}}
The unknown resistance is [3,6 Ω]{{.value of=R_x}}.
:::
"""


def built(edition: str, format: str, lang: str = "en-ZA") -> str:
    from physcalc_filter.document import write_json

    source = Source("a.md", DOCUMENT.format(lang=lang))
    document, report = pipeline.build(source, edition, format)  # type: ignore[arg-type]
    assert document is not None, report.problems
    return json.dumps(json.loads(write_json(document)), ensure_ascii=False)


def test_results_are_there_for_later_calculations_and_for_the_text() -> None:
    text = DOCUMENT.format(lang="en-ZA")
    assert [problem.slug for problem in pipeline.check(Source("a.md", text)).problems] == []
    # V_1 = 2,0 A · 2,4 Ω = 4,8 V, and P = V_1²/R_1 = 5,76 W.
    assert "5,76" in built("memo", "html")
    wrong = pipeline.check(Source("a.md", text.replace("[3,6 Ω]", "[3,7 Ω]")))
    assert [problem.slug for problem in wrong.problems] == ["answer-disagrees"]


def test_the_description_is_made_from_the_data() -> None:
    guide = built("guide", "html").replace("\u00a0", " ")
    assert (
        "Circuit diagram of a loop: battery (ε = 12 V); closed switch S; ammeter A_1; 2 branches in parallel "
        "(1: resistor R_1 (4 Ω); 2: resistor R_2 (6 Ω)); resistor R_x."
    ) in guide
    assert "Schaltplan einer Schleife: Batterie (ε = 12 V); geschlossener Schalter S" in built(
        "guide", "html", "de"
    ).replace("\u00a0", " ")


@pytest.mark.parametrize("format", ["typst", "latex", "html", "docx", "markdown"])
def test_every_format_has_the_picture(format: str) -> None:
    signs = {"typst": "#drawn(figure(alt:", "latex": "tikzpicture", "html": "<svg", "docx": "data:image/png"}
    assert signs.get(format, "data:image/svg") in built("guide", format).replace('\\"', '"')


def test_the_library_of_symbols_is_loaded_where_a_circuit_is_and_draws_nothing_itself(tmp_path: Path) -> None:
    code = (
        "import sys; from physcalc_filter.cli import main\n"
        "try: main(['build', sys.argv[1], '-o', sys.argv[2], '--edition', 'guide'])\nexcept SystemExit: pass\n"
        "names = {m.split('.')[0] for m in sys.modules}\n"
        "print('schemdraw' in names, bool(names & {'matplotlib', 'numpy'}))"
    )
    for name, circuit, loaded in (
        ("a", "circuit: battery (9 V), R_1 (3 Ω)", True),
        ("b", "forces:\n  F: up", False),
    ):
        path = tmp_path / f"{name}.md"
        path.write_text(f"# Question 1 {{.question}}\n\n```{{.draw}}\n{circuit}\n```\n", encoding="utf-8")
        command = [sys.executable, "-c", code, str(path), str(tmp_path / f"{name}.html")]
        out = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        assert re.search(rf"{loaded} False", out), out


def test_the_library_of_symbols_has_one_door() -> None:
    root = Path(pipeline.__file__).parent
    doors = [
        path.name for path in root.rglob("*.py") if "schemdraw import" in path.read_text(encoding="utf-8")
    ]
    assert doors == ["circuit_symbols.py"]
