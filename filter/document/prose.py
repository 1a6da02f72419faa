"""What stands in the text of questions: values written in or checked, definitions."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from physcalc.checking.scope import Datum, Scope
from physcalc.language import Calculation, Conventions, Name
from physcalc.language.quantities import read_given_name
from physcalc.problems import Problem, Text, nearest
from physcalc.problems.checking import NameWithoutValue
from physcalc.problems.words import PartUnfit
from physcalc.sheets import Definition, Sheet

from ..problems import (
    AnswerPrinted,
    AttributeUnreadable,
    DecimalSignOther,
    DefinitionIncomplete,
    NameAmbiguous,
)
from ..settings import Settings
from .engine import Engine
from .findings import Findings
from .missing import ANY
from .settling import conventions_of
from .solving import Solved, printed_text
from .statements import Statement
from .tree import DefinePart, Part, Question, Tree, ValuePart

if TYPE_CHECKING:
    from .worked import Worked

_NO_BREAK = "\u00a0"
#: What may be typed of a value, or of what follows from values, in the attribute `part`.
PARTS = ("number", "unit", "direction", "sign", "force", "change")
#: The names in `of`, one or two.
_NAMES = re.compile(r"[^\s,;]+")


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
    statements: Mapping[int, Statement],
) -> Prose:
    """Values and definitions of the text: what is written in, and what is wrong with what was typed.

    Args:
        tree: the document.
        settled: the settings at each part.
        solved: what its blocks led to.
        sheet: the data and formula sheet.
        engine: what compares and prints.
        findings: takes what is wrong.
        statements: the statement of each block, for the axis of the calculation that found a value.
    """
    values: dict[int, str] = {}
    definitions: dict[int, Definition] = {}
    reader = _Values(settled, solved, engine, statements)
    for question, part in _with_question(tree.root):
        with findings.catching(part):
            if isinstance(part, DefinePart):
                definitions[part.key] = _definition(part, sheet)
            elif isinstance(part, ValuePart) and part.name.value:
                text, problems = reader.value(question, part)
                findings.add(part, problems)
                if text is not None:
                    values[part.key] = text
    _check_signs(tree, settled, findings)
    return Prose(values, definitions)


def _check_signs(tree: Tree, settled: Mapping[int, Settings], findings: Findings) -> None:
    """One note on all values that are typed into the text with another decimal sign than is printed around them."""
    found: dict[str, list[tuple[Part, Text]]] = {}
    for _, part in _with_question(tree.root):
        if isinstance(part, ValuePart) and part.typed is not None:
            decimal = settled[part.key].numbers.decimal
            other = "," if decimal == "." else "."
            if re.search(rf"\d{re.escape(other)}\d", part.typed.value) and not findings.failed(part):
                found.setdefault(decimal, []).append((part, part.typed))
    for decimal, places in found.items():
        part, typed = places[0]
        findings.add(part, [DecimalSignOther(part.span, typed.value.strip(), decimal, len(places) - 1)])


def _with_question(root: Question) -> Iterator[tuple[Question, Part]]:
    for question in (root, *(part for part in root.walk() if isinstance(part, Question))):
        for part in question.parts:
            yield question, part


class _Values:
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

    def value(self, question: Question, part: ValuePart) -> tuple[str | None, list[Problem]]:
        """What is written in (None for a typed value), and what is wrong.

        Raises:
            NameUnreadable, NameWithoutValue, NameAmbiguous, PhraseUnreadable, AttributeUnreadable, PartUnfit.
        """
        kind = part.attribute("part") if part.typed is not None else None
        if part.typed is not None and kind is not None:
            return None, _placed(part, self._part(question, part, part.typed, kind))
        # The axis was read for the blocks already; one that cannot be read is no problem of this value's.
        conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
        name = read_given_name(part.name)
        datum = self._meaning(question, part, name)
        if datum is None:
            return None, []
        problems: list[Problem] = []
        datum = _stated(datum)
        if datum.kind == "result" and "paper" in part.editions:
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

    def _part(self, question: Question, part: ValuePart, typed: Text, kind: Text) -> list[Problem]:
        """What is wrong with a part of a value, or with a word that follows from values.

        Raises:
            as `value`.
        """
        words = [part.name.part(found.start(), found.end()) for found in _NAMES.finditer(part.name.value)]
        match kind.value.strip():
            case "change":
                return self._change(question, part, typed)
            case "force":
                if len(words) != 2:
                    why, hint = "it is one between two charges", 'name both, as in of="q_A q_B"'
                    raise PartUnfit(part.name.span, part.name.value, "force", why, hint)
                data = [self._meaning(question, part, read_given_name(word)) for word in words]
                known = [_stated(datum) for datum in data if datum is not None]
                if len(known) < 2:
                    return []
                conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
                problems = self.engine.compare_force(typed, known[0], known[1], conventions)
                return self._given_away(part, known) + problems
            case "number" | "unit" | "direction" | "sign" as chosen:
                datum = self._meaning(question, part, read_given_name(part.name))
                if datum is None:
                    return []
                datum = _stated(datum)
                away = self._given_away(part, [datum]) if chosen != "unit" else []
                conventions = self._conventions(part, datum)
                return away + self.engine.compare_part(
                    typed, datum, chosen, conventions, part.attribute("in")
                )
            case other:
                near = nearest(other, PARTS)
                raise AttributeUnreadable(
                    kind.part(0).span, "part", other, f"one of {', '.join(PARTS)}", near
                )

    def _conventions(self, part: ValuePart, datum: Datum) -> Conventions:
        """The settings for a part of a value, with the axis of the calculation that found it."""
        found = self.statements.get(datum.calculation) if datum.calculation is not None else None
        conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
        if isinstance(found, Calculation):
            return replace(conventions, axis=found.conventions.axis)
        return conventions_of(self.settled[part.key])

    def _given_away(self, part: ValuePart, data: Sequence[Datum]) -> list[Problem]:
        """The first result among data whose part the paper would print."""
        if "paper" not in part.editions:
            return []
        results = [datum for datum in data if datum.kind == "result"]
        return [AnswerPrinted(part.span, datum.name.key, datum.where) for datum in results[:1]]

    def _change(self, question: Question, part: ValuePart, typed: Text) -> list[Problem]:
        """What is wrong with a word for a change that a calculation of the question asks for."""
        name = read_given_name(part.name)
        blocks = [inner for inner in question.parts if self._asks_change(inner)]
        outcomes = [(block, self.solved.outcomes.get(block.key)) for block in blocks]
        asked = [
            (block, outcome.changes[name])
            for block, outcome in outcomes
            if outcome is not None and name in outcome.changes
        ]
        conventions = conventions_of(replace(self.settled[part.key], axis=None, points=()))
        if not asked:
            if any(outcome is None or outcome.working is None for _, outcome in outcomes):
                return []
            why = f"no calculation of this question asks how {name.key} changes"
            hint = f"give the calculation that finds it the key change, as in change: r doubled … find: {name.key}"
            raise PartUnfit(part.name.span, name.key, "change", why, hint)
        if len(asked) > 1:
            values = tuple(
                (self.engine.plain(changed.answer.printed, conventions), block.span.line_in_words)
                for block, changed in asked
            )
            raise NameAmbiguous(part.name.span, name.key, values)
        ((block, changed),) = asked
        problems = self.engine.compare_change(typed, name, changed, conventions)
        if "paper" in part.editions:
            problems.insert(
                0, AnswerPrinted(part.span, f"the change of {name.key}", block.span.line_in_words)
            )
        return problems

    def _asks_change(self, part: Part) -> bool:
        statement = self.statements.get(part.key)
        return isinstance(statement, Calculation) and any(
            inner.change is not None for inner in (statement, *statement.steps)
        )

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


def value_meanings(question: Question, part: ValuePart, worked: Worked, engine: Engine) -> list[Datum]:
    """What the names of a value in a question's text mean; nothing for those that have no one meaning."""
    reader = _Values(worked.settled, worked.solved, engine, worked.statements)
    found: list[Datum] = []
    for word in _NAMES.finditer(part.name.value):
        with suppress(Problem):
            datum = reader._meaning(question, part, read_given_name(part.name.part(word.start(), word.end())))
            if datum is not None:
                found.append(datum)
    return found


def value_problems(
    question: Question,
    part: ValuePart,
    settled: Mapping[int, Settings],
    solved: Solved,
    engine: Engine,
    statements: Mapping[int, Statement],
) -> list[Problem]:
    """What is wrong with a value of a question's text; nothing where it agrees.

    Args:
        question, part: the value and the question in whose text it stands.
        settled, solved, engine, statements: as for `check_prose`.

    Raises:
        NameUnreadable, NameWithoutValue, NameAmbiguous, PhraseUnreadable, AttributeUnreadable, PartUnfit.
    """
    return _Values(settled, solved, engine, statements).value(question, part)[1]


def _stated(datum: Datum) -> Datum:
    """A value as the question states it: the value to be shown, where there is one."""
    if datum.shown is None:
        return datum
    return replace(datum, quantity=datum.shown, kind="given", printed=None)


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
