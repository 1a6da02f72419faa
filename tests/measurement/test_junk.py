"""Whatever stands round ± or after `change`: problems are told, nothing is raised."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from physcalc.checking.scope import Scope
from physcalc.engine import calculate, constants_layer
from physcalc.problems import Problem

from ..authoring import POINT, sheet, statement, text

_PIECES = st.sampled_from(
    ["±", "(", ")", "0.2", "1,5", "3e-7", "3e300", "1e-399", "× 10^-6", "e-7", "e", "-", "+", "0", "m", "mm", "kg", "%",
     "°", "°C", "V", ", right", "at 30°", "x", "1/3", ";", " ", "from q", "5 dB"]
)  # fmt: skip
_CHANGES = st.sampled_from(
    ["x", "y", "a", "doubled", "halved", "is", "×", "3", "0", "1/3", "increased by", "decreased by", "20 %", "100 %",
     ",", ";", "-2", "e300"]
)  # fmt: skip
values = st.lists(_PIECES, max_size=8).map(" ".join)
changes = st.lists(_CHANGES, max_size=8).map(" ".join)
formulas = st.sampled_from(
    [
        "y = x",
        "y = x a",
        "y = x / a",
        "y^2 = x - a",
        "y = sqrt(x)",
        "y = sin(x)",
        "y = x x / x",
        "y = exp(a) + x",
    ]
)

_slow = settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])


@_slow
@given(
    values, values, formulas, values, st.sampled_from(["quadrature", "sum"]), st.sampled_from([None, 1, 2])
)
def test_data_and_answers(
    x: str, a: str, formula: str, answer: str, combining: str, figures: int | None
) -> None:
    conventions = replace(POINT, uncertainty=combining, uncertainty_figures=figures)  # type: ignore[arg-type]
    calculation = statement(
        formula, "y with percentage", given=[f"x: {x}", f"a: {a}"], answer=answer, accept=answer,
        conventions=conventions, others=[statement("y = a x", "y", conventions=conventions)],
    )  # fmt: skip
    outcome = calculate(calculation, Scope((constants_layer(sheet()),)), sheet())
    assert all(isinstance(problem, Problem) and problem.sentence() for problem in outcome.problems)
    assert outcome.working is not None or outcome.problems


@_slow
@given(formulas, changes, changes, values)
def test_changes(formula: str, change: str, answer: str, a: str) -> None:
    calculation = replace(
        statement(formula, "y", given=[f"a: {a}"], answer=answer, slips={"slip": "y = x^2 a"}),
        change=text(change, 44),
    )
    outcome = calculate(calculation, Scope((constants_layer(sheet()),)), sheet())
    assert all(isinstance(problem, Problem) and problem.sentence() for problem in outcome.problems)
    assert outcome.working is not None or outcome.problems
