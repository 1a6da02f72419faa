"""Room 2 of the document side: the tree of a document, and what its questions mean.

What may live here: reading pandoc's tree (panflute's door, together with the editions), questions with their
numbers, parts and marks, the scope of names, the calls to the engine, and the checks of what stands in the
text. What a page looks like is not known here.
"""

from importlib import import_module
from typing import TYPE_CHECKING

from .balance import check_balance
from .drawings import Drawing
from .engine import Chosen, Engine, Outcome
from .findings import Findings, Report
from .likeness import check_classes
from .links import check_links
from .marks import Marks, spread_marks
from .misplaced import check_misplaced
from .numbering import QUESTION_WORDS, typed_number
from .parts_of_paper import Section, sections_of
from .placing import places
from .prose import Prose, check_prose
from .questions import find_questions
from .reading import read_json, read_markdown, read_markup, run_reader, write_json
from .settling import settle_document, settle_parts
from .solving import Solved, solve
from .statements import GivenBlock, Options, Statement, read_statements
from .tree import (
    EDITIONS,
    AnswerPart,
    BlockPart,
    DefinePart,
    Edition,
    GridPart,
    OnlyPart,
    Part,
    Question,
    Tree,
    ValuePart,
)
from .unread import check_attributes, forget_consequences
from .walking import in_order, parts_of
from .worked import Worked

if TYPE_CHECKING:
    from .following import OPTION, Followed, follow_on
    from .grid import Grid, PaperGrid, Weight, check_grid, paper_grid, share_text, weigh
    from .loose import check_loose
    from .taking import read_taken
    from .tex import Read, read_tex
    from .tracing import Trace, Traced, trace

#: What few runs need, by the module that has it.
_LATER = {
    "following": ("OPTION", "Followed", "follow_on"),
    "grid": ("Grid", "PaperGrid", "Weight", "check_grid", "paper_grid", "share_text", "weigh"),
    "loose": ("check_loose",),
    "taking": ("read_taken",),
    "tex": ("Read", "read_tex"),
    "tracing": ("Trace", "Traced", "trace"),
}
_MODULES = {name: module for module, names in _LATER.items() for name in names}

__all__ = [
    "EDITIONS",
    "OPTION",
    "QUESTION_WORDS",
    "AnswerPart",
    "BlockPart",
    "Chosen",
    "DefinePart",
    "Drawing",
    "Edition",
    "Engine",
    "Findings",
    "Followed",
    "GivenBlock",
    "Grid",
    "GridPart",
    "Marks",
    "OnlyPart",
    "Options",
    "Outcome",
    "PaperGrid",
    "Part",
    "Prose",
    "Question",
    "Read",
    "Report",
    "Section",
    "Solved",
    "Statement",
    "Trace",
    "Traced",
    "Tree",
    "ValuePart",
    "Weight",
    "Worked",
    "check_attributes",
    "check_balance",
    "check_classes",
    "check_grid",
    "check_links",
    "check_loose",
    "check_misplaced",
    "check_prose",
    "find_questions",
    "follow_on",
    "forget_consequences",
    "in_order",
    "paper_grid",
    "parts_of",
    "places",
    "read_json",
    "read_markdown",
    "read_markup",
    "read_statements",
    "read_taken",
    "read_tex",
    "run_reader",
    "sections_of",
    "settle_document",
    "settle_parts",
    "share_text",
    "solve",
    "spread_marks",
    "trace",
    "typed_number",
    "weigh",
    "write_json",
]


def __getattr__(name: str) -> object:
    # Imported when it is asked for.
    if name not in _MODULES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f".{_MODULES[name]}", __name__), name)
