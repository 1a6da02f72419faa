"""Numbers that are tied to nothing, as `physcalc check --strict` tells them."""

from __future__ import annotations

import pytest
from physcalc_filter import pipeline
from physcalc_filter.problems import NumberLoose
from physcalc_filter.sources import Source

HEAD = "---\nlang: en-ZA\n---\n\n"
BLOCKS = """

```{.given}
m: 640 kg
a: 0.75 m/s^2
Δx: 5 m
Δy: 5 m
```

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
```
"""


def loose(text: str, *, before: str = "# Question 1 {.question #lift}\n\n") -> list[NumberLoose]:
    source = Source("test.md", HEAD + before + text + BLOCKS)
    problems = pipeline.check(source, strict=True).problems
    return [problem for problem in problems if isinstance(problem, NumberLoose)]


def test_only_a_strict_check_tells() -> None:
    source = Source("test.md", HEAD + "# Question 1 {.question}\n\nA lift of 640 kg." + BLOCKS)
    assert pipeline.check(source).problems == ()


@pytest.mark.parametrize(
    ("typed", "mend"),
    [
        ("640 kg", "write [640 kg]{.value of=m}"),
        ("0,75 m·s^-2^", "write [0,75 m·s^-2^]{.value of=a}"),
        ("0.64 t", "write [0.64 t]{.value of=m}"),
        ("$640\\ \\text{kg}$", "write [$640\\ \\text{kg}$]{.value of=m}"),
        ("5 m", 'write [5 m]{.value of="Δx"} or [5 m]{.value of="Δy"}'),
        ("9,8 m·s⁻²", "write [9,8 m·s⁻²]{.value of=g}"),
        ("640 kilograms", "it is m: write it with its symbol, outside mathematics, to tie it"),
        ("$m = 640\\ \\text{kg}$", "it is m: write it with its symbol, outside mathematics, to tie it"),
        ("641 kg", "give it a name in a given block, or write [641 kg]{.untied}"),
    ],
)
def test_the_mend_is_the_span(typed: str, mend: str) -> None:
    (problem,) = loose(f"A lift of {typed} moves.")
    assert problem.mend() == mend


def test_the_span_that_is_proposed_ends_the_problem() -> None:
    (problem,) = loose("A lift of 640 kg moves.")
    assert loose(f"A lift of {problem.tie} moves.") == []


def test_a_number_that_drifted_is_told_with_the_datum_of_its_kind() -> None:
    (problem,) = loose("It speeds up at 0,57 m·s⁻².")
    assert problem.because() == ("a is 0,75\u00a0m·s⁻² (line 11)",)


@pytest.mark.parametrize(
    "text",
    [
        "A lift of [640 kg]{.value of=m} moves.",
        "A lift of `m`{.value} moves.",
        "A lift of [12 kg]{.untied} moves.",
        "The code `640 kg` is code.",
        "The law is $F = 2 m a$, marks (4), [4 marks], in 2026, Question 2 A.",
        "1.1 A trolley moves.",
    ],
)
def test_what_is_not_loose(text: str) -> None:
    assert loose(text) == []


def test_text_outside_questions_and_numbers_of_headings_are_not_looked_at() -> None:
    assert loose("Text.", before="You have 3 h.\n\n# Question 1.1 A lift {.question #lift}\n\n") == []


def test_a_result_is_never_proposed_in_the_paper() -> None:
    (problem,) = loose("The tension is 6 752 N.")
    assert (problem.names, problem.tie) == ((), "")
    (problem,) = loose("::: {.answer marks=1}\nThe tension is 6 752 N.\n:::")
    assert problem.tie == "[6 752 N]{.value of=T}"


def test_places_in_notes_captions_and_lists() -> None:
    text = "Text[^n].\n\n- of 640 kg\n\n[^n]: note of 641 kg\n\nTable: caption of 642 kg\n\n| a |\n|---|\n| 643 kg |\n"
    found = {problem.typed: (problem.span.line, problem.span.column) for problem in loose(text)}
    assert found == {"640 kg": (9, 6), "641 kg": (11, 15), "642 kg": (13, 19), "643 kg": (17, 3)}
