"""Every mistake in the entries of an author's own sheet, found at once.

The built-in sheets are read entry by entry, when needed; an author's file is read whole, so that one run
shows all that is wrong with it.
"""

from __future__ import annotations

from dataclasses import replace

from ..language import read_name
from ..problems import Problem, nearest
from ..problems.sheets import SymbolUnused
from .contents import Contents, LawRow
from .entries import own_meanings, read_constant, read_definition, read_law, sheet_of
from .meanings import meaning_of
from .sheet import Law, Sheet, parsed_form


def faults_of(
    own: Contents, whole: Contents, name: str, decimal: str, faults: list[Problem]
) -> tuple[Sheet, tuple[Problem, ...]]:
    """The sheet without its wrong entries, and all problems in the order of their places.

    Args:
        own: what the author's own file holds.
        whole: that laid over the sheets that it extends.
        name: the sheet's name.
        decimal: the decimal sign.
        faults: the problems found so far.
    """
    found = list(faults)
    unread = {key for key, row in own.constants.items() if read_constant(row, decimal, found.append) is None}
    constants = {key: row for key, row in whole.constants.items() if key not in unread}
    unread = {slug for slug, row in own.definitions.items() if read_definition(row, found.append) is None}
    definitions = {slug: row for slug, row in whole.definitions.items() if slug not in unread}
    whole = replace(whole, constants=constants, definitions=definitions)
    sheet = sheet_of(whole, name, decimal)
    for text_key, text in [pair for meanings in own.topics.values() for pair in meanings.items()]:
        symbol = read_name(text_key)
        assert symbol is not None, "keys of meanings were read as names"
        try:
            meaning_of(symbol, text, sheet.constants)
        except Problem as problem:
            found.append(problem)
    wrong = []
    for slug in own.laws:
        before = len(found)
        law = read_law(whole.laws[slug], sheet.constants, found.append)
        if law is not None:
            found += _in_law(law, whole.laws[slug])
        if len(found) > before:
            wrong.append(slug)
    whole = replace(whole, laws={slug: row for slug, row in whole.laws.items() if slug not in wrong})
    # A topic's line that is wrong shows in each formula that uses it; it is one problem.
    once = {(problem.slug, problem.span): problem for problem in found}
    ordered = sorted(once.values(), key=lambda problem: problem.span.order)
    return sheet_of(whole, name, decimal), tuple(ordered)


def _in_law(law: Law, row: LawRow) -> list[Problem]:
    found: list[Problem] = []
    for form in law.forms:
        try:
            parsed_form(form)
        except Problem as problem:
            found.append(problem)
    if found:
        return found
    for key in law.symbols:
        try:
            law.symbols[key]
        except Problem as problem:
            found.append(problem)
    held = tuple(law.symbols)
    for key, text in own_meanings(row, found.append).items():
        if key not in held:
            found.append(SymbolUnused(text.span, key, law.slug, nearest(key, held)))
    return found
