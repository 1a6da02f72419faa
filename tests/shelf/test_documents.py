"""Which documents paths mean: in order, each once."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli.paths import documents
from physcalc_filter.cli.problems import FolderEmpty


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    for name in (
        "a/2.md",
        "a/1.md",
        "a/.hidden.md",
        "a/.git/x.md",
        "a/b/3.md",
        "a/notes.txt",
        "c/4.md",
        "e/notes.txt",
    ):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("text\n", encoding="utf-8")
    return tmp_path


def names(*paths: str) -> list[str]:
    return [
        f"empty {one.path}" if isinstance(one, FolderEmpty) else one.as_posix()
        for one in documents([Path(path) for path in paths])
    ]


def test_folders_sorted_one_by_one(folder: Path) -> None:
    assert names("c", "a") == ["c/4.md", "a/1.md", "a/2.md", "a/b/3.md"]


def test_each_once_under_its_first_name(folder: Path) -> None:
    assert names("a/b/3.md", "a", "a/1.md", "a/b", str(folder / "a"), "a") == ["a/b/3.md", "a/1.md", "a/2.md"]
    assert names("e", "e", "gone.md", "gone.md") == ["empty e", "gone.md"]


def test_links_stay_inside_and_count_once(folder: Path) -> None:
    (folder / "a" / "0.md").symlink_to(folder / "a" / "2.md")
    (folder / "a" / "out.md").symlink_to(folder / "c" / "4.md")
    (folder / "a" / "text.md").symlink_to(folder / "a" / "notes.txt")
    (folder / "a" / "text2.md").symlink_to(folder / "a" / "notes.txt")
    (folder / "d").symlink_to(folder / "a")
    assert names("a") == ["a/1.md", "a/2.md", "a/text.md", "a/b/3.md"]
    assert names("d") == ["d/1.md", "d/2.md", "d/text.md", "d/b/3.md"]
    assert names("a", "d") == names("a")


def test_a_name_that_is_hidden_may_be_given(folder: Path) -> None:
    assert names("a/.hidden.md", "a/.git") == ["a/.hidden.md", "a/.git/x.md"]
