"""Numbers with units in the text of questions that are tied to no quantity: where a document begins to drift."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import panflute as pf

from physcalc.checking.scope import Datum
from physcalc.exact.number import DecimalSign
from physcalc.language import Name
from physcalc.problems import Problem, Span, Text

from ..problems import NumberLoose
from ..settings import Settings
from ..sources import (
    GAP,
    MATHS,
    UNTIED,
    Quantity,
    Source,
    Woven,
    align,
    find_quantities,
    flatten,
    flatten_tex,
    script,
    upright_text,
)
from .engine import Engine
from .findings import Findings
from .numbering import typed_number
from .placing import kind
from .prose import value_problems
from .settling import conventions_of
from .solving import Solved, printed_text
from .statements import Statement
from .tree import AnswerPart, BlockPart, Edition, OnlyPart, Question, Tree, ValuePart
from .walking import in_order, parts_of

_RAISED = re.compile(r"<(/?)(sup|sub)\s*>", re.IGNORECASE)
_HEADING_NUMBER = re.compile(r"\s*(?:[^\W\d]+\s+)?[0-9]+(?:\.[0-9]+)*[.:)]?(?=\s|$)")
#: "1.1 A trolley moves …" at the beginning of a paragraph is a number of a question, and no current.
_PARAGRAPH_NUMBER = re.compile(r"[0-9]{1,2}(?:\.[0-9]{1,2})+[.:)]?(?=\s[A-Z]\s+[a-z])")
#: What a span cannot be put around: half of an emphasis, a bracket, more than a line's end.
_UNFIT = re.compile(r"[*\[\]`{}|]|\n\s*\n")
#: The same in LaTeX: what ends an argument in brackets, or makes it another's.
_UNFIT_TEX = re.compile(r"[\[\]%&#=]|\n\s*\n")


#: Commands with a number and its unit in braces, of the package siunitx.
_UNITS = re.compile(r"\\(?:SI|qty|ang)\*?(?:\[[^\]\n]*\])?\{$")
_FARTHEST = 80


@dataclass(frozen=True, slots=True)
class _Seen:
    """A number with its unit in pandoc's text.

    Attributes:
        quantity: what it is.
        question: the question in whose text it stands.
        editions: the editions in which it stands.
    """

    quantity: Quantity
    question: Question
    editions: frozenset[Edition]


def check_loose(
    tree: Tree,
    source: Source,
    settled: Mapping[int, Settings],
    solved: Solved,
    engine: Engine,
    findings: Findings,
    statements: Mapping[int, Statement],
    words: Sequence[str] = (),
) -> None:
    """A problem for every number with a unit in a question's text that nothing ties to a quantity.

    Args:
        tree: the document.
        source: the text it was read from.
        settled: the settings at each part.
        solved: what its blocks led to.
        engine: what compares and prints.
        findings: takes what is found.
        statements: the statement of each block.
        words: further words for "question" in headings.
    """
    decimal: DecimalSign = settled[tree.root.key].decimal
    seen = list(_Reader(tree, decimal, words).all())
    meanings = _Meanings(settled, solved, engine, statements)
    for one, stretch in zip(seen, _stretches(source, decimal, seen), strict=True):
        latex = isinstance(source, Woven)
        if latex and stretch:
            stretch = _with_command(source.text, stretch)
        unknown = one.question.span if latex else Span(source.name)
        span = source.span(stretch[0], stretch[1]) if stretch else unknown
        raw = source.text[stretch[0] : stretch[1]] if stretch else ""
        end = stretch[1] if stretch else 0
        if isinstance(source, Woven) and stretch:
            part = source.part_at(stretch[0])
            end += part.begin - part.start  # The offset in the file itself.
        fit = (
            stretch is not None
            and stretch[2]
            and not one.quantity.spelt
            and not (_UNFIT_TEX.search(raw) if latex else _UNFIT.search(MATHS.sub("", raw)))
            and _balanced(raw)
        )
        names, near = meanings.of(one)
        problem = NumberLoose(
            span, _shown(one.quantity.text), tuple(names), near, raw if fit else "", end, latex
        )
        findings.add(one.question, [problem])


def _with_command(text: str, stretch: tuple[int, int, bool]) -> tuple[int, int, bool]:
    """A stretch of LaTeX with the command whose arguments it is, `\\SI{2}{kg}`."""
    start, end, whole = stretch
    command = _UNITS.search(text, max(0, start - _FARTHEST), start)
    if command is None or text[end : end + 1] != "}" or "}{" not in text[start:end]:
        return stretch
    return command.start(), end + 1, whole


def _balanced(raw: str) -> bool:
    """Whether the braces of a text answer one another."""
    depth = 0
    for sign in raw:
        depth += (sign == "{") - (sign == "}")
        if depth < 0:
            return False
    return depth == 0


def _shown(text: str) -> str:
    return " ".join(text.split())


class _Reader:
    """Goes through the text of a document's questions."""

    def __init__(self, tree: Tree, decimal: DecimalSign, words: Sequence[str]) -> None:
        self.tree = tree
        self.decimal = decimal
        self.words = words

    def all(self) -> Iterator[_Seen]:
        root = self.tree.root
        for child in parts_of(root.element):
            yield from self.visit(child, root, root.editions)

    def visit(self, element: object, question: Question, editions: frozenset[Edition]) -> Iterator[_Seen]:
        if not isinstance(element, pf.Element):
            for child in element:  # type: ignore[attr-defined]
                yield from self.visit(child, question, editions)
            return
        part = self.tree.of(element)
        match part:
            case BlockPart():
                return
            case Question():
                question, editions = part, part.editions
            case AnswerPart():
                editions = part.editions
            case OnlyPart():
                editions = part.inside
        if isinstance(element, pf.Para | pf.Plain | pf.Header | pf.LineItem):
            yield from self.run(element, question, editions)
            return
        for child in parts_of(element):
            yield from self.visit(child, question, editions)

    def run(self, element: pf.Element, question: Question, editions: frozenset[Edition]) -> Iterator[_Seen]:
        """What stands in one paragraph, heading or cell, and in the notes to it."""
        if question.depth:
            text = running_text(element.content)
            numbered = isinstance(element, pf.Header) and typed_number(element, self.words) is not None
            number = (_HEADING_NUMBER if numbered else _PARAGRAPH_NUMBER).match(text)
            if number is not None:
                text = GAP + text[number.end() :]
            for quantity in find_quantities(text, self.decimal):
                yield _Seen(quantity, question, editions)
        for inner in in_order(list(element.content)):
            if isinstance(inner, pf.Note):
                for child in inner.content:
                    yield from self.visit(child, question, editions)


def running_text(inlines: Iterable[pf.Element]) -> str:
    """The text of inline elements on one line, with `GAP` for code, tied values and mathematics' letters."""
    pieces: list[str] = []
    opened: list[tuple[str, int]] = []
    for inline in inlines:
        match inline:
            case pf.Str():
                pieces.append(str(inline.text))
            case pf.Space() | pf.SoftBreak() | pf.LineBreak():
                pieces.append(" ")
            case pf.Superscript() | pf.Subscript():
                sign = "^" if isinstance(inline, pf.Superscript) else "_"
                pieces.append(script(sign, running_text(inline.content)))
            case pf.Math():
                pieces.append(upright_text(inline.text))
            case pf.RawInline():
                # HTML's raised text comes as raw tags around ordinary text.
                tag = _RAISED.fullmatch(inline.text.strip())
                if tag is not None and not tag[1]:
                    opened.append(("^" if tag[2].lower() == "sup" else "_", len(pieces)))
                elif tag is not None and opened:
                    sign, start = opened.pop()
                    pieces[start:] = [script(sign, "".join(pieces[start:]))]
            case pf.Note():
                pass
            case pf.Code() | pf.Image():
                pieces.append(GAP)
            case pf.Span() if kind(inline) in ("span-value", "define") or UNTIED in inline.classes:
                pieces.append(GAP)
            case _:
                pieces.append(running_text(getattr(inline, "content", ())))
    return "".join(pieces)


def _stretches(
    source: Source, decimal: DecimalSign, seen: Sequence[_Seen]
) -> list[tuple[int, int, bool] | None]:
    """For each number its stretch of the source, and whether it is the whole of what makes it there."""
    if not seen:
        return []
    flat = flatten_tex(source) if isinstance(source, Woven) else flatten(source)
    typed = find_quantities(flat.text, decimal)
    keys, wanted = [quantity.key for quantity in typed], [one.quantity.key for one in seen]
    found = align(keys, wanted)
    # Notes and captions stand elsewhere in the source than in pandoc's tree.
    used = {index for index in found if index is not None}
    free: dict[str, list[int]] = {}
    for index in reversed(range(len(typed))):
        if index not in used:
            free.setdefault(keys[index], []).append(index)
    for element, key in enumerate(wanted):
        if found[element] is None and free.get(key):
            found[element] = free[key].pop()
    return [None if index is None else flat.stretch(typed[index].start, typed[index].end) for index in found]


class _Meanings:
    """Which quantities a number may be."""

    def __init__(
        self,
        settled: Mapping[int, Settings],
        solved: Solved,
        engine: Engine,
        statements: Mapping[int, Statement],
    ) -> None:
        self.settled = settled
        self.solved = solved
        self.engine = engine
        self.statements = statements

    def of(self, seen: _Seen) -> tuple[list[str], tuple[str, ...]]:
        """The names of the quantities that it equals; where there is none, those of its kind with their values."""
        unit = seen.quantity.unit
        if unit is None or seen.quantity.number is None:
            return [], ()
        alike = [
            (name, datum)
            for name, datum in self.scope(seen.question)
            if datum.quantity.unit.dimension == unit.dimension and datum.quantity.unit.angle == unit.angle
        ]
        equal = [(name, datum) for name, datum in alike if self.equals(seen, name)]
        # A datum is meant before a constant that happens to have its value.
        own = [name for name, datum in equal if datum.kind != "constant"]
        names = own or [name for name, _ in equal]
        conventions = conventions_of(replace(self.settled[seen.question.key], axis=None, points=()))
        near = [
            f"{name.key} is {printed_text(self.engine, datum, conventions)} ({datum.where})"
            for name, datum in alike
            if datum.kind == "given"
        ]
        return [name.key for name in names], tuple(near) if not names and len(near) <= 2 else ()

    def scope(self, question: Question) -> Iterator[tuple[Name, Datum]]:
        """Every quantity that has one meaning in the text of a question."""
        own = self.solved.meanings[question.key]
        for name, data in own.items():
            if len(data) == 1:
                yield name, data[0]
        scope = self.solved.scopes[question.key]
        for name in scope.names():
            if name not in own and (datum := scope.find(name)) is not None:
                yield name, datum

    def equals(self, seen: _Seen, name: Name) -> bool:
        """Whether nothing would be wrong with the number, tied to a name."""
        question, text = seen.question, Text(seen.quantity.text)
        if seen.quantity.spelt and seen.quantity.number is not None and seen.quantity.unit is not None:
            text = Text(f"{seen.quantity.number.typed} {seen.quantity.unit.text()}")
        part = ValuePart(
            question.key, pf.Span(), question.span, None, "", seen.editions, Text(name.key), text
        )
        try:
            return not value_problems(question, part, self.settled, self.solved, self.engine, self.statements)
        except Problem:
            return False
