"""Every limit, gone over by name: what goes beyond it is told so, with the setting that allows more, which does."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from physcalc_filter.latex.entries import read_run
from physcalc_filter.sources import Source

from physcalc.limits import LIMITS
from physcalc.problems import Problem

from .conftest import ENDLESS, Run, question

Physcalc = Callable[..., Run]


@dataclass(frozen=True)
class Case:
    """What goes beyond a limit once that is set low.

    Attributes:
        low: the low value.
        text: the document.
        slug: the problem.
        files: what lies beside it.
        name: the document's name.
        build: the file that is built; empty for a check.
        passes: whether with the usual value nothing is said of it. Else that would take minutes.
    """

    low: int
    text: str
    slug: str
    files: dict[str, str | bytes] = field(default_factory=dict)
    name: str = "a.md"
    build: str = ""
    passes: bool = True


PLAIN = question(["a: 1"], ["formula: x = a", "find: x"])
SWEPT = question(["a: 1"], ["formula: sin(x) + x = a", "find: x"])
ROOTS = question(["a: 4"], ["formula:", "  - x^2 = a", "  - y^2 = x + a", "find: y", "take: positive"])
POINTS = (
    "# Question {.question}\n\n```{.draw}\ngraph: y against x\npoints:\n  - 0, 1\n  - 1, 2\n  - 2, 3.1\n```\n"
)
PICTURES = "![a](a.png)\n\n![b](b.png)\n"
PNG = bytes.fromhex(
    "89504e470d0a1a0a0000000d4948445200000001000000010806000000" "1f15c4890000000d49444154789c636000000000"
    "020001e221bc330000000049454e44ae426082"
)  # fmt: skip
TEX = "\\documentclass{article}\n\\begin{document}\n%s\n\\end{document}\n"

CASES = {
    "file-size": Case(100, PLAIN, "file-too-large"),
    "nesting": Case(2, "> > > > > > a\n", "document-nested"),
    "aliases": Case(2, "---\na: &a x\nb: [*a, *a]\nc: *a\n---\n\ntext\n", "front-matter-unreadable"),
    "blocks": Case(1, PLAIN, "document-parts-many"),
    "values": Case(
        1,
        question(["a: 1"], ["formula: x = a", "find: x"], more="`a`{.value} `x`{.value}"),
        "document-parts-many",
    ),
    "block-length": Case(10, PLAIN, "block-too-long"),
    "block-depth": Case(
        1,
        question(["a: 1"], ["formula: x = a", "find: x", "marks:", "  formula: 2", "  answer: 1"]),
        "block-too-long",
    ),
    "formula-length": Case(4, PLAIN, "formula-unreadable"),
    "formula-depth": Case(
        2, question(["a: 1"], ["formula: x = (2 (3 (a)))", "find: x"]), "formula-unreadable"
    ),
    "digits": Case(3, question(["a: 1234"], ["formula: x = a", "find: x"]), "number-too-long"),
    "exponent": Case(3, question(["a: 1e4"], ["formula: x = a", "find: x"]), "number-too-long"),
    "unknowns": Case(
        1, question(["a: 1"], ["formula:", "  - x = y + a", "  - y = 2 a", "find: x"]), "unknowns-many"
    ),
    "root-combinations": Case(1, ROOTS, "root-combinations-many"),
    "choices": Case(
        1,
        question(["m: 3 kg"], ["formula: F = m g", "find: F in N to 3 sf", "accept: choices"]),
        "choices-many",
    ),
    "work": Case(5, SWEPT, "work-too-much"),
    "document-work": Case(5, SWEPT, "work-too-much"),
    "sheet-length": Case(
        5,
        question(["a: 1"], ["formula: x = a", "find: x"], "sheet: own.yaml"),
        "sheet-unreadable",
        files={"own.yaml": "title: Our own\n"},
    ),
    "graph-points": Case(2, POINTS, "graph-points-many"),
    "tex-files": Case(
        1,
        TEX % "\\input{b}\\input{c}",
        "tex-input-unreadable",
        files={"b.tex": "b\n", "c.tex": "c\n"},
        name="a.tex",
    ),
    "tex-depth": Case(
        1,
        TEX % "\\input{b}",
        "tex-input-unreadable",
        files={"b.tex": "\\input{c}\n", "c.tex": "c\n"},
        name="a.tex",
    ),
    "picture-size": Case(
        10, PICTURES, "picture-unreadable", files={"a.png": PNG, "b.png": PNG}, build="a.html"
    ),
    "pictures-size": Case(
        100, PICTURES, "picture-unreadable", files={"a.png": PNG, "b.png": PNG}, build="a.html"
    ),
    "read-seconds": Case(1, "[" * 20_000 + "a" + "]" * 20_000, "document-too-heavy", passes=False),
    "read-memory": Case(20, "*a* " * 200_000, "document-too-heavy", passes=False),
    "write-seconds": Case(
        1, f"```{{=typst}}\n{ENDLESS}\n```\n", "output-failed", build="a.pdf", passes=False
    ),
    "write-memory": Case(
        60,
        '```{=typst}\n#let s = "a" * 100000000\n#range(100).map(n => s + str(n)).join().len()\n```\n',
        "output-failed",
        build="a.pdf",
        passes=False,
    ),
}
#: What a run of TeX writes is read by another door, see the test below; a Word file too, see tests/returned.
ELSEWHERE = {"tex-entries", "word-size"}


def test_every_limit_has_its_case() -> None:
    assert set(CASES) | ELSEWHERE == set(LIMITS)


@pytest.mark.parametrize("name", CASES)
def test_what_goes_beyond_a_limit_is_told_how_to_allow_more(
    name: str, folder: Path, physcalc: Physcalc
) -> None:
    case = CASES[name]
    (folder / case.name).write_text(case.text, encoding="utf-8")
    for other, content in case.files.items():
        data = content if isinstance(content, bytes) else content.encode("utf-8")
        (folder / other).write_bytes(data)
    command = ["build", case.name, "-o", case.build] if case.build else ["check", case.name]
    done = physcalc(*command, "--limit", f"{name}={case.low}")
    assert done.code != 0
    assert f": {case.slug}" in done.said
    assert f"--limit {name}={min(2 * case.low, LIMITS[name].most)}" in done.said
    if case.passes:
        assert f": {case.slug}" not in physcalc(*command).said


RUN = "P 1 signs main\nF \nE 1 value 8\nN m\nE 2 value 9\nN m\nZ 2 memo\n"


def test_entries_of_a_run_of_tex(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PHYSCALC_LIMITS", "tex-entries=1")
    with pytest.raises(Problem) as caught:
        read_run(Source("a.physin", RUN))
    assert "--limit tex-entries=2" in str(caught.value) + caught.value.mend()
    monkeypatch.delenv("PHYSCALC_LIMITS")
    assert len(list(read_run(Source("a.physin", RUN)).entries())) == 2


@pytest.mark.parametrize(("name", "limit"), LIMITS.items())
def test_the_largest_value_can_be_asked_for(
    name: str, limit: object, folder: Path, physcalc: Physcalc
) -> None:
    (folder / "a.md").write_text(PLAIN, encoding="utf-8")
    most = LIMITS[name].most
    assert physcalc("check", "a.md", "--limit", f"{name}={most}").code == 0
    assert physcalc("check", "a.md", "--limit", f"{name}={most + 1}").code == 2


def test_an_anchor_is_refused_by_a_sheet_in_its_own_words(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(
        question(["a: 1"], ["formula: x = a", "find: x"], "sheet: own.yaml"), "utf-8"
    )
    (folder / "own.yaml").write_text("title: &t Our own\nnotes: *t\n", encoding="utf-8")
    done = physcalc("check", "a.md")
    assert "own.yaml:1:8: sheet-unreadable: an anchor or an alias stands here" in done.said
    assert "write the text out" in done.said
