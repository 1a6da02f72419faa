"""What stands in a TeX document in the place of each entry, in one edition: as elements, then as TeX."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

import panflute as pf

from physcalc.problems import Problem, Span

from ..document import (
    AnswerPart,
    BlockPart,
    DefinePart,
    Edition,
    Engine,
    Findings,
    GridPart,
    OnlyPart,
    Part,
    Question,
    ValuePart,
    Worked,
    sections_of,
)
from ..editions.escape import latex
from ..editions.frames import framed
from ..editions.guide import Guide
from ..editions.layouts.base import Block, Inline, raw_block, raw_inline
from ..editions.lines import with_total
from ..editions.making import appendix_of
from ..editions.memo import Memo, Piece
from ..editions.page import Page
from ..editions.paper import Paper
from .as_tex import as_tex
from .places import Placed
from .tree import MARKUP

_FORMAT = "latex"


@dataclass(slots=True)
class Shown:
    """What TeX sets for an entry, each field as blocks.

    Attributes:
        body: of a block its lines; of a value its text; of a definition its words or ticks; of a question what
            stands before its text; of an answer the ticks behind it.
        marks: of a question or an answer the bracketed marks at its end.
        before: of an answer what stands above it.
        after: of a question what stands behind its text.
        total: of a question the sum of its marks, below it.
    """

    body: list[Block] = field(default_factory=list)
    marks: str = ""
    before: list[Block] = field(default_factory=list)
    after: list[Block] = field(default_factory=list)
    total: list[Block] = field(default_factory=list)


#: The fields of `Shown` that hold blocks.
_FIELDS = ("body", "before", "after", "total")


@dataclass(frozen=True, slots=True)
class Typeset:
    """The same as TeX.

    Attributes:
        fields: for each entry's number its fields, by name.
        marks: for each entry's number its bracketed marks.
        appendix: the data and formula sheet; empty for none.
        named: for each name the text of the first value of that name.
        question: the word before the number of a question.
    """

    fields: Mapping[int, Mapping[str, str]]
    marks: Mapping[int, str]
    appendix: str
    named: Mapping[str, str]
    question: str


class _MemoPieces(Memo):
    """The memo piece by piece: the text around the pieces is TeX's own."""

    def question_pieces(self, question: Question, inside: Iterable[Block]) -> Iterator[tuple[Part, Piece]]:
        """What earns marks in a question, in order."""
        for part in self._outermost(inside):
            match part:
                case BlockPart():
                    for piece in self._block_pieces(part):
                        yield part, piece
                case DefinePart() if self.edition in part.editions:
                    yield part, Piece([pf.Para(*self.definition_inlines(part))], [])
                case AnswerPart():
                    yield part, Piece([], [])
                case OnlyPart() if self.edition in part.inside:
                    for inner, piece in self.question_pieces(question, part.element.content):
                        piece.earns = False
                        yield inner, piece
                case _:
                    pass

    def definition_inlines(self, part: DefinePart) -> list[Inline]:
        if part.typed is None:
            return super().definition_inlines(part)
        marks = self.worked.marks.of.get(part.key, 0)
        return [pf.Str("\u00a0"), *self.layout.ticks(marks)] if marks else []


def typeset(
    worked: Worked,
    entries: Mapping[int, Placed],
    edition: Edition,
    engine: Engine,
    findings: Findings,
    place: Span,
) -> Typeset:
    """What TeX sets for each entry.

    Args:
        worked: the document.
        entries: the entry of each element, by Python's identity of the element.
        edition: the edition that TeX sets.
        engine: what writes TeX.
        findings: the problems, framed in their places.
        place: where a problem of pandoc's is shown.

    Raises:
        OutputFailed, PandocMissing, PandocTooOld: pandoc refuses.
    """
    page: Page
    match edition:
        case "memo":
            page = _MemoPieces(worked, _FORMAT, engine, None)
        case "guide":
            page = Guide(worked, _FORMAT, engine, None)
        case "paper":
            page = Paper(worked, _FORMAT, engine, None)
    shown = _Maker(worked, page, entries, findings).made()
    named: dict[str, int] = {}
    for part in worked.tree.root.walk():
        if isinstance(part, ValuePart) and part.typed is None:
            placed = entries[id(part.element)]
            named.setdefault(placed.entry.name, placed.entry.number)
    appendix = [_unnumbered(block) for block in appendix_of(worked, page, engine)]
    groups = [getattr(one, name) for one in shown.values() for name in _FIELDS]
    texts = iter(as_tex([*groups, appendix], place))
    fields = {number: {name: next(texts) for name in _FIELDS} for number in shown}
    return Typeset(
        fields,
        {number: latex(one.marks) for number, one in shown.items()},
        next(texts),
        {name: fields[number]["body"] for name, number in named.items()},
        latex(page.words["question"]),
    )


class _Maker:
    def __init__(self, worked: Worked, page: Page, entries: Mapping[int, Placed], findings: Findings) -> None:
        self.worked = worked
        self.page = page
        self.entries = entries
        self.findings = findings
        self.shown: dict[int, Shown] = {}

    def made(self) -> dict[int, Shown]:
        root = self.worked.tree.root
        for part in root.walk():
            self.shown[self.number(part)] = Shown()
        for question in (root, *(part for part in root.walk() if isinstance(part, Question))):
            self.question(question)
            for part in question.parts:
                self.part(part, question)
        for part in root.walk():
            self.frame(part)
        self.sections()
        self.grand_total()
        return self.shown

    def number(self, part: Part) -> int:
        return self.entries[id(part.element)].entry.number

    def typed(self, part: Part) -> str:
        return self.entries[id(part.element)].typed_text or ""

    def of(self, part: Part) -> Shown:
        return self.shown[self.number(part)]

    def question(self, question: Question) -> None:
        root = question.depth == 0
        leaf = not root and not any(question.questions())
        text = self.page.bracketed(question) if not root else ""
        if isinstance(self.page, _MemoPieces):
            if self.memo(question, text if leaf else ""):
                text = ""
        elif leaf and isinstance(self.page, Paper):
            self.of(question).after = self.page.after_text(question)
        if root or not text:
            return
        if leaf:
            self.of(question).marks = text
        elif question.depth == 1:
            self.of(question).total = self.page.layout.total_line(text)

    def memo(self, question: Question, text: str) -> bool:
        """The pieces of a question; whether the bracketed total stands at one of them."""
        assert isinstance(self.page, _MemoPieces)
        pieces = list(self.page.question_pieces(question, list(question.element.content)))
        earning = [one for one in pieces if one[1].earns]
        if earning and text:
            part, piece = earning[-1]
            if piece.rows:
                piece.rows = with_total(piece.rows, text)
            elif isinstance(part, AnswerPart):
                self.of(part).marks = text
            else:
                piece.blocks = self.page.margin(piece.blocks, text)
        for part, piece in pieces:
            if not isinstance(part, AnswerPart):
                self.of(part).body += self.page.laid_out([piece])
        return bool(earning and text)

    def part(self, part: Part, question: Question) -> None:
        page = self.page
        match part:
            case BlockPart() if not isinstance(page, Memo) and page.edition in part.editions:
                self.of(part).body = page.block_part(part, question)
            case ValuePart() if part.typed is None and page.edition in part.editions:
                text = self.worked.prose.values.get(part.key)
                # A value whose own calculation failed has a problem there.
                missing = raw_inline("\\physcalcproblem{?}", _FORMAT)
                self.of(part).body = [pf.Plain(pf.Str(text) if text is not None else missing)]
            case ValuePart() if part.typed is not None and not MARKUP.search(typed := self.typed(part)):
                self.of(part).body = [pf.Plain(pf.Str(typed.replace(" ", "\u00a0")))]
            case DefinePart() if page.edition in part.editions and not self.of(part).body:
                # In the memo those of questions are there already; what is left stands in a sentence.
                inlines = (
                    page.definition_inlines(part) if part.typed is None or page.edition == "memo" else []
                )
                self.of(part).body = [pf.Plain(*inlines)] if inlines else []
            case GridPart() if page.edition in part.editions:
                self.of(part).body = page.grid_alone()
            case AnswerPart() if page.edition in part.editions:
                marks = self.worked.marks.of.get(part.key, 0)
                if page.edition == "memo" and marks and not part.ticks:
                    ticks = [raw_inline("~", _FORMAT), *page.layout.ticks(marks)]
                    self.of(part).body = [pf.Plain(*ticks)]
                if page.edition == "guide":
                    self.of(part).before = page.layout.heading_word(page.words["answer"])
            case _:
                pass

    def sections(self) -> None:
        """The sum of each section's marks, below its last question."""
        if self.page.edition == "guide":
            return
        for section in sections_of(self.worked.tree, self.worked.marks):
            if section.told and section.questions:
                unit = self.page.words["mark"] if section.marks == 1 else self.page.words["marks"]
                text = f"{section.title}: {section.marks}\u00a0{unit}"
                self.of(section.questions[-1]).total += self.page.layout.total_line(text)

    def grand_total(self) -> None:
        total = self.worked.marks.total
        questions = list(self.worked.tree.root.questions())
        if total is not None and questions and self.page.edition != "guide":
            text = f"{self.page.words['total']}: {total}"
            self.of(questions[-1]).total += self.page.layout.total_line(text)

    def frame(self, part: Part) -> None:
        """The problems of a part, framed; in the paper their places alone, as they may tell an answer."""
        problems = [problem for problem in self.findings.at(part) if problem.level != "note"]
        if not problems:
            return
        one = self.of(part)
        if isinstance(part, ValuePart | DefinePart):
            words: Inline = raw_inline("".join(_short(problem) for problem in problems), _FORMAT)
            one.body = [pf.Plain(words)]
            return
        if self.page.edition == "paper":
            frames = [raw_block("".join(_short(problem) for problem in problems), _FORMAT)]
        else:
            frames = framed(problems, self.page.layout, self.page.words)
        if isinstance(part, AnswerPart):
            one.before = [*frames, *one.before]
        else:
            one.body = [*frames, *one.body]


def _short(problem: Problem) -> str:
    return (
        f"\\physcalcproblem{{{latex(f'{Path(problem.span.file).name}:{problem.span.line}: {problem.slug}')}}}"
    )


def _unnumbered(block: Block) -> Block:
    if isinstance(block, pf.Header):
        block.classes = [*block.classes, "unnumbered"]
    return block
