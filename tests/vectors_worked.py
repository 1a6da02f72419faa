"""Vectors worked out, for their tests."""

from __future__ import annotations

import math
from dataclasses import replace

from physcalc.checking.scope import Plane
from physcalc.engine import Outcome
from physcalc.language.headings import read_heading
from physcalc.language.names import Name
from physcalc.language.points import read_points
from physcalc.language.statements import Conventions

from .authoring import (
    POINT,
    text,
)  # fmt: skip

FORCES = ("F_1: 12 N at 30°", "F_2: 5 N at 90°")


def points(**places: str) -> Conventions:
    """Conventions with points in a plane."""
    return replace(POINT, points=read_points([(text(k), text(v)) for k, v in places.items()], "."))


def degrees(phrase: str) -> float:
    return math.degrees(float(read_heading(text(phrase), ".").direction())) % 360


def plane(outcome: Outcome, name: str) -> Plane:
    found = outcome.results[Name(*name.split("_"))].quantity.plane
    assert found is not None
    return found
