"""Text of a document in raw output: read back by the program that reads the format, it is still text."""

from __future__ import annotations

import io
import subprocess
from html.parser import HTMLParser
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest
import typst
from physcalc_filter.editions import escape
from physcalc_filter.figures.typst import string
from physcalc_filter.outputs.pandoc import pandoc_path

HOSTILE = [
    '#read("/etc/passwd")',
    "]#panic()[",
    "$x$ *b* _i_ `r` <l> @c // no",
    "\\input{/etc/passwd} {}%&~^",
    '</span><script>alert("1")</script>',
    "</w:t><w:br/>",
    '" onload="x',
    "= heading",
    "+ list -- --- ...",
    "#{ let x = 1 } /* c */",
    "'quoted' \"both\"",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_typst_prints_the_text_itself(text: str, tmp_path: Path) -> None:
    # Typst's own reader: what it prints is what was put in, sign by sign.
    source = (
        f"#set page(width: 40cm)\n#set smartquote(enabled: false)\n#let f(x) = x\n#f[{escape.typst(text)}]"
    )
    main = tmp_path / "main.typ"
    main.write_text(source, encoding="utf-8")
    made = typst.compile(str(main), root=str(tmp_path), ignore_system_fonts=True)
    printed = pypdf.PdfReader(io.BytesIO(made)).pages[0].extract_text()
    assert "".join(printed.split()) == "".join(text.split())


@pytest.mark.parametrize("text", [*HOSTILE, "back\\slash", 'quote"', "line\nend"])
def test_a_typst_string_holds_the_text_itself(text: str, tmp_path: Path) -> None:
    main = tmp_path / "main.typ"
    main.write_text(f"#metadata({string(text)}) <it>", encoding="utf-8")
    found = typst.query(str(main), "<it>", field="value", one=True)
    import json

    assert json.loads(found) == text.replace("\n", " ")


@pytest.mark.parametrize("text", HOSTILE)
def test_latex_is_the_text_itself_to_pandocs_reader(text: str) -> None:
    done = subprocess.run(
        [pandoc_path(), "--from=latex", "--to=plain", "--wrap=none"],
        input=f"\\textbf{{{escape.latex(text)}}}".encode(),
        capture_output=True,
        check=True,
    )
    printed = done.stdout.decode().strip().replace("−", "-")
    # Pandoc's reader makes typographic quotes of straight ones, as TeX fonts do.
    for curly, straight in (("’", "'"), ("‘", "'"), ("“", '"'), ("”", '"')):
        printed = printed.replace(curly, straight)
    # Its reader has no name for the grave accent on its own, and drops it.
    assert "".join(printed.split()) == "".join(text.replace("`", "").split())


@pytest.mark.parametrize("text", HOSTILE)
def test_html_and_xml_hold_the_text_itself(text: str) -> None:
    said: list[str] = []
    opened: list[tuple[str, str | None]] = []

    class Reader(HTMLParser):
        def handle_data(self, data: str) -> None:
            said.append(data)

        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            opened.extend([(tag, None), *attrs])

    Reader().feed(f'<p title="{escape.xml(text)}">{escape.xml(text)}</p>')
    assert "".join(said) == text
    assert opened == [("p", None), ("title", text)]
    assert ElementTree.fromstring(f"<a>{escape.xml(text)}</a>").text == text


def test_a_css_string_ends_nowhere_inside() -> None:
    made = escape.css_string('a"b\\c</style>')
    assert made.startswith('"')
    assert made.endswith('"')
    assert '"' not in made[1:-1]
    assert "<" not in made


@pytest.mark.parametrize("write", [escape.typst, escape.latex, escape.xml, string])
def test_control_characters_and_lone_surrogates_never_come_through(write: object) -> None:
    made = write("a\x00b\x1bc\nd\ud800e")  # type: ignore[operator]
    made.encode("utf-8")
    assert not set(made) & set("\x00\x1b\n")
