"""Which of several solutions is meant: what the sheet knows can not be, then what the author says."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from ..checking.limits import ACUTE, Limits
from ..exact import Real
from ..language.names import Name
from ..language.phrases import Take
from ..units import to_si
from .system import Solution


@dataclass(frozen=True, slots=True)
class SetAside:
    """A solution that is not the one meant.

    Attributes:
        solution: its values.
        name: the quantity that rules it out.
        reason: why: "limits" (a mass is not negative), "take" (the author's word) or "magnitude".
        title: for limits, what the quantity is.
    """

    solution: Solution
    name: Name
    reason: str
    title: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """What is left after choosing.

    Attributes:
        kept: the solutions still possible.
        aside: those set aside, with the reason.
    """

    kept: tuple[Solution, ...]
    aside: tuple[SetAside, ...]


def choose(
    solutions: tuple[Solution, ...],
    finds: tuple[Name, ...],
    limits: Mapping[Name, Limits],
    take: Take | None,
    magnitudes_only: bool,
) -> Choice:
    """Set aside what can not be, then what `take` rules out.

    Args:
        solutions: all that satisfy the formulas.
        finds: what is asked, in order; the words of `take` are about the first.
        limits: what the quantities can be.
        take: the author's word; None for none.
        magnitudes_only: whether no direction is in play, so that of ±x the magnitude is meant.
    """
    aside: list[SetAside] = []
    kept = list(solutions)
    if len(kept) > 1 and not (take is not None and _angles_only(finds, limits)):
        allowed = []
        for solution in kept:
            bad = next(
                (n for n, v in solution.values.items() if n in limits and not limits[n].allow(v)), None
            )
            if bad is None:
                allowed.append(solution)
            else:
                aside.append(SetAside(solution, bad, "limits", limits[bad].title))
        if not allowed and aside and all(a.title == ACUTE for a in aside):
            allowed, aside = kept, []
        kept = allowed
    if take is not None:
        kept = _taken(kept, finds, take, aside)
    elif len(kept) > 1 and magnitudes_only:
        kept = _magnitudes(kept, finds, aside)
    return Choice(tuple(kept), tuple(aside))


def _angles_only(finds: tuple[Name, ...], limits: Mapping[Name, Limits]) -> bool:
    """Whether the acute angle is the only limit: it is meant only where the author says nothing."""
    return all(limits[n].title == ACUTE for n in finds if n in limits) and any(n in limits for n in finds)


def _taken(
    kept: list[Solution], finds: tuple[Name, ...], take: Take, aside: list[SetAside]
) -> list[Solution]:
    name = take.name or finds[0]
    if not all(name in solution.values for solution in kept):
        return kept

    def value(solution: Solution) -> Real:
        return solution.values[name]

    if take.kind in ("largest", "smallest"):
        ordered = sorted(kept, key=lambda s: float(value(s)))
        chosen = ordered[-1:] if take.kind == "largest" else ordered[:1]
    elif take.bound is not None:
        bound = to_si(Real.of(take.bound.number.value), take.bound.unit)
        wanted = {">": (1,), "<": (-1,), "≥": (0, 1), "≤": (-1, 0)}[take.kind]
        chosen = [s for s in kept if (value(s) - bound).sign() in wanted]
    else:
        sign = 1 if take.kind == "positive" else -1
        chosen = [s for s in kept if value(s).sign() == sign]
    aside.extend(SetAside(s, name, "take") for s in kept if s not in chosen)
    return chosen


def _magnitudes(kept: list[Solution], finds: tuple[Name, ...], aside: list[SetAside]) -> list[Solution]:
    """Of two solutions that differ only in signs, the positive one, where no direction is in play."""
    if len(kept) != 2:
        return kept
    first, second = kept
    changed = [n for n in finds if not first.values[n].equals(second.values[n])]
    if not changed or not all(first.values[n].equals(-second.values[n]) for n in changed):
        return kept
    for positive, other in ((first, second), (second, first)):
        if all(positive.values[n].sign() > 0 for n in changed):
            aside.append(SetAside(other, changed[0], "magnitude"))
            return [positive]
    return kept
