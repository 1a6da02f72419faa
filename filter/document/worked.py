"""A document that was read and worked out: what the editions are made from."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

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
