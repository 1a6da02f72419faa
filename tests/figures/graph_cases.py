"""Graphs for the tests, as an author types them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from fractions import Fraction

from physcalc_filter.figures.figure import Figure, Look
from physcalc_filter.figures.graphs import scales
from physcalc_filter.figures.picture import Line, Picture
from physcalc_filter.figures.stage import figure_of

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


TABLE = ("t in s, v in m/s ± 0.2", "0, 0.4", "1.0, 2.1", "2.0, 4.0", "3.0, 6.2")


BUS = {"0 s to 4 s": "0 m/s to 8 m/s", "4 s to 10 s": "constant", "10 s to 12 s": "to 0 m/s"}


def figure(
    found: Drawn, choice: str = "drawn", edition: str = "memo", conventions: Conventions = POINT_SIGN
) -> Figure:
    look = Look("en", edition, lambda datum: "1 N", conventions, choice)
    return figure_of(diagram_of(found), look)


def lines(picture: Picture, role: str) -> list[Line]:
    return [shape for shape in picture.with_role(role) if isinstance(shape, Line)]


def at(found: Drawn, x: float, y: float) -> tuple[float, float]:
    across, up = scales(diagram_of(found))
    return across.at(Fraction(x)), up.at(Fraction(y))


def near(one: tuple[float, float], other: tuple[float, float], by: float = 1e-6) -> bool:
    return math.isclose(one[0], other[0], abs_tol=by) and math.isclose(one[1], other[1], abs_tol=by)
