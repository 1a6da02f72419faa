"""Vectors in a plane: directions as they are typed and printed, sums by components, points, answers.

Expected values without a source are worked out by hand or, for random vectors, with complex numbers (cmath).
"""

from __future__ import annotations

import cmath
import math
from dataclasses import replace
from typing import Any

import pytest
from physcalc_filter.pipeline import check
from physcalc_filter.sources import Source

from physcalc.checking.printing import printed_datum
from physcalc.language.headings import read_heading
from physcalc.language.names import Name
from physcalc.language.plain import plain
from physcalc.language.points import read_points
from physcalc.language.statements import Conventions
from physcalc.problems import Problem

from .authoring import (
    COMMA,
    POINT,
    answers,
    axis,
    layer,
    shown,
    slugs,
    statement,
    text,
    tidy,
    work,
)  # fmt: skip
from .vectors_worked import FORCES, degrees, plane, points

RIGHT_ANGLE = points(A="0 m, 0 m", B="3 m, 0 m", P="3 m, 4 m")


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


def test_what_is_at_rest_needs_no_direction() -> None:
    """By hand: 2 · 3 = 2 · 1 + 4 v along x, so v = 1 m/s."""
    given = ["m_1: 2 kg", "m_2: 4 kg", "u_1: 3 m/s at right", "u_2: 0 m/s", "v_1: 1 m/s at right"]
    outcome = work("m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2", "v_2 in m/s with direction", given=given)
    assert answers(outcome) == {"v_2": "1.00 m·s⁻¹ to the right"}
    assert "(2)(3) + (4)(0) = (2)(1) + 4 v_2x" in shown(outcome.working)
    # Only a zero does: any other size has to say where it points.
    given[3] = "u_2: 0.1 m/s"
    assert slugs(work("m_1 u_1 + m_2 u_2 = m_1 v_1 + m_2 v_2", "v_2 in m/s", given=given)) == [
        "vector-meets-scalar"
    ]


def test_an_unreadable_direction_is_told_once() -> None:
    outcome = work("F = F_1 + F_2", "F in N with direction", given=["F_2: 5 N at up"])
    assert slugs(outcome) == ["name-without-value"]


@pytest.mark.parametrize(
    ("force", "formula", "lines"),
    [
        ("60 N at 35°", "F_x = F.x", ["F_x = F cos(35°)", "F_x = 60 cos(35°)", "F_x = 49.15 N"]),
        (
            "8 N at 30° south of west",
            "F_y = F.y",
            ["F_y = −F sin(30°)", "F_y = −8 sin(30°)", "F_y = −4.00 N"],
        ),
        ("8 N at up", "N = F.y", ["N = F_y", "N = 8", "N = 8.00 N"]),
    ],
)
def test_a_formula_never_says_that_a_component_is_itself(force: str, formula: str, lines: list[str]) -> None:
    outcome = work(formula, f"{formula.split()[0]} in N", given=[f"F: {force}"])
    assert shown(outcome.working) == lines


def test_a_zero_component_stands_in_brackets() -> None:
    given = ["v_0: 20 m/s at 35°", "a: 9.8 m/s^2 at down", "t: 1.4 s"]
    lines = shown(work("s = v_0 t + 1/2 a t^2", "s in m with direction", given=given).working)
    assert "s_x = (20 cos(35°))(1.4) + 1/2(0)(1.4)²" in lines


def test_a_component_alone_on_its_side_needs_no_brackets() -> None:
    given = ["R: 400 N at bearing 10°", "F_1: 50 N at bearing 270°"]
    lines = shown(work("R = F_1 + F_2", "F_2 in N with direction", given=given).working)
    assert "400 sin(10°) = 50 sin(270°) + F_2x" in lines


def test_dimensions_are_checked_for_vectors_too() -> None:
    assert slugs(work("F = F_1 + a", "F in N", given=[FORCES[0], "a: 5 m/s^2 at 0°"])) == [
        "dimensions-differ"
    ]


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
