"""From what a figure shows to its picture: one function for all kinds."""

from __future__ import annotations

from dataclasses import replace

from physcalc.figures.drawn import Diagram

from .figure import Figure, Look, fitted
from .picture import WIDEST


def figure_of(diagram: Diagram, look: Look, width: float | None = None) -> Figure:
    """The figure of a diagram.

    Args:
        diagram: what it shows.
        look: how figures of the document look.
        width: how wide it is to be, in millimetres; None for as wide as it comes.
    """
    made = _figure(diagram, look)
    if width is None and made.picture.box.width > WIDEST:
        width = WIDEST
    return made if width is None else replace(made, picture=fitted(made.picture, width))


def _figure(diagram: Diagram, look: Look) -> Figure:
    # Each kind is imported where a document has one of it.
    from physcalc.figures.circuit_parts import CircuitDiagram
    from physcalc.figures.field import FieldDiagram
    from physcalc.figures.forces import ForcesDiagram
    from physcalc.figures.graph_diagram import GraphDiagram
    from physcalc.figures.situation_scenes import SituationDiagram

    match diagram:
        case ForcesDiagram():
            from .forces import forces

            return forces(diagram, look)
        case GraphDiagram():
            from .graphs import graph

            return graph(diagram, look)
        case SituationDiagram():
            from .situation import situation

            return situation(diagram, look)
        case FieldDiagram():
            from .field import field

            return field(diagram, look)
        case CircuitDiagram():
            from .circuits import circuit

            return circuit(diagram, look)
        case _:
            raise AssertionError(type(diagram))
