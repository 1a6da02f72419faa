"""Random formulas and chains of them, against the `uncertainties` library used by itself.

It differentiates by rules; the product moves each datum a little and solves again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from uncertainties import nominal_value, std_dev, ufloat
from uncertainties.core import Variable

from physcalc.checking.scope import Scope
from physcalc.language.names import Name, read_name

from ..authoring import POINT, layer, work

_slow = settings(
    max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
DATA = ("a", "b", "c")

Compute = Callable[[dict[str, Any]], Any]


@dataclass(frozen=True)
class Tree:
    """An expression as an author types it, and as a function of values by name."""

    text: str
    of: Compute


def _named(name: str) -> Tree:
    return Tree(name, lambda values: values[name])


def _plus(one: Tree, other: Tree) -> Tree:
    return Tree(f"({one.text}) + ({other.text})", lambda v: one.of(v) + other.of(v))


def _minus(one: Tree, other: Tree) -> Tree:
    return Tree(f"({one.text}) - ({other.text})", lambda v: one.of(v) - other.of(v))


def _times(one: Tree, other: Tree) -> Tree:
    return Tree(f"({one.text}) * ({other.text})", lambda v: one.of(v) * other.of(v))


def _over(one: Tree, other: Tree) -> Tree:
    return Tree(f"({one.text}) / ({other.text})", lambda v: one.of(v) / other.of(v))


def _square(one: Tree) -> Tree:
    return Tree(f"({one.text})^2", lambda v: one.of(v) ** 2)


def _root(one: Tree) -> Tree:
    return Tree(f"sqrt(({one.text})^2 + 2)", lambda v: (one.of(v) ** 2 + 2) ** 0.5)


def trees(names: tuple[str, ...]) -> st.SearchStrategy[Tree]:
    """Expressions in which names stand as often as it happens."""
    leaf = st.sampled_from(names).map(_named)

    def grown(inner: st.SearchStrategy[Tree]) -> st.SearchStrategy[Tree]:
        two = [st.builds(make, inner, inner) for make in (_plus, _minus, _times, _over)]
        return st.one_of(*two, st.builds(_square, inner), st.builds(_root, inner))

    return st.recursive(leaf, grown, max_leaves=5)


@st.composite
def measured(draw: st.DrawFn) -> tuple[list[str], dict[str, Variable]]:
    """Data lines and the same data for the library."""
    lines, values = [], {}
    for name in DATA:
        value, width = draw(st.integers(20, 900)), draw(st.integers(1, 9))
        lines.append(f"{name}: {value / 100:.2f} ± {width / 100:.2f}")
        values[name] = ufloat(value / 100, width / 100)
    return lines, values


def same(mine: float, theirs: Any) -> bool:
    """Whether two uncertainties agree; what cancels may leave a trace of either arithmetic."""
    scale = (
        sum(abs(size) for size in theirs.error_components().values())
        if hasattr(theirs, "error_components")
        else 0
    )
    return bool(mine == pytest.approx(std_dev(theirs), rel=1e-6, abs=1e-7 * scale + 1e-12))


def _kept(compute: Compute, values: dict[str, Any]) -> Any:
    try:
        found = compute(values)
    except (ZeroDivisionError, OverflowError, ValueError):
        found = None
    assume(found is not None and 1e-3 < abs(nominal_value(found)) < 1e6)
    return found


def name_of(text: str) -> Name:
    name = read_name(text)
    assert name is not None
    return name


@_slow
@given(measured(), trees(DATA))
def test_a_formula(data: tuple[list[str], dict[str, Variable]], tree: Tree) -> None:
    lines, values = data
    wanted = _kept(tree.of, values)
    outcome = work(f"y = {tree.text}", "y", given=lines)
    assert outcome.working is not None, [str(problem) for problem in outcome.problems]
    quantity = outcome.results[Name("y")].quantity
    assert float(quantity.value) == pytest.approx(nominal_value(wanted), rel=1e-9)
    assert same(quantity.spread.standard if quantity.spread else 0.0, wanted)


@_slow
@given(measured(), trees(DATA), trees(("a", "p")), trees(("a", "b", "p", "q")), st.booleans())
def test_a_chain(
    data: tuple[list[str], dict[str, Variable]], first: Tree, second: Tree, third: Tree, stepped: bool
) -> None:
    """Results that share data stay correlated, from block to block and from step to step."""
    lines, values = data
    known: dict[str, Any] = dict(values)
    for name, tree in (("p", first), ("q", second), ("y", third)):
        known[name] = _kept(tree.of, known)
    scope = Scope((layer(*lines),))
    for name, tree in (("p", first), ("q", second), ("y", third)):
        outcome = work(f"{name} = {tree.text}", name, scope=scope)
        assert outcome.working is not None, [str(problem) for problem in outcome.problems]
        scope = scope.inside(outcome.results)
        quantity = outcome.results[name_of(name)].quantity
        assert same(quantity.spread.standard if quantity.spread else 0.0, known[name])


@_slow
@given(measured(), trees(DATA))
def test_the_sum_rule_is_the_sum_of_the_parts(
    data: tuple[list[str], dict[str, Variable]], tree: Tree
) -> None:
    lines, values = data
    wanted = _kept(tree.of, values)
    total = sum(abs(size) for size in wanted.error_components().values())
    outcome = work(f"y = {tree.text}", "y", given=lines, conventions=replace(POINT, uncertainty="sum"))
    spread = outcome.results[Name("y")].quantity.spread
    assert (spread.worst if spread else 0.0) == pytest.approx(total, rel=1e-6, abs=1e-9)


@_slow
@given(measured(), st.integers(2, 5))
def test_an_unknown_inside_the_formula(data: tuple[list[str], dict[str, Variable]], times: int) -> None:
    """The formula is solved for a name inside of it: 1/f = 1/u + 1/v, and a set of two."""
    lines, values = data
    a, b = values["a"], values["b"]
    wanted = 1 / (1 / a + times / b)
    assume(abs(nominal_value(wanted)) > 1e-3)
    outcome = work(f"1 / y = 1/a + {times} / b", "y", given=lines)
    assert same(spread_of(outcome, "y"), wanted)
    # x + y = a and x − y = b: both unknowns rest on both data.
    outcome = work(["x + y = a", f"x - {times} y = b"], ["x", "y"], given=lines)
    y = (a - b) / (1 + times)
    assert same(spread_of(outcome, "y"), y)
    assert same(spread_of(outcome, "x"), a - y)


def spread_of(outcome: Any, name: str) -> float:
    spread = outcome.results[name_of(name)].quantity.spread
    return 0.0 if spread is None else float(spread.standard)
