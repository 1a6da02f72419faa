"""What `physcalc explain` shows as wrong is wrong in just that way, and what it shows as right is right."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli.explain import every_problem
from physcalc_filter.sources import read_source

FRAMES = Path(__file__).with_name("frames.md")
_FRAME = re.compile(
    r"^~~~~ (question|document|sheet|latex) ([a-z0-9-]+)\n(.*?)^~~~~\n", re.MULTILINE | re.DOTALL
)
_PLACE = re.compile(r"^(?P<indent> *)(?P<before>.*)@@(?P<after>.*)$", re.MULTILINE)
_FRONT = "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n"

#: Problems that no text of a document can show: they are of files, programs and sizes, of command lines, or of
#: two documents. Names that end in a hyphen stand for all that begin so.
ELSEWHERE = (
    "block-too-long", "chapters-left-out", "choices-many", "cluster-", "document-", "file-", "folder-empty",
    "graph-points-many", "number-loose", "output-", "pair-", "pandoc-", "picture-unreadable",
    "problems-not-shown", "program-fault", "root-combinations-many", "situation-things-many", "taken-",
    "tex-run-", "trace-", "unknowns-many", "word-changed", "word-comment", "word-unlike",
    "word-unreadable", "work-too-much", "worker-died",
)  # fmt: skip

FRAMES_BY_SLUG = {
    found[2]: (found[1], found[3]) for found in _FRAME.finditer(FRAMES.read_text(encoding="utf-8"))
}


def filled(frame: str, example: str) -> str:
    """The frame with the example in its place, each line of it as far in as the place."""

    def put(place: re.Match[str]) -> str:
        indent = place["indent"]
        lines = [indent + line if line and at else line for at, line in enumerate(example.split("\n"))]
        return indent + place["before"] + "\n".join(lines) + place["after"]

    return _PLACE.sub(put, frame, count=1)


def slugs_of(kind: str, frame: str, example: str, folder: Path) -> list[str]:
    """Slugs of all problems and notes that the document has."""
    text = filled(frame, example)
    if kind == "sheet":
        (folder / "own.yaml").write_text(text, encoding="utf-8")
        text = "---\nphyscalc:\n  sheet: own.yaml\n---\n\nText.\n"
    elif kind == "question":
        text = f"{_FRONT}::::: {{.question}}\n{text}:::::\n"
    (folder / "notes.tex").write_text("A file beside the document.\n", encoding="utf-8")
    (folder / "lift.png").write_bytes(b"a picture beside the document")
    (folder / "board.yaml").write_text("title: A sheet beside the document\n", encoding="utf-8")
    name = "example.tex" if kind == "latex" else "example.md"
    path = folder / name
    path.write_text(text, encoding="utf-8")
    report = pipeline.check(read_source(path, name), folder=folder)
    return [problem.slug for problem in report.problems]


def _elsewhere() -> list[str]:
    return [
        slug
        for slug in every_problem()
        if any(slug.startswith(name) if name.endswith("-") else slug == name for name in ELSEWHERE)
    ]


def test_every_problem_has_its_example_or_its_test() -> None:
    assert set(FRAMES_BY_SLUG) | set(_elsewhere()) == set(every_problem())
    assert not set(FRAMES_BY_SLUG) & set(_elsewhere())


@pytest.mark.parametrize("slug", _elsewhere())
def test_a_problem_that_no_document_shows_has_a_test(slug: str) -> None:
    name = every_problem()[slug].__name__
    tests = Path(__file__).parents[1]
    files = [path for ending in ("py", "md") for path in tests.rglob(f"*.{ending}")]
    texts = (path.read_text(encoding="utf-8") for path in files if path.parent != FRAMES.parent)
    assert any(slug in text or name in text for text in texts)


@pytest.mark.parametrize("slug", FRAMES_BY_SLUG)
def test_what_is_shown_as_wrong_is_wrong_in_just_that_way(slug: str, tmp_path: Path) -> None:
    wrong = every_problem()[slug].wrong
    assert wrong
    assert set(slugs_of(*FRAMES_BY_SLUG[slug], wrong, tmp_path)) == {slug}


@pytest.mark.parametrize("slug", FRAMES_BY_SLUG)
def test_what_is_shown_as_right_is_right(slug: str, tmp_path: Path) -> None:
    right = every_problem()[slug].right
    assert right
    assert slugs_of(*FRAMES_BY_SLUG[slug], right, tmp_path) == []
