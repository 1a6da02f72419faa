"""Changes of data: "r doubled, q_A halved", and the words for what a result does then."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from ..exact import read_number
from ..problems import Span, Text
from ..problems.language import PhraseUnreadable
from .names import NAME_PATTERN, Name, read_name
from .words import english_change

_FACTORS = {
    "doubled": Fraction(2), "halved": Fraction(1, 2), "trebled": Fraction(3), "tripled": Fraction(3),
    "quadrupled": Fraction(4), "quartered": Fraction(1, 4),
}  # fmt: skip
_FORM = "a name and what is done with it: r doubled, q_A halved; r × 3; v increased by 20 %"

#: Words that an answer may say, and the factor that they mean.
ANSWER_FACTORS = {
    "doubles": Fraction(2), "is doubled": Fraction(2), "halves": Fraction(1, 2), "is halved": Fraction(1, 2),
    "trebles": Fraction(3), "triples": Fraction(3), "is trebled": Fraction(3), "is tripled": Fraction(3),
    "quadruples": Fraction(4), "is quadrupled": Fraction(4), "is quartered": Fraction(1, 4),
    "becomes half": Fraction(1, 2), "becomes a quarter": Fraction(1, 4), "becomes a third": Fraction(1, 3),
}  # fmt: skip
#: Words that say only which way: the sign of the factor less one.
ANSWER_TRENDS = {
    "increases": 1, "decreases": -1, "stays the same": 0, "remains the same": 0, "does not change": 0,
    "unchanged": 0, "becomes larger": 1, "becomes smaller": -1,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Change:
    """One datum and the factor it is multiplied by.

    Attributes:
        name: the datum.
        factor: the factor, exactly.
        span: its place.
        decimal: whether it was typed with decimals or as a percentage.
    """

    name: Name
    factor: Fraction
    span: Span
    decimal: bool = False


def read_changes(text: Text, decimal: str) -> tuple[Change, ...]:
    """Read `r doubled, q_A halved`, `r × 3`, `v increased by 20 %`.

    Raises:
        PhraseUnreadable: another form, a name twice, or a factor of zero.
        NumberAmbiguous: a number that may hold a thousands mark.
    """
    changes: list[Change] = []
    for found in re.finditer(r"(?:[^,;]|(?<=\d),(?=\d))+", text.value):
        piece = text.part(found.start(), found.end())
        head = re.match(NAME_PATTERN, piece.value)
        name = read_name(head[0]) if head else None
        factor = _factor(piece, head.end(), decimal) if head else None
        if name is None or not factor or any(change.name == name for change in changes):
            raise PhraseUnreadable(piece.span, "change", piece.value, _FORM)
        decimal_typed = "%" in piece.value or bool(re.search(r"\d[.,]\d", piece.value))
        changes.append(Change(name, factor, piece.span, decimal_typed))
    if not changes:
        raise PhraseUnreadable(text.span, "change", text.value, _FORM)
    return tuple(changes)


def _factor(piece: Text, start: int, decimal: str) -> Fraction | None:
    rest = " ".join(piece.value[start:].split())
    rest = re.sub(r"^(?:is|are) ", "", rest)
    if rest in _FACTORS:
        return _FACTORS[rest]
    for sign, words in ((1, ("increased by", "increases by")), (-1, ("decreased by", "decreases by"))):
        for word in words:
            if rest.startswith(word):
                number = read_number(Text(rest, piece.span), len(word) + 1, decimal)  # type: ignore[arg-type]
                if number is not None and rest[number[1] :].strip() == "%":
                    return 1 + sign * number[0].value / 100
    if rest[:1] in "×*·":
        number = read_number(Text(rest[1:].strip(), piece.span), 0, decimal)  # type: ignore[arg-type]
        if number is not None and number[1] == len(rest[1:].strip()):
            return number[0].value
    return None


@dataclass(frozen=True, slots=True)
class Said:
    """What a typed answer says a result does.

    Attributes:
        factor: the factor; None where only a trend is said.
        trend: −1, 0 or 1: the sign of the factor less one.
        places: to how many decimal places a factor is said; 0 for a whole number, a fraction or a word.
    """

    factor: Fraction | None
    trend: int
    places: int = 0

    @classmethod
    def of(cls, factor: Fraction, places: int = 0) -> Said:
        """A factor with the trend that it is."""
        return cls(factor, (factor > 1) - (factor < 1), places)


_BY_PERCENT = re.compile(r"(?P<way>increases|decreases) by (?P<number>.+?) ?%")


def read_factor(text: Text, decimal: str, lang: str = "en") -> Said | None:
    """What a typed answer says a result does.

    Understood are a number (`1/8`, `4 times`, `× 4`), "increases to 4 times", "decreases to 1/8", "increases by
    44 %", and the words of ANSWER_FACTORS and ANSWER_TRENDS, these in the document's language too. None where it is
    none of these.
    """
    value = " ".join(english_change(text.value, lang).lower().split()).rstrip(".")
    if value in ANSWER_FACTORS:
        return Said.of(ANSWER_FACTORS[value])
    if value in ANSWER_TRENDS:
        return Said(None, ANSWER_TRENDS[value])
    if percent := _BY_PERCENT.fullmatch(value):
        number = read_number(Text(percent["number"], text.span), 0, decimal)  # type: ignore[arg-type]
        if number is None or number[1] != len(percent["number"]):
            return None
        part = number[0].value / 100
        return Said.of(1 + part if percent["way"] == "increases" else 1 - part, number[0].places + 2)
    value = re.sub(
        r"^(?:(?:increases|decreases|becomes|is)(?: (?:to|by a factor(?: of)?))? )?(?:[×x*] ?)?", "", value
    )
    inverse = text.value.lower().strip().startswith("decreases by a factor")
    number = read_number(Text(value, text.span), 0, decimal)  # type: ignore[arg-type]
    if number is None:
        return None
    rest = value[number[1] :].strip()
    if rest not in (
        "",
        "times",
        "times as large",
        "times larger",
        "of what it was",
        "times what it was",
        "of its value",
    ):
        return None
    if inverse and number[0].value > 1:
        return Said.of(1 / number[0].value)
    return Said.of(number[0].value, max(0, number[0].places - (number[0].exponent or 0)))
