"""Documents checked one after the other by this process."""

from __future__ import annotations

from collections.abc import Generator, Iterable

from physcalc.problems import Problem

from ..report import Piece, piece_of
from .one import fault_in, piece_in
from .order import Order, Task, problem_piece


def checked_here(documents: Iterable[Task], order: Order, debugging: bool = False) -> Generator[Piece]:
    """The documents checked one after the other by this process.

    Args:
        documents, order: what is checked, and what is asked.
        debugging: whether a fault of the program is raised.
    """
    for document in documents:
        if isinstance(document, Problem):
            yield problem_piece(document, order)
            continue
        try:
            piece = piece_in(document, order)
        except Exception as error:
            if debugging:
                raise
            piece = piece_of(fault_in(str(document), error), order.form, order.most)
        yield piece
