"""Problems of names, dimensions and data, found before any number is put in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Level, Problem, nearest
from .runs import product_or_function, run_with


@dataclass(eq=False, repr=False)
class NameWithoutValue(Problem):
    """A name in a formula has no value.

    No given in this block or in a question around it, no earlier result in the same question, and no constant
    of the sheet has it.

    A result of another question is taken with `from`: `F: T from lift-tension`.
    """

    slug: ClassVar[str] = "name-without-value"
    wrong: ClassVar[str] = "formula: F = M a"
    right: ClassVar[str] = "formula: F = m a"

    name: str
    known: tuple[str, ...] = ()
    split: str = ""
    elsewhere: str = ""
    exponential: bool = False
    unit: bool = False

    def sentence(self) -> str:
        return f"{self.name} has no value here"

    def mend(self) -> str:
        if self.unit:
            return "formulas hold no units: give the quantity a name, and its unit under given"
        if self.split:
            return f'for {product_or_function(self.split)} write "{self.split}"'
        if self.exponential:
            return "for the exponential write exp(…)"
        if self.elsewhere:
            return f'another question finds it: give "{self.name}: from {self.elsewhere}"'
        if self.name in ("max", "min"):
            return f"a subscript with brackets stands in braces: E_{{k({self.name})}}"
        if self.name in ("x", "X"):
            return f"for times write * or ·; else give {self.name} a value under given"
        close = nearest(self.name, self.known)
        if close:
            return f"is {close} meant? Else give {self.name} a value under given"
        return f"give {self.name} a value under given, or put it under find"


def _of_sheet(constant: str) -> str:
    """What to say of a constant of the sheet that may not be meant."""
    if not constant:
        return ""
    name = constant.split(" ", 1)[0]
    return f"; {constant} is the sheet's here, so give {name} a value if another {name} is meant"


@dataclass(eq=False, repr=False)
class DimensionsDiffer(Problem):
    """Two sides of a formula, or two terms of a sum, differ in dimension: no numbers make them equal.

    Each currency is a dimension of its own: rand and euro are not added.

    Attributes:
        relation: what was tried with the two: "added", "equal", …
        first, second: the two, as printed.
        first_unit, second_unit: the SI units of what they measure.
        constant: a constant of the sheet that may be at fault; empty for none.
        currencies: whether both are the same but for the currency that they are counted in.
    """

    slug: ClassVar[str] = "dimensions-differ"
    wrong: ClassVar[str] = "formula: T - m g = m"
    right: ClassVar[str] = "formula: T - m g = m a"

    relation: str
    first: str
    first_unit: str
    second: str
    second_unit: str
    constant: str = ""
    currencies: bool = False

    def sentence(self) -> str:
        return (
            f"{self.first} and {self.second} can not be {self.relation}: "
            f"{self.first_unit or 'a plain number'} and {self.second_unit or 'a plain number'}"
        )

    def mend(self) -> str:
        if self.currencies:
            return (
                "count all in one currency; what another one costs is a datum of its own, such as R18.20/USD"
            )
        return "look for a missing factor or power, or a datum with the wrong unit" + _of_sheet(self.constant)


@dataclass(eq=False, repr=False)
class PlainNumberNeeded(Problem):
    """An exponent, or what stands in exp, ln or sin, has a unit; only a plain number (or an angle) fits."""

    slug: ClassVar[str] = "plain-number-needed"
    wrong: ClassVar[str] = "formula: N = N_0 exp(-t)"
    right: ClassVar[str] = "formula: N = N_0 exp(-λ t)"

    where: str
    typed: str
    unit: str

    def sentence(self) -> str:
        return (
            f"{self.typed} stands in {self.where} and is in {self.unit}; only a plain number can stand there"
        )

    def mend(self) -> str:
        return "look for a missing factor that takes the unit away, such as λ in exp(-λ t)"


@dataclass(eq=False, repr=False)
class UnitDimensionWrong(Problem):
    """A unit measures something else than the quantity it is written for."""

    slug: ClassVar[str] = "unit-dimension-wrong"
    wrong: ClassVar[str] = "find: T in kg"
    right: ClassVar[str] = "find: T in N"

    name: str
    unit: str
    expected: str
    constant: str = ""

    def sentence(self) -> str:
        if not self.unit:
            return f"{self.name} is measured in {self.expected or 'no unit'}, and no unit stands here"
        return f"{self.name} is measured in {self.expected or 'no unit'}, not in {self.unit}"

    def mend(self) -> str:
        other = f"; if {self.unit} is right, look for a slip in the formula or the data" if self.unit else ""
        if not self.expected:
            return f"leave the unit out{other}"
        if (self.unit, self.expected) == ("C", "K"):
            return "write °C for degrees Celsius; C is the coulomb"
        return f"write {self.expected}, or another unit of that kind{other}{_of_sheet(self.constant)}"


@dataclass(eq=False, repr=False)
class NameGivenTwice(Problem):
    """The same name is given twice with two values; a reader can not tell which holds."""

    slug: ClassVar[str] = "name-given-twice"
    wrong: ClassVar[str] = "```{.given}\nm: 3 kg\n```\n\n```{.given}\nm: 4 kg\n```"
    right: ClassVar[str] = "```{.given}\nm_1: 3 kg\n```\n\n```{.given}\nm_2: 4 kg\n```"

    name: str
    first: str
    second: str

    def sentence(self) -> str:
        return f"{self.name} is given twice: {self.first} and {self.second}"

    def mend(self) -> str:
        return "keep one, or tell them apart with a subscript"


@dataclass(eq=False, repr=False)
class GivenCycle(Problem):
    """Data that are given in terms of each other, in a circle."""

    slug: ClassVar[str] = "given-cycle"
    wrong: ClassVar[str] = "r: d/2\nd: 2*r"
    right: ClassVar[str] = "d: 6 cm\nr: d/2"

    names: tuple[str, ...]

    def sentence(self) -> str:
        return f"{', '.join(self.names)} are given in terms of each other"

    def mend(self) -> str:
        return "give one of them a number"


@dataclass(eq=False, repr=False)
class ReferenceUnknown(Problem):
    """`from` names a question or block that does not exist, comes later, or does not find that quantity."""

    slug: ClassVar[str] = "reference-unknown"
    wrong: ClassVar[str] = "F: T from lift-tenson"
    right: ClassVar[str] = "F: T from lift-tension"

    target: str
    name: str = ""
    known: tuple[str, ...] = ()

    def sentence(self) -> str:
        if self.name:
            return f"{self.target} does not find {self.name}"
        return f'nothing before this has the id "{self.target}"'

    def mend(self) -> str:
        if self.name:
            return f"it finds {', '.join(self.known) or 'nothing'}"
        close = nearest(self.target, self.known)
        return f"is {close} meant?" if close else f'give the question that finds it the id "{self.target}"'


@dataclass(eq=False, repr=False)
class DirectionUnknown(Problem):
    """A direction that the axis in force does not have, or a direction where no axis is in force."""

    slug: ClassVar[str] = "direction-unknown"
    wrong: ClassVar[str] = "v: 4 m/s, up"
    right: ClassVar[str] = "v: 4 m/s, left"

    direction: str
    positive: str = ""
    negative: str = ""

    def sentence(self) -> str:
        if not self.positive:
            return f'"{self.direction}" is a direction, and no axis is in force here'
        return f'"{self.direction}" is not a direction of the axis'

    def mend(self) -> str:
        if ":" in self.direction:
            return "write each datum on a line of its own"
        if not self.positive:
            return (
                f"say which direction is positive, for example axis: {self.direction} is positive; "
                "or, in a plane, type it as in 12 N at 30°"
            )
        return f"the axis has {self.positive} (positive) and {self.negative} (negative)"


@dataclass(eq=False, repr=False)
class BeyondSense(Problem):
    """A value is outside what the sheet says the quantity can be: a negative mass, an efficiency above 1."""

    slug: ClassVar[str] = "beyond-sense"
    wrong: ClassVar[str] = "m: -3 kg"
    right: ClassVar[str] = "m: 3 kg"

    name: str
    printed: str
    title: str
    limit: str

    def sentence(self) -> str:
        return f"{self.name} is {self.printed}, and {self.title} is {self.limit}"

    def mend(self) -> str:
        return "check the data and the signs"


@dataclass(eq=False, repr=False)
class NameHidden(Problem):
    """A nearer value hides another of the same name. That is allowed; it is said so that it is not a slip."""

    slug: ClassVar[str] = "name-hidden"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "m: 4 kg"
    right: ClassVar[str] = "m: 3 kg"

    name: str
    near: str
    far: str
    far_where: str

    def sentence(self) -> str:
        return f"{self.name} is {self.near} here and hides {self.far} ({self.far_where})"


@dataclass(eq=False, repr=False)
class NothingToFind(Problem):
    """A calculation does not say what is found, or with what formula."""

    slug: ClassVar[str] = "nothing-to-find"
    wrong: ClassVar[str] = "formula: F = m a"
    right: ClassVar[str] = "formula: F = m a\nfind: F in N"

    missing: str

    def sentence(self) -> str:
        return f"this calculation has no {self.missing}"

    def mend(self) -> str:
        return {
            "find": "say what is asked: find: F in N",
            "formula": "write formula: F = m a, or take one of the sheet: use: newton-2",
        }.get(self.missing, "")


@dataclass(eq=False, repr=False)
class SignNotChosen(Problem):
    """The sheet's formula holds ± or ∓, and the calculation does not say which sign is meant."""

    slug: ClassVar[str] = "sign-not-chosen"
    wrong: ClassVar[str] = "use: doppler"
    right: ClassVar[str] = "use: doppler\nformula: f_L = f_s (v + v_L) / (v - v_s)"

    formula: str

    def sentence(self) -> str:
        return f"the sheet's formula {self.formula} leaves a sign open"

    def mend(self) -> str:
        return "write the instance with its signs under formula"


@dataclass(eq=False, repr=False)
class AngleNotNumber(Problem):
    """A bare number beside an angle in degrees, as in `180 - α - β` or `(θ / 360) 2 π r`.

    An angle goes into a formula as an angle, whatever its unit, so the number must say that it is one: 180°.
    """

    slug: ClassVar[str] = "angle-not-number"
    wrong: ClassVar[str] = "formula: γ = 180 - α - β"
    right: ClassVar[str] = "formula: γ = 180° - α - β"

    name: str
    typed: str

    def sentence(self) -> str:
        return f"{self.typed} is a plain number, and {self.name} beside it is an angle in degrees"

    def mend(self) -> str:
        return f"write {self.typed}°; or leave out what turns degrees into radians: {self.name} is an angle already"


@dataclass(eq=False, repr=False)
class TurnsCounted(Problem):
    """`rev` or `rev/min` where a number of turns or a frequency is meant.

    `rev` is an angle, 2 π rad, and `rev/min` an angular velocity: in `v = 2 π r f` the 2 π would count twice. They fit
    names such as θ and ω, which formulas do not multiply by π.
    """

    slug: ClassVar[str] = "turns-counted"
    wrong: ClassVar[str] = "f: 33 rev/min"
    right: ClassVar[str] = "f: 33 min^-1"

    name: str
    unit: str
    angle: bool

    def sentence(self) -> str:
        kind = (
            "an angle of 2 π rad for each turn"
            if self.angle
            else "an angular velocity, 2 π rad for each turn"
        )
        what = "a number of turns" if self.angle else "a frequency"
        return f"{self.unit} is {kind}, and {self.name} stands for {what} here"

    def mend(self) -> str:
        if self.angle:
            return "write the number of turns without a unit; an angle is called θ or Δθ"
        return "write min^-1, s^-1 or Hz for a frequency; an angular velocity is called ω, in v = ω r and its like"


@dataclass(eq=False, repr=False)
class FormsSeveral(Problem):
    """The sheet's formula has a short and a long form, and the data around the calculation fit both.

    With a third resistor in the question, `use: resistors-parallel` may mean two of them or all three. What the
    calculation's own `given` holds is meant to be used: then the form with it is taken.
    """

    slug: ClassVar[str] = "forms-several"
    wrong: ClassVar[str] = "use: resistors-parallel"
    right: ClassVar[str] = "formula: 1/R_p = 1/R_1 + 1/R_2"

    short: str
    long: str
    more: tuple[str, ...]

    def sentence(self) -> str:
        have = "has a value" if len(self.more) == 1 else "have values"
        return f"{self.short} and {self.long} both fit: {' and '.join(self.more)} {have} here too"

    def mend(self) -> str:
        return "write the one that is meant under formula"


@dataclass(eq=False, repr=False)
class ExponentialUnclear(Problem):
    """`e^(…)` where e stands for a quantity with a unit, such as the sheet's elementary charge.

    Where no e is in scope, `e^(…)` is the exponential function.
    """

    slug: ClassVar[str] = "exponential-unclear"
    wrong: ClassVar[str] = "formula: N = N_0 e^(-λ t)"
    right: ClassVar[str] = "formula: N = N_0 exp(-λ t)"

    typed: str
    value: str

    def sentence(self) -> str:
        return f"in {self.typed} the name e stands for {self.value}"

    def mend(self) -> str:
        return "for the exponential write exp(…)"


@dataclass(eq=False, repr=False)
class NameNotInFormula(Problem):
    """What is found, or what `use` replaces, does not occur in the formula."""

    slug: ClassVar[str] = "name-not-in-formula"
    wrong: ClassVar[str] = "find: v"
    right: ClassVar[str] = "find: a"

    name: str
    formula: str
    names: tuple[str, ...] = ()

    def sentence(self) -> str:
        return f"{self.name} does not stand in {self.formula}"

    def mend(self) -> str:
        if {"max", "min"}.intersection(self.names):
            return "in the formula a subscript with brackets stands in braces: E_{k(max)}"
        if run := run_with(self.name, self.names):
            return f'{run} is one name: for a product write "{" ".join(run)}"'
        if close := nearest(self.name, self.names):
            return f"is {close} meant?"
        return f"its names are {', '.join(self.names)}" if self.names else "look for a slip in the name"


@dataclass(eq=False, repr=False)
class AxisMissing(Problem):
    """An answer is asked with its direction, but nothing says which directions there are."""

    slug: ClassVar[str] = "axis-missing"
    wrong: ClassVar[str] = "find: v_f in m/s with direction"
    right: ClassVar[str] = "axis: right is positive\nfind: v_f in m/s with direction"

    name: str

    def sentence(self) -> str:
        return f"{self.name} is asked with its direction, and no axis is in force"

    def mend(self) -> str:
        return "say which is positive (axis: right is positive), or type the answer with the direction you reasoned"
