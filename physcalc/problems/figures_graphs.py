"""Problems of graphs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..limits import allow
from .base import Problem


@dataclass(eq=False, repr=False)
class GraphEmpty(Problem):
    """A graph has nothing to show: no measured points, no pieces, no curve."""

    slug: ClassVar[str] = "graph-empty"
    wrong: ClassVar[str] = "graph: v against t"
    right: ClassVar[str] = "graph: v against t\npoints:\n  - t in s, v in m/s\n  - 0, 0.2\n  - 1.0, 2.1"

    def sentence(self) -> str:
        return "the graph has no points, no pieces and no curve"

    def mend(self) -> str:
        return 'give measured data below "points", a motion below "pieces" or a formula behind "curve"'


@dataclass(eq=False, repr=False)
class GraphPointUnreadable(Problem):
    """A line of measured data is no pair of values.

    A line holds one point: x, then a comma with a blank behind it (or a semicolon), then y. Each value is a number,
    which may have its unit and its uncertainty; or a name in scope.

    Attributes:
        typed: the line or the value.
    """

    slug: ClassVar[str] = "graph-point-unreadable"
    wrong: ClassVar[str] = "- 0, fast"
    right: ClassVar[str] = "- 0, 0.2"

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" cannot be read as measured data'

    def mend(self) -> str:
        return 'write a pair of values in each line, a comma and a blank between them: "- 1.0, 2.1 ± 0.1"'


@dataclass(eq=False, repr=False)
class GraphColumnsUnmatched(Problem):
    """A line of measured data has more or fewer values than the lines before it.

    Attributes:
        typed: the line.
        found: how many values it has.
        expected: how many the heading, or the first line, has.
    """

    slug: ClassVar[str] = "graph-columns-unmatched"
    wrong: ClassVar[str] = "- 0, 0.2, 7"
    right: ClassVar[str] = "- 0, 0.2"

    typed: str
    found: int
    expected: int

    def sentence(self) -> str:
        return f'"{self.typed}" has {_values(self.found)}, and there are {self.expected} columns'

    def mend(self) -> str:
        return "write one value for each column; a comma that separates values has a blank behind it"


def _values(count: int) -> str:
    return "1 value" if count == 1 else f"{count} values"


@dataclass(eq=False, repr=False)
class GraphPointsMany(Problem):
    """A graph has more points than can be seen.

    Attributes:
        most: how many there may be.
    """

    slug: ClassVar[str] = "graph-points-many"

    most: int

    def sentence(self) -> str:
        return f"a graph has at most {self.most} points, and here is one more"

    def mend(self) -> str:
        return "leave points out, or make two graphs" + allow("graph-points")


@dataclass(eq=False, repr=False)
class GraphDimension(Problem):
    """A value on an axis of a graph, or a quantity found from it, is of another kind than the axis says.

    Attributes:
        what: what is concerned: an axis or a quantity.
        unit: the unit that stands there.
        expected: the unit that the rest has.
    """

    slug: ClassVar[str] = "graph-dimension"
    wrong: ClassVar[str] = "- 1.0 kg, 2.1"
    right: ClassVar[str] = "- 1.0 s, 2.1"

    what: str
    unit: str
    expected: str

    def sentence(self) -> str:
        here, rest = (unit or "a bare number" for unit in (self.unit, self.expected))
        return f"{self.what} is in {rest}, and the unit here is {here}"

    def mend(self) -> str:
        return "give all of it in units of one kind"


@dataclass(eq=False, repr=False)
class GraphValueEnormous(Problem):
    """One value on an axis is a thousand times all others, which would lie on one another.

    Attributes:
        typed: the value.
        ratio: how many times the next one it is, in words.
    """

    slug: ClassVar[str] = "graph-value-enormous"
    wrong: ClassVar[str] = "- 3.0, 6100000"
    right: ClassVar[str] = "- 3.0, 6.1"

    typed: str
    ratio: str

    def sentence(self) -> str:
        return f'"{self.typed}" is {self.ratio} times the next largest value on its axis'

    def mend(self) -> str:
        return "correct its digits or its power of ten, or leave it out"


@dataclass(eq=False, repr=False)
class GraphValuesClose(Problem):
    """The values on an axis differ so little that no scale can show it.

    Attributes:
        axis: which axis.
    """

    slug: ClassVar[str] = "graph-values-close"
    wrong: ClassVar[str] = "- 1.0, 5.0\n- 1.0000000001, 7.0"
    right: ClassVar[str] = "- 1.0, 5.0\n- 1.1, 7.0"

    axis: str

    def sentence(self) -> str:
        return (
            f"the values of {self.axis} agree to more than eight figures, so no scale shows their difference"
        )

    def mend(self) -> str:
        return "plot the difference from a fixed value, or correct the digits"


@dataclass(eq=False, repr=False)
class GraphPointOutside(Problem):
    """A point lies outside the range that an axis is given.

    Attributes:
        typed: the value.
        axis: which axis.
    """

    slug: ClassVar[str] = "graph-point-outside"
    wrong: ClassVar[str] = "x axis: 0 s to 1.5 s"
    right: ClassVar[str] = "x axis: 0 s to 3 s"

    typed: str
    axis: str

    def sentence(self) -> str:
        return f'"{self.typed}" lies outside the range of the axis of {self.axis}'

    def mend(self) -> str:
        return "make the range wider, or leave it out: without one the range fits the data"


@dataclass(eq=False, repr=False)
class FitPointsFew(Problem):
    """A line of best fit needs two points at least, three for a standard error.

    Attributes:
        found: how many there are.
        needed: how many there must be.
    """

    slug: ClassVar[str] = "fit-points-few"
    wrong: ClassVar[str] = "points:\n  - t in s, v in m/s\n  - 1.0, 2.1"
    right: ClassVar[str] = "points:\n  - t in s, v in m/s\n  - 1.0, 2.1\n  - 2.0, 4.0"

    found: int
    needed: int

    def sentence(self) -> str:
        points = "1 point" if self.found == 1 else f"{self.found or 'no'} points"
        return f"there {'is' if self.found == 1 else 'are'} {points} for a line that needs {self.needed}"

    def mend(self) -> str:
        return "give more points, or take out the line fit"


@dataclass(eq=False, repr=False)
class FitUpright(Problem):
    """All points have the same x, so that the line of best fit would be upright and has no gradient.

    Attributes:
        axis: the quantity on the x axis.
    """

    slug: ClassVar[str] = "fit-upright"
    wrong: ClassVar[str] = "- 1.0, 2.1\n- 1.0, 2.3"
    right: ClassVar[str] = "- 1.0, 2.1\n- 2.0, 4.0"

    axis: str

    def sentence(self) -> str:
        return f"all points have the same {self.axis}, so no line of best fit has a gradient"

    def mend(self) -> str:
        return "give points that lie beside one another, or take out the line fit"


@dataclass(eq=False, repr=False)
class FitUnweighted(Problem):
    """Some points have an uncertainty and others have none, so all count alike in the line of best fit.

    Points count by 1/u² of their uncertainties u where all have one.

    Attributes:
        typed: the first value without one.
    """

    slug: ClassVar[str] = "fit-unweighted"
    level = "note"
    wrong: ClassVar[str] = "- 1.0, 2.1 ± 0.1\n- 2.0, 4.0\n- 3.0, 6.1 ± 0.1"
    right: ClassVar[str] = "- 1.0, 2.1 ± 0.1\n- 2.0, 4.0 ± 0.1\n- 3.0, 6.1 ± 0.1"

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" has no uncertainty and other points have one: all count alike in the fit'

    def mend(self) -> str:
        return 'give each its uncertainty, or write "fit: unweighted line"'


@dataclass(eq=False, repr=False)
class WorstLineMissing(Problem):
    """No straight line passes through all error bars, so none is the steepest or the shallowest that does."""

    slug: ClassVar[str] = "worst-line-missing"
    wrong: ClassVar[str] = "- 1.0, 2.1 ± 0.1\n- 2.0, 9.0 ± 0.1\n- 3.0, 6.1 ± 0.1"
    right: ClassVar[str] = "- 1.0, 2.1 ± 0.1\n- 2.0, 4.0 ± 0.2\n- 3.0, 6.1 ± 0.1"

    def sentence(self) -> str:
        return "no straight line passes through all error bars"

    def mend(self) -> str:
        return "correct a point or its uncertainty, or take out the worst lines"


@dataclass(eq=False, repr=False)
class GraphQuantityMissing(Problem):
    """A quantity is to be found from a graph that does not hold it.

    Attributes:
        what: what is asked: "gradient", "area".
        why: what is missing.
        form: what would do.
    """

    slug: ClassVar[str] = "graph-quantity-missing"
    wrong: ClassVar[str] = "gradient: a"
    right: ClassVar[str] = "fit: line\ngradient: a"

    what: str
    why: str
    form: str

    def sentence(self) -> str:
        return f"the {self.what} cannot be found: {self.why}"

    def mend(self) -> str:
        return self.form


@dataclass(eq=False, repr=False)
class GraphPiecesOverlap(Problem):
    """Two pieces of a graph cover the same stretch of the x axis.

    Attributes:
        piece: the later one.
        before: the one that it overlaps.
    """

    slug: ClassVar[str] = "graph-pieces-overlap"
    wrong: ClassVar[str] = "3 s to 9 s: constant"
    right: ClassVar[str] = "4 s to 9 s: constant"

    piece: str
    before: str

    def sentence(self) -> str:
        return f'the piece "{self.piece}" overlaps "{self.before}"'

    def mend(self) -> str:
        return "let each piece begin where the one before it ends"


@dataclass(eq=False, repr=False)
class GraphPiecesGap(Problem):
    """A piece of a graph begins later than the one before it ends; nothing is drawn between them.

    Attributes:
        piece: the later one.
        before: the one before it.
    """

    slug: ClassVar[str] = "graph-pieces-gap"
    level = "note"
    wrong: ClassVar[str] = "5 s to 9 s: constant"
    right: ClassVar[str] = "4 s to 9 s: constant"

    piece: str
    before: str

    def sentence(self) -> str:
        return f'between "{self.before}" and "{self.piece}" there is a gap'

    def mend(self) -> str:
        return "let each piece begin where the one before it ends, if no gap is meant"
