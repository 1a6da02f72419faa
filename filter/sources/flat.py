"""Raw Markdown as the running text that it becomes, with the place of every character.

Pandoc decides what is text; this only has to come so close that what is found in pandoc's text is found here too.
"""

from __future__ import annotations

import html
import re
from bisect import bisect_right
from dataclasses import dataclass

from .attributes import read_attributes
from .fences import read_prefix
from .inlines import inline_marks
from .mathematics import MATHS
from .quantities import GAP
from .shadows import dark_stretches
from .source import Source
from .tex_text import script, upright_text

_TOKEN = re.compile(
    r"""
      (?P<escape> \\[^\w\s] )
    | (?P<hard> \\[ ] )
    | (?P<code> (?P<ticks> `+ ) (?: (?!\n[ \t]*\r?\n) . )+? (?<!`)(?P=ticks)(?!`) )
    | (?P<script> (?P<sign> [\^~] ) (?P<body> (?: \\[ ] | [^\s^~] )+ ) (?P=sign) )
    | (?P<raised> <(?P<tag> sup|sub)> (?P<inner> [^<>\n]* ) </(?P=tag)> )
    | (?P<html> </?[A-Za-z][^<>\n]*> )
    | (?P<picture> !\[ [^\[\]\n]* \]\( [^()\n]* \) )
    | (?P<target> \]\( [^()\s]* (?:[ ]+"[^"\n]*")? \) )
    | (?P<entity> &(?:[A-Za-z]{2,10}|\#[0-9]{1,6}|\#x[0-9A-Fa-f]{1,6}); )
    | (?P<brace> \{ )
    | (?P<star> \*+ | ~~ )
    | (?P<under> (?<!\w)_+ | _+(?!\w) )
    | (?P<bracket> [\[\]] )
    | (?P<cell> \| )
    | (?P<end> \r?\n )
    | (?P<blank> [ \t]+ )
    """,
    re.VERBOSE | re.DOTALL,
)


@dataclass(frozen=True, slots=True)
class Flat:
    """Running text with its places.

    Attributes:
        text: the text; `GAP` stands for code, tied values, and whatever else is no running text.
        starts, ends: for each character the stretch of the source that makes it.
    """

    text: str
    starts: tuple[int, ...]
    ends: tuple[int, ...]

    def stretch(self, start: int, end: int) -> tuple[int, int, bool]:
        """The stretch of the source behind `text[start:end]`, and whether it makes nothing else."""
        first, last = self.starts[start], self.ends[end - 1]
        alone = (start == 0 or self.ends[start - 1] <= first) and (
            end == len(self.text) or self.starts[end] >= last
        )
        return first, last, alone


def flatten(source: Source) -> Flat:
    """The running text of a Markdown source."""
    return _Flattener(source).all()


class _Flattener:
    def __init__(self, source: Source) -> None:
        self.source = source
        self.pieces: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        # What is left out as a whole: dark stretches, and spans and code of ours with their attributes.
        gaps = dark_stretches(source)
        for mark in inline_marks(source):
            if mark.kind in ("span-value", "define"):
                gaps.append((mark.start, mark.attributes.end))
        self.gaps = sorted(gaps)
        self.maths = {
            found.start(): (found.end(), found["display"] or found["inline"])
            for found in MATHS.finditer(source.text)
        }

    def all(self) -> Flat:
        for number, start in enumerate(self.source.starts):
            line = self.source.line_text(number)
            if not line.strip() or line.lstrip().startswith(":::"):
                self.gaps.append((start, start + max(1, len(line))))
            elif end := read_prefix(line).end:
                self.gaps.append((start, start + end))
        self.gaps = _joined(self.gaps)
        opened = [start for start, _ in self.gaps]
        text = self.source.text
        at = 0
        while at < len(text):
            index = bisect_right(opened, at) - 1
            if index >= 0 and at < self.gaps[index][1]:
                self.put(GAP, at, self.gaps[index][1])
                at = self.gaps[index][1]
                continue
            limit = opened[index + 1] if index + 1 < len(opened) else len(text)
            at = self.one(at, limit)
        return Flat("".join(self.pieces), tuple(self.starts), tuple(self.ends))

    def one(self, at: int, limit: int) -> int:
        """Takes in what stands at an offset; the offset behind it."""
        text = self.source.text
        if text[at] == "$" and at in self.maths and self.maths[at][0] <= limit:
            end, tex = self.maths[at]
            self.put(upright_text(tex), at, end)
            return end
        found = _TOKEN.match(text, at, limit)
        if found is None:
            self.put(text[at], at, at + 1)
            return at + 1
        end = found.end()
        match found.lastgroup:
            case "escape":
                self.put(found[0][1], at, end)
            case "hard":
                self.put("\u00a0", at, end)
            case "script":
                self.put(script("^" if found["sign"] == "^" else "_", found["body"]), at, end)
            case "raised":
                self.put(script("^" if found["tag"] == "sup" else "_", found["inner"]), at, end)
            case "entity":
                self.put(html.unescape(found[0]), at, end)
            case "brace":
                attributes = read_attributes(self.source, at)
                if attributes is None or attributes.end > limit:
                    self.put("{", at, at + 1)
                    return at + 1
                self.put(GAP, at, attributes.end)
                return attributes.end
            case "star" if self._multiplies(at, end):
                self.put(found[0], at, end)
            case "code" | "picture" | "cell":
                self.put(GAP, at, end)
            case "end" | "blank":
                # Pandoc makes one blank of a row of them.
                if self.pieces and self.pieces[-1] != " ":
                    self.put(" ", at, end)
            case _:
                pass  # Emphasis, brackets and tags leave no character.
        return end

    def put(self, made: str, start: int, end: int) -> None:
        for character in made:
            self.pieces.append(character)
            self.starts.append(start)
            self.ends.append(end)

    def _multiplies(self, start: int, end: int) -> bool:
        """Whether a star stands between two numbers, as in 6*10^-7^."""
        text = self.source.text
        return bool(
            re.search(r"[0-9] ?$", text[max(0, start - 2) : start]) and re.match(r" ?1", text[end : end + 2])
        )


def _joined(stretches: list[tuple[int, int]]) -> list[tuple[int, int]]:
    """Stretches in order, overlapping ones made one."""
    found: list[tuple[int, int]] = []
    for start, end in sorted(stretches):
        if found and start < found[-1][1]:
            found[-1] = (found[-1][0], max(found[-1][1], end))
        elif end > start:
            found.append((start, end))
    return found
