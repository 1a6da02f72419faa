"""An author's text of a unit → Unit.

unit     = product ["/" part]            only one solidus at a level, and one part below it
product  = part {separator part}         a space, · ⋅ . * ×
part     = symbol [power] | "(" unit ")" [power]
power    = "^2" | "^-1" | "^(1/2)" | "²" | "⁻¹" | "2" | "-1"

The symbols are looked up in our own table; nothing of the text is ever handed to another library's parser.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import NoReturn

from ..exact import RealError
from ..problems import Text
from ..problems.units import PARTS_OF_A_DEGREE, UnitAmbiguous, UnitUnknown, UnitUnreadable
from .money import CURRENCIES, LONE_SIGN, SIGN, currency_of
from .nearest_unit import nearest_unit
from .powers import LOWERED
from .spelling import COMPOUNDS, DIFFERENCES, DOUBTFUL_BELOW, KNOWN, RUN_TOGETHER
from .unit import ONE, Unit, UnitFactor, unit_of

#: Limits against documents written to exhaust the reader.
LONGEST_TEXT = 80
LARGEST_POWER = 12
MOST_FACTORS = 12
DEEPEST_BRACKETS = 4

_WORD = re.compile("[A-Za-zÅ\u212b\u030aµμΩ\u2126\u212aℓ%°º˚\u2103Δ∆_]+")
_BLANKS = re.compile(r"\s+")
_SEPARATOR = re.compile(r"\s*[·⋅∙.*×]\s*|\s+")
_SOLIDUS = re.compile(r"\s*[/∕⁄]\s*")
_RAISED = re.compile("[⁺⁻]?[⁰¹²³⁴⁵⁶⁷⁸⁹]+")
_TYPED = re.compile(r"\^([+\-−]?\d+|\([+\-−]?\d+(?:/\d+)?\)|\{[+\-−]?\d+(?:/\d+)?\})")
_BARE = re.compile(r"[\-−]?\d+")


@dataclass(frozen=True, slots=True)
class _Part:
    """One factor as read.

    Attributes:
        factor: symbol and power.
        start, end: where it stands in the text.
        difference: whether it was typed as a temperature difference.
        bracketed: whether brackets of its own carry the power, as in (ms)⁻¹, so that nothing is in doubt.
    """

    factor: UnitFactor
    start: int
    end: int
    difference: bool = False
    bracketed: bool = False

    def raised(self, power: Fraction) -> _Part:
        return replace(self, factor=replace(self.factor, power=self.factor.power * power))


_Parts = tuple[_Part, ...]


def read_unit(text: Text, alone: bool = False) -> Unit:
    """The unit that a text spells as a whole; the unit of a plain number where it is blank.

    Args:
        text: the unit's characters and their place, such as "N C^-1", "km/h", "J/(kg·K)".
        alone: whether it stands without a number, so that it may begin with the sign of a currency ("R/kWh"): behind
            a number "R" is the name of a quantity, as in 5/2 R.

    Raises:
        UnitUnknown: a word that is no unit's symbol; the nearest unit is named.
        UnitAmbiguous: `ms-1`, `J/kg K`, `kg/m/s`; both readings are named.
        UnitUnreadable: the text is not built as a unit, or too long, or a power too large.
    """
    if len(text.value) > LONGEST_TEXT:
        raise UnitUnreadable(
            text.at(0), text.value[:20] + "…", f"is too long for a unit (over {LONGEST_TEXT} characters)"
        )
    try:
        return _read(text.value, alone)
    except (UnitUnknown, UnitAmbiguous, UnitUnreadable) as problem:
        # Read with places that count from 1, so that equal texts are read once; here the place is put right.
        start = problem.span.column - 1
        problem.span = text.at(start, start + problem.span.length)
        raise


@lru_cache(maxsize=2048)
def _read(value: str, alone: bool) -> Unit:
    if not value.strip():
        return ONE
    return _Reader(Text(value), alone).whole()


class _Reader:
    """Goes through one text from left to right."""

    def __init__(self, text: Text, alone: bool) -> None:
        self.text = text
        self.alone = alone
        self.value = text.value.rstrip()
        self.place = len(self.value) - len(self.value.lstrip())
        self.depth = 0

    def whole(self) -> Unit:
        parts = self.level()
        if self.place < len(self.value):
            self.stop_here()
        if len(parts) > MOST_FACTORS:
            self.stop(parts[0].start, parts[-1].end, f"has too many factors (over {MOST_FACTORS})")
        for part in parts:
            if part.factor.symbol == "c" and not any(other.factor.symbol.endswith("eV") for other in parts):
                if any(other.factor.symbol in ("h", "J") and other.factor.power < 0 for other in parts):
                    advice = "write a price in the currency itself, as in R2.85/kWh or 2.85 ZAR/kWh"
                    self.stop(part.start, part.start + 1, "is no unit of money", advice)
                # The speed of light is a unit only in particle physics' MeV/c²; elsewhere a slip for C.
                raise UnitUnknown(self.text.at(part.start, part.start + 1), "c", "C")
        try:
            return unit_of((part.factor for part in parts), any(part.difference for part in parts))
        except RealError:
            self.stop(parts[0].start, parts[-1].end, "is too large or too small a unit to hold")

    def level(self) -> _Parts:
        """A product and what one solidus divides it by."""
        start = self.place
        self.skip(_BLANKS)
        above = self.numerator()
        rest: list[tuple[bool, _Parts]] = []
        while (divides := self.skip(_SOLIDUS)) or (rest and self.separated()):
            rest.append((divides, self.part()))
        if len(rest) > 1:
            self.refuse_solidus(start, above, rest)
        if not rest:
            return above
        below = tuple(part.raised(Fraction(-1)) for part in rest[0][1])
        self.refuse_run_together(start, above, below)
        return above + below

    def numerator(self) -> _Parts:
        if self.value.startswith("1", self.place) and _SOLIDUS.match(self.value, self.place + 1):
            self.place += 1
            return ()
        if not self.value[: self.place].strip() and _SOLIDUS.match(self.value, self.place):
            return ()
        parts = self.part()
        while not _SOLIDUS.match(self.value, self.place) and self.separated():
            parts += self.part()
        return parts

    def separated(self) -> bool:
        """Step over a separator; blanks before a closing bracket are none."""
        found = _SEPARATOR.match(self.value, self.place)
        if found is None or (found.group().isspace() and self.value.startswith(")", found.end())):
            return False
        self.place = found.end()
        return True

    def part(self) -> _Parts:
        """One symbol or bracket with its power."""
        start = self.place
        if self.value.startswith("(", start):
            return self.bracket()
        word = _WORD.match(self.value, start)
        if word is None or self.alone:
            sign = (LONE_SIGN if self.alone else SIGN).match(self.value, start)
            if sign and not self.value[:start].strip():
                self.place = sign.end()
                return (_Part(UnitFactor(currency_of(sign.group()).code), start, self.place),)
        if word is None:
            self.stop_here()
        self.place = word.end()
        meant = self.look_up(word.group(), start)
        difference = word.group() in DIFFERENCES
        power = self.power(bare=True)
        pair = RUN_TOGETHER.get(word.group())
        if pair and power is not None and power < 0:
            typed = self.value[start : self.place]
            readings = (
                f"{pair[0]}·{UnitFactor(pair[1], power).text()}",
                UnitFactor(word.group(), power).text(),
            )
            raise UnitAmbiguous(self.text.at(start, self.place), typed, readings)
        times = Fraction(1) if power is None else power
        return tuple(
            _Part(UnitFactor(factor.symbol, factor.power * times), start, self.place, difference)
            for factor in meant
        )

    def bracket(self) -> _Parts:
        start = self.place
        self.depth += 1
        if self.depth > DEEPEST_BRACKETS:
            self.stop(start, start + 1, f"opens a bracket too many (over {DEEPEST_BRACKETS} deep)")
        self.place += 1
        parts = self.level()
        self.skip(_BLANKS)
        if not self.value.startswith(")", self.place):
            if self.place < len(self.value):
                self.stop_here()
            self.stop(start, start + 1, "is not closed", 'write ")" where the bracket ends')
        self.place += 1
        self.depth -= 1
        power = self.power(bare=False)
        if power is None:
            return parts
        raised = tuple(replace(part.raised(power), bracketed=True, end=self.place) for part in parts)
        if any(abs(part.factor.power) > LARGEST_POWER for part in raised):
            self.stop(start, self.place, f"has a power over {LARGEST_POWER}")
        return raised

    def look_up(self, word: str, start: int) -> tuple[UnitFactor, ...]:
        if word in ("°", "deg", "º", "˚"):
            # "30 ° C" is a temperature torn apart, not degrees of angle times coulombs.
            torn = re.compile(r"\s+([CF])(?![A-Za-z])").match(self.value, self.place)
            if torn:
                typed = self.value[start : torn.end()]
                raise UnitUnknown(self.text.at(start, torn.end()), typed, "°" + torn.group(1))
        if word in KNOWN:
            return (UnitFactor("".join(KNOWN[word])),)
        if word in DIFFERENCES:
            return (UnitFactor(DIFFERENCES[word]),)
        if word in COMPOUNDS:
            return tuple(UnitFactor(symbol, Fraction(power)) for symbol, power in COMPOUNDS[word])
        if word in CURRENCIES:
            return (UnitFactor(word),)
        if word in ("cent", "cents", "pence"):
            advice = "write the amount in the currency itself, as in R2.85 or 2.85 ZAR"
            self.stop(start, start + len(word), "does not say of which currency", advice)
        raise UnitUnknown(self.text.at(start, start + len(word)), word, nearest_unit(word))

    def power(self, bare: bool) -> Fraction | None:
        """The power that stands here, or None; `bare` where digits may follow without a sign for it."""
        start = self.place
        if found := _RAISED.match(self.value, start):
            digits = "".join(LOWERED[digit] for digit in found.group())
        elif found := _TYPED.match(self.value, start):
            digits = found.group(1).strip("(){}").replace("−", "-")
        elif bare and (found := _BARE.match(self.value, start)):
            digits = found.group().replace("−", "-")
        elif self.value.startswith("^", start):
            self.stop(start, start + 1, "has no power behind it", 'write a power as "^2" or "^-1"')
        else:
            return None
        self.place = found.end()
        over, _, under = digits.partition("/")
        if under and not int(under):
            self.stop(start, self.place, "divides by zero")
        power = Fraction(int(over), int(under or 1))
        if not power:
            self.stop(start, self.place, "is a power of zero", "leave the factor out")
        if abs(power) > LARGEST_POWER or power.denominator > LARGEST_POWER:
            self.stop(start, self.place, f"is a power over {LARGEST_POWER}")
        return power

    def refuse_solidus(self, start: int, above: _Parts, rest: list[tuple[bool, _Parts]]) -> NoReturn:
        """One solidus and several factors after it, or several solidi: the two ways to read that."""
        first = [part.raised(Fraction(-1)) for part in rest[0][1]]
        onwards, under = [*above, *first], [*above, *first]
        for divides, parts in rest[1:]:
            sign = Fraction(-1 if divides else 1)
            onwards += [part.raised(sign) for part in parts]
            under += [part.raised(-sign) for part in parts]
        left_to_right, all_below = _solidus_text(onwards), _solidus_text(under)
        twice = any(divides for divides, _ in rest[1:])
        readings = (left_to_right, all_below) if twice else (all_below, left_to_right)
        raise UnitAmbiguous(self.text.at(start, self.place), self.value[start : self.place].strip(), readings)

    def refuse_run_together(self, start: int, above: _Parts, below: _Parts) -> None:
        """`W/mK`, which may be W/(m·K) or a watt per millikelvin."""
        for i, part in enumerate(below):
            symbol, power = part.factor.symbol, part.factor.power
            if not above or symbol not in DOUBTFUL_BELOW or part.bracketed or power >= 0:
                continue
            split = (replace(part, factor=UnitFactor(letter, power)) for letter in RUN_TOGETHER[symbol])
            apart = _solidus_text([*above, *below[:i], *split, *below[i + 1 :]])
            raise UnitAmbiguous(
                self.text.at(start, self.place),
                self.value[start : self.place].strip(),
                (apart, _solidus_text([*above, *below])),
            )

    def skip(self, pattern: re.Pattern[str]) -> bool:
        found = pattern.match(self.value, self.place)
        if found is None:
            return False
        self.place = found.end()
        return True

    def stop(self, start: int, end: int, reason: str, advice: str = "") -> NoReturn:
        raise UnitUnreadable(self.text.at(start, end), self.value[start:end], reason, advice)

    def stop_here(self) -> NoReturn:
        """No symbol stands where one must: say why."""
        start = self.place
        if start >= len(self.value):
            end = len(self.value)
            full_stop = self.value[end - 1] == "."
            self.stop(end - 1, end, "has no unit behind it", "take the full stop out" if full_stop else "")
        here = self.value[start]
        if number := re.compile(r"[\-−]?\d+(?:[.,]\d+)?").match(self.value, start):
            form = re.compile(r"\s*(dp|sf)\b").match(self.value, number.end())
            advice = f'write "to" before it: to {number[0]} {form[1]}' if form else ""
            if self.value[:start].rstrip().endswith(("°", "deg", "º", "˚")):
                advice = PARTS_OF_A_DEGREE
            self.stop(start, number.end(), "is a number, which has no place in a unit", advice)
        if self.value[max(0, start - 1) : start + 1] == "**":
            self.stop(start - 1, start + 1, "is no sign for a power", 'write a power as "^2" or "²"')
        if here == ")":
            advice = "take it out; two components stand without brackets: 3 N, 4 N"
            self.stop(start, start + 1, "closes no bracket with a unit in it", advice)
        if here in "/∕⁄·⋅∙.*×^":
            self.stop(start, start + 1, "stands where a unit's symbol should be")
        advice = "multiply units with a dot or a space" if here in "-−–" else ""
        if here in "~\\":
            advice = "write a blank in its place"
        if here == "@":
            advice = "a direction in a plane stands behind at: 12 N at 30°"
        if here in "'\"′″’”":
            advice = PARTS_OF_A_DEGREE
        if here == "#":
            advice = "a comment stands on a line of its own"
        if here in ";,:":
            advice = "take it out; each datum stands on a line of its own"
            behind = self.value[start + 1 :].strip()
            if here == ":" and behind[:1].isdigit():
                advice = "write a time in one unit: 2.5 min or 150 s for two minutes and a half"
            if behind[:1].isdigit() and behind.endswith(("°", "deg", "degrees", "rad")):
                advice = "a direction in a plane stands behind at: 12 N at 30°"
            elif here == "," and behind[:1].isalpha():
                advice = "what is found with its direction says so: F in N with direction"
        self.stop(start, start + 1, "has no place in a unit", advice)


def _solidus_text(parts: list[_Part]) -> str:
    above = [part.factor for part in parts if part.factor.power > 0]
    below = [part.factor for part in parts if part.factor.power < 0]
    return Unit((*above, *below), ONE.scale, ONE.offset, ONE.dimension).text("solidus")
