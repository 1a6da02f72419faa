"""Working as data: what the memo shows, line by line, without any markup."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import Literal

from ..exact import Rounded
from ..language.names import Name
from ..language.tree import Equation, Expr, Printed
from ..problems import Span


class LineKind(Enum):
    """What a line of working is, and so what may earn a mark."""

    FORMULA = "formula"  # as the sheet prints it, or as typed
    INSTANCE = "instance"  # the formula with this question's names
    REARRANGED = "rearranged"  # the unknown made the subject (guide only)
    SUBSTITUTION = "substitution"  # numbers put in
    ALGEBRA = "algebra"  # numbers on their way: elimination, the quadratic formula, components
    UNCERTAINTY = "uncertainty"  # how far the result may lie off, and why
    ANSWER = "answer"  # the result with unit and direction
    REMARK = "remark"  # a sentence: a root's reason, a direction's reason, a carried value


@dataclass(frozen=True, slots=True)
class Line:
    """One line of working.

    Attributes:
        kind: what it is.
        sides: trees or printed values that stand between the relation signs, left to right; one only where
            a line continues the one above ("= 8,10 kW"); empty for a remark.
        text: the sentence of a remark; empty otherwise.
        pieces: the same sentence with its names and values as trees, to be set as maths; empty where it is plain.
        marks: how many marks it earns.
        relations: what stands between the sides, "=" unless said ("<", "≈"); one fewer than the sides.
        audience: "all", or "guide" or "memo" where the line stands in that one only (a memo substitutes in
            the sheet's layout, a guide may make the unknown the subject first).
    """

    kind: LineKind
    sides: tuple[Expr | Printed, ...] = ()
    text: str = ""
    marks: int = 0
    relations: tuple[str, ...] = ()
    audience: Literal["all", "guide", "memo"] = "all"
    pieces: tuple[str | Equation, ...] = ()
    label: str = ""


@dataclass(frozen=True, slots=True)
class Origin:
    """Where one value came from, for messages and for a moderator.

    Attributes:
        name: the name it has in the working.
        printed: the value as printed.
        where: "line 15", "sheet", "from lift-tension".
        span: its place in the source; None for the sheet's.
    """

    name: Name
    printed: Printed
    where: str
    span: Span | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """One found quantity, rounded once.

    Attributes:
        name: what was found.
        printed: as it is printed.
        rounded: the rounded number in the printed unit, magnitude and sign as printed.
    """

    name: Name
    printed: Printed
    rounded: Rounded


@dataclass(frozen=True, slots=True)
class Working:
    """The working of one calculation by one method.

    Attributes:
        lines: its lines in order, steps included.
        answers: what it found, in the order of `find`.
        origins: where each value that went in came from.
        heading: the words above it ("up is positive"); empty for none.
        why: the author's sentence for the guide; empty for none.
        others: the alternative methods, each a working of its own.
        slips: wrong ways with what they lead to: (what went wrong, printed value).
        bands: ranges of values with the marks they earn: (low end, high end, marks).
        accepted: the range that markers may accept, its two ends; None where the author gives none.
        shown: the value that a "show that" states; None for none.
        marks: the sum of its lines' marks.
    """

    lines: tuple[Line, ...]
    answers: tuple[Answer, ...]
    origins: tuple[Origin, ...] = ()
    heading: str = ""
    why: str = ""
    others: tuple[Working, ...] = ()
    slips: tuple[tuple[str, Printed], ...] = ()
    accepted: tuple[Printed, Printed] | None = None
    bands: tuple[tuple[Printed, Printed, int], ...] = ()
    shown: Printed | None = None
    marks: int = 0
