"""Raw LaTeX as the running text that it becomes, with the place of every character.

Pandoc decides what is text; this only has to come so close that what is found in pandoc's text is found here too.
"""

from __future__ import annotations

import re
from bisect import bisect_right

from ..flat import Flat
from ..quantities import GAP
from ..tex_text import upright_text
from .arguments import argument, skip_blanks
from .names import COMMANDS, DEFINING, DIVS, INPUTS
from .tokens import tokens
from .woven import Woven

_PIECE = re.compile(
    r"(?P<math>\$(?P<inline>(?:\\.|[^$\\]){1,2000})\$|\\\((?P<round>.{1,400}?)\\\))"
    r"|(?P<display>\$\$.{0,1000}?\$\$|\\\[.{0,1000}?\\\])"
    r"|(?P<thin>~|\\[ ,;:]|\\(?:quad|qquad|enspace|thinspace)(?![A-Za-z]))"
    r"|(?P<command>\\[A-Za-z@]+\*?[ \t]*|[{}])"
    r"|\\(?P<escaped>[^A-Za-z\s])"
    r"|(?P<blank>[ \t\r\n]+)",
    re.DOTALL,
)
_ARGUMENTS_OF = frozenset(
    {*COMMANDS, *INPUTS, "label", "ref", "eqref", "includegraphics", "usepackage", "cite"}
)


def flatten_tex(source: Woven) -> Flat:
    """The running text of a LaTeX source."""
    gaps = _gaps(source.text)
    opened = [start for start, _ in gaps]
    pieces: list[str] = []
    starts: list[int] = []
    ends: list[int] = []

    def put(made: str, start: int, end: int) -> None:
        pieces.extend(made)
        starts.extend([start] * len(made))
        ends.extend([end] * len(made))

    text = source.text
    at = 0
    while at < len(text):
        index = bisect_right(opened, at) - 1
        if index >= 0 and at < gaps[index][1]:
            put(GAP, at, gaps[index][1])
            at = gaps[index][1]
            continue
        limit = opened[index + 1] if index + 1 < len(opened) else len(text)
        found = _PIECE.match(text, at, limit)
        if found is None:
            put(text[at], at, at + 1)
            at += 1
            continue
        end = found.end()
        match found.lastgroup:
            case "math" | "inline" | "round":
                put(upright_text(found["inline"] or found["round"]), at, end)
            case "display":
                put(GAP, at, end)
            case "thin":
                put("\u00a0", at, end)
            case "escaped":
                put(found["escaped"], at, end)
            case "blank":
                if pieces and pieces[-1] != " ":
                    put(" ", at, end)
            case _:
                pass  # Commands and braces leave no character.
        at = end
    return Flat("".join(pieces), tuple(starts), tuple(ends))


def _gaps(text: str) -> list[tuple[int, int]]:
    """Stretches that are no running text, in order; none overlaps another."""
    begin = text.find("\\begin{document}")
    found: list[tuple[int, int]] = [(0, begin)] if begin > 0 else []
    at = max(begin, 0)
    for token in tokens(text):
        if token.start < at:
            continue
        end = token.end
        if token.sort == "end" and token.name == "document":
            found.append((token.start, len(text)))
            break
        if token.sort == "command" and token.name not in _ARGUMENTS_OF and token.name not in DEFINING:
            continue
        if token.name == "physmark":
            continue
        if token.sort in ("begin", "command"):
            end = _behind(text, end, options=token.sort == "command" or token.name in DIVS)
        found.append((token.start, end))
        at = end
    return [one for one in found if one[1] > one[0]]


def _behind(text: str, at: int, *, options: bool) -> int:
    """The offset behind the arguments that follow."""
    while options:
        start = skip_blanks(text, at)
        closing = {"[": "]", "{": "}"}.get(text[start : start + 1])
        inner = argument(text, start, text[start] + closing, paragraphs=True) if closing else None
        if inner is None:
            break
        at = inner[1] + 1
    return at
