"""Quantities, find, use, take and accept: every form of the language, and every refusal with its place."""

from __future__ import annotations

from fractions import Fraction

import pytest

from physcalc.exact import Form
from physcalc.language import tree as t
from physcalc.language.names import GREEK, Name, read_name
from physcalc.language.phrases import read_accept, read_find, read_take, read_use
from physcalc.language.quantities import Formed, Reference, Typed, read_given_name, read_quantity
from physcalc.problems import Problem

from ..authoring import text

DEFAULT = Form("places", 2, None)


def refused(reader: object, value: str, *more: object) -> tuple[str, str]:
    """The slug and the underlined characters."""
    with pytest.raises(Problem) as caught:
        reader(text(value), *more)  # type: ignore[operator]
    start = caught.value.span.column - 1
    assert caught.value.mend() or caught.value.sentence()
    return caught.value.slug, value[start : start + caught.value.span.length]


# ---- names ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "name"),
    [
        ("m", Name("m")),
        ("COP", Name("COP")),
        ("Q_A", Name("Q", "A")),
        ("F_net", Name("F", "net")),
        ("F_{net}", Name("F", "net")),
        ("E_{k(max)}", Name("E", "k(max)")),
        ("v_{i,x}", Name("v", "i,x")),
        ("Δx", Name("x", delta=True)),
        ("Δ x", Name("x", delta=True)),
        ("Delta_x", Name("x", delta=True)),
        ("∆t", Name("t", delta=True)),
        ("ΔE_k", Name("E", "k", True)),
        ("v'", Name("v", primes=1)),
        ("v_0''", Name("v", "0", False, 2)),
        ("theta", Name("θ")),
        ("theta_1", Name("θ", "1")),
        ("x_theta", Name("x", "θ")),
        ("µ", Name("μ")),
        ("Ω_1", Name("Ω", "1")),
        ("v₁₂", Name("v", "12")),
        ("Δ₁", Name("Δ", "1")),
        ("Delta_1", Name("Δ", "1")),
    ],
)
def test_names(typed: str, name: Name) -> None:
    assert read_name(typed) == name
    assert read_name(name.key) == name


@pytest.mark.parametrize(
    "typed", ["", "2m", "m 2", "_x", "x_", "x_{}", "x_{ }", "x_y_z", "a+b", "x_{a}b", "m''''", "x" * 90]
)
def test_not_a_name(typed: str) -> None:
    assert read_name(typed) is None
    if typed:
        assert refused(read_given_name, typed) == ("name-unreadable", typed)


def test_every_greek_letter_by_name() -> None:
    for word, letter in GREEK.items():
        assert read_name(word) == Name(letter)
        assert read_name(f"{word}_1") == Name(letter, "1")


# ---- quantities ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "value", "unit"),
    [
        ("6752 N", Fraction(6752), "N"),
        ("6 752 N", Fraction(6752), "N"),
        ("6\u202f752 N", Fraction(6752), "N"),
        ("0.15 m", Fraction(3, 20), "m"),
        ("0,15 m", Fraction(3, 20), "m"),
        ("6e-6 C", Fraction(6, 10**6), "C"),
        ("6 × 10^-6 C", Fraction(6, 10**6), "C"),
        ("6*10^-6 C", Fraction(6, 10**6), "C"),
        ("6 × 10⁻⁶ C", Fraction(6, 10**6), "C"),
        ("1/3 m", Fraction(1, 3), "m"),
        ("−4.17 uC", Fraction(-417, 100), "µC"),
        ("5 N/C", Fraction(5), "N·C⁻¹"),
        ("5 N.C-1", Fraction(5), "N·C⁻¹"),
        ("36 km/h", Fraction(36), "km·h⁻¹"),
        ("25 degC", Fraction(25), "°C"),
        ("30 deg", Fraction(30), "°"),
        ("30°", Fraction(30), "°"),
        ("10 %", Fraction(10), "%"),
        ("640", Fraction(640), ""),
    ],
)
def test_a_number_with_its_unit(typed: str, value: Fraction, unit: str) -> None:
    read = read_quantity(text(typed), ".")
    assert isinstance(read, Typed)
    assert (read.number.value, read.unit.text(), read.direction) == (value, unit, None)


def test_direction_after_a_comma() -> None:
    read = read_quantity(text("4 m/s, to the left"), ".")
    assert isinstance(read, Typed)
    assert read.direction is not None
    assert read.direction.value == "to the left"
    assert (read.direction.span.column, read.direction.span.length) == (8, 11)
    read = read_quantity(text("0,5 m/s, left"), ",")
    assert isinstance(read, Typed)
    assert read.number.value == Fraction(1, 2)
    read = read_quantity(text("g, down"), ".")
    assert isinstance(read, Formed)
    assert read.direction is not None


def test_references() -> None:
    assert read_quantity(text("T from lift-tension"), ".") == Reference(
        Name("T"), "lift-tension", False, text("T from lift-tension").span
    )
    one = read_quantity(text("from lift"), ".")
    assert isinstance(one, Reference)
    assert (one.name, one.target, one.shown) == (None, "lift", False)
    two = read_quantity(text("T from lift shown"), ".")
    assert isinstance(two, Reference)
    assert two.shown


@pytest.mark.parametrize("typed", ["2*r", "r", "r_1 + r_2", "(1 + z) λ", "4 ρ L / A", "0.6 c", "d/2", "2r"])
def test_expressions(typed: str) -> None:
    read = read_quantity(text(typed), ".")
    assert isinstance(read, Formed)
    assert t.names_in(read.expression)


def test_a_solidus_that_may_begin_a_unit() -> None:
    read = read_quantity(text("0.02 /s"), ".")
    assert isinstance(read, Formed)
    assert read.as_typed is not None
    assert read.as_typed.unit.text() == "s⁻¹"
    assert read.as_typed.number.value == Fraction(1, 50)


@pytest.mark.parametrize(
    ("typed", "slug", "marked"),
    [
        ("about 3 kg", "quantity-unreadable", "about 3 kg"),
        ("very heavy indeed", "quantity-unreadable", "very heavy indeed"),
        ("1,000 m", "number-ambiguous", "1,000"),
        ("5 ms-1", "unit-ambiguous", "ms-1"),
        ("400 J/kg K", "unit-ambiguous", "J/kg K"),
        ("3 m, 4", "unit-unreadable", ","),
        ("3 4 kg", "unit-unreadable", "4"),
        ("6 752.5.5 kg", "unit-unreadable", None),
    ],
)
def test_quantities_refused(typed: str, slug: str, marked: str | None) -> None:
    found = refused(read_quantity, typed, ".")
    assert found[0] == slug
    if marked is not None:
        assert found[1] == marked


def test_the_decimal_sign_of_the_document_settles_it() -> None:
    read = read_quantity(text("1,000 m"), ",")
    assert isinstance(read, Typed)
    assert read.number.value == 1
    assert refused(read_quantity, "1.000 m", ",")[0] == "number-ambiguous"


def test_a_misspelt_unit_is_kept_as_the_likelier_problem() -> None:
    read = read_quantity(text("640 kgs"), ".")
    assert isinstance(read, Formed)
    assert read.as_unit is not None
    assert read.as_unit.slug == "unit-unknown"


# ---- find ----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("typed", "name", "unit", "form", "direction"),
    [
        ("T", "T", None, None, False),
        ("q_B in µC", "q_B", "µC", None, False),
        ("q_B in µC to 2 dp", "q_B", "µC", Form("places", 2, None), False),
        ("t to 3 sf", "t", None, Form("figures", 3, None), False),
        ("F in standard form", "F", None, Form("places", 2, True), False),
        ("F in N in standard form to 3 sf", "F", "N", Form("figures", 3, True), False),
        ("v with direction", "v", None, None, True),
        ("v in m/s to 1 dp with direction", "v", "m·s⁻¹", Form("places", 1, None), True),
        ("E_{k(max)} in kg m^2 / s^2 to 0 dp", "E_{k(max)}", "kg·m²·s⁻²", Form("places", 0, None), False),
        ("x to 2 decimal places", "x", None, Form("places", 2, None), False),
        ("x to 1 significant figure", "x", None, Form("figures", 1, None), False),
    ],
)
def test_find(typed: str, name: str, unit: str | None, form: Form | None, direction: bool) -> None:
    read = read_find(text(typed), DEFAULT)
    assert read.name.key == name
    assert (read.unit.text() if read.unit else None) == unit
    assert (read.form, read.with_direction) == (form, direction)


@pytest.mark.parametrize(
    ("typed", "slug", "marked"),
    [
        ("T as N", "phrase-unreadable", "as N"),
        ("T in", "phrase-unreadable", "in"),
        ("2T", "phrase-unreadable", "2T"),
        ("T in N to 31 dp", "phrase-unreadable", "31"),
        ("T to 0 sf", "phrase-unreadable", "0"),
        ("T in kgs", "unit-unknown", "kgs"),
        ("T in N to 2 dp please", "phrase-unreadable", "please"),
    ],
)
def test_find_refused(typed: str, slug: str, marked: str) -> None:
    assert refused(read_find, typed, DEFAULT) == (slug, marked)


# ---- use, take, accept -----------------------------------------------------------------------------------------


def test_use() -> None:
    assert read_use(text("coulomb"), ".").replaced == ()
    use = read_use(text("coulomb (Q_1 = q_A, Q_2 = 2 q_B)"), ".")
    assert use.slug == "coulomb"
    assert [(name.key, type(tree)) for name, tree, _ in use.replaced] == [("Q_1", t.Sym), ("Q_2", t.Product)]
    assert use.replaced[1][2].column == 21
    nested = read_use(text("law (x_{i,x} = atan2(y; x), m = 0,5)"), ".")
    assert [name.key for name, _, _ in nested.replaced] == ["x_{i,x}", "m"]


@pytest.mark.parametrize(
    ("typed", "slug", "marked"),
    [
        ("cou/lomb", "phrase-unreadable", "cou/lomb"),
        ("coulomb(Q_1)", "phrase-unreadable", "Q_1"),
        ("coulomb (Q_1 = q_A, 2 = q_B)", "phrase-unreadable", "2 = q_B"),
    ],
)
def test_use_refused(typed: str, slug: str, marked: str) -> None:
    assert refused(read_use, typed, ".") == (slug, marked)


def test_take() -> None:
    for word in ("positive", "negative", "largest", "smallest"):
        assert read_take(text(word), ".").kind == word
    for sign, kind in ((">", ">"), ("<", "<"), (">=", "≥"), ("<=", "≤"), ("≥", "≥"), ("≤", "≤")):
        take = read_take(text(f"t {sign} 2 s"), ".")
        assert (take.kind, take.name) == (kind, Name("t"))
        assert take.bound is not None
        assert take.bound.number.value == 2
    for wrong in ("big", "t", "t > x", "> 2 s", "t = 2 s"):
        assert refused(read_take, wrong, ".") == ("phrase-unreadable", wrong)


@pytest.mark.parametrize(
    ("typed", "kind", "low", "high", "unit"),
    [
        ("2 %", "percent", Fraction(2), Fraction(2), ""),
        ("± 0.02 µC", "plus-minus", Fraction(1, 50), Fraction(1, 50), "µC"),
        ("0.70 to 0.74 µC", "range", Fraction(7, 10), Fraction(37, 50), "µC"),
        ("0.70 µC to 0.74 µC", "range", Fraction(7, 10), Fraction(37, 50), "µC"),
    ],
)
def test_accept(typed: str, kind: str, low: Fraction, high: Fraction, unit: str) -> None:
    accept = read_accept(text(typed), ".")
    assert (accept.kind, accept.low, accept.high, accept.unit.text()) == (kind, low, high, unit)


@pytest.mark.parametrize("typed", ["0.02 µC", "2", "0.70 mC to 0.74 µC", "to 3", "±"])
def test_accept_refused(typed: str) -> None:
    assert refused(read_accept, typed, ".")[0] == "phrase-unreadable"
