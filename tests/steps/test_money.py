"""Costs as they are worked out: put in so that the line, typed into a calculator, gives the cent that is printed.

The numbers are worked here by fractions, from 1 kWh = 3,6 MJ (SI Brochure, 9th edition, table 8) and the price alone.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from physcalc.engine import Outcome
from physcalc.exact import NumberStyle

from ..authoring import POINT, layer, shown, slugs, work

GIVEN = ["price: R2.85/kWh", "P: 1800 W", "t: 40 min"]


def lines(formula: Any, find: Any, data: list[str], **keys: Any) -> list[str]:
    return shown(work(formula, find, given=data, **keys).working)


@pytest.mark.parametrize(
    ("formula", "find", "data", "expected"),
    [
        # 1,8 kW in 40 min are 1,2 kWh, at R2,85 R3,42.
        ("cost = price * P * t", "cost in R", GIVEN, ["cost = (2.85)(1.8)(2/3)", "cost = R3.42"]),
        ("cost = price * P * t", "cost in ZAR to 2 dp", GIVEN, ["cost = (2.85)(1.8)(2/3)", "cost = R3.42"]),
        ("cost = price * P * t", "cost", [GIVEN[0], "P: 2.2 kW", "t: 3 h"], ["cost = (2.85)(2.2)(3)", "cost = R18.81"]),
        # 9 MJ are 2,5 kWh.
        ("cost = price W", "cost in R", ["price: 2.80 ZAR/kWh", "W: 9 MJ"], ["cost = (2.80)(2.5)", "cost = R7.00"]),
        ("cost = price W", "cost in R", ["price: R0.50/MJ", "W: 10 kWh"], ["cost = (0.50)(36)", "cost = R18.00"]),
        # What the money is enough for, and what each unit of energy has cost.
        ("B = price P t", "t in h to 1 dp", ["B: R57", "price: R2.85/kWh", "P: 800 W"],
         ["57 = (2.85)(0.8) t", "t = 25.0 h"]),
        ("p = C / W", "p in R/kWh", ["C: R90", "W: 108 MJ"], ["p = 90 / 30", "p = R3.00/kWh"]),
        # 50 min at 1,3 kW are 1,08333 kWh and cost 3,0875.
        (
            ["W = P t", "cost = price W"], "cost", ["price: R2.85/kWh", "P: 1300 W", "t: 50 min"],
            ["W = 1.0833 kW·h", "cost = (2.85)(1.0833)", "cost = R3.09"],
        ),
        # Hours for the energy, days for the line.
        (
            "cost = price P t + fee n", "cost", ["price: R2.85/kWh", "fee: R7.50/d",
            "P: 500 W", "t: 120 min", "n: 30 d"],
            ["cost = (2.85)(0.5)(2) + (7.50)(30)", "cost = R227.85"],
        ),
        ("C = rate D", "C in R", ["rate: R18.20/USD", "D: $5"], ["C = (18.20)(5)", "C = R91.00"]),
        ("n = C / price_1", "n to 0 dp", ["C: R120", "price_1: R7.50"], ["n = 120 / 7.50", "n = 16"]),
        ("C = V p", "C in €", ["V: 750 mL", "p: €1.60/L"], ["C = (0.75)(1.60)", "C = €1.20"]),
        # Large amounts are written out, and whole where the currency has no hundredths.
        ("C = n p", "C", ["n: 2500", "p: R480"], ["C = R1 200 000.00"]),
        ("C = n p", "C in JPY", ["n: 3", "p: 150 JPY"], ["C = 450 JPY"]),
        ("C = n p", "C in KWD", ["n: 3", "p: 1.5 KWD"], ["C = 4.500 KWD"]),
        ("C = n p", "C in R to 0 dp", ["n: 2500", "p: R480.30"], ["C = R1 200 750"]),
        ("C = n p", "C in R to 2 dp in standard form", ["n: 2500", "p: R480"], ["C = R1.20 × 10⁶"]),
    ],
)  # fmt: skip
def test_working(formula: Any, find: str, data: list[str], expected: list[str]) -> None:
    found = [line.replace("\u00a0", " ").replace("\u202f", " ") for line in lines(formula, find, data)]
    assert [line for line in expected if line not in found] == [], found


def test_an_amount_has_its_cents_whatever_the_document_rounds_to() -> None:
    from physcalc.exact import Form

    conventions = replace(POINT, form=Form("figures", 2))
    assert lines("C = n p", "C", ["n: 3", "p: R41.15"], conventions=conventions)[-1] == "C = R123.45"


def test_what_does_not_come_out_goes_in_in_si_units() -> None:
    # 230 V · 8 A · 1,5 h = 2,76 kWh, at R2,85 R7,866.
    data = ["price: R2.85/kWh", "V: 230 V", "I: 8 A", "t: 90 min"]
    assert lines("cost = price V I t", "cost", data)[-1] == "cost = R7.87"


def verdict(answer: str, find: str = "cost in R", **keys: Any) -> list[str]:
    return slugs(work("cost = price * P * t", find, given=GIVEN, answer=answer, **keys))


@pytest.mark.parametrize(
    "answer", ["R3.42", "R3,42", "3.42 ZAR", "3,42 ZAR", "R 3.42", "ZAR 3.42", "R3.420", "+R3.42", "R3.42e0"]
)
def test_answers_that_agree(answer: str) -> None:
    assert verdict(answer) == []


@pytest.mark.parametrize(
    ("answer", "slug"),
    [
        ("R3.41", "answer-disagrees"),
        ("R3.43", "answer-disagrees"),
        ("-R3.42", "answer-disagrees"),
        ("R342", "answer-disagrees"),
        ("R3.4", "answer-coarse"),
        ("$3.42", "unit-dimension-wrong"),
        ("3.42", "unit-dimension-wrong"),
        ("3.42 kWh", "unit-dimension-wrong"),
        ("R3.42/kWh", "unit-dimension-wrong"),
        ("342 cents", "unit-unreadable"),
        ("3.42 R", "unit-unknown"),
        ("R", "quantity-unreadable"),
        ("R-5", "quantity-unreadable"),
        ("RR5", "quantity-unreadable"),
        ("R1e400", "answer-disagrees"),
        ("R1e401", "number-too-long"),
    ],
)
def test_answers_that_do_not(answer: str, slug: str) -> None:
    assert verdict(answer) == [slug]


def replacements(outcome: Outcome) -> list[str]:
    return [p.replacement for p in outcome.problems if p.slug == "answer-disagrees"]  # type: ignore[attr-defined]


@pytest.mark.parametrize(
    ("answer", "mended"),
    [
        ("R3.41", "R3.42"),
        ("R 3,41", "R 3,42"),
        ("-R3.41", "R3.42"),
        ("3.41 ZAR", "3.42 ZAR"),
        ("ZAR 3.41", "ZAR 3.42"),
    ],
)
def test_a_wrong_cent_is_mended_as_it_was_typed(answer: str, mended: str) -> None:
    assert replacements(work("cost = price * P * t", "cost in R", given=GIVEN, answer=answer)) == [mended]


def test_a_loss_keeps_its_minus() -> None:
    outcome = work("L = a - b", "L in R", given=["a: R5", "b: R7.50"], answer="-R2.60")
    assert shown(outcome.working)[-1] == "L = −R2.50"
    assert replacements(outcome) == ["-R2.50"]


@pytest.mark.parametrize(
    ("formula", "find", "slug"),
    [
        ("cost = price P t + us", "cost in R", "dimensions-differ"),
        ("cost = price P t", "cost in $", "unit-dimension-wrong"),
        ("cost = price P", "cost in R", "unit-dimension-wrong"),
        ("cost = price P t", "cost in kWh", "unit-dimension-wrong"),
        ("cost = P t", "cost in R", "unit-dimension-wrong"),
        ("k = exp(us)", "k", "plain-number-needed"),
    ],
)
def test_units_that_do_not_fit_are_told(formula: str, find: str, slug: str) -> None:
    outcome = work(formula, find, given=[*GIVEN, "us: $3"])
    assert slugs(outcome) == [slug]


def test_two_currencies_are_told_as_such() -> None:
    (problem,) = work("cost = a + b", "cost in R", given=["a: R5", "b: $3"]).problems
    assert "R and $" in problem.sentence()
    assert "R18.20/USD" in problem.mend()


def test_beside_a_resistance_an_amount_with_a_blank_is_a_product() -> None:
    found = layer("R: 5 Ω", "x: R 2", "y: R2", "z: 3 R")
    units = {name.key: datum.quantity.unit.text() for name, datum in found.items()}
    assert units == {"R": "Ω", "x": "Ω", "y": "R", "z": "Ω"}


def _typed(line: str) -> Fraction:
    """What a calculator makes of a substitution such as "cost = (2.85)(1.8)(2/3)"."""
    value = Fraction(1)
    for factor in line.partition("= ")[2].strip("()").split(")("):
        value *= Fraction("".join(factor.split()))
    return value


@settings(max_examples=60, deadline=None)
@given(st.integers(1, 999), st.integers(1, 9999), st.integers(1, 2000))
def test_the_substitution_gives_the_cent_that_is_printed(cents: int, watts: int, minutes: int) -> None:
    price = Fraction(cents, 100)
    plain = replace(POINT, style=NumberStyle(".", group=False, low=Fraction(1, 10**9), high=Fraction(10**12)))
    data = [f"price: R{float(price):.2f}/kWh", f"P: {watts} W", f"t: {minutes} min"]
    found = lines("cost = price * P * t", "cost in R", data, conventions=plain)
    exact = price * Fraction(watts, 1000) * Fraction(minutes, 60)
    to_cents = Fraction(int(exact * 100 + Fraction(1, 2)), 100)
    assert "".join(found[2].split()) == f"cost=R{float(to_cents):.2f}"
    assert int(_typed(found[1]) * 100 + Fraction(1, 2)) == to_cents * 100
