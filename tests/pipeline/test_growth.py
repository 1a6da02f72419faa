"""Twice as many questions take twice as many steps of the program: calls are counted, not seconds."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import FrameType

import pytest
from physcalc_filter import pandoc_run, pipeline
from physcalc_filter.document import read_markup, write_json
from physcalc_filter.sources import Source

QUESTION = """
# Question {n} {{.question #q{n} marks=4}}

A crate of mass [{m} kg]{{.value of=m}} on a slope; see [](#q1) and [the first](#q1).

```{{.given}}
m: {m} kg
a: 2 m/s^2
```

::: {{.question #q{n}-a marks=3}}
Calculate the force.

```{{.calc}}
formula: F = m a
find: F in N to 1 dp
slips:
  halved it: F = m a / 2
```
:::

::: {{.question #q{n}-b marks=1}}
Say why.

::: {{.answer}}
It [is pulled]{{.mark}}.
:::
:::
"""


def text_of(questions: int, edition: str = "paper") -> str:
    """A document of so many questions."""
    head = f"---\nedition: {edition}\nlang: en\n---\n\n# Notes {{#notes}}\n\nText.\n"
    return head + "".join(QUESTION.format(n=n, m=n + 2) for n in range(1, questions + 1))


def calls(run: Callable[[], object]) -> int:
    """How many functions a run calls, the second time: what is imported and kept once counts for nothing."""
    run()
    count = 0

    def seen(frame: FrameType, event: str, argument: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(seen)
    try:
        run()
    finally:
        sys.setprofile(None)
    return count


@pytest.mark.parametrize("edition", ["paper", "memo", "guide"])
def test_editions_grow_with_their_questions_and_no_faster(edition: str) -> None:
    def made(questions: int) -> int:
        given = write_json(read_markup(text_of(questions, edition)))
        assert pandoc_run.answer(given, "html").written is not None
        return calls(lambda: pandoc_run.answer(given, "html"))

    assert made(24) < 2.2 * made(12)


@pytest.mark.parametrize("strict", [False, True])
def test_checks_grow_with_their_questions_and_no_faster(strict: bool) -> None:
    def checked(questions: int) -> int:
        source = Source("a.md", text_of(questions))
        return calls(lambda: pipeline.check(source, strict=strict))

    assert checked(24) < 2.2 * checked(12)
