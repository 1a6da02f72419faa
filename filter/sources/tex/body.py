"""Bodies of blocks in raw LaTeX, line by line."""

from __future__ import annotations

from physcalc.problems import Text

from .woven import Woven


def body_lines(source: Woven, start: int, end: int) -> tuple[Text, ...]:
    """The lines of a body, without what indents all of them, each with its place."""
    text = source.text
    stretches: list[tuple[int, int]] = []
    at = start
    while at <= end:
        stop = text.find("\n", at, end)
        last = stop < 0
        stop = end if last else stop
        stretches.append((at, stop - 1 if stop > at and text[stop - 1] == "\r" else stop))
        if last:
            break
        at = stop + 1
    # What stands behind the opening, and before the closing, is no line where it is blank.
    if not text[slice(*stretches[0])].strip():
        stretches = stretches[1:]
        first = None
    else:
        first = stretches[0]
    if stretches and not text[slice(*stretches[-1])].strip():
        stretches = stretches[:-1]
    filled = [text[begin:stop] for begin, stop in stretches if (begin, stop) != first]
    indents = [len(line) - len(line.lstrip(" ")) for line in filled if line.strip(" ")]
    indent = min(indents, default=0)
    lines: list[Text] = []
    for begin, stop in stretches:
        line = text[begin:stop]
        lead = len(line) - len(line.lstrip(" "))
        lead = lead if (begin, stop) == first else min(indent, lead)
        lines.append(Text(line[lead:], source.span(begin + lead, max(begin + lead + 1, stop))))
    return tuple(lines)
