"""Marks by topic and level, sections, methods and right options. Shares are worked out by hand."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import Grid, Report
from physcalc_filter.settings import Settings
from physcalc_filter.sources import Source

from physcalc.problems import Span, Text

Check = Callable[[str], Report]


def grid_of(text: str) -> Grid:
    paper, report = pipeline.grid(Source("test.md", text))
    assert paper is not None, [str(problem) for problem in report.problems]
    return paper.grid


def weights(grid: Grid) -> list[tuple[str, int]]:
    return [(topic.name, topic.marks) for topic in grid.topics]


def test_a_part_has_the_topic_and_level_of_the_question_around_it() -> None:
    grid = grid_of(
        "# Q {.question topic=forces level=2}\n\n::: {.question marks=4}\n:::\n"
        "::: {.question marks=2 level=3}\n:::\n::: {.question marks=1 topic=waves}\n:::\n"
    )
    assert grid.cells == {("forces", "2"): 4, ("forces", "3"): 2, ("waves", "2"): 1}
    assert grid.total == 7
    assert [topic.share for topic in grid.topics] == [Fraction(6, 7), Fraction(1, 7)]


def test_a_question_counts_its_own_parts_and_not_twice_those_inside_it() -> None:
    grid = grid_of(
        "# Q {.question topic=forces marks=5}\n\nWhy?\n\n::: {.answer marks=2}\nBecause.\n:::\n\n"
        "::: {.question marks=3 topic=energy}\n:::\n"
    )
    assert grid.cells == {("forces", ""): 2, ("energy", ""): 3}


def test_what_is_not_said_is_counted_apart_and_last() -> None:
    grid = grid_of("# Q {.question marks=3}\n\n# Q {.question marks=1 topic=forces level=1}\n")
    assert weights(grid) == [("forces", 1), ("", 3)]
    assert [(level.name, level.marks) for level in grid.levels] == [("1", 1), ("", 3)]


def test_capitals_and_blanks_make_no_other_topic() -> None:
    grid = grid_of(
        '# Q {.question marks=3 topic="Work  and energy"}\n\n# Q {.question marks=1 topic="work and Energy"}\n'
    )
    assert weights(grid) == [("Work  and energy", 4)]


def test_levels_stand_in_the_order_of_numbers() -> None:
    text = "".join(f"# Q {{.question marks=1 level={level}}}\n\n" for level in (10, 2, 1))
    assert [level.name for level in grid_of(text).levels] == ["1", "2", "10"]


def test_a_question_of_the_guide_alone_is_not_counted() -> None:
    text = '# Q {.question marks=3}\n\n::: {.only in="guide"}\n::: {.question marks=2}\n:::\n:::\n'
    assert grid_of("# P {.question marks=1}\n\n" + text).total == 4


TARGETS = "---\nphyscalc:\n  grid:\n    topics: {{a: 50 %, b: 50 %}}\n    tolerance: {}\n---\n\n"
FORTY_FIVE = "# Q {.question marks=9 topic=a}\n\n# Q {.question marks=11 topic=b}\n"


@pytest.mark.parametrize(
    ("tolerance", "off"), [("5 %", [0, 0]), ("4.9 %", [-1, 1]), ("0", [-1, 1]), ("100", [0, 0])]
)
def test_a_share_at_the_tolerance_itself_is_on_target(tolerance: str, off: list[int]) -> None:
    # 9 and 11 of 20 marks are 45 % and 55 %.
    grid = grid_of(TARGETS.format(tolerance) + FORTY_FIVE)
    assert [topic.off for topic in grid.topics] == off


def test_the_tolerance_is_five_per_cent_where_nothing_is_said() -> None:
    grid = grid_of("---\nphyscalc:\n  grid:\n    topics: {a: 60 %, b: 40 %}\n---\n\n" + FORTY_FIVE)
    assert grid.tolerance == Fraction(1, 20)
    assert [topic.off for topic in grid.topics] == [-1, 1]


def test_topics_stand_in_the_order_of_their_targets(check: Check) -> None:
    text = "---\nphyscalc:\n  grid:\n    topics:\n      b: 50 %\n      a: 50 %\n---\n\n" + FORTY_FIVE
    assert [topic.name for topic in grid_of(text).topics] == ["b", "a"]
    assert check(text).problems == ()


@pytest.mark.parametrize(
    ("typed", "slug", "place"),
    [
        ("topic: {a: 100 %}", "setting-unknown", (4, 5, 5)),
        ("topics: {a: most}", "setting-unreadable", (4, 17, 4)),
        ("topics: {a: 120 %}", "setting-unreadable", (4, 17, 5)),
        ("topics: {a: 30 marks}", "setting-unreadable", (4, 17, 8)),
        ("topics: 30 %", "setting-unreadable", (4, 5, 6)),
        ("tolerance: wide", "setting-unreadable", (4, 16, 4)),
        ("levels: {1: 99 %}", "grid-targets-sum", (4, 14, 1)),
    ],
)
def test_a_grid_that_cannot_be_read_is_told_at_its_place(
    typed: str, slug: str, place: tuple[int, int, int], check: Check
) -> None:
    text = f"---\nphyscalc:\n  grid:\n    {typed}\n---\n\n# Q {{.question marks=1 topic=a level=1}}\n"
    (problem,) = (problem for problem in check(text).problems if problem.level != "note")
    assert problem.slug == slug
    assert (problem.span.line, problem.span.column, problem.span.length) == place


@pytest.mark.parametrize("value", ["", "60 %", "topics=a"])
def test_a_grid_is_no_text(value: str) -> None:
    pair = (Text("grid", Span("command line")), Text(value, Span("command line")))
    _, (problem,) = Settings().with_overrides([pair])
    assert problem.slug == "setting-unreadable"
    assert "topics, levels, tolerance" in problem.mend()


def options(keys: str) -> str:
    block = "```{{.options}}\nA: one\nB: two\nC: three\nanswer: {}\n```\n"
    return "".join(f"::: {{.question marks=1}}\n{block.format(key)}:::\n\n" for key in keys)


@pytest.mark.parametrize(
    ("keys", "noted"),
    [
        ("AAA", False),  # fewer than four
        ("AABB", False),  # half is not more than half
        ("AABC", False),
        ("AAAB", True),
        ("ABCABCAB", False),
        ("BBBBBAC", True),
    ],
)
def test_a_letter_that_is_right_too_often_is_noted(keys: str, noted: bool, check: Check) -> None:
    problems = check("# Q {.question}\n\n" + options(keys)).problems
    assert [problem.slug for problem in problems] == ["options-unbalanced"] * noted


def test_right_options_are_looked_at_section_by_section(check: Check) -> None:
    sections = "".join(
        f"# Section {name}\n\n## Q {{.question}}\n\n{options(keys)}"
        for name, keys in (("A", "AAB"), ("B", "AAC"))
    )
    # In each section are three questions; over both, A would be right in four of six.
    assert check(sections).problems == ()


CALC = """# Q {.question marks=4}

```{.given}
v_i: 0 m/s
v_f: 18 m/s
Δt: 6.0 s
```

```{.calc}
formula: Δx = ((v_i + v_f) / 2) Δt
find: Δx in m to 2 dp
%sor:
  -
    formula: Δx = (v_i + v_f) Δt / 2
%s```
"""


@pytest.mark.parametrize(
    ("first", "other", "differ"),
    [
        ("", "", False),
        ("", "    marks: 4\n", False),
        ("", "    marks: 3\n", True),
        ("marks: 4\n", "    marks: 5\n", True),
        ("", "    marks:\n      formula: 1\n      substitution: 2\n      answer: 1\n", False),
        ("", "    marks:\n      formula: 1\n      substitution: 1\n      answer: 1\n", True),
    ],
)
def test_methods_earn_the_same_marks(first: str, other: str, differ: bool, check: Check) -> None:
    slugs = [problem.slug for problem in check(CALC % (first, other)).problems]
    assert slugs == ["methods-marks-differ"] * differ
