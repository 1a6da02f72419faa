"""What all editions share: headings, numbers, values in the text, the bracketed marks, frames of a draft."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property

import panflute as pf

from physcalc.language import Conventions
from physcalc.steps.lines import Working

from ..document import (
    AnswerPart,
    BlockPart,
    DefinePart,
    Drawing,
    Edition,
    Engine,
    Findings,
    GridPart,
    OnlyPart,
    Part,
    Question,
    Section,
    ValuePart,
    Worked,
    in_order,
    sections_of,
    typed_number,
)
from .figures import figure_blocks
from .frames import framed
from .layout import layout_for
from .layouts.base import Block, Inline
from .lines import positive_in
from .text import at_the_end, inlines_of, is_blank, is_comment
from .words import words_for


class Page:
    """One edition in the making. Blocks of the document become part of it and cannot be used again."""

    edition: Edition

    def __init__(self, worked: Worked, format: str, engine: Engine, findings: Findings | None) -> None:
        """Begin an edition.

        Args:
            worked: the document.
            format: pandoc's name of the output format.
            engine: what writes TeX and plain text.
            findings: the problems to be framed in their places; None for no draft.
        """
        self.worked = worked
        self.engine = engine
        self.words = words_for(worked.settings.lang, dict(worked.settings.labels))
        self.layout = layout_for(format, self.words)
        self.findings = findings
        self.numbers_by_part = worked.tree.question_numbers()

    # What an edition decides.

    def document(self) -> list[Block]:
        """The blocks of the edition."""
        raise NotImplementedError

    def block_part(self, part: BlockPart, question: Question) -> list[Block]:
        """What stands in the place of a block."""
        raise NotImplementedError

    def answer_part(self, part: AnswerPart, question: Question) -> list[Block]:
        """What stands in the place of a written answer."""
        raise NotImplementedError

    def question_part(self, question: Question) -> list[Block]:
        """What stands in the place of a question."""
        raise NotImplementedError

    def definition_inlines(self, part: DefinePart) -> list[Inline]:
        """What stands in a sentence in the place of a definition."""
        raise NotImplementedError

    def ticked_phrase(self, phrase: pf.Span) -> list[Inline]:
        """What stands in the place of a ticked phrase."""
        return list(phrase.content)

    # Text.

    def blocks(self, blocks: Iterable[Block], question: Question) -> list[Block]:
        """Blocks of the document as this edition shows them."""
        return [made for block in list(blocks) for made in self.block(block, question)]

    def block(self, block: Block, question: Question) -> list[Block]:
        """One block of the document as this edition shows it."""
        part = self.worked.tree.of(block)
        match part:
            case Question():
                return self.question_part(part)
            case BlockPart():
                return [*self.frames(part), *self.block_part(part, question)]
            case AnswerPart():
                return [*self.frames(part), *self.answer_part(part, question)]
            case OnlyPart():
                inside = self.blocks(block.content, question) if self.edition in part.inside else []
                return [*self.frames(part), *inside]
            case GridPart():
                return [*self.frames(part), *self.grid_part(part, question)]
        match block:
            case pf.Div() | pf.BlockQuote():
                inside = self.blocks(block.content, question)
                block.content = inside
                return [block] if inside else []
            case pf.BulletList() | pf.OrderedList():
                return self._list(block, question)
            case _:
                return self._paragraph(block, question)

    def grid_part(self, part: GridPart, question: Question) -> list[Block]:
        """The table of marks by topic and level, below the text that stands in its place."""
        if self.edition not in part.editions:
            return []
        return [*self.blocks(part.element.content, question), *self.grid_alone()]

    def grid_alone(self) -> list[Block]:
        """The table of marks by topic and level; nothing where no question has marks."""
        # Here: few papers show their grid.
        from ..document import weigh
        from .grid_table import grid_table

        grid = weigh(self.worked.tree, self.worked.marks, self.worked.settings.grid)
        if grid is None:
            return []
        return grid_table(grid, self.words, self.worked.settings.numbers, self.layout)

    def figure(
        self, part: BlockPart, statement: Drawing, ticks: int = 0, question: Question | None = None
    ) -> list[Block]:
        """What stands in the place of a figure."""
        # In a question it may be what was asked for; in the text around it is to be seen.
        answer = self.words["answer"] if question is not self.worked.tree.root else ""
        return figure_blocks(
            part, statement, self.worked, self.edition, self.engine, self.layout, ticks, answer
        )

    def _list(self, block: Block, question: Question) -> list[Block]:
        items = []
        for item in block.content:
            inside = self.blocks(item.content, question)
            if inside:
                items.append(pf.ListItem(*inside))
        block.content = items
        return [block] if items else []

    def _paragraph(self, block: Block, question: Question) -> list[Block]:
        """A block that holds inlines (or a table, whose cells may hold anything)."""
        parts = [part for element in in_order(block) if (part := self.worked.tree.of(element)) is not None]
        defined = [part for part in parts if isinstance(part, DefinePart)]
        frames = [frame for part in parts for frame in self.frames(part)]
        if is_comment(block):
            return []
        if parts or any(isinstance(element, pf.Span | pf.RawInline) for element in in_order(block)):
            block = block.walk(lambda element, _: self._inside(element, question))
            if defined and isinstance(block, pf.Para | pf.Plain) and is_blank(block.content):
                return frames
        return [block, *frames]

    def _inside(self, element: pf.Element, question: Question) -> pf.Element | list[pf.Element] | None:
        part = self.worked.tree.of(element)
        match part:
            case ValuePart():
                return self._value(part)
            case DefinePart():
                return self.definition_inlines(part)
            case BlockPart():
                return self.block_part(part, question)
            case AnswerPart():
                return list(element.content) if self.edition in part.editions else []
            case OnlyPart():
                return list(element.content) if self.edition in part.inside else []
            case Question():
                return list(element.content)
            case _ if isinstance(element, pf.RawInline) and is_comment(element):
                return []
            case _ if isinstance(element, pf.Span) and "mark" in element.classes:
                return self.ticked_phrase(element)
            case _:
                return None

    def _value(self, part: ValuePart) -> list[Inline]:
        if part.typed is not None:
            # A number stays on one line with its unit.
            blanks = (pf.Space, pf.SoftBreak)
            return [pf.Str("\u00a0") if isinstance(one, blanks) else one for one in part.element.content]
        text = self.worked.prose.values.get(part.key)
        return [pf.Str(text)] if text is not None else [pf.Code(part.element.text)]

    # Questions.

    def heading_of(self, question: Question) -> list[Block]:
        """The heading of a question with its number; none for a question inside another that has none."""
        number = self.worked.tree.numbers[question.key]
        if question.heading is None:
            if question.depth > 1:
                return []
            title = inlines_of(f"{self.words['question']}\u00a0{number}")
            return [pf.Header(*title, level=self.level, identifier=question.identifier)]
        heading = question.heading.walk(lambda element, _: self._inside(element, question))
        if not self._carries(question, number):
            start = f"{self.words['question']}\u00a0{number}" if question.depth == 1 else number
            words = pf.stringify(heading).strip().lower()
            if words == self.words["question"].lower():
                heading.content = []  # "Question" alone becomes "Question 1".
            if heading.content:
                start += self.words["colon"] if question.depth == 1 else ""
                heading.content = [*inlines_of(start), pf.Space(), *heading.content]
            else:
                heading.content = inlines_of(start)
        return [heading]

    def numbered(self, question: Question, blocks: Sequence[Block]) -> list[Block]:
        """A question's blocks under its heading, or beside its number."""
        heading = self.heading_of(question)
        if heading:
            # The last paragraph before what is asked, or answered, stays with it.
            stem = next((at for at, block in enumerate(blocks) if not isinstance(block, pf.Para)), 0)
            if stem:
                return [*heading, *blocks[: stem - 1], *self.layout.kept(blocks[stem - 1]), *blocks[stem:]]
            return [*heading, *blocks]
        number = self.worked.tree.numbers[question.key]
        hung = (
            self.layout.question_head(number, blocks)
            if blocks
            else self.layout.question_head(number, [pf.Para()])
        )
        return [pf.Div(*hung, identifier=question.identifier)] if question.identifier else hung

    def bracketed(self, question: Question) -> str:
        """The marks of a question as printed: "[9]" of a whole question, "(4)" of a part; empty for none."""
        marks = self.worked.marks.of.get(question.key)
        if not marks:
            return ""
        return f"[{marks}]" if question.depth == 1 else f"({marks})"

    def with_total(self, question: Question, blocks: list[Block]) -> list[Block]:
        """A whole question that has parts with its total below; any other as it is."""
        text = self.bracketed(question)
        if question.depth != 1 or not any(question.questions()) or not text:
            return blocks
        return self.layout.closed(blocks, text)

    def with_grand_total(self, blocks: list[Block]) -> list[Block]:
        """The document with its total below everything."""
        total = self.worked.marks.total
        if total is None:
            return blocks
        return self.layout.closed(blocks, f"{self.words['total']}{self.words['colon']} {total}")

    def sections(self) -> dict[int, list[Section]]:
        """The sections whose total is printed, by the number of their last block; to be asked first of all."""
        found: dict[int, list[Section]] = {}
        for section in sections_of(self.worked.tree, self.worked.marks):
            if section.told:
                found.setdefault(section.end, []).append(section)
            section.heading.attributes.pop("marks", None)
        return found

    def with_sections(self, blocks: list[Block], sections: Iterable[Section]) -> list[Block]:
        """The document so far with the totals of sections that end here."""
        for section in sections:
            unit = self.words["mark"] if section.marks == 1 else self.words["marks"]
            blocks = self.layout.closed(
                blocks, f"{section.title}{self.words['colon']} {section.marks}\u00a0{unit}"
            )
        return blocks

    def margin(self, blocks: list[Block], text: str) -> list[Block]:
        """The blocks with bracketed marks at the right of the last line; none for an empty text."""
        return at_the_end(blocks, self.layout.marks_margin(text)) if text else blocks

    def frames(self, part: Part | None) -> list[Block]:
        """The framed problems of a part, in a draft."""
        if self.findings is None:
            return []
        return framed(self.findings.at(part), self.layout, self.words)

    @property
    def level(self) -> int:
        """The level of a heading made for a question that has none: below the headings around it."""
        return min(self._heading_level + 1, 6)

    _heading_level = 0

    def pass_heading(self, block: Block) -> None:
        """Takes note of a heading that belongs to no question."""
        if isinstance(block, pf.Header):
            self._heading_level = block.level

    def _carries(self, question: Question, number: str) -> bool:
        words = [self.words["question"].lower()]
        return question.heading is not None and typed_number(question.heading, words) == number

    def positive(self, part: BlockPart, working: Working, conventions: Conventions) -> str:
        """Which direction is positive, where the question has not told it yet; empty for nothing to tell."""
        said = positive_in(working, conventions)
        question = self.numbers_by_part.get(part.key, "").partition(".")[0]
        if not said or self._told.get(question) == said:
            return ""
        self._told[question] = said
        return said

    @cached_property
    def _told(self) -> dict[str, str]:
        """By the number of each question on the way down the page which direction it has told to be positive."""
        return {}
