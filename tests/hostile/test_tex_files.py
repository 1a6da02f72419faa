"""Documents in LaTeX that name other files: nothing outside their folder is read, nothing that they read is lost."""

from __future__ import annotations

from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.sources import read_source

SECRET = "\\begin{physgiven}\nsecret: 4711 kg\n\\end{physgiven}\n"


@pytest.mark.parametrize("how", ["above", "link", "folder", "absolute", "home", "macro"])
@pytest.mark.parametrize(
    "command",
    [
        "input{%s}",
        "include{%s}",
        "includegraphics{%s}",
        "subfile{%s}",
        "import{%s}",
        "subimport{%s}",
        "import*{%s}",
    ],
)
def test_nothing_outside_the_folder_is_read(how: str, command: str, tmp_path: Path) -> None:
    folder = tmp_path / "paper"
    folder.mkdir()
    outside = tmp_path / "secret.tex"
    outside.write_text(SECRET, encoding="utf-8")
    (tmp_path / "secret.png").write_bytes(b"4711")
    (folder / "link.tex").symlink_to(outside)
    (folder / "link.png").symlink_to(tmp_path / "secret.png")
    (folder / "inside").symlink_to(tmp_path)
    name = {
        "above": "../secret",
        "link": "link",
        "folder": "inside/secret",
        "absolute": str(tmp_path / "secret"),
        "home": "~/../../etc/passwd",
        "macro": "\\jobname/../../secret",
    }[how]
    document = folder / "paper.tex"
    if "import" in command:
        above, _, file = name.rpartition("/")
        name = f"{above}{'/' if above else ''}}}{{{file}"
    read = "\\" + command.replace("%s", name)
    document.write_text(f"Text.\n{read}\n\\physvalue{{secret}}\n", encoding="utf-8")
    report = pipeline.check(read_source(document))
    assert not any("4711" in str(problem) for problem in report.problems)
    slugs = [problem.slug for problem in report.problems]
    assert "name-without-value" in slugs
    picture = command.startswith("includegraphics")
    if how != "macro" or not picture:
        assert slugs[0] == ("tex-picture-missing" if picture else "tex-input-unreadable")


def test_what_a_document_reads_is_not_written_over(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    part = tmp_path / "part.tex"
    part.write_text("A part.\n", encoding="utf-8")
    (tmp_path / "link.tex").symlink_to(part)
    document = tmp_path / "paper.tex"
    document.write_text("\\input{part}\n", encoding="utf-8")
    for target in ("part.tex", "paper.tex", "link.tex"):
        assert main(["build", str(document), "-o", str(tmp_path / target)]) == 2
        assert "output-over-source" in capsys.readouterr().err
    assert part.read_text(encoding="utf-8") == "A part.\n"


def test_links_that_lead_to_themselves_are_not_there(tmp_path: Path) -> None:
    for name in ("loop.tex", "loop.png", "loop.yaml"):
        (tmp_path / name).symlink_to(name)
    document = tmp_path / "paper.tex"
    document.write_text("\\input{loop}\n\\subfile{loop}\n\\includegraphics{loop}\n", encoding="utf-8")
    found = pipeline.check(read_source(document)).problems
    assert [(problem.slug, problem.span.line) for problem in found] == [
        ("tex-input-unreadable", 1),
        ("tex-input-unreadable", 2),
        ("tex-picture-missing", 3),
    ]
    assert "loop" not in found[0].mend()
    document.write_text("\\physsetup{sheet=loop.yaml}\nText.\n", encoding="utf-8")
    assert [problem.slug for problem in pipeline.check(read_source(document)).problems] == ["sheet-unknown"]
    (tmp_path / "turn").symlink_to("turn")
    assert main(["check", str(tmp_path / "turn")]) == 2
