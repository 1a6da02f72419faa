"""Word files: what is done to them after pandoc."""

from __future__ import annotations

import re

from physcalc_filter.outputs.archive import unzipped, zipped
from physcalc_filter.outputs.word import finished

STYLE = '<w:pStyle w:val="WorkingLine" />'
FULL = f"<w:tc><w:p><w:pPr>{STYLE}</w:pPr><w:r><w:t>x</w:t></w:r></w:p></w:tc>"


def body(text: str) -> str:
    return unzipped(finished(zipped({"word/document.xml": text.encode()}), 9000))[
        "word/document.xml"
    ].decode()


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


GRID = '<w:tblGrid><w:gridCol w:w="100" /><w:gridCol w:w="300" /></w:tblGrid>'
CELL = "<w:tc><w:tcPr />{}</w:tc>"


def table(properties: str, *rows: str) -> str:
    made = "".join(f"<w:tr>{row}</w:tr>" for row in rows)
    return f"<w:tbl><w:tblPr>{properties}</w:tblPr>{GRID}{made}</w:tbl>"


def test_a_share_of_the_line_is_a_width_of_the_grid_and_of_each_cell() -> None:
    two = CELL.format("<w:p><w:r><w:t>x</w:t></w:r></w:p>") * 2
    both = '<w:tc><w:tcPr><w:gridSpan w:val="2" /></w:tcPr><w:p><w:r><w:t>x</w:t></w:r></w:p></w:tc>'
    made = body(table('<w:tblW w:type="pct" w:w="2500" />', two, both))
    # Half of 9000, in shares of 1 and 3.
    assert re.findall(r'<w:gridCol w:w="(\d+)"', made) == ["1125", "3375"]
    assert re.findall(r'<w:tcW w:w="(\d+)"', made) == ["1125", "3375", "4500"]
    # ECMA-376 part 1, CT_TcPr: the width stands before the span.
    assert '<w:tcPr><w:tcW w:w="4500" w:type="dxa"/><w:gridSpan' in made


def test_a_table_of_its_own_width_is_as_wide_as_its_words_and_in_the_middle() -> None:
    text = "<w:p><w:pPr>" + '<w:pStyle w:val="Compact" />' + "</w:pPr><w:r><w:t>{}</w:t></w:r></w:p>"
    row = CELL.format(text.format("t")) + CELL.format(text.format("time of ten swings"))
    ruled = '<w:tblStyle w:val="Table" /><w:tblW w:type="auto" w:w="0" />'
    made = body(table(ruled, row))
    narrow, wide = map(int, re.findall(r'<w:gridCol w:w="(\d+)"', made))
    assert narrow < wide < 4500
    assert '<w:tblW w:type="auto" w:w="0" /><w:jc w:val="center"/>' in made
    assert "Compact" not in made
    long = CELL.format(text.format("word " * 100)) * 2
    widths = [int(one) for one in re.findall(r'<w:gridCol w:w="(\d+)"', body(table(ruled, long)))]
    assert sum(widths) == 9000


def test_marks_stand_at_the_margin_whatever_the_indent_of_the_style() -> None:
    marks = '<w:r><w:tab/></w:r><w:r><w:rPr><w:rStyle w:val="Marks" /></w:rPr><w:t>(2)</w:t></w:r>'
    head = '<w:p><w:pPr><w:pStyle w:val="Part" /></w:pPr><w:r><w:t>1.1</w:t></w:r>'
    made = body(f"{head}{marks}</w:p>{head}</w:p>")
    assert made.count('<w:ind w:right="0"/>') == 1
    assert made.startswith('<w:p><w:pPr><w:pStyle w:val="Part" /><w:ind w:right="0"/></w:pPr>')
    # ECMA-376 part 1, CT_PPrBase: an indent stands before the alignment.
    aligned = f'<w:p><w:pPr><w:pStyle w:val="Part" /><w:jc w:val="left" /></w:pPr>{marks}</w:p>'
    assert '<w:ind w:right="0"/><w:jc w:val="left" />' in body(aligned)


def test_the_edition_stands_at_the_right_of_the_last_line_of_the_title() -> None:
    edition = '<w:p><w:pPr><w:pStyle w:val="Edition" /></w:pPr><w:r><w:t>Marking memo</w:t></w:r></w:p>'
    title = '<w:p><w:pPr><w:pStyle w:val="Title" /></w:pPr><w:r><w:t>Test</w:t></w:r></w:p>'
    author = '<w:p><w:pPr><w:pStyle w:val="Author" /></w:pPr><w:r><w:t>A</w:t></w:r></w:p>'
    made = body(title + edition)
    assert made.count("<w:p>") == 1
    assert made.index("Test") < made.index("<w:tab/>") < made.index("Marking memo")
    assert "pBdr" in made
    assert body(title + author + edition).count("<w:p>") == 3


def test_an_archive_is_the_same_bytes_and_keeps_its_order() -> None:
    parts = {"mimetype": b"application/epub+zip", "b": b"2", "a": b"1"}
    assert zipped(parts) == zipped(dict(parts))
    assert list(unzipped(zipped(parts)).items()) == list(parts.items())
