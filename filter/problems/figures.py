"""Problems of blocks that draw: what kind they are, and keys that all kinds share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from physcalc.problems import Level, Problem


@dataclass(eq=False, repr=False)
class FigureKindMissing(Problem):
    """A block that draws does not say what it draws, or says two things.

    One key names the kind: `forces` for a free-body diagram, `situation` for bodies, threads, slopes, rays and
    waves, `field` for field lines, `circuit` and `graph`.

    Attributes:
        named: the kinds that it names.
        kinds: all of them.
        near: the kind that a key was perhaps meant to be; None where nothing is close.
    """

    slug: ClassVar[str] = "figure-kind-missing"
    wrong: ClassVar[str] = "force:\n  F_g: down"
    right: ClassVar[str] = "forces:\n  F_g: down"

    named: tuple[str, ...]
    kinds: tuple[str, ...]
    near: str | None

    def sentence(self) -> str:
        if self.named:
            return f"one block draws one figure, but this one names {' and '.join(self.named)}"
        return "the block does not say what it draws"

    def mend(self) -> str:
        if self.named:
            return "write a block for each"
        if self.near is not None:
            return f'perhaps "{self.near}" was meant'
        return f"give it one of the keys {', '.join(self.kinds[:-1])} or {self.kinds[-1]}"


@dataclass(eq=False, repr=False)
class FigureKeyUnreadable(Problem):
    """A key of a block that draws holds something that it does not take.

    Attributes:
        key: the key.
        typed: what stands there.
        known: what it takes.
    """

    slug: ClassVar[str] = "figure-key-unreadable"
    wrong: ClassVar[str] = "paper: blank"
    right: ClassVar[str] = "paper: space"

    key: str
    typed: str
    known: str

    def sentence(self) -> str:
        return f'"{self.typed.strip()}" is nothing that "{self.key}" takes'

    def mend(self) -> str:
        return f"write {self.known}"


@dataclass(eq=False, repr=False)
class MarkingUnequal(Problem):
    """The lines of marking of a figure earn other marks than the figure has.

    Each line below `marking` earns one mark, or so many as stand in brackets at its end. In a free-body diagram the
    rows of the key earn what is left over.

    Attributes:
        said: the marks of the figure.
        lines: what the lines earn together.
    """

    slug: ClassVar[str] = "marking-unequal"
    wrong: ClassVar[str] = "marks: 2\nmarking:\n  - both axes named\n  - all points plotted (2)"
    right: ClassVar[str] = "marks: 3\nmarking:\n  - both axes named\n  - all points plotted (2)"

    said: int
    lines: int

    def sentence(self) -> str:
        return f"the figure says {self.said} mark{'s' if self.said > 1 else ''}, but its marking earns {self.lines}"

    def mend(self) -> str:
        return "correct the marks, or write behind a line in brackets how many it earns, such as (2)"


@dataclass(eq=False, repr=False)
class KeyMarksFewer(Problem):
    """The labels of a free-body diagram are more than the marks that are left for them.

    Ticks stand beside the first of them, so that a marker would take the others to earn nothing.

    Attributes:
        labels: how many labels the key has.
        left: how many marks are left for them.
    """

    slug: ClassVar[str] = "key-marks-fewer"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "marks: 1"
    right: ClassVar[str] = "marks: 2"

    labels: int
    left: int

    def sentence(self) -> str:
        marks = "mark is" if self.left == 1 else "marks are"
        return (
            f"the key has {self.labels} labels, and {self.left} {marks} left for them: the last have no tick"
        )

    def mend(self) -> str:
        return "give each label its mark, or say under marking what earns the marks"
