"""How far results may lie off, to first order: each datum with an uncertainty is moved a little and solved again."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from ..checking.given import sensitivity
from ..checking.setup import Setup
from ..exact import Real, RealError, Spread
from ..language.names import Name
from .stage import Found, values_in
from .system import Solution, solve_all


def spreads(setup: Setup, found: Found, carry: str) -> dict[Name, Spread]:
    """The deviation of every unknown, with what it shares with others kept.

    Args:
        setup: the formulas and data.
        found: their solution.
        carry: the carry policy that it was found under.

    Returns:
        A spread for each unknown; empty where no datum has an uncertainty.
    """
    uncertain = {n: d.quantity for n, d in setup.data.items() if d.quantity.spread is not None}
    if not uncertain:
        return {}
    values = values_in(setup, carry)
    unknowns = tuple(n for n in setup.unknowns if n not in found.cancelled)
    parts: dict[Name, list[tuple[float, Spread]]] = {name: [] for name in found.solution.values}
    for name, quantity in uncertain.items():
        assert quantity.spread is not None
        moved = _Moved(setup, unknowns, values, name, found.solution)
        for unknown in found.solution.values:
            try:
                parts[unknown].append((sensitivity(partial(moved.value, unknown), quantity), quantity.spread))
            except RealError:
                continue  # At the edge of where a formula holds there is no slope to speak of.
    return {name: Spread.combined(own) for name, own in parts.items() if own}


class _Moved:
    """The solutions for one datum moved, each solved once for all unknowns."""

    def __init__(
        self,
        setup: Setup,
        unknowns: tuple[Name, ...],
        values: Mapping[Name, Real],
        name: Name,
        base: Solution,
    ) -> None:
        self._setup = setup
        self._unknowns = unknowns
        self._values = values
        self._name = name
        self._base = base
        self._solved: dict[Real, Mapping[Name, Real]] = {}

    def value(self, unknown: Name, at: Real) -> Real:
        """An unknown, with the datum at a value. Raises RealError where there is no solution."""
        if at not in self._solved:
            moved = {**self._values, self._name: at}
            self._solved[at] = _nearest(self._setup, self._unknowns, moved, self._base).values
        return self._solved[at][unknown]


def _nearest(
    setup: Setup, unknowns: tuple[Name, ...], values: Mapping[Name, Real], base: Solution
) -> Solution:
    """Of the solutions for moved data the one that the given one moved to."""
    solutions = solve_all(setup.equations, unknowns, values).solutions
    if not solutions:
        raise RealError("no solution there")

    def far(solution: Solution) -> float:
        total = 0.0
        for name, value in base.values.items():
            size = abs(float(value)) or 1.0
            total += abs(float(solution.values[name] - value)) / size
        return total

    return min(solutions, key=far)
