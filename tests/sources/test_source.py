"""Files as text: encodings, line endings, places, and writing over stretches."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.sources import LARGEST_FILE, Edit, Source, read_source, splice

from physcalc.problems import EXIT_CODES, Problem, Span


def written(folder: Path, data: bytes) -> Path:
    path = folder / "t.md"
    path.write_bytes(data)
    return path


@pytest.mark.parametrize("bom", [b"", b"\xef\xbb\xbf"])
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_file_comes_back_byte_for_byte(tmp_path: Path, bom: bytes, end: str) -> None:
    data = bom + end.join(["µ = 1", "", "𝑥é e\u0301"]).encode()
    source = read_source(written(tmp_path, data), "shown.md")
    assert source.encode(source.text) == data
    assert [source.line_text(line) for line in range(3)] == ["µ = 1", "", "𝑥é e\u0301"]
    assert source.text[source.offset(Span("shown.md", 3, 4))] == "e"
    assert source.span(source.text.index("e"), len(source.text)) == Span("shown.md", 3, 4, 2)


@pytest.mark.parametrize(
    ("data", "line", "column", "byte"),
    [
        (b"caf\xe9", 1, 4, 0xE9),
        ("µµ\r\nµ".encode() + b"a\xff", 2, 3, 0xFF),
        (b"\xef\xbb\xbfab\n\x00", 2, 1, 0),
        (b"a\xc3", 1, 2, 0xC3),
        (b"a\x00\xff", 1, 2, 0),
        ("a".encode("utf-16"), 1, 1, 0xFF),
    ],
)
def test_what_is_not_utf8_is_unreadable_at_its_first_bad_byte(
    tmp_path: Path, data: bytes, line: int, column: int, byte: int
) -> None:
    with pytest.raises(Problem) as caught:
        read_source(written(tmp_path, data), "t.md")
    problem = caught.value
    assert (problem.slug, problem.span) == ("file-not-utf8", Span("t.md", line, column))
    assert EXIT_CODES[problem.level] == 2
    assert ("zero byte" if byte == 0 else f"{byte:02X}") in problem.sentence()


@pytest.mark.parametrize("data", [b"", b"\xef\xbb\xbf", b" \r\n\t\n"])
def test_an_empty_file_is_unreadable(tmp_path: Path, data: bytes) -> None:
    with pytest.raises(Problem) as caught:
        read_source(written(tmp_path, data))
    assert (caught.value.slug, caught.value.level) == ("file-empty", "unreadable")


def test_a_file_that_is_not_there_is_unreadable(tmp_path: Path) -> None:
    for path, says in ((tmp_path / "no.md", "is not there"), (tmp_path, "is a folder")):
        with pytest.raises(Problem) as caught:
            read_source(path)
        assert (caught.value.slug, caught.value.level) == ("file-missing", "unreadable")
        assert says in caught.value.sentence()


def test_a_huge_file_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "t.md"
    with path.open("wb") as file:
        file.truncate(LARGEST_FILE + 1)
    with pytest.raises(Problem) as caught:
        read_source(path)
    assert caught.value.slug == "file-too-large"


@given(st.text(alphabet="ab\n\r\u2028𝑥\t", min_size=1))
def test_places_and_offsets_agree(text: str) -> None:
    source = Source("t.md", text)
    assert "\n".join(source.line_text(n) for n in range(len(source.starts))) == text.replace("\r\n", "\n")
    for offset in range(len(text)):
        assert source.offset(source.span(offset, offset + 1)) == offset


def test_edits_touch_nothing_else() -> None:
    edits = [Edit(6, 10, "6752"), Edit(0, 1, ""), Edit(12, 12, "!")]
    assert splice("answer6725 N", edits) == "nswer6752 N!"
    assert splice("text", []) == "text"


@pytest.mark.parametrize("edits", [[Edit(0, 3, ""), Edit(2, 4, "")], [Edit(0, 9, "")], [Edit(3, 2, "")]])
def test_edits_that_overlap_or_lie_outside_are_refused(edits: list[Edit]) -> None:
    with pytest.raises(ValueError, match="overlaps"):
        splice("text", edits)
