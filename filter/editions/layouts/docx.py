"""Parts of a page for Word: tables without borders and named styles, equations as Word's own."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import TYPE_CHECKING

import panflute as pf

from ..tex_pieces import SIGNS, pieces_of, width, with_paired_brackets, with_spaced_functions
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
    raw_block,
    raw_inline,
    with_short_lefts,
)

if TYPE_CHECKING:
    from ...figures.picture import Picture

#: The share of the line that a part's number takes (652 of 9184 twentieths of a point).
_NUMBER = 0.071

#: The styles of our own tables.
_OURS = ("Working", "Options")

#: Columns of a working: left side, relation, right side, ticks, total.
_COLUMNS = 5

_SIGNS_OF_TEX = {"-": "−", "\\pm": "±", "\\mp": "∓"}

#: A left side of more letters than this gets a line to itself.
_WIDEST_LEFT = 23.0

#: About how many letters of maths a line holds.
_LETTERS = 66.0


def _styled(style: str, *blocks: Block) -> Block:
    return pf.Div(*blocks, attributes={"custom-style": style})


def _equation(tex: str) -> Inline:
    # Word's brackets are objects around what they hold; a power needs them as its base.
    return math(with_paired_brackets(with_spaced_functions(tex)))


def _indented(number: str, blocks: Sequence[Block]) -> list[Block]:
    """The blocks of a part: a table of ours gets a column as wide as the number, which stands in it where
    the table comes first.

    An indent of the table would be simpler, but not every word processor takes it from a style.
    """
    for at, block in enumerate(blocks):
        if isinstance(block, pf.Table) and block.attributes.get("custom-style") in _OURS:
            scaled = [(align, share * (1 - _NUMBER)) for align, share in block.colspec]
            block.colspec = [("AlignDefault", _NUMBER), *scaled]
            block.cols += 1
            for body in block.content:
                for first, row in enumerate(body.content):
                    style = "Working Note" if _is_note(row) else "Working Line"
                    hung = [pf.Str(number)] if at == first == 0 else []
                    row.content.insert(0, pf.TableCell(_styled(style, pf.Para(*hung))))
    return list(blocks)


def _is_note(row: Block) -> bool:
    cell = row.content[0]
    return bool(cell.colspan == _COLUMNS)


def _style_of(block: Block) -> str:
    return str(block.attributes.get("custom-style", "")) if isinstance(block, pf.Div | pf.Table) else ""


#: Styles of pieces that stand beside a number.
_BESIDE = {"Small Heading": "Part Heading", "Kept Text": "Part Kept", "Item": "Part Item"}

#: Styles whose paragraphs stay with what follows.
_KEPT = {
    "Part": "Part Lead", "Total Line": "Total Line Kept", "Working End": "Working Line",
    "Working Last Note": "Working Note", "Writing Line": "Writing Line Kept", "Figure": "Captioned Figure",
    "Image Caption": "Image Caption Kept", "Table Cell": "Table Cell Kept",
}  # fmt: skip


def _kept_at_the_end(blocks: list[Block], style: str = "Kept Text") -> list[Block]:
    """The blocks, the last paragraph or row of them kept with what follows."""
    last = blocks[-1] if blocks else None
    match last:
        case pf.Table() if _style_of(last) in _OURS and last.content:
            for cell in last.content[-1].content[-1].content:
                _kept_at_the_end(list(cell.content))
        case pf.Div() if _style_of(last) in _KEPT:
            last.attributes["custom-style"] = _KEPT[_style_of(last)]
        case pf.Div() if _style_of(last) in ("", "Part Body") and last.content:
            last.content = _kept_at_the_end(list(last.content), "Part Kept" if _style_of(last) else style)
        case pf.Para():
            return [*blocks[:-1], _styled(style, last)]
        case _:
            pass
    return blocks


def _last_table(blocks: Sequence[Block]) -> Block | None:
    """The working with which blocks end; None where they end with something else."""
    last = blocks[-1] if blocks else None
    if isinstance(last, pf.Div) and _style_of(last) in ("", "Part Body"):
        return _last_table(list(last.content))
    return last if isinstance(last, pf.Table) and _style_of(last) == "Working" else None


def _tab() -> Inline:
    return raw_inline("<w:r><w:tab/></w:r>", "openxml")


class DocxLayout(Layout):
    """Word; the styles are those of the reference document, and pandoc adds them where another is used."""

    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        # Shares of the line: the left side gets what its widest entry needs, within sense, so that the
        # relation signs stand in one column.
        earned = any(row.ticks or row.total for row in rows)
        margins = [0.12, 0.07] if earned else [0.03, 0.04]
        sides = [row.right_tex for row in rows if row.right_tex and not row.remark]
        # A long right side needs the line more than a left side does, and what of it cannot break needs it most.
        squeezed = max(map(width, sides), default=0.0) > 0.5 * _LETTERS
        unbroken = max((width(piece) for side in sides for piece in pieces_of(side)), default=0.0)
        room = _LETTERS * (1 - 0.045 - sum(margins)) - unbroken
        widest_left = _WIDEST_LEFT / 2 if squeezed else _WIDEST_LEFT
        rows = with_short_lefts(rows, min(widest_left, max(room, _WIDEST_LEFT / 3)))
        widest = max((width(row.left_tex) for row in rows if not row.remark), default=0.0)
        left = min(0.42, max(0.09, 0.017 * widest + 0.03))
        shares = [left, 0.045, 1 - left - 0.045 - sum(margins), *margins]
        body = []
        for number, row in enumerate(rows, start=1):
            style = "Working Line" if number < len(rows) or notes else "Working End"
            style = "Working Opening" if row.opens and style == "Working Line" else style
            cells = []
            if row.remark:
                cells.append(self._cell(style, list(row.remark), span=3))
            else:
                cells.append(
                    self._cell(style, [_equation(row.left_tex)] if row.left_tex else [], "AlignRight")
                )
                cells.append(self._cell(style, [pf.Str(row.relation)] if row.relation else [], "AlignCenter"))
                cells.append(self._cell(style, self._right(row.right_tex, shares[2])))
            cells.append(self._cell(style, self.ticks(row.ticks)))
            cells.append(self._cell(style, [pf.Str(row.total)] if row.total else [], "AlignRight"))
            body.append(pf.TableRow(*cells))
        body += [
            pf.TableRow(
                self._cell(
                    "Working Note" if at < len(notes) else "Working Last Note",
                    self._note(note),
                    span=_COLUMNS,
                )
            )
            for at, note in enumerate(notes, start=1)
        ]
        return [self._table("Working", body, shares)]

    @staticmethod
    def _note(note: Note) -> list[Inline]:
        inlines: list[Inline] = [pf.Str(note.label)] if note.label else []
        if note.content:
            inlines += [_tab(), *note.content]
        if note.value:
            inlines += [pf.Space(), pf.Str("–"), pf.Space(), *note.value]
        return inlines

    @staticmethod
    def _right(tex: str, share: float) -> list[Inline]:
        """One equation where it fits the line; else pieces, between which every word processor can break."""
        if width(tex) <= share * _LETTERS:
            return [_equation(tex)] if tex else []
        inlines: list[Inline] = []
        for piece in pieces_of(tex):
            if piece in SIGNS:
                inlines += [pf.Str("\u00a0" + _SIGNS_OF_TEX.get(piece, piece)), pf.Space()]
            else:
                inlines.append(_equation(piece))
        return inlines

    def cell(self, inlines: Sequence[Inline]) -> Block:
        # Plain text would keep clear of the margin for marks, inside each cell.
        return pf.TableCell(_styled("Table Cell", pf.Para(*inlines)))

    @staticmethod
    def _cell(style: str, inlines: list[Inline], align: str = "AlignLeft", span: int = 1) -> Block:
        return pf.TableCell(_styled(style, pf.Para(*inlines)), alignment=align, colspan=span)

    @staticmethod
    def _table(style: str, rows: list[Block], shares: list[float]) -> Block:
        specs = [("AlignDefault", share) for share in shares]
        return pf.Table(
            pf.TableBody(*rows),
            colspec=specs,
            attributes={"custom-style": style},
            head=pf.TableHead(),
            foot=pf.TableFoot(),
        )

    def ticks(self, count: int) -> list[Inline]:
        return [pf.Span(pf.Str(TICK * count), attributes={"custom-style": "Tick"})] if count else []

    def marks_margin(self, text: str) -> list[Inline]:
        # `outputs/word.py` takes the paragraph's indent away by this style.
        return [_tab(), pf.Span(pf.Str(text), attributes={"custom-style": "Marks"})]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        label = [pf.Str(number), _tab()]
        items = _indented(number, blocks)
        for at, item in enumerate(items):
            if _style_of(item) in _BESIDE:
                item.attributes["custom-style"] = _BESIDE[_style_of(item)]
            if _style_of(item) == "Part Heading":
                words = item.content[0]
                words.content = [*(label if at == 0 else label[1:]), *words.content]
        if items and _style_of(items[0]) in (*_OURS, "Part Heading"):
            return [_styled("Part Body", *items)]
        if items and isinstance(items[0], (pf.Para, pf.Plain)):
            first, rest = pf.Para(*label, *items[0].content), items[1:]
        else:
            first, rest = pf.Para(*label[:1]), items
        return [
            _styled("Part Lead" if rest else "Part", first),
            *([_styled("Part Body", *rest)] if rest else []),
        ]

    def formulas(self, formulas: Sequence[str]) -> list[Block]:
        columns = 3
        rows: list[list[Block]] = [[]]
        used = 0
        for tex in formulas:
            span = min(columns, 1 + int(width(tex) / (_LETTERS / columns)))
            if used + span > columns:
                rows[-1] += [pf.TableCell(pf.Plain()) for _ in range(columns - used)]
                rows.append([])
                used = 0
            rows[-1].append(self._cell("Working End", [_equation(tex)], span=span))
            used += span
        rows[-1] += [pf.TableCell(pf.Plain()) for _ in range(columns - used)]
        return [self._table("Working", [pf.TableRow(*row) for row in rows], [1 / columns] * columns)]

    def whole(self, blocks: Sequence[Block], kept: bool = False) -> list[Block]:
        last = len(blocks) - 1
        for at, block in enumerate(blocks):
            if isinstance(block, pf.Table):
                rows = [*block.head.content, *(row for body in block.content for row in body.content)]
                for row in rows if kept or at < last else rows[:-1]:
                    for cell in row.content:
                        _kept_at_the_end(list(cell.content))
            elif kept or at < last:
                _kept_at_the_end([block])
        return list(blocks)

    def new_page(self) -> list[Block]:
        return [raw_block('<w:p><w:r><w:br w:type="page"/></w:r></w:p>', "openxml")]

    def kept(self, block: Block) -> list[Block]:
        return [_styled("Kept Text", block)]

    def closed(self, blocks: Sequence[Block], total: str) -> list[Block]:
        kept = _kept_at_the_end(list(blocks))
        table = _last_table(kept)
        if table is None:
            return [*kept, *self.total_line(total)]
        # Not every word processor keeps a table with the line below it: the total is its last row.
        table.content[-1].content.append(pf.TableRow(self._total_cell(total, table.cols)))
        return kept

    def _total_cell(self, total: str, columns: int) -> Block:
        return pf.TableCell(*self.total_line(total), colspan=columns)

    def items(self, items: Sequence[Sequence[Inline]]) -> list[Block]:
        return [_styled("Item", *(pf.Para(pf.Str("•"), _tab(), *item) for item in items))]

    def heading_word(self, word: str) -> list[Block]:
        return [_styled("Small Heading", pf.Para(pf.Str(word)))]

    def writing_lines(self, count: int) -> list[Block]:
        return (
            [_styled("Writing Line", *(pf.Para(pf.Str("\u00a0")) for _ in range(count)))] if count > 0 else []
        )

    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        from ...figures.raster import stand_in  # Here: most documents have no figure.

        # The picture itself is put in its place when the page is made: `raster`.
        address = "data:image/png;base64," + base64.b64encode(stand_in(picture)).decode()
        size = {"width": f"{picture.box.width:.2f}mm", "height": f"{picture.box.height:.2f}mm"}
        image = pf.Image(pf.Str(alternative), url=address, attributes=size)
        blocks = [_styled("Captioned Figure" if caption else "Figure", pf.Para(image))]
        return [*blocks, _styled("Image Caption", pf.Para(*caption))] if caption else blocks

    def drawing_space(self, height: float) -> list[Block]:
        # An empty line of that height: Word keeps no room that nothing stands in.
        line = f'<w:spacing w:before="0" w:after="0" w:line="{height * 1440 / 25.4:.0f}" w:lineRule="exact"/>'
        return [raw_block(f"<w:p><w:pPr>{line}</w:pPr></w:p>", "openxml")]

    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        return [_styled("Definition Wording", *blocks)]

    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        return [_styled("Framed Problem", *blocks)]

    def option_list(self, options: Sequence[Option]) -> list[Block]:
        if not options:
            return []  # A draft of a block that could not be read.
        columns = option_columns(options)
        count = -(-len(options) // columns)
        body = []
        for row in range(count):
            cells = []
            for column in range(columns):
                at = row * columns + column
                cells.append(self._option(options[at]) if at < len(options) else pf.TableCell(pf.Plain()))
            body.append(pf.TableRow(*cells))
        # Four stand in one line, whatever their height; of two in a line one may be of two lines.
        return [self._table("Working" if columns == 4 else "Options", body, [1 / columns] * columns)]

    def _option(self, option: Option) -> Block:
        ticked = [pf.Space(), *self.ticks(option.ticks)] if option.ticks else []
        return self._cell("Option", [pf.Str(option.label), _tab(), *option.content, *ticked])

    def total_line(self, text: str) -> list[Block]:
        return [_styled("Total Line", pf.Para(pf.Str(text)))]
