"""What a circuit shows, in words, for those who do not see it."""

from __future__ import annotations

from physcalc.figures.circuit_parts import (
    SOURCES,
    Across,
    CircuitDiagram,
    InParallel,
    InSeries,
    Part,
    Piece,
    turned,
)

from .circuit_labels import shown
from .figure import Look
from .words import word


def alternative(diagram: CircuitDiagram, look: Look) -> str:
    """The description of a circuit, made from its parts and from the values that are given."""
    if diagram.loop is not None:
        upper, lower = diagram.loop
        whole = [_piece(piece, diagram, look) for piece in (*_flat(upper), *_flat(turned(lower)))]
        return word("circuit", look.lang, parts="; ".join(part for part in whole if part)) + "."
    lines = [
        word(
            "circuit-branch",
            look.lang,
            start=route.start,
            end=route.end,
            parts=", ".join(_piece(piece, diagram, look) for piece in _flat(route.piece)),
        )
        for route in diagram.routes
    ]
    return word("circuit-nodes", look.lang, branches="; ".join(lines)) + "."


def _flat(piece: Piece) -> tuple[Piece, ...]:
    return piece.pieces if isinstance(piece, InSeries) else (piece,)


def _piece(piece: Piece, diagram: CircuitDiagram, look: Look) -> str:
    match piece:
        case Part():
            return _part(piece, diagram, look)
        case InSeries():
            return ", ".join(_piece(inner, diagram, look) for inner in piece.pieces)
        case InParallel():
            branches = "; ".join(
                f"{at}: {_piece(branch, diagram, look)}" for at, branch in enumerate(piece.branches, 1)
            )
            return word("circuit-parallel", look.lang, count=str(len(piece.branches)), branches=branches)
        case Across():
            inner = _piece(piece.piece, diagram, look)
            return word("circuit-across", look.lang, part=inner, meter=_part(piece.meter, diagram, look))


def _part(part: Part, diagram: CircuitDiagram, look: Look) -> str:
    kind = f"{part.kind} {'open' if part.open else 'closed'}" if part.kind == "switch" else part.kind
    said = word(f"circuit-{kind}", look.lang)
    if part.name is not None:
        said += f" {part.name.key}"
    rating = diagram.ratings[part.number]
    values = []
    for value in (rating.emf, rating.resistance, rating.forward):
        text = shown(value, look) if diagram.labels != "names" or part.name is None else ""
        if value is None or (value.name is None and not text):
            continue
        if part.kind not in SOURCES or value.name is None:
            # A name that was typed behind the part says more than nothing.
            values += (
                [text or value.name.key] if value.name is not None and part.values else [text] if text else []
            )
        else:
            values.append(f"{value.name.key} = {text}" if text else value.name.key)
    return f"{said} ({', '.join(values)})" if values else said
