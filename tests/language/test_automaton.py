"""The tables that read formulas against lark itself, which reads the grammar: the same texts, the same trees."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from lark import Token as LarkToken
from lark import Tree
from lark.exceptions import UnexpectedInput

import physcalc
from physcalc.language.automaton import TABLES, Node, TextRefused, Token, parse
from physcalc.language.lark_parser import STARTS, grammar_digest, lark_parser, tables

ROOT = Path(physcalc.__file__).resolve().parent.parent

#: Pieces of formulas, good and bad, of which texts are put together.
PIECES = (
    "x", "F_net", "v_0", "θ", "theta_1", "Δx", "Delta_x", "m", "a'", "T₂", "v_{k(max)}", "F.x", "ℓ", "Ω", "µ",
    "2", "0.5", "1 000", "1,000", "6e-6", "6e", "3.", ".5", "1 0000", "12°", "30 deg", "2 rad", "radius", "degree",
    "π", "pi", "pie", "sin", "sin²", "sin^2", "sin⁻¹", "sin^-1", "cosh", "arctan", "atan2", "log10", "log", "ln", "abs",
    "sqrt", "√", "exp", "(", ")", "|", "⟨", "⟩", "^", "²", "⁻¹", "⁺³", "⁻", "+", "-", "−", "±", "∓", "*", "·", "⋅",
    "×", "/", "÷", "∙", "=", ";", ",", " ", "\u00a0", "\u2009", "\t", "\n", "{", "}", "[", "_", "@", "٣", "é", "",
)  # fmt: skip


def plain(node: Tree[LarkToken] | LarkToken) -> object:
    """lark's tree as nested tuples."""
    if isinstance(node, LarkToken):
        return (node.type, str(node), node.start_pos, node.end_pos)
    return (str(node.data), [plain(child) for child in node.children], node.meta.start_pos, node.meta.end_pos)


def own(node: Node | Token) -> object:
    """Ours."""
    if isinstance(node, Token):
        return (node.type, node.text, node.start, node.end)
    return (node.rule, [own(child) for child in node.children], node.start, node.end)


def compare(text: str, start: str) -> bool:
    """Both read a text in the same way; whether they read it at all."""
    try:
        expected = plain(lark_parser(start).parse(text))
    except UnexpectedInput:
        with pytest.raises(TextRefused):
            parse(text, start)
        return False
    assert own(parse(text, start)) == expected
    return True


@settings(max_examples=1500, deadline=None)
@given(pieces=st.lists(st.sampled_from(PIECES), max_size=14), start=st.sampled_from(STARTS))
@example(["x", "=", "y"], "equation")
@example(["x", "=", "y"], "expression")
@example([], "equation")
def test_pieces_put_together_are_read_alike(pieces: list[str], start: str) -> None:
    compare("".join(pieces), start)


names = st.sampled_from(["x", "F_net", "θ", "Δx", "m_1", "v'", "2", "0,5", "1 000", "30°", "π"])
formulas = st.recursive(
    names,
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from([" ", "*", "·", " / ", " + ", "-", "±"]), inner).map("".join),
        inner.map("({})".format),
        inner.map("⟨{}⟩".format),
        st.tuples(st.sampled_from(["sin", "sin² ", "ln", "√", "cos^-1 ", "log10"]), inner).map(
            lambda pair: f"{pair[0]}({pair[1]})"
        ),
        st.tuples(st.sampled_from(["sin ", "√", "tan² "]), names).map("".join),
        st.tuples(inner, st.sampled_from(["^2", "²", "^-1", "⁻²", "^n"])).map("".join),
        st.tuples(inner, inner).map(lambda pair: f"atan2({pair[0]}; {pair[1]})"),
    ),
    max_leaves=12,
)


@settings(max_examples=500, deadline=None)
@given(left=formulas, right=formulas)
def test_formulas_are_read_alike(left: str, right: str) -> None:
    compare(left, "expression")
    compare(f"{left} = {right}", "equation")


def test_formulas_of_the_repository_are_read_alike() -> None:
    """Every line with a formula in the documents, the sheets and the tests."""
    paths = [*ROOT.glob("example_docs/*.md"), *ROOT.glob("physcalc/sheets/builtin/*.yaml")]
    paths += [*ROOT.glob("tests/cases/*.yaml"), *ROOT.glob("tests/**/*.md")]
    texts = {
        found[1].strip().strip("\"'")
        for path in paths
        for found in re.finditer(
            r"^\s*(?:- |formulas?: |form: |f: )(.*=.*)$", path.read_text(encoding="utf-8"), re.MULTILINE
        )
    }
    read = [compare(text, "equation") for text in texts]
    sides = [compare(side, "expression") for text in texts for side in text.split("=")]
    assert sum(read) > 200
    assert sum(sides) > 400


def test_the_tables_are_those_of_the_grammar() -> None:
    """After a change of the grammar: python -m physcalc.language.lark_parser."""
    held = json.loads(TABLES.read_text(encoding="utf-8"))
    assert held["grammar"] == grammar_digest()
    made = tables()
    for start in STARTS:
        for part in ("terminals", "ignored", "rules"):
            assert held["starts"][start][part] == made["starts"][start][part]
        # Another version of lark may number the states otherwise; what they do is compared above.
        assert len(held["starts"][start]["states"]) == len(made["starts"][start]["states"])
