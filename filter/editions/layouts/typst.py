"""Parts of a page for Typst: calls of the functions of `parts.typ`, with pandoc's own inlines between."""

from __future__ import annotations

from collections.abc import Sequence

import panflute as pf

from .. import escape
from ..tex_pieces import SIGNS, pieces_of
from .base import (
    Block,
    Inline,
    Layout,
    Option,
    Row,
    lead,
    math,
    part_file,
    raw_block,
    raw_inline,
    relation_inlines,
)


def _raw(code: str) -> Inline:
    return raw_inline(code, "typst")


def _block(code: str) -> Block:
    return raw_block(code, "typst")


_LEAD = "#part-lead["


class TypstLayout(Layout):
    """Typst; the parts are functions of `parts.typ`."""

    def preamble(self) -> list[Block]:
        return [_block(part_file("parts.typ"))]

    def working(self, rows: Sequence[Row]) -> list[Block]:
        pieces: list[Inline] = [_raw("#working(")]
        for row in rows:
            if row.remark:
                pieces += [_raw("remark-of-working(["), *row.remark]
            else:
                left = [_raw("["), math(row.left_tex), _raw("]")] if row.left_tex else [_raw("none")]
                pieces += [_raw("line-of-working("), *left, _raw(",")]
                relation = relation_inlines(row.relation)
                pieces += [_raw("["), *relation, _raw("],(")] if relation else [_raw("none,(")]
                for part in pieces_of(row.right_tex):
                    pieces += [_raw("sign[" if part in SIGNS else "piece["), math(part), _raw("],")]
            end = "]" if row.remark else ")"
            pieces.append(_raw(f"{end},{row.ticks:d},[{escape.typst(row.total)}]),"))
        return [pf.Plain(*pieces, _raw(")"))]

    def ticks(self, count: int) -> list[Inline]:
        return [_raw(f"#ticks-in-text({count:d});")] if count else []

    def marks_margin(self, text: str) -> list[Inline]:
        return [_raw(f"#marks[{escape.typst(text)}]")]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        numbered = lead([_raw(f"#part-number[{escape.typst(number)}]")], blocks)
        beside: list[Block] = []
        for at, block in enumerate(numbered):
            # Lines of working are a Plain; what a part inside of this one keeps together is kept already.
            kept = bool(beside) and isinstance(beside[-1], pf.RawBlock) and beside[-1].text == _LEAD
            if at + 1 < len(numbered) and isinstance(block, pf.Para) and not kept:
                beside += [_block(_LEAD), block, _block("]")]
            else:
                beside.append(block)
        return [_block("#part["), *beside, _block("]")]

    def heading_word(self, word: str) -> list[Block]:
        return [_block(f"#small-heading[{escape.typst(word)}]")]

    def writing_lines(self, count: int) -> list[Block]:
        return [_block(f"#writing-lines({count:d})")] if count > 0 else []

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
