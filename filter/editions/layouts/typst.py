"""Parts of a page for Typst: calls of the functions of `parts.typ`, with pandoc's own inlines between."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import panflute as pf

from .. import escape
from ..tex_pieces import SIGNS, pieces_of
from .base import (
    Block,
    Inline,
    Layout,
    Note,
    Option,
    Row,
    lead,
    math,
    part_file,
    raw_block,
    raw_inline,
    relation_inlines,
)

if TYPE_CHECKING:
    from ...figures.picture import Picture


def _raw(code: str) -> Inline:
    return raw_inline(code, "typst")


def _block(code: str) -> Block:
    return raw_block(code, "typst")


_LEAD = "#part-lead["
_PART = "#part["
_END = "]"


class TypstLayout(Layout):
    """Typst; the parts are functions of `parts.typ`."""

    def preamble(self) -> list[Block]:
        return [_block(part_file("parts.typ"))]

    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        pieces: list[Inline] = [_raw("#working(")]
        for row in rows:
            opens = "opens: true," if row.opens else ""
            if row.remark:
                pieces += [_raw(f"remark-of-working({opens}["), *row.remark]
            else:
                left = [_raw("["), math(row.left_tex), _raw("]")] if row.left_tex else [_raw("none")]
                pieces += [_raw(f"line-of-working({opens}"), *left, _raw(",")]
                relation = relation_inlines(row.relation)
                pieces += [_raw("["), *relation, _raw("],(")] if relation else [_raw("none,(")]
                for part in pieces_of(row.right_tex):
                    pieces += [_raw("sign[" if part in SIGNS else "piece["), math(part), _raw("],")]
            end = "]" if row.remark else ")"
            pieces.append(_raw(f"{end},{row.ticks:d},[{escape.typst(row.total)}]),"))
        if notes:
            pieces.append(_raw("notes:("))
            for note in notes:
                pieces += [_raw(f"([{escape.typst(note.label)}],["), *note.content]
                pieces += [_raw("],["), *note.value, _raw("]),")]
            pieces.append(_raw("),"))
        return [pf.Plain(*pieces, _raw(")"))]

    def ticks(self, count: int) -> list[Inline]:
        return [_raw(f"#ticks-in-text({count:d});")] if count else []

    def marks_margin(self, text: str) -> list[Inline]:
        return [_raw(f"#marks[{escape.typst(text)}]")]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        hung = f"[{escape.typst(number)}]"
        numbered = _numbered(hung, blocks) or lead([_raw(f"#part-number{hung}")], blocks)
        beside: list[Block] = []
        for at, block in enumerate(numbered):
            # Lines of working are a Plain; what a part inside of this one keeps together is kept already.
            kept = bool(beside) and isinstance(beside[-1], pf.RawBlock) and beside[-1].text == _LEAD
            if at + 1 < len(numbered) and isinstance(block, pf.Para) and not kept:
                beside += self.kept(block)
            else:
                beside.append(block)
        return [_block(_PART), *beside, _block(_END)]

    def kept(self, block: Block) -> list[Block]:
        return [_block(_LEAD), block, _block(_END)]

    def formulas(self, formulas: Sequence[str]) -> list[Block]:
        pieces: list[Inline] = [_raw("#formulas(")]
        for tex in formulas:
            pieces += [_raw("["), math(tex), _raw("],")]
        return [pf.Plain(*pieces, _raw(")"))]

    def whole(self, blocks: Sequence[Block], kept: bool = False) -> list[Block]:
        return [_block("#whole(sticky: true)[" if kept else "#whole["), *blocks, _block(_END)]

    def new_page(self) -> list[Block]:
        return [_block("#pagebreak(weak: true)")]

    def items(self, items: Sequence[Sequence[Inline]]) -> list[Block]:
        return [_block("#whole["), *super().items(items), _block(_END)]

    def closed(self, blocks: Sequence[Block], total: str) -> list[Block]:
        items = list(blocks)
        if not items:
            return self.total_line(total)
        last = items[-1]
        if isinstance(last, pf.Div):
            last.content = self.closed(list(last.content), total)
            return items
        start = _opening(items) if isinstance(last, pf.RawBlock) and last.text == _END else len(items) - 1
        if _is_call(items[start], _PART):
            # The total stands inside the last part, so that no more than its last piece is kept with it.
            return [*items[: start + 1], *self.closed(items[start + 1 : -1], total), last]
        return [*items[:start], _block(_LEAD), *items[start:], _block(_END), *self.total_line(total)]

    def heading_word(self, word: str) -> list[Block]:
        return [_block(f"#small-heading[{escape.typst(word)}]")]

    def writing_lines(self, count: int) -> list[Block]:
        return [_block(f"#writing-lines({count:d})")] if count > 0 else []

    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        from ...figures.typst import typst  # Here: most documents have no figure.

        drawn = _raw(f"#drawn({typst(picture, alternative)},[")
        return [pf.Plain(drawn, *caption, _raw("])"))]

    def drawing_space(self, height: float) -> list[Block]:
        return [_block(f"#block(height: {height:.1f}mm, width: 100%, breakable: false)")]

    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        return [_block("#definition["), *blocks, _block("]")]

    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        return [_block("#framed["), *blocks, _block("]")]

    def option_list(self, options: Sequence[Option]) -> list[Block]:
        pieces: list[Inline] = [_raw("#options(")]
        for option in options:
            pieces.append(_raw(f"([{escape.typst(option.label)}],["))
            pieces += [*option.content]
            if option.ticks:
                pieces += [_raw("#h(0.5em)"), *self.ticks(option.ticks)]
            pieces.append(_raw("]),"))
        return [pf.Plain(*pieces, _raw(")"))]

    def total_line(self, text: str) -> list[Block]:
        return [_block(f"#total-line[{escape.typst(text)}]")]


def _numbered(hung: str, blocks: Sequence[Block]) -> list[Block]:
    """The blocks with a number in the first line of a working or at a small heading, or beside a picture; none where
    none of them is first.
    """
    first = blocks[0] if blocks else None
    if first is not None and _is_call(first, "#whole"):
        inside = _numbered(hung, blocks[1:])
        return [first, *inside] if inside else []
    if isinstance(first, pf.Plain) and first.content and _is_call(first.content[0], "#working("):
        return [pf.Plain(_raw(f"#working(number:{hung},"), *list(first.content)[1:]), *blocks[1:]]
    if isinstance(first, pf.Plain) and first.content and _is_call(first.content[0], "#drawn("):
        opened = first.content[0].text.replace("#drawn(", f"#drawn(number:{hung},", 1)
        return [pf.Plain(_raw(opened), *list(first.content)[1:]), *blocks[1:]]
    if first is not None and _is_call(first, "#small-heading["):
        return [
            _block(first.text.replace("#small-heading[", f"#small-heading(number:{hung})[", 1)),
            *blocks[1:],
        ]
    return []


def _is_call(element: object, start: str) -> bool:
    return isinstance(element, pf.RawInline | pf.RawBlock) and element.text.startswith(start)


def _opening(items: Sequence[Block]) -> int:
    """Where the bracket opens that the last of the blocks closes."""
    depth = 0
    for at in range(len(items) - 1, -1, -1):
        if not isinstance(items[at], pf.RawBlock):
            continue
        if items[at].text == _END:
            depth += 1
        elif items[at].text.endswith("["):
            depth -= 1
            if depth == 0:
                return at
    return 0
