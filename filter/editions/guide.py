"""The guide: the whole text, and every working with its reasons and the slips to avoid."""

from __future__ import annotations

import copy
from collections.abc import Iterable

import panflute as pf

from physcalc.language import Calculation

from ..document import AnswerPart, BlockPart, DefinePart, Drawing, Edition, Options, Question, Section
from .choices import key_inlines, option_entries
from .layouts.base import Block, Inline
from .lines import methods_of, slips_of
from .paper import QuestionPage
from .text import inlines_of


class Guide(QuestionPage):
    """The guide."""

    edition: Edition = "guide"

    def with_sections(self, blocks: list[Block], sections: Iterable[Section]) -> list[Block]:
        # A guide is not sat: sums of marks would say nothing there.
        return blocks

    def block_part(self, part: BlockPart, question: Question) -> list[Block]:
        match self.worked.statements.get(part.key):
            case Calculation() as statement:
                return self._calculation(part, statement)
            case Options() as statement:
                return self._options(part, statement)
            case Drawing() as statement:
                return self.figure(part, statement, question=question)
            case _:
                return []

    def answer_part(self, part: AnswerPart, question: Question) -> list[Block]:
        self._aside += 1
        inside = self.blocks(part.element.content, question)
        self._aside -= 1
        # An answer that is a section has a heading of its own.
        if inside and isinstance(inside[0], pf.Header):
            return [inside[0], *self.layout.folded(self.words["answer"], inside[1:], headed=False)]
        return self.layout.folded(self.words["answer"], inside)

    def definition_inlines(self, part: DefinePart) -> list[Inline]:
        if part.typed is not None:
            return list(part.element.content)
        definition = self.worked.prose.definitions.get(part.key)
        return inlines_of(definition.wording) if definition is not None else list(part.element.content)

    def block(self, block: Block, question: Question) -> list[Block]:
        alone = only_definition(self, block)
        self._aside += alone
        made = super().block(block, question)
        self._aside -= alone
        return made

    def _paragraph(self, block: Block, question: Question) -> list[Block]:
        alone = only_definition(self, block)
        made = super()._paragraph(block, question)
        if not alone or not made:
            return made
        wording = self.layout.definition([pf.Para(*made[0].content)])
        if question is not self.worked.tree.root:
            # In a question it is what was asked for; in the text around it is to be read.
            wording = self.layout.folded(self.words["answer"], wording, headed=False)
        return [*wording, *made[1:]]

    def _calculation(self, part: BlockPart, statement: Calculation) -> list[Block]:
        outcome = self.worked.solved.outcomes.get(part.key)
        if outcome is None or outcome.working is None:
            return []
        working, conventions = outcome.working, statement.conventions
        blocks: list[Block] = []
        positive = self.positive(part, working, conventions)
        # What the author's sentence tells already is not told again.
        if positive and positive.split()[-1].casefold() not in working.why.casefold():
            blocks += self.layout.kept(pf.Para(*inlines_of(f"{positive}.")))
        for method in methods_of(working, self.edition, self.engine, conventions, self.words):
            if method.heading:
                blocks += self.layout.heading_word(method.heading)
            if method.why:
                blocks += self.layout.kept(pf.Para(*inlines_of(method.why)))
            blocks += self.layout.working(method.rows)
        slips = slips_of(working, self.engine, conventions)
        if slips:
            gives = [pf.Space(), pf.Str("–"), pf.Space(), pf.Str(self.words["gives"]), pf.Space()]
            items = [[*what, *copy.deepcopy(gives), *value] for what, value in slips]
            blocks += [*self.layout.heading_word(self.words["slips"]), *self.layout.items(items)]
        return self.layout.folded(self.words["working"], blocks)

    def _options(self, part: BlockPart, statement: Options) -> list[Block]:
        chosen = self.worked.solved.chosen.get(part.key)
        blocks = self.layout.option_list(option_entries(statement, chosen, self.engine))
        if chosen is None or chosen.key is None:
            return blocks
        key = key_inlines(statement, chosen, self.engine, self.layout, 0)
        said = (
            [] if self.layout.folds else [*inlines_of(self.words["answer"] + self.words["colon"]), pf.Space()]
        )
        answer = [pf.Para(*said, *key)]
        if statement.why is not None:
            answer.append(pf.Para(*inlines_of(statement.why.value)))
        return [*blocks, *self.layout.folded(self.words["answer"], answer, headed=False)]


def only_definition(page: QuestionPage, block: Block) -> bool:
    """Whether a paragraph holds a definition and nothing else."""
    if not isinstance(block, pf.Para | pf.Plain):
        return False
    words = [inline for inline in block.content if not isinstance(inline, pf.Space | pf.SoftBreak)]
    return len(words) == 1 and isinstance(page.worked.tree.of(words[0]), DefinePart)
