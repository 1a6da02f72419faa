"""The scan of raw LaTeX: what is ours and where, what is left alone, and that no text is lost."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.sources import (
    Source,
    TexScan,
    flatten_tex,
    plain_lines,
    scan_tex,
    typed_stretch,
    weave,
    with_number,
)
from physcalc_filter.sources.tex.tokens import tokens

PIECES = [
    "\\begin{physgiven}", "\\end{physgiven}", "\\begin{physcalculation}[id=a]", "\\end{physcalculation}",
    "\\begin{physquestion}[marks=2,", "]", "\\begin{physquestion}", "\\end{physquestion}",
    "\\begin{physquestoin}", "\\begin{physanswer}[marks=1]", "\\end{physanswer}", "\\physvalue{m}",
    "\\physvalue[2 kg]{m}", "\\physvalue[", "\\physvalue{", "\\physmark{a \\physvalue{m} b}", "\\physmark{",
    "\\physdefine{Ohm's law}", "\\physsetup{lang=en-ZA}", "\\physvalu{m}", "{", "}", "[", "]", "$", "%",
    "% \\physvalue{x}\n", "\\%", "\\\\", "\\", "\n", "\n\n", " ", "text ", "m: 2 kg\n", "\\begin{verbatim}",
    "\\end{verbatim}", "\\verb|x|", "\\verb", "\\iffalse", "\\fi", "\\begin{document}", "\\end{document}",
    "\\newcommand{\\a}[1]{\\physvalue{#1}}", "\\begin{itemize}\\item ", "\\end{itemize}", "é", "\r\n",
    "\\usepackage[edition=memo]{physcalc}", "\\includegraphics{no}", "\\input{no}", "\\url{a%b}",
    "physcalcplace0p", "~", "\\physsection[marks=2]{A}", "\\physsection{", "\\begin{physgrid}", "\\end{physgrid}",
    "\\begin{physquestion}[title={A \\physvalue{m}}, marks=2]", "\\physvalue{2 kg}{m}", "\\section*{Question 1}",
    "\\begin{physquestion}{marks=2}", "\\item[1.1] ", "\\SI{2}{kg}", "[$2$ kg]{.value}", "title=",
]  # fmt: skip
SOUP = st.lists(st.sampled_from(PIECES), max_size=40).map("".join)


def scanned(text: str) -> TexScan:
    woven, problems = weave(Source("paper.tex", text), Path("/nowhere"))
    scan = scan_tex(woven)
    scan.problems += problems
    return scan


def found(text: str) -> list[tuple[str, str, int, int]]:
    return [(i.mark.kind, i.mark.text, i.mark.span.line, i.mark.span.column) for i in scanned(text).items]


def test_everything_of_ours_is_found_with_its_place() -> None:
    text = (
        "\\begin{physquestion}[marks=4, id=lift]\n"
        "Mass \\physvalue{m}, \\physvalue[0,75~m·s⁻²]{a}.\n"
        "  \\begin{physgiven}\n"
        "    m: 640 kg\n"
        "    # & _ ^ % $ \\ are text\n"
        "  \\end{physgiven}\n"
        "\\begin{physanswer}[marks=1] \\physmark{it moves} \\end{physanswer}\n"
        "\\physdefine[F is m a]{Newton's second law}\n"
        "\\end{physquestion}\n"
    )
    assert found(text) == [
        ("question", ".question marks=4", 1, 22),
        ("code-value", "m", 2, 17),
        ("span-value", "0,75\u00a0m·s⁻²", 2, 32),
        ("given", "m: 640 kg\n# & _ ^ % $ \\ are text", 3, 3),
        ("answer", ".answer marks=1", 7, 20),
        ("mark", "it moves", 7, 39),
        ("define", "F is m a", 8, 13),
    ]
    block = scanned(text).items[3].mark
    assert [(line.span.line, line.span.column) for line in block.lines] == [(4, 5), (5, 5)]
    assert not scanned(text).problems


def test_options_have_places_and_may_hold_commas_in_braces() -> None:
    scan = scanned(
        "\\begin{physquestion}[marks=2,\n  axis={up is positive, down is negative}]\n\\end{physquestion}"
    )
    (item,) = scan.items
    axis = item.mark.attribute("axis")
    assert axis is not None
    assert (axis.value, axis.span.line, axis.span.column) == ("up is positive, down is negative", 2, 9)
    key = item.mark.attributes.key("axis")
    assert key is not None
    assert (key.span.line, key.span.column) == (2, 3)


def test_what_follows_a_typed_value_are_options_but_a_decimal_comma_is_none() -> None:
    scan = scanned("\\physvalue[6 752,5, part=number, in=kN]{T}")
    (item,) = scan.items
    assert item.mark.text == "6 752,5"
    assert [(key.value, value.value) for key, value in item.mark.attributes.pairs] == [
        ("of", "T"),
        ("part", "number"),
        ("in", "kN"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        "% \\physvalue{m}\n",
        "\\begin{verbatim}\n\\physvalue{m} \\begin{physgiven}\n\\end{verbatim}",
        "\\begin{lstlisting}[language=TeX]\n\\physvalue{m}\n\\end{lstlisting}",
        "\\begin{comment}\n\\physvalue{m}\n\\end{comment}",
        "\\verb|\\physvalue{m}| \\verb*+\\physvalue{m}+ \\lstinline!\\physvalue{m}!",
        "\\iffalse \\physvalue{m} \\fi",
        "\\end{document} \\physvalue{m}",
    ],
)
def test_nothing_is_ours_in(text: str) -> None:
    scan = scanned(text)
    assert not scan.items
    assert not scan.problems
    assert scan.text == text


def test_an_escaped_percent_sign_and_one_in_an_address_begin_no_comment() -> None:
    assert found("50 \\% \\physvalue{m} \\url{a%b} \\physvalue{k} \\\\% \\physvalue{q}") == [
        ("code-value", "m", 1, 18),
        ("code-value", "k", 1, 42),
    ]


def test_settings_have_places() -> None:
    scan = scanned(
        "\\usepackage[edition=memo]{physcalc}\n\\physsetup{sheet=school,\n  labels={question=Oefening}}"
    )
    assert scan.settings == {"edition": "memo", "sheet": "school", "labels": {"question": "Oefening"}}
    place = scan.front.below("physcalc")["labels.question"][1]
    assert (place.value, place.span.line, place.span.column) == ("Oefening", 3, 20)


def test_a_name_in_the_signs_of_tex_is_the_name() -> None:
    assert [item.mark.text for item in scanned("\\physvalue{\\theta} \\physvalue{$v_{i}$}").items] == [
        "θ",
        "v_{i}",
    ]


def test_a_word_of_a_stand_in_stands_nowhere_in_the_source() -> None:
    scan = scanned("PHYSCALCPLACE0p physcalcplacex1p \\physvalue{m}")
    assert scan.stem == "physcalcplacexx"
    assert scan.text.count("physcalcplacexx0p") == 1


# Faults of the source, each with its slug and place; the offsets are those of the raw text.


@pytest.mark.parametrize(
    ("text", "slug", "line", "column"),
    [
        ("\\begin{physgiven}\nm: 2 kg\n", "tex-environment-open", 1, 1),
        ("a\n\\begin{physquestion}\nText.\n", "tex-environment-open", 2, 1),
        ("\\begin{itemize}\n\\item \\begin{physanswer}\n\\end{itemize}\n", "tex-environment-open", 2, 7),
        ("Text.\n \\end{physonly}\n", "tex-environment-unopened", 2, 2),
        ("Text.\n\\end{physgiven}\n", "tex-environment-unopened", 2, 1),
        ("\\begin{physcalculaton}\nfind: m\n\\end{physcalculaton}\n", "tex-name-unknown", 1, 1),
        ("\\begin{physcalculation}\nfind: m\n\\end{physcalculaton}\n", "tex-name-unknown", 3, 1),
        ("\\begin{physquestoin}\nText.\n\\end{physquestoin}\n", "tex-name-unknown", 1, 1),
        ("of \\physvalu{m}\n", "tex-name-unknown", 1, 4),
        ("of \\physvalue{m and more.\n\n", "tex-argument-open", 1, 4),
        ("of \\physvalue[2 kg{m}\n\n", "tex-argument-open", 1, 4),
        ("of \\physvalue m\n", "tex-argument-open", 1, 4),
        ("of \\physvalue[2 kg] m\n", "tex-argument-open", 1, 4),
        ("\\begin{physquestion}[marks=2\nText.\n\\end{physquestion}\n", "tex-argument-open", 1, 1),
        ("\\begin{physgiven}[id=a\nm: 2 kg\n\\end{physgiven}\n", "tex-argument-open", 1, 1),
        ("\\newcommand{\\a}[1]{\\physvalue{#1}}\n", "tex-macro-argument", 1, 20),
        ("a\n\\input{no}\n", "tex-input-unreadable", 2, 8),
        ("a \\input no\n", "tex-input-unreadable", 1, 10),
        ("a \\include{\\name}\n", "tex-input-unreadable", 1, 12),
    ],
)
def test_a_fault_has_its_place(text: str, slug: str, line: int, column: int) -> None:
    problems = scanned(text).problems
    assert [(p.slug, p.span.line, p.span.column) for p in problems] == [(slug, line, column)]
    assert problems[0].sentence()
    assert problems[0].mend()


def test_a_block_that_is_open_takes_its_paragraph_and_no_other_block() -> None:
    scan = scanned(
        "\\begin{physgiven}\nm: 2 kg\n\nText \\physvalue{m}.\n\\begin{physgiven}\nk: 1 N\n\\end{physgiven}\n"
    )
    assert [(item.mark.kind, item.mark.text) for item in scan.items] == [
        ("given", "m: 2 kg"),
        ("code-value", "m"),
        ("given", "k: 1 N"),
    ]
    assert [problem.slug for problem in scan.problems] == ["tex-environment-open"]


def test_names_that_the_author_defines_and_those_of_other_packages_are_left_alone() -> None:
    text = (
        "\\newcommand{\\physvalues}{x}\\newenvironment{physgivens}{}{}\n\\usepackage{physics}\n\\physvalues "
        "\\begin{physgivens}a\\end{physgivens} \\physquestionheading{1} \\physcalcproblem{x} "
        "\\physics{y} \\begin{question}"
    )
    scan = scanned(text)
    assert not scan.items
    assert not scan.problems


# Whatever stands in the source.


@settings(max_examples=400, deadline=None)
@given(SOUP)
def test_no_soup_raises_and_every_token_lies_behind_the_one_before(text: str) -> None:
    at = 0
    for token in tokens(text):
        assert at <= token.start < token.end <= len(text)
        at = token.end
    flat = flatten_tex(weave(Source("paper.tex", text), Path("/nowhere"))[0])
    assert len(flat.text) == len(flat.starts) == len(flat.ends)
    assert all(0 <= start < end <= len(text) for start, end in zip(flat.starts, flat.ends, strict=True))


@settings(max_examples=400, deadline=None)
@given(SOUP)
def test_no_soup_loses_text(text: str) -> None:
    scan = scanned(text)
    made = scan.text
    # What was copied stands where the scan says that it does, in order, and each copy is right.
    copied = [piece for piece in _copies(scan) if piece[2]]
    for start, begin, _, piece in copied:
        assert text[begin : begin + len(piece)] == piece
        assert made[start : start + len(piece)] == piece
        assert scan.origin(start) == begin
    assert all(one[1] + len(one[3]) <= other[1] for one, other in pairwise(copied))
    # What was not copied belongs to something of ours, or to a fault.
    kept = sum(len(piece) for *_, piece in copied)
    if kept < len(text):
        assert scan.items or scan.problems or scan.settings or "{physcalc}" in text or "\\physsetup" in text
    assert scan.stem not in text.lower()
    for item in scan.items:
        mark = item.mark
        assert mark.span.line >= 1
        assert text[mark.start : mark.end] is not None
        if mark.kind in ("span-value", "mark"):
            assert text[mark.start : mark.end].replace("~", "\u00a0") == mark.text.replace("~", "\u00a0")
        for line in mark.lines:
            raw = text.split("\n")[line.span.line - 1]
            assert raw[line.span.column - 1 :].startswith(line.value.split("\n")[0])
    words = re.findall(rf"{scan.stem}\d+d", made)
    assert all(words.count(word) % 2 == 0 for word in words)


@settings(max_examples=200, deadline=None)
@given(st.text(st.characters(codec="utf-8"), max_size=200))
def test_text_without_anything_of_ours_is_handed_on_as_it_is(text: str) -> None:
    if "phys" not in text and "\\in" not in text:
        assert scanned(text).text == text


def _copies(scan: TexScan) -> list[tuple[int, int, bool, str]]:
    return [
        (start, begin, copied, piece)
        for (start, begin, copied), piece in zip(scan._starts, scan.pieces, strict=True)
    ]


@given(SOUP)
def test_plain_lines_are_as_long_as_the_lines(text: str) -> None:
    woven, _ = weave(Source("paper.tex", text), Path("/nowhere"))
    lines = plain_lines(woven)
    assert [len(line) for line in lines] == [len(woven.line_text(at)) for at in range(len(woven.starts))]
    assert not any(sign in line for line in lines for sign in "\\{}~")


@given(SOUP, st.integers(0, 400))
def test_the_raw_text_of_a_value_holds_its_place(text: str, at: int) -> None:
    stretch = typed_stretch(text, min(at, len(text)))
    if stretch is not None:
        assert text[: stretch[0]].rstrip()[-1] == "["
        assert stretch[0] <= min(at, len(text)) <= stretch[1]
        changed = with_number(text[slice(*stretch)], "2 kg", "3 kg")
        assert not changed or changed.replace("3", "2", 1) == text[slice(*stretch)]
