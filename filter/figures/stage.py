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
    match diagram.KIND:
        case "forces":
            from physcalc.figures.forces import ForcesDiagram

            from .forces import forces

            assert isinstance(diagram, ForcesDiagram)
            return forces(diagram, look)
        case "graph":
            from physcalc.figures.graph_diagram import GraphDiagram

            from .graphs import graph

            assert isinstance(diagram, GraphDiagram)
            return graph(diagram, look)
        case "situation":
            from physcalc.figures.situation_scenes import SituationDiagram

            from .situation import situation

            assert isinstance(diagram, SituationDiagram)
            return situation(diagram, look)
        case "field":
            from physcalc.figures.field import FieldDiagram

            from .field import field

            assert isinstance(diagram, FieldDiagram)
            return field(diagram, look)
        case "circuit":
            from physcalc.figures.circuit_parts import CircuitDiagram

            from .circuits import circuit

            assert isinstance(diagram, CircuitDiagram)
            return circuit(diagram, look)
