"""Room 2 of the document side: the tree of a document, and what its questions mean.

What may live here: reading pandoc's tree (panflute's door, together with the editions), questions with their
numbers, parts and marks, the scope of names, the calls to the engine, and the checks of what stands in the
text. What a page looks like is not known here.
"""

from .engine import Chosen, Engine, Outcome
from .findings import Findings, Report
from .likeness import check_classes
from .marks import Marks, spread_marks
from .numbering import typed_number
from .placing import places
from .prose import Prose, check_prose
from .questions import find_questions
from .reading import read_json, read_markup, write_json
from .settling import settle_document, settle_parts
from .solving import Solved, solve
from .statements import GivenBlock, Options, Statement, read_statements
from .tree import (
    EDITIONS,
    AnswerPart,
    BlockPart,
    DefinePart,
    Edition,
    OnlyPart,
    Part,
    Question,
    Tree,
    ValuePart,
)
from .walking import in_order, parts_of
from .worked import Worked

__all__ = [
    "EDITIONS",
    "AnswerPart",
    "BlockPart",
    "Chosen",
    "DefinePart",
    "Edition",
    "Engine",
    "Findings",
    "GivenBlock",
    "Marks",
    "OnlyPart",
    "Options",
    "Outcome",
    "Part",
    "Prose",
    "Question",
    "Report",
    "Solved",
    "Statement",
    "Tree",
    "ValuePart",
    "Worked",
    "check_classes",
    "check_prose",
    "find_questions",
    "in_order",
    "parts_of",
    "places",
    "read_json",
    "read_markup",
    "read_statements",
    "settle_document",
    "settle_parts",
    "solve",
    "spread_marks",
    "typed_number",
    "write_json",
]
