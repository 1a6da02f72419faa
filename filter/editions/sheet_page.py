"""A data and formula sheet as a document of its own."""

from __future__ import annotations

import panflute as pf

from physcalc.sheets import Definition, Sheet

from ..document import Engine
from ..document.settling import conventions_of
from ..settings import Settings
from .appendix import appendix
from .layouts.base import Block, Inline
from .text import inlines_of
from .words import words_for


def sheet_page(sheet: Sheet, settings: Settings, engine: Engine) -> pf.Doc:
    """Constants, formulas topic by topic, and definitions with their key phrases set off.

    Args:
        sheet: the sheet.
        settings: for its language, its number style and its words.
        engine: what writes TeX.
    """
    words = words_for(settings.lang, dict(settings.labels))
    # The first block is the heading of an appendix: here the document's title says it.
    blocks = appendix(sheet, None, None, engine, conventions_of(settings), words)[1:]
    if sheet.definitions:
        blocks.append(pf.Header(*inlines_of(words["definition"]), level=2))
        blocks.append(pf.DefinitionList(*map(_definition, sheet.definitions.values())))
    metadata = {"title": pf.MetaInlines(*inlines_of(sheet.title)), "lang": pf.MetaString(settings.lang)}
    return pf.Doc(*blocks, metadata=metadata, api_version=(1, 23))


def _definition(definition: Definition) -> Block:
    wording: list[Inline] = []
    for text, key_phrase in definition.pieces():
        wording += [pf.Strong(*inlines_of(text))] if key_phrase else inlines_of(text)
    title = inlines_of(definition.title[:1].upper() + definition.title[1:])
    return pf.DefinitionItem(title, [pf.Definition(pf.Para(*wording))])
