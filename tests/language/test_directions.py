"""Words for directions and the axis in force."""

from __future__ import annotations

import pytest

from physcalc.language.directions import Axis, opposite_of, printed_direction, read_axis
from physcalc.problems import Problem

from ..authoring import text


@pytest.mark.parametrize(
    ("typed", "printed", "opposite"),
    [
        ("right", "to the right", "to the left"),
        ("Left", "to the left", "to the right"),
        ("up", "upwards", "downwards"),
        ("vertically down", "downwards", "upwards"),
        ("north", "north", "south"),
        ("due west", "west", "east"),
        ("clockwise", "clockwise", "anticlockwise"),
        ("up the slope", "up the slope", "down the slope"),
        ("down along the incline", "down the incline", "up the incline"),
        ("towards B", "towards B", "away from B"),
        ("away from the wall", "away from the wall", "towards the wall"),
        ("into the page", "into the page", "out of the page"),
    ],
)
def test_opposites(typed: str, printed: str, opposite: str) -> None:
    assert printed_direction(typed) == printed
    assert opposite_of(typed) == opposite


def test_an_unknown_word_has_no_opposite() -> None:
    assert opposite_of("sideways") is None


@pytest.mark.parametrize(
    ("typed", "axis"),
    [
        ("right is positive", Axis("to the right", "to the left")),
        ("left as positive", Axis("to the left", "to the right")),
        ("up the slope is positive", Axis("up the slope", "down the slope")),
        ("towards B is positive, away from B is negative", Axis("towards B", "away from B")),
        ("down is negative", Axis("upwards", "downwards")),
        ("A to B is positive, B to A is negative", Axis("A to B", "B to A")),
    ],
)
def test_axis(typed: str, axis: Axis) -> None:
    assert read_axis(text(typed)) == axis
    assert axis.opposite().opposite() == axis


def test_signs() -> None:
    axis = read_axis(text("right is positive"))
    assert [axis.sign_of(w) for w in ("right", "to the right", "left", "leftwards", "up")] == [
        1,
        1,
        -1,
        -1,
        None,
    ]
    assert axis.words(-1) == "to the left"


@pytest.mark.parametrize(
    "typed",
    ["", "right", "right is good", "sideways is positive", "right is positive, right is negative",
     "right is positive, left is positive"],
)  # fmt: skip
def test_axis_refused(typed: str) -> None:
    with pytest.raises(Problem) as caught:
        read_axis(text(typed))
    assert caught.value.slug == "phrase-unreadable"
