"""Room 0: places in a source, and every problem the engine can report.

What may live here: spans, the root of all problems, and one class a problem, in a module for each stage
that raises it. They are imported from there: a run loads the problems of the stages that it has. Imported is nothing of
ours but the limits.
"""

from .base import EXIT_CODES, Level, Problem, nearest
from .span import Span, Text

__all__ = ["EXIT_CODES", "Level", "Problem", "Span", "Text", "nearest"]
