"""No document reads a file outside its folder, fetches anything, runs anything, or has a file of others written."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.outputs.problems import OutputFailed

from physcalc.problems import Span

from .conftest import ENDLESS, SVG, Run, question

Physcalc = Callable[..., Run]

OWN = "title: Own\nextends: school\nconstants:\n  g:\n    value: 9.5 m·s⁻²\n    title: secret-word\n    source: x\n"
SOUND = (["m: 2 kg"], ["use: weight", "find: F_g in N"])


@pytest.fixture
def secret(folder: Path) -> Path:
    """A sheet and a picture outside the document's folder."""
    mine = folder.parent / "mine"
    (mine / "own.yaml").write_text(OWN, encoding="utf-8")
    (mine / "secret.svg").write_text(
        SVG.replace("<rect", "<title>secret-word</title><rect"), encoding="utf-8"
    )
    return mine


@pytest.mark.parametrize(
    "way", ["../mine/own.yaml", "sub/../../mine/own.yaml", "absolute", "link.yaml", "extending.yaml"]
)
def test_a_sheet_outside_the_folder(way: str, folder: Path, secret: Path, physcalc: Physcalc) -> None:
    (folder / "link.yaml").symlink_to(secret / "own.yaml")
    (folder / "extending.yaml").write_text("title: x\nextends: ../mine/own.yaml\n", encoding="utf-8")
    name = str(secret / "own.yaml") if way == "absolute" else way
    (folder / "a.md").write_text(question(*SOUND, front=f"sheet: {name}"), encoding="utf-8")
    done = physcalc("check", "a.md")
    assert done.code == 2
    assert "sheet-outside" in done.said
    assert "secret-word" not in done.said


def test_a_sheet_that_the_reader_names_may_lie_anywhere(
    folder: Path, secret: Path, physcalc: Physcalc
) -> None:
    (folder / "a.md").write_text(question(*SOUND), encoding="utf-8")
    assert physcalc("check", "a.md", "--set", "sheet=../mine/own.yaml").code == 0
    (folder / "below").mkdir()
    (folder / "below" / "own.yaml").write_text(OWN, encoding="utf-8")
    (folder / "a.md").write_text(question(*SOUND, front="sheet: below/own.yaml"), encoding="utf-8")
    assert physcalc("check", "a.md").code == 0


def test_a_sheet_with_anchors_is_not_read(folder: Path, physcalc: Physcalc) -> None:
    lines = ["title: x", "a: &a [x, x]", *(f"b{at}: [*a, *a]" for at in range(9))]
    (folder / "own.yaml").write_text("\n".join(lines), encoding="utf-8")
    (folder / "a.md").write_text(question(*SOUND, front="sheet: own.yaml"), encoding="utf-8")
    assert "an anchor or an alias" in physcalc("check", "a.md").said


@pytest.mark.parametrize("ending", ["pdf", "html", "docx", "epub"])
@pytest.mark.parametrize("way", ["../mine/secret.svg", "absolute", "link.svg", "file:"])
def test_a_picture_outside_the_folder(
    way: str, ending: str, folder: Path, secret: Path, physcalc: Physcalc
) -> None:
    (folder / "link.svg").symlink_to(secret / "secret.svg")
    name = {"absolute": str(secret / "secret.svg"), "file:": (secret / "secret.svg").as_uri()}.get(way, way)
    (folder / "a.md").write_text(f"![x](<{name}>)\n", encoding="utf-8")
    done = physcalc("build", "a.md", "-o", f"a.{ending}")
    assert done.code == 2
    assert "lies outside the document's folder" in done.said
    assert not (folder / f"a.{ending}").exists()
    assert physcalc("build", "a.md", "-o", f"a.{ending}", "--resource-path", str(secret)).code == 0


@pytest.mark.parametrize(
    "key", ["css", "epub-cover-image", "cover-image", "template", "include-before-body", "reference-doc"]
)
def test_front_matter_that_names_a_file(key: str, folder: Path, secret: Path, physcalc: Physcalc) -> None:
    text = f'---\ntitle: x\n{key}: "{secret / "secret.svg"}"\n---\n\ntext\n'
    (folder / "a.md").write_text(text, encoding="utf-8")
    for ending in ("html", "epub", "docx", "tex"):
        physcalc("build", "a.md", "-o", f"a.{ending}")
        assert b"secret-word" not in unpacked(folder / f"a.{ending}")


def unpacked(path: Path) -> bytes:
    """All bytes of a file; nothing where there is none."""
    if not path.exists():
        return b""
    if not zipfile.is_zipfile(path):
        return path.read_bytes()
    with zipfile.ZipFile(path) as archive:
        return b"".join(archive.read(name) for name in archive.namelist())


@pytest.mark.parametrize(
    "code",
    [
        '#read("../mine/secret.svg")', '#image("../mine/secret.svg")', '#include "../mine/secret.svg"',
        '#read("/etc/passwd")', '#import "/etc/passwd": *', '#plugin("/etc/passwd")', '#bibliography("/etc/passwd")',
    ],
)  # fmt: skip
def test_raw_typst_reads_no_file(code: str, folder: Path, secret: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(f"```{{=typst}}\n{code}\n```\n", encoding="utf-8")
    done = physcalc("build", "a.md", "-o", "a.pdf")
    assert done.code == 2
    assert "output-failed" in done.said


def test_raw_typst_fetches_no_package(
    folder: Path, physcalc: Physcalc, monkeypatch: pytest.MonkeyPatch
) -> None:
    with socket.socket() as door:
        door.bind(("127.0.0.1", 0))
        door.listen()
        door.settimeout(0.2)
        # Whoever fetches through the proxy of the machine would knock here.
        for name in ("http_proxy", "https_proxy", "HTTPS_PROXY", "all_proxy"):
            monkeypatch.setenv(name, f"http://127.0.0.1:{door.getsockname()[1]}")
        (folder / "a.md").write_text('```{=typst}\n#import "@preview/cetz:0.3.0": *\n```\n', encoding="utf-8")
        done = physcalc("build", "a.md", "-o", "a.pdf")
        assert done.code == 2
        with pytest.raises(TimeoutError):
            door.accept()


def test_tex_is_told_to_run_and_read_nothing(folder: Path, tmp_path: Path) -> None:
    import panflute as pf
    from physcalc_filter.outputs import write

    told = tmp_path / "told.txt"
    engine = tmp_path / "pdflatex"
    engine.write_text(
        f'#!/bin/sh\necho "$@" "in=$openin_any" "out=$openout_any" > "{told}"\nexit 1\n', encoding="utf-8"
    )
    engine.chmod(0o755)
    with pytest.raises(OutputFailed):
        write(pf.Doc(pf.Para(pf.Str("x"))), folder / "a.pdf", pdf_engine=str(engine))
    words = told.read_text(encoding="utf-8").split()
    assert "-no-shell-escape" in words
    assert "in=p" in words
    assert "out=p" in words


def test_no_python_is_evaluated(folder: Path, physcalc: Physcalc) -> None:
    code = "__import__('pathlib').Path('made').write_text('x')"
    (folder / "a.md").write_text(
        question(
            [f"a: {code}", "b: 1 m"],
            [
                f"formula: x = {code}",
                f"find: x in {code}",
                f"answer: {code}",
                f"accept: {code}",
                f"take: {code}",
            ],
            more=f"`{code}`{{.value}} [{code}]{{.value of=b}}",
        ),
        encoding="utf-8",
    )
    assert physcalc("check", "a.md").code in (1, 2)
    (folder / "own.yaml").write_text(
        "title: !!python/object/apply:os.system ['touch made']\n", encoding="utf-8"
    )
    (folder / "b.md").write_text(question(*SOUND, front="sheet: own.yaml"), encoding="utf-8")
    assert physcalc("check", "b.md").code == 2
    assert not (folder / "made").exists()


STALE = question(["m: 2 kg"], ["use: weight", "find: F_g in N to 2 dp", "answer: 1.00 N"])


def test_a_folder_is_not_left(folder: Path, physcalc: Physcalc) -> None:
    foreign = folder.parent / "mine" / "foreign.md"
    foreign.write_text(STALE, encoding="utf-8")
    papers = folder / "papers"
    papers.mkdir()
    (papers / "a.md").write_text(question(*SOUND), encoding="utf-8")
    (papers / "link.md").symlink_to(foreign)
    (papers / "folder").symlink_to(foreign.parent)
    os.mkfifo(papers / "pipe.md")
    assert physcalc("check", "papers").code == 0
    assert physcalc("fix", "papers").code == 0
    assert foreign.read_text(encoding="utf-8") == STALE


@pytest.mark.parametrize("name", ["a.md", "./a.md", "../sent to me/a.md", "link.md", "hard.md"])
def test_the_source_is_never_written_over(name: str, folder: Path, physcalc: Physcalc) -> None:
    (folder / "a.md").write_text(question(*SOUND), encoding="utf-8")
    (folder / "link.md").symlink_to("a.md")
    os.link(folder / "a.md", folder / "hard.md")
    done = physcalc("build", "a.md", "-o", name)
    assert done.code == 2
    assert "output-over-source" in done.said
    assert (folder / "a.md").read_text(encoding="utf-8") == question(*SOUND)


def test_fix_leaves_everything_but_results(folder: Path, physcalc: Physcalc) -> None:
    before = "\ufeff" + STALE.replace("\n", "\r\n") + "\u2028\x0b\u202eend\n"
    (folder / "a.md").write_bytes(before.encode("utf-8"))
    physcalc("fix", "a.md")
    after = (folder / "a.md").read_bytes().decode("utf-8")
    # 2 kg × 9.8 m·s⁻², the sheet's g.
    assert after == before.replace("1.00 N", "19.60 N")


def start(*argv: str) -> subprocess.Popen[bytes]:
    code = "import sys; from physcalc_filter.cli import main; sys.exit(main(sys.argv[1:]))"
    return subprocess.Popen(
        [sys.executable, "-c", code, *argv], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )


@pytest.mark.parametrize("moment", range(6))
def test_killed_at_any_moment_nothing_is_half_written(moment: int, folder: Path) -> None:
    old = b"%PDF-old"
    (folder / "a.md").write_text(STALE, encoding="utf-8")
    (folder / "b.md").write_text(question(*SOUND), encoding="utf-8")
    (folder / "b.pdf").write_bytes(old)
    for at, run in enumerate((start("fix", "a.md"), start("build", "b.md", "-o", "b.pdf"))):
        time.sleep(0.2 * moment + 0.05 * at)
        run.kill()
        run.wait()
    assert (folder / "a.md").read_text(encoding="utf-8") in (STALE, STALE.replace("1.00 N", "19.60 N"))
    made = (folder / "b.pdf").read_bytes()
    assert made == old or made.rstrip().endswith(b"%%EOF")


def test_told_to_end_it_takes_its_files_away(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    work = folder / "work"
    work.mkdir()
    monkeypatch.setenv("TMPDIR", str(work))
    (folder / "a.md").write_text(f"```{{=typst}}\n{ENDLESS}\n```\n", encoding="utf-8")
    run = start("build", "a.md", "-o", "a.pdf")
    for _ in range(300):
        time.sleep(0.1)
        if list(work.glob("physcalc-*/main.typ")):
            break
    run.terminate()
    assert run.wait(timeout=60) == 143
    assert not list(work.iterdir())
    assert [path.name for path in sorted(folder.iterdir())] == ["a.md", "work"]


def test_an_output_that_fails_leaves_nothing(folder: Path) -> None:
    from physcalc_filter.outputs import typst_run

    with pytest.raises(OutputFailed):
        typst_run.compiled(b"#panic()", folder, Span())


def test_links_in_the_folder_of_all_editions_are_not_written_through(
    folder: Path, physcalc: Physcalc
) -> None:
    mine = folder.parent / "mine" / "file"
    mine.write_text("mine", encoding="utf-8")
    (folder / "a.md").write_text(question(*SOUND), encoding="utf-8")
    (folder / "out").mkdir()
    (folder / "out" / "a-paper.html").symlink_to(mine)
    os.mkfifo(folder / "out" / "a-memo.html")
    assert physcalc("build", "a.md", "--all", "-o", "out", "--formats", "html").code == 0
    assert mine.read_text(encoding="utf-8") == "mine"
    assert (folder / "out" / "a-memo.html").is_file()
    (folder / "a-memo.md").symlink_to("a.md")
    assert "output-over-source" in physcalc("build", "a.md", "--all", "-o", ".", "--formats", "md").said
    assert (folder / "a.md").read_text(encoding="utf-8") == question(*SOUND)


def test_a_pipe_is_read_no_further_than_a_file(folder: Path, physcalc: Physcalc) -> None:
    # Without a bound this would take all memory.
    assert "file-too-large" in physcalc("check", "/dev/zero").said
