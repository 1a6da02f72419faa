"""No wrong digit: printed answers against closed forms worked out apart at 80 digits and rounded with `decimal`.

The closed forms are textbook rearrangements written here by hand; the product solves the formula as typed.
Set PHYSCALC_EXAMPLES to run more cases than the suite's few hundred.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

import mpmath
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from physcalc.exact import Numeral

from ..authoring import POINT, work
from ..walker import mp, number, rounded_figures, rounded_places

Numbers = Mapping[str, mpmath.mpf]


@dataclass(frozen=True)
class Template:
    """A formula as typed, its data with the units they are given in, and the answer in the unit asked."""

    formula: str | tuple[str, ...]
    find: str
    given: dict[str, str]
    answer: Callable[[Numbers], mpmath.mpf]
    take: str = ""


_DEGREE = mp.pi / 180

TEMPLATES = (
    Template("x = a / b", "x", {"a": "", "b": ""}, lambda d: d["a"] / d["b"]),
    Template("x = a / 8 + b / 32", "x", {"a": "", "b": ""}, lambda d: d["a"] / 8 + d["b"] / 32),
    Template("T - m γ = m a", "T in N", {"m": "kg", "a": "m/s^2", "γ": "m/s^2"}, lambda d: d["m"] * (d["a"] + d["γ"])),
    Template("v^2 = u^2 + 2 a Δx", "v in m/s", {"u": "m/s", "a": "m/s^2", "Δx": "m"},
             lambda d: mp.sqrt(d["u"] ** 2 + 2 * d["a"] * d["Δx"])),
    Template("F = K q_1 q_2 / r^2", "F in N", {"K": "N m^2/C^2", "q_1": "µC", "q_2": "nC", "r": "cm"},
             lambda d: d["K"] * d["q_1"] * d["q_2"] * mp.mpf(10) ** -15 / (d["r"] / 100) ** 2),
    Template("1/f = 1/u + 1/w", "w in cm", {"f": "cm", "u": "cm"}, lambda d: 1 / (1 / d["f"] - 1 / d["u"])),
    Template("N = N_0 exp(-λ t)", "N", {"N_0": "", "λ": "1/min", "t": "s"},
             lambda d: d["N_0"] * mp.exp(-d["λ"] * d["t"] / 60)),
    Template("N = N_0 exp(-λ t)", "t in h", {"N_0": "", "λ": "s^-1", "N": ""},
             lambda d: mp.log(d["N_0"] / d["N"]) / d["λ"] / 3600),
    Template("E = 1/2 m v^2", "E in kJ", {"m": "g", "v": "km/h"},
             lambda d: d["m"] / 1000 * (d["v"] / mp.mpf("3.6")) ** 2 / 2000),
    Template("n_1 sin(θ_1) = n_2 sin(θ_2)", "θ_2 in °", {"n_1": "", "n_2": "", "θ_1": "°"},
             lambda d: mp.asin(d["n_1"] * mp.sin(d["θ_1"] * _DEGREE) / d["n_2"]) / _DEGREE),
    Template("s = u t + 1/2 a t^2", "t in s", {"s": "m", "u": "m/s", "a": "m/s^2"},
             lambda d: (-d["u"] + mp.sqrt(d["u"] ** 2 + 2 * d["a"] * d["s"])) / d["a"], "positive"),
    Template("P = 2 π √(L / γ)", "P in ms", {"L": "mm", "γ": "m/s^2"},
             lambda d: 2000 * mp.pi * mp.sqrt(d["L"] / 1000 / d["γ"])),
    Template("E_k = h c / λ - W", "E_k in eV", {"h": "J s", "c": "m/s", "λ": "nm", "W": "eV"},
             lambda d: d["h"] * d["c"] / (d["λ"] * mp.mpf("1e-9")) / mp.mpf("1.602176634e-19") - d["W"]),
    Template("p V = n R T", "T in °C", {"p": "kPa", "V": "L", "n": "mol", "R": "J/(K mol)"},
             lambda d: d["p"] * d["V"] / (d["n"] * d["R"]) - mp.mpf("273.15")),
    Template("V_s = A l", "l in cm", {"V_s": "mL", "A": "mm^2"}, lambda d: d["V_s"] / (d["A"] / 100)),
    Template(("m_1 v_1 + m_2 v_2 = p", "v_1 - v_2 = w"), "v_1 in m/s",
             {"m_1": "kg", "m_2": "kg", "p": "kg m/s", "w": "m/s"},
             lambda d: (d["p"] + d["m_2"] * d["w"]) / (d["m_1"] + d["m_2"])),
    Template("x = ρ cos(θ)", "x in m", {"ρ": "cm", "θ": "°"}, lambda d: d["ρ"] / 100 * mp.cos(d["θ"] * _DEGREE)),
    Template("β = 10 log(I / I_0)", "β", {"I": "W/m^2", "I_0": "W/m^2"}, lambda d: 10 * mp.log10(d["I"] / d["I_0"])),
    Template("F = G M m / r^2", "r in km", {"G": "N m^2/kg^2", "M": "kg", "m": "kg", "F": "N"},
             lambda d: mp.sqrt(d["G"] * d["M"] * d["m"] / d["F"]) / 1000),
)  # fmt: skip


@st.composite
def typed_numbers(draw: st.DrawFn) -> str:
    """A positive number as authors type it: few digits, now and then a power of ten or a tie in the making."""
    coefficient = draw(st.integers(1, 9999))
    places = draw(st.integers(0, 3))
    digits = str(coefficient).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}" if places else digits
    exponent = draw(st.sampled_from([0, 0, 0, 0, -3, 3, 6, -6, 12]))
    # One digit leads a number in standard form, so that it can not be taken for thousands.
    return f"{text} × 10^{exponent}" if exponent and len(text.split(".")[0]) == 1 else text


def _value(text: str) -> mpmath.mpf:
    leading, _, power = text.partition(" × 10^")
    return number(Fraction(leading) * Fraction(10) ** int(power or 0))


def printed_decimal(numeral: Numeral) -> Decimal:
    digits = Decimal(f"{numeral.whole}.{numeral.part or '0'}")
    return digits.scaleb(numeral.exponent or 0) * (-1 if numeral.negative else 1)


def _check(template: Template, typed: dict[str, str], form: str, rule: str) -> None:
    values = {name: _value(text) for name, text in typed.items()}
    try:
        exact = template.answer(values)
    except (ZeroDivisionError, ValueError, OverflowError):
        assume(False)
        raise AssertionError from None
    assume(isinstance(exact, mp.mpf) and mp.isfinite(exact))
    # Of an angle below zero the acute one is not in reach, and the author is asked.
    assume("θ_2" not in template.find or exact > 0)
    assume(exact == 0 or mp.mpf(10) ** -60 < abs(exact) < mp.mpf(10) ** 60)
    data = [f"{name}: {text} {template.given[name]}".rstrip() for name, text in typed.items()]
    outcome = work(
        list(template.formula) if isinstance(template.formula, tuple) else template.formula,
        f"{template.find} {form}",
        given=data,
        take=template.take,
        conventions=replace(POINT, rule=rule),  # type: ignore[arg-type]
    )
    if outcome.working is None:
        # What is refused prints no digit; it must be refused for a reason that these data can have.
        assert {p.slug for p in outcome.problems} <= {"no-real-root", "divides-by-zero", "roots-excluded"}, (
            data,
            [str(p) for p in outcome.problems],
        )
        assume(False)
        raise AssertionError
    (answer,) = outcome.working.answers
    numeral = answer.printed.numeral
    count = int(form.split()[1])
    shown = printed_decimal(numeral)
    if form.endswith("sf"):
        expected = rounded_figures(exact, count, rule)
    elif numeral.exponent is None:
        expected = rounded_places(exact, count, rule)
        assert len(numeral.part) == count
    else:
        expected = rounded_figures(exact, count + 1, rule)
        assert len(numeral.part) == count
        assert len(numeral.whole) == 1
    assert shown == expected, (template, data, form, rule, mp.nstr(exact, 40))
    # Standard form below 0.1 and from 100 000 up, of the value as it is rounded; whole numbers are written out.
    plain = rounded_places(exact, count, rule) if form.endswith("dp") else expected
    standard = not Decimal("0.1") <= abs(plain) < (10**9 if form == "to 0 dp" else 100000)
    assert (numeral.exponent is not None) == (standard and exact != 0)
    if form.endswith("sf") and numeral.exponent is not None:
        assert len(numeral.whole) == 1
        assert len(numeral.part) == count - 1


@settings(
    max_examples=int(os.environ.get("PHYSCALC_EXAMPLES", "400")),
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
)
@given(
    st.data(),
    st.sampled_from(TEMPLATES),
    st.builds(
        lambda n, kind: f"to {max(n, 1 if kind == 'sf' else 0)} {kind}",
        st.integers(0, 8),
        st.sampled_from(["dp", "sf"]),
    ),
    st.sampled_from(["half-up", "half-even"]),
)
def test_every_printed_digit(data: st.DataObject, template: Template, form: str, rule: str) -> None:
    _check(template, {name: data.draw(typed_numbers(), label=name) for name in template.given}, form, rule)


@settings(max_examples=100, deadline=None)
@given(st.integers(-(10**6), 10**6), st.integers(0, 4), st.sampled_from(["half-up", "half-even"]))
def test_ties_by_both_rules(coefficient: int, places: int, rule: str) -> None:
    """A value that ends in a 5 one place further than is asked: half-up away from zero, half-even to even."""
    value = Fraction(10 * coefficient + 5, 10 ** (places + 1))
    outcome = work(
        "x = a / b", f"x to {places} dp",
        given=[f"a: {10 * coefficient + 5}", f"b: {10 ** (places + 1)}"],
        conventions=replace(POINT, rule=rule, style=replace(POINT.style, low=Fraction(0), high=Fraction(10**9))),  # type: ignore[arg-type]
    )  # fmt: skip
    assert outcome.working is not None
    assert printed_decimal(outcome.working.answers[0].printed.numeral) == rounded_places(
        number(value), places, rule
    )
