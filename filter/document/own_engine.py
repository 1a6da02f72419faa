"""The project's engine behind the interface that the document side asks for."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from physcalc import engine
from physcalc.checking.scope import Datum, Layer, Scope
from physcalc.language import Calculation, Conventions, GivenText, Name
from physcalc.language.tree import Equation, Expr, Printed
from physcalc.language.words import direction_words
from physcalc.problems import Problem, Text
from physcalc.render import plain, tex
from physcalc.sheets import Sheet

from .engine import Chosen, Outcome
from .statements import Options

if TYPE_CHECKING:
    from physcalc.change import Changed
    from physcalc.compare_parts import TypedPart
    from physcalc.figures.drawn import Drawn, FigureText


class OwnEngine:
    """`physcalc` itself."""

    def constants_layer(self, sheet: Sheet) -> Layer:
        """See `Engine`."""
        return engine.constants_layer(sheet)

    def read_given(
        self, items: Sequence[GivenText], scope: Scope, conventions: Conventions
    ) -> tuple[Layer, list[Problem]]:
        """See `Engine`."""
        return engine.read_given(items, scope, conventions)

    def calculate(self, calculation: Calculation, scope: Scope, sheet: Sheet, taken: Layer) -> Outcome:
        """See `Engine`."""
        return engine.calculate(calculation, scope, sheet, taken)

    def choose(self, statement: Options, scope: Scope) -> Chosen:
        """See `Engine`."""
        from physcalc import options  # Here, and below: what many documents have not.

        block = options.Options(
            statement.span, statement.conventions, statement.of, statement.options, statement.answer
        )
        return options.choose_option(block, scope)

    def draw(self, body: FigureText, scope: Scope) -> Drawn:
        """See `Engine`."""
        from physcalc.figures.stage import draw

        return draw(body, scope)

    def compare_typed(self, typed: Text, datum: Datum, conventions: Conventions) -> list[Problem]:
        """See `Engine`."""
        return engine.compare_typed(typed, datum, conventions)

    def compare_part(
        self, typed: Text, datum: Datum, part: TypedPart, conventions: Conventions, unit: Text | None
    ) -> list[Problem]:
        """See `Engine`."""
        from physcalc.compare_parts import compare_part

        return compare_part(typed, datum, part, conventions, unit)

    def take_value(self, typed: Text, result: Datum, conventions: Conventions) -> Datum:
        """See `Engine`."""
        from physcalc.taken import take_value

        return take_value(typed, result, conventions)

    def compare_force(self, typed: Text, one: Datum, other: Datum, conventions: Conventions) -> list[Problem]:
        """See `Engine`."""
        from physcalc.compare_parts import compare_force

        return compare_force(typed, one, other, conventions)

    def compare_change(
        self, typed: Text, name: Name, changed: Changed, conventions: Conventions
    ) -> list[Problem]:
        """See `Engine`."""
        from physcalc.change import compare_change

        return compare_change(typed, name, changed, conventions)

    def written(
        self, name: Text, scope: Scope, conventions: Conventions
    ) -> tuple[Printed | None, list[Problem]]:
        """See `Engine`."""
        return engine.written(name, scope, conventions)

    def tex(self, node: Expr | Equation | Printed, conventions: Conventions) -> str:
        """See `Engine`."""
        return tex(_in_language(node, conventions.lang), conventions)

    def plain(self, node: Expr | Equation | Printed, conventions: Conventions) -> str:
        """See `Engine`."""
        return plain(_in_language(node, conventions.lang), conventions.style, conventions.unit_style)


def _in_language(node: Expr | Equation | Printed, lang: str) -> Expr | Equation | Printed:
    """A value with its direction in the document's language, which the engine holds in English."""
    if isinstance(node, Printed) and node.direction:
        return replace(node, direction=direction_words(node.direction, lang))
    return node
