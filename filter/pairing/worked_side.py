"""The same of a document with blocks, from what was worked out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from functools import partial

from physcalc.checking.scope import Datum
from physcalc.problems import Problem, Span, Text

from ..document import BlockPart, Engine, Options, Question, Worked
from ..document.settling import conventions_of
from ..document.solving import printed_text
from .side import Asked, Mark, Side, Stated, Value


def side_of(worked: Worked, name: str, engine: Engine) -> Side | None:
    """The questions of a document; None where it has none of ours, so that it is read as one written by hand.

    Args:
        worked: the document.
        name: its name as it is shown.
        engine: what compares and prints.
    """
    questions = [part for part in worked.tree.root.walk() if isinstance(part, Question)]
    if not questions:
        return None
    reader = _Reader(worked, engine)
    asked = [reader.asked(question) for question in questions]
    return Side(name, {one.number: one for one in asked})


class _Reader:
    def __init__(self, worked: Worked, engine: Engine) -> None:
        self.worked = worked
        self.engine = engine
        self.conventions = conventions_of(replace(worked.settings, axis=None, points=()))

    def asked(self, question: Question) -> Asked:
        count = self.worked.marks.of.get(question.key)
        typed = question.attribute("marks")
        place = typed.span if typed is not None else question.span
        data = tuple(self._data(question))
        return Asked(
            self.worked.tree.numbers[question.key],
            question.span,
            Mark(count, place) if count is not None else None,
            data,
            data,
            tuple(self._answers(question)),
            self._letter(question),
        )

    def _data(self, question: Question) -> Iterator[Value]:
        """The data that were typed for a question itself."""
        lines = {
            (line.span.file, line.span.line)
            for part in question.parts
            if isinstance(part, BlockPart) and part.mark is not None
            for line in part.mark.lines
        }
        for data in self.worked.solved.meanings[question.key].values():
            for datum in data:
                quantity, span = datum.quantity, datum.span
                if datum.kind != "given" or quantity.number is None or span is None:
                    continue
                if (span.file, span.line) in lines and quantity.unit.factors:
                    yield Value(span, self._text(datum), quantity.number, quantity.unit)

    def _answers(self, question: Question) -> Iterator[Stated]:
        for part in question.parts:
            outcome = self.worked.solved.outcomes.get(part.key)
            if outcome is None or outcome.working is None:
                continue
            for answer in outcome.working.answers:
                datum = outcome.results.get(answer.name)
                if datum is None or datum.span is None:
                    continue
                agrees = partial(self._agrees, datum)
                yield Stated(answer.name.key, self._text(datum), datum.span, datum.quantity.unit, agrees)

    def _agrees(self, datum: Datum, value: Value) -> bool:
        try:
            problems = self.engine.compare_typed(Text(value.text), datum, self.conventions)
        except Problem:
            return False
        return all(problem.level == "note" for problem in problems)

    def _letter(self, question: Question) -> tuple[str, Span] | None:
        for part in question.parts:
            chosen = self.worked.solved.chosen.get(part.key)
            if chosen is not None and chosen.key is not None:
                statement = self.worked.statements.get(part.key)
                typed = statement.answer if isinstance(statement, Options) else None
                return chosen.key, typed.span if typed is not None else part.span
        return None

    def _text(self, datum: Datum) -> str:
        return printed_text(self.engine, datum, self.conventions)
