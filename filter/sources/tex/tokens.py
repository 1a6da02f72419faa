"""Raw LaTeX cut into what a scan looks at: commands, environments, and stretches in which nothing is ours."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

from physcalc.problems import nearest

from .arguments import argument, skip_blanks
from .names import ADDRESSES, BODIES, ENVIRONMENTS, VERBATIM

_TOKEN = re.compile(
    r"(?P<comment>%[^\n]*)"
    r"|\\(?P<edge>begin|end)[ \t]*\{(?P<environment>[^{}\\\n]{1,60})\}"
    r"|\\(?P<command>[A-Za-z@]+)\*?"
    r"|\\(?:.|\n|$)",
    re.DOTALL,
)
_VERB = re.compile(
    r"(?:\[[^\]\n]{0,200}\])?(?:\{[^{}\n]{0,40}\}(?=[^\sA-Za-z]))?([^\sA-Za-z*{])(?:(?!\1)[^\n]){0,500}\1"
)
#: The longest address that is looked for.
_LONGEST_ADDRESS = 2_000
_VERB_COMMANDS = frozenset({"verb", "lstinline", "mintinline", "Verb"})
_FI = re.compile(r"\\fi(?![A-Za-z@])")
#: Where a body that is never closed must have ended.
_OTHER = re.compile(r"\\(?:begin|end)[ \t]*\{(?:[Pp]hys[A-Za-z*]*|document)\}")
_BLANK_LINE = re.compile(r"\n[ \t]*\r?\n")


@dataclass(frozen=True, slots=True)
class Token:
    """A stretch of raw LaTeX.

    Attributes:
        sort: "dark" where nothing is ours; "body" for one of our environments that is read as it stands, from
            its opening to its closing; the edges of any other environment; any other command.
        start, end: its offsets; of a command, and of the edge of an environment, those of the name alone.
        name: the name of the command or environment as it was typed.
        meant: the name of ours that it stands for, where it was misspelt; else `name`.
        option: of a body, the stretch inside the brackets behind its opening.
        inner: of a body, the stretch of the body itself.
        fault: of a body: "open" where it has no end, "option" where its brackets have none, "end" where its end
            is misspelt.
        closing: of a body, the offset of its end's name, for a fault of it.
    """

    sort: Literal["dark", "body", "begin", "end", "command"]
    start: int
    end: int
    name: str = ""
    meant: str = ""
    option: tuple[int, int] | None = None
    inner: tuple[int, int] = (0, 0)
    fault: Literal["", "open", "option", "end"] = ""
    closing: tuple[int, int] = (0, 0)


def tokens(text: str, defined: Collection[str] = ()) -> Iterator[Token]:
    """All tokens of a source, in order; none overlaps another.

    Args:
        text: the source.
        defined: names that the author has given a meaning: nothing of ours is seen in them.
    """
    at = 0
    while (found := _TOKEN.search(text, at)) is not None:
        at = found.end()
        if found["comment"] is not None:
            yield Token("dark", found.start(), at)
        elif found["edge"]:
            token = _edge(text, found, defined)
            at = token.end
            yield token
        elif found["command"]:
            token = _command(text, found)
            at = token.end
            yield token


def meant_environment(name: str, defined: Collection[str]) -> str:
    """The environment of ours that a name stands for: itself, or nearly; empty where it is another."""
    if name in ENVIRONMENTS:
        return name
    if not name.lower().startswith("phys") or name in defined or len(name) > 30:
        return ""
    return nearest(name, ENVIRONMENTS) or ""


def _edge(text: str, found: re.Match[str], defined: Collection[str]) -> Token:
    name = found["environment"]
    start, end = found.span()
    if found["edge"] == "end":
        return Token("end", start, end, name, meant_environment(name, defined) or name)
    if name in VERBATIM:
        closing = text.find(f"\\end{{{name}}}", end)
        stop = len(text) if closing < 0 else closing + len(f"\\end{{{name}}}")
        return Token("dark", start, stop, name)
    meant = meant_environment(name, defined)
    if meant in BODIES:
        return _body(text, start, end, name, meant, defined)
    return Token("begin", start, end, name, meant or name)


def _body(text: str, start: int, end: int, name: str, meant: str, defined: Collection[str]) -> Token:
    option: tuple[int, int] | None = None
    fault: Literal["", "open", "option", "end"] = ""
    at = end
    while text[at : at + 1] in (" ", "\t"):
        at += 1
    if text[at : at + 1] == "[":
        option = argument(text, at, "[]")
        line_end = text.find("\n", at)
        line_end = len(text) if line_end < 0 else line_end
        if option is None:
            fault, at = "option", line_end
        else:
            at = option[1] + 1
    else:
        at = end
    other = _OTHER.search(text, at)
    limit = len(text) if other is None else other.start()
    if other is not None:
        typed = other[0][other[0].index("{") + 1 : -1]
        closes = other[0].startswith("\\end") and typed != "document"
        if closes and typed in (name, meant):
            return Token("body", start, other.end(), name, meant, option, (at, limit), fault)
        if closes and typed not in ENVIRONMENTS and meant_environment(typed, defined) == meant:
            place = (other.start(), other.end())
            return Token("body", start, other.end(), name, meant, option, (at, limit), "end", place)
    # Its first paragraph is taken for it: what follows may well be text again.
    blank = _BLANK_LINE.search(text, at, limit)
    stop = blank.start() if blank is not None else limit
    return Token("body", start, stop, name, meant, option, (at, stop), "open")


def _command(text: str, found: re.Match[str]) -> Token:
    name = found["command"]
    start, end = found.span()
    if name in _VERB_COMMANDS:
        verb = _VERB.match(text, end)
        if verb is not None:
            return Token("dark", start, verb.end(), name)
    elif name in ADDRESSES:
        at = skip_blanks(text, end)
        closing = text.find("}", at, at + _LONGEST_ADDRESS)
        if text[at : at + 1] == "{" and closing > 0 and "\n\n" not in text[at:closing]:
            return Token("dark", start, closing + 1, name)
    elif name == "iffalse":
        closing_fi = _FI.search(text, end)
        return Token("dark", start, len(text) if closing_fi is None else closing_fi.end(), name)
    return Token("command", start, found.start("command") + len(name), name)
