"""The picture of a place: marks stand below the characters they mean, however wide those are."""

from __future__ import annotations

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.report.picture import picture
from physcalc_filter.report.wording import REPLACEMENT, clean

from physcalc.problems import Span


def width(text: str) -> int:
    """Columns by Unicode Annex 11, for characters that have a width of one or two."""
    wide = sum(unicodedata.east_asian_width(character) in "WF" for character in text)
    return len(text) + wide - sum(unicodedata.combining(character) > 0 for character in text)


def marked(line: str, column: int, length: int, room: int = 100) -> str:
    """The characters above the marks, counted in terminal columns."""
    above, below = picture(Span("x.md", 7, column, length), line, room)
    start, end = below.index("^"), below.rindex("^") + 1
    found, at = "", 0
    for character in above:
        if start <= at < end:
            found += character
        at += width(character)
    return found


def test_sample_of_the_language() -> None:
    # The picture in the language's description of a problem.
    above, below = picture(Span("test.md", 32, 9, 6), "answer: 6725 N")
    assert above == "   32 | answer: 6725 N"
    assert below == "      |         ^^^^^^"


@pytest.mark.parametrize(
    ("line", "column", "length", "expected"),
    [
        ("answer: 6725 N", 9, 6, "6725 N"),
        ("速さ: 5 m/s", 5, 5, "5 m/s"),
        ("速さ: 5 m/s", 1, 2, "速さ"),
        ("e\u0301nergie: 5 J", 11, 3, "5 J"),
        ("\tm: 640 kg", 5, 6, "640 kg"),
        ("a\tm: 640 kg", 6, 6, "640 kg"),
    ],
)
def test_marks_stand_below_the_place(line: str, column: int, length: int, expected: str) -> None:
    assert marked(line, column, length) == expected


def test_a_place_behind_the_line() -> None:
    above, below = picture(Span("x.md", 1, 6, 1), "find:")
    assert (above, below) == ("    1 | find:", "      |      ^")


def test_a_place_far_behind_the_line_is_marked_at_its_end() -> None:
    assert picture(Span("x.md", 1, 400, 9), "find:")[1] == "      |      ^"


@pytest.mark.parametrize("column", [1, 80, 150, 291])
def test_a_long_line_is_cut_around_the_place(column: int) -> None:
    line = "".join(chr(ord("a") + index % 26) for index in range(300))
    above, below = picture(Span("x.md", 1, column, 10), line, 60)
    assert len(above) <= 60
    assert ("…" in above[8:9]) == (column > 20)
    assert marked(line, column, 10, 60) == line[column - 1 : column + 9]
    assert len(below) <= 60


def test_a_place_longer_than_the_terminal_shows_its_beginning() -> None:
    line = "x" * 20 + "y" * 300
    above, below = picture(Span("x.md", 1, 21, 300), line, 60)
    assert above.startswith("    1 | …y")
    assert len(below) <= 60


@given(
    st.text(st.sampled_from("ab 速\t\u0301Δ²"), max_size=200),
    st.integers(1, 220),
    st.integers(1, 220),
    st.integers(0, 120),
)
def test_no_picture_is_wider_than_the_terminal(line: str, column: int, length: int, room: int) -> None:
    above, below = picture(Span("x.md", 1, column, length), line, room)
    assert width(above) <= max(room, 28)
    assert "^" in below


def test_signs_that_steer_a_terminal_are_shown_harmless() -> None:
    # ESC ] begins a command to the terminal; U+202E turns the reading direction (Unicode TR 36, 2.5).
    above, _ = picture(Span("x.md", 1, 1, 1), "a\x1b]0;x\x07\u202eb")
    assert "\x1b" not in above
    assert "\u202e" not in above
    assert above.count(REPLACEMENT) == 3
    assert clean('there is no key "a\x1b[2J\nb"') == f'there is no key "a{REPLACEMENT}[2J b"'
