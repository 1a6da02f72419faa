"""What follows from a learner's values: a document worked out again with them, beside the memo's own values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from physcalc.checking.scope import Datum
from physcalc.language import Calculation, Conventions, Name
from physcalc.language.tree import Printed, Sym
from physcalc.problems import Span
from physcalc.problems.checking import NameWithoutValue, ReferenceUnknown
from physcalc.steps.lines import Line, LineKind, Working

from .engine import Engine, Outcome
from .findings import Findings
from .solving import Solved, differ, solve
from .statements import Options
from .tree import BlockPart, Part
from .worked import Worked

#: What is found in a block of options.
OPTION = "option"
_STARVED = "what it rests on has no value any more"


@dataclass(frozen=True, slots=True)
class Followed:
    """One result that comes out otherwise.

    Attributes:
        span: the block that finds it.
        number: the number of its question; empty for none.
        identifier: the id of the block; empty for none.
        name: its name as it is printed; `OPTION` for the letter of a right option.
        memo: the memo's value, as printed.
        value: the value that follows, as printed; empty where none does.
        substitution: the lines in which the values stand that lead to it, as printed.
        reason: why none follows; empty where one does.
    """

    span: Span
    number: str
    identifier: str
    name: str
    memo: str
    value: str
    substitution: tuple[str, ...] = ()
    reason: str = ""


def follow_on(
    worked: Worked, taken: Mapping[int, Mapping[Name, Datum]], engine: Engine
) -> tuple[Followed, ...]:
    """Every result that comes out otherwise, in the order of the document.

    Args:
        worked: the document, in which nothing is wrong.
        taken: the results that learner's values take the place of (`read_taken`).
        engine: what calculates.
    """
    # What is wrong with the learner's way is no problem of the document: nobody sees these findings.
    again = solve(worked.tree, worked.statements, worked.marks, worked.sheet, engine, Findings(), taken)
    following = _Following(worked, again, taken, engine)
    return tuple(found for part in worked.tree.root.walk() for found in following.block(part))


class _Following:
    def __init__(
        self,
        worked: Worked,
        again: Solved,
        taken: Mapping[int, Mapping[Name, Datum]],
        engine: Engine,
    ) -> None:
        self.worked = worked
        self.again = again
        self.taken = taken
        self.engine = engine
        self.numbers = worked.tree.question_numbers()

    def block(self, part: Part) -> Iterator[Followed]:
        if not isinstance(part, BlockPart):
            return
        match self.worked.statements.get(part.key):
            case Calculation() as statement:
                yield from self._calculation(part, statement.conventions)
            case Options():
                yield from self._options(part)

    def _calculation(self, part: BlockPart, conventions: Conventions) -> Iterator[Followed]:
        before, after = self.worked.solved.outcomes[part.key], self.again.outcomes[part.key]
        if before.working is None:
            return
        lines = self._lines(before.working, conventions)
        new_lines = self._lines(after.working, conventions) if after.working is not None else {}
        reason = self._reason(part, after)
        for name, memo, value in self._values(part, before, after):
            if value is None:
                yield self._followed(part, name, memo, None, conventions, (), reason)
                continue
            changed = tuple(line for line in new_lines.get(name, ()) if line not in lines.get(name, ()))
            yield self._followed(part, name, memo, value, conventions, changed, "")

    def _values(
        self, part: BlockPart, before: Outcome, after: Outcome
    ) -> Iterator[tuple[Name, Printed, Printed | None]]:
        """Each result that comes out otherwise: the memo's value, and the one that follows or None."""
        starved = after.working is not None and self._starved(part)
        answers, new_answers = _answers(before), _answers(after)
        for name, datum in before.results.items():
            memo, value, same = datum.printed, None, False
            if name in self.taken.get(part.key, {}):
                # The results hold what the learner took; what this part itself comes to is among the answers.
                memo, value = answers.get(name), new_answers.get(name)
                same = memo == value
            elif (new := after.results.get(name)) is not None:
                value = new.printed
                same = memo == value and not differ(datum, new)
            if memo is not None and not same:
                yield name, memo, None if starved else value

    def _starved(self, part: BlockPart) -> bool:
        """Whether a calculation went on from something else, because what it rested on has no value any more."""
        return self.again.follows[part.key] != self.worked.solved.follows[part.key]

    def _reason(self, part: BlockPart, after: Outcome) -> str:
        """Why a calculation comes to nothing; empty where it does come to something."""
        if after.working is not None:
            return _STARVED if self._starved(part) else ""
        first = next((problem for problem in after.problems if problem.level != "note"), None)
        if first is None or isinstance(first, NameWithoutValue | ReferenceUnknown):
            return _STARVED
        return first.sentence()

    def _lines(self, working: Working, conventions: Conventions) -> dict[Name, tuple[str, ...]]:
        """The lines of substitution that lead to each result, as printed in a memo."""
        lines: dict[Name, tuple[str, ...]] = {}
        waiting: list[Line] = []
        for line in working.lines:
            if line.audience == "guide":
                continue
            first = line.sides[0] if line.sides else None
            if line.kind is LineKind.ANSWER and isinstance(first, Sym):
                put = [one for one in waiting if one.kind is LineKind.SUBSTITUTION] or waiting
                lines[first.name] = tuple(self._text(one, conventions) for one in put)
                waiting = []
            elif line.kind in (LineKind.SUBSTITUTION, LineKind.ALGEBRA):
                waiting.append(line)
        return lines

    def _text(self, line: Line, conventions: Conventions) -> str:
        sides = [self.engine.plain(side, conventions) for side in line.sides]
        if len(sides) == 1:
            return f"= {sides[0]}"
        relations = line.relations or ("=",) * (len(sides) - 1)
        rest = (f" {relation} {side}" for relation, side in zip(relations, sides[1:], strict=True))
        return sides[0] + "".join(rest)

    def _options(self, part: BlockPart) -> Iterator[Followed]:
        before, after = self.worked.solved.chosen.get(part.key), self.again.chosen.get(part.key)
        if before is None or after is None or before.key is None or before.key == after.key:
            return
        number = self.numbers[part.key]
        reason = "" if after.key else "no option is right any more"
        yield Followed(part.span, number, part.identifier, OPTION, before.key, after.key or "", (), reason)

    def _followed(
        self,
        part: BlockPart,
        name: Name,
        memo: Printed,
        value: Printed | None,
        conventions: Conventions,
        lines: tuple[str, ...],
        reason: str,
    ) -> Followed:
        shown = self.engine.plain(value, conventions) if value is not None else ""
        title = self.engine.plain(Sym(name), conventions)
        old = self.engine.plain(memo, conventions)
        return Followed(part.span, self.numbers[part.key], part.identifier, title, old, shown, lines, reason)


def _answers(outcome: Outcome) -> dict[Name, Printed]:
    found = outcome.working.answers if outcome.working is not None else ()
    return {answer.name: answer.printed for answer in found}
