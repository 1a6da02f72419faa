"""Grids as text, CSV and JSON: aligned, coloured on a terminal alone, and harmless for other programs."""

from __future__ import annotations

import csv
import io
import json

import click
from physcalc_filter import pipeline
from physcalc_filter.report import WEIGHTS, Weighed, weights_text
from physcalc_filter.sources import Source

HEAD = "---\ntitle: T\ndate: {}\nphyscalc:\n  grid:\n    topics: {{forces: 90 %, energy: 10 %}}\n---\n\n"


def weighed(body: str, date: str = "2025-11-05", name: str = "a.md") -> Weighed:
    paper, _ = pipeline.grid(Source(name, HEAD.format(date) + body))
    assert paper is not None
    return Weighed(name, paper.title, paper.date, paper.grid, paper.style)


def paper(date: str = "2025-11-05", name: str = "a.md") -> Weighed:
    body = "# Q {.question marks=6 topic=forces level=1}\n\n# Q {.question marks=4 topic=energy}\n"
    return weighed(body, date, name)


def test_columns_are_aligned_also_where_letters_are_wide() -> None:
    wide = weighed("# Q {.question marks=6 topic=力学}\n\n# Q {.question marks=14 topic=energy}\n")
    lines = weights_text([wide]).splitlines()[2:]
    # A letter of East Asian script takes two columns of a terminal (Unicode Annex 11).
    ends = {
        line.index("6") + line.count("力") + line.count("学") for line in lines if line.startswith("力学")
    }
    ends |= {line.index("14") + 1 for line in lines if line.startswith("energy")}
    assert len(ends) == 1


def test_colours_change_nothing_else() -> None:
    plain, coloured = weights_text([paper()]), weights_text([paper()], colour=True)
    assert "\x1b[" not in plain
    assert "\x1b[" in coloured
    assert click.unstyle(coloured) == plain
    assert "too low" in plain


def test_a_topic_cannot_steer_the_terminal() -> None:
    text = weights_text([weighed('# Q {.question marks=6 topic="a\u202eb\x1b[31m"}\n')])
    assert "\x1b" not in text
    assert "\u202e" not in text


def test_papers_stand_in_the_order_of_their_dates() -> None:
    dates = ["2025-11-05", "some day", "2024", "2025-06"]
    text = weights_text([paper(date, f"{at}.md") for at, date in enumerate(dates)])
    last = text[text.index("paper by paper") :]
    order = sorted(range(4), key=lambda at: last.index(f"{at}.md"))
    assert [dates[at] for at in order] == ["2024", "2025-06", "2025-11-05", "some day"]


def test_csv_is_read_back() -> None:
    rows = list(csv.DictReader(io.StringIO(WEIGHTS["csv"]([paper()]))))
    assert [(row["topic"], row["level"], row["marks"], row["share"]) for row in rows] == [
        ("forces", "1", "6", "60"),
        ("energy", "", "4", "40"),
    ]


def test_no_cell_of_csv_is_a_formula() -> None:
    """OWASP, "CSV Injection": cells that begin with = + - @, a tab or a carriage return."""
    for begin in "=+-@":
        text = WEIGHTS["csv"]([weighed(f'# Q {{.question marks=6 topic="{begin}1+1"}}\n')])
        (row,) = csv.DictReader(io.StringIO(text))
        assert row["topic"] == f"'{begin}1+1"


def test_json_keeps_its_keys() -> None:
    # The keys are promised to programs: to change this list is to break them.
    (entry,) = json.loads(WEIGHTS["json"]([paper()]))
    assert list(entry) == ["file", "title", "date", "marks", "tolerance", "topics", "levels", "cells"]
    assert entry["topics"][0] == {"name": "forces", "marks": 6, "share": 60, "target": 90, "off": -1}
    assert entry["levels"][-1]["name"] is None
    assert entry["cells"][0] == {"topic": "forces", "level": "1", "marks": 6}
