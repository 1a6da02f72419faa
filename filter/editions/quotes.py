"""Quotation marks as a language writes them, for writers that would set the English ones everywhere."""

from __future__ import annotations

import panflute as pf

from physcalc.language.words import language_of

Marks = tuple[str, str]

# The marks outside and inside, as Unicode CLDR has them (delimiters); French with its no-break spaces.
_MARKS: dict[str, tuple[Marks, Marks]] = {
    "de": (("„", "“"), ("‚", "‘")),
    "fr": (("«\u00a0", "\u00a0»"), ("“", "”")),
    "es": (("«", "»"), ("“", "”")),
    "pt": (("“", "”"), ("‘", "’")),
}
_REGIONS: dict[str, tuple[Marks, Marks]] = {
    "de-ch": (("«", "»"), ("‹", "›")),
    "de-li": (("«", "»"), ("‹", "›")),
    "pt-pt": (("«", "»"), ("“", "”")),
}


# Typst sets the marks of a language by itself, and in Markdown straight ones say that.
_STRAIGHT = ("typst", "markdown", "gfm", "commonmark", "native", "json")


def with_own_quotes(document: pf.Doc, lang: str, format: str) -> None:
    """Put the marks of the document's language where Markdown has read quotation marks.

    Args:
        document: it is changed in place.
        lang: its language tag.
        format: pandoc's name of the output format; where straight marks are written, it stays.
    """
    tag = lang.lower().replace("_", "-")
    marks = _REGIONS.get(tag) or _MARKS.get(language_of(lang))
    if marks is None or format.split("+")[0].split("_")[0] in _STRAIGHT:
        return

    def settle(element: pf.Element, _: pf.Doc | None) -> list[pf.Element] | None:
        if not isinstance(element, pf.Quoted):
            return None
        before, behind = marks[0] if element.quote_type == "DoubleQuote" else marks[1]
        return [pf.Str(before), *element.content, pf.Str(behind)]

    document.walk(settle)
