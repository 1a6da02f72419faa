"""Problems of solving, of choosing a root, of marks and of typed answers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from .base import Level, Problem


@dataclass(eq=False, repr=False)
class FormulasTooFew(Problem):
    """There are more unknowns than formulas, so some of them can take any value."""

    slug: ClassVar[str] = "formulas-too-few"
    wrong: ClassVar[str] = "formula: T - m g = m a"
    right: ClassVar[str] = "formula:\n  - T - m g = m a\n  - a = g / 4"

    unknowns: tuple[str, ...]
    formulas: int

    def sentence(self) -> str:
        formulas = "1 formula is" if self.formulas == 1 else f"{self.formulas} formulas are"
        *most, last = self.unknowns
        if not most or len(self.unknowns) <= self.formulas:
            return f"the formulas leave {' and '.join(self.unknowns)} open: any value fits"
        return f"{formulas} too few for {len(self.unknowns)} unknowns: {', '.join(most)} and {last}"

    def mend(self) -> str:
        return "give a value to one of them under given, or add a formula"


@dataclass(eq=False, repr=False)
class FormulasContradict(Problem):
    """The formulas can not all hold with these data."""

    slug: ClassVar[str] = "formulas-contradict"
    wrong: ClassVar[str] = "  - F = m a\n  - F = 2 m a"
    right: ClassVar[str] = "  - F = m a"

    why: str

    def sentence(self) -> str:
        return self.why

    def mend(self) -> str:
        return (
            "with these data they cannot all hold: take out the formula that is too many, or check the data"
        )


@dataclass(eq=False, repr=False)
class NoRealRoot(Problem):
    """No real value satisfies the formula with these data."""

    slug: ClassVar[str] = "no-real-root"
    wrong: ClassVar[str] = "Δx: 9 m"
    right: ClassVar[str] = "Δx: 2 m"

    name: str
    formula: str
    why: str
    data: tuple[str, ...] = ()

    def sentence(self) -> str:
        return f"no real {self.name} satisfies {self.formula}: {self.why}"

    def mend(self) -> str:
        return "check the data and their signs: with these the formula has no answer"

    def because(self) -> tuple[str, ...]:
        return self.data


@dataclass(eq=False, repr=False)
class DividesByZero(Problem):
    """With these data the formula divides by zero."""

    slug: ClassVar[str] = "divides-by-zero"
    wrong: ClassVar[str] = "Δt: 0 s"
    right: ClassVar[str] = "Δt: 2 s"

    formula: str
    data: tuple[str, ...] = ()

    def sentence(self) -> str:
        return f"{self.formula} divides by zero with these data"

    def mend(self) -> str:
        return "look for a value that is zero, or a difference that comes to zero, below the fraction line"

    def because(self) -> tuple[str, ...]:
        return self.data


@dataclass(eq=False, repr=False)
class NumberBeyondSense(Problem):
    """A number on the way is too large or too small for any physics."""

    slug: ClassVar[str] = "number-beyond-sense"
    wrong: ClassVar[str] = "formula: x = n^n^n"
    right: ClassVar[str] = "formula: x = n^n"

    why: str

    def sentence(self) -> str:
        return self.why

    def mend(self) -> str:
        return "look for a slip in a power or in a power of ten"


@dataclass(eq=False, repr=False)
class RootsSeveral(Problem):
    """More than one root is left after the sheet's limits of sense; the author has to say which is meant."""

    slug: ClassVar[str] = "roots-several"
    wrong: ClassVar[str] = "find: t in s"
    right: ClassVar[str] = "find: t in s\ntake: largest"

    name: str
    roots: tuple[str, ...]

    def sentence(self) -> str:
        return f"{self.name} can be {' or '.join(self.roots)}"

    def mend(self) -> str:
        return "say which with take: positive, negative, largest, smallest, or a comparison such as t > 2 s"


@dataclass(eq=False, repr=False)
class RootsExcluded(Problem):
    """Every root is ruled out by what the sheet knows or by `take`."""

    slug: ClassVar[str] = "roots-excluded"
    wrong: ClassVar[str] = "take: negative"
    right: ClassVar[str] = "take: positive"

    name: str
    roots: tuple[str, ...]
    reason: str

    def sentence(self) -> str:
        return f"{self.name} can only be {' or '.join(self.roots)}, and {self.reason}"

    def mend(self) -> str:
        return "change take, or check the data and their signs"


@dataclass(eq=False, repr=False)
class AnswerDisagrees(Problem):
    """A typed answer is not what the data lead to.

    Attributes:
        name: the quantity.
        computed: its value as it is printed.
        typed: what the document says, in the same style.
        reasons: where the computed value comes from.
        hint: how to mend it; empty where the sentence says enough.
        replacement: what `physcalc fix` writes over the place, in the author's own style; empty where it
            leaves the place alone.
    """

    slug: ClassVar[str] = "answer-disagrees"
    wrong: ClassVar[str] = "answer: 6725 N"
    right: ClassVar[str] = "answer: 6752 N"

    name: str
    computed: str
    typed: str
    reasons: tuple[str, ...] = ()
    hint: str = ""
    replacement: str = ""

    def sentence(self) -> str:
        return f"{self.name} is {self.computed}, the document says {self.typed}"

    def mend(self) -> str:
        return self.hint

    def because(self) -> tuple[str, ...]:
        return self.reasons


@dataclass(eq=False, repr=False)
class DatumDisagrees(AnswerDisagrees):
    """A typed datum is not the given value. A datum must equal it exactly, after conversion of units."""

    slug: ClassVar[str] = "datum-disagrees"
    wrong: ClassVar[str] = "[0,57 m·s⁻²]{.value of=a}"
    right: ClassVar[str] = "[0,75 m·s⁻²]{.value of=a}"


@dataclass(eq=False, repr=False)
class ShowDisagrees(AnswerDisagrees):
    """The value that a "show that" states is not what the computed one rounds to."""

    slug: ClassVar[str] = "show-disagrees"
    wrong: ClassVar[str] = "show: 6.7 kN"
    right: ClassVar[str] = "show: 6.8 kN"


@dataclass(eq=False, repr=False)
class DirectionDisagrees(AnswerDisagrees):
    """A typed direction is the wrong one."""

    slug: ClassVar[str] = "direction-disagrees"
    wrong: ClassVar[str] = "answer: 4.00 m/s, right"
    right: ClassVar[str] = "answer: 4.00 m/s, left"


@dataclass(eq=False, repr=False)
class AnswerCoarse(Problem):
    """A typed answer has fewer digits than asked. It agrees as far as it goes."""

    slug: ClassVar[str] = "answer-coarse"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "answer: 7.3 N"
    right: ClassVar[str] = "answer: 7.26 N"

    name: str
    computed: str
    typed: str

    def sentence(self) -> str:
        return f"{self.name} is {self.computed}; {self.typed} has fewer digits than asked"


@dataclass(eq=False, repr=False)
class RootsSearched(Problem):
    """A formula has no solution in closed form, so that its root was found by a search.

    The root is right to every digit that is printed. But a search over 60 powers of ten sees only where the two sides
    cross: roots very near to one another, and places where the sides touch without crossing, it may miss. Where the
    formula may have another root that is meant, say so with `take`, or give the formula in a form that can be solved.

    Attributes:
        name: what was found.
        near: a place where the two sides seem to touch; empty for none.
    """

    slug: ClassVar[str] = "roots-searched"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "formula: x + exp(x) = 3"
    right: ClassVar[str] = "formula: exp(x) = 3"

    name: str
    near: str

    def sentence(self) -> str:
        also = f", and the two sides seem to touch near {self.near}" if self.near else ""
        return f"{self.name} was found by a search, which may miss other roots{also}"

    def mend(self) -> str:
        return "see that no other root is meant, or give the formula in a form that can be solved"


@dataclass(eq=False, repr=False)
class AcceptMisses(Problem):
    """What markers may accept does not hold the computed value."""

    slug: ClassVar[str] = "accept-misses"
    wrong: ClassVar[str] = "accept: 0.75 to 0.80 µC"
    right: ClassVar[str] = "accept: 0.70 to 0.75 µC"

    name: str
    computed: str
    accept: str

    def sentence(self) -> str:
        return f"{self.accept} does not hold {self.name} = {self.computed}"

    def mend(self) -> str:
        return "widen it until the computed value lies within it, or check the calculation"


@dataclass(eq=False, repr=False)
class MethodsDisagree(Problem):
    """Two methods for the same quantity give different answers.

    Rounding may explain it: intermediate results that are carried rounded, or data that are themselves rounded and
    do not fit each other to the last digit. Then both answers are right, and `accept` should hold both. Else one of
    the methods has a mistake in it.

    Attributes:
        name: the quantity.
        first: its value by the first method.
        second: its value by the other.
        difference: how far they lie apart; empty where that is not known.
        rounding: what explains it: "carried" (rounding on the way), "digits" (the last digits of the data), or "".
    """

    slug: ClassVar[str] = "methods-disagree"
    wrong: ClassVar[str] = "or:\n  -\n    formula: Δx = v_f Δt"
    right: ClassVar[str] = "or:\n  -\n    formula: Δx = (v_i + v_f) Δt / 2"

    name: str
    first: str
    second: str
    difference: str = ""
    rounding: str = ""

    def sentence(self) -> str:
        both = f"{self.name} is {self.first} by the first method and {self.second} by this one"
        if not self.difference:
            return both
        why = {
            "carried": "which rounding on the way explains",
            "digits": "which the rounding of the data explains",
        }.get(self.rounding, "which rounding does not explain")
        return f"{both}: {self.difference} apart, {why}"

    def mend(self) -> str:
        if self.rounding:
            return "say what markers may accept, so that it holds both: accept: … to …, or accept: choices"
        return "correct the one that is wrong: both methods must give the same answer"


@dataclass(eq=False, repr=False)
class SlipRight(Problem):
    """A slip leads to the right answer, so a marker could not tell it from correct work."""

    slug: ClassVar[str] = "slip-right"
    wrong: ClassVar[str] = "slips:\n  forgot that weight is a force: F_g = m g"
    right: ClassVar[str] = "slips:\n  gave the mass: F_g = m"

    label: str
    value: str

    def sentence(self) -> str:
        return f'the slip "{self.label}" gives the right answer, {self.value}'

    def mend(self) -> str:
        return "write the formula that a learner who makes this slip would use, or take the slip out"


@dataclass(eq=False, repr=False)
class DirectionUnreasoned(Problem):
    """An answer is asked with its direction, and its formula takes sizes: no sign says where it points.

    The sheet marks formulas into which charges go without their signs. Whether they attract or repel is reasoned,
    and so is the direction: it is typed with the answer, or after `at` (see points).
    """

    slug: ClassVar[str] = "direction-unreasoned"
    wrong: ClassVar[str] = "find: F in N with direction"
    right: ClassVar[str] = "find: F in N with direction\nanswer: 5.40e-4 N, left"

    name: str

    def sentence(self) -> str:
        return f"{self.name} is asked with its direction, and its formula takes sizes without signs"

    def mend(self) -> str:
        return "type the answer with the direction that you reasoned, as in answer: 5.40e-4 N, left"


@dataclass(eq=False, repr=False)
class SlipNowhere(Problem):
    """A slip leads to no value, such as the root of a negative number, so that the memo has none to show."""

    slug: ClassVar[str] = "slip-nowhere"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "slips:\n  took the difference the other way round: v^2 = 2 a x - u^2"
    right: ClassVar[str] = "slips:\n  left out the initial speed: v^2 = 2 a x"

    label: str

    def sentence(self) -> str:
        return f'the slip "{self.label}" leads to no value, and the memo leaves it out'

    def mend(self) -> str:
        return "look at its signs, or take the slip out"


@dataclass(eq=False, repr=False)
class CarryMatters(Problem):
    """Carrying the rounded intermediate result (or the exact one) would print another answer."""

    slug: ClassVar[str] = "carry-matters"
    level: ClassVar[Level] = "note"
    wrong: ClassVar[str] = "find: I in A to 1 dp"
    right: ClassVar[str] = "find: I in A to 3 dp"

    name: str
    value: str
    other: str
    policy: str

    def sentence(self) -> str:
        way = "rounded" if self.policy == "unrounded" else "unrounded"
        return f"{self.name} is {self.value}; from the {way} earlier answers it would be {self.other}"

    def mend(self) -> str:
        return "with accept: choices markers accept both; carry: says which of them is the answer"


@dataclass(eq=False, repr=False)
class MarksDoNotComeOut(Problem):
    """The marks of a calculation can not be spread over its lines by the usual rule."""

    slug: ClassVar[str] = "marks-do-not-come-out"
    wrong: ClassVar[str] = "marks: 6"
    right: ClassVar[str] = "marks: 2"

    total: int
    why: str

    def sentence(self) -> str:
        return f"{self.total} marks do not come out: {self.why}"

    def mend(self) -> str:
        return "say them by line under marks: formula, substitution, answer"


@dataclass(eq=False, repr=False)
class OptionsDoNotFit(Problem):
    """The options of a multiple-choice question: none right, two right, or two alike after rounding."""

    slug: ClassVar[str] = "options-do-not-fit"
    wrong: ClassVar[str] = "C: 3\nD: 4"
    right: ClassVar[str] = "C: 2\nD: 4"

    what: str
    hint: str = ""

    def sentence(self) -> str:
        return self.what

    def mend(self) -> str:
        return (
            self.hint or "exactly one option must be right, and no two alike: change an option or the answer"
        )


@dataclass(eq=False, repr=False)
class DirectionMissing(Problem):
    """An answer that is asked with its direction is typed without one."""

    slug: ClassVar[str] = "direction-missing"
    wrong: ClassVar[str] = "answer: 4.20 m/s"
    right: ClassVar[str] = "answer: 4.20 m/s, left"

    name: str
    computed: str
    typed: str

    def sentence(self) -> str:
        return f"{self.name} is asked with its direction, and {self.typed} has none"

    def mend(self) -> str:
        return f"it is {self.computed}"


@dataclass(eq=False, repr=False)
class BandsUnfit(Problem):
    """Bands of values with their marks overlap, leave a gap, or do not give the computed value the most marks.

    A value at the common end of two bands would earn either; one in a gap would earn none.
    """

    slug: ClassVar[str] = "bands-unfit"
    wrong: ClassVar[str] = "bands:\n  8.5 to 9.5 m/s: 2\n  9.4 to 10.5 m/s: 1"
    right: ClassVar[str] = "bands:\n  8.5 to 9.5 m/s: 2\n  9.6 to 10.5 m/s: 1"

    what: str
    hint: str

    def sentence(self) -> str:
        return self.what

    def mend(self) -> str:
        return self.hint
