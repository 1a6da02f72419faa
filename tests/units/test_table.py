"""The shipped table against pint, and what reading a unit costs to import."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pint
import pytest

from physcalc.units import measure as measure_module
from physcalc.units import registry, table
from physcalc.units.measure import measure
from physcalc.units.spelling import PREFIXES, SYMBOLS


def test_the_table_is_what_pint_says_digit_for_digit() -> None:
    assert Path(table.__file__).read_text(encoding="utf-8") == registry.table_text()
    assert list(table.TABLE) == list(SYMBOLS)


@pytest.mark.parametrize("symbol", sorted(SYMBOLS))
def test_a_row_gives_back_the_measure(symbol: str) -> None:
    assert measure(symbol) == registry.measure_by_pint(symbol)


def test_prefixes_are_pints() -> None:
    ureg: Any = pint.UnitRegistry(non_int_type=Fraction)
    names = (
        "quecto ronto yocto zepto atto femto pico nano micro milli centi deci deca hecto kilo mega giga tera "
        "peta exa zetta yotta ronna quetta"
    )
    for prefix, name in zip(PREFIXES, names.split(), strict=True):
        assert (
            ureg.Quantity(Fraction(1), f"{name}meter").to("meter").magnitude
            == Fraction(10) ** PREFIXES[prefix]
        )


def test_a_unit_outside_the_table_is_asked_of_pint(monkeypatch: pytest.MonkeyPatch) -> None:
    before = measure("kN")
    monkeypatch.setattr(table, "TABLE", {})
    measure.cache_clear()
    try:
        assert measure_module.measure("kN") == before
        assert measure("°C").offset == Fraction("273.15")
    finally:
        measure.cache_clear()


def test_every_unit_is_read_without_pint_or_numpy() -> None:
    program = (
        "import sys\n"
        "from physcalc.problems import Text\n"
        "from physcalc.units import coherent_unit, read_unit\n"
        "from physcalc.units.spelling import SYMBOLS\n"
        "for symbol in SYMBOLS:\n"
        "    coherent_unit(read_unit(Text('MeV/c' if symbol == 'c' else symbol)).dimension)\n"
        "print(sorted({'pint', 'numpy', 'physcalc.units.registry'} & set(sys.modules)))\n"
    )
    root = str(Path(__file__).parents[2])
    run = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, cwd=root, check=True
    )
    assert run.stdout.strip() == "[]"
