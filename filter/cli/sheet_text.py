"""A data and formula sheet as text for a terminal."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Sequence

from physcalc.exact import Numeral
from physcalc.language import Conventions
from physcalc.language.tree import Printed, Sym
from physcalc.render import plain
from physcalc.sheets import Definition, Law, Sheet

from ..report import clean
from ..report.wording import cells

_WIDTH = 88
_GAP = "  "


def sheet_text(sheet: Sheet, conventions: Conventions) -> str:
    """Constants, formulas topic by topic with the names that `use` takes, and definitions.

    Args:
        sheet: the sheet.
        conventions: how numbers and units are written.
    """
    lines = [f"{sheet.title} ({sheet.name})"]
    if sheet.constants:
        lines += ["", "Constants", *_table(_constants(sheet, conventions))]
    topic = ""
    rows: list[Sequence[str]] = []
    for law in sheet.laws.values():
        if law.topic != topic:
            lines += _table(rows)
            topic, rows = law.topic, []
            lines += ["", f"Formulas: {topic}"]
        rows += _law(law, conventions)
    lines += _table(rows)
    if sheet.definitions:
        lines += ["", "Definitions (key phrases in brackets)"]
        for definition in sheet.definitions.values():
            lines += _definition(definition)
    return "\n".join(clean(line) for line in lines) + "\n"


def count_text(sheet: Sheet) -> str:
    """How much a sheet holds: "21 constants, 200 formulas, 40 definitions"."""
    parts = (
        (len(sheet.constants), "constant"),
        (len(sheet.laws), "formula"),
        (len(sheet.definitions), "definition"),
    )
    return ", ".join(f"{count} {thing}{'' if count == 1 else 's'}" for count, thing in parts if count)


def _constants(sheet: Sheet, conventions: Conventions) -> Iterator[Sequence[str]]:
    for constant in sheet.constants.values():
        value = Printed(Numeral.of_number(constant.number), constant.unit)
        name = plain(Sym(constant.name), conventions.style)
        yield name, plain(value, conventions.style, conventions.unit_style), constant.title


def _law(law: Law, conventions: Conventions) -> Iterator[Sequence[str]]:
    """A row for each form; the name and the title stand beside the first."""
    first = True
    for formula in law.formulas:
        text = plain(formula, conventions.style, conventions.unit_style)
        yield (law.slug, text, law.title) if first else ("", text, "")
        first = False


def _definition(definition: Definition) -> Iterator[str]:
    wording = "".join(f"[{text}]" if key_phrase else text for text, key_phrase in definition.pieces())
    yield f"{_GAP}{definition.title}"
    yield from textwrap.wrap(
        wording, _WIDTH, initial_indent=_GAP * 2, subsequent_indent=_GAP * 2, break_on_hyphens=False
    )


def _table(rows: Iterator[Sequence[str]] | Sequence[Sequence[str]]) -> Iterator[str]:
    """Rows with their columns below one another; wide signs count as two columns."""
    rows = list(rows)
    widths = [max(map(_width, column)) for column in zip(*rows, strict=True)]
    for row in rows:
        padded = (text + " " * (width - _width(text)) for text, width in zip(row, widths, strict=True))
        yield (_GAP + _GAP.join(padded)).rstrip()


def _width(text: str) -> int:
    return sum(width for _, width in cells(text))
