"""What pandoc's Word files still need: rows that stay whole, tables that stay apart, cells styled as their row is."""

from __future__ import annotations

import re

from .archive import unzipped, zipped

_TABLE = re.compile(r"<w:tbl>(?:(?!<w:tbl>).)*?</w:tbl>", re.DOTALL)
_ROW = re.compile(r"<w:tr\b[^>]*>.*?</w:tr>", re.DOTALL)
_STYLE = re.compile(r'<w:pStyle w:val="[^"]*" ?/>')
#: Two tables with nothing between but the marks of places, which Word would make one.
_MEETING = re.compile(r"(</w:tbl>)(?=(?:\s|<w:bookmark(?:Start|End)\b[^>]*>)*<w:tbl>)")
_BETWEEN = '<w:p><w:pPr><w:pStyle w:val="BetweenTables"/></w:pPr></w:p>'

_EMPTY = re.compile(r"<w:p ?/>|<w:p></w:p>")


def finished(made: bytes, drawings: bool = False) -> bytes:
    """A Word file whose rows are not torn by the end of a page, and whose tables stay apart.

    Args:
        made: what pandoc wrote.
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
    document = _TABLE.sub(lambda table: _ROW.sub(_row, table[0]), parts[name].decode())
    parts[name] = _MEETING.sub(rf"\1{_BETWEEN}", document).encode()
    return zipped(parts)


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
