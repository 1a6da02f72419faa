"""Situations: what is read, the geometry of what is drawn, and what each edition shows."""

from __future__ import annotations

import html
import json
import math
import re
import subprocess
from contextlib import suppress
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.figures.board import angle, distance
from physcalc_filter.figures.picture import WIDEST, Circle, Line, Picture, Point
from physcalc_filter.figures.words_situation import SITUATION_WORDS
from physcalc_filter.sources import Source

from physcalc.exact import Real
from physcalc.figures import situation_scenes as s
from physcalc.figures.drawn import Drawn

from ..programs import program
from .situation_cases import circle, clear, figure, lines, picture, situation, slugs, texts

DATA = {
    "q_A": "6 nC", "q_B": "-4 nC", "m": "2 kg", "m_1": "4 kg", "m_2": "6 kg", "θ": "30°", "v_1": "5 m/s",
    "v_2": "2 m/s", "f": "10 cm", "n_1": "1.00", "n_2": "1.50", "g": "9.8 m/s^2",
}  # fmt: skip


def scene(*typed: str) -> s.Scene:
    found = situation(*typed, given=DATA)
    assert isinstance(found.diagram, s.SituationDiagram), [str(problem) for problem in found.problems]
    return found.diagram.scene


def drawing(*typed: str) -> Picture:
    return picture(situation(*typed, given=DATA))


def shaft(drawn: Picture, role: str) -> tuple[Point, Point]:
    """Where an arrow begins, and its tip."""
    parts = lines(drawn, role)
    return next(p for p in parts if not p.closed).points[0], next(p for p in parts if p.closed).points[0]


# On a line and in a plane.


def test_distances_on_a_line_are_proportional() -> None:
    drawn = drawing("charge q_A", "charge q_B, 0.30 m right of q_A", "point P, 0.10 m left of q_A")
    a, b, p = (circle(drawn, f"body {key}").centre for key in ("q_A", "q_B", "P"))
    assert math.isclose((b[0] - a[0]) / (a[0] - p[0]), 3)
    assert a[1] == b[1] == p[1]


def test_signs_of_charges() -> None:
    drawn = drawing(
        "charge q_A", "charge q_B, 0.3 m right of q_A", "positive charge Q, 0.3 m right of q_B", "charge X"
    )
    counts = {key: len(drawn.with_role(f"sign {key}")) for key in ("q_A", "q_B", "Q", "X")}
    # A plus has two strokes, a minus one, and an unknown sign none.
    assert counts == {"q_A": 2, "q_B": 1, "Q": 2, "X": 0}
    assert "q_A\u00a0=\u00a0+6\u00a0nC".replace("_", "") in texts(drawn)
    assert "qB\u00a0=\u00a0−4\u00a0nC" in texts(drawn)


def test_a_plane_is_to_scale_with_its_right_angle() -> None:
    drawn = drawing(
        "charge q_A",
        "charge q_B, 3 m right of q_A",
        "point P, 4 m above q_A",
        "distance 5 m between q_B and P",
    )
    a, b, p = (circle(drawn, f"body {key}").centre for key in ("q_A", "q_B", "P"))
    assert math.isclose(distance(a, b) / 3, distance(a, p) / 4)
    assert math.isclose(distance(p, b) / 5, distance(a, p) / 4)


@pytest.mark.parametrize(
    ("place", "degrees"),
    [
        ("2 m right of A", 0),
        ("2 m to the right of A", 0),
        ("2 m above A", 90),
        ("2 m below A", 270),
        ("2 m north of A", 90),
        ("2 m from A at 30° above right", 30),
        ("2 m from A at 210°", 210),
        ("2 m left of A", 180),
    ],
)
def test_where_one_thing_is_from_another(place: str, degrees: float) -> None:
    found = scene("charge A", f"point P, {place}")
    assert isinstance(found, s.Plan)
    p = found.bodies[1]
    assert math.isclose(float(p.x), 2 * math.cos(math.radians(degrees)), abs_tol=1e-12)
    assert math.isclose(float(p.y), 2 * math.sin(math.radians(degrees)), abs_tol=1e-12)


def test_halfway_is_exact() -> None:
    found = scene("charge A at 0.1 m", "charge B at 0.4 m", "point P, midway between A and B")
    assert isinstance(found, s.Plan)
    assert found.bodies[2].x.fraction == Fraction(1, 4)


def test_a_typed_distance_places_what_has_no_place() -> None:
    found = scene("charge A", "charge B", "distance 0.5 m between A and B")
    assert isinstance(found, s.Plan)
    assert found.bodies[1].x.fraction == Fraction(1, 2)
    assert found.scaled


@pytest.mark.parametrize("typed", [["charge A", "charge B, x right of A"], ["charge A", "charge B"]])
def test_an_unknown_distance_is_not_to_scale(typed: list[str]) -> None:
    assert figure(situation(*typed)).note == "Not to scale"


def test_very_unequal_distances_are_not_to_scale() -> None:
    near = figure(situation("mass A", "mass B, 1 m right of A", "mass C, 7 m right of B"))
    far = figure(situation("mass A", "mass B, 1 m right of A", "mass C, 90 m right of B"))
    assert (near.note, far.note) == ("", "Not to scale")
    a, b, c = (circle(far.picture, f"body {key}").centre[0] for key in "ABC")
    assert 0 < b - a < c - b


@given(st.lists(st.integers(1, 190), min_size=1, max_size=5), st.booleans())
@settings(deadline=None)
def test_bodies_on_a_line_keep_their_order_and_their_labels_clear(gaps: list[int], upright: bool) -> None:
    typed = ["charge q_0 = 1 nC"]
    typed += [
        f"charge q_{n + 1} = {n + 2} nC, {gap} mm {'above' if upright else 'right of'} q_{n}"
        for n, gap in enumerate(gaps)
    ]
    found = situation(*typed)
    assert slugs(found) == []
    drawn = picture(found)
    places = [circle(drawn, f"body q_{n}").centre[1 if upright else 0] for n in range(len(typed))]
    assert places == sorted(places)
    clear(drawn)
    assert drawn.box.width <= WIDEST + 1e-9


def test_places_far_from_the_origin_stay_apart() -> None:
    drawn = drawing("mass A at 1e20 m", "mass B, 1 m right of A", "mass C, 2 m right of A")
    a, b, c = (circle(drawn, f"body {key}").centre[0] for key in "ABC")
    assert math.isclose(b - a, c - b)
    assert b - a > 10


# Bodies.


def body_line(drawn: Picture, key: str) -> Line:
    return lines(drawn, f"body {key}")[0]


@pytest.mark.parametrize(("degrees", "left"), [(10, False), (30, False), (55, True), (70, False)])
def test_a_slope_has_its_angle_and_the_block_lies_on_it(degrees: int, left: bool) -> None:
    drawn = drawing(f"incline {degrees}°{', rising to the left' if left else ''}", "block A on the incline")
    foot, corner, top = lines(drawn, "slope")[0].points
    assert math.isclose(abs(top[1] - foot[1]) / abs(top[0] - foot[0]), math.tan(math.radians(degrees)))
    assert (top[0] < foot[0]) == left
    assert corner == (top[0], 0.0)
    # Two corners of the block lie on the surface.
    on = [
        abs((p[1] - foot[1]) * (top[0] - foot[0]) - (p[0] - foot[0]) * (top[1] - foot[1]))
        for p in body_line(drawn, "A").points
    ]
    assert sum(value < 1e-6 for value in on) == 2


def test_a_string_over_a_pulley_joins_both_blocks() -> None:
    drawn = drawing("block m_1 on a surface", "block m_2 hanging over a pulley")
    (string,) = lines(drawn, "string")
    first, second = body_line(drawn, "m_1").points, body_line(drawn, "m_2").points
    assert math.isclose(string.points[0][0], max(x for x, _ in first))
    assert math.isclose(string.points[-1][1], max(y for _, y in second))
    wheel = circle(drawn, "pulley")
    touching = [
        p for p in string.points if math.isclose(distance(p, wheel.centre), wheel.radius, abs_tol=1e-9)
    ]
    assert len(touching) > 5


def test_a_pendulum_has_its_angle_and_height() -> None:
    drawn = drawing("pendulum m, length L, angle θ, height h")
    (thread,) = lines(drawn, "thread")
    assert math.isclose(angle(thread.points[1], thread.points[0]) - 90, 30)
    low, bob = circle(drawn, "lowest").centre, circle(drawn, "body m").centre
    _, tip = shaft(drawn, "height")
    length = distance(*thread.points)
    assert math.isclose(bob[1] - low[1], length * (1 - math.cos(math.radians(30))))
    assert math.isclose(tip[1], bob[1])


def test_two_ropes_have_their_angles_to_the_ceiling() -> None:
    drawn = drawing("lamp m hanging from ropes T_1 at 40° and T_2 at 60°")
    first, second = (line.points for line in lines(drawn, "thread"))
    assert math.isclose(180 - angle(*first), 40)
    assert math.isclose(angle(*second), 60)


@pytest.mark.parametrize(
    ("typed", "degrees"), [("right", 0), ("up the slope", 30), ("down the slope", 210), ("down", 270)]
)
def test_a_force_on_a_block(typed: str, degrees: float) -> None:
    drawn = drawing("incline θ", "block m on the incline", f"force F on m, {typed}")
    assert math.isclose(angle(*shaft(drawn, "arrow F")) % 360, degrees, abs_tol=1e-6)


# Collisions and projectiles.


def test_a_collision_has_a_row_for_each_time_and_arrows_to_scale() -> None:
    drawn = drawing(
        "before: m_1 at v_1, right; m_2 at v_2, left", "after: m_1 and m_2 together at 3 m/s, right"
    )
    one, other = shaft(drawn, "arrow v_1 before"), shaft(drawn, "arrow v_2 before")
    assert math.isclose(distance(*one) / distance(*other), 2.5)
    assert one[1][0] > one[0][0]
    assert other[1][0] < other[0][0]
    assert {"Before", "After"} <= set(texts(drawn))
    first, second = body_line(drawn, "m_1 after"), body_line(drawn, "m_2 after")
    assert math.isclose(max(x for x, _ in first.points), min(x for x, _ in second.points))
    heading = {label.role: label.at[1] for label in drawn.labels() if label.role.startswith("heading")}
    assert heading["heading before"] > heading["heading after"]


def test_the_path_from_a_height_is_the_one_of_mechanics() -> None:
    """y = h + x tan θ − g x²/(2 v² cos² θ), at points along the path, with its own numbers."""
    v, h, g, turn = 14.0, 20.0, 9.8, math.radians(30)
    drawn = drawing("projectile, speed 14 m/s, angle θ, from height 20 m")
    points = lines(drawn, "path")[0].points
    scale = points[0][1] / h
    for x, y in points:
        expected = h + x / scale * math.tan(turn) - g * (x / scale) ** 2 / (2 * v * v * math.cos(turn) ** 2)
        assert math.isclose(y / scale, expected, abs_tol=1e-9 * h)
    assert points[-1][1] == pytest.approx(0, abs=1e-9)


@given(st.integers(5, 84))
@settings(deadline=None, max_examples=20)
def test_the_path_from_the_ground_has_its_angle_and_its_greatest_height(degrees: int) -> None:
    """H = R tan θ / 4, as follows from both textbook formulas."""
    points = lines(picture(situation(f"projectile, angle {degrees}°, range R")), "path")[0].points
    reach, height = points[-1][0], max(y for _, y in points)
    assert math.isclose(height, reach * math.tan(math.radians(degrees)) / 4, rel_tol=1e-9)


# Light.


@pytest.mark.parametrize("kind", ["converging lens", "diverging lens", "concave mirror", "convex mirror"])
@given(st.integers(2, 60), st.integers(2, 60))
@settings(deadline=None, max_examples=40)
def test_the_image_obeys_the_formula_and_all_rays_meet_there(kind: str, focal: int, far: int) -> None:
    """1/f = 1/u + 1/v (every textbook of optics) by exact fractions; each ray's line goes through the image."""
    where = kind.split()[1]
    found = situation(f"{kind}, focal length {focal} cm", f"object, {far} cm from the {where}")
    assert isinstance(found.diagram, s.SituationDiagram)
    optics = found.diagram.scene
    assert isinstance(optics, s.Optics)
    power = Fraction(100, focal) * (1 if kind in ("converging lens", "concave mirror") else -1)
    rest = power - Fraction(100, far)
    if rest == 0:
        assert optics.image is None
        assert slugs(found) == ["situation-image-none"]
    else:
        assert optics.image is not None
        assert optics.image.fraction == 1 / rest
    drawn = picture(found)
    clear(drawn)
    images = lines(drawn, "image")
    for role in ("ray parallel", "ray middle", "ray focus"):
        rays = [ray for ray in lines(drawn, role) if not ray.closed]
        if not rays:
            continue
        first, second = rays[0].points, rays[-1].points
        assert first[1] == second[0]
        if images:
            tip = next(part for part in images if part.closed).points[0]
            cross = (second[1][0] - second[0][0]) * (tip[1] - second[0][1]) - (
                second[1][1] - second[0][1]
            ) * (tip[0] - second[0][0])
            assert abs(cross) < 1e-6 * max(1.0, distance(second[0], second[1]) * 100)


def test_an_object_at_the_focal_point_has_parallel_rays() -> None:
    found = situation("converging lens, focal length 10 cm", "object, 10 cm from the lens")
    drawn = picture(found)
    turns = [
        angle(*line.points) for role in ("ray parallel", "ray middle") for line in lines(drawn, role)[2:3]
    ]
    outgoing = [
        [ray for ray in lines(drawn, role) if not ray.closed][-1].points
        for role in ("ray parallel", "ray middle")
    ]
    turns = [angle(*points) for points in outgoing]
    assert math.isclose(turns[0], turns[1])
    assert lines(drawn, "image") == []
    assert figure(found).note == "The rays leave parallel: there is no image."


def test_virtual_parts_are_dashed() -> None:
    drawn = drawing("converging lens, focal length f", "object, 6 cm from the lens")
    assert all(
        line.pen is not None and line.pen.dash == "dashed" for line in lines(drawn, "extension parallel")
    )
    assert all(line.pen is None or line.pen.dash == "" for line in lines(drawn, "ray parallel"))
    assert [line.pen.dash for line in lines(drawn, "image") if line.pen is not None] == ["dashed"]
    real = drawing("converging lens, focal length f", "object, 16 cm from the lens")
    assert lines(real, "extension parallel") == []


@pytest.mark.parametrize("degrees", [0, 10, 41, 60, 89])
def test_light_is_refracted_by_snells_law(degrees: int) -> None:
    found = scene(
        "interface: air (n_1) above glass (n_2)", f"incident ray at {degrees}°", "refracted ray at θ_r"
    )
    assert isinstance(found, s.Interface)
    assert found.refracted is not None
    assert math.isclose(
        1.00 * math.sin(math.radians(degrees)), 1.5 * math.sin(float(found.refracted)), abs_tol=1e-12
    )
    drawn = drawing(
        "interface: air (n_1) above glass (n_2)", f"incident ray at {degrees}°", "refracted ray at θ_r"
    )
    ray = next(line for line in lines(drawn, "ray refracted") if not line.closed)
    assert math.isclose(angle(*ray.points) + 90, math.degrees(float(found.refracted)), abs_tol=1e-9)


def test_beyond_the_critical_angle_light_is_totally_reflected() -> None:
    # Common practice, no source: from glass of index 1.5 into air the critical angle is 41.8°.
    typed = ("interface: glass (n_2) below air (n_1)", "incident ray at 45°")
    found = scene(*typed)
    assert isinstance(found, s.Interface)
    assert found.refracted is None
    drawn = drawing(*typed)
    assert lines(drawn, "ray refracted") == []
    ray = next(line for line in lines(drawn, "ray reflected") if not line.closed)
    assert math.isclose(angle(*ray.points), -45)
    (problem,) = situation(*typed, "refracted ray at θ_r", given=DATA).problems
    assert problem.slug == "situation-refraction-none"
    assert "41.8°" in problem.sentence()


# Waves.


def test_amplitude_and_wavelength_are_those_of_the_curve() -> None:
    drawn = drawing("transverse wave, amplitude A, wavelength λ, 3 wavelengths")
    points = lines(drawn, "wave")[0].points
    crest = max(y for _, y in points)
    _, tip = shaft(drawn, "amplitude")
    assert math.isclose(tip[1], crest, rel_tol=1e-3)
    right = shaft(drawn, "wavelength")[1]
    left = min((line.points[0] for line in lines(drawn, "guide")), key=lambda point: point[0])
    crests = [
        a[0]
        for before, a, after in zip(points, points[1:], points[2:], strict=False)
        if before[1] < a[1] > after[1]
    ]
    assert len(crests) == 3
    assert math.isclose(right[0] - left[0], crests[1] - crests[0], rel_tol=0.03)


@pytest.mark.parametrize(
    ("typed", "nodes", "quarters"),
    [
        ("standing wave on a string, 3 loops", 4, 6),
        ("standing wave in a pipe open at both ends, 2 loops", 2, 4),
        ("standing wave in a pipe closed at one end, 5 quarters", 3, 5),
    ],
)
def test_nodes_of_standing_waves(typed: str, nodes: int, quarters: int) -> None:
    found = scene(typed)
    assert isinstance(found, s.Standing)
    assert found.quarters == quarters
    assert len(drawing(typed).with_role("node")) == nodes


def test_wavefronts_are_where_the_source_was() -> None:
    """A front of age t has the radius v t about the place where the source was: v_s t behind it."""
    drawn = drawing("source moving right at 20 m/s, wave speed 60 m/s")
    source = circle(drawn, "source").centre
    for n in range(1, 7):
        front = circle(drawn, f"front {n}")
        assert math.isclose((source[0] - front.centre[0]) / front.radius, 1 / 3)


# What cannot be drawn.


@pytest.mark.parametrize(
    ("typed", "expected", "place"),
    [
        (["chrage q_A"], "situation-thing-unknown", (1, 1, 10)),
        (["charge q_A", "pendulum m"], "situation-things-apart", (2, 1, 10)),
        (["charge q_A", "charge B, 0.3 s right of q_A"], "situation-dimension", (2, 11, 5)),
        (["charge q_A", "charge B, 0.3 m right of C"], "figure-name-unknown", (2, 26, 1)),
        (["charge q_A", "charge B, 0.3 m sideways of q_A"], "figure-phrase-unreadable", (2, 11, 21)),
        (["charge A at 1 m", "charge B at 100 cm"], "situation-place-taken", (2, 1, 18)),
        (
            ["mass A", "mass B, 3 mm right of A", "mass C, 4 m right of A"],
            "situation-distance-enormous",
            (3, 9, 14),
        ),
        (
            ["mass A", "mass B, 3 m right of A", "distance 4 m between A and B"],
            "situation-distance-differs",
            (3, 1, 28),
        ),
        (
            ["charge A, 0.1 m right of B", "charge B, 0.1 m left of A"],
            "figure-phrase-unreadable",
            (1, 11, 16),
        ),
        (["charge A = 5 kg m"], "situation-dimension", (1, 12, 6)),
        (["charge A at x"], "name-without-value", (1, 13, 1)),
        (["force F on A, right"], "situation-empty", (1, 1, 19)),
        (["block A on a surface", "force F on B, right"], "figure-name-unknown", (2, 12, 1)),
        (["block A on a surface", "force F on A"], "force-undirected", (2, 1, 12)),
        (["block A on a surface", "block A on the surface"], "figure-phrase-unreadable", (2, 1, 22)),
        (["incline 95°"], "situation-value-outside", (1, 9, 3)),
        (["block A hanging over a pulley"], "situation-part-missing", (1, 1, 29)),
        (["pendulum m, lenght L"], "figure-phrase-unreadable", (1, 13, 8)),
        (["before: A at 3 m/s"], "", None),
        (["before: A at v"], "situation-part-missing", (1, 9, 6)),
        (["projectile, speed 3 m/s"], "situation-part-missing", (1, 1, 23)),
        (["converging lens"], "situation-part-missing", (1, 1, 15)),
        (["converging lens, focal length x", "object, 3 cm from the lens"], "name-without-value", (1, 31, 1)),
        (
            ["converging lens, focal length 0 m", "object, 3 cm from the lens"],
            "situation-value-outside",
            (1, 18, 16),
        ),
        (["incident ray at 30°"], "situation-part-missing", (1, 1, 19)),
        (["interface: air above glass", "incident ray at 30°"], "situation-part-missing", (2, 1, 19)),
        (
            ["interface: air (0.5) above glass (1.5)", "incident ray at 30°"],
            "situation-value-outside",
            (1, 17, 3),
        ),
        (["transverse wave, 9999 wavelengths"], "situation-value-outside", (1, 18, 16)),
        (["source moving right at 9 m/s, wave speed 1 m/s"], "situation-value-outside", (1, 1, 28)),
        ([f"mass A_{n}" for n in range(13)], "situation-things-many", (13, 1, 9)),
        (["mass A" + " " * 300 + "B"], "figure-phrase-unreadable", (1, 1, 6)),
        ([f"mass A_{n}" for n in range(41)], "situation-things-many", (41, 1, 9)),
        ([], "situation-empty", (1, 1, 1)),
    ],
)
def test_what_cannot_be_drawn_is_said_at_its_place(
    typed: list[str], expected: str, place: tuple[int, int, int] | None
) -> None:
    found = situation(*typed, given=DATA)
    assert slugs(found) == ([expected] if expected else [])
    if place is not None:
        span = found.problems[0].span
        assert (span.line, span.column, span.length) == place
        assert found.problems[0].sentence()
        assert found.diagram is None


@pytest.mark.parametrize(
    ("typed", "near"),
    [("chrage A", "charge"), ("pendulm m", "pendulum"), ("konverging lens, x", "converging lens")],
)
def test_a_word_that_was_meant_is_named(typed: str, near: str) -> None:
    (problem,) = situation(typed).problems
    assert f'perhaps "{near}" was meant' in problem.mend()


_WORDS = st.sampled_from(
    [
        "charge",
        "mass",
        "point",
        "block",
        "incline",
        "pendulum",
        "lift",
        "spring",
        "string",
        "A",
        "B",
        "q_A",
        "m",
        "θ",
        "3",
        "m",
        "0",
        "30°",
        "1e300",
        "-5",
        "kg",
        "nC",
        "right",
        "of",
        "above",
        "between",
        "and",
        "at",
        ",",
        "(",
        ")",
        "=",
        ";",
        ":",
        "before",
        "after",
        "rest",
        "over",
        "a",
        "pulley",
        "the",
        "surface",
        "hanging",
        "from",
        "ropes",
        "lens",
        "object",
        "converging",
        "focal",
        "length",
        "10",
        "cm",
        "mirror",
        "interface",
        "air",
        "glass",
        "incident",
        "ray",
        "source",
        "moving",
        "wave",
        "transverse",
        "force",
        "on",
        "velocity",
    ]
)


@given(st.lists(st.lists(_WORDS, max_size=9).map(" ".join), max_size=4))
@settings(deadline=None, max_examples=300)
def test_any_lines_end_in_a_picture_or_a_problem(typed: list[str]) -> None:
    found = situation(*typed, given=DATA)
    assert found.diagram is not None or found.problems
    if found.diagram is not None:
        drawn = figure(found)
        assert drawn.alternative
        assert all(math.isfinite(side) for side in (drawn.picture.box.width, drawn.picture.box.height))
        assert drawn.picture.box.height < 260


# Editions, words, pages.


def result(value: str) -> Drawn:
    """A charge whose value is a result, found before."""
    from dataclasses import replace

    from physcalc.figures.situation_reading import SituationText
    from physcalc.figures.stage import draw
    from physcalc.problems import Span

    from .situation_cases import CONVENTIONS, scope_of, text

    scope = scope_of({"q": value})
    layer = {
        name: replace(datum, kind="result", number=None) if False else replace(datum, kind="result")
        for name, datum in scope.layers[0].items()
    }
    typed = (text("charge q"), text("charge B, 0.2 m right of q", 2), text("charge 2*q, 0.2 m above q", 3))
    return draw(SituationText(Span(), CONVENTIONS, typed), replace(scope, layers=(layer,)))


def test_a_paper_never_shows_the_value_of_a_result() -> None:
    found = result("-7 nC")
    paper, memo = figure(found, "paper"), figure(found, "memo")
    assert "q\u00a0=\u00a0−7\u00a0nC" in texts(memo.picture)
    assert "q" in texts(paper.picture)
    # What is computed from a result is a result, and so is its sign.
    for shown in (*texts(paper.picture), paper.alternative):
        assert "7" not in shown
        assert "14" not in shown
    assert "negative" not in paper.alternative
    assert paper.picture.with_role("sign q") == []
    assert len(memo.picture.with_role("sign q")) == 1


def test_values_may_be_left_out() -> None:
    shown = picture(situation("charge q_A", "charge 5 nC, 0.2 m right of q_A", given=DATA, values="no"))
    assert {"qA", "+5\u00a0nC"} <= set(texts(shown))


def test_every_word_has_all_languages() -> None:
    for key, row in SITUATION_WORDS.items():
        assert set(row) == {"en", "af", "de", "fr", "nl", "es", "pt"}
        fields = {frozenset(re.findall(r"\{(\w+)\}", text)) for text in row.values()}
        assert len(fields) == 1, key


ALL = [
    ["charge q_A", "charge q_B, 0.3 m right of q_A", "point P, 0.1 m left of q_A", "force F on q_A, right"],
    ["charge q_A", "charge q_B, 0.3 m right of q_A", "charge q_C = 5 nC, 0.4 m above q_A", "angle α at q_B between q_A and q_C"],
    ["pendulum m, length L, angle θ, height h_1", "velocity v of m, right"],
    ["lamp m hanging from ropes T_1 at 40° and T_2 at 60°"],
    ["load m hanging from a spring k = 40 N/m, extension x"],
    ["two charged balls q_A and q_B hanging from two points, length 0.4 m, angle θ, tension T, force F, d apart"],
    ["lift m on a cable T, person 70 kg", "acceleration a of lift, up"],
    ["incline θ, height h, length L", "block m_1 on the rough incline", "block m_2 hanging over a pulley, 1.2 m above the ground", "string T between m_1 and m_2"],
    ["incline 20°, length 3 m, height h, rising to the left", "crate m on the incline", "force F on m, up the slope"],
    ["block m_1 on a rough surface", "block m_2 on the surface", "block m_3 hanging over a pulley", "string T between m_1 and m_2", "force F = 20 N on m_1, left"],
    ["block m_1 hanging over a pulley", "block m_2 hanging over a pulley, 0.8 m above the ground", "string T between m_1 and m_2"],
    ["block m_1 on a smooth surface", "spring k between the wall and m_1", "velocity v of m_1, right"],
    ["before: trolley m_1 at v_1, right; trolley m_2 at rest", "after: m_1 and m_2 together at v, right"],
    ["projectile ball, speed v_i, angle θ, from height 20 m, range R, maximum height H"],
    ["converging lens, focal length f", "object, height 4 cm, 25 cm from the lens", "image, height h_i, distance v"],
    ["concave mirror, focal length f", "object, height 4 cm, 6 cm from the mirror", "image, height h_i, distance v"],
    ["plane mirror", "object, height 4 cm, 6 cm from the mirror"],
    ["interface: air (n_1) above glass (n_2)", "incident ray at 40°", "reflected ray at θ_a", "refracted ray at θ_b"],
    ["transverse wave, amplitude A, wavelength λ = 0.8 m, speed v, right"],
    ["longitudinal wave, wavelength λ, 3 wavelengths"],
    ["standing wave in a pipe closed at one end, 5 quarters, length L, wavelength λ"],
    ["source moving right at 20 m/s, speed of sound 60 m/s, observer A ahead, observer B behind"],
]  # fmt: skip


@pytest.mark.parametrize("typed", ALL, ids=[lines_[0][:28] for lines_ in ALL])
def test_labels_keep_clear_and_pictures_fit_the_page(typed: list[str]) -> None:
    found = situation(*typed, given=DATA)
    assert slugs(found) == []
    for edition in ("paper", "memo"):
        drawn = picture(found, edition)
        clear(drawn)
        assert drawn.box.width <= WIDEST + 1e-9
        assert all(label.size >= 8 for label in drawn.labels())


@pytest.mark.parametrize("lang", ["en", "af", "de", "fr", "nl", "es", "pt"])
def test_every_kind_describes_itself_in_every_language(lang: str) -> None:
    said = {figure(situation(*typed, given=DATA), lang=lang).alternative for typed in ALL}
    assert len(said) == len(ALL)
    assert not any("{" in words for words in said)


DOCUMENT = """---
lang: {lang}
---

# Question 1 {{.question #a}}

Two charges, `q_A`{{.value}} and `q_B`{{.value}}, are `r`{{.value}} apart.

```{{.given}}
q_A: 6.0 nC
q_B: -4.0 nC
r: 0.30 m
```

```{{.draw}}
situation:
  - charge q_A
  - charge q_B, r right of q_A
  - point P, 0.10 m left of q_A
```
"""
WORD = re.compile(r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">([^<]*)</word>')


def test_labels_stand_where_they_should_in_the_printed_page(tmp_path: Path) -> None:
    """In the PDF itself, by poppler: distances are three to one, and no word lies on another."""
    reader = program("pdftotext")
    from physcalc_filter.cli import main

    source = tmp_path / "a.md"
    source.write_text(DOCUMENT.format(lang="en"), encoding="utf-8")
    with suppress(SystemExit):
        main(["build", str(source), "-o", str(tmp_path / "a.pdf"), "--edition", "paper"])
    boxes = subprocess.run(
        [reader, "-bbox", str(tmp_path / "a.pdf"), "-"], check=True, capture_output=True, text=True
    ).stdout
    words = [(*map(float, found.groups()[:4]), html.unescape(found[5])) for found in WORD.finditer(boxes)]
    point = next(word for word in words if word[4] == "P")
    (short,) = (word for word in words if word[4].replace("\u00a0", "").startswith("0.10"))
    (long,) = (
        word for word in words[words.index(short) :] if word[4].replace("\u00a0", "").startswith("0.30")
    )
    assert short[1] == pytest.approx(long[1], abs=1)
    assert point[0] < short[0] < long[0]
    for at, one in enumerate(words):
        for other in words[:at]:
            apart = one[0] >= other[2] - 0.5 or other[0] >= one[2] - 0.5
            assert apart or one[1] >= other[3] - 3.5 or other[1] >= one[3] - 3.5, (one, other)


@pytest.mark.parametrize("format", ["typst", "latex", "html", "docx", "markdown"])
def test_every_format_has_the_picture(format: str) -> None:
    from physcalc_filter.document import write_json

    document, report = pipeline.build(Source("a.md", DOCUMENT.format(lang="en")), "paper", format)  # type: ignore[arg-type]
    assert document is not None, report.problems
    written = json.dumps(json.loads(write_json(document)), ensure_ascii=False).replace('\\"', '"')
    signs = {"typst": "#drawn(figure(alt:", "latex": "tikzpicture", "html": "<svg", "docx": "data:image/png"}
    assert signs.get(format, "data:image/svg") in written


def test_no_library_for_fields_is_loaded_without_one(tmp_path: Path) -> None:
    import sys

    path = tmp_path / "a.md"
    path.write_text(DOCUMENT.format(lang="en"), encoding="utf-8")
    code = (
        "import sys; from physcalc_filter.cli import main\n"
        f"try: main(['check', {str(path)!r}])\nexcept SystemExit: pass\n"
        "bad = [m for m in sys.modules if m.split('.')[0] in ('numpy', 'contourpy', 'matplotlib')]\nassert not bad, bad"
    )
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_exact_values_stay_exact_until_they_are_drawn() -> None:
    found = scene("converging lens, focal length 1/3 m", "object, 1 m from the lens")
    assert isinstance(found, s.Optics)
    assert isinstance(found.image, Real)
    assert found.image.fraction == Fraction(1, 2)
    assert isinstance(circle(drawing("charge q_A"), "body q_A"), Circle)
