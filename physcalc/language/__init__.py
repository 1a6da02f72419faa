"""Room 3: text → frozen data with places. Names, formulas, quantities and the short phrases of a calculation.

What may live here: the grammar and what reads it, the tree, directions, and the statements of a calculation.
Nothing here knows what a name stands for. lark's door.
"""

from .directions import Axis, opposite_of, printed_direction, read_axis
from .names import Name, read_name
from .parser import parse_expression, parse_formula
from .statements import AnswerText, Calculation, Conventions, GivenText, asked_names

__all__ = [
    "AnswerText",
    "Axis",
    "Calculation",
    "Conventions",
    "GivenText",
    "Name",
    "asked_names",
    "opposite_of",
    "parse_expression",
    "parse_formula",
    "printed_direction",
    "read_axis",
    "read_name",
]
