"""Blanks before colons, and quotation marks, as the language of the document has them."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli import main

from physcalc.language.words import punctuated

PAPER = """---
title: "Une chute"
lang: %s
time: 1 h
---

# Question {.question marks=3 axis="up is positive"}

The "stone" falls.

```{.calc}
given:
  v_i: 9.0 m/s, up
  a: g, down
  Δy: 6.0 m, down
use: displacement-time
find: Δt in s to 2 dp
accept: 2 %%
```
"""


def build(folder: Path, lang: str, name: str) -> str:
    (folder / "a.md").write_text(PAPER % lang, encoding="utf-8")
    edition = "guide" if name.startswith("guide") else "memo"
    assert main(["build", str(folder / "a.md"), "--edition", edition, "-o", str(folder / name)]) == 0
    return (folder / name).read_text(encoding="utf-8")


# Common practice of French printers, no source: a no-break space before a colon, a narrow one before a semicolon.
@pytest.mark.parametrize(
    ("typed", "lang", "printed"),
    [
        ("Total: 4; v = 3", "fr", "Total\u00a0: 4\u202f; v = 3"),
        ("Total : 4 ; v = 3", "fr-FR", "Total\u00a0: 4\u202f; v = 3"),
        ("Total: 4; v = 3", "fr_CA", "Total\u00a0: 4; v = 3"),
        ("10:30", "fr", "10:30"),
        ("Total: 4; v = 3", "en", "Total: 4; v = 3"),
        ("Summe: 4; v = 3", "de", "Summe: 4; v = 3"),
    ],
)
def test_blanks_before_colons_are_those_of_the_language(typed: str, lang: str, printed: str) -> None:
    assert punctuated(typed, lang) == printed


def test_a_french_page_sets_its_own_blanks(tmp_path: Path) -> None:
    for name in ("memo.html", "memo.md", "memo.typ"):
        made = build(tmp_path, "fr", name)
        assert "Durée\u00a0: 1 h" in made or "Durée\u00a0:" in made.replace("~", "\u00a0")
        assert "Durée: " not in made
        assert "positif ou nul" in made
    assert "Accepter\u00a0:" in build(tmp_path, "fr", "memo.md")
    assert "Zeit: 1 h" in build(tmp_path, "de", "memo.html")


# The marks as Unicode CLDR has them.
@pytest.mark.parametrize(
    ("lang", "said"),
    [
        ("en", "“stone”"), ("af", "“stone”"), ("de", "„stone“"), ("de-CH", "«stone»"),
        ("fr", "«\u00a0stone\u00a0»"), ("es", "«stone»"), ("pt-BR", "“stone”"), ("pt-PT", "«stone»"),
    ],
)  # fmt: skip
def test_quotation_marks_are_those_of_the_language(lang: str, said: str, tmp_path: Path) -> None:
    assert said in build(tmp_path, lang, "guide.html")


def test_straight_marks_of_markdown_stay(tmp_path: Path) -> None:
    assert '"stone"' in build(tmp_path, "de", "guide.md")


def test_the_lines_of_a_french_working_do_so_too(tmp_path: Path) -> None:
    text = PAPER % "fr"
    at, end = text.index("given:"), text.index("accept")
    text = text[:at] + "formula:\n  - x + y = 5\n  - x^2 + y^2 = 17\nfind: x\ntake: largest\n" + text[end:]
    (tmp_path / "a.md").write_text(text.replace("2 %%", "2 %"), encoding="utf-8")
    assert main(["build", str(tmp_path / "a.md"), "--edition", "memo", "-o", str(tmp_path / "memo.md")]) == 0
    made = (tmp_path / "memo.md").read_text(encoding="utf-8")
    assert "(1)\u00a0: $x" in made
    assert "(1): " not in made


@pytest.mark.parametrize("lang", ["af", "nl"])
def test_an_apostrophe_that_begins_a_word_is_one_in_typst_too(lang: str, tmp_path: Path) -> None:
    # Typst makes an opening mark of a straight one before a letter.
    (tmp_path / "a.md").write_text(
        f'---\nlang: {lang}\ntitle: ’n Toets\n---\n\n# Vraag {{.question marks=1}}\n\n\'n Bal, ’n "kas".\n',
        encoding="utf-8",
    )
    assert main(["build", str(tmp_path / "a.md"), "--edition", "paper", "-o", str(tmp_path / "a.typ")]) == 0
    made = (tmp_path / "a.typ").read_text(encoding="utf-8")
    assert "’n Bal, ’n “kas”." in made
    assert "’n Toets" in made
    assert "'n " not in made
