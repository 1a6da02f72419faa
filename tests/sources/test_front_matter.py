"""Front matter: where its keys stand."""

from __future__ import annotations

import pytest
from physcalc_filter.sources import Source, front_matter

from physcalc.problems import Problem, Span

DOCUMENT = """\
---
title: "A title: with a colon"
lang: en-ZA   # a comment
physcalc:
  sheet: 'my sheet.yaml'
  total:   9
  numbers:
    decimal: comma
    standard-from: 1e5
  axis: |
    right: is positive
  points: {A: "0 m, 0 m", B: 3 m}
  "quoted": yes
other: {physcalc: {sheet: no}}
---

physcalc: no
"""


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_keys_and_values_have_their_places(end: str) -> None:
    source = Source("t.md", DOCUMENT.replace("\n", end))
    matter = front_matter(source)
    assert matter is not None
    found = {path: (key.value, value.value) for path, (key, value) in matter.below("physcalc").items()}
    assert found == {
        "sheet": ("sheet", "my sheet.yaml"),
        "total": ("total", "9"),
        "numbers": ("numbers", ""),
        "numbers.decimal": ("decimal", "comma"),
        "numbers.standard-from": ("standard-from", "1e5"),
        "axis": ("axis", ""),
        "points": ("points", ""),
        "points.A": ("A", "0 m, 0 m"),
        "points.B": ("B", "3 m"),
        "quoted": ("quoted", "yes"),
    }
    assert matter.places["lang"][1].value == "en-ZA"
    assert matter.places["other.physcalc.sheet"][1].value == "no"
    assert matter.places["physcalc.numbers.decimal"][0].span == Span("t.md", 8, 5, 7)
    for key, value in matter.places.values():
        for text in (key, value):
            if text.value:
                start = source.offset(text.span)
                assert source.text[start : start + len(text.value)] == text.value


@pytest.mark.parametrize(
    "text", ["# Title\n\n---\na: b\n---\n", "---\n\na: b\n\n---\n", "text", "---", "---\nnot closed\n\ntext"]
)
def test_a_document_may_have_none(text: str) -> None:
    assert front_matter(Source("t.md", text)) is None


def test_dots_close_it_too() -> None:
    matter = front_matter(Source("t.md", "\n---\nlang: de\n...\ntitle: no\n---\n"))
    assert matter is not None
    assert set(matter.places) == {"lang"}


@pytest.mark.parametrize(
    ("text", "line", "column", "says"),
    [
        ("---\nphyscalc:\n\tsheet: school\n---\n", 3, 1, "tab"),
        ("---\nphyscalc:\n  sheet: school\n\n# Title\n", 1, 1, "not closed"),
    ],
)
def test_what_cannot_be_read_is_said(text: str, line: int, column: int, says: str) -> None:
    with pytest.raises(Problem) as caught:
        front_matter(Source("t.md", text))
    problem = caught.value
    assert (problem.slug, problem.level) == ("front-matter-unreadable", "unreadable")
    assert (problem.span.line, problem.span.column) == (line, column)
    assert says in problem.sentence()
