"""The weighting grids of papers: as tables for a person, as CSV and JSON for programs."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

import click

from physcalc.exact import NumberStyle

from ..document import Grid, Weight, share_text
from .wording import as_json, cells, clean

_UNSAID = "not said"
_NONE = "–"
_GAP = "  "
#: Signs beside a share that is off its target.
_OFF = {-1: "too low", 0: "", 1: "too high"}
# A date that can be put in order: a year, perhaps a month, perhaps a day (ISO 8601).
_DATE = re.compile(r"\d{4}(-\d{2}(-\d{2})?)?")
# A cell that begins so is a formula for programs that show tables, and a document may hold anything.
_FORMULA = re.compile(r"[=+\-@\t\r]")


@dataclass(frozen=True, slots=True)
class Weighed:
    """A paper with its grid.

    Attributes:
        name: the document's name as it is shown.
        title: its title as plain text; empty for none.
        date: its date as typed; empty for none.
        grid: its marks by topic and level.
        style: how it writes numbers.
    """

    name: str
    title: str
    date: str
    grid: Grid
    style: NumberStyle

    @property
    def order(self) -> tuple[bool, str]:
        """Key that sorts papers by date; those without one that can be read stand last, as they came."""
        dated = _DATE.fullmatch(self.date) is not None
        return (not dated, self.date if dated else "")


def weights_text(papers: Sequence[Weighed], *, colour: bool = False) -> str:
    """A table for each paper and, where there are several, one of topics over all of them, by date.

    Args:
        papers: the papers in the order in which they were named.
        colour: whether what is off its target is coloured.
    """
    texts = [f"{_head(paper)}\n\n{_paper(paper, colour)}" for paper in papers]
    if len(papers) > 1:
        texts.append(
            f"marks by topic, paper by paper\n\n{_topics(sorted(papers, key=lambda one: one.order))}"
        )
    return "\n".join(texts)


def _head(paper: Weighed) -> str:
    told = [paper.title, paper.date, f"{paper.grid.total} marks"]
    return clean(f"{paper.name}: {', '.join(part for part in told if part)}")


def _paper(paper: Weighed, colour: bool) -> str:
    grid, style = paper.grid, paper.style
    aimed = any(weight.target is not None for weight in (*grid.topics, *grid.levels))
    tolerance = f"±{share_text(grid.tolerance, style)}" if grid.tolerance is not None else ""
    head = ["topic", *(_level(level) for level in grid.levels), "marks", "share"]
    rows = [[*head, *(["target", tolerance] if aimed else [])]]
    for topic in grid.topics:
        counts = [_count(grid.cells.get((topic.name, level.name), 0)) for level in grid.levels]
        row = [topic.name or _UNSAID, *counts, str(topic.marks), share_text(topic.share, style)]
        rows.append([*row, *([_target(topic, style), _OFF[topic.off]] if aimed else [])])
    rows.append(["marks", *(str(level.marks) for level in grid.levels), str(grid.total)])
    rows.append(["share", *(share_text(level.share, style) for level in grid.levels)])
    if any(level.target is not None for level in grid.levels):
        rows.append(["target", *(_target(level, style) for level in grid.levels)])
        rows.append(["", *(_OFF[level.off] for level in grid.levels)])
    return _aligned(rows, colour)


def _topics(papers: Sequence[Weighed]) -> str:
    """Rows are papers, columns topics; below them in how many papers each was asked, and its mean share."""
    names: dict[str, str] = {}
    for paper in papers:
        for topic in paper.grid.topics:
            if topic.marks:
                names.setdefault(topic.name.casefold(), topic.name)
    names = {**{key: name for key, name in names.items() if name}, **({"": ""} if "" in names else {})}
    rows = [["date", "paper", *(name or _UNSAID for name in names.values()), "marks"]]
    shares: dict[str, list[Fraction]] = {key: [] for key in names}
    for paper in papers:
        marks = {topic.name.casefold(): topic for topic in paper.grid.topics if topic.marks}
        for key, topic in marks.items():
            shares[key].append(topic.share)
        counts = [str(marks[key].marks) if key in marks else _NONE for key in names]
        rows.append([paper.date or _NONE, paper.name, *counts, str(paper.grid.total)])
    style = papers[0].style
    rows.append(["", "papers that ask it", *(str(len(shares[key])) for key in names), str(len(papers))])
    means = [sum(found, Fraction(0)) / len(papers) for found in shares.values()]
    rows.append(["", "mean share", *(share_text(mean, style) for mean in means)])
    return _aligned(rows, False, words=2)


def _aligned(rows: Sequence[Sequence[str]], colour: bool, words: int = 1) -> str:
    """Rows as lines: the first columns, `words` of them, at the left, the others at the right."""
    shown = [[clean(cell) for cell in row] for row in rows]
    count = max(map(len, shown))
    widths = [max((_width(row[at]) for row in shown if at < len(row)), default=0) for at in range(count)]
    lines = []
    for row in shown:
        pieces = []
        for at, cell in enumerate(row):
            blanks = " " * (widths[at] - _width(cell))
            painted = (
                click.style(cell, fg="red", bold=True) if colour and cell in ("too low", "too high") else cell
            )
            pieces.append(painted + blanks if at < words else blanks + painted)
        lines.append(_GAP.join(pieces).rstrip())
    return "".join(line + "\n" for line in lines if line)


def _width(text: str) -> int:
    return sum(width for _, width in cells(text))


def _level(weight: Weight) -> str:
    return f"level {weight.name}" if weight.name.isdecimal() else weight.name or _UNSAID


def _count(marks: int) -> str:
    return str(marks) if marks else _NONE


def _target(weight: Weight, style: NumberStyle) -> str:
    return "" if weight.target is None else share_text(weight.target, style)


def weights_csv(papers: Sequence[Weighed]) -> str:
    """One row for each paper, topic and level that has marks (RFC 4180, but for its line ends).

    Columns: file, date, title, topic, level, marks, share (of the paper's marks, in per cent, with a point).
    What is not said is an empty cell. A cell that a program for tables would take for a formula has an
    apostrophe in front.
    """
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(["file", "date", "title", "topic", "level", "marks", "share"])
    for paper in papers:
        grid = paper.grid
        for topic in grid.topics:
            for level in grid.levels:
                marks = grid.cells.get((topic.name, level.name), 0)
                if marks:
                    words = [paper.name, paper.date, paper.title, topic.name, level.name]
                    share = _percent(Fraction(marks, grid.total))
                    writer.writerow([*(_harmless(word) for word in words), marks, share])
    return out.getvalue()


def _harmless(word: str) -> str:
    return f"'{word}" if _FORMULA.match(word) else word


def weights_json(papers: Sequence[Weighed]) -> str:
    """A list of objects, one a paper, in the order in which they were named.

    The keys of an object: `file`, `title`, `date` (as typed, or null), `marks`, `tolerance` (or null), `topics` and
    `levels` (each a list of objects with `name`, `marks`, `share`, `target` and `off`), and `cells` (a list of objects
    with `topic`, `level` and `marks`). Shares, targets and the tolerance are in per cent, `off` is -1 below the target,
    1 above it and else 0. A name that is not said is null.
    """
    return as_json([_object(paper) for paper in papers]) + "\n"


def _object(paper: Weighed) -> dict[str, Any]:
    grid = paper.grid
    return {
        "file": paper.name,
        "title": paper.title or None,
        "date": paper.date or None,
        "marks": grid.total,
        "tolerance": None if grid.tolerance is None else _percent(grid.tolerance),
        "topics": [_weight(topic) for topic in grid.topics],
        "levels": [_weight(level) for level in grid.levels],
        "cells": [
            {"topic": topic or None, "level": level or None, "marks": marks}
            for (topic, level), marks in grid.cells.items()
        ],
    }


def _weight(weight: Weight) -> dict[str, Any]:
    return {
        "name": weight.name or None,
        "marks": weight.marks,
        "share": _percent(weight.share),
        "target": None if weight.target is None else _percent(weight.target),
        "off": weight.off,
    }


def _percent(share: Fraction) -> float | int:
    percent = share * 100
    return percent.numerator if percent.denominator == 1 else round(float(percent), 4)


#: By the name that `--format` takes; text has colours and is not among them.
WEIGHTS: Mapping[str, Callable[[Sequence[Weighed]], str]] = {"csv": weights_csv, "json": weights_json}
