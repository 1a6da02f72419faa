"""Vectors in a plane: directions as they are typed and printed, sums by components, points, answers.

Expected values without a source are worked out by hand or, for random vectors, with complex numbers (cmath).
"""

from __future__ import annotations

import cmath
import math
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.pipeline import check
from physcalc_filter.sources import Source

from physcalc.checking.printing import printed_datum
from physcalc.checking.scope import Plane
from physcalc.engine import Outcome
from physcalc.language.headings import read_heading
from physcalc.language.names import Name
from physcalc.language.plain import plain
from physcalc.language.points import read_points
from physcalc.language.statements import Conventions
from physcalc.problems import Problem
from physcalc.units import from_si, read_unit

from .authoring import (
    COMMA,
    POINT,
    answers,
    axis,
    layer,
    printed,
    shown,
    slugs,
    statement,
    text,
    tidy,
    work,
)  # fmt: skip

FORCES = ("F_1: 12 N at 30°", "F_2: 5 N at 90°")


def points(**places: str) -> Conventions:
    """Conventions with points in a plane."""
    return replace(POINT, points=read_points([(text(k), text(v)) for k, v in places.items()], "."))


RIGHT_ANGLE = points(A="0 m, 0 m", B="3 m, 0 m", P="3 m, 4 m")


def degrees(phrase: str) -> float:
    return math.degrees(float(read_heading(text(phrase), ".").direction())) % 360


def plane(outcome: Outcome, name: str) -> Plane:
    found = outcome.results[Name(*name.split("_"))].quantity.plane
    assert found is not None
    return found


# ---- directions as typed -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("phrase", "angle"),
    [
        ("0°", 0),
        ("30°", 30),
        ("30 deg", 30),
        ("30 degrees", 30),
        ("-30°", 330),
        ("200°", 200),
        ("360°", 0),
        ("0.5 rad", math.degrees(0.5)),
        ("bearing 000°", 90),
        ("bearing 090°", 0),
        ("bearing 120°", 330),
        ("a bearing of 270°", 180),
        ("20° north of east", 20),
        ("20° east of north", 70),
        ("20° west of north", 110),
        ("20° north of west", 160),
        ("20° south of west", 200),
        ("20° west of south", 250),
        ("20° east of south", 290),
        ("20° south of east", 340),
        ("20° N of E", 20),
        ("30° above right", 30),
        ("30° above left", 150),
        ("30° below left", 210),
        ("30° below right", 330),
        ("30° below the left", 210),
        ("30° above the horizontal, to the left", 150),
        ("30° below the horizontal, to the right", 330),
        ("30° left of up", 120),
        ("30° to the left of upwards", 120),
        ("30° to the right of downwards", 300),
        ("30° right of down", 300),
        ("right", 0),
        ("up", 90),
        ("to the left", 180),
        ("downwards", 270),
        ("east", 0),
        ("due north", 90),
        ("westwards", 180),
        ("South", 270),
        ("north-east", 45),
        ("northwest", 135),
        ("SW", 225),
        ("south east", 315),
    ],
)
def test_a_direction_as_typed(phrase: str, angle: float) -> None:
    assert degrees(phrase) == pytest.approx(angle % 360, abs=1e-9)


@pytest.mark.parametrize(
    "phrase",
    ["30", "sideways", "bearing", "bearing north", "30° below", "30° left of right", "30° north of left",
     "30° above the horizontal", "30 m", "bearing 30° north"],
)  # fmt: skip
def test_a_direction_that_cannot_be_read(phrase: str) -> None:
    with pytest.raises(Problem) as caught:
        read_heading(text(phrase), ".")
    assert caught.value.slug == "heading-unreadable"
    assert caught.value.mend().startswith("write at 30°")


@pytest.mark.parametrize("step", range(0, 360, 15))
@pytest.mark.parametrize(
    "form",
    ["{0}°", "bearing {1}°", "{2}° {3} of {4}", "{2}° {5} {6}"],
    ids=["angle", "bearing", "compass", "screen"],
)
def test_what_is_printed_can_be_typed(form: str, step: int) -> None:
    """A vector in any direction is printed, in the manner it was typed, as that very direction."""
    acute = min(step % 180, 180 - step % 180)
    north, east = step % 360 < 180, step <= 90 or step >= 270
    typed = form.format(
        step, (90 - step) % 360, acute, "north" if north else "south", "east" if east else "west",
        "above" if north else "below", "right" if east else "left",
    )  # fmt: skip
    assert degrees(typed) == pytest.approx(step, abs=1e-9)
    outcome = work("G = 2 F", "G in N with direction", given=[f"F: 3 N at {typed}"])
    words = answers(outcome)["G"].removeprefix("6.00 N ").removeprefix("at ")
    assert degrees(words) == pytest.approx(step, abs=0.005)
    again = work("G = 2 F", "G in N", given=[f"F: 3 N at {typed}"], answer=f"6.00 N at {words}")
    assert slugs(again) == []


# ---- sums, differences, multiples ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("formula", "data", "answer"),
    [
        # By hand, with triangles of sides 3, 4, 5 and 5, 12, 13.
        ("R = A + B", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 53.13°"),
        ("R = A - B", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 306.87°"),
        ("R = -A - B", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 233.13°"),
        ("R = B - A", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 126.87°"),
        ("R = 5/3 A + 3 B", ["A: 3 N at 0°", "B: 4 N at 90°"], "13.00 N at 67.38°"),
        ("R = (A + B) / 2", ["A: 6 N at 0°", "B: 8 N at 90°"], "5.00 N at 53.13°"),
        ("R = 2 (A - B)", ["A: 1.5 N at 0°", "B: 2 N at 90°"], "5.00 N at 306.87°"),
        ("R + A = B", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 126.87°"),
        ("A + B + R = 0", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 233.13°"),
        ("0 = A + B - R", ["A: 3 N at 0°", "B: 4 N at 90°"], "5.00 N at 53.13°"),
        ("R = A + B", ["A: 3 N, 4 N", "B: 0 N, 8 N"], "12.37 N at 75.96°"),
        ("R = A + B", ["A: 3 N; -4 N", "B: 0 N; 0 N"], "5.00 N at 306.87°"),
        ("R = A + B", ["A: 0.003 kN, 400 cN", "B: 0 N, 0 N"], "5.00 N at 53.13°"),
        ("R = A - B", ["A: 3 N at right", "B: 4 N at up"], "5.00 N at 53.13° below the horizontal, to the right"),
        ("R = A + B", ["A: 3 N at west", "B: 4 N at north"], "5.00 N at 53.13° north of west"),
        ("R = A + B", ["A: 3 N at bearing 270°", "B: 4 N at bearing 000°"], "5.00 N at a bearing of 323.13°"),
        ("R = A + B", ["A: 3 N at bearing 005°", "B: 4 N at bearing 005°"], "7.00 N at a bearing of 005.00°"),
        ("R = A + B", ["A: 3 N at 0°", "B: 8 N at 180°"], "5.00 N to the left"),
        ("R = A + B", ["A: 3 N at 90°", "B: 8 N at 270°"], "5.00 N downwards"),
        ("R = A + B", ["A: 3 N at north", "B: 8 N at south"], "5.00 N south"),
        ("R = A + B", ["A: 3 N at 30°", "B: 3 N at 210°"], "0.00 N"),
        # A direction a hair's breadth below the x-axis is 0°, not 360°.
        ("R = A + B", ["A: 100 N at 0°", "B: 0.001 N at 270°"], "100.00 N at 0.00°"),
        ("R = A + B", ["A: 100 N at bearing 0°", "B: 0.001 N at bearing 270°"], "100.00 N at a bearing of 000.00°"),
        # Data made from other data.
        ("R = A + B", ["m: 2 kg", "A: m g at 270°", "B: 19.6 N at 0°"], "27.72 N at 315.00°"),
        ("R = C + B", ["A: 3 N at 0°", "B: 4 N at 90°", "C: A"], "5.00 N at 53.13°"),
        ("R = C + B", ["A: 3 N at 0°", "B: 4 N at 90°", "C: 2*A"], "7.21 N at 33.69°"),
        ("R = 2 C", ["A: 3 N at 0°", "B: 4 N at 90°", "C: A + B"], "10.00 N at 53.13°"),
        ("R = C + A", ["A: 3 N at 0°", "B: 4 N at 90°", "C: B - A"], "4.00 N upwards"),
    ],
)  # fmt: skip
def test_sums(formula: str, data: list[str], answer: str) -> None:
    assert answers(work(formula, "R in N with direction", given=data)) == {"R": answer}


@pytest.mark.parametrize("angle", [0, 30, 90, 150, 180, 200, 270, 330])
def test_newtons_second_law(angle: int) -> None:
    outcome = work("F = m a", "a in m/s^2 with direction", given=["m: 2 kg", f"F: 3 N at {angle}°"])
    vector = plane(outcome, "a")
    assert complex(float(vector.x), float(vector.y)) == pytest.approx(
        cmath.rect(1.5, math.radians(angle)), abs=1e-12
    )


def test_a_negative_charge_turns_the_force_round() -> None:
    outcome = work("F = q E", "F in N with direction", given=["q: -2 C", "E: 3 N/C at 30°"])
    assert answers(outcome) == {"F": "6.00 N at 210.00°"}


def test_a_formula_of_the_sheet() -> None:
    outcome = work(
        (), "a in m/s^2 with direction", use="newton-2", given=["m: 2 kg", "F_net: 3 N at 20° north of west"]
    )
    assert answers(outcome) == {"a": "1.50 m·s⁻² at 20.00° north of west"}


def test_the_size_of_a_sum_is_no_vector() -> None:
    outcome = work("F = |F_1 + F_2|", "F in N", given=FORCES)
    # √(12² + 5² + 2·12·5·cos 60°) = √229, by the cosine rule.
    assert answers(outcome) == {"F": "15.13 N"}
    assert outcome.results[Name("F")].quantity.plane is None


def test_a_sum_stays_a_vector_where_no_direction_is_asked() -> None:
    outcome = work("F = F_1 + F_2", "F in N", given=FORCES)
    assert answers(outcome) == {"F": "15.13 N"}
    assert float(plane(outcome, "F").y) == pytest.approx(11)


@pytest.mark.parametrize(
    ("formula", "find", "data", "answer"),
    [
        ("W = F d", "W in J", ["F: 60 N at 35°", "d: 2 m"], "120.00 J"),
        ("W = F.x d", "W in J", ["F: 60 N at 35°", "d: 2 m"], "98.30 J"),
        ("N = m g - F.y", "N in N", ["F: 60 N at 30°", "m: 10 kg"], "68.00 N"),
        ("E_k = 1/2 m v^2", "E_k in J", ["m: 2 kg", "v: 3 m/s at 40°"], "9.00 J"),
        ("W = F d cos θ", "W in J", ["F: 2 N at 60°", "d: 3 m at 0°", "θ: 60°"], "3.00 J"),
        ("tan θ = F.y / F.x", "θ", ["F: 3 N, 4 N"], "53.13°"),
        ("f = |F| / 4", "f in N", ["F: 3 N, -4 N"], "1.25 N"),
        ("F_y = F.y", "F_y in N", ["F: 60 N at 30° below left"], "−30.00 N"),
    ],
)
def test_elsewhere_a_vector_stands_as_its_size_or_component(
    formula: str, find: str, data: list[str], answer: str
) -> None:
    assert list(answers(work(formula, find, given=data)).values()) == [answer]


def test_a_size_inside_a_vector_formula() -> None:
    """Drag against the motion: the bars are a size, the v beside them a vector. By hand: −18 N and 1 N."""
    data = ["k: 2 kg/m", "v: 3 m/s at 0°", "F_1: 1 N at 90°"]
    vector = plane(work("F = F_1 - k |v| v", "F in N", given=data), "F")
    assert (float(vector.x), float(vector.y)) == pytest.approx((-18, 1))


@pytest.mark.parametrize(
    ("formula", "find", "data"),
    [
        ("p = |F_1 + F_2| / A", "p in Pa", ["A: 2 m^2"]),
        (["F = F_1 + F_2", "G = 2 F"], ["F in N", "G in N"], []),
        ("W = sqrt((F_1 + F_2)^2) d", "W in J", ["d: 2 m"]),
        ("G = 2 T", "G in N", ["T: |F_1 + F_2|"]),
    ],
)
def test_sizes_are_never_added_in_the_place_of_vectors(formula: Any, find: Any, data: list[str]) -> None:
    outcome = work(formula, find, given=[*FORCES, *data])
    assert "vectors-as-sizes" in slugs(outcome)
    assert outcome.working is None


@pytest.mark.parametrize("other", ["T: 5 N", "m: 2 kg", "T: 5 N, right"])
def test_a_vector_and_a_scalar(other: str) -> None:
    conventions = axis("right is positive")
    second = "T" if other.startswith("T") else "m g"
    outcome = work(f"F = F_1 + {second}", "F in N", given=[FORCES[0], other], conventions=conventions)
    (problem,) = outcome.problems
    assert (problem.slug, problem.span.line, problem.span.column) == ("vector-meets-scalar", 31, 20)


def test_dimensions_are_checked_for_vectors_too() -> None:
    assert slugs(work("F = F_1 + a", "F in N", given=[FORCES[0], "a: 5 m/s^2 at 0°"])) == [
        "dimensions-differ"
    ]


# ---- points ----------------------------------------------------------------------------------------------


def test_distances_by_the_names_of_two_points() -> None:
    assert answers(work("d = AP + BP + AB", "d in m", conventions=RIGHT_ANGLE)) == {"d": "12.00 m"}
    millimetres = points(A="0 mm, 0 mm", P="0 mm, -40 mm")
    assert answers(work("d = PA", "d", conventions=millimetres)) == {"d": "40.00 mm"}


def test_an_author_may_give_a_distance_another_value() -> None:
    outcome = work("d = AP", "d in m", conventions=RIGHT_ANGLE, given=["AP: 7 m"])
    assert answers(outcome) == {"d": "7.00 m"}


def test_a_datum_from_one_point_to_another() -> None:
    outcome = work("G = 2 F", "G in N with direction", given=["F: 5 N at A to P"], conventions=RIGHT_ANGLE)
    assert answers(outcome) == {"G": "10.00 N at 53.13°"}
    back = work("G = 2 F", "G in N with direction", given=["F: 5 N at P to A"], conventions=RIGHT_ANGLE)
    assert answers(back) == {"G": "10.00 N at 233.13°"}


def test_fields_of_two_charges() -> None:
    """E_A = kQ/AP² along AP and E_B towards B; by hand with k = 9.0e9: (1.08, 1.44) and (0, −2.25) N/C."""
    steps = [
        statement("E_A = k Q_A / AP^2", "E_A in N/C at A to P", conventions=RIGHT_ANGLE),
        statement("E_B = k Q_B / BP^2", "E_B in N/C at P to B", conventions=RIGHT_ANGLE),
        statement("E = E_A + E_B", "E in N/C with direction", conventions=RIGHT_ANGLE),
    ]
    outcome = work(steps=steps, given=["Q_A: 5 nC", "Q_B: -4 nC"], conventions=RIGHT_ANGLE)
    assert answers(outcome) == {"E": "1.35 N·C⁻¹ at 323.13°"}
    assert "E_A = 1.80 N·C⁻¹ from A to P" in shown(outcome.working)
    assert complex(float(plane(outcome, "E_B").x), float(plane(outcome, "E_B").y)) == pytest.approx(-2.25j)


@pytest.mark.parametrize(
    ("typed", "conventions", "slug", "mend"),
    [
        (
            "A to Z",
            RIGHT_ANGLE,
            "point-unknown",
            "the points are A, B, P; add it to points, or correct the letter",
        ),
        ("A to P", POINT, "point-unknown", "say where it is with points, for example points: A: 0 m, 3 m"),
        ("A to A", RIGHT_ANGLE, "heading-unreadable", "the two points lie on each other: name two others"),
    ],
)
def test_points_that_are_not_there(typed: str, conventions: Conventions, slug: str, mend: str) -> None:
    data = work("G = 2 F", "G in N", given=[f"F: 5 N at {typed}"], conventions=conventions)
    found = work("E = 2 F", f"E in N at {typed}", given=["F: 5 N"], conventions=conventions)
    for outcome, place in ((data, (20, 11)), (found, (40, 17))):
        problem = outcome.problems[0]
        assert (problem.slug, problem.mend()) == (slug, mend)
        assert (problem.span.line, problem.span.column, problem.span.length) == (*place, 6)


@pytest.mark.parametrize("position", ["3 m", "3, 4", "3 m, 4 s", "up, 3 m", "3 m at 30°"])
def test_positions_that_are_none(position: str) -> None:
    with pytest.raises(Problem) as caught:
        read_points([(text("A"), text(position))], ".")
    assert caught.value.slug == "phrase-unreadable"


# ---- typed answers -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("answer", "slug", "marked"),
    [
        ("15.13 N at 46.63°", None, ""),
        ("15.13 N at 47°", None, ""),
        ("15.13 N at -313.37°", None, ""),
        ("15.13 N at 46.63° above right", None, ""),
        ("15.13 N at 43.37° east of north", None, ""),
        ("15.13 N at bearing 043°", None, ""),
        ("15.13 N at 0.81 rad", None, ""),
        ("0.01513 kN at 46.63°", None, ""),
        ("10.39 N, 11.00 N", None, ""),
        ("10.39 N; 11 N", None, ""),
        ("15.13 N", None, ""),
        ("15.13 N at 45°", "direction-disagrees", "45°"),
        ("15.13 N at 46.64°", "direction-disagrees", "46.64°"),
        ("15.13 N at 46.63° above left", "direction-disagrees", "46.63° above left"),
        ("15.13 N at 46.63° north of west", "direction-disagrees", "46.63° north of west"),
        ("15.13 N at bearing 046.63°", "direction-disagrees", "bearing 046.63°"),
        ("15.13 N at north", "direction-disagrees", "north"),
        ("15.31 N at 46.63°", "answer-disagrees", "15.31 N"),
        ("15.31 N", "answer-disagrees", "15.31 N"),
        ("10.39 N, 12.00 N", "answer-disagrees", "12.00 N"),
        ("10.93 N, 11.00 N", "answer-disagrees", "10.93 N"),
        ("15.13 N at 46.63", "heading-unreadable", "46.63"),
        ("15.13 J at 46.63°", "unit-dimension-wrong", None),
    ],
)  # fmt: skip
def test_answers_with_directions(answer: str, slug: str | None, marked: str | None) -> None:
    outcome = work("F = F_1 + F_2", "F in N to 2 dp", given=FORCES, answer=answer)
    assert [found for found in slugs(outcome) if found != "answer-coarse"] == ([slug] if slug else [])
    if slug and marked is not None:
        span = next(p.span for p in outcome.problems if p.slug == slug)
        assert answer[span.column - 9 : span.column - 9 + span.length] == marked


def test_components_of_what_is_no_vector() -> None:
    outcome = work("F = m a", "F in N", given=["m: 2 kg", "a: 3 m/s^2"], answer="6 N, 0 N")
    assert slugs(outcome) == ["quantity-unreadable"]


# ---- as documents ----------------------------------------------------------------------------------------

NET = """---
lang: en
physcalc:
  sheet: school
---

# Question 1 {.question marks=12 points="A: 0 m, 0 m; B: 0 m, 3 m; P: 4 m, 0 m"}

```{.given}
Q_A: 2 nC
Q_B: 5 nC
q: -3 µC
```

::: {.question #field-a marks=3}
Calculate the field of A at P.

```{.calc}
use: field-point (E = E_A, Q = Q_A, r = AP)
find: E_A in N/C at A to P
```
:::

::: {.question #field-b marks=3}
Calculate the field of B at P.

```{.calc}
use: field-point (E = E_B, Q = Q_B, r = BP)
find: E_B in N/C at B to P
```
:::

::: {.question #net marks=3}
Calculate the net field at P.

```{.calc}
given:
  E_A: from field-a
  E_B: from field-b
formula: E = E_A + E_B
find: E in N/C with direction
answer: 2.80 N/C at 337.33°
marks: 3
```
:::

::: {.question #force marks=3}
Calculate the force on q.

```{.calc}
given:
  E: from net
formula: F = q E
find: F in N to 2 dp with direction
answer: 8.41e-6 N at 157.33°
```
:::
"""


def test_results_are_vectors_in_later_questions() -> None:
    """By hand: E_A = 1.125 along +x, E_B = 1.8 along (4, −3)/5, so E = (2.565, −1.08) N/C and F = −3 µC · E."""
    vector = complex(2.565, -1.08)
    assert (abs(vector), math.degrees(cmath.phase(vector))) == pytest.approx((2.7831, -22.834), abs=1e-3)
    report = check(Source("page.md", NET))
    wrong = {(p.slug, p.span.line) for p in report.problems if p.level != "note"}
    lines = NET.splitlines()
    at = [n + 1 for n, line in enumerate(lines) if line.startswith("answer:")]
    assert wrong == {("direction-disagrees", line) for line in at}
    right = NET.replace("2.80 N/C at 337.33°", "2.78 N/C at 337.17°").replace(
        "8.41e-6 N at 157.33°", "8.35e-6 N at 157.17°"
    )
    assert [str(p) for p in check(Source("page.md", right)).problems if p.level != "note"] == []


@pytest.mark.parametrize(
    ("typed", "written"),
    [
        ("12 N at 30,5°", "12 N at 30,5°"),
        ("12 N at bearing 045°", "12 N at a bearing of 045°"),
        ("12 N at 20° north of east", "12 N at 20° north of east"),
        ("12 N at 30° left of up", "12 N at 30° to the left of upwards"),
        ("12 N at 30° below left", "12 N at 30° below the horizontal, to the left"),
        ("12 N at up", "12 N upwards"),
        ("12 N at north-west", "12 N at 45° north of west"),
        ("12 N at A to P", "12 N from A to P"),
    ],
)
def test_a_datum_is_written_with_its_direction(typed: str, written: str) -> None:
    conventions = replace(COMMA, points=RIGHT_ANGLE.points)
    (datum,) = layer(f"F: {typed}", conventions=conventions).values()
    assert tidy(plain(printed_datum(datum, conventions.style), conventions.style)) == written


def test_data_of_a_calculation_that_cancel() -> None:
    outcome = work("n = a_2 / a_1", "n to 2 dp", given=["m_2: 2.5*m", "a_1: F / m", "a_2: F / m_2"])
    assert answers(outcome) == {"n": "0.40"}


# ---- published examples ------------------------------------------------------------------------------------

CASES: dict[str, dict[str, Any]] = {
    case["id"]: case
    for case in yaml.safe_load(
        (Path(__file__).parent / "cases" / "worked_examples.yaml").read_text(encoding="utf-8")
    )
}


@pytest.mark.parametrize(
    ("case", "given_", "formula", "find", "size", "direction", "wrong"),
    [
        # The data are those of the example, with their directions; the size is the printed one of the file.
        ("two-leg-walk", ["A: 53.0 m at 20.0°", "B: 34.0 m at 63.0°"], "R = A + B", "R in m to 3 sf", "R", "36.6°", ""),
        # Drawn with ruler and protractor: 22.6 m and 6.8° follow from the data.
        ("boat-wrong-leg", ["A: 27.5 m at 66.0°", "B: 30.0 m at 112°"], "R = A - B", "R in m to 3 sf", "R",
         "7.5° south of east", "direction-disagrees"),
        ("boat-wrong-leg", ["A: 27.5 m at 66.0°", "B: 30.0 m at 112°"], "R = A - B", "R in m to 3 sf", "R",
         "6.8° south of east", "answer-disagrees"),
        ("dark-room-collision",
         ["m_1: 0.250 kg", "m_2: 0.400 kg", "v_1: 2 m/s at 0°", "u_1: 1.50 m/s at 45.0°"],
         "m_1 v_1 = m_1 u_1 + m_2 u_2", "u_2 in m/s to 3 sf", "u_2", "312°", ""),
        # The book adds components that it has rounded; 8.30 follows from the data.
        ("four-forces-magnitude",
         ["m: 4.0 kg", "F_1: 10.0 N at 30°", "F_2: 40.0 N at down", "F_3: 5.0 N at left", "F_4: 2.0 N at up"],
         "F_1 + F_2 + F_3 + F_4 = m a", "a in m/s^2 to 2 sf", "a", "276°", "answer-disagrees"),
        ("crossroads-wreck",
         ["m_c: 1200 kg", "v_c: 60 km/h at east", "m_T: 3000 kg", "v_T: 40 km/h at north"],
         "m_c v_c + m_T v_T = (m_c + m_T) v", "v in km/h to 3 sf", "v", "59° north of east", ""),
        ("barge-drag", ["F_1: 2.7e5 N at right", "F_2: 3.6e5 N at up", "m: 5.0e6 kg", "a: 7.5e-2 m/s^2 at 53.1301°"],
         "F_1 + F_2 + F_D = m a", "F_D in N to 2 sf", "F_D", "53.1° below left", ""),
        # From the sides that the book has rounded.
        ("fireworks-displacement", ["x: 125 m at right", "y: 233 m at up"], "s = x + y", "s in m to 3 sf", "s",
         "61.8° above right", ""),
        ("circular-total-acceleration", ["a_c: 3.1 m/s^2 at up", "a_T: 1.5 m/s^2 at right"], "a = a_c + a_T",
         "a in m/s^2 to 3 sf", "a", "64° above right", ""),
    ],
)  # fmt: skip
def test_published(
    case: str, given_: list[str], formula: str, find: str, size: str, direction: str, wrong: str
) -> None:
    """OpenStax; the source of each is named in the file, by its id."""
    value = CASES[case]["find"][size]
    outcome = work(formula, find, given=given_, answer=f"{value} at {direction}", sheet_name="codata")
    assert [slug for slug in slugs(outcome) if slug != "answer-coarse"] == ([wrong] if wrong else [])


def test_two_source_charges() -> None:
    """OpenStax, University Physics Volume 2, example 5.2 (`coulomb-2d-net`): 4.08e-14 N, 58° above −x."""
    printed_ = CASES["coulomb-2d-net"]["find"]
    conventions = points(A="0 m, 2.0e-7 m", B="4.0e-7 m, 0 m", P="0 m, 0 m")
    data = ["q_1: 3.204e-19 C", "q_2: 4.806e-19 C", "q_3: 8.01e-19 C", "k: 8.99e9 N*m^2/C^2"]
    steps = [
        statement("F_A = k q_1 q_2 / AP^2", "F_A in N at P to A", conventions=conventions),
        statement("F_B = k q_2 q_3 / BP^2", "F_B in N at B to P", conventions=conventions),
        statement(
            "F = F_A + F_B",
            "F in N to 3 sf",
            conventions=conventions,
            answer=f"{printed_['F']} at 58° above left",
        ),
    ]
    outcome = work(steps=steps, given=data, conventions=conventions, sheet_name="codata")
    assert slugs(outcome) == []
    vector = plane(outcome, "F")
    assert (f"{float(vector.x):.3g} N", f"{float(vector.y):.3g} N") == (printed_["F_x"], printed_["F_y"])


# ---- the working -----------------------------------------------------------------------------------------


def test_working_of_a_sum() -> None:
    assert shown(work("F = F_1 + F_2", "F in N with direction", given=FORCES).working) == [
        "F = F₁ + F₂",
        "F_x = F_1x + F_2x",
        "F_x = 12 cos(30°) + 5 cos(90°)",
        "F_x = 10.39 N",
        "F_y = F_1y + F_2y",
        "F_y = 12 sin(30°) + 5 sin(90°)",
        "F_y = 11.00 N",
        "F = √(F_x² + F_y²)",
        "F = √((10.39)² + (11.00)²)",
        "F = 15.13 N",
        "tan θ = |F_y| / |F_x|",
        "tan θ = 11.00 / 10.39",
        "θ = 46.63°",
        "F = 15.13 N at 46.63°",
    ]


def test_working_with_bearings() -> None:
    data = ["A: 3 km at bearing 030°", "B: 4 km at bearing 120°"]
    # A right angle between the legs: 5 km, and 30° + atan(4/3) = 083.13°. Components have the digits that give 6.87°:
    # atan(0.60/4.96) is 6.90°.
    assert shown(work("R = A + B", "R in km with direction", given=data).working) == [
        "R = A + B",
        "R_x = A_x + B_x",
        "R_x = 3 sin(030°) + 4 sin(120°)",
        "R_x = 4.964 km",
        "R_y = A_y + B_y",
        "R_y = 3 cos(030°) + 4 cos(120°)",
        "R_y = 0.598 km",
        "R = √(R_x² + R_y²)",
        "R = √((4.964)² + (0.598)²)",
        "R = 5.00 km",
        "tan θ = |R_y| / |R_x|",
        "tan θ = 0.598 / 4.964",
        "θ = 6.87°",
        "R = 5.00 km at a bearing of 083.13°",
    ]


def test_working_with_typed_components() -> None:
    lines = shown(work("F = A - B", "F in N", given=["A: 3 N, 4 N", "B: -1 N, 2 N"]).working)
    assert lines[1:4] == ["F_x = A_x − B_x", "F_x = 3 − (−1)", "F_x = 4.00 N"]
    assert lines[-1] == "F = 4.47 N"


def test_working_of_momentum() -> None:
    data = ["m_1: 2 kg", "v_1: 3 m/s at east", "m_2: 3 kg", "v_2: 4 m/s at 30° north of west"]
    lines = shown(work("m_1 v_1 + m_2 v_2 = (m_1 + m_2) v", "v in m/s with direction", given=data).working)
    assert lines[:4] == [
        "m₁ v₁ + m₂ v₂ = (m₁ + m₂) v",
        "m₁ v_1x + m₂ v_2x = (m₁ + m₂) v_x",
        "(2)(3) + 3 (−4 cos(30°)) = (2 + 3) v_x",
        "v_x = −0.8785 m·s⁻¹",
    ]
    # By hand: components (6 − 12 cos 30°)/5 = −0.8785 and 6/5, and atan(1.2/0.8785) = 53.79°.
    assert lines[-1] == "v = 1.49 m·s⁻¹ at 53.79° north of west"


def test_working_of_a_component() -> None:
    assert shown(work("W = F.x d", "W in J", given=["F: 60 N at 35°", "d: 2 m"]).working) == [
        "W = F_x d",
        "W = (60 cos(35°))(2)",
        "W = 98.30 J",
    ]


def test_working_along_an_axis_needs_no_angle() -> None:
    lines = shown(
        work("F = A + B", "F in N with direction", given=["A: 3 N at right", "B: 8 N at left"]).working
    )
    assert "F_x = 3 + (−8)" in lines
    assert not [line for line in lines if "tan" in line]
    assert lines[-1] == "F = 5.00 N to the left"


# ---- random vectors against complex numbers --------------------------------------------------------------

_SIZE = st.integers(1, 9999).map(lambda n: n / 100)
_FORMS = (
    "{0}°",
    "bearing {1}°",
    "{2}° north of east",
    "{2}° west of north",
    "{2}° below left",
    "{2}° left of down",
)


@st.composite
def _vectors(draw: st.DrawFn) -> tuple[str, complex]:
    """A vector as typed, and as a complex number (x + iy)."""
    size, angle = draw(_SIZE), draw(st.integers(0, 3599)) / 10
    if draw(st.booleans()):
        x, y = draw(_SIZE) * draw(st.sampled_from([1, -1])), draw(_SIZE) * draw(st.sampled_from([1, -1]))
        return f"{x} N, {y} N", complex(x, y)
    form = draw(st.sampled_from(_FORMS))
    turned = angle % 90
    whole = {0: angle, 1: 90 - angle, 2: turned, 3: 90 + turned, 4: 180 + turned, 5: 270 - turned}
    typed = form.format(angle, angle, turned)
    return f"{size} N at {typed}", cmath.rect(size, math.radians(whole[_FORMS.index(form)]))


@settings(max_examples=120, deadline=None)
@given(
    st.lists(st.tuples(_vectors(), st.sampled_from(["+", "-"]), st.integers(1, 9)), min_size=1, max_size=4)
)
def test_random_sums(parts: list[tuple[tuple[str, complex], str, int]]) -> None:
    formula, data, expected = "R =", [], 0j
    for index, ((typed, vector), sign, factor) in enumerate(parts):
        formula += f" {sign} {factor} A_{index}" if index or sign == "-" else f" {factor} A_{index}"
        data.append(f"A_{index}: {typed}")
        expected += (factor if sign == "+" or (not index and sign == "+") else -factor) * vector
    outcome = work(formula, "R in N with direction", given=data)
    vector = plane(outcome, "R")
    assert complex(float(vector.x), float(vector.y)) == pytest.approx(expected, abs=1e-9)
    (answer,) = outcome.working.answers if outcome.working else ()
    assert float(answer.rounded.fraction) == pytest.approx(
        abs(expected), abs=max(0.00501, 1e-2 * abs(expected))
    )
    words = printed(answer.printed)
    direction = re.search(r" N (?:at )?(.*)$", words)
    if abs(expected) > 1e-6:
        assert direction is not None
        turned = math.radians(degrees(direction[1])) - cmath.phase(expected)
        assert math.degrees(math.remainder(turned, math.tau)) == pytest.approx(0, abs=0.00501)


@settings(max_examples=60, deadline=None)
@given(_vectors(), st.integers(1, 99), st.integers(1, 99))
def test_random_momenta(typed: tuple[str, complex], first: int, second: int) -> None:
    """Two bodies stick together, the second one at rest in the beginning."""
    given_ = [f"m_1: {first} kg", f"m_2: {second} kg", f"p: {typed[0]}".replace(" N", " kg m/s")]
    outcome = work("p = (m_1 + m_2) v", "v in m/s with direction", given=given_)
    vector = plane(outcome, "v")
    assert complex(float(vector.x), float(vector.y)) == pytest.approx(typed[1] / (first + second), abs=1e-12)


def test_a_result_in_another_unit() -> None:
    outcome = work("F = F_1 + F_2", "F in kN to 3 sf", given=FORCES)
    vector = plane(outcome, "F")
    assert float(from_si(vector.y, read_unit(text("kN")))) == pytest.approx(0.011)
    assert answers(outcome) == {"F": "1.51 × 10⁻² kN"}
