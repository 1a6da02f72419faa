"""Room 2: units. Spelling in, spelling out, exact conversion, temperature points and angles.

What may live here: everything that knows what a unit's symbol means. An author's text is read by our own
table of symbols and never handed to pint; pint is asked for exact sizes by `registry`, its one door, and only
where the shipped `table` does not hold them. Imports `exact` and `problems`.
"""

from .coherent import coherent_unit, coherent_with_angles
from .conversion import DimensionMismatch, convert, from_si, to_si
from .dimension import BASE_UNITS, DIMENSIONLESS_DIMENSION, Dimension
from .money import CURRENCIES, Currency, before_amount, currency_of
from .reading import read_unit
from .unit import ONE, Style, Unit, UnitFactor, difference_of, unit_of

__all__ = [
    "BASE_UNITS",
    "CURRENCIES",
    "DIMENSIONLESS_DIMENSION",
    "ONE",
    "Currency",
    "Dimension",
    "DimensionMismatch",
    "Style",
    "Unit",
    "UnitFactor",
    "before_amount",
    "coherent_unit",
    "coherent_with_angles",
    "convert",
    "currency_of",
    "difference_of",
    "from_si",
    "read_unit",
    "to_si",
    "unit_of",
]
