"""Documents written to files, read back by other programs than the one that wrote them."""

from __future__ import annotations

import io
import re
import struct
import subprocess
import zipfile
import zlib
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import panflute as pf
import pypandoc
import pypdf
import pytest
from physcalc_filter.document import read_markup
from physcalc_filter.document.pandoc import find_pandoc
from physcalc_filter.editions.layout import Row, question_head, working
from physcalc_filter.outputs import ENDINGS, kind_of, write
from physcalc_filter.outputs import pandoc as pandoc_module
from physcalc_filter.outputs.problems import (
    OutputEndingUnknown,
    OutputFailed,
    OutputFolderMissing,
    OutputOverSource,
    PandocMissing,
    PandocTooOld,
    PictureUnreadable,
)
from physcalc_filter.outputs.tree import join_decimals, thin_blanks

from physcalc.problems import Span

from ..programs import program

Page = Callable[..., pf.Doc]

WORD = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"
MATHS = "{http://schemas.openxmlformats.org/officeDocument/2006/math}"


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


#: One black pixel (PNG specification, third edition, 5.3: length, type, data, CRC).
PNG = (
    b"\x89PNG\r\n\x1a\n"
    + chunk(b"IHDR", struct.pack(">IIBBBBB", 1, 1, 8, 0, 0, 0, 0))
    + chunk(b"IDAT", zlib.compress(b"\0\0"))
    + chunk(b"IEND", b"")
)


def pdf_text(path: Path) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(path).pages)


def one(*blocks: pf.Block, **meta: object) -> pf.Doc:
    return pf.Doc(*blocks, metadata=meta)


@pytest.mark.parametrize("ending", ENDINGS)
def test_every_ending_writes_a_file_and_nothing_beside_it(ending: str, page: Page, tmp_path: Path) -> None:
    target = tmp_path / f"memo{ending}"
    write(page(kind_of(target).layout), target, edition="memo")
    assert target.stat().st_size > 1000
    assert [path.name for path in tmp_path.iterdir()] == [target.name]
    assert target.stat().st_mode & 0o400


def test_a_pdf_shows_the_page(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.pdf"
    write(page("typst"), target, edition="memo")
    text = pdf_text(target)
    for piece in ("Mechanics test", "Marking memo", "12 March", "Time: 45 minutes", "Total: 22\u00a0marks"):
        assert piece in text
    pages = len(pypdf.PdfReader(target).pages)
    assert f"page 1 of {pages}" in text
    assert f"page {pages} of {pages}" in text
    # Ticks: 2 definition, 4 tension, 5 energy, 4 options, 5 charge.
    assert text.count("✓") == 20
    # The instructions are the candidates'.
    assert "Answer both" not in text


def test_a_pdf_needs_no_font_of_the_machine(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.pdf"
    write(page("typst"), target, edition="memo")
    named: set[str] = set()
    for sheet in pypdf.PdfReader(target).pages:
        for font in sheet["/Resources"]["/Font"].values():  # type: ignore[index]
            named.add(str(font.get_object()["/BaseFont"]).split("+")[-1])
    # The families inside the typst wheel.
    assert named
    assert all(name.startswith(("NewCM", "Libertinus", "DejaVu")) for name in named)


def test_the_paper_has_its_instructions_and_lines_to_write_on(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "paper.pdf"
    write(page("typst", memo=False), target, edition="paper")
    text = pdf_text(target)
    assert "Question paper" in text
    assert "Round to two decimal places." in text
    assert "✓" not in text
    assert "6 752" not in text.replace("\u202f", " ")


def test_no_part_is_torn_from_the_line_that_asks_for_it(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.pdf"
    write(page("typst"), target, edition="memo")
    sheets = [sheet.extract_text() for sheet in pypdf.PdfReader(target).pages]
    (asking,) = [at for at, text in enumerate(sheets) if "Calculate the force between" in text]
    # The only working with a value of 10,80 N is its own.
    (working,) = [at for at, text in enumerate(sheets) if "10,80" in text]
    assert asking == working


def test_nothing_of_a_long_line_runs_off_the_page(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.pdf"
    write(page("typst"), target, edition="memo")
    for sheet in pypdf.PdfReader(target).pages:
        right: list[float] = []

        def seen(text: str, cm: list[float], tm: list[float], *_: object, right: list[float] = right) -> None:
            if text.strip():
                right.append(tm[4] * cm[0] + cm[4])

        sheet.extract_text(visitor_text=seen)
        assert max(right) < float(sheet.mediabox.width) - 2.4 / 2.54 * 72


@pytest.mark.parametrize(
    ("lang", "said"),
    [
        ("af", "bladsy 1 van"),
        ("de-AT", "Seite 1 von"),
        ("fr", "page 1 sur"),
        ("nl", "pagina 1 van"),
        ("es", "página 1 de"),
        ("pt-BR", "página 1 de"),
        ("xx-nonsense]#panic()", "page 1 of"),
    ],
)
def test_the_foot_speaks_the_documents_language(lang: str, said: str, tmp_path: Path) -> None:
    target = tmp_path / "x.pdf"
    write(one(pf.Para(pf.Str("x")), lang=lang), target, edition="memo")
    assert said in pdf_text(target)


def test_own_words_are_printed_as_text(tmp_path: Path) -> None:
    hostile = '#panic("x")]</title><b>\\input{x}'
    for ending in (".pdf", ".html", ".docx", ".tex"):
        target = tmp_path / f"x{ending}"
        write(one(pf.Para(pf.Str("x"))), target, edition="memo", labels={"page": hostile, "memo": hostile})
    squeezed = "".join(pdf_text(tmp_path / "x.pdf").split())
    assert squeezed.count("".join(hostile.split())) >= 2
    html = (tmp_path / "x.html").read_text(encoding="utf-8")
    assert "</title><b>" not in html
    assert "\\input{x}" not in (tmp_path / "x.tex").read_text(encoding="utf-8")
    with zipfile.ZipFile(tmp_path / "x.docx") as archive:
        for name in archive.namelist():
            if name.endswith(".xml"):
                ElementTree.fromstring(archive.read(name))


def test_paper_sizes(tmp_path: Path) -> None:
    # ISO 216: 210 mm wide; US letter: 8.5 inches, in points of 1/72 inch.
    for size, points in (("a4", 210 / 25.4 * 72), ("letter", 8.5 * 72), ("nonsense", 210 / 25.4 * 72)):
        target = tmp_path / f"{size}.pdf"
        write(one(pf.Para(pf.Str("x")), papersize=size), target)
        assert float(pypdf.PdfReader(target).pages[0].mediabox.width) == pytest.approx(points, abs=0.1)
    write(one(pf.Para(pf.Str("x")), papersize="letter"), tmp_path / "x.docx")
    with zipfile.ZipFile(tmp_path / "x.docx") as archive:
        assert b'w:w="12240"' in archive.read("word/document.xml")


class Links(HTMLParser):
    """Every address in a page, and whether its tags are all closed."""

    def __init__(self) -> None:
        super().__init__()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.addresses += [value or "" for name, value in attrs if name in ("src", "href")]


def test_html_stands_alone(page: Page, tmp_path: Path) -> None:
    (tmp_path / "fig.png").write_bytes(PNG)
    doc = page("html5")
    doc.content.append(pf.Para(pf.Image(pf.Str("x"), url="fig.png")))
    target = tmp_path / "memo.html"
    write(doc, target, source=tmp_path / "memo.md", edition="memo")
    html = target.read_text(encoding="utf-8")
    links = Links()
    links.feed(html)
    assert links.addresses
    assert all(address.startswith("data:") for address in links.addresses)
    assert "<script" not in html
    assert set(re.findall(r"url\(.?(\w+):", html)) <= {"data"}
    assert html.count("<math") > 20
    assert "prefers-color-scheme: dark" in html
    assert "@media print" in html
    assert '<html lang="en-ZA"' in html
    assert "<title>Mechanics test – Marking memo</title>" in html


def test_word_gets_styles_equations_and_a_foot(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.docx"
    write(page("docx"), target, edition="memo")
    with zipfile.ZipFile(target) as archive:
        document = ElementTree.fromstring(archive.read("word/document.xml"))
        styles = ElementTree.fromstring(archive.read("word/styles.xml"))
        footers = [archive.read(name).decode() for name in archive.namelist() if "word/footer" in name]
    known = {style.get(f"{WORD}styleId") for style in styles.iter(f"{WORD}style")}
    used = {
        element.get(f"{WORD}val")
        for tag in ("pStyle", "rStyle", "tblStyle")
        for element in document.iter(f"{WORD}{tag}")
    }
    assert {"PartLead", "Working", "WorkingLine", "WorkingEnd", "Tick", "TotalLine", "Facts"} <= used
    assert used <= known
    assert len(list(document.iter(f"{MATHS}oMath"))) > 20
    assert document.find(f".//{WORD}sectPr/{WORD}footerReference") is not None
    # One of the first page, and one of the others.
    assert len(footers) == 2
    for footer in footers:
        assert "PAGE" in footer
        assert "NUMPAGES" in footer
        assert ">page <" in footer
        assert "@@" not in footer
    # The marks of a question stand behind a tab, and its style has a tab at the right margin.
    (normal,) = [style for style in styles.iter(f"{WORD}style") if style.get(f"{WORD}styleId") == "Normal"]
    assert normal.find(f".//{WORD}tab[@{WORD}val='right']") is not None


def test_an_epub_is_well_formed_and_the_same_each_time(
    page: Page, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # https://reproducible-builds.org/specs/source-date-epoch/
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    made = []
    for name in ("a.epub", "b.epub"):
        write(page("epub3"), tmp_path / name, edition="memo")
        made.append((tmp_path / name).read_bytes())
    assert made[0] == made[1]
    with zipfile.ZipFile(io.BytesIO(made[0])) as archive:
        chapters = [name for name in archive.namelist() if name.endswith(".xhtml")]
        text = "".join(archive.read(name).decode() for name in chapters)
        style = "".join(archive.read(name).decode() for name in archive.namelist() if name.endswith(".css"))
        for name in chapters:
            ElementTree.fromstring(archive.read(name))
    assert "Marking memo" in text
    assert 'class="working"' in text
    assert ".working" in style


def test_markdown_is_read_again_by_pandoc(page: Page, tmp_path: Path) -> None:
    target = tmp_path / "memo.md"
    write(page("markdown"), target, edition="memo")
    text = target.read_text(encoding="utf-8")
    assert "physcalc:" not in text
    again = subprocess.run(
        [pandoc_module.pandoc_path(), str(target), "--to=plain"], capture_output=True, check=True
    ).stdout.decode()
    assert "Total: 22" in again
    assert "6 752,00" in again.replace("\u202f", " ")


@pytest.mark.parametrize("engine", ["xelatex", "pdflatex"])
def test_a_tex_that_is_there_makes_the_pdf(engine: str, page: Page, tmp_path: Path) -> None:
    program(engine)
    target = tmp_path / "memo.pdf"
    write(page(kind_of(target, engine).layout), target, edition="memo", pdf_engine=engine)
    text = pdf_text(target)
    assert "Marking memo" in text
    assert "page 1 of 2" in text
    assert "752,00" in text


def test_an_engine_that_is_not_there_is_one_problem(tmp_path: Path) -> None:
    with pytest.raises(OutputFailed) as caught:
        write(one(pf.Para(pf.Str("x"))), tmp_path / "x.pdf", pdf_engine="xelatex-of-nowhere")
    assert "xelatex-of-nowhere" in caught.value.sentence()
    assert list(tmp_path.iterdir()) == []


def test_the_tree_that_is_given_is_not_changed(page: Page, tmp_path: Path) -> None:
    doc = page("typst")
    before = doc.to_json()
    write(doc, tmp_path / "x.pdf", edition="memo")
    assert doc.to_json() == before


@pytest.mark.parametrize("name", ["x.word", "x", "x.pd", ".docx"])
def test_an_unknown_ending_lists_the_known_ones(name: str, tmp_path: Path) -> None:
    with pytest.raises(OutputEndingUnknown) as caught:
        write(one(), tmp_path / name)
    assert all(ending in caught.value.mend() for ending in ENDINGS)


def test_the_nearest_ending_is_named() -> None:
    assert "did you mean .docx?" in OutputEndingUnknown(Span(), "x.docc", ENDINGS).mend()


def test_the_source_is_never_written_over(tmp_path: Path) -> None:
    source = tmp_path / "test.md"
    source.write_text("mine", encoding="utf-8")
    link = tmp_path / "link.md"
    link.symlink_to(source)
    for target in (source, link, tmp_path / "." / "test.md"):
        with pytest.raises(OutputOverSource):
            write(one(pf.Para(pf.Str("x"))), target, source=source)
    assert source.read_text(encoding="utf-8") == "mine"


def test_a_failure_leaves_the_old_file_as_it_was(tmp_path: Path) -> None:
    target = tmp_path / "x.pdf"
    target.write_bytes(b"old")
    broken = pf.RawBlock("#panic()", format="html")
    broken.format = "typst"
    with pytest.raises(OutputFailed) as caught:
        write(one(broken), target)
    assert "typst says" in caught.value.sentence()
    assert target.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [target]


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(OutputFolderMissing):
        write(one(pf.Para(pf.Str("x"))), tmp_path / "nowhere" / "x.html")


@pytest.mark.parametrize("ending", [".pdf", ".html", ".docx", ".epub"])
@pytest.mark.parametrize(
    ("address", "reason"),
    [
        ("nowhere.png", "is not there"),
        ("https://example.org/x.png", "is not a file of this computer"),
        ("/etc/passwd", "has no ending of a picture"),
        ("notes.txt", "has no ending of a picture"),
    ],
)
def test_a_picture_that_is_not_to_be_had(ending: str, address: str, reason: str, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("secret", encoding="utf-8")
    doc = one(pf.Para(pf.Image(url=address)))
    with pytest.raises(PictureUnreadable) as caught:
        write(doc, tmp_path / f"x{ending}", source=tmp_path / "x.md")
    assert reason in caught.value.sentence()
    assert f'"{address}"' in caught.value.sentence()


@pytest.mark.parametrize("ending", [".pdf", ".html", ".docx", ".epub"])
def test_a_picture_comes_along_from_beside_the_source(ending: str, tmp_path: Path) -> None:
    folder = tmp_path / "where the source is"
    folder.mkdir()
    (folder / "fig one.png").write_bytes(PNG)
    target = tmp_path / f"x{ending}"
    doc = one(pf.Para(pf.Str("a"), pf.Image(pf.Str("x"), url="fig%20one.png")), title="x")
    write(doc, target, source=folder / "x.md")
    made = target.read_bytes()
    if ending == ".pdf":
        assert len(pypdf.PdfReader(target).pages[0].images) == 1
    elif ending == ".html":
        assert b"data:image/png;base64," in made
    else:
        with zipfile.ZipFile(io.BytesIO(made)) as archive:
            assert any(archive.read(name) == PNG for name in archive.namelist())


def test_raw_typst_cannot_read_what_lies_beside_the_source(tmp_path: Path) -> None:
    (tmp_path / "secret.txt").write_text("secret", encoding="utf-8")
    reading = pf.RawBlock('#read("secret.txt")', format="html")
    reading.format = "typst"
    with pytest.raises(OutputFailed):
        write(one(reading), tmp_path / "x.pdf", source=tmp_path / "x.md")


def test_raw_html_cannot_bring_a_file_into_a_book(tmp_path: Path) -> None:
    secret = tmp_path / "secret.png"
    secret.write_bytes(PNG)
    doc = one(pf.RawBlock(f'<img src="{secret}" />', format="html"), title="x")
    write(doc, tmp_path / "x.epub", source=tmp_path / "x.md")
    with zipfile.ZipFile(tmp_path / "x.epub") as archive:
        assert all(archive.read(name) != PNG for name in archive.namelist())


def test_a_run_that_takes_too_long_is_stopped() -> None:
    tree = {"pandoc-api-version": [1, 23], "meta": {}, "blocks": []}
    with pytest.raises(OutputFailed) as caught:
        pandoc_module.run(tree, ["--to=html"], place=Span(), time_limit=0.0)
    assert "stopped after" in caught.value.sentence()


def _forget_pandoc() -> None:
    find_pandoc.cache_clear()
    pandoc_module.pandoc_path.cache_clear()


@pytest.mark.parametrize(
    ("said", "problem"),
    [("pandoc 2.19.2", PandocTooOld), ("pandoc 3.1", PandocTooOld), ("no version", PandocMissing)],
)
def test_a_pandoc_that_will_not_do(
    said: str, problem: type[Exception], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    fake = tmp_path / "pandoc"
    fake.write_text(f"#!/bin/sh\necho {said}\n", encoding="utf-8")
    fake.chmod(0o755)
    _forget_pandoc()
    monkeypatch.setattr(pypandoc, "get_pandoc_path", lambda: str(fake))
    monkeypatch.setenv("PYPANDOC_PANDOC", str(fake))
    with pytest.raises(problem):
        pandoc_module.pandoc_path()
    _forget_pandoc()


def test_the_pandoc_of_pip_is_not_started_to_be_found(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv("PYPANDOC_PANDOC", raising=False)
    monkeypatch.setenv("PATH", "")
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: pytest.fail("a program was started"))
    _forget_pandoc()
    path = pandoc_module.pandoc_path()
    _forget_pandoc()
    assert Path(path).is_relative_to(Path(pypandoc.__file__).parent)


def test_no_pandoc_at_all(monkeypatch: pytest.MonkeyPatch) -> None:
    def nowhere() -> str:
        raise OSError("no pandoc")

    _forget_pandoc()
    monkeypatch.setattr(pypandoc, "get_pandoc_path", nowhere)
    monkeypatch.setenv("PYPANDOC_PANDOC", "nowhere")
    with pytest.raises(PandocMissing):
        pandoc_module.pandoc_path()
    _forget_pandoc()


def test_a_long_working_begins_under_its_question_and_goes_on_over_the_page(tmp_path: Path) -> None:
    rows = [Row(f"v_{{{at}}}", rf"\dfrac{{a_{{{at}}}}}{{2}}", ticks=1) for at in range(60)]
    inner = question_head("1.1.1", [pf.Para(pf.Str("Inner.")), *working(rows, "typst")], "typst")
    outer = question_head("1.1", [pf.Para(pf.Str("Outer.")), *inner], "typst")
    target = tmp_path / "x.pdf"
    write(one(pf.Header(pf.Str("Question"), level=1), *outer), target, edition="memo")
    sheets = [sheet.extract_text() for sheet in pypdf.PdfReader(target).pages]
    # A full page of such fractions holds more than 15: the first page is filled, not left behind.
    assert "Inner." in sheets[0]
    assert sheets[0].count("✓") > 15
    assert sum(text.count("✓") for text in sheets) == 60


def test_each_page_says_which_document_and_edition_it_is_of(page: Page, tmp_path: Path) -> None:
    write(page("typst"), tmp_path / "memo.pdf", edition="memo")
    sheets = pypdf.PdfReader(tmp_path / "memo.pdf").pages
    assert len(sheets) > 1
    for sheet in sheets:
        assert sheet.extract_text().count("Mechanics test") == 1
        assert sheet.extract_text().count("Marking memo") == 1
    write(page("docx"), tmp_path / "memo.docx", edition="memo")
    with zipfile.ZipFile(tmp_path / "memo.docx") as archive:
        heads = [archive.read(name).decode() for name in archive.namelist() if "word/header" in name]
    assert sorted("Mechanics test" in head and "Marking memo" in head for head in heads) == [False, True]


def test_the_blank_before_a_unit_is_thin() -> None:
    text = "of 5\u00a0N, 1,6\u00a0×\u00a010⁻¹⁹\u00a0C, 2\u00a0m·s⁻¹\u00a0west, Question\u00a01"
    blocks = [{"t": "Para", "c": [{"t": "Str", "c": text[:4]}, {"t": "Str", "c": text[4:]}]}]
    thin_blanks(blocks)
    # SI brochure (9th edition, 5.4.3): a space separates number and unit; thin here, as in the maths.
    assert blocks[0]["c"] == [
        {
            "t": "Str",
            "c": "of 5\u202fN, 1,6\u202f×\u202f10⁻¹⁹\u202fC, 2\u202fm·s⁻¹\u00a0west, Question\u00a01",
        }
    ]


@pytest.mark.parametrize(
    ("formula", "joined"),
    [
        ("0{,}0125~\\mathrm{m^2}", "\\text{0,0125}~\\mathrm{m^2}"),
        ("1\\,250{,}5 + x", "1\\,\\text{250,5} + x"),
        ("10^{-0{,}3}", "10^{\\text{\u22120,3}}"),
        ("x-0{,}3", "x-\\text{0,3}"),
        ("\\text{is 0{,}5 or}", "\\text{is 0,5 or}"),
        ("f(x{,} y)", "f(x{,} y)"),
        ("(1,5)", "(1,5)"),
    ],
)
def test_a_decimal_comma_of_a_formula_keeps_no_blank(formula: str, joined: str) -> None:
    blocks = [{"t": "Para", "c": [{"t": "Math", "c": [{"t": "InlineMath"}, formula]}]}]
    join_decimals(blocks)
    assert blocks[0]["c"][0]["c"][1] == joined  # type: ignore[index]


@pytest.mark.parametrize(
    ("ending", "shown"), [("html", "<mn>0,0125</mn>"), ("typ", "0,0125"), ("md", "0{,}0125")]
)
def test_a_decimal_comma_in_an_output(tmp_path: Path, ending: str, shown: str) -> None:
    document = read_markup("An area of $0{,}0125$.\n")
    write(document, tmp_path / f"made.{ending}")
    assert shown in (tmp_path / f"made.{ending}").read_text(encoding="utf-8")
