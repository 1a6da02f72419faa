"""What a teacher may type, and the mend that is said to it."""

from __future__ import annotations

import pytest

from physcalc import CalculationFailed, calculate


@pytest.mark.parametrize(
    ("block", "slug", "mend"),
    [
        (
            "given:\n  u: 20 m/s\n  a: -9.8 m/s^2\n  v: 0 m/s\nformula: v² = u² + 2as\nfind: s in m",
            "name-not-in-formula",
            'as is one name: for a product write "a s"',
        ),
        (
            "given:\n  θ: 30°\n  m: 5 kg\nformula: F = m g sinθ\nfind: F in N",
            "name-without-value",
            'for the function write "sin θ"',
        ),
        (
            "given:\n  m: 5 kg\nformula: F = mg\nfind: F in N",
            "name-without-value",
            'for a product write "m g"',
        ),
        (
            "given:\n  R2: 5 Ω\nformula: V = R_2\nfind: V",
            "name-unreadable",
            'a subscript stands behind a low line: write "R_2"',
        ),
        (
            "given:\n  m: 5 kg\n  v: 3 m/s\nformula: E = ½ m v²\nfind: E in J",
            "formula-unreadable",
            "write it with a solidus: 1/2",
        ),
        (
            "given:\n  P: 5 W\n  t: 2:30 min\nformula: W = P t\nfind: W in J",
            "unit-unreadable",
            "write a time in one unit: 2.5 min or 150 s for two minutes and a half",
        ),
        (
            "given:\n  W_1: 5 J\n  W_2: 8 J\nformula: η = W_1 / W_2 × 100 %\nfind: η in %",
            "formula-unreadable",
            "leave × 100 % out: find: η in % gives the percentage",
        ),
        (
            "given:\n  W_1: 5 J\n  W_2: 8 J\nformula: η = (W_1 / W_2) * 100\nfind: η in %",
            "percent-twice",
            "leave the 100 out, or find η without a unit",
        ),
        (
            "given:\n  E_1: 1/2 m v^2\nformula: E = E_1\nfind: E in J",
            "name-without-value",
            "give m a value under given, or put it under find",
        ),
        # In a list of data nothing is told twice: that F_1 has no direction only follows.
        (
            "given:\n  F_1: 12 N at θ\n  F_2: 8 N at up\nformula: F = F_1 + F_2\nfind: F in N with direction",
            "heading-unreadable",
            "write at 30°, at bearing 120°, at 20° north of east, at 30° below left, or at north-east",
        ),
    ],
)
def test_what_is_meant_is_said(block: str, slug: str, mend: str) -> None:
    with pytest.raises(CalculationFailed) as failed:
        calculate(block, sheet="school")
    first, *others = failed.value.problems
    assert (first.slug, first.mend()) == (slug, mend)
    assert {problem.slug for problem in others} <= {slug}


@pytest.mark.parametrize(
    "formula", ["η = W_1 / (100 W_2)", "η = W_1 / W_2", "η = W_1 / W_2 + 0 × 100", "100 η = W_1 / W_2"]
)
def test_other_hundreds_are_no_percentage_twice(formula: str) -> None:
    calculate(
        f"given:\n  W_1: 5 J\n  W_2: 8 J\nformula: {formula}\nfind: η in %",
        sheet="school",
    )
