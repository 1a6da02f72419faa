"""How lines of a situation are read: clauses between commas, quantities, and the places of what is wrong."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import ClassVar

from ..checking.scope import Datum, Scope
from ..exact import PI, Real
from ..language.names import Name, read_name
from ..language.statements import Conventions
from ..problems import Text, nearest
from ..problems.checking import NameWithoutValue
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import SituationDimension, SituationValueOutside
from ..units import Dimension, read_unit
from .drawn import FigureKind, FigureText
from .reading import check_size, value_of

#: The most lines that a figure can have.
MOST_LINES = 40
#: The longest line, in characters.
LONGEST_LINE = 300
_NAMED = re.compile(r"([^=]+?)\s*=\s*(.+)")
_NAMELESS = Name("Q", "value")


@dataclass(frozen=True, slots=True)
class SituationText(FigureText):
    """What an author says of a situation.

    Attributes:
        lines: one thing each.
        values: whether values stand beside symbols; None where not said.
    """

    KIND: ClassVar[FigureKind] = "situation"

    lines: tuple[Text, ...] = ()
    values: Text | None = None


@dataclass(frozen=True, slots=True)
class FieldText(FigureText):
    """What an author says of a field.

    Attributes:
        things: the charges, points, plates or magnets, one each.
        lines: how many lines the charge with the fewest has; None where not said.
        equipotentials: `yes`, `no`, or how many; None where not said.
        values: whether values stand beside symbols; None where not said.
    """

    KIND: ClassVar[FigureKind] = "field"

    things: tuple[Text, ...] = ()
    lines: Text | None = None
    equipotentials: Text | None = None
    values: Text | None = None


@dataclass(frozen=True, slots=True)
class Amount:
    """A quantity in a picture, with its symbol, its value, or both; at least one of the two.

    Attributes:
        name: its symbol; None for a bare value.
        datum: its value; None where that is not known.
    """

    name: Name | None
    datum: Datum | None

    @property
    def value(self) -> Real | None:
        """Its value in SI coherent units, with its sign."""
        return None if self.datum is None else self.datum.quantity.value

    @property
    def size(self) -> Real | None:
        """Its size in SI coherent units."""
        return None if self.datum is None else abs(self.datum.quantity.value)

    @property
    def found(self) -> bool:
        """Whether its value is a result, or comes of one: no question paper may show it."""
        return self.datum is not None and _found(self.datum)

    @property
    def plain(self) -> Amount:
        """The same without the direction that a value may have: an arrow says that."""
        if self.datum is None:
            return self
        quantity = self.datum.quantity
        printed = self.datum.printed
        if printed is not None and printed.direction:
            printed = replace(printed, direction="")
        if quantity.direction or quantity.plane is not None:
            number = quantity.number
            # A size is printed as it was typed; of components, or of a negative value, there is none.
            if number is not None and number.value < 0:
                number = None
            quantity = replace(quantity, value=abs(quantity.value), number=number, direction="", plane=None)
        return Amount(self.name, replace(self.datum, quantity=quantity, printed=printed))


def _found(datum: Datum) -> bool:
    return datum.kind == "result" or any(_found(one) for one in datum.rests_on)


class Found:
    """A clause that a pattern fits."""

    def __init__(self, text: Text, match: re.Match[str]) -> None:
        self.text = text
        self.match = match

    def __contains__(self, group: str) -> bool:
        return self.match[group] is not None

    def word(self, group: str) -> str:
        """What a group holds, in small letters; empty for nothing."""
        return (self.match[group] or "").lower()

    def part(self, group: str) -> Text:
        """What a group holds, with its place."""
        return self.text.part(self.match.start(group), self.match.end(group))


def fit(pattern: str, text: Text) -> Found | None:
    """The text as a pattern reads it as a whole, or None."""
    found = re.fullmatch(pattern, text.value, re.IGNORECASE)
    return None if found is None else Found(text, found)


class Line:
    """A line of a situation: its clauses, taken one after another by what they say."""

    def __init__(self, text: Text) -> None:
        self.text = text
        self.clauses = clauses(text)
        self._forms: list[str] = []

    def head(self, pattern: str, what: str, form: str) -> Found:
        """The first clause.

        Raises:
            FigurePhraseUnreadable: it has another form.
        """
        first = self.clauses.pop(0)
        found = fit(pattern, first)
        if found is None:
            raise FigurePhraseUnreadable(first.span, what, first.value, form)
        return found

    def take(self, pattern: str, form: str) -> Found | None:
        """The first clause that a pattern fits; it is then done with."""
        self._forms.append(form)
        for clause in self.clauses:
            found = fit(pattern, clause)
            if found is not None:
                self.clauses.remove(clause)
                return found
        return None

    def finish(self, what: str) -> None:
        """Nothing may be left.

        Raises:
            FigurePhraseUnreadable: a clause has no meaning here.
        """
        for clause in self.clauses:
            words = {form.split()[0]: form for form in self._forms}
            near = nearest((clause.value.split() or [""])[0], tuple(words))
            form = " or ".join(dict.fromkeys(self._forms)) if self._forms else "no more"
            raise FigurePhraseUnreadable(
                clause.span, f"a part of {what}", clause.value, form, words[near] if near else None
            )


def clauses(text: Text) -> list[Text]:
    """The pieces of a line between commas; one inside brackets or inside a number parts nothing."""
    found, depth, start = [], 0, 0
    for at, sign in enumerate(text.value):
        depth += {"(": 1, ")": -1}.get(sign, 0)
        if sign == "," and depth <= 0 and (at + 1 == len(text.value) or text.value[at + 1].isspace()):
            found.append(text.part(start, at))
            start = at + 1
    found.append(text.part(start))
    return found


@lru_cache(maxsize=64)
def dimension_of(unit: str) -> Dimension:
    """The dimension of a unit."""
    return read_unit(Text(unit)).dimension


class AmountReader:
    """Reads quantities in scope.

    Attributes:
        scope: what names mean.
        conventions: the settings in force.
    """

    def __init__(self, scope: Scope, conventions: Conventions) -> None:
        self.scope = scope
        self.conventions = conventions

    def amount(self, text: Text, what: str, *units: str, lenient: bool = False) -> Amount:
        """A symbol (`r`), a value (`0.3 m`), or both (`r = 0.3 m`).

        Args:
            text: what was typed.
            what: what it stands for, for messages: "distance".
            units: units of the dimensions that it may have; "°" for an angle, "" for a number.
            lenient: a name whose value has another dimension is a name alone (a block "A" where A is an area).

        Raises:
            Problem: it cannot be read, or has another dimension.
        """
        named = _NAMED.fullmatch(text.value)
        typed, name = text, read_name(text.value)
        if named is not None:
            name = read_name(named[1])
            if name is None:
                raise FigurePhraseUnreadable(
                    text.span, f"a {what}", text.value, "a name or a value with its unit"
                )
            typed = text.part(named.start(2))
        elif name is not None:
            datum = self.scope.find(name)
            # A constant of the sheet (R, h) is another thing that has the letter.
            lenient = lenient or (datum is not None and datum.kind == "constant")
            if datum is None or (lenient and not self._fits(datum, units)):
                return Amount(name, None)
            return Amount(name, self._checked(datum, what, units, text))
        if not text.value:
            raise FigurePhraseUnreadable(
                text.span, f"a {what}", text.value, "a name or a value with its unit"
            )
        datum = value_of(typed, self.scope, self.conventions)
        return Amount(name, self._checked(datum, what, units, typed))

    def _fits(self, datum: Datum, units: Iterable[str]) -> bool:
        unit = datum.quantity.unit
        for one in units:
            if one == "°":
                if unit.angle:
                    return True
            elif unit.dimension == dimension_of(one) and not (unit.angle and not one):
                return True
        return False

    def _checked(self, datum: Datum, what: str, units: tuple[str, ...], text: Text) -> Datum:
        if not self._fits(datum, units):
            raise SituationDimension(text.span, what, text.value, datum.quantity.unit.text(), units[0])
        check_size(datum, text)
        return datum

    def known(self, text: Text, what: str, *units: str) -> Amount:
        """The same where it must have a value.

        Raises:
            NameWithoutValue: it is a name that has none.
        """
        found = self.amount(text, what, *units)
        if found.datum is None:
            raise NameWithoutValue(text.span, found.name.key if found.name is not None else text.value)
        return found

    def length(self, text: Text, what: str = "distance") -> Amount:
        """A length of more than zero; it may be a name without a value.

        Raises:
            Problem: it is none.
        """
        found = self.amount(text, what, "m")
        if found.value is not None and found.value.sign() <= 0:
            raise SituationValueOutside(text.span, f"a {what}", text.value, "one that is more than zero")
        return found

    def angle(self, text: Text, what: str, most: int = 90, *, least: int = 0, ends: bool = False) -> Amount:
        """An angle between two numbers of degrees; it may be a name without a value.

        Raises:
            Problem: it is none.
        """
        found = self.amount(text, what, "°")
        if found.value is not None:
            low = (found.value - degrees(least)).sign()
            high = (degrees(most) - found.value).sign()
            if min(low, high) < (0 if ends else 1):
                allowed = (
                    f"an angle {'from' if ends else 'between'} {least}° {'to' if ends else 'and'} {most}°"
                )
                raise SituationValueOutside(text.span, f"an {what}", text.value, allowed)
        return found


def degrees(number: int) -> Real:
    """A whole number of degrees in radians."""
    return PI * Real.of(Fraction(number, 180))
