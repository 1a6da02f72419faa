"""LaTeX documents checked: every problem at its line and column, whatever pandoc makes of what stands around it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.problems import FileMissing
from physcalc_filter.sources import Source, read_source

from .conftest import HEAD, TAIL, Told
from .test_scan import SOUP

Check = Callable[..., Told]

GIVEN = "\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"


def question(text: str) -> str:
    return "\\begin{physquestion}\n" + GIVEN + text + "\n\\end{physquestion}"


def test_a_paper_that_agrees_has_no_problem(told: Check) -> None:
    body = question(
        "A lift of mass \\physvalue{m}, or \\physvalue[2,0~kg]{m}, or \\physvalue[$2{,}0\\,\\mathrm{kg}$]{m}.\n"
        "\\begin{physcalculation}[id=weight]\nformula: F = m g\nfind: F in N to 2 dp\nanswer: 19.60 N\n"
        "\\end{physcalculation}"
    )
    assert told(body) == []


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ("", ""),
        ("\\emph{of \\textbf{", "}}"),
        ("``", "''"),
        ("$m = ", "$"),
        ("$", "$, so"),
        ("\\footnote{of ", "}"),
        ("\\begin{itemize}\\item ", "\\end{itemize}"),
        ("\\begin{enumerate}\n\\item[(a)] ", "\n\\item more\\end{enumerate}"),
        ("\\begin{tabular}{ll} a & ", " \\\\ c & d \\end{tabular}"),
        ("\\begin{quote}", "\\end{quote}"),
        ("\\begin{figure}\\centering x\\caption{of ", "}\\end{figure}"),
        ("\\section*{Mass ", "}"),
        ("\\begin{center}\\large ", "\\end{center}"),
        ("{\\bf ", "}"),
        ("\\begin{minipage}{5cm}", "\\end{minipage}"),
        ("word\\quad", "word"),
        ("(", ")."),
    ],
)
def test_a_typed_value_has_its_place_wherever_it_stands(told: Check, before: str, after: str) -> None:
    line = f"{before}\\physvalue[3 kg]{{m}}{after}"
    (found,) = told(question(line))
    lead = line.split("\\physvalue")[0]
    assert found == (
        "main.tex",
        "datum-disagrees",
        5 + lead.count("\n"),
        len(lead) - lead.rfind("\n") - 1 + len("\\physvalue[") + 1,
    )


def test_a_block_has_its_places_wherever_it_stands(told: Check) -> None:
    block = (
        "\\begin{physcalculation}\n  formula: F = m a\n  find: a in m/s^2\n  answer: 9 m/s^2\n"
        "\\end{physcalculation}\n"
    )
    data = "\\begin{physgiven}\n  m: 2 kg\n  F: 6 N\n\\end{physgiven}\n"
    for before, after in (
        ("text right before ", "and behind"),
        ("\\begin{itemize}\n\\item x\n", "\\end{itemize}\n"),
        ("\\footnote{x\n", "}\n"),
        ("\\begin{tabular}{l}\n", "\\\\ \\end{tabular}"),
        ("\\begin{quote}\n", "\\end{quote}\n"),
    ):
        found = told(f"\\begin{{physquestion}}\n{data}{before}{block}{after}\n\\end{{physquestion}}")
        assert found == [("main.tex", "answer-disagrees", 9 + before.count("\n"), 11)], before


def test_attributes_and_settings_have_places(told: Check) -> None:
    body = (
        "\\begin{physquestion}[marks=two, levle=1]\nText.\n\\end{physquestion}\n"
        "\\physsetup{sheeet=school}\n\\begin{physgiven}[nmae=x]\nm: 2 kg\n\\end{physgiven}\n"
        "\\physdefine{Newtons law}\n\\begin{physonly}[in=memmo]\nx\n\\end{physonly}\n"
    )
    assert {(slug, line, column) for _, slug, line, column in told(body)} == {
        ("attribute-unreadable", 1, 28),
        ("attribute-unknown", 1, 33),
        ("setting-unknown", 4, 12),
        ("attribute-unknown", 5, 19),
        ("definition-unknown", 8, 13),
        ("attribute-unreadable", 9, 21),
    }


def test_body_lines_are_verbatim(told: Check) -> None:
    body = (
        "\\begin{physgiven}\n# 100 % & _ ^ $ { \\ } \\end{verbatim}\nm_1: 2 kg\nb: 3 kgg\n\\end{physgiven}\n"
    )
    assert told(body) == [("main.tex", "unit-unknown", 4, 6)]


def test_all_faults_are_told_at_once_and_other_blocks_are_worked_out(told: Check) -> None:
    body = (
        question("\\physvalu{m} \\physvalue{m and\n\n\\includegraphics{no}\n\\input{no}\n\\end{physanswer}")
        + "\n"
        + question("\\physvalue[3 kg]{m}")
    )
    assert [(slug, line, column) for _, slug, line, column in told(body)] == [
        ("tex-name-unknown", 5, 1),
        ("tex-argument-open", 5, 14),
        ("tex-picture-missing", 7, 18),
        ("tex-input-unreadable", 8, 8),
        ("tex-environment-unopened", 9, 1),
        ("datum-disagrees", 15, 12),
    ]


def test_ticked_phrases_may_hold_values_and_are_counted(told: Check) -> None:
    answer = "\\begin{physanswer}[marks=2]\nIt has \\physmark{a mass of \\physvalue[3 kg]{m}} and \\physmark{moves}.\n"
    body = question(answer + "\\end{physanswer}")
    assert told(body) == [("main.tex", "datum-disagrees", 6, 39)]
    found = told(question(answer.replace("marks=2", "marks=3").replace("3 kg", "2 kg") + "\\end{physanswer}"))
    assert [(slug, line) for _, slug, line, _ in found] == [("ticks-unequal", 5)]


# What pandoc does not read.


def test_a_value_in_displayed_mathematics_or_in_the_title_is_misplaced(told: Check) -> None:
    assert told(question("\\[ m = \\physvalue[2 kg]{m} \\]")) == [("main.tex", "value-misplaced", 5, 19)]
    assert told(question("$\\frac{\\physvalue{m}}{2}$")) == [("main.tex", "value-misplaced", 5, 19)]
    assert told("\\title{Of \\physvalue{m}}\n" + GIVEN) == [("main.tex", "value-misplaced", 1, 22)]


def test_what_an_unknown_command_holds_is_lost_and_said_to_be(told: Check) -> None:
    assert told(question("\\unheardof{of \\physvalue{m}}")) == [("main.tex", "tex-place-lost", 5, 26)]
    assert told(question("\\unheardof{Some words.} \\vspace{3mm}")) == [
        ("main.tex", "tex-text-left-out", 5, 1)
    ]
    drawing = "\\begin{tikzpicture}\\draw (0,0) node {Some words};\\end{tikzpicture}"
    assert told(question(f"x {drawing}")) == [("main.tex", "tex-text-left-out", 5, 3)]


def test_a_macro_is_followed_and_may_be_used_twice_or_never(told: Check) -> None:
    macros = "\\newcommand{\\of}{of mass \\physvalue{m}}\\newcommand{\\never}{\\physvalue{q}}\n"
    assert told(macros + question("\\of{} and \\of.")) == []
    # Pandoc's tree has the value twice; the mistake is told once, where it is typed.
    wrong = "\\newcommand{\\of}{of mass \\physvalue[3 kg]{m}}\n"
    assert told(wrong + question("\\of{} and \\of.")) == [("main.tex", "datum-disagrees", 1, 37)]


def test_an_open_dollar_sign_or_brace_is_told_at_its_place(told: Check) -> None:
    assert told(question("costs 5 $ and\n\nmore")) == [("main.tex", "document-unreadable", 5, 9)]
    assert told("a\n\nb { c\n\nd") == [("main.tex", "document-unreadable", 3, 3)]
    assert told("a\n\\begin{itemize}\n\\item b\n") == [("main.tex", "document-unreadable", 2, 1)]
    assert told("a\n\\textbf{\\begin{itemize}\\item b\\end{itemize}}") == [
        ("main.tex", "document-unreadable", 2, 9)
    ]


def test_an_environment_of_another_author_is_none_of_ours(told: Check, tmp_path: Path) -> None:
    body = "\\begin{question}[marks=x]\nText.\n\\end{question}\n\\begin{answers}a\\end{answers}\n"
    body += "\\begin{lstlisting}[language=calc]\nfind: x\n\\end{lstlisting}\n\\begin{only}b\\end{only}"
    assert told(body) == []
    document, _ = pipeline.build(read_source(tmp_path / "main.tex"), "paper", "html")
    assert document is not None


# Files that are read.


PART = (
    "\\begin{physquestion}\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"
    "Text \\physvalue[3 kg]{m}.\n\\end{physquestion}\n"
)


@pytest.mark.parametrize(
    "command", ["\\input{parts/one}", "\\include{parts/one}", "\\input{parts/one.tex}", "\\input parts/one "]
)
def test_a_problem_in_a_file_that_is_read_names_that_file(told: Check, command: str) -> None:
    body = f"Text.\n{command}\n" + question("And \\physvalue[4 kg]{m}.")
    assert told(body, parts__one_tex=PART) == [
        ("main.tex", "datum-disagrees", 7, 16),
        ("parts/one.tex", "datum-disagrees", 5, 17),
    ]


def test_an_environment_may_begin_in_one_file_and_end_in_another(told: Check) -> None:
    files = {
        "a_tex": "\\begin{physquestion}\n" + GIVEN,
        "b_tex": "\\physvalue[3 kg]{m}\n\\end{physquestion}\n",
    }
    assert told("\\input{a}\n\\input{b}", **files) == [("b.tex", "datum-disagrees", 1, 12)]


def test_nothing_is_read_from_a_comment_a_body_or_verbatim(told: Check) -> None:
    body = (
        "% \\input{no}\n\\begin{verbatim}\n\\input{no}\n\\end{verbatim}\n"
        "\\begin{physgiven}\n# \\input{no}\nm: 2 kg\n\\end{physgiven}"
    )
    assert told(body) == []


def test_nothing_outside_the_folder_is_read(told: Check, tmp_path: Path) -> None:
    outside = tmp_path.parent / "outside.tex"
    outside.write_text(PART, encoding="utf-8")
    (tmp_path / "link.tex").symlink_to(outside)
    body = f"\\input{{../outside}}\n\\input{{link}}\n\\input{{{outside}}}\n\\input{{/etc/passwd}}\n\\input{{~/x}}"
    assert [(slug, line) for _, slug, line, _ in told(body)] == [
        ("tex-input-unreadable", line) for line in range(1, 6)
    ]


def test_a_file_that_reads_itself_ends(told: Check) -> None:
    assert told("\\input{main}") == [("main.tex", "tex-input-unreadable", 1, 8)]
    assert told("\\input{a}", a_tex="\\input{b}", b_tex="x\n\\input{a}") == [
        ("b.tex", "tex-input-unreadable", 2, 8)
    ]


def test_many_files_and_large_ones_are_refused(told: Check, tmp_path: Path) -> None:
    found = told("\\input{a}\n" * 300, a_tex="x\n")
    assert found == [("main.tex", "tex-input-unreadable", 201, 8)]
    (tmp_path / "a.tex").write_text("x " * 900_000, encoding="utf-8")
    assert told("\\input{a} \\input{a}")[0][1:] == ("file-too-large", 1, 18)


def test_a_file_that_is_not_utf_8_is_told_at_its_byte(told: Check, tmp_path: Path) -> None:
    (tmp_path / "a.tex").write_bytes(b"\ncaf\xe9")
    found = told("\\input{a}\n" + question("\\physvalue[3 kg]{m}"))
    assert found == [("a.tex", "file-not-utf8", 2, 4), ("main.tex", "datum-disagrees", 6, 12)]


def test_a_missing_file_names_the_nearest(tmp_path: Path) -> None:
    (tmp_path / "chapters").mkdir()
    (tmp_path / "chapters" / "forces.tex").write_text("x", encoding="utf-8")
    main = tmp_path / "main.tex"
    main.write_text("\\include{chapters/fources}", encoding="utf-8")
    (problem,) = pipeline.check(read_source(main)).problems
    assert "chapters/forces" in problem.mend()


# Pictures, references, editions.


def test_a_picture_is_found_with_its_ending_and_in_the_folders_that_are_named(
    told: Check, tmp_path: Path
) -> None:
    (tmp_path / "img").mkdir()
    for name in ("lift.png", "img/crane.pdf"):
        (tmp_path / name).write_bytes(b"x")
    body = (
        "\\graphicspath{{img/}}\n"
        "\\includegraphics[width=3cm]{lift} \\includegraphics{crane} \\includegraphics{no/lift}"
    )
    assert told(body) == [("main.tex", "tex-picture-missing", 2, 76)]
    document, _ = pipeline.build(
        read_source(tmp_path / "main.tex"), "paper", "html", draft=True, pictures=[tmp_path]
    )
    assert document is not None
    shown = [element.url for element in _all(document) if type(element).__name__ == "Image"]
    assert shown[:2] == ["lift.png", "img/crane.pdf"]


def test_a_reference_to_a_question_shows_its_number(tmp_path: Path) -> None:
    body = (
        "\\begin{physquestion}\\label{q:one}\nSee \\ref{q:two}.\n\\begin{physquestion}[title=Part]\\label{q:two}\n"
        "See \\ref{q:one}.\n\\end{physquestion}\n\\end{physquestion}\n"
    )
    document, report = pipeline.build(Source(str(tmp_path / "main.tex"), HEAD + body + TAIL), "paper", "html")
    assert document is not None
    assert not report.problems
    links = [
        (element.url, element.content[0].text)
        for element in _all(document)
        if type(element).__name__ == "Link"
    ]
    assert links == [("#q:two", "1.1"), ("#q:one", "1")]


def _all(document: object) -> list:  # type: ignore[type-arg]
    from physcalc_filter.document import in_order

    return list(in_order(document))


def test_a_title_may_hold_a_value(told: Check) -> None:
    body = GIVEN + (
        "\\begin{physquestion}[marks=1, title={A crate, full, of \\physvalue[3 kg]{m}}, id=crate]\nText.\n"
        "\\end{physquestion}\n\\begin{physquestion}[id=one, title=Of \\physvalue{n}]\nText.\n\\end{physquestion}\n"
    )
    lines = body.splitlines()
    wrong, unknown = lines[3].index("3 kg") + 1, lines[6].index("{n}") + 2
    assert told(body) == [
        ("main.tex", "datum-disagrees", 4, wrong),
        ("main.tex", "name-without-value", 7, unknown),
    ]


def test_sections_say_their_marks(told: Check) -> None:
    one = "\\begin{physquestion}[marks=2, title=One]\nText.\n\\end{physquestion}\n"
    body = f"\\physsection[marks=2]{{Section A}}\n{one}\\physsection[marks=3]{{Section $B_1$}}\n{one}"
    assert told(body) == [("main.tex", "section-unequal", 5, 20)]
    assert told("\\physsection[mark=2]{Section A}\n" + one) == [("main.tex", "attribute-unknown", 1, 14)]
    assert told("\\physsection{A\n\nText.") == [("main.tex", "tex-argument-open", 1, 1)]
    assert told("\\newcommand{\\part}[1]{\\physsection{#1}}\n\\part{A}\n" + one) == []


@pytest.mark.parametrize(
    "targets", ["forces=60\\%, energy=40", "forces=60, energy=40\\%", "forces=60\\%, energy=40\\%"]
)
def test_the_grid_has_its_place_and_its_targets(tmp_path: Path, targets: str) -> None:
    body = (
        f"\\physsetup{{grid={{topics={{{targets}}}}}}}\n"
        "\\begin{physquestion}[marks=2, topic=forces]\nText.\n"
        "\\end{physquestion}\n\\begin{physgrid}[in=paper]\nThe marks:\n\\end{physgrid}\n"
    )
    source = Source(str(tmp_path / "main.tex"), HEAD + body + TAIL)
    document, report = pipeline.build(source, "paper", "html", draft=True)
    assert document is not None
    assert [problem.slug for problem in report.problems] == ["grid-target-unused"]
    assert report.problems[0].span.column == body.index("energy") + 1
    shown = [type(one).__name__ for one in document.content]
    assert shown[shown.index("Table") - 1] == "Para"


# Whatever stands in a document.


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(text=SOUP, whole=st.booleans())
def test_no_soup_meets_a_fault(text: str, whole: bool, tmp_path: Path) -> None:
    body = HEAD + text + TAIL if whole else text
    source = Source(str(tmp_path / "soup.tex"), body)
    for strict in (False, True):
        for problem in pipeline.check(source, strict=strict).problems:
            assert problem.sentence()
            assert problem.span.line >= 1


def test_the_edition_may_be_an_option_of_the_package(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    document = tmp_path / "paper.tex"
    text = HEAD.replace("\\usepackage", "\\usepackage[edition=memo]") + question("Text.") + TAIL
    document.write_text(text, encoding="utf-8")
    assert main(["build", str(document), "-o", str(tmp_path / "out.html")]) == 0
    assert "(memo)" in capsys.readouterr().err
    assert main(["build", str(document), "-o", str(tmp_path / "out.html"), "--edition", "guide"]) == 0
    assert "(guide)" in capsys.readouterr().err


def test_a_figure_is_a_block_too(told: Check) -> None:
    body = "\\begin{physdraw}[id=free]\nforces:\n  F_g: 49 N, down\n  N: 49 N, upp\n\\end{physdraw}\n"
    assert [(slug, line, column) for _, slug, line, column in told(body)] == [("heading-unreadable", 4, 12)]
    assert told(body.replace("upp", "up")) == []


def test_a_picture_of_another_folder_goes_into_the_page(tmp_path: Path) -> None:
    (tmp_path / "pictures").mkdir()
    drawing = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><path d="M0 0h9v9z"/></svg>'
    (tmp_path / "pictures" / "lift.svg").write_text(drawing, encoding="utf-8")
    document = tmp_path / "paper.tex"
    document.write_text(HEAD + "\\includegraphics{lift}" + TAIL, encoding="utf-8")
    page = tmp_path / "out.html"
    asked = ["build", str(document), "-o", str(page)]
    assert main(asked) == 1
    assert main([*asked, "--resource-path", str(tmp_path / "pictures")]) == 0
    assert "data:image/svg+xml" in page.read_text(encoding="utf-8")


def test_a_document_that_is_not_there_names_one_that_is(tmp_path: Path) -> None:
    (tmp_path / "paper.tex").write_text("x", encoding="utf-8")
    with pytest.raises(FileMissing) as found:
        read_source(tmp_path / "papre.tex")
    assert "paper.tex" in found.value.mend()


def test_the_day_is_left_out_and_told(told: Check, tmp_path: Path) -> None:
    """Pandoc would write the first day that computers count."""
    assert told("\\date{\\today}\\maketitle\nMade on \\today.") == [
        ("main.tex", "tex-today", 1, 7), ("main.tex", "tex-today", 2, 9),
    ]  # fmt: skip
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(tmp_path / "made.md")]) == 0
    assert "1970" not in (tmp_path / "made.md").read_text(encoding="utf-8")
    own = "\\renewcommand{\\today}{3 March 2031}\nMade on \\today."
    assert told(own) == []
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(tmp_path / "made.md")]) == 0
    assert "Made on 3 March 2031." in (tmp_path / "made.md").read_text(encoding="utf-8")
