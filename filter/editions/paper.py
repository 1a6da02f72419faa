"""The paper: questions alone. Nothing that gives an answer away stands in it."""

from __future__ import annotations

from ..document import (
    AnswerPart,
    BlockPart,
    DefinePart,
    Drawing,
    Edition,
    Engine,
    Findings,
    OnlyPart,
    Options,
    Question,
    Worked,
)
from .choices import option_entries
from .layouts.base import Block, Inline
from .page import Page


class QuestionPage(Page):
    """What paper and guide share: the whole text, with marks at the right of each question."""

    def __init__(self, worked: Worked, format: str, engine: Engine, findings: Findings | None) -> None:
        super().__init__(worked, format, engine, findings)
        #: Identities of the blocks that are the text of questions: marks stand at the last of them.
        self._text: set[int] = set()
        self._aside = 0

    def document(self) -> list[Block]:
        """The blocks of the edition."""
        root = self.worked.tree.root
        blocks: list[Block] = self.frames(None)
        sections = self.sections()
        for at, block in enumerate(list(root.element.content)):
            self.pass_heading(block)
            blocks += self.block(block, root)
            blocks = self.with_sections(blocks, sections.get(at, ()))
        return blocks

    def block(self, block: Block, question: Question) -> list[Block]:
        part = self.worked.tree.of(block)
        aside = isinstance(part, OnlyPart) and "paper" not in part.inside
        self._aside += aside
        made = super().block(block, question)
        self._aside -= aside
        if part is None and not self._aside:
            self._text.update(id(one) for one in made)
        return made

    def question_part(self, question: Question) -> list[Block]:
        inside = list(question.element.content)
        if question.heading is not None:
            inside = inside[1:]
        blocks = self.blocks(inside, question)
        if not any(question.questions()):
            blocks = self._with_marks(blocks, self.bracketed(question))
            blocks += self.after_text(question)
        return self.with_total(question, self.numbered(question, [*self.frames(question), *blocks]))

    def after_text(self, question: Question) -> list[Block]:
        """What follows the text of a question that has no parts."""
        return []

    def _with_marks(self, blocks: list[Block], text: str) -> list[Block]:
        """The bracketed marks at the end of the question's own text, before what follows it."""
        end = max((index + 1 for index, block in enumerate(blocks) if id(block) in self._text), default=0)
        return [*self.margin(blocks[:end], text), *blocks[end:]]


class Paper(QuestionPage):
    """The paper."""

    edition: Edition = "paper"

    def document(self) -> list[Block]:
        return self.with_grand_total(super().document())

    def block_part(self, part: BlockPart, question: Question) -> list[Block]:
        statement = self.worked.statements.get(part.key)
        if isinstance(statement, Drawing):
            return self.figure(part, statement)
        if not isinstance(statement, Options):
            return []
        chosen = self.worked.solved.chosen.get(part.key)
        return self.layout.option_list(option_entries(statement, chosen, self.engine))

    def answer_part(self, part: AnswerPart, question: Question) -> list[Block]:
        return []

    def definition_inlines(self, part: DefinePart) -> list[Inline]:
        return []

    def after_text(self, question: Question) -> list[Block]:
        space = self.worked.settled[question.key].writing_space
        answered_on_paper = any(
            isinstance(part, BlockPart) and part.kind == "options" for part in question.parts
        )
        if not space or answered_on_paper:
            return []
        marks = self.worked.marks.of
        # What is drawn has its room already.
        drawn = sum(
            marks.get(part.key, 0)
            for part in question.parts
            if isinstance(drawing := self.worked.statements.get(part.key), Drawing)
            and drawing.paper != "nothing"
        )
        if drawn and drawn >= marks.get(question.key, 0):
            return []
        return self.layout.writing_lines(space * max(1, marks.get(question.key, 1) - drawn))
