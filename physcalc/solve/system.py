"""A set of formulas with several unknowns: which formula gives which unknown first, then elimination.

The order is a person's: a formula with one unknown left is solved at once; formulas that are linear in what
is left are solved together; else one unknown is made the subject of one formula and put into the others.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..checking.replace import put_in
from ..checking.value import NoValueError, Values, evaluate, residual_vanishes
from ..exact import Real, RealError
from ..language import tree as t
from ..language.names import Name
from ..limits import limit
from ..problems import Span
from ..problems.stopped import RootCombinationsMany
from .invert import isolate
from .linear import Linear, as_linear, solve_linear
from .single import OneUnknown, solve_one


@dataclass(frozen=True, slots=True)
class Move:
    """One step of solving a set.

    Attributes:
        kind: a single formula for a single unknown; a linear set; or an unknown put into the other formulas.
        equations: indices of the formulas used.
        unknowns: what came out.
        one: what solving the single formula gave; None for the other kinds.
        subject: what the unknown equals, for a substitution; None otherwise.
    """

    kind: Literal["single", "linear", "substitute"]
    equations: tuple[int, ...]
    unknowns: tuple[Name, ...]
    one: OneUnknown | None = None
    subject: t.Expr | None = None


@dataclass(frozen=True, slots=True)
class Solution:
    """One set of values that satisfies every formula.

    Attributes:
        values: the unknowns' values.
        moves: how they were found, in order.
        trees: what an unknown equals, where it was made the subject.
    """

    values: dict[Name, Real]
    moves: tuple[Move, ...] = ()
    trees: dict[Name, t.Expr] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Solved:
    """What came of a set.

    Attributes:
        solutions: every verified solution.
        free: unknowns that the formulas leave free, where they do.
        fault: why there is no solution, in words.
        fault_equation: the formula at which it failed; None where it is no single one's.
    """

    solutions: tuple[Solution, ...]
    free: tuple[Name, ...] = ()
    fault: str = ""
    fault_equation: int | None = None


@dataclass(slots=True)
class _Search:
    equations: tuple[t.Equation, ...]
    solutions: list[Solution] = field(default_factory=list)
    free: tuple[Name, ...] = ()
    fault: str = ""
    fault_equation: int | None = None
    steps: int = 0

    def fail(self, fault: str, equation: int | None) -> None:
        if not self.fault:
            self.fault, self.fault_equation = fault, equation


def solve_all(equations: tuple[t.Equation, ...], unknowns: tuple[Name, ...], values: Values) -> Solved:
    """Every solution of the formulas.

    Args:
        equations: the formulas.
        unknowns: the names to be found; each must occur.
        values: the values of the other names, in SI coherent units.
    """
    search = _Search(equations)
    left = tuple(enumerate(equations))
    _step(search, left, unknowns, dict(values), Solution({}))
    solutions = []
    for solution in search.solutions:
        everything = {**values, **solution.values}
        try:
            if _is_checked(solution, equations) or all(
                residual_vanishes(equation, everything) for equation in equations
            ):
                solutions.append(solution)
            else:
                search.fail("the formulas contradict each other", None)
        except (RealError, NoValueError) as error:
            search.fail(str(error), None)
    return Solved(tuple(_distinct(solutions)), search.free, search.fault, search.fault_equation)


def _is_checked(solution: Solution, equations: tuple[t.Equation, ...]) -> bool:
    """Whether the one formula there is was checked already, with each root of its one unknown."""
    return len(equations) == 1 and [move.kind for move in solution.moves] == ["single"]


def _distinct(solutions: list[Solution]) -> list[Solution]:
    kept: list[Solution] = []
    for solution in solutions:
        if not any(
            all(solution.values[n].equals(other.values[n]) for n in solution.values) for other in kept
        ):
            kept.append(solution)
    return kept


Numbered = tuple[tuple[int, t.Equation], ...]


def _open(equation: t.Equation, unknowns: tuple[Name, ...]) -> list[Name]:
    names = t.names_in(equation.left, equation.right)
    return [name for name in unknowns if name in names]


def _step(
    search: _Search, left: Numbered, unknowns: tuple[Name, ...], values: dict[Name, Real], sofar: Solution
) -> bool:
    """Follow one way; returns whether it led to at least one solution or a definite end."""
    search.steps += 1
    most = limit("root-combinations")
    if search.steps > 4 * most or len(search.solutions) >= most:
        raise RootCombinationsMany(Span(), most)
    if not unknowns:
        search.solutions.append(sofar)
        return True
    if _singles(search, left, unknowns, values, sofar):
        return True
    if _linear(search, left, unknowns, values, sofar):
        return True
    if _substitutions(search, left, unknowns, values, sofar):
        return True
    if not search.fault:
        search.free = unknowns
    return False


def _singles(
    search: _Search, left: Numbered, unknowns: tuple[Name, ...], values: dict[Name, Real], sofar: Solution
) -> bool:
    for number, equation in left:
        open_names = _open(equation, unknowns)
        if len(open_names) != 1:
            continue
        (unknown,) = open_names
        one = solve_one(equation, unknown, values)
        if one.cancelled:
            continue
        rest = tuple(pair for pair in left if pair[0] != number)
        if not one.roots:
            search.fail(one.fault, number)
            return True
        move = Move("single", (number,), (unknown,), one)
        for root in one.roots:
            trees = {**sofar.trees, unknown: root.tree} if root.tree is not None else sofar.trees
            _step(
                search,
                rest,
                tuple(name for name in unknowns if name != unknown),
                {**values, unknown: root.value},
                Solution({**sofar.values, unknown: root.value}, (*sofar.moves, move), trees),
            )
        return True
    return False


def _linear(
    search: _Search, left: Numbered, unknowns: tuple[Name, ...], values: dict[Name, Real], sofar: Solution
) -> bool:
    forms: list[tuple[int, Linear]] = []
    wanted = frozenset(unknowns)
    for number, equation in left:
        try:
            a = as_linear(equation.left, wanted, values)
            b = as_linear(equation.right, wanted, values)
        except RealError as error:
            search.fail(str(error), number)
            return True
        if a is None or b is None:
            continue
        names = list(dict.fromkeys([*a[0], *b[0]]))
        zero = Real.of(0)
        merged = {name: a[0].get(name, zero) - b[0].get(name, zero) for name in names}
        forms.append((number, (merged, a[1] - b[1])))
    # The smallest closed group first: formulas whose unknowns are as many as they are.
    for size in range(2, len(forms) + 1):
        for group in _groups(forms, size):
            names = list(dict.fromkeys(name for _, form in group for name in unknowns if name in form[0]))
            if len(names) != size:
                continue
            found = solve_linear([form for _, form in group], names)
            if found is None:
                continue
            numbers = tuple(number for number, _ in group)
            move = Move("linear", numbers, tuple(names))
            _step(
                search,
                tuple(pair for pair in left if pair[0] not in numbers),
                tuple(name for name in unknowns if name not in names),
                {**values, **found},
                Solution({**sofar.values, **found}, (*sofar.moves, move), sofar.trees),
            )
            return True
    return False


def _groups(forms: list[tuple[int, Linear]], size: int) -> list[list[tuple[int, Linear]]]:
    from itertools import combinations, islice

    return [list(group) for group in islice(combinations(forms, size), 400)]


def _substitutions(
    search: _Search, left: Numbered, unknowns: tuple[Name, ...], values: dict[Name, Real], sofar: Solution
) -> bool:
    if len(unknowns) < 2 or len(left) < 2:
        return False
    ways = []
    for number, equation in left:
        for unknown in _open(equation, unknowns):
            elsewhere = [other for n, other in left if n != number and unknown in _open(other, unknowns)]
            branches = isolate(equation, unknown)
            if branches is None or not elsewhere:
                continue
            size = sum(1 for branch in branches for _ in t.walk(branch.tree))
            uses = sum(t.count(unknown, other.left, other.right) for other in elsewhere)
            # What a formula says an unknown is goes in as it stands, without rearranging.
            alone = any(
                isinstance(side, t.Sym) and side.name == unknown for side in (equation.left, equation.right)
            )
            ways.append((len(branches), not alone, uses, size, number, unknown, branches))
    ways.sort(key=lambda way: way[:5])
    for _, _, _, _, number, unknown, branches in ways[:6]:
        solved_before = len(search.solutions)
        for branch in branches:
            rest = tuple(
                (
                    n,
                    t.Equation(
                        put_in(e.left, unknown, branch.tree), put_in(e.right, unknown, branch.tree), e.span
                    ),
                )
                for n, e in left
                if n != number
            )
            move = Move("substitute", (number,), (unknown,), None, branch.tree)
            inner = _Search(search.equations, steps=search.steps)
            remaining = tuple(name for name in unknowns if name != unknown)
            _step(inner, rest, remaining, values, Solution(sofar.values, (*sofar.moves, move), sofar.trees))
            search.steps = inner.steps
            for solution in inner.solutions:
                everything = {**values, **solution.values}
                try:
                    value = evaluate(branch.tree, everything)
                except (RealError, NoValueError):
                    continue
                search.solutions.append(
                    Solution(
                        {**solution.values, unknown: value},
                        solution.moves,
                        {**solution.trees, unknown: branch.tree},
                    )
                )
            if inner.fault and not search.solutions:
                search.fail(inner.fault, inner.fault_equation)
        if len(search.solutions) > solved_before:
            return True
    return False
