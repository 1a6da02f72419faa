"""Values of a learner: which result each of them takes the place of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from physcalc.checking.scope import Datum, Layer
from physcalc.language import Calculation, Name, read_name
from physcalc.problems import Problem, Text

from ..problems import TakenGiven, TakenSeveral, TakenTwice, TakenUnknown, TakenUnreadable
from .drawings import Drawing
from .engine import Engine
from .settling import conventions_of
from .solving import differ, printed_text
from .tree import BlockPart, Part, Question
from .worked import Worked


def read_taken(
    taken: Sequence[Text], worked: Worked, engine: Engine
) -> tuple[dict[int, dict[Name, Datum]], list[Problem]]:
    """The results that learner's values take the place of, by the key of the calculation that found them.

    Args:
        taken: texts such as "T=6725 N" or "lift-tension:T=6725 N": before the colon stands the id or the number of a
            question, or the id of a block.
        worked: the document, in which nothing is wrong.
        engine: what reads values.

    Returns:
        What is taken, and every problem.
    """
    reader = _Taking(worked, engine)
    layers: dict[int, dict[Name, Datum]] = {}
    problems: list[Problem] = []
    for text in taken:
        try:
            key, datum = reader.read(text)
        except Problem as problem:
            problems.append(problem)
            continue
        if datum.name in layers.setdefault(key, {}):
            problems.append(TakenTwice(text.part(0).span, datum.name.key))
        layers[key][datum.name] = datum
    return layers, problems


class _Taking:
    def __init__(self, worked: Worked, engine: Engine) -> None:
        self.worked = worked
        self.engine = engine
        self.numbers = worked.tree.question_numbers()

    def read(self, text: Text) -> tuple[int, Datum]:
        """The calculation and the value that its result gets. Raises Problem."""
        left, equals, right = text.value.partition("=")
        target, colon, typed = left.rpartition(":")
        start = len(target) + len(colon)
        name_text = text.part(start, start + len(typed))
        name = read_name(name_text.value)
        if not equals or name is None or not right.strip():
            raise TakenUnreadable(text.part(0).span, text.value.strip())
        parts = list(self._inside(text.part(0, len(target))) if colon else self.worked.tree.root.walk())
        found = [(part, self._results(part)[name]) for part in parts if name in self._results(part)]
        if not found:
            raise self._missing(name, name_text, target.strip(), parts)
        asked = [one for one in found if isinstance(self.worked.statements.get(one[0].key), Calculation)]
        if len(asked) == 1 and not any(differ(asked[0][1], drawn) for _, drawn in found):
            found = asked  # A figure finds it too: the learner's value stands in the calculation.
        if len(found) > 1:
            choices = tuple(self._called(part, name, [one for one, _ in found]) for part, _ in found)
            raise TakenSeveral(name_text.span, name.key, choices)
        ((part, result),) = found
        statement = self.worked.statements[part.key]
        value = text.part(len(left) + 1)
        assert isinstance(statement, Calculation | Drawing)
        return part.key, self.engine.take_value(value, result, statement.conventions)

    def _inside(self, target: Text) -> Iterator[Part]:
        """What a question or block holds. Raises TakenUnknown."""
        known: list[str] = []
        for part in self.worked.tree.root.walk():
            if not isinstance(part, Question | BlockPart):
                continue
            names = [part.identifier, *([self.numbers[part.key]] if isinstance(part, Question) else [])]
            if target.value and target.value in names:
                yield part
                if isinstance(part, Question):
                    yield from part.walk()
                return
            known += [name for name in names if name]
        raise TakenUnknown(target.span, "", target.value, tuple(known), target_found=False)

    def _results(self, part: Part) -> Layer:
        return self.worked.solved.results(part.key)

    def _missing(self, name: Name, text: Text, target: str, parts: Sequence[Part]) -> Problem:
        """What is wrong with a name that no calculation finds there."""
        datum = self._datum(name, parts)
        if datum is not None:
            conventions = conventions_of(replace(self.worked.settings, axis=None, points=()))
            value = printed_text(self.engine, datum, conventions)
            return TakenGiven(text.span, name.key, value, datum.where)
        known = dict.fromkeys(found.key for part in parts for found in self._results(part))
        return TakenUnknown(text.span, name.key, target, tuple(known))

    def _datum(self, name: Name, parts: Sequence[Part]) -> Datum | None:
        """What a name that is no result means in the questions."""
        solved = self.worked.solved
        keys = [part.key for part in parts if isinstance(part, Question)] or list(solved.scopes)
        for key in keys:
            if own := solved.meanings[key].get(name):
                return own[0]
        return next((found for key in keys if (found := solved.scopes[key].find(name)) is not None), None)

    def _called(self, part: Part, name: Name, rivals: Sequence[Part]) -> str:
        """How a result is told from others of its name."""
        if part.identifier:
            return f"{part.identifier}:{name.key}"
        holder = next((q for q in self._questions() if part in q.parts), None)
        if holder is None or sum(inner in rivals for inner in holder.walk()) > 1:
            return f"an id for the calculation in {part.span.line_in_words}"
        return f"{holder.identifier or self.numbers[holder.key]}:{name.key}"

    def _questions(self) -> Iterator[Question]:
        return (part for part in self.worked.tree.root.walk() if isinstance(part, Question))
