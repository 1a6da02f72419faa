"""One paper in Markdown and in LaTeX: working, marks, totals and answers are the same in every edition and format."""

from __future__ import annotations

import re
import zipfile
from html import unescape
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.document import (
    AnswerPart,
    BlockPart,
    DefinePart,
    Findings,
    OnlyPart,
    Question,
    ValuePart,
)
from physcalc_filter.document.own_engine import OwnEngine
from physcalc_filter.sources import Source, read_source

EXAMPLES = Path(__file__).parents[2] / "example_docs"
MARKDOWN, LATEX = EXAMPLES / "mechanics_test.md", EXAMPLES / "mechanics_test.tex"
#: What the Markdown paper says below its title, and LaTeX's class article has no place for.
SUBTITLE = re.compile(r"^subtitle: .*\n", re.MULTILINE)


def built(source: Path, edition: str, target: Path) -> Path:
    assert main(["build", str(source), "-o", str(target), "--edition", edition]) == 0
    return target


def plain(text: str) -> str:
    """A text without what is markup alone, its blanks made alike."""
    return " ".join(re.sub(r"[\s\u00a0\u202f\u2009]+", " ", text).split())


def of_html(path: Path) -> str:
    text = path.read_text(encoding="utf-8")
    text = re.sub(r"<(style|script|head)\b.*?</\1>", "", text, flags=re.DOTALL)
    return plain(unescape(re.sub(r"<[^>]+>", " ", text)))


def of_docx(path: Path) -> str:
    with zipfile.ZipFile(path) as archive:
        text = archive.read("word/document.xml").decode("utf-8")
    text = re.sub(r"</w:p>|</w:tc>", " ", text)
    return plain(unescape(re.sub(r"<[^>]+>", "", text)))


def of_typst(path: Path) -> str:
    return plain(path.read_text(encoding="utf-8").replace("~", " "))


READERS = {"html": of_html, "docx": of_docx, "typ": of_typst}


@pytest.mark.parametrize("ending", READERS)
@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_the_pages_say_the_same(edition: str, ending: str, tmp_path: Path) -> None:
    read = READERS[ending]
    twin = tmp_path / "mechanics_test.md"
    text, count = SUBTITLE.subn("", MARKDOWN.read_text(encoding="utf-8"))
    assert count == 1
    twin.write_text(text, encoding="utf-8")
    markdown = read(built(twin, edition, tmp_path / f"markdown.{ending}"))
    latex = read(built(LATEX, edition, tmp_path / f"latex.{ending}"))
    assert latex == markdown
    if edition != "paper":
        assert latex.count("✓") == markdown.count("✓")
        for answer in ("48,06", "25,96", "79,06", "2,06"):
            assert answer in latex


def test_the_trees_hold_the_same_parts() -> None:
    def parts(path: Path) -> list[tuple[str, ...]]:
        worked = pipeline._read_and_work(read_source(path), (), None, OwnEngine(), Findings())
        assert worked is not None
        found: list[tuple[str, ...]] = []
        for part in worked.tree.root.walk():
            marks = str(worked.marks.of.get(part.key))
            attributes = sorted(f"{key}={value}" for key, value in part.element.attributes.items())
            match part:
                case Question():
                    what: tuple[str, ...] = ("question", worked.tree.numbers[part.key])
                case BlockPart():
                    what = (part.kind, part.element.text)
                case ValuePart() | DefinePart():
                    what = (
                        "value",
                        part.name.value.replace("’", "'"),
                        part.typed.value if part.typed else "",
                    )
                case AnswerPart() | OnlyPart():
                    what = (type(part).__name__,)
                case _:
                    what = ()
            found.append((*what, part.identifier, marks, *attributes))
        assert worked.marks.total == 50
        return found

    assert parts(LATEX) == parts(MARKDOWN)


def test_both_are_told_the_same() -> None:
    def told(path: Path) -> list[tuple[str, str, str]]:
        # An answer that is wrong, so that there is something to tell.
        text = path.read_text(encoding="utf-8").replace("T: 48.06 N", "T: 49.06 N")
        report = pipeline.check(Source(path.name, text), folder=path.parent)
        lines = text.split("\n")
        return [
            (problem.slug, problem.sentence(), lines[problem.span.line - 1]) for problem in report.problems
        ]

    assert told(LATEX) == told(MARKDOWN)
    assert told(LATEX)
