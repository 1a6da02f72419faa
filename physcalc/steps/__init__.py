"""Room 7: lines of working as data. Substitution, answers, reasons and marks; no markup.

What may live here: what the memo shows and why, and where each value came from.
"""

from .lines import Answer, Line, LineKind, Origin, Working

__all__ = ["Answer", "Line", "LineKind", "Origin", "Working"]
