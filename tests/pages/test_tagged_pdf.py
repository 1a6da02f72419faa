"""The example documents as PDF: with their structure, for those who hear them, and with every letter there."""

from __future__ import annotations

import io
import re
import subprocess
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import panflute as pf
import pypdf
import pytest
from physcalc_filter.outputs import write

from physcalc.language.names import GREEK, Name
from physcalc.render.tex import tex_name, tex_text
from physcalc.units.spelling import WRITTEN

from ..programs import program
from .built import DOCUMENTS, Editions

#: The mark of a file that keeps PDF/UA-1 (ISO 14289-1, 5: version identification).
CLAIM = "pdfuaid:part"


def claims(made: bytes) -> bool:
    root: Any = pypdf.PdfReader(io.BytesIO(made)).trailer["/Root"]
    return CLAIM in root["/Metadata"].get_object().get_data().decode()


def formulas(node: Any, found: list[str]) -> list[str]:
    """The alternative texts of the formulas of a structure."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for one in node:
            formulas(one, found)
    elif isinstance(node, dict):
        if node.get("/S") == "/Formula":
            found.append(str(node.get("/Alt", "")))
        if "/K" in node:
            formulas(node["/K"], found)
    return found


@pytest.mark.parametrize("name", DOCUMENTS)
def test_structure_language_and_alternatives(name: str, editions: Editions) -> None:
    for edition, path in editions(name, "pdf").items():
        root: Any = pypdf.PdfReader(path).trailer["/Root"]
        assert root["/Lang"].startswith("en")
        assert root["/MarkInfo"]["/Marked"]
        said = formulas(root["/StructTreeRoot"], [])
        assert all(said)
        assert said or edition == "paper"
        assert claims(path.read_bytes())


def test_formulas_are_said(editions: Editions) -> None:
    root: Any = pypdf.PdfReader(editions("mechanics_test", "pdf")["memo"]).trailer["/Root"]
    said = formulas(root["/StructTreeRoot"], [])
    for words in ("F_(net)", "m a", "48,06 N", "T − f_k", "(G M m)/(r^2)"):
        assert words in said


@pytest.mark.parametrize("name", DOCUMENTS)
def test_every_font_is_in_the_file(name: str, editions: Editions) -> None:
    for path in editions(name, "pdf").values():
        done = subprocess.run([program("pdffonts"), str(path)], capture_output=True, text=True, check=True)
        lines = done.stdout.splitlines()[2:]
        assert lines
        for line in lines:
            assert re.search(r"\byes +yes +(yes|no) +\d+ +\d+$", line)


def page_of(folder: Path, *inlines: pf.Inline) -> bytes:
    target = folder / "signs.pdf"
    words = [piece for inline in inlines for piece in (inline, pf.Space())]
    write(pf.Doc(pf.Para(*words), metadata={"title": "Signs"}), target, edition="memo")
    return target.read_bytes()


def maths(tex: Sequence[str]) -> list[pf.Inline]:
    return [pf.Math(one, format="InlineMath") for one in tex]


def test_every_sign_is_in_the_fonts(tmp_path: Path) -> None:
    """PDF/UA-1 forbids a letter that no font has (ISO 14289-1, 7.21.8), and a file that breaks it does not claim it."""
    # Common practice, no source: the signs that a page says beside names and units.
    signs = list("✓−±×·°′…–“”’=≈≤≥≠→⇒∝√∞↑↓⁻¹²³⁴⁵⁶⁷⁸⁹⁰½∥⊥∠")
    letters = [*GREEK.values(), "ℓ"]
    text = [pf.Str(one) for one in (*signs, *letters, *WRITTEN)]
    names = [tex_name(Name(letter, subscript="net")) for letter in letters]
    relations = [r"\pm", r"\mp", r"\approx", r"\le", r"\ge", r"\ne", r"\to", r"\propto", r"\times", r"\cdot"]
    units = [tex_text(one) for one in WRITTEN]
    assert claims(page_of(tmp_path, *text, *maths([*names, *relations, *units])))


def test_a_letter_that_no_font_has_is_found(tmp_path: Path) -> None:
    # An Egyptian hieroglyph, which no font of ours has.
    assert not claims(page_of(tmp_path, pf.Str("\U00013000")))
    assert not claims(page_of(tmp_path, *maths(["\\text{\U00013000}"])))
    assert claims(page_of(tmp_path, pf.Str("x")))


def test_a_picture_that_nobody_described_is_printed_all_the_same(tmp_path: Path) -> None:
    square = pf.RawInline(
        '#image(bytes(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>`.text))', "html"
    )
    square.format = "typst"
    assert not claims(page_of(tmp_path, square))
