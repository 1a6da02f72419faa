"""Lines of LaTeX as the words that stand on them, each at the column that it has there."""

from __future__ import annotations

import re

from .tokens import tokens
from .woven import Woven

_HEADING = re.compile(
    r"\\(?:part|chapter|(?:sub){0,2}section|(?:sub)?paragraph)\*?[ \t]*(?:\[[^\]\n]*\])?[ \t]*\{"
)
_STRONG = re.compile(r"\\(?:textbf[ \t]*\{|bfseries(?![A-Za-z])[ \t]*)")
#: Commands, with what says how wide a space is; signs of LaTeX alone.
_COMMAND = re.compile(r"\\[hv]space\*?\{[^{}\n]*\}|\\[A-Za-z]+\*?|\\[^A-Za-z]|\\$|[{}~]|(?<=item)\[|%.*$")
_LABEL = re.compile(r"(?<=\\item\[)([^\]\n]*)\]")


def plain_lines(source: Woven) -> list[str]:
    """The lines of a document, each as long as it is, with blanks for what is no word.

    A heading begins with "#" and strong text with "**", as in Markdown; what is no running text is blank.
    """
    text = source.text
    begin = text.find("\\begin{document}")
    dark = [(0, begin + len("\\begin{document}"))] if begin >= 0 else []
    for token in tokens(text):
        if token.sort in ("dark", "body"):
            dark.append((token.start, token.end))
        elif token.sort == "end" and token.name == "document":
            dark.append((token.start, len(text)))
    signs = list(text)
    for start, end in dark:
        signs[start:end] = [sign if sign in "\r\n" else " " for sign in signs[start:end]]
    shown = "".join(signs)
    return [_plain(shown[start : source.line_end(line)]) for line, start in enumerate(source.starts)]


def _plain(line: str) -> str:
    line = _HEADING.sub(lambda found: "#".ljust(len(found[0])), line)
    line = _STRONG.sub(lambda found: "**".rjust(len(found[0])), line)
    line = _LABEL.sub(lambda found: found[1] + " ", line)
    return _COMMAND.sub(lambda found: " " * len(found[0]), line)
