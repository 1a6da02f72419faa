"""Two balls on threads, and the layers of a longitudinal wave."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
from physcalc_filter.figures.board import angle, distance

from .situation_cases import circle, clear, figure, lines, picture, situation, slugs, texts
from .test_labels import crossed

DATA = {"q_1": "20 nC", "q_2": "20 nC", "q_3": "-30 nC", "L": "0.50 m", "θ": "12°", "r": "20 cm"}


def test_balls_that_repel_one_another_hang_at_their_angle() -> None:
    found = situation(
        "two charged balls q_1 and q_2 hanging from one point, length L, θ to the vertical, force F, distance r",
        given={**DATA, "r": "0.208 m"},
    )
    assert slugs(found) == []
    drawn = picture(found)
    left, right = (circle(drawn, f"body q_{n}").centre for n in (1, 2))
    assert left[1] == right[1]
    for thread, turn in zip(lines(drawn, "thread"), (258, 282), strict=True):
        assert math.isclose(angle(*thread.points) % 360, turn)
    # By the triangle of the threads: r = 2 L sin θ.
    thread = lines(drawn, "thread")[0]
    assert math.isclose(distance(left, right) / distance(*thread.points), 2 * math.sin(math.radians(12)))
    tips = [line.points[0][0] for line in lines(drawn, "arrow force") if line.closed]
    assert tips[0] < left[0] < right[0] < tips[1]
    assert len(lines(drawn, "sign q_1")) == 2
    assert crossed(drawn) == []


def test_the_angle_follows_from_length_and_distance() -> None:
    drawn = picture(
        situation("two balls A and B hanging from one point, length L, distance r, angle θ_1", given=DATA)
    )
    _, right = lines(drawn, "thread")
    assert math.isclose(angle(*right.points), math.degrees(math.asin(0.1 / 0.5)) - 90)


def test_balls_that_attract_one_another_hang_inwards_from_two_points() -> None:
    found = situation("two charged balls q_1 and q_3 hanging from two points, angle 15°, force F", given=DATA)
    drawn = picture(found)
    left, right = lines(drawn, "thread")
    assert left.points[0][0] < left.points[1][0] < right.points[1][0] < right.points[0][0]
    tips = [line.points[0][0] for line in lines(drawn, "arrow force") if line.closed]
    assert circle(drawn, "body q_1").centre[0] < tips[0] < tips[1] < circle(drawn, "body q_3").centre[0]
    assert len(lines(drawn, "sign q_3")) == 1
    assert "they attract one another" in figure(found).alternative
    assert "sie ziehen einander an" in figure(found, lang="de").alternative


def test_a_force_may_be_drawn_on_one_of_the_balls() -> None:
    drawn = picture(situation("two balls A and B hanging from one point", "force F_g on B, down"))
    assert "F" in "".join(texts(drawn))


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        (
            "two balls q_1 and q_2 hanging from one point, length L, angle θ, distance r",
            "situation-distance-differs",
        ),
        ("two balls A and B hanging from one point, length 5 cm, distance 20 cm", "situation-value-outside"),
        ("two balls q_1 and q_3 hanging from one point", "figure-phrase-unreadable"),
        ("two balls A and B hanging from one point, attracting", "figure-phrase-unreadable"),
        ("two balls A and A hanging from one point", "figure-phrase-unreadable"),
        ("two balls A and B hanging from a hook", "figure-phrase-unreadable"),
        ("two balls A and B hanging from one point, angle 95°", "situation-value-outside"),
        ("two balls A and B hanging from one point, lenght L", "figure-phrase-unreadable"),
    ],
)
def test_what_cannot_hang_is_said(typed: str, expected: str) -> None:
    assert slugs(situation(typed, given=DATA)) == [expected]


@pytest.mark.parametrize("where", ["one point", "two points"])
@pytest.mark.parametrize("turn", [2, 8, 30, 60, 80])
def test_labels_of_balls_keep_clear(where: str, turn: int) -> None:
    drawn = picture(
        situation(
            f"two balls q_1 and q_2 hanging from {where}, length L, angle {turn}°, tension T, force F = 2 mN",
            given=DATA,
        )
    )
    clear(drawn)
    assert crossed(drawn) == []


@pytest.mark.parametrize("count", [1, 2, 3, 5])
def test_compressions_are_where_layers_are_closest(count: int) -> None:
    found = situation(f"longitudinal wave, {count} wavelengths, compressions and rarefactions")
    drawn = picture(found)
    layers = sorted(line.points[0][0] for line in lines(drawn, "layer"))
    gaps = [((a + b) / 2, b - a) for a, b in pairwise(layers)]

    def gap_at(x: float) -> float:
        return min(gaps, key=lambda gap: abs(gap[0] - x))[1]

    places = {letter: [label.at[0] for label in drawn.labels() if label.text == letter] for letter in "CR"}
    assert len(places["C"]) == count
    assert all(math.isclose(gap_at(x), min(gap for _, gap in gaps), rel_tol=1e-6) for x in places["C"])
    assert all(math.isclose(gap_at(x), max(gap for _, gap in gaps), rel_tol=1e-6) for x in places["R"])
    assert figure(found).note == "C: compression, R: rarefaction"


def test_a_transverse_wave_has_no_compressions() -> None:
    assert slugs(situation("transverse wave, compressions and rarefactions")) == ["figure-phrase-unreadable"]
