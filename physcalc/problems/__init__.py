"""Room 0: places in a source, and every problem the engine can report.

What may live here: spans, the root of all problems, and one class a problem, in a module for each stage
that raises it. It imports nothing of ours.
"""

from .base import EXIT_CODES, Level, Problem, nearest
from .numbers import NumberAmbiguous, NumberTooLong
from .sheets import (
    ConstantUnreadable,
    DefinitionUnknown,
    LawUnknown,
    LimitUnreadable,
    PhraseUnclosed,
    SheetEntryMisshapen,
    SheetEntryTwice,
    SheetExtendsItself,
    SheetKeyMissing,
    SheetKeyUnknown,
    SheetNameUnreadable,
    SheetOutside,
    SheetUnknown,
    SheetUnreadable,
    SymbolUnexplained,
    SymbolUnused,
)
from .span import Span, Text
from .units import UnitAmbiguous, UnitUnknown, UnitUnreadable

__all__ = [
    "EXIT_CODES",
    "ConstantUnreadable",
    "DefinitionUnknown",
    "LawUnknown",
    "Level",
    "LimitUnreadable",
    "NumberAmbiguous",
    "NumberTooLong",
    "PhraseUnclosed",
    "Problem",
    "SheetEntryMisshapen",
    "SheetEntryTwice",
    "SheetExtendsItself",
    "SheetKeyMissing",
    "SheetKeyUnknown",
    "SheetNameUnreadable",
    "SheetOutside",
    "SheetUnknown",
    "SheetUnreadable",
    "Span",
    "SymbolUnexplained",
    "SymbolUnused",
    "Text",
    "UnitAmbiguous",
    "UnitUnknown",
    "UnitUnreadable",
    "nearest",
]
