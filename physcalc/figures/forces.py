"""Free-body diagrams: the forces on one body with their directions, and whether they balance."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar, Literal

from ..checking.given import describe, last_digit
from ..checking.printing import printed_datum
from ..checking.scope import Datum, Plane, Quantity, Scope
from ..exact import Form, Real, atan2, cos, sin, sqrt
from ..language.names import Name, read_name
from ..language.plain import plain_printed
from ..language.statements import GivenText
from ..problems import Problem, Text, nearest
from ..problems.figures import (
    FigureNameUnknown,
    FigurePhraseUnreadable,
    ForceDimension,
    ForceSizeMissing,
    ForcesUnbalanced,
    ForceUndirected,
)
from ..units import read_unit
from .drawn import Diagram, Drawn, FigureKind, FigureText
from .reading import (
    Direction,
    Slope,
    check_size,
    direction_of,
    name_of,
    read_slope,
    size_of,
    split_direction,
    value_of,
)

_NEWTON = read_unit(Text("N"))
#: More forces than this make no picture that can be read.
MOST_FORCES = 12

Along = Literal["", "horizontally", "vertically", "along the slope", "perpendicular to the slope"]
_ALONG: tuple[Along, ...] = ("horizontally", "vertically", "along the slope", "perpendicular to the slope")
_SCALE = re.compile(r"1\s*cm\s*(?:for|=|to|:)\s*(.+)")


@dataclass(frozen=True, slots=True)
class ForcesText(FigureText):
    """What an author says of a free-body diagram.

    Attributes:
        forces: each force with its value and direction: `12 N, down`, `m g, down`, `up`.
        on: what the forces act on: "the crate"; None for a bare point.
        shape: `dot` or `block`; None where not said.
        slope: the angle of the slope it stands on; None for none.
        key: what each label is.
        balance: whether the forces must balance, and along what; None where not said.
        components: forces whose components are drawn dashed.
        scale: `yes`, `no`, or `1 cm for 10 N`; None where not said.
        values: whether sizes stand beside the labels; None where not said.
    """

    KIND: ClassVar[FigureKind] = "forces"

    forces: tuple[GivenText, ...] = ()
    on: Text | None = None
    shape: Text | None = None
    slope: Text | None = None
    key: tuple[tuple[Text, Text], ...] = ()
    balance: Text | None = None
    components: Text | None = None
    scale: Text | None = None
    values: Text | None = None


@dataclass(frozen=True, slots=True)
class Force:
    """A force.

    Attributes:
        name: its label.
        direction: where it points.
        datum: its size; None where that is not known.
        meaning: what it is, for the key; empty where the author does not say.
        components: whether its components are drawn.
    """

    name: Name
    direction: Direction
    datum: Datum | None
    meaning: str = ""
    components: bool = False

    @property
    def size(self) -> Real | None:
        """Its size in newtons."""
        return None if self.datum is None else size_of(self.datum)


@dataclass(frozen=True, slots=True)
class ForcesDiagram(Diagram):
    """A free-body diagram.

    Attributes:
        forces: the forces, in the author's order.
        on: what they act on; empty for a bare point.
        block: whether the body is drawn as a block.
        slope: the slope it stands on; None for none.
        scale: newtons for a centimetre, where the author says it; None for a scale that fits.
        scale_unit: how that is printed; empty for none.
        scaled: whether arrows are as long as their sizes say; False for arrows of one length.
        values: whether sizes stand beside the labels.
    """

    KIND: ClassVar[FigureKind] = "forces"

    forces: tuple[Force, ...]
    on: str = ""
    block: bool = False
    slope: Slope | None = None
    scale: Real | None = None
    scale_unit: str = ""
    scaled: bool = False
    values: bool = False


def forces(body: ForcesText, scope: Scope) -> Drawn:
    """The free-body diagram that an author describes.

    Args:
        body: what is said.
        scope: what names mean there.

    Returns:
        The diagram; None where a force cannot be drawn.
    """
    problems: list[Problem] = []
    slope = read_slope(body.slope, scope, body.conventions) if body.slope is not None else None
    found: list[Force] = []
    for line in body.forces[:MOST_FORCES]:
        try:
            force = _force(line, scope, body, slope)
        except Problem as problem:
            problems.append(problem)
            continue
        if any(other.name == force.name for other in found):
            problems.append(
                FigurePhraseUnreadable(line.name.span, "one force", line.name.value, "each force once")
            )
            continue
        found.append(force)
    for line in body.forces[MOST_FORCES:]:
        form = f"at most {MOST_FORCES} forces, or nobody could read the picture"
        problems.append(
            FigurePhraseUnreadable(line.name.span, "a force of this figure", line.name.value, form)
        )
    complete = not problems
    found = _keyed(body, _with_components(body, found, problems), problems)
    if complete:
        problems += _balance(body, found, slope)
    scale, scale_unit, scaled = _scale(body, scope, found, problems)
    if not complete or not found:
        return Drawn(None, {}, tuple(problems))
    return Drawn(
        ForcesDiagram(
            tuple(found),
            body.on.value.strip() if body.on is not None else "",
            _block(body, problems, slope),
            slope,
            scale,
            scale_unit,
            scaled,
            _yes(body.values, "values", problems, False),
        ),
        {},
        tuple(problems),
    )


def _force(line: GivenText, scope: Scope, body: ForcesText, slope: Slope | None) -> Force:
    name = name_of(line.name)
    conventions = body.conventions
    text, direction = split_direction(line.value, conventions, slope)
    datum: Datum | None = None
    if text is not None:
        datum = value_of(text, scope, conventions, line.name.value)
    else:
        known = scope.find(name)
        # A letter may mean another thing outside: N is a force here and a number of turns there.
        if known is not None and known.quantity.unit.dimension == _NEWTON.dimension:
            datum = known
    if datum is not None and datum.quantity.unit.dimension != _NEWTON.dimension:
        raise ForceDimension(line.value.span, name.key, datum.quantity.unit.text())
    if datum is not None:
        check_size(datum, text or line.value)
    if direction is None and datum is not None:
        direction = direction_of(datum)
    if direction is None:
        raise ForceUndirected(line.value.span, name.key, line.value.value.strip())
    return Force(name, direction, datum)


def _with_components(body: ForcesText, found: list[Force], problems: list[Problem]) -> list[Force]:
    if body.components is None:
        return found
    asked = set()
    for piece in re.finditer(r"[^,\s]+", body.components.value):
        text = body.components.part(piece.start(), piece.end())
        force = _known(text, found, body, problems)
        if force is not None:
            asked.add(force.name)
    return [replace(force, components=force.name in asked) for force in found]


def _keyed(body: ForcesText, found: list[Force], problems: list[Problem]) -> list[Force]:
    meanings: dict[Name, str] = {}
    for key, value in body.key:
        force = _known(key, found, body, problems)
        if force is not None:
            meanings[force.name] = value.value.strip()
    return [replace(force, meaning=meanings.get(force.name, "")) for force in found]


def _known(text: Text, found: Sequence[Force], body: ForcesText, problems: list[Problem]) -> Force | None:
    try:
        name = name_of(text)
    except Problem as problem:
        problems.append(problem)
        return None
    for force in found:
        if force.name == name:
            return force
    if name in {read_name(line.name.value.strip()) for line in body.forces}:
        return None  # What is wrong with that force is told already.
    known = tuple(force.name.key for force in found)
    problems.append(FigureNameUnknown(text.span, name.key, known, nearest(name.key, known)))
    return None


def _block(body: ForcesText, problems: list[Problem], slope: Slope | None) -> bool:
    if body.shape is None:
        return slope is not None
    word = body.shape.value.strip()
    if word not in ("dot", "block"):
        near = nearest(word, ("dot", "block"))
        problems.append(FigurePhraseUnreadable(body.shape.span, "a shape", word, "dot or block", near))
    return word == "block"


def _yes(text: Text | None, what: str, problems: list[Problem], otherwise: bool) -> bool:
    if text is None:
        return otherwise
    word = text.value.strip()
    if word not in ("yes", "no"):
        problems.append(FigurePhraseUnreadable(text.span, what, word, "yes or no"))
    return word == "yes"


def _scale(
    body: ForcesText, scope: Scope, found: Sequence[Force], problems: list[Problem]
) -> tuple[Real | None, str, bool]:
    known = bool(found) and all(force.size is not None and force.size.sign() > 0 for force in found)
    if body.scale is None:
        sizes = [force.size for force in found if force.size is not None]
        # Arrows to scale say more, but one of a tenth the length of another cannot be seen.
        fits = known and (min(sizes) * Real.of(8) - max(sizes)).sign() >= 0
        return None, "", fits
    typed = body.scale.value.strip()
    if typed == "no":
        return None, "", False
    if not known and found:
        missing = next(force for force in found if force.size is None or force.size.sign() == 0)
        problems.append(ForceSizeMissing(body.scale.span, missing.name.key))
        return None, "", False
    if typed == "yes":
        return None, "", True
    said = _SCALE.fullmatch(typed)
    if said is None:
        form = "yes, no or 1 cm for 10 N"
        problems.append(FigurePhraseUnreadable(body.scale.span, "a scale", typed, form))
        return None, "", False
    text = body.scale.part(said.start(1) + len(body.scale.value) - len(body.scale.value.lstrip()))
    try:
        datum = value_of(text, scope, body.conventions)
        check_size(datum, text)
    except Problem as problem:
        problems.append(problem)
        return None, "", False
    size = datum.quantity.value
    if datum.quantity.unit.dimension != _NEWTON.dimension or size.sign() <= 0:
        problems.append(ForceDimension(text.span, "the scale", datum.quantity.unit.text()))
        return None, "", False
    longest = max(force.size for force in found if force.size is not None)
    if float(longest / size) > 12:
        form = "a scale at which the longest arrow has at most 12 cm"
        problems.append(FigurePhraseUnreadable(body.scale.span, "a scale of this figure", typed, form))
        return None, "", False
    printed = printed_datum(datum, body.conventions.style)
    return size, plain_printed(printed, body.conventions.style, body.conventions.unit_style), True


# Balance.


def _balance(body: ForcesText, found: Sequence[Force], slope: Slope | None) -> list[Problem]:
    """Whether the forces balance as the author says.

    The sum of the components of the forces along a line is zero (Newton's first law). Each size may lie off by half
    a unit of the last digit with which it is printed, and so may the sum.
    """
    text = body.balance
    if text is None or text.value.strip() == "no":
        return []
    along = text.value.strip()
    if along != "yes" and along not in _ALONG:
        form = f"yes, no, {', '.join(_ALONG[:-1])} or {_ALONG[-1]}"
        return [FigurePhraseUnreadable(text.span, "what must balance", along, form, nearest(along, _ALONG))]
    if "slope" in along and slope is None:
        return [FigurePhraseUnreadable(text.span, "what must balance", along, "yes: there is no slope here")]
    for force in found:
        if force.datum is None and _counts(force, along, slope):
            return [ForceSizeMissing(text.span, force.name.key)]
    turn = slope.up if slope is not None and "slope" in along else Real.of(0)
    # Axes: x along what is asked, y at right angles to it.
    x, y, slack_x, slack_y = Real.of(0), Real.of(0), Real.of(0), Real.of(0)
    for force in found:
        size = force.size
        if size is None:
            continue
        off = _half_digit(force.datum, body)
        cosine, sine = cos(force.direction.angle - turn), sin(force.direction.angle - turn)
        x, y = x + size * cosine, y + size * sine
        slack_x, slack_y = slack_x + off * abs(cosine), slack_y + off * abs(sine)
    over_x = (abs(x) - slack_x).sign() > 0
    over_y = (abs(y) - slack_y).sign() > 0
    if along == "yes":
        if not (over_x or over_y):
            return []
        return [ForcesUnbalanced(text.span, _printed(x, y, turn, body), "", _sizes(found, body))]
    if along in ("horizontally", "along the slope"):
        y, over = Real.of(0), over_x
    else:
        x, over = Real.of(0), over_y
    if not over:
        return []
    return [ForcesUnbalanced(text.span, _printed(x, y, turn, body), along, _sizes(found, body))]


def _sizes(forces: Sequence[Force], body: ForcesText) -> str:
    """Each force with its size, and where that comes from."""
    conventions = body.conventions
    known = [replace(force.datum, name=force.name) for force in forces if force.datum is not None]
    return ", ".join(describe(datum, conventions.style, conventions.unit_style) for datum in known)


def _counts(force: Force, along: str, slope: Slope | None) -> bool:
    """Whether a force has a component along what must balance."""
    turn = slope.up if slope is not None and "slope" in along else Real.of(0)
    if along in ("horizontally", "along the slope"):
        return cos(force.direction.angle - turn).sign() != 0
    if along == "yes":
        return True
    return sin(force.direction.angle - turn).sign() != 0


def _half_digit(datum: Datum | None, body: ForcesText) -> Real:
    """Half a unit of the last digit with which a size is printed, in newtons; nothing for exact data."""
    if datum is None:
        return Real.of(0)
    quantity = datum.quantity
    if quantity.number is not None:
        return last_digit(quantity.number, quantity.unit)
    places = quantity.rounded.places if quantity.rounded is not None else _places(body.conventions.form)
    return Real.of(Fraction(1, 2) / Fraction(10) ** places) * quantity.unit.scale


def _places(form: Form) -> int:
    return form.count if form.kind == "places" else 2


def _printed(x: Real, y: Real, turn: Real, body: ForcesText) -> str:
    """A net force as a text with its direction."""
    size = sqrt(x * x + y * y)
    plane = Plane(x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn))
    datum = Datum(Name("F", "net"), Quantity(size, _NEWTON), "result", "")
    style = body.conventions.style
    text = plain_printed(printed_datum(datum, style), style, body.conventions.unit_style)
    turned = math.degrees(float(atan2(plane.y, plane.x))) % 360
    return f"{text}, {_words(turned, style.decimal)}"


def _words(degrees: float, decimal: str) -> str:
    for turn, word in (
        (0, "to the right"),
        (90, "up"),
        (180, "to the left"),
        (270, "down"),
        (360, "to the right"),
    ):
        if abs(degrees - turn) < 0.05:
            return word
    return f"at {degrees:.1f}° anticlockwise from the right".replace(".", decimal)
