"""Marks spread over the lines that earn them."""

from __future__ import annotations

from dataclasses import replace

from ..language.statements import Calculation
from ..problems import Problem, Span, Text
from ..problems.language import PhraseUnreadable
from ..problems.solving import MarksDoNotComeOut
from .lines import Line, LineKind

_GROUPS = ("formula", "substitution", "uncertainty", "answer")


def read_marks(pairs: tuple[tuple[Text, Text], ...]) -> dict[str, int]:
    """The marks said under `marks`: {"": 4}, or by line {"formula": 1, …}.

    Raises:
        PhraseUnreadable: a key that is no line, or no whole number.
    """
    said: dict[str, int] = {}
    for key, value in pairs:
        if key.value and key.value not in _GROUPS:
            raise PhraseUnreadable(
                key.span, "marks", key.value, "formula, substitution, uncertainty or answer"
            )
        text = value.value.strip()
        if not text.isdigit() or len(text) > 3:
            raise PhraseUnreadable(value.span, "marks", text, "a whole number of marks")
        said[key.value] = int(text)
    return said


def _groups(lines: list[Line], finds: int) -> tuple[list[int], list[int], list[int], list[int]]:
    """Indices of the lines that earn: formulas, substitutions, answers asked, answers on the way.

    A formula of the sheet and its instance are one line, ticked at the sheet's form; of a memo's and a
    guide's version of one line only the memo's counts, and the guide's copies it.
    """
    formulas: list[int] = []
    substitutions: list[int] = []
    answers: list[int] = []
    for index, line in enumerate(lines):
        if line.audience == "guide":
            continue
        if line.kind is LineKind.FORMULA or (
            line.kind is LineKind.INSTANCE and not (index and lines[index - 1].kind is LineKind.FORMULA)
        ):
            formulas.append(index)
        elif line.kind is LineKind.SUBSTITUTION:
            substitutions.append(index)
        elif line.kind is LineKind.ANSWER:
            answers.append(index)
    asked = answers[len(answers) - finds :] if finds else []
    return formulas, substitutions, asked, answers[: len(answers) - len(asked)]


def spread(lines: list[Line], total: int, finds: int, span: Span) -> tuple[list[Line], Problem | None]:
    """The usual rule: one to each answer asked, one to each formula line, the rest to the substitutions.

    Answers of steps on the way earn only what is left where no substitution can take it.
    """
    formulas, substitutions, asked, on_the_way = _groups(lines, finds)
    given = [0] * len(lines)
    left = total
    for group in (asked, formulas):
        for index in group:
            if left:
                given[index] += 1
                left -= 1
    if left and substitutions:
        share, extra = divmod(left, len(substitutions))
        for place, index in enumerate(substitutions):
            given[index] += share + (place < extra)
        # With more marks than three a substitution, the answers of steps take part.
        for index in on_the_way:
            rich = max(substitutions, key=lambda i: given[i])
            if given[rich] > 2:
                given[rich] -= 1
                given[index] += 1
        left = 0
    elif left and on_the_way:
        for index in on_the_way:
            if left:
                given[index] += 1
                left -= 1
    if left:
        why = f"the lines can take {total - left} by the usual rule"
        return lines, MarksDoNotComeOut(span, total, why)
    return _marked(lines, given), None


def spread_by_line(
    lines: list[Line], said: dict[str, int], finds: int, span: Span
) -> tuple[list[Line], Problem | None]:
    """Marks as the author says them: each kind's marks over the lines of that kind, in order."""
    formulas, substitutions, asked, on_the_way = _groups(lines, finds)
    given = [0] * len(lines)
    for key, group in (
        ("formula", formulas),
        ("substitution", substitutions),
        ("uncertainty", [i for i, line in enumerate(lines) if line.kind is LineKind.UNCERTAINTY]),
        ("answer", asked + on_the_way),
    ):
        marks = said.get(key, 0)
        if marks and not group:
            article = "an" if key[0] in "au" else "a"
            return lines, MarksDoNotComeOut(span, sum(said.values()), f"no line is {article} {key}")
        if marks:
            share, extra = divmod(marks, len(group))
            for place, index in enumerate(group):
                given[index] += share + (place < extra)
    return _marked(lines, given), None


def _marked(lines: list[Line], given: list[int]) -> list[Line]:
    marked = [
        line if line.marks == marks else replace(line, marks=marks)
        for line, marks in zip(lines, given, strict=True)
    ]
    # The guide's version of a substitution earns what the memo's does.
    for index, line in enumerate(marked):
        if line.audience == "guide" and line.kind is LineKind.SUBSTITUTION:
            twin = next(
                (
                    other
                    for other in reversed(marked[:index])
                    if other.audience == "memo" and other.kind is line.kind
                ),
                None,
            )
            if twin is not None:
                marked[index] = replace(line, marks=twin.marks)
    return marked


def allot(calculation: Calculation, lines: list[Line], finds: int) -> tuple[list[Line], int, list[Problem]]:
    """Spread a calculation's marks over its lines.

    Returns:
        The lines with their marks, the marks in all, and problems.
    """
    try:
        said = read_marks(calculation.marks)
    except Problem as problem:
        return lines, 0, [problem]
    span = calculation.marks[0][1].span if calculation.marks else calculation.span
    if not said or set(said) == {""}:
        total = said.get("", calculation.total_marks)
        if total is None:
            return lines, 0, []
        marked, fault = spread(lines, total, finds, span)
        return marked, total, [fault] if fault else []
    marked, fault = spread_by_line(lines, {k: v for k, v in said.items() if k}, finds, span)
    return marked, sum(v for k, v in said.items() if k), [fault] if fault else []
