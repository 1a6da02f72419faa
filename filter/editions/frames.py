"""Problems framed in their place, for a draft."""

from __future__ import annotations

from collections.abc import Iterable

import panflute as pf

from physcalc.problems import Problem

from .layouts import Layout
from .layouts.base import Block
from .text import inlines_of
from .words import Words


def framed(problems: Iterable[Problem], layout: Layout, words: Words) -> list[Block]:
    """One frame for each problem; notes are left out."""
    blocks: list[Block] = []
    for problem in problems:
        if problem.level == "note":
            continue
        span = problem.span
        # The page is made from one document: its name goes without saying, but where it consists of several files.
        file = f"{span.file}:" if span.among else ""
        place = f" ({file}{span.line}:{span.column})" if span.file else ""
        head = pf.Strong(*inlines_of(f"{words['problem']}{place}{words['colon']}"))
        lines = [pf.Para(head, pf.Space(), *inlines_of(problem.sentence()))]
        lines += [pf.Para(*inlines_of(line)) for line in (problem.mend(), *problem.because()) if line]
        blocks += layout.framed(lines)
    return blocks
