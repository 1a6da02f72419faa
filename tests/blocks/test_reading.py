"""Bodies of blocks: keys and texts with their places, and every way to get one wrong."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from physcalc_filter.blocks import (
    LARGEST_BODY,
    Block,
    BlockPlace,
    Value,
    expect,
    items_of,
    keys_of,
    read_block,
    text_of,
    texts_of,
)

from physcalc.problems import Problem, Span, Text


def place(body: str, line: int = 11, column: int = 5) -> BlockPlace:
    """A body that begins on line 11 in column 5, as one inside a list does."""
    count = len(body.split("\n"))
    return BlockPlace(
        Span("t.md", line - 1, column, 8), tuple(Span("t.md", line + n, column) for n in range(count)), "calc"
    )


def read(body: str) -> Block:
    return read_block(body, place(body))


def refused(body: str) -> Problem:
    with pytest.raises(Problem) as caught:
        read(body)
    return caught.value


def plain(value: Value) -> object:
    if isinstance(value, Text):
        return value.value
    if isinstance(value, Block):
        return {key.value: plain(inner) for key, inner in value}
    return [plain(inner) for inner in value]


def texts(value: Value) -> list[Text]:
    """Every key and text of a tree."""
    if isinstance(value, Text):
        return [value]
    if isinstance(value, Block):
        return [text for key, inner in value for text in (key, *texts(inner))]
    return [text for inner in value for text in texts(inner)]


WHOLE = """\
# a comment: with a colon
given:
  v: 1.2 m/s
  F : T from lift-tension

use: power-velocity
find:
  - P in kW to 2 dp
  -   η
answer: [8.10 kW] # no comment
slips:
  forgot to square r: F = k Q_1 Q_2 / r
steps:
  -
    find: a
    formula: |Q| = {m a}
  -
    find: T
why:
  > The cable pulls up,
  > gravity pulls down."""


def test_a_whole_body_keeps_texts_verbatim() -> None:
    assert plain(read(WHOLE)) == {
        "given": {"v": "1.2 m/s", "F": "T from lift-tension"},
        "use": "power-velocity",
        "find": ["P in kW to 2 dp", "η"],
        "answer": "[8.10 kW] # no comment",
        "slips": {"forgot to square r": "F = k Q_1 Q_2 / r"},
        "steps": [{"find": "a", "formula": "|Q| = {m a}"}, {"find": "T"}],
        "why": "The cable pulls up, gravity pulls down.",
    }


def test_every_key_and_text_points_at_its_own_characters() -> None:
    lines = WHOLE.split("\n")
    for text in texts(read(WHOLE)):
        start = text.span.column - 5
        shown = lines[text.span.line - 11][start : start + text.span.length]
        assert text.value.startswith(shown)
        assert shown == text.value or shown == "The cable pulls up,"


def test_a_key_is_found_by_its_name() -> None:
    block = read(WHOLE)
    assert "use" in block
    assert "nothing" not in block
    assert block.get("nothing") is None
    assert block.key("answer") == Text("answer", Span("t.md", 20, 5, 6))
    assert block.get("use") == Text("power-velocity", Span("t.md", 16, 10, 14))
    given_block = block.get("given")
    assert isinstance(given_block, Block)
    assert given_block.place == Span("t.md", 12, 5, 5)
    assert block.place == Span("t.md", 10, 5, 8)


@pytest.mark.parametrize(
    ("body", "slug", "line", "column", "says"),
    [
        ("", "block-empty", 10, 5, "calc block"),
        ("\n  \n# only a comment\n", "block-empty", 10, 5, "empty"),
        ("find: x\n\tto: 2", "block-tab", 12, 5, "tab"),
        ("find: x\ty", "block-tab", 11, 12, "tab"),
        ("  find: x", "block-indentation", 11, 7, "first line"),
        ("find: x\n  y: 2", "block-indentation", 12, 7, '"find: x"'),
        ("a:\n    b: 1\n  c: 2", "block-indentation", 13, 7, "no line above"),
        ("a:\n\u00a0 b: 1", "block-indentation", 12, 5, "no ordinary space"),
        ("find T in N", "block-unreadable", 11, 5, '"find T in N"'),
        ("find:T in N", "block-unreadable", 11, 5, "no space"),
        ("a:\n  - b\n  c: d", "block-unreadable", 13, 7, "items of a list"),
        ("a:\n  - b\n  -c", "block-unreadable", 13, 7, "no space"),
        ("a: 1\n- b", "block-unreadable", 12, 5, "among keys"),
        (": a\n  > b", "block-unreadable", 11, 5, "colon"),
        ("- a\n- b", "block-unreadable", 11, 5, "among keys"),
        ("> text", "block-unreadable", 11, 5, "among keys"),
        ("find: x\na: 1\nfind : y", "key-twice", 13, 5, "first on line 11"),
        ("a:\n  b: 1\n  b: 2", "key-twice", 13, 7, "first on line 12"),
        ("find:", "key-empty", 11, 5, '"find"'),
        ("find:  \na: 1", "key-empty", 11, 5, '"find"'),
        ("find:\n  -\n  - x", "key-empty", 12, 7, "item"),
        ("why:\n  >", "key-empty", 12, 7, '"why"'),
        ("\n".join(" " * n + "a:" for n in range(9)) + " b", "block-too-long", 19, 13, "8 levels"),
        ("\n".join(" " * n + "a:" for n in range(600)) + " b", "block-too-long", 19, 13, "8 levels"),
        ("a: " + "x" * LARGEST_BODY, "block-too-long", 10, 5, "200000 characters"),
    ],
)
def test_what_is_wrong_is_said_with_its_place(
    body: str, slug: str, line: int, column: int, says: str
) -> None:
    problem = refused(body)
    assert (problem.slug, problem.span.line, problem.span.column) == (slug, line, column)
    assert says in problem.sentence()
    assert problem.mend()


def test_eight_levels_are_read() -> None:
    body = "\n".join(" " * n + "a:" for n in range(8)) + " b"
    assert "b" in str(plain(read(body)))


def test_without_places_everything_points_at_the_opening() -> None:
    opening = Span("t.docx", 1, 1)
    block = read_block("find: T\ngiven:\n  a: 1", BlockPlace(opening))
    assert {text.span for text in texts(block)} == {opening}
    with pytest.raises(Problem) as caught:
        read_block("find T", BlockPlace(opening))
    assert caught.value.span == opening


def test_unknown_keys_are_named_with_the_nearest() -> None:
    problems = expect(read("find: x\nanwser: 1\nq: 2"), ("find", "answer"))
    assert [(problem.slug, problem.span) for problem in problems] == [
        ("key-unknown", Span("t.md", 12, 5, 6)),
        ("key-unknown", Span("t.md", 13, 5, 1)),
    ]
    assert '"answer"' in problems[0].mend()
    assert "find, answer" in problems[1].mend()


def test_shapes_are_asked_for_strictly() -> None:
    block = read("one: a\nmany:\n  - a\n  - b\nkeys:\n  a: 1\nitems:\n  -\n    a: 1")
    shapes = {key.value: (key, value) for key, value in block}
    assert text_of(*shapes["one"]).value == "a"
    assert [text.value for text in texts_of(*shapes["many"])] == ["a", "b"]
    assert [text.value for text in texts_of(*shapes["one"])] == ["a"]
    assert "a" in keys_of(*shapes["keys"])
    assert len(items_of(*shapes["items"])) == 1
    for reader, wrong in (
        (text_of, "many"), (text_of, "keys"), (texts_of, "keys"), (texts_of, "items"), (keys_of, "one"),
        (keys_of, "many"), (items_of, "one"), (items_of, "many"), (items_of, "keys"),
    ):  # fmt: skip
        with pytest.raises(Problem) as caught:
            reader(*shapes[wrong])
        assert caught.value.slug == "key-shape"
        assert caught.value.mend()


@given(st.text(alphabet="ab:-> #\n\t[{'\"=\u00a0\r\u2028𝑥µ", max_size=60))
def test_any_body_is_read_or_refused_in_our_own_words(body: str) -> None:
    problem: Problem | None = None
    found: list[Text] = []
    try:
        found = texts(read(body))
    except Problem as caught:
        problem = caught
    lines = body.replace("\r", " ").split("\n")
    for text in found:
        start = text.span.column - 5
        shown = lines[text.span.line - 11][start : start + text.span.length]
        # A text over several lines ("> ") shows its first.
        assert shown
        assert text.value.startswith(shown)
    if problem is not None:
        assert problem.slug.startswith(("block-", "key-"))
        assert problem.sentence()
        assert 10 <= problem.span.line < 11 + len(lines)


_WORD = st.text(alphabet="abcxyz0189 =+/|{}[]#,°µ𝑥", min_size=1, max_size=12).map(lambda s: "k" + s.strip())


@given(st.dictionaries(_WORD, st.one_of(_WORD, st.lists(_WORD, min_size=1)), min_size=1), st.integers(1, 4))
def test_what_is_written_comes_back(data: dict[str, object], step: int) -> None:
    lines: list[str] = []
    for key, value in data.items():
        if isinstance(value, list):
            lines += [f"{key}:", *(f"{' ' * step}- {item}" for item in value)]
        else:
            lines.append(f"{key}: {value}")
    assert plain(read("\n".join(lines))) == data
