"""What came of one figure, whatever its kind."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import ClassVar, Literal

from ..checking.scope import Datum
from ..language.names import Name
from ..language.statements import Conventions
from ..problems import Problem, Span

#: What a figure is: by it its readers and printers are chosen, so that none is imported for a kind that is not there.
FigureKind = Literal["forces", "situation", "field", "circuit", "graph"]


@dataclass(frozen=True, slots=True)
class FigureText:
    """What an author says of a figure: each kind has its own class.

    Attributes:
        span: where it begins.
        conventions: the settings in force for it.
    """

    KIND: ClassVar[FigureKind]
    #: How many times longer than a formula a line of it may be.
    LONGER: ClassVar[int] = 1

    span: Span
    conventions: Conventions


@dataclass(frozen=True, slots=True)
class Diagram:
    """What a figure shows: each kind has its own class."""

    KIND: ClassVar[FigureKind]


@dataclass(frozen=True, slots=True)
class Drawn:
    """What came of a figure.

    Attributes:
        diagram: what it shows; None where that could not be found.
        results: the quantities that it finds.
        problems: problems and notes, in no particular order.
    """

    diagram: Diagram | None
    results: Mapping[Name, Datum] = field(default_factory=dict)
    problems: tuple[Problem, ...] = ()
