"""What is ours in a LaTeX source, by name; and what else a scan must know by name."""

from __future__ import annotations

import re
from collections.abc import Mapping

from ..marks import Kind

#: Environments whose body is read as it stands, with the class of the block that each is.
BODIES: Mapping[str, Kind] = {
    "physgiven": "given",
    "physcalculation": "calc",
    "physoptions": "options",
    "physdraw": "draw",
}
#: Environments that hold text, with the class of the div that each is.
DIVS: Mapping[str, Kind] = {
    "physquestion": "question",
    "physanswer": "answer",
    "physonly": "only",
    "physgrid": "grid",
}
ENVIRONMENTS: tuple[str, ...] = (*BODIES, *DIVS)
COMMANDS: tuple[str, ...] = ("physvalue", "physdefine", "physmark", "physsetup", "physsection")
#: How close to a command of ours a name is that was meant for it.
_CLOSE = 0.8
#: Commands of the package that mean nothing here.
PACKAGE = "physcalc"
_QUIET = re.compile(r"physcalc|physquestionheading$")

#: Environments in which nothing is ours, whatever stands in them.
VERBATIM = frozenset(
    {
        "verbatim", "verbatim*", "Verbatim", "Verbatim*", "BVerbatim", "LVerbatim", "lstlisting", "minted", "alltt",
        "comment", "filecontents", "filecontents*",
    }
)  # fmt: skip
#: Commands of other packages with an argument in which a percent sign is text.
ADDRESSES = frozenset({"url", "href", "path", "nolinkurl"})
#: Commands that define others.
DEFINING = frozenset(
    {
        "newcommand", "renewcommand", "providecommand", "def", "gdef", "edef", "newenvironment", "renewenvironment",
        "NewDocumentCommand", "RenewDocumentCommand", "ProvideDocumentCommand", "NewDocumentEnvironment",
    }
)  # fmt: skip
#: Commands that read a file: LaTeX's own, those of the packages import and subfiles.
INPUTS = frozenset(
    {
        "input", "include", "import", "subimport", "inputfrom", "subinputfrom", "includefrom", "subincludefrom",
        "subfile", "subfileinclude",
    }
)  # fmt: skip
#: The class of a file that another document reads as well, without its preamble.
SUBFILE_CLASS = "subfiles"

_DEFINED = re.compile(
    r"\\(?:(?:re)?newenvironment\*?|newtheorem\*?|(?:New|Renew|Provide|Declare)DocumentEnvironment"
    r"|(?:re|provide)?(?:new)?command\*?|(?:New|Renew|Provide|Declare)DocumentCommand|DeclareMathOperator\*?"
    r"|e?def|gdef|let)\s*\{?\s*\\?(phys[A-Za-z]*)"
)


def defined_names(text: str) -> frozenset[str]:
    """Names beginning with `phys` that the author has defined: they are none of ours, misspelt."""
    return frozenset(found[1] for found in _DEFINED.finditer(text))


def is_quiet(name: str) -> bool:
    """Whether a command is the package's own and has nothing to do with what is worked out."""
    return _QUIET.match(name) is not None


def nearly_command(name: str) -> str:
    """The command of ours that a name was most likely meant to be; empty for none.

    It has to be closer than names of ours otherwise are: packages of other authors have commands that begin so.
    """
    from difflib import get_close_matches  # Here: most documents have no such name.

    found = get_close_matches(name[:40], COMMANDS, n=1, cutoff=_CLOSE)
    return found[0] if found else ""
