"""A document that was read and worked out: what the editions are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from physcalc.checking.scope import Datum
from physcalc.sheets import Sheet

from ..settings import Settings
from .marks import Marks
from .prose import Prose
from .solving import Solved
from .statements import Statement
from .tree import Tree


@dataclass(frozen=True, slots=True)
class Worked:
    """Everything known about a document.

    Attributes:
        tree: pandoc's tree with the questions in it.
        settings: the settings of the document as a whole.
        settled: the settings at each part, by its key.
        statements: the statement of each block that could be read, by the block's key.
        marks: the marks of each part.
        sheet: the data and formula sheet.
        solved: what the blocks led to.
        prose: what goes into the text.
    """

    tree: Tree
    settings: Settings
    settled: Mapping[int, Settings]
    statements: Mapping[int, Statement]
    marks: Marks
    sheet: Sheet
    solved: Solved
    prose: Prose

    def constants_in_data(self) -> set[str]:
        """The keys of the sheet's constants from which data are made, as in `a: g, down`."""
        found: set[str] = set()
        seen: set[int] = set()
        stack = [d for names in self.solved.meanings.values() for data in names.values() for d in data]
        while stack:
            datum = stack.pop()
            if id(datum) in seen:
                continue
            seen.add(id(datum))
            stack += datum.rests_on
            if datum.kind == "constant" and (key := constant_key(datum, self.sheet)):
                found.add(key)
        return found


def constant_key(datum: Datum, sheet: Sheet) -> str:
    """The sheet's own name of a constant, to which `a: g, down` gives another; the datum's where none is like it."""
    number = datum.quantity.number
    if datum.name.key in sheet.constants or number is None:
        return datum.name.key
    same = (
        key
        for key, constant in sheet.constants.items()
        if constant.unit == datum.quantity.unit and abs(constant.number.value) == abs(number.value)
    )
    return next(same, datum.name.key)
