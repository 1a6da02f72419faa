"""TeX cut, measured and dressed for the formats that need it. No source: the rules are our own."""

from __future__ import annotations

import pytest
from physcalc_filter.editions.tex_pieces import (
    cut_at_operators,
    pieces_of,
    width,
    with_paired_brackets,
    with_raised_figures,
    with_spaced_functions,
)


@pytest.mark.parametrize(
    ("tex", "pieces"),
    [
        ("", []),
        (r"m\,a", [r"m\,a"]),
        ("a + b - c", ["a", "+", "b", "-", "c"]),
        ("-a + b", ["-a", "+", "b"]),
        (r"a \times -b", [r"a \times -b"]),
        ("a = b = c", ["a", "=", "b", "=", "c"]),
        (r"(a + b)(c - d) + e", ["(a + b)(c - d)", "+", "e"]),
        (r"\dfrac{a + b}{c - d} - e", [r"\dfrac{a + b}{c - d}", "-", "e"]),
        (r"\left|a - b\right| + c", [r"\left|a - b\right|", "+", "c"]),
        (r"\left(a - b\right) + c", [r"\left(a - b\right)", "+", "c"]),
        (r"x^{-2} \pm y", ["x^{-2}", r"\pm", "y"]),
        (r"\text{a - b} + c", [r"\text{a - b}", "+", "c"]),
    ],
)
def test_cut_at_operators(tex: str, pieces: list[str]) -> None:
    assert cut_at_operators(tex) == pieces
    assert "".join(cut_at_operators(tex)).replace(" ", "") == tex.replace(" ", "")


def test_a_long_product_is_cut_between_its_brackets_and_a_short_one_is_not() -> None:
    factor = r"(\text{123,5} + b)"
    assert pieces_of("(a)(b) - c") == ["(a)(b)", "-", "c"]
    assert pieces_of(factor * 6 + " + d") == [factor] * 6 + ["+", "d"]
    assert pieces_of(r"\dfrac{" + factor * 6 + "}{2}") == [r"\dfrac{" + factor * 6 + "}{2}"]


def test_a_fraction_is_as_wide_as_its_wider_part() -> None:
    assert width(r"\dfrac{abcdef}{x}") == width(r"\dfrac{x}{abcdef}")
    assert width(r"\dfrac{abcdef}{x}") < width("abcdefxx")


@pytest.mark.parametrize("tex", ["{" * 500, "}" * 500, r"\frac{" * 300, "\\", r"\text{", "^", "a^"])
def test_broken_tex_is_measured_and_cut_all_the_same(tex: str) -> None:
    assert width(tex) >= 0
    assert isinstance(cut_at_operators(tex), list)
    assert isinstance(with_paired_brackets(tex), str)
    assert isinstance(with_raised_figures(tex), str)


@pytest.mark.parametrize(
    ("tex", "paired"),
    [
        ("(a)^{2}", r"\left(a\right)^{2}"),
        ("((a)(b))", r"\left(\left(a\right)\left(b\right)\right)"),
        (r"\left(a\right)", r"\left(a\right)"),
        ("{(a}b)", "{(a}b)"),
        (")a(", ")a("),
        # Words are no maths: a number of an equation stays as it is, and in a word processor a whole equation with it.
        (r"\text{(1)} (a)", r"\text{(1)} \left(a\right)"),
        (r"(\text{a (b} c)", r"\left(\text{a (b} c\right)"),
    ],
)
def test_brackets_in_pairs(tex: str, paired: str) -> None:
    assert with_paired_brackets(tex) == paired


@pytest.mark.parametrize(
    ("tex", "raised"),
    [
        (r"\text{m·s⁻²}", r"\text{m·s}^{-2}"),
        (r"\text{N·m²·C⁻²}", r"\text{N·m}^{2}\text{·C}^{-2}"),
        (r"\text{3,05}\ \text{kg}", r"\text{3,05}\ \text{kg}"),
        (r"\text{s⁻¹⁰}", r"\text{s}^{-10}"),
        ("x²", "x²"),
    ],
)
def test_raised_figures_become_powers(tex: str, raised: str) -> None:
    assert with_raised_figures(tex) == raised


@pytest.mark.parametrize(
    ("tex", "spaced"),
    [
        (r"m g \cos(\theta)", r"m g\,\cos(\theta)"),
        (r"(180) \sin 12", r"(180)\,\sin \,12"),
        (r"\frac{a}{\tan \theta}", r"\frac{a}{\tan \,\theta}"),
        (r"\sin^{2} x + 1", r"\sin^{2} x + 1"),
    ],
)
def test_functions_stand_clear_of_what_they_multiply(tex: str, spaced: str) -> None:
    # The rule of TeX itself: a thin space between an operator's name and its neighbours (The TeXbook, ch. 18).
    assert with_spaced_functions(tex).replace(" ", "") == spaced.replace(" ", "")
