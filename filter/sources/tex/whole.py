"""Which files in LaTeX are documents of ours: told by their text, without pandoc."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

from physcalc.limits import limit
from physcalc.problems import Problem

from ..source import Source, decode_source
from .arguments import argument, skip_blanks
from .inputs import subfile_of
from .names import COMMANDS, ENVIRONMENTS, INPUTS, PACKAGE, defined_names, is_quiet, nearly_command
from .tokens import Token, tokens
from .woven import weave

#: Without one of these in it no text has anything of ours.
_HINT = "phys"


@dataclass(frozen=True, slots=True)
class Look:
    """What a file in LaTeX is.

    Attributes:
        whole: whether it begins a document, so that no other can read it as a chapter.
        ours: whether it, or a file that it reads, has anything of ours.
        reads: the real paths of the files that it reads, and that those read.
    """

    whole: bool
    ours: bool
    reads: frozenset[str] = frozenset()


def look_at(path: Path) -> Look:
    """What a file in LaTeX is.

    A file that cannot be read as text is looked at as far as that goes: what is wrong with it is told when it is
    checked. One that cannot be opened is taken for a document of ours, so that this is told.
    """
    most = limit("file-size")
    try:
        with path.open("rb") as file:
            data = file.read(most + 1)
    except OSError:
        return Look(whole=True, ours=True)
    try:
        source = decode_source(data[:most], str(path))
    except Problem:
        source = Source(str(path), data[:most].decode("utf-8", errors="replace"))
    text = source.text
    whole = _begins_document(text)
    if len(data) <= most and any(f"\\{name}" in text for name in INPUTS):
        woven = weave(source, path.parent)[0]
        text = woven.text
        reads = frozenset(os.path.realpath(other.name) for other in woven.others())
        return Look(whole, has_ours(text), reads)
    return Look(whole, has_ours(text))


def has_ours(text: str) -> bool:
    """Whether a text has an environment or a command of ours, perhaps misspelt, or asks for the package.

    Comments and what is shown as it stands count for nothing.
    """
    if _HINT not in text:
        return False
    defined = defined_names(text)
    return any(_is_ours(text, token) for token in tokens(text, defined) if token.name not in defined)


def _is_ours(text: str, token: Token) -> bool:
    match token.sort:
        case "body":
            return True
        case "begin" | "end":
            return token.meant in ENVIRONMENTS
        case "command":
            name = token.name
            if name in ("usepackage", "RequirePackage"):
                return _asks_for_package(text, token.end)
            if name in COMMANDS:
                return True
            return name.startswith(_HINT) and not is_quiet(name) and bool(nearly_command(name))
        case _:
            return False


def _asks_for_package(text: str, at: int) -> bool:
    at = skip_blanks(text, at)
    if text[at : at + 1] == "[":
        option = argument(text, at, "[]")
        if option is None:
            return False
        at = skip_blanks(text, option[1] + 1)
    name = argument(text, at, "{}") if text[at : at + 1] == "{" else None
    return name is not None and PACKAGE in (one.strip() for one in text[slice(*name)].split(","))


def _begins_document(text: str) -> bool:
    if "\\begin" not in text and "\\documentclass" not in text:
        return False
    for token in tokens(text):
        if token.sort == "command" and token.name == "documentclass":
            # A subfile is a chapter as well.
            return subfile_of(text, token) is None
        if token.sort == "begin" and token.name == "document":
            return True
    return False
