"""Text of the document made safe for raw output: one function for each output format.

Most text never needs these, because it travels as plain strings that pandoc itself escapes. They are for
the few words that stand inside a piece of raw markup.
"""

from __future__ import annotations

import html
import re

# Everything that Typst may read as markup, at a line's start or anywhere; "/" for comments and "-" and "."
# for what it would join into dashes and ellipses.
_TYPST = re.compile(r"[!-/:-@\[-`{-~]")

_LATEX = {
    "\\": r"\textbackslash{}",
    "{": r"\{",
    "}": r"\}",
    "$": r"\$",
    "&": r"\&",
    "#": r"\#",
    "%": r"\%",
    "_": r"\_",
    "^": r"\textasciicircum{}",
    "~": r"\textasciitilde{}",
    "<": r"\textless{}",
    ">": r"\textgreater{}",
    "|": r"\textbar{}",
    '"': r"\textquotedbl{}",
    "`": r"\textasciigrave{}",
    "'": r"\textquotesingle{}",
    "[": "{[}",
    "]": "{]}",
    "-": "{-}",
    "\u00a0": "~",
}

_CONTROL = re.compile(r"[\x00-\x1f\x7f-\x9f\u2028\u2029\ufffe\uffff]+")


def _one_line(text: str) -> str:
    """Line ends and control characters become one blank: no format needs them, and XML forbids most."""
    return _CONTROL.sub(" ", text).encode("utf-8", "replace").decode("utf-8")


def typst(text: str) -> str:
    """Text for Typst markup (between square brackets), every ASCII sign of its own escaped."""
    return _TYPST.sub(r"\\\g<0>", _one_line(text))


def latex(text: str) -> str:
    """Text for LaTeX, outside maths."""
    return "".join(_LATEX.get(sign, sign) for sign in _one_line(text))


def xml(text: str) -> str:
    """Text for HTML, EPUB and Word's XML, in an element or in a quoted attribute."""
    return html.escape(_one_line(text), quote=True)


def css_string(text: str) -> str:
    """Text as a CSS string literal, quotes included; safe inside a style element as well."""
    return '"' + re.sub(r'[\\"<>&$]', lambda m: f"\\{ord(m.group()):x} ", _one_line(text)) + '"'
