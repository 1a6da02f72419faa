"""What names mean: data in layers, the nearest first."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from ..exact import Number, Real, Rounded
from ..language.names import Name
from ..language.tree import Printed
from ..problems import Span
from ..units import Unit

Kind = Literal["given", "result", "constant"]


@dataclass(frozen=True, slots=True)
class Quantity:
    """A value with its unit.

    Attributes:
        value: the exact value in SI coherent units; a directed one is signed along the axis in force.
        unit: the unit it was typed in or answered with.
        number: the number as typed, in `unit`; None for a computed value.
        direction: the direction as printed, where one was given; empty for none.
        rounded: the number as answered, in `unit`; None for data.
    """

    value: Real
    unit: Unit
    number: Number | None = None
    direction: str = ""
    rounded: Rounded | None = None


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
    """

    name: Name
    quantity: Quantity
    kind: Kind
    where: str
    span: Span | None = None
    printed: Printed | None = None
    rests_on: tuple[Datum, ...] = ()
    shown: Quantity | None = None


Layer = Mapping[Name, Datum]


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
        return None

    def outer(self, name: Name) -> Datum | None:
        """The datum that the nearest one hides, or None."""
        found = [layer[name] for layer in self.layers if name in layer]
        return found[1] if len(found) > 1 else None

    def inside(self, layer: Layer) -> Scope:
        """The scope with one more layer, the nearest."""
        return replace(self, layers=(layer, *self.layers))

    def names(self) -> list[Name]:
        """Every name that has a value."""
        return list({name: None for layer in self.layers for name in layer})


