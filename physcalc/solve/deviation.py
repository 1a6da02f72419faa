"""How far results may lie off, to first order: each datum with an uncertainty is moved a little and solved again.

The law of propagation of uncertainty, GUM (JCGM 100:2008) 5.1.2; what two data share is counted once (5.2).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial

from ..checking.given import sensitivity
from ..checking.scope import Datum
from ..checking.setup import Setup
from ..exact import Numeral, Real, RealError, Spread, TooLarge
from ..language.names import Name
from ..language.statements import Conventions
from ..problems import Problem
from ..problems.uncertainty import UncertaintyAtEdge
from ..units import difference_of
from .cancelled import standing_in
from .stage import Found, values_in
from .system import Solution, solve_all


@dataclass(frozen=True, slots=True)
class Deviation:
    """How far a result may lie off, and which data make it so.

    Attributes:
        spread: its deviation, in SI coherent units.
        parts: the data that contribute, in the order of the formula, each with its own share of the deviation.
    """

    spread: Spread
    parts: tuple[tuple[Name, Spread], ...]

    @property
    def independent(self) -> bool:
        """Whether no two data rest on a common one."""
        spreads = [spread for _, spread in self.parts]
        return not any(a.shares(b) for i, a in enumerate(spreads) for b in spreads[:i])


def carried_spread(datum: Datum, conventions: Conventions) -> Spread | None:
    """The deviation of a datum under the carry policy: an earlier result's exactly, or as wide as it was answered.

    What it shares with others stays shared.
    """
    spread, printed = datum.quantity.spread, datum.printed
    if conventions.carry != "rounded" or datum.kind != "result" or spread is None:
        return spread
    if printed is None or printed.uncertainty is None or printed.unit is None:
        return spread
    size = spread.size(conventions.uncertainty)
    if size.sign() == 0:
        return spread
    width = Real.of(_worth(printed.uncertainty)) * difference_of(printed.unit).scale
    return Spread.combined([(float(width / size), spread)])


def _worth(numeral: Numeral) -> Fraction:
    return Fraction(f"{numeral.whole}.{numeral.part or 0}") * Fraction(10) ** (numeral.exponent or 0)


def spreads(
    setup: Setup, found: Found, conventions: Conventions
) -> tuple[dict[Name, Deviation], list[Problem]]:
    """The deviation of every unknown, with what it shares with others kept.

    Args:
        setup: the formulas and data.
        found: their solution.
        conventions: the settings it was found under.

    Returns:
        A deviation for each unknown that has one; and a problem for each datum whose uncertainty can not be
        carried through.

    Raises:
        RealError: a deviation is beyond what a machine number holds.
    """
    uncertain = {n: s for n, d in setup.data.items() if (s := carried_spread(d, conventions)) is not None}
    if not uncertain:
        return {}, []
    values = values_in(setup, conventions.carry)
    unknowns = tuple(n for n in setup.unknowns if n not in found.cancelled)
    values |= standing_in(found.cancelled)
    asked = {a.find.name: a.find.span for a in setup.asked}
    parts: dict[Name, list[tuple[Name, Spread]]] = {name: [] for name in found.solution.values}
    problems: list[Problem] = []
    for name, spread in uncertain.items():
        moved = _Moved(setup, unknowns, values, name, found.solution)
        # Where the magnitude is put in, a datum below zero moves the other way.
        turned = values[name].sign() * setup.data[name].quantity.value.sign() < 0
        for unknown in found.solution.values:
            try:
                slope = sensitivity(partial(moved.value, unknown), values[name], spread)
            except TooLarge:
                raise
            except RealError:
                if unknown in asked:
                    problems.append(UncertaintyAtEdge(asked[unknown], unknown.key, name.key))
                continue
            if slope:
                parts[unknown].append((name, Spread.combined([(-slope if turned else slope, spread)])))
    out: dict[Name, Deviation] = {}
    for unknown, own in parts.items():
        whole = Spread.combined([(1.0, spread) for _, spread in own]) if own else None
        if whole is not None and whole.size("quadrature").sign() > 0:
            out[unknown] = Deviation(whole, tuple(own))
    return out, problems


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
