"""`accept: choices` against a search of its own: every method, carry policy and customary constant, in fractions.

That markers accept what honest choices lead to is common in published schemes: a memo prints 28.81 N or 28.80 N for
one unknown, and g as 9.8, 9.81 or 10. The search below shares nothing with the product but the rule of rounding.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from physcalc_filter import pipeline
from physcalc_filter.sources import Source

from physcalc.checking.scope import Scope
from physcalc.engine import calculate, choices, constants_layer
from physcalc.language.statements import Calculation

from ..authoring import POINT, axis, layer, printed, sheet, statement, work

G = [Fraction("9.8"), Fraction("9.81"), Fraction(10)]  # physcalc/sheets/builtin/school.yaml

Value = dict[str, Fraction]


def rounded(value: Fraction, places: int) -> Fraction:
    """Half up; no value here is below zero."""
    scale = 10**places
    return Fraction((value * scale + Fraction(1, 2)).__floor__(), scale)


@dataclass(frozen=True)
class Step:
    """One step: its formula and find as typed, how it is computed, and to how many places it is answered."""

    formula: str
    find: str
    compute: Callable[[Mapping[str, Fraction]], Fraction]
    places: int

    @property
    def name(self) -> str:
        return self.find.split()[0]


def searched(methods: Sequence[Sequence[Step]], data: Value) -> list[Fraction]:
    """The answers that honest choices lead to, by trying them all."""
    found = set()
    for steps, g, carry in itertools.product(methods, G, (False, True)):
        known = {**data, "g": g}
        for step in steps:
            exact = step.compute(known)
            known[step.name] = rounded(exact, step.places) if carry else exact
        last = steps[-1]
        found.add(rounded(last.compute(known), last.places))
    return sorted(found)


def stated(methods: Sequence[Sequence[Step]], data: Sequence[str]) -> Calculation:
    def one(steps: Sequence[Step]) -> Calculation:
        return statement(
            steps=[statement(step.formula, f"{step.find} to {step.places} dp") for step in steps]
        )

    first, *others = (one(steps) for steps in methods)
    return replace(first, given=statement(given=data).given, others=tuple(others), accept=None)


TENSION = (
    Step("a = v^2 / (2 d)", "a in m/s^2", lambda k: k["v"] ** 2 / (2 * k["d"]), 2),
    Step("T = M (g + a)", "T in N", lambda k: k["M"] * (k["g"] + k["a"]), 2),
)
BY_ENERGY = (
    Step(
        "T = M g + M v^2 / (2 d)",
        "T in N",
        lambda k: k["M"] * k["g"] + k["M"] * k["v"] ** 2 / (2 * k["d"]),
        2,
    ),
)
THREE = (
    Step("F = M g s", "F in N", lambda k: k["M"] * k["g"] * k["s"], 1),
    Step("W = F d", "W in J", lambda k: k["F"] * k["d"], 0),
    Step("P = W / v", "P in N·s", lambda k: k["W"] / k["v"], 2),
)


tenths = st.integers(11, 99).map(lambda n: Decimal(n) / 10)
# Fast enough that no acceleration falls below 0.1, where it would be rounded in standard form.
speeds = st.integers(45, 99).map(lambda n: Decimal(n) / 10)


@settings(max_examples=25, deadline=None)
@given(tenths, speeds, tenths, tenths, st.sampled_from([(TENSION,), (TENSION, BY_ENERGY), (THREE,)]))
def test_the_same_answers_as_a_search(
    mass: Decimal, v: Decimal, d: Decimal, s: Decimal, methods: tuple[tuple[Step, ...], ...]
) -> None:
    data = {name: Fraction(value) for name, value in (("M", mass), ("v", v), ("d", d), ("s", s))}
    lines = [f"M: {mass} kg", f"v: {v} m/s", f"d: {d} m", f"s: {s}"]
    scope = Scope((constants_layer(sheet()),))
    found = choices(stated(methods, lines), scope, sheet())
    assert [answer.rounded.fraction for answer in found] == searched(methods, data)


def test_the_range_is_from_the_smallest_to_the_largest() -> None:
    data = ["M: 2.7 kg", "v: 3.1 m/s", "d: 4.3 m"]
    calculation = replace(stated((TENSION,), data), accept=statement(accept="choices").accept)
    working = calculate(calculation, Scope((constants_layer(sheet()),)), sheet()).working
    assert working is not None
    assert working.accepted is not None
    wanted = searched((TENSION,), {"M": Fraction("2.7"), "v": Fraction("3.1"), "d": Fraction("4.3")})
    assert [printed(end) for end in working.accepted] == [
        f"{float(end):.2f} N" for end in (wanted[0], wanted[-1])
    ]


def test_a_constant_taken_over_under_another_name() -> None:
    """`a: g, down` in the question's own data: 1.5 s times 9.8, 9.81 and 10."""
    down = axis("down is positive")
    scope = Scope(
        (layer("a: g, down", "t: 1.5 s", conventions=down, scope=Scope((constants_layer(sheet()),))),)
    )
    outcome = work(
        "v = a t", "v in m/s to 2 dp with direction", scope=scope, accept="choices", conventions=down
    )
    assert outcome.working is not None
    assert outcome.working.accepted is not None
    assert [printed(end) for end in outcome.working.accepted] == [
        "14.70 m·s⁻¹ downwards",
        "15.00 m·s⁻¹ downwards",
    ]


def test_a_given_value_is_no_choice() -> None:
    """Where the question gives g itself there is nothing to choose, and no range is shown."""
    outcome = work("F = m g", "F in N", given=["m: 2.0 kg", "g: 9.81 m/s^2"], accept="choices")
    assert outcome.working is not None
    assert outcome.working.accepted is None


def test_an_uncertain_answer_has_its_range_without_the_uncertainty() -> None:
    outcome = work("F = m g", "F in N", given=["m: 2.0 ± 0.1 kg"], accept="choices", conventions=POINT)
    assert outcome.working is not None
    assert outcome.working.accepted is not None
    assert [printed(end) for end in outcome.working.accepted] == ["19.6 N", "20.0 N"]


@pytest.mark.parametrize("edition", ["memo", "guide"])
def test_on_the_page(edition: str) -> None:
    """The memo shows the range to the marker; the guide is for learners."""
    text = (
        "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n# Question 1 {.question marks=3}\n\nCalculate.\n\n"
        "```{.calc}\ngiven:\n  m: 2.0 kg\nformula: F = m g\nfind: F in N\naccept: choices\n```\n"
    )
    built, report = pipeline.build(Source("test.md", text), edition, "plain")  # type: ignore[arg-type]
    assert not report.problems
    words = __import__("panflute").stringify(built).replace("\u00a0", " ")
    assert ("Accept" in words and "19,60" in words and "20,00" in words) == (edition == "memo")
