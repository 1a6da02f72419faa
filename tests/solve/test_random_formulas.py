"""Random formulas with one unknown: its value is chosen first and the data computed from it.

Solving must give that value among its roots, exactly where everything is rational, and every root must satisfy
the formula by an evaluation that shares nothing with the product (tests/walker.py, mpmath at 80 digits).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import mpmath
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from physcalc.exact import Real
from physcalc.language import tree as t
from physcalc.language.names import Name, read_name
from physcalc.language.parser import parse_formula
from physcalc.problems import Text
from physcalc.solve.single import solve_one

from ..walker import mp, number, work_out

X = Name("x")
_slow = settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
fractions = st.builds(Fraction, st.integers(1, 60), st.sampled_from([1, 2, 3, 4, 5, 8, 10]))
signed = st.builds(lambda f, s: f * s, fractions, st.sampled_from([1, 1, -1]))


@dataclass(frozen=True)
class Case:
    """A formula as text, the data, and the value of x that they were made from."""

    text: str
    data: dict[str, Fraction]
    x: Fraction
    y: mpmath.mpf
    exact_y: Fraction | None

    def equation(self) -> t.Equation:
        return parse_formula(Text(self.text))


#: Ways to build on what is there so far, {}: `k` is a new datum. The second entry: whether fractions stay fractions.
_RATIONAL = (
    "({}) + k", "k - ({})", "({}) - k", "k ({})", "({}) / k", "k / ({})", "({})^2", "({})^3", "-({})", "|{}|",
    "1/2 k ({})", "1/({}) + k", "k ({}) / 3", "({})^-1", "({})^-2", "(k + ({}))^2",
)  # fmt: skip
_OTHER = (
    "√({})", "exp(({}) / 20)", "ln({})", "log({})", "sin(({}) / 100)", "cos(({}) / 100)", "tan(({}) / 100)",
    "({})^(1/2)", "({})^0.5", "2^(({}) / 10)", "asin(({}) / 1000)", "atan({})", "10^(({}) / 20)", "({})^(1/3)",
)  # fmt: skip


@st.composite
def chains(draw: st.DrawFn, patterns: tuple[str, ...], least: int = 1) -> Case:
    """A formula in which x stands once, inside whatever was put around it."""
    text, data = "x", {}
    x = draw(signed)
    for index in range(draw(st.integers(least, 5))):
        # Magnitudes do not nest.
        pattern = draw(st.sampled_from([p for p in patterns if "|" not in p or "|" not in text]))
        name = f"k_{index}"
        if "k" in pattern:
            data[name] = draw(signed)
        text = pattern.replace("k", name).format(text)
    return _finished(text, data, x, draw(st.booleans()))


def _finished(text: str, data: dict[str, Fraction], x: Fraction, left: bool) -> Case:
    """y is what the tree comes to with x put in; the formula is y = tree or tree = y."""
    equation = parse_formula(Text(f"y = {text}"))
    values = {**{k: number(v) for k, v in data.items()}, "x": number(x)}
    try:
        assume(_one_turn(equation.right, values))
        y = work_out(equation.right, values)
        exact = _fraction(equation.right, {**data, "x": x})
    except (ZeroDivisionError, ValueError):
        assume(False)
        raise AssertionError from None
    assume(y == 0 or 1e-12 < abs(y) < 1e12)
    return Case(f"{text} = y" if left else f"y = {text}", data, x, y, exact)


def _one_turn(node: t.Expr, values: dict[str, mpmath.mpf]) -> bool:
    """Whether each angle lies where it is found again: an inverse function knows one turn only."""
    reach = {"sin": mp.pi / 2, "cos": mp.pi, "tan": mp.pi / 2}
    return all(
        abs(work_out(part.arguments[0], values)) < reach[part.function]
        for part in t.walk(node)
        if isinstance(part, t.Call) and part.function in reach
    )


def _fraction(node: t.Expr, values: dict[str, Fraction]) -> Fraction | None:
    """The value as a fraction, by Python's own arithmetic; None where it is none."""
    match node:
        case t.Num(n, ""):
            return n.value
        case t.Sym(name):
            return values[name.key]
        case t.Group(body):
            return _fraction(body, values)
        case t.Abs(body):
            inner = _fraction(body, values)
            return None if inner is None else abs(inner)
        case t.Sum(terms, signs):
            parts = [_fraction(x, values) for x in terms]
            if any(p is None for p in parts):
                return None
            return sum(
                (-p if s == "-" else p for p, s in zip(parts, signs, strict=True) if p is not None),
                Fraction(0),
            )
        case t.Product(factors, joins):
            result = Fraction(1)
            for factor, join in zip(factors, ("", *joins), strict=True):
                by = _fraction(factor, values)
                if by is None:
                    return None
                result = result / by if join == "/" else result * by
            return result
        case t.Power(base, exponent):
            below, above = _fraction(base, values), _fraction(exponent, values)
            if below is None or above is None or above.denominator != 1:
                return None
            return below ** int(above)
        case _:
            return None


def roots_of(case: Case, equation: t.Equation, y: Real) -> list[Real]:
    values = {**{_name(k): Real.of(v) for k, v in case.data.items()}, Name("y"): y}
    return [root.value for root in solve_one(equation, X, values).roots]


def _name(key: str) -> Name:
    name = read_name(key)
    assert name is not None
    return name


def satisfied(case: Case, equation: t.Equation, y: Fraction | None, root: Real) -> bool:
    """Whether both sides agree to 35 digits, or cross within 60 digits of the root (a steep formula)."""
    # A root may lie so near a pole that 80 digits tell nothing of the formula there: 100 π − 6e-65.
    with mp.workdps(260):
        return _satisfied(case, equation, y, mp.mpf(root.approximate(240)))


def _satisfied(case: Case, equation: t.Equation, y: Fraction | None, x: mpmath.mpf) -> bool:
    values = {k: number(v) for k, v in case.data.items()}
    if y is not None:
        values["y"] = number(y)

    def sides(at: mpmath.mpf) -> tuple[mpmath.mpf, mpmath.mpf]:
        return work_out(equation.left, {**values, "x": at}), work_out(equation.right, {**values, "x": at})

    try:
        left, right = sides(x)
        near = [sides(x * (1 + step * mp.mpf(10) ** -60)) for step in (-1, 1)]
    except (ValueError, ZeroDivisionError):
        # So near a pole or an edge that 240 digits can not tell.
        return True
    if abs(left - right) < max(abs(left), abs(right), 1) * mp.mpf(10) ** -35:
        return True
    gaps = [one - other for one, other in near]
    return bool((gaps[0] < 0) != (gaps[1] < 0))


def test_a_root_beside_a_pole_is_one() -> None:
    case = Case("y = sin((ln((sin((x) / 100))^-2)) / 100)", {}, Fraction(1), mp.mpf(1), None)
    equation, doubled = twice(case)
    roots = roots_of(doubled, equation, Real.of(0))
    # 100 asin(e^(−50 (π − y))) for sin y = sin of the logarithm at x = 1, by hand: about 6e-65.
    assert any(0 < abs(float(root)) < 1e-64 for root in roots)
    for root in roots:
        assert satisfied(doubled, equation, None, root)


@_slow
@given(chains(_RATIONAL))
def test_rational_formulas_give_the_chosen_value_exactly(case: Case) -> None:
    assume(case.exact_y is not None)
    assert case.exact_y is not None
    equation = case.equation()
    roots = roots_of(case, equation, Real.of(case.exact_y))
    assert case.x in [root.fraction for root in roots], case.text
    for root in roots:
        assert satisfied(case, equation, case.exact_y, root)


def twice(case: Case) -> tuple[t.Equation, Case]:
    """The same tree on both sides, once with x and once with the datum u of x's chosen value."""
    left = case.text.removesuffix(" = y").removeprefix("y = ")
    equation = parse_formula(
        Text(f"{left} = {left.replace('exp', 'EXP').replace('x', 'u').replace('EXP', 'exp')}")
    )
    return equation, Case(case.text, {**case.data, "u": case.x}, case.x, case.y, None)


@_slow
@given(chains(_RATIONAL + _OTHER))
def test_formulas_with_functions_give_the_chosen_value(case: Case) -> None:
    # At zero a root of a root shows the last of the walker's 80 digits as an error in the twentieth.
    assume(case.y != 0)
    equation, doubled = twice(case)
    roots = roots_of(doubled, equation, Real.of(0))
    assert any(root.equals(Real.of(case.x)) for root in roots), case.text
    for root in roots:
        assert satisfied(doubled, equation, None, root)


#: Formulas in which x stands more than once.
_REPEATED = (
    "a x^2 + b x", "x / (x + a)", "(a + x)^2 / x", "1/x + 1/(x + a)", "x - a / x", "a x - 1/2 b x^2",
    "a x^3 + b x", "x^3 + a x^2 + b x", "(x + a) / (x + b)", "a x / (x + b)^2", "x^2 + a x + b", "√(x + a) + x",
    "x exp(x / 20)", "x + sin(x / 100)", "a x + b √x", "x^4 + a x^2",
)  # fmt: skip


@st.composite
def repeated(draw: st.DrawFn, patterns: tuple[str, ...]) -> Case:
    text = draw(st.sampled_from(patterns))
    a, b = draw(signed), draw(signed)
    # With a = b the unknown may cancel.
    assume(a != b)
    return _finished(text, {"a": a, "b": b}, draw(signed), draw(st.booleans()))


@_slow
@given(repeated(_REPEATED[:11] + _REPEATED[15:]))
def test_a_repeated_unknown_comes_back_exactly_from_polynomials(case: Case) -> None:
    assert case.exact_y is not None
    equation = case.equation()
    roots = roots_of(case, equation, Real.of(case.exact_y))
    assert any(root.equals(Real.of(case.x)) for root in roots), case.text
    for root in roots:
        assert satisfied(case, equation, case.exact_y, root)


@_slow
@given(repeated(_REPEATED[11:15]))
def test_a_repeated_unknown_is_found_numerically(case: Case) -> None:
    # The end of a root's domain is no crossing; and a scan finds crossings, not a curve that only touches.
    assume(case.x > -case.data["a"])
    equation, doubled = twice(case)
    values = {k: number(v) for k, v in doubled.data.items()}

    def height(at: mpmath.mpf) -> mpmath.mpf:
        return work_out(equation.left, {**values, "x": at})

    x = number(case.x)
    step = min(abs(x), x + values["a"]) / 5
    rises = [height(x + step * i / 4) > height(x + step * (i - 1) / 4) for i in range(-3, 5)]
    assume(len(set(rises)) == 1)
    roots = roots_of(doubled, equation, Real.of(0))
    assert any(abs(mp.mpf(root.approximate(50)) - number(case.x)) < mp.mpf(10) ** -40 for root in roots), (
        case.text
    )
    for root in roots:
        assert satisfied(doubled, equation, None, root)
