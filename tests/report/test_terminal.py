"""Problems as text: order, notes, mends, colours, and the count."""

from __future__ import annotations

import json
from pathlib import Path

import click
import pytest
from physcalc_filter.problems import FileMissing, KeyUnknown
from physcalc_filter.report import FORMATS, Found, Lines, as_text, count_text
from physcalc_filter.sources import Source

from physcalc.problems import Problem, Span
from physcalc.problems.sheets import SheetUnreadable
from physcalc.problems.solving import AnswerCoarse, AnswerDisagrees

TEXT = "# Lift\n\nanswer: 6725 N\nanwser: 2 N\n"


def answer() -> Problem:
    reason = "from T − m g = m a, with m = 640 kg (line 15)"
    return AnswerDisagrees(Span("test.md", 3, 9, 6), "T", "6 752,00 N", "6 725 N", (reason,))


def key() -> Problem:
    return KeyUnknown(Span("test.md", 4, 1, 6), "anwser", "answer")


def note() -> Problem:
    return AnswerCoarse(Span("test.md", 3, 9, 6), "T", "6 752,60 N", "6 753 N")


def run(*problems: Problem) -> Found:
    return Found("test.md", problems, Source("test.md", TEXT))


def test_as_in_the_language() -> None:
    assert as_text([run(answer())]) == (
        "test.md:3:9: answer-disagrees: T is 6 752,00 N, the document says 6 725 N\n"
        "    3 | answer: 6725 N\n"
        "      |         ^^^^^^\n"
        "   from T − m g = m a, with m = 640 kg (line 15)\n"
    )


def test_the_mend_stands_last() -> None:
    assert as_text([run(key())]).splitlines()[-1] == '   mend: if it is what was meant, write "answer"'


def test_a_note_says_that_it_is_one() -> None:
    assert as_text([run(note())]).startswith("test.md:3:9: answer-coarse (note): T is")


def test_a_file_that_is_not_there_has_no_line() -> None:
    text = as_text([Found("gone.md", (FileMissing(Span("gone.md"), "gone.md"),))])
    assert text.startswith("gone.md: file-missing: ")
    assert "|" not in text


def test_a_problem_of_the_whole_file_has_no_picture() -> None:
    problem = FileMissing(Span("test.md"), "test.md", "is a folder")
    assert "|" not in as_text([run(problem)])


def test_a_place_in_a_sheet_is_shown(tmp_path: Path) -> None:
    sheet = tmp_path / "own.yaml"
    sheet.write_text("title: Own\nconstants: 3\n", encoding="utf-8")
    problem = SheetUnreadable(Span(str(sheet), 2, 12, 1), "it holds a number")
    assert "    2 | constants: 3\n      |            ^\n" in as_text([run(problem)])


def test_a_problem_points_into_no_other_file(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("secret\n", encoding="utf-8")
    assert Lines().at(Span(str(secret), 1, 1, 1)) is None


@pytest.mark.parametrize(
    ("runs", "expected"),
    [
        ([run()], "everything agrees in 1 file"),
        ([run(), run()], "everything agrees in 2 files"),
        ([run(note())], "everything agrees, 1 note in 1 file"),
        ([run(answer(), key(), note())], "2 problems, 1 note in 1 file"),
        ([run(answer()), run(), run(key())], "2 problems in 2 of 3 files"),
    ],
)
def test_count(runs: list[Found], expected: str) -> None:
    assert count_text(runs) == expected


def test_colours_change_nothing_else() -> None:
    runs = [run(answer(), key(), note())]
    plain, coloured = as_text(runs), as_text(runs, colour=True)
    assert "\x1b[" in coloured
    assert click.unstyle(coloured) == plain


def test_json_keeps_its_keys() -> None:
    # The keys are promised to programs: to change this list is to break them.
    (entry, other) = json.loads(FORMATS["json"]([run(answer(), note())]))
    assert list(entry) == [
        "file", "line", "column", "length", "slug", "level", "sentence", "mend", "because",
    ]  # fmt: skip
    assert (entry["file"], entry["line"], entry["column"], entry["length"]) == ("test.md", 3, 9, 6)
    assert (entry["slug"], entry["level"], other["level"]) == ("answer-disagrees", "problem", "note")
    assert entry["because"] == ["from T − m g = m a, with m = 640 kg (line 15)"]


def test_json_of_nothing_is_an_empty_list() -> None:
    assert json.loads(FORMATS["json"]([run()])) == []


def test_json_is_ascii() -> None:
    assert FORMATS["json"]([run(answer())]).isascii()
