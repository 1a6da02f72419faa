"""The file that TeX writes, without TeX: read strictly, with places, from a document that may be anybody's."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from physcalc_filter.document import EDITIONS
from physcalc_filter.latex import RULE, install, process
from physcalc_filter.latex.entries import read_run
from physcalc_filter.latex.install import package_text
from physcalc_filter.latex.places import pairs_of
from physcalc_filter.latex.problems import EntriesDamaged, EntriesMissing, EntriesOld, EntriesUnfinished
from physcalc_filter.settings import LOCAL_NAMES, SETTING_NAMES
from physcalc_filter.sources import Source

DOCUMENT = r"""\documentclass{article}
\usepackage{physcalc}
\begin{document}
% \physvalue{m}
\newcommand{\mass}{\physvalue{m}}
\begin{physquestion}[marks=2,
  axis={up is positive, down is negative}]
A crate of \mass{} and \physvalue[2 kg]{m} and
\physvalue[
  3 kg]{m}.
  \begin{physgiven}
  m: 2 kg
  F: 6 N
  \end{physgiven}
\begin{physcalculation} formula: F = m a
find: a in m/s^2 to 2 dp
answer: 4.00 m/s^2
\end{physcalculation}
\end{physquestion}
\end{document}
"""
RUN = """\
P 1 signs main
F \n\
E 1 question 7
O marks=2, axis={up is positive, down is negative}
Q 1
E 2 value 8
N m
E 3 value 8
N m
T 2 kg
E 4 value 10
N m
T 3 kg
E 5 given 11
B 12   m: 2 kg
B 13   F: 6 N
B 14   \n\
E 6 calculation 15
B 15  formula: F = m a
B 16 find: a in m/s^2 to 2 dp
B 17 answer: 4.00 m/s^2
X 1
Z 6 memo
"""


@pytest.fixture
def paper(tmp_path: Path) -> Callable[..., Path]:
    def make(run: str = RUN, document: str = DOCUMENT) -> Path:
        (tmp_path / "main.tex").write_text(document, encoding="utf-8")
        (tmp_path / "main.physin").write_text(run, encoding="utf-8")
        return tmp_path / "main"

    return make


def test_places_are_those_of_the_document(paper: Callable[..., Path]) -> None:
    done = process(paper(), None)
    places = [(one.slug, one.span.line, one.span.column, one.span.length) for one in done.report.problems]
    # The lines and columns are counted by hand in the document above.
    assert places == [("datum-disagrees", 10, 3, 4), ("answer-disagrees", 17, 9, 10)]
    assert done.text.startswith("% Made by physcalc.")


def test_options_may_hold_commas_in_braces(paper: Callable[..., Path]) -> None:
    paper()
    run = read_run(Source("main.physin", RUN))
    question = next(run.entries())
    from physcalc_filter.latex.places import Files

    files = Files(paper().parent, "main.tex")
    pairs = [
        (key.value, value.value, value.span.line) for key, value in pairs_of(files.place(question).options)
    ]
    assert pairs == [("marks", "2", 6), ("axis", "up is positive, down is negative", 7)]


def test_the_sums_are_those_of_adler() -> None:
    # The two sums of "Wikipedia" are 11E6 and 0398: the worked example of the encyclopedia's article on
    # Adler-32, whose sum is 11E60398.
    from physcalc_filter.latex.entries import _Reader

    reader = _Reader(Source("x", "P"))
    low, high = reader.summed(["Wikipedia"])
    # A line's end is summed, too: one more step, by hand.
    assert (low, high) == (0x0398 + 10, 0x11E6 + 0x0398 + 10)


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("P 1 signs main", "P 2 signs main"),
        ("P 1 signs main", "hello"),
        ("E 2 value 8", "E 2 wealth 8"),
        ("E 2 value 8", "E two value 8"),
        ("B 13   F: 6 N", "B x F: 6 N"),
        ("X 1", "X 4"),
        ("X 1\n", ""),
        ("Z 6 memo", "Z 6 comic"),
        ("Z 6 memo", "Z 6 memo\nE 7 value 8"),
        ("E 6 calculation 15", "E 5 calculation 15"),
        ("O marks=2", "O marks=2\nO marks=3"),
        ("Q 1\n", "B 3 x: 3\n"),
        ("Q 1\n", "? 3\n"),
    ],
)
def test_what_is_damaged_is_told_with_its_line(line: str, instead: str) -> None:
    assert line in RUN
    with pytest.raises(EntriesDamaged):
        read_run(Source("main.physin", RUN.replace(line, instead, 1)))


def test_a_run_that_broke_off_is_told() -> None:
    with pytest.raises(EntriesUnfinished):
        read_run(Source("main.physin", RUN.replace("Z 6 memo\n", "")))


def test_random_damage_ends_in_a_problem_or_a_run(paper: Callable[..., Path]) -> None:
    chance = random.Random(11)
    for _ in range(60):
        text = list(RUN)
        for _ in range(chance.randint(1, 4)):
            at = chance.randrange(len(text))
            text[at] = chance.choice("\n\t {}\\%#^XEZB1é\x07")
        code = main(["latex", str(paper("".join(text)))])
        assert code in (0, 1, 2)


def test_a_document_that_was_changed_since_is_told(paper: Callable[..., Path]) -> None:
    base = paper(document=DOCUMENT.replace("F: 6 N", "F: 7 N"))
    with pytest.raises(EntriesOld) as found:
        process(base, None)
    assert found.value.span.line == 13


def test_without_a_run_of_tex_there_is_nothing(tmp_path: Path) -> None:
    (tmp_path / "main.tex").write_text(DOCUMENT, encoding="utf-8")
    with pytest.raises(EntriesMissing) as found:
        process(tmp_path / "main.tex", None)
    assert "run pdflatex" in found.value.mend()


def test_no_file_outside_of_the_folder_is_read(
    paper: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    base = paper(RUN.replace("F \n", "F ../secret.tex\n"))
    secret = base.parent.parent / "secret.tex"
    secret.write_text(
        DOCUMENT.replace("answer:", "answer: hidden").replace("formula:", "x"), encoding="utf-8"
    )
    try:
        assert main(["latex", str(base)]) == 1
        said = capsys.readouterr()
        assert "hidden" not in said.out + said.err
        assert "secret.tex:17" in said.out
        (base.parent / "link.tex").symlink_to(secret)
        assert main(["latex", str(paper(RUN.replace("F \n", "F link.tex\n")))]) == 1
        assert "hidden" not in capsys.readouterr().out
    finally:
        secret.unlink()


@pytest.mark.parametrize("edition", EDITIONS)
def test_texts_of_a_document_are_no_commands_of_tex(paper: Callable[..., Path], edition: str) -> None:
    evil = r"\input{/etc/passwd} \write18{x} %} }{ ^^5c #1 $\immediate$ ~&_"
    lines = (
        f"why: {evil}",
        f"slips:\n  {evil.replace(':', '').replace('#', '')}: F = m a a",
    )
    body = "\n".join(lines).split("\n")
    run = RUN.replace("4.00 m", "3.00 m").replace("T 3 kg", "T 2 kg").replace("Z 6 memo", f"Z 6 {edition}")
    added = "".join(f"B {18 + at} {line}\n" for at, line in enumerate(body))
    run = run.replace("X 1\n", added + "X 1\n")
    document = DOCUMENT.replace("4.00 m", "3.00 m").replace("3 kg]", "2 kg]")
    document = document.replace("\\end{physcalc", "\n".join(body) + "\n\\end{physcalc")
    done = process(paper(run, document), None)
    assert [one.slug for one in done.report.problems if one.level != "note"] == []
    for command in ("\\input", "\\write", "\\immediate", "^^5c"):
        assert command not in done.text
    # Braces are balanced: none of the document's own got in.
    assert done.text.replace("\\{", "").count("{") == done.text.replace("\\}", "").count("}")


def test_nobody_elses_file_is_written_over(
    paper: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    base = paper()
    mine = base.with_name("main.physout")
    mine.write_text("Mine.\n", encoding="utf-8")
    assert main(["latex", str(base)]) == 2
    assert "file-exists" in capsys.readouterr().err
    assert mine.read_text(encoding="utf-8") == "Mine.\n"


def test_the_package_is_brought_up_to_date_and_no_other_is(tmp_path: Path) -> None:
    assert [one.done for one in install(tmp_path)] == ["written", "written"]
    assert [one.done for one in install(tmp_path)] == ["there already", "there already"]
    package = tmp_path / "physcalc.sty"
    package.write_text(package_text().replace("v1 ", "v0 "), encoding="utf-8")
    assert install(tmp_path)[0].done == "brought up to date"
    assert package.read_text(encoding="utf-8") == package_text()
    package.write_text("% another\n", encoding="utf-8")
    assert install(tmp_path)[0].done == "foreign"
    package.unlink()
    package.symlink_to(tmp_path / "nowhere.sty")
    assert install(tmp_path)[0].done == "foreign"
    assert not (tmp_path / "nowhere.sty").exists()


def test_a_rule_of_the_authors_is_left_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own = tmp_path / ".latexmkrc"
    own.write_text("$pdf_mode = 5;\n", encoding="utf-8")
    assert main(["latex", "--install", str(tmp_path)]) == 0
    assert capsys.readouterr().out == RULE
    assert own.read_text(encoding="utf-8") == "$pdf_mode = 5;\n"
    own.write_text("$pdf_mode = 5;\n" + RULE, encoding="utf-8")
    assert main(["latex", "--install", str(tmp_path)]) == 0
    assert capsys.readouterr().out == ""


def test_the_package_knows_every_setting() -> None:
    text = package_text()
    local = text.split("\\def\\physcalc@local{")[1].split("}")[0].replace("%\n", "").replace(" ", "")
    whole = text.split("\\edef\\physcalc@keys@physsetup{")[1].split("\\physcalc@local")[0]
    assert set(local.split(",")) == set(LOCAL_NAMES) - {"numbers"}
    assert {*local.split(","), *whole.strip(",").split(",")} == set(SETTING_NAMES) - {"numbers"}


def test_the_package_has_the_parts_of_the_layout() -> None:
    text = package_text()
    assert "%%PARTS%%" not in text
    assert "\\NewDocumentEnvironment{pcworking}" in text
    assert "shell" not in text
    assert "write18" not in text
