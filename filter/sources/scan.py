"""The scan of raw Markdown for everything that may be ours."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import replace

from .fences import FenceScan
from .inlines import inline_marks
from .marks import Mark
from .mathematics import MATHS
from .sections import section_marks
from .shadows import Shadows
from .source import Source


def scan_markdown(source: Source) -> list[Mark]:
    """Everything in a Markdown source that may be a block, a value, a definition, a question: in its order.

    Found are fenced code blocks (given, calc, options, draw), inline code and spans (value, define, mark),
    headings and divs (question, answer, only), in Markdown's notation and, for spans and divs, in HTML's.
    What stands in comments, in other code blocks, in maths and in front matter is found too, and marked as not likely.
    """
    fences = FenceScan(source)
    shadows = Shadows(source, fences)
    maths = [found.span() for found in MATHS.finditer(source.text)]
    openings = [start for start, _ in maths]

    def all_marks() -> Iterator[Mark]:
        for mark in fences.marks():
            hidden = shadows.hide(source.offset(mark.attributes.span), block=True)
            yield replace(mark, likely=not hidden)
        for found in (section_marks(source), inline_marks(source)):
            for mark in found:
                last = bisect_right(openings, mark.start) - 1
                in_maths = last >= 0 and mark.start < maths[last][1]
                yield replace(mark, likely=not (in_maths or shadows.hide(mark.start, block=False)))

    return sorted(all_marks(), key=lambda mark: (mark.start, mark.end))
