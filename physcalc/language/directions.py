"""Words for directions along one line, and the axis that says which of two is positive."""

from __future__ import annotations

import re
from dataclasses import dataclass

from ..problems import Text
from ..problems.language import PhraseUnreadable
from .words import direction_words, english_direction, sign_of

#: Pairs of opposites: (words for the one, words for the other); the first of each is how it is printed.
_PAIRS: tuple[tuple[tuple[str, ...], tuple[str, ...]], ...] = (
    (("to the right", "right", "rightward", "rightwards"), ("to the left", "left", "leftward", "leftwards")),
    (("upwards", "up", "upward", "vertically up", "vertically upwards"),
     ("downwards", "down", "downward", "vertically down", "vertically downwards")),
    (("north", "northward", "northwards", "due north"), ("south", "southward", "southwards", "due south")),
    (("east", "eastward", "eastwards", "due east"), ("west", "westward", "westwards", "due west")),
    (("forwards", "forward"), ("backwards", "backward")),
    (("anticlockwise", "counterclockwise"), ("clockwise",)),
    (("into the page", "into the paper"), ("out of the page", "out of the paper")),
    (("inwards", "inward"), ("outwards", "outward")),
)  # fmt: skip
_BY_WORD = {
    word: (pair[side][0], pair[1 - side][0]) for pair in _PAIRS for side in (0, 1) for word in pair[side]
}
_SLOPES = re.compile(r"(up|down)(?: along)? the (slope|incline|ramp|plane|hill)")
_TOWARDS = re.compile(r"(towards|toward|away from) (.{1,40})")


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis along which values are signed.

    Attributes:
        positive: the words for its positive direction, in English where the tables have them.
        negative: the words for the other.
        lang: the language in which directions may be typed, beside English.
    """

    positive: str
    negative: str
    lang: str = "en"

    def sign_of(self, words: str) -> int | None:
        """+1 or −1 for words of this axis, None for words that are not of it."""
        spelled = printed_direction(words, self.lang)
        if spelled == self.positive:
            return 1
        if spelled == self.negative:
            return -1
        return None

    def words(self, sign: int) -> str:
        """The words for a sign."""
        return self.positive if sign >= 0 else self.negative

    def in_words(self) -> tuple[str, str]:
        """The words for its positive and its negative direction in the document's language."""
        return direction_words(self.positive, self.lang), direction_words(self.negative, self.lang)

    def opposite(self) -> Axis:
        """The same line with the other direction positive."""
        return Axis(self.negative, self.positive, self.lang)


def _both(words: str) -> tuple[str, str | None]:
    """How a direction is printed and its opposite; None where no opposite is known."""
    plain = " ".join(words.lower().split())
    plain = plain.removeprefix("the ") if plain not in _BY_WORD else plain
    if plain in _BY_WORD:
        return _BY_WORD[plain]
    if found := _SLOPES.fullmatch(plain):
        other = "down" if found[1] == "up" else "up"
        return f"{found[1]} the {found[2]}", f"{other} the {found[2]}"
    exact = " ".join(words.split())
    if found := _TOWARDS.fullmatch(exact):
        near = found[1] != "away from"
        return (
            (f"towards {found[2]}", f"away from {found[2]}")
            if near
            else (f"away from {found[2]}", f"towards {found[2]}")
        )
    return exact, None


def printed_direction(words: str, lang: str = "en") -> str:
    """A direction in the one spelling in which it is printed in English ("right", and "links" in Afrikaans, → "to the
    right", "to the left").

    Args:
        words: as typed, in English or in the document's language.
        lang: that language; printers put its own words in the place of these (`words.direction_words`).
    """
    return _both(english_direction(words, lang))[0]


def opposite_of(words: str) -> str | None:
    """The opposite direction, or None where it is not known."""
    return _both(words)[1]


_SAID = re.compile(r"\s*(?P<way>.{1,60}?)\s+(?:is|as|ist|est|es|é)\s+(?P<sign>[^\W\d_]+)\s*")


def read_axis(text: Text, lang: str = "en") -> Axis:
    """Read `right is positive` or `towards B is positive, away from B is negative`.

    Args:
        text: what stands after `axis`.
        lang: the document's language, whose words are read beside English.

    Raises:
        PhraseUnreadable: another form, or a word whose opposite is not known and not said.
    """
    form = (
        "a direction and what it is: right is positive; "
        "or both: towards B is positive, away from B is negative"
    )
    said: dict[int, str] = {}
    for piece in text.value.split(","):
        found = _SAID.fullmatch(piece)
        sign = sign_of(found["sign"], lang) if found is not None else None
        if found is None or not sign or sign in said:
            raise PhraseUnreadable(text.span, "axis", text.value, form)
        said[sign] = english_direction(found["way"], lang)
    if 1 in said:
        positive, other = _both(said[1])
        negative = printed_direction(said[-1]) if -1 in said else other
    else:
        negative, other_positive = _both(said[-1])
        if other_positive is None:
            raise PhraseUnreadable(text.span, "axis", text.value, form)
        positive = other_positive
    if negative is None or negative == positive:
        raise PhraseUnreadable(text.span, "axis", text.value, form)
    return Axis(positive, negative, lang)
