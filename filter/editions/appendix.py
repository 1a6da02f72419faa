"""The data and formula sheet as the appendix of a document."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import groupby

import panflute as pf

from physcalc.exact import Numeral
from physcalc.language import Conventions
from physcalc.language.tree import Printed, Sym
from physcalc.sheets import Constant, Law, Sheet

from ..document import Engine
from .layouts import Layout
from .layouts.base import Block, Inline, math
from .text import inlines_of
from .words import Words


def appendix(
    sheet: Sheet,
    constants: Collection[str] | None,
    laws: Collection[str] | None,
    engine: Engine,
    conventions: Conventions,
    words: Words,
    layout: Layout | None = None,
    forms: Collection[str] = (),
) -> list[Block]:
    """Constants in a table, then formulas topic by topic. Definitions are left out: a paper asks for them.

    Args:
        sheet: the sheet.
        constants: keys of the constants to print; None for all.
        laws: slugs of the formulas to print; None for all.
        engine: what writes TeX.
        conventions: the settings of the document.
        words: the words of the page.
        layout: sets the formulas in columns, and the sheet on a page of its own; None for plain elements.
        forms: TeX of formulas as workings print them; of a law that has some among them no others are printed.

    Returns:
        Blocks that begin with a heading; none where nothing is to be printed.
    """
    chosen_constants = [
        sheet.constants[key] for key in sheet.constants if constants is None or key in constants
    ]
    chosen_laws = [sheet.laws[slug] for slug in sheet.laws if laws is None or slug in laws]
    blocks: list[Block] = []
    if chosen_constants:
        blocks += [_heading(words["constants"], 2, "physcalc-constants" if layout is not None else "")]
        blocks += [_constants(chosen_constants, engine, conventions, layout is not None)]
    if chosen_laws:
        blocks += [_heading(words["formulas"], 2, "physcalc-formulas" if layout is not None else "")]
        blocks += _laws(chosen_laws, engine, conventions, layout, forms)
    if not blocks:
        return []
    begin = layout.new_page() if layout is not None else []
    # By their ids a list of contents leads to them.
    return [*begin, _heading(words["sheet"], 1, "physcalc-sheet" if layout is not None else ""), *blocks]


def _heading(words: str, level: int, identifier: str) -> pf.Header:
    return pf.Header(*inlines_of(words), level=level, identifier=identifier)


def _constants(constants: Sequence[Constant], engine: Engine, conventions: Conventions, wide: bool) -> Block:
    rows = []
    for constant in constants:
        value = Printed(Numeral.of_number(constant.number), constant.unit)
        cells: list[list[Inline]] = [
            inlines_of(constant.title),
            [math(engine.tex(Sym(constant.name), conventions))],
            [math(engine.tex(value, conventions))],
        ]
        rows.append(pf.TableRow(*(pf.TableCell(pf.Plain(*cell)) for cell in cells)))
    shares = (0.46, 0.12, 0.42) if wide else ("ColWidthDefault",) * 3
    columns = [("AlignLeft", share) for share in shares]
    return pf.Table(pf.TableBody(*rows), colspec=columns, head=pf.TableHead(), foot=pf.TableFoot())


def _laws(
    laws: Sequence[Law],
    engine: Engine,
    conventions: Conventions,
    layout: Layout | None,
    chosen: Collection[str],
) -> list[Block]:
    blocks: list[Block] = []
    for topic, group in groupby(laws, lambda law: law.topic):
        title = pf.Strong(*inlines_of(topic[:1].upper() + topic[1:]))
        blocks += [pf.Para(title)] if layout is None else layout.heading_word(topic[:1].upper() + topic[1:])
        written = [[engine.tex(formula, conventions) for formula in law.formulas] for law in group]
        written = [[tex for tex in forms if tex in chosen] or forms for forms in written]
        if layout is not None:
            blocks += layout.formulas([tex for forms in written for tex in forms])
            continue
        for forms in written:
            inlines: list[Inline] = []
            for tex in forms:
                inlines += [pf.Str(";"), pf.Space()] if inlines else []
                inlines.append(math(tex))
            blocks.append(pf.Para(*inlines))
    return blocks
