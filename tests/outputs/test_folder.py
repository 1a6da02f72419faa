"""A folder that is not there is said, and not made."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli import main


def test_a_folder_that_is_missing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = tmp_path / "page.md"
    source.write_text("# Question 1 {.question marks=1}\n\nWhy?\n", encoding="utf-8")
    target = tmp_path / "no-such-folder" / "page.html"
    assert main(["build", str(source), "-o", str(target)]) == 2
    said = capsys.readouterr().err
    assert "output-folder-missing" in said
    assert "make the folder first" in said
    assert not target.parent.exists()
