"""What earns the marks of a figure: lines of marking with their ticks, and their sum."""

from __future__ import annotations

import json
import re

import panflute as pf
import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import Edition, write_json
from physcalc_filter.figures.words import word
from physcalc_filter.sources import Source

from physcalc.problems import Problem

GRAPH = """# Question 1 {{.question marks={marks}}}

```{{.draw}}
graph: v against t
points:
  - t in s, v in m/s
  - 0, 0.2
  - 1.0, 2.1
  - 2.0, 3.9
fit: line
{keys}
```
"""
LINES = "marking:\n  - both axes named\n  - all points plotted (2)\n  - line of best fit"
FORCES = """# Question 1 {{.question marks={marks}}}

```{{.draw}}
forces:
  F_g: 20 N, down
  N: 20 N, up
key:
  F_g: weight
  N: normal force
{keys}
```
"""


def built(text: str, edition: Edition) -> pf.Doc:
    document, report = pipeline.build(Source("a.md", text), edition, "html")
    assert document is not None, report.problems
    return document


def written(text: str, edition: Edition) -> str:
    return json.dumps(json.loads(write_json(built(text, edition))), ensure_ascii=False).replace(
        '"}, {"t": "Space"}, {"t": "Str", "c": "', " "
    )


def problems(text: str) -> list[Problem]:
    return list(pipeline.check(Source("a.md", text)).problems)


def ticks(document: pf.Doc) -> dict[str, int]:
    """The ticks in each cell of the tables' bodies, by the cell's words."""
    found: dict[str, int] = {}

    def cell(element: pf.Element, document: pf.Doc) -> None:
        if isinstance(element, pf.TableCell) and isinstance(element.parent.parent, pf.TableBody):
            text = re.sub(r"<[^>]*>", "", pf.stringify(element))
            found[text.replace("✓", "").strip()] = text.count("✓")

    document.walk(cell)
    return found


def test_each_line_has_its_ticks_and_together_they_are_the_marks() -> None:
    text = GRAPH.format(marks=4, keys=LINES)
    assert problems(text) == []
    expected = {"both axes named": 1, "all points plotted": 2, "line of best fit": 1}
    assert ticks(built(text, "memo")) == expected


def test_a_graph_with_lines_of_marking_is_one_that_learners_plot() -> None:
    paper = written(GRAPH.format(marks=4, keys=LINES), "paper")
    assert "both axes named" not in paper
    assert word("graph-grid", "en") in paper


def test_rows_of_a_key_earn_what_the_lines_leave() -> None:
    text = FORCES.format(marks=4, keys="marks: 4\nmarking:\n  - arrows equally long (2)")
    assert problems(text) == []
    found = ticks(built(text, "memo"))
    assert (found["weight"], found["normal force"], found["arrows equally long"]) == (1, 1, 2)
    assert sum(found.values()) == 4


def test_what_a_key_does_not_earn_stands_on_a_row_of_its_own() -> None:
    text = FORCES.format(marks=5, keys="marks: 5")
    assert problems(text) == []
    found = ticks(built(text, "memo"))
    assert (found["weight"], found["normal force"], found[word("drawing-rest", "en")]) == (1, 1, 3)
    assert sum(found.values()) == 5
    assert word("drawing-rest", "en") not in written(text, "guide")


def test_a_figure_without_key_and_lines_says_what_its_ticks_are_for() -> None:
    text = GRAPH.format(marks=3, keys="marks: 3")
    assert problems(text) == []
    assert ticks(built(text, "memo")) == {word("drawing", "en"): 3}
    assert "✓" not in written(text, "guide")


@pytest.mark.parametrize("key", ["drawing", "drawing-rest"])
def test_the_words_are_there_in_every_language(key: str) -> None:
    spoken = {lang: word(key, lang) for lang in ("en", "af", "de", "fr", "nl", "es", "pt")}
    assert len(set(spoken.values())) == len(spoken)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (GRAPH.format(marks=5, keys="marks: 5\n" + LINES), ["marking-unequal"]),
        (GRAPH.format(marks=3, keys="marks: 3\n" + LINES), ["marking-unequal"]),
        (GRAPH.format(marks=5, keys=LINES), ["marks-unequal"]),
        (FORCES.format(marks=1, keys="marks: 1\nmarking:\n  - arrows (2)"), ["marking-unequal"]),
        (GRAPH.format(marks=4, keys="marks: 4\n" + LINES), []),
    ],
)
def test_marks_that_do_not_add_up_are_told(text: str, expected: list[str]) -> None:
    assert [problem.slug for problem in problems(text)] == expected


def test_the_head_speaks_the_language_of_the_document() -> None:
    text = "---\nlang: de\n---\n" + GRAPH.format(marks=4, keys=LINES).replace("0.2", "0,2")
    text = text.replace(", v in", "; v in").replace("0, 0,2", "0; 0,2").replace("1.0, 2.1", "1,0; 2,1")
    assert "Wofür es die Punkte gibt" in written(text.replace("2.0, 3.9", "2,0; 3,9"), "memo")
