"""Bodies that are read without the library: the same tree, with the same places, as the library's."""

from __future__ import annotations

import re
from pathlib import Path

from hypothesis import example, given, settings
from hypothesis import strategies as st
from physcalc_filter.blocks import Block, BlockPlace
from physcalc_filter.blocks.quick import read_plain
from physcalc_filter.blocks.reading import read_block, read_by_library

from physcalc.problems import Problem, Span

ROOT = Path(__file__).resolve().parents[2]

KEYS = [
    "formula",
    "find",
    "m",
    "v_0",
    "θ",
    "E_{k(max)}",
    "F.x",
    "slip 1",
    "a b",
    "show that",
    "1",
    "_",
    "é",
    "q'",
]
TEXTS = [
    "F = m a", "2 kg", "T in N to 2 dp", "a: b", ": a", "- a", "> a", "[a, b]", "{a: b}", "#", "# a", "a # b", '"a"',
    "a\u00a0b", "\u00a0", "a\u2028b", "a\x0bb", "a\x85b", "  a  ", "a ", "640 kg", "<b>", "'", "",
]  # fmt: skip
SEPARATORS = [": ", ":", ":  ", " : ", " :", " ", ":\u00a0"]
INDENTS = ["", "", "  ", "    ", " ", "\u00a0 "]

lines = st.one_of(
    st.builds(
        "".join,
        st.tuples(
            st.sampled_from(INDENTS),
            st.sampled_from(KEYS),
            st.sampled_from(SEPARATORS),
            st.sampled_from(TEXTS),
        ),
    ),
    st.builds("{}- {}".format, st.sampled_from(INDENTS), st.sampled_from(TEXTS)),
    st.builds("{}{}".format, st.sampled_from(INDENTS), st.sampled_from(TEXTS)),
    st.builds("{}:".format, st.sampled_from(KEYS)),
    st.text("ab:-># []{}\n", max_size=8).map(lambda text: text.replace("\n", "")),
)
bodies = st.lists(lines, min_size=1, max_size=7).map("\n".join)


def place(body: str) -> BlockPlace:
    count = len(body.split("\n"))
    return BlockPlace(Span("t.md", 3, 5, 8), tuple(Span("t.md", 4 + n, 5) for n in range(count)), "calc")


def compare(body: str) -> Block | None:
    """Reads a body both ways; nothing where it is left to the library."""
    read = body.split("\n")
    for origin in (place(body), BlockPlace(Span("t.md", 3), (), "calc")):
        found = read_plain(read, origin)
        if found is None:
            continue
        assert found == read_by_library(body, read, origin)
    return read_plain(read, place(body))


@settings(max_examples=3000, deadline=None)
@given(body=bodies)
@example("a: b\na: c")
@example("a:\n  b: c\n  - d")
@example("a:\n  - b\n - c")
@example("a:\n# c\n\n  - b\n   # c\nd: e")
@example("a:\n  - b\n  # \u2028: c\n")
@example("a: b\n  \n")
def test_what_is_read_plainly_is_read_as_by_the_library(body: str) -> None:
    compare(body)


@settings(max_examples=500, deadline=None)
@given(body=bodies)
def test_every_body_comes_to_the_same(body: str) -> None:
    """Whole or refused, with the same problem."""

    def outcome(read: object) -> object:
        try:
            return read()  # type: ignore[operator]
        except Problem as problem:
            return (type(problem), problem.span, str(problem))

    quick = outcome(lambda: read_block(body, place(body)))
    if isinstance(quick, Block):
        assert quick == read_by_library(body, body.split("\n"), place(body))


def test_the_blocks_of_the_documents_are_read_plainly() -> None:
    """Nearly all of them, or it would not be worth while."""
    texts = [path.read_text(encoding="utf-8") for path in ROOT.glob("example_docs/*.md")]
    found = [
        body
        for text in texts
        for body in re.findall(r"^```+ ?\{\.(?:given|calc|options)[^}\n]*\}\n(.*?)\n```+$", text, re.M | re.S)
        if body.strip()
    ]
    plain = [body for body in found if compare(body) is not None]
    assert len(found) > 100
    assert len(plain) > 0.7 * len(found)
