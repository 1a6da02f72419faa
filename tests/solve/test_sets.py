"""Sets of formulas against sympy and numpy, which solve them by their own ways."""

from __future__ import annotations

from fractions import Fraction

import numpy
import sympy
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from physcalc.exact import Real
from physcalc.language import tree as t
from physcalc.language.names import Name
from physcalc.language.parser import parse_formula
from physcalc.problems import Text
from physcalc.solve.polynomial import quadratic_roots, real_roots
from physcalc.solve.system import solve_all

_slow = settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
numbers = st.builds(Fraction, st.integers(-40, 40), st.sampled_from([1, 2, 3, 5, 8]))
positive = st.builds(Fraction, st.integers(1, 40), st.sampled_from([1, 2, 3, 5, 8]))


def formulas(*texts: str) -> tuple[t.Equation, ...]:
    return tuple(parse_formula(Text(x)) for x in texts)


def rational(value: Fraction) -> sympy.Rational:
    return sympy.Rational(value.numerator, value.denominator)


@_slow
@given(st.data(), st.integers(2, 3))
def test_linear_sets_against_sympy(data: st.DataObject, size: int) -> None:
    rows = [[data.draw(numbers) for _ in range(size)] for _ in range(size)]
    right = [data.draw(numbers) for _ in range(size)]
    unknowns = [Name("x"), Name("y"), Name("z")][:size]
    values: dict[Name, Real] = {}
    texts = []
    for i, row in enumerate(rows):
        for j, value in enumerate(row):
            values[Name("a", f"{i}{j}")] = Real.of(value)
        values[Name("b", str(i))] = Real.of(right[i])
        texts.append(" + ".join(f"a_{i}{j} {unknowns[j].base}" for j in range(size)) + f" = b_{i}")
    solved = solve_all(formulas(*texts), tuple(unknowns), values)
    symbols = sympy.symbols("x y z")[:size]
    matrix = sympy.Matrix([[rational(c) for c in row] for row in rows])
    if matrix.det() == 0:
        # Nothing to compare where there is not exactly one solution: it must not invent several.
        assert all(_holds(rows, right, s.values, unknowns) for s in solved.solutions)
        return
    expected = matrix.LUsolve(sympy.Matrix([rational(b) for b in right]))
    (solution,) = solved.solutions
    for name, value in zip(unknowns, expected, strict=True):
        assert solution.values[name].fraction == Fraction(int(value.p), int(value.q))
    assert len(symbols) == size


def _holds(
    rows: list[list[Fraction]], right: list[Fraction], values: dict[Name, Real], unknowns: list[Name]
) -> bool:
    found = [values[name].fraction for name in unknowns]
    return all(
        sum((c * x for c, x in zip(row, found, strict=True) if x is not None), Fraction(0)) == b
        for row, b in zip(rows, right, strict=True)
    )


@_slow
@given(positive, positive, numbers, numbers)
def test_an_elastic_collision(m_1: Fraction, m_2: Fraction, v_1: Fraction, v_2: Fraction) -> None:
    """Momentum and kinetic energy: the chosen velocities and their mirror image, as sympy finds them."""
    p, e = m_1 * v_1 + m_2 * v_2, (m_1 * v_1**2 + m_2 * v_2**2) / 2
    values = {Name("m", "1"): m_1, Name("m", "2"): m_2, Name("p"): p, Name("E"): e}
    solved = solve_all(
        formulas("m_1 v_1 + m_2 v_2 = p", "1/2 m_1 v_1^2 + 1/2 m_2 v_2^2 = E"),
        (Name("v", "1"), Name("v", "2")),
        {name: Real.of(value) for name, value in values.items()},
    )
    found = {(s.values[Name("v", "1")].fraction, s.values[Name("v", "2")].fraction) for s in solved.solutions}
    x, y = sympy.symbols("x y")
    expected = sympy.solve(
        [
            rational(m_1) * x + rational(m_2) * y - rational(p),
            (rational(m_1) * x**2 + rational(m_2) * y**2) / 2 - rational(e),
        ],
        [x, y],
    )
    assert found == {(Fraction(int(a.p), int(a.q)), Fraction(int(b.p), int(b.q))) for a, b in expected}
    assert (v_1, v_2) in found


@_slow
@given(numbers, positive, positive)
def test_two_bodies_on_one_cable(a: Fraction, m: Fraction, M: Fraction) -> None:  # noqa: N803
    """Chosen: masses and g = 49/5; the set gives tension and acceleration (worked by hand)."""
    g = Fraction(49, 5)
    solved = solve_all(
        formulas("T - m g = m a", "M g - T = M a"),
        (Name("T"), Name("a")),
        {Name("m"): Real.of(m), Name("M"): Real.of(M), Name("g"): Real.of(g)},
    )
    (solution,) = solved.solutions
    assert solution.values[Name("a")].fraction == (M - m) * g / (M + m)
    assert solution.values[Name("T")].fraction == 2 * m * M * g / (M + m)
    assert a is not None


@_slow
@given(positive, positive, positive)
def test_a_chain_is_followed_in_any_order(u: Fraction, a: Fraction, s: Fraction) -> None:
    texts = ["E = 1/2 m v^2", "v^2 = u^2 + 2 a s", "p = m v"]
    values = {Name("u"): u, Name("a"): a, Name("s"): s, Name("m"): Fraction(2)}
    for order in (texts, texts[::-1]):
        solved = solve_all(
            formulas(*order), (Name("E"), Name("v"), Name("p")), {n: Real.of(x) for n, x in values.items()}
        )
        assert len(solved.solutions) == 2
        assert {solution.values[Name("E")].fraction for solution in solved.solutions} == {u**2 + 2 * a * s}


@_slow
@given(st.lists(numbers, min_size=2, max_size=7))
def test_real_roots_against_numpy(coefficients: list[Fraction]) -> None:
    """Every root that numpy's companion matrix finds plainly real is found, and no more than there can be."""
    assume(coefficients[-1] != 0)
    found = [float(root) for root in real_roots(tuple(Real.of(c) for c in coefficients))]
    assert found == sorted(found)
    assert len(found) <= len(coefficients) - 1
    for root in numpy.roots([float(c) for c in reversed(coefficients)]):
        clear = abs(root.imag) < 1e-9 * max(1.0, abs(root)) and _simple(coefficients, root.real)
        if clear:
            assert min((abs(root.real - x) for x in found), default=9) < 1e-6 * max(1.0, abs(root.real))


def _simple(coefficients: list[Fraction], x: float) -> bool:
    slope = sum(k * float(c) * x ** (k - 1) for k, c in enumerate(coefficients) if k)
    size = sum(abs(k * float(c) * x ** (k - 1)) for k, c in enumerate(coefficients) if k)
    return abs(slope) > 1e-3 * size


@_slow
@given(numbers, numbers, st.integers(1, 9))
def test_quadratics_from_their_roots(r: Fraction, s: Fraction, a: int) -> None:
    found = quadratic_roots(Real.of(a), Real.of(-a * (r + s)), Real.of(a * r * s))
    assert {root.fraction for root in found} == {r, s}


def test_contradiction_and_freedom() -> None:
    two = {Name("m"): Real.of(2), Name("F"): Real.of(6)}
    contradiction = solve_all(formulas("F = m a", "F = 2 m a"), (Name("a"),), two)
    assert not contradiction.solutions
    assert "contradict" in contradiction.fault
    free = solve_all(formulas("F = m a b"), (Name("a"), Name("b")), two)
    assert not free.solutions
    assert set(free.free) == {Name("a"), Name("b")}
