"""Letters of labels: pieces of a label from a name or a text, and how much room they take."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Literal

from physcalc.language import Name

from .picture import POINT, Box, Label, Run

#: How much smaller raised and lowered letters are, and how far they move, in sizes of the letters on the line.
SCRIPT = 0.7
LOWERED = 0.22
RAISED = 0.38

#: Widths in sizes of type, a little more than those of the page's font, so that what keeps clear here does there.
_NARROW = frozenset("ijlrtfI.,;:!'’|()[]/ °·\u00a0")
_WIDE = frozenset("mwMWΩ@%—→⇌")
_THIN = frozenset("\u202f\u2009\u200a")

_RAISED = str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺", "0123456789−+")
_LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉₋₊", "0123456789−+")
_RAISED_SIGNS = frozenset("⁰¹²³⁴⁵⁶⁷⁸⁹⁻⁺")
_LOWERED_SIGNS = frozenset("₀₁₂₃₄₅₆₇₈₉₋₊")

#: What a letter takes above its line of writing and below it, in sizes of type.
ABOVE = 0.74
BELOW = 0.24


def runs_of_name(name: Name) -> tuple[Run, ...]:
    """The symbol of a quantity as formulas have it: single letters slanted, words upright, below as well."""
    runs = [Run("Δ")] if name.delta else []
    runs.append(Run(name.base, slant=len(name.base) == 1))
    if name.primes:
        runs.append(Run("′" * name.primes))
    for piece in _PIECES.findall(name.below):
        slant, text = _symbol(piece), piece.replace("-", "−")
        if not slant and runs[-1].level < 0 and not runs[-1].slant:
            text = runs.pop().text + text
        runs.append(Run(text, slant, level=-1))
    return tuple(runs)


#: Letters below, with the blanks between them, and what stands between them.
_PIECES = re.compile(r"[^\W\d_][^\W\d_ ]*(?: [^\W\d_]+)*|(?:[\d_]|\W)+")


def _symbol(piece: str) -> bool:
    # One small letter below is a quantity or a label alike, a capital the name of a body; X, Y and Z are axes.
    return len(piece) == 1 and (piece.islower() or piece in "XYZ")


def runs_of_text(text: str) -> tuple[Run, ...]:
    """A plain text; figures that a unit has raised ("m·s⁻²") become raised letters."""
    runs: list[Run] = []
    for sign in text:
        level: Literal[-1, 0, 1] = 1 if sign in _RAISED_SIGNS else -1 if sign in _LOWERED_SIGNS else 0
        plain = sign.translate(_RAISED).translate(_LOWERED)
        if runs and runs[-1].level == level:
            runs[-1] = Run(runs[-1].text + plain, False, level)
        else:
            runs.append(Run(plain, False, level))
    return tuple(runs)


def runs_equal(name: Name, value: str) -> tuple[Run, ...]:
    """ "F = 12 N": a symbol and its value."""
    return (*runs_of_name(name), Run("\u00a0=\u00a0"), *runs_of_text(value))


def width_of(runs: Iterable[Run], size: float) -> float:
    """About how wide pieces of a label are, in millimetres; rather too much than too little."""
    return _widths(tuple(runs)) * size * POINT


@lru_cache(maxsize=1024)
def _widths(runs: tuple[Run, ...]) -> float:
    """Their width in sizes of type: a label is measured for each place that it might have."""
    return sum((SCRIPT if run.level else 1.0) * sum(map(_width, run.text)) for run in runs)


def _width(sign: str) -> float:
    if sign in _THIN:
        return 0.2
    if sign in _NARROW:
        return 0.36
    if sign in _WIDE:
        return 0.95
    if sign.isupper() or sign in "=+−×±Δ<>≈":
        return 0.76
    return 0.54


def box_of(label: Label) -> Box:
    """About the box that a label fills."""
    width = width_of(label.runs, label.size)
    unit = label.size * POINT
    above = ABOVE + (RAISED * 0.5 if any(run.level > 0 for run in label.runs) else 0)
    x, y = label.at
    before = {"start": 0.0, "middle": width / 2, "end": width}[label.anchor]
    if label.turned:
        return Box(x - above * unit, y - before, x + BELOW * unit, y - before + width)
    return Box(x - before, y - BELOW * unit, x - before + width, y + above * unit)


def joined(parts: Sequence[Sequence[Run]], between: str = ", ") -> tuple[Run, ...]:
    """Several labels in one, with a text between."""
    runs: list[Run] = []
    for at, part in enumerate(parts):
        if at:
            runs.append(Run(between))
        runs.extend(part)
    return tuple(runs)
