"""Figures of a document from anybody: bounded, and nothing in them but what is drawn."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest

from .conftest import Run, question
from .hostile_figures import check_svg, check_tikz
from .test_injection import SCRIPT, TEX, TYPST, Scripts

Physcalc = Callable[..., Run]


def draw(*lines: str) -> str:
    return "\n".join(["```{.draw}", *lines, "```", ""])


@pytest.mark.parametrize(
    "attack", [SCRIPT, TYPST, TEX, "</svg></figure>", ']]> --> */ \\end{tikzpicture} "]#x']
)
def test_words_of_a_figure_are_text_everywhere(attack: str, folder: Path, physcalc: Physcalc) -> None:
    lines = [
        "forces:",
        "  F_g: 3 N, down",
        "  N: 3 N, up",
        f"on: {attack}",
        "key:",
        f"  F_g: {attack}",
        f"  N: {attack}",
    ]
    lines += [f"alt: {attack}", f"caption: {attack}", "paper: drawn"]
    (folder / "a.md").write_text(f"---\nphyscalc:\n  lang: en\n---\n\n{draw(*lines)}", encoding="utf-8")
    for ending in ("html", "epub", "docx", "tex", "pdf", "typ"):
        assert physcalc("build", "a.md", "-o", f"a.{ending}", "--edition", "guide").code == 0
    page = (folder / "a.html").read_text(encoding="utf-8")
    check_svg(page[page.index("<svg") : page.index("</svg>") + len("</svg>")])
    scripts = Scripts()
    scripts.feed(page)
    assert not scripts.found
    check_tikz((folder / "a.tex").read_text(encoding="utf-8"))
    with zipfile.ZipFile(folder / "a.docx") as word:
        for name in word.namelist():
            if name.endswith((".xml", ".rels")):
                ElementTree.fromstring(word.read(name))
    assert len(pypdf.PdfReader(folder / "a.pdf").pages) == 1


N = 20_000


@pytest.mark.parametrize(
    ("lines", "slug"),
    [
        # Each of these once took minutes, or for ever.
        (["situation:", "  - block a on a surface" + " " * N + "x"], "formula-unreadable"),
        (["situation:", "  - charge A = 3 nC, (" + "1;" * N], "formula-unreadable"),
        (["situation:", "  - interface: " + "a above " * N + "("], "formula-unreadable"),
        (["field:", "  - charge A = " + "9" * N + " nC"], "formula-unreadable"),
        (["circuit: R_1" + " " * N + "x"], "formula-unreadable"),
        (["forces:", "  F: 12 N at 1e30° above left"], "figure-value-extreme"),
        # Each of these once was a fault.
        (["forces:", "  F: 1e399 N, up"], "figure-value-extreme"),
        (["forces:", "  F: 1 N, up", "scale: 1 cm for 1e-399 N"], "figure-value-extreme"),
        (["field:", "  - charge A = 1e399 nC"], "figure-value-extreme"),
    ],
)  # fmt: skip
def test_a_figure_that_takes_too_much(lines: list[str], slug: str, folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(draw(*lines), encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.code == 1
    assert slug in done.said


def test_a_loop_of_batteries_alone_is_laid_out(folder: Path, physcalc: Physcalc) -> None:
    body = draw("circuit: battery (1 V, 1 Ω), battery (1 V, 1 Ω), battery (1 V, 1 Ω), battery (1 V, 1 Ω)")
    (folder / "a.md").write_text(
        question(["m: 2 kg"], ["use: weight", "find: F_g in N"], more=body), encoding="utf-8"
    )
    physcalc("check", "a.md")
