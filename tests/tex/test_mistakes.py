"""What authors of LaTeX get wrong, in the example paper: told once, in its place, with how to mend it."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.sources import Source

EXAMPLE = Path(__file__).parents[2] / "example_docs" / "mechanics_test.tex"

#: What is typed, what is typed in its place, the problem, the text that it points at, and a part of the mend.
MISTAKES = [
    ("[14 kg]{m_1} stands", "[14 kg]{m_1 stands", "tex-argument-open", "\\physvalue[14 kg]{", "\\physvalue{m}"),
    ("[6 kg]{m_2}", "[6 kg{m_2}", "tex-argument-open", "\\physvalue[", "\\physvalue[640 kg]{m}"),
    ("\\physvalue[14 kg]{m_1}", "\\physvalue{14 kg}{m_1}", "tex-argument-open", "\\physvalue{14 kg}", "[14 kg]{m_1}"),
    ("\\physvalue[520 km]{h}", "\\physvalue h", "tex-argument-open", "\\physvalue", "\\physvalue{m}"),
    (
        "\\begin{physquestion}[marks=8, id=slipway, topic=forces]",
        "\\begin{physquestion}{marks=8, id=slipway, topic=forces}",
        "tex-argument-open", "\\begin{physquestion}{", "[marks=8, id=slipway, topic=forces]",
    ),
    ("used}\n\n\\title", "used\n\n\\title", "tex-argument-open", "\\physsetup{", "\\physsetup{"),
    (
        "\\begin{physcalculation}\nuse: power\n", "\\begin{physcalc}\nuse: power\n",
        "tex-name-unknown", "\\begin{physcalc}", '"physcalculation"',
    ),
    (
        "\\begin{physgiven}\nm: 350", "\\begin{Physgiven}\nm: 350",
        "tex-name-unknown", "\\begin{Physgiven}", '"physgiven"',
    ),
    ("Δt: 14 s\n\\end{physgiven}", "Δt: 14 s\n\\end{physgivn}", "tex-name-unknown", "\\end{physgivn}", '"physgiven"'),
    ("m: 350 kg\n", "m: $350\\,\\mathrm{kg}$\n", "formula-unreadable", "$", "14 kg"),
    ("m: 350 kg\n", "m: \\SI{350}{kg}\n", "formula-unreadable", "\\", "plainly"),
    ("m: 350 kg\n", "m: 350 kg % the nets\n", "tex-comment-in-body", "% the nets", "#"),
    ("m: 350 kg\n", "% the nets\nm: 350 kg\n", "tex-comment-in-body", "% the nets", "#"),
    ("answer: 2.06 kW", "answer: 2.06~kW", "unit-unreadable", "~", "a blank"),
    ("answer: 2.06 kW", "answer: 2,60 kW", "answer-disagrees", "2,60 kW", ""),
    ("formula: P = m g h / Δt", "formula: P = \\frac{m g h}{\\Delta t}", "formula-unreadable", "\\", "(a + b) / c"),
    ("mass \\physvalue{m} keeps", "mass \\physvalue{m\\'} keeps", "name-unreadable", "m\\'", "subscript"),
    ("topic=power, level=2]\nAn", "topik=power, level=2]\nAn", "attribute-unknown", "topik", '"topic"'),
    ("=up is positive]", "=up is positive, down is negative]", "attribute-unknown", "down is negative", "axis={up"),
    ("[in=paper]", "", "attribute-missing", "\\begin{physonly}", "\\begin{physonly}[in=memo guide]"),
    ("total=50", "totl=50", "setting-unknown", "totl", '"total"'),
    ("\\usepackage{physcalc}", "\\usepackage[edtion=memo]{physcalc}", "attribute-unknown", "edtion", '"edition"'),
    ("\\usepackage{physcalc}", "\\usepackage[text=shwn]{physcalc}", "attribute-unreadable", "shwn", "shown or hidden"),
    ("\\begin{document}\n", "", "document-unreadable", "\\documentclass", "\\begin{document}"),
    ("\\end{document}\n", "", "document-unreadable", "", "\\end{document}"),
    ("\\end{document}", "\\input{chapters/more}\n\\end{document}", "tex-input-unreadable", "chapters/more", "folder"),
    (
        "\\end{document}", "\\end{physquestion}\n\\end{document}",
        "tex-environment-unopened", "\\end{physquestion}", "take this line away",
    ),
    (
        "Calculate the average power", "\\[P = \\physvalue{Δt}\\] Calculate the average power",
        "value-misplaced", "Δt", "in the text",
    ),
    (
        "Calculate the average power", "It is \\physvalue{P}. Calculate the average power",
        "answer-printed", "P", "\\begin{physonly}[in=memo guide]",
    ),
    (
        "\\begin{document}", "\\newcommand{\\of}[1]{\\physvalue{#1}}\n\\begin{document}",
        "tex-macro-argument", "\\physvalue", "\\physvalue where the macro stands",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("right", "wrong", "slug", "place", "mend"), MISTAKES)
def test_one_mistake_is_one_problem_at_its_place(
    right: str, wrong: str, slug: str, place: str, mend: str
) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    at = text.index(right)
    source = Source("paper.tex", text[:at] + wrong + text[at + len(right) :])
    problems = [one for one in pipeline.check(source).problems if one.level != "note"]
    # What has its values in what is wrong may well be without them.
    (problem, *others) = sorted(problems, key=lambda one: one.slug != slug)
    assert {one.slug for one in others} <= {"name-without-value", "marks-missing"}
    assert problem.slug == slug
    start = source.offset(problem.span)
    assert source.text[start : start + problem.span.length].rstrip("\n") == place
    assert mend in problem.mend()


@pytest.mark.parametrize(
    "harmless",
    [
        "\\verb|\\physvalue{q| and \\url{https://example.org/a%b}",
        "% \\physvalue{q\n",
        "\\begin{verbatim}\n\\begin{physgiven}\n\\end{verbatim}",
        "\\'{e} \\\"o \\c{c} \\label{here}\\ref{here}",
        "\\iffalse \\begin{physgiven} \\fi",
        "\\newcommand{\\half}{\\begin{quote}}",
    ],
)
def test_what_is_right_is_no_mistake(harmless: str) -> None:
    text = EXAMPLE.read_text(encoding="utf-8")
    changed = text.replace("Calculate the average power", f"{harmless} Calculate the average power")
    problems = pipeline.check(Source("paper.tex", changed)).problems
    assert [one.slug for one in problems if one.level != "note"] == []


def test_a_number_in_a_command_of_units_is_tied_with_it() -> None:
    text = (
        "\\begin{physquestion}\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"
        "Of \\SI{2}{kg}, \\emph{2 kg}, \\qty[x=y]{2}{kg}.\n\\end{physquestion}\n"
    )
    problems = pipeline.check(Source("a.tex", text), strict=True).problems
    assert [one.mend() for one in problems] == [
        "write \\physvalue[\\SI{2}{kg}]{m}",
        "write \\physvalue[2 kg]{m}",
        "it is m: write it with its symbol, outside mathematics, to tie it",
    ]


def test_a_percentage_is_no_comment() -> None:
    text = "\\begin{physgiven}\nη: 80 %\nP: 5 kW\n\\end{physgiven}\n"
    text += "\\begin{physcalculation}\nformula: Q = η P\nfind: Q in kW\n"
    text += "why: 80 % of the power comes out.\n\\end{physcalculation}\n"
    assert [one.slug for one in pipeline.check(Source("a.tex", text)).problems if one.level != "note"] == []
