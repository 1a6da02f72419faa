"""What a value rests on, and what rests on it."""

from __future__ import annotations

import pytest
from physcalc_filter import asking
from physcalc_filter.document import Trace, Traced
from physcalc_filter.problems import TraceSeveral, TraceUnknown
from physcalc_filter.sources import Source

from physcalc.problems import Text

DOCUMENT = """\
---
lang: en-ZA
---

# Question 1 {.question #lift}

A lift of [640 kg]{.value of=m} speeds up at `a`{.value}.

```{.given}
m: 640 kg
a: 0.75 m/s^2
```

::: {.question #tension marks=3}
```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
answer: 6752 N
```
:::

::: {.question #power marks=3}
```{.calc #speed}
given:
  t: 2 s
steps:
  -
    formula: v = a t
    find: v in m/s
  -
    formula: P = F v
    given:
      F: T from tension
    find: P in kW
answer: 10.13 kW
```
:::

# Question 2 {.question #ball axis="up is positive"}

```{.given}
v_i: 12 m/s, up
a: g, down
h: 2*r
r: 3 m
```

```{.calc}
use: velocity-time
given:
  Δt: 1 s
find: v_f in m/s with direction
```
"""


def trace(name: str, text: str = DOCUMENT) -> Trace:
    found, report = asking.trace_value(Source("test.md", text), Text(name))
    assert not report.failed, report
    assert found is not None
    return found


def shape(value: Traced) -> object:
    """Names with what they rest on."""
    return (value.name, [shape(one) for one in value.rests_on]) if value.rests_on else value.name


@pytest.mark.parametrize(
    ("name", "tree"),
    [
        ("T", ("T", ["m", "g", "a"])),
        ("P", ("P", [("F", ["m", "g", "a"]), ("v", ["a", "t"])])),
        ("v", ("v", ["a", "t"])),
        ("h", ("h", ["r"])),
        ("m", "m"),
        ("v_f", ("v_f", ["v_i", "a", "Δt"])),
    ],
)
def test_the_tree_of_a_value(name: str, tree: object) -> None:
    assert shape(trace(name).value) == tree


@pytest.mark.parametrize(
    ("name", "dependents"),
    [
        ("m", [("T", True), ("P", False)]),
        ("T", [("P", True)]),
        ("tension:T", [("P", True)]),
        ("1.1:T", [("P", True)]),
        ("g", [("T", True), ("P", False), ("v_f", True)]),
        ("t", [("v", True), ("P", False)]),
        ("r", [("h", True)]),
        ("P", []),
    ],
)
def test_what_rests_on_it(name: str, dependents: list[tuple[str, bool]]) -> None:
    found = trace(name)
    pairs = zip([one.name for one in found.dependents], found.direct, strict=True)
    assert list(pairs) == dependents


def test_lines_questions_and_formulas() -> None:
    value = trace("P").value
    assert (value.question, value.value, value.span and value.span.line) == ("1.2", "10,13\u00a0kW", 35)
    assert [(formula.text, formula.span.line) for formula in value.formulas] == [("P = F v", 32)]
    force, _ = value.rests_on
    assert [formula.slug for formula in force.formulas] == ["newton-2", ""]
    assert trace("h").value.formulas[0].text == "2*r"


def test_where_a_value_stands() -> None:
    assert [(place.what, place.span.line, place.text) for place in trace("m").places] == [
        ("typed value", 7, "640 kg")
    ]
    assert [(place.what, place.span.line) for place in trace("lift:a").places] == [("written value", 7)]
    assert [(place.what, place.text) for place in trace("T").places] == [("answer", "6752 N")]


def test_several_and_none() -> None:
    text = DOCUMENT.replace("r: 3 m", "r: 3 m\nm: 2 kg")
    with pytest.raises(TraceSeveral) as several:
        trace("m", text)
    assert several.value.mend() == "write lift:m or ball:m"
    assert shape(trace("ball:m", text).value) == "m"
    for name, mend in (("t_1", ""), ("lifft:m", "is lift meant?"), ("lift:v_f", "")):
        with pytest.raises(TraceUnknown) as unknown:
            trace(name)
        assert not mend or unknown.value.mend() == mend


def test_a_document_with_problems_is_traced_as_far_as_it_goes() -> None:
    found, report = asking.trace_value(Source("test.md", DOCUMENT.replace("6752 N", "6725 N")), Text("P"))
    assert report.failed
    assert found is not None
    assert found.value.name == "P"


FIGURES = """\
---
lang: en
---

# Question 1 {.question #wire marks=2}

```{.draw}
graph: V in V against I in A
points:
  - I in A, V in V
  - 0.10, 0.52
  - 0.20, 0.97
fit: line through origin
gradient: R in Ω to 2 dp
```

```{.draw}
circuit: battery (6 V), A, R_1 (3 Ω)
```

```{.calc}
formula: P = I^2 R
find: P in W
marks: 2
```
"""


@pytest.mark.parametrize(
    ("name", "formulas"),
    [
        ("R", ["graph: V in V against I in A", "points: 3 lines", "fit: line through origin"]),
        ("A", ["circuit: battery (6 V), A, R_1 (3 Ω)"]),
    ],
)
def test_what_a_figure_finds_says_from_what(name: str, formulas: list[str]) -> None:
    found = trace(name, FIGURES).value
    assert [formula.text for formula in found.formulas] == formulas
    assert all(formula.span.line for formula in found.formulas)


def test_the_formula_of_the_sheet_is_the_one_that_the_working_prints() -> None:
    other = (
        DOCUMENT.replace("v_i: 12", "u: 12")
        .replace("find: v_f in m/s", "find: v in m/s")
        .replace("Δt: 1 s", "t: 1 s")
    )
    assert trace("ball:v_f").value.formulas[0].text.startswith("v_f")
    assert trace("ball:v", other).value.formulas[0].text == "v = u + a t"


def test_what_a_figure_finds_too_is_traced_in_the_calculation() -> None:
    text = (
        "# A {.question #a}\n\n```{.draw #figure}\ngiven:\n  R_1: 4 Ω\ncircuit: battery (9 V), R_1\n```\n\n"
        "```{.calc #found}\ngiven:\n  R_1: 4 Ω\n  U: 9 V\nformula: I = U / R_1\nfind: I in A\n```\n"
    )
    assert trace("I", text).value.formulas[0].text == "I = U / R_1"
    with pytest.raises(TraceSeveral):
        trace("I", text.replace("U: 9 V", "U: 8 V"))


def test_an_answer_above_its_steps_stands_where_it_is_typed() -> None:
    assert [(place.what, place.text) for place in trace("P").places] == [("answer", "10.13 kW")]


def test_a_figure_is_a_place_where_a_value_stands() -> None:
    text = DOCUMENT + (
        "\n# Question 3 {.question}\n\n```{.given}\nr: 2 Ω\nR_1: 4 Ω\n```\n\n"
        "```{.draw}\ncircuit: battery (6 V, r), (R_1 | 3 Ω)\n```\n\n"
        "```{.draw}\ngiven:\n  F: T from tension\nforces:\n  F: F, up\n  w: 4 N, down\n```\n"
    )
    assert [place.what for place in trace("3:R_1", text).places] == ["figure"]
    assert [place.what for place in trace("3:r", text).places] == ["figure"]
    assert [place.what for place in trace("T", text).places] == ["answer", "figure"]
    assert [place.what for place in trace("m", text).places] == ["typed value"]
