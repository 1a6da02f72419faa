"""From a source to a report and to the three editions, with the example of the language reference."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pypandoc
import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import EDITIONS, Edition, write_json
from physcalc_filter.sources import Source

LIFT = """---
title: Mechanics test
lang: en-ZA
physcalc:
  sheet: school
  total: 9
---

# Question 1 {.question #lift marks=9 topic=forces level=2}

A goods lift of mass `m`{.value} is pulled up by a cable of negligible mass. It speeds up
at [0,75 m·s⁻²]{.value of=a}.

```{.given}
m: 640 kg
a: 0.75 m/s^2
```

::: {.question #lift-law marks=2}
State Newton's second law of motion in words.

[Newton's second law]{.define}
:::

::: {.question #lift-tension marks=4}
Calculate the magnitude of the tension in the cable.

```{.calc}
use: newton-2
formula: T - m g = m a
find: T in N to 2 dp
answer: 6752 N
why: The cable pulls up, gravity pulls down.
slips:
  forgot the weight: T = m a
```
:::

::: {.question #lift-power marks=3}
At one instant the lift moves at [1,2 m·s⁻¹]{.value of=v}. Calculate the power then.

```{.calc}
given:
  v: 1.2 m/s
  F: T from lift-tension
use: power-velocity
find: P in kW to 2 dp
answer: 8.10 kW
```
:::
"""


def built(text: str, edition: Edition, draft: bool = False, to: str = "plain") -> str:
    document, _ = pipeline.build(Source("test.md", text), edition, "markdown", draft)
    assert document is not None
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", to, "--wrap=none", "--columns=500"]
    done = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    return done.stdout


def test_the_example_agrees() -> None:
    assert pipeline.check(Source("test.md", LIFT)).problems == ()


def test_the_paper_holds_no_answer() -> None:
    paper = built(LIFT, "paper")
    assert "640\u00a0kg" in paper
    assert "0,75\u00a0m·s⁻²" in paper
    for secret in (
        "6752",
        "6 752",
        "6\u202f752",
        "8,10",
        "8.10",
        "proportional",
        "newton-2",
        "weight",
        "pulls up,",
    ):
        assert secret not in paper
    assert [line for line in paper.splitlines() if "(2)" in line or "(4)" in line or "(3)" in line] == [
        "1.1 State Newton’s second law of motion in words. (2)",
        "1.2 Calculate the magnitude of the tension in the cable. (4)",
        "1.3 At one instant the lift moves at 1,2\u00a0m·s⁻¹. Calculate the power then. (3)",
    ]
    assert "[9]" in paper
    assert "Total: 9" in paper


def test_the_memo_has_a_tick_for_every_mark() -> None:
    memo = built(LIFT, "memo")
    assert memo.count("✓") == 9
    assert "goods lift" not in memo
    assert "Carry an error through from 1.2" in memo
    assert "forgot the weight" in memo
    for total in ("(2)", "(4)", "(3)", "[9]"):
        assert memo.count(total) == 1


def test_the_guide_has_text_working_and_reasons() -> None:
    guide = built(LIFT, "guide")
    assert "✓" not in guide
    for words in ("goods lift", "proportional", "gravity pulls down", "Slips to avoid", "forgot the weight"):
        assert words in guide


def test_a_problem_stops_the_build_unless_it_is_a_draft() -> None:
    wrong = LIFT.replace("answer: 6752 N", "answer: 6725 N")
    document, report = pipeline.build(Source("test.md", wrong), "memo", "markdown")
    assert document is None
    assert [problem.slug for problem in report.problems] == ["answer-disagrees"]
    assert (report.problems[0].span.line, report.problems[0].span.column) == (32, 9)
    assert report.questions == ("1.2",)
    draft = built(wrong, "memo", draft=True)
    assert "the document says 6\u202f725\u00a0N" in draft


@pytest.mark.parametrize("edition", EDITIONS)
def test_every_edition_frames_what_is_wrong_in_its_place(edition: Edition) -> None:
    wrong = LIFT.replace("m: 640 kg", "m: 640 kgg").replace("`m`{.value}", "`k_x`{.value}")
    draft = built(wrong, edition, draft=True)
    assert draft.count("Problem (") == 2
    assert draft.index("kgg") < draft.index("1.1")


def test_settings_of_the_command_line_win() -> None:
    from physcalc.problems import Text

    (problem,) = pipeline.check(Source("test.md", LIFT), [(Text("total"), Text("10"))]).problems
    assert problem.slug == "total-unequal"


def test_a_sheet_that_is_not_there() -> None:
    report = pipeline.check(Source("test.md", LIFT.replace("sheet: school", "sheet: scool")))
    assert [(problem.slug, problem.span.line) for problem in report.problems] == [("sheet-unknown", 5)]
    assert report.unreadable


def test_what_a_line_of_the_sheet_was_to_say_is_not_missed(tmp_path: Path) -> None:
    text = LIFT.replace("sheet: school", "sheet: own.yaml")
    sheet = "title: Own\nextends: school\nconstants:\n  g: {value: 9.81 m/s^2, title: gravity}\n"
    (tmp_path / "own.yaml").write_text(sheet, encoding="utf-8")
    assert {problem.slug for problem in pipeline.check(Source("a.md", text), folder=tmp_path).problems} == {
        "answer-disagrees"
    }
    (tmp_path / "own.yaml").write_text(sheet.replace("value", "valeu"), encoding="utf-8")
    found = pipeline.check(Source("a.md", text), folder=tmp_path).problems
    assert {problem.slug for problem in found} == {"sheet-key-missing", "sheet-key-unknown"}
