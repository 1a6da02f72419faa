"""What the document side asks of the engine; a test may hand in a small one of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Protocol

from physcalc.checking.scope import Datum, Layer, Scope
from physcalc.language import Calculation, Conventions, GivenText, Name
from physcalc.language.tree import Equation, Expr, Printed
from physcalc.problems import Problem, Text
from physcalc.sheets import Sheet
from physcalc.steps.lines import Working

from .statements import Options

if TYPE_CHECKING:
    from physcalc.change import Changed
    from physcalc.compare_parts import TypedPart
    from physcalc.figures.drawn import Drawn, FigureText


class Outcome(Protocol):
    """What a calculation led to."""

    @property
    def working(self) -> Working | None:
        """Its working; None where it could not be done."""

    @property
    def results(self) -> Layer:
        """What it found."""

    @property
    def problems(self) -> Sequence[Problem]:
        """What is wrong with it, notes included."""

    @property
    def used_laws(self) -> Sequence[str]:
        """The formulas of the sheet that it takes, by slug."""

    @property
    def used_constants(self) -> Sequence[Name]:
        """The constants of the sheet that it takes."""

    @property
    def changes(self) -> Mapping[Name, Changed]:
        """By which factor what it asks changes, where that is what it asks."""


class Chosen(Protocol):
    """What a block of options led to."""

    @property
    def key(self) -> str | None:
        """The letter of the right option; None where it could not be told."""

    @property
    def printed(self) -> Sequence[tuple[str, Printed | Expr | str]]:
        """Letters with what is printed behind them."""

    @property
    def problems(self) -> Sequence[Problem]:
        """What is wrong with them, notes included."""


class Engine(Protocol):
    """The engine: `physcalc` itself, or one made for a test."""

    def constants_layer(self, sheet: Sheet) -> Layer:
        """The sheet's constants as the outermost layer of a scope."""

    def read_given(
        self, items: Sequence[GivenText], scope: Scope, conventions: Conventions
    ) -> tuple[Layer, list[Problem]]:
        """Data lines as one layer, with every problem."""

    def calculate(self, calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer) -> Outcome:
        """One calculation, worked out; what uses its results goes on from the values of `taken`."""

    def choose(self, options: Options, scope: Scope) -> Chosen:
        """One block of options, worked out."""

    def draw(self, body: FigureText, scope: Scope) -> Drawn:
        """What a figure shows, and what it finds."""

    def compare_typed(self, typed: Text, datum: Datum, conventions: Conventions) -> list[Problem]:
        """A value typed in the text against what it says the value of."""

    def compare_part(
        self, typed: Text, datum: Datum, part: TypedPart, conventions: Conventions, unit: Text | None
    ) -> list[Problem]:
        """A part of a value typed in the text: its number, its unit, its direction or its sign."""

    def take_value(self, typed: Text, result: Datum, conventions: Conventions) -> Datum:
        """A result with a learner's value. Raises Problem."""

    def compare_force(self, typed: Text, one: Datum, other: Datum, conventions: Conventions) -> list[Problem]:
        """A word for what two charges do, typed in the text."""

    def compare_change(
        self, typed: Text, name: Name, changed: Changed, conventions: Conventions
    ) -> list[Problem]:
        """A word or factor for what a result does when data change, typed in the text."""

    def written(
        self, name: Text, scope: Scope, conventions: Conventions
    ) -> tuple[Printed | None, list[Problem]]:
        """The value of a name, to be written into the text."""

    def tex(self, node: Expr | Equation | Printed, conventions: Conventions) -> str:
        """A tree or value as TeX maths."""

    def plain(self, node: Expr | Equation | Printed, conventions: Conventions) -> str:
        """A tree or value as plain text."""
