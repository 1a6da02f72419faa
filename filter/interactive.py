"""One block from Python: the same stages as for a document that holds nothing else."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction

import panflute as pf

from physcalc.language import Calculation, Conventions
from physcalc.language.names import Name
from physcalc.language.tree import Equation
from physcalc.problems import Problem
from physcalc.solution import CalculationFailed, Solution, Step, Value
from physcalc.steps.lines import Answer, Line, LineKind, Working
from physcalc.units import from_si

from .document import BlockPart, Engine, Findings, Outcome
from .pipeline import work_alone


def solve_block(text: str, given: Mapping[str, str], settings: Mapping[str, object]) -> Solution:
    """See `physcalc.calculate`."""
    blocks = [pf.CodeBlock("\n".join(f"{name}: {value}" for name, value in given.items()), classes=["given"])]
    document = pf.Doc(*(blocks if given else ()), pf.CodeBlock(text.strip("\n"), classes=["calc"]))
    named = {name.replace("_", "-"): value for name, value in settings.items()}
    lang = named.pop("lang", "en-GB")
    document.metadata["lang"] = pf.MetaString(str(lang))
    document.metadata["physcalc"] = pf.MetaMap(**{name: _meta(value) for name, value in named.items()})
    findings = Findings()
    worked, engine = work_alone(document, findings)
    problems = findings.report().problems
    wrong = [problem for problem in problems if problem.level != "note"]
    if wrong or worked is None:
        raise CalculationFailed(wrong)
    for part in worked.tree.root.walk():
        statement = worked.statements.get(part.key)
        if isinstance(part, BlockPart) and isinstance(statement, Calculation):
            return _solution(worked.solved.outcomes[part.key], engine, statement.conventions, problems)
    raise CalculationFailed(problems)


def _meta(value: object) -> pf.MetaValue:
    if isinstance(value, bool):
        return pf.MetaBool(value)
    if isinstance(value, Mapping):
        return pf.MetaMap(**{str(key): _meta(inner) for key, inner in value.items()})
    return pf.MetaString(str(value))


def _solution(
    outcome: Outcome, engine: Engine, conventions: Conventions, notes: Iterable[Problem]
) -> Solution:
    working = outcome.working
    if working is None:
        raise CalculationFailed(tuple(outcome.problems))
    values = {
        name.key: _value(name, answer, outcome, engine, conventions)
        for name, answer in _asked(working.answers, outcome)
    }
    steps = _steps(working, engine, conventions)
    others = tuple(_steps(other, engine, conventions) for other in working.others)
    rows = [row for line in _shown(working) if (row := _row(line, engine, conventions))]
    aligned = "\\begin{aligned}\n" + " \\\\\n".join(rows) + "\n\\end{aligned}"
    return Solution(values, steps, others, tuple(notes), aligned)


def _asked(answers: Iterable[Answer], outcome: Outcome) -> Iterator[tuple[Name, Answer]]:
    """The answers by the names that are asked: a factor is printed with the name of what it changes, primed."""
    changed = {change.answer.name: name for name, change in outcome.changes.items()}
    for answer in answers:
        yield changed.get(answer.name, answer.name), answer


def _value(name: Name, answer: Answer, outcome: Outcome, engine: Engine, conventions: Conventions) -> Value:
    printed = answer.printed
    factor = next((c.factor for c in outcome.changes.values() if c.answer is answer), None)
    if factor is not None:
        shown = factor.fraction if factor.fraction is not None else Fraction(answer.rounded.fraction)
        text, tex = engine.plain(printed, conventions), engine.tex(printed, conventions)
        return Value(name.key, shown, "", "", factor.fraction, text, tex)
    datum = outcome.results[answer.name]
    unit = printed.unit if printed.unit is not None else datum.quantity.unit
    exact = from_si(datum.quantity.value, unit).fraction
    return Value(
        name.key,
        Fraction(answer.rounded.fraction),
        unit.text(conventions.unit_style),
        printed.direction,
        # A size, or a value whose direction says its sign, is printed without one.
        abs(exact) if exact is not None and (printed.direction or answer.rounded.fraction > 0) else exact,
        engine.plain(printed, conventions),
        engine.tex(printed, conventions),
    )


def _shown(working: Working) -> list[Line]:
    return [
        line for line in working.lines if line.audience != "guide" and line.kind is not LineKind.REARRANGED
    ]


def _steps(working: Working, engine: Engine, conventions: Conventions) -> tuple[Step, ...]:
    steps = []
    for line in _shown(working):
        if line.sides:
            sides = [engine.plain(side, conventions) for side in line.sides]
            text = _between(sides, line.relations)
            tex = _between([engine.tex(side, conventions) for side in line.sides], line.relations)
            if line.label:
                text, tex = f"{text}   {line.label}", rf"{tex} \qquad \text{{{line.label}}}"
        else:
            text, tex = _sentence(line, engine, conventions), ""
        steps.append(Step(line.kind.value, text, tex, line.marks))
    return tuple(steps)


def _sentence(line: Line, engine: Engine, conventions: Conventions) -> str:
    """A remark with its names and values."""
    pieces = line.pieces or (line.text,)
    return "".join(piece if isinstance(piece, str) else engine.plain(piece, conventions) for piece in pieces)


def _between(sides: list[str], relations: tuple[str, ...]) -> str:
    if len(sides) == 1:
        return f"= {sides[0]}"
    signs = relations or ("=",) * (len(sides) - 1)
    return sides[0] + "".join(f" {sign} {side}" for sign, side in zip(signs, sides[1:], strict=True))


def _row(line: Line, engine: Engine, conventions: Conventions) -> str:
    """A line of the aligned working; empty for a sentence."""
    match line.pieces:
        case (str(said), Equation(left, right)):
            # What is done with the formulas of a set, and what comes of it.
            return rf"\text{{{said}}}{engine.tex(left, conventions)} &= {engine.tex(right, conventions)}"
    if not line.sides:
        return ""
    sides = [engine.tex(side, conventions) for side in line.sides]
    if len(sides) == 1:
        return f"&= {sides[0]}"
    signs = line.relations or ("=",) * (len(sides) - 1)
    rest = "".join(f" {sign} {side}" for sign, side in zip(signs[1:], sides[2:], strict=True))
    label = rf" \qquad \text{{{line.label}}}" if line.label else ""
    return f"{sides[0]} &{signs[0]} {sides[1]}{rest}{label}"
