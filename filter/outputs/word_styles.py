"""The styles of the Word pages, as a table: name, kind, what it builds on, paragraph and run properties."""

from __future__ import annotations

#: Width of the text on A4 with margins of 24 mm, in twentieths of a point: where the right tab stands.
TEXT_WIDTH = 9184

#: The hanging number of a part, and the place of an option's letter.
NUMBER_WIDTH = 652
LETTER_WIDTH = 400

#: The column at the right of the text in which bracketed marks stand (0.95 cm).
MARKS_WIDTH = 540

_TAB = f'<w:tabs><w:tab w:val="right" w:pos="{TEXT_WIDTH}"/></w:tabs>'
_TWO_TABS = _TAB.replace("<w:tabs>", f'<w:tabs><w:tab w:val="left" w:pos="{NUMBER_WIDTH}"/>')


def _spacing(before: int, after: int, line: int = 264) -> str:
    return f'<w:spacing w:before="{before}" w:after="{after}" w:line="{line}" w:lineRule="auto"/>'


def _edge(side: str, size: int, space: int) -> str:
    return f'<w:{side} w:val="single" w:sz="{size}" w:space="{space}" w:color="auto"/>'


_TOGETHER = "<w:keepNext/><w:keepLines/>"
_CLEAR = f'<w:ind w:right="{MARKS_WIDTH}"/>'
_BESIDE = f'<w:ind w:left="{NUMBER_WIDTH}" w:right="{MARKS_WIDTH}"/>'
_HUNG = _BESIDE.replace("/>", f' w:hanging="{NUMBER_WIDTH}"/>')
_BLACK = '<w:color w:val="auto"/>'
_CENTRE = '<w:jc w:val="center"/>'
_FRAME = "".join(_edge(side, 8, 6) for side in ("top", "left", "bottom", "right"))

_NOTE = (
    '<w:tabs><w:tab w:val="left" w:pos="1250"/></w:tabs>' + _spacing(20, 20, 240)
    + '<w:ind w:left="1250" w:hanging="850"/>'
)  # fmt: skip


def _item(left: int) -> str:
    at = left + 240
    return (
        f'<w:tabs><w:tab w:val="left" w:pos="{at}"/></w:tabs>' + _spacing(20, 40)
        + f'<w:ind w:left="{at}" w:right="{MARKS_WIDTH}" w:hanging="240"/>'
    )  # fmt: skip


#: (name, base, paragraph properties, run properties); a style that pandoc's document has is replaced, the
#: others are added. Word reads the properties only in the schema's order.
PARAGRAPHS: tuple[tuple[str, str, str, str], ...] = (
    ("Normal", "", _TAB + _spacing(0, 120), ""),
    ("Body Text", "Normal", _spacing(0, 120) + _CLEAR, ""),
    ("Kept Text", "BodyText", "<w:keepNext/>", ""),
    ("First Paragraph", "BodyText", "", ""),
    ("Compact", "BodyText", _spacing(20, 20), ""),
    ("Table Cell", "Normal", _spacing(20, 20), ""),
    ("Table Cell Kept", "TableCell", "<w:keepNext/>", ""),
    (
        "Title", "Normal", "<w:keepNext/>" + _spacing(0, 40, 240),
        '<w:b/><w:bCs/>' + _BLACK + '<w:sz w:val="34"/><w:szCs w:val="34"/>',
    ),
    (
        "Subtitle", "Normal", "<w:keepNext/>" + _spacing(0, 40, 240),
        '<w:b w:val="0"/>' + _BLACK + '<w:sz w:val="24"/><w:szCs w:val="24"/>',
    ),
    (
        "Edition", "Normal", "<w:keepNext/><w:pBdr>" + _edge("bottom", 8, 5) + "</w:pBdr>" + _spacing(0, 160, 240)
        + '<w:jc w:val="right"/>',
        '<w:b/><w:bCs/><w:sz w:val="24"/><w:szCs w:val="24"/>',
    ),
    ("Author", "Normal", "<w:keepNext/>" + _spacing(0, 20), ""),
    ("Date", "Normal", "<w:keepNext/>" + _spacing(0, 20), ""),
    (
        "Facts", "Normal", _TAB + _spacing(0, 240), "",
    ),
    (
        "Heading 1", "Normal", _TOGETHER + _spacing(320, 120) + '<w:outlineLvl w:val="0"/>',
        "<w:b/><w:bCs/>" + _BLACK + '<w:sz w:val="25"/><w:szCs w:val="25"/>',
    ),
    (
        "Heading 2", "Normal", _TOGETHER + _spacing(240, 100) + '<w:outlineLvl w:val="1"/>',
        "<w:b/><w:bCs/>" + _BLACK + '<w:sz w:val="22"/><w:szCs w:val="22"/>',
    ),
    (
        "Heading 3", "Normal", _TOGETHER + _spacing(200, 80) + '<w:outlineLvl w:val="2"/>',
        "<w:i/><w:iCs/>" + _BLACK + '<w:sz w:val="22"/><w:szCs w:val="22"/>',
    ),
    ("Small Heading", "Normal", "<w:keepNext/>" + _spacing(160, 60), "<w:b/><w:bCs/>"),
    (
        "Part", "Normal",
        _TWO_TABS + _spacing(200, 100) + _HUNG, "",
    ),
    ("Part Lead", "Part", "<w:keepNext/>", ""),
    ("Part Body", "Normal", _BESIDE, ""),
    ("Part Kept", "PartBody", "<w:keepNext/>", ""),
    ("Part Heading", "Normal", "<w:keepNext/>" + _TWO_TABS + _spacing(160, 60) + _HUNG, "<w:b/><w:bCs/>"),
    ("Item", "Normal", _item(0), ""),
    ("Part Item", "Normal", _item(NUMBER_WIDTH), ""),
    ("Working Line", "Normal", "<w:keepNext/>" + _spacing(40, 40, 240), ""),
    ("Working Opening", "WorkingLine", "<w:keepNext/>" + _spacing(160, 40, 240), ""),
    ("Working End", "Normal", _spacing(40, 40, 240), ""),
    ("Working Note", "Normal", "<w:keepNext/>" + _NOTE, '<w:sz w:val="19"/><w:szCs w:val="19"/>'),
    ("Working Last Note", "WorkingNote", '<w:keepNext w:val="0"/>', ""),
    (
        "Option", "Normal",
        f'<w:tabs><w:tab w:val="left" w:pos="{LETTER_WIDTH}"/></w:tabs>' + _spacing(40, 40)
        + f'<w:ind w:left="{LETTER_WIDTH}" w:hanging="{LETTER_WIDTH}"/>', "",
    ),
    (
        "Definition Wording", "Normal",
        "<w:keepLines/><w:pBdr>" + _edge("left", 8, 8)
        + f'</w:pBdr><w:ind w:left="{NUMBER_WIDTH + 220}"/>', "",
    ),
    ("Framed Problem", "Normal", "<w:pBdr>" + _FRAME + '</w:pBdr><w:ind w:left="160" w:right="160"/>', ""),
    (
        "Writing Line", "Normal",
        "<w:pBdr>" + _edge("bottom", 4, 1) + _edge("between", 4, 1) + "</w:pBdr>"
        '<w:spacing w:before="0" w:after="0" w:line="480" w:lineRule="exact"/>'
        f'<w:ind w:left="{NUMBER_WIDTH}"/>', "",
    ),
    ("Writing Line Kept", "WritingLine", "<w:keepNext/>", ""),
    ("Total Line", "Normal", _spacing(120, 240) + '<w:jc w:val="right"/>', "<w:b/><w:bCs/>"),
    ("Total Line Kept", "TotalLine", "<w:keepNext/>", ""),
    ("Between Tables", "Normal", '<w:spacing w:before="0" w:after="0" w:line="150" w:lineRule="exact"/>', ""),
    ("Caption", "Normal", _spacing(0, 120), _BLACK + '<w:sz w:val="20"/><w:szCs w:val="20"/>'),
    ("Figure", "Normal", _spacing(120, 120, 240) + _CENTRE, ""),
    ("Captioned Figure", "Figure", "<w:keepNext/>" + _spacing(120, 60, 240), ""),
    ("Image Caption", "Caption", _spacing(0, 160) + _CENTRE, ""),
    ("Image Caption Kept", "ImageCaption", "<w:keepNext/>", ""),
    ("Block Text", "BodyText", '<w:ind w:left="480" w:right="480"/>', _BLACK),
    ("header", "Normal", _TAB + _spacing(0, 0), '<w:sz w:val="18"/><w:szCs w:val="18"/>'),
    ("footer", "Normal", _TAB + _spacing(0, 0), '<w:sz w:val="18"/><w:szCs w:val="18"/>'),
)  # fmt: skip

_SCRIPTS = ("ascii", "hAnsi", "eastAsia", "cs")

#: What `Marks` is for says `word.py`. The tick comes from a font of each system that has it: the text font may not.
CHARACTERS: tuple[tuple[str, str], ...] = (
    ("Marks", ""),
    ("Edition Name", '<w:b/><w:bCs/><w:sz w:val="24"/><w:szCs w:val="24"/>'),
    ("Tick", "<w:rFonts " + " ".join(f'w:{which}="Segoe UI Symbol"' for which in _SCRIPTS) + "/>"),
)

_CELLS = (
    '<w:tblCellMar><w:top w:w="0" w:type="dxa"/><w:left w:w="30" w:type="dxa"/>'
    '<w:bottom w:w="0" w:type="dxa"/><w:right w:w="0" w:type="dxa"/></w:tblCellMar>'
)
_GRID = "".join(_edge(side, 4, 0) for side in ("top", "left", "bottom", "right", "insideH", "insideV"))

_HEAD = '<w:tblStylePr w:type="firstRow"><w:rPr><w:b/><w:bCs/></w:rPr></w:tblStylePr>'
_ROOMY = _CELLS.replace('w:w="30"', 'w:w="100"').replace('<w:right w:w="0"', '<w:right w:w="100"')

#: (name, table properties, where text stands in a cell, what its parts have of their own): a working stands without
#: borders, as do options, of which one may run over two lines.
TABLES: tuple[tuple[str, str, str, str], ...] = (
    ("Working", f'<w:tblInd w:w="0" w:type="dxa"/>{_CELLS}', "center", ""),
    ("Options", f'<w:tblInd w:w="0" w:type="dxa"/>{_CELLS}', "top", ""),
    ("Table", f'<w:tblInd w:w="0" w:type="dxa"/><w:tblBorders>{_GRID}</w:tblBorders>{_ROOMY}', "center", _HEAD),
)  # fmt: skip
