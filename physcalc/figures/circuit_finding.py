"""The values of a circuit's quantities: from the equations, and from readings that are given."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from ..checking.given import last_digit
from ..checking.printing import printed_datum
from ..checking.scope import Datum, GivenLayer, Quantity, Scope
from ..checking.setup import Asked
from ..exact import Real
from ..language.names import Name
from ..language.phrases import Find, read_find
from ..language.plain import plain_printed
from ..problems import Problem, Text
from ..problems.figures_circuits import CircuitDisagrees, ComponentNegative
from ..steps.working import make_answer
from .circuit_network import Network, equations
from .circuit_parts import CircuitText, Ratings
from .circuit_sought import Sought
from .circuit_system import Known, System
from .circuit_values import OHM, number_of


@dataclass(slots=True)
class Finder:
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
            known[one.name] = self._datum(one, value)
            hidden = self.scope.find(one.name)
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
        # What was found elsewhere is no reading, unless the author says so: a switch may have been closed since.
        layer = next((layer for layer in self.scope.layers if one.name in layer), None)
        if not isinstance(layer, GivenLayer):
            return None
        datum = layer[one.name]
        if datum.kind == "constant" or datum.quantity.unit.dimension != one.unit.dimension:
            return None
        return datum

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
        return total + sum(
            (factor * self.readings[word][1] for word, factor in known.items() if word), Fraction(0)
        )

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
        found, given = (
            plain_printed(printed, conventions.style, conventions.unit_style) for printed in (made, shown)
        )
        self.problems.append(CircuitDisagrees(one.text.span, one.name.key, found, given, datum.where))

    # Results.

    def _datum(self, one: Sought, value: Fraction) -> Datum:
        unit = one.find.unit or one.unit
        exact = Real.of(value)
        answer = make_answer(
            Asked(one.find, unit, one.find.unit is not None), exact, self.body.conventions, {}
        )
        quantity = Quantity(exact, unit, None, "", answer.rounded)
        where = one.text.span.line_in_words
        return Datum(one.name, quantity, "result", where, one.text.span, answer.printed, self._rests_on())

    def _rests_on(self) -> tuple[Datum, ...]:
        values = (value for rating in self.ratings.values() for value in (rating.emf, rating.resistance))
        data = [value.datum for value in values if value is not None and value.datum is not None]
        data += [datum for datum, _, _ in self.readings.values()]
        return tuple({id(datum): datum for datum in data}.values())


def first_line(body: CircuitText) -> Text:
    """The first line of the description."""
    return body.lines[0] if body.lines else Text("", body.span)


def _find(name: Name, body: CircuitText) -> Find:
    return read_find(Text(name.key, first_line(body).span), body.conventions.form, body.conventions.decimal)


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
