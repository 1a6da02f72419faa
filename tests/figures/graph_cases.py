"""Graphs for the tests, as an author types them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from physcalc.checking.scope import Scope
from physcalc.engine import read_given
from physcalc.exact import NumberStyle
from physcalc.figures.drawn import Drawn
from physcalc.figures.graph_diagram import FOUND_KEYS, GraphDiagram, GraphText, SeriesText
from physcalc.figures.stage import draw
from physcalc.language import Conventions, GivenText
from physcalc.language.names import Name, read_name
from physcalc.language.plain import plain_printed
from physcalc.problems import Span, Text

POINT_SIGN = Conventions(decimal=".", style=NumberStyle("."))


def scope_of(**given: str) -> Scope:
    layer, problems = read_given(
        [GivenText(Text(name), Text(value)) for name, value in given.items()], Scope(), POINT_SIGN
    )
    assert problems == []
    return Scope((layer,))


def series(
    points: Sequence[str] = (),
    pieces: Mapping[str, str] | None = None,
    curve: Sequence[str] = (),
    **keys: str | Sequence[str],
) -> SeriesText:
    found = []
    for key, value in keys.items():
        kind = key.replace("_", " ")
        if kind in FOUND_KEYS:
            found += [(kind, Text(one)) for one in ([value] if isinstance(value, str) else value)]
    texts = {
        name: Text(value)
        for name in ("name", "fit", "triangle", "worst", "mark", "table")
        if isinstance(value := keys.get(name), str)
    }
    lines = tuple((Text(key), Text(value)) for key, value in (pieces or {}).items())
    return SeriesText(
        Span(),
        points=tuple(map(Text, points)),
        pieces=lines,
        curves=tuple(map(Text, curve)),
        found=tuple(found),
        **texts,
    )  # type: ignore[arg-type]


def drawn(
    plotted: str,
    *all_series: SeriesText,
    scope: Scope | None = None,
    conventions: Conventions = POINT_SIGN,
    x_axis: str = "",
    y_axis: str = "",
) -> Drawn:
    ranges = {name: Text(value) for name, value in (("x_axis", x_axis), ("y_axis", y_axis)) if value}
    return draw(GraphText(Span(), conventions, Text(plotted), all_series, **ranges), scope or Scope())


def diagram_of(found: Drawn) -> GraphDiagram:
    assert isinstance(found.diagram, GraphDiagram), found.problems
    return found.diagram


def slugs(found: Drawn) -> list[str]:
    return [problem.slug for problem in found.problems]


def named(name: str) -> Name:
    found = read_name(name)
    assert found is not None
    return found


def printed(found: Drawn, name: str, conventions: Conventions = POINT_SIGN) -> str:
    """A quantity that a graph gives as it is printed, its blanks as plain ones."""
    datum = found.results[named(name)]
    assert datum.printed is not None
    text = plain_printed(datum.printed, conventions.style, conventions.unit_style)
    return text.replace("\u00a0", " ").replace("\u202f", " ")
