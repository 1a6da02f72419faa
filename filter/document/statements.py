"""Bodies of blocks → statements of the engine's language."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from physcalc.language import AnswerText, Calculation, Conventions, GivenText
from physcalc.problems import Problem, Span, Text

from ..blocks import Block, BlockPlace, Value, expect, items_of, keys_of, read_block, text_of, texts_of
from ..settings import LOCAL_NAMES, Settings
from .drawings import Drawing, read_drawing
from .findings import Findings
from .keys import CALCULATION_KEYS, OPTION_LETTERS, OPTIONS_KEYS
from .settling import safe_conventions
from .tree import BlockPart, Part, Tree

_Shape = TypeVar("_Shape")


@dataclass(frozen=True, slots=True)
class Options:
    """A block of options as the author wrote it.

    Attributes:
        span: where it begins.
        conventions: the settings in force for it.
        given: its own data.
        of: what the right option equals; None where the options are texts.
        options: letters with what stands behind them.
        answer: the right letter as typed; None where not said.
        marks: its marks as typed; None where not said.
        why: the sentence for memo and guide.
    """

    span: Span
    conventions: Conventions
    given: tuple[GivenText, ...] = ()
    of: Text | None = None
    options: tuple[tuple[Text, Text], ...] = ()
    answer: Text | None = None
    marks: Text | None = None
    why: Text | None = None


@dataclass(frozen=True, slots=True)
class GivenBlock:
    """A block of data.

    Attributes:
        items: its lines.
        conventions: the settings in force for it.
    """

    items: tuple[GivenText, ...]
    conventions: Conventions


Statement = Calculation | Options | GivenBlock | Drawing


def read_statements(tree: Tree, settled: Mapping[int, Settings], findings: Findings) -> dict[int, Statement]:
    """The statement of every block, by the block's key; those that cannot be read are left out.

    Args:
        tree: the document.
        settled: the settings of each part.
        findings: takes what is wrong.
    """
    statements: dict[int, Statement] = {}
    for part in tree.root.walk():
        if isinstance(part, BlockPart):
            with findings.catching(part):
                # As typed: pandoc has put blanks in the place of tabs.
                body = part.element.text if part.mark is None else part.mark.body
                block = read_block(body, _place(part))
                statements[part.key] = _Reader(part, findings).statement(block, settled[part.key])
    return statements


def _place(part: BlockPart) -> BlockPlace:
    lines: tuple[Span, ...]
    if part.mark is not None:
        lines = tuple(line.span for line in part.mark.lines)
    else:
        # No source: lines are counted inside the block.
        count = part.element.text.count("\n") + 1
        lines = tuple(Span(part.span.file, number + 1) for number in range(count))
    return BlockPlace(part.span, lines, part.kind)


class _Reader:
    def __init__(self, part: BlockPart, findings: Findings) -> None:
        self.part: Part = part
        self.kind = part.kind
        self.findings = findings

    def statement(self, block: Block, settings: Settings) -> Statement:
        if self.kind == "given":
            conventions = safe_conventions(settings, self.part, self.findings)
            return GivenBlock(self.given(block), conventions)
        if self.kind == "options":
            return self.options(block, settings)
        if self.kind == "draw":
            return read_drawing(self, block, settings)
        return self.calculation(block, settings)

    def given(self, block: Block) -> tuple[GivenText, ...]:
        lines = [(key, self.shaped(text_of, key, value)) for key, value in block]
        return tuple(GivenText(key, text) for key, text in lines if text is not None)

    def options(self, block: Block, settings: Settings) -> Options:
        keys = (*OPTIONS_KEYS, *OPTION_LETTERS)
        settings = self.settings(block, settings, keys)
        letters = [
            (key, self.shaped(text_of, key, value)) for key, value in block if key.value in OPTION_LETTERS
        ]
        return Options(
            span=block.span,
            conventions=safe_conventions(settings, self.part, self.findings),
            given=self.own_given(block),
            of=self.text(block, "of"),
            options=tuple((letter, text) for letter, text in letters if text is not None),
            answer=self.text(block, "answer"),
            marks=self.text(block, "marks"),
            why=self.text(block, "why"),
        )

    def calculation(self, block: Block, settings: Settings, find: tuple[Text, ...] = ()) -> Calculation:
        """The calculation of a block; `find` is what an alternative finds where it does not say."""
        settings = self.settings(block, settings, CALCULATION_KEYS)
        found = self.texts(block, "find") or find
        formulas = self.texts(block, "formula")
        use = self.text(block, "use")
        steps = tuple(self.calculation(item, settings) for item in self.items(block, "steps"))
        return Calculation(
            span=block.span,
            conventions=safe_conventions(settings, self.part, self.findings),
            given=self.own_given(block),
            use=use,
            formulas=formulas,
            find=found,
            take=self.text(block, "take"),
            answers=self.answers(block),
            show=self.text(block, "show"),
            accept=self.text(block, "accept"),
            marks=self.marks(block),
            steps=steps,
            others=tuple(self.calculation(item, settings, found) for item in self.items(block, "or")),
            slips=self.pairs(block, "slips"),
            why=self.text(block, "why"),
            change=self.text(block, "change"),
            bands=self.pairs(block, "bands"),
        )

    def settings(self, block: Block, outer: Settings, keys: tuple[str, ...]) -> Settings:
        """The settings with the block's own over them; unknown keys are found here."""
        for problem in expect(block, (*keys, *LOCAL_NAMES)):
            self.problem(problem)
        # A graph's own points are no setting of that name.
        own = [(key, value) for key, value in block if key.value in LOCAL_NAMES and key.value not in keys]
        settings, problems = outer.with_overrides(own, scope="block")
        self.findings.add(self.part, problems)
        return settings

    def checked(self, block: Block, settings: Settings, keys: tuple[str, ...]) -> Conventions:
        """The settings in force with the block's own over them, for the engine."""
        return safe_conventions(self.settings(block, settings, keys), self.part, self.findings)

    def answers(self, block: Block) -> tuple[AnswerText, ...]:
        key, value = block.key("answer"), block.get("answer")
        if key is None or value is None:
            return ()
        if isinstance(value, Block):
            return tuple(AnswerText(text, name) for name, text in self.pairs(block, "answer"))
        texts = self.shaped(texts_of, key, value) or ()
        return tuple(_named(text) for text in texts)

    def marks(self, block: Block) -> tuple[tuple[Text, Text], ...]:
        key, value = block.key("marks"), block.get("marks")
        if isinstance(value, Text) and key is not None:
            return ((Text("", key.span), value),)
        return self.pairs(block, "marks")

    def own_given(self, block: Block) -> tuple[GivenText, ...]:
        return tuple(GivenText(name, text) for name, text in self.pairs(block, "given"))

    def text(self, block: Block, name: str) -> Text | None:
        return self.of(block, name, text_of)

    def texts(self, block: Block, name: str) -> tuple[Text, ...]:
        return self.of(block, name, texts_of) or ()

    def items(self, block: Block, name: str) -> tuple[Block, ...]:
        return self.of(block, name, items_of) or ()

    def pairs(self, block: Block, name: str) -> tuple[tuple[Text, Text], ...]:
        below = self.of(block, name, keys_of)
        if below is None:
            return ()
        lines = [(key, self.shaped(text_of, key, value)) for key, value in below]
        return tuple((key, text) for key, text in lines if text is not None)

    def of(self, block: Block, name: str, shape: Callable[[Text, Value], _Shape]) -> _Shape | None:
        key, value = block.key(name), block.get(name)
        return self.shaped(shape, key, value) if key is not None and value is not None else None

    def shaped(self, shape: Callable[[Text, Value], _Shape], key: Text, value: Value) -> _Shape | None:
        with self.findings.catching(self.part):
            return shape(key, value)
        return None

    def problem(self, problem: Problem) -> None:
        self.findings.add(self.part, [problem])


def _named(text: Text) -> AnswerText:
    """An answer of a list, `T: 5 N`, or one without a name."""
    name, colon, _ = text.value.partition(":")
    if not colon:
        return AnswerText(text)
    return AnswerText(text.part(len(name) + 1), text.part(0, len(name)))


def own_givens(calculation: Calculation) -> Iterable[tuple[tuple[GivenText, ...], Conventions]]:
    """The data of a calculation and of everything inside it, nearest to the outside first."""
    yield calculation.given, calculation.conventions
    for inner in (*calculation.steps, *calculation.others):
        yield from own_givens(inner)
