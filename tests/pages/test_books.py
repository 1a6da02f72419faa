"""The example documents as books, checked by the program that shops check them with."""

from __future__ import annotations

import re
import subprocess
import zipfile
from pathlib import Path

import pytest

from ..programs import program
from .built import DOCUMENTS, EDITIONS, Editions


def checked(book: Path) -> subprocess.CompletedProcess[str]:
    check = program("epubcheck")
    # Debian's is the archive itself, which only some systems start by its name.
    archive = Path(check).read_bytes()[:2] == b"PK"
    command = [program("java"), "-XX:TieredStopAtLevel=1", "-jar", check] if archive else [check]
    return subprocess.run([*command, str(book)], capture_output=True, text=True, timeout=240, check=False)


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("name", DOCUMENTS)
def test_epubcheck_finds_nothing(name: str, edition: str, editions: Editions) -> None:
    done = checked(editions(name, "epub")[edition])
    assert done.returncode == 0, done.stderr
    assert not re.search(r"\b(ERROR|WARNING|FATAL)\b", done.stdout + done.stderr)


def test_epubcheck_finds_what_is_wrong(tmp_path: Path, editions: Editions) -> None:
    broken = tmp_path / "broken.epub"
    with (
        zipfile.ZipFile(editions("mechanics_test", "epub")["memo"]) as whole,
        zipfile.ZipFile(broken, "w") as out,
    ):
        for name in whole.namelist():
            out.writestr(name, whole.read(name).replace(b"<table", b"<tabel"))
    assert checked(broken).returncode != 0


def test_a_book_has_one_style_sheet_and_named_chapters(editions: Editions) -> None:
    with zipfile.ZipFile(editions("mechanics_test", "epub")["guide"]) as book:
        assert book.infolist()[0].filename == "mimetype"
        assert book.infolist()[0].compress_type == zipfile.ZIP_STORED
        (style,) = [book.read(name).decode() for name in book.namelist() if name.endswith(".css")]
        chapters = [book.read(name).decode() for name in book.namelist() if "/text/ch" in name]
    assert ".working" in style
    assert all(".working {" not in chapter for chapter in chapters)
    assert "<title>Question 1</title>" in chapters[0]
    # Not every reader of books can open what is folded away.
    assert all("<details" not in chapter for chapter in chapters)
