"""Circuits: every current and voltage that follows from what is known, exactly, and how the circuit is laid out."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ..checking.given import last_digit
from ..checking.printing import printed_datum
from ..checking.scope import Datum, Quantity, Scope
from ..checking.setup import Asked
from ..exact import Real
from ..language.names import Name
from ..language.phrases import Find, read_find
from ..language.plain import plain_printed
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_circuits import CircuitDisagrees, CircuitUnreadable, ComponentNegative
from ..steps.working import make_answer
from .circuit_network import Network, equations, network_of, shorted
from .circuit_parts import (
    SOURCES,
    CircuitDiagram,
    CircuitText,
    Current,
    InSeries,
    Labels,
    Piece,
    Ratings,
    Route,
    parts_of,
)
from .circuit_reading import between_nodes, name_typed, read_branches, read_loop
from .circuit_shape import no_loose_ends, put_together, routes_at, two_rows
from .circuit_sought import Main, Seeker, Sought, main_of
from .circuit_system import Known, System
from .circuit_values import OHM, number_of, ratings_of
from .drawn import Drawn

_LABELS: tuple[Labels, ...] = ("names", "values", "both")


def circuit(body: CircuitText, scope: Scope) -> Drawn:
    """The circuit that an author describes.

    Args:
        body: what is said.
        scope: what names mean.

    Returns:
        The circuit with the quantities that it gives; those that cannot be told are left out.

    Raises:
        Problem: it cannot be read, laid out or worked out.
    """
    loop, routes, network = _shape(body)
    pieces = loop if loop is not None else tuple(route.piece for route in routes)
    ratings, problems = _ratings(pieces, body, scope)
    labels = _word(body.labels, "what stands beside parts", _LABELS, "both", problems)
    letters = _word(body.nodes, "whether nodes have letters", ("yes", "no"), "yes", problems)
    if problems:
        return Drawn(None, {}, tuple(problems))
    wrong = shorted(network, ratings)
    if wrong is not None:
        return Drawn(None, {}, (wrong,))
    main = main_of(network, loop[0] if loop is not None else None)
    seeker = Seeker(network, ratings, main, _first(body), body.conventions)
    sought = seeker.sought(body.names)
    test = main is None and _with_test(network)
    finder = _Finder(body, scope, equations(network, ratings), ratings)
    if test:
        results, found = finder.between_terminals(network)
    else:
        results, found = finder.results(sought)
    currents = _currents(body, sought, main, found, problems)
    problems += finder.problems
    return Drawn(
        CircuitDiagram(loop, routes, ratings, currents, labels, letters == "yes"),  # type: ignore[arg-type]
        results,
        tuple(problems),
    )


def _first(body: CircuitText) -> Text:
    return body.lines[0] if body.lines else Text("", body.span)


def _shape(body: CircuitText) -> tuple[tuple[Piece, Piece] | None, tuple[Route, ...], Network]:
    """The layout of the circuit and its network. Raises Problem."""
    first = _first(body)
    if not first.value.strip():
        raise CircuitUnreadable(body.span, "the circuit has no parts", 'write them: "battery (ε, r), R_1, R_2"')
    if not any(between_nodes(line) for line in body.lines):
        loop = two_rows(read_loop(body.lines), first)
        if body.at:
            what, how = "this circuit has no nodes with names", 'leave "at" out, or give branches: "A to B: R_1"'
            raise CircuitUnreadable(body.at[0][0].span, what, how)
        return loop, (), _of_rows(loop)
    branches = read_branches(body.lines)
    no_loose_ends(branches)
    shape = routes_at(branches, body.at) if body.at else put_together(branches, first)
    if isinstance(shape[0], Route):
        routes: tuple[Route, ...] = shape  # type: ignore[assignment]
        return None, routes, network_of((route.start, route.end, route.piece) for route in routes)
    rows: tuple[Piece, Piece] = shape  # type: ignore[assignment]
    return rows, (), _of_rows(rows)


def _of_rows(rows: tuple[Piece, Piece]) -> Network:
    lower = rows[1]
    if isinstance(lower, InSeries) and not lower.pieces:
        return network_of([("left", "left", rows[0])])
    return network_of([("left", "right", rows[0]), ("left", "right", lower)])


def _ratings(
    pieces: Sequence[Piece], body: CircuitText, scope: Scope
) -> tuple[dict[int, Ratings], list[Problem]]:
    ratings: dict[int, Ratings] = {}
    problems: list[Problem] = []
    for part in (part for piece in pieces for part in parts_of(piece)):
        try:
            ratings[part.number] = ratings_of(part, scope, body.conventions)
        except Problem as problem:
            problems.append(problem)
    return ratings, problems


def _word(
    text: Text | None, what: str, known: Sequence[str], otherwise: str, problems: list[Problem]
) -> str:
    if text is None:
        return otherwise
    word = text.value.strip()
    if word not in known:
        form = f"{', '.join(known[:-1])} or {known[-1]}"
        problems.append(FigurePhraseUnreadable(text.span, what, word, form, nearest(word, tuple(known))))
        return otherwise
    return word


def _currents(
    body: CircuitText, sought: Sequence[Sought], main: Main | None, found: Mapping[Name, Datum], problems: list[Problem]
) -> dict[int, Current]:
    """The arrows that are asked, by the number of their part."""
    text = body.currents
    if text is None or text.value.strip() == "no":
        return {}
    known = {one.name: one for one in sought if one.what[0] == "current" and one.what[1] >= 0}
    wanted = list(known) if text.value.strip() == "yes" else []
    for word in re.finditer(r"[^\s,]+", text.value) if text.value.strip() != "yes" else ():
        name = name_typed(word[0])
        if name is None or name not in known:
            names = tuple(one.key for one in known)
            span = text.at(word.start(), word.end())
            problems.append(FigureNameUnknown(span, word[0], names, nearest(word[0], names)))
        else:
            wanted.append(name)
    return {known[name].what[1]: Current(name, found.get(name)) for name in wanted}


def _with_test(network: Network) -> bool:
    """Whether the resistance between terminals is asked: there are terminals and no battery."""
    parts = [link.part for link in network.links.values()]
    return any(part.kind == "terminals" for part in parts) and not any(part.kind in SOURCES for part in parts)


@dataclass(slots=True)
class _Finder:
    """Works out the quantities of one circuit.

    Attributes:
        body: what the author says.
        scope: what names mean.
        system: the equations.
        ratings: the values of the parts.
        readings: values that are given of quantities of the circuit, by name, with half a unit of their last digit.
        problems: takes what is wrong.
    """

    body: CircuitText
    scope: Scope
    system: System
    ratings: Mapping[int, Ratings]
    readings: dict[str, tuple[Datum, Fraction, Fraction]] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)

    def results(self, sought: Sequence[Sought]) -> tuple[dict[Name, Datum], dict[Name, Datum]]:
        """The results that data do not hide, and every quantity that is known, given or found."""
        given = {one.name: datum for one in sought if (datum := self._given(one)) is not None}
        for one in sought:
            if one.name in given:
                self._take(one, given[one.name])
        results: dict[Name, Datum] = {}
        known: dict[Name, Datum] = {}
        for one in sought:
            value = self._value(one)
            if one.name in given:
                known[one.name] = given[one.name]
                if value is not None:
                    self._compare(one, given[one.name], value)
                continue
            if value is None:
                continue
            if one.what[0] in ("resistance", "inner", "emf") and value < 0:
                if not self.problems:
                    self.problems.append(ComponentNegative(one.text.span, one.name.key, one.what[0] == "emf"))
                continue
            hidden = self.scope.find(one.name)
            known[one.name] = self._datum(one, value)
            if hidden is None or hidden.kind != "given":
                results[one.name] = known[one.name]
        return results, known

    def between_terminals(self, network: Network) -> tuple[dict[Name, Datum], dict[Name, Datum]]:
        """The resistance between terminals: the voltage across them for each ampere that goes in."""
        link = next(link for link in network.links.values() if link.part.kind == "terminals")
        driven = replace(link.part, kind="battery", reversed=False)
        ratings = {**self.ratings, link.part.number: Ratings()}
        links = {**network.links, link.part.number: replace(link, part=driven)}
        system = equations(Network(links, network.groups, network.nodes), ratings)
        if system.add(link.current, {"": Fraction(1)}) is not None:
            return {}, {}
        voltage = system.value({key: -value for key, value in link.drop.items()})
        name = Name("R", "ext")
        if voltage is None or self.scope.find(name) is not None:
            return {}, {}
        one = Sought(_find(name, self.body), OHM, {}, ("resistance", -1), link.part.text)
        return {name: self._datum(one, voltage.get("", Fraction(0)))}, {}

    # Readings.

    def _given(self, one: Sought) -> Datum | None:
        """The value that data give to a quantity of the circuit; a letter may mean another thing outside."""
        datum = self.scope.find(one.name)
        if datum is None or datum.kind == "constant" or datum.quantity.unit.dimension != one.unit.dimension:
            return None
        # What an earlier calculation found is only taken where the circuit does not say it itself.
        return datum if datum.kind == "given" or self._value(one) is None else None

    def _take(self, one: Sought, datum: Datum) -> None:
        """Uses a reading where it says something new."""
        value, word = number_of(datum), one.name.key
        if one.by is not None:
            if self._value(one) is None and not one.product:
                # U = R I is linear in what is not known.
                total = dict(one.top)
                for key, factor in one.by.items():
                    total[key] = total.get(key, Fraction(0)) - value * factor
                if self.system.add(total, {"": -one.plus} if one.plus else {}) is None:
                    self.readings[word] = (datum, value, Fraction(0))
            return
        if self.system.value(one.top) is not None:
            return
        self.system.add(one.top, {word: Fraction(1), "": -one.plus})
        self.readings[word] = (datum, value, _half_digit(datum))

    def _number(self, known: Known) -> Fraction:
        total = known.get("", Fraction(0))
        return total + sum((factor * self.readings[word][1] for word, factor in known.items() if word), Fraction(0))

    def _value(self, one: Sought) -> Fraction | None:
        top = self.system.value(one.top)
        if top is None:
            return None
        value = self._number(top) + one.plus
        if one.by is not None:
            by = self.system.value(one.by)
            if by is None:
                return None
            other = self._number(by)
            if not one.product and other == 0:
                return None
            value = value * other if one.product else value / other
        return abs(value) if one.size else value

    def _compare(self, one: Sought, datum: Datum, value: Fraction) -> None:
        """Whether a given value is what the circuit leads to, as far as the digits of readings say."""
        slack = _half_digit(datum)
        known = self.system.value(one.top) if one.by is None else None
        for word, factor in (known or {}).items():
            if word and word != one.name.key:
                slack += abs(factor) * self.readings[word][2]
        if abs(value - number_of(datum)) <= slack or (one.name.key in self.readings and one.by is None):
            return
        conventions = self.body.conventions
        shown = printed_datum(datum, conventions.style)
        made = printed_datum(self._datum(one, value), conventions.style)
        found, given = (plain_printed(printed, conventions.style, conventions.unit_style) for printed in (made, shown))
        self.problems.append(CircuitDisagrees(one.text.span, one.name.key, found, given, datum.where))

    # Results.

    def _datum(self, one: Sought, value: Fraction) -> Datum:
        unit = one.find.unit or one.unit
        exact = Real.of(value)
        answer = make_answer(Asked(one.find, unit, one.find.unit is not None), exact, self.body.conventions, {})
        quantity = Quantity(exact, unit, None, "", answer.rounded)
        where = f"line {one.text.span.line}"
        return Datum(one.name, quantity, "result", where, one.text.span, answer.printed, self._rests_on())

    def _rests_on(self) -> tuple[Datum, ...]:
        values = (value for rating in self.ratings.values() for value in (rating.emf, rating.resistance))
        data = [value.datum for value in values if value is not None and value.datum is not None]
        data += [datum for datum, _, _ in self.readings.values()]
        return tuple({id(datum): datum for datum in data}.values())


def _find(name: Name, body: CircuitText) -> Find:
    return read_find(Text(name.key, _first(body).span), body.conventions.form, body.conventions.decimal)


def _half_digit(datum: Datum) -> Fraction:
    """Half a unit of the last digit of a value; of a computed one, of what was answered."""
    quantity = datum.quantity
    if quantity.number is not None:
        half = last_digit(quantity.number, quantity.unit).fraction
        return half if half is not None else Fraction(0)
    scale = quantity.unit.scale.fraction
    if quantity.rounded is None or scale is None:
        return Fraction(0)
    return Fraction(1, 2) / Fraction(10) ** quantity.rounded.places * scale
