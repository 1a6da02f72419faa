"""The package in real runs of TeX: every edition, every engine, against the same paper in Markdown."""

from __future__ import annotations

import re
import shutil
import subprocess
from collections import Counter
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.latex.signs import plain_signs
from programs import program
from tex_runs import HERE, built, environment, lay_out, run_tex, text_of

ENGINES = ("pdflatex", "xelatex")
#: What the memo says and a paper must not: numbers of results, words of definitions and answers, ticks.
ANSWERS = (
    "752,00",
    "6752",
    "8,10",
    "8 102",
    "1 725",
    "725,45",
    "accelerates in",
    "the component",
    "✓",
    "balanced",
)
EXAMPLE = HERE.parents[1] / "example_docs" / "mechanics_test.tex"


def squeezed(text: str) -> str:
    """A text without blanks, of which every engine makes others."""
    return re.sub(r"\s+", "", text)


def workings(tex: str) -> list[str]:
    """The lines of all workings in TeX's source, ticks and marks among them."""
    found = re.findall(r"\\pc(?:line|remark|note)\{.*?\}%\n", plain_signs(tex), re.DOTALL)
    return [squeezed(line) for line in found]


def figures(text: str) -> Counter[str]:
    """Numbers, ticks and bracketed marks of a page's text, each with how often it stands there."""
    text = re.sub(r"(?m)^.*page \d+ of \d+.*$|^.*Total: \d+ marks.*$", "", text)
    return Counter(
        re.findall(r"\d+(?:,\d+)?|✓|[(\[]\d+[)\]]", text.replace("\u2009", "").replace("\u202f", ""))
    )


@pytest.mark.parametrize("engine", ENGINES)
def test_a_memo_says_what_the_same_paper_in_markdown_says(engine: str, tmp_path: Path) -> None:
    lay_out(tmp_path)
    log = built(tmp_path, engine, "memo")
    assert "Package physcalc Warning" not in log
    assert "Missing character" not in log
    there = tmp_path / "markdown.tex"
    assert main(["build", str(HERE / "paper.md"), "-o", str(there), "--edition", "memo"]) == 0
    same = workings((tmp_path / "main.physout").read_text(encoding="utf-8"))
    assert len(same) > 10
    assert same == workings(there.read_text(encoding="utf-8"))
    pdf = tmp_path / "markdown.pdf"
    assert main(["build", str(HERE / "paper.md"), "-o", str(pdf), "--edition", "memo"]) == 0
    text = text_of(tmp_path / "main.pdf")
    assert figures(text) == figures(text_of(pdf))
    assert text.count("✓") == 17  # The total of the marks.
    assert "is pulled up" not in text  # The memo has no text of questions.


@pytest.mark.parametrize("engine", ENGINES)
def test_a_paper_gives_no_answer_away(engine: str, tmp_path: Path) -> None:
    lay_out(tmp_path)
    built(tmp_path, engine, "paper")
    text = squeezed(text_of(tmp_path / "main.pdf"))
    between = (tmp_path / "main.physout").read_text(encoding="utf-8")
    for answer in ANSWERS:
        assert squeezed(answer) not in text, answer
        assert answer not in between, answer
    for said in (
        "640kg",
        "movesat1,2m",
        "delivers1,8kW",
        "0,75",
        "Answerallthequestions.",
        "(4)",
        "[9]",
        "[8]",
        "Total:17",
        "0,77",
        "240kg",
        "12",
    ):
        assert said in text, said


def test_a_guide_says_text_reasons_and_workings(tmp_path: Path) -> None:
    lay_out(tmp_path)
    log = built(tmp_path, "xelatex", "guide")
    assert "Missing character" not in log
    text = " ".join(text_of(tmp_path / "main.pdf").split())
    for said in (
        "A goods lift of mass",
        "up is positive, for 100 % of #1 {_^~ \\TeX $.",
        "accelerates in the direction",
        "Only the component of the weight",
        "Slips to avoid",
        "8,10",
    ):
        assert said in text, said
    assert "✓" not in text
    assert "Answer all the questions" not in text


def test_every_edition_of_lualatex_where_it_runs(tmp_path: Path) -> None:
    engine = shutil.which("lualatex")
    if engine is None:
        pytest.skip("lualatex is not installed")
    (tmp_path / "empty.tex").write_text("\\documentclass{article}\\begin{document}x\\end{document}\n")
    command = [engine, "-interaction=nonstopmode", "empty"]
    if subprocess.run(command, cwd=tmp_path, capture_output=True, timeout=240, check=False).returncode:
        pytest.skip("lualatex cannot set an empty document here")
    lay_out(tmp_path)
    for edition, said in (("memo", "8,10"), ("paper", "640"), ("guide", "Working")):
        built(tmp_path, "lualatex", edition)
        assert said in text_of(tmp_path / "main.pdf")
    built(tmp_path, "lualatex", "memo", "sections")
    assert "SectionB:longquestions:4marks" in squeezed(text_of(tmp_path / "sections.pdf"))


def test_the_first_run_shows_what_is_to_come_and_says_what_to_do(tmp_path: Path) -> None:
    lay_out(tmp_path)
    log = run_tex(tmp_path, "pdflatex", "memo")
    assert "There is no file main.physout yet: run `physcalc latex main'" in log
    assert "calculation:runphyscalclatex" in squeezed(text_of(tmp_path / "main.pdf"))
    run_tex(tmp_path, "pdflatex", "paper")
    text = text_of(tmp_path / "main.pdf")
    assert "value?" in text
    assert "(4)" in text


def test_a_run_changes_nothing_that_it_need_not(tmp_path: Path) -> None:
    lay_out(tmp_path)
    built(tmp_path, "pdflatex", "memo")
    before = [(tmp_path / name).read_bytes() for name in ("main.physin", "main.physout")]
    run_tex(tmp_path, "pdflatex", "memo")
    assert main(["latex", str(tmp_path / "main")]) == 0
    assert [(tmp_path / name).read_bytes() for name in ("main.physin", "main.physout")] == before


def test_what_is_out_of_date_is_told_and_stands_in_no_wrong_place(tmp_path: Path) -> None:
    lay_out(tmp_path)
    built(tmp_path, "pdflatex", "paper")
    document = tmp_path / "main.tex"
    # One value more puts every number of an entry off by one.
    changed = document.read_text(encoding="utf-8").replace("A goods lift", "At \\physvalue{a} a goods lift")
    document.write_text(changed, encoding="utf-8")
    log = run_tex(tmp_path, "pdflatex", "paper")
    assert "main.physout is older than the text: run `physcalc latex main'" in log
    text = text_of(tmp_path / "main.pdf")
    assert "At value? a goods" in " ".join(text.split())
    assert "640" not in text
    log = built(tmp_path, "pdflatex", "paper")
    assert "Package physcalc Warning" not in log
    assert "is for the edition paper" in run_tex(tmp_path, "pdflatex", "memo")
    assert "older than the text" not in built(tmp_path, "pdflatex", "memo")


def test_wrong_values_are_found_in_their_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    lay_out(tmp_path)
    for name, right, wrong in (
        ("main.tex", "[0,75", "[0,85"),
        ("main.tex", "answer: 8.10", "answer: 8.20"),
        ("main.tex", "$1{,}2", "$1{,}3"),
        ("chapters/two.tex", "[1,8 kW]", "[1,9 kW]"),
    ):
        path = tmp_path / name
        path.write_text(path.read_text(encoding="utf-8").replace(right, wrong), encoding="utf-8")
    run_tex(tmp_path, "pdflatex", "paper")
    capsys.readouterr()
    assert main(["latex", str(tmp_path / "main.tex")]) == 1
    said = capsys.readouterr().out
    for place in (
        "main.tex:15:15: datum-disagrees",
        "main.tex:41:45: datum-disagrees",
        "main.tex:49:11: answer-disagrees",
        "chapters/two.tex:12:29: datum-disagrees",
    ):
        assert f"{tmp_path}/{place}" in said, said
    log = run_tex(tmp_path, "pdflatex", "paper")
    assert "physcalc found problems (4)" in log
    text = squeezed(text_of(tmp_path / "main.pdf"))
    assert "main.tex:15:datum-disagrees" in text
    for answer in ANSWERS:
        assert squeezed(answer) not in text, answer
    run_tex(tmp_path, "pdflatex", "memo")
    assert main(["latex", str(tmp_path / "main")]) == 1
    run_tex(tmp_path, "pdflatex", "memo")
    assert "8,20kW" in squeezed(text_of(tmp_path / "main.pdf"))


def test_latexmk_runs_the_command_by_the_rule(tmp_path: Path) -> None:
    latexmk = program("latexmk")
    lay_out(tmp_path)
    option = "-usepretex=\\PassOptionsToPackage{edition=memo}{physcalc}"
    command = [latexmk, "-pdf", "-interaction=nonstopmode", option, "main"]

    def run() -> int:
        return subprocess.run(
            command, cwd=tmp_path, env=environment(tmp_path), capture_output=True, timeout=500, check=False
        ).returncode

    assert run() == 0
    assert text_of(tmp_path / "main.pdf").count("✓") == 17
    # Every change is one of the size, too: latexmk looks at times in seconds.
    given = tmp_path / "chapters" / "two.tex"
    given.write_text(given.read_text(encoding="utf-8").replace("m: 180 kg", "m: 1900 kg"), encoding="utf-8")
    assert run() == 0
    # 1900 × 9,8 × cos 12° = 18 213,11: with Python's floating point.
    assert "18213,11" in squeezed(text_of(tmp_path / "main.pdf"))
    given.write_text(given.read_text(encoding="utf-8").replace("[1,8 kW]", "[1,90 kW]"), encoding="utf-8")
    assert run() != 0


def test_what_latex_sets_twice_counts_once(tmp_path: Path) -> None:
    lay_out(tmp_path)
    (tmp_path / "odd.tex").write_text(
        r"""\documentclass{article}
\usepackage[T1]{fontenc}
\usepackage{amsmath,tabularx}
\usepackage{hyperref}
\usepackage{physcalc}
\newcommand{\mass}{\physvalue{m}}
\begin{document}
\tableofcontents
\begin{physgiven}
m: 640 kg
# 	a tab, and & % { \ ~
F: 96 N
\end{physgiven}
\section{A crate of \physvalue{m}}
\begin{align} F &= \physvalue{F} \\ m &= \physvalue{m} \end{align}
\begin{tabularx}{\linewidth}{XX} \mass & \physvalue{F} \end{tabularx}
\begin{figure} X \caption{Crate, \physvalue{F}} \end{figure}
\begin{physquestion}[marks=1]
Text \ref{here}.\label{here}\footnote{Of \physvalue[640 kg]{m}
in a note.}
\begin{itemize}
\item An item \begin{physcalculation}
find: a in m/s^2 to 2 dp
formula: F = m a
marks: 1
\end{physcalculation}
\end{itemize}
\end{physquestion}
\begin{physonly}[in=memo]
\begin{figure} Hidden \end{figure} \section{Hidden too}
\end{physonly}
\end{document}
""",
        encoding="utf-8",
    )
    for edition in ("paper", "memo"):
        built(tmp_path, "pdflatex", edition, "odd")
        log = run_tex(tmp_path, "pdflatex", edition, "odd")
        assert "Package physcalc Warning" not in log
        text = squeezed(text_of(tmp_path / "odd.pdf"))
        assert text.count("Acrateof640kg") == 2  # In the table of contents, and above the text.
        assert ("a=0.15" in text) == (edition == "memo")
        assert ("Hiddentoo" in text) == (edition == "memo")


def test_chapters_that_are_left_out_are_told_and_keep_their_numbers(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lay_out(tmp_path)
    built(tmp_path, "pdflatex", "memo")
    document = tmp_path / "main.tex"
    text = document.read_text(encoding="utf-8")
    third = (tmp_path / "chapters" / "two.tex").read_text(encoding="utf-8").replace("id=slip", "id=third")
    (tmp_path / "chapters" / "three.tex").write_text(
        third.replace("\\input{chapters/reason}", "").replace("marks=8", "marks=5"), encoding="utf-8"
    )
    text = text.replace("\\include{chapters/two}", "\\include{chapters/two}\\include{chapters/three}")
    document.write_text(text.replace("total=17", "total=22"), encoding="utf-8")
    built(tmp_path, "pdflatex", "memo")
    document.write_text(
        document.read_text(encoding="utf-8").replace(
            "\\begin{document}", "\\includeonly{chapters/three}\n\\begin{document}"
        ),
        encoding="utf-8",
    )
    capsys.readouterr()
    built(tmp_path, "pdflatex", "memo")
    assert "chapters-left-out (note)" in capsys.readouterr().out
    assert "Question 3" in text_of(tmp_path / "main.pdf")


@pytest.mark.skipif(not EXAMPLE.exists(), reason="there is no example in TeX")
@pytest.mark.parametrize("engine", ENGINES)
def test_the_example_says_what_its_twin_in_markdown_says(engine: str, tmp_path: Path) -> None:
    shutil.copy(EXAMPLE, tmp_path)
    lay_out(tmp_path)
    built(tmp_path, engine, "memo", "mechanics_test")
    there = tmp_path / "markdown.tex"
    assert main(["build", str(EXAMPLE.with_suffix(".md")), "-o", str(there), "--edition", "memo"]) == 0
    made = (tmp_path / "mechanics_test.physout").read_text(encoding="utf-8")
    assert workings(made) == workings(there.read_text(encoding="utf-8"))
    text = text_of(tmp_path / "mechanics_test.pdf")
    assert made.count("\\pctick{}") + 3 == there.read_text(encoding="utf-8").count("\\pctick{}")
    assert text.count("✓") >= 50


FIGURE = r"""\documentclass{article}
\usepackage{physcalc}
\begin{document}
\begin{physquestion}[marks=2]
Draw the forces.
\begin{physdraw}
forces:
  F_g: 49 N, down
  N: 49 N, up
key:
  F_g: weight & half of it (50%)
  N: normal_force
balance: yes
marks: 2
\end{physdraw}
\end{physquestion}
\end{document}
"""


@pytest.mark.parametrize("engine", ENGINES)
def test_a_figure_is_drawn_in_the_memo_and_left_to_draw_in_the_paper(engine: str, tmp_path: Path) -> None:
    lay_out(tmp_path)
    (tmp_path / "figure.tex").write_text(FIGURE, encoding="utf-8")
    built(tmp_path, engine, "memo", "figure")
    assert "tikzpicture" in (tmp_path / "figure.physout").read_text(encoding="utf-8")
    memo = text_of(tmp_path / "figure.pdf")
    assert "weight & half of it (50%)" in memo
    assert "normal" in memo
    assert "force" in memo
    built(tmp_path, engine, "paper", "figure")
    assert "weight" not in text_of(tmp_path / "figure.pdf")
    assert "tikzpicture" not in (tmp_path / "figure.physout").read_text(encoding="utf-8")


@pytest.mark.parametrize("engine", ENGINES)
def test_sections_titles_the_grid_and_parts_of_values_say_what_they_say_without_tex(
    engine: str, tmp_path: Path
) -> None:
    lay_out(tmp_path)
    for edition in ("paper", "memo"):
        log = built(tmp_path, engine, edition, "sections")
        assert "Package physcalc Warning" not in log
        text = text_of(tmp_path / "sections.pdf")
        pdf = tmp_path / "alone.pdf"
        assert main(["build", str(tmp_path / "sections.tex"), "-o", str(pdf), "--edition", edition]) == 0
        alone = text_of(pdf)
        words = squeezed(text)
        assert "part=" not in words
        said = [
            "SectionA:2marks",
            "SectionB:longquestions:4marks",
            "Question2:Acrate,full,of25kg",
            "Itsweight",
        ]
        said += (
            ["Level1", "forces", "60%", "40%"]
            if edition == "memo"
            else ["25kilograms", "0,025intonnes", "inN."]
        )
        for one in said:
            assert one in words, one
            assert one in squeezed(alone), one
        assert ("Level1" in words) == (edition == "memo")
        assert figures(text) == figures(alone)


def test_a_wrong_sum_of_a_section_or_part_of_a_value_is_told_at_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    lay_out(tmp_path)
    path = tmp_path / "sections.tex"
    text = path.read_text(encoding="utf-8")
    for right, wrong in (
        ("marks=4]{Section", "marks=5]{Section"),
        ("[25, part", "[26, part"),
        ("in=kN", "in=kW"),
        ("{1=20,", "{3=20,"),
        ("physsection[marks=2", "physsection[mark=2"),
    ):
        assert text.count(right) == 1
        text = text.replace(right, wrong)
    path.write_text(text, encoding="utf-8")
    run_tex(tmp_path, "pdflatex", "memo", "sections")
    capsys.readouterr()
    assert main(["latex", str(tmp_path / "sections")]) == 1
    there = capsys.readouterr().out
    assert main(["check", str(path)]) == 1
    # Both readers tell the same.
    places = [
        [" ".join(line.split()[:2]) for line in said.splitlines() if line.startswith(str(tmp_path))]
        for said in (there, capsys.readouterr().out)
    ]
    assert places[0] == places[1]
    lines = [place.removeprefix(str(path) + ":") for place in places[0]]
    assert [line.split(":")[0] + line.split(":")[2] for line in lines] == [
        "8 grid-off-target", "8 grid-off-target", "8 grid-target-unused", "12 attribute-unknown", "24 section-unequal",
        "26 datum-disagrees", "39 unit-dimension-wrong",
    ]  # fmt: skip
