"""Commands that read a file, and where TeX looks for it: LaTeX's own, and those of the packages import and subfiles.

Checked against import.sty 6.2 (2020) and subfiles.sty 2.2 (2020), and in `tests/latex` against what TeX opens.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from .arguments import argument, skip_blanks, trimmed
from .names import SUBFILE_CLASS
from .tokens import Token, tokens

#: Whether a command takes a folder and a file ("import" from the document's folder, "subimport" from that of the file
#: that was imported last), or a file alone.
_KINDS: Mapping[str, str] = {
    "input": "file",
    "include": "file",
    "import": "import",
    "inputfrom": "import",
    "includefrom": "import",
    "subimport": "subimport",
    "subinputfrom": "subimport",
    "subincludefrom": "subimport",
    "subfile": "subfile",
    "subfileinclude": "subfile",
}
#: Those of packages may as well be an author's own.
_FOREIGN = frozenset(_KINDS) - {"input", "include"}
_DEFINED = re.compile(
    rf"\\(?:(?:re|provide)?newcommand|providecommand|renewcommand|(?:New|Renew|Provide|Declare)DocumentCommand|[egx]?def|let)"
    rf"\*?[ \t]*\{{?[ \t]*\\({'|'.join(sorted(_FOREIGN))})(?![A-Za-z@])"
)
_SUBFIX = re.compile(r"\\subfix[ \t]*\{([^{}]*)\}")


@dataclass(frozen=True, slots=True)
class Search:
    """Where files are looked for: texts that are put before a name, empty or with a slash at their end.

    Attributes:
        base: the folder of the file that was imported last, from the document's.
        paths: the folders that are tried before the document's own, the last one first.
    """

    base: str = ""
    paths: tuple[str, ...] = ()

    def imported(self, base: str) -> Search:
        """That of what is imported from a folder."""
        base = base and base.rstrip("/") + "/"
        return Search(base, (base, *self.paths))


@dataclass(frozen=True, slots=True)
class Asked:
    """A file that is to be read.

    Attributes:
        start, end: the stretch of its name.
        stop: the offset behind the command.
        folder: what a folder of its own that the command names puts before the name; empty for none.
        name: the name.
        search: where it is looked for, and what it reads itself.
        subfile: whether its own preamble is left out.
        apart: whether it begins and ends a page, and so a paragraph.
    """

    start: int
    end: int
    stop: int
    folder: str
    name: str
    search: Search
    subfile: bool
    apart: bool

    def names(self) -> Iterator[str]:
        """The names that are tried, from the document's folder, in TeX's order."""
        for path in (*self.search.paths, ""):
            yield path + self.folder + self.name


def defined_inputs(text: str) -> frozenset[str]:
    """The commands of packages to which an author has given another meaning."""
    return frozenset(found[1] for found in _DEFINED.finditer(text))


def asked_for(text: str, token: Token, search: Search) -> Asked | None:
    """The file that a command reads; None where it names none.

    Args:
        text: the source.
        token: the command.
        search: where files are looked for at this place.
    """
    kind = _KINDS[token.name]
    apart = "include" in token.name
    at = token.end
    if kind in ("import", "subimport") and text[at : at + 1] == "*":
        at += 1
    at = skip_blanks(text, at)
    if text[at : at + 1] != "{":
        end = at
        while end < len(text) and not text[end].isspace() and text[end] not in "{}%\\":
            end += 1
        if token.name != "input" or end == at:
            return None
        return Asked(at, end, end, "", text[at:end], search, False, False)
    inner = argument(text, at, "{}")
    if inner is None:
        return None
    folder = ""
    if kind in ("import", "subimport"):
        named = text[slice(*inner)].strip()
        at = skip_blanks(text, inner[1] + 1)
        inner = argument(text, at, "{}") if text[at : at + 1] == "{" else None
        if inner is None:
            return None
        search = search.imported(named if kind == "import" else search.base + named)
        folder = search.base
    name = text[slice(*inner)].strip()
    if kind == "file" and (fixed := _SUBFIX.fullmatch(name)):
        name = search.base + fixed[1]
    elif kind == "subfile":
        above, slash, name = name.rpartition("/")
        search = search.imported(search.base + above + slash)
        folder = search.base
    return Asked(*inner, inner[1] + 1, folder, name, search, kind == "subfile", apart)


def body_of(text: str) -> tuple[int, int] | None:
    """The stretch of a subfile that another document reads; None where its preamble never ends."""
    classed = False
    start = -1
    for token in tokens(text):
        if token.sort == "command" and token.name == "documentclass":
            classed = True
        elif token.name == "document" and token.sort == "begin" and start < 0:
            start = token.end
        elif token.name == "document" and token.sort == "end":
            return max(start, 0), token.start
    if start < 0:
        return None if classed else (0, len(text))
    return start, len(text)


def subfile_of(text: str, token: Token) -> tuple[int, int] | None:
    """The stretch with the name of the document whose preamble a file takes; None where it has its own.

    Args:
        text: the source.
        token: its `\\documentclass`.
    """
    at = skip_blanks(text, token.end)
    option = argument(text, at, "[]") if text[at : at + 1] == "[" else None
    if option is None:
        return None
    at = skip_blanks(text, option[1] + 1)
    name = argument(text, at, "{}") if text[at : at + 1] == "{" else None
    return trimmed(text, option) if name and text[slice(*name)].strip() == SUBFILE_CLASS else None
