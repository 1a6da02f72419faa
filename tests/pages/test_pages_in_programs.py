"""The example documents in the programs that readers have: a word processor, a browser, a PDF reader."""

from __future__ import annotations

import subprocess
import zipfile
from pathlib import Path

import pytest
from physcalc_filter.cli import main
from pypdf import PdfReader

from ..programs import program

EXAMPLES = Path(__file__).parent.parent.parent / "example_docs"
DOCUMENTS = ("mechanics_test", "electrostatics_guide", "circuits_worksheet", "practical_report")


def built(name: str, edition: str, target: Path) -> Path:
    assert main(["build", str(EXAMPLES / f"{name}.md"), "--edition", edition, "-o", str(target)]) == 0
    return target


def words(pdf: Path) -> str:
    text = " ".join(page.extract_text() for page in PdfReader(pdf).pages)
    return " ".join(text.replace("\u202f", " ").replace("\u00a0", " ").replace("\u2009", " ").split())


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
@pytest.mark.parametrize("name", DOCUMENTS)
def test_pdf(name: str, edition: str, tmp_path: Path) -> None:
    reader = PdfReader(built(name, edition, tmp_path / "out.pdf"))
    text = words(tmp_path / "out.pdf")
    assert f"page 1 of {len(reader.pages)}" in text
    # Nothing of the source's own language is left on a page.
    assert not any(left in text for left in ("{.", "```", "formula:", ":::", "find:"))
    fonts = {
        str(font.get_object()["/BaseFont"])
        for page in reader.pages
        for font in page["/Resources"]["/Font"].values()  # type: ignore[index,union-attr]
    }
    # A subset's name begins with six letters and a plus: every font is embedded.
    assert fonts
    assert all(font[1:8].endswith("+") for font in fonts)


def test_the_paper_gives_no_answer_away(tmp_path: Path) -> None:
    text = words(built("mechanics_test", "paper", tmp_path / "paper.pdf"))
    for answer in ("48,06", "1,79", "4,14", "25,96", "79,06", "2 597,11", "✓"):
        assert answer not in text


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_word(edition: str, tmp_path: Path) -> None:
    soffice = program("soffice")
    target = built("mechanics_test", edition, tmp_path / "out.docx")
    with zipfile.ZipFile(target) as file:
        document = file.read("word/document.xml").decode()
    if edition != "paper":
        assert document.count("<m:oMath>") > 40  # real equations, which can be edited
    profile = f"-env:UserInstallation=file://{tmp_path / 'profile'}"
    for kind in ("pdf", "odt"):
        command = [
            soffice,
            profile,
            "--headless",
            "--convert-to",
            kind,
            "--outdir",
            str(tmp_path / kind),
            str(target),
        ]
        subprocess.run(command, check=True, capture_output=True, timeout=240)
    text = words(tmp_path / "pdf" / "out.pdf")
    assert "Question 8" in text
    assert "page 1 of" in text
    if edition == "memo":
        assert "✓" in text
        assert "Marking memo" in text
    assert (tmp_path / "odt" / "out.odt").stat().st_size > 5000


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_a_browser(edition: str, tmp_path: Path) -> None:
    chromium = program("chromium")
    target = built("electrostatics_guide", edition, tmp_path / "out.html")
    html = target.read_text(encoding="utf-8")
    assert "<script" not in html
    assert "http://" not in html.replace("http://www.w3.org/", "")
    command = [
        chromium, "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
        "--disable-background-networking", "--disable-component-update", "--disable-sync",
        f"--user-data-dir={tmp_path / 'profile'}", f"--print-to-pdf={tmp_path / 'out.pdf'}", target.as_uri(),
    ]  # fmt: skip
    subprocess.run(command, check=True, capture_output=True, timeout=240)
    text = words(tmp_path / "out.pdf")
    assert "Electrostatics" in text
    if edition == "memo":
        assert "✓" in text
    if edition == "guide":
        assert "Slips to avoid" in text
