"""The reference document of the Word pages: made once from pandoc's own, fitted to each document.

Run as a program (`python -m physcalc_filter.outputs.reference_docx`) it makes the stored file anew; that is
needed after a change of `word_styles.py` only.
"""

from __future__ import annotations

import re
import subprocess
from html import escape
from importlib import resources
from pathlib import Path

from ..editions.words import Words
from .archive import unzipped, zipped
from .word_styles import CHARACTERS, PARAGRAPHS, TABLES, TEXT_WIDTH

STORED = "pages/reference.docx"

#: Width and height of the paper in twentieths of a point.
_PAPERS = {"a4": (11906, 16838), "us-letter": (12240, 15840)}
_MARGIN = 1361  # 24 mm

_FONT = "Cambria"  # its maths is Word's own, Cambria Math

_NAMESPACES = (
    'xmlns:w="http://schemas.openxmlformats.org/wordprocessingml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
)
_KINDS = "application/vnd.openxmlformats-officedocument.wordprocessingml."
_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"

#: Name, kind, pages and relation of what stands above and below the text. The first page has its name already.
_EDGES = (
    ("header1.xml", "header", "default", "rIdHeader"),
    ("header2.xml", "header", "first", "rIdFirstHeader"),
    ("footer1.xml", "footer", "default", "rIdFooter"),
    ("footer2.xml", "footer", "first", "rIdFirstFooter"),
)

#: Without it Word opens a file as one of its older versions' (MS-DOCX, 2.3.2).
_OF_TODAY = (
    '<w:compat><w:compatSetting w:name="compatibilityMode" '
    'w:uri="http://schemas.microsoft.com/office/word" w:val="15"/></w:compat>'
)


def _style_id(name: str) -> str:
    return name.replace(" ", "") if name not in ("header", "footer") else name.capitalize()


def _set_style(styles: str, kind: str, name: str, body: str) -> str:
    """Styles with one put in: in the place of the one of that name, or as the last."""
    identifier = _style_id(name)
    default = ' w:default="1"' if name == "Normal" else ""
    mine = (
        f'<w:style w:type="{kind}"{default} w:styleId="{identifier}"><w:name w:val="{name}"/>{body}</w:style>'
    )
    pattern = re.compile(rf'<w:style [^>]*w:styleId="{re.escape(identifier)}"[^>]*>.*?</w:style>', re.DOTALL)
    replaced, count = pattern.subn(lambda _: mine, styles, count=1)
    return replaced if count else styles.replace("</w:styles>", mine + "</w:styles>")


def _styles(styles: str) -> str:
    fonts = f'<w:rFonts w:ascii="{_FONT}" w:hAnsi="{_FONT}" w:eastAsia="{_FONT}" w:cs="{_FONT}"/>'
    styles = re.sub(
        r"<w:rPrDefault>.*?</w:rPrDefault>",
        f'<w:rPrDefault><w:rPr>{fonts}<w:sz w:val="22"/><w:szCs w:val="22"/><w:lang w:val="en-GB"/>'
        "</w:rPr></w:rPrDefault>",
        styles,
        flags=re.DOTALL,
    )
    for name, base, paragraph, run in PARAGRAPHS:
        based = f'<w:basedOn w:val="{base}"/>' if base else ""
        if name.startswith("Heading") or name in ("Title", "Subtitle"):
            based += '<w:next w:val="BodyText"/>'
        body = f"{based}<w:qFormat/><w:pPr>{paragraph}</w:pPr><w:rPr>{run}</w:rPr>"
        styles = _set_style(styles, "paragraph", name, body)
    for name, run in CHARACTERS:
        styles = _set_style(styles, "character", name, f"<w:qFormat/><w:rPr>{run}</w:rPr>")
    for name, table, place, own in TABLES:
        cells = f'<w:tcPr><w:vAlign w:val="{place}"/></w:tcPr>'
        body = f"<w:tblPr>{table}</w:tblPr><w:trPr><w:cantSplit/></w:trPr>{cells}{own}"
        styles = _set_style(styles, "table", name, body)
    return styles


def _words(text: str) -> str:
    return f'<w:r><w:t xml:space="preserve">{text}</w:t></w:r>'


def _field(code: str) -> str:
    return f'<w:fldSimple w:instr=" {code} "><w:r><w:t>1</w:t></w:r></w:fldSimple>'


def _edge(kind: str, content: str) -> str:
    element, style = ("hdr", "Header") if kind == "header" else ("ftr", "Footer")
    return (
        f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?><w:{element} {_NAMESPACES}><w:p><w:pPr>'
        f'<w:pStyle w:val="{style}"/></w:pPr>{content}</w:p></w:{element}>'
    )


def _content(kind: str, pages: str) -> str:
    tab = "<w:r><w:tab/></w:r>"
    if kind == "header":
        return f"{_words('@@TITLE@@')}{tab}{_words('@@EDITION@@')}" if pages == "default" else ""
    number = f"{_words('@@PAGE@@ ')}{_field('PAGE')}{_words(' @@OF@@ ')}{_field('NUMPAGES')}"
    return tab + number


def _section() -> str:
    width, height = _PAPERS["a4"]
    edges = "".join(
        f'<w:{kind}Reference w:type="{pages}" r:id="{relation}"/>' for _, kind, pages, relation in _EDGES
    )
    return (
        f'<w:sectPr>{edges}<w:pgSz w:w="{width}" w:h="{height}"/>'
        f'<w:pgMar w:top="1247" w:right="{_MARGIN}" w:bottom="1361" '
        f'w:left="{_MARGIN}" w:header="680" w:footer="680" w:gutter="0"/><w:titlePg/></w:sectPr>'
    )


def build(default: bytes) -> bytes:
    """Our reference document, made from pandoc's; the same bytes each time."""
    parts = unzipped(default)

    def edit(name: str, change: object) -> None:
        parts[name] = str(change).encode()

    edit("word/styles.xml", _styles(parts["word/styles.xml"].decode()))
    document = parts["word/document.xml"].decode()
    edit("word/document.xml", re.sub(r"<w:sectPr>.*?</w:sectPr>", _section(), document, flags=re.DOTALL))
    kinds, relations = "", ""
    for name, kind, pages, relation in _EDGES:
        edit(f"word/{name}", _edge(kind, _content(kind, pages)))
        kinds += f'<Override PartName="/word/{name}" ContentType="{_KINDS}{kind}+xml"/>'
        relations += f'<Relationship Id="{relation}" Type="{_RELATIONS}{kind}" Target="{name}"/>'
    for name, added, end in (
        ("[Content_Types].xml", kinds, "</Types>"),
        ("word/_rels/document.xml.rels", relations, "</Relationships>"),
        ("word/settings.xml", _OF_TODAY, "<w:rsids>"),
    ):
        edit(name, parts[name].decode().replace(end, added + end, 1))
    return zipped(parts)


def fitted(words: Words, language: str, paper: str, title: str = "", edition: str = "") -> bytes:
    """The stored reference document with the words of a language around its pages, on a paper.

    Args:
        words: the words of the page.
        language: the language tag that a spelling checker goes by.
        paper: "a4" or "us-letter".
        title, edition: what the head of each page but the first says.
    """
    parts = unzipped((resources.files(__package__) / STORED).read_bytes())
    said = {"@@PAGE@@": words["page"], "@@OF@@": words["of"], "@@TITLE@@": title, "@@EDITION@@": edition}
    for name, *_ in _EDGES:
        edge = parts[f"word/{name}"].decode()
        # In one go: what is put in may look like a mark.
        filled = re.sub("@@[A-Z]+@@", lambda mark: escape(said[mark[0]]), edge)
        parts[f"word/{name}"] = filled.encode()
    styles = (
        parts["word/styles.xml"]
        .decode()
        .replace('w:lang w:val="en-GB"', f'w:lang w:val="{escape(language)}"')
    )
    if paper != "a4":
        width, height = _PAPERS[paper]
        wide, high = _PAPERS["a4"]
        document = parts["word/document.xml"].decode()
        size = f'<w:pgSz w:w="{width}" w:h="{height}"/>'
        parts["word/document.xml"] = document.replace(f'<w:pgSz w:w="{wide}" w:h="{high}"/>', size).encode()
        styles = styles.replace(f'w:pos="{TEXT_WIDTH}"', f'w:pos="{text_width(paper)}"')
    parts["word/styles.xml"] = styles.encode()
    return zipped(parts)


def text_width(paper: str) -> int:
    """How wide the text is on a paper ("a4", "us-letter"), in twentieths of a point."""
    return _PAPERS[paper][0] - 2 * _MARGIN


def default_of_pandoc() -> bytes:
    """Pandoc's own reference document."""
    from .pandoc import pandoc_path

    command = [pandoc_path(), "--print-default-data-file", "reference.docx"]
    return subprocess.run(command, capture_output=True, check=True, timeout=60).stdout


if __name__ == "__main__":
    Path(__file__).with_name("pages").joinpath("reference.docx").write_bytes(build(default_of_pandoc()))
