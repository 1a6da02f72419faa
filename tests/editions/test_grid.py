"""The grid and the totals of sections in the editions and in every output."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pypandoc
import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.document import EDITIONS, Edition, write_json
from physcalc_filter.editions.words import LANGUAGES, words_for
from physcalc_filter.sources import Source

PAPER = """\
---
title: Two sections
lang: en-ZA
physcalc:
  grid:
    topics: {forces: 60 %, energy: 40 %}
    tolerance: 4 %
---

# Section A {marks=4}

## Question 1 {.question marks=4 topic=forces level=1}

Name them.

# Section B

## Question 2 {.question marks=5 topic=energy level=2}

Why?

## Question 3 {.question marks=3 topic=sound}

Why not?

# Weighting {.grid}

What this paper is made of.
"""


def built(text: str, edition: Edition, form: str = "plain") -> str:
    document, report = pipeline.build(Source("test.md", text), edition, "markdown")
    assert document is not None, [str(problem) for problem in report.problems]
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", form, "--wrap=none", "--columns=500"]
    done = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    return done.stdout


def rows(page: str) -> dict[str, list[str]]:
    """The lines of the table by their first word, at runs of blanks cut into cells."""
    lines = [re.split(r"\s{2,}", line.strip()) for line in page.splitlines() if line.startswith("  ")]
    return {line[0].replace("\u00a0", " "): line[1:] for line in lines}


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_grid_stands_in_memo_and_guide(edition: Edition) -> None:
    page = built(PAPER, edition)
    assert ("Weighting" in page) == (edition != "paper")
    assert ("What this paper" in page) == (edition != "paper")
    assert ("Topic" in page) == (edition != "paper")


@pytest.mark.parametrize("edition", EDITIONS)
def test_a_grid_stands_where_its_author_says(edition: Edition) -> None:
    page = built(PAPER.replace("{.grid}", "{.grid in=paper}"), edition)
    assert ("Topic" in page) == (edition == "paper")


def test_marks_shares_and_targets_stand_in_the_table() -> None:
    table = rows(built(PAPER, "memo"))
    # 4, 5 and 3 of 12 marks; the shares by hand.
    assert table["Topic"] == [
        "Level\u00a01",
        "Level\u00a02",
        "not said",
        "Marks",
        "%",
        "Target (±\u00a04\u00a0%)",
    ]
    assert table["forces"] == ["4", "–", "–", "4", "33,3\u00a0%\u00a0↓", "60\u00a0%"]
    assert table["energy"] == ["–", "5", "–", "5", "41,7\u00a0%", "40\u00a0%"]
    assert table["sound"] == ["–", "–", "3", "3", "25\u00a0%\u00a0↑", "0\u00a0%"]
    assert table["Marks"] == ["4", "5", "3", "12"]
    assert table["%"] == ["33,3\u00a0%", "41,7\u00a0%", "25\u00a0%"]


def test_a_document_without_marks_has_no_table() -> None:
    assert "Topic" not in built("# A {.question}\n\nWhy?\n\n::: {.grid}\nText.\n:::\n", "memo")


def test_a_grid_stands_below_the_total() -> None:
    page = built(PAPER, "memo")
    assert page.index("Total: 12") < page.index("Weighting")


def test_a_grid_has_no_other_attributes() -> None:
    report = pipeline.check(Source("test.md", PAPER.replace("{.grid}", "{.grid inn=paper}")))
    (problem,) = (problem for problem in report.problems if problem.level != "note")
    assert (problem.slug, problem.span.line) == ("attribute-unknown", 26)


@pytest.mark.parametrize("lang", LANGUAGES)
def test_the_table_speaks_the_language_of_the_document(lang: str) -> None:
    page = built(PAPER.replace("en-ZA", lang), "guide")
    words = words_for(lang)
    assert all(words[key] in page for key in ("topic", "level", "target", "unsaid"))


@pytest.mark.parametrize("ending", ["html", "docx", "epub", "tex", "typ", "md", "pdf"])
def test_every_output_has_the_table(ending: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "test.md").write_text(PAPER, encoding="utf-8")
    out = tmp_path / f"memo.{ending}"
    assert main(["build", str(tmp_path / "test.md"), "-o", str(out), "--edition", "memo"]) == 0
    if ending == "pdf":
        from pypdf import PdfReader

        text = "".join(page.extract_text() for page in PdfReader(out).pages)
    else:
        if ending in ("typ", "tex"):
            text = out.read_text(encoding="utf-8")
        else:
            command = [
                pypandoc.get_pandoc_path(),
                "-f",
                "markdown" if ending == "md" else ending,
                "-t",
                "plain",
                str(out),
            ]
            text = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    for word in ("energy", "41,7", "sound", "Target"):
        assert word in text, word


def test_sections_have_their_totals_in_paper_and_memo() -> None:
    for edition in ("paper", "memo"):
        page = built(PAPER, edition)  # type: ignore[arg-type]
        assert (
            page.index("Section A: 4\u00a0marks")
            < page.index("Section B\n")
            < page.index("Section B: 8\u00a0marks")
        )
    assert "Section A: " not in built(PAPER, "guide")


def test_the_marks_of_a_section_are_no_attribute_of_the_page() -> None:
    assert "marks=" not in built(PAPER, "guide", "html")


def test_one_section_alone_has_no_total_of_its_own() -> None:
    text = "# Mechanics\n\n## Question 1 {.question marks=3}\n\nWhy?\n"
    assert "Mechanics:" not in built(text, "paper")
    assert "Mechanics: 3\u00a0marks" in built(text.replace("Mechanics", "Mechanics {marks=3}"), "paper")


def test_a_section_ends_at_a_question_of_its_own_level() -> None:
    text = (
        "# Part {marks=2}\n\n::: {.question marks=2}\nWhy?\n:::\n\n# Question 2 {.question marks=3}\n\nWhy?\n"
    )
    assert "Part: 2\u00a0marks" in built(text, "paper")


def test_the_line_of_marks_does_not_wait_for_the_author(tmp_path: Path) -> None:
    (tmp_path / "test.md").write_text("---\ntime: 1 hour\n" + PAPER[4:], encoding="utf-8")
    for edition, there in (("paper", True), ("memo", True), ("guide", False)):
        out = tmp_path / f"{edition}.html"
        assert main(["build", str(tmp_path / "test.md"), "-o", str(out), "--edition", edition]) == 0
        text = re.sub(r"<[^>]*>|\s+", " ", out.read_text(encoding="utf-8"))
        assert bool(re.search(r"Total:? +12.marks", text)) == there
        assert bool(re.search(r"Time:? +1 hour", text)) == there
