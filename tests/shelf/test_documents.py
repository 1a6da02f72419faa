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


BLOCK = "\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"


def whole(body: str) -> str:
    return f"\\documentclass{{article}}\n\\begin{{document}}\n{body}\\end{{document}}\n"


def put(folder: Path, **files: str) -> None:
    """Writes files in LaTeX; two underscores stand for a folder's stroke."""
    for name, text in files.items():
        path = folder / f"{name.replace('__', '/')}.tex"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def test_documents_in_latex_stand_among_the_others(folder: Path) -> None:
    put(folder, a__0=whole(BLOCK), a__15=whole("A mass of \\physvalue[2 kg]{m}.\n"), a__b__30=whole(BLOCK))
    assert names("a") == ["a/0.tex", "a/1.md", "a/15.tex", "a/2.md", "a/b/3.md", "a/b/30.tex"]


def test_latex_without_anything_of_ours_is_left_alone(folder: Path) -> None:
    put(
        folder,
        f__letter=whole("Dear reader, physics is \\physical{fun}.\n"),
        f__comment=whole("% \\begin{physgiven}\nText.\n"),
        f__shown=whole("\\begin{verbatim}\n\\begin{physgiven}\n\\end{verbatim}\n\\verb|\\physvalue{m}|\n"),
        f__own=whole("\\newcommand{\\physvalue}[1]{#1}\\physvalue{m}\n"),
        f__empty="",
    )
    assert names("f") == ["empty f"]


def test_what_is_nearly_ours_or_asks_for_the_package_is_checked(folder: Path) -> None:
    put(
        folder,
        f__a=whole("\\begin{physgivens}\nm: 2 kg\n\\end{physgivens}\n"),
        f__b="\\documentclass{article}\n\\usepackage[T1]{fontenc}\n\\usepackage[edition=memo]{physcalc}\n",
        f__c=whole("\\physvalues{m}\n"),
    )
    assert names("f") == ["f/a.tex", "f/b.tex", "f/c.tex"]


def test_chapters_go_with_the_document_that_reads_them(folder: Path) -> None:
    put(
        folder,
        f__0_chapter=BLOCK,
        f__main=whole("\\input{0_chapter}\n\\include{parts/one}\n"),
        f__parts__one=BLOCK + "\\input{parts/two.tex}\n",
        f__parts__two=BLOCK,
        f__parts__other=BLOCK,
        f__preamble="\\usepackage{physcalc}\n",
    )
    # Nobody reads the last two, so they are documents of their own.
    assert names("f") == ["f/main.tex", "f/preamble.tex", "f/parts/other.tex"]


def test_a_chapter_is_told_by_what_it_reads(folder: Path) -> None:
    put(folder, f__all="\\input{one}\n\\input{two}\n", f__one=BLOCK, f__two=BLOCK)
    assert names("f") == ["f/all.tex"]


def test_files_that_read_one_another_are_not_lost(folder: Path) -> None:
    put(folder, f__b=BLOCK + "\\input{c}\n", f__c=BLOCK + "\\input{b}\n")
    assert names("f") == ["f/b.tex"]


def test_a_chapter_that_is_named_is_checked(folder: Path) -> None:
    put(folder, f__main=whole("\\input{part}\n"), f__part=BLOCK, f__plain="Text.\n")
    assert names("f", "f/part.tex", "f/plain.tex", "f/main.tex") == [
        "f/main.tex",
        "f/part.tex",
        "f/plain.tex",
    ]
    assert names("f/part.tex", "f/main.tex", "f") == ["f/part.tex", "f/main.tex"]


def test_latex_that_cannot_be_read_is_not_passed_over(folder: Path) -> None:
    (folder / "f").mkdir()
    (folder / "f" / "old.tex").write_bytes(whole("Krag \xeb\n" + BLOCK).encode("latin-1"))
    (folder / "f" / "foreign.tex").write_bytes(whole("Krag \xeb\n").encode("latin-1"))
    assert names("f") == ["f/old.tex"]


def test_links_to_latex_stay_inside(folder: Path) -> None:
    put(folder, f__main=whole(BLOCK), g__out=whole(BLOCK))
    (folder / "f" / "again.tex").symlink_to(folder / "f" / "main.tex")
    (folder / "f" / "out.tex").symlink_to(folder / "g" / "out.tex")
    assert names("f") == ["f/main.tex"]
