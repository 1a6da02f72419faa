"""What figures read alike: values and directions as an author types them, in scope."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from ..checking.given import read_given
from ..checking.scope import Datum, GivenLayer, Scope
from ..exact import PI, Real
from ..language.directions import printed_direction
from ..language.headings import Heading, own_heading_at, read_heading
from ..language.names import Name, read_name
from ..language.statements import Conventions, GivenText
from ..language.words import english_direction
from ..problems import Text
from ..problems.figures import FigureValueExtreme
from ..problems.language import AngleUnitMissing, HeadingUnreadable, NameUnreadable
from ..units import ONE

#: A name that no author's can be: under it a value is read that has none.
_NAMELESS = "Q_{value}"
_SLOPE = re.compile(r"(?P<way>up|down)(?: along)? the (?:slope|incline|ramp|plane|hill)", re.IGNORECASE)
_NORMAL = re.compile(
    r"(?:perpendicular|normal|at right angles) to the (?:slope|incline|ramp|plane|surface)"
    r"(?P<into>,? (?:into|down|towards) (?:it|the (?:slope|incline|ramp|plane|surface)))?",
    re.IGNORECASE,
)
_HALF = PI * Real.of(Fraction(1, 2))
#: Between these sizes in SI units squares and products of a few values fit a machine number.
_LEAST, _MOST = Real.of(Fraction(1, 10**60)), Real.of(10**60)


def value_of(text: Text, scope: Scope, conventions: Conventions, name: str = "") -> Datum:
    """The value of a text: a number with its unit, a name in scope, or an expression.

    Args:
        text: what was typed.
        scope: what names mean.
        conventions: the settings in force.
        name: the name it is to have; a name that none can be where it is empty.

    Raises:
        Problem: it cannot be read, or a name in it has no value.
    """
    known = read_name(text.value)
    if known is not None and (found := scope.find(known)) is not None:
        return found
    line = GivenText(Text(name or _NAMELESS, text.span), text)
    layer, problems = read_given([line], scope, conventions)
    for problem in problems:
        if problem.level != "note":
            raise problem
    for datum in layer.values():
        return datum
    left = layer.unused() if isinstance(layer, GivenLayer) else []
    raise left[0] if left else NameUnreadable(text.span, text.value)


def check_size(datum: Datum, text: Text) -> None:
    """Looks whether a picture can be reckoned with a value: places in it are machine numbers.

    Raises:
        FigureValueExtreme: it cannot.
    """
    size = abs(datum.quantity.value)
    if size.sign() and not _LEAST < size < _MOST:
        raise FigureValueExtreme(text.span, text.value)


def name_of(text: Text) -> Name:
    """The name that a text spells.

    Raises:
        NameUnreadable: it is none.
    """
    name = read_name(text.value)
    if name is None or name.component:
        raise NameUnreadable(text.span, text.value)
    return name


@dataclass(frozen=True, slots=True)
class Direction:
    """A direction in a picture.

    Attributes:
        angle: anticlockwise from the right, in radians.
        words: as typed, in the one spelling in which it is printed.
        heading: the phrase it was read from; None for one along a slope.
    """

    angle: Real
    words: str
    heading: Heading | None = None

    @property
    def degrees(self) -> float:
        """The angle in degrees."""
        return float(self.angle * Real.of(180) / PI)


@dataclass(frozen=True, slots=True)
class Slope:
    """A slope in a picture.

    Attributes:
        angle: how steep, in radians.
        left: whether it rises to the left.
        datum: the angle as data, for its label.
    """

    angle: Real
    left: bool
    datum: Datum

    @property
    def up(self) -> Real:
        """The direction up the slope: anticlockwise from the right, in radians."""
        return PI - self.angle if self.left else self.angle

    @property
    def normal(self) -> Real:
        """The direction away from the slope, at right angles to it."""
        return self.up - _HALF if self.left else self.up + _HALF


def read_slope(text: Text, scope: Scope, conventions: Conventions) -> Slope:
    """Read `30°`, `θ`, `30° rising to the left`.

    Raises:
        Problem: its angle cannot be read, has no unit, or is none between 0° and 90°.
    """
    found = re.fullmatch(r"(.+?)(?:,?\s+(?:rising\s+)?(?:up\s+)?to the (left|right))?", text.value)
    assert found is not None
    datum = value_of(text.part(0, found.end(1)), scope, conventions, "θ")
    angle, number = datum.quantity.value, datum.quantity.number
    if number is not None and datum.quantity.unit == ONE:
        raise AngleUnitMissing(datum.span or text.span, "", number.typed, datum.name.key)
    if not datum.quantity.unit.angle or angle.sign() <= 0 or (angle - _HALF).sign() >= 0:
        raise HeadingUnreadable(text.span, text.value)
    return Slope(angle, found[2] == "left", datum)


def read_direction(text: Text, conventions: Conventions, slope: Slope | None = None) -> Direction | None:
    """Read a direction: `up`, `to the left`, `at 30° above right`, `at bearing 40°`, `up the slope`,
    `perpendicular to the slope`; None where a text is none.

    Raises:
        HeadingUnreadable: it begins like a direction but cannot be read, or names a slope that there is not.
    """
    typed = text.part(0)
    typed = Text(english_direction(typed.value, conventions.lang), typed.span)
    words = typed.value
    along, across = _SLOPE.fullmatch(words), _NORMAL.fullmatch(words)
    if along or across:
        if slope is None:
            raise HeadingUnreadable(typed.span, words)
        if along is not None:
            angle = slope.up if along["way"].lower() == "up" else slope.up + PI
            return Direction(angle, printed_direction(words))
        assert across is not None
        angle = slope.normal + PI if across["into"] else slope.normal
        return Direction(angle, " ".join(words.split()))
    at = re.match(r"at\s+(?:an\s+angle\s+of\s+)?", words)
    inner = typed.part(at.end()) if at else typed
    try:
        heading = read_heading(inner, conventions.decimal, conventions.lang)
    except HeadingUnreadable:
        if at or re.match(r"[0-9.,]+\s*(?:°|deg)", words):
            raise
        return None
    if heading.between is not None:
        return None
    if not _few_turns(heading):
        raise FigureValueExtreme(typed.span, words)
    return Direction(heading.direction(), _printed(words, heading), heading)


def _few_turns(heading: Heading) -> bool:
    """Whether an angle is one that can be drawn: of two turns at most."""
    return heading.angle is None or abs(heading.angle.value) <= 720


def _printed(words: str, heading: Heading) -> str:
    if heading.angle is None and heading.kind == "screen":
        return printed_direction(words)
    return " ".join(words.split())


def split_direction(
    text: Text, conventions: Conventions, slope: Slope | None
) -> tuple[Text | None, Direction | None]:
    """A value and its direction: `12 N, down`, `m g, down`, `12 N at 30°`, `up`; either may be missing.

    Raises:
        Problem: the direction cannot be read.
    """
    whole = read_direction(text, conventions, slope)
    if whole is not None:
        return None, whole
    # "at 30° above the horizontal, to the right" holds a comma itself.
    at = re.search(r",?\sat\s", text.value)
    if at is not None:
        direction = read_direction(text.part(at.end() - len("at ")), conventions, slope)
        if direction is not None:
            return text.part(0, at.start()), direction
    own = own_heading_at(text.value, conventions.lang)
    if own is not None:
        return text.part(0, own), read_direction(text.part(own), conventions, slope)
    commas = [found.start() for found in re.finditer(r",\s", text.value)]
    for comma in commas:
        direction = read_direction(text.part(comma + 2), conventions, slope)
        if direction is not None:
            return text.part(0, comma), direction
    if commas:
        raise HeadingUnreadable(text.part(commas[-1] + 2).span, text.value[commas[-1] + 2 :].strip())
    return text, None


def direction_of(datum: Datum) -> Direction | None:
    """The direction that a value itself has: of a vector in a plane, or of a signed value along a usual axis."""
    from ..exact import atan2

    quantity = datum.quantity
    if quantity.plane is not None:
        plane = quantity.plane
        if plane.x.sign() == 0 and plane.y.sign() == 0:
            return None
        heading = plane.heading if plane.heading is not None and _few_turns(plane.heading) else None
        return Direction(atan2(plane.y, plane.x), "", heading)
    if not quantity.direction:
        return None
    try:
        given = read_heading(Text(quantity.direction), ".")
    except HeadingUnreadable:
        return None
    if not _few_turns(given):
        return None
    return Direction(given.direction(), quantity.direction, given)


def size_of(datum: Datum) -> Real:
    """The size of a value, whatever its direction."""
    return abs(datum.quantity.value)
