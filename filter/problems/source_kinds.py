"""In which language an author writes, for what a problem says about mending it."""

from __future__ import annotations

from physcalc.problems import Span

#: Endings by which a document is known to be LaTeX.
TEX_ENDINGS = (".tex", ".ltx", ".latex")


def in_latex(span: Span) -> bool:
    """Whether a place is in a document in LaTeX."""
    return span.file.lower().endswith(TEX_ENDINGS)
