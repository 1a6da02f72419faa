"""The example documents as Word files: opened and stored again by another program with nothing lost."""

from __future__ import annotations

import re
import subprocess
import zipfile
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

from ..programs import program
from .built import DOCUMENTS, Editions
from .word_schema import misplaced

WORD = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
MATHS = "{http://schemas.openxmlformats.org/officeDocument/2006/math}"


def document(path: Path) -> ElementTree.Element:
    with zipfile.ZipFile(path) as file:
        return ElementTree.fromstring(file.read("word/document.xml"))


def held(path: Path) -> dict[str, object]:
    """What a reader of the file would miss: words, what stands in equations, and how many of each thing there are."""
    root = document(path)
    words = "".join("".join(text.text or "" for text in root.iter(f"{WORD}t")).split())
    maths = "".join("".join(text.text or "" for text in root.iter(f"{MATHS}t")).split())
    return {
        "words": words,
        # Brackets and fraction bars become objects around what they hold.
        "maths": re.sub(r"[()/|]", "", maths),
        "equations": len(list(root.iter(f"{MATHS}oMath"))),
        "tables": len(list(root.iter(f"{WORD}tbl"))),
        "ticks": words.count("✓"),
        "pictures": len([one for one in root.iter() if one.tag.endswith("}blip")]),
    }


@pytest.mark.parametrize("name", DOCUMENTS)
def test_stored_again_nothing_is_lost(name: str, tmp_path: Path, editions: Editions) -> None:
    paths = editions(name, "docx").values()
    profile = f"-env:UserInstallation=file://{tmp_path / 'profile'}"
    command = [program("soffice"), profile, "--headless", "--convert-to", "docx", "--outdir", str(tmp_path)]
    subprocess.run([*command, *map(str, paths)], check=True, capture_output=True, timeout=300)
    for path in paths:
        before = held(path)
        assert held(tmp_path / path.name) == before
        assert before["words"]
    assert held(editions(name, "docx")["memo"])["equations"]


@pytest.mark.parametrize("name", DOCUMENTS)
def test_rows_stay_whole_and_tables_apart(name: str, editions: Editions) -> None:
    for path in editions(name, "docx").values():
        root = document(path)
        for table in root.iter(f"{WORD}tbl"):
            for row in table.iter(f"{WORD}tr"):
                assert row.find(f"{WORD}trPr/{WORD}cantSplit") is not None
        body = root.find(f"{WORD}body")
        assert body is not None
        kinds = [one.tag for one in body if "bookmark" not in one.tag]
        # Word makes two tables one that have no paragraph between them.
        assert (f"{WORD}tbl", f"{WORD}tbl") not in set(pairwise(kinds))


@pytest.mark.parametrize("name", DOCUMENTS)
def test_a_working_is_kept_together_and_with_what_asks_for_it(name: str, editions: Editions) -> None:
    """Every line of a working but its last stays with the next, and no heading ends a page."""
    for path in editions(name, "docx").values():
        with zipfile.ZipFile(path) as file:
            styles = ElementTree.fromstring(file.read("word/styles.xml"))
        kept = {
            style.get(f"{WORD}styleId")
            for style in styles.iter(f"{WORD}style")
            if style.find(f"{WORD}pPr/{WORD}keepNext") is not None
        }
        assert {"WorkingLine", "PartLead", "Heading1", "Heading2", "SmallHeading", "PartHeading"} <= kept
        for table in document(path).iter(f"{WORD}tbl"):
            style = table.find(f"{WORD}tblPr/{WORD}tblStyle")
            used = {one.get(f"{WORD}val") for one in table.iter(f"{WORD}pStyle")}
            if style is None or style.get(f"{WORD}val") != "Working" or "WorkingLine" not in used:
                continue
            rows = table.findall(f"{WORD}tr")
            for row in rows[:-1]:
                assert {one.get(f"{WORD}val") for one in row.iter(f"{WORD}pStyle")} <= kept


@pytest.mark.parametrize("name", DOCUMENTS)
def test_no_tex_is_left_in_a_word_file(name: str, editions: Editions) -> None:
    """What pandoc cannot make an equation of it leaves as TeX between dollar signs."""
    for path in editions(name, "docx").values():
        assert "\\" not in str(held(path)["words"])
        assert "$" not in str(held(path)["words"])


@pytest.mark.parametrize("name", DOCUMENTS)
def test_word_can_read_every_part(name: str, editions: Editions) -> None:
    """Properties in the schema's order, cells that end with a paragraph, rows as wide as their grid, named styles."""
    for path in editions(name, "docx").values():
        with zipfile.ZipFile(path) as file:
            parts = {
                part: ElementTree.fromstring(file.read(part))
                for part in file.namelist()
                if part.endswith(".xml")
            }
        for part, root in parts.items():
            assert list(misplaced(root)) == [], part
        styles = {style.get(f"{WORD}styleId") for style in parts["word/styles.xml"].iter(f"{WORD}style")}
        root = parts["word/document.xml"]
        for kind in ("pStyle", "rStyle", "tblStyle"):
            assert {one.get(f"{WORD}val") for one in root.iter(f"{WORD}{kind}")} <= styles
        modes = [one.get(f"{WORD}val") for one in parts["word/settings.xml"].iter(f"{WORD}compatSetting")]
        assert modes == ["15"]
        for table in root.iter(f"{WORD}tbl"):
            grid = [int(one.get(f"{WORD}w", "0")) for one in table.findall(f"{WORD}tblGrid/{WORD}gridCol")]
            for row in table.findall(f"{WORD}tr"):
                cells = row.findall(f"{WORD}tc")
                spans = [cell.find(f"{WORD}tcPr/{WORD}gridSpan") for cell in cells]
                assert sum(1 if span is None else int(span.get(f"{WORD}val", "0")) for span in spans) == len(
                    grid
                )
                widths = [cell.find(f"{WORD}tcPr/{WORD}tcW") for cell in cells]
                assert sum(int(one.get(f"{WORD}w", "0")) for one in widths if one is not None) == sum(grid)
                assert all(list(cell)[-1].tag == f"{WORD}p" for cell in cells)


@pytest.mark.parametrize("name", DOCUMENTS)
def test_another_word_processor_prints_all_marks(name: str, tmp_path: Path, editions: Editions) -> None:
    """What a tab puts beyond an indent is lost by some: each bracketed mark is to be read on the printed page."""
    paths = [path for edition, path in editions(name, "docx").items() if edition != "guide"]
    profile = f"-env:UserInstallation=file://{tmp_path / 'profile'}"
    command = [program("soffice"), profile, "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path)]
    subprocess.run([*command, *map(str, paths)], check=True, capture_output=True, timeout=300)
    for path in paths:
        words = "\n".join(sheet.extract_text() for sheet in PdfReader(tmp_path / f"{path.stem}.pdf").pages)
        lines = [
            "".join(text.text or "" for text in one.iter(f"{WORD}t"))
            for one in document(path).iter(f"{WORD}p")
        ]
        marks = [found[1] for line in lines if (found := re.search(r"(\(\d\d?\)|\[\d\d?\])$", line))]
        assert len(marks) > 5
        for mark in set(marks):
            assert words.count(mark) >= marks.count(mark)
