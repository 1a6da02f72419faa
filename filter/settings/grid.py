"""The weighting grid that a paper aims at: shares of the marks by topic and by level, as front matter says them."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, cast

from physcalc.exact import read_number
from physcalc.problems import Problem, Text, nearest

from ..problems import SettingUnknown, SettingUnreadable
from .languages import DecimalSign

#: The keys below `grid`.
GRID_KEYS = ("topics", "levels", "tolerance")
#: How far a share may be off where nothing is said, of the whole paper. Common practice, no source.
TOLERANCE = Fraction(5, 100)

_SHARE: Mapping[str, Any] = {
    "anyOf": [
        {"type": "number", "minimum": 0, "maximum": 100},
        {"type": "string", "pattern": r"^\s*[0-9].*$"},
    ]
}
_SHARES: Mapping[str, Any] = {"type": "object", "additionalProperties": _SHARE, "minProperties": 1}
#: What may stand under `grid`, for an editor.
GRID_SCHEMA: Mapping[str, Any] = {
    "type": "object",
    "properties": {
        "topics": {
            **_SHARES,
            "description": "the share of the marks that each topic is to have: forces: 30 %",
        },
        "levels": {**_SHARES, "description": "the share of the marks that each level is to have: 1: 15 %"},
        "tolerance": {**_SHARE, "description": "how far a share may be off, in per cent of the whole paper"},
    },
    "additionalProperties": False,
    "minProperties": 1,
}


@dataclass(frozen=True, slots=True)
class Target:
    """The share of the marks that a topic or a level is to have.

    Attributes:
        name: the topic or level, with its place.
        share: the share, 1 for all marks.
    """

    name: Text
    share: Fraction


@dataclass(frozen=True, slots=True)
class Targets:
    """The grid that a paper aims at.

    Attributes:
        topics: shares by topic, in the order typed; empty where they are not said.
        levels: shares by level, in the order typed; empty where they are not said.
        tolerance: how far a share may be off, 1 for all marks of the paper.
    """

    topics: tuple[Target, ...] = ()
    levels: tuple[Target, ...] = ()
    tolerance: Fraction = TOLERANCE


def read_grid(value: object, decimal: DecimalSign) -> Mapping[str, object] | None:
    """The field `grid` of the settings from keys below `grid`; None where there are none.

    Raises:
        SettingUnknown: a key that is not known.
        SettingUnreadable: a share that cannot be read.
    """
    if isinstance(value, Text) or not isinstance(value, Iterable):
        return None
    fields: dict[str, Any] = {}
    for key, below in cast("Iterable[tuple[Text, object]]", value):
        match key.value:
            case "topics" | "levels":
                fields[key.value] = _targets(key, below, decimal)
            case "tolerance":
                fields["tolerance"] = _share(key, "grid.tolerance", below, decimal)
            case _:
                raise SettingUnknown(key.span, key.value, nearest(key.value, GRID_KEYS))
    return {"grid": Targets(**fields)} if fields else None


def _targets(key: Text, below: object, decimal: DecimalSign) -> tuple[Target, ...]:
    path = f"grid.{key.value}"
    if isinstance(below, Text) or not isinstance(below, Iterable):
        shown = below.value if isinstance(below, Text) else ""
        raise SettingUnreadable(key.span, path, shown, 'names with shares below it, such as "forces: 30 %"')
    # Pandoc hands keys over by the alphabet; they count in the order in which they were typed.
    pairs = sorted(cast("Iterable[tuple[Text, object]]", below), key=lambda pair: pair[0].span.order)
    return tuple(Target(name, _share(name, f"{path}.{name.value}", share, decimal)) for name, share in pairs)


def _share(key: Text, path: str, value: object, decimal: DecimalSign) -> Fraction:
    """A share such as "30 %"; the sign may be left out."""
    allowed = 'a share from 0 to 100, such as "30 %"'
    if not isinstance(value, Text):
        raise SettingUnreadable(key.span, path, "", allowed)
    typed = value.part(0)
    try:
        found = read_number(typed, 0, decimal)
    except Problem:
        found = None
    if found is None or typed.value[found[1] :].strip() not in ("", "%") or not 0 <= found[0].value <= 100:
        raise SettingUnreadable(typed.span, path, typed.value, allowed)
    return found[0].value / 100
