"""Amounts of money: what is typed, what is printed, and that the printed reads back.

Where the sign stands: Unicode CLDR as Babel 2.19 has it, for 85.5 euros: en-ZA €85,50; de, es, fr, pt-PT 85,50 €; nl,
de-AT, de-CH, pt-BR € 85,50; es-MX without a blank before. For 85.5 rand in en-ZA and af: R85,50.
"""

from __future__ import annotations

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from physcalc.exact import Form, NumberStyle, Numeral, Real, write
from physcalc.language.plain import plain_printed
from physcalc.language.quantities import Formed, Typed, read_quantity, read_typed
from physcalc.language.tree import Printed
from physcalc.problems import Problem, Text
from physcalc.render import tex_printed
from physcalc.units import CURRENCIES, Unit, read_unit


def typed(text: str, decimal: str = ",") -> Typed:
    read = read_quantity(Text(text), decimal)
    assert isinstance(read, Typed), read
    return read


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("R85.50", "85.5", "R"),
        ("R85,50", "85.5", "R"),
        ("85.50 ZAR", "85.5", "R"),
        ("ZAR85.50", "85.5", "R"),
        ("R1 250 000,00", "1250000", "R"),
        ("R1,250.00", "1250", "R"),
        ("R.5", "0.5", "R"),
        ("R1e6", "1000000", "R"),
        ("R0", "0", "R"),
        ("-R5.00", "-5", "R"),
        ("−R5,00", "-5", "R"),
        ("$0.31", "0.31", "$"),
        ("$ 0.31", "0.31", "$"),
        ("0,31 $", "0.31", "$"),
        ("0,32 €", "0.32", "€"),
        ("€ 0,32", "0.32", "€"),
        ("£12", "12", "£"),
        ("5 KES", "5", "KES"),
        ("R2.85/kWh", "2.85", "R/kWh"),
        ("R2,85 / kWh", "2.85", "R/kWh"),
        ("R2,85 per kWh", "2.85", "R/kWh"),
        ("R2.85 kWh^-1", "2.85", "R/kWh"),
        ("2.85 ZAR/kWh", "2.85", "R/kWh"),
        ("2.85 ZAR kWh^-1", "2.85", "R/kWh"),
        ("0,32 €/kWh", "0.32", "€/kWh"),
        ("R18.20/USD", "18.2", "R/USD"),
    ],
)
def test_what_may_be_typed(text: str, value: str, unit: str) -> None:
    read = typed(text)
    assert read.number.value == Fraction(value)
    assert read.unit.text() == unit


@pytest.mark.parametrize(
    "text",
    [
        "R",
        "RR5",
        "R-5",
        "R_2",
        "R₂",
        "R_2 5",
        "5 R",
        "5/2 R",
        "R5/2",
        "R2*3",
        "R2 + R3",
        "R(2)",
        "8.31 R/K",
        "2 R / V",
        "R10^6",
    ],
)
def test_a_quantity_that_is_called_r_stays_one(text: str) -> None:
    assert isinstance(read_quantity(Text(text), "."), Formed)


@pytest.mark.parametrize("text", ["R 5", "R 2.85/kWh", "ZAR 5"])
def test_with_a_blank_it_is_money_where_no_quantity_is_called_so(text: str) -> None:
    read = read_quantity(Text(text), ".")
    assert isinstance(read, Formed)
    assert read.as_typed is not None
    assert read.as_typed.unit.dimension.money == (("ZAR", 1),)
    answer = read_typed(Text(text), ".")
    assert answer is not None
    assert answer.unit == read.as_typed.unit


@pytest.mark.parametrize(
    "text",
    [
        "$",
        "$$5",
        "R1e401",
        "R" + "9" * 101,
        "€",
        "€-5",
        "R5%",
        "R½",
        "R５",
        "R2/",
        "$5 kg",
        "$/5",
        "£5 at",
        "$1,250",
        "R2/kW/h",
    ],
)
def test_hostile_and_unclear_amounts_are_refused(text: str) -> None:
    with pytest.raises(Problem):
        read_quantity(Text(text), ".")


@given(st.text("R$€£ZARUSD0123456789.,-−/ kWh%e^ per", max_size=14))
def test_whatever_is_typed_is_read_or_refused(text: str) -> None:
    for decimal in (".", ","):
        with contextlib.suppress(Problem):
            assert read_quantity(Text(text), decimal)


@pytest.mark.parametrize(
    ("text", "place", "printed"),
    [
        ("R85.50", "before", "R85,50"),
        ("R1250.00", "before", "R1\u202f250,00"),
        ("-R5.00", "before", "−R5,00"),
        ("-R5.00", "apart", "−R\u00a05,00"),
        ("R2.85/kWh", "before", "R2,85/kWh"),
        ("R85.50", "behind", "85,50\u00a0ZAR"),
        ("R2.85/kWh", "behind", "2,85\u00a0ZAR/kWh"),
        ("€85.50", "before", "€85,50"),
        ("€85.50", "apart", "€\u00a085,50"),
        ("€85.50", "behind", "85,50\u00a0€"),
        ("85.50 KES", "before", "85,50\u00a0KES"),
        ("$0.31/kWh", "before", "$0,31/kWh"),
    ],
)
def test_what_is_printed(text: str, place: str, printed: str) -> None:
    read = typed(text)
    style = NumberStyle(money=place)  # type: ignore[arg-type]
    assert plain_printed(Printed(Numeral.of_number(read.number), read.unit), style) == printed


def test_mathematics_sets_an_amount_as_one_text() -> None:
    for text, expected in (
        ("R2.85/kWh", r"\text{R2.85/kWh}"),
        ("$5", r"\text{\$5}"),
        ("-R5", r"\text{−R5}"),
        ("R1e6", r"\text{R}1 \times 10^{6}"),
        ("5 KES", r"5\,\text{KES}"),
    ):
        read = typed(text, ".")
        assert tex_printed(Printed(Numeral.of_number(read.number), read.unit), NumberStyle(".")) == expected


_UNITS = [
    read_unit(Text(code + rest)) for code in sorted(CURRENCIES) for rest in ("", "/kWh", "/d", "/(kg·d)")
]


@given(
    st.sampled_from(_UNITS),
    st.decimals(-(10**7), 10**7, places=2),
    st.sampled_from(["before", "apart", "behind"]),
    st.sampled_from([".", ","]),
    st.sampled_from([True, False]),
    st.sampled_from(["powers", "solidus"]),
)
def test_what_is_printed_reads_back_as_the_same_value(
    unit: Unit, amount: object, place: str, decimal: str, standard: bool, unit_style: str
) -> None:
    style = NumberStyle(decimal, money=place)  # type: ignore[arg-type]
    value = Fraction(str(amount))
    rounded, numeral = write(
        Real.of(value), Form("figures", 4, True) if standard else Form("places", 2, False)
    )
    text = plain_printed(Printed(numeral, unit), style, unit_style)
    read = read_typed(Text(text), decimal)
    assert read is not None, text
    assert read.number.value == rounded.fraction
    assert read.unit == unit
