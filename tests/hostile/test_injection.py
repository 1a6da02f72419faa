"""What a document says in names, labels, options, reasons, slips and its sheet is text in every output."""

from __future__ import annotations

import json
import re
import zipfile
from collections.abc import Callable
from html.parser import HTMLParser
from io import StringIO
from pathlib import Path
from xml.etree import ElementTree

import pypdf
import pytest
from physcalc_filter.pandoc_entry import run

from .conftest import Run

Physcalc = Callable[..., Run]

SCRIPT = '"><script>alert(1)</script><img src=x onerror=alert(1)>'
TYPST = '#panic("x")] #read("/etc/passwd") $x'
TEX = r"\input{/etc/passwd} \write18{id} $ % & # {"
ATTACKS = (SCRIPT, TYPST, TEX)


def document(attack: str) -> str:
    quoted = attack.replace("'", "''")
    option = attack.replace(":", "")
    return f"""---
title: x
lang: 'en"><script>alert(2)</script>'
dir: 'ltr"><script>alert(3)</script>'
physcalc:
  sheet: own.yaml
  appendix: all
  labels:
    question: '{quoted}'
    total: '{quoted}'
---

# 1 {{.question #a"onload=x marks=3}}

Calculate `a`{{.value}}.

```{{.given}}
a: 2 m
```

```{{.calc}}
formula: x = a + a
find: x in m
why: {attack}
slips:
  {option}: x = a
```

::: {{.question #b marks=2}}
Choose.

```{{.options}}
A: {attack}
B: the other
answer: A
```
:::

::: {{.question #c marks=1}}
Define.

[def]{{.define}}
:::
"""


def sheet(attack: str) -> str:
    quoted = attack.replace("'", "''")
    bare = re.sub(r"[\[\]]", "", quoted)
    return f"""title: '{quoted}'
extends: school
constants:
  G_q:
    value: 9.81 m
    title: '{quoted}'
    source: '{quoted}'
definitions:
  def:
    title: '{quoted}'
    wording: '{bare} [{bare}] {bare}'
"""


class Scripts(HTMLParser):
    """Elements that run or fetch something."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        hidden = [name for name, _ in attrs if name.startswith("on")]
        if tag == "link" and str(dict(attrs)["href"]).removeprefix("../").startswith("styles/"):
            return  # The book's own style sheet, inside it.
        if tag in ("script", "img", "iframe", "object", "embed", "link") or hidden:
            self.found.append(f"{tag} {attrs}")


@pytest.fixture(params=ATTACKS, ids=["html", "typst", "tex"])
def attacked(request: pytest.FixtureRequest, folder: Path) -> str:
    attack = str(request.param)
    (folder / "a.md").write_text(document(attack), encoding="utf-8")
    (folder / "own.yaml").write_text(sheet(attack), encoding="utf-8")
    return attack


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_it_is_text_everywhere(edition: str, attacked: str, folder: Path, physcalc: Physcalc) -> None:
    for ending in ("html", "epub", "docx", "tex", "pdf"):
        done = physcalc("build", "a.md", "-o", f"a.{ending}", "--edition", edition, "--draft")
        assert done.code == 0, done.said
    pages = [(folder / "a.html").read_text(encoding="utf-8")]
    with zipfile.ZipFile(folder / "a.epub") as book:
        pages += [book.read(name).decode() for name in book.namelist() if name.endswith("html")]
    for page in pages:
        scripts = Scripts()
        scripts.feed(page)
        assert not scripts.found
    with zipfile.ZipFile(folder / "a.docx") as word:
        for name in word.namelist():
            if name.endswith((".xml", ".rels")):
                ElementTree.fromstring(word.read(name))
            if name.endswith(".rels"):
                assert b"External" not in word.read(name)
        body = word.read("word/document.xml").decode()
    assert "alert(1)" in body or "panic" in body or "write18" in body
    tex = (folder / "a.tex").read_text(encoding="utf-8")
    assert not re.search(r"\\(input|write18|write)\b", tex)
    # Typst would have stopped at #panic and at #read; the words are there to be seen.
    text = "".join(page.extract_text() for page in pypdf.PdfReader(folder / "a.pdf").pages)
    if attacked == TYPST:
        assert "#panic" in text.replace(" ", "")


def test_a_page_of_the_web_runs_and_fetches_nothing(folder: Path, physcalc: Physcalc) -> None:
    raw = '<script>alert(1)</script> <img src="https://example.org/x.png"> [x](javascript:alert(1))'
    dir_ = '`ltr"><script>alert(3)</script>`{=html}'
    (folder / "a.md").write_text(f"---\ntitle: '{raw}'\ndir: '{dir_}'\n---\n\n{raw}\n", encoding="utf-8")
    assert physcalc("build", "a.md", "-o", "a.html").code == 0
    page = (folder / "a.html").read_text(encoding="utf-8")
    policy = page.index("Content-Security-Policy")
    # Nothing of the document stands before it, and without `script-src` the default, none, holds for scripts.
    assert "script" not in page[:policy]
    assert page[policy:].startswith("Content-Security-Policy\" content=\"default-src 'none';")
    assert "script-src" not in page
    assert "dir=" not in page[:policy]


def test_nothing_steers_the_terminal(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(
        "# 1 {.question}\n\n```{.calc}\nformula: x\x1b[2J = \x9b31m\u202eb\nfind: x\x07\n```\n",
        encoding="utf-8",
    )
    said = physcalc("check", "a.md").said
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", said)


def test_halves_of_characters_do_not_pass_through_the_filter() -> None:
    tree = {
        "pandoc-api-version": [1, 23],
        "meta": {},
        "blocks": [{"t": "Para", "c": [{"t": "Str", "c": "a\ud800b\x00"}]}],
    }
    made = run(json.dumps(tree), "html", StringIO())
    assert made is not None
    assert "\ud800" not in json.loads(made.encode("utf-8"))["blocks"][0]["c"][0]["c"]


@pytest.mark.parametrize("format", ["typst", "html", "latex", "openxml", "something"])
def test_raw_text_of_any_format_is_read(format: str, folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(f"```{{={format}}}\nx\n```\n\ntext `y`{{={format}}}\n", encoding="utf-8")
    assert physcalc("check", "a.md").code == 0


@pytest.mark.parametrize(
    "end", ["{", "{ ", "{.question ", '{a="', "[1 m]{.value ", "<div ", "```{", "$", "[^", "---\n", "::: {"]
)
def test_a_document_that_breaks_off(end: str, folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(f"# 1 {{.question}}\n\ntext {end}", encoding="utf-8")
    physcalc("check", "a.md")
    (folder / "a.md").write_text(f"text\n\n{end}", encoding="utf-8")
    physcalc("check", "a.md")
