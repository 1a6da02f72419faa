"""TeX maths of trees and values, in the layout typed.

Expected strings follow LaTeX's own manual (Lamport, LaTeX: A Document Preparation System) for fractions, roots,
functions and subscripts; what is set as text and why stands in the room's docstring.
"""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from physcalc.exact import NumberStyle
from physcalc.language import tree as t
from physcalc.language.names import Name, read_name
from physcalc.language.parser import parse_expression, parse_formula
from physcalc.render import tex, tex_name, tex_text

from ..authoring import COMMA, POINT, text, work
from ..language.trees import expressions


def of(typed: str) -> str:
    return tex(parse_expression(text(typed)), POINT)


@pytest.mark.parametrize(
    ("typed", "maths"),
    [
        ("k Q_1 Q_2 / r^2", r"\frac{k Q_{1} Q_{2}}{r^{2}}"),
        ("1/2 m v^2", r"\frac{1}{2} m v^{2}"),
        ("v_0 + a t", r"v_{0} + a t"),
        ("2 a Δx", r"2 a \Delta x"),
        ("√(2 g h)", r"\sqrt{2 g h}"),
        ("√x", r"\sqrt{x}"),
        ("ε / (R + r)", r"\frac{\varepsilon}{R + r}"),
        ("I (R + r)", r"I(R + r)"),
        ("sin θ", r"\sin \theta"),
        ("sin(θ)", r"\sin(\theta)"),
        ("sin^-1(x)", r"\sin^{-1}(x)"),
        ("cos^2 θ", r"\cos^{2} \theta"),
        ("exp(-λ t)", r"\exp(-\lambda t)"),
        ("log10(x)", r"\log(x)"),
        ("|a - b|", r"\left|a - b\right|"),
        ("x^(1/2)", r"x^{1/2}"),
        ("(a/b)^2", r"\left(\frac{a}{b}\right)^{2}"),
        ("sin 30°", r"\sin 30^{\circ}"),
        ("COP", r"\mathrm{COP}"),
        ("F_net", r"F_{\text{net}}"),
        ("E_{k(max)}", r"E_{k(\text{max})}"),
        ("μ_0", r"\mu_{0}"),
        ("v_i'", r"v_{i}'"),
        ("π r^2", r"\pi r^{2}"),
        ("a × b", r"a \times b"),
        ("a/b/c", r"\frac{\frac{a}{b}}{c}"),
        ("6e-6 q", r"6 \times 10^{-6} q"),
        ("-x^2", r"-x^{2}"),
        ("(-x)^2", r"(-x)^{2}"),
    ],
)
def test_forms(typed: str, maths: str) -> None:
    assert re.sub(r"\s+", " ", of(typed)) == maths


def test_a_formula() -> None:
    formula = parse_formula(text("1/f = 1/u + 1/v"))
    assert tex(formula, POINT) == r"\frac{1}{f} = \frac{1}{u} + \frac{1}{v}"


def test_numbers_with_a_decimal_comma_or_groups_are_text() -> None:
    node = parse_expression(text("0.75"))
    assert tex(node, POINT) == "0.75"
    assert tex(node, COMMA) == r"\text{0,75}"
    assert tex(parse_expression(text("12 345")), POINT) == "\\text{12\u202f345}"
    ungrouped = replace(POINT, style=NumberStyle(decimal=".", group=False))
    assert tex(parse_expression(text("12 345")), ungrouped) == "12345"


def test_values_in_a_substitution_stand_in_brackets() -> None:
    outcome = work("T - m g = m a", "T in N", given=["m: 640 kg", "a: 0.75 m/s^2"])
    assert outcome.working is not None
    lines = [
        " = ".join(tex(side, POINT) for side in line.sides)
        for line in outcome.working.lines
        if line.audience != "guide"
    ]
    assert lines == ["T - m g = m a", "T - (640)(9.8) = (640)(0.75)", "T = \\text{6\u202f752.00}\\,\\text{N}"]


def test_a_printed_value() -> None:
    outcome = work("q = I t", "q in µC", given=["I: 3 mA", "t: 2 ms"])
    assert outcome.working is not None
    assert tex(outcome.working.answers[0].printed, POINT) == r"6.00\,\text{µC}"
    angle = work("sin(θ) = a / b", "θ", given=["a: 1 m", "b: 2 m"])
    assert angle.working is not None
    assert tex(angle.working.answers[0].printed, POINT) == r"30.00^{\circ}"


@pytest.mark.parametrize("character", list(r"\{}$&#%_^~"))
def test_what_tex_obeys_is_escaped_in_words(character: str) -> None:
    out = tex_text(f"a{character}b")
    assert out != rf"\text{{a{character}b}}"
    assert out.startswith(r"\text{a\\"[:8])


def test_names_can_not_smuggle_commands() -> None:
    for subscript in ("a&b", "a#b", "50%", "x$y"):
        assert not re.search(r"(?<!\\)[&#%$]", tex_name(Name("v", subscript)))
    name = read_name("v_{a^b~c}")
    assert name is not None
    assert not re.search(r"(?<!\\)[\^~]", tex_name(name))


@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much]
)
@given(expressions)
@pytest.mark.filterwarnings("ignore::hypothesis.errors.HypothesisWarning")
def test_braces_and_delimiters_are_balanced(node: t.Expr) -> None:
    for conventions in (POINT, COMMA):
        out = tex(node, conventions)
        depth = 0
        for brace in re.findall(r"(?<!\\)[{}]", out):
            depth += 1 if brace == "{" else -1
            assert depth >= 0
        assert depth == 0
        assert out.count(r"\left") == out.count(r"\right")
        # No command swallows a letter that follows it.
        assert not re.search(
            r"\\(alpha|beta|pi|theta|Delta|sin|cos|times|cdot)[A-Za-z]", out.replace(r"\sinh", "")
        )
