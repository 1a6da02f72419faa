"""Documents in LaTeX whose outputs and reports are kept: whatever they read, or looked for, counts."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.cache import VARIABLE
from physcalc_filter.cli import main

SHEET = "title: Ours\nextends: base.yaml\n"
BASE = "title: Base\nconstants:\n  g: {value: %s m/s^2, title: acceleration due to gravity}\n"
DOT = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><circle cx="4" cy="4" r="%d"/></svg>'
MAIN = (
    "\\documentclass{article}\n\\usepackage{physcalc,import,subfiles}\n\\graphicspath{{shown/}}\n"
    "\\physsetup{sheet=ours.yaml, lang=en-ZA}\n\\begin{document}\n\\input{intro}\n\\subfile{parts/one}\n"
    "\\includegraphics{dot}\n\\end{document}\n"
)
ONE = (
    "\\documentclass[../main]{subfiles}\n\\begin{document}\n\\begin{physquestion}[marks=2]\n"
    "Its mass is \\physvalue{m}.\n"
    "\\input{data}\n\\begin{physcalculation}\nformula: w = m g\nfind: w in N to 1 dp\n\\end{physcalculation}\n"
    "\\end{physquestion}\n\\begin{physonly}[in=memo]\n\\includegraphics{hidden}\n\\end{physonly}\n\\end{document}\n"
)
DATA = "\\begin{physgiven}\nm: %s kg\n\\end{physgiven}\n"
FILES = {
    "main.tex": MAIN,
    "intro.tex": "Read all of it.\n",
    "parts/one.tex": ONE,
    "data.tex": DATA % 2,
    "ours.yaml": SHEET,
    "base.yaml": BASE % "9.8",
    "shown/dot.svg": DOT % 1,
    "parts/hidden.svg": DOT % 1,
}


def put(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    known = path.stat() if path.exists() else None
    path.write_text(text, encoding="utf-8")
    if known is not None:
        # As after a careless copy.
        os.utime(path, ns=(known.st_atime_ns, known.st_mtime_ns))


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A working folder with a paper and what it reads, and a store beside it that the program uses."""
    work = tmp_path / "work"
    work.mkdir()
    monkeypatch.chdir(work)
    monkeypatch.setenv(VARIABLE, str(tmp_path / "cache"))
    for name, text in FILES.items():
        put(work, name, text)
    return work


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What was worked out, and not found."""
    from physcalc_filter import pipeline

    found: list[str] = []
    for name in ("build", "check"):
        work = getattr(pipeline, name)

        def told(*arguments: object, work: Callable[..., object] = work, **more: object) -> object:
            found.append(work.__name__)
            return work(*arguments, **more)

        monkeypatch.setattr(pipeline, name, told)
    return found


Said = tuple[int, bytes | None, str]


def built(capsys: pytest.CaptureFixture[str], *options: str, target: str = "made.html") -> Said:
    """The exit code, the output, and what was said."""
    Path(target).unlink(missing_ok=True)
    code = main(["build", "main.tex", "-o", target, "--edition", "guide", "--draft", *options])
    content = Path(target).read_bytes() if Path(target).exists() else None
    return code, content, capsys.readouterr().err


def checked(capsys: pytest.CaptureFixture[str], *options: str) -> Said:
    code = main(["check", "main.tex", *options])
    return code, None, "".join(capsys.readouterr())


@pytest.mark.parametrize("ending", ["html", "pdf", "tex", "md", "docx"])
def test_an_output_is_made_once(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str], ending: str
) -> None:
    first = built(capsys, target=f"made.{ending}")
    assert first[:1] + first[2:] == (0, f"wrote made.{ending} (guide)\n")
    assert first[1]
    assert built(capsys, target=f"made.{ending}") == first
    assert made == ["build"]
    assert built(capsys, "--no-cache", target=f"made.{ending}") == first
    assert made == ["build", "build"]


def test_a_check_is_made_once(place: Path, made: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    first = checked(capsys)
    assert first[0] == 0
    assert checked(capsys) == first
    assert made == ["check"]


def link(name: str, to: str) -> Callable[[Path], None]:
    def change(folder: Path) -> None:
        (folder / name).unlink()
        (folder / name).symlink_to(to)

    return change


def gone(name: str) -> Callable[[Path], None]:
    return lambda folder: (folder / name).unlink()


def become(name: str, text: str) -> Callable[[Path], None]:
    return lambda folder: put(folder, name, text)


#: Changes after which the output is another one.
CHANGES: dict[str, Callable[[Path], None]] = {
    "document": become("main.tex", MAIN.replace("\\input{intro}", "")),
    "file": become("intro.tex", "Read some of it.\n"),
    "file empty": become("intro.tex", "\n"),
    "file gone": gone("intro.tex"),
    "subfile": become("parts/one.tex", ONE.replace("Its mass", "The mass")),
    "file of a subfile": become("data.tex", DATA % 3),
    "file that is nearer": become("parts/data.tex", DATA % 3),
    "file that is a link out of the folder": link("intro.tex", "../../outside.tex"),
    "link to another file": link("data.tex", "other.tex"),
    "sheet": become("ours.yaml", SHEET + "constants:\n  g: {value: 9.7 m/s^2, title: acceleration}\n"),
    "sheet below": become("base.yaml", BASE % "1.6"),
    "no sheet below": gone("base.yaml"),
    "picture": become("shown/dot.svg", DOT % 2),
    "picture nearer": become("dot.svg", DOT % 3),
    "picture with an ending that is tried before": become("shown/dot.png", "a picture"),
    "no picture": gone("shown/dot.svg"),
    "picture of the memo gone": gone("parts/hidden.svg"),
}


@pytest.mark.parametrize("change", CHANGES)
def test_a_change_is_seen(place: Path, capsys: pytest.CaptureFixture[str], change: str) -> None:
    put(place, "other.tex", DATA % 4)
    first, report = built(capsys), checked(capsys)
    CHANGES[change](place)
    second = built(capsys)
    assert second != first
    assert second == built(capsys, "--no-cache") == built(capsys)
    again = checked(capsys)
    assert again == checked(capsys, "--no-cache") == checked(capsys)
    assert (again != report) == change.endswith(("gone", "no picture", "no sheet below", "out of the folder"))


#: What is missing at first, so that the draft frames a problem, and what then changes what is said of it.
MISSING: dict[str, tuple[Callable[[Path], None], Callable[[Path], None]]] = {
    "file": (gone("intro.tex"), become("intro.tex", "Here again.\n")),
    "file nearer": (gone("data.tex"), become("parts/data.tex", DATA % 5)),
    "picture": (gone("shown/dot.svg"), become("dot.svg", DOT % 5)),
    "name of a file that is near": (gone("intro.tex"), become("intros.tex", "")),
    "file that was a folder": (
        lambda folder: ((folder / "intro.tex").unlink(), (folder / "intro.tex").mkdir())[1],
        lambda folder: ((folder / "intro.tex").rmdir(), put(folder, "intro.tex", "Here again."))[1],
    ),
}


@pytest.mark.parametrize("case", MISSING)
def test_what_was_missing_is_seen_when_it_comes(
    place: Path, capsys: pytest.CaptureFixture[str], case: str
) -> None:
    before, after = MISSING[case]
    before(place)
    first, report = built(capsys), checked(capsys)
    assert report[0] != 0
    assert built(capsys) == first
    after(place)
    second, again = built(capsys), checked(capsys)
    assert second != first
    assert again != report
    assert second == built(capsys, "--no-cache")
    assert again == checked(capsys, "--no-cache")


def test_the_document_under_another_name_reads_itself(
    place: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    put(place, "copy.tex", MAIN)
    put(place, "intro.tex", MAIN)
    put(place, "main.tex", MAIN)
    first = checked(capsys)
    link("main.tex", "intro.tex")(place)
    second = checked(capsys)
    assert second != first
    assert second == checked(capsys, "--no-cache")


def test_a_picture_that_is_too_large_is_looked_for_each_time(
    place: Path, made: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    """Its content is not read, so nothing that rests on it is kept."""
    put(place, "parts/hidden.svg", "x" * 2_000)
    options = ("--limit", "picture-size=1000")
    first = checked(capsys, *options)
    assert checked(capsys, *options) == first
    assert made == ["check", "check"]


def test_an_output_is_put_over_nothing_that_was_read(place: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for _ in range(2):
        assert main(["build", "main.tex", "-o", "made.tex"]) == 0
        assert main(["build", "main.tex", "-o", "data.tex"]) == 2
        assert "output-over-source" in capsys.readouterr().err
    assert (place / "data.tex").read_text(encoding="utf-8") == DATA % 2
