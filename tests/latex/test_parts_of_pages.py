"""Lists in the parts of a question, and where its pages end, in TeX itself."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.latex import install
from tex_runs import built, text_of

QUESTION = (
    "\\newpage\\strut\\vspace{%d\\baselineskip}\n\\begin{physquestion}[marks=2]\n\\begin{physquestion}[marks=2]\n"
    "List.\n\\begin{physanswer}[marks=2]\n\\begin{enumerate}\n\\item \\physmark{First words}.\n"
    "\\item \\physmark{Last words}.\n\\end{enumerate}\n\\end{physanswer}\n\\end{physquestion}\n\\end{physquestion}\n"
)


@pytest.fixture
def pages(tmp_path: Path) -> list[str]:
    """The pages of a memo with a question at ever lower places."""
    body = "".join(QUESTION % lines for lines in range(30, 46))
    text = (
        "\\documentclass{article}\n\\usepackage{physcalc}\n\\begin{document}\n" + body + "\\end{document}\n"
    )
    (tmp_path / "main.tex").write_text(text, encoding="utf-8")
    install(tmp_path)
    built(tmp_path, "pdflatex", "memo")
    return text_of(tmp_path / "main.pdf").split("\f")


def test_items_stand_apart_from_their_numbers_and_marks_on_the_page_of_the_answer(pages: list[str]) -> None:
    shown = [page for page in pages if page.strip()]
    assert len(shown) > 16  # Some questions go on below.
    for page in shown:
        assert "1.First" not in page
        assert page.count("[2]") == page.count("Last words")
    assert any("1. First words" in " ".join(page.split()) for page in shown)
