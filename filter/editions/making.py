"""From a document that was worked out to one edition of it."""

from __future__ import annotations

import panflute as pf

from physcalc.steps.lines import LineKind

from ..document import Edition, Engine, Findings, Worked
from ..document.settling import conventions_of
from .appendix import appendix
from .guide import Guide
from .layouts.base import Block
from .links import headings_of, settle_links
from .memo import Memo
from .page import Page
from .paper import Paper
from .quotes import with_own_quotes

#: The key of the metadata that says that there are drawings.
DRAWINGS = "physcalc-drawings"

_EDITIONS = {"paper": Paper, "memo": Memo, "guide": Guide}


def make_edition(
    worked: Worked, edition: Edition, format: str, engine: Engine, findings: Findings | None = None
) -> pf.Doc:
    """The document as one edition; its elements become part of the result.

    Args:
        worked: the document.
        edition: which edition.
        format: pandoc's name of the output format.
        engine: what writes TeX and plain text.
        findings: the problems to be framed in their places (a draft); None for none.

    Returns:
        A document with the metadata of the source.
    """
    page = _EDITIONS[edition](worked, format, engine, findings)
    headings = headings_of(worked)
    blocks = [*page.document(), *appendix_of(worked, page, engine)]
    document = worked.tree.document
    document.content = blocks
    settle_links(document, worked, page.words, headings)
    with_own_quotes(document, worked.settings.lang, format)
    # Whoever writes the document can say at its head which edition it is.
    document.metadata["edition"] = pf.MetaString(edition)
    if any(drawn.diagram is not None for drawn in worked.solved.drawn.values()):
        document.metadata[DRAWINGS] = pf.MetaBool(True)
    total = worked.settings.total if worked.settings.total is not None else worked.marks.total
    if total is not None and edition != "guide" and "total" not in document.metadata:
        # The line of marks at the head does not wait for an author to add them up.
        document.metadata["total"] = pf.MetaString(str(total))
    return document


def preamble(document: pf.Doc, format: str) -> pf.Doc:
    """The document with what the layout needs in its head, for a run of pandoc without templates of ours."""
    from .layout import layout_for

    layout = layout_for(format)
    needed = [*layout.preamble(), *(layout.preamble_of_drawings() if DRAWINGS in document.metadata else [])]
    if needed:
        there = document.metadata.content.get("header-includes")
        before = (
            list(there.content) if isinstance(there, pf.MetaList) else [there] if there is not None else []
        )
        document.metadata["header-includes"] = pf.MetaList(*before, pf.MetaBlocks(*needed))
    return document


def appendix_of(worked: Worked, page: Page, engine: Engine) -> list[Block]:
    """The data and formula sheet that an edition ends with; nothing where its settings ask for none."""
    wanted = worked.settings.appendix
    # Whoever marks has the paper beside the memo.
    if wanted == "none" or page.edition == "memo":
        return []
    constants = laws = None
    forms: set[str] = set()
    conventions = conventions_of(worked.settings)
    if wanted == "used":
        outcomes = worked.solved.outcomes.values()
        constants = {name.key for outcome in outcomes for name in outcome.used_constants}
        constants |= worked.constants_in_data()
        laws = {slug for outcome in outcomes for slug in outcome.used_laws}
        workings = [outcome.working for outcome in outcomes if outcome.working is not None]
        for working in [*workings, *(other for first in workings for other in first.others)]:
            for line in working.lines:
                if line.kind is LineKind.FORMULA:
                    forms.add(" = ".join(engine.tex(side, conventions) for side in line.sides))
    return appendix(worked.sheet, constants, laws, engine, conventions, page.words, page.layout, forms)
