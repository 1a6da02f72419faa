"""Situations: what is read, the geometry of what is drawn, and what each edition shows."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.figures.board import angle, distance
from physcalc_filter.figures.picture import WIDEST, Line, Picture, Point

from physcalc.figures import situation_scenes as s

from .situation_cases import (
    DATA,
    circle,
    clear,
    drawing,
    figure,
    lines,
    picture,
    scene,
    situation,
    slugs,
    texts,
)


def shaft(drawn: Picture, role: str) -> tuple[Point, Point]:
    """Where an arrow begins, and its tip."""
    parts = lines(drawn, role)
    return next(p for p in parts if not p.closed).points[0], next(p for p in parts if p.closed).points[0]


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
