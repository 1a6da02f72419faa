"""Charges, masses and points on a line or in a plane."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations

from ..checking.given import last_digit
from ..checking.printing import printed_datum
from ..checking.scope import Datum, Quantity
from ..exact import Real, cos, sin, sqrt
from ..language.headings import read_heading
from ..language.names import Name, read_name
from ..language.plain import plain_printed
from ..language.statements import Conventions
from ..problems import Problem, Text, nearest
from ..problems.figures import FigureNameUnknown, FigurePhraseUnreadable
from ..problems.figures_situation import (
    SituationDistanceDiffers,
    SituationDistanceEnormous,
    SituationPlaceTaken,
    SituationThingsMany,
)
from ..problems.language import HeadingUnreadable
from ..units import Dimension
from .situation_phrases import BODY
from .situation_reading import Amount, AmountReader, Found, Line, dimension_of, fit
from .situation_scenes import AngleMark, Body, Measure, Placed, Plan

#: A distance so many times another cannot be meant.
ENORMOUS = 1000
#: More bodies than this make no picture that can be read.
MOST_BODIES = 12
_FORM = "such as charge q_B, 0.3 m right of q_A"
_BESIDE = r"(?P<far>.+?)\s+(?:to\s+the\s+)?(?:due\s+)?(?P<way>right|left|north|south|east|west)\s+of\s+(?P<other>.+)"
_OVER = r"(?P<far>.+?)\s+(?:vertically\s+)?(?P<way>above|below)\s+(?P<other>.+)"
_FROM = r"(?P<far>.+?)\s+from\s+(?P<other>\S+)\s+(?:at\s+)?(?P<way>.+)"
_MIDWAY = r"(?:mid-?way|half-?way)\s+between\s+(?P<first>.+?)\s+and\s+(?P<second>.+)"
_PAIR = r"\(\s*(?P<x>.+?)\s*(?:;|,\s)\s*(?P<y>[^;]+?)\s*\)"
_WAYS = {"above": "up", "below": "down"}

_HALF = Real.of(Fraction(1, 2))

Place = tuple[Real, Real]


@dataclass
class _Making:
    """A body whose place is being found."""

    text: Text
    body: Body
    kind: str
    sign: int
    sign_typed: bool
    place: Found | None = None
    how: str = ""
    far: Amount | None = None
    at: Place | None = None
    problems: list[Problem] = field(default_factory=list)


class PlanMaker:
    """Makes a plan of its lines."""

    def __init__(self, reader: AmountReader, problems: list[Problem]) -> None:
        self.reader = reader
        self.problems = problems
        self.makings: list[_Making] = []
        self.distances: list[tuple[Text, Measure]] = []
        self.angles: list[AngleMark] = []
        self.links: list[tuple[str, str]] = []
        self.scaled = True

    def plan(self, lines: Sequence[Text]) -> Plan | None:
        """The plan; None where something of it is wrong."""
        later = []
        for text in lines:
            if re.match(r"(?:distance|line|rod|string|angle)\b", text.value, re.IGNORECASE):
                later.append(text)
            else:
                self._caught(lambda text=text: self._body(text))  # type: ignore[misc]
        for text in later:
            self._caught(lambda text=text: self._relation(text))  # type: ignore[misc]
        if any(problem.level != "note" for problem in self.problems):
            return None
        self._settle()
        if any(making.at is None for making in self.makings):
            return None
        self._unfit()
        bodies = tuple(
            Placed(one.body, one.kind, one.sign, one.sign_typed, *one.at)  # type: ignore[arg-type, misc]
            for one in self.makings
        )
        measures = [
            Measure(one.place.part("other").value, one.body.key, one.far)
            for one in self.makings
            if one.far is not None and one.place is not None
        ]
        measures = [Measure(self._key(one.first), one.second, one.amount) for one in measures]
        measures += [measure for _, measure in self.distances]
        return Plan(bodies, tuple(measures), tuple(self.angles), tuple(self.links), self.scaled)

    def _caught(self, do: Callable[[], None]) -> None:
        try:
            do()
        except Problem as problem:
            self.problems.append(problem)

    # Lines.

    def _body(self, text: Text) -> None:
        line = Line(text)
        head = line.head(BODY, "a charge, a mass or a point", _FORM)
        word = head.word("word")
        kind = {"charge": "charge", "charged sphere": "charge", "electron": "charge", "proton": "charge"}.get(
            word, "point" if word == "point" else "mass"
        )
        labels = [self._label(head.part("label"), kind)] if "label" in head else []
        making = _Making(text, Body("", (), word), kind, 0, False)
        if "place" in head:
            making.place, making.how = head, "at"
        for pattern, how, form in (
            (_MIDWAY, "midway", "midway between A and B"),
            (_FROM, "way", "0.3 m from A at 30° above right"),
            (_BESIDE, "way", "0.3 m right of A"),
            (_OVER, "way", "0.3 m above A"),
            (r"at\s+(?P<place>.+)", "at", "at (0.3 m, 0.4 m)"),
        ):
            found = line.take(pattern, form)
            if found is not None and making.place is not None:
                raise FigurePhraseUnreadable(
                    found.text.span, "a place", found.text.value, "one place for each thing"
                )
            if found is not None:
                making.place, making.how = found, how
        while line.clauses and len(labels) < 3:
            clause = line.clauses.pop(0)
            labels.append(self._label(clause, kind))
        line.finish("this line")
        self._named(making, head, labels, text)

    def _label(self, text: Text, kind: str) -> Amount:
        if kind == "point":
            name = read_name(text.value)
            if name is None:
                raise FigurePhraseUnreadable(
                    text.span, "a point or its place", text.value, "such as point P, 0.1 m right of A"
                )
            return Amount(name, None)
        form = {"charge": ("charge", "C", "kg"), "mass": ("mass", "kg", "C", "N")}[kind]
        if any(
            fit(pattern, text)
            for pattern in (
                r".*\d.*\bof\b.*",
                r".*\b(?:between|above|below|from|right|left|north|south|east|west)\b.*",
            )
        ):
            raise FigurePhraseUnreadable(
                text.span, "a place", text.value, "0.3 m right of A, 0.3 m above A or midway between A and B"
            )
        return self.reader.amount(
            text, *form, lenient=read_name(text.value) is not None and len(text.value) == 1
        )

    def _named(self, making: _Making, head: Found, labels: list[Amount], text: Text) -> None:
        name = next((label.name for label in labels if label.name is not None), None)
        key = name.key if name is not None else f"{head.word('word')} {len(self.makings) + 1}"
        if len(self.makings) >= MOST_BODIES:
            raise SituationThingsMany(text.span, MOST_BODIES)
        if any(other.body.key == key for other in self.makings):
            raise FigurePhraseUnreadable(
                text.span, "one thing", text.value, f"each thing once: {key} is there already"
            )
        making.body = Body(key, tuple(labels), making.body.word)
        typed = {"positive": 1, "negative": -1}.get(head.word("sign"), 0)
        if head.word("word") in ("electron", "proton"):
            typed = 1 if head.word("word") == "proton" else -1
        value = next(
            (
                label.value
                for label in labels
                if label.datum is not None and label.datum.quantity.unit.dimension == _charge()
            ),
            None,
        )
        making.sign_typed = bool(typed)
        making.sign = typed or (value.sign() if value is not None and making.kind == "charge" else 0)
        self.makings.append(making)

    def _relation(self, text: Text) -> None:
        distance = fit(r"distance\s+(?P<far>.+?)\s+between\s+(?P<first>.+?)\s+and\s+(?P<second>.+)", text)
        link = fit(
            r"(?:line|rod|string)\s+(?:between\s+|from\s+)?(?P<first>.+?)\s+(?:and|to)\s+(?P<second>.+)", text
        )
        angle = fit(
            r"angle\s+(?P<angle>.+?)\s+at\s+(?P<corner>.+?)\s+between\s+(?P<first>.+?)\s+and\s+(?P<second>.+)",
            text,
        )
        if distance is not None:
            amount = self.reader.length(distance.part("far"))
            first, second = (self._one(distance.part(one)).body.key for one in ("first", "second"))
            self.distances.append((text, Measure(first, second, amount)))
        elif link is not None:
            first, second = (self._one(link.part(one)).body.key for one in ("first", "second"))
            self.links.append((first, second))
        elif angle is not None:
            amount = self.reader.angle(angle.part("angle"), "angle", 180)
            corner, first, second = (
                self._one(angle.part(one)).body.key for one in ("corner", "first", "second")
            )
            self.angles.append(AngleMark(corner, first, second, amount))
        else:
            form = "distance r between A and B, line from A to B, or angle θ at A between B and C"
            raise FigurePhraseUnreadable(text.span, "a relation of two things", text.value, form)

    def _key(self, typed: str) -> str:
        name = read_name(typed)
        return name.key if name is not None else typed

    def _one(self, text: Text) -> _Making:
        key = self._key(text.value)
        for making in self.makings:
            if making.body.key == key:
                return making
        known = tuple(making.body.key for making in self.makings)
        raise FigureNameUnknown(text.span, text.value, known, nearest(key, known))

    # Places.

    def _settle(self) -> None:
        """Finds the places, those first that the others are measured from."""
        waiting = []
        for making in self.makings:
            if making.how == "way" and making.place is not None:
                self._caught(lambda making=making: self._read_far(making))  # type: ignore[misc]
        if self.problems and any(problem.level != "note" for problem in self.problems):
            return
        known = sorted(
            (float(one.far.size), one.far.size)
            for one in self.makings
            if one.far is not None and one.far.size is not None
        )
        # A distance that is not known is drawn in between: the picture is not to scale then.
        usual = known[len(known) // 2][1] * Real.of(Fraction(3, 5)) if known else Real.of(1)
        anchors = [making for making in self.makings if making.how == "at"]
        if not anchors:
            first = next((making for making in self.makings if making.place is None), None)
            if first is not None:
                first.at = (Real.of(0), Real.of(0))
        waiting = [making for making in self.makings if making.at is None]
        while waiting:
            settled = len(waiting)
            for making in waiting:
                try:
                    making.at = self._place(making, usual)
                except Problem as problem:
                    self.problems.append(problem)
                    return
            waiting = [making for making in waiting if making.at is None]
            if len(waiting) == settled:
                stuck = next((one for one in waiting if one.place is None), None)
                if stuck is not None and any(one.at is not None for one in self.makings):
                    self._beside_last(stuck, usual)
                    waiting.remove(stuck)
                    continue
                text = waiting[0].place.text if waiting[0].place is not None else waiting[0].text
                form = "the place of one thing without naming another"
                self.problems.append(FigurePhraseUnreadable(text.span, "a place", text.value, form))
                return

    def _read_far(self, making: _Making) -> None:
        assert making.place is not None
        making.far = self.reader.length(making.place.part("far"))
        self._one(making.place.part("other"))

    def _place(self, making: _Making, usual: Real) -> Place | None:
        found = making.place
        if found is None:
            return self._by_distance(making)
        if making.how == "at":
            return self._typed(found.part("place"))
        if making.how == "midway":
            one, other = (self._one(found.part(name)).at for name in ("first", "second"))
            if one is None or other is None:
                return None
            return (one[0] + other[0]) * _HALF, (one[1] + other[1]) * _HALF
        base = self._one(found.part("other")).at
        if base is None:
            return None
        assert making.far is not None
        far = making.far.size
        if far is None:
            self.scaled, far = False, usual
        way = found.part("way")
        try:
            heading = read_heading(
                Text(_WAYS.get(way.value.lower(), way.value), way.span), self.reader.conventions.decimal
            )
        except HeadingUnreadable:
            raise HeadingUnreadable(way.span, way.value) from None
        turn = heading.direction()
        return base[0] + far * cos(turn), base[1] + far * sin(turn)

    def _by_distance(self, making: _Making) -> Place | None:
        """To the right of the first thing that a typed distance joins it to."""
        for _, measure in self.distances:
            pair = {measure.first, measure.second}
            if making.body.key in pair and measure.amount.size is not None:
                other = next(iter(pair - {making.body.key}), making.body.key)
                base = next(one.at for one in self.makings if one.body.key == other)
                if base is not None:
                    return base[0] + measure.amount.size, base[1]
        return None

    def _beside_last(self, making: _Making, usual: Real) -> None:
        """Behind the others: nothing says where it is."""
        right = max((one.at for one in self.makings if one.at is not None), key=lambda at: float(at[0]))
        making.at, self.scaled = (right[0] + usual, right[1]), False

    def _typed(self, text: Text) -> Place:
        """A named point of the document, a pair of coordinates, or one on the line."""
        points = self.reader.conventions.points
        place = points.place(text.value) if points is not None else None
        if place is not None:
            return place
        pair = fit(_PAIR, text)
        if pair is not None:
            x, y = (self.reader.known(pair.part(one), "coordinate", "m", "").value for one in ("x", "y"))
            assert x is not None
            assert y is not None
            return x, y
        value = self.reader.known(text, "coordinate", "m", "").value
        assert value is not None
        return value, Real.of(0)

    # What cannot be.

    def _unfit(self) -> None:
        apart: list[tuple[Real, _Making]] = []
        for one, other in combinations(self.makings, 2):
            assert one.at is not None
            assert other.at is not None
            dx, dy = other.at[0] - one.at[0], other.at[1] - one.at[1]
            if dx.sign() == 0 and dy.sign() == 0:
                self.problems.append(SituationPlaceTaken(other.text.span, other.body.key, one.body.key))
                return
            apart.append((sqrt(dx * dx + dy * dy), other))
        for text, measure in self.distances:
            self._differs(text, measure)
        if not self.scaled or not apart:
            return
        sizes = sorted(apart, key=lambda pair: float(pair[0]))
        ratio = float(sizes[-1][0] / sizes[0][0])
        if ratio > ENORMOUS:
            far = sizes[-1][1]
            place = far.place.text if far.place is not None else far.text
            self.problems.append(SituationDistanceEnormous(place.span, far.body.key, f"{ratio:.0f}"))

    def _differs(self, text: Text, measure: Measure) -> None:
        """Whether a typed distance is that of the places; either may be rounded as the typed one is."""
        one, other = (
            next(m for m in self.makings if m.body.key == key) for key in (measure.first, measure.second)
        )
        assert one.at is not None
        assert other.at is not None
        datum = measure.amount.datum
        if datum is None or not self.scaled:
            return
        dx, dy = other.at[0] - one.at[0], other.at[1] - one.at[1]
        found = sqrt(dx * dx + dy * dy)
        number = datum.quantity.number
        slack = (
            last_digit(number, datum.quantity.unit)
            if number is not None
            else found * Real.of(Fraction(1, 100))
        )
        if (abs(found - datum.quantity.value) - slack).sign() > 0:
            conventions = self.reader.conventions
            printed = _printed(
                Datum(Name("r"), Quantity(found, datum.quantity.unit), "given", ""), conventions
            )
            typed = _printed(datum, conventions)
            self.problems.append(
                SituationDistanceDiffers(text.span, typed, measure.first, measure.second, printed)
            )


def _charge() -> Dimension:
    return dimension_of("C")


def _printed(datum: Datum, conventions: Conventions) -> str:
    return plain_printed(printed_datum(datum, conventions.style), conventions.style, conventions.unit_style)
