"""What stands in the text of questions: values written in or checked, definitions."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from physcalc.checking.scope import Datum, Scope
from physcalc.language import Name
from physcalc.language.phrases import read_given_name
from physcalc.problems import Problem, Text
from physcalc.problems.checking import NameWithoutValue
from physcalc.sheets import Definition, Sheet

from ..problems import AnswerPrinted, DefinitionIncomplete, NameAmbiguous
from ..settings import Settings
from .engine import Engine
from .findings import Findings
from .settling import conventions_of
from .solving import ANY, Solved, printed_text
from .tree import DefinePart, Part, Question, Tree, ValuePart

_NO_BREAK = "\u00a0"


@dataclass(frozen=True, slots=True)
class Prose:
    """What goes into the text.

    Attributes:
        values: the text of each value that is written in, by its part's key.
        definitions: the definition that each `define` span asks for, by its part's key.
    """

    values: Mapping[int, str]
    definitions: Mapping[int, Definition]


def check_prose(
    tree: Tree,
    settled: Mapping[int, Settings],
    solved: Solved,
    sheet: Sheet,
    engine: Engine,
    findings: Findings,
) -> Prose:
    """Values and definitions of the text: what is written in, and what is wrong with what was typed.

    Args:
        tree: the document.
        settled: the settings at each part.
        solved: what its blocks led to.
        sheet: the data and formula sheet.
        engine: what compares and prints.
        findings: takes what is wrong.
    """
    values: dict[int, str] = {}
    definitions: dict[int, Definition] = {}
    reader = _Values(settled, solved, engine)
    for question, part in _with_question(tree.root):
        with findings.catching(part):
            if isinstance(part, DefinePart):
                definitions[part.key] = _definition(part, sheet)
            elif isinstance(part, ValuePart) and part.name.value:
                text, problems = reader.value(question, part)
                findings.add(part, problems)
                if text is not None:
                    values[part.key] = text
    return Prose(values, definitions)


def _with_question(root: Question) -> Iterator[tuple[Question, Part]]:
    for question in (root, *(part for part in root.walk() if isinstance(part, Question))):
        for part in question.parts:
            yield question, part


class _Values:
    def __init__(self, settled: Mapping[int, Settings], solved: Solved, engine: Engine) -> None:
        self.settled = settled
        self.solved = solved
        self.engine = engine

    def value(self, question: Question, part: ValuePart) -> tuple[str | None, list[Problem]]:
        """What is written in (None for a typed value), and what is wrong.

        Raises:
            NameUnreadable, NameWithoutValue, NameAmbiguous, PhraseUnreadable.
        """
        # The axis was read for the blocks already; one that cannot be read is no problem of this value's.
        conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
        name = read_given_name(part.name)
        datum = self._meaning(question, part, name)
        if datum is None:
            return None, []
        problems: list[Problem] = []
        if datum.shown is not None:
            # What the question states is the value to be shown, not the one that is worked out.
            datum = replace(datum, quantity=datum.shown, kind="given", printed=None)
        elif datum.kind == "result" and "paper" in part.editions:
            problems.append(AnswerPrinted(part.span, name.key, datum.where))
        if part.typed is None:
            printed, more = self.engine.written(part.name, Scope(({name: datum},)), conventions)
            problems += more
            if printed is None:
                return None, problems
            return self.engine.plain(printed, conventions).replace(" ", _NO_BREAK), problems
        if datum.quantity.direction:
            conventions = conventions_of(self.settled[part.key])
        return None, problems + _placed(part, self.engine.compare_typed(part.typed, datum, conventions))

    def _meaning(self, question: Question, part: ValuePart, name: Name) -> Datum | None:
        """The datum of a name in a question's text; None where its own calculation failed."""
        own = self.solved.meanings[question.key].get(name, ())
        if len(own) > 1:
            conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
            values = tuple((printed_text(self.engine, datum, conventions), datum.where) for datum in own)
            raise NameAmbiguous(part.name.span, name.key, values)
        if own:
            return own[0]
        broken = self.solved.broken[question.key]
        if name.key in broken:
            return None
        scope = self.solved.scopes[question.key]
        outer = scope.find(name)
        if outer is None and ANY in broken:
            return None
        if outer is None:
            known = [*scope.names(), *self.solved.meanings[question.key]]
            raise NameWithoutValue(part.name.span, name.key, tuple(name.key for name in known))
        return outer


def _placed(part: ValuePart, problems: list[Problem]) -> list[Problem]:
    """Problems of a typed value, pointing at the whole of it where Markdown changed what was typed."""
    if not part.exact_columns:
        for problem in problems:
            problem.span = part.span
    return problems


def _definition(part: DefinePart, sheet: Sheet) -> Definition:
    """The definition that is asked for.

    Raises:
        DefinitionUnknown: the sheet has none of that name.
        DefinitionIncomplete: the typed wording lacks a key phrase.
    """
    definition = sheet.find_definition(part.name)
    if part.typed is not None:
        typed = _words(part.typed)
        missing = tuple(phrase for phrase in definition.phrases if _words(Text(phrase)) not in typed)
        if missing:
            raise DefinitionIncomplete(part.span, definition.title, missing, definition.wording)
    return definition


def _words(text: Text) -> str:
    """A text as wordings are compared: without capitals, kinds of quotes and runs of blanks."""
    plain = re.sub(r"[‘’‛′`]", "'", text.value.casefold())
    return " ".join(re.sub(r"[“”„«»]", '"', plain).split())
