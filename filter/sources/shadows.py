"""Stretches of raw Markdown in which nothing is ours: front matter, comments, code blocks."""

from __future__ import annotations

import re
from bisect import bisect_right

from .fences import FenceScan, read_prefix
from .front_matter import front_matter_lines
from .source import Source

#: The blanks that a line begins with, behind the signs of block quotes.
_LEAD = re.compile(r"(?: {0,3}> ?)*([ \t]*)")


class Shadows:
    """Where the scan believes that nothing of ours stands. It may be wrong: pandoc decides."""

    def __init__(self, source: Source, scan: FenceScan) -> None:
        dark: list[tuple[int, int]] = []
        at = 0
        lines = front_matter_lines(source)
        if lines is not None:
            at = source.starts[lines[1]]
            dark.append((0, at))
        dark += _indented(source, scan)
        code = list(dark)
        fences: list[tuple[int, int]] = []
        comments: list[tuple[int, int]] = []
        # What begins first hides the beginnings of the other inside it.
        candidates = iter(scan.fences())
        fence = next(candidates, None)
        while True:
            comment = source.text.find("<!--", at)
            while fence is not None and (fence.start < at or _inside(fence.start, code)):
                fence = next(candidates, None)
            if fence is not None and (comment < 0 or fence.start <= comment):
                fences.append((fence.start, fence.end))
                at = fence.end
            elif comment >= 0:
                closing = source.text.find("-->", comment + 4)
                at = comment + 4 if closing < 0 else closing + 3
                if closing >= 0:
                    comments.append((comment, at))
            else:
                break
        self._source = source
        self._fences = fences
        self._dark = sorted(dark)
        self._comments = comments

    def stretches(self) -> list[tuple[int, int]]:
        """Offsets of the beginning and the end of each such stretch, code blocks among them."""
        return sorted({*self._dark, *self._comments, *self._fences})

    def hide(self, offset: int, *, block: bool) -> bool:
        """Whether an offset lies in such a stretch.

        Args:
            offset: where an element's attributes or content begin.
            block: whether it is a code block, which is hidden only in one that begins on another line.
        """
        if _inside(offset, self._dark) or _inside(offset, self._comments):
            return True
        before = bisect_right(self._fences, (offset, len(self._source.text))) - 1
        if before < 0 or offset >= self._fences[before][1]:
            # Openings that are no outermost block of their own never count as blocks.
            return block
        start = self._fences[before][0]
        return not (block and self._source.line_at(start) == self._source.line_at(offset))


def dark_stretches(source: Source) -> list[tuple[int, int]]:
    """Offsets of the beginning and the end of each stretch in which no running text stands."""
    return Shadows(source, FenceScan(source)).stretches()


def _inside(offset: int, pieces: list[tuple[int, int]]) -> bool:
    before = bisect_right(pieces, (offset, 1 << 60)) - 1
    return before >= 0 and offset < pieces[before][1]


def _indented(source: Source, scan: FenceScan) -> list[tuple[int, int]]:
    """Lines that look like indented code: four columns in, after a blank line, and no list open."""
    found: list[tuple[int, int]] = []
    listed = code = False
    blank = True
    for number, line in enumerate(scan.lines):
        if not line.strip():
            blank = True
            continue
        blanks = _LEAD.match(line)
        deep = blanks is not None and len(blanks[1].expandtabs(4)) >= 4
        code = deep and not listed and (blank or code)
        if code:
            found.append((source.starts[number], source.starts[number] + len(line) + 1))
        elif read_prefix(line).marker:
            listed = True
        elif line[0] not in " \t" and blank:
            listed = False
        blank = False
    return found
