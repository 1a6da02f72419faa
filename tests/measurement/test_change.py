"""`change`: factors against sympy's ratio of the formula after and before the change."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
import sympy
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from physcalc.checking.scope import Scope
from physcalc.engine import Outcome, calculate, constants_layer
from physcalc.language.changes import Said, read_changes, read_factor
from physcalc.language.names import read_name
from physcalc.language.statements import AnswerText

from ..authoring import COMMA, POINT, layer, sheet, shown, slugs, statement, text

NAMES = ("a", "b", "c", "d")


def changed(
    formula: str | list[str],
    asked: str,
    change: str,
    answer: str = "",
    use: str = "",
    data: tuple[str, ...] = (),
) -> Outcome:
    calculation = statement(formula, asked, use=use)
    calculation = replace(calculation, change=text(change, 44, 9))
    if answer:
        calculation = replace(calculation, answers=(AnswerText(text(answer, 50, 9)),))
    scope = Scope((layer(*data), constants_layer(sheet())))
    return calculate(calculation, scope, sheet())


def factor(outcome: Outcome, asked: str) -> Fraction | None:
    name = read_name(asked)
    assert name is not None
    assert outcome.working is not None, [str(problem) for problem in outcome.problems]
    return outcome.changes[name].factor.fraction


powers = st.integers(-3, 3)
factors = st.sampled_from(
    [
        ("doubled", 2), ("halved", Fraction(1, 2)), ("trebled", 3), ("× 5", 5), ("quartered", Fraction(1, 4)),
        ("increased by 20 %", Fraction(6, 5)), ("decreased by 25 %", Fraction(3, 4)),
    ]
)  # fmt: skip


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(powers, min_size=4, max_size=4),
    st.dictionaries(st.sampled_from(NAMES), factors, min_size=1, max_size=3),
    st.sampled_from([1, 2, 3]),
)
def test_products_of_powers(
    exponents: list[int], changes: dict[str, tuple[str, Fraction]], power: int
) -> None:
    """y^n = product of powers: y' / y by sympy, which is asked for the ratio of the positive solutions."""
    formula = " * ".join(f"{name}^{exponent}" for name, exponent in zip(NAMES, exponents, strict=True))
    said = ", ".join(f"{name} {words}" for name, (words, _) in changes.items())
    outcome = changed(f"y^{power} = {formula}", "y", said)
    symbols = {name: sympy.Symbol(name, positive=True) for name in NAMES}
    before = sympy.prod(symbols[n] ** e for n, e in zip(NAMES, exponents, strict=True))
    new = {symbols[n]: sympy.Rational(Fraction(f).numerator, Fraction(f).denominator) * symbols[n]
           for n, (_, f) in changes.items()}  # fmt: skip
    ratio = sympy.simplify(sympy.root(before.subs(new, simultaneous=True) / before, power))
    assert outcome.working is not None, [str(problem) for problem in outcome.problems]
    (found,) = outcome.changes.values()
    if ratio.is_Rational:
        assert found.factor.fraction == Fraction(int(ratio.p), int(ratio.q))
    else:
        assert float(found.factor) == pytest.approx(float(ratio), rel=1e-12)


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.tuples(*(st.integers(1, 30) for _ in NAMES)), st.sampled_from(NAMES), factors)
def test_a_factor_that_rests_on_data(
    values: tuple[int, ...], name: str, change: tuple[str, Fraction]
) -> None:
    """y = a b + c / d: no product, so the factor needs all data; sympy puts them in before and after."""
    data = tuple(f"{n}: {value}" for n, value in zip(NAMES, values, strict=True))
    outcome = changed("y = a b + c / d", "y", f"{name} {change[0]}", data=data)
    a, b, c, d = sympy.symbols(NAMES)
    y = a * b + c / d
    put = {sympy.Symbol(n): sympy.Integer(value) for n, value in zip(NAMES, values, strict=True)}
    after = {**put, sympy.Symbol(name): put[sympy.Symbol(name)] * sympy.Rational(str(Fraction(change[1])))}
    ratio = y.subs(after) / y.subs(put)
    assert factor(outcome, "y") == Fraction(int(ratio.p), int(ratio.q))


def test_the_limit_of_a_large_factor() -> None:
    """R_p of two equal resistors tends to twice as much when one grows without bound (sympy's limit)."""
    k = sympy.Symbol("k", positive=True)
    limit = sympy.limit((k / (1 + k)) / sympy.Rational(1, 2), k, sympy.oo)
    outcome = changed("1/R = 1/R_1 + 1/R_2", "R", "R_1 × 1000000", data=("R_1: 5 Ω", "R_2: 5 Ω"))
    found = factor(outcome, "R")
    assert found is not None
    assert abs(found - Fraction(int(limit))) < Fraction(1, 100_000)


def test_the_working_of_the_sheets_formula() -> None:
    outcome = changed((), "F", "r doubled, Q_1 halved", use="coulomb")
    assert shown(outcome.working) == ["F = k Q₁ Q₂ / r²", "F′ = k (1/2 Q₁) Q₂ / (2 r)²", "F′ = 1/8 F"]
    assert outcome.used_laws == ("coulomb",)


def test_what_is_found_on_the_way_changes_too() -> None:
    """A = π d²/4 and R = ρ L/A: d up by a tenth leaves 1/1.21 of R, 0.83 to two places."""
    outcome = changed(["A = π d^2 / 4", "R = ρ L / A"], "R", "d increased by 10 %")
    assert factor(outcome, "R") == Fraction(100, 121)
    assert shown(outcome.working) == [
        "A = π d² / 4", "A′ = π (1.1 d)² / 4", "R = ρ L / A", "R′ = ρ L / A′", "R′ = 0.83 R",
    ]  # fmt: skip


def test_a_value_that_was_worked_out_from_what_changes_does_not_stay() -> None:
    """F = b v² beside P = F v: with v doubled P is 2³ times what it was, not twice."""
    data = ("b: 3 kg/m", "v: 4 m/s", "w: 2*v", "F: b v^2", "G: 5 N", "P: F v")
    outcome = changed("P = F v", "P", "v doubled", data=data)
    assert slugs(outcome) == ["change-goes-on"]
    assert outcome.problems[0].sentence().startswith("F rests on v")
    assert slugs(changed("P = w G", "P", "v doubled", data=data)) == ["name-not-in-formula"]
    # Through another, which rests on it in turn.
    assert slugs(changed("p = P v", "p", "v doubled", data=data)) == ["change-goes-on"]
    assert factor(changed(["F = b v^2", "P = F v"], "P", "v doubled", data=data), "P") == 8
    assert factor(changed("P = G v", "P", "v doubled", data=data), "P") == 2
    assert factor(changed("P = F v", "P", "F doubled", data=data), "P") == 2


def test_only_the_data_that_matter_are_missed() -> None:
    """v² = v_0² + 2 a x: the factor rests on v_0, a and x; but of y = m (v_0 + a), m drops out."""
    outcome = changed("y = m (v_0 + a)", "y", "a doubled", data=("a: 2 m/s",))
    assert [problem.sentence() for problem in outcome.problems] == ["v_0 has no value here"]
    assert not slugs(changed("y = m (v_0 + a)", "y", "a doubled", data=("a: 2 m/s", "v_0: 3 m/s")))


@pytest.mark.parametrize(
    ("answer", "agrees"),
    [
        ("1/4", True), ("0.25", True), ("1/4 of what it was", True), ("becomes a quarter", True),
        ("decreases by a factor of 4", True), ("decreases by 75 %", True), ("is quartered", True),
        ("decreases", True), ("becomes smaller", True), ("decreases to 1/4", True), ("decreases to 25 %", False),
        ("0.3", True), ("0.2", False), ("1/2", False), ("increases", False), ("4", False), ("doubles", False),
        ("decreases by 25 %", False), ("stays the same", False), ("0", False),
    ],
)  # fmt: skip
def test_ways_to_say_a_quarter(answer: str, agrees: bool) -> None:
    """0.25 to one place is 0.3: a factor with decimals agrees as a typed result does."""
    outcome = changed((), "F", "r doubled", answer, use="coulomb")
    assert slugs(outcome) == ([] if agrees else ["answer-disagrees"])


@pytest.mark.parametrize(
    ("answer", "agrees"),
    [("1.41", True), ("1.4", True), ("1.414", True), ("1.42", False), ("1", False), ("increases", True),
     ("increases by 41 %", True), ("increases by 41.4 %", True), ("increases by 40 %", False)],
)  # fmt: skip
def test_ways_to_say_the_root_of_two(answer: str, agrees: bool) -> None:
    outcome = changed((), "T", "L doubled", answer, use="pendulum")
    assert slugs(outcome) == ([] if agrees else ["answer-disagrees"])


def test_phrases() -> None:
    found = read_changes(text("r is doubled, Q_A × 1,5; v decreased by 2,5 %"), COMMA.decimal)
    assert [(c.name.key, c.factor) for c in found] == [
        ("r", 2), ("Q_A", Fraction(3, 2)), ("v", Fraction(39, 40)),
    ]  # fmt: skip
    assert read_factor(text("increases by 44 %"), POINT.decimal) == Said.of(Fraction(36, 25), 2)
    assert read_factor(text("stays the same"), POINT.decimal) == Said(None, 0)
    assert read_factor(text("gets weaker"), POINT.decimal) is None
