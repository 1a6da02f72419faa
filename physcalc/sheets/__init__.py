"""Room 4: data and formula sheets, with the built-in ones beside their loader.

What may live here: the frozen types of a sheet, and what reads them from YAML. Nothing here solves or prints.
pyyaml's door.
"""

from .loading import builtin_sheets, load_sheet, read_sheet
from .schema import sheet_schema
from .sheet import Constant, Definition, Law, Lazy, Sheet, Symbol

__all__ = [
    "Constant",
    "Definition",
    "Law",
    "Lazy",
    "Sheet",
    "Symbol",
    "builtin_sheets",
    "load_sheet",
    "read_sheet",
    "sheet_schema",
]
