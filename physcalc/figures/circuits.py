"""Circuits: every current and voltage that follows from what is known, exactly, and how the circuit is laid out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from ..checking.scope import Datum, Scope
from ..language.names import Name
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_circuits import CircuitUnreadable
from .circuit_diodes import diodes_of, with_diodes
from .circuit_finding import Finder, first_line
from .circuit_naming import name_typed
from .circuit_network import Network, equations, network_of, shorted
from .circuit_parts import (
    SOURCES,
    CircuitDiagram,
    CircuitText,
    Current,
    InSeries,
    Labels,
    Piece,
    Ratings,
    Route,
    parts_of,
)
from .circuit_reading import between_nodes, read_branches, read_loop
from .circuit_shape import no_loose_ends, put_together, routes_at, two_rows
from .circuit_sought import Main, Seeker, Sought, main_of
from .circuit_values import ratings_of
from .drawn import Drawn

_LABELS: tuple[Labels, ...] = ("names", "values", "both")


def circuit(body: CircuitText, scope: Scope) -> Drawn:
    """The circuit that an author describes.

    Args:
        body: what is said.
        scope: what names mean.

    Returns:
        The circuit with the quantities that it gives; those that cannot be told are left out.

    Raises:
        Problem: it cannot be read, laid out or worked out.
    """
    loop, routes, network = _shape(body)
    pieces = loop if loop is not None else tuple(route.piece for route in routes)
    ratings, problems = _ratings(pieces, body, scope)
    labels = _word(body.labels, "what stands beside parts", _LABELS, "both", problems)
    letters = _word(body.nodes, "whether nodes have letters", ("yes", "no"), "yes", problems)
    if problems:
        return Drawn(None, {}, tuple(problems))
    wrong = shorted(network, ratings)
    if wrong is not None:
        return Drawn(None, {}, (wrong,))
    main = main_of(network, loop[0] if loop is not None else None)
    seeker = Seeker(network, ratings, main, first_line(body), body.conventions)
    sought = seeker.sought(body.names)
    test = main is None and _with_test(network)
    diodes = diodes_of(network, ratings)
    finder = Finder(body, scope, equations(network, ratings), ratings)
    if test:
        results, found = finder.between_terminals(network)
    elif diodes:
        finder, (results, found) = with_diodes(
            diodes,
            ratings,
            sought,
            lambda states: Finder(body, scope, equations(network, ratings, states), ratings),
        )
    else:
        results, found = finder.results(sought)
    currents = _currents(body, sought, main, found, problems)
    problems += finder.problems
    return Drawn(
        CircuitDiagram(loop, routes, ratings, currents, labels, letters == "yes"),  # type: ignore[arg-type]
        results,
        tuple(problems),
    )


def _shape(body: CircuitText) -> tuple[tuple[Piece, Piece] | None, tuple[Route, ...], Network]:
    """The layout of the circuit and its network. Raises Problem."""
    first = first_line(body)
    if not first.value.strip():
        raise CircuitUnreadable(
            body.span, "the circuit has no parts", 'write them: "battery (ε, r), R_1, R_2"'
        )
    if not any(between_nodes(line) for line in body.lines):
        loop = two_rows(read_loop(body.lines), first)
        if body.at:
            what, how = (
                "this circuit has no nodes with names",
                'leave "at" out, or give branches: "A to B: R_1"',
            )
            raise CircuitUnreadable(body.at[0][0].span, what, how)
        return loop, (), _of_rows(loop)
    branches = read_branches(body.lines)
    no_loose_ends(branches)
    shape = routes_at(branches, body.at) if body.at else put_together(branches, first)
    if isinstance(shape[0], Route):
        routes: tuple[Route, ...] = shape
        return None, routes, network_of((route.start, route.end, route.piece) for route in routes)
    rows: tuple[Piece, Piece] = shape
    return rows, (), _of_rows(rows)


def _of_rows(rows: tuple[Piece, Piece]) -> Network:
    lower = rows[1]
    if isinstance(lower, InSeries) and not lower.pieces:
        return network_of([("left", "left", rows[0])])
    return network_of([("left", "right", rows[0]), ("left", "right", lower)])


def _ratings(
    pieces: Sequence[Piece], body: CircuitText, scope: Scope
) -> tuple[dict[int, Ratings], list[Problem]]:
    ratings: dict[int, Ratings] = {}
    problems: list[Problem] = []
    for part in (part for piece in pieces for part in parts_of(piece)):
        try:
            ratings[part.number] = ratings_of(part, scope, body.conventions)
        except Problem as problem:
            problems.append(problem)
    return ratings, problems


def _word(text: Text | None, what: str, known: Sequence[str], otherwise: str, problems: list[Problem]) -> str:
    if text is None:
        return otherwise
    word = text.value.strip()
    if word not in known:
        form = f"{', '.join(known[:-1])} or {known[-1]}"
        problems.append(FigurePhraseUnreadable(text.span, what, word, form, nearest(word, tuple(known))))
        return otherwise
    return word


def _currents(
    body: CircuitText,
    sought: Sequence[Sought],
    main: Main | None,
    found: Mapping[Name, Datum],
    problems: list[Problem],
) -> dict[int, Current]:
    """The arrows that are asked, by the number of their part."""
    text = body.currents
    if text is None or text.value.strip() == "no":
        return {}
    known = {one.name: one for one in sought if one.what[0] == "current" and one.what[1] >= 0}
    wanted = list(known) if text.value.strip() == "yes" else []
    for word in re.finditer(r"[^\s,]+", text.value) if text.value.strip() != "yes" else ():
        name = name_typed(word[0])
        if name is None or name not in known:
            names = tuple(one.key for one in known)
            span = text.at(word.start(), word.end())
            problems.append(FigureNameUnknown(span, word[0], names, nearest(word[0], names)))
        else:
            wanted.append(name)
    return {known[name].what[1]: Current(name, found.get(name)) for name in wanted}


def _with_test(network: Network) -> bool:
    """Whether the resistance between terminals is asked: there are terminals and no battery."""
    parts = [link.part for link in network.links.values()]
    return any(part.kind == "terminals" for part in parts) and not any(part.kind in SOURCES for part in parts)
