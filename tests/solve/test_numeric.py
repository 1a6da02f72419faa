"""Formulas without a closed form, against constants published to many digits."""

from __future__ import annotations

from decimal import Decimal

import mpmath
import pytest

from physcalc.exact import Real
from physcalc.language.names import Name
from physcalc.language.parser import parse_formula
from physcalc.problems import Text
from physcalc.solve.single import solve_one


def roots(text: str, **values: int) -> list[str]:
    one = solve_one(parse_formula(Text(text)), Name("x"), {Name(k): Real.of(v) for k, v in values.items()})
    assert one.method == "numeric"
    return [mpmath.nstr(root.value.approximate(50), 35) for root in one.roots]


@pytest.mark.parametrize(
    ("text", "published"),
    [
        # OEIS A003957: the root of cos x = x.
        ("x = cos(x)", "0.73908513321516064165531208767387340401341175890076"),
        # OEIS A030178: the omega constant, x e^x = 1.
        ("x exp(x) = 1", "0.56714329040978387299996866221035554975381578718651"),
        # OEIS A094090: Wien's displacement law by wavelength, x = 5 (1 − e^−x); NIST's constant b is h c / (k x).
        ("x = 5 (1 - exp(-x))", "4.96511423174427630369875913132289394405558498679725"),
        # OEIS A194567: Wien's displacement law by frequency, x = 3 (1 − e^−x).
        ("x = 3 (1 - exp(-x))", "2.82143937212207889340319133029448519534588172735"),
    ],
)
def test_published_roots(text: str, published: str) -> None:
    found = roots(text)
    assert any(abs(Decimal(root) - Decimal(published)) < Decimal("1e-32") for root in found), found


def test_every_root_of_one_turn() -> None:
    # sin x + cos x = 1 in one turn: 0 and 90° (compound angle formula).
    found = [float(root) for root in roots("sin(x) + cos(x) = 1")]
    assert any(abs(root) < 1e-12 for root in found)
    assert any(abs(root - float(mpmath.pi / 2)) < 1e-12 for root in found)
    assert len(found) == 2


def test_a_root_that_is_a_plain_number_is_exact() -> None:
    one = solve_one(parse_formula(Text("x + √x = 6")), Name("x"), {})
    assert [root.value.fraction for root in one.roots] == [4]


def test_nothing_where_nothing_is() -> None:
    one = solve_one(parse_formula(Text("x + exp(x) = x - 1")), Name("x"), {})
    assert not one.roots
    assert one.fault


@pytest.mark.parametrize(
    ("text", "word"),
    [
        # |x| + |x − 1| is 1 all the way from 0 to 1.
        ("|x| + |x - 1| = 1", "seems to satisfy it"),
        # 2 cosh(x − 2) touches 2 at 2 alone, 2 cosh x at 0, where the places of the search lie close.
        ("exp(x - 2) + exp(2 - x) = 2", "touch near 2 without"),
        ("exp(x) + exp(-x) = 2", "touch near"),
        ("exp(x) + x^2 = -1", "a search finds no real number"),
    ],
)
def test_why_a_search_found_nothing_is_told(text: str, word: str) -> None:
    one = solve_one(parse_formula(Text(text)), Name("x"), {})
    assert one.roots == ()
    assert word in one.fault


def test_a_curve_that_touches_beside_a_root_is_told() -> None:
    """The root 5 is found; at 2 the first factor touches zero without crossing it."""
    one = solve_one(
        parse_formula(Text("x (exp(x - 2) + exp(2 - x) - 2) = 5 (exp(x - 2) + exp(2 - x) - 2)")),
        Name("x"),
        {},
    )
    assert [float(root.value) for root in one.roots] == pytest.approx([5])
    assert one.touching == pytest.approx([2], abs=1e-4)
