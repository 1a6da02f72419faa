"""Arguments of commands in raw LaTeX: what stands in brackets and braces."""

from __future__ import annotations

import re

#: The longest argument that is looked for, in characters, and how deep braces in it may stand in one another.
LONGEST = 20_000
_DEEPEST = 20

#: Blanks before an argument: LaTeX passes over them, over a line's end, and over comments.
_BLANKS = re.compile(r"(?:[ \t]|%[^\n]*\n)*(?:\r?\n(?:[ \t]|%[^\n]*\n)*)?")
#: What no argument of ours holds: the end of a paragraph, an environment.
_STOP = re.compile(r"\n[ \t]*\r?\n|\\(?:begin|end)[ \t]*\{")
_SIGN = re.compile(r"\\.|%[^\n]*|[\[\]{}]|\n[ \t]*\r?\n", re.DOTALL)


def skip_blanks(text: str, at: int) -> int:
    """The offset of what follows the blanks at an offset."""
    found = _BLANKS.match(text, at)
    return found.end() if found else at


def argument(text: str, at: int, signs: str, *, paragraphs: bool = False) -> tuple[int, int] | None:
    """The stretch inside the brackets or braces that open at an offset; None where they never close.

    Braces inside hide what they hold. An argument ends before an environment, and, unless `paragraphs` says
    otherwise, at the end of its paragraph, so that one that is left open swallows nothing else.

    Args:
        text: the source.
        at: the offset of the opening sign.
        signs: the opening and the closing sign.
    """
    depth = 0
    limit = min(len(text), at + LONGEST)
    for found in _SIGN.finditer(text, at + 1, limit):
        sign = found[0]
        if sign[0] == "\n":
            if not paragraphs:
                return None
        elif sign[0] == "\\":
            if _STOP.match(text, found.start()):
                return None
        elif sign == signs[1] and depth == 0:
            return at + 1, found.start()
        elif sign == "[" and signs == "[]" and depth == 0:
            return None  # Brackets do not nest; so openings that nothing closes take no time.
        elif sign == "{":
            depth += 1
            if depth > _DEEPEST:
                return None
        elif sign == "}":
            depth -= 1
            if depth < 0:
                return None
    return None


def trimmed(text: str, stretch: tuple[int, int]) -> tuple[int, int]:
    """A stretch without the blanks around it."""
    start, end = stretch
    raw = text[start:end]
    start += len(raw) - len(raw.lstrip())
    return start, max(start, start + len(raw.strip()))
