"""Calculations of further kinds: their values, and every line of their working typed into a calculator."""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Iterator
from itertools import pairwise

import mpmath
import pytest

from physcalc import Solution, Step, calculate

from .calculator import Calculator, holds, plain_blanks, printed
from .further import BLOCKS, CHANGES, MEASURED

BY_TEXT = {block.strip(): expected for block, expected in BLOCKS}


def solved(block: str) -> Solution:
    return calculate(block, lang="en-ZA", sheet="school")


# ---- values ---------------------------------------------------------------------------------------------

_AXES = {"east": 0, "right": 0, "north": 90, "up": 90, "west": 180, "left": 180, "south": 270, "down": 270}


def angle_of(direction: str) -> tuple[float, float]:
    """The angle from x in degrees that a printed direction says, and half a unit of its last digit."""
    number = re.search(r"(\d+(?:,(\d+))?)°", direction)
    if number is None:
        (word,) = (word for word in _AXES if word in direction)
        return _AXES[word], 1e-9
    angle, half = float(number[1].replace(",", ".")), 0.5 * 10.0 ** -len(number[2] or "")
    if "bearing" in direction:
        return 90 - angle, half
    if found := re.search(r"(\w+) of (\w+)$", direction):
        towards, base = _AXES[found[1]], _AXES[found[2]]
    elif found := re.search(r"(above|below) the horizontal, to the (\w+)$", direction):
        towards, base = 90 if found[1] == "above" else 270, _AXES[found[2]]
    else:
        return angle, half
    turn = 1 if (towards - base) % 360 == 90 else -1
    return base + turn * angle, half


@pytest.mark.parametrize("block", BY_TEXT)
def test_the_value_is_right(block: str) -> None:
    solution = solved(block)
    for name, expected in BY_TEXT[block].items():
        value, half, rest = printed(solution[name].text)
        words = ""
        if isinstance(expected, tuple):
            expected, words = expected
            assert rest.endswith(words), rest
            assert float(expected) > 0
        slack = half * 1.000001 + 1e-12 * abs(value)
        if isinstance(expected, mpmath.mpc):
            wanted = complex(expected)
            assert abs(value - abs(wanted)) <= slack, (name, solution[name].text)
            if value:
                angle, within = angle_of(plain_blanks(solution[name].direction))
                off = math.degrees(cmath.phase(wanted * cmath.exp(-1j * math.radians(angle))))
                assert abs(off) <= within * 1.000001 + 1e-9, (name, solution[name].text)
        else:
            assert abs(value - float(expected)) <= slack, (name, solution[name].text)


@pytest.mark.parametrize(("block", "name", "factor"), CHANGES)
def test_the_factor_of_a_change(block: str, name: str, factor: object) -> None:
    text = solved(block)[name].text
    if "/" in text:
        over, under = text.split("/")
        assert int(over) / int(under) == pytest.approx(float(factor), rel=1e-15)  # type: ignore[arg-type]
    else:
        value, half, _ = printed(text)
        assert abs(value - float(factor)) <= half  # type: ignore[arg-type]


@pytest.mark.parametrize(("block", "name", "value", "width"), MEASURED)
def test_the_uncertainty(block: str, name: str, value: object, width: object) -> None:
    text = plain_blanks(solved(block)[name].text)
    found = re.fullmatch(r"\(?([^ ]+) ± ([^ )]+)\)?(?: × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+))?(?: .+)?", text)
    assert found is not None, text
    power = f" × 10{found[3]}" if found[3] else ""
    for digits, expected in ((found[1], value), (found[2], width)):
        number, half, _ = printed(digits + power)
        assert abs(number - float(expected)) <= half * 1.000001, text  # type: ignore[arg-type]
    # One figure, or two where the first is a 1 (to one figure 0,098 is 0,1): common practice, no source.
    figures = found[2].replace(",", "").lstrip("0")
    first = f"{float(width):.1e}"[0]  # type: ignore[arg-type]
    assert len(figures) == (2 if figures[0] == "1" else 1)
    assert figures[0] == "1" or first != "1"


# ---- lines ----------------------------------------------------------------------------------------------


def closing(steps: tuple[Step, ...]) -> Iterator[tuple[str, str]]:
    """Each line that comes before a result, with that result."""
    for before, after in pairwise(steps):
        if after.kind == "answer" and before.kind != "answer":
            line = plain_blanks(before.text)
            if before.kind == "remark" and "→" not in line and not re.match(r"\(\d\) [+−] \(\d\): ", line):
                continue  # Both roots: the line above them gives these.
            yield re.sub(r"^[^:=]*: |   \(\d+\)$", "", line), plain_blanks(after.text)
        if after.kind == "remark" and before.kind in ("algebra", "substitution") and after.text[0] != "(":
            for root in re.findall(r"\S+ = [^;]+?(?= or |;|$)", plain_blanks(after.text).split(";")[0]):
                yield plain_blanks(before.text), root


#: Units in which answers are asked, in those in which they come out; u and eV as CODATA 2022 has them (from memory).
_SIZES = {
    "km·h⁻¹": 1 / 3.6, "km·s⁻¹": 1e3, "km": 1e3, "cm": 1e-2, "nm": 1e-9, "g": 1e-3, "kW·h": 3.6e6, "kJ": 1e3,
    "min": 60, "eV": 1.602176634e-19, "MeV": 1.602176634e-13, "MPa": 1e6, "%": 1e-2,
}  # fmt: skip


def gives(line: str, result: str) -> bool:
    """Whether a line gives a result, to the last digit of it that is printed first."""
    name, *shown = result.split(" = ")
    name = name.strip("|")
    value, half, rest = printed(shown[0])
    if len(shown) > 1:
        last, half_last, unit = printed(shown[-1])
        assert abs(value / _SIZES[unit] - last) <= half_last * 1.000001, result
    if rest.startswith("°") and not rest.startswith("°C"):
        value, half = math.radians(value), math.radians(half)
    lines = [line.replace("±", "+"), line.replace("±", "−")] if "±" in line else [line]
    for one in lines:
        left, _, right = one.partition(" = ")
        # A size that is asked has lost its sign.
        for sign in (1, -1):
            try:
                if left == name or left == f"|{name}|":
                    got = Calculator(right, {}).result()
                    if abs(got - sign * value) <= half * 1.02:
                        return True
                elif holds(one, name, sign * value, half * 1.02):
                    return True
            except KeyError:
                return True  # Another unknown stands in it still: it is no line from which this result comes.
    return False


#: In steps and from part to part, results go on as they were answered: the author chooses so (`carry`).
_LINES = [block for block in BY_TEXT if "steps:" not in block]


@pytest.mark.parametrize("block", _LINES)
def test_every_line_gives_what_stands_below_it(block: str) -> None:
    seen = list(closing(solved(block).steps))
    assert seen
    for line, result in seen:
        assert gives(line, result), (line, result)


def test_components_carried_into_a_sum_give_it() -> None:
    (block,) = (block for block in BY_TEXT if "points:" in block)
    steps = solved(block).steps
    of_sum = [line for line in closing(steps) if line[1].startswith(("F_x", "F_y"))]
    assert len(of_sum) == 2
    assert all(gives(line, result) for line, result in of_sum)


@pytest.mark.parametrize(("block", "name", "value", "width"), MEASURED)
def test_lines_of_an_uncertainty_give_what_stands_at_their_end(
    block: str, name: str, value: object, width: object
) -> None:
    lines = [plain_blanks(step.text) for step in solved(block).steps if step.kind == "uncertainty"]
    assert lines
    for line in lines:
        *_, numbers, total = line.split(" = ")
        if any(sign.isalpha() for sign in numbers.replace("×", "")):
            continue  # Nothing was put in: there is one datum.
        wanted, half, unit = printed(total)
        share = 100 if unit == "%" else 1
        assert abs(share * Calculator(numbers, {}).result() - wanted) <= half * 1.000001, line
