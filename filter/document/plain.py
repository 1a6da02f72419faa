"""Inline elements as the plain text that an author meant, for typed values."""

from __future__ import annotations

import re
from collections.abc import Iterable

import panflute as pf

from ..sources import tex_text

_QUOTES = {"SingleQuote": ("‘", "’"), "DoubleQuote": ("“", "”")}
_RAISED = re.compile(r"<(/?)(sup|sub)\s*>", re.IGNORECASE)


def plain_text(inlines: Iterable[pf.Element]) -> str:
    """The text of inline elements as one line.

    Raised text becomes `^…`, lowered text `_…` (in brackets or braces where it is more than one word), inline
    maths is flattened, a line's end is a blank. Blanks that do not break stay as they are.
    """
    return "".join(_pieces(inlines)).strip()


def _pieces(inlines: Iterable[pf.Element]) -> list[str]:
    pieces: list[str] = []
    # HTML's raised text comes as raw tags around ordinary text: what stands between them is gathered.
    opened: list[tuple[str, int]] = []
    for inline in inlines:
        if isinstance(inline, pf.RawInline):
            tag = _RAISED.fullmatch(inline.text.strip())
            if tag is None:
                continue
            sort = tag[2].lower()
            if not tag[1]:
                opened.append((sort, len(pieces)))
            elif opened and opened[-1][0] == sort:
                start = opened.pop()[1]
                pieces[start:] = [_script("^" if sort == "sup" else "_", "".join(pieces[start:]))]
        else:
            pieces.append(_piece(inline))
    return pieces


def _piece(inline: pf.Element) -> str:
    match inline:
        case pf.Str() | pf.Code():
            return str(inline.text)
        case pf.Space() | pf.SoftBreak() | pf.LineBreak():
            return " "
        case pf.Superscript():
            return _script("^", "".join(_pieces(inline.content)))
        case pf.Subscript():
            return _script("_", "".join(_pieces(inline.content)))
        case pf.Math():
            return tex_text(inline.text)
        case pf.Quoted():
            left, right = _QUOTES[inline.quote_type]
            return left + "".join(_pieces(inline.content)) + right
        case pf.Note() | pf.Image():
            return ""
        case _:
            return "".join(_pieces(getattr(inline, "content", ())))


def _script(sign: str, body: str) -> str:
    if re.fullmatch(r"[+\-−–]?\w+", body):
        return sign + body.replace("–", "−")
    return sign + ("(" + body + ")" if sign == "^" else "{" + body + "}")
