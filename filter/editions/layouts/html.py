"""Parts of a page for HTML and EPUB: divs with classes, and a table for the lines of working."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import panflute as pf

from .. import escape
from ..tex_pieces import SIGNS, pieces_of, width, with_spaced_functions
from ..words import Words
from .base import (
    TICK,
    Block,
    Inline,
    Layout,
    Note,
    Option,
    Row,
    math,
    option_columns,
    part_file,
    raw_block,
    raw_inline,
    relation_inlines,
    with_short_lefts,
)

if TYPE_CHECKING:
    from ...figures.picture import Picture


def _block(code: str) -> Block:
    return raw_block(code, "html")


def _joined(pieces: Sequence[str | Block]) -> list[Block]:
    """Code and blocks as blocks, with code that follows code in one: a block each would double a memo's tree."""
    blocks: list[Block] = []
    code: list[str] = []
    for piece in pieces:
        if isinstance(piece, str):
            code.append(piece)
            continue
        if code:
            blocks.append(_block("\n".join(code)))
            code = []
        blocks.append(piece)
    return [*blocks, _block("\n".join(code))] if code else blocks


def breakable(tex: str) -> list[Inline]:
    """A formula in pieces, because a browser breaks no line inside of one.

    After a sign the line may end.
    """
    tex = with_spaced_functions(tex)
    pieces = pieces_of(tex)
    if len(pieces) < 2:
        return [math(tex)]
    inlines: list[Inline] = []
    for piece in pieces:
        if piece in SIGNS:
            # On its own a sign has no room around it: the style sheet gives it back.
            inlines += [
                raw_inline('<span class="sign">', "html"),
                math(piece),
                raw_inline("</span><wbr />", "html"),
            ]
        else:
            between = bool(inlines) and isinstance(inlines[-1], pf.Math)
            inlines += [raw_inline("<wbr />", "html")] if between else []
            inlines.append(math(piece))
    return inlines


#: A row that needs more letters than this side by side may have to be moved sideways on a narrow screen.
_NARROW = 23.0


def _broken(inlines: Sequence[Inline]) -> list[Inline]:
    """The inlines, their long formulas in pieces."""
    out: list[Inline] = []
    for inline in inlines:
        long = isinstance(inline, pf.Math) and width(inline.text) > _NARROW
        out += breakable(inline.text) if long else [inline]
    return out


def _clinging(inlines: Sequence[Inline]) -> list[Inline]:
    """The inlines, a sign after a formula held to it: a browser may break a line between the two."""
    out: list[Inline] = []
    for inline in inlines:
        if isinstance(inline, pf.Str) and out and isinstance(out[-1], pf.Math) and inline.text[:1] in ".,;:)":
            out[-1] = pf.Span(out[-1], inline, classes=["unbroken"])
        else:
            out.append(inline)
    return out


#: A left side of more letters than this gets a line to itself, on a narrow screen one of fewer as well.
_WIDEST_LEFT = 26.0
_WIDEST_LEFT_NARROW = 11.0


def _letters(row: Row) -> float:
    """How many letters of a row stand side by side however narrow the screen is."""
    left = width(row.left_tex)
    pieces = [width(piece) for piece in pieces_of(row.right_tex)] if row.right_tex else []
    beside = max(pieces, default=0.0) + 1.5 * row.ticks + len(row.total)
    return max(left, beside) if left > _WIDEST_LEFT_NARROW else left + beside


class HtmlLayout(Layout):
    """HTML and EPUB; the parts are styled by `parts.css`, in a browser by `web.css` as well.

    Args:
        words: the words of the page.
        book: whether it is an EPUB, whose readers know less than browsers do: nothing folds away there.
    """

    def __init__(self, words: Words, book: bool = False) -> None:
        self._words = words
        self.folds = not book

    def preamble(self) -> list[Block]:
        return [_block("<style>\n" + self.style() + "</style>")]

    def style(self) -> str:
        """The style sheet of the parts."""
        return part_file("parts.css") + (part_file("web.css") if self.folds else "")

    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        # A table lines up the relation signs in every reader; it holds no data in columns, and its role
        # lets a screen reader read it line by line.
        earned = any(row.ticks or row.total for row in rows)
        rows = with_short_lefts(rows, _WIDEST_LEFT)
        opened = '<div class="working">'
        if max((_letters(row) for row in rows if not row.remark), default=0.0) > _NARROW:
            # What can be moved sideways is to be reached with the keyboard too.
            name = escape.xml(self._words["working"])
            opened = f'<div class="working" role="group" aria-label="{name}" tabindex="0">'
        pieces: list[str | Block] = [f'{opened}<table class="lines" role="presentation"><tbody>']
        columns = 1 if all(row.remark for row in rows) else 3
        for index, row in enumerate(rows):
            pieces.append('<tr class="opens">' if row.opens and index else "<tr>")
            if row.remark:
                pieces += self._cell("remark", _clinging(_broken(row.remark)), span=columns)
            else:
                kind = "left long" if width(row.left_tex) > _WIDEST_LEFT_NARROW else "left"
                pieces += self._cell(kind, breakable(row.left_tex) if row.left_tex else [])
                pieces += self._relation(row.relation)
                pieces += self._cell("right", breakable(row.right_tex) if row.right_tex else [])
            if earned:
                pieces += self._cell("earned", self.ticks(row.ticks))
                pieces += self._cell("total", [pf.Str(row.total)] if row.total else [])
            pieces.append("</tr>")
        return _joined([*pieces, "</tbody></table>", *self._notes(notes), "</div>"])

    def _relation(self, relation: str) -> list[str | Block]:
        # The usual sign needs no maths: half of a memo's formulas would be nothing else.
        if relation in ("", "="):
            return [f'<td class="relation">{relation}</td>']
        return self._cell("relation", relation_inlines(relation))

    def _notes(self, notes: Sequence[Note]) -> list[str | Block]:
        if not notes:
            return []
        pieces: list[str | Block] = ['<table class="notes" role="presentation"><tbody>']
        # In a table of HTML a cell begins in every column.
        columns = max(1 if not note.content else 3 if note.value else 2 for note in notes)
        for note in notes:
            pieces.append("<tr>")
            alone = not note.content
            label = [pf.Str(note.label)] if note.label else []
            pieces += self._cell("label", list[Inline](label), span=columns if alone else 1)
            if not alone:
                pieces += self._cell("about", list(note.content), span=1 if note.value else columns - 1)
                pieces += self._cell("value", list(note.value)) if note.value else []
            pieces.append("</tr>")
        return [*pieces, "</tbody></table>"]

    @staticmethod
    def _cell(kind: str, inlines: list[Inline], span: int = 1) -> list[str | Block]:
        wide = f' colspan="{span:d}"' if span > 1 else ""
        inside = [pf.Plain(*inlines)] if inlines else []
        return [f'<td class="{kind}"{wide}>', *inside, "</td>"]

    def ticks(self, count: int) -> list[Inline]:
        if not count:
            return []
        said = escape.xml(f"{count:d} {self._words['mark' if count == 1 else 'marks']}")
        code = f'<span class="tick" role="img" aria-label="{said}">{TICK * count}</span>'
        return [raw_inline(code, "html")]

    def marks_margin(self, text: str) -> list[Inline]:
        return [pf.Space(), pf.Span(pf.Str(text), classes=["marks"])]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        label = pf.Div(pf.Para(pf.Str(number)), classes=["part-number"])
        return [pf.Div(label, pf.Div(*blocks, classes=["part-body"]), classes=["part"])]

    def formulas(self, formulas: Sequence[str]) -> list[Block]:
        cells = (pf.Div(pf.Plain(*breakable(tex))) for tex in formulas)
        return [pf.Div(*cells, classes=["formulas"])]

    def new_page(self) -> list[Block]:
        return [pf.Div(classes=["new-page"])]

    def kept(self, block: Block) -> list[Block]:
        return [pf.Div(block, classes=["kept"])]

    def whole(self, blocks: Sequence[Block], kept: bool = False) -> list[Block]:
        return [pf.Div(*blocks, classes=["whole", "kept"] if kept else ["whole"])]

    def heading_word(self, word: str) -> list[Block]:
        return [pf.Div(pf.Para(pf.Str(word)), classes=["small-heading"])]

    def folded(self, word: str, blocks: Sequence[Block], headed: bool = True) -> list[Block]:
        if not self.folds:
            return super().folded(word, blocks, headed)
        opened = f'<details class="solution"><summary>{escape.xml(word)}</summary>'
        return [_block(opened), *blocks, _block("</details>")] if blocks else []

    def writing_lines(self, count: int) -> list[Block]:
        rules = "<div></div>" * count
        return [_block(f'<div class="writing-lines" aria-hidden="true">{rules}</div>')] if count > 0 else []

    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        from ...figures.svg import svg  # Here: most documents have no figure.

        opened = _block(f'<figure class="drawn">{svg(picture, alternative)}')
        if not caption:
            return [opened, _block("</figure>")]
        return [opened, _block("<figcaption>"), pf.Plain(*caption), _block("</figcaption></figure>")]

    def drawing_space(self, height: float) -> list[Block]:
        return [_block(f'<div class="drawing-space" style="height:{height:.1f}mm"></div>')]

    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        return [pf.Div(*blocks, classes=["definition"])]

    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        return [pf.Div(*blocks, classes=["framed"], attributes={"role": "note"})]

    def option_list(self, options: Sequence[Option]) -> list[Block]:
        across = {1: "one", 2: "two", 4: "four"}[option_columns(options)]
        entries = []
        for option in options:
            ticked = [pf.Space(), *self.ticks(option.ticks)] if option.ticks else []
            text = pf.Para(*option.content, *ticked)
            label = pf.Div(pf.Para(pf.Str(option.label)), classes=["option-label"])
            entries.append(pf.Div(label, pf.Div(text), classes=["option"]))
        return [pf.Div(*entries, classes=["options", across])]

    def total_line(self, text: str) -> list[Block]:
        return [pf.Div(pf.Para(pf.Str(text)), classes=["total-line"])]
