"""Waves, standing waves, and the wavefronts of a moving source."""

from __future__ import annotations

from collections.abc import Sequence

from ..exact import Real
from ..language.names import read_name
from ..problems import Text
from ..problems.figures import FigurePhraseUnreadable
from ..problems.figures_situation import SituationValueOutside
from .situation_reading import Amount, AmountReader, Found, Line
from .situation_scenes import Body, Fronts, Standing, Wave

_MOST_WAVES = 8
_MOST_LOOPS = 8
#: A source may be so many times as fast as its waves.
_FASTEST = 3


def _alone(lines: Sequence[Text]) -> Line:
    for text in lines[1:]:
        raise FigurePhraseUnreadable(
            text.span, "a part of this figure", text.value, "one wave in each figure"
        )
    return Line(lines[0])


def wave(lines: Sequence[Text], reader: AmountReader) -> Wave:
    """A transverse or longitudinal wave.

    Raises:
        Problem: the first thing that is wrong.
    """
    line = _alone(lines)
    kind = line.head(r"(?P<kind>transverse|longitudinal)\s+wave", "a wave", "transverse wave").word("kind")
    amplitude = wavelength = speed = None
    count, way = 2, 0
    if (found := line.take(r"amplitude\s+(?P<far>.+)", "amplitude A")) is not None:
        amplitude = reader.amount(found.part("far"), "amplitude", "m")
    if (found := line.take(r"wavelength\s+(?P<far>.+)", "wavelength λ")) is not None:
        wavelength = reader.length(found.part("far"), "wavelength")
    if (
        found := line.take(r"(?P<count>\d{1,4}|one|two|three|four)\s+wavelengths?", "3 wavelengths")
    ) is not None:
        count = _count(found, _MOST_WAVES, "wavelengths")
    if (
        found := line.take(
            r"(?:speed|velocity)\s+(?P<speed>.+?)(?:,?\s+(?:to\s+the\s+)?(?P<way>left|right))?", "speed v"
        )
    ) is not None:
        speed = reader.amount(found.part("speed"), "speed", "m/s")
        way = {"left": -1}.get(found.word("way"), 1)
    if (found := line.take(r"(?:moving\s+)?(?:to\s+the\s+)?(?P<way>left|right)", "moving right")) is not None:
        way = {"left": -1}.get(found.word("way"), 1)
    form = "compressions and rarefactions"
    named = (
        kind == "longitudinal"
        and line.take(r"(?:with\s+)?compressions\s+and\s+rarefactions", form) is not None
    )
    line.finish("a wave")
    return Wave(kind, amplitude, wavelength, count, way, speed, named)  # type: ignore[arg-type]


def _count(found: Found, most: int, what: str) -> int:
    word = found.word("count")
    count = {"one": 1, "two": 2, "three": 3, "four": 4}.get(word) or int(word)
    if not 1 <= count <= most:
        raise SituationValueOutside(found.text.span, what, found.text.value, f"from 1 to {most}")
    return count


def standing(lines: Sequence[Text], reader: AmountReader) -> Standing:
    """A standing wave on a string or in a pipe.

    Between two ends of one kind there are whole halves of a wavelength, between two of different kinds an odd number of
    quarters (every textbook of waves).

    Raises:
        Problem: the first thing that is wrong.
    """
    line = _alone(lines)
    head = line.head(
        r"standing\s+wave(?:\s+(?:on\s+a\s+(?P<string>string)|in\s+a\s+(?P<pipe>pipe)(?:\s+(?P<ends>open\s+at\s+both\s+ends|closed\s+at\s+both\s+ends|closed\s+at\s+one\s+end|open\s+at\s+one\s+end))?))?",
        "a standing wave",
        "standing wave on a string, or in a pipe closed at one end",
    )
    ends = " ".join(head.word("ends").split())
    both, one = ends == "open at both ends", ends.endswith("one end")
    quarters = 1 if one else 2
    if (found := line.take(r"(?P<count>\d{1,4}|one|two|three|four)\s+loops?", "3 loops")) is not None:
        quarters = 2 * _count(found, _MOST_LOOPS, "loops") + (1 if one else 0)
    if (found := line.take(r"(?P<count>\d{1,4})\s+quarters", "3 quarters")) is not None:
        quarters = _count(found, 2 * _MOST_LOOPS + 1, "quarters")
        if (quarters % 2 == 1) != one:
            what = "an odd number of quarters" if one else "an even number of quarters"
            raise SituationValueOutside(
                found.text.span, "a standing wave between these ends", found.text.value, what
            )
    length = wavelength = None
    if (found := line.take(r"length\s+(?P<far>.+)", "length L")) is not None:
        length = reader.length(found.part("far"), "length")
    if (found := line.take(r"wavelength\s+(?P<far>.+)", "wavelength λ")) is not None:
        wavelength = reader.length(found.part("far"), "wavelength")
        if quarters < 4:
            form = "at least two loops, or the length alone"
            raise SituationValueOutside(found.text.span, "a wavelength of this wave", found.text.value, form)
    line.finish("a standing wave")
    free = (both, both or one)
    return Standing(quarters, "pipe" if "pipe" in head else "string", free, length, wavelength)


def fronts(lines: Sequence[Text], reader: AmountReader) -> Fronts:
    """Wavefronts of a source that moves, or is at rest.

    Raises:
        Problem: the first thing that is wrong.
    """
    line = _alone(lines)
    head = line.head(
        r"source(?:\s+(?:(?P<rest>at\s+rest)|moving\s+(?:to\s+the\s+)?(?P<way>left|right)(?:\s+at\s+(?P<speed>.+))?))",
        "a source of waves",
        "source moving right at v_s",
    )
    source = reader.amount(head.part("speed"), "speed", "m/s") if "speed" in head else None
    way = 0 if "rest" in head else -1 if head.word("way") == "left" else 1
    wave = None
    if (
        found := line.take(
            r"(?:speed\s+of\s+(?:sound|the\s+waves)|wave\s+speed)\s+(?P<speed>.+)", "wave speed v"
        )
    ) is not None:
        wave = reader.amount(found.part("speed"), "speed", "m/s")
        if wave.value is not None and wave.value.sign() <= 0:
            raise SituationValueOutside(
                found.text.span, "a speed of waves", found.text.value, "one that is more than zero"
            )
    observers: list[tuple[Body, bool]] = []
    while (
        found := line.take(
            r"(?:observer|listener)(?:\s+(?P<label>.+?))?\s+(?P<side>ahead|behind)", "observer A ahead"
        )
    ) is not None:
        observers.append((_observer(found), found.word("side") == "ahead"))
    line.finish("a source of waves")
    if len({ahead for _, ahead in observers}) < len(observers):
        raise FigurePhraseUnreadable(
            lines[0].span, "the observers", lines[0].value, "one ahead and one behind"
        )
    ratio = Real.of(0) if not way else None
    if way and source is not None and wave is not None and source.size is not None and wave.size is not None:
        ratio = source.size / wave.size
        if (ratio - Real.of(_FASTEST)).sign() > 0:
            raise SituationValueOutside(
                head.text.span,
                "a source",
                head.text.value,
                f"a speed up to {_FASTEST} times that of the waves",
            )
    return Fronts(ratio, way, source, wave, tuple(observers))


def _observer(found: Found) -> Body:
    if "label" not in found:
        return Body("observer", (), "observer")
    label = found.part("label")
    name = read_name(label.value)
    if name is None:
        raise FigurePhraseUnreadable(label.span, "a name", label.value, "a letter, as in observer A ahead")
    return Body(name.key, (Amount(name, None),), "observer")
