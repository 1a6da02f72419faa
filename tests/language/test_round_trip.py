"""What is printed as plain text reads back as the same tree: the layout typed is the layout printed."""

from __future__ import annotations

import re
import string
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from physcalc.exact import Form, NumberStyle
from physcalc.language import tree as t
from physcalc.language.directions import read_axis
from physcalc.language.parser import MAX_LENGTH, parse_expression, parse_formula
from physcalc.language.phrases import read_accept, read_find, read_take, read_use
from physcalc.language.plain import plain
from physcalc.language.quantities import read_quantity
from physcalc.problems import Problem, Text

from .trees import expressions, without_places

STYLE = NumberStyle(decimal=".")
# Hypothesis finds the trees too long to print in its own reports.
pytestmark = pytest.mark.filterwarnings("ignore::hypothesis.errors.HypothesisWarning")
_slow = settings(
    max_examples=150,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)


def _fits(text: str) -> bool:
    return len(text) <= MAX_LENGTH and text.count("^") < 30


@_slow
@given(expressions)
def test_a_printed_tree_reads_back_as_itself(node: t.Expr) -> None:
    text = plain(node, STYLE)
    assume(_fits(text))
    assert without_places(parse_expression(Text(text))) == without_places(node), text


@_slow
@given(expressions, expressions)
def test_a_printed_formula_reads_back_as_itself(left: t.Expr, right: t.Expr) -> None:
    text = plain(t.Equation(left, right), STYLE)
    assume(_fits(text))
    read = parse_formula(Text(text))
    assert (without_places(read.left), without_places(read.right)) == (
        without_places(left),
        without_places(right),
    )


@_slow
@given(expressions)
def test_printing_is_stable(node: t.Expr) -> None:
    text = plain(node, STYLE)
    assume(_fits(text))
    assert plain(parse_expression(Text(text)), STYLE) == text


_JUNK = st.text(
    st.one_of(
        st.sampled_from(string.printable),
        st.sampled_from("()[]{}|=+-−*/·×^²³⁻¹√±∓_°′'µΔθπ,.;%\u00a0\u202f∆⟨⟩…“”"),
        st.characters(),
    ),
    max_size=60,
)
_WORDY = st.lists(
    st.sampled_from(
        [
            "F", "m", "a", "sin", "cos", "√", "(", ")", "|", "=", "+", "-", "*", "/", "^", "²", "2", "1/2", "6e-6",
            "°", "rad", "deg", "_", "_{", "}", "Δ", "Δ ", "π", "pi", "sin^-1", "in", "to", "dp", "from", "kg", "m/s",
            ",", " ", "10^-6", "1,000", "%", "±", "e", "9" * 30, "take", "positive", ">", "at", "N",
        ]
    ),
    max_size=25,
).map(" ".join)  # fmt: skip


def refusal(reader: Callable[[], object]) -> Problem | None:
    """The problem that comes out; anything else that is raised is a fault."""
    try:
        reader()
    except Problem as problem:
        return problem
    return None


@_slow
@given(st.one_of(_JUNK, _WORDY, _WORDY.map(lambda s: s.replace(" ", ""))), st.sampled_from([".", ","]))
def test_whatever_is_typed_is_read_or_refused(junk: str, decimal: str) -> None:
    """Nothing but a Problem comes out, whatever goes in, and its place lies at the text."""
    text = Text(junk)
    for reader in (
        lambda: parse_formula(text, decimal),
        lambda: parse_formula(text, decimal, sheet=True),
        lambda: parse_expression(text, decimal),
        lambda: read_quantity(text, decimal),
        lambda: read_find(text, Form("places", 2, None)),
        lambda: read_use(text, decimal),
        lambda: read_take(text, decimal),
        lambda: read_accept(text, decimal),
        lambda: read_axis(text),
    ):
        problem = refusal(reader)
        if problem is not None:
            assert problem.sentence()
            assert problem.mend() is not None
            assert 1 <= problem.span.column <= len(junk) + 1
            # Never the name of a terminal of the grammar.
            assert not re.search("__|[A-Z]{4,}", re.sub('".*"', "", problem.sentence(), flags=re.DOTALL))
