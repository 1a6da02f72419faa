"""Every way to type a unit, and the one way it is written out."""

from __future__ import annotations

from fractions import Fraction

import pytest

from physcalc.problems import Text
from physcalc.units import ONE, UnitFactor, difference_of, read_unit, unit_of
from physcalc.units.spelling import KNOWN, PREFIXES, SYMBOLS, WRITTEN

#: Typed → written with powers, written with a solidus. Common practice in papers and books; no source.
SPELLINGS = [
    ("N·C⁻¹", "N·C⁻¹", "N/C"),
    ("N C^-1", "N·C⁻¹", "N/C"),
    ("N.C-1", "N·C⁻¹", "N/C"),
    ("N.C−1", "N·C⁻¹", "N/C"),
    ("N⋅C⁻¹", "N·C⁻¹", "N/C"),
    ("N*C^(-1)", "N·C⁻¹", "N/C"),
    ("N × C^{-1}", "N·C⁻¹", "N/C"),
    ("N/C", "N·C⁻¹", "N/C"),
    ("N / C", "N·C⁻¹", "N/C"),
    ("  N/C  ", "N·C⁻¹", "N/C"),
    ("N\u00a0C⁻¹", "N·C⁻¹", "N/C"),
    ("N\u202fC⁻¹", "N·C⁻¹", "N/C"),
    ("m s⁻²", "m·s⁻²", "m/s²"),
    ("m.s-2", "m·s⁻²", "m/s²"),
    ("m/s^2", "m·s⁻²", "m/s²"),
    ("m/s2", "m·s⁻²", "m/s²"),
    ("km/h", "km·h⁻¹", "km/h"),
    ("kW h", "kW·h", "kW·h"),
    ("kWh", "kW·h", "kW·h"),
    ("mAh", "mA·h", "mA·h"),
    ("N m", "N·m", "N·m"),
    ("J/(kg K)", "J·kg⁻¹·K⁻¹", "J/(kg·K)"),
    ("J/(kg·K)", "J·kg⁻¹·K⁻¹", "J/(kg·K)"),
    ("J / ( kg K )", "J·kg⁻¹·K⁻¹", "J/(kg·K)"),
    ("J kg^-1 K^-1", "J·kg⁻¹·K⁻¹", "J/(kg·K)"),
    ("J/(kg·°C)", "J·kg⁻¹·°C⁻¹", "J/(kg·°C)"),
    ("(kg m)/s", "kg·m·s⁻¹", "kg·m/s"),
    ("N·(m/s)", "N·m·s⁻¹", "N·m/s"),
    ("(N·m²)/C²", "N·m²·C⁻²", "N·m²/C²"),
    ("(m/s)^2", "m²·s⁻²", "m²/s²"),
    ("1/s", "s⁻¹", "1/s"),
    ("/s", "s⁻¹", "1/s"),
    (" / s", "s⁻¹", "1/s"),
    ("s-1", "s⁻¹", "1/s"),
    ("1/(m s)", "m⁻¹·s⁻¹", "1/(m·s)"),
    ("m2", "m²", "m²"),
    ("dm-3", "dm⁻³", "1/dm³"),
    ("m⁺²", "m²", "m²"),
    ("m¹²", "m¹²", "m¹²"),
    ("V/Hz^(1/2)", "V·Hz^(-1/2)", "V/Hz^(1/2)"),
    ("µC", "µC", "µC"),
    ("μC", "µC", "µC"),
    ("uC", "µC", "µC"),
    ("uF", "µF", "µF"),
    ("um", "µm", "µm"),
    ("Ω", "Ω", "Ω"),
    ("\u2126", "Ω", "Ω"),
    ("ohm", "Ω", "Ω"),
    ("kohm", "kΩ", "kΩ"),
    ("k\u2126", "kΩ", "kΩ"),
    ("\u212a", "K", "K"),
    ("\u212b", "Å", "Å"),
    ("A\u030a", "Å", "Å"),
    ("°C", "°C", "°C"),
    ("degC", "°C", "°C"),
    ("ºC", "°C", "°C"),
    ("\u2103", "°C", "°C"),
    ("Δ°C", "°C", "°C"),
    ("delta_degC", "°C", "°C"),
    ("°", "°", "°"),
    ("deg", "°", "°"),
    ("º", "°", "°"),
    ("rad", "rad", "rad"),
    ("rev/min", "rev·min⁻¹", "rev/min"),
    ("rpm", "rev·min⁻¹", "rev/min"),
    ("mph", "mi·h⁻¹", "mi/h"),
    ("MeV/c²", "MeV·c⁻²", "MeV/c²"),
    ("ml", "mL", "mL"),
    ("l", "L", "L"),
    ("y", "yr", "yr"),
    ("au", "AU", "AU"),
    ("%", "%", "%"),
    ("dB", "dB", "dB"),
    # In brackets of their own these are one prefixed symbol, and stay so when written out.
    ("(ms)^-1", "(ms)⁻¹", "1/ms"),
    ("V/ms", "V·(ms)⁻¹", "V/ms"),
    ("W (mK)^-1", "W·(mK)⁻¹", "W·(mK)⁻¹"),
    ("", "", ""),
    ("   ", "", ""),
]


@pytest.mark.parametrize(("typed", "powers", "solidus"), SPELLINGS)
def test_spelling(typed: str, powers: str, solidus: str) -> None:
    unit = read_unit(Text(typed))
    assert unit.text() == powers
    assert unit.text("solidus") == solidus


@pytest.mark.parametrize(("typed", "powers", "solidus"), SPELLINGS)
def test_what_is_written_reads_back(typed: str, powers: str, solidus: str) -> None:
    factors = read_unit(Text(typed)).factors
    assert read_unit(Text(powers)).factors == factors
    assert read_unit(Text(solidus)).factors == factors


@pytest.mark.parametrize("written", sorted(WRITTEN))
def test_every_symbol_reads_as_itself(written: str) -> None:
    typed = "MeV/c" if written == "c" else written
    assert read_unit(Text(typed)).factors[-1].symbol == written


def test_a_spelling_means_one_unit() -> None:
    readings: dict[str, set[tuple[str, str]]] = {}
    for symbol in SYMBOLS.values():
        for spelling in (symbol.written, *symbol.typed):
            readings.setdefault(spelling, set()).add(("", symbol.written))
            for prefix in symbol.prefixes:
                readings.setdefault(prefix + spelling, set()).add((prefix, symbol.written))
    # Gray, not a thousand million years: the SI's own symbol wins, and such years are written Gyr.
    assert {spelling for spelling, found in readings.items() if len(found) > 1} == {"Gy"}
    assert KNOWN["Gy"] == ("", "Gy")


@pytest.mark.parametrize(
    "symbol", ["min", "cd", "Pa", "mol", "T", "ft", "h", "u", "kat", "Gy", "mmHg", "yd", "dB"]
)
def test_a_whole_symbol_beats_prefix_and_unit(symbol: str) -> None:
    assert KNOWN[symbol] == ("", symbol)


def test_the_order_typed_is_kept() -> None:
    assert read_unit(Text("s⁻¹ m")).text() == "s⁻¹·m"
    assert read_unit(Text("C⁻² N m²")).text() == "C⁻²·N·m²"


def test_point_and_difference() -> None:
    point = read_unit(Text("°C"))
    assert point.offset == Fraction("273.15")
    assert difference_of(point).offset == 0
    assert difference_of(point) == read_unit(Text("Δ°C")) != point
    for typed in ("J/°C", "J/(kg·°C)", "°C²", "°C⁻¹", "1/°C", "W·m⁻²·°C⁻¹", "delta_degC", "∆°C"):
        assert read_unit(Text(typed)).offset == 0
    newton = read_unit(Text("N"))
    assert difference_of(newton) is newton


def test_angles() -> None:
    for typed in ("°", "deg", "rad", "mrad", "rev", "(rad)"):
        assert read_unit(Text(typed)).angle
    for typed in ("rev/min", "rad/s", "°/s", "rad²", "sr", "m", "%", ""):
        assert not read_unit(Text(typed)).angle


def test_flags_of_ratios() -> None:
    assert read_unit(Text("dB")).logarithmic
    assert not read_unit(Text("%")).logarithmic
    assert read_unit(Text("%")).scale.fraction == Fraction(1, 100)
    assert read_unit(Text("dB")).scale.fraction == 1


def test_units_as_data() -> None:
    unit = read_unit(Text("N C^-1"))
    assert unit.factors == (UnitFactor("N", Fraction(1)), UnitFactor("C", Fraction(-1)))
    assert unit == read_unit(Text("N/C")) == unit_of(unit.factors)
    assert hash(unit) == hash(read_unit(Text("N/C")))
    assert unit != read_unit(Text("V/m"))
    assert str(unit) == "N·C⁻¹"
    assert read_unit(Text("")) == ONE
    assert ONE.scale.fraction == 1
    with pytest.raises(KeyError):
        unit_of((UnitFactor("parrot"),))


def test_all_prefixes_of_the_si() -> None:
    # SI Brochure, 9th edition, updated 2022, table 7 (value from memory).
    assert "".join(sorted(PREFIXES, key=lambda prefix: PREFIXES[prefix])) == "qryzafpnµmcddahkMGTPEZYRQ"
    for prefix, power in PREFIXES.items():
        assert read_unit(Text(prefix + "m")).scale.fraction == Fraction(10) ** power
