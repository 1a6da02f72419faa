"""Outputs that are kept: the same bytes and the same words as without the store, whatever was changed between."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest
from physcalc_filter.cache import VARIABLE, Store
from physcalc_filter.cli import main
from physcalc_filter.outputs.kept import KIND, built_from

SHEET = """title: Ours
constants:
  g: {value: %s m/s^2, title: acceleration due to gravity}
"""

PAPER = """---
title: Ours
lang: en-ZA
physcalc:
  sheet: ours.yaml
---

# Question {.question #weight marks=2}

Its mass is `m`{.value}.

![A dot.](dot.svg)

```{.calc}
given:
  m: 2 kg
formula: w = m g
find: w in N to 1 dp
```
"""

DOT = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><circle cx="4" cy="4" r="%d"/></svg>'


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a paper, its sheet and its picture, and a store beside it that the program uses."""
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    monkeypatch.setenv(VARIABLE, str(tmp_path / "cache"))
    (work / "paper.md").write_text(PAPER, encoding="utf-8")
    (work / "ours.yaml").write_text(SHEET % "9.8", encoding="utf-8")
    (work / "dot.svg").write_text(DOT % 1, encoding="utf-8")
    return work


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The editions that were laid out, and not found."""
    from physcalc_filter import pipeline

    found: list[str] = []
    build = pipeline.build

    def told(*arguments: object, **more: object) -> object:
        found.append(str(arguments[1]))
        return build(*arguments, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(pipeline, "build", told)
    return found


def built(
    capsys: pytest.CaptureFixture[str], *options: str, target: str = "made.html", edition: str = "guide"
) -> tuple[int, bytes | None, str]:
    """The exit code, the output, and what was said."""
    Path(target).unlink(missing_ok=True)
    code = main(["build", "paper.md", "-o", target, "--edition", edition, *options])
    content = Path(target).read_bytes() if Path(target).exists() else None
    return code, content, capsys.readouterr().err


@pytest.mark.parametrize("ending", ["pdf", "html", "docx", "epub", "tex", "typ", "md"])
def test_an_output_is_made_once(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str], ending: str
) -> None:
    first = built(capsys, target=f"made.{ending}")
    assert first[0] == 0
    assert first[1]
    assert built(capsys, target=f"made.{ending}") == first
    assert made == ["guide"]
    assert built(capsys, "--no-cache", target=f"made.{ending}") == first
    assert made == ["guide", "guide"]


CHANGES: dict[str, tuple[str, str | None]] = {
    "source": ("paper.md", PAPER.replace("2 kg", "3 kg")),
    "sheet": ("ours.yaml", SHEET % "1.6"),
    "picture": ("dot.svg", DOT % 2),
    "no picture": ("dot.svg", None),
    "no sheet": ("ours.yaml", None),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_seen(place: Path, capsys: pytest.CaptureFixture[str], change: str) -> None:
    first = built(capsys)
    name, text = CHANGES[change]
    known = (place / name).stat()
    if text is None:
        (place / name).unlink()
    else:
        (place / name).write_text(text, encoding="utf-8")
        os.utime(place / name, ns=(known.st_atime_ns, known.st_mtime_ns))
    second = built(capsys)
    assert second != first
    assert second == built(capsys, "--no-cache")
    assert (second[1] is None) == (text is None)


def test_a_picture_that_comes_nearer_is_seen(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (place / "more").mkdir()
    (place / "dot.svg").rename(place / "more" / "dot.svg")
    first = built(capsys, "--resource-path", "more")
    (place / "dot.svg").write_text(DOT % 3, encoding="utf-8")
    second = built(capsys, "--resource-path", "more")
    assert second[1] != first[1]
    assert second == built(capsys, "--resource-path", "more", "--no-cache")


@pytest.mark.parametrize(
    "options",
    [
        ("--edition", "memo"),
        ("--set", "decimal=comma"),
        ("--set", "rounding=half-even"),
        ("--limit", "digits=50"),
    ],
)
def test_what_is_asked_counts(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str], options: Sequence[str]
) -> None:
    built(capsys)
    asked = built(capsys, *options)
    assert len(made) == 2
    assert asked == built(capsys, *options, "--no-cache")


def test_notes_are_told_again(place: Path, made: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    text = PAPER.replace("find: w in N to 1 dp", "find: w in N to 1 dp\nanswer: 21.0 N")
    (place / "paper.md").write_text(text, encoding="utf-8")
    first = built(capsys, "--draft")
    assert "answer-disagrees" in first[2]
    assert built(capsys, "--draft") == first
    assert made == ["guide"]
    refused = built(capsys)
    assert refused[:2] == (1, None)
    assert built(capsys) == refused


def test_an_output_that_is_kept_is_put_over_no_source(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["build", "paper.md", "-o", "copy.md"]) == 0
    assert main(["build", "paper.md", "-o", "paper.md"]) == 2
    assert "output-over-source" in capsys.readouterr().err
    assert (place / "paper.md").read_text(encoding="utf-8") == PAPER


def test_all_editions_are_found_again(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    order = ["build", "paper.md", "--all", "--formats", "html,md", "-o"]
    assert main([*order, "one"]) == 0
    said = capsys.readouterr().err
    assert len(made) == 6
    assert main([*order, "two"]) == 0
    assert capsys.readouterr().err == said.replace("one/", "two/")
    assert len(made) == 6
    names = sorted(path.name for path in (place / "one").iterdir())
    assert len(names) == 6
    for name in names:
        assert (place / "one" / name).read_bytes() == (place / "two" / name).read_bytes()


def test_damaged_entries_are_not_used(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    first = built(capsys)
    entries = [Path(path) for path, _ in Store(tmp_path / "cache").entries() if f"/{KIND}." in path]
    assert len(entries) == 1
    entries[0].write_bytes(entries[0].read_bytes()[:-1])
    assert built(capsys) == first
    assert made == ["guide", "guide"]


@pytest.mark.parametrize("kept", [b"", b"x", b"[]\nx", b'["memo", ["", ""], 0]\nx', b"{}\n"])
def test_what_is_no_output_is_none(kept: bytes) -> None:
    assert built_from(kept) is None


def test_what_an_engine_made_is_not_kept(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What TeX reads of its own cannot be told. Here something else makes the bytes: what counts is who is asked."""
    from physcalc_filter.outputs import writing

    monkeypatch.setattr(writing, "content_of", lambda *_, **more: f"by {more['pdf_engine']}".encode())
    for _ in range(2):
        assert built(capsys, "--pdf-engine", "xelatex", target="made.pdf")[1] == b"by xelatex"
    assert made == ["guide", "guide"]
    for _ in range(2):
        assert built(capsys, target="made.pdf")[1] == b"by None"
    assert made == ["guide", "guide", "guide"]


def test_a_kept_output_loads_neither_the_engine_nor_pandoc(place: Path) -> None:
    script = (
        "import sys\nfrom physcalc_filter.cli import main\n"
        "code = main(['build', 'paper.md', '-o', 'memo.html', '--edition', 'memo'])\n"
        "print([n for n in ('panflute', 'yaml', 'pypandoc', 'typst', 'physcalc.engine', 'physcalc_filter.pipeline')"
        " if n in sys.modules])\nsys.exit(code)"
    )
    said = [
        subprocess.run(
            [sys.executable, "-c", script],
            env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for _ in range(2)
    ]
    assert "physcalc.engine" in said[0]
    assert said[1] == "[]\n"


@pytest.mark.parametrize("ending", ["tex", "md", "html", "docx"])
def test_what_a_person_gave_to_pandoc_changes_nothing(
    place: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    ending: str,
) -> None:
    """Pandoc reads templates and abbreviations from a folder of the user's (pandoc manual, option `--data-dir`)."""
    plain = built(capsys, "--no-cache", target=f"made.{ending}")
    own = tmp_path / "home" / "pandoc"
    (own / "templates").mkdir(parents=True)
    (own / "abbreviations").write_text("is\n", encoding="utf-8")
    for name in ("latex", "markdown", "html5", "openxml"):
        (own / "templates" / f"default.{name}").write_text("CHANGED $body$", encoding="utf-8")
    monkeypatch.setenv("XDG_DATA_HOME", str(own.parent))
    assert built(capsys, "--no-cache", target=f"made.{ending}") == plain
