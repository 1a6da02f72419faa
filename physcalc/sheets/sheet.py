"""What a data and formula sheet holds, as frozen data."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Generic, TypeVar

from ..exact import Number, Real
from ..language import Name, parse_formula
from ..language.tree import Equation, names_in
from ..problems import Span, Text, nearest
from ..problems.sheets import DefinitionUnknown, LawUnknown
from ..units import Unit

Entry = TypeVar("Entry")

NOWHERE = Span()


class Lazy(Mapping[str, Entry], Generic[Entry]):
    """A mapping whose entries are made when they are first asked for.

    A built-in sheet has some two hundred formulas and a run uses a handful: to read every unit and parse
    every formula at the start would cost more than the document itself.
    """

    def __init__(self, keys: Callable[[], Iterable[str]], make: Callable[[str], Entry]) -> None:
        """Make a mapping.

        Args:
            keys: gives the keys in their order; called once, when they are first needed.
            make: gives the entry of one of these keys; called once for each.
        """
        self._find_keys = keys
        self._keys: dict[str, None] | None = None
        self._make = make
        self._made: dict[str, Entry] = {}

    def _known(self) -> dict[str, None]:
        if self._keys is None:
            self._keys = dict.fromkeys(self._find_keys())
        return self._keys

    def __getitem__(self, key: str) -> Entry:
        if key not in self._made:
            if key not in self._known():
                raise KeyError(key)
            self._made[key] = self._make(key)
        return self._made[key]

    def __contains__(self, key: object) -> bool:
        return key in self._known()

    def __iter__(self) -> Iterator[str]:
        return iter(self._known())

    def __len__(self) -> int:
        return len(self._known())


@dataclass(frozen=True, slots=True)
class Constant:
    """A value that a data sheet gives.

    Attributes:
        name: the name that formulas give it.
        number: its number, with the digits as printed.
        unit: its unit.
        title: what it is, in words, small letters first.
        source: where the value comes from; may be empty.
        span: where the sheet's file says it.
        also: other customary values, which a marker may meet.
    """

    name: Name
    number: Number
    unit: Unit
    title: str
    source: str = ""
    span: Span = NOWHERE
    also: tuple[tuple[Number, Unit], ...] = ()


@dataclass(frozen=True, slots=True)
class Symbol:
    """What a name in a formula of the sheet stands for, and which values make sense.

    Attributes:
        name: the name.
        unit: the unit that the sheet states; limits are numbers in it.
        title: what it is, in words.
        minimum: the least value that makes sense; None where there is none.
        maximum: the greatest value that makes sense; None where there is none.
        exclusive: whether the minimum itself is excluded.
        vector: whether it has a direction.
        exclusive_maximum: whether the maximum itself is excluded.
    """

    name: Name
    unit: Unit
    title: str
    minimum: Fraction | None = None
    maximum: Fraction | None = None
    exclusive: bool = False
    vector: bool = False
    exclusive_maximum: bool = False

    def allows(self, value: Real) -> bool:
        """Whether a value makes sense.

        Args:
            value: the value in the symbol's unit.
        """
        if self.minimum is not None:
            sign = (value - Real.of(self.minimum)).sign()
            if sign < 0 or (sign == 0 and self.exclusive):
                return False
        if self.maximum is not None:
            sign = (Real.of(self.maximum) - value).sign()
            if sign < 0 or (sign == 0 and self.exclusive_maximum):
                return False
        return True


@lru_cache(maxsize=2048)
def parsed_form(form: Text) -> Equation:
    """A form of a sheet's formula as a tree, parsed once.

    Raises:
        Problem: the text is no formula.
    """
    return parse_formula(form, ".", sheet=True)


@dataclass(frozen=True)
class Law:
    """A formula of the sheet, in the forms in which it is usually written.

    It has no slots, so that what is parsed on first use can be kept.

    Attributes:
        slug: the name that `use` calls it by.
        title: what it is called, in words.
        topic: the heading that it stands under.
        forms: its forms as printed, the usual one first.
        symbols: what each name in its forms stands for, by the name's key.
        magnitudes: whether magnitudes go into it, without the signs of charges.
        span: where the sheet's file says it.
    """

    slug: str
    title: str
    topic: str
    forms: tuple[Text, ...]
    symbols: Mapping[str, Symbol]
    magnitudes: bool = False
    span: Span = NOWHERE

    @cached_property
    def formulas(self) -> tuple[Equation, ...]:
        """Its forms as trees, in their order; parsed on first use.

        Raises:
            Problem: a form is no formula (never in a built-in sheet).
        """
        return tuple(parsed_form(form) for form in self.forms)

    @cached_property
    def names(self) -> tuple[Name, ...]:
        """The names in all its forms, each once."""
        sides = [side for formula in self.formulas for side in (formula.left, formula.right)]
        return tuple(names_in(*sides))


@dataclass(frozen=True, slots=True)
class Definition:
    """A definition in words.

    Attributes:
        slug: its short name.
        title: what is defined.
        wording: the whole sentence or sentences.
        phrases: its key phrases, in order; each occurs in the wording.
        also: other names that it is asked for by.
        starts: where in the wording each key phrase begins (its words may occur before that, too).
        span: where the sheet's file says it.
    """

    slug: str
    title: str
    wording: str
    phrases: tuple[str, ...]
    also: tuple[str, ...] = ()
    starts: tuple[int, ...] = ()
    span: Span = NOWHERE

    def pieces(self) -> tuple[tuple[str, bool], ...]:
        """The wording cut at its key phrases; each piece with whether it is one."""
        pieces: list[tuple[str, bool]] = []
        done = 0
        for phrase, start in zip(self.phrases, self.starts, strict=True):
            pieces += [(self.wording[done:start], False), (phrase, True)]
            done = start + len(phrase)
        pieces.append((self.wording[done:], False))
        return tuple(piece for piece in pieces if piece[0])


def _plain(words: str) -> str:
    """Words as they are compared: without capitals, curly apostrophes and runs of blanks."""
    return re.sub(r"\s+", " ", words.replace("’", "'")).strip().casefold()


@dataclass(frozen=True, slots=True)
class Sheet:
    """A data and formula sheet.

    Attributes:
        name: its name: "school", or the file's name without its ending.
        title: its heading.
        constants: its constants by the name's key, in the order printed.
        laws: its formulas by slug, in the order printed (so topic by topic).
        definitions: its definitions by slug, in the order printed.
    """

    name: str
    title: str
    constants: Mapping[str, Constant]
    laws: Mapping[str, Law]
    definitions: Mapping[str, Definition]

    def constant(self, name: Name) -> Constant | None:
        """The constant of that name, or None."""
        return self.constants.get(name.key)

    def find_law(self, text: Text) -> Law:
        """The formula that `use` names, by its slug or its title.

        Raises:
            LawUnknown: there is none; the nearest is named.
        """
        typed = _plain(text.value)
        if typed in self.laws:
            return self.laws[typed]
        for law in self.laws.values():
            if _plain(law.title) == typed:
                return law
        raise LawUnknown(text.span, text.value, self.name, nearest(typed, tuple(self.laws)))

    def find_definition(self, text: Text) -> Definition:
        """The definition that a `define` span asks for, by its title, another name of it, or its slug.

        Raises:
            DefinitionUnknown: there is none; the nearest is named.
        """
        typed = _plain(text.value)
        titles: dict[str, str] = {}
        for definition in self.definitions.values():
            for title in (definition.title, *definition.also):
                if _plain(title) == typed:
                    return definition
                titles[_plain(title)] = title
        if typed in self.definitions:
            return self.definitions[typed]
        close = nearest(typed, tuple(titles))
        raise DefinitionUnknown(text.span, text.value, self.name, titles[close] if close else None)
