"""Fields: the way of lines against closed forms, potentials, symmetry, numbers of lines."""

from __future__ import annotations

import math
import re
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.figures.board import angle, between, distance
from physcalc_filter.figures.field import charges_of, layout, surfaces
from physcalc_filter.figures.field_bundles import counts
from physcalc_filter.figures.field_lines import Charge, FieldLine, field_lines
from physcalc_filter.figures.field_sources import flux
from physcalc_filter.figures.kept import kept
from physcalc_filter.figures.picture import Circle, Line, Point
from scipy import special

from physcalc.figures.drawn import Drawn
from physcalc.figures.field import Charges, FieldDiagram

from .situation_cases import circle, clear, field, figure, lines, picture, slugs, texts

PAIRS = [(6, -6), (4, -1), (2, -1), (3, -5), (2, 2), (1, 3), (-2, -2), (8, -1)]


def source_of(found: Drawn) -> Charges:
    assert isinstance(found.diagram, FieldDiagram)
    assert isinstance(found.diagram.source, Charges)
    return found.diagram.source


def pair(one: float, other: float, **keys: str) -> Drawn:
    return field(f"charge A = {one} nC", f"charge B = {other} nC, 0.2 m right of A", **keys)


def coulomb(at: Point, charges: list[Charge]) -> tuple[float, float]:
    """The field by numpy, as an independent computation: Σ q r̂ / r² (Coulomb's law)."""
    step = numpy.array(at) - numpy.array([charge.at for charge in charges])
    far = numpy.linalg.norm(step, axis=1)
    x, y = (numpy.array([charge.size for charge in charges])[:, None] * step / far[:, None] ** 3).sum(axis=0)
    return float(x), float(y)


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_a_line_runs_along_the_field(one: int, other: int) -> None:
    """Each piece of each drawn line has the direction of the field in its middle, within a degree."""
    found = pair(one, other)
    charges = charges_of(source_of(found))
    drawn = lines(picture(found), "field line")
    assert len(drawn) >= 8
    for line in drawn:
        for a, b in pairwise(line.points):
            if distance(a, b) < 1e-3 or min(distance(between(a, b), charge.at) for charge in charges) < 0.5:
                continue
            x, y = coulomb(between(a, b), charges)
            off = (angle(a, b) - math.degrees(math.atan2(y, x)) + 180) % 360 - 180
            assert abs(off) < 1.0


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_the_flux_through_a_line_turned_about_the_axis_is_constant(one: int, other: int) -> None:
    """Along a line of charges on an axis Σ q cos θ is constant: the flux of Gauss's law through the turned line."""
    charges = [Charge((-20.0, 0.0), float(one)), Charge((20.0, 0.0), float(other))]
    for line in field_lines(charges):
        inner = [point for point in line.points if min(distance(point, c.at) for c in charges) > 0.03]
        fluxes = [
            sum(c.size * (p[0] - c.at[0]) / distance(p, c.at) for c in charges)
            for p in inner
            if abs(p[0]) < 500
        ]
        assert max(fluxes) - min(fluxes) < 0.01 * max(abs(one), abs(other))


def ends_at(lines_: list[FieldLine], number: int) -> int:
    return sum((line.start == number) + (line.end == number) for line in lines_)


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_each_charge_has_lines_in_the_ratio_of_the_charges(one: int, other: int) -> None:
    charges = [Charge((-20.0, 0.0), float(one)), Charge((20.0, 0.0), float(other))]
    found = field_lines(charges)
    assert math.isclose(ends_at(found, 0) / ends_at(found, 1), abs(one) / abs(other), rel_tol=0.03)
    wanted = counts([charge.size for charge in charges], None)
    assert [ends_at(found, 0), ends_at(found, 1)] == wanted


#: Charges with their places: of equal and unequal size, of one sign and of both, on a line and in a plane, in all zero.
ARRANGEMENTS = [
    [(-25, 0, 1), (0, 0, 1), (25, 0, 1)],
    [(-25, 0, 1), (0, 0, -2), (25, 0, 1)],
    [(-25, 0, 1), (-10, 0, -2), (25, 0, 1)],
    [(-25, 0, 3), (0, 0, -1), (25, 0, 2)],
    [(-20, 0, 2), (20, 0, 2), (0, 30, -2)],
    [(-20, 0, 1), (20, 0, 1), (0, 30, 1)],
    [(-20, 0, -1), (20, 0, 2), (0, 30, -3)],
    [(-20, -20, 1), (20, -20, -1), (20, 20, 1), (-20, 20, -1)],
    [(-20, -20, 1), (20, -20, 1), (20, 20, 1), (-20, 20, 1)],
    [(-20, 0, 3), (15, 18, -1), (20, -15, -1)],
    [(-25, 0, 2), (20, 10, 1), (0, -15, -3)],
    [(-29, -20, 4), (29, -3, -1), (4, 20, -2), (10, -20, -1)],
    [(-25, -15, 1), (0, -15, -2), (25, -15, 3), (-25, 15, -1), (0, 15, 2), (25, 15, -1)],
]


@pytest.mark.parametrize("places", ARRANGEMENTS)
def test_lines_of_several_charges_are_in_the_ratio_of_the_charges(places: list[tuple[int, int, int]]) -> None:
    """The rule of field lines in every textbook: their number at a charge is proportional to it."""
    charges = [Charge((float(x), float(y)), float(size)) for x, y, size in places]
    found = field_lines(charges)
    each = [ends_at(found, n) for n in range(len(charges))]
    least = min(range(len(charges)), key=lambda n: abs(charges[n].size))
    unit = each[least] / abs(charges[least].size)
    assert each == [round(unit * abs(charge.size)) for charge in charges]
    assert unit >= 4
    for line in found:
        assert line.start is None or charges[line.start].size > 0
        assert line.end is None or charges[line.end].size < 0
        last = [line.points[0]] if line.start is None else []
        last += [line.points[-1]] if line.end is None else []
        # A line that begins or ends at no charge goes out of the picture, or to near where there is no field (amid charges
        # of one sign it leaves the plane of the paper there).
        weak = 0.5 * min(math.hypot(*coulomb((c.at[0] + 10, c.at[1]), charges)) for c in charges)
        assert all(math.hypot(*p) > 150 or math.hypot(*coulomb(p, charges)) < weak for p in last)
        for a, b in pairwise(line.points):
            close = min(distance(between(a, b), charge.at) for charge in charges)
            if distance(a, b) > 0.05 and 0.5 < close < 100:
                x, y = coulomb(between(a, b), charges)
                off = (angle(a, b) - math.degrees(math.atan2(y, x)) + 180) % 360 - 180
                assert abs(off) < 1.5


@given(st.lists(st.tuples(st.integers(0, 4), st.integers(0, 3), st.sampled_from([-4, -2, -1, 1, 2, 3])), min_size=3, max_size=4, unique_by=lambda one: one[:2]))  # fmt: skip
@settings(deadline=None, max_examples=15)
def test_charges_of_any_arrangement_have_their_lines(places: list[tuple[int, int, int]]) -> None:
    charges = [Charge((12.0 * x, 12.0 * y), float(size)) for x, y, size in places]
    found = field_lines(charges)
    wanted = counts([charge.size for charge in charges], None)
    # Where lines pass close by a point without field one may go astray.
    assert all(abs(ends_at(found, n) - wanted[n]) <= 1 for n in range(len(charges)))


def test_lines_that_were_kept_are_those_that_would_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed = pair(4, -1, equipotentials="yes")
    monkeypatch.setenv("PHYSCALC_CACHE", "off")
    plain = figure(typed)
    monkeypatch.setenv("PHYSCALC_CACHE", str(tmp_path / "kept"))
    made = figure(typed)
    monkeypatch.setattr("physcalc_filter.figures.field.field_lines", None)
    assert plain == made == figure(typed)
    with pytest.raises(TypeError):
        figure(pair(4, -2))


@pytest.mark.parametrize(
    "held", [b"", b"[[[[1, 2]]]]", b'[[[["1.0", 2.0]]]]', b"[[[[NaN, 1.0]]]]", b"7", b"[" * 9000]
)
def test_what_was_kept_and_is_no_lines_is_not_used(
    held: bytes, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PHYSCALC_CACHE", str(tmp_path / "kept"))
    monkeypatch.setattr("physcalc_filter.cache.Store.get", lambda *_: held)
    assert kept(("a",), lambda: [[[(1.0, 2.0)]]]) == [[[(1.0, 2.0)]]]


@given(st.integers(1, 8), st.integers(1, 8), st.sampled_from([(1, 1), (1, -1), (-1, -1)]))
@settings(deadline=None, max_examples=25)
def test_lines_begin_at_positive_and_end_at_negative_charges(
    one: int, other: int, signs: tuple[int, int]
) -> None:
    charges = [Charge((0.0, 0.0), float(one * signs[0])), Charge((40.0, 0.0), float(other * signs[1]))]
    for line in field_lines(charges):
        assert line.start is None or charges[line.start].size > 0
        assert line.end is None or charges[line.end].size < 0
        assert line.start is not None or line.end is not None
        if line.start is not None:
            assert line.points[0] == charges[line.start].at
        if line.end is not None:
            assert line.points[-1] == charges[line.end].at


def test_parts_that_leave_end_at_the_frame_exactly() -> None:
    found = pair(4, -1)
    source = source_of(found)
    _, _, frame = layout(source)
    places = [charge.at for charge in charges_of(source)]
    for line in lines(picture(found), "field line"):
        for end in (line.points[0], line.points[-1]):
            edge = min(
                abs(end[0] - frame.left),
                abs(end[0] - frame.right),
                abs(end[1] - frame.top),
                abs(end[1] - frame.bottom),
            )
            assert edge < 1e-9 or min(distance(end, place) for place in places) < 1e-9


def mirrored(points: list[Point], x: float, y: float) -> list[Point]:
    return [(x * a, y * b) for a, b in points]


@pytest.mark.parametrize(
    ("one", "other", "x", "y"), [(6, -6, -1, 1), (6, -6, 1, -1), (2, 2, -1, 1), (4, -1, 1, -1)]
)
def test_a_dipole_is_its_mirror_image(one: int, other: int, x: int, y: int) -> None:
    """Every point of every line lies on a line of the mirrored picture."""
    drawn = lines(picture(pair(one, other, equipotentials="8")), "field line")
    surfaces_ = lines(picture(pair(one, other, equipotentials="8")), "equipotential")
    for group in (drawn, surfaces_):
        pieces = [piece for line in group for piece in pairwise(line.points)]
        for line in group:
            for point in mirrored(list(line.points)[::5], x, y):
                assert min(_off(point, a, b) for a, b in pieces) < 0.12


def _off(point: Point, a: Point, b: Point) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    share = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / max(dx * dx + dy * dy, 1e-12)
    share = max(0.0, min(1.0, share))
    return distance(point, (a[0] + share * dx, a[1] + share * dy))


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_the_potential_along_an_equipotential_is_constant(one: int, other: int) -> None:
    found = pair(one, other, equipotentials="8")
    charges = charges_of(source_of(found))
    _, _, frame = layout(source_of(found))
    heights = surfaces(charges, frame, 8)
    drawn = lines(picture(found), "equipotential")
    assert len(drawn) >= 4
    scale = max(abs(height) for height in heights)
    for line in drawn:
        found_ = [sum(c.size / math.dist(point, c.at) for c in charges) for point in line.points]
        middle = sum(found_) / len(found_)
        assert min(abs(middle - height) for height in heights) < 0.01 * max(abs(middle), 0.05 * scale)
        assert max(found_) - min(found_) < 0.01 * max(abs(middle), 0.05 * scale)


def test_a_line_crosses_an_equipotential_at_right_angles() -> None:
    found = pair(6, -6, equipotentials="8")
    middle = next(line for line in lines(picture(found), "equipotential") if abs(line.points[0][0]) < 1e-6)
    # Halfway between equal charges of different signs the potential is zero on the straight line between them.
    assert all(abs(x) < 1e-6 for x, _ in middle.points)


def test_three_charges_in_a_plane() -> None:
    found = field(
        "charge A = 2 nC",
        "charge B = 2 nC, 0.2 m right of A",
        "charge C = -2 nC, 0.2 m above A",
        equipotentials="yes",
    )
    charges = charges_of(source_of(found))
    for line in lines(picture(found), "field line"):
        for a, b in pairwise(line.points):
            if distance(a, b) > 1e-3 and min(distance(between(a, b), charge.at) for charge in charges) > 0.5:
                x, y = coulomb(between(a, b), charges)
                off = (angle(a, b) - math.degrees(math.atan2(y, x)) + 180) % 360 - 180
                assert abs(off) < 1.5


def test_heads_point_with_the_field() -> None:
    found = pair(4, -1)
    charges = charges_of(source_of(found))
    heads = lines(picture(found), "field head")
    assert len(heads) >= 10
    for head in heads:
        tip, left, right = head.points
        x, y = coulomb(tip, charges)
        off = (angle(between(left, right), tip) - math.degrees(math.atan2(y, x)) + 180) % 360 - 180
        assert abs(off) < 8


def test_the_number_of_lines_is_as_asked() -> None:
    found = pair(2, -1, lines="6")
    numbers = [ends_at(field_lines(charges_of(source_of(found)), 6), n) for n in (0, 1)]
    assert numbers == [12, 6]


def test_a_field_is_drawn_alike_every_time() -> None:
    one, other = (figure(pair(3, -2, equipotentials="yes")).picture for _ in range(2))
    assert one == other


def test_the_picture_is_the_same_in_another_process() -> None:
    code = (
        "import hashlib\n"
        "from physcalc_filter.figures.field_lines import Charge, field_lines\n"
        "print(hashlib.sha256(repr(field_lines([Charge((0.0, 0.0), 3.0), Charge((40.0, 0.0), -2.0)])).encode()).hexdigest())"
    )
    runs = {
        subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout
        for _ in range(2)
    }
    assert len(runs) == 1


# Other sources.


def test_the_field_between_plates_is_uniform() -> None:
    drawing = picture(field("parallel plates, d apart, voltage 12 V", equipotentials="3"))
    drawn = lines(drawing, "field line")
    xs = [line.points[0][0] for line in drawn]
    assert all(line.points[0][0] == line.points[1][0] for line in drawn)
    assert all(line.points[0][1] > line.points[1][1] for line in drawn)
    steps = [b - a for a, b in pairwise(xs)]
    assert max(steps) - min(steps) < 1e-9
    heights = sorted(line.points[0][1] for line in lines(drawing, "equipotential"))
    assert len(heights) == 3
    assert math.isclose(heights[1] - heights[0], heights[2] - heights[1])
    lower = picture(field("parallel plates, top negative"))
    assert all(line.points[0][1] < line.points[1][1] for line in lines(lower, "field line"))


@pytest.mark.parametrize(("words", "way"), [("out of the page", 1), ("into the page", -1)])
def test_lines_around_a_wire_turn_by_the_right_hand(words: str, way: int) -> None:
    """The thumb along the current, the fingers along the field: out of the page anticlockwise."""
    drawing = picture(field(f"straight wire, current I, {words}"))
    for head in lines(drawing, "field head"):
        tip, left, right = head.points
        back = between(left, right)
        turning = back[0] * (tip[1] - back[1]) - back[1] * (tip[0] - back[0])
        assert turning * way > 0
    radii = sorted(shape.radius for shape in drawing.with_role("field line") if isinstance(shape, Circle))
    ratios = [b / a for a, b in pairwise(radii)]
    # B falls as 1/r, so the gaps between lines grow as r.
    assert max(ratios) - min(ratios) < 1e-9


def test_the_flux_of_a_loop_is_that_of_elliptic_integrals() -> None:
    """The vector potential of a loop by scipy's K and E, as an independent computation (Jackson, 5.5)."""
    for x, rho in ((0.0, 3.0), (5.0, 8.0), (12.0, 30.0), (1.0, 10.9)):
        k2 = 4 * 11 * rho / ((11 + rho) ** 2 + x * x)
        expected = math.sqrt((11 + rho) ** 2 + x * x) * (
            (1 - k2 / 2) * special.ellipk(k2) - special.ellipe(k2)
        )
        assert math.isclose(float(flux(x, rho, [0.0], 11.0)), expected, rel_tol=1e-6)


def test_a_line_of_a_magnet_has_one_flux() -> None:
    drawing = picture(field("bar magnet"))
    half, radius, count = 23.0, 7.0, 24
    turns = [-half + 2 * half * (n + 0.5) / count for n in range(count)]
    for line in lines(drawing, "field line"):
        outside = [p for p in line.points if abs(p[1]) > 9.0]
        if len(outside) < 5:
            continue
        values = [float(flux(x, y, turns, radius)) for x, y in outside]
        assert max(values) - min(values) < 0.03 * max(values)


def test_lines_of_a_magnet_run_from_north_to_south_outside() -> None:
    for words, way in (("bar magnet", 1), ("bar magnet, north at the left", -1)):
        drawing = picture(field(words))
        poles = {label.text: label.at[0] for label in drawing.labels()}
        assert (poles["N"] - poles["S"]) * way > 0
        outer = max(lines(drawing, "field head"), key=lambda head: head.points[0][1])
        tip, left, right = outer.points
        assert (tip[0] - between(left, right)[0]) * way < 0


def test_a_current_of_a_solenoid_makes_its_north_pole() -> None:
    """With the current out of the page above and into it below, the field inside points to the left (right hand)."""
    drawing = picture(field("solenoid, current I, 6 turns, north at the left"))
    out = [shape.centre for shape in drawing.with_role("turn out") if isinstance(shape, Circle)]
    assert len(out) == 6
    assert all(y > 0 for _, y in out)


# Problems, words and labels.


@pytest.mark.parametrize(
    ("typed", "keys", "expected"),
    [
        (["charge A"], {}, "field-charge-unknown"),
        (["charge A = 0 nC"], {}, "field-charge-unknown"),
        (["positive charge A", "charge B = 2 nC, 1 m right of A"], {}, "field-charge-unknown"),
        (["charge A = 3 nC", "charge B = 3 mC, 1 m right of A"], {}, "field-charges-unequal"),
        (["charge A = 3 nC at 0 m", "charge B = 3 nC at 0 m"], {}, "situation-place-taken"),
        (["charge A = 3 kg"], {}, "field-charge-unknown"),
        (["chrage A = 3 nC"], {}, "situation-thing-unknown"),
        (["block A on a surface"], {}, "situation-thing-unknown"),
        (["point P"], {}, "situation-empty"),
        ([], {}, "situation-empty"),
        (["charge A = 3 nC"] * 41, {}, "situation-things-many"),
        ([f"charge A_{n} = 3 nC at {n} m" for n in range(7)], {}, "situation-things-many"),
        (["charge A = 1 nC", "charge B = 8 nC, 1 m right of A"], {"lines": "7"}, "figure-phrase-unreadable"),
        (["charge A = 3 nC"], {"lines": "many"}, "figure-phrase-unreadable"),
        (["charge A = 3 nC"], {"equipotentials": "99"}, "figure-phrase-unreadable"),
        (["parallel plates, 2 s apart"], {}, "situation-dimension"),
        (["bar magnet", "charge A = 3 nC"], {}, "figure-phrase-unreadable"),
        (["solenoid, 200 turns"], {}, "figure-phrase-unreadable"),
        (["straight wire, sideways"], {}, "figure-phrase-unreadable"),
    ],
)
def test_what_makes_no_field_is_said(typed: list[str], keys: dict[str, str], expected: str) -> None:
    assert slugs(field(*typed, **keys)) == [expected]


def test_a_field_of_signs_alone() -> None:
    found = field("positive charge A", "negative charge B, 1 m right of A")
    assert [charge.size for charge in charges_of(source_of(found))] == [1.0, -1.0]


def test_what_a_field_says_of_itself() -> None:
    found = pair(6, -6, equipotentials="yes")
    assert figure(found).alternative == (
        "Electric field lines. From left to right: positive charge A, negative charge B; from A to B: 0.2\u00a0m; "
        "equipotential lines, dashed."
    )
    assert "Elektrische Feldlinien" in figure(found, lang="de").alternative


@pytest.mark.parametrize(
    "typed",
    [
        ["charge A = 2 nC", "charge B = -2 nC, 0.2 m right of A", "point P, midway between A and B"],
        ["charge A = 2 nC", "charge B = 2 nC, 0.2 m right of A", "charge C = -2 nC, 0.2 m above A"],
        ["parallel plates, d apart, voltage V"],
        ["straight wire, current I"],
        ["solenoid, current I"],
    ],
)
def test_labels_keep_clear(typed: list[str]) -> None:
    clear(picture(field(*typed)))


def test_labels_stand_on_paper_of_their_own() -> None:
    drawing = picture(pair(6, -6))
    assert {"A", "B"} <= set(texts(drawing))
    papers = [shape for shape in drawing.shapes if isinstance(shape, Line) and shape.role.startswith("paper")]
    assert len(papers) == 2
    assert circle(drawing, "body A").fill == 1.0


def test_the_libraries_have_their_one_door() -> None:
    from physcalc_filter import pipeline

    root = Path(pipeline.__file__).parent
    pattern = re.compile(r"^\s*(?:import|from) (?:numpy|contourpy)\b", re.MULTILINE)
    found = {
        path.relative_to(root).as_posix()
        for path in root.rglob("*.py")
        if pattern.search(path.read_text("utf-8"))
    }
    assert found == {"figures/field.py"}
