"""What a value rests on, and what rests on it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import takewhile

from physcalc.checking.scope import Datum
from physcalc.language import Calculation, Name, read_name
from physcalc.problems import Problem, Span, Text
from physcalc.steps.lines import LineKind

from ..problems import TraceSeveral, TraceUnknown
from .drawings import Drawing
from .engine import Engine
from .prose import value_meanings
from .settling import conventions_of
from .solving import differ, printed_text
from .statements import Options
from .tree import BlockPart, Part, Question, ValuePart
from .worked import Worked, constant_key

_WORD = re.compile(r"[^\W\d][\w{}(),.]*[\w})]|[^\W\d]")


#: The keys of a figure that say what its quantities are found from.
_FIGURE_KEYS = ("circuit", "curve", "fit", "graph", "pieces", "points", "series")


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula that led to a value.

    Attributes:
        text: as typed; for one of the sheet, as the sheet prints it.
        span: where it is typed, or named by `use`.
        slug: the sheet's name for it; empty for one that is typed.
    """

    text: str
    span: Span
    slug: str = ""


@dataclass(frozen=True, slots=True)
class Traced:
    """A value in the tree of what another rests on.

    Attributes:
        name: the name it has there.
        value: as printed.
        kind: "given", "result" or "constant".
        question: the number of its question; empty where it stands in none.
        span: where it is given or asked; None for the sheet's.
        title: what the sheet calls it; empty for anything but a constant.
        formulas: what it was found with; empty for data.
        rests_on: what went into it; empty where it is told elsewhere in the tree.
        told: whether it is told elsewhere in the tree.
    """

    name: str
    value: str
    kind: str
    question: str = ""
    span: Span | None = None
    title: str = ""
    formulas: tuple[Formula, ...] = ()
    rests_on: tuple[Traced, ...] = ()
    told: bool = False


@dataclass(frozen=True, slots=True)
class Place:
    """Where a value is typed or written in.

    Attributes:
        span: the place.
        question: the number of the question; empty where it stands in none.
        what: what stands there: "typed value", "written value", "answer", "show", "options", "figure".
        text: its characters; empty where it is written in.
    """

    span: Span
    question: str
    what: str
    text: str = ""


@dataclass(frozen=True, slots=True)
class Trace:
    """A value with all that concerns it.

    Attributes:
        value: the value with what it rests on.
        dependents: every value that rests on it, in the order of the document, without what they rest on.
        direct: for each of them, whether it goes straight into it.
        places: where it stands in the document, in its order.
    """

    value: Traced
    dependents: tuple[Traced, ...] = ()
    direct: tuple[bool, ...] = ()
    places: tuple[Place, ...] = ()


def trace(asked: Text, worked: Worked, engine: Engine) -> Trace:
    """What a value rests on, and what rests on it.

    Args:
        asked: "q_B", or "sphere:q_B": before the colon stands the id or the number of a question, or the id of a
            block.
        worked: the document.
        engine: what prints values.

    Raises:
        TraceUnknown: nothing has that name (or no question that id).
        TraceSeveral: several things have it.
    """
    return _Tracer(worked, engine).trace(asked)


#: What makes a datum the same wherever it is met, under whatever name.
_Key = tuple[object, ...]


@dataclass(slots=True)
class _Node:
    """A datum of the document, once.

    Attributes:
        datum: the datum.
        part: the block that gives or finds it; None for the sheet's.
        names: the names that it has in the document.
    """

    datum: Datum
    part: Part | None
    names: set[Name] = field(default_factory=set)


class _Tracer:
    def __init__(self, worked: Worked, engine: Engine) -> None:
        self.worked = worked
        self.engine = engine
        self.numbers = worked.tree.question_numbers()
        self.conventions = conventions_of(replace(worked.settings, axis=None, points=()))
        self.lines = {
            (line.span.file, line.span.line): part
            for part in self._blocks()
            for line in (part.mark.lines if part.mark is not None else ())
        }
        self.nodes: dict[_Key, _Node] = {}
        for part in worked.tree.root.walk():
            for datum in worked.solved.results(part.key).values():
                self._take(replace(datum, calculation=part.key), part)
        for names in worked.solved.meanings.values():
            for name, data in names.items():
                for datum in data:
                    self._take(datum).names.add(name)
        for node in list(self.nodes.values()):
            for datum in node.datum.rests_on:
                self._take_all(datum)

    def trace(self, asked: Text) -> Trace:
        key, name = self._asked(asked)
        above = {found: self._all_below(found) for found in self.nodes if found != key}
        dependents = [found for found in self._in_order(above) if key in above[found]]
        direct = {
            found
            for found in dependents
            if key in {self.key(datum) for datum in self.nodes[found].datum.rests_on}
        }
        return Trace(
            self._tree(replace(self.nodes[key].datum, name=name), set()),
            tuple(replace(self._leaf(self.nodes[found].datum), told=False) for found in dependents),
            tuple(found in direct for found in dependents),
            tuple(self._places(key)),
        )

    # Which datum is which.

    def key(self, datum: Datum) -> _Key:
        """What tells a datum from every other, under whatever name it goes."""
        if datum.kind == "constant":
            return ("constant", self._constant(datum))
        if datum.calculation is not None:
            return ("result", datum.calculation, self._found_as(datum))
        span = datum.span
        if datum.kind == "result" and span is not None:
            # A step's result, met inside its own calculation.
            part = self.lines.get((span.file, span.line))
            if part is not None:
                return ("result", part.key, datum.name.key)
        return (datum.kind, span.order if span is not None else datum.where, "" if span else datum.name.key)

    def _constant(self, datum: Datum) -> str:
        """The sheet's own name of a constant: `a: g, down` gives it another."""
        return constant_key(datum, self.worked.sheet)

    def _found_as(self, datum: Datum) -> str:
        """The name under which its calculation found a result: `F: T from lift` gives it another."""
        assert datum.calculation is not None
        results = self.worked.solved.results(datum.calculation)
        if datum.name in results:
            return datum.name.key
        same = [name.key for name, found in results.items() if found.quantity.value is datum.quantity.value]
        return same[0] if same else next((name.key for name in results), datum.name.key)

    def _take(self, datum: Datum, part: Part | None = None) -> _Node:
        key = self.key(datum)
        if key not in self.nodes:
            if part is None and datum.span is not None and datum.kind != "constant":
                part = self.lines.get((datum.span.file, datum.span.line))
            if datum.kind == "constant" and (name := read_name(str(key[1]))) is not None:
                datum = self.worked.solved.scopes[0].find(name) or datum
            self.nodes[key] = _Node(datum, part, {datum.name})
        return self.nodes[key]

    def _take_all(self, datum: Datum) -> None:
        stack = [datum]
        while stack:
            top = stack.pop()
            if self.key(top) not in self.nodes:
                stack += top.rests_on
            self._take(top)

    def _all_below(self, key: _Key) -> set[_Key]:
        found: set[_Key] = set()
        stack = [self.key(datum) for datum in self.nodes[key].datum.rests_on]
        while stack:
            top = stack.pop()
            if top not in found:
                found.add(top)
                stack += [self.key(datum) for datum in self.nodes[top].datum.rests_on]
        return found

    def _in_order(self, keys: Iterable[_Key]) -> list[_Key]:
        return sorted(keys, key=lambda key: self._order(self.nodes[key]))

    def _order(self, node: _Node) -> tuple[str, int, int]:
        return node.datum.span.order if node.datum.span is not None else ("", 0, 0)

    # What was asked for.

    def _asked(self, asked: Text) -> tuple[_Key, Name]:
        target, colon, typed = asked.value.strip().rpartition(":")
        name = read_name(typed.strip())
        inside = self._inside(asked, target.strip()) if colon else None
        found = [
            key
            for key, node in self.nodes.items()
            if name in node.names and (inside is None or (node.part is not None and node.part.key in inside))
        ]
        if name is not None and not found and (inside is None or self._is_constant(name)):
            datum = self.worked.solved.scopes[0].find(name)
            if datum is not None and datum.kind == "constant":
                self._take(datum)
                found = [self.key(datum)]
        if name is None or not found:
            known = {each.key for node in self.nodes.values() for each in node.names}
            raise TraceUnknown(asked.part(0).span, typed.strip(), target.strip(), tuple(sorted(known)))
        own = [key for key in found if key[0] != "constant"] or found
        worked_out = [key for key in own if self._by_calculation(key)]
        if len(worked_out) == 1 and all(self._drawn_as(key, worked_out[0]) for key in own):
            own = worked_out
        if len(own) > 1:
            choices = tuple(self._called(key, name) for key in self._in_order(own))
            raise TraceSeveral(asked.part(0).span, name.key, choices)
        return own[0], name

    def _by_calculation(self, key: _Key) -> bool:
        part = self.nodes[key].part
        found = self.worked.statements.get(part.key) if part is not None else None
        return key[0] == "result" and isinstance(found, Calculation)

    def _drawn_as(self, key: _Key, other: _Key) -> bool:
        """Whether a value is another one, or the same as a figure finds it."""
        part, datum = self.nodes[key].part, self.nodes[key].datum
        if key == other:
            return True
        drawing = part is not None and isinstance(self.worked.statements.get(part.key), Drawing)
        return drawing and key[0] == "result" and not differ(datum, self.nodes[other].datum)

    def _is_constant(self, name: Name) -> bool:
        return name.key in self.worked.sheet.constants

    def _inside(self, asked: Text, target: str) -> set[int]:
        """The keys of a question or block and of what it holds. Raises TraceUnknown."""
        known: list[str] = []
        for part in self.worked.tree.root.walk():
            if not isinstance(part, Question | BlockPart):
                continue
            names = [part.identifier, *([self.numbers[part.key]] if isinstance(part, Question) else [])]
            if target and target in names:
                return {
                    part.key,
                    *(inner.key for inner in (part.walk() if isinstance(part, Question) else ())),
                }
            known += [name for name in names if name]
        raise TraceUnknown(asked.part(0).span, "", target, tuple(known))

    def _called(self, key: _Key, name: Name) -> tuple[str, str, Span | None]:
        """How one of several is asked for, its value, and where it stands."""
        node = self.nodes[key]
        part = node.part
        holder = next((q for q in self._questions() if part is not None and part in q.parts), None)
        target = (part.identifier if part is not None else "") or (
            (holder.identifier or self.numbers.get(holder.key, "")) if holder is not None else ""
        )
        value = printed_text(self.engine, node.datum, self.conventions)
        return (f"{target}:{name.key}" if target else name.key), value, node.datum.span

    # What is told of it.

    def _leaf(self, datum: Datum) -> Traced:
        node = self.nodes[self.key(datum)]
        title = ""
        if datum.kind == "constant":
            title = self.worked.sheet.constants[self._constant(datum)].title
        question = self.numbers.get(node.part.key, "") if node.part is not None else ""
        value = printed_text(self.engine, datum, self.conventions)
        return Traced(datum.name.key, value, datum.kind, question, node.datum.span, title, told=True)

    def _tree(self, datum: Datum, told: set[_Key]) -> Traced:
        key = self.key(datum)
        leaf = self._leaf(datum)
        if key in told:
            return replace(leaf, told=bool(datum.rests_on))
        told.add(key)
        below = tuple(self._tree(one, told) for one in self.nodes[key].datum.rests_on)
        return replace(leaf, told=False, formulas=tuple(self._formulas(key)), rests_on=below)

    def _formulas(self, key: _Key) -> Iterator[Formula]:
        node = self.nodes[key]
        if key[0] != "result" or node.part is None:
            if node.part is not None and node.datum.rests_on and node.datum.span is not None:
                at = node.datum.span.line
                for line in self._mark_lines(node.part):
                    if line.span.line == at:
                        yield Formula(line.value.partition(":")[2].strip(), node.datum.span)
            return
        statement = self.worked.statements.get(node.part.key)
        if isinstance(statement, Calculation):
            method = _method(statement, str(key[2]))
            if method.use is not None:
                yield self._of_sheet(method.use, node.part)
            for text in method.formulas:
                yield Formula(text.value.strip(), text.span)
        elif isinstance(statement, Drawing):
            lines = self._mark_lines(node.part)
            for number, line in enumerate(lines):
                if line.value.partition(":")[0] in _FIGURE_KEYS:
                    below = list(takewhile(lambda one: one.value[:1] in (" ", "-"), lines[number + 1 :]))
                    typed = f"{len(below)} lines" if line.value.rstrip().endswith(":") else ""
                    yield Formula(f"{line.value.strip()} {typed}".strip(), line.span)

    def _mark_lines(self, part: Part) -> Sequence[Text]:
        return part.mark.lines if part.mark is not None else ()

    def _of_sheet(self, use: Text, part: Part) -> Formula:
        slug = use.value.partition("(")[0].strip()
        try:
            law = self.worked.sheet.find_law(Text(slug, use.span))
        except Problem:
            return Formula(use.value.strip(), use.span)
        forms = [self.engine.plain(form, self.conventions) for form in law.formulas]
        printed = set(self._printed_formulas(part))
        return Formula(next((form for form in forms if form in printed), forms[0]), use.span, law.slug)

    def _printed_formulas(self, part: Part) -> Iterator[str]:
        """The formulas that the working of a calculation prints."""
        outcome = self.worked.solved.outcomes.get(part.key)
        if outcome is None or outcome.working is None:
            return
        for working in (outcome.working, *outcome.working.others):
            for line in working.lines:
                if line.kind is LineKind.FORMULA:
                    yield " = ".join(self.engine.plain(side, self.conventions) for side in line.sides)

    def _places(self, key: _Key) -> Iterator[Place]:
        """Where a value stands: in typed prose, as an answer, in options."""
        for question in (self.worked.tree.root, *self._questions()):
            for part in question.parts:
                statement = self.worked.statements.get(part.key)
                number = self.numbers.get(part.key, "")
                if isinstance(part, ValuePart) and part.name.value:
                    meant = value_meanings(question, part, self.worked, self.engine)
                    if any(self.key(datum) == key for datum in meant):
                        typed = part.typed.value if part.typed is not None else ""
                        yield Place(part.span, number, "typed value" if typed else "written value", typed)
                elif isinstance(statement, Calculation):
                    if key[0] == "result" and key[1] == part.key:
                        yield from self._answers(statement, str(key[2]), number)
                elif isinstance(statement, Drawing) and key[1] != part.key:
                    typed = " ".join(line.value for line in self._mark_lines(part))
                    if any(self.key(datum) == key for datum in self._meant(question, _names_in(typed))):
                        yield Place(part.span, number, "figure")
                elif isinstance(statement, Options) and statement.of is not None:
                    names = _names_in(statement.of.value)
                    if any(self.key(datum) == key for datum in self._meant(question, names)):
                        yield Place(statement.of.span, number, "options", statement.of.value.strip())

    def _meant(self, question: Question, names: Iterable[Name]) -> Iterator[Datum]:
        for name in names:
            own = self.worked.solved.meanings[question.key].get(name, ())
            if own:
                yield own[0]
            elif (datum := self.worked.solved.scopes[question.key].find(name)) is not None:
                yield datum

    def _answers(self, statement: Calculation, name: str, number: str) -> Iterator[Place]:
        found = _asked_names(statement)
        for answer in statement.answers:
            meant = read_name(answer.name.value.strip()) if answer.name is not None else None
            if (meant.key if meant is not None else (found[0] if found else "")) == name:
                yield Place(answer.value.part(0).span, number, "answer", answer.value.value.strip())
        if statement.show is not None and found[:1] == [name]:
            yield Place(statement.show.part(0).span, number, "show", statement.show.value.strip())
        for inner in (*statement.steps, *statement.others):
            yield from self._answers(inner, name, number)

    def _blocks(self) -> Iterator[BlockPart]:
        return (part for part in self.worked.tree.root.walk() if isinstance(part, BlockPart))

    def _questions(self) -> Iterator[Question]:
        return (part for part in self.worked.tree.root.walk() if isinstance(part, Question))


def _method(statement: Calculation, name: str) -> Calculation:
    """The calculation or the step of it that finds a name."""
    for step in statement.steps:
        if name in _find_names(step):
            return _method(step, name)
    return statement


def _names_in(text: str) -> list[Name]:
    words = dict.fromkeys(_WORD.findall(text))
    # A bracket or a comma behind a name may be the text's own.
    found = (read_name(word) or read_name(word.rstrip(".,)")) for word in words)
    return [name for name in dict.fromkeys(found) if name is not None]


def _asked_names(statement: Calculation) -> list[str]:
    """What a calculation asks: what it says, else what its last step asks."""
    if not statement.find and statement.steps:
        return _asked_names(statement.steps[-1])
    return _find_names(statement)


def _find_names(statement: Calculation) -> list[str]:
    words = [text.value.split()[0] for text in statement.find if text.value.split()]
    return [name.key for word in words if (name := read_name(word)) is not None]
