"""The door to pint, the one module that imports it.

`python -m physcalc.units.registry` writes `table.py` anew from what pint says.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from .dimension import Dimension
from .measure import Measure
from .spelling import SYMBOLS

#: pint's names of the base dimensions, in the order of `Dimension.exponents`.
_BASE = ("[length]", "[mass]", "[time]", "[current]", "[temperature]", "[substance]", "[luminosity]")

_HEAD = '''"""Exact sizes of the units without prefix. Written by `python -m physcalc.units.registry`.

Each row: symbol → (scale in coherent SI units, power of π that goes with it, zero point, exponents of
length, mass, time, current, temperature, amount and luminous intensity).
"""

TABLE: dict[str, tuple[str, int, str, tuple[int, ...]]] = {
'''


@cache
def _registry() -> Any:
    # Here and not above: importing pint takes 0.2 s, and making the registry as long again.
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def measure_by_pint(symbol: str) -> Measure:
    """The measure of a symbol without prefix, worked out by pint with fractions.

    Raises:
        KeyError: the symbol is none of ours.
    """
    entry = SYMBOLS[symbol]
    registry = _registry()
    scale, offset = entry.times, Fraction(0)
    dimension = Dimension.of()
    for name, power in entry.recipe:
        exponents = registry.get_dimensionality(registry.UnitsContainer({name: 1}))
        part = Dimension.of(*(Fraction(exponents.get(base, 0)) for base in _BASE))
        # pint's root unit of mass is the gram, so each power of mass brings a factor 1/1000.
        to_kilogram = Fraction(1, 1000) ** int(part.exponents[1])
        zero = registry.Quantity(Fraction(0), name).to_root_units().magnitude
        one = registry.Quantity(Fraction(1), name).to_root_units().magnitude
        scale *= ((Fraction(one) - Fraction(zero)) * to_kilogram) ** power
        offset += Fraction(zero) * to_kilogram
        dimension *= part**power
    return Measure(scale, entry.pi, offset, dimension)


def table_text() -> str:
    """The whole text of `table.py`."""
    rows = []
    for symbol in SYMBOLS:
        found = measure_by_pint(symbol)
        exponents = ", ".join(str(exponent) for exponent in found.dimension.exponents)
        rows.append(f'    "{symbol}": ("{found.scale}", {found.pi}, "{found.offset}", ({exponents})),\n')
    return _HEAD + "".join(rows) + "}\n"


def write_table() -> None:
    """Write `table.py` anew."""
    Path(__file__).with_name("table.py").write_text(table_text(), encoding="utf-8")


if __name__ == "__main__":
    write_table()
