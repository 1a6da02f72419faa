"""Figures on the page: drawn, with their key and their ticks, or the room that the paper leaves for them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

import panflute as pf

from physcalc.checking.scope import Datum

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
        answer: the word above an answer; in a guide a drawing that is asked for stands folded below it. Empty for a
            drawing that nobody asks for.
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
    earning = _earning(statement, ticks, len(figure.key), worked.settings.lang) if edition == "memo" else []
    blocks = layout.drawing(figure.picture, alternative, caption)
    if figure.key and edition != "paper":
        labels = ticks - sum(marks for _, marks in earning) if edition == "memo" else 0
        blocks = layout.whole(
            [*blocks, *_key(figure, layout, labels, earning, worked.settings.lang)], bool(ticks)
        )
    elif earning:
        blocks = layout.whole([*blocks, *_marking(earning, layout, worked.settings.lang)], True)
    if edition == "guide" and statement.paper != "drawn" and answer:
        blocks = layout.folded(answer, blocks, headed=False)
    return data + blocks


def _earning(statement: Drawing, ticks: int, labels: int, lang: str) -> list[tuple[str, int]]:
    """What earns the marks of a figure beside its labels, each with its marks: what the author says, then the rest."""
    if not ticks:
        return []
    from ..figures.words import word

    said = [(line.value.strip(), marks) for line, marks in statement.marking]
    left = ticks - sum(marks for _, marks in said) - labels
    return [*said, (word("drawing-rest" if said or labels else "drawing", lang), left)] if left > 0 else said


def _asked(part: BlockPart, statement: Drawing, ticks: int) -> bool:
    """Whether a memo shows a figure: not where the paper has it already and it earns nothing."""
    return statement.paper != "drawn" or bool(ticks) or "paper" not in part.editions


def _printer(engine: Engine, statement: Drawing) -> Callable[[Datum], str]:
    from ..document.solving import printed_text

    return lambda datum: printed_text(engine, datum, statement.conventions)


def _key(
    figure: Figure, layout: Layout, ticks: int, earning: Sequence[tuple[str, int]], lang: str
) -> list[Block]:
    """The table that says what each label is, a tick beside each that earns one; below that what else earns marks."""
    from ..figures.words import word

    heads = [[pf.Strong(*inlines_of(word(name, lang)))] for name in ("label", "meaning")]
    rows = []
    for at, row in enumerate(figure.key):
        meaning = inlines_of(row.meaning)
        if at < ticks:
            meaning += [pf.Space(), *layout.ticks(1)]
        rows.append([label_inlines(row), meaning])
    rows += [[[], _earned(*line, layout)] for line in earning]
    return layout.small_table(heads, rows)


def _marking(earning: Sequence[tuple[str, int]], layout: Layout, lang: str) -> list[Block]:
    """The table of what earns the marks, each line with its ticks."""
    from ..figures.words import word

    head = [[pf.Strong(*inlines_of(word("marking", lang)))]]
    return layout.small_table(head, [[_earned(*line, layout)] for line in earning])


def _earned(what: str, marks: int, layout: Layout) -> list[Inline]:
    return [*inlines_of(what), pf.Space(), *layout.ticks(marks)]


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
