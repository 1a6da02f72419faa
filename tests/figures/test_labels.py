"""Labels stand in free space: on no line, in no other label."""

from __future__ import annotations

import re
from itertools import product

import pytest
from physcalc_filter.figures.board import Board, beside, line_meets_box
from physcalc_filter.figures.letters import box_of, runs_of_name, runs_of_text
from physcalc_filter.figures.picture import Box, Circle, Line, Picture

from physcalc.language import read_name
from physcalc.render.tex import tex_name

from .situation_cases import picture, situation


def crossed(drawing: Picture) -> list[tuple[str, str]]:
    """What a label touches that is not its own ground, with the label."""
    found = []
    labels = list(drawing.labels())
    for label in labels:
        # What only grazes the room above low letters is not seen.
        box = box_of(label).grown(-0.25)
        found += [
            (label.text, other.text) for other in labels if other is not label and box.meets(box_of(other))
        ]
        for shape in drawing.shapes:
            if isinstance(shape, Line) and not shape.role.startswith(("ground", "paper")):
                if line_meets_box(shape, box):
                    found.append((label.text, shape.role))
            elif isinstance(shape, Circle) and _ring_meets(shape, box):
                found.append((label.text, shape.role))
    return found


def _ring_meets(circle: Circle, box: Box) -> bool:
    corners = [(x, y) for x in (box.left, box.right) for y in (box.bottom, box.top)]
    x, y = circle.centre
    near = (x - min(max(x, box.left), box.right)) ** 2 + (y - min(max(y, box.bottom), box.top)) ** 2
    far = max((x - a) ** 2 + (y - b) ** 2 for a, b in corners)
    return near <= circle.radius**2 <= far


KINDS = ("converging lens", "diverging lens", "concave mirror", "convex mirror", "plane mirror")


@pytest.mark.parametrize("kind", KINDS)
def test_no_label_of_a_lens_or_mirror_touches_a_ray(kind: str) -> None:
    what = kind.split()[-1]
    for away, tall, image in product((2, 6, 9, 12, 19, 21, 30, 60), (1, 8), (True, False)):
        first = kind if kind == "plane mirror" else f"{kind}, focal length f"
        typed = [first, f"object, height {tall} cm, {away} cm from the {what}"]
        typed += ["image, height h_i, distance v"] if image else []
        given = {} if kind == "plane mirror" else {"f": "10 cm"}
        assert crossed(picture(situation(*typed, given=given))) == [], typed


@pytest.mark.parametrize("angle", [5, 15, 30, 45, 60, 75])
@pytest.mark.parametrize("mass", ["2 kg", "11.62 kg"])
def test_no_label_of_bodies_touches_a_line(angle: int, mass: str) -> None:
    for typed, given in (
        (
            [f"pendulum m, length L, {angle}° to the vertical, height h, tension T"],
            {"m": mass, "L": "1.2 m", "h": "0.15 m", "T": "12.5 N"},
        ),
        (
            [f"lamp m hanging from ropes T_1 at {angle}° and T_2 at {max(10, 80 - angle)}°"],
            {"m": mass, "T_1": "20 N", "T_2": "30 N"},
        ),
        (
            [
                f"block m on a rough incline {angle}°",
                "force F on m, up the slope",
                "force f on m, down the slope",
                "velocity v of m, up the slope",
            ],
            {"m": mass, "F": "20 N", "f": "3 N", "v": "2 m/s"},
        ),
        (
            ["block m on a surface", f"force F on m, at {angle}° above right", "force f on m, left"],
            {"m": mass, "F": "20 N", "f": "3 N"},
        ),
        (
            [f"projectile ball, speed v at {angle}°, height h, range R"],
            {"v": "20 m/s", "h": "15 m", "R": "30 m"},
        ),
    ):
        assert crossed(picture(situation(*typed, given=given))) == [], typed


def test_a_label_that_is_free_in_none_of_its_places_looks_farther() -> None:
    board = Board()
    for n in range(-4, 5):
        board.line(((-6.0, 1.4 * n), (6.0, 1.4 * n)))
    runs = runs_of_text("free")
    board.label(runs, beside((0.0, 0.0), runs, 0)[:1])
    drawing = board.picture()
    assert crossed(drawing) == []
    (label,) = drawing.labels()
    assert abs(label.at[0]) < 16
    assert abs(label.at[1]) < 16


@pytest.mark.parametrize("focal", ["10 cm", "10.25 cm"])
def test_the_label_of_a_short_distance_stands_at_its_own_height(focal: str) -> None:
    typed = ("concave mirror, focal length f", "object, 60 cm from the mirror", "image, distance v")
    drawing = picture(situation(*typed, given={"f": focal}))
    label = next(label for label in drawing.labels() if label.text.startswith("f"))
    box = box_of(label)
    heads = [s for s in drawing.with_role("measure") if isinstance(s, Line) and s.closed]
    level = [head for head in heads if box.bottom < head.points[0][1] < box.top]
    assert len(level) == 2
    assert min(abs(head.points[0][0] - side) for head in level for side in (box.left, box.right)) < 2


def test_arrows_are_in_proportion_to_what_they_show() -> None:
    typed = ["block m on a surface", "force F on m, right", "force f on m, left"]
    drawing = picture(situation(*typed, given={"m": "2 kg", "F": "20 N", "f": "12 N"}))
    lengths = {}
    for name in ("F", "f"):
        tail = min(
            (
                shape
                for shape in drawing.with_role(f"arrow {name}")
                if isinstance(shape, Line) and not shape.closed
            ),
            key=lambda shape: shape.points,
        )
        head = next(s for s in drawing.with_role(f"arrow {name}") if isinstance(s, Line) and s.closed)
        lengths[name] = abs(head.points[0][0] - tail.points[0][0])
    assert abs(lengths["f"] / lengths["F"] - 12 / 20) < 1e-6


@pytest.mark.parametrize(
    "name",
    [
        "f_k",
        "v_i1",
        "E_{k(max)}",
        "F_net",
        "Q_A",
        "F_{A on B}",
        "v_{i,x}",
        "I_ε1",
        "x_X",
        "m_Earth",
        "R_1",
        "COP",
    ],
)
def test_a_letter_below_is_slanted_as_in_a_formula(name: str) -> None:
    """What stands on one page is one symbol: TeX writes letters outside of text slanted."""
    read = read_name(name)
    assert read is not None
    below = [run for run in runs_of_name(read) if run.level < 0]
    assert "".join(run.text for run in below) == read.below
    formula = re.sub(r"\\text\{[^}]*\}|\\mathrm\{[^}]*\}", "", tex_name(read).partition("_")[2])
    slanted = [run.text for run in below if run.slant]
    assert len(slanted) == len(re.findall(r"\\[a-z]+|[A-Za-z]", formula))
