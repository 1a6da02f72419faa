"""Numbers with units in running text: where each stands, and what it says.

Running text is full of words that are spelt as units are ("in", "as", "A"), so a number and its unit must stand
together, and a second symbol after a mere blank counts only where something shows that it belongs to the first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction

from physcalc.exact import Number, read_number
from physcalc.exact.number import DecimalSign
from physcalc.problems import Problem, Text
from physcalc.units import Unit, read_unit

#: Stands in a text for whatever is no running text: code, a value that is tied, mathematics' own letters.
GAP = "\ufffc"

_BLANK = " \u00a0\u2009\u202f\u2007"
#: A number may begin here: not inside a word, another number, an index or a power. A sign counts only where
#: nothing stands before it that it could subtract from or join to.
_START = re.compile(r"(?<![\w^_⁰¹²³⁴-⁹])(?<![0-9][.,:])(?:(?<![0-9A-Za-z)\]−–-])[-+−])?(?=[0-9]|[.,][0-9])")
_DIGITS = re.compile(r"[-+−]?[0-9.,]*[0-9]")
_WIDTH = re.compile(rf"[{_BLANK}]*±[{_BLANK}]*(?=[0-9])")
_JOIN = re.compile(rf"[{_BLANK}]|(?=[A-Za-zÅµμΩΩ℃°º˚%])")
_HYPHEN = re.compile("[-‐‑](?=[a-z]|[A-Zµμ][A-Za-z])")
_SYMBOL = re.compile(r"[A-Za-zÅKµμΩΩ℃]+|[°º˚][A-Za-z]?|%")
_RAISED = re.compile(r"\^[-+−]?[0-9]+\^?|\^\([-+−]?[0-9]+\)|\^\{[-+−]?[0-9]+\}|[⁺⁻]?[⁰¹²³⁴-⁹]+")
_BARE = re.compile(r"-?[1-9](?!\w|[.,][0-9])")
_TIGHT = re.compile(rf"[{_BLANK}]?[·⋅∙×*/∕⁄][{_BLANK}]?(?=[A-Za-zÅµμΩΩ(])|\.(?=[A-Za-zµμΩΩ])")
_BRACKET = re.compile(r"\([A-Za-zÅµμΩΩ℃°·⋅∙.⁻⁺⁰¹²³⁴-⁹0-9^ −-]{1,30}\)")
_LOOSE = re.compile(rf"[{_BLANK}](?=[A-Za-zµμΩΩ])")

#: Words of running text that are spelt like units.
_WORDS = frozenset({"in", "as", "am", "das", "us", "y", "Gs"})
#: Products that are written with a mere blank although no power shows that they are one.
_PAIRS = frozenset({("N", "m"), ("N", "s"), ("kW", "h"), ("W", "h"), ("MW", "h"), ("A", "h"), ("mA", "h")})
#: A number behind one of these is a reference, whatever letter follows it.
_REFERENCE = re.compile(
    r"\b(?:questions?|vra(?:ag|e)|figures?|fig\.|figuur|tables?|tabel|graphs?|section|part|page|paper|grade|graad|"
    rf"equation|version|step|option|no\.|number)[{_BLANK}]+$",
    re.IGNORECASE,
)
_SPELT = {
    "metre": "m", "meter": "m", "kilometre": "km", "kilometer": "km", "centimetre": "cm", "centimeter": "cm",
    "millimetre": "mm", "millimeter": "mm", "second": "s", "minute": "min", "hour": "h", "kilogram": "kg",
    "gram": "g", "newton": "N", "joule": "J", "watt": "W", "volt": "V", "ampere": "A", "amp": "A", "ohm": "Ω",
    "coulomb": "C", "degree": "°", "kelvin": "K", "pascal": "Pa", "litre": "L", "liter": "L", "tesla": "T",
    "weber": "Wb", "farad": "F",
}  # fmt: skip
_ONE_WORD = {"hertz": "Hz", "percent": "%", "meter": "m", "sekonde": "s", "sekondes": "s", "grade": "°"}
_WORD = re.compile(rf"[{_BLANK}-]([A-Za-z]{{3,12}})(?![\w-])")


@dataclass(frozen=True, slots=True)
class Quantity:
    """A number with its unit in a text.

    Attributes:
        start, end: where it stands in the text.
        text: its characters.
        number: the number; None where it has two readings ("1,000 kg").
        unit: the unit; None where it has two readings ("m/s/s").
        spelt: whether it is typed in a way that nothing else of ours reads: a unit's name in place of its
            symbol ("5 metres"), or a hyphen before it ("5-kg").
        wide: whether an uncertainty stands between the number and the unit.
    """

    start: int
    end: int
    text: str
    number: Number | None
    unit: Unit | None
    spelt: bool = False
    wide: bool = False

    @property
    def key(self) -> str:
        """Its text without what Markdown changes in it: blanks, kinds of dash."""
        return re.sub(rf"[{_BLANK}\s]", "", re.sub("[-‐‑‒–—−]+", "-", self.text))


def find_quantities(text: str, decimal: DecimalSign) -> list[Quantity]:
    """Every number with a unit in a text, in order.

    Args:
        text: running text; `GAP` stands for what is none.
        decimal: the document's decimal sign, for numbers such as 1,000.
    """
    found: list[Quantity] = []
    for start, end, number in find_numbers(text, decimal):
        if found and start < found[-1].end:
            continue  # The width of an uncertain one.
        quantity = _with_unit(text, start, end, number, decimal)
        if quantity is not None:
            found.append(quantity)
    return found


def find_numbers(text: str, decimal: DecimalSign) -> Iterator[tuple[int, int, Number | None]]:
    """Every number in a text: where it begins and ends, and its value (None where it has two readings)."""
    at = 0
    while found := _START.search(text, at):
        start = found.start()
        number, end = _number(text, start, decimal)
        at = max(end, start + 1)
        if end > start:
            yield start, end, number


def _number(text: str, start: int, decimal: DecimalSign) -> tuple[Number | None, int]:
    try:
        # No number is longer; the whole of a long text need not be looked at for each of them.
        read = read_number(Text(text[start : start + 200]), 0, decimal)
    except Problem:
        digits = _DIGITS.match(text, start)
        return None, digits.end() if digits else start
    return (None, start) if read is None else (read[0], start + read[1])


def _with_unit(
    text: str, start: int, end: int, number: Number | None, decimal: DecimalSign
) -> Quantity | None:
    wide = False
    after = end
    if width := _WIDTH.match(text, end):
        _, after = _number(text, width.end(), decimal)
        wide = True
    if found := _unit(text, after, number):
        stop, unit, hyphen = found
        if _REFERENCE.search(text[max(0, start - 20) : start]) and len(text[after:stop].strip()) == 1:
            return None
        return Quantity(start, stop, text[start:stop], number, unit, hyphen, wide)
    word = _WORD.match(text, after)
    if word is not None:
        name = word[1].lower()
        symbol = (
            _ONE_WORD.get(name) or _SPELT.get(name) or (_SPELT.get(name[:-1]) if name[-1] == "s" else None)
        )
        if symbol is not None:
            return Quantity(
                start, word.end(), text[start : word.end()], number, read_unit(Text(symbol)), True, wide
            )
    return None


def _unit(text: str, at: int, number: Number | None) -> tuple[int, Unit | None, bool] | None:
    """The longest unit that begins behind a number: where it ends, what it is, whether a hyphen joins it."""
    hyphen = _HYPHEN.match(text, at)
    join = hyphen or _JOIN.match(text, at)
    if join is None:
        return None
    start = join.end()
    for end in reversed(_ends(text, start)):
        typed = text[start:end]
        if (
            typed in _WORDS
            or (typed == "D" and start == at)
            or (typed == "pm" and number is not None and _time_of_day(number))
        ):
            continue
        try:
            return (
                end,
                read_unit(Text(typed.replace("^(", "^{").replace(")", "}") if "^(" in typed else typed)),
                (hyphen is not None),
            )
        except Problem as problem:
            if problem.slug == "unit-ambiguous":
                return end, None, hyphen is not None
    return None


def _time_of_day(number: Number) -> bool:
    return number.value.denominator == 1 and 1 <= number.value <= Fraction(12)


def _ends(text: str, start: int) -> list[int]:
    """Where a unit that begins at `start` may end, the nearest first."""
    ends: list[int] = []
    at = start
    #: Ends after a mere blank, which count only once a power shows that all this is a unit.
    doubtful: list[int] = []
    last = ""
    blank = False
    while len(ends) + len(doubtful) < 12:
        bracket = _BRACKET.match(text, at) if ends else None
        symbol = None if bracket else _SYMBOL.match(text, at)
        if bracket is None and symbol is None:
            break
        stop = (bracket or symbol).end()  # type: ignore[union-attr]
        word = symbol[0] if symbol else ""
        raised = _RAISED.match(text, stop) or _BARE.match(text, stop)
        end = raised.end() if raised else stop
        if end < len(text) and re.match(r"[\w^]", text[end]):
            break
        if not blank:
            ends.append(end)
        elif raised or (last, word) in _PAIRS:
            ends += [*doubtful, end]
            doubtful = []
        elif len(word) <= 3:
            doubtful.append(end)
        else:
            break
        last = word
        if tight := _TIGHT.match(text, end):
            at, blank = tight.end(), bool(doubtful)
        elif loose := _LOOSE.match(text, end):
            at, blank = loose.end(), True
        else:
            break
    with suppress(ValueError):
        ends.remove(start)
    return ends
