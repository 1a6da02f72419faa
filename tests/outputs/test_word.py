"""Word files: what is done to them after pandoc."""

from __future__ import annotations

import base64
import json
import re
import struct
from pathlib import Path

import pypandoc
import pytest
from physcalc_filter.cli import main
from physcalc_filter.figures import raster
from physcalc_filter.outputs.archive import unzipped, zipped
from physcalc_filter.outputs.word import finished
from physcalc_filter.pandoc_run import answer

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


def test_words_in_a_formula_are_text_or_in_a_style_but_not_both() -> None:
    made = body(
        '<m:r><m:rPr><m:nor /><m:sty m:val="p" /></m:rPr><m:t>net</m:t></m:r><m:rPr><m:sty m:val="p" /></m:rPr>'
    )
    # ECMA-376 part 1, CT_RPR: a choice of the two.
    assert made == '<m:r><m:rPr><m:nor/></m:rPr><m:t>net</m:t></m:r><m:rPr><m:sty m:val="p" /></m:rPr>'


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


def test_a_column_has_room_for_a_bold_head() -> None:
    ruled = '<w:tblStyle w:val="Table" /><w:tblW w:type="auto" w:w="0" />'
    plain = CELL.format("<w:p><w:r><w:t>Label</w:t></w:r></w:p>")
    bold = CELL.format("<w:p><w:r><w:rPr><w:b /></w:rPr><w:t>Label</w:t></w:r></w:p>")
    light, heavy = (
        int(re.findall(r'<w:gridCol w:w="(\d+)"', body(table(ruled, cell * 2)))[0]) for cell in (plain, bold)
    )
    # Five bold letters of 11 points, 0.7 of them wide (DejaVu Serif, measured), between margins of 108.
    assert light < heavy
    assert heavy >= 5 * 0.7 * 220 + 216


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
    assert made.index("Test") < made.index("<w:tab/>") < made.index("Marking\u00a0memo")
    assert "pBdr" in made
    assert body(title + author + edition).count("<w:p>") == 3


def test_an_archive_is_the_same_bytes_and_keeps_its_order() -> None:
    parts = {"mimetype": b"application/epub+zip", "b": b"2", "a": b"1"}
    assert zipped(parts) == zipped(dict(parts))
    assert list(unzipped(zipped(parts)).items()) == list(parts.items())


DRAWN = """# Question 1 {.question #q marks=1}

```{.draw}
situation:
  - charge q_1
  - charge q_2, 0.3 m right of q_1
```

```{.draw}
situation:
  - pendulum m, length L
```
"""


def sizes(pictures: list[bytes]) -> list[tuple[int, int]]:
    """The width and height of PNGs, which stand behind their first sixteen bytes."""
    assert all(picture.startswith(b"\x89PNG\r\n\x1a\n") for picture in pictures)
    return [struct.unpack(">II", picture[16:24]) for picture in pictures]


@pytest.mark.parametrize("store", ["off", "kept"])
def test_the_pictures_themselves_lie_in_the_file(
    store: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PHYSCALC_CACHE", store if store == "off" else str(tmp_path / "store"))
    (tmp_path / "a.md").write_text(DRAWN, encoding="utf-8")
    found = []
    for n in range(2):
        target = tmp_path / f"{n}.docx"
        assert main(["build", str(tmp_path / "a.md"), "-o", str(target)]) == 0
        parts = unzipped(target.read_bytes())
        found.append([content for name, content in parts.items() if name.startswith("word/media/")])
    assert found[0] == found[1]
    assert len(found[0]) == 2
    assert all(width > 600 and height > 150 for width, height in sizes(found[0]))


def test_the_filter_hands_the_pictures_themselves_to_pandoc() -> None:
    source = json.dumps(
        {
            "pandoc-api-version": [1, 23],
            "meta": {},
            "blocks": json.loads(pypandoc.convert_text(DRAWN, "json", format="markdown"))["blocks"],
        }
    )
    written = answer(source, "docx").written
    assert written is not None
    pictures = re.findall(r"data:image/png;base64,([A-Za-z0-9+/=]+)", written)
    assert len(pictures) == 2
    assert all(width > 600 for width, _ in sizes([base64.b64decode(one) for one in pictures]))


def test_a_picture_of_an_author_stands_in_for_none() -> None:
    assert raster.finished(b"\x89PNG\r\n\x1a\n of mine") == b"\x89PNG\r\n\x1a\n of mine"
