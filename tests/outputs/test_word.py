"""Word files: what is done to them after pandoc."""

from __future__ import annotations

from physcalc_filter.outputs.archive import unzipped, zipped
from physcalc_filter.outputs.word import finished

STYLE = '<w:pStyle w:val="WorkingLine" />'
FULL = f"<w:tc><w:p><w:pPr>{STYLE}</w:pPr><w:r><w:t>x</w:t></w:r></w:p></w:tc>"


def body(text: str) -> str:
    return unzipped(finished(zipped({"word/document.xml": text.encode()})))["word/document.xml"].decode()


def test_an_empty_cell_is_styled_as_its_row() -> None:
    made = body(f"<w:tbl><w:tr>{FULL}<w:tc><w:tcPr /><w:p /></w:tc></w:tr></w:tbl>")
    assert made.count(STYLE) == 2
    assert "<w:p />" not in made


def test_a_row_is_whole_whether_it_is_a_head_or_not() -> None:
    made = body(f"<w:tbl><w:tr><w:trPr><w:tblHeader /></w:trPr>{FULL}</w:tr><w:tr>{FULL}</w:tr></w:tbl>")
    assert made.count("<w:cantSplit/>") == 2
    assert "<w:trPr><w:cantSplit/><w:tblHeader />" in made


def test_tables_that_meet_are_kept_apart() -> None:
    one = f"<w:tbl><w:tr>{FULL}</w:tr></w:tbl>"
    marks = '<w:bookmarkEnd w:id="1" />\n<w:bookmarkStart w:id="2" w:name="x" />'
    assert body(one + marks + one).count("BetweenTables") == 1
    assert body(one + "<w:p><w:r><w:t>x</w:t></w:r></w:p>" + one).count("BetweenTables") == 0


def test_an_archive_is_the_same_bytes_and_keeps_its_order() -> None:
    parts = {"mimetype": b"application/epub+zip", "b": b"2", "a": b"1"}
    assert zipped(parts) == zipped(dict(parts))
    assert list(unzipped(zipped(parts)).items()) == list(parts.items())
