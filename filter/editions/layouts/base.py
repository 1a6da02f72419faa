"""What every layout offers, and the rows and options it is given."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import panflute as pf

from ..tex_pieces import width, with_raised_figures

if TYPE_CHECKING:
    from ...figures.picture import Picture

#: Elements of pandoc's tree; panflute has no types of its own.
Inline = Any
Block = Any

TICK = "✓"

_RELATION_TEX = {
    "≈": r"\approx", "≤": r"\le", "≥": r"\ge", "≠": r"\ne", "→": r"\to", "⇒": r"\Rightarrow", "∝": r"\propto",
    "=": "=", "<": "<", ">": ">",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a working: sides around a relation sign, or a sentence.

    Attributes:
        left_tex: TeX of the left side; empty where the row continues the one above.
        right_tex: TeX of what follows the relation sign.
        relation: the sign between the sides, "=" mostly; empty where there is none.
        remark: inlines of a sentence; where there are any, the sides are not looked at.
        ticks: how many marks the row earns, each shown as a tick.
        total: the bracketed total, on the last row ("(4)"); empty on the others.
        opens: whether it is the first of a step, so that it stands clear of the rows above; never of the first row.
    """

    left_tex: str = ""
    right_tex: str = ""
    relation: str = "="
    remark: Sequence[Inline] = field(default=())
    ticks: int = 0
    total: str = ""
    opens: bool = False


@dataclass(frozen=True, slots=True)
class Note:
    """A quiet line below a working, for the one who marks.

    Attributes:
        label: what it is about ("Accept"); empty where it goes on with the one above.
        content: its inlines; empty where the label says it all.
        value: inlines of what it leads to; empty for none.
    """

    label: str
    content: Sequence[Inline] = ()
    value: Sequence[Inline] = ()


@dataclass(frozen=True, slots=True)
class Option:
    """One option of a multiple-choice question.

    Attributes:
        label: its letter.
        content: its inlines.
        ticks: ticks beside it, in a memo.
    """

    label: str
    content: Sequence[Inline]
    ticks: int = 0


def raw_inline(code: str, format: str) -> Inline:
    """Raw output inside a line."""
    # panflute's list of raw formats is older than Typst; the attribute takes what the constructor refuses.
    raw = pf.RawInline(code, format="html")
    raw.format = format
    return raw


def raw_block(code: str, format: str) -> Block:
    """Raw output as a block."""
    raw = pf.RawBlock(code, format="html")
    raw.format = format
    return raw


def math(tex: str) -> Inline:
    """TeX as inline maths."""
    return pf.Math(with_raised_figures(tex), format="InlineMath")


def relation_tex(relation: str) -> str:
    """TeX of a relation sign; empty for a sign that is not known, which is then set as text."""
    return _RELATION_TEX.get(relation, "")


def relation_inlines(relation: str) -> list[Inline]:
    """A relation sign as inlines; none for an empty one."""
    if not relation:
        return []
    tex = relation_tex(relation)
    return [math(tex)] if tex else [pf.Str(relation)]


def lead(inlines: Sequence[Inline], blocks: Sequence[Block]) -> list[Block]:
    """The blocks with inlines put before the first; in a paragraph of their own if it is no paragraph."""
    items = list(blocks)
    if items and isinstance(items[0], pf.Para):
        first = items[0]
        return [pf.Para(*inlines, *first.content), *items[1:]]
    return [pf.Para(*inlines), *items]


def with_short_lefts(rows: Sequence[Row], widest: float) -> list[Row]:
    """The rows, but one with a very long left side in two: the left side on its own, then the rest.

    Args:
        rows: the rows.
        widest: a left side of more letters than this would push the right sides of its neighbours away.
    """
    short: list[Row] = []
    for row in rows:
        if not row.remark and width(row.left_tex) > widest:
            short += [Row(remark=(math(row.left_tex),)), replace(row, left_tex="")]
        else:
            short.append(row)
    return short


@cache
def part_file(name: str) -> str:
    """The text of a file that lies beside this module."""
    return Path(__file__).with_name(name).read_text(encoding="utf-8")


def option_columns(options: Sequence[Option]) -> int:
    """How many options fit beside each other, by their length in letters: 4, 2 or 1."""

    def length(option: Option) -> float:
        total = 0.0
        for inline in option.content:
            if isinstance(inline, pf.Math):
                total += width(inline.text)
            else:
                total += len(pf.stringify(inline))
        return total + 1.5 * option.ticks

    longest = max((length(option) for option in options), default=0)
    if len(options) == 4 and longest <= 15:
        return 4
    return 2 if longest <= 38 else 1


class Layout(ABC):
    """The parts of a page in one kind of output format.

    Every method returns pandoc elements that are new; blocks and inlines that are passed in become part of
    them and must not be used a second time.

    Attributes:
        folds: whether a solution can be hidden, below a word that says what it is.
    """

    folds = False

    def preamble(self) -> list[Block]:
        """What the parts need once in a document's head (pandoc's `header-includes`); empty for nothing."""
        return []

    def preamble_of_drawings(self) -> list[Block]:
        """What drawings need there besides, where the document has some."""
        return []

    @abstractmethod
    def working(self, rows: Sequence[Row], notes: Sequence[Note] = ()) -> list[Block]:
        """Lines of working, aligned at the relation sign, ticks and total at the right; quiet notes below."""

    @abstractmethod
    def ticks(self, count: int) -> list[Inline]:
        """So many ticks, to stand in a sentence or at its end; none for 0."""

    @abstractmethod
    def marks_margin(self, text: str) -> list[Inline]:
        """Bracketed marks for the end of a paragraph, set at the right margin."""

    @abstractmethod
    def question_head(self, number: str, blocks: Sequence[Block]) -> list[Block]:
        """A numbered part: its number hangs at the left of its first line, its blocks stand beside it."""

    def kept(self, block: Block) -> list[Block]:
        """A block that stays on the page of what follows it; as it is, where a format has no such thing."""
        return [block]

    def formulas(self, formulas: Sequence[str]) -> list[Block]:
        """Formulas of a sheet, given as TeX, beside each other."""
        inlines: list[Inline] = []
        for tex in formulas:
            inlines += [pf.Str(";"), pf.Space()] if inlines else []
            inlines.append(math(tex))
        return [pf.Para(*inlines)]

    def columns(self, count: int) -> list[tuple[str, float | str]]:
        """Columns of a table of numbers for pandoc: words at the left, then numbers, over the whole width."""
        first = max(0.18, 1 / count)
        rest = (1 - first) / max(1, count - 1)
        return [("AlignLeft", first), *[("AlignRight", rest)] * (count - 1)]

    def small_table(
        self, heads: Sequence[Sequence[Inline]], rows: Sequence[Sequence[Sequence[Inline]]]
    ) -> list[Block]:
        """A table as wide as what it says, its columns at the left."""
        return [
            pf.Table(
                pf.TableBody(*(pf.TableRow(*map(self.cell, row)) for row in rows)),
                colspec=[("AlignLeft", "ColWidthDefault") for _ in heads],
                head=pf.TableHead(pf.TableRow(*map(self.cell, heads))),
                foot=pf.TableFoot(),
            )
        ]

    def whole(self, blocks: Sequence[Block], kept: bool = False) -> list[Block]:
        """Blocks that a page does not tear, where a format has such a thing.

        Args:
            blocks: a picture and what is told below it.
            kept: whether they stay with what follows, too.
        """
        return list(blocks)

    def cell(self, inlines: Sequence[Inline]) -> Block:
        """A cell of a table of numbers."""
        return pf.TableCell(pf.Plain(*inlines))

    def new_page(self) -> list[Block]:
        """What begins a new page; nothing where a format has no pages."""
        return []

    def items(self, items: Sequence[Sequence[Inline]]) -> list[Block]:
        """A short list."""
        return [pf.BulletList(*(pf.ListItem(pf.Plain(*item)) for item in items))]

    def closed(self, blocks: Sequence[Block], total: str) -> list[Block]:
        """A question's blocks with its total at the end, never alone on a page where a format can keep it."""
        return [*blocks, *self.total_line(total)]

    @abstractmethod
    def heading_word(self, word: str) -> list[Block]:
        """A small heading inside a question, kept with what follows; no entry in any contents."""

    def folded(self, word: str, blocks: Sequence[Block], headed: bool = True) -> list[Block]:
        """A solution, hidden until its reader asks for it where a format can do that; else it stands open.

        Args:
            word: what is hidden ("Working").
            blocks: the solution; none for nothing.
            headed: whether the word stands above it where it is open.
        """
        return [*(self.heading_word(word) if headed else []), *blocks] if blocks else []

    @abstractmethod
    def writing_lines(self, count: int) -> list[Block]:
        """Ruled lines to write an answer on."""

    @abstractmethod
    def drawing(self, picture: Picture, alternative: str, caption: Sequence[Inline]) -> list[Block]:
        """A picture in the middle of the line, with its caption below; words for those who do not see it."""

    def underlined(self, inlines: Sequence[Inline]) -> list[Inline]:
        """Words that must be in an answer, underlined."""
        return [pf.Underline(*inlines)]

    def drawing_space(self, height: float) -> list[Block]:
        """Room to draw in, so many millimetres high; nothing where a format has no pages."""
        return []

    @abstractmethod
    def definition(self, blocks: Sequence[Block]) -> list[Block]:
        """The wording of a definition, set apart."""

    @abstractmethod
    def framed(self, blocks: Sequence[Block]) -> list[Block]:
        """A problem in its place, in a draft."""

    @abstractmethod
    def option_list(self, options: Sequence[Option]) -> list[Block]:
        """Options, in as many columns as fit."""

    @abstractmethod
    def total_line(self, text: str) -> list[Block]:
        """A sum of marks on a line of its own, at the right margin."""
