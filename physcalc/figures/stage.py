"""From what an author says of a figure to what it shows: one function for all kinds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace

from ..checking.scope import Scope
from ..exact.work import CALCULATION, bounded
from ..limits import allow, limit
from ..problems import Problem, Text
from ..problems.figures import FigureValueExtreme
from ..problems.language import FormulaUnreadable
from ..problems.stopped import STOPPED
from .drawn import Drawn, FigureText


def draw(body: FigureText, scope: Scope) -> Drawn:
    """What a figure shows.

    Args:
        body: what the author says.
        scope: what names mean there, the block's own data included.

    Returns:
        What it shows, what it finds and every problem; never raises a Problem.
    """
    most = body.LONGER * limit("formula-length")
    for text in _texts(body):
        if len(text.value) > most:
            # How long a line takes to be read grows faster than the line.
            reason = f"a line of {len(text.value)} characters is too long for a figure"
            known = f"at most {most} characters{allow('formula-length')}"
            return Drawn(None, {}, (FormulaUnreadable(text.span, reason, known),))
    try:
        with bounded(CALCULATION):
            return _draw(body, scope)
    except STOPPED as problem:
        return Drawn(None, {}, (replace(problem, span=body.span),))
    except Problem as problem:
        return Drawn(None, {}, (problem,))
    except ArithmeticError:
        # Places in a picture are machine numbers, which some values do not fit.
        return Drawn(None, {}, (FigureValueExtreme(body.span),))


def _texts(value: object) -> Iterator[Text]:
    """Every text that an author typed for a figure."""
    match value:
        case Text():
            yield value
        case tuple():
            for one in value:
                yield from _texts(one)
        case FigureText():
            for one in fields(value):
                if one.name not in ("span", "conventions"):
                    yield from _texts(getattr(value, one.name))
        case _ if is_dataclass(value):
            for one in fields(value):
                yield from _texts(getattr(value, one.name))


def _draw(body: FigureText, scope: Scope) -> Drawn:
    # Each kind is imported where a document has one of it.
    match body.KIND:
        case "forces":
            from .forces import ForcesText, forces

            assert isinstance(body, ForcesText)
            return forces(body, scope)
        case "graph":
            from .graph_diagram import GraphText
            from .graphs import graph

            assert isinstance(body, GraphText)
            return graph(body, scope)
        case "circuit":
            from .circuit_parts import CircuitText
            from .circuits import circuit

            assert isinstance(body, CircuitText)
            return circuit(body, scope)
        case "situation":
            from .situation import situation
            from .situation_reading import SituationText

            assert isinstance(body, SituationText)
            return situation(body, scope)
        case "field":
            from .field import field
            from .situation_reading import FieldText

            assert isinstance(body, FieldText)
            return field(body, scope)
