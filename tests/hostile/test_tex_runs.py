"""What a run of TeX is said to have written comes from anybody: damaged, enormous, or full of TeX."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from physcalc_filter.report.formats import FORMATS
from physcalc_filter.shelf.one import answered
from physcalc_filter.shelf.order import Order, Sent

from .conftest import Run
from .test_injection import TEX

Physcalc = Callable[..., Run]
HEAD = "P 1 signs main\n"


def written(folder: Path, entries: str, text: str = "x\n") -> None:
    (folder / "main.physin").write_text(HEAD + entries, encoding="utf-8")
    (folder / "main.tex").write_text(text, encoding="utf-8")


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_texts_are_escaped_for_tex(edition: str, folder: Path, physcalc: Physcalc) -> None:
    attack = TEX + " }} \\end{document} ^^5cinput"
    entries = (
        f"E 1 setup 1\nO labels={{question={attack}}}\nE 2 question 1\nO marks={{{attack}}}\nQ {attack}\n"
    )
    entries += (
        f"E 3 value 1\nN m\nT {attack}\nE 4 mark 1\nT {attack}\nE 5 define 1\nN {attack}\nT {attack}\nX 2\n"
    )
    written(folder, f"{entries}Z 5 {edition}\n")
    assert physcalc("latex", "main").code == 1
    made = (folder / "main.physout").read_text(encoding="utf-8")
    shown = made.replace("\\textbackslash", "")
    assert not re.search(r"\\(input|write|end\{document)|\^\^", shown)
    bare = re.sub(r"\\.", "", made, flags=re.DOTALL)
    assert bare.count("{") == bare.count("}")


@pytest.mark.parametrize("name", ["../secret.tex", "/etc/passwd", "link.tex", "^^@", "a/" * 5_000])
def test_files_outside_the_folder_are_not_read(name: str, folder: Path, physcalc: Physcalc) -> None:
    (folder.parent / "secret.tex").write_text("\\physvalue{q} 4711\n", encoding="utf-8")
    (folder / "link.tex").symlink_to(folder.parent / "secret.tex")
    written(folder, f"F {name}\nE 1 value 1\nN q\nZ 1 paper\n")
    done = physcalc("latex", "main")
    assert done.code == 1
    assert "4711" not in done.said + (folder / "main.physout").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "line", ["E 1 given 0", "E 1 given 1\nB 0 m: 2 kg", "X 1", "B 1 x", "E 1 value 12345678", "\x00"]
)
def test_a_damaged_file_is_told(line: str, folder: Path, physcalc: Physcalc) -> None:
    written(folder, f"{line}\nZ 1 paper\n")
    done = physcalc("latex", "main")
    assert done.code == 2
    assert ":0:" not in done.said


@pytest.mark.parametrize(
    ("entries", "text"),
    [
        # Each of these once took minutes.
        ("E 1 value 1\nN m\nZ 1 paper\n", "\\physvalue{ " * 100_000),
        ("E 1 question 1\nX 1\nZ 1 paper\n", "\\begin{physquestion}[ " * 60_000),
        (
            "".join(f"E {at} value 1\nN m\nT {'a' * 60}\n" for at in range(1, 3_000)) + "Z 2999 paper\n",
            ("\\physvalue[" + "a%\n" * 3_000 + "]{m} ") * 150,
        ),
    ],
)
def test_long_documents_take_their_time_and_no_more(
    entries: str, text: str, folder: Path, physcalc: Physcalc
) -> None:
    written(folder, entries, text)
    physcalc("latex", "main")


def test_nobody_waits_for_a_pipe(folder: Path, physcalc: Physcalc) -> None:
    written(folder, "Z 0 paper\n")
    os.mkfifo(folder / "main.physout")
    assert "file-exists" in physcalc("latex", "main").said
    os.mkfifo(folder / "physcalc.sty")
    assert physcalc("latex", "--install").code == 2
    (folder / "main.physin").unlink()
    os.mkfifo(folder / "main.physin")
    assert physcalc("latex", "main").code == 2


def test_a_link_is_not_written_through(folder: Path, physcalc: Physcalc) -> None:
    written(folder, "Z 0 paper\n")
    mine = folder.parent / "mine" / "file"
    mine.write_text("% Made by physcalc.", encoding="utf-8")
    (folder / "main.physout").symlink_to(mine)
    physcalc("latex", "main")
    assert mine.read_text(encoding="utf-8") == "% Made by physcalc."


def test_words_that_look_like_our_own_are_the_authors(folder: Path, physcalc: Physcalc) -> None:
    given = "\\begin{physgiven}\nm: 2 kg\n\\end{physgiven}\n"
    guesses = " ".join(
        f"physcalc{{}}place{number}{sign}" for number in (0, 1, 9, "9" * 5_000) for sign in "pbevd"
    )
    (folder / "a.tex").write_text(f"{given}\\physvalue{{m}} {guesses}\n", encoding="utf-8")
    physcalc("check", "a.tex")
    assert physcalc("build", "a.tex", "-o", "a.html").code in (0, 1)


@pytest.mark.parametrize("held", [b"title: x\n", ()])
def test_a_worker_lays_nothing_outside_its_folder(held: bytes | tuple[()], tmp_path: Path) -> None:
    outside = tmp_path / "laid.yaml"
    path = f"/home/u/papers/{'../' * 9}{str(outside).lstrip('/')}"
    answered(Order(FORMATS["json"]), Sent("/home/u/papers/a.md", "x\n", False, {path: held}))
    assert not outside.exists()
    assert not outside.is_symlink()


def test_names_of_files_do_not_steer_the_terminal(folder: Path, physcalc: Physcalc) -> None:
    (folder / "a\x1b[2J\nb.md").write_text("x\n", encoding="utf-8")
    said = physcalc("build", "a\x1b[2J\nb.md", "-o", "c\x1b[2J\nd.html").said + physcalc("grid", ".").said
    assert "\x1b" not in said
    assert "wrote c" in said
    assert len(said.splitlines()) == 2
