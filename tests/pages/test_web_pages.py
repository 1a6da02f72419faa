"""The example documents as web pages: for eyes, ears and keyboards, on screens and on paper."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest
from pypdf import PdfReader

from .browser import looked_at, printed
from .built import DOCUMENTS, Editions


@pytest.mark.parametrize(
    ("width", "dark", "opened"),
    [(1280, False, False), (1280, True, True), (390, False, False), (320, True, True)],
)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_nobody_is_kept_out(
    name: str, width: int, dark: bool, opened: bool, tmp_path: Path, editions: Editions
) -> None:
    """axe-core's rules; and no page is wider than its window, down to 320 pixels (WCAG 2.2, 1.4.10)."""
    pages = list(editions(name, "html").values())
    for report in looked_at(pages, tmp_path, width, dark=dark, opened=opened):
        assert report["violations"] == []
        assert report["width"] == width
        assert report["needed"] <= width
        assert report["dark"] == dark


def test_what_keeps_readers_out_is_found(tmp_path: Path) -> None:
    page = tmp_path / "bad.html"
    page.write_text(
        '<!DOCTYPE html><html><head></head><body><img src="x.png"><div style="width: 700px">x</div></body></html>'
    )
    (report,) = looked_at([page], tmp_path, 390)
    assert {"image-alt", "html-has-lang", "document-title"} <= {one for one, _ in report["violations"]}
    assert report["needed"] > 390


@pytest.mark.parametrize("name", DOCUMENTS)
def test_headings_are_in_order_and_ticks_are_said(name: str, editions: Editions) -> None:
    for edition, page in editions(name, "html").items():
        text = page.read_text(encoding="utf-8")
        levels = [int(level) for level in re.findall(r"<h([1-6])\b", text)]
        assert levels[0] == 1
        assert levels.count(1) == 1
        assert all(below <= above + 1 for above, below in pairwise(levels))
        assert "<main>" in text
        assert re.search(r'<html lang="[a-z]{2}', text)
        for tick in re.findall(r"<[^>]*>✓+<", text):
            assert 'role="img" aria-label="' in tick
        assert ("✓" in text.partition("<body>")[2]) == (edition == "memo")


def test_solutions_of_a_guide_fold_away_and_are_printed(tmp_path: Path, editions: Editions) -> None:
    page = editions("mechanics_test", "html")["guide"]
    text = page.read_text(encoding="utf-8")
    assert text.count("<details") == text.count("</details>") > 10
    assert "<details open" not in text
    assert "<script" not in text
    # The question stands outside of its solution, the value inside.
    outside = re.sub(r"<details.*?</details>", "", text, flags=re.DOTALL)
    assert "Calculate the magnitude of the acceleration" in outside.replace("\n", " ")
    assert "48,06" not in outside
    words = " ".join(sheet.extract_text() for sheet in PdfReader(printed(page, tmp_path)).pages)
    for value in ("48,06", "3,75", "Slips to avoid", "In an isolated system"):
        assert value in words


def test_what_only_a_guide_hides_is_open_elsewhere(editions: Editions) -> None:
    for edition in ("paper", "memo"):
        assert "<details" not in editions("mechanics_test", "html")[edition].read_text(encoding="utf-8")


def test_numbers_are_numbers(editions: Editions) -> None:
    """MathML Core, 3.2.4.1: text is like blank space, so that the sign after it would belong to what follows."""
    text = editions("electrostatics_guide", "html")["guide"].read_text(encoding="utf-8")
    assert "<mn>−6,4</mn><mo>+</mo><mn>2,0</mn>" in text
    assert not re.search(r'<mtext mathvariant="normal">[\d.,]+</mtext>', text)
