"""physcalc: physics calculations solved exactly, checked, and written out as working.

The engine: it knows nothing of documents, of files (but its own sheets) or of printing. The stages stand in
`engine`; each room's own docstring says what may live in it.
"""

__version__ = "0.1.0"
