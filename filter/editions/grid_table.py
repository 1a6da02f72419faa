"""The marks of a paper by topic and level, as a table of the page."""

from __future__ import annotations

from collections.abc import Iterable

import panflute as pf

from physcalc.exact import NumberStyle

from ..document.grid import Grid, Weight, share_text
from .layouts import Layout
from .layouts.base import Block, Inline, math
from .text import inlines_of
from .words import Words

_ARROWS = {-1: r"\downarrow", 1: r"\uparrow"}


def grid_table(grid: Grid, words: Words, style: NumberStyle, layout: Layout) -> list[Block]:
    """A row for each topic, a column for each level, sums, shares and targets.

    A share that is off its target is set strong, with an arrow that says whether it is too large or too small.

    Args:
        grid: the marks.
        words: the words of the page.
        style: how numbers are written.
        layout: how wide columns are.
    """
    aimed = any(weight.target is not None for weight in (*grid.topics, *grid.levels))
    marks = words["marks"][:1].upper() + words["marks"][1:]
    target = words["target"]
    if aimed and grid.tolerance is not None:
        target += f" (±\u00a0{share_text(grid.tolerance, style)})"
    levels = [_level(weight, words) for weight in grid.levels]
    head = [words["topic"], *levels, marks, "%", *([target] if aimed else [])]
    lines: list[list[list[Inline]]] = [[[pf.Strong(*inlines_of(text))] if text else [] for text in head]]
    for topic in grid.topics:
        counts = [_count(grid.cells.get((topic.name, level.name), 0)) for level in grid.levels]
        cells = [
            inlines_of(topic.name or words["unsaid"]),
            *counts,
            _count(topic.marks),
            _share(topic, style),
        ]
        lines.append([*cells, *([_target(topic, style)] if aimed else [])])
    end: list[list[Inline]] = [[]] if aimed else []
    whole = [pf.Strong(pf.Str(str(grid.total)))]
    sums = [_count(level.marks) for level in grid.levels]
    lines.append([[pf.Strong(pf.Str(marks))], *sums, whole, [], *end])
    lines.append([inlines_of("%"), *(_share(level, style) for level in grid.levels), [], [], *end])
    if any(level.target is not None for level in grid.levels):
        aims = [_target(level, style) for level in grid.levels]
        lines.append([inlines_of(words["target"]), *aims, [], [], *end])
    rows = [_row(line, layout) for line in lines]
    columns = layout.columns(len(head))
    return [
        pf.Table(pf.TableBody(*rows[1:]), colspec=columns, head=pf.TableHead(rows[0]), foot=pf.TableFoot())
    ]


def _level(weight: Weight, words: Words) -> str:
    if not weight.name:
        return words["unsaid"]
    # A number alone says nothing above a column.
    return f"{words['level']}\u00a0{weight.name}" if weight.name.isdecimal() else weight.name


def _count(marks: int) -> list[Inline]:
    return [pf.Str(str(marks))] if marks else [pf.Str("–")]


def _share(weight: Weight, style: NumberStyle) -> list[Inline]:
    text = pf.Str(share_text(weight.share, style))
    if not weight.off:
        return [text]
    return [pf.Strong(text), pf.Str("\u00a0"), math(_ARROWS[weight.off])]


def _target(weight: Weight, style: NumberStyle) -> list[Inline]:
    return [] if weight.target is None else [pf.Str(share_text(weight.target, style))]


def _row(cells: Iterable[list[Inline]], layout: Layout) -> pf.TableRow:
    return pf.TableRow(*(layout.cell(cell) for cell in cells))
