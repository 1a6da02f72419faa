"""Parts of a page for LaTeX: macros of `parts.tex`, with pandoc's own inlines between."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import panflute as pf

from .. import escape
from ..tex_pieces import pieces_of
from .base import (
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
)

if TYPE_CHECKING:
    from ...figures.picture import Picture


def _raw(code: str) -> Inline:
    return raw_inline(code, "latex")


def _block(code: str) -> Block:
    return raw_block(code, "latex")


def _breakable(tex: str) -> str:
    """TeX breaks a formula after its signs by itself; between the brackets of a long product it is let."""
    made = ""
    for piece in pieces_of(tex):
        between = made.endswith(")") and piece.startswith(("(", "\\left("))
        made += ("\\allowbreak " if between else " ") + piece
    return made.strip()


class LatexLayout(Layout):
    """LaTeX; the parts are macros of `parts.tex`, and `signs.tex` has the signs that fonts of TeX lack."""

    def preamble(self) -> list[Block]:
        return [_block(part_file("parts.tex") + part_file("signs.tex"))]

    def preamble_of_drawings(self) -> list[Block]:
        return [_block("\\usepackage{tikz}")]

    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        pieces: list[Inline] = [_raw("\\begin{pcworking}\n")]
        for row in rows:
            end = _raw(f"}}{{{self._ticks(row.ticks)}}}{{{escape.latex(row.total)}}}%\n")
            if row.remark:
                pieces += [_raw("\\pcremark{"), *row.remark, end]
                continue
            pieces += [_raw("\\pcline{"), *([math(row.left_tex)] if row.left_tex else []), _raw("}{")]
            pieces += [*relation_inlines(row.relation), _raw("}{")]
            pieces += [*([math(_breakable(row.right_tex))] if row.right_tex else []), end]
        for note in notes:
            pieces.append(_raw(f"\\pcnote{{{escape.latex(note.label)}}}{{"))
            pieces += [*note.content, _raw("}{"), *note.value, _raw("}%\n")]
        return [pf.Plain(*pieces, _raw("\\end{pcworking}"))]

    @staticmethod
    def _ticks(count: int) -> str:
        return "\\pctick{}" * count

    def ticks(self, count: int) -> list[Inline]:
        return [_raw(self._ticks(count))] if count else []

    def marks_margin(self, text: str) -> list[Inline]:
        return [_raw(f"\\pcmarks{{{escape.latex(text)}}}")]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        return [_block(f"\\begin{{pcpart}}{{{escape.latex(number)}}}"), *blocks, _block("\\end{pcpart}")]

    def formulas(self, formulas: Sequence[str]) -> list[Block]:
        inlines: list[Inline] = [_raw("\\raggedright{}")]
        for tex in formulas:
            inlines += [math(rf"\displaystyle {_breakable(tex)}"), _raw("\\qquad{}"), pf.Space()]
        return [_block("{"), pf.Para(*inlines), _block("\\par}")]

    def whole(self, blocks: Sequence[Block], kept: bool = False) -> list[Block]:
        made: list[Block] = []
        for block in blocks:
            made += [_block("\\nopagebreak"), block] if made else [block]
        return [*made, _block("\\nopagebreak")] if kept else made

    def new_page(self) -> list[Block]:
        return [_block("\\clearpage")]

    def kept(self, block: Block) -> list[Block]:
        return [block, _block("\\nopagebreak")]

    def closed(self, blocks: Sequence[Block], total: str) -> list[Block]:
        # A page may end after a list, so the total stands inside the last one.
        items = list(blocks)
        last = items[-1] if items else None
        if isinstance(last, pf.Div):
            last.content = self.closed(list(last.content), total)
            return items
        if isinstance(last, pf.RawBlock) and last.text == "\\end{pcpart}":
            return [*self.closed(items[:-1], total), last]
        return [*items, _block("\\nopagebreak"), *self.total_line(total)]

    def heading_word(self, word: str) -> list[Block]:
        return [_block(f"\\pcsmallheading{{{escape.latex(word)}}}")]

    def writing_lines(self, count: int) -> list[Block]:
        return [_block(f"\\pcwritinglines{{{count:d}}}")] if count > 0 else []

    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        from ...figures.tikz import tikz  # Here: most documents have no figure.

        end = [_raw("\\par\\smallskip{}"), *caption] if caption else []
        drawn = _raw(f"\\begin{{center}}\n{tikz(picture, alternative)}")
        return [pf.Plain(drawn, *end, _raw("\\end{center}"))]

    def underlined(self, inlines: Sequence[Inline]) -> list[Inline]:
        # Word by word, so that a line may end between them: pandoc's own way needs a package that not every TeX has.
        out: list[Inline] = []
        for inline in inlines:
            if isinstance(inline, pf.Space | pf.SoftBreak):
                out.append(_raw("\\underline{\\ }\\allowbreak{}"))
            else:
                out += [_raw("\\underline{"), inline, _raw("}")]
        return out

    def drawing_space(self, height: float) -> list[Block]:
        return [_block(f"\\par\\vspace*{{{height:.1f}mm}}")]

    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        return [_block("\\begin{pcdefinition}"), *blocks, _block("\\end{pcdefinition}")]

    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        return [_block("\\begin{pcframed}"), *blocks, _block("\\end{pcframed}")]

    def option_list(self, options: Sequence[Option]) -> list[Block]:
        share = {1: "1", 2: "0.49", 4: "0.245"}[option_columns(options)]
        pieces: list[Inline] = [_raw("\\nopagebreak\\noindent{}")]
        for option in options:
            pieces.append(_raw(f"\\pcoption{{{share}}}{{{escape.latex(option.label)}}}{{"))
            pieces += [*option.content]
            if option.ticks:
                pieces += [_raw("\\quad "), *self.ticks(option.ticks)]
            pieces.append(_raw("}%\n"))
        return [pf.Para(*pieces)]

    def total_line(self, text: str) -> list[Block]:
        return [_block(f"\\pctotal{{{escape.latex(text)}}}")]
