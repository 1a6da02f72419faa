"""`physcalc fix` writes what it should and not one byte more."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Sequence
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.cli.writing import difference
from physcalc_filter.document import Report
from physcalc_filter.fixing import fix, mends_of
from physcalc_filter.problems import KeyUnknown
from physcalc_filter.sources import Source

from physcalc.problems import Problem, Span
from physcalc.problems.solving import AnswerCoarse, AnswerDisagrees, DatumDisagrees

TEXT = "# Lift\n\nanswer: 6725 N\nshow: 6.7 kN\n"


def wrong(source: Source, typed: str, new: str, kind: type[AnswerDisagrees] = AnswerDisagrees) -> Problem:
    """The problem that a typed text is wrong, at its place; it must occur once."""
    assert source.text.count(typed) == 1
    start = source.text.index(typed)
    return kind(source.span(start, start + len(typed)), "T", new, typed, replacement=new)


def finds(**new: str):  # type: ignore[no-untyped-def]
    """A check that finds each of these texts wrong as long as it is there."""

    def check(source: Source, overrides: object = ()) -> Report:
        texts = [(typed.replace("_", " "), right) for typed, right in new.items()]
        return Report(tuple(wrong(source, typed, right) for typed, right in texts if typed in source.text))

    return check


def test_results_are_mended_in_place() -> None:
    source = Source("a.md", TEXT)
    fixed = fix(source, lambda text: finds(**{"6725_N": "6752 N", "6.7_kN": "6.8 kN"})(text).problems)
    assert fixed.source.text == TEXT.replace("6725 N", "6752 N").replace("6.7 kN", "6.8 kN")
    assert [(mend.old, mend.edit.new) for mend in fixed.mends] == [("6725 N", "6752 N"), ("6.7 kN", "6.8 kN")]
    assert fixed.problems == ()


def test_data_and_notes_and_other_files_are_left_alone() -> None:
    source = Source("a.md", TEXT)
    place = Span("a.md", 3, 9, 6)
    problems = [
        wrong(source, "6725 N", "6752 N", DatumDisagrees),
        AnswerCoarse(place, "T", "6752,00 N", "6752 N"),
        AnswerDisagrees(Span("b.md", 3, 9, 6), "T", "6752 N", "6725 N", replacement="6752 N"),
        AnswerDisagrees(place, "T", "6752 N", "6725 N"),
        KeyUnknown(place, "anwser", "answer"),
    ]
    assert mends_of(source, problems) == []


def test_a_place_wider_than_the_value_is_left_alone() -> None:
    source = Source("a.md", "[6725 N]{.value of=T}\n")
    problem = AnswerDisagrees(Span("a.md", 1, 1, 21), "T", "6752 N", "6725 N", replacement="6752 N")
    assert mends_of(source, [problem]) == []


def test_markdown_in_a_value_stays() -> None:
    source = Source("a.md", "[6.7 × 10^3^ N·C^-1^]{.value of=E}\n")
    typed = "6.7 × 10³ N·C⁻¹"
    found = AnswerDisagrees(Span("a.md", 1, 2, 19), "E", "", typed, replacement="6.8 × 10^3 N·C-1")
    (mend,) = mends_of(source, [found])
    assert mend.edit.new == "6.8 × 10^3^ N·C^-1^"


def test_the_dollar_of_an_amount_is_no_markup_in_a_block_alone() -> None:
    source = Source("a.md", "answer: $12.41\n")
    assert [mend.edit.new for mend in mends_of(source, [wrong(source, "$12.41", "$12.40")])] == ["$12.40"]
    for text in ("[$12.41]{.value of=c}", r"[\$12.41]{.value of=c}"):
        source = Source("a.md", text + "\n")
        assert mends_of(source, [wrong(source, text.partition("]")[0][1:], "$12.40")]) == []


def test_what_starts_from_a_mended_value_is_mended_in_the_next_round() -> None:
    def check(source: Source) -> Sequence[Problem]:
        if "6725 N" in source.text:
            return [wrong(source, "6725 N", "6752 N")]
        return [wrong(source, "6.7 kN", "6.8 kN")] if "6.7 kN" in source.text else []

    fixed = fix(Source("a.md", TEXT), check)
    assert "6752 N" in fixed.source.text
    assert "6.8 kN" in fixed.source.text


def test_a_change_that_does_harm_is_taken_back() -> None:
    def check(source: Source) -> Sequence[Problem]:
        if "6725 N" in source.text:
            return [wrong(source, "6725 N", "6752 N")]
        return [KeyUnknown(Span("a.md", 3, 1, 6), "answer")]

    fixed = fix(Source("a.md", TEXT), check)
    assert (fixed.source.text, fixed.mends) == (TEXT, ())
    assert isinstance(fixed.problems[0], AnswerDisagrees)


def test_of_several_changes_the_harmless_ones_stay() -> None:
    def check(source: Source) -> Sequence[Problem]:
        pairs = {"6725 N": "6752 N", "6.7 kN": "6.8 kN"}
        found = [wrong(source, typed, new) for typed, new in pairs.items() if typed in source.text]
        return [*found, *([KeyUnknown(Span("a.md", 3, 1, 6), "answer")] if "6.8 kN" in source.text else [])]

    fixed = fix(Source("a.md", TEXT), check)
    assert fixed.source.text == TEXT.replace("6725 N", "6752 N")
    assert [problem.slug for problem in fixed.problems] == ["answer-disagrees"]


def test_a_value_that_never_comes_right_ends_the_run() -> None:
    def check(source: Source) -> Sequence[Problem]:
        line = source.line_text(0)
        return [AnswerDisagrees(Span("a.md", 1, 1, len(line)), "T", "", "", replacement=line + "0")]

    assert len(fix(Source("a.md", "1\n"), check).mends) < 20


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(pipeline, "check", finds(**{"6725_N": "6752 N"}))
    return tmp_path


@pytest.mark.parametrize(
    "data",
    [
        b"\xef\xbb\xbfanswer: 6725 N\r\n\r\nend",
        b"answer: 6725 N",
        b"answer: 6725 N\r\nmixed\n\r\n\n\n",
        "answer: 6725 N \x0c \u2028 \u0085 ü\n".encode(),
    ],
)
def test_no_other_byte_is_touched(data: bytes, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = folder / "a.md"
    path.write_bytes(data)
    path.chmod(0o640)
    assert main(["fix", "a.md"]) == 0
    assert path.read_bytes() == data.replace(b"6725", b"6752")
    assert path.stat().st_mode & 0o777 == 0o640
    assert os.listdir(folder) == ["a.md"]
    assert "6725 N is now 6752 N" in capsys.readouterr().err


def test_a_link_stays_one(folder: Path) -> None:
    (folder / "real.txt").write_text(TEXT, encoding="utf-8")
    (folder / "a.md").symlink_to("real.txt")
    assert main(["fix", "a.md"]) == 0
    assert (folder / "a.md").is_symlink()
    assert "6752 N" in (folder / "real.txt").read_text(encoding="utf-8")


def test_a_file_changed_meanwhile_is_kept(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = folder / "a.md"
    path.write_text(TEXT, encoding="utf-8")
    sound = pipeline.check

    def check(source: Source, overrides: object = ()) -> Report:
        path.write_text("answer: 6725 N, saved by its author\n", encoding="utf-8")
        return sound(source, overrides)  # type: ignore[arg-type]

    monkeypatch.setattr(pipeline, "check", check)
    assert main(["fix", "a.md"]) == 2
    assert path.read_text(encoding="utf-8") == "answer: 6725 N, saved by its author\n"
    assert os.listdir(folder) == ["a.md"]
    assert "file-changed" in capsys.readouterr().err


def test_a_folder_that_may_not_be_written_to(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(**_: object) -> None:
        raise PermissionError(13, "Permission denied")

    (folder / "a.md").write_text(TEXT, encoding="utf-8")
    monkeypatch.setattr("tempfile.mkstemp", refuse)
    assert main(["fix", "a.md"]) == 2
    assert (folder / "a.md").read_text(encoding="utf-8") == TEXT
    assert "file-not-written" in capsys.readouterr().err


def test_a_dry_run_writes_nothing(folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "a.md").write_text(TEXT, encoding="utf-8")
    assert main(["fix", "--dry-run", "a.md"]) == 1
    assert (folder / "a.md").read_text(encoding="utf-8") == TEXT
    assert "\n-answer: 6725 N\n+answer: 6752 N\n" in capsys.readouterr().out


@pytest.mark.parametrize("text", [TEXT, "answer: 6725 N", "\r\nanswer: 6725 N\r\n\x0c\u2028x\r\n"])
def test_the_difference_can_be_applied(text: str, tmp_path: Path) -> None:
    # git is the outside judge of what a unified difference is.
    (tmp_path / "a.md").write_bytes(text.encode())
    lines = difference(Source("a.md", text), Source("a.md", text.replace("6725", "6752")))
    command = ["git", "apply", "--whitespace=nowarn", "-"]
    subprocess.run(command, cwd=tmp_path, input="".join(lines).encode(), check=True)
    assert (tmp_path / "a.md").read_bytes() == text.replace("6725", "6752").encode()
