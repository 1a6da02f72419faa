"""What pandoc's Word files still need: rows that stay whole, tables that stay apart and have their widths, cells styled
as their row is, marks at the margin, the edition beside the title.
"""

from __future__ import annotations

import re
from functools import partial

from .archive import unzipped, zipped

_TABLE = re.compile(r"<w:tbl>(?:(?!<w:tbl>).)*?</w:tbl>", re.DOTALL)
_ROW = re.compile(r"<w:tr\b[^>]*>.*?</w:tr>", re.DOTALL)
_STYLE = re.compile(r'<w:pStyle w:val="[^"]*" ?/>')
#: Two tables with nothing between but the marks of places, which Word would make one.
_MEETING = re.compile(r"(</w:tbl>)(?=(?:\s|<w:bookmark(?:Start|End)\b[^>]*>)*<w:tbl>)")
_BETWEEN = '<w:p><w:pPr><w:pStyle w:val="BetweenTables"/></w:pPr></w:p>'

_CELL = re.compile(r"<w:tc>.*?</w:tc>", re.DOTALL)
_SPAN = re.compile(r'<w:gridSpan w:val="(\d+)" ?/>')
_GRID = re.compile(r"<w:tblGrid>.*?</w:tblGrid>", re.DOTALL)
_COLUMN = re.compile(r'<w:gridCol(?: w:w="(\d+)")? ?/>')
_SHARE = re.compile(r'<w:tblW w:type="pct" w:w="(\d+)" ?/>')
_WIDTH = re.compile(r"<w:tblW\b[^>]*/>(?:<w:jc\b[^>]*/>)?")
_TEXT = re.compile(r"<([wm]):t(?: [^>]*)?>([^<]*)</\1:t>")
_BLANK_IN_TEXT = re.compile(r" (?=[^<>]*</w:t>)")
_RULED = '<w:tblStyle w:val="Table" />'

#: Widths in twentieths of a point: of a letter as it is on the average, with some to spare, and of a cell's margins.
_LETTER, _MARGINS = 118, 280
#: How much wider bold letters may be, also those of the fonts that stand in for ours.
_BOLD = 1.3

#: A paragraph with properties, and what stands behind an indent in them (ECMA-376 part 1, 17.3.1.26).
_PARAGRAPH = re.compile(r"<w:p>\s*<w:pPr>(?P<own>.*?)</w:pPr>(?P<rest>(?:(?!</w:p>).)*)</w:p>", re.DOTALL)
_MARKED = '<w:rStyle w:val="Marks" />'
_BEHIND = re.compile(
    r"<w:(?:contextualSpacing|mirrorIndents|suppressOverlap|jc|textAlignment|outlineLvl|rPr|sectPr)\b"
)

#: Words in a formula are text, or letters of mathematics in a style: both at once is more than the schema allows
#: (ECMA-376 part 1, 22.1.2.91, CT_RPR).
_WORDS_WITH_STYLE = re.compile(r"<m:nor ?/><m:sty\b[^>]*/>")

_EMPTY = re.compile(r"<w:p ?/>|<w:p></w:p>")

#: The last line of the title, and the edition that follows it on a line of its own.
_HEADED = re.compile(
    r'<w:pStyle w:val="(?P<style>Title|Subtitle)" ?/>\s*</w:pPr>(?P<words>(?:(?!</w:p>).)*)</w:p>\s*'
    r'<w:p><w:pPr><w:pStyle w:val="Edition" ?/></w:pPr><w:r>(?P<edition>(?:(?!</w:p>).)*)</w:r></w:p>',
    re.DOTALL,
)
_RULE = '<w:pBdr><w:bottom w:val="single" w:sz="8" w:space="5" w:color="auto"/></w:pBdr><w:spacing w:after="160"/>'


def finished(made: bytes, width: int, drawings: bool = False) -> bytes:
    """A Word file with what pandoc leaves out.

    Args:
        made: what pandoc wrote.
        width: how wide the text is, in twentieths of a point.
        drawings: whether pictures of ours are in it, for which others stand in.
    """
    parts = unzipped(made)
    if drawings:
        from ..figures import raster  # Here: most documents have no figure.

        for part in parts:
            if part.startswith("word/media/"):
                parts[part] = raster.finished(parts[part])
        raster.forget()
    name = "word/document.xml"
    document = _TABLE.sub(partial(_table, width=width), parts[name].decode())
    document = _PARAGRAPH.sub(_marked, document) if _MARKED in document else document
    document = _HEADED.sub(_headed, document, count=1)
    document = _WORDS_WITH_STYLE.sub("<m:nor/>", document)
    parts[name] = _MEETING.sub(rf"\1{_BETWEEN}", document).encode()
    return zipped(parts)


def _table(table: re.Match[str], width: int) -> str:
    text = _ROW.sub(_row, table[0])
    grid = _GRID.search(text)
    columns = [int(found or 0) for found in _COLUMN.findall(grid[0])] if grid else []
    if not columns:
        return text
    share = _SHARE.search(text)
    if share:
        # Pandoc reckons with a page of its own; a table with a fixed layout is as wide as its columns.
        room = width * int(share[1]) // 5000
        widths = [room * one // max(1, sum(columns)) for one in columns]
    else:
        widths = _needed(text, len(columns), width)
    made = "".join(f'<w:gridCol w:w="{one}"/>' for one in widths)
    text = _GRID.sub(f"<w:tblGrid>{made}</w:tblGrid>", text, count=1)
    if _RULED in text:
        # The paragraphs of the page keep clear of the margin for marks, those of a cell need not.
        text = text.replace('<w:pStyle w:val="Compact" />', '<w:pStyle w:val="TableCell"/>')
    if _RULED in text and sum(widths) < 0.95 * width:
        text = _WIDTH.sub(lambda found: f'{found[0]}<w:jc w:val="center"/>', text, count=1)
    return _ROW.sub(lambda row: _measured(row[0], widths), text)


def _needed(table: str, count: int, width: int) -> list[int]:
    """The width of each column by the longest text in it, all together no wider than the text of the page."""
    letters = [0.0] * count
    for row in _ROW.findall(table):
        at = 0
        for cell in _CELL.findall(row):
            span = _SPAN.search(cell)
            if span is None and at < count:
                wide = _BOLD if "<w:b />" in cell else 1.0
                letters[at] = max(letters[at], wide * sum(len(text) for _, text in _TEXT.findall(cell)))
            at += int(span[1]) if span else 1
    widths = [round(_LETTER * one) + _MARGINS for one in letters]
    return [one * min(width, sum(widths)) // sum(widths) for one in widths]


def _measured(row: str, widths: list[int]) -> str:
    """The row, each cell with its width: not every word processor takes it from the grid."""
    at = 0

    def cell(found: re.Match[str]) -> str:
        nonlocal at
        span = _SPAN.search(found[0])
        count = int(span[1]) if span else 1
        own = f'<w:tcPr><w:tcW w:w="{sum(widths[at : at + count])}" w:type="dxa"/>'
        at += count
        if "<w:tcPr />" in found[0]:
            return found[0].replace("<w:tcPr />", own + "</w:tcPr>", 1)
        if "<w:tcPr>" in found[0]:
            return found[0].replace("<w:tcPr>", own, 1)
        return found[0].replace("<w:tc>", f"<w:tc>{own}</w:tcPr>", 1)

    return _CELL.sub(cell, row)


def _headed(found: re.Match[str]) -> str:
    """The edition at the right of the title's last line, with the rule below both."""
    # Where the title leaves no room its words go to the next line together.
    words = _BLANK_IN_TEXT.sub("\u00a0", found["edition"])
    edition = f'<w:r><w:tab/></w:r><w:r><w:rPr><w:rStyle w:val="EditionName"/></w:rPr>{words}</w:r>'
    return f'<w:pStyle w:val="{found["style"]}"/>{_RULE}</w:pPr>{found["words"]}{edition}</w:p>'


def _marked(paragraph: re.Match[str]) -> str:
    """The paragraph as wide as the text, if its marks stand at the margin: some word processors lose what a tab puts
    beyond an indent.
    """
    if _MARKED not in paragraph["rest"]:
        return paragraph[0]
    behind = _BEHIND.search(paragraph["own"])
    at = paragraph.start("own") - paragraph.start() + (behind.start() if behind else len(paragraph["own"]))
    return paragraph[0][:at] + '<w:ind w:right="0"/>' + paragraph[0][at:]


def _row(row: re.Match[str]) -> str:
    text = row[0]
    if "<w:trPr>" in text:
        # The order of the schema (ECMA-376, 17.4.82): a row is whole before it is a head.
        text = text.replace("<w:trPr>", "<w:trPr><w:cantSplit/>", 1)
    else:
        text = re.sub(r"(<w:tr\b[^>]*>)", r"\1<w:trPr><w:cantSplit/></w:trPr>", text, count=1)
    style = _STYLE.search(text)
    if style is None:
        return text
    # Pandoc leaves a cell with nothing in it without a style, and its row as high as a line of text with its space.
    return _EMPTY.sub(f"<w:p><w:pPr>{style[0]}</w:pPr></w:p>", text)
