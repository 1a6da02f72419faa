"""The data and formula sheet as the appendix of a document."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import panflute as pf

from physcalc.exact import Numeral
from physcalc.language import Conventions
from physcalc.language.tree import Printed, Sym
from physcalc.sheets import Constant, Law, Sheet

from ..document import Engine
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
) -> list[Block]:
    """Constants in a table, then formulas topic by topic. Definitions are left out: a paper asks for them.

    Args:
        sheet: the sheet.
        constants: keys of the constants to print; None for all.
        laws: slugs of the formulas to print; None for all.
        engine: what writes TeX.
        conventions: the settings of the document.
        words: the words of the page.

    Returns:
        Blocks that begin with a heading; none where nothing is to be printed.
    """
    chosen_constants = [
        sheet.constants[key] for key in sheet.constants if constants is None or key in constants
    ]
    chosen_laws = [sheet.laws[slug] for slug in sheet.laws if laws is None or slug in laws]
    blocks: list[Block] = []
    if chosen_constants:
        blocks += [pf.Header(*inlines_of(words["constants"]), level=2)]
        blocks += [_constants(chosen_constants, engine, conventions)]
    if chosen_laws:
        blocks += [pf.Header(*inlines_of(words["formulas"]), level=2)]
        blocks += _laws(chosen_laws, engine, conventions)
    return [pf.Header(*inlines_of(words["sheet"]), level=1), *blocks] if blocks else []


def _constants(constants: Sequence[Constant], engine: Engine, conventions: Conventions) -> Block:
    rows = []
    for constant in constants:
        value = Printed(Numeral.of_number(constant.number), constant.unit)
        cells: list[list[Inline]] = [
            inlines_of(constant.title),
            [math(engine.tex(Sym(constant.name), conventions))],
            [math(engine.tex(value, conventions))],
        ]
        rows.append(pf.TableRow(*(pf.TableCell(pf.Plain(*cell)) for cell in cells)))
    columns = [("AlignLeft", "ColWidthDefault")] * 3
    return pf.Table(pf.TableBody(*rows), colspec=columns, head=pf.TableHead(), foot=pf.TableFoot())


def _laws(laws: Sequence[Law], engine: Engine, conventions: Conventions) -> list[Block]:
    blocks: list[Block] = []
    topic = ""
    for law in laws:
        if law.topic != topic:
            topic = law.topic
            blocks.append(pf.Para(pf.Strong(*inlines_of(topic[:1].upper() + topic[1:]))))
        formulas: list[Inline] = []
        for formula in law.formulas:
            formulas += [pf.Space()] if formulas else []
            formulas += [math(engine.tex(formula, conventions)), pf.Str(";")]
        blocks.append(pf.Para(*formulas[:-1]))
    return blocks
