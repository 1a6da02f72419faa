"""Places of pandoc's elements in the raw text, checked against pandoc itself."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter.blocks import BlockPlace, read_block
from physcalc_filter.sources import Edit, Mark, Source, match, scan_markdown, splice

from physcalc.problems import Text

from .pandoc_elements import Wanted, pandoc_elements
from .tricky import TRICKY

BLOCKS = {"given", "calc", "options", "draw"}


def placed(text: str) -> tuple[Source, Wanted, list[Mark | None]]:
    source = Source("t.md", text)
    wanted = pandoc_elements(source.encode(text))
    return source, wanted, match(scan_markdown(source), wanted)


def check(source: Source, wanted: Wanted, marks: list[Mark | None]) -> None:
    """Every element has a mark, and every mark's places show what pandoc read."""
    for (kind, text), mark in zip(wanted, marks, strict=True):
        assert mark is not None
        assert mark.kind == kind
        if kind in BLOCKS:
            assert mark.body == text
            for line in mark.lines:
                start = source.offset(line.span)
                assert source.text[start : start + len(line.value)] == line.value
                assert source.text[start + len(line.value) : start + len(line.value) + 2].startswith(
                    ("\n", "\r\n")
                )
            if mark.body:
                assert mark.start == source.offset(mark.lines[0].span)
        elif kind == "code-value":
            assert source.text[mark.start : mark.end] == text
            assert source.offset(mark.span) == mark.start


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize("title", TRICKY)
def test_each_element_of_pandocs_has_its_place(title: str, end: str) -> None:
    source, wanted, marks = placed(TRICKY[title].replace("\n", end))
    assert wanted
    check(source, wanted, marks)


@pytest.mark.parametrize(
    ("title", "lines"),
    # The lines on which the marks stand, counted by hand in the texts above.
    [
        ("in a code block", [8, 12]),
        ("in a comment", [8, 12]),
        ("in indented code", [7]),
        ("unclosed in indented code", [7]),
        ("twins", [1, 1, 5, 5, 5]),
        ("quote in list", [3]),
        ("nested brackets", [1, 1, 1]),
    ],
)
def test_of_twins_the_right_one_is_taken(title: str, lines: list[int]) -> None:
    _, _, marks = placed(TRICKY[title])
    assert [mark.attributes.span.line for mark in marks if mark is not None] == lines


def test_exact_places_in_one_document() -> None:
    text = (
        "# Lift {.question #lift marks=9 topic=forces}\n\n"
        "Mass `m`{.value}, at [0,75 m]{.value of=a}.\n\n"
        "- item\n\n    ```{.calc}\n    find: T\n      k: 1\n    ```\n"
    )
    source, _, marks = placed(text)
    heading, mass, typed, calc = [mark for mark in marks if mark is not None]
    assert (heading.span.line, heading.span.column, heading.span.length) == (1, 3, 4)
    marks_of = heading.attribute("marks")
    assert marks_of is not None
    assert (marks_of.value, marks_of.span.column, marks_of.span.length) == ("9", 31, 1)
    assert (mass.span.line, mass.span.column) == (3, 7)
    assert source.text[typed.start : typed.end] == "0,75 m"
    assert (typed.span.column, typed.span.length) == (23, 6)
    assert [(line.value, line.span.line, line.span.column) for line in calc.lines] == [
        ("find: T", 8, 5),
        ("  k: 1", 9, 5),
    ]


def test_a_tab_in_a_body_stays_and_tabs_before_it_do_not_matter() -> None:
    source, wanted, marks = placed("-\titem\n\n\t```{.calc}\n\tfind: x\n\tk:\n\t\ta: 1\n\t```\n")
    assert len(wanted) == 1
    assert marks[0] is not None
    assert [(line.value, line.span.column) for line in marks[0].lines] == [
        ("find: x", 2),
        ("k:", 2),
        ("\ta: 1", 2),
    ]
    assert source.text[marks[0].start :].startswith("find: x")


def test_what_the_source_does_not_show_has_no_mark() -> None:
    marks = scan_markdown(Source("t.md", "`m`{.value}\n\n```{.calc}\nfind: x\n```\n"))
    found = match(marks, [("calc", "find: y"), ("code-value", "m"), ("calc", "find: x"), ("code-value", "m")])
    assert [mark is not None for mark in found] == [False, True, True, False]


def test_a_text_that_pandoc_changed_is_paired_by_its_neighbours() -> None:
    marks = scan_markdown(Source("t.md", "`m`{.value} [$\\frac{1}{2}$ m]{.value of=a} `n`{.value}\n"))
    found = match(marks, [("code-value", "m"), ("span-value", "1/2 m"), ("code-value", "n")])
    assert [mark.start if mark else None for mark in found] == [1, 13, 44]


def test_many_twins_are_still_matched_in_order() -> None:
    text = "`m`{.value} " * 1500 + "\n\n<!-- `m`{.value} -->"
    marks = scan_markdown(Source("t.md", text))
    wanted: Wanted = [("code-value", "n"), *[("code-value", "m")] * 1500]
    found = match(marks, wanted)
    assert found[0] is None
    assert [mark.start for mark in found[1:] if mark] == [1 + 12 * n for n in range(1500)]


# Documents put together at random -----------------------------------------------------------------------


@st.composite
def documents(draw: st.DrawFn) -> str:
    """Blocks and values with texts that occur once, wrapped in lists, quotes, divs and decoys."""
    counter = iter(range(1000))

    def leaf() -> list[str]:
        number = next(counter)
        sort = draw(
            st.sampled_from(["block", "block", "values", "heading", "decoy", "text", "comment", "open"])
        )
        kind = draw(st.sampled_from(["given", "calc", "options", "draw"]))
        fence = draw(st.sampled_from(["```", "````", "~~~"]))
        body = [f"k{number}: µ𝑥 | ] ` {{", "g:", f"  v{number}: 1 # e\u0301", "", "  w: 2"]
        block = [f"{fence}{draw(st.sampled_from(['{.%s}', ' {#i .%s k=v}', ' %s']))}" % kind, *body, fence]
        match sort:
            case "block":
                return [*draw(st.sampled_from([[], ["é text"]])), *block]
            case "values":
                ends = draw(st.sampled_from([" ", "\n"]))
                line = (
                    f"𝑥 `m_{number}`{{.value}} [{number},5{ends}µm]{{.value of=a}} [ ] [x{number}]{{.mark}}"
                )
                return line.split("\n")
            case "heading":
                return draw(
                    st.sampled_from(
                        [[f"## T {{.question marks={number}}}"], [f"T {{.answer marks={number}}}", "----"]]
                    )
                )
            case "decoy":
                return ["`````", *block, f"`m_{number}`{{.value}}", "`````"]
            case "comment":
                return ["<!--", *block, f"`m_{number}`{{.value}}", "-->"]
            case "open":
                return ["stray ` and [ and $"]
            case _:
                return ["words *and* words"]

    def chunk(depth: int) -> list[str]:
        if depth == 0 or draw(st.integers(0, 2)) == 0:
            return leaf()
        inner: list[str] = []
        for _ in range(draw(st.integers(1, 3))):
            inner += [*chunk(depth - 1), ""]
        inner.pop()
        match draw(st.sampled_from(["quote", "tight", "list", "number", "div"])):
            case "quote":
                return [f"> {line}".rstrip(" ") if not line else f"> {line}" for line in inner]
            case "tight":
                return [f">{line}" for line in inner]
            case "list":
                head = draw(st.sampled_from(["-   ", "*   ", "+   "]))
                return [head + inner[0], *(f"    {line}" if line else "" for line in inner[1:])]
            case "number":
                return ["1.  item", "", *(f"    {line}" if line else "" for line in inner)]
            case _:
                return [f":::: {{.only in=memo k={next(counter)}}}", *inner, "::::"]

    lines = draw(st.sampled_from([[], ["---", "physcalc:", "  total: 9", "---", ""]]))
    for _ in range(draw(st.integers(1, 4))):
        lines = [*lines, *chunk(3), ""]
    return draw(st.sampled_from(["\n", "\r\n"])).join(lines)


@settings(max_examples=80, deadline=None)
@given(st.lists(documents(), min_size=1, max_size=2))
def test_in_any_mixture_every_block_points_at_its_text(texts: list[str]) -> None:
    for text in texts:
        source, wanted, marks = placed(text)
        check(source, wanted, marks)


def test_the_scan_is_linear_on_hostile_texts() -> None:
    # Each of these would take hours if a scan went through the rest of the text for every sign.
    for piece in (
        "```{.calc}\n",
        "[",
        "`",
        "{.value ",
        "<!--",
        "> ",
        "- ",
        "]{",
        "`m`{",
        "<span ",
        "~~~~\n```\n",
    ):
        source = Source("t.md", piece * 20_000)
        assert match(scan_markdown(source), []) == []


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_typed_value_can_be_written_over_without_touching_another_byte(end: str) -> None:
    text = "𝑥 [6 725 N]{.value of=T}\n\n- > ```{.calc}\n  > find: T\n  > answer:  6725 N  \n  > ```\n"
    source, _, marks = placed(text.replace("\n", end))
    typed, calc = [mark for mark in marks if mark is not None]
    block = read_block(calc.body, BlockPlace(calc.span, tuple(line.span for line in calc.lines)))
    answer = block.get("answer")
    assert isinstance(answer, Text)
    at = source.offset(answer.span)
    edits = [Edit(at, at + len(answer.value), "6752 N"), Edit(typed.start, typed.end, "6 752 N")]
    expected = text.replace("6 725 N", "6 752 N").replace("6725 N", "6752 N").replace("\n", end)
    assert splice(source.text, edits) == expected
