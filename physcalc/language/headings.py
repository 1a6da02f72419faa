"""Directions in a plane: an angle, a bearing, compass and "above/below" phrases.

A heading is an angle turned from one of the four axis directions: 20° north of east is turned from east towards
north, a bearing from north towards east. So the components of a vector of size F are ± F cos θ and ± F sin θ of
the very angle that was typed, as a teacher writes them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Literal

from ..exact import PI, Number, NumberStyle, Numeral, Real, numeral_text, read_number
from ..problems import Span, Text
from ..problems.language import HeadingUnreadable
from .words import direction_pairs, direction_words, in_language, language_of

Kind = Literal["angle", "bearing", "compass", "screen"]

#: Axis directions by word: quarter turns anticlockwise from +x.
_COMPASS = {"east": 0, "north": 1, "west": 2, "south": 3}
_SCREEN = {"right": 0, "up": 1, "left": 2, "down": 3}
_SAME = {
    "above": "up",
    "below": "down",
    "upwards": "up",
    "downwards": "down",
    "e": "east",
    "n": "north",
    "w": "west",
    "s": "south",
}
#: Halfway between two of them: 45° from the second word towards the first.
_BETWEEN = re.compile(r"(?:due\s+)?(north|south|n|s)[\s-]?(east|west|e|w)(?:wards?)?", re.IGNORECASE)
#: No direction has more letters.
_LONGEST = 100
_HALFWAY = Number(Fraction(45), "45", None, "45")
_COMPASS_WORDS = {quarter: word for word, quarter in _COMPASS.items()}
_SCREEN_WORDS = {0: "to the right", 1: "upwards", 2: "to the left", 3: "downwards"}
#: The words of a direction by language. They are common usage of school books; no source.
_PHRASES = {
    "bearing": {
        "en": "at a bearing of {angle}", "af": "in die peiling {angle}", "de": "mit dem Kurs {angle}",
        "fr": "à l'azimut {angle}", "nl": "met koers {angle}", "es": "con rumbo {angle}", "pt": "com rumo {angle}",
    },
    "angle": {
        "en": "at {angle}", "af": "teen {angle}", "de": "unter {angle}", "fr": "à {angle}", "nl": "onder {angle}",
        "es": "a {angle}", "pt": "a {angle}",
    },
    "from": {
        "en": "at {angle} {towards} of {base}", "af": "teen {angle} {towards} van {base}",
        "de": "im Winkel von {angle} von {base} nach {towards}", "fr": "à {angle} {towards} {base}",
        "nl": "onder een hoek van {angle} van {base} naar {towards}", "es": "a {angle} {towards} {base}",
        "pt": "a {angle} {towards} {base}",
    },
    "above": {
        "en": "at {angle} above the horizontal, {side}", "af": "teen {angle} bo die horisontaal, {side}",
        "de": "im Winkel von {angle} über der Waagerechten, {side}",
        "fr": "à {angle} au-dessus de l'horizontale, {side}",
        "nl": "onder een hoek van {angle} boven de horizontaal, {side}",
        "es": "a {angle} por encima de la horizontal, {side}",
        "pt": "a {angle} acima da horizontal, {side}",
    },
    "below": {
        "en": "at {angle} below the horizontal, {side}", "af": "teen {angle} onder die horisontaal, {side}",
        "de": "im Winkel von {angle} unter der Waagerechten, {side}",
        "fr": "à {angle} au-dessous de l'horizontale, {side}",
        "nl": "onder een hoek van {angle} onder de horizontaal, {side}",
        "es": "a {angle} por debajo de la horizontal, {side}",
        "pt": "a {angle} abaixo da horizontal, {side}",
    },
    "points": {
        "en": "from {one} to {other}", "af": "van {one} na {other}", "de": "von {one} nach {other}",
        "fr": "de {one} vers {other}", "nl": "van {one} naar {other}", "es": "de {one} a {other}",
        "pt": "de {one} para {other}",
    },
}  # fmt: skip
#: The axis directions as they stand in "20° north of east": where it is turned to, and where from where that differs.
_QUARTERS: dict[str, dict[str, tuple[str, ...]]] = {
    "north": {
        "af": ("noord",), "de": ("Norden",), "fr": ("au nord", "du nord"), "nl": ("noord",),
        "es": ("al norte", "del norte"), "pt": ("a norte", "do norte"),
    },
    "east": {
        "af": ("oos",), "de": ("Osten",), "fr": ("à l'est", "de l'est"), "nl": ("oost",),
        "es": ("al este", "del este"), "pt": ("a leste", "do leste"),
    },
    "south": {
        "af": ("suid",), "de": ("Süden",), "fr": ("au sud", "du sud"), "nl": ("zuid",),
        "es": ("al sur", "del sur"), "pt": ("a sul", "do sul"),
    },
    "west": {
        "af": ("wes",), "de": ("Westen",), "fr": ("à l'ouest", "de l'ouest"), "nl": ("west",),
        "es": ("al oeste", "del oeste"), "pt": ("a oeste", "do oeste"),
    },
    "upwards": {
        "af": ("bo",), "de": ("oben",), "fr": ("au-dessus", "du haut"), "nl": ("boven",),
        "es": ("por encima", "de arriba"), "pt": ("acima", "de cima"),
    },
    "downwards": {
        "af": ("onder",), "de": ("unten",), "fr": ("au-dessous", "du bas"), "nl": ("onder",),
        "es": ("por debajo", "de abajo"), "pt": ("abaixo", "de baixo"),
    },
    "to the right": {
        "af": ("regs",), "de": ("rechts",), "fr": ("à droite", "de la droite"), "nl": ("rechts",),
        "es": ("a la derecha", "de la derecha"), "pt": ("à direita", "da direita"),
    },
    "to the left": {
        "af": ("links",), "de": ("links",), "fr": ("à gauche", "de la gauche"), "nl": ("links",),
        "es": ("a la izquierda", "de la izquierda"), "pt": ("à esquerda", "da esquerda"),
    },
}  # fmt: skip
#: Halfway between two, in other languages.
_CORNERS = {
    "af": ("noordoos", "noordwes", "suidoos", "suidwes"),
    "de": ("nach Nordosten", "nach Nordwesten", "nach Südosten", "nach Südwesten"),
    "fr": ("vers le nord-est", "vers le nord-ouest", "vers le sud-est", "vers le sud-ouest"),
    "nl": ("noordoost", "noordwest", "zuidoost", "zuidwest"),
    "es": ("hacia el noreste", "hacia el noroeste", "hacia el sureste", "hacia el suroeste"),
    "pt": ("para nordeste", "para noroeste", "para sudeste", "para sudoeste"),
}  # fmt: skip
_CORNERS_ENGLISH = ("north-east", "north-west", "south-east", "south-west")
_DEGREE = PI * Real.of(Fraction(1, 180))


@dataclass(frozen=True, slots=True)
class Heading:
    """A direction in a plane.

    Attributes:
        kind: how it was typed, and so how results beside it are printed.
        angle: the number typed; None where a word alone says it.
        radians: whether that number is in radians.
        base: the axis direction it is turned from, in quarter turns anticlockwise from +x (right, east).
        turn: +1 where it is turned anticlockwise, −1 clockwise.
        span: its place.
        between: two points, from the first of which it leads to the second; None for any other direction.
    """

    kind: Kind
    angle: Number | None
    radians: bool
    base: int
    turn: int
    span: Span
    between: tuple[str, str] | None = None

    def turned(self) -> Real:
        """The angle turned from the base, in radians."""
        if self.angle is None:
            return Real.of(0)
        value = Real.of(self.angle.value)
        return value if self.radians else value * _DEGREE

    def direction(self) -> Real:
        """The angle anticlockwise from +x, in radians."""
        quarter = PI * Real.of(Fraction(self.base, 2))
        return quarter + self.turned() if self.turn > 0 else quarter - self.turned()

    def parts(self) -> tuple[tuple[int, str], tuple[int, str]]:
        """For x and for y: the sign, and which function of the turned angle ("cos", "sin"; "" for none, a zero).

        With no angle typed the vector lies along its base: one component is the size itself ("one").
        """
        along = {
            0: ((1, "cos"), (1, "sin")),
            1: ((-1, "sin"), (1, "cos")),
            2: ((-1, "cos"), (-1, "sin")),
            3: ((1, "sin"), (-1, "cos")),
        }
        x, y = along[self.base]
        out = []
        for sign, function in (x, y):
            if self.angle is None:
                out.append((sign, "one" if function == "cos" else ""))
            else:
                out.append((sign * self.turn if function == "sin" else sign, function))
        return out[0], out[1]


def _word(text: str) -> str:
    text = " ".join(text.lower().split())
    text = re.sub(r"^(?:to )?the ", "", text).removeprefix("due ")
    text = re.sub(r"(?:wards?)$", "", text) if text not in _SAME else text
    return _SAME.get(text, text)


def _quarter(word: str) -> tuple[int, Kind] | None:
    word = _word(word)
    if word in _COMPASS:
        return _COMPASS[word], "compass"
    if word in _SCREEN:
        return _SCREEN[word], "screen"
    return None


def english_heading(words: str, lang: str) -> str | None:
    """A direction in a plane in English, where the words are of the document's own language; None for others.

    What is printed is understood, also without the words before its angle.
    """
    said = " ".join(words.replace("’", "'").split())
    if (simple := _own_words(lang).get(said.casefold())) is not None:
        return simple
    for form, english in _own_forms(lang):
        if found := form.fullmatch(said):
            parts = {
                name: _own_words(lang).get(part.casefold(), part) for name, part in found.groupdict().items()
            }
            return english.format(**parts)
    return None


def own_heading_at(text: str, lang: str) -> int | None:
    """Where a direction in a plane begins behind a value, with a word of the document's own language before its
    angle (`12 N teen 30° noord van oos`); None where there is none."""
    if language_of(lang) not in _CORNERS:
        return None
    # It ends the text, and is short: a long one is not looked through word by word.
    start = max(0, len(text) - _LONGEST)
    for blank in re.compile(r"\s+(?=[^\W\d_][^0-9]*[0-9])").finditer(text, start):
        if english_heading(text[blank.end() :], lang) is not None:
            return blank.end()
    return None


@cache
def _own_words(lang: str) -> Mapping[str, str]:
    """Words of a language for the axis directions and what lies between two of them, with the English ones."""
    language = language_of(lang)
    out = dict(
        zip((corner.casefold() for corner in _CORNERS.get(language, ())), _CORNERS_ENGLISH, strict=False)
    )
    out |= {_bare(corner): english for corner, english in out.items()}
    for english, row in _QUARTERS.items():
        out |= {word.casefold(): english for word in row.get(language, ())}
    out |= {word.casefold(): english for word, english in direction_pairs(lang)}
    return {word: english for word, english in out.items() if _quarter(english) or "-" in english}


def _bare(words: str) -> str:
    return words.rsplit(" ", 1)[-1]


@cache
def _own_forms(lang: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """How a language says a direction by an angle, with the English form of each."""
    language = language_of(lang)
    if language not in _CORNERS:
        return ()
    angle = r"(?P<angle>[0-9][0-9.,]*\s*(?:°|deg|degrees?|rad))"
    known = "|".join(re.escape(word) for word in sorted(_own_words(lang), key=len, reverse=True))
    words = {name: rf"(?P<{name}>{known})" for name in ("towards", "base", "side")}
    before_angles = {_PHRASES[kind][language].split("{angle}")[0] for kind in ("from", "above", "angle")}
    leads = "|".join(re.escape(before) for before in sorted(before_angles))
    forms = []
    for kind, english in (
        ("from", "{angle} {towards} of {base}"),
        ("above", "{angle} above the horizontal, {side}"),
        ("below", "{angle} below the horizontal, {side}"),
        ("angle", "{angle}"),
        ("bearing", "bearing {angle}"),
    ):
        before, behind = _PHRASES[kind][language].split("{angle}")
        if kind == "bearing":
            # A bearing needs a word before it; of the others the angle tells enough.
            noun = re.split("[ ']", before.strip())[-1]
            lead = rf"(?:{re.escape(before)}|{re.escape(noun)} )"
        else:
            lead = rf"(?:{leads})?"
        rest = re.escape(behind)
        for name, pattern in words.items():
            rest = rest.replace(re.escape("{" + name + "}"), pattern)
        forms.append((re.compile(lead + angle + rest, re.IGNORECASE), english))
    short = rf"{angle} {words['towards']} {words['base']}"
    forms.append((re.compile(short, re.IGNORECASE), "{angle} {towards} of {base}"))
    one, other = (rf"(?P<{name}>\w{{1,4}})" for name in ("one", "other"))
    points = re.escape(_PHRASES["points"][language])
    points = points.replace(re.escape("{one}"), one).replace(re.escape("{other}"), other)
    forms.append((re.compile(points), "{one} to {other}"))
    return tuple(forms)


def read_heading(text: Text, decimal: str, lang: str = "en") -> Heading:
    """Read what stands after `at`: `30°`, `bearing 120°`, `20° north of east`, `30° below left`, `north`,
    `north-east`, `A to P`, or the same in the document's own language.

    Raises:
        HeadingUnreadable: another form, or an angle without ° or rad.
    """
    inner = text.part(0)
    if (own := english_heading(inner.value, lang)) is not None:
        # Its place is that of what the author typed.
        found = _read_heading(Text(own, inner.span), decimal)
        return replace(found, span=inner.span)
    return _read_heading(inner, decimal)


def _read_heading(inner: Text, decimal: str) -> Heading:
    value = inner.value
    if leads := re.fullmatch(r"(?:from\s+)?(\w{1,4})\s+to\s+(\w{1,4})", value):
        return Heading("angle", None, False, 0, 1, inner.span, (leads[1], leads[2]))
    bearing = re.match(r"(?:a\s+)?bearing(?:\s+of)?\s+", value, re.IGNORECASE)
    start = bearing.end() if bearing else 0
    found = read_number(inner, start, decimal)  # type: ignore[arg-type]
    if found is None:
        if (corner := _BETWEEN.fullmatch(value)) is not None:
            north, east = (_COMPASS[_word(word)] for word in corner.groups())
            return Heading("compass", _HALFWAY, False, east, _turn(north, east), inner.span)
        quarter = _quarter(value)
        if quarter is None or bearing:
            raise HeadingUnreadable(inner.span, value)
        return Heading(quarter[1], None, False, quarter[0], 1, inner.span)
    number, end = found
    unit = re.match(r"\s*(°|deg(?![a-z])|degrees?|rad(?:ians?)?)", value[end:])
    if unit is None:
        raise HeadingUnreadable(inner.span, value)
    radians = unit[1].startswith("rad")
    rest = value[end + unit.end() :].strip()
    if bearing:
        if rest:
            raise HeadingUnreadable(inner.span, value)
        return Heading("bearing", number, radians, 1, -1, inner.span)
    if not rest:
        return Heading("angle", number, radians, 0, 1, inner.span)
    words = re.fullmatch(
        r"(?:to\s+)?(?:the\s+)?(?P<towards>\w+)\s+(?:of\s+)?(?:the\s+horizontal,?\s+)?(?P<base>(?:to\s+)?(?:the\s+)?\w+)",
        rest,
    )
    towards = _quarter(words["towards"]) if words else None
    base = _quarter(words["base"]) if words else None
    if towards is None or base is None or (towards[0] - base[0]) % 2 == 0 or towards[1] != base[1]:
        raise HeadingUnreadable(inner.span, value)
    return Heading(towards[1], number, radians, base[0], _turn(towards[0], base[0]), inner.span)


def _turn(towards: int, base: int) -> int:
    """+1 where one axis direction is reached from another by a quarter turn anticlockwise, else −1."""
    return 1 if (towards - base) % 4 == 1 else -1


def axis_word(quarter: int, kind: Kind) -> str:
    """The words for one of the four axis directions."""
    return _COMPASS_WORDS[quarter] if kind in ("compass", "bearing") else _SCREEN_WORDS[quarter]


def phrase(kind: Kind, angle_text: str, x_sign: int, y_sign: int, lang: str) -> str:
    """The words of a direction whose acute angle from the x-axis is `angle_text`, in the quadrant of the signs.

    For a bearing and a plain angle, `angle_text` is the whole angle already.
    """
    if kind in ("bearing", "angle"):
        return in_language(_PHRASES[kind], lang, angle=angle_text)
    if kind == "compass":
        towards, base = "north" if y_sign > 0 else "south", "east" if x_sign > 0 else "west"
        return _turned_from(angle_text, towards, base, lang)
    side = direction_words("to the right" if x_sign > 0 else "to the left", lang)
    return in_language(_PHRASES["above" if y_sign > 0 else "below"], lang, angle=angle_text, side=side)


def _turned_from(angle_text: str, towards: str, base: str, lang: str) -> str:
    """`at 20° north of east`: from the one axis direction towards the other."""
    there, here = (_QUARTERS[word].get(language_of(lang), (word,)) for word in (towards, base))
    return in_language(_PHRASES["from"], lang, angle=angle_text, towards=there[0], base=here[-1])


def heading_words(heading: Heading, style: NumberStyle) -> str:
    """A typed direction in the document's own style."""
    if heading.between is not None:
        return in_language(_PHRASES["points"], style.lang, one=heading.between[0], other=heading.between[1])
    if heading.angle is None:
        return direction_words(axis_word(heading.base, heading.kind), style.lang)
    angle = numeral_text(Numeral.of_number(heading.angle), style)
    angle += " rad" if heading.radians else "°"
    if heading.kind in ("angle", "bearing"):
        return phrase(heading.kind, angle, 1, 1, style.lang)
    towards = (heading.base + heading.turn) % 4
    if heading.base % 2 == 0:
        x_sign, y_sign = 1 if heading.base == 0 else -1, 1 if towards == 1 else -1
        return phrase(heading.kind, angle, x_sign, y_sign, style.lang)
    names = (axis_word(towards, heading.kind), axis_word(heading.base, heading.kind))
    return _turned_from(angle, *names, style.lang)
