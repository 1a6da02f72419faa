"""The line that says what a formula's symbol is: "mass in kg, not negative"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from ..exact import Real, read_number
from ..language import Name, read_name
from ..language.tree import Sym, walk
from ..problems import Span, Text, nearest
from ..problems.sheets import LimitUnreadable, SymbolUnexplained
from ..units import ONE, Unit, read_unit
from .sheet import Constant, Law, Symbol

_WORDS = ("not negative", "positive", "vector", "at least", "at most", "above", "below")
_BOUND = re.compile(r"(at least|at most|above|below)\s+(.+)")
_RANGE = re.compile(r"(.+?)\s+to\s+(.+)")


@dataclass
class _Limits:
    """The limits while a line is read; None where nothing was said."""

    minimum: Fraction | None = None
    maximum: Fraction | None = None
    exclusive: bool = False
    exclusive_maximum: bool = False
    vector: bool = False


def read_meaning(
    name: Name, text: Text | None, law: Law, constants: Mapping[str, Constant], explained: tuple[str, ...]
) -> Symbol:
    """What a name of a formula stands for.

    Args:
        name: the name.
        text: the line that explains it; None where there is none, so that it must be a constant.
        law: the formula.
        constants: the constants of the sheet.
        explained: the names that are explained, for a nearest one.

    Raises:
        SymbolUnexplained: there is no line and no such constant.
        LimitUnreadable: words behind the unit are no limit.
        UnitUnknown, UnitAmbiguous, UnitUnreadable: the unit cannot be read.
    """
    if text is not None:
        return meaning_of(name, text, constants)
    constant = constants.get(name.key)
    if constant is None:
        raise SymbolUnexplained(_place(name, law), name.key, law.slug, nearest(name.key, explained))
    return Symbol(name, constant.unit, constant.title)


def _place(name: Name, law: Law) -> Span:
    for formula in law.formulas:
        for side in (formula.left, formula.right):
            for node in walk(side):
                if isinstance(node, Sym) and node.name == name:
                    return node.span
    return law.span


def meaning_of(name: Name, text: Text, constants: Mapping[str, Constant]) -> Symbol:
    """Read the line "TITLE in UNIT, LIMIT, …".

    Raises:
        LimitUnreadable: words behind the unit are no limit.
        UnitUnknown, UnitAmbiguous, UnitUnreadable: the unit cannot be read.
    """
    cuts = [-1, *(match.start() for match in re.finditer(",", text.value)), len(text.value)]
    parts = [text.part(start + 1, end) for start, end in pairwise(cuts)]
    title, unit = _title_and_unit(parts[0])
    limits = _Limits()
    for part in parts[1:]:
        _add_limit(part, limits, unit, constants)
    if limits.minimum is not None and limits.maximum is not None and limits.minimum > limits.maximum:
        raise LimitUnreadable(text.span, text.value, "lets no value through")
    return Symbol(
        name,
        unit,
        title,
        limits.minimum,
        limits.maximum,
        limits.exclusive,
        limits.vector,
        limits.exclusive_maximum,
    )


def _title_and_unit(text: Text) -> tuple[str, Unit]:
    # The last " in " comes before the unit: "speed of sound in air in m·s⁻¹".
    title, found, _ = text.value.rpartition(" in ")
    if not found:
        return text.value, ONE
    return title.strip(), read_unit(text.part(len(title) + len(found)), alone=True)


def _add_limit(text: Text, limits: _Limits, unit: Unit, constants: Mapping[str, Constant]) -> None:
    words = text.value
    if words == "vector":
        limits.vector = True
    elif words == "not negative":
        limits.minimum, limits.exclusive = Fraction(0), False
    elif words == "positive":
        limits.minimum, limits.exclusive = Fraction(0), True
    elif bound := _BOUND.fullmatch(words):
        value = _value(text.part(bound.start(2)), unit, constants)
        if bound[1] in ("at least", "above"):
            limits.minimum, limits.exclusive = value, bound[1] == "above"
        else:
            limits.maximum, limits.exclusive_maximum = value, bound[1] == "below"
    elif span := _RANGE.fullmatch(words):
        limits.minimum, limits.exclusive = _value(text.part(0, span.end(1)), unit, constants), False
        limits.maximum, limits.exclusive_maximum = _value(text.part(span.start(2)), unit, constants), False
    else:
        raise LimitUnreadable(text.span, words, nearest=nearest(words, _WORDS))


def _value(text: Text, unit: Unit, constants: Mapping[str, Constant]) -> Fraction:
    """A limit in the symbol's unit: a number, or a constant with or without a minus."""
    read = read_number(text, 0, ".")
    if read is not None and read[1] == len(text.value):
        return read[0].value
    bare = text.value.lstrip("-−").strip()
    name = read_name(bare)
    constant = None if name is None else constants.get(name.key)
    if constant is None:
        raise LimitUnreadable(text.span, text.value, "is neither a number nor a constant of the sheet")
    if constant.unit.dimension != unit.dimension:
        raise LimitUnreadable(text.span, text.value, "does not have the dimension of the symbol's unit")
    exact = (Real.of(constant.number.value) * constant.unit.scale / unit.scale).fraction
    if exact is None:
        raise LimitUnreadable(text.span, text.value, "is not a plain number in the symbol's unit")
    return -exact if bare != text.value else exact
