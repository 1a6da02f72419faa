"""Which diodes of a circuit conduct: each either with its voltage across it, or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import product

from ..checking.scope import Datum
from ..language.names import Name
from .circuit_finding import Finder
from .circuit_network import Link, Network
from .circuit_parts import DIODES, Ratings
from .circuit_sought import Sought
from .circuit_values import number_of

#: With more diodes than these there are more ways to conduct than are tried.
MOST_DIODES = 6
Results = tuple[dict[Name, Datum], dict[Name, Datum]]


def diodes_of(network: Network, ratings: Mapping[int, Ratings]) -> list[Link]:
    """The diodes whose voltage is known."""
    links = (link for link in network.links.values() if link.part.kind in DIODES)
    return [
        link
        for link in links
        if (forward := ratings[link.part.number].forward) is not None and forward.datum is not None
    ]


def with_diodes(
    diodes: Sequence[Link],
    ratings: Mapping[int, Ratings],
    sought: Sequence[Sought],
    finder_of: Callable[[Mapping[int, bool]], Finder],
) -> tuple[Finder, Results]:
    """What a circuit with diodes gives: of each way in which they may conduct it is seen whether it can be.

    A diode that conducts has its voltage across it and a forward current; one that does not has no current, and less
    than that voltage across it (the model of constant voltage of every textbook of electronics). Where several ways can
    be, as with two equal diodes in parallel, what they do not agree in is not known.

    Args:
        diodes: the diodes.
        ratings: the values of the parts.
        sought: the quantities that are looked for.
        finder_of: what finds them, for each diode by its number with whether it conducts.
    """
    ways: list[tuple[Finder, Results]] = []
    if len(diodes) <= MOST_DIODES:
        for states in product((True, False), repeat=len(diodes)):
            finder = finder_of({link.part.number: on for link, on in zip(diodes, states, strict=True)})
            results = finder.results(sought)
            if all(_holds(finder, link, ratings, on) for link, on in zip(diodes, states, strict=True)):
                ways.append((finder, results))
    if not ways:
        finder = finder_of({})
        return finder, finder.results(sought)
    finder, results = ways[0]
    return finder, _agreed(results, (other for _, other in ways[1:]))


def _holds(finder: Finder, link: Link, ratings: Mapping[int, Ratings], on: bool) -> bool:
    value = finder.known(link.current if on else link.drop)
    if value is None:
        return False
    forwards = -value if link.part.reversed else value
    forward = ratings[link.part.number].forward
    assert forward is not None
    assert forward.datum is not None
    return forwards >= 0 if on else forwards <= number_of(forward.datum)


def _agreed(first: Results, others: Iterable[Results]) -> Results:
    """What several ways have in common."""
    kept = first
    for other in others:
        found, known = (
            {
                name: datum
                for name, datum in mine.items()
                if name in theirs and theirs[name].quantity.value.equals(datum.quantity.value)
            }
            for mine, theirs in zip(kept, other, strict=True)
        )
        kept = (found, known)
    return kept
