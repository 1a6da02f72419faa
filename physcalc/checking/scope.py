"""What names mean: data in layers, the nearest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from ..exact import Number, Real, Rounded, Spread
from ..language.headings import Heading
from ..language.headings import Kind as HeadingKind
from ..language.names import Name
from ..language.tree import Expr, Printed
from ..problems import Problem, Span
from ..units import Unit

Kind = Literal["given", "result", "constant"]


@dataclass(frozen=True, slots=True)
class Plane:
    """A vector in a plane.

    Attributes:
        x: its component along +x (right, east), in SI coherent units.
        y: its component along +y (up, north).
        kind: how its direction was typed, and so how directions beside it are printed.
        heading: its direction as typed; None where components were typed, or for a result.
        numbers: the components as typed, in the quantity's unit; None where a size was typed, or for a result.
    """

    x: Real
    y: Real
    kind: HeadingKind = "angle"
    heading: Heading | None = None
    numbers: tuple[Number, Number] | None = None

    def along(self, component: str) -> Real:
        """One of its components."""
        return self.x if component == "x" else self.y


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit.

    Attributes:
        value: the exact value in SI coherent units; a directed one is signed along the axis in force.
        unit: the unit it was typed in or answered with.
        number: the number as typed, in `unit`; None for a computed value.
        direction: the direction as printed, where one was given; empty for none.
        rounded: the number as answered, in `unit`; None for data.
        plane: the components of a vector in a plane, of which `value` is the size; None for anything else.
        spread: how far the value may lie off; None for a value without uncertainty.
        width: the uncertainty as typed; None for a computed one.
        width_unit: its unit where that is another than `unit` (a percentage, a smaller unit); None for `unit`.
    """

    value: Real
    unit: Unit
    number: Number | None = None
    direction: str = ""
    rounded: Rounded | None = None
    plane: Plane | None = None
    spread: Spread | None = None
    width: Number | None = None
    width_unit: Unit | None = None

    def turned(self) -> Quantity:
        """The opposite value; what it shares with others goes the other way with it."""
        spread = None if self.spread is None else Spread.combined([(-1.0, self.spread)])
        return replace(self, value=-self.value, spread=spread)


@dataclass(frozen=True, slots=True)
class Datum:
    """A name with its value and where that came from.

    Attributes:
        name: the name.
        quantity: the value.
        kind: typed data, a result found earlier, or the sheet's constant.
        where: words for messages: "line 15", "sheet", "from lift-tension".
        span: its place; None for the sheet's.
        printed: for a result, as it was answered; None otherwise.
        rests_on: the data that a result was computed from.
        shown: the value that a "show that" states for it; None for none.
        calculation: the document's key of the calculation that found it; None where nobody set one. Under
            another name, or brought in by `from`, a result keeps it.
    """

    name: Name
    quantity: Quantity
    kind: Kind
    where: str
    span: Span | None = None
    printed: Printed | None = None
    rests_on: tuple[Datum, ...] = ()
    shown: Quantity | None = None
    calculation: int | None = None


Layer = Mapping[Name, Datum]


class GivenLayer(dict[Name, Datum]):
    """The names of one given block, with those whose expressions hold a name without a value.

    Such a name is no mistake where the missing one cancels from what is found (a ratio of two forces); it is one
    where nothing ever uses it, or where it does not cancel.
    """

    def __init__(self) -> None:
        super().__init__()
        self._open: dict[Name, tuple[Expr, Problem]] = {}
        self._used: set[Name] = set()

    def copy(self) -> GivenLayer:
        """The same names at this moment; which open ones are used is known to both."""
        twin = GivenLayer()
        twin.update(self)
        twin._open, twin._used = dict(self._open), self._used
        return twin

    def take_in(self, other: Layer) -> None:
        """The names of another block of the same question as well."""
        self.update(other)
        if isinstance(other, GivenLayer):
            self._open.update(other._open)

    def leave_open(self, name: Name, tree: Expr, problem: Problem) -> None:
        """Keep a name as its expression, with the problem that it is where it does not cancel."""
        self._open[name] = (tree, problem)

    def open_tree(self, name: Name) -> Expr | None:
        """The expression of a name left open, or None."""
        found = self._open.get(name)
        if found is None:
            return None
        self._used.add(name)
        return found[0]

    def open_problem(self, name: Name) -> Problem | None:
        """What is wrong with a name left open, where it does not cancel."""
        found = self._open.get(name)
        return found[1] if found else None

    def unused(self) -> list[Problem]:
        """The problems of the names left open that nothing has used."""
        return [problem for name, (_, problem) in self._open.items() if name not in self._used]


@dataclass(frozen=True, slots=True)
class Scope:
    """Layers of names, the nearest first; results elsewhere are reached by id.

    Attributes:
        layers: what names mean, nearest layer first; the sheet's constants come last.
        elsewhere: results of other questions and blocks, by id.
    """

    layers: tuple[Layer, ...] = ()
    elsewhere: Mapping[str, Layer] = field(default_factory=dict)

    def find(self, name: Name) -> Datum | None:
        """The nearest datum of that name, or None."""
        for layer in self.layers:
            if name in layer:
                return layer[name]
        return self._component(name) if name.component else None

    def _component(self, name: Name) -> Datum | None:
        """The component of a vector in a plane; what is zero has components of zero."""
        whole = self.find(name.whole)
        if whole is None:
            return None
        if whole.quantity.plane is None:
            if whole.quantity.value.sign() != 0 or whole.quantity.spread is not None:
                return None
            return replace(whole, name=name, rests_on=(whole,))
        plane = whole.quantity.plane
        number = None if plane.numbers is None else plane.numbers[name.component == "y"]
        quantity = Quantity(plane.along(name.component), whole.quantity.unit, number)
        return Datum(name, quantity, whole.kind, whole.where, whole.span, None, (whole,))

    def outer(self, name: Name) -> Datum | None:
        """The datum that the nearest one hides, or None."""
        found = [layer[name] for layer in self.layers if name in layer]
        return found[1] if len(found) > 1 else None

    def inside(self, layer: Layer) -> Scope:
        """The scope with one more layer, the nearest."""
        return replace(self, layers=(layer, *self.layers))

    def open_tree(self, name: Name) -> Expr | None:
        """The expression of a name that was left open (it holds a name without a value), or None."""
        for layer in self.layers:
            if name in layer:
                return None
            if isinstance(layer, GivenLayer) and (tree := layer.open_tree(name)) is not None:
                return tree
        return None

    def open_problem(self, name: Name) -> Problem | None:
        """What is wrong with a name that was left open, or None."""
        for layer in self.layers:
            if isinstance(layer, GivenLayer) and (problem := layer.open_problem(name)) is not None:
                return problem
        return None

    def names(self) -> list[Name]:
        """Every name that has a value."""
        return list({name: None for layer in self.layers for name in layer})
