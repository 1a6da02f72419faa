"""Bodies that hang: from threads, from a spring, as a pendulum or a lift."""

from __future__ import annotations

import re
from collections.abc import Sequence

from ..problems import Text
from ..problems.figures import FigurePhraseUnreadable
from .situation_bodies import labelled
from .situation_phrases import HANGS, ROPES
from .situation_reading import Amount, AmountReader, Line, fit
from .situation_scenes import Body, Hanging


def hanging(lines: Sequence[Text], reader: AmountReader) -> Hanging:
    """A pendulum, a lift, or a body that hangs from threads or a spring.

    Raises:
        Problem: the first thing that is wrong.
    """
    for text in lines[1:]:
        raise FigurePhraseUnreadable(
            text.span, "a part of this figure", text.value, "one thing that hangs in each figure"
        )
    line = Line(lines[0])
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
