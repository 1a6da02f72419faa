"""What was changed in a Word file that comes back (the language reference, "A Word file that comes back")."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pypandoc
import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.cli import main
from physcalc_filter.returned import Passage, WordText, changes, read_word

from ..programs import program
from .conftest import PAPER, THIN, Changed

Capture = pytest.CaptureFixture[str]


def told(capsys: Capture, *options: str, code: int = 1) -> list[dict[str, Any]]:
    """The problems that the command tells."""
    capsys.readouterr()
    assert main(["changes", "test.md", "back.docx", "--format", "json", *options]) == code
    found: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
    return found


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_a_file_that_nobody_touched_has_no_changes(back: Changed, edition: str, capsys: Capture) -> None:
    back(edition=edition)
    assert told(capsys, code=0) == []


def test_a_value_is_found_where_it_is_typed(back: Changed, capsys: Capture) -> None:
    back((f"320{THIN}kg", f"325{THIN}kg"))
    (one,) = told(capsys)
    assert (one["slug"], one["line"], one["column"]) == ("word-changed", 12, 32)
    assert one["sentence"] == 'question 1 has "325 kg" in back.docx, where "320 kg" was handed out'.replace(
        " kg", f"{THIN}kg"
    ).replace(THIN, " ")
    assert one["because"] == [
        "there: A hoist lifts a crate of mass 325 kg from rest. Ignore friction in the …",
        "the same value stands at 16:4",
    ]


def test_a_value_that_is_printed_from_the_data_is_found_there(back: Changed, capsys: Capture) -> None:
    # The page has a comma and superscripts, the source has 0.45 m/s^2.
    back(("0,45", "0,54"))
    (one,) = told(capsys)
    assert (one["line"], one["column"], one["length"]) == (17, 4, 10)


def test_marks_are_found_where_they_are_said(back: Changed, capsys: Capture) -> None:
    back(("(4)", "(5)"))
    (one,) = told(capsys)
    assert '"(5)" in back.docx, where "(4)"' in one["sentence"]
    assert (one["line"], one["column"]) == (20, 37)
    assert PAPER.splitlines()[19][36] == "4"


def test_words_that_came_in_and_words_that_went(back: Changed, capsys: Capture) -> None:
    back(("Ignore friction in the pulley", "Ignore all friction"))
    (one,) = told(capsys)
    assert one["sentence"].startswith(
        'question 1 has "all friction" in back.docx, where "friction in the pulley"'
    )
    back(("Calculate the tension", "Calculate, with two decimals, the tension"))
    (one,) = told(capsys)
    assert '", with two decimals," more' in one["sentence"]
    # Behind the word after which it stands.
    assert (one["line"], one["column"]) == (21, 10)
    back((" from rest", ""))
    (one,) = told(capsys)
    assert 'has lost "from rest"' in one["sentence"]
    assert one["line"] == 12


def test_what_was_worked_out_is_shown_at_its_question(back: Changed, capsys: Capture) -> None:
    back(("19,6", "16,9"), edition="memo")
    (one,) = told(capsys)
    assert "question 2 has" in one["sentence"]
    assert one["line"] == PAPER[: PAPER.index("# Question 2")].count("\n") + 1
    assert "worked out" in one["mend"]
    # A typed answer is told at the answer.
    back(("280,00", "820,00"), edition="memo")
    (one,) = told(capsys)
    assert one["line"] == PAPER[: PAPER.index("answer:")].count("\n") + 1


def test_an_edition_may_be_named(back: Changed, capsys: Capture) -> None:
    back(edition="memo")
    assert told(capsys, "--edition", "memo", code=0) == []
    assert main(["changes", "test.md", "back.docx", "--edition", "paper"]) == 2
    assert "in common with the paper of test.md" in capsys.readouterr().err


def test_quotation_marks_and_blanks_of_a_word_processor_are_no_changes(
    back: Changed, capsys: Capture
) -> None:
    back(("Answer both questions.", "Answer\u00a0 both  questions."), (f"320{THIN}kg", "320 kg"))
    assert told(capsys, code=0) == []


def test_a_file_of_another_document(paper: Path, back: Changed, capsys: Capture) -> None:
    back()
    other = (
        PAPER[: PAPER.index("# Question 1")]
        + "# Question 1 {.question marks=1}\n\nState Ohm's law in words.\n"
    )
    (paper / "test.md").write_text(other.replace("Answer both questions.", "Answer it."), encoding="utf-8")
    assert main(["changes", "test.md", "back.docx"]) == 2
    assert "word-unlike" in capsys.readouterr().err


def test_what_is_no_word_file(paper: Path, capsys: Capture) -> None:
    for content in (b"", b"PK\x03\x04", b"some text", PAPER.encode()):
        (paper / "back.docx").write_bytes(content)
        assert main(["changes", "test.md", "back.docx"]) == 2
        assert "word-unreadable" in capsys.readouterr().err
    assert main(["changes", "test.md", "gone.docx"]) == 2
    assert main(["changes", "test.md", "back.docx", "--limit", "word-size=10"]) == 2
    assert "--limit word-size=20" in capsys.readouterr().err


def test_a_document_with_problems_is_told_first(paper: Path, back: Changed, capsys: Capture) -> None:
    back()
    wrong = PAPER.replace("answer: 3280.00 N", "answer: 3281.00 N")
    (paper / "test.md").write_text(wrong, encoding="utf-8")
    assert main(["changes", "test.md", "back.docx"]) == 1
    assert "answer-disagrees" in capsys.readouterr().err


def test_nothing_is_written(paper: Path, back: Changed, capsys: Capture) -> None:
    made = back(("(4)", "(5)"))
    before = made.read_bytes()
    told(capsys)
    assert made.read_bytes() == before
    assert (paper / "test.md").read_text(encoding="utf-8") == PAPER
    assert sorted(path.name for path in paper.iterdir()) == ["back.docx", "test.md"]


BY = 'author="x" date="2026-01-01T00:00:00Z"'
TRACKED = f"""
# Question 1

A mass of 5 kg [of the air as well?]{{.comment-start id="0" {BY}}}without friction[]{{.comment-end id="0"}} is
[pulled]{{.deletion {BY}}}[pushed]{{.insertion {BY}}}.
"""


def test_tracked_changes_count_as_accepted_and_comments_are_read(tmp_path: Path) -> None:
    made = tmp_path / "a.docx"
    pypandoc.convert_text(TRACKED, "docx", format="markdown", outputfile=str(made))
    read = read_word(made.read_bytes(), "a.docx")
    assert [passage.text for passage in read.passages] == [
        "Question 1",
        "A mass of 5 kg without friction is pushed.",
    ]
    (comment,) = read.comments
    assert (comment.text, comment.about, comment.passage) == ("of the air as well?", "without friction", 1)


def test_a_comment_is_a_note_at_the_words_that_it_is_about(paper: Path, capsys: Capture) -> None:
    source = "---\nlang: en\n---\n\n# Question 1 {.question marks=1}\n\n"
    source += "A mass of 5 kg without friction is pushed. Why?\n"
    (paper / "test.md").write_text(source, encoding="utf-8")
    text = TRACKED.replace("}.\n", "}. Why? \\[1\\]\n")
    pypandoc.convert_text(text, "docx", format="markdown", outputfile=str(paper / "back.docx"))
    notes = [one for one in told(capsys) if one["slug"] == "word-comment"]
    assert [(one["line"], one["column"], one["length"]) for one in notes] == [(7, 16, 16)]
    assert notes[0]["sentence"].endswith('on "without friction" in question 1: of the air as well?')


def test_a_word_processor_that_saves_the_file_anew_changes_nothing(
    paper: Path, back: Changed, capsys: Capture
) -> None:
    """LibreOffice writes formulas and tables in its own way; the words are the same."""
    soffice = program("soffice")
    made = back(("19,6", "16,9"), edition="memo")
    profile = f"-env:UserInstallation=file://{paper}/profile"
    command = [
        soffice,
        profile,
        "--headless",
        "--convert-to",
        "docx:MS Word 2007 XML",
        "--outdir",
        "again",
        str(made),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    shutil.move("again/back.docx", made)
    (one,) = told(capsys)
    assert "question 2 has" in one["sentence"]


def text_of(*lines: str) -> WordText:
    return WordText(tuple(map(Passage, lines)))


lines = st.lists(st.text(st.sampled_from("ab 1,(⁻²\u202f'’"), max_size=12), max_size=6)


@given(lines, lines)
def test_nothing_differs_from_itself_and_what_differs_is_told(ours: list[str], theirs: list[str]) -> None:
    assert changes(text_of(*ours), text_of(*ours), ",") == []
    found = changes(text_of(*ours), text_of(*theirs), ",")
    plain = ["".join(line.replace("’", "'").split()) for line in (*ours, "|", *theirs)]
    cut = plain.index("|")
    if "".join(plain[:cut]) != "".join(plain[cut + 1 :]):
        assert found
    for change in found:
        assert change.ours or change.theirs


def test_texts_that_would_take_long_are_compared_as_a_whole() -> None:
    many = [f"a {n}" for n in range(3_000)]
    (one,) = changes(text_of(" ".join(["a", "b"] * 4_000)), text_of(" ".join(["b", "a"] * 4_001)), ".")
    assert one.ours
    assert one.theirs
    assert len(changes(text_of(*many), text_of(*many, "more"), ".")) == 1
