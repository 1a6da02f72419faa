"""The memo: the number of each question and its solution, each tick beside what earns it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

import panflute as pf

from physcalc.language import Calculation

from ..document import (
    AnswerPart,
    BlockPart,
    DefinePart,
    Drawing,
    Edition,
    GridPart,
    OnlyPart,
    Options,
    Part,
    Question,
    parts_of,
)
from .choices import key_inlines
from .layouts import Note, Row
from .layouts.base import Block, Inline
from .lines import methods_of, notes_of, with_total
from .page import Page
from .text import at_the_end, inlines_of


@dataclass(slots=True)
class Piece:
    """A piece of a solution, to whose last line the bracketed total may still be put.

    Attributes:
        blocks: what stands first.
        rows: lines of working below that; empty for none.
        notes: quiet lines below those.
        earns: whether the piece bears marks, so that a total may stand at it.
    """

    blocks: list[Block]
    rows: list[Row]
    notes: list[Note] = field(default_factory=list)
    earns: bool = True


class Memo(Page):
    """The memo."""

    edition: Edition = "memo"

    def document(self) -> list[Block]:
        """The blocks of the edition."""
        root = self.worked.tree.root
        blocks: list[Block] = self.frames(None)
        waiting: list[Block] = []
        sections = self.sections()
        # A grid below the last question stands below the total, too.
        behind: list[Block] = []
        content = list(root.element.content)
        last = max(
            (at for at, block in enumerate(content) if isinstance(self.worked.tree.of(block), Question)),
            default=len(content),
        )
        for at, block in enumerate(content):
            if isinstance(block, pf.Header):
                # A heading is kept where something of the memo follows in its section.
                waiting = [heading for heading in waiting if heading.level < block.level]
                waiting.append(block)
                self.pass_heading(block)
                continue
            part = self.worked.tree.of(block)
            if isinstance(part, Question) and part.heading is not None:
                level = part.heading.level
                waiting = [heading for heading in waiting if heading.level < level]
            made = self.laid_out(self.pieces([block], root))
            if made and isinstance(part, GridPart) and at > last:
                behind += [*waiting, *made]
                waiting = []
            elif made:
                blocks += [*waiting, *made]
                waiting = []
            blocks = self.with_sections(blocks, sections.get(at, ()))
        return [*self.with_grand_total(blocks), *behind]

    def question_part(self, question: Question) -> list[Block]:
        inside = list(question.element.content)
        if question.heading is not None:
            inside = inside[1:]
        pieces = self.pieces(inside, question)
        text = self.bracketed(question)
        if not any(question.questions()) and text:
            earning = [piece for piece in pieces if piece.earns]
            if not earning:
                pieces.append(Piece([pf.Para(*self.layout.marks_margin(text))], []))
            else:
                self._put_total(earning[-1], text)
        blocks = [*self.frames(question), *self.laid_out(pieces)]
        if not blocks and not text:
            return []  # What is neither asked nor marked has no place here, but keeps its number.
        return self.with_total(question, self.numbered(question, blocks))

    def pieces(self, blocks: Iterable[Block], question: Question) -> list[Piece]:
        """The solution that stands in blocks of the document, in their order; prose is dropped."""
        found: list[Piece] = []
        for part in self._outermost(blocks):
            frames = self.frames(part) if not isinstance(part, Question) else []
            if frames:
                found.append(Piece(frames, [], earns=False))
            match part:
                case Question():
                    found.append(Piece(self.question_part(part), [], earns=False))
                case BlockPart():
                    found += self._block_pieces(part)
                # In the text around the questions a definition earns nothing: it is prose there.
                case DefinePart() if self.edition in part.editions and question is not self.worked.tree.root:
                    found.append(Piece([pf.Para(*self.definition_inlines(part))], []))
                case AnswerPart():
                    found.append(Piece(self.answer_part(part, question), []))
                case GridPart():
                    found.append(Piece(self.grid_part(part, question), [], earns=False))
                case OnlyPart() if self.edition in part.inside:
                    found.append(Piece(self.blocks(part.element.content, question), [], earns=False))
                case _:
                    pass
        return found

    def laid_out(self, pieces: Iterable[Piece]) -> list[Block]:
        """Pieces as blocks of the page."""
        blocks: list[Block] = []
        for piece in pieces:
            blocks += piece.blocks
            if piece.rows:
                blocks += self.layout.working(piece.rows, piece.notes)
        return blocks

    def block_part(self, part: BlockPart, question: Question) -> list[Block]:
        return self.laid_out(self._block_pieces(part))

    def answer_part(self, part: AnswerPart, question: Question) -> list[Block]:
        content = list(part.element.content)
        if content and isinstance(content[0], pf.Header):
            content = content[1:]
        blocks = self.blocks(content, question)
        marks = self.worked.marks.of.get(part.key, 0)
        if part.ticks or not marks:
            return blocks
        return at_the_end(blocks, [pf.Space(), *self.layout.ticks(marks)])

    def ticked_phrase(self, phrase: pf.Span) -> list[Inline]:
        return [*phrase.content, pf.Str("\u00a0"), *self.layout.ticks(1)]

    def definition_inlines(self, part: DefinePart) -> list[Inline]:
        marks = self.worked.marks.of.get(part.key, 0)
        definition = self.worked.prose.definitions.get(part.key)
        if part.typed is not None or definition is None:
            inlines = list(part.element.content)
        elif marks and marks == len(definition.phrases):
            inlines = []
            for words, key in definition.pieces():
                inlines += self.layout.underlined(inlines_of(words)) if key else inlines_of(words)
                if key:
                    inlines += [pf.Str("\u00a0"), *self.layout.ticks(1)]
            return inlines
        else:
            # What must be there in a learner's words is underlined, as markers expect it.
            inlines = []
            for words, key in definition.pieces():
                inlines += self.layout.underlined(inlines_of(words)) if key else inlines_of(words)
        return [*inlines, pf.Str("\u00a0"), *self.layout.ticks(marks)] if marks else inlines

    def _outermost(self, blocks: Iterable[Block]) -> Iterator[Part]:
        """Everything of ours in blocks, in order, without what stands inside of it."""
        stack: list[Any] = list(reversed(list(blocks)))
        while stack:
            top = stack.pop()
            if not isinstance(top, pf.Element):
                stack += reversed(list(top))
                continue
            part = self.worked.tree.of(top)
            if part is not None:
                yield part
            else:
                stack += reversed(parts_of(top))

    def _block_pieces(self, part: BlockPart) -> list[Piece]:
        if self.edition not in part.editions:
            return []
        match self.worked.statements.get(part.key):
            case Calculation() as statement:
                return self._calculation(part, statement)
            case Options() as statement:
                return self._options(part, statement)
            case Drawing() as statement:
                marks = self.worked.marks.of.get(part.key, 0)
                blocks = self.figure(part, statement, marks)
                return [Piece(blocks, [], earns=bool(marks))] if blocks else []
            case _:
                return []

    def _calculation(self, part: BlockPart, statement: Calculation) -> list[Piece]:
        outcome = self.worked.solved.outcomes.get(part.key)
        if outcome is None or outcome.working is None:
            return []
        working, conventions = outcome.working, statement.conventions
        methods = methods_of(working, self.edition, self.engine, conventions, self.words)
        pieces = [
            Piece(self.layout.heading_word(method.heading) if method.heading else [], list(method.rows))
            for method in methods
        ]
        letters = self._letters.get(self.numbers_by_part.get(part.key, ""), {})
        positive = self.positive(part, working, conventions)
        notes = notes_of(
            working, self.engine, conventions, self.words, self._carried(part), letters, positive
        )
        pieces[-1].notes = notes
        return pieces

    @cached_property
    def _letters(self) -> dict[str, dict[str, str]]:
        """By the number of each question its options that are slips: for the words of each the letter."""
        found: dict[str, dict[str, str]] = {}
        for part in self.worked.tree.root.walk():
            statement = self.worked.statements.get(part.key)
            if isinstance(statement, Options):
                letters = found.setdefault(self.numbers_by_part.get(part.key, ""), {})
                for letter, text in statement.options:
                    words = " ".join(text.value.split())
                    if words.startswith("slip "):
                        letters[words.removeprefix("slip ")] = letter.value
        return found

    def _carried(self, part: BlockPart) -> list[str]:
        """The numbers of the other questions whose answers go into a calculation, each once."""
        numbers = self.numbers_by_part
        found = [numbers.get(key, "") for key in self.worked.solved.follows.get(part.key, ())]
        return [number for number in dict.fromkeys(found) if number and number != numbers.get(part.key)]

    def _options(self, part: BlockPart, statement: Options) -> list[Piece]:
        chosen = self.worked.solved.chosen.get(part.key)
        if chosen is None or chosen.key is None:
            return []
        marks = self.worked.marks.of.get(part.key, 0)
        paragraphs = [pf.Para(*key_inlines(statement, chosen, self.engine, self.layout, marks))]
        pieces = [Piece(paragraphs, [])]
        if statement.why is not None:
            pieces.append(Piece([pf.Para(*inlines_of(statement.why.value))], [], earns=False))
        return pieces

    def _put_total(self, piece: Piece, text: str) -> None:
        if piece.rows:
            piece.rows = with_total(piece.rows, text)
        else:
            piece.blocks = self.margin(piece.blocks, text)
