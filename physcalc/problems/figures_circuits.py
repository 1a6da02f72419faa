"""Problems of circuits."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class CircuitWordUnknown(Problem):
    """A part of a circuit is none that the program knows.

    A part is a word with its name: `resistor R_1`, `lamp L`, `switch S open`, `ammeter A_1`, `battery (ε, r)`; or
    the name alone where its letter says what it is: R for a resistor, S for a switch, A for an ammeter.

    Attributes:
        typed: what stands there.
        known: the words that are known.
        near: the one that was perhaps meant; None where nothing is close.
    """

    slug: ClassVar[str] = "circuit-word-unknown"
    wrong: ClassVar[str] = "circuit: battery (12 V), resister R_1"
    right: ClassVar[str] = "circuit: battery (12 V), resistor R_1"

    typed: str
    known: tuple[str, ...] = ()
    near: str | None = None

    def sentence(self) -> str:
        return f'"{self.typed}" is no part of a circuit'

    def mend(self) -> str:
        if self.near is not None:
            return f'perhaps "{self.near}" was meant'
        if re.search(r"\bparallel\b|/|∥", self.typed):
            return "branches in parallel stand in round brackets with bars between them: (R_1 | R_2)"
        if value := re.fullmatch(r"(?:\w+ )?([A-Za-z](?:_?\w+)?) (\d.*)", self.typed):
            return f"a value stands in brackets or behind =: {value[1]} ({value[2]})"
        if across := re.fullmatch(r"(?:voltmeter )?(\w+) (?:across|over|on) (.+)", self.typed):
            return f"a voltmeter follows what it is connected across: {across[2]} with {across[1]}"
        return f"write what it is before its name: {', '.join(self.known)}"


@dataclass(eq=False, repr=False)
class CircuitUnreadable(Problem):
    """The description of a circuit cannot be read.

    Parts in series stand one after the other with commas between. Branches in parallel stand in round brackets with
    bars between: `(R_1 | R_2, A_2)`. Parts that share a voltmeter stand in square brackets: `[R_1, R_2] with V_1`.

    Attributes:
        what: what is wrong.
        how: how to mend it.
    """

    slug: ClassVar[str] = "circuit-unreadable"
    wrong: ClassVar[str] = "circuit: battery (12 V), (R_1 | R_2"
    right: ClassVar[str] = "circuit: battery (12 V), (R_1 | R_2)"

    what: str
    how: str

    def sentence(self) -> str:
        return self.what

    def mend(self) -> str:
        return self.how


@dataclass(eq=False, repr=False)
class CircuitLarge(Problem):
    """A circuit has more parts, or stands more deeply in brackets, than is drawn and worked out.

    Attributes:
        most: what is allowed, in words.
    """

    slug: ClassVar[str] = "circuit-large"
    wrong: ClassVar[str] = "circuit: battery (12 V), ((((((((((((((R_1))))))))))))))"
    right: ClassVar[str] = "circuit: battery (12 V), R_1"

    most: str

    def sentence(self) -> str:
        return f"the circuit is too large for a page: it holds at most {self.most}"

    def mend(self) -> str:
        return "draw a smaller circuit, or several"


@dataclass(eq=False, repr=False)
class CircuitWide(Problem):
    """A circuit has so many parts side by side, or over one another, that its picture does not fit on a page.

    Attributes:
        found: how many stand so.
        most: how many may.
        way: how they stand.
    """

    slug: ClassVar[str] = "circuit-wide"
    wrong: ClassVar[str] = "circuit: " + ", ".join(f"R_{n}" for n in range(1, 31))
    right: ClassVar[str] = "circuit: " + ", ".join(f"R_{n}" for n in range(1, 7))

    found: int
    most: int
    way: str = "side by side"

    def sentence(self) -> str:
        return f"{self.found} parts of the circuit stand {self.way}, and a page holds {self.most}"

    def mend(self) -> str:
        return (
            "put several resistors into one, or give the circuit as branches between nodes with their places"
        )


@dataclass(eq=False, repr=False)
class ComponentRepeated(Problem):
    """A circuit has two parts of one name, so that nobody can tell which one is meant.

    Several cells may have the same emf and internal resistance; only what has a name of its own must be alone.

    Attributes:
        name: the name.
    """

    slug: ClassVar[str] = "component-repeated"
    wrong: ClassVar[str] = "circuit: battery (12 V), R_1, R_1"
    right: ClassVar[str] = "circuit: battery (12 V), R_1, R_2"

    name: str

    def sentence(self) -> str:
        return f"the circuit has two parts named {self.name}"

    def mend(self) -> str:
        return "give one of them another name; equal resistances may share a value: resistor R_2 (R)"


@dataclass(eq=False, repr=False)
class ComponentDimension(Problem):
    """A value of a part of a circuit has a unit that this part cannot have.

    A battery has an emf in V and an internal resistance in Ω; resistors, lamps and motors have a resistance.

    Attributes:
        name: the value.
        unit: the unit that it has.
        needs: what it must be.
    """

    slug: ClassVar[str] = "component-dimension"
    wrong: ClassVar[str] = "circuit: battery (12 V), R_1 (4 V)"
    right: ClassVar[str] = "circuit: battery (12 V), R_1 (4 Ω)"

    name: str
    unit: str
    needs: str

    def sentence(self) -> str:
        return f"{self.name} must be {self.needs}, but its unit is {self.unit or 'a bare number'}"

    def mend(self) -> str:
        return "correct the unit or the name"


@dataclass(eq=False, repr=False)
class ComponentNegative(Problem):
    """A resistance or an emf in a circuit is negative.

    A battery that is connected the other way round is `battery (ε, r) reversed`.

    Attributes:
        name: the value.
        battery: whether it is an emf.
    """

    slug: ClassVar[str] = "component-negative"
    wrong: ClassVar[str] = "circuit: battery (12 V), R_1 (-4 Ω)"
    right: ClassVar[str] = "circuit: battery (12 V), R_1 (4 Ω)"

    name: str
    battery: bool = False

    def sentence(self) -> str:
        what = "an emf" if self.battery else "a resistance"
        return f"{self.name} is negative, which {what} cannot be"

    def mend(self) -> str:
        if self.battery:
            return 'write the emf without its sign, and "reversed" behind the battery'
        return "correct its sign"


@dataclass(eq=False, repr=False)
class CircuitEndLoose(Problem):
    """A branch of a circuit leads to a node at which nothing else is connected, so that no current can return.

    An open switch in a closed loop is no such end: there the currents are zero.

    Attributes:
        node: the node.
        near: a node of the circuit that was perhaps meant; None where nothing is close.
    """

    slug: ClassVar[str] = "circuit-end-loose"
    wrong: ClassVar[str] = "circuit:\n  - A to B: battery (12 V)\n  - B to A: R_1\n  - B to C: R_2"
    right: ClassVar[str] = "circuit:\n  - A to B: battery (12 V)\n  - B to A: R_1\n  - B to A: R_2"

    node: str
    near: str | None = None

    def sentence(self) -> str:
        return f"the branch ends nowhere: nothing else is connected at {self.node}"

    def mend(self) -> str:
        meant = f'perhaps "{self.near}" was meant; ' if self.near is not None else ""
        return f"{meant}lead another branch from {self.node}, or end this one at a node that has some"


@dataclass(eq=False, repr=False)
class CircuitShorted(Problem):
    """A battery without internal resistance is connected to itself through nothing that has a resistance.

    The current would be without bounds. Ammeters, closed switches and wires have no resistance.

    Attributes:
        through: the names of what the battery is connected through; empty for a bare wire.
    """

    slug: ClassVar[str] = "circuit-shorted"
    wrong: ClassVar[str] = "circuit: battery (12 V), switch S, A_1"
    right: ClassVar[str] = "circuit: battery (12 V), switch S, A_1, R_1"

    through: tuple[str, ...] = ()

    def sentence(self) -> str:
        way = f"through {', '.join(self.through)}" if self.through else "through a wire"
        return f"the battery is short-circuited {way}"

    def mend(self) -> str:
        return "give the battery an internal resistance, or put a resistor into the loop"


@dataclass(eq=False, repr=False)
class SourcesContradict(Problem):
    """Batteries without internal resistance are connected to one another through nothing that has a resistance.

    Between the same two points there cannot be two voltages.

    Attributes:
        others: the other batteries of the loop.
    """

    slug: ClassVar[str] = "sources-contradict"
    wrong: ClassVar[str] = "circuit: (battery (12 V) | battery (9 V)), R_1"
    right: ClassVar[str] = "circuit: (battery (12 V, 0.5 Ω) | battery (9 V, 0.5 Ω)), R_1"

    others: tuple[str, ...] = ()

    def sentence(self) -> str:
        with_others = f"{' and '.join(self.others)} and this one" if self.others else "batteries"
        return f"{with_others} contradict each other: nothing with a resistance lies between them"

    def mend(self) -> str:
        return "give the batteries internal resistances, or put a resistor between them"


@dataclass(eq=False, repr=False)
class VoltmeterUnplaced(Problem):
    """A voltmeter stands across nothing.

    It measures between two points: `R_1 with V_1`, `[R_1, R_2] with V_1`, `battery (ε, r) with V_1`; or it is a
    branch of its own: `(R_1 | V_1)`.

    Attributes:
        name: the voltmeter.
    """

    slug: ClassVar[str] = "voltmeter-unplaced"
    wrong: ClassVar[str] = "circuit: battery (12 V), wire with V_1, R_1"
    right: ClassVar[str] = "circuit: battery (12 V), R_1 with V_1"

    name: str

    def sentence(self) -> str:
        return f"the voltmeter {self.name} stands across nothing"

    def mend(self) -> str:
        return 'write it behind what it is connected across: "R_1 with V_1"'


@dataclass(eq=False, repr=False)
class CircuitDisagrees(Problem):
    """A value that is given differs from the one that the circuit leads to.

    A reading that is given (`I: 0.86 A`) must agree with the values of the battery and the resistors, to the digits
    with which it is given. Where a value of a part is missing, the reading is used to find it.

    Attributes:
        name: the quantity.
        found: its value in this circuit, as printed.
        given: the value that is given, as printed.
        where: where that stands.
    """

    slug: ClassVar[str] = "circuit-disagrees"
    wrong: ClassVar[str] = "given:\n  I: 2.5 A\ncircuit: battery (12 V), R_1"
    right: ClassVar[str] = "given:\n  I: 3.0 A\ncircuit: battery (12 V), R_1"

    name: str
    found: str
    given: str
    where: str

    def sentence(self) -> str:
        return f"{self.name} is {self.found} in this circuit, but {self.given} is given ({self.where})"

    def mend(self) -> str:
        return f"correct a value; if {self.name} means something else there, give it another name under names"


@dataclass(eq=False, repr=False)
class CircuitLayoutMissing(Problem):
    """A circuit that is given as branches between nodes cannot be laid out.

    Branches that can be put together in series and in parallel are laid out by themselves, and so is a bridge. Any
    other circuit needs the places of its nodes, in steps of a grid: `at:` with `A: 0, 0` below it. Branches are
    drawn straight from node to node, and may not cross; a node between two branches makes a corner.

    Attributes:
        what: what is wrong.
        how: how to mend it.
    """

    slug: ClassVar[str] = "circuit-layout-missing"
    wrong: ClassVar[str] = "at:\n  A: 0, 0\n  B: 0, 0"
    right: ClassVar[str] = "at:\n  A: 0, 0\n  B: 2, 0\n  C: 2, 1\n  D: 0, 1"

    what: str
    how: str

    def sentence(self) -> str:
        return self.what

    def mend(self) -> str:
        return self.how
