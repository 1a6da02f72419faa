"""Results of a set of formulas in its later lines: with as many figures as the answers printed there need."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace

from ..checking.prices import unit_on_the_way
from ..exact import Real
from ..language import tree as t
from ..language.names import Name
from ..language.statements import Conventions
from ..language.tree import Printed
from ..solve.polynomial import Polynomial
from ..solve.stage import Found
from ..units import Unit, coherent_with_angles, from_si, to_si
from .algebra import Elimination, quadratic_roots
from .answers import answer_again, answer_line, on_the_way, printed_root, put_answer
from .lines import Answer, Line
from .values import LEAST_FIGURES, MOST_FIGURES, said, says, with_figures


class Carried:
    """What was found in this set so far, and how it stands in later lines.

    A result goes on with the digits it is printed with. Where whoever types these into a calculator would get another
    answer than the one that is printed next, it goes on with more; one that was not asked is printed with them, too.
    """

    def __init__(
        self, found: Found, conventions: Conventions, answers: Mapping[Name, Answer], doubtful: bool
    ) -> None:
        """`doubtful` tells that data have uncertainties: these say how many figures count."""
        self.found = found
        self.setup = found.setup
        self.conventions = conventions
        self.answers = answers
        self.doubtful = doubtful
        self.asked = {a.find.name: a for a in self.setup.asked}
        self.wider: dict[Name, Printed] = {}

    def line(self, name: Name) -> Line:
        """The line of a result."""
        value = self.found.solution.values[name]
        raw = name in self.found.as_typed
        if name in self.asked:
            radians = name in self.found.radians
            return answer_line(self.asked[name], self.answers[name], value, raw, radians, self.conventions)
        line, _ = self._way(name, value)
        if (wider := self.wider.get(name)) is not None:
            assert isinstance(line.sides[1], Printed)
            line = replace(line, sides=(line.sides[0], replace(line.sides[1], numeral=wider.numeral)))
        return line

    def put(self, name: Name) -> Printed:
        """What stands for a result in later lines."""
        if name in self.wider:
            return self.wider[name]
        value = self.found.solution.values[name]
        if name in self.asked:
            return put_answer(self.answers[name], value, name in self.found.as_typed, self.conventions)
        return self._way(name, value)[1]

    def put_with_unit(self, name: Name) -> Printed:
        """The same with its unit, where units stand in substitutions."""
        put = self.put(name)
        if put.unit is not None or not self.conventions.units_in_substitution:
            return put
        if name not in self.asked:
            shown = self.line(name).sides[1]
            return replace(put, unit=shown.unit if isinstance(shown, Printed) else None)
        unit = self.asked[name].unit
        return replace(put, unit=unit if name in self.found.as_typed else coherent_with_angles(unit))

    def number(self, name: Name) -> Real:
        """The number that `put` rounds."""
        value, unit = self.found.solution.values[name], self._unit(name)
        return value if unit is None else from_si(value, unit)

    def _unit(self, name: Name) -> Unit | None:
        """The unit in which a result goes on, where it is not the coherent one of the SI."""
        if name not in self.found.as_typed:
            return None
        if name in self.asked:
            unit = self.asked[name].unit
            return None if unit.angle else unit
        return unit_on_the_way(self.setup, name)

    def _way(self, name: Name, value: Real) -> tuple[Line, Printed]:
        unit = unit_on_the_way(self.setup, name) if name in self.found.as_typed else None
        return on_the_way(self.setup, name, value, self.conventions, unit)

    def _prints(self, name: Name, number: Real) -> bool:
        """Whether a number in the place of a result would be printed as the result is."""
        value = self.found.solution.values[name]
        raw = name in self.found.as_typed
        again = self._coherent(name, number)
        if name in self.asked:
            radians = name in self.found.radians
            answer = self.answers[name]
            return answer_again(self.asked[name], answer, value, again, raw, radians, self.conventions)
        return self._way(name, again)[1].numeral == self._way(name, value)[1].numeral

    def _coherent(self, name: Name, number: Real) -> Real:
        """A number in the place of a result, in SI coherent units."""
        unit = self._unit(name)
        return number if unit is None else to_si(number, unit)

    def _said(self, name: Name, figures: int) -> Printed:
        """What stands for a result, in so many figures where it is rounded; as it is for none."""
        put, number = self.put(name), self.number(name)
        if not figures or (put.unit is not None and put.unit.angle) or says(put.numeral, number):
            return put
        return Printed(with_figures(number, figures, self.conventions), put.unit)

    def _worth(self, put: Printed, number: Real) -> Real:
        return number if put.unit is not None and put.unit.angle else said(put.numeral, number)

    def enough(
        self, results: Iterable[Name], name: Name, solve: Callable[[dict[Name, Real]], list[Real]]
    ) -> None:
        """Widen results on which a line rests until it gives what it is said to give.

        Args:
            results: what was found in this set before and stands in the line.
            name: what the line gives.
            solve: what it gives, with numbers for `results`.
        """
        used = tuple(results)
        if self.doubtful or all(says(self.put(n).numeral, self.number(n)) for n in used):
            return
        for figures in (0, *range(LEAST_FIGURES, MOST_FIGURES + 1)):
            puts = {n: self._said(n, figures) for n in used}
            numbers = {n: self._worth(put, self.number(n)) for n, put in puts.items()}
            if any(self._prints(name, root) for root in solve(numbers)):
                if figures:
                    self.wider.update({n: put for n, put in puts.items() if put != self.put(n)})
                return

    def coefficients(self, unknown: Name, polynomial: Polynomial) -> int:
        """In how many figures the coefficients of a quadratic equation still give both roots as they are printed."""
        exact = quadratic_roots(polynomial, self.conventions, 0)
        if not self.doubtful:
            for figures in range(LEAST_FIGURES, MOST_FIGURES + 1):
                roots = quadratic_roots(polynomial, self.conventions, figures)
                alike = len(roots) == len(exact) and all(
                    self.root(unknown, self._coherent(unknown, one)).numeral
                    == self.root(unknown, self._coherent(unknown, other)).numeral
                    for one, other in zip(roots, exact, strict=True)
                )
                if alike and any(self._prints(unknown, root) for root in roots):
                    return figures
        return LEAST_FIGURES

    def root(self, name: Name, value: Real) -> Printed:
        """One of several roots, a value in SI coherent units, in the unit in which it comes out."""
        raw = name in self.found.as_typed
        if name in self.asked:
            radians = name in self.found.radians
            return printed_root(self.asked[name], value, raw, radians, self.conventions)
        line, _ = self._way(name, value)
        assert isinstance(line.sides[1], Printed)
        return line.sides[1]

    def eliminated(self, eliminate: Callable[[int], list[Elimination] | None]) -> list[Elimination] | None:
        """An elimination with coefficients, and results put back, in as many figures as its results need.

        Args:
            eliminate: the elimination with coefficients of so many figures at least.
        """
        first = eliminate(LEAST_FIGURES)
        if first is None or self.doubtful:
            return first
        ways = [(f, 0) for f in range(LEAST_FIGURES, MOST_FIGURES + 1)]
        ways += [(f, f) for f in range(LEAST_FIGURES, MOST_FIGURES + 1)]
        for figures, wide in ways:
            steps = first if figures == LEAST_FIGURES else eliminate(figures)
            if steps is not None and (puts := self._come_out(steps, wide)) is not None:
                self.wider.update({n: put for n, put in puts.items() if put != self.put(n)})
                return steps
        return first

    def _come_out(self, steps: list[Elimination], figures: int) -> dict[Name, Printed] | None:
        """What is put back, where every step then gives what is printed; else None."""
        puts: dict[Name, Printed] = {}
        needed = {n for step in steps for n in step.said[0]}
        for step in steps:
            number = step.said[1]
            for n, coefficient in step.said[0].items():
                number = number + coefficient * self._worth(puts[n], self.number(n))
            if not self._prints(step.unknown, number):
                return None
            puts[step.unknown] = self._said(step.unknown, figures if step.unknown in needed else 0)
        return puts


def results_in(trees: Iterable[t.Expr], results: Iterable[Name]) -> list[Name]:
    """The results that stand in trees."""
    names = t.names_in(*trees)
    return [name for name in results if name in names]
