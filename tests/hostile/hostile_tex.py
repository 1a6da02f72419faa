"""Sources in LaTeX, and files that TeX wrote, made from seeds: most often nearly right."""

from __future__ import annotations

import random

PIECES = [
    "\\begin{physgiven}", "\\end{physgiven}", "\\begin{physcalculation}", "\\end{physcalculation}", "\\begin{physquestion}[marks=3]",
    "\\end{physquestion}", "\\begin{physanswer}", "\\end{physanswer}", "\\begin{physonly}[in=memo]", "\\end{physonly}", "\n", "\n\n",
    "\r\n", "\r", "m: 2 kg", "use: weight", "find: F_g in N", "\\physvalue{m}", "\\physvalue[2 kg]{m}", "\\physmark{", "\\physdefine{x}",
    "\\physsetup{sheet=school}", "\\physsetup{labels={a=b", "}", "{", "[", "]", "$", "%", "\\\\", "\\", "&", "#1", "~", "^^5c", "^^M", "\x00",
    "\ufeff", "\u202e", "\ud800", "é", "\\input{a}", "\\input a ", "\\include{../b}", "\\includegraphics{x}", "\\verb|", "|", "\\iffalse",
    "\\fi", "\\begin{verbatim}", "\\end{verbatim}", "\\def\\physvalue#1{", "\\newcommand{\\x}[1]{\\physvalue{#1}}", "\\catcode`\\!=0 ",
    "\\begin{document}", "\\end{document}", "\\url{", "\\graphicspath{{a/}}", "physcalcplace0p", "physcalcplacex1b", "\\begin{physgivne}",
    "\\physvaleu{m}", "\\write18{id}", "\\openin5=/etc/passwd", "x", " ", "marks=4, axis={up is positive}", "id=", "\\begin{physdraw}", "forces:",
]  # fmt: skip
LINES = [
    "E 1 given 3", "E 2 calculation 9", "E 3 question 1", "E 4 value 2", "E 5 mark 2", "E 6 define 2", "E 7 setup 1", "E 8 only 4", "E 9 draw 5",
    "E 0 options 0", "X 3", "X 8", "B 3 m: 2 kg", "B 10 use: weight", "B 11 find: F_g in N", "B 0 x", "B 9999999 y", "O id=q, marks=3", "O {,=,}",
    "N m", "N \\x$~", "T 2 kg", "T \\textbf{", "T $x", "Q 1.1", "F a.tex", "F ../../etc/passwd", "F ^^@^^[", "F", "Z 3 memo", "Z 1 paper partial",
    "Z x", "", "E", "E 1", "E 1 given", "E 99999999 given 1", "E -1 value ٣", "P 1 signs main", "\x00", "\ud800", "T physcalcnext", "B",
]  # fmt: skip


def a_source(seed: int) -> None:
    """Looks through a source, and asks for every place in it."""
    from pathlib import Path

    from physcalc_filter.sources import Source, scan_tex, weave

    chance = random.Random(seed)
    text = "".join(chance.choice(PIECES) for _ in range(chance.randint(1, 40)))
    woven, problems = weave(Source("nowhere/a.tex", text), Path("nowhere"))
    scan = scan_tex(woven)
    for problem in (*problems, *scan.problems):
        assert problem.sentence()
        assert problem.span.line >= 1
    for item in scan.items:
        assert 0 <= item.mark.start <= len(text)
    for offset in range(0, len(scan.text) + 1, 7):
        assert 0 <= scan.origin(offset) <= len(text)


def entries(seed: int) -> None:
    """Reads a damaged file of entries, and what it says."""
    from pathlib import Path

    from physcalc_filter.latex.entries import read_run
    from physcalc_filter.latex.places import Files, attributes_of
    from physcalc_filter.sources import Source

    from physcalc.problems import Problem

    chance = random.Random(seed)
    head = ["P 1 signs main"] if chance.random() < 0.95 else [chance.choice(LINES)]
    lines = [
        chance.choice(LINES[:26] if chance.random() < 0.9 else LINES) for _ in range(chance.randint(0, 9))
    ]
    ends = [f"Z {len(lines)} memo"] if chance.random() < 0.9 else []
    try:
        run = read_run(Source("main.physin", "\n".join([*head, *lines, *ends, ""])))
        files = Files(Path("nowhere"), "main.tex")
        for entry in run.entries():
            placed = files.place(entry)
            assert placed.span.line >= 1
            attributes_of(placed)
    except Problem as problem:
        problem.sentence()
