"""The picture of a place: the line it stands on, with marks below it."""

from __future__ import annotations

from physcalc.problems import Span

from .wording import cells

#: Columns of the line's number; the line itself begins three further on.
NUMBER_WIDTH = 5
_CUT = "…"
#: How many characters before a place, and behind it, may come into its picture.
_FAR = 500


def picture(span: Span, line: str, width: int = 100) -> tuple[str, str]:
    """A source line and the line of marks below it.

    Args:
        span: the place on that line; past its end, the mark stands behind the line.
        line: the source line without its ending.
        width: how many columns the terminal has; a longer line is cut around the place.
    """
    # Of a line that fills many screens only what may be seen is looked at.
    start = max(0, span.column - _FAR)
    cut_before, cut_after = start > 0, len(line) > start + 2 * _FAR
    shown = cells(line[start : start + 2 * _FAR].rstrip())
    first = min(span.column - 1 - start, len(shown))
    last = max(first, min(first + span.length, len(shown)))
    low, high = _window(shown, first, last, max(20, width - NUMBER_WIDTH - 3))
    before = _CUT if low or cut_before else ""
    after = _CUT if high < len(shown) or cut_after else ""
    text = before + "".join(text for text, _ in shown[low:high]) + after
    lead = len(before) + _width(shown[low:first])
    marks = max(1, _width(shown[first : min(last, high)]))
    gutter = " " * NUMBER_WIDTH
    return f"{span.line:>{NUMBER_WIDTH}} | {text}", f"{gutter} | {' ' * lead}{'^' * marks}"


def _window(shown: list[tuple[str, int]], first: int, last: int, room: int) -> tuple[int, int]:
    """Which characters fit: the place as far as it does, then as much on both sides."""
    if _width(shown) <= room:
        return 0, len(shown)
    # Both ends may need a sign that something is cut off, and a wide character may be the last to fit.
    left = room - 2
    low = high = first
    while high < last and shown[high][1] <= left:
        left -= shown[high][1]
        high += 1
    grown = True
    while grown:
        grown = False
        if low > 0 and shown[low - 1][1] <= left:
            low, grown = low - 1, True
            left -= shown[low][1]
        if high < len(shown) and high >= last and shown[high][1] <= left:
            left -= shown[high][1]
            high, grown = high + 1, True
    return low, high


def _width(shown: list[tuple[str, int]]) -> int:
    return sum(width for _, width in shown)
