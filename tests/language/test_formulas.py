"""Every form of formula that the language holds, and every refusal with its place.

The reference is the project's own description of the language; no outside source fixes these forms.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from physcalc.exact import NumberStyle
from physcalc.language import tree as t
from physcalc.language.messages import SAMPLES
from physcalc.language.names import Name
from physcalc.language.parser import MAX_LENGTH, parse_expression, parse_formula
from physcalc.language.plain import plain
from physcalc.limits import LIMITS
from physcalc.problems import Problem, Span, Text

from ..authoring import text, tidy

STYLE = NumberStyle(decimal=".")


DEPTH = LIMITS["formula-depth"].usual


def read(value: str) -> t.Expr:
    return parse_expression(text(value))


def again(value: str) -> str:
    return tidy(plain(read(value), STYLE))


def refused(value: str, formula: bool = False, decimal: str = ".") -> Problem:
    read_as: Any = parse_formula if formula else parse_expression
    with pytest.raises(Problem) as caught:
        read_as(text(value), decimal)
    return caught.value


def under(problem: Problem, value: str) -> str:
    """The characters that the picture underlines."""
    start = problem.span.column - 1
    return value[start : start + problem.span.length]


# ---- the table of messages --------------------------------------------------------------------------------


def _stop(sample: str, sentence: str) -> int:
    """Where a person would point: the place worked out by hand for the samples that do not stop at their end."""
    by_hand = {
        "F = m a)": 7, "v = 2 g) h": 7, "= m a": 0, "F = m a = 3": 8, "v == 3": 3, "v = v_0 + ) t": 10,
        "F = m * / a": 8, "v = u + * t": 8, "v = u / / t": 8, "F = m g sin / 2": 12, "m g cos = 2": 8,
        "F = m ()": 7, "v = sqrt()": 9, "F = m $ a": 6, "F = m & a": 6, 'F = "m a"': 4, "F = m_{ a": 5,
        "v_{i,x = 3": 1, "F = m_ a": 5, "F = m_": 5, "F = m_{} a": 5, "F = m _a": 6, "F = 2_a": 5,
        "v_i_x = 3": 3, "F = m__a": 5, "v = x^{2}": 6, "F = {m a}": 4, r"F = \frac{a}{b}": 4,
        r"v = \sqrt{2 g h}": 4, "F = m, a": 5, "F = m a; v = a t": 7, "* F = m a": 0, "/ F = m a": 0,
    }  # fmt: skip
    return by_hand.get(sample, len(sample))


@pytest.mark.parametrize(
    ("sentence", "sample"),
    [(sentence, sample) for sentence, samples in SAMPLES.items() for sample in samples],
)
def test_each_sample_leads_to_its_sentence(sentence: str, sample: str) -> None:
    problem = refused(sample, formula=True)
    assert problem.sentence() == sentence
    assert problem.span.column - 1 == _stop(sample, sentence)
    assert problem.slug == "formula-unreadable"


def test_the_place_is_that_of_the_source() -> None:
    with pytest.raises(Problem) as caught:
        parse_formula(Text("F = m $ a", Span("page.md", 32, 12, 9)))
    assert caught.value.span == Span("page.md", 32, 18, 1)


# ---- forms --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "shown"),
    [
        ("k Q_1 Q_2 / r^2", "k Q₁ Q₂ / r²"),
        ("v_0^2 + 2 a Δx", "v₀² + 2 a Δx"),
        ("T sin(θ)", "T sin(θ)"),
        ("1/u + 1/v", "1 / u + 1 / v"),
        ("N_0 exp(-λ t)", "N₀ exp(−λ t)"),
        ("ε / (R + r)", "ε / (R + r)"),
        ("I (R + r)", "I (R + r)"),
        ("(a+b)(c-d)", "(a + b)(c − d)"),
        ("sin θ cos φ", "sin θ cos φ"),
        ("sin theta", "sin θ"),
        ("sin^-1(x)", "sin⁻¹(x)"),
        ("arcsin(x)", "sin⁻¹(x)"),
        ("sin⁻¹ x", "sin⁻¹ x"),
        ("sin^2 θ", "sin² θ"),
        ("sin² θ", "sin² θ"),
        ("√x", "√x"),
        ("√(2 g h)", "√(2 g h)"),
        ("sqrt(2 g h)", "√(2 g h)"),
        ("atan2(a_y; a_x)", "atan2(a_y; a_x)"),
        ("|F_1 - F_2|", "|F₁ − F₂|"),
        ("|Q_1| |Q_2|", "|Q₁| |Q₂|"),
        ("x^-2", "x⁻²"),
        ("x⁻²", "x⁻²"),
        ("x^(1/2)", "x^(1/2)"),
        ("x^n", "x^n"),
        ("2^3^2", "2^(3²)"),
        ("mu_0 I / (2 pi r)", "μ₀ I / (2 π r)"),
        ("E_{k(max)}", "E_{k(max)}"),
        ("Delta_x", "Δx"),
        ("∆ x", "Δx"),
        ("v_i'", "v_i′"),
        ("3x", "3 x"),
        ("6e-6 q", "6 × 10⁻⁶ q"),
        ("90° - θ", "90° − θ"),
        ("sin 30 deg", "sin 30°"),
        ("sin(0.5 rad)", "sin(0.5 rad)"),
        ("log10(I / I_0)", "log(I / I₀)"),
        ("a × b", "a × b"),
        ("a ÷ b", "a / b"),
        ("−a", "−a"),
        ("1 200 m", "1 200 m"),
    ],
)
def test_forms_are_printed_as_typed(typed: str, shown: str) -> None:
    assert again(typed) == shown


def test_all_operators_bind_equally_left_to_right() -> None:
    half = read("1/2 m v^2")
    assert isinstance(half, t.Product)
    assert half.joins == ("/", "", "")
    assert again("a/b/c") == "a / b / c"


def test_powers_bind_right_to_left() -> None:
    node = read("2^3^2")
    assert isinstance(node, t.Power)
    assert isinstance(node.exponent, t.Power)


def test_minus_stands_before_the_power() -> None:
    node = read("-x^2")
    assert isinstance(node, t.Sum)
    assert node.signs == ("-",)
    assert isinstance(node.terms[0], t.Power)


def test_a_bare_function_takes_one_name_or_number() -> None:
    node = read("sin x y")
    assert isinstance(node, t.Product)
    assert [type(f) for f in node.factors] == [t.Call, t.Sym]
    power = read("cos x^2")
    assert isinstance(power, t.Power)


def test_only_listed_functions_take_brackets() -> None:
    node = read("f(x + 1)")
    assert isinstance(node, t.Product)
    node = read("tan(x)")
    assert isinstance(node, t.Call)


def test_one_spelling_for_every_spelling_of_a_name() -> None:
    for spelling in ("theta_1", "θ_1", "θ₁", "θ_{1}", "ϑ_1"):
        node = read(spelling)
        assert isinstance(node, t.Sym)
        assert node.name == Name("θ", "1")


def test_pi_stands_alone() -> None:
    assert isinstance(read("π"), t.Pi)
    assert isinstance(read("pi"), t.Pi)
    node = read("πr")
    assert isinstance(node, t.Sym)


def test_numbers_are_kept_exactly_with_their_digits() -> None:
    node = read("0,750")
    assert isinstance(node, t.Num)
    assert (node.number.value, node.number.digits) == (Fraction(3, 4), "0.750")
    node = read("12 345")
    assert isinstance(node, t.Num)
    assert node.number.value == 12345


def test_every_part_knows_its_place() -> None:
    formula = parse_formula(Text("T - m g = m a", Span("page.md", 7, 10, 13)))
    assert formula.span == Span("page.md", 7, 10, 13)
    assert isinstance(formula.left, t.Sum)
    assert formula.left.terms[1].span == Span("page.md", 7, 14, 3)
    assert formula.right.span == Span("page.md", 7, 20, 3)


# ---- refusals ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "marked", "first", "second"),
    [
        ("h / 2 π", "h / 2 π", "h / (2 π)", "(h / 2) π"),
        ("V / R r", "V / R r", "V / (R r)", "(V / R) r"),
        ("a b / c d", "a b / c d", "a b / (c d)", "(a b / c) d"),
        ("p + h/2*λ", "h/2*λ", "h / (2 λ)", "(h / 2) λ"),
        ("x / sin(θ) y", "x / sin(θ) y", "x / (sin(θ) y)", "(x / sin(θ)) y"),
        ("1/2/3 x", "1/2/3 x", "1/2 / (3 x)", "(1/2 / 3) x"),
    ],
)
def test_a_division_of_several_factors_is_refused_with_both_readings(
    typed: str, marked: str, first: str, second: str
) -> None:
    problem = refused(typed)
    assert problem.slug == "division-ambiguous"
    assert under(problem, typed) == marked
    assert problem.mend() == f"write {first} or {second}"


@pytest.mark.parametrize(
    "typed", ["1/2 m v^2", "3/4 π r^3", "1/(4 π ε_0) Q_1 Q_2 / r^2", "a / (b c) d", "x/2/3", "a / b"]
)
def test_a_division_that_is_clear_is_taken(typed: str) -> None:
    assert isinstance(read(typed), t.Product)


@pytest.mark.parametrize(
    ("typed", "marked"),
    [("3 4 x", "3 4"), ("F + 0.123 45 m", "0.123 45"), ("1234 567 a", "1234 567"), ("10° 5", "10° 5")],
)
def test_two_numbers_side_by_side_are_refused(typed: str, marked: str) -> None:
    problem = refused(typed)
    assert problem.slug == "formula-unreadable"
    assert under(problem, typed) == marked
    assert "side by side" in problem.sentence()


def test_a_thousands_mark_is_refused_with_both_readings() -> None:
    problem = refused("1,000 x")
    assert (problem.slug, under(problem, "1,000 x")) == ("number-ambiguous", "1,000")
    assert refused("1.000 x", decimal=",").slug == "number-ambiguous"
    assert isinstance(parse_expression(text("1,000 x"), ","), t.Product)


def test_a_sign_left_open_is_for_sheets() -> None:
    problem = refused("f (v ± v_L) / (v ∓ v_s)")
    assert under(problem, "f (v ± v_L) / (v ∓ v_s)") == "±"
    node = parse_formula(text("f_L = f_s (v ± v_L) / (v ∓ v_s)"), sheet=True)
    assert isinstance(node, t.Equation)


@pytest.mark.parametrize("typed", ["sqrt^2(x)", "asin^2(x)", "sin^0.5 x"])
def test_a_power_that_would_be_misread_before_its_bracket(typed: str) -> None:
    problem = refused(typed)
    assert "before its bracket" in problem.sentence()


def test_two_arguments() -> None:
    assert "takes 2 values" in refused("atan2(1,2)").sentence()
    assert "semicolon" in refused("atan2(1,2)").mend()
    assert "takes 1 value" in refused("sin(a; b)").sentence()


@pytest.mark.parametrize("typed", ["", "   ", "\u00a0"])
def test_nothing_is_no_formula(typed: str) -> None:
    assert refused(typed, formula=True).sentence() == "a formula is missing here"


# ---- limits --------------------------------------------------------------------------------------------------


def test_length() -> None:
    fits = "a" + " + a" * ((MAX_LENGTH - 1) // 4)
    assert isinstance(read(fits), t.Sum)
    assert "too long" in refused(fits + " + a" * 2).sentence()


def test_depth() -> None:
    assert read("(" * DEPTH + "a" + ")" * DEPTH)
    assert "too deeply" in refused("(" * (DEPTH + 1) + "a" + ")" * (DEPTH + 1)).sentence()
    assert "too deeply" in refused("^".join(["9"] * (DEPTH + 2))).sentence()


@pytest.mark.parametrize("typed", ["9" * 101, "1e401", "x + 0." + "3" * 101, "6e-99999999999999999999"])
def test_long_numbers(typed: str) -> None:
    assert refused(typed).slug == "number-too-long"
