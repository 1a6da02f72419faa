"""Problems of figures: forces."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class ForceUndirected(Problem):
    """A force of a free-body diagram has no direction, so that its arrow cannot be drawn.

    A direction is `up`, `down`, `left`, `right`, `at 30° above right`, `at bearing 40°`; beside a `slope` also
    `up the slope`, `down the slope`, `perpendicular to the slope`. A force whose data already have a direction
    needs no second one.

    Attributes:
        name: the force.
        typed: what stands there.
    """

    slug: ClassVar[str] = "force-undirected"
    wrong: ClassVar[str] = "F_g: 49 N"
    right: ClassVar[str] = "F_g: 49 N, down"

    name: str
    typed: str

    def sentence(self) -> str:
        return f'the force {self.name} has no direction ("{self.typed}")'

    def mend(self) -> str:
        return f'write it behind a comma, as in "{self.name}: 49 N, down"'


@dataclass(eq=False, repr=False)
class ForceDimension(Problem):
    """A value in a free-body diagram is no force.

    Attributes:
        name: its name.
        unit: the unit that it has.
    """

    slug: ClassVar[str] = "force-dimension"
    wrong: ClassVar[str] = "F_g: 5 kg, down"
    right: ClassVar[str] = "F_g: 49 N, down"

    name: str
    unit: str

    def sentence(self) -> str:
        return f"{self.name} is drawn as a force, but its unit is {self.unit or 'a bare number'}"

    def mend(self) -> str:
        return "give the force in N, or leave the value out and keep the direction"


@dataclass(eq=False, repr=False)
class ForcesUnbalanced(Problem):
    """The forces of a free-body diagram must balance (`balance`), but they do not.

    Forces whose sizes come from rounded data balance where the net force is no larger than that rounding explains.

    Attributes:
        net: the net force as printed, with its direction.
        along: along which direction they must balance; empty for both.
        sizes: each force with its size, and where that comes from.
    """

    slug: ClassVar[str] = "forces-unbalanced"
    wrong: ClassVar[str] = "forces:\n  F_g: 49 N, down\n  N: 45 N, up\nbalance: yes"
    right: ClassVar[str] = "forces:\n  F_g: 49 N, down\n  N: 49 N, up\nbalance: yes"

    net: str
    along: str = ""
    sizes: str = ""

    def because(self) -> tuple[str, ...]:
        return (f"with {self.sizes}",) if self.sizes else ()

    def sentence(self) -> str:
        where = f" {self.along}" if self.along else ""
        return f"the forces do not balance{where}: the net force is {self.net}"

    def mend(self) -> str:
        return "correct a size or a direction, or take out the line balance"


@dataclass(eq=False, repr=False)
class ForceSizeMissing(Problem):
    """The forces must balance (`balance`), but the size of one is not known, so that nobody can tell.

    Attributes:
        name: the force.
    """

    slug: ClassVar[str] = "force-size-missing"
    wrong: ClassVar[str] = "forces:\n  F_g: 49 N, down\n  N: up\nbalance: yes"
    right: ClassVar[str] = "forces:\n  F_g: 49 N, down\n  N: 49 N, up\nbalance: yes"

    name: str

    def sentence(self) -> str:
        return f"whether the forces balance cannot be told: the size of {self.name} is not known"

    def mend(self) -> str:
        return f"give {self.name} a size, or take out the line balance"


@dataclass(eq=False, repr=False)
class FigurePhraseUnreadable(Problem):
    """A line of a figure is none that this kind of figure knows.

    Attributes:
        what: what the line is about.
        typed: the text.
        form: what it may be.
        near: the word that was perhaps meant; None where nothing is close.
    """

    slug: ClassVar[str] = "figure-phrase-unreadable"
    wrong: ClassVar[str] = "balance: perhaps"
    right: ClassVar[str] = "balance: yes"

    what: str
    typed: str
    form: str
    near: str | None = None

    def sentence(self) -> str:
        return f'"{self.typed}" cannot be read as {self.what}'

    def mend(self) -> str:
        meant = f'perhaps "{self.near}" was meant; ' if self.near is not None else ""
        return f"{meant}write {self.form}"


@dataclass(eq=False, repr=False)
class FigureNameUnknown(Problem):
    """A line of a figure names something that the figure does not hold.

    Attributes:
        name: the name.
        known: the names that it holds.
        near: the one that was perhaps meant; None where nothing is close.
    """

    slug: ClassVar[str] = "figure-name-unknown"
    wrong: ClassVar[str] = "forces:\n  T: up\ncomponents: F"
    right: ClassVar[str] = "forces:\n  T: at 30° above right\ncomponents: T"

    name: str
    known: tuple[str, ...]
    near: str | None = None

    def sentence(self) -> str:
        return f'the figure holds nothing named "{self.name}"'

    def mend(self) -> str:
        if self.near is not None:
            return f'perhaps "{self.near}" was meant'
        return f"it holds {', '.join(self.known)}" if self.known else "it holds nothing that has a name"


@dataclass(eq=False, repr=False)
class FigureValueExtreme(Problem):
    """A value of a figure is so large, or so near zero, that no picture can be reckoned with it.

    Most likely a power of ten was mistyped.

    Attributes:
        typed: the value; empty where it is one that follows from others.
    """

    slug: ClassVar[str] = "figure-value-extreme"
    wrong: ClassVar[str] = "field:\n  - charge A = 3e250 nC"
    right: ClassVar[str] = "field:\n  - charge A = 3 nC"

    typed: str = ""

    def sentence(self) -> str:
        what = f'"{self.typed}"' if self.typed else "a value of this figure"
        return f"{what} is too large, or too near zero, to be drawn"

    def mend(self) -> str:
        return "look for a slip in a power of ten or a unit"
