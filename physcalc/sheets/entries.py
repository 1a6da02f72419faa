"""Rows of a sheet's file → constants, formulas and definitions, with every mistake in them."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import partial
from typing import TypeVar

from ..exact import Number, read_number
from ..language import read_name
from ..problems import Problem, Text
from ..problems.sheets import ConstantUnreadable, PhraseUnclosed, SheetEntryMisshapen
from ..units import Unit, read_unit
from .contents import (
    Contents,
    Key,
    Keys,
    LawRow,
    Report,
    keys_of,
    meanings_of,
    needed,
    optional,
    raising,
    text_of,
    texts_of,
)
from .meanings import read_meaning
from .nodes import Row, Table
from .sheet import Constant, Definition, Law, Lazy, Sheet, Symbol

T = TypeVar("T")

CONSTANT_KEYS: Keys = {
    "value": Key("the value as the sheet prints it, with its unit", needed=True),
    "title": Key("what it is, in words", needed=True),
    "source": Key("where the value comes from"),
    "also": Key("other customary values, set apart by semicolons"),
}
LAW_KEYS: Keys = {
    "title": Key("what the formula is called", needed=True),
    "form": Key("the formula, or a list of the ways it is usually written", "texts", needed=True),
    "symbols": Key("what each name is: TITLE in UNIT, LIMIT", "by name"),
    "magnitudes": Key("whether charges go into it without their signs", "yes-no"),
}
DEFINITION_KEYS: Keys = {
    "title": Key("what is defined", needed=True),
    "also": Key("other names that it is asked for by", "texts"),
    "wording": Key("the definition, with its key phrases in square brackets", needed=True),
}

#: The words under a key that takes yes or no.
YES_NO = {"yes": True, "true": True, "no": False, "false": False}


def read_constant(row: Row, decimal: str, report: Report) -> Constant | None:
    """Read a constant."""
    place = f"the constant {row.key.value}"
    found = keys_of(row.value, row.key, place, CONSTANT_KEYS, report)
    name = read_name(row.key.value)
    if found is None or name is None or not needed(found, CONSTANT_KEYS, place, row.key.span, report):
        return None
    value = text_of(found["value"], report)
    title = text_of(found["title"], report)
    source = optional(found, "source", report)
    if value is None or title is None:
        return None
    try:
        read = read_number(value, 0, "," if decimal == "," else ".")
        if read is None:
            report(ConstantUnreadable(value.span, value.value))
            return None
        number, end = read
        unit = read_unit(value.part(end))
        also = _other_values(text_of(found["also"], report), decimal) if "also" in found else ()
        return Constant(name, number, unit, title.value, source, row.key.span, also)
    except Problem as problem:
        report(problem)
        return None


def _other_values(text: Text | None, decimal: str) -> tuple[tuple[Number, Unit], ...]:
    """Values set apart by semicolons. Raises ConstantUnreadable and what numbers and units raise."""
    values: list[tuple[Number, Unit]] = []
    start = 0
    for piece in text.value.split(";") if text is not None else ():
        assert text is not None
        value = text.part(start, start + len(piece))
        start += len(piece) + 1
        read = read_number(value, 0, "," if decimal == "," else ".")
        if read is None:
            raise ConstantUnreadable(value.span, value.value)
        values.append((read[0], read_unit(value.part(read[1]))))
    return tuple(values)


def read_law(law: LawRow, constants: Mapping[str, Constant], report: Report) -> Law | None:
    """Read a formula; its forms are parsed, and its symbols read, when they are first used."""
    row = law.row
    place = f"the formula {row.key.value}"
    found = keys_of(row.value, row.key, place, LAW_KEYS, report)
    if found is None or not needed(found, LAW_KEYS, place, row.key.span, report):
        return None
    title = text_of(found["title"], report)
    forms = texts_of(found["form"], report)
    magnitudes = False
    if "magnitudes" in found:
        word = text_of(found["magnitudes"], report)
        if word is not None and word.value.lower() not in YES_NO:
            report(SheetEntryMisshapen(word.span, "magnitudes", '"yes" or "no"'))
        elif word is not None:
            magnitudes = YES_NO[word.value.lower()]
    own = own_meanings(law, report)
    if title is None or not forms:
        return None

    def keys() -> list[str]:
        return [name.key for name in made.names]

    def meaning(key: str) -> Symbol:
        name = next(name for name in made.names if name.key == key)
        return read_meaning(name, own.get(key) or law.shared.get(key), made, constants, (*own, *law.shared))

    symbols = Lazy(keys, meaning)
    made = Law(row.key.value, title.value, law.topic, forms, symbols, magnitudes, row.key.span)
    return made


def own_meanings(law: LawRow, report: Report) -> dict[str, Text]:
    """What a formula's own `symbols` say, by the name's key."""
    rows = law.row.value.rows if isinstance(law.row.value, Table) else ()
    return meanings_of([row for row in rows if row.key.value == "symbols"][:1], report)


def read_definition(row: Row, report: Report) -> Definition | None:
    """Read a definition."""
    place = f"the definition {row.key.value}"
    found = keys_of(row.value, row.key, place, DEFINITION_KEYS, report)
    if found is None or not needed(found, DEFINITION_KEYS, place, row.key.span, report):
        return None
    title = text_of(found["title"], report)
    wording = text_of(found["wording"], report)
    also = tuple(text.value for text in texts_of(found["also"], report)) if "also" in found else ()
    if title is None or wording is None:
        return None
    plain, phrases, starts = "", [], []
    for index, piece in enumerate(re.split(r"([\[\]])", wording.value.strip())):
        # The brackets stand at the odd places, and must be an opening and a closing one in turn.
        if index % 2:
            expected = "[" if index % 4 == 1 else "]"
            if piece != expected:
                report(PhraseUnclosed(wording.span, row.key.value, plain[-30:].strip() + piece))
                return None
        elif index % 4 == 2:
            if not piece.strip():
                report(PhraseUnclosed(wording.span, row.key.value, plain[-30:].strip() + "["))
                return None
            phrases.append(piece)
            starts.append(len(plain))
            plain += piece
        else:
            plain += piece
    if wording.value.count("[") != wording.value.count("]"):
        report(PhraseUnclosed(wording.span, row.key.value, plain[-30:].strip()))
        return None
    return Definition(row.key.value, title.value, plain, tuple(phrases), also, tuple(starts), row.key.span)


# The sheet


def sheet_of(contents: Contents, name: str, decimal: str) -> Sheet:
    """The sheet that files amount to; each entry is read when it is first asked for.

    What is wrong in an entry is raised then, so that files that were not checked must be right.
    """

    def constant(key: str) -> Constant:
        return _certain(read_constant(contents.constants[key], decimal, raising))

    def law(slug: str) -> Law:
        return _certain(read_law(contents.laws[slug], constants, raising))

    def definition(slug: str) -> Definition:
        return _certain(read_definition(contents.definitions[slug], raising))

    constants = Lazy(partial(tuple, contents.constants), constant)
    return Sheet(
        name,
        contents.title or name,
        constants,
        Lazy(partial(tuple, contents.laws), law),
        Lazy(partial(tuple, contents.definitions), definition),
    )


def _certain(entry: T | None) -> T:
    assert entry is not None, "a raising report lets no entry be None"
    return entry
