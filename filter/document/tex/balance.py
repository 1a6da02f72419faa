"""Signs of LaTeX that nothing answers in their paragraph."""

from __future__ import annotations

import re

_SIGN = re.compile(
    r"(?P<passed>\\begin\{verbatim\}.{0,20000}?\\end\{verbatim\}|\\verb\*?(?P<delimiter>[^\sA-Za-z*])[^\n]{0,500}?(?P=delimiter)|"
    r"%[^\n]*|\\.)|(?P<end>\n[ \t]*\n)|(?P<sign>[{}]|\$\$?)",
    re.DOTALL,
)


def unclosed_in(text: str, start: int, end: int) -> int | None:
    """The offset of the first dollar sign or brace that is not closed in its paragraph; None where all are.

    Args:
        text: LaTeX.
        start, end: the stretch to look at.
    """
    braces: list[int] = []
    dollar = -1
    for found in _SIGN.finditer(text, start, end):
        if found["end"]:
            if dollar >= 0:
                return dollar
            # A brace may well hold several paragraphs.
        elif found["sign"] == "{":
            braces.append(found.start())
        elif found["sign"] == "}":
            if not braces:
                return found.start()
            braces.pop()
        elif found["sign"]:
            dollar = -1 if dollar >= 0 else found.start()
    if dollar >= 0:
        return dollar
    return braces[0] if braces else None
