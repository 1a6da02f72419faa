"""What a graph shows in words, and the quantities that it gives."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from physcalc.exact import Real
from physcalc.figures.graph_diagram import Axis, GraphDiagram, Pair, Series
from physcalc.language import tree as t
from physcalc.language.plain import plain, plain_printed
from physcalc.language.words import punctuated
from physcalc.steps.values import plain_numeral

from .figure import Look
from .letters import joined, runs_equal
from .picture import Run
from .words import word


def alternative(diagram: GraphDiagram, look: Look) -> str:
    """What the graph shows, in words."""
    names = {
        "y": plain(diagram.y.label, look.conventions.style),
        "x": plain(diagram.x.label, look.conventions.style),
    }
    if look.choice == "axes":
        return word("graph-axes", look.lang, **names) + "."
    said = []
    for series in diagram.series:
        parts = [part for part in _parts(series, diagram, look) if part]
        label = plain(series.label, look.conventions.style) if series.label is not None else series.words
        said.append((f"{label}: " if label else "") + "; ".join(parts))
    return punctuated(f"{word('graph', look.lang, **names)}: {'. '.join(said)}.", look.lang)


def _parts(series: Series, diagram: GraphDiagram, look: Look) -> Iterator[str]:
    if series.points:
        ordered = sorted(series.points, key=lambda point: point.x)
        first, last = (_pair((point.x, point.y), diagram, look) for point in (ordered[0], ordered[-1]))
        if len(ordered) == 1:
            yield word("graph-one-point", look.lang, first=first)
        else:
            yield word("graph-points", look.lang, count=str(len(ordered)), first=first, last=last)
    if series.fit is not None and look.choice != "points":
        yield word("graph-fit", look.lang)
    for stretch in series.stretches:
        key = "graph-curve" if stretch.curve is not None else "graph-piece"
        ends = {"first": stretch.first, "last": stretch.last}
        yield word(key, look.lang, **{name: _pair(pair, diagram, look) for name, pair in ends.items()})


def _pair(pair: Pair, diagram: GraphDiagram, look: Look) -> str:
    x, y = (_number(value, axis, look) for value, axis in zip(pair, (diagram.x, diagram.y), strict=True))
    return f"({x}; {y})"


def _number(value: Fraction, axis: Axis, look: Look) -> str:
    conventions = look.conventions
    printed = t.Printed(plain_numeral(Real.of(value), conventions), axis.unit)
    return plain_printed(printed, conventions.style, conventions.unit_style)


def note(diagram: GraphDiagram, look: Look) -> tuple[Run, ...]:
    """The quantities that the graph gives, with their values: for those who may see answers."""
    if look.edition == "paper":
        return ()
    said: list[tuple[Run, ...]] = []
    for series in diagram.series:
        for found in series.found:
            kind = Run(word(f"graph-{found.kind}", look.lang) + " ")
            said.append((kind, *runs_equal(found.datum.name, look.value(found.datum))))
        if series.fit is not None and series.found and series.fit.weighted:
            said.append((Run(word("graph-both" if series.fit.both else "graph-weighted", look.lang)),))
    if not said:
        return ()
    (first, *others) = joined(said, punctuated("; ", look.lang))
    return (Run(first.text[:1].upper() + first.text[1:]), *others)
