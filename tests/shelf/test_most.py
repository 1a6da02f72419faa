"""A document with more problems than anybody reads."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.problems import FileMissing
from physcalc_filter.report import FORMATS, AsText, Found, piece_of
from physcalc_filter.sources import Source

from physcalc.problems import Problem, Span
from physcalc.problems.solving import AnswerCoarse, AnswerDisagrees


def note(line: int) -> Problem:
    return AnswerCoarse(Span("a.md", line, 1, 1), "T", "6 752,60 N", "6 753 N")


def wrong(line: int) -> Problem:
    return AnswerDisagrees(Span("a.md", line, 1, 1), "T", "2 N", "1 N")


def test_problems_go_before_notes_and_all_are_counted() -> None:
    run = Found(
        "a.md",
        (note(1), wrong(2), note(3), wrong(4), FileMissing(Span("a.md", 5), "a.md")),
        Source("a.md", "x\n" * 9),
    )
    piece = piece_of(run, FORMATS["json"], 2)
    kept = [json.loads(part) for part in piece.parts]
    assert [(one["line"], one["slug"]) for one in kept] == [
        (2, "answer-disagrees"),
        (4, "answer-disagrees"),
        (1, "problems-not-shown"),
    ]
    assert kept[-1]["sentence"] == "1 more problem and 2 more notes are not shown"
    assert piece.tally.text() == "3 problems, 2 notes in 1 file"
    # The one that is not shown cannot be read, and that is what the exit code says.
    assert piece.tally.code == 2
    assert len(piece_of(run, FORMATS["json"], 0).parts) == len(piece_of(run, FORMATS["json"], 5).parts) == 5
    assert piece_of(run, FORMATS["json"], 4).parts[-1].count("1 more note is not shown")


@pytest.mark.parametrize(
    ("form", "most"), [(AsText(), 1_000), (FORMATS["json"], 10_000), (FORMATS["sarif"], 10_000)]
)
def test_what_is_shown_where_nobody_says_how_many(form: AsText, most: int) -> None:
    run = Found("a.md", tuple(wrong(line) for line in range(1, most + 3)))
    assert sum(part.count("2 more problems are not shown") for part in piece_of(run, form).parts) == 1


def test_on_the_command_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    line = " ".join(f"[{mass} kg]{{.value of=m}}" for mass in range(3, 60))
    Path("a.md").write_text(
        f"# Question 1 {{.question}}\n\n```{{.given}}\nm: 2 kg\n```\n\n{line}\n", encoding="utf-8"
    )
    assert main(["check", "a.md", "--max-problems", "5"]) == 1
    said = capsys.readouterr()
    assert said.out.count("datum-disagrees") == 5
    assert said.out.endswith(
        "a.md:1:1: problems-not-shown (note): 52 more problems are not shown\n"
        "   mend: mend the ones above first; --max-problems 0 shows all\n"
    )
    assert said.err == "57 problems in 1 file\n"
    assert main(["check", "a.md", "--max-problems", "0"]) == 1
    assert capsys.readouterr().out.count("datum-disagrees") == 57
