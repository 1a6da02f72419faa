"""The memo's note of the parts that an answer follows from: right numbers, also after a part is put in before."""

from __future__ import annotations

import re
import subprocess

import pypandoc
import pytest
from physcalc_filter import pipeline
from physcalc_filter.document import write_json
from physcalc_filter.sources import Source


def memo(text: str) -> str:
    document, report = pipeline.build(Source("test.md", text), "memo", "markdown")
    assert document is not None, [str(problem) for problem in report.problems]
    command = [pypandoc.get_pandoc_path(), "-f", "json", "-t", "plain", "--wrap=none", "--columns=500"]
    done = subprocess.run(command, input=write_json(document), capture_output=True, text=True, check=True)
    return done.stdout


def carried(text: str) -> list[str]:
    """Every note of the memo, in order."""
    return re.findall(r"Carry an error through from ([0-9., ]*[0-9])", memo(text))


def part(identifier: str, *lines: str, block: str = "") -> str:
    body = "\n".join(lines)
    return f"::: {{.question #{identifier} marks=3}}\nA.\n\n```{{.calc{block}}}\n{body}\n```\n\n:::\n\n"


HEAD = "# Question 4 {.question}\n\n```{.given}\nm: 2 kg\na: 3 m/s^2\ns: 5 m\nt: 4 s\n```\n\n"
FORCE = part("force", "formula: F = m a", "find: F in N")
WORK = part("work", "given:", "  F: from force", "formula: W = F s", "find: W in J")
POWER = part("power", "given:", "  W: from work", "formula: P = W / t", "find: P in W")
EXTRA = "::: {.question marks=3}\nB.\n\n```{.calc}\nformula: p = m s / t\nfind: p in kg·m/s\n```\n\n:::\n\n"


def test_each_part_names_the_parts_whose_answers_go_into_it() -> None:
    assert carried(HEAD + FORCE + WORK + POWER) == ["4.1", "4.2"]


@pytest.mark.parametrize("place", [0, 1, 2, 3])
def test_the_numbers_are_those_after_renumbering(place: int) -> None:
    parts = [FORCE, WORK, POWER]
    parts.insert(place, EXTRA)
    expected = {0: ["4.2", "4.3"], 1: ["4.1", "4.3"], 2: ["4.1", "4.2"], 3: ["4.1", "4.2"]}
    assert carried(HEAD + "".join(parts)) == expected[place]
    moved = "# Question 3 {.question marks=1}\n\n::: {.answer marks=1}\nYes.\n:::\n\n"
    assert carried(moved + HEAD + FORCE + WORK) == ["4.1"]


def test_an_answer_is_followed_through_expressions_and_other_names() -> None:
    # X is made of F, and Y is only another name for X: the answer is still that of 4.1.
    through = part("x", "given:", "  F: from force", "  X: 2*F", "  Y: X", "formula: W = Y s", "find: W in J")
    assert carried(HEAD + FORCE + through) == ["4.1"]


def test_data_of_a_question_around_hand_an_answer_on() -> None:
    inner = "## Further {.question}\n\n```{.given}\nF: from force\n```\n\n"
    deep = part("deep", "formula: W = F s", "find: W in J")
    text = HEAD.replace("# Question 4", "# Question 4") + "## One {.question}\n\n" + FORCE + inner + deep
    assert carried(text) == ["4.1.1"]


def test_two_answers_are_named_in_order_and_each_once() -> None:
    both = part(
        "both",
        "given:",
        "  W: from work",
        "  F: from force",
        "  G: 2*F",
        "formula: x = W / F + W / G",
        "find: x in m",
    )
    assert carried(HEAD + FORCE + WORK + both) == ["4.1", "4.1, 4.2"]


def test_an_outer_id_gives_the_number_of_the_part_that_finds_it() -> None:
    other = "# Question 5 {.question}\n\n```{.given}\ns: 2 m\n```\n\n" + part(
        "later", "given:", "  F: from q", "formula: W = F s", "find: W in J"
    )
    assert carried(HEAD.replace("{.question}", "{.question #q}") + FORCE + other) == ["4.1"]


def test_a_block_is_known_by_its_question() -> None:
    text = HEAD + part("a", "formula: F = m a", "find: F in N", block=" #here")
    assert carried(text + part("b", "given:", "  F: from here", "formula: W = F s", "find: W in J")) == [
        "4.1"
    ]


def test_an_answer_of_the_question_around_is_carried_into_its_parts() -> None:
    own = "```{.calc}\nformula: F = m a\nfind: F in N\nmarks: 3\n```\n\n"
    assert carried(HEAD + own + part("b", "formula: W = F s", "find: W in J")) == ["4"]


def test_within_one_part_nothing_is_carried_through() -> None:
    two = "```{.calc}\nformula: F = m a\nfind: F in N\nmarks: 3\n```\n\n"
    two += "```{.calc}\nformula: W = F s\nfind: W in J\nmarks: 3\n```\n\n"
    assert carried("# Question 4 {.question}\n\n" + HEAD.partition("\n\n")[2] + two) == []
    steps = part(
        "s",
        "steps:",
        "  -",
        "    formula: F = m a",
        "    find: F in N",
        "  -",
        "    formula: W = F s",
        "    find: W in J",
    )
    assert carried(HEAD + steps) == []


def test_steps_carry_what_their_first_step_took() -> None:
    steps = part(
        "s", "given:", "  F: from force", "steps:", "  -", "    formula: W = F s", "    find: W in J",
        "  -", "    formula: P = W / t", "    find: P in W",
    )  # fmt: skip
    assert carried(HEAD + FORCE + steps) == ["4.1"]


def test_a_value_that_is_shown_is_nobodys_answer() -> None:
    shown = part("force", "formula: F = m a", "find: F in N", "show: 6 N")
    later = part("work", "given:", "  F: from force shown", "formula: W = F s", "find: W in J")
    assert carried(HEAD + shown + later) == []
