"""The measured data of a graph as a table of the page."""

from __future__ import annotations

from typing import TYPE_CHECKING

import panflute as pf

from physcalc.figures.drawn import Diagram
from physcalc.language import Conventions
from physcalc.language import tree as t
from physcalc.language.plain import plain_printed

from .layouts.base import Block, Inline, Layout
from .text import inlines_of

if TYPE_CHECKING:
    from physcalc.figures.graph_diagram import Table

    from ..figures.picture import Run

#: As many points at most stand beside one another, each quantity in a line; more stand below one another.
_MOST_ACROSS = 6


def data_tables(diagram: Diagram, conventions: Conventions, layout: Layout) -> list[Block]:
    """The tables of a figure that shows measured data, where the author asks for them; else none."""
    if diagram.KIND != "graph":
        return []
    from physcalc.figures.graph_diagram import GraphDiagram  # Here: most documents have no graph.

    assert isinstance(diagram, GraphDiagram)
    return [
        _table(series.table, conventions, layout) for series in diagram.series if series.table is not None
    ]


def _table(table: Table, conventions: Conventions, layout: Layout) -> Block:
    from physcalc.figures.graph_diagram import Axis

    from ..figures.graph_paper import axis_label

    def text(printed: t.Printed) -> list[Inline]:
        return inlines_of(plain_printed(printed, conventions.style, conventions.unit_style))

    heads = []
    for name, unit, width in table.heads:
        head = _inlines(axis_label(Axis(t.Sym(name), unit), 0, conventions))
        heads.append(
            [*head, pf.Str("\u00a0(±\u00a0"), *text(width), pf.Str(")")] if width is not None else head
        )
    cells = [[text(cell) for cell in row] for row in table.rows]
    if len(cells) <= _MOST_ACROSS:
        lines = [[head, *(row[n] for row in cells)] for n, head in enumerate(heads)]
        # Said in shares of the line: where a program shares it out alike, names of quantities are broken.
        columns = [("AlignLeft", 0.22), *[("AlignCenter", 0.13)] * len(cells)]
        return pf.Table(
            pf.TableBody(*(_row(line, layout) for line in lines)),
            colspec=columns,
            head=pf.TableHead(),
            foot=pf.TableFoot(),
        )
    return pf.Table(
        pf.TableBody(*(_row(line, layout) for line in cells)),
        colspec=[("AlignCenter", "ColWidthDefault") for _ in heads],
        head=pf.TableHead(_row(heads, layout)),
        foot=pf.TableFoot(),
    )


def _row(cells: list[list[Inline]], layout: Layout) -> Block:
    return pf.TableRow(*(layout.cell(cell) for cell in cells))


def _inlines(runs: tuple[Run, ...]) -> list[Inline]:
    out: list[Inline] = []
    for run in runs:
        text: Inline = pf.Str(run.text)
        if run.slant:
            text = pf.Emph(text)
        if run.level:
            text = pf.Subscript(text) if run.level < 0 else pf.Superscript(text)
        out.append(text)
    return out
