"""Calculations over the whole syllabus: values, lines typed into a calculator, and answers typed right and wrong."""

from __future__ import annotations

import math
import re

import pytest

from physcalc import CalculationFailed, Solution, calculate

from .calculator import holds, plain_blanks, printed
from .syllabus import BLOCKS

BY_TEXT = {block.strip(): expected for block, expected in BLOCKS}


def solved(block: str) -> Solution:
    return calculate(block, lang="en-ZA", sheet="school")


@pytest.mark.parametrize("block", BY_TEXT)
def test_the_value_is_right(block: str) -> None:
    solution = solved(block)
    for name, expected in BY_TEXT[block].items():
        value, half, _ = printed(solution[name].text)
        assert abs(value - float(expected)) <= half * 1.000001 + 1e-12 * abs(value), (
            name,
            solution[name].text,
        )


@pytest.mark.parametrize("block", [b for b in BY_TEXT if "steps:" not in b and "formula:\n" not in b])
def test_the_substitution_gives_the_answer(block: str) -> None:
    """Single formulas only: in steps, and in sets of formulas, earlier answers stand as they were rounded."""
    steps = solved(block).steps
    (line,) = [step.text for step in steps if step.kind == "substitution"]
    name, *shown = next(step.text for step in steps if step.kind == "answer").split(" = ")
    value, half, rest = printed(shown[0])
    last, half_last, _ = printed(shown[-1])
    if last:
        # What is converted is shown with more figures first than the answer has.
        half = max(half, abs(value) * half_last / abs(last))
    if rest == "°":
        value, half = math.radians(value), math.radians(half)
    assert holds(plain_blanks(line), name.strip("|"), value, half * 1.02), line


@pytest.mark.parametrize("block", [b for b, found in BY_TEXT.items() if len(found) == 1])
def test_an_answer_typed_as_printed_agrees_and_one_digit_off_does_not(block: str) -> None:
    solution = solved(block)
    (name,) = BY_TEXT[block]
    right = plain_blanks(solution[name].text)
    where = f"{block}\nanswer:\n  {name}: "
    solved(where + right)
    mantissa, times, rest = right.partition(" × ")
    digits = re.match(r"^[-−]?\d[\d ,]*", mantissa)
    assert digits is not None
    number = digits[0].rstrip()
    wrong = number[:-1] + str((int(number[-1]) + 1) % 10) + mantissa[len(number) :] + times + rest
    with pytest.raises(CalculationFailed) as failed:
        solved(where + wrong)
    assert [problem.slug for problem in failed.value.problems] == ["answer-disagrees"]
