"""Pages and books: numbers, headings, tables and dates that pandoc leaves to us."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

import panflute as pf
import pytest
from physcalc_filter import outputs
from physcalc_filter.outputs import write
from physcalc_filter.outputs.web import with_numbers


def made(folder: Path, *blocks: pf.Block, ending: str = ".html", **meta: object) -> str:
    target = folder / f"x{ending}"
    write(pf.Doc(*blocks, metadata={"title": "Signs", **meta}), target, edition="guide")
    if ending == ".html":
        return target.read_text(encoding="utf-8")
    with zipfile.ZipFile(target) as book:
        return "".join(
            book.read(name).decode() for name in book.namelist() if name.endswith((".opf", ".xhtml"))
        )


def table(columns: int, word: str, head: bool) -> pf.Table:
    row = pf.TableRow(*(pf.TableCell(pf.Plain(pf.Str(word))) for _ in range(columns)))
    top = [pf.TableRow(*(pf.TableCell(pf.Plain(pf.Str("h"))) for _ in range(columns)))] if head else []
    return pf.Table(pf.TableBody(row), head=pf.TableHead(*top), foot=pf.TableFoot())


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('<mtext mathvariant="normal">−6,4</mtext><mo>+</mo>', "<mn>−6,4</mn><mo>+</mo>"),
        ('<mtext mathvariant="normal">1\u2009725,45</mtext>', "<mn>1\u2009725,45</mn>"),
        (
            '<mtext mathvariant="normal">N</mtext><mo>=</mo>',
            '<mtext mathvariant="normal">N</mtext><mo form="infix">=</mo>',
        ),
        ('<mtext mathvariant="normal">4 or 5</mtext>', '<mtext mathvariant="normal">4 or 5</mtext>'),
    ],
)
def test_numbers_in_formulas(text: str, said: str) -> None:
    assert with_numbers(text) == said


@pytest.mark.parametrize("first", [1, 2, 3])
def test_headings_begin_right_below_the_title(first: int, tmp_path: Path) -> None:
    html = made(tmp_path, pf.Header(pf.Str("a"), level=first), pf.Header(pf.Str("b"), level=first + 1))
    assert re.findall(r"<h(\d)", html) == ["1", "2", "3"]


def test_a_page_without_title_or_edition_has_no_empty_heading(tmp_path: Path) -> None:
    target = tmp_path / "x.html"
    write(pf.Doc(pf.Para(pf.Str("x"))), target)
    assert "<h1" not in target.read_text(encoding="utf-8")


def test_a_wide_table_is_reached_with_the_keyboard(tmp_path: Path) -> None:
    assert '<div class="wide">' in made(tmp_path, table(2, "short", True))
    assert '<div class="wide" tabindex="0">' in made(tmp_path, table(5, "somewhat", True))


def test_a_table_without_a_head_is_headed_by_its_first_column(tmp_path: Path) -> None:
    assert made(tmp_path, table(3, "x", False)).count("<th") == 1
    # The tags of the head itself count as well.
    assert (
        made(tmp_path, table(3, "x", True)).count("<th ") + made(tmp_path, table(3, "x", True)).count("<th>")
        == 3
    )


@pytest.mark.parametrize(("date", "kept"), [("2026-03-12", True), ("2026", True), ("12 March", False)])
def test_a_book_says_its_date_where_it_can(date: str, kept: bool, tmp_path: Path) -> None:
    book = made(tmp_path, pf.Para(pf.Str("x")), ending=".epub", date=date)
    assert (f">{date}</dc:date>" in book) == kept
    assert (f"<p>{date}</p>" in book) != kept
    assert "></dc:date>" not in book


def test_a_list_of_contents_where_it_is_asked_for(tmp_path: Path) -> None:
    headings = [
        pf.Header(pf.Str("Floating"), identifier="a", level=1),
        pf.Header(pf.Str("Rafts"), identifier="b", level=2),
    ]
    listed = made(tmp_path, *headings, toc=True)
    assert '<a href="#a"' in listed
    assert '<a href="#b"' in listed
    assert '<a href="#b"' not in made(tmp_path, *headings, toc=True, **{"toc-depth": "1"})
    for none in (made(tmp_path, *headings), made(tmp_path, *headings, toc=False)):
        assert "TOC" not in none.partition("<body>")[2]


def test_the_date_stands_at_the_right_below_the_edition() -> None:
    style = (Path(outputs.__file__).parent / "pages" / "screen.css").read_text(encoding="utf-8")
    assert re.search(r"\.cover > :last-child \{[^}]*text-align: right", style)
