"""Whoever checks a shelf, and however many: the same report, byte for byte."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter.cli.paths import documents
from physcalc_filter.report import FORMATS, AsText, Format
from physcalc_filter.shelf import Order, checked_here
from shelf_papers import COUNT, run, shelf


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shelf(tmp_path_factory.mktemp("shelf") / "papers").parent


@pytest.mark.parametrize("form", ["text", *FORMATS])
def test_one_process_and_four(form: str, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    one = run("check", "papers", "gone.md", "--jobs", "1", "--format", form, cwd=folder)
    four = run("check", "papers", "gone.md", "--jobs", "4", "--format", form, cwd=folder)
    assert (one.stdout, one.stderr, one.returncode) == (four.stdout, four.stderr, four.returncode)
    assert one.returncode == 2
    assert one.stdout.count(b"answer-disagrees") >= 10
    # The third way: this process alone.
    monkeypatch.chdir(folder)
    wanted: Format = FORMATS[form] if form in FORMATS else AsText()
    written: list[str] = []
    wanted.write(checked_here(documents([Path("papers"), Path("gone.md")]), Order(wanted)), written.append)
    assert "".join(written).encode() == one.stdout


def test_every_document_once_and_in_order(folder: Path) -> None:
    done = run("check", "papers", "--jobs", "4", "--format", "junit", cwd=folder)
    names = [line.split(b'"')[1].decode() for line in done.stdout.splitlines() if b"<testsuite " in line]
    there = sorted(
        (path.relative_to(folder) for path in (folder / "papers").rglob("*.md")),
        key=lambda path: (len(path.parts), path),
    )
    assert names == [path.as_posix() for path in there]
    assert len(names) == COUNT + 1


def test_settings_and_limits_reach_the_workers(folder: Path) -> None:
    done = run(
        "check", "papers", "--jobs", "2", "--set", "sheet=base.yaml", "--limit", "digits=1", "--strict",
        cwd=folder,
    )  # fmt: skip
    assert b"number-too-long" in done.stdout
    assert done.stdout == run(
        "check", "papers", "--jobs", "1", "--set", "sheet=base.yaml", "--limit", "digits=1", "--strict",
        cwd=folder,
    ).stdout  # fmt: skip
