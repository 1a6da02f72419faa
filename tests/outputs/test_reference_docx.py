"""The reference document of the Word pages."""

from __future__ import annotations

import io
import zipfile
from importlib import resources
from xml.etree import ElementTree

import pytest
from physcalc_filter.editions.words import words_for
from physcalc_filter.outputs.reference_docx import STORED, build, default_of_pandoc, fitted
from physcalc_filter.outputs.word_styles import CHARACTERS, PARAGRAPHS, TABLES

RELATION = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}id"
WORD = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def parts(content: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def stored() -> bytes:
    return (resources.files("physcalc_filter.outputs") / STORED).read_bytes()


def ours(content: bytes) -> dict[str, str]:
    """The styles of the table, as they stand in a document."""
    names = {name for name, *_ in (*PARAGRAPHS, *CHARACTERS, *TABLES)}
    found = {}
    for style in ElementTree.fromstring(parts(content)["word/styles.xml"]).iter(f"{WORD}style"):
        name = style.find(f"{WORD}name")
        assert name is not None
        title = str(name.get(f"{WORD}val"))
        if title in names:
            assert title not in found
            found[title] = ElementTree.tostring(style).decode().strip()
    assert set(found) == names
    return found


def test_the_stored_one_has_the_styles_of_the_table() -> None:
    # Whoever changes the table makes the file anew; pandoc's own parts may differ from version to version.
    assert ours(stored()) == ours(build(default_of_pandoc()))


def test_every_part_is_well_formed_and_declared() -> None:
    content = parts(stored())
    kinds = content["[Content_Types].xml"].decode()
    for name, text in content.items():
        if name.endswith((".xml", ".rels")):
            ElementTree.fromstring(text)
    section = ElementTree.fromstring(content["word/document.xml"]).find(f".//{WORD}sectPr")
    assert section is not None
    relations = ElementTree.fromstring(content["word/_rels/document.xml.rels"])
    targets = {one.get("Id"): one.get("Target") for one in relations}
    edges = section.findall(f"{WORD}headerReference") + section.findall(f"{WORD}footerReference")
    assert len(edges) == 4
    for edge in edges:
        target = targets[edge.get(RELATION)]
        assert f"word/{target}" in content
        assert f'"/word/{target}"' in kinds


def test_word_opens_it_as_a_file_of_today() -> None:
    # MS-DOCX 2.3.2: 15 is the mode of Word 2013 and later; without a setting a file is Word 2007's.
    settings = ElementTree.fromstring(parts(stored())["word/settings.xml"])
    modes = {one.get(f"{WORD}name"): one.get(f"{WORD}val") for one in settings.iter(f"{WORD}compatSetting")}
    assert modes["compatibilityMode"] == "15"


def test_the_order_of_properties_is_the_schemas() -> None:
    # ECMA-376 part 1, CT_PPrBase: the order in which Word accepts them.
    order = ["keepNext", "keepLines", "pBdr", "tabs", "spacing", "ind", "jc", "outlineLvl"]
    styles = ElementTree.fromstring(parts(stored())["word/styles.xml"])
    names = {name for name, *_ in PARAGRAPHS}
    for style in styles.iter(f"{WORD}style"):
        title = style.find(f"{WORD}name")
        properties = style.find(f"{WORD}pPr")
        if title is not None and title.get(f"{WORD}val") in names and properties is not None:
            places = [order.index(child.tag.removeprefix(WORD)) for child in properties]
            assert places == sorted(places), title.get(f"{WORD}val")


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_fitted_speaks_the_language_and_keeps_the_tab_at_the_margin(paper: str) -> None:
    made = parts(
        fitted(words_for("de", {"page": "Blatt <1> & 2"}), "de-DE", paper, "Kräfte & @@PAGE@@", "Lösung")
    )
    for name in ("footer1", "footer2"):
        footer = "".join(ElementTree.fromstring(made[f"word/{name}.xml"]).itertext())
        assert footer == "Blatt <1> & 2 1 von 1"
    heads = ["".join(ElementTree.fromstring(made[f"word/header{n}.xml"]).itertext()) for n in (1, 2)]
    # The first page bears its name anyway.
    assert heads == ["Kräfte & @@PAGE@@Lösung", ""]
    styles = made["word/styles.xml"].decode()
    assert 'w:lang w:val="de-DE"' in styles
    section = ElementTree.fromstring(made["word/document.xml"]).find(f".//{WORD}sectPr")
    assert section is not None
    size, margins = section.find(f"{WORD}pgSz"), section.find(f"{WORD}pgMar")
    assert size is not None
    assert margins is not None
    text = int(size.get(f"{WORD}w", "0")) - 2 * int(margins.get(f"{WORD}left", "0"))
    assert f'w:val="right" w:pos="{text}"' in styles
