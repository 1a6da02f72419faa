"""From what an author says of a figure to what it shows: one function for all kinds."""

from __future__ import annotations

from ..checking.scope import Scope
from ..exact.work import CALCULATION, bounded
from ..problems import Problem
from ..problems.solving import WorkTooMuch
from .drawn import Drawn, FigureText


def draw(body: FigureText, scope: Scope) -> Drawn:
    """What a figure shows.

    Args:
        body: what the author says.
        scope: what names mean there, the block's own data included.

    Returns:
        What it shows, what it finds and every problem; never raises a Problem.
    """
    try:
        with bounded(CALCULATION):
            return _draw(body, scope)
    except WorkTooMuch:
        return Drawn(None, {}, (WorkTooMuch(body.span),))
    except Problem as problem:
        return Drawn(None, {}, (problem,))


def _draw(body: FigureText, scope: Scope) -> Drawn:
    # Each kind is imported where a document has one of it.
    from .circuit_parts import CircuitText
    from .forces import ForcesText, forces
    from .graph_diagram import GraphText
    from .situation_reading import FieldText, SituationText

    match body:
        case ForcesText():
            return forces(body, scope)
        case GraphText():
            from .graphs import graph

            return graph(body, scope)
        case CircuitText():
            from .circuits import circuit

            return circuit(body, scope)
        case SituationText():
            from .situation import situation

            return situation(body, scope)
        case FieldText():
            from .field import field

            return field(body, scope)
        case _:
            raise AssertionError(type(body))
