"""Figures on the page: drawn, with their key and their ticks, or the room that the paper leaves for them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

import panflute as pf

from physcalc.checking.scope import Datum
from physcalc.problems import Text

from ..document import BlockPart, Drawing, Edition, Engine, Worked
from .layouts.base import Block, Inline, Layout
from .text import inlines_of

if TYPE_CHECKING:
    from ..figures.figure import Figure, KeyRow
    from ..figures.picture import Run

#: Room that a learner's drawing takes beyond ours, in millimetres.
_MORE = 8.0
#: Room below measured data, in millimetres.
_BELOW_DATA = 2.0


def figure_blocks(
    part: BlockPart,
    statement: Drawing,
    worked: Worked,
    edition: Edition,
    engine: Engine,
    layout: Layout,
    ticks: int = 0,
    answer: str = "",
) -> list[Block]:
    """What stands in the place of a figure.

    Args:
        part, statement: the block.
        worked: the document.
        edition: which edition is made.
        engine: what writes values.
        layout: the parts of the page.
        ticks: the marks that it earns, where they are shown.
        answer: the word above an answer; in a guide a drawing that is asked for stands folded below it.
    """
    drawn = worked.solved.drawn.get(part.key)
    if drawn is None or drawn.diagram is None or edition not in part.editions:
        return []
    # Here: most documents have no figure.
    from .data_tables import data_tables

    # Data belong to the question, which a memo does not repeat.
    data = data_tables(drawn.diagram, statement.conventions, layout) if edition != "memo" else []
    data += layout.drawing_space(_BELOW_DATA) if data else []
    choice = statement.paper if edition == "paper" else "drawn"
    if choice == "nothing" or (edition == "memo" and not _asked(part, statement, ticks)):
        return data
    from ..figures.figure import Look
    from ..figures.stage import figure_of

    shown = edition if choice != "space" else "memo"
    look = Look(worked.settings.lang, shown, _printer(engine, statement), statement.conventions, choice)
    figure = figure_of(drawn.diagram, look, statement.width)
    if choice == "space":
        return data + layout.drawing_space(figure.picture.box.height + _MORE)
    alternative = (
        statement.alternative.value.strip() if statement.alternative is not None else figure.alternative
    )
    caption = inlines_of(statement.caption.value.strip()) if statement.caption is not None else []
    if figure.note:
        caption += [pf.LineBreak()] if caption else []
        caption += inlines_of(figure.note) if isinstance(figure.note, str) else runs_inlines(figure.note)
    marking = statement.marking if ticks and edition == "memo" else ()
    left = max(0, ticks - sum(marks for _, marks in marking))
    below = left if not figure.key else max(0, left - len(figure.key))
    if below and layout.ticks(below):
        caption += [pf.Space()] if caption else []
        caption += layout.ticks(below)
    blocks = layout.drawing(figure.picture, alternative, caption)
    if figure.key and edition != "paper":
        blocks += _key(figure, layout, left, marking, worked.settings.lang)
    elif marking:
        blocks += _marking(marking, layout, worked.settings.lang)
    if edition == "guide" and statement.paper != "drawn":
        blocks = layout.folded(answer, blocks, headed=False)
    return data + blocks


def _asked(part: BlockPart, statement: Drawing, ticks: int) -> bool:
    """Whether a memo shows a figure: not where the paper has it already and it earns nothing."""
    return statement.paper != "drawn" or bool(ticks) or "paper" not in part.editions


def _printer(engine: Engine, statement: Drawing) -> Callable[[Datum], str]:
    from ..document.solving import printed_text

    return lambda datum: printed_text(engine, datum, statement.conventions)


def _key(
    figure: Figure, layout: Layout, ticks: int, marking: Sequence[tuple[Text, int]], lang: str
) -> list[Block]:
    """The table that says what each label is, a tick beside each that earns one; what earns more stands below."""
    from ..figures.words import word

    heads = [[pf.Strong(*inlines_of(word(name, lang)))] for name in ("label", "meaning")]
    rows = [_row(heads, layout)]
    for at, row in enumerate(figure.key):
        meaning = inlines_of(row.meaning)
        if at < ticks:
            meaning += [pf.Space(), *layout.ticks(1)]
        rows.append(_row((label_inlines(row), meaning), layout))
    for line, marks in marking:
        earning = [*inlines_of(line.value.strip()), pf.Space(), *layout.ticks(marks)]
        rows.append(_row(([], earning), layout))
    table = pf.Table(
        pf.TableBody(*rows[1:]),
        colspec=[("AlignLeft", "ColWidthDefault"), ("AlignLeft", "ColWidthDefault")],
        head=pf.TableHead(rows[0]),
        foot=pf.TableFoot(),
    )
    return [table]


def _marking(lines: Sequence[tuple[Text, int]], layout: Layout, lang: str) -> list[Block]:
    """The table of what earns the marks, each line with its ticks."""
    from ..figures.words import word

    rows = [
        _row([[*inlines_of(line.value.strip()), pf.Space(), *layout.ticks(marks)]], layout)
        for line, marks in lines
    ]
    table = pf.Table(
        pf.TableBody(*rows),
        colspec=[("AlignLeft", "ColWidthDefault")],
        head=pf.TableHead(_row([[pf.Strong(*inlines_of(word("marking", lang)))]], layout)),
        foot=pf.TableFoot(),
    )
    return [table]


def _row(cells: Iterable[Sequence[Inline]], layout: Layout) -> Block:
    return pf.TableRow(*(layout.cell(cell) for cell in cells))


def label_inlines(row: KeyRow) -> list[Inline]:
    """A label of a picture as text of the page."""
    return runs_inlines(row.label)


def runs_inlines(runs: Sequence[Run]) -> list[Inline]:
    """Pieces of a label as text of the page."""
    inlines: list[Inline] = []
    for run in runs:
        # A line may break at a blank.
        for at, text in enumerate(run.text.split(" ")):
            inlines += [pf.Space()] if at else []
            inlines += [_piece(text, run)] if text else []
    return inlines


def _piece(letters: str, run: Run) -> Inline:
    text: Inline = pf.Str(letters)
    if run.slant:
        text = pf.Emph(text)
    if run.level:
        text = pf.Subscript(text) if run.level < 0 else pf.Superscript(text)
    return text
