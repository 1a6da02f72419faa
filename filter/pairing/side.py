"""What is compared: the questions of one file with their marks, data and answers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from physcalc.exact import Number, Real, RealError, round_places
from physcalc.problems import Span
from physcalc.units import ONE, Unit, to_si


@dataclass(frozen=True, slots=True)
class Value:
    """A number in a file, with its unit where it has one.

    Attributes:
        span: where it stands.
        text: its characters.
        number: the number.
        unit: the unit; None for a bare number.
    """

    span: Span
    text: str
    number: Number
    unit: Unit | None = None

    def size(self) -> Real:
        """Its value in SI coherent units; that of the number where it has no unit."""
        return to_si(Real.of(self.number.value), self.unit or ONE)

    def says(self, other: Value) -> bool:
        """Whether this one, typed elsewhere, says what another one does.

        With a unit of the same dimension the values are equal, or this one is the other rounded as it is typed. A bare
        number (as in a substitution) is the other's number, or its value in SI units, with the sign that a direction
        has there, or without one.
        """
        try:
            if self.unit is None:
                if abs(self.number.value) == abs(other.number.value):
                    return True
                return self._rounds(other.size()) or self._rounds(-other.size())
            if other.unit is None or self.unit.dimension != other.unit.dimension:
                return False
            return self.size().equals(other.size()) or self._rounds(other.size() / self.unit.scale)
        except (RealError, ArithmeticError):
            return False

    def _rounds(self, size: Real) -> bool:
        if self.number.exponent is not None or self.number.is_fraction:
            return Real.of(self.number.value).equals(size)
        if self.number.places == 0 and self.number.figures < 3:
            return Real.of(self.number.value).equals(size)
        return round_places(size, self.number.places, "half-up").fraction == self.number.value

    @property
    def significant(self) -> str:
        """Its digits without zeros at the ends."""
        digits = f"{abs(self.number.value.numerator)}" if self.number.is_fraction else self.number.digits
        return digits.replace(".", "").lstrip("-0").rstrip("0")

    @property
    def plain(self) -> Fraction:
        """The number alone."""
        return self.number.value


@dataclass(frozen=True, slots=True)
class Mark:
    """Marks in brackets.

    Attributes:
        count: how many.
        span: where they stand.
        total: whether they stand in square brackets, as those of a whole question do.
    """

    count: int
    span: Span
    total: bool = False


@dataclass(frozen=True, slots=True)
class Stated:
    """An answer that a file with blocks works out.

    Attributes:
        name: the quantity.
        text: its value as printed.
        span: where it is asked.
        unit: its unit.
        agrees: whether a value typed elsewhere agrees with it.
    """

    name: str
    text: str
    span: Span
    unit: Unit
    agrees: Callable[[Value], bool]


@dataclass(frozen=True, slots=True)
class Asked:
    """A question or part of one, without the parts inside it.

    Attributes:
        number: "1", "1.2", "1.2.3".
        span: where it begins.
        marks: its marks; None where none stand there.
        data: values that the other file must have.
        values: every number in it, with or without a unit.
        answers: the answers that are worked out for it.
        letter: the letter of the right option, with its place; None for none.
    """

    number: str
    span: Span
    marks: Mark | None = None
    data: tuple[Value, ...] = ()
    values: tuple[Value, ...] = ()
    answers: tuple[Stated, ...] = ()
    letter: tuple[str, Span] | None = None

    @property
    def top(self) -> str:
        """The number of the question that holds it."""
        return self.number.partition(".")[0]


@dataclass(frozen=True, slots=True)
class Side:
    """One of the two files.

    Attributes:
        name: the file's name as it is shown.
        questions: its questions by number, in order.
        twice: questions whose number stands in it before.
        tells: whether it tells answers; a paper written by hand does not.
    """

    name: str
    questions: Mapping[str, Asked] = field(default_factory=dict)
    twice: tuple[Asked, ...] = ()
    tells: bool = True

    def parts(self, number: str) -> list[Asked]:
        """The parts inside a question."""
        return [asked for other, asked in self.questions.items() if other.startswith(number + ".")]

    def whole(self, top: str) -> list[Asked]:
        """A question with all its parts."""
        return [asked for asked in self.questions.values() if asked.top == top]
