"""Which constant of the sheet was perhaps not meant, where dimensions do not fit."""

from __future__ import annotations

from collections.abc import Mapping

from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain_printed
from ..language.statements import Conventions
from ..problems import Problem
from ..units import Dimension, coherent_unit
from .dimensions import Dimensions
from .given import exponents_of
from .printing import printed_datum
from .scope import Datum


def doubtful_constant(
    equation: t.Equation,
    known: Mapping[Name, Dimension],
    data: Mapping[Name, Datum],
    conventions: Conventions,
) -> str:
    """A constant of the sheet without which the dimensions fit: perhaps a datum of that name was forgotten.

    Args:
        equation: the formula whose dimensions do not fit.
        known: the dimensions of data and of what is asked.
        data: the values that go in.
        conventions: how the constant is written.

    Returns:
        The constant with its value; of several the one that would have the simplest unit; empty for none.
    """
    style = conventions.style
    found: list[tuple[int, str]] = []
    for name in t.names_in(equation.left, equation.right):
        datum = data.get(name)
        if datum is None or datum.kind != "constant":
            continue
        without = {n: dimension for n, dimension in known.items() if n != name}
        trial = Dimensions(without, exponents_of(dict(data)), {}, style)
        try:
            trial.check(equation)
        except Problem:
            continue
        dimension = trial.of(name)
        unit = coherent_unit(dimension).text() if dimension is not None else "?" * 99
        found.append(
            (
                len(unit),
                f"{name.key} = {plain_printed(printed_datum(datum, style), style, conventions.unit_style)}",
            )
        )
    return min(found)[1] if found else ""
