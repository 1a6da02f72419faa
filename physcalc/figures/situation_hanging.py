"""Bodies that hang: from threads, from a spring, as a pendulum or a lift."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from ..checking.printing import printed_datum
from ..checking.scope import Datum, Quantity
from ..exact import Real, RealError, asin, sin
from ..language.names import Name
from ..language.plain import plain_printed
from ..problems import Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import SituationDistanceDiffers, SituationValueOutside
from .situation_bodies import labelled
from .situation_phrases import HANGS, PAIR, ROPES
from .situation_reading import Amount, AmountReader, Line, fit
from .situation_scenes import Body, Hanging, HangingPair


def hanging(lines: Sequence[Text], reader: AmountReader) -> Hanging | HangingPair:
    """A pendulum, a lift, a body that hangs from threads or a spring, or two balls on threads.

    Raises:
        Problem: the first thing that is wrong.
    """
    for text in lines[1:]:
        raise FigurePhraseUnreadable(
            text.span, "a part of this figure", text.value, "one thing that hangs in each figure"
        )
    line = Line(lines[0])
    if re.match(r"two\b", lines[0].value, re.IGNORECASE):
        return _pair(line, reader)
    if re.match(r"pendulum\b", lines[0].value, re.IGNORECASE):
        return _pendulum(line, reader)
    if re.match(r"(?:lift|elevator)\b", lines[0].value, re.IGNORECASE):
        return _lift(line, reader)
    head = line.head(
        HANGS, "something that hangs", "such as lamp m hanging from ropes T_1 at 40° and T_2 at 60°"
    )
    what = head.part("what")
    spring = fit(r"(?:a|the)\s+(?:light\s+)?spring(?:\s+(?P<label>.+))?", what)
    extension = length = None
    threads: list[tuple[Amount | None, Amount | None]] = []
    if spring is not None:
        label = reader.amount(spring.part("label"), "spring constant", "N/m") if "label" in spring else None
        threads.append((label, None))
        if (found := line.take(r"extension\s+(?P<far>.+)", "extension x")) is not None:
            extension = reader.length(found.part("far"), "extension")
    else:
        threads = _threads(what, reader)
    if (found := line.take(r"length\s+(?P<far>.+)", "length L")) is not None:
        length = reader.length(found.part("far"), "length")
    body = labelled(reader, head, line.clauses[:2], (), "kg", "N")
    line.clauses = line.clauses[2:]
    line.finish("something that hangs")
    kind = "spring" if spring is not None else "threads"
    return Hanging(kind, body, tuple(threads), length, None, extension)  # type: ignore[arg-type]


def _threads(what: Text, reader: AmountReader) -> list[tuple[Amount | None, Amount | None]]:
    """`a rope T`, `ropes T_1 at 30° and T_2 at 45°` (angles to the ceiling)."""
    form = "a rope T, or ropes T_1 at 40° and T_2 at 60° (their angles to the ceiling)"
    found = fit(rf"(?:a|an|the|two)?\s*(?:light\s+)?(?:{ROPES})(?:\s+(?P<rest>.+))?", what)
    assert found is not None
    if "rest" not in found:
        return [(None, None)]
    rest = found.part("rest")
    pieces = []
    start = 0
    for gap in re.finditer(r"\s+and\s+", rest.value):
        pieces.append(rest.part(start, gap.start()))
        start = gap.end()
    pieces.append(rest.part(start))
    threads: list[tuple[Amount | None, Amount | None]] = []
    for piece in pieces:
        read = fit(
            rf"(?:(?:a|the)?\s*(?:{ROPES})\s+)?(?:(?P<label>(?!at\b).+?)(?:\s+|$))?(?:at\s+(?P<angle>.+))?",
            piece,
        )
        if read is None or len(pieces) > 2 or ("angle" not in read and len(pieces) == 2):
            raise FigurePhraseUnreadable(piece.span, "a thread", piece.value, form)
        label = reader.amount(read.part("label"), "tension", "N") if "label" in read else None
        angle = reader.angle(read.part("angle"), "angle of a thread") if "angle" in read else None
        threads.append((label, angle))
    return threads


def _pendulum(line: Line, reader: AmountReader) -> Hanging:
    head = line.head(r"(?P<word>pendulum)(?:\s+(?:with\s+bob\s+)?(?P<label>.+))?", "a pendulum", "pendulum m")
    length = angle = height = tension = None
    if (found := line.take(r"(?:thread\s+of\s+)?length\s+(?P<far>.+)", "length L")) is not None:
        length = reader.length(found.part("far"), "length")
    if (
        found := line.take(
            r"(?:at\s+)?(?:angle\s+)?(?P<angle>.+?)\s+to\s+the\s+vertical|angle\s+(?P<other>.+)", "angle θ"
        )
    ) is not None:
        angle = reader.angle(found.part("angle" if "angle" in found else "other"), "angle of a pendulum")
    if (found := line.take(r"height\s+(?P<far>.+)", "height h")) is not None:
        height = reader.length(found.part("far"), "height")
    if (found := line.take(r"tension\s+(?P<force>.+)", "tension T")) is not None:
        tension = reader.amount(found.part("force"), "tension", "N")
    left = line.take(r"(?:to\s+the\s+)?left", "left") is not None
    body = labelled(reader, head, (), (), "kg", "N")
    line.finish("a pendulum")
    if body.key == "pendulum":
        body = Body("bob", body.labels, "bob")
    return Hanging("pendulum", body, ((tension, angle),), length, height, None, left)


def _lift(line: Line, reader: AmountReader) -> Hanging:
    head = line.head(
        r"(?P<word>lift|elevator)(?:\s+(?!on\b|hanging\b)(?P<label>.+?))?(?:\s+(?:on|hanging\s+from)\s+(?:a|the)\s+cable(?:\s+(?P<cable>.+))?)?",
        "a lift",
        "lift m on a cable",
    )
    label = reader.amount(head.part("cable"), "tension", "N") if "cable" in head else None
    inside = line.take(
        r"(?P<word>person|passenger|block|crate|load)(?:\s+(?P<label>.+?))?(?:\s+inside)?", "person m_2"
    )
    body = labelled(reader, head, (), (), "kg", "N")
    other = labelled(reader, inside, (), (body,), "kg", "N") if inside is not None else None
    line.finish("a lift")
    return Hanging("lift", body, ((label, None),), inside=other)


def _pair(line: Line, reader: AmountReader) -> HangingPair:
    form = "two charged balls q_1 and q_2 hanging from one point, or from two points"
    head = line.head(PAIR, "balls that hang", form)
    word = head.word("word")
    texts = [head.part(key) for key in ("first", "second") if key in head]
    labels = [reader.amount(text, "charge", "C", "kg", lenient=True) for text in texts]
    keys = [label.name.key if label.name is not None else f"{word} {n}" for n, label in enumerate(labels, 1)]
    keys = keys or [f"{word} 1", f"{word} 2"]
    if keys[0] == keys[1]:
        raise FigurePhraseUnreadable(
            texts[1].span, "one thing", texts[1].value, f"each thing once: {keys[0]} is there already"
        )
    angle = length = distance = apart = tension = force = None
    typed = None
    if (found := line.take(r"(?:threads\s+of\s+)?length\s+(?P<far>.+)", "length L")) is not None:
        length = reader.length(found.part("far"), "length")
    if (
        found := line.take(
            r"(?:at\s+)?(?:angle\s+)?(?P<angle>.+?)\s+to\s+the\s+vertical|angle\s+(?P<other>.+)", "angle θ"
        )
    ) is not None:
        angle = reader.angle(found.part("angle" if "angle" in found else "other"), "angle of a thread")
    if (found := line.take(r"distance\s+(?P<far>.+)", "distance r")) is not None:
        typed = found.part("far")
        distance = reader.length(typed)
    if (found := line.take(r"(?:points\s+)?(?P<far>.+)\s+apart", "d apart")) is not None:
        apart = reader.length(found.part("far"))
    if (found := line.take(r"tension\s+(?P<force>.+)", "tension T")) is not None:
        tension = reader.amount(found.part("force"), "tension", "N")
    if (found := line.take(r"force\s+(?P<force>.+)", "force F")) is not None:
        force = reader.amount(found.part("force"), "force", "N")
    way = line.take(r"(?P<way>repelling|attracting)(?:\s+(?:one\s+another|each\s+other))?", "attracting")
    line.finish("balls that hang")
    signs = [label.value.sign() if label.value is not None else 0 for label in labels] or [0, 0]
    attracting = way.word("way") == "attracting" if way is not None else signs[0] * signs[1] < 0
    points = 2 if head.word("where") == "two points" else 1
    if attracting and points == 1:
        place = way.text if way is not None else head.part("where")
        raise FigurePhraseUnreadable(place.span, "balls that attract one another", place.value, "two points")
    pair = HangingPair(
        (Body(keys[0], tuple(labels[:1]), "ball"), Body(keys[1], tuple(labels[1:]), "ball")),
        (signs[0], signs[1]), points, attracting, angle, angle.value if angle is not None else None,
        length, distance, apart, tension, force,
    )  # fmt: skip
    return _settled(pair, typed, reader)


def _settled(pair: HangingPair, typed: Text | None, reader: AmountReader) -> HangingPair:
    """The pair with its angle, which the other lengths give where it is not said; r = d + 2 L sin θ.

    Raises:
        SituationDistanceDiffers: the distance is another one than follows from what else is said.
        SituationValueOutside: the threads are too short for the distance.
    """
    long = pair.length.value if pair.length is not None else None
    far = pair.distance.value if pair.distance is not None else None
    base = Real.of(0) if pair.points == 1 else pair.apart.value if pair.apart is not None else None
    if long is None or far is None or base is None or pair.distance is None or typed is None:
        return pair
    way = Real.of(-1 if pair.attracting else 1)
    if pair.turn is None:
        try:
            turn = asin(way * (far - base) / (long * Real.of(2)))
        except RealError:
            turn = None
        if turn is None or turn.sign() <= 0:
            raise SituationValueOutside(typed.span, "a distance", typed.value, "one that these threads allow")
        return replace(pair, turn=turn)
    expected = base + way * Real.of(2) * long * sin(pair.turn)
    datum = pair.distance.datum
    if datum is not None and abs(float(far) - float(expected)) > 0.02 * abs(float(expected)):
        style, unit_style = reader.conventions.style, reader.conventions.unit_style
        shown = Datum(Name("r"), Quantity(expected, datum.quantity.unit), "given", "")
        texts = [plain_printed(printed_datum(one, style), style, unit_style) for one in (datum, shown)]
        raise SituationDistanceDiffers(typed.span, texts[0], pair.bodies[0].key, pair.bodies[1].key, texts[1])
    return pair
