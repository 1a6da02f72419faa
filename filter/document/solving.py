"""Working out of a document from top to bottom: scopes of questions, data, calculations, options."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from physcalc.checking.scope import Datum, GivenLayer, Layer, Scope
from physcalc.language import Calculation, Conventions, GivenText, Name, asked_names
from physcalc.problems import Problem, Text
from physcalc.problems.checking import (
    DimensionsDiffer,
    DirectionUnknown,
    NameHidden,
    NameWithoutValue,
    NothingToFind,
    ReferenceUnknown,
    UnitDimensionWrong,
)
from physcalc.problems.solving import FormulasTooFew
from physcalc.sheets import Sheet

from ..problems import KeyUnknown, ReferenceLater, SlipUnknown, block_lost
from .drawings import FINDING, Drawing
from .elsewhere import Elsewhere
from .engine import Chosen, Engine, Outcome
from .findings import Findings
from .marks import Marks
from .missing import ANY, outermost, unread_names
from .statements import GivenBlock, Options, Statement, own_givens
from .tree import BlockPart, Part, Question, Tree

if TYPE_CHECKING:
    from physcalc.figures.drawn import Drawn


_SLIP = re.compile(r"slip\s+")
_FROM = re.compile(r"(?:^|\s)from\s+(\S+)")


@dataclass(frozen=True, slots=True)
class Solved:
    """What a document's blocks led to.

    Attributes:
        outcomes: what each calculation led to, by the block's key.
        chosen: what each block of options led to, by the block's key.
        scopes: what names mean in each question before its own blocks, by the question's key.
        meanings: for each question what names mean in its own blocks, every datum that differs.
        broken: for each question the names whose data or calculation failed in it or around it; `ANY` among
            them where a block could not be read.
        drawn: what each figure led to, by the block's key.
        follows: for each calculation or figure, by the block's key, the keys of those whose answers go into it, in
            the order of the document. A value that a "show that" states is nobody's answer.
    """

    outcomes: Mapping[int, Outcome]
    chosen: Mapping[int, Chosen]
    drawn: Mapping[int, Drawn]
    scopes: Mapping[int, Scope]
    meanings: Mapping[int, Mapping[Name, tuple[Datum, ...]]]
    broken: Mapping[int, frozenset[str]]
    follows: Mapping[int, tuple[int, ...]]

    def results(self, key: int) -> Layer:
        """What a calculation or a figure finds, by the block's key."""
        if key in self.outcomes:
            return self.outcomes[key].results
        return self.drawn[key].results if key in self.drawn else {}


def solve(
    tree: Tree,
    statements: Mapping[int, Statement],
    marks: Marks,
    sheet: Sheet,
    engine: Engine,
    findings: Findings,
    taken: Mapping[int, Layer] | None = None,
) -> Solved:
    """Work out everything, in the order of the document.

    A name means what the block's own data say, else the data of the questions around it, the nearest first,
    else a result found earlier in these questions, else the sheet's constant.

    Args:
        tree: the document.
        statements: the statement of each block.
        marks: the marks of each part.
        sheet: the data and formula sheet.
        engine: what calculates.
        findings: takes what is wrong.
        taken: for calculations, by the block's key, results in whose place a learner's values go on.
    """
    solver = _Solver(tree, statements, marks, sheet, engine, findings, taken or {})
    solver.question(_Open(tree.root))
    return Solved(
        solver.outcomes,
        solver.chosen,
        solver.drawn,
        solver.scopes,
        {key: {name: tuple(data) for name, data in names.items()} for key, names in solver.meanings.items()},
        {key: frozenset(names) for key, names in solver.broken.items()},
        solver.follows,
    )


@dataclass(slots=True)
class _Open:
    """A question that is being worked out.

    Attributes:
        question: the question.
        around: the questions around it, the nearest first.
        given: its data so far.
        results: what its own calculations found so far.
        everything: the same with what the questions inside it found; None where two of them differ.
    """

    question: Question
    around: tuple[_Open, ...] = ()
    given: GivenLayer = field(default_factory=GivenLayer)
    results: dict[Name, Datum] = field(default_factory=dict)
    everything: dict[Name, Datum | None] = field(default_factory=dict)
    _moment: tuple[Layer, Layer] | None = None

    def take_in(self, layer: Layer) -> None:
        """More data of its own."""
        self.given.take_in(layer)
        self._moment = None

    def find(self, results: Layer) -> None:
        """More results of its own."""
        self.results.update(results)
        self._moment = None

    def moment(self) -> tuple[Layer, Layer]:
        """Its data and results as they are now, for scopes that stay: thousands of them share one copy."""
        if self._moment is None:
            self._moment = self.given.copy(), self.results.copy()
        return self._moment

    @property
    def levels(self) -> tuple[_Open, ...]:
        """This question and those around it, the nearest first."""
        return (self, *self.around)


class _Solver:
    def __init__(
        self,
        tree: Tree,
        statements: Mapping[int, Statement],
        marks: Marks,
        sheet: Sheet,
        engine: Engine,
        findings: Findings,
        taken: Mapping[int, Layer],
    ) -> None:
        self.taken = taken
        self.statements = statements
        self.marks = marks
        self.sheet = sheet
        self.engine = engine
        self.findings = findings
        self.constants = engine.constants_layer(sheet)
        self.parts = {
            part.identifier: part
            for part in reversed([*tree.root.walk()])
            if part.identifier and isinstance(part, Question | BlockPart)
        }
        self.elsewhere = Elsewhere()
        self.outcomes: dict[int, Outcome] = {}
        self.chosen: dict[int, Chosen] = {}
        self.drawn: dict[int, Drawn] = {}
        self.scopes: dict[int, Scope] = {}
        self.meanings: dict[int, dict[Name, list[Datum]]] = {}
        self.broken: dict[int, set[str]] = {}
        self.follows: dict[int, tuple[int, ...]] = {}
        # A block that was not seen as one would have given or found names that nobody knows.
        self.lost = {
            outermost(tree.root, problem.span).key for problem in findings.at(None) if block_lost(problem)
        }

    def question(self, here: _Open) -> None:
        question = here.question
        self.meanings[question.key] = {}
        self.broken[question.key] = {ANY} if question.key in self.lost else set()
        self.scopes[question.key] = self.scope(here)
        late = self.given(here)
        for part in question.parts:
            match part, self.statements.get(part.key):
                case Question(), _:
                    inner = _Open(part, here.levels)
                    self.question(inner)
                    self._collect(here, inner.everything)
                case BlockPart(), GivenBlock() as statement if part.key in late:
                    self._read(here, part, late[part.key], statement.conventions)
                case BlockPart(), Calculation() as statement:
                    self.calculation(here, part, statement)
                case BlockPart(), Options() as statement:
                    self.options(here, part, statement)
                case BlockPart(), Drawing() as statement:
                    self.drawing(here, part, statement)
                case BlockPart(), None:
                    # Nobody knows which names it would have given or found.
                    self.broken[question.key].add(ANY)
                case _:
                    pass
        # A datum that lacks a value is no mistake where the missing name cancels; unused, it is one.
        self.findings.add(question, here.given.unused())
        for level in here.around:
            self.broken[question.key] |= self.broken[level.question.key]
        if question.identifier:
            self.elsewhere[question.identifier] = {
                name: datum for name, datum in here.everything.items() if datum is not None
            }

    def scope(self, here: _Open) -> Scope:
        moments = [level.moment() for level in here.levels]
        layers = (*(given for given, _ in moments), *(results for _, results in moments))
        # The question goes on to find more; the constants are read when they are needed.
        return Scope((*layers, self.constants), self.elsewhere.until_now())

    def given(self, here: _Open) -> dict[int, list[GivenText]]:
        """Reads the data of a question, wherever in it they stand; returns lines that must wait."""
        late: dict[int, list[GivenText]] = {}
        inside = {part.identifier for part in here.question.walk() if part.identifier}
        ready: list[GivenText] = []
        first: tuple[BlockPart, GivenBlock] | None = None
        owners: list[tuple[GivenText, BlockPart]] = []
        for part in here.question.parts:
            statement = self.statements.get(part.key)
            if isinstance(part, BlockPart) and isinstance(statement, GivenBlock):
                first = first or (part, statement)
                for item in statement.items:
                    found = _FROM.search(item.value.value)
                    if found and found[1] in inside:
                        late.setdefault(part.key, []).append(item)
                    else:
                        ready.append(item)
                        owners.append((item, part))
        if first is not None and ready:
            # All blocks at once: a line of one may be made from a line of another.
            self._read(here, first[0], ready, first[1].conventions, owners)
        return late

    def _read(
        self,
        here: _Open,
        part: Part,
        items: Sequence[GivenText],
        conventions: Conventions,
        owners: Sequence[tuple[GivenText, Part]] = (),
    ) -> None:
        scope = self.scope(here)
        layer, problems = self.engine.read_given(items, scope, conventions)
        for problem in self._explained(here, part, problems):
            owner = next((owner for item, owner in owners if _touches(item, problem)), part)
            self.findings.add(owner, [problem])
        self._note_hidden(part, items, layer, scope, conventions, owners)
        self.broken[here.question.key] |= unread_names(items, layer)
        here.take_in(layer)
        self._mean(here, layer)

    def calculation(self, here: _Open, part: BlockPart, statement: Calculation) -> None:
        scope = self.scope(here)
        statement = replace(statement, total_marks=self.marks.of.get(part.key))
        failed = self._own_data(here, part, statement, scope)
        outcome = self.engine.calculate(statement, scope, self.sheet, self.taken.get(part.key, {}))
        found = list(self._explained(here, part, outcome.problems, failed))
        broken: set[str] = set(failed).union(*(self.broken[level.question.key] for level in here.levels))
        if broken and statement.use is not None:
            # Without a datum another form of the sheet's formula fits best.
            place = statement.use.span.order
            found = [p for p in found if not (isinstance(p, NameWithoutValue) and p.span.order == place)]
        if not broken.isdisjoint(self.sheet.constants):
            # A constant has the name of a datum whose line is wrong, as R of the gas constant.
            found = [
                problem for problem in found if not isinstance(problem, UnitDimensionWrong | DimensionsDiffer)
            ]
        unknown = [problem.meant for problem in self.findings.at(part) if isinstance(problem, KeyUnknown)]
        if unknown:
            # The key that is missed is most likely the one that is misspelt.
            follows = (NothingToFind, NameWithoutValue) if "given" in unknown else NothingToFind
            found = [problem for problem in found if not isinstance(problem, follows)]
        self.findings.add(part, found)
        self.outcomes[part.key] = outcome
        self.follows[part.key] = tuple(sorted(set(_sources(outcome.results.values()))))
        results = {name: replace(datum, calculation=part.key) for name, datum in outcome.results.items()}
        here.find(results)
        self._mean(here, results)
        self._collect(here, results)
        if part.identifier:
            self.elsewhere[part.identifier] = results
        if outcome.working is None:
            self.broken[here.question.key] |= asked_names(statement)

    def options(self, here: _Open, part: BlockPart, statement: Options) -> None:
        scope = self.scope(here)
        if statement.given:
            layer, problems = self.engine.read_given(statement.given, scope, statement.conventions)
            self.findings.add(part, self._explained(here, part, problems))
            self._note_hidden(part, statement.given, layer, scope, statement.conventions)
            self._mean(here, layer)
            scope = scope.inside(layer)
        statement = self._with_slips(here, part, statement)
        chosen = self.engine.choose(statement, scope)
        self.findings.add(part, self._explained(here, part, chosen.problems))
        self.chosen[part.key] = chosen

    def drawing(self, here: _Open, part: BlockPart, statement: Drawing) -> None:
        scope = self.scope(here)
        failed: set[str] = set()
        if statement.given:
            layer, problems = self.engine.read_given(statement.given, scope, statement.conventions)
            self.findings.add(part, self._explained(here, part, problems))
            self._note_hidden(part, statement.given, layer, scope, statement.conventions)
            self._mean(here, layer)
            failed = unread_names(statement.given, layer)
            scope = scope.inside(layer)
        drawn = self.engine.draw(statement.body, scope)
        self.findings.add(part, self._explained(here, part, drawn.problems, failed))
        self.drawn[part.key] = drawn
        # A figure finds quantities as a calculation does; a learner may have read another value from it.
        taken = self.taken.get(part.key, {})
        results = {
            name: replace(taken.get(name, datum), calculation=part.key)
            for name, datum in drawn.results.items()
        }
        self.follows[part.key] = tuple(sorted(set(_sources(drawn.results.values()))))
        here.find(results)
        self._mean(here, results)
        self._collect(here, results)
        if part.identifier:
            self.elsewhere[part.identifier] = results
        if drawn.diagram is None and statement.kind in FINDING:
            # What it would have found is missed by others through no mistake of theirs.
            self.broken[here.question.key].add(ANY)

    def _with_slips(self, here: _Open, part: BlockPart, statement: Options) -> Options:
        """Options of the form `slip WHAT WENT WRONG` with the value that the slip leads to.

        The slips are those of the calculations that stand before the options in the same question.
        """
        if not any(_SLIP.match(text.value) for _, text in statement.options):
            return statement
        known: dict[str, str] = {}
        for other in here.question.parts:
            outcome = self.outcomes.get(other.key)
            if outcome is not None and outcome.working is not None:
                for label, printed in outcome.working.slips:
                    known[" ".join(label.split())] = self.engine.plain(printed, statement.conventions)
        options: list[tuple[Text, Text]] = []
        for letter, text in statement.options:
            if (found := _SLIP.match(text.value)) is not None:
                label = " ".join(text.value[found.end() :].split())
                if label not in known:
                    self.findings.add(part, [SlipUnknown(text.part(found.end()).span, label, tuple(known))])
                text = Text(known.get(label, text.value), text.span)
            options.append((letter, text))
        return replace(statement, options=tuple(options))

    def _own_data(self, here: _Open, part: BlockPart, statement: Calculation, scope: Scope) -> set[str]:
        """What a calculation's own data mean in the text around it, and which outer names they hide.

        The engine reads them again and finds what is wrong with them.

        Returns:
            The names that have no value because their line is wrong.
        """
        inner = scope
        failed: set[str] = set()
        for items, conventions in own_givens(statement):
            if items:
                layer, _ = self.engine.read_given(items, inner, conventions)
                self._note_hidden(part, items, layer, scope, conventions)
                self._mean(here, layer)
                failed |= unread_names(items, layer)
                inner = inner.inside(layer)
        return failed

    def _mean(self, here: _Open, layer: Layer) -> None:
        meanings = self.meanings[here.question.key]
        for name, datum in layer.items():
            known = meanings.setdefault(name, [])
            if all(differ(datum, other) for other in known):
                known.append(datum)

    def _collect(self, here: _Open, found: Mapping[Name, Datum | None]) -> None:
        for name, datum in found.items():
            other = here.everything.get(name)
            clash = name in here.everything and (other is None or datum is None or differ(datum, other))
            here.everything[name] = None if clash else datum
        # What the question itself found counts before what was found inside it.
        here.everything.update(here.results)

    def _note_hidden(
        self,
        part: Part,
        items: Iterable[GivenText],
        layer: Layer,
        scope: Scope,
        conventions: Conventions,
        owners: Iterable[tuple[GivenText, Part]] = (),
    ) -> None:
        typed = {item.value.span: item for item in reversed(tuple(items))}
        owner = {id(item): owner for item, owner in owners}
        for name, datum in layer.items():
            outer = scope.find(name)
            if outer is None or not differ(datum, outer):
                continue
            # Letters are few: the height h and the constant h are no mistake, two values of g may be one.
            if outer.kind == "constant" and outer.quantity.unit.dimension != datum.quantity.unit.dimension:
                continue
            item = typed.get(datum.span) if datum.span is not None else None
            if item is not None:
                span, part_of_it = item.name.span, owner.get(id(item), part)
                near, far = (self._printed(value, conventions) for value in (datum, outer))
                self.findings.add(part_of_it, [NameHidden(span, name.key, near, far, outer.where)])

    def _printed(self, datum: Datum, conventions: Conventions) -> str:
        return printed_text(self.engine, datum, conventions)

    def _explained(
        self, here: _Open, part: Part, problems: Iterable[Problem], failed: Iterable[str] = ()
    ) -> Iterable[Problem]:
        """Problems without those that only follow from another; references too early are named so."""
        broken: set[str] = set(failed).union(*(self.broken[level.question.key] for level in here.levels))
        undirected = False
        for problem in problems:
            if isinstance(problem, DirectionUnknown) and not problem.positive:
                # One axis mends all of them.
                if undirected:
                    continue
                undirected = True
            if isinstance(problem, NameWithoutValue) and not broken.isdisjoint(
                {problem.name, problem.name.partition(".")[0], ANY}
            ):
                continue
            if isinstance(problem, FormulasTooFew) and not broken.isdisjoint({*problem.unknowns, ANY}):
                continue
            if isinstance(problem, ReferenceUnknown) and problem.target in self.parts:
                target = self.parts[problem.target]
                if target is part or any(target is level.question for level in here.levels):
                    yield ReferenceLater(problem.span, problem.target, circle=True)
                    continue
                if target.key > part.key:
                    yield ReferenceLater(problem.span, problem.target)
                    continue
                if self._failed(target):
                    continue
            yield problem

    def _failed(self, target: Part) -> bool:
        """Whether something that a reference reaches could not be worked out."""
        inside = [target, *target.walk()] if isinstance(target, Question) else [target]
        blocks = [part for part in inside if isinstance(part, BlockPart)]
        return any(
            (
                part.kind == "calc"
                and (part.key not in self.outcomes or self.outcomes[part.key].working is None)
            )
            or (part.kind == "draw" and (part.key not in self.drawn or self.drawn[part.key].diagram is None))
            for part in blocks
        )


def _sources(data: Iterable[Datum]) -> Iterator[int]:
    """The calculations whose answers data rest on, through expressions and the steps of one calculation."""
    waiting, seen = list(data), set[int]()
    while waiting:
        datum = waiting.pop()
        if datum.calculation is not None:
            yield datum.calculation
        elif id(datum) not in seen:
            seen.add(id(datum))
            waiting += datum.rests_on


def differ(one: Datum, other: Datum) -> bool:
    """Whether two data have different values."""
    if one.quantity.unit.dimension != other.quantity.unit.dimension:
        return True
    return (one.quantity.value - other.quantity.value).sign() != 0


def printed_text(engine: Engine, datum: Datum, conventions: Conventions) -> str:
    """A datum's value as plain text; empty where it cannot be printed."""
    text = Text(datum.name.key, datum.span) if datum.span is not None else Text(datum.name.key)
    printed, _ = engine.written(text, Scope(({datum.name: datum},)), conventions)
    return engine.plain(printed, conventions) if printed is not None else ""


def _touches(item: GivenText, problem: Problem) -> bool:
    place = (problem.span.file, problem.span.line)
    return place in {(text.span.file, text.span.line) for text in (item.name, item.value)}
