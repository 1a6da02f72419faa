"""The values of the parts of a circuit, from what is typed or from what their names mean in scope."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from ..checking.scope import Datum, Scope
from ..exact import Real, round_figures
from ..language.names import Name, read_name
from ..language.statements import Conventions
from ..problems import Text
from ..problems.figures_circuits import CircuitUnreadable, ComponentDimension, ComponentNegative
from ..units import Dimension, read_unit
from .circuit_parts import DIODES, RESISTIVE, SOURCES, Part, Ratings, Value
from .reading import value_of

VOLT, AMPERE, OHM, WATT = (read_unit(Text(unit)) for unit in ("V", "A", "Ω", "W"))
#: What has no resistance worth telling, unless one is given.
_METERS = ("ammeter", "galvanometer", "voltmeter", "fuse")
#: A value that is no fraction is taken to so many figures: far beyond every printed one.
_FIGURES = 60


def number_of(datum: Datum) -> Fraction:
    """A value in SI coherent units: exact, or to 60 figures where it is no fraction."""
    value = datum.quantity.value
    exact = value.fraction
    return exact if exact is not None else round_figures(value, _FIGURES).fraction


def ratings_of(part: Part, scope: Scope, conventions: Conventions) -> Ratings:
    """The values of a part; unknown ones have no datum.

    Raises:
        Problem: a value cannot be read, is of the wrong dimension, or negative.
    """
    if part.kind in SOURCES:
        return _battery(part, scope, conventions)
    if part.kind in RESISTIVE or (part.values and part.kind in _METERS):
        return _resistor(part, scope, conventions)
    if part.values and part.kind in DIODES:
        return _diode(part, scope, conventions)
    if part.values and part.kind == "terminals":
        return Ratings()
    if part.values:
        what = f'"{part.text.value}" has no value that counts in a circuit'
        raise CircuitUnreadable(part.values[0].span, what, "take the value out")
    return Ratings()


def _battery(part: Part, scope: Scope, conventions: Conventions) -> Ratings:
    emf: Value | None = None
    inner: Value | None = None
    for text in part.values:
        value = _value(text, scope, conventions)
        dimension = value.datum.quantity.unit.dimension if value.datum is not None else _meant(value.name)
        if dimension is None:
            dimension = VOLT.dimension if emf is None else OHM.dimension
        if dimension not in (VOLT.dimension, OHM.dimension):
            raise _wrong(text, value, "an emf in V or an internal resistance in Ω")
        if (emf if dimension == VOLT.dimension else inner) is not None:
            two = "two emfs" if dimension == VOLT.dimension else "two internal resistances"
            how = "put each battery behind a comma of its own"
            raise CircuitUnreadable(text.span, f"the battery has {two}", how)
        if value.datum is not None and value.datum.quantity.value.sign() < 0:
            raise ComponentNegative(text.span, text.value, dimension == VOLT.dimension)
        if dimension == VOLT.dimension:
            emf = _counted(value, part)
        else:
            inner = _counted(value, part)
    return Ratings(emf or Value(None, None), inner)


def _counted(value: Value, part: Part) -> Value:
    """The value of several cells in series: that of one as many times."""
    if part.count == 1 or value.datum is None:
        return value
    quantity = value.datum.quantity
    many = replace(quantity, value=quantity.value * Real.of(part.count), number=None)
    return Value(value.name, replace(value.datum, quantity=many, rests_on=(value.datum,)))


def _resistor(part: Part, scope: Scope, conventions: Conventions) -> Ratings:
    name = part.name
    if part.kind in ("lamp", "motor") and name is not None and name.base != "R":
        # A lamp L has the resistance R_L, where nothing else is said.
        name = Name("R", name.base + name.subscript)
    value = Value(name, None)
    if len(part.values) > 1:
        what = f'"{part.text.value}" has one resistance'
        raise CircuitUnreadable(part.values[1].span, what, "put each part behind a comma of its own")
    if part.values:
        found = _value(part.values[0], scope, conventions)
        # R_1 = 4 Ω: the value is that of the name.
        value = Value(name if found.name is None else found.name, found.datum)
    elif name is not None:
        known = scope.find(name)
        # A constant of the sheet that happens to have the name is not meant.
        if known is not None and known.kind == "constant" and known.quantity.unit.dimension != OHM.dimension:
            known = None
        value = Value(name, known)
    datum, text = value.datum, part.values[0] if part.values else part.text
    if datum is not None and datum.quantity.unit.dimension != OHM.dimension:
        raise _wrong(text, value, "a resistance in Ω")
    if datum is not None and datum.quantity.value.sign() < 0:
        raise ComponentNegative(text.span, text.value)
    return Ratings(None, value)


def _diode(part: Part, scope: Scope, conventions: Conventions) -> Ratings:
    if len(part.values) > 1:
        what = f'"{part.text.value}" has one voltage'
        raise CircuitUnreadable(part.values[1].span, what, "put each part behind a comma of its own")
    text = part.values[0]
    value = _value(text, scope, conventions)
    if value.datum is not None and value.datum.quantity.unit.dimension != VOLT.dimension:
        raise _wrong(text, value, "the voltage in V at which it conducts")
    if value.datum is not None and value.datum.quantity.value.sign() < 0:
        raise ComponentNegative(text.span, text.value, True)
    return Ratings(forward=value)


def _value(text: Text, scope: Scope, conventions: Conventions) -> Value:
    """A value: `ε`, `12 V`, `ε = 12 V`; a name without a value is an unknown one."""
    left, equals, _ = text.value.partition("=")
    if equals:
        return Value(read_name(left), value_of(text.part(len(left) + 1), scope, conventions))
    name = read_name(text.value)
    if name is not None and not name.component:
        return Value(name, scope.find(name))
    return Value(None, value_of(text, scope, conventions))


def _meant(name: Name | None) -> Dimension | None:
    """What the letter of a name without a value says."""
    if name is None:
        return None
    if name.base in ("r", "R"):
        return OHM.dimension
    return VOLT.dimension if name.base in ("ε", "E", "V", "emf", "EMF", "U") else None


def _wrong(text: Text, value: Value, needs: str) -> ComponentDimension:
    assert value.datum is not None
    return ComponentDimension(text.span, text.value, value.datum.quantity.unit.text(), needs)
