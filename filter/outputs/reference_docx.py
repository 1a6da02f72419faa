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
_FOOTER_KIND = "application/vnd.openxmlformats-officedocument.wordprocessingml.footer+xml"
_FOOTER_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/footer"


def _style_id(name: str) -> str:
    return name.replace(" ", "") if name != "footer" else "Footer"


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


def _footer() -> str:
    def field(code: str) -> str:
        return f'<w:fldSimple w:instr=" {code} "><w:r><w:t>1</w:t></w:r></w:fldSimple>'

    def words(text: str) -> str:
        return f'<w:r><w:t xml:space="preserve">{text}</w:t></w:r>'

    return (
        f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?><w:ftr {_NAMESPACES}><w:p><w:pPr>'
        f'<w:pStyle w:val="Footer"/></w:pPr>{words("@@RUNNING@@")}<w:r><w:tab/></w:r>'
        f"{words('@@PAGE@@ ')}{field('PAGE')}"
        f"{words(' @@OF@@ ')}{field('NUMPAGES')}</w:p></w:ftr>"
    )


def _section() -> str:
    width, height = _PAPERS["a4"]
    return (
        '<w:sectPr><w:footerReference w:type="default" r:id="rIdFooter"/>'
        f'<w:pgSz w:w="{width}" w:h="{height}"/><w:pgMar w:top="1247" w:right="{_MARGIN}" w:bottom="1361" '
        f'w:left="{_MARGIN}" w:header="708" w:footer="680" w:gutter="0"/></w:sectPr>'
    )


def build(default: bytes) -> bytes:
    """Our reference document, made from pandoc's; the same bytes each time."""
    parts = unzipped(default)

    def edit(name: str, change: object) -> None:
        parts[name] = str(change).encode()

    edit("word/styles.xml", _styles(parts["word/styles.xml"].decode()))
    document = parts["word/document.xml"].decode()
    edit("word/document.xml", re.sub(r"<w:sectPr>.*?</w:sectPr>", _section(), document, flags=re.DOTALL))
    edit("word/footer1.xml", _footer())
    kinds = parts["[Content_Types].xml"].decode()
    override = f'<Override PartName="/word/footer1.xml" ContentType="{_FOOTER_KIND}"/>'
    edit("[Content_Types].xml", kinds.replace("</Types>", override + "</Types>"))
    relations = parts["word/_rels/document.xml.rels"].decode()
    relation = f'<Relationship Id="rIdFooter" Type="{_FOOTER_RELATION}" Target="footer1.xml"/>'
    edit("word/_rels/document.xml.rels", relations.replace("</Relationships>", relation + "</Relationships>"))
    return zipped(parts)


def fitted(words: Words, language: str, paper: str, running: str = "") -> bytes:
    """The stored reference document with the words of a language in its foot, on a paper.

    Args:
        words: the words of the page.
        language: the language tag that a spelling checker goes by.
        paper: "a4" or "us-letter".
        running: what the foot of each page says beside its number.
    """
    parts = unzipped((resources.files(__package__) / STORED).read_bytes())
    footer = parts["word/footer1.xml"].decode()
    footer = footer.replace("@@PAGE@@", escape(words["page"])).replace("@@OF@@", escape(words["of"]))
    footer = footer.replace("@@RUNNING@@", escape(running))
    parts["word/footer1.xml"] = footer.encode()
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
        styles = styles.replace(f'w:pos="{TEXT_WIDTH}"', f'w:pos="{width - 2 * _MARGIN}"')
    parts["word/styles.xml"] = styles.encode()
    return zipped(parts)


def default_of_pandoc() -> bytes:
    """Pandoc's own reference document."""
    from .pandoc import pandoc_path

    command = [pandoc_path(), "--print-default-data-file", "reference.docx"]
    return subprocess.run(command, capture_output=True, check=True, timeout=60).stdout


if __name__ == "__main__":
    Path(__file__).with_name("pages").joinpath("reference.docx").write_bytes(build(default_of_pandoc()))
