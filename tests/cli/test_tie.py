"""`physcalc fix --tie` writes spans around numbers and not one byte more; what is shown can be applied."""

from __future__ import annotations

import os
import subprocess
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main, screen
from physcalc_filter.document import Report
from physcalc_filter.sources import Source
from physcalc_filter.tying import tie, ties_of

from physcalc.problems import Problem

TEXT = """\
---
lang: en-ZA
---

# Question 1 {.question}

A lift of 640 kg, or $m = 640\\ \\text{kg}$, or 0,64 t, or **640** kg speeds up at 0,75
m·s^-2^.\x20\x20
Its cable is 12 m long.

```{.given}
m: 640 kg
a: 0.75 m/s^2
```

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
answer: 6752 N
```"""
TIED = (
    TEXT.replace("of 640 kg", "of [640 kg]{.value of=m}")
    .replace("0,64 t", "[0,64 t]{.value of=m}")
    .replace("0,75\nm·s^-2^", "[0,75\nm·s^-2^]{.value of=a}")
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def strict(source: Source) -> tuple[Problem, ...]:
    return pipeline.check(source, strict=True).problems


@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_no_other_byte_is_touched(bom: bytes, ending: str, folder: Path) -> None:
    path = folder / "a.md"
    path.write_bytes(bom + TEXT.replace("\n", ending).encode())
    path.chmod(0o640)
    assert main(["fix", "a.md", "--tie", "--yes"]) == 1  # Three numbers stay loose.
    assert path.read_bytes() == bom + TIED.replace("\n", ending).encode()
    assert path.stat().st_mode & 0o777 == 0o640
    assert os.listdir(folder) == ["a.md"]


def test_a_second_run_changes_nothing(folder: Path) -> None:
    (folder / "a.md").write_text(TIED, encoding="utf-8")
    main(["fix", "a.md", "--tie", "--yes"])
    assert (folder / "a.md").read_text(encoding="utf-8") == TIED


@pytest.mark.parametrize("tool", [["git", "apply"], ["patch", "-p1", "--binary", "-s"]])
@pytest.mark.parametrize("command", [["--tie"], []])
@pytest.mark.parametrize("ending", ["\n", "\r\n"])
def test_what_is_shown_can_be_applied(
    tool: list[str], command: list[str], ending: str, folder: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    # git and patch are the outside judges of what a unified difference is.
    text = TEXT.replace("answer: 6752 N", "answer: 6725 N") if not command else TEXT
    data = b"\xef\xbb\xbf" + text.replace("\n", ending).encode()
    (folder / "papers").mkdir()
    for name in ("papers/a.md", "papers/b.md"):
        (folder / name).write_bytes(data)
    assert main(["fix", "./papers/a.md", "--dry-run", *command]) == 1
    shown = capfdbinary.readouterr().out
    assert (folder / "papers/a.md").read_bytes() == data
    assert sorted(os.listdir(folder / "papers")) == ["a.md", "b.md"]
    subprocess.run(tool, input=shown, cwd=folder, check=True)
    main(["fix", "papers/b.md", *command, *(["--yes"] if command else [])])
    assert (folder / "papers/a.md").read_bytes() == (folder / "papers/b.md").read_bytes() != data


@pytest.mark.parametrize(
    ("answers", "tied"),
    [
        ("y\nn\ny\n", ["640 kg", "0,75\nm·s^-2^"]),
        ("n\na\n", ["0,64 t", "0,75\nm·s^-2^"]),
        ("yes\nquit\n", ["640 kg"]),
        ("what\nq\n", []),
    ],
)
def test_each_is_asked_for(
    answers: str, tied: list[str], folder: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (folder / "a.md").write_text(TEXT, encoding="utf-8")
    typed = iter(answers.splitlines())
    monkeypatch.setattr(screen, "is_terminal", lambda stream: True)
    monkeypatch.setattr("click.termui.visible_prompt_func", lambda text: next(typed))
    main(["fix", "a.md", "--tie"])
    after = (folder / "a.md").read_text(encoding="utf-8")
    assert [text for text in ("640 kg", "0,64 t", "0,75\nm·s^-2^") if f"[{text}]{{" in after] == tied


def test_without_a_terminal_nothing_is_written(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (folder / "a.md").write_text(TEXT, encoding="utf-8")
    monkeypatch.setattr(screen, "is_terminal", lambda stream: False)
    assert main(["fix", "a.md", "--tie"]) == 2
    assert (folder / "a.md").read_text(encoding="utf-8") == TEXT
    assert main(["fix", "a.md", "--yes"]) == 2


def test_a_file_changed_meanwhile_is_kept(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = folder / "a.md"
    path.write_text(TEXT, encoding="utf-8")
    sound = pipeline.check

    def check(source: Source, *rest: object, **more: object) -> Report:
        path.write_text("saved by its author\n", encoding="utf-8")
        return sound(source, *rest, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(pipeline, "check", check)
    assert main(["fix", "a.md", "--tie", "--yes"]) == 2
    assert path.read_text(encoding="utf-8") == "saved by its author\n"
    assert os.listdir(folder) == ["a.md"]
    assert "file-changed" in capsys.readouterr().err


def test_a_span_that_markdown_does_not_see_is_taken_back() -> None:
    source = Source("a.md", TEXT)
    ties = ties_of(source, strict(source))
    assert len(ties) == 3

    def check(text: Source) -> tuple[Problem, ...]:
        # As if the second span stood where it is no span.
        return strict(Source(text.name, text.text.replace("[0,64 t]{.value of=m}", "0,64 t")))

    tied = tie(source, ties, check)
    assert [done.problem.raw for done in tied.ties] == ["640 kg", "0,75\nm·s^-2^"]
    assert tied.source.text == TIED.replace("[0,64 t]{.value of=m}", "0,64 t")
