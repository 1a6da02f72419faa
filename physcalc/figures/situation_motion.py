"""Bodies before and after a collision; the path of a projectile."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Literal

from ..exact import Real, cos
from ..language.names import Name, read_name
from ..problems import Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import SituationPartMissing
from .reading import direction_of
from .situation_phrases import THINGS
from .situation_reading import Amount, AmountReader, Line, dimension_of, fit
from .situation_scenes import Body, Collision, Mover, Projectile

_MOST_MOVERS = 4
_WHO = (
    r"(?P<who>.+?)(?:\s+(?P<rest>(?:is\s+|are\s+)?at\s+rest)"
    r"|\s+(?:moves?\s+|moving\s+)?(?:to\s+the\s+)?(?P<before>left\s+|right\s+)?(?:at|with)\s+(?P<speed>.+?)"
    r"(?:,?\s+(?:to\s+the\s+)?(?P<after>left|right))?)?"
)
_FORM = "such as m_1 at v_1, right; m_2 at rest"


def collision(lines: Sequence[Text], reader: AmountReader) -> Collision:
    """Bodies before and after.

    Raises:
        Problem: the first thing that is wrong.
    """
    rows: dict[str, tuple[Mover, ...]] = {}
    for text in lines:
        head = fit(r"(?P<when>before|after)\s*:\s*(?P<what>.+)", text)
        if head is None:
            raise FigurePhraseUnreadable(
                text.span, "a row of a collision", text.value, f"before: {_FORM[8:]}"
            )
        when = head.word("when")
        if when in rows:
            raise FigurePhraseUnreadable(text.span, "one row", text.value, "before: once and after: once")
        rows[when] = _row(head.part("what"), reader)
    times: tuple[Literal["before", "after"], ...] = ("before", "after")
    return Collision(tuple((when, rows[when]) for when in times if when in rows))


def _row(what: Text, reader: AmountReader) -> tuple[Mover, ...]:
    pieces, start = [], 0
    for gap in re.finditer(";", what.value):
        pieces.append(what.part(start, gap.start()))
        start = gap.end()
    pieces.append(what.part(start))
    if len(pieces) > _MOST_MOVERS:
        raise FigurePhraseUnreadable(
            pieces[_MOST_MOVERS].span,
            "a body of this row",
            pieces[_MOST_MOVERS].value,
            f"at most {_MOST_MOVERS}",
        )
    return tuple(_mover(piece, reader) for piece in pieces)


def _mover(piece: Text, reader: AmountReader) -> Mover:
    found = fit(_WHO, piece)
    if found is None or not piece.value:
        raise FigurePhraseUnreadable(piece.span, "a body and its velocity", piece.value, _FORM)
    bodies = tuple(_body(text, reader) for text in _parts(found.part("who")))
    if "rest" in found:
        return Mover(bodies, None, 0, True)
    if "speed" not in found:
        # A comma with a word that is no direction is a slip, not a name.
        if "," in found.part("who").value:
            raise FigurePhraseUnreadable(piece.span, "a body and its velocity", piece.value, _FORM)
        return Mover(bodies, None, 0, False)
    speed = reader.amount(found.part("speed"), "velocity", "m/s")
    word = (found.word("after") or found.word("before")).strip()
    way = {"right": 1, "left": -1}.get(word, 0)
    if not way and speed.datum is not None:
        direction = direction_of(speed.datum)
        if direction is not None:
            across = cos(direction.angle)
            way = across.sign()
        elif speed.value is not None:
            way = speed.value.sign()
    if not way:
        if speed.value is not None and speed.value.sign() == 0:
            return Mover(bodies, None, 0, True)
        raise SituationPartMissing(
            piece.span, f"the velocity of {bodies[0].key}", "its direction", f"{piece.value}, right"
        )
    return Mover(bodies, speed, way, False)


def _parts(who: Text) -> list[Text]:
    parts, start = [], 0
    for gap in re.finditer(r"\s+and\s+|\s*\+\s*", who.value):
        parts.append(who.part(start, gap.start()))
        start = gap.end()
    last = who.part(start)
    together = re.search(r"\s+together$", last.value)
    return [*parts, last if together is None else last.part(0, together.start())]


def _body(text: Text, reader: AmountReader) -> Body:
    found = fit(rf"(?:the\s+)?(?P<word>{THINGS})\s+(?P<label>.+)", text)
    label = found.part("label") if found is not None else text
    amount = reader.amount(
        label, "mass", "kg", lenient=read_name(label.value) is not None and len(label.value) == 1
    )
    key = amount.name.key if amount.name is not None else label.value
    word = found.word("word") if found is not None else "block"
    return Body(key, (amount,), word)


def projectile(lines: Sequence[Text], reader: AmountReader) -> Projectile:
    """The path of a projectile.

    Raises:
        Problem: the first thing that is wrong.
    """
    for text in lines[1:]:
        raise FigurePhraseUnreadable(
            text.span, "a part of a projectile", text.value, "one projectile in each figure"
        )
    line = Line(lines[0])
    head = line.head(r"projectile(?:\s+(?P<label>.+))?", "a projectile", "projectile, speed v_i, angle θ")
    label = reader.amount(head.part("label"), "mass", "kg", lenient=True) if "label" in head else None
    speed = angle = height = top = reach = None
    below = False
    if (found := line.take(r"(?:speed|velocity)\s+(?P<speed>.+)", "speed v_i")) is not None:
        speed = reader.amount(found.part("speed"), "speed", "m/s")
    pattern = r"(?:at\s+)?(?:an\s+)?angle\s+(?:of\s+)?(?P<angle>.+?)(?:\s+(?P<side>above|below|to)\s+the\s+horizontal)?"
    if (found := line.take(pattern, "angle θ")) is not None:
        angle = reader.angle(found.part("angle"), "angle of a launch", 85)
        below = found.word("side") == "below"
    line.take(r"(?:launched\s+|thrown\s+)?horizontally", "horizontally")
    if (found := line.take(r"(?:maximum|greatest)\s+height\s+(?P<far>.+)", "maximum height H")) is not None:
        top = reader.length(found.part("far"), "height")
    if (
        found := line.take(r"(?:from\s+(?:a\s+)?)?height\s+(?:of\s+)?(?P<far>.+)", "from height h")
    ) is not None:
        height = reader.length(found.part("far"), "height")
    if (found := line.take(r"range\s+(?P<far>.+)", "range R")) is not None:
        reach = reader.length(found.part("far"), "range")
    line.finish("a projectile")
    if height is None and (angle is None or below):
        raise SituationPartMissing(lines[0].span, "the path", "how it begins", "angle θ, or from height h")
    name = label.name if label is not None else None
    body = Body(
        name.key if name is not None else "projectile", (label,) if label is not None else (), "projectile"
    )
    return Projectile(body, speed, angle, below, height, top, reach, _drop(speed, height, reader))


def _drop(speed: Amount | None, height: Amount | None, reader: AmountReader) -> Real | None:
    """g h / v²: how the path from a height looks; None where one of them is not known."""
    gravity = reader.scope.find(Name("g"))
    if gravity is None or gravity.quantity.unit.dimension != dimension_of("m/s^2"):
        return None
    if speed is None or height is None or speed.size is None or height.size is None or speed.size.sign() == 0:
        return None
    return abs(gravity.quantity.value) * height.size / (speed.size * speed.size)
