"""A typed value is checked wherever pandoc reads a span, and its place is right; elsewhere a problem says so."""

from __future__ import annotations

from physcalc_filter import pipeline
from physcalc_filter.sources import Source

HEAD = "---\nlang: en-ZA\n---\n\n"
TAIL = "\n\n```{.given}\nm: 640 kg\nd: 640 kg\n```\n\n```{.calc}\nuse: weight\nfind: F_g in N to 2 dp\n```\n"

#: Every place in which Markdown has inline text; each number stands once.
PLACES = """\
# Question 1: a block of [2 kg]{.value of=m} {.question #one marks=3}

A note[^1] and [3 kg]{.value of=m}, a note inside^[here [4 kg]{.value of=m}].

[^1]: The note [5 kg]{.value of=m} stands here.

| a | b |
|---|---|
| [6 kg]{.value of=m} | x |

: Caption below [7 kg]{.value of=m}

Table: Caption above [8 kg]{.value of=m}

| a | b |
|---|---|
| [9 kg]{.value of=m} | x |

- item [10 kg]{.value of=m}
    - inner [11 kg]{.value of=m}

1. number [12 kg]{.value of=m}

Term [13 kg]{.value of=m}
:   Definition [14 kg]{.value of=m}

> Quotation [15 kg]{.value of=m}

| Line block [16 kg]{.value of=m}
| second [17 kg]{.value of=m}

![Figure [18 kg]{.value of=m}](x.png)

[link [19 kg]{.value of=m}](http://x.y) **bold [20 kg]{.value of=m}**

$m = 1$ and [$21\\ \\text{kg}$]{.value of=m} and [$2{,}2 \\times 10^{1}$ kg]{.value of=m}

+---+----------------------+
| a | [23 kg]{.value of=m} |
+---+----------------------+

  Right     Left
-------     ------
     12     [24 kg]{.value of=m}

Setext [25 kg]{.value of=m}
---------------------------

<div>html [26 kg]{.value of=m} <span class="value" of="m">27 kg</span></div>

"quoted [28 kg]{.value of=m}" and ~~struck [29 kg]{.value of=m}~~
"""


def check(text: str) -> list[tuple[str, str]]:
    """Each problem's slug with the characters at its place."""
    source = Source("test.md", text)
    found = []
    for problem in pipeline.check(source).problems:
        start = source.offset(problem.span)
        found.append((problem.slug, source.text[start : start + problem.span.length]))
    return found


def test_a_value_is_checked_in_every_place_and_found_there() -> None:
    found = check(HEAD + PLACES + TAIL)
    assert {slug for slug, _ in found} == {"datum-disagrees"}
    wanted = [f"{number} kg" for number in range(2, 30) if number not in (21, 22)]
    assert [text for _, text in found if "$" not in text] == wanted
    assert [text for _, text in found if "$" in text] == [
        "$21\\ \\text{kg}$",
        "$2{,}2 \\times 10^{1}$ kg",
    ]


def test_line_endings_of_windows_move_no_place() -> None:
    text = (HEAD + PLACES + TAIL).replace("\n", "\r\n")
    assert check(text) == check(HEAD + PLACES + TAIL)


def test_equal_texts_in_and_out_of_a_note_keep_their_names() -> None:
    # The note is typed first: pandoc's order is the other one.
    text = "# Question 1 {.question}\n\n[^1]: [7 kg]{.value of=m}\n\nText[^1] of [7 kg]{.value of=d}." + TAIL
    source = Source("test.md", HEAD + text)
    problems = pipeline.check(source).problems
    told = [(problem.span.line, problem.sentence().split()[0]) for problem in problems]
    assert told == [(7, "m"), (9, "d")]


def test_what_is_no_span_is_told() -> None:
    head = '---\nlang: en-ZA\ntitle: "A [3 kg]{.value of=m} test"\n---\n\n'
    text = "# Question 1 {.question}\n\nHere $m = [4 kg]{.value of=m}$ and\n\n$$m = [5 kg]{.value of=m}$$\n"
    assert check(head + text + TAIL) == [
        ("value-misplaced", "3 kg"),
        ("value-misplaced", "[4 kg]{.value of=m}"),
        ("value-misplaced", "[5 kg]{.value of=m}"),
    ]


def test_raw_tex_is_told_and_code_is_code() -> None:
    raw = "# Question 1 {.question}\n\n\\begin{center}\n[4 kg]{.value of=m}\n\\end{center}\n\n`[5 kg]{.value of=m}`\n"
    assert check(HEAD + raw + TAIL) == [("value-misplaced", "[4 kg]{.value of=m}")]


def test_a_price_is_no_mathematics() -> None:
    text = "# Question 1 {.question}\n\nIt costs $5 and weighs [4 kg]{.value of=m}, and that $6.\n"
    assert check(HEAD + text + TAIL) == [("datum-disagrees", "4 kg")]
