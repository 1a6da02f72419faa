"""Which quantities a circuit gives, under which names, as sums of its currents and potentials."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from ..language.names import Name
from ..language.phrases import Find, read_find
from ..language.statements import Conventions
from ..problems import Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_circuits import ComponentDimension
from ..units import Unit
from .circuit_naming import name_typed
from .circuit_network import Group, Link, Network, between, inflow
from .circuit_parts import RESISTIVE, SOURCES, InSeries, Part, Piece, Ratings, parts_of
from .circuit_system import Key, Sum, added
from .circuit_values import AMPERE, OHM, VOLT, WATT, number_of

_METERS = ("ammeter", "galvanometer")
_WHOLE = {
    "total current": "current", "total resistance": "resistance", "external resistance": "resistance",
    "equivalent resistance": "resistance", "effective resistance": "resistance", "terminal voltage": "terminal",
    "terminal potential difference": "terminal", "lost volts": "lost",
}  # fmt: skip
_OF = re.compile(
    r"(?P<what>current|voltage|potential difference|power|resistance|reading)\s+"
    r"(?:through|across|in|over|of|on)\s+(?:the\s+)?(?P<part>.+)",
    re.IGNORECASE,
)
_FORM = (
    "current through R_1, voltage across R_1, power of R_1, resistance of (R_1 | R_2), total current, external "
    "resistance, terminal voltage or lost volts"
)


@dataclass(frozen=True, slots=True)
class Sought:
    """A quantity of a circuit.

    Attributes:
        find: its name, with unit and form where these are said.
        unit: its unit.
        top: it is this sum and a constant,
        plus: the constant,
        by: divided by this sum (or multiplied); None for the sum itself.
        product: whether it is multiplied.
        size: whether it is read without its sign, as meters are.
        what: what it is: kind and part, which tells it from others.
        text: where it comes from.
    """

    find: Find
    unit: Unit
    top: Sum
    what: tuple[str, int]
    text: Text
    plus: Fraction = Fraction(0)
    by: Sum | None = None
    product: bool = False
    size: bool = False

    @property
    def name(self) -> Name:
        """Its name."""
        return self.find.name


@dataclass(frozen=True, slots=True)
class Main:
    """The battery of a circuit that has one, or several in series.

    Attributes:
        current: the current that it drives.
        terminal: the voltage across it.
        links: its cells.
    """

    current: Sum
    terminal: Sum
    links: tuple[Link, ...]


def main_of(network: Network, row: Piece | None) -> Main | None:
    """The battery of a circuit: the only one, or the cells in series in the upper row."""
    sources = [link for link in network.links.values() if link.part.kind in SOURCES]
    if not sources:
        return None
    upper = row.pieces if isinstance(row, InSeries) else (row,) if row is not None else ()
    inside = {part.number for piece in upper if isinstance(piece, Part) for part in (piece,)}
    if len(sources) > 1 and not all(link.part.number in inside for link in sources):
        return None
    first = sources[0].part
    terminal: dict[Key, Fraction] = {}
    for link in sources:
        # All along the row in which the first one drives.
        way = Fraction(1) if link.part.backwards == first.backwards else Fraction(-1)
        terminal = added(terminal, link.drop, -way)
    sign = Fraction(-1) if first.reversed else Fraction(1)
    current = {key: value * sign for key, value in sources[0].current.items()}
    return Main(current, {key: value * sign for key, value in terminal.items()}, tuple(sources))


class Seeker:
    """Finds the quantities of one circuit."""

    def __init__(
        self,
        network: Network,
        ratings: Mapping[int, Ratings],
        main: Main | None,
        text: Text,
        conventions: Conventions,
    ) -> None:
        self.network, self.ratings, self.main = network, ratings, main
        self.text, self.conventions = text, conventions

    def sought(self, names: Sequence[tuple[Text, Text]]) -> list[Sought]:
        """Every quantity: those that the author names, readings of meters, then the others under usual names.

        Raises:
            Problem: a line of the author's names cannot be read.
        """
        found = [self._named(key, value) for key, value in names]
        taken, known = {one.name for one in found}, {one.what for one in found}
        for one in (*self._meters(), *self._whole(), *self._parts()):
            if one.name not in taken and one.what not in known:
                taken.add(one.name)
                found.append(one)
        return found

    def _find(self, name: Name) -> Find:
        return read_find(Text(name.key, self.text.span), self.conventions.form, self.conventions.decimal)

    def _meters(self) -> Iterator[Sought]:
        for link in self.network.links.values():
            part = link.part
            if part.name is not None and part.kind in _METERS:
                yield Sought(
                    self._find(part.name),
                    AMPERE,
                    link.current,
                    ("reading", part.number),
                    part.text,
                    size=True,
                )
            elif part.name is not None and part.kind == "voltmeter":
                yield Sought(
                    self._find(part.name),
                    VOLT,
                    self._measured(link),
                    ("reading", part.number),
                    part.text,
                    size=True,
                )

    def _measured(self, link: Link) -> Sum:
        """The voltage that a voltmeter shows: across a battery from its positive end to its negative one."""
        ends = {link.start, link.end}
        across = [other for other in self.network.links.values() if {other.start, other.end} == ends]
        source = any(other.part.kind in SOURCES for other in across)
        return {key: -value for key, value in link.drop.items()} if source else link.drop

    def _whole(self) -> Iterator[Sought]:
        if self.main is None:
            return
        for name, word in (
            (Name("I"), "total current"), (Name("R", "ext"), "external resistance"),
            (Name("V", "ext"), "terminal voltage"), (Name("V", "int"), "lost volts"),
        ):  # fmt: skip
            one = self._of_whole(_WHOLE[word], self._find(name), self.main.links[0].part.text)
            if one is not None:
                yield one

    def _of_whole(self, what: str, find: Find, text: Text) -> Sought | None:
        main = self.main
        assert main is not None
        if what == "current":
            return Sought(find, AMPERE, main.current, ("current", main.links[0].part.number), text)
        if what == "terminal":
            return Sought(find, VOLT, main.terminal, ("terminal", -1), text)
        if what == "resistance":
            return Sought(find, OHM, main.terminal, ("resistance", -1), text, by=main.current)
        # What is lost is I r in each cell, or the emf less the voltage across it.
        total: dict[Key, Fraction] = {}
        plus = Fraction(0)
        for link in main.links:
            rating = self.ratings[link.part.number]
            if rating.resistance is None:
                continue
            if rating.resistance.datum is not None:
                total = added(total, main.current, number_of(rating.resistance.datum))
            elif rating.emf is not None and rating.emf.datum is not None:
                sign = Fraction(-1) if link.part.reversed else Fraction(1)
                plus += number_of(rating.emf.datum)
                total = added(total, link.drop, sign)
            else:
                return None
        return Sought(find, VOLT, total, ("lost", -1), text, plus) if total else None

    def _parts(self) -> Iterator[Sought]:
        for link in self.network.links.values():
            part, rating = link.part, self.ratings[link.part.number]
            if part.kind in RESISTIVE:
                if part.name is not None:
                    yield from self._usual(link, _below(part.name))
                value = rating.resistance
                if value is not None and value.datum is None and value.name is not None:
                    yield self._of_part("resistance", self._find(value.name), link)
            elif part.kind in SOURCES and rating.emf is not None:
                if self.main is None and rating.emf.name is not None:
                    below = rating.emf.name.base + rating.emf.name.subscript
                    yield self._of_part("current", self._find(Name("I", below)), link)
                    yield self._of_part("voltage", self._find(Name("V", below)), link)
                yield from self._inside(link, rating)

    def _usual(self, link: Link, below: str) -> Iterator[Sought]:
        for letter, what in (("I", "current"), ("V", "voltage"), ("P", "power")):
            yield self._of_part(what, self._find(Name(letter, below)), link)

    def _of_part(self, what: str, find: Find, link: Link) -> Sought:
        number, text = link.part.number, link.part.text
        source = link.part.kind in SOURCES
        # A battery's voltage is that from its positive end to its negative one.
        drop = (
            {key: -value for key, value in link.drop.items()} if source != link.part.reversed else link.drop
        )
        if what == "current":
            return Sought(find, AMPERE, link.current, (what, number), text)
        if what == "voltage":
            return Sought(find, VOLT, drop, (what, number), text)
        if what == "power":
            return Sought(find, WATT, drop, (what, number), text, by=link.current, product=True)
        return Sought(find, OHM, drop, (what, number), text, by=link.current)

    def _inside(self, link: Link, rating: Ratings) -> Iterator[Sought]:
        """The emf or the internal resistance of a battery that lacks one of them."""
        emf, inner, number, text = rating.emf, rating.resistance, link.part.number, link.part.text
        sign = Fraction(-1) if link.part.reversed else Fraction(1)
        rise = {key: -value * sign for key, value in link.drop.items()}
        current = {key: value * sign for key, value in link.current.items()}
        assert emf is not None
        own = number_of(inner.datum) if inner is not None and inner.datum is not None else None
        if emf.datum is None and emf.name is not None and (inner is None or own is not None):
            total = added(rise, current, own or Fraction(0))
            yield Sought(self._find(emf.name), VOLT, total, ("emf", number), text)
        elif emf.datum is not None and inner is not None and inner.datum is None and inner.name is not None:
            lost = {key: -value for key, value in rise.items()}
            yield Sought(
                self._find(inner.name), OHM, lost, ("inner", number), text, number_of(emf.datum), by=current
            )

    # What the author names.

    def _named(self, key: Text, value: Text) -> Sought:
        find = read_find(key, self.conventions.form, self.conventions.decimal)
        one = self._said(find, value)
        if find.unit is not None and find.unit.dimension != one.unit.dimension:
            raise ComponentDimension(find.unit_span, find.name.key, find.unit.text(), f"in {one.unit.text()}")
        return one

    def _said(self, find: Find, value: Text) -> Sought:
        words = " ".join(value.value.split())
        if words.lower() in _WHOLE and self.main is not None:
            one = self._of_whole(_WHOLE[words.lower()], find, value)
            if one is not None:
                return one
        found = _OF.fullmatch(value.value)
        if found is None:
            near = nearest(words, tuple(_WHOLE))
            raise FigurePhraseUnreadable(value.span, "a quantity of this circuit", words, _FORM, near)
        what = found["what"].lower().replace("potential difference", "voltage")
        group = self._group(value.part(found.start("part")))
        if isinstance(group.piece, Part):
            link = self.network.links[group.piece.number]
            if what == "reading":
                what = "voltage" if link.part.kind == "voltmeter" else "current"
            return self._of_part(what, find, link)
        flow, drop = inflow(group.piece), between(group.start, group.end)
        # A group has no number of its own: those of its parts tell it.
        number = -2 - self.network.groups.index(group)
        if what == "current":
            return Sought(find, AMPERE, flow, (what, number), value)
        if what == "voltage":
            return Sought(find, VOLT, drop, (what, number), value, size=True)
        if what == "power":
            return Sought(find, WATT, drop, (what, number), value, by=flow, product=True)
        return Sought(find, OHM, drop, (what, number), value, by=flow)

    def _group(self, text: Text) -> Group:
        """The smallest piece that holds the named parts and no other resistance."""
        wanted: set[int] = set()
        named = {part.name: part for part in (link.part for link in self.network.links.values()) if part.name}
        for piece in re.finditer(r"[^\s,|()\[\]∥]+", text.value):
            if piece[0] == "and":
                continue
            name = name_typed(piece[0])
            part = named.get(name) if name is not None else None
            if part is None:
                known = tuple(one.key for one in named)
                span = text.at(piece.start(), piece.end())
                raise FigureNameUnknown(span, piece[0], known, nearest(piece[0], known))
            wanted.add(part.number)
        fitting = [group for group in self.network.groups if wanted and _holds(group.piece, wanted)]
        if not fitting:
            form = "parts that stand side by side in the circuit, in series or in parallel"
            raise FigurePhraseUnreadable(text.span, "a piece of this circuit", text.value, form)
        return min(fitting, key=lambda group: sum(1 for _ in parts_of(group.piece)))


def _holds(piece: Piece, wanted: set[int]) -> bool:
    inside = {part.number: part for part in parts_of(piece)}
    if not wanted <= set(inside):
        return False
    return all(number in wanted for number, part in inside.items() if part.kind in (*RESISTIVE, *SOURCES))


def _below(name: Name) -> str:
    """What stands below in I_1 for R_1, in I_L for a lamp L, and in I_R for R alone."""
    if name.base == "R" and name.subscript:
        return name.subscript
    return name.base + name.subscript
