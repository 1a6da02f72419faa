"""Problems of reading a formula, a quantity or a phrase."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import ClassVar

from .base import Problem


@dataclass(eq=False, repr=False)
class FormulaUnreadable(Problem):
    """A formula does not follow the grammar; the caret stands where reading stopped."""

    slug: ClassVar[str] = "formula-unreadable"
    wrong: ClassVar[str] = "formula: F = m (a"
    right: ClassVar[str] = "formula: F = m (a)"

    what: str
    hint: str = ""

    def sentence(self) -> str:
        return self.what

    def mend(self) -> str:
        return self.hint


@dataclass(eq=False, repr=False)
class DivisionAmbiguous(Problem):
    """After a solidus two or more factors follow, and readers differ on what is divided.

    On paper `h / 2 π` may be h/(2π) or (h/2)π. The tool does not guess: write brackets.
    """

    slug: ClassVar[str] = "division-ambiguous"
    wrong: ClassVar[str] = "formula: p = h / 2 λ"
    right: ClassVar[str] = "formula: p = h / (2 λ)"

    typed: str
    first: str
    second: str

    def sentence(self) -> str:
        return f'"{self.typed}" can be read in two ways'

    def mend(self) -> str:
        return f"write {self.first} or {self.second}"


@dataclass(eq=False, repr=False)
class AngleUnitMissing(Problem):
    """A bare number in sin, cos or tan: say whether it is in degrees or in radians."""

    slug: ClassVar[str] = "angle-unit-missing"
    wrong: ClassVar[str] = "formula: F_x = F cos 30"
    right: ClassVar[str] = "formula: F_x = F cos 30°"

    function: str
    typed: str
    name: str = ""

    def sentence(self) -> str:
        if self.name:
            return f"{self.name} is an angle, and {self.typed} has no unit: degrees or radians?"
        return f"{self.function} of {self.typed}: degrees or radians?"

    def mend(self) -> str:
        if self.name:
            return f"give {self.name} {self.typed}° or {self.typed} rad"
        return (
            f"write {self.function}({self.typed}°) or {self.function}({self.typed} rad), or "
            f"where a name stands for it give the name {self.typed}° or {self.typed} rad"
        )


@dataclass(eq=False, repr=False)
class QuantityUnreadable(Problem):
    """A value could not be read as a number with a unit, a name or an expression."""

    slug: ClassVar[str] = "quantity-unreadable"
    wrong: ClassVar[str] = "m: about 3 kg"
    right: ClassVar[str] = "m: 3 kg"

    typed: str
    hint: str = "write a number and its unit, as in 640 kg, or a name, or an expression such as 2*r"

    def sentence(self) -> str:
        return f'"{self.typed}" is not a quantity'

    def mend(self) -> str:
        return self.hint


@dataclass(eq=False, repr=False)
class UnitInExpression(Problem):
    """A unit stands inside an expression, where only numbers and names can stand.

    In a datum such as `30 * 2.5 h` the letter would be taken for a name. A datum is either one quantity, `75 h`, or
    an expression of names, `n*t`, whose quantities stand in lines of their own.
    """

    slug: ClassVar[str] = "unit-in-expression"
    wrong: ClassVar[str] = "m_2: 6.0 kg - m_1"
    right: ClassVar[str] = "m: 6.0 kg\nm_2: m - m_1"

    quantity: str

    def sentence(self) -> str:
        return f'"{self.quantity}" has a unit, and in an expression only numbers and names can stand'

    def mend(self) -> str:
        return f"work out the number, or give {self.quantity} a name in a line of its own"


@dataclass(eq=False, repr=False)
class PhraseUnreadable(Problem):
    """A key's text (find, use, take, axis, accept, marks …) does not have the form that the key takes."""

    slug: ClassVar[str] = "phrase-unreadable"
    wrong: ClassVar[str] = "find: T as N"
    right: ClassVar[str] = "find: T in N to 2 dp"

    key: str
    typed: str
    form: str

    def sentence(self) -> str:
        return f'"{self.typed}" can not be read after {self.key}'

    def mend(self) -> str:
        return f"write {self.form}"


@dataclass(eq=False, repr=False)
class NameUnreadable(Problem):
    """A name of a quantity is letters (Greek by name too), one subscript, a Δ in front, primes behind."""

    slug: ClassVar[str] = "name-unreadable"
    wrong: ClassVar[str] = "2m: 3 kg"
    right: ClassVar[str] = "m_2: 3 kg"

    typed: str

    def sentence(self) -> str:
        return f'"{self.typed}" is not a name of a quantity'

    def mend(self) -> str:
        if self.typed.count("{") > self.typed.count("}"):
            # Markdown ends the attributes at the name's own brace.
            return f'in the text put a name that holds braces in quotes: of="{self.typed}}}"'
        if any(quote in self.typed for quote in "“”‘’„"):
            return 'type straight quotes, as in of="F_net", or none'
        if below := re.fullmatch(r"([A-Za-z]+)(\d+)", self.typed):
            return f'a subscript stands behind a low line: write "{below[1]}_{below[2]}"'
        if bracketed := re.fullmatch(r"(\w+?)_(\w+\(\w+\))", self.typed):
            return f"a subscript with brackets stands in braces: {bracketed[1]}_{{{bracketed[2]}}}"
        words = self.typed.split()
        if len(words) == 2 and all(word.isalpha() for word in words):
            return f'a name holds no blank: write "{words[0]}_{words[1]}"'
        return "a name is letters with at most one subscript, such as m, F_net, E_{k(max)}, Δx, θ_1"


@dataclass(eq=False, repr=False)
class HeadingUnreadable(Problem):
    """A direction in a plane, after `at`, is an angle from +x, a bearing, or an angle from one axis towards another."""

    slug: ClassVar[str] = "heading-unreadable"
    wrong: ClassVar[str] = "F: 12 N at 30"
    right: ClassVar[str] = "F: 12 N at 30°"

    typed: str
    hint: str = "write at 30°, at bearing 120°, at 20° north of east, at 30° below left, or at north-east"

    def sentence(self) -> str:
        return f'"{self.typed}" is not a direction in a plane'

    def mend(self) -> str:
        return self.hint


@dataclass(eq=False, repr=False)
class UncertaintyUnfit(Problem):
    """The uncertainty after ± is in a unit that measures something else than the value."""

    slug: ClassVar[str] = "uncertainty-unfit"
    wrong: ClassVar[str] = "L: 0.200 m ± 0.005 kg"
    right: ClassVar[str] = "L: 0.200 ± 0.005 m"

    unit: str
    expected: str

    def sentence(self) -> str:
        return f"the uncertainty is in {self.unit or 'no unit'}, the value in {self.expected or 'no unit'}"

    def mend(self) -> str:
        return f"write 0.200 ± 0.005 {self.expected}, or a percentage: ± 2 %".rstrip()


@dataclass(eq=False, repr=False)
class UncertaintyTooLarge(Problem):
    """The uncertainty is more than ten times the value itself: a unit or a digit is likely wrong."""

    slug: ClassVar[str] = "uncertainty-too-large"
    wrong: ClassVar[str] = "L: 0.200 ± 5 m"
    right: ClassVar[str] = "L: 0.200 ± 0.005 m"

    name: str
    share: str

    def sentence(self) -> str:
        return f"the uncertainty of {self.name} is {self.share} of its value"

    def mend(self) -> str:
        return "check the digits and the unit of the uncertainty"


@dataclass(eq=False, repr=False)
class PointUnknown(Problem):
    """A direction leads between points, and one of them is not among those of the setting `points`."""

    slug: ClassVar[str] = "point-unknown"
    wrong: ClassVar[str] = "points: A: 0 m, 0 m; B: 3 m, 0 m"
    right: ClassVar[str] = "points: A: 0 m, 0 m; P: 3 m, 4 m"

    point: str
    known: tuple[str, ...] = ()

    def sentence(self) -> str:
        return f'there is no point "{self.point}" here'

    def mend(self) -> str:
        if not self.known:
            return f"say where it is with points, for example points: {self.point}: 0 m, 3 m"
        return f"the points are {', '.join(self.known)}; add it to points, or correct the letter"
