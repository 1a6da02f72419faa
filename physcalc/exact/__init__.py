"""Room 1: exact numbers, the digits they were typed with, and the one rounding.

What may live here: whatever decides digits. A number as typed, exact real arithmetic, the rounding rules, and
the pieces in which a number is printed. No units, no names, no markup. mpmath is used here and nowhere else.
"""

from .errors import DivisionByZero, OutOfDomain, RealError, TooLarge
from .functions import acos, asin, atan, atan2, cos, exp, ln, log10, power, sin, sqrt, tan
from .isolated import isolated_root
from .number import Number, read_number
from .numeral import Form, NumberStyle, Numeral, grouped, numeral_text, write
from .real import ONE, PI, ZERO, Real
from .rounding import Rounded, Rule, round_figures, round_places, ten_to
from .search import polynomial_roots, root_between
from .spread import Combining, Spread
from .work import bounded, spend

__all__ = [
    "ONE",
    "PI",
    "ZERO",
    "Combining",
    "DivisionByZero",
    "Form",
    "Number",
    "NumberStyle",
    "Numeral",
    "OutOfDomain",
    "Real",
    "RealError",
    "Rounded",
    "Rule",
    "Spread",
    "TooLarge",
    "acos",
    "asin",
    "atan",
    "atan2",
    "bounded",
    "cos",
    "exp",
    "grouped",
    "isolated_root",
    "ln",
    "log10",
    "numeral_text",
    "polynomial_roots",
    "power",
    "read_number",
    "root_between",
    "round_figures",
    "round_places",
    "sin",
    "spend",
    "sqrt",
    "tan",
    "ten_to",
    "write",
]
