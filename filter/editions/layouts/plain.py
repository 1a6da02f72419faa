"""Parts of a page for Markdown and every format that has no layout of its own: pandoc's plain elements."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import TYPE_CHECKING

import panflute as pf

from .base import TICK, Block, Inline, Layout, Note, Option, Row, lead, math, relation_tex

if TYPE_CHECKING:
    from ...figures.picture import Picture


class PlainLayout(Layout):
    """Nothing but elements that every writer of pandoc has."""

    def __init__(self, colon: str = ":") -> None:
        self._colon = colon

    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        # The left side, then the sign with the right side, then ticks and total; a table without a head,
        # in the simple shape that stays a table in Markdown.
        body = []
        for row in rows:
            left = [math(row.left_tex)] if row.left_tex and not row.remark else []
            right = list(row.remark)
            if not row.remark:
                known = relation_tex(row.relation)
                right = [] if known or not row.relation else [pf.Str(row.relation), pf.Space()]
                tex = f"{known} {row.right_tex}".strip()
                right += [math(tex)] if tex else []
            marks = [*self.ticks(row.ticks)]
            if row.total:
                marks += [pf.Space()] if marks else []
                marks.append(pf.Str(row.total))
            aligns = ("AlignRight", "AlignLeft", "AlignLeft")
            cells = zip((left, right, marks), aligns, strict=True)
            body.append(
                pf.TableRow(*(pf.TableCell(pf.Plain(*inside), alignment=how) for inside, how in cells))
            )
        for note in notes:
            said: list[Inline] = [pf.Str(note.label)] if note.label else []
            said += [pf.Str(self._colon), pf.Space()] if note.label and note.content else []
            said += [*note.content, *([pf.Str(self._colon), pf.Space()] if note.value else []), *note.value]
            body.append(pf.TableRow(pf.TableCell(), pf.TableCell(pf.Plain(*said)), pf.TableCell()))
        specs = [
            ("AlignRight", "ColWidthDefault"),
            ("AlignLeft", "ColWidthDefault"),
            ("AlignLeft", "ColWidthDefault"),
        ]
        return [pf.Table(pf.TableBody(*body), colspec=specs, head=pf.TableHead(), foot=pf.TableFoot())]

    def ticks(self, count: int) -> list[Inline]:
        return [pf.Str(TICK * count)] if count else []

    def marks_margin(self, text: str) -> list[Inline]:
        return [pf.Space(), pf.Strong(pf.Str(text))]

    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        return lead([pf.Strong(pf.Str(number)), pf.Space()], blocks)

    def columns(self, count: int) -> list[tuple[str, float | str]]:
        # With widths, Markdown would need a shape of table that is hard to read.
        return [("AlignLeft", "ColWidthDefault"), *[("AlignRight", "ColWidthDefault")] * (count - 1)]

    def heading_word(self, word: str) -> list[Block]:
        return [pf.Para(pf.Strong(pf.Str(word)))]

    def writing_lines(self, count: int) -> list[Block]:
        return [pf.Para(pf.Str("_" * 60)) for _ in range(count)]

    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        from ...figures.svg import svg  # Here: most documents have no figure.

        code = base64.b64encode(svg(picture, alternative, alone=True).encode()).decode()
        image = pf.Image(pf.Str(alternative), url=f"data:image/svg+xml;base64,{code}")
        return [pf.Para(image), *([pf.Para(*caption)] if caption else [])]

    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        return [pf.BlockQuote(*blocks)]

    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        return [pf.BlockQuote(*blocks)]

    def option_list(self, options: Sequence[Option]) -> list[Block]:
        lines = []
        for option in options:
            ticked = [pf.Space(), *self.ticks(option.ticks)] if option.ticks else []
            lines.append(pf.LineItem(pf.Str(option.label), pf.Space(), *option.content, *ticked))
        return [pf.LineBlock(*lines)] if lines else []

    def total_line(self, text: str) -> list[Block]:
        return [pf.Para(pf.Strong(pf.Str(text)))]
