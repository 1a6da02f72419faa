"""Problems of reading a number."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..limits import allow
from .base import Problem


@dataclass(eq=False, repr=False)
class NumberAmbiguous(Problem):
    """A number can be read in two ways, a thousand times apart.

    One comma or point with exactly three digits behind it, as in "1,000", is a group of thousands to one
    reader and a decimal sign to another. Where it is not the document's own decimal sign, nothing tells which
    was meant, so the number is not guessed at. A space sets thousands apart without any doubt.

    Attributes:
        typed: the number as it stands.
        whole: the reading as a whole number.
        parted: the reading with three decimals, with the document's decimal sign.
    """

    slug: ClassVar[str] = "number-ambiguous"
    wrong: ClassVar[str] = "m: 1,000 kg"
    right: ClassVar[str] = "m: 1000 kg"

    typed: str
    whole: str
    parted: str

    def sentence(self) -> str:
        """What is wrong, in one line."""
        return f'"{self.typed}" can be read as {self.whole} and as {self.parted}'

    def mend(self) -> str:
        """What to do about it, in one line."""
        return f'write "{self.whole}" or "{self.parted}"'


@dataclass(eq=False, repr=False)
class NumberTooLong(Problem):
    """A number has more digits, or a larger power of ten, than any measurement.

    Numbers are kept exactly, so that a slip of the keyboard such as 1e99999 would ask for a hundred thousand
    digits. Up to a hundred digits and powers of ten up to 400 either way are read.

    Attributes:
        typed: the number as it stands.
        digits: how many digits are read at most.
        exponent: the largest power of ten that is read.
        name: the limit that it goes beyond: "digits" or "exponent".
    """

    slug: ClassVar[str] = "number-too-long"
    wrong: ClassVar[str] = "m: 1e-3100 kg"
    right: ClassVar[str] = "m: 1e-31 kg"

    typed: str
    digits: int
    exponent: int
    name: str = "digits"

    def sentence(self) -> str:
        """What is wrong, in one line."""
        shown = self.typed if len(self.typed) <= 24 else self.typed[:20] + "…"
        if self.name == "exponent":
            return f'"{shown}" has a power of ten beyond ±{self.exponent}'
        return f'"{shown}" has more than {self.digits} digits'

    def mend(self) -> str:
        """What to do about it, in one line."""
        if self.name == "exponent":
            return "look for a digit too many in the power of ten" + allow(self.name)
        return "look for a digit too many, or leave out digits that no measurement gives" + allow(self.name)
