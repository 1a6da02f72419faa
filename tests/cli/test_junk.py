"""Whatever is typed and whatever a file holds, nobody gets a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from physcalc_filter.cli import main
from physcalc_filter.cli.start import COMMANDS

EXAMPLES = sorted((Path(__file__).parents[2] / "example_docs").glob("*.md"))
WORDS = [
    *COMMANDS, "--help", "--version", "-o", "--edition", "memo", "--draft", "--set", "lang=de",
    "rounding=3 sf", "--dry-run", "--format", "json", "text", "--pdf-engine", "a.md", "out.html", "out.md",
    "school", "key-twice", "--", "-x", "", "folder",
]  # fmt: skip
SIGNS = ["", "\t", "```", ":", " - ", "^", "(", "|", "}", "1/0", "−"]
#: No dot or solidus, so that nothing outside the test's own folder is named.
LETTERS = st.text(st.characters(exclude_characters="./\\~\x00", exclude_categories=["Cs"]), max_size=8)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("PHYSCALC_DEBUG", raising=False)
    return tmp_path


def sound(argv: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    code = main(argv)
    streams = "".join(capsys.readouterr())
    assert code in (0, 1, 2)
    assert "physcalc itself has a fault here" not in streams, streams
    assert "Traceback" not in streams


@settings(
    max_examples=120,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(argv=st.lists(st.sampled_from(WORDS) | LETTERS, max_size=6))
def test_any_command_line(argv: list[str], folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "a.md").write_text("# 1 {.question}\n\n```{.given}\nm: 2 kg\n```\n", encoding="utf-8")
    sound(argv, capsys)


@settings(
    max_examples=40,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(data=st.binary(max_size=300) | st.text(max_size=200).map(lambda text: text.encode("utf-8")))
def test_any_bytes(data: bytes, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "a.md").write_bytes(data)
    sound(["check", "a.md"], capsys)


@st.composite
def damaged(draw: st.DrawFn) -> str:
    """A piece of a sound document in which something was taken out, doubled or put in."""
    text = draw(st.sampled_from(EXAMPLES)).read_text(encoding="utf-8")
    begin = text.index("\n", draw(st.integers(0, len(text) - 3000)))
    piece = text[: text.index("\n---\n", 4) + 5] + text[begin : begin + 2500]
    for _ in range(draw(st.integers(1, 4))):
        at = draw(st.integers(0, len(piece)))
        end = at + draw(st.integers(0, 12))
        put = draw(st.sampled_from([*SIGNS, piece[at:end] * 2]))
        piece = piece[:at] + put + piece[end:]
    return piece


@settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(text=damaged())
def test_any_damage(text: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (folder / "a.md").write_bytes(text.encode("utf-8"))
    sound(["check", "a.md"], capsys)
    sound(["build", "a.md", "-o", "out.md", "--draft", "--edition", "memo"], capsys)
    sound(["fix", "a.md", "--dry-run"], capsys)


def test_a_file_that_may_not_be_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(*_: object, **__: object) -> bytes:
        raise PermissionError(13, "Permission denied")

    (folder / "a.md").write_text("Text\n", encoding="utf-8")
    monkeypatch.setattr(Path, "open", refuse)
    assert main(["check", "a.md"]) == 2
    assert "cannot be read: permission denied" in capsys.readouterr().out
