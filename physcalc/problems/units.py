"""Problems in the text of a unit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Problem

_DIRECTIONS = frozenset(
    [
        *("up", "upward", "upwards", "down", "downward", "downwards", "left", "right"),
        *("north", "south", "east", "west", "forward", "forwards", "backward", "backwards"),
        *(
            "northwards",
            "southwards",
            "eastwards",
            "westwards",
            "clockwise",
            "anticlockwise",
            "inwards",
            "outwards",
        ),
    ]
)
#: Words with which a direction of several words begins, and such a direction.
_BEGINNINGS = {
    "to": "to the left",
    "towards": "towards the wall",
    "away": "away from the wall",
    "out": "out of the page",
}
_ARC = frozenset(["arcmin", "arcminute", "arcminutes", "arcsec", "arcsecond", "arcseconds"])
#: How parts of a degree are written.
PARTS_OF_A_DEGREE = "write minutes of arc as a part of a degree: 31/60 ° for 31′, and 30.25° for 30° 15′"


@dataclass(eq=False, repr=False)
class UnitUnknown(Problem):
    """A word stands where a unit should, and no unit is called that.

    Units are written with their symbols: `s`, not `sec`; `N·m`, not `Nm`; `kg`, not `Kg`. Capital and small
    letters differ (`mW` is a milliwatt, `MW` a megawatt). Words that count things (turns, photons, lines) are
    no units: leave them out.

    Attributes:
        word: the word as typed.
        nearest: the unit that was most likely meant, as it should be written; None where nothing is close.
    """

    slug: ClassVar[str] = "unit-unknown"
    wrong: ClassVar[str] = "W: 12 Nm"
    right: ClassVar[str] = "W: 12 N·m"

    word: str
    nearest: str | None = None

    def sentence(self) -> str:
        return f'there is no unit "{self.word}"'

    def mend(self) -> str:
        if self.word.lower() in _DIRECTIONS:
            return f"a direction stands behind a comma: 3 m/s, {self.word.lower()}"
        if self.word in _BEGINNINGS:
            return f"a direction stands behind a comma: 3 m/s, {_BEGINNINGS[self.word]}"
        if self.word.lower() in _ARC:
            return PARTS_OF_A_DEGREE
        if self.word == "of":
            return "for a share of a quantity write a product, as in 0.25*F"
        if self.nearest is None:
            return "write the unit's symbol (m, s, N·C⁻¹); leave out words that count things"
        return f'if it is what was meant, write "{self.nearest}"'


@dataclass(eq=False, repr=False)
class UnitAmbiguous(Problem):
    """A unit can be read in two ways.

    `ms-1` is a metre per second to one reader and one per millisecond to another. `J/kg K` may divide by the
    kelvin or multiply by it, and so may `J/kg/K`. Put a dot or a space between factors, and brackets round
    everything below a solidus: `m·s⁻¹`, `J/(kg·K)`.

    Attributes:
        text: the part of the unit that is not clear, as typed.
        readings: the readings, each as it should be written to be clear.
    """

    slug: ClassVar[str] = "unit-ambiguous"
    wrong: ClassVar[str] = "v: 3 ms-1"
    right: ClassVar[str] = "v: 3 m·s⁻¹"

    text: str
    readings: tuple[str, str]

    def sentence(self) -> str:
        first, second = self.readings
        return f'the unit "{self.text}" can be read as {first} or as {second}'

    def mend(self) -> str:
        first, second = self.readings
        return f'write "{first}" or "{second}"'


@dataclass(eq=False, repr=False)
class PercentTwice(Problem):
    """A formula multiplies by 100, and what it gives is asked in per cent, which multiplies by 100 again.

    `%` is a hundredth, as any other unit is: `η = W_out / W_in` gives 0.65, and `find: η in %` prints 65 %.
    """

    slug: ClassVar[str] = "percent-twice"
    wrong: ClassVar[str] = "formula: η = (W_out / W_in) × 100\nfind: η in %"
    right: ClassVar[str] = "formula: η = W_out / W_in\nfind: η in %"

    name: str

    def sentence(self) -> str:
        return f"{self.name} is multiplied by 100 in the formula, and by 100 again where it is asked in %"

    def mend(self) -> str:
        return f"leave the 100 out, or find {self.name} without a unit"


@dataclass(eq=False, repr=False)
class UnitUnreadable(Problem):
    """A unit's text is not built as a unit.

    A unit is made of symbols with powers, multiplied by a space or a dot and divided by one solidus:
    `kg·m·s⁻²`, `N C^-1`, `W/(m²·K)`. Powers are whole numbers, at most 12, written `^2`, `²`, `^-1` or `⁻¹`.

    Attributes:
        text: the characters that cannot be read.
        reason: what is wrong with them, as the rest of a sentence that begins with them.
        advice: what to write; may be empty.
    """

    slug: ClassVar[str] = "unit-unreadable"
    wrong: ClassVar[str] = "a: 3 m/s^"
    right: ClassVar[str] = "a: 3 m/s^2"

    text: str
    reason: str
    advice: str = ""

    def sentence(self) -> str:
        return f'"{self.text}" {self.reason}' if self.text else f"the unit {self.reason}"

    def mend(self) -> str:
        return self.advice
