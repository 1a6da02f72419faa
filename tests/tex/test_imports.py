"""Files that the packages subfiles and import read: where they are looked for, and where what is in them is told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter import pipeline
from physcalc_filter.cli import main
from physcalc_filter.shelf.beside import inputs
from physcalc_filter.sources import Source, look_at, read_source, weave
from physcalc_filter.sources.tex.pictures import Pictures

from .conftest import HEAD, TAIL, Told

Check = Callable[..., Told]

PART = (
    "\\begin{physquestion}\n\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"
    "Text \\physvalue[3 kg]{m}.\n\\end{physquestion}\n"
)
#: The same as a subfile; its preamble has four lines.
SUBFILE = (
    "\\documentclass[../main.tex]{subfiles}\n\\usepackage{physcalc}\n\\physsetup{decimal=comma}\n"
    "\\begin{document}\n" + PART + "\\end{document}\nLost \\physvalue{q}.\n"
)


def put(folder: Path, files: dict[str, str]) -> None:
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


@pytest.mark.parametrize(
    "command",
    [
        "\\import{parts/}{one}", "\\import{parts}{one.tex}", "\\import*{./parts/}{one}", "\\inputfrom{parts/}{one}",
        "\\includefrom{parts/}{one}", "\\subimport{parts/}{one}", "\\subimport* {parts/} {one}",
        "\\subinputfrom{parts/}{one}", "\\subincludefrom{parts/}{one}", "\\subfile{parts/one}",
        "\\subfile{parts/one.tex}", "\\subfileinclude{parts/one}", "\\import{}{parts/one}",
        "\\subimport{parts//}%\n{one}",
    ],
)  # fmt: skip
def test_a_problem_in_a_file_that_is_imported_names_that_file(told: Check, command: str) -> None:
    assert told(f"Text.\n{command}\nMore.", parts__one_tex=PART) == [
        ("parts/one.tex", "datum-disagrees", 5, 17)
    ]


@pytest.mark.parametrize("command", ["\\subfile", "\\subfileinclude"])
def test_a_subfile_is_read_without_its_preamble_and_what_follows_it(told: Check, command: str) -> None:
    body = f"{command}{{parts/one}}\n\\physvalue[4 kg]{{m}}"
    assert told(body, parts__one_tex=SUBFILE) == [
        ("main.tex", "name-without-value", 2, 18),
        ("parts/one.tex", "datum-disagrees", 9, 17),
    ]


def test_the_settings_of_a_subfile_hold_for_it_alone(tmp_path: Path) -> None:
    subfile = SUBFILE.replace("decimal=comma", "sheet=ours.yaml")
    put(tmp_path, {"main.tex": HEAD + "\\subfile{parts/one}" + TAIL, "parts/one.tex": subfile})
    found = pipeline.check(read_source(tmp_path / "main.tex")).problems
    assert [one.slug for one in found] == ["datum-disagrees"]
    alone = pipeline.check(read_source(tmp_path / "parts" / "one.tex")).problems
    assert [(one.slug, one.span.line, one.span.column) for one in alone] == [
        ("tex-preamble-elsewhere", 1, 16),
        ("sheet-unknown", 3, 18),
    ]


def test_a_subfile_whose_preamble_never_ends_is_told(told: Check) -> None:
    assert told("\\subfile{parts/one}", parts__one_tex="\\documentclass[../main]{subfiles}\nText.\n") == [
        ("main.tex", "tex-input-unreadable", 1, 10)
    ]


def read(folder: Path, main: str) -> list[str]:
    """The files that a document reads, by stretches of its text, in their order; without the document."""
    woven, problems = weave(Source(str(folder / "main.tex"), main), folder)
    assert problems == []
    names = [str(Path(part.source.name).relative_to(folder)) for part in woven.parts]
    return [
        name for name, before in zip(names, ["", *names], strict=False) if name not in (before, "main.tex")
    ]


def test_what_an_imported_file_names_is_looked_for_in_its_folder(tmp_path: Path) -> None:
    files = {
        "parts/one.tex": "\\input{data} one \\subimport{deep/}{two} one \\input{outer}\n",
        "parts/data.tex": "Data.\n",
        "parts/deep/two.tex": "\\input{data}\\subimport{}{three}",
        "parts/deep/three.tex": "Three.",
        "data.tex": "Other data.\n",
        "outer.tex": "Outer.\n",
    }
    put(tmp_path, files)
    # Below there is no such data: that of the file above is nearer than that of the document.
    assert read(tmp_path, "\\import{parts/}{one}\n\\input{data}\n") == [
        "parts/data.tex", "parts/one.tex", "parts/data.tex", "parts/deep/three.tex", "parts/one.tex", "outer.tex",
        "data.tex",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("inner", "line"),
    [("\\import{parts/deep/}{two}", 5), ("\\subimport{deep/}{two}", 5), ("\\subfile{deep/two}", 5)],
)
def test_import_begins_at_the_document_and_subimport_at_the_file(told: Check, inner: str, line: int) -> None:
    files = {"parts__one_tex": f"{inner}\n", "parts__deep__two_tex": PART}
    assert told("\\subfile{parts/one}", **files) == [("parts/deep/two.tex", "datum-disagrees", line, 17)]


def test_subfix_names_what_lies_beside_the_file(told: Check) -> None:
    files = {"parts__one_tex": "\\input{\\subfix{../data}}\n", "data_tex": PART}
    assert told("\\subfile{parts/one}", **files) == [("parts/../data.tex", "datum-disagrees", 5, 17)]


def test_what_cannot_be_read_is_told_where_it_is_named(told: Check, tmp_path: Path) -> None:
    body = (
        "\\import{parts/}{onee}\n\\subfile{no/one}\n\\import{../}{x}\n\\subimport{parts/}{\\name}\n"
        "\\import{parts/}{self}"
    )
    found = told(body, parts__one_tex="Text.\n", parts__self_tex="\n\\subfile{self}\n")
    assert found == [
        ("main.tex", "tex-input-unreadable", 1, 17),
        ("main.tex", "tex-input-unreadable", 2, 10),
        ("main.tex", "tex-input-unreadable", 3, 14),
        ("main.tex", "tex-input-unreadable", 4, 20),
        ("parts/self.tex", "tex-input-unreadable", 2, 10),
    ]
    first, *_ = pipeline.check(read_source(tmp_path / "main.tex")).problems
    assert first.sentence() == 'the file "parts/onee" is not there'
    assert first.mend() == 'if it is what was meant, write "one"'


def test_limits_hold_for_what_is_imported(told: Check) -> None:
    found = told("\\subfile{a}\n" * 300, a_tex="x\n")
    assert found == [("main.tex", "tex-input-unreadable", 201, 10)]
    deep = {f"{'d__' * depth}a_tex": "\\subimport{d/}{a}\n" for depth in range(40)}
    (found,) = told("\\subimport{d/}{a}", **{f"d__{name}": text for name, text in deep.items()})
    assert found[1] == "tex-input-unreadable"


@pytest.mark.parametrize(
    "definition",
    ["\\newcommand{\\import}[2]{#1 from #2}", "\\renewcommand\\subfile[1]{#1}", "\\def\\subimport#1#2{#1}"],
)
def test_a_command_of_the_author_s_own_reads_no_file(told: Check, definition: str) -> None:
    uses = "\\import{Ore}{abroad} \\subfile{no} \\subimport{a}{b}"
    own = definition.partition("\\")[2]
    left = [name for name in ("import", "subfile", "subimport") if f"\\{name}" not in own]
    assert len(told(f"{definition}\n{uses}")) == len(left)


def test_pictures_are_looked_for_beside_the_file_that_shows_them(tmp_path: Path) -> None:
    files = {
        "main.tex": HEAD.replace("\\begin{document}", "\\graphicspath{{\\subfix{shown/}}}\n\\begin{document}")
        + "\\includegraphics{a}\n\\subfile{parts/one}\n"
        + TAIL,
        "parts/one.tex": "\\documentclass[../main]{subfiles}\n\\begin{document}\n\\includegraphics{a}\n"
        "\\includegraphics{b} \\includegraphics{c} \\includegraphics{d}\n\\end{document}\n",
        "a.png": "",
        "parts/a.png": "",
        "parts/d.png": "",
        "b.png": "",
        "shown/b.png": "",
        "shown/c.png": "",
    }
    put(tmp_path, files)
    woven, problems = weave(read_source(tmp_path / "main.tex"), tmp_path)
    assert problems == []
    pictures = Pictures(woven.text, (tmp_path,))
    inside = woven.text.index("{b}")
    paths = woven.part_at(inside).paths
    assert [pictures.find(name) for name in "abc"] == ["a.png", "b.png", "shown/c.png"]
    assert [pictures.find(name, paths) for name in "abcd"] == [
        "parts/a.png", "shown/b.png", "shown/c.png", "parts/d.png",
    ]  # fmt: skip
    assert pictures.find("d") is None


def body_of(made: Path) -> str:
    """A document in Markdown without its front matter."""
    return made.read_text(encoding="utf-8").rpartition("---\n")[2].strip()


@pytest.mark.parametrize("command", ["\\input{a}", "\\subfile{a}"])
@pytest.mark.parametrize("end", ["", "\n", " % a remark"])
def test_a_file_ends_a_line_and_no_paragraph(tmp_path: Path, command: str, end: str) -> None:
    put(tmp_path, {"main.tex": f"First\n{command}\nlast, {command} here.\n", "a.tex": "words" + end})
    made = tmp_path / "made.md"
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(made)]) == 0
    assert " ".join(body_of(made).split("\n")) == "First words last, words here."


@pytest.mark.parametrize("command", ["\\include{a}", "\\subfileinclude{a}"])
def test_a_chapter_is_a_paragraph_of_its_own(tmp_path: Path, command: str) -> None:
    put(tmp_path, {"main.tex": f"First\n{command}\n{command} last.\n", "a.tex": "words"})
    assert main(["build", str(tmp_path / "main.tex"), "-o", str(tmp_path / "made.md")]) == 0
    assert body_of(tmp_path / "made.md") == "First\n\nwords\n\nwords\n\nlast."


def test_a_subfile_goes_with_the_document_that_reads_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(tmp_path, {"main.tex": HEAD + "\\subfile{parts/one}" + TAIL, "parts/one.tex": SUBFILE})
    assert not look_at(tmp_path / "parts" / "one.tex").whole
    assert main(["check", str(tmp_path)]) == 1
    said = capsys.readouterr().out
    assert "tex-preamble-elsewhere" not in said
    assert said.count("datum-disagrees") == 1
    (tmp_path / "main.tex").unlink()
    assert main(["check", str(tmp_path)]) == 1
    assert "tex-preamble-elsewhere" in capsys.readouterr().out


def test_what_a_document_imports_goes_with_it_to_another_machine(tmp_path: Path) -> None:
    main = HEAD + "\\subfile{parts/one}\n\\import{parts/}{onee}\n\\import{parts/}{away}" + TAIL
    put(
        tmp_path,
        {
            "main.tex": main,
            "parts/one.tex": "\\input{two}\\includegraphics{dot}",
            "parts/two.tex": "Two.",
            "parts/dot.png": "",
        },
    )
    (tmp_path / "parts" / "away.tex").symlink_to(tmp_path.parent / "away.tex")
    sent = inputs(read_source(tmp_path / "main.tex"))
    assert {str(Path(name).relative_to(tmp_path)): held for name, held in sent.items()} == {
        "parts/one.tex": b"\\input{two}\\includegraphics{dot}",
        "parts/two.tex": b"Two.",
        "parts/dot.png": b"",
        "parts/away.tex": (),
    }


def test_fix_mends_in_the_subfile(tmp_path: Path) -> None:
    block = "\\begin{physcalculation}\nformula: w = m g\nfind: w in N to 1 dp\nanswer: 21.0 N\n\\end{physcalculation}\n"
    sub = SUBFILE.replace("Text \\physvalue[3 kg]{m}.\n", block)
    put(tmp_path, {"main.tex": HEAD + "\\subfile{parts/one}" + TAIL, "parts/one.tex": sub})
    assert main(["fix", str(tmp_path / "main.tex")]) == 0
    assert (tmp_path / "parts" / "one.tex").read_text(encoding="utf-8") == sub.replace("21.0 N", "19.6 N")
