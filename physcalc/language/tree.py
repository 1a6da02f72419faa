"""The tree of a formula. It keeps the layout that was typed: nothing is reordered, merged or simplified."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

from ..exact import Number, Numeral
from ..problems import Span
from ..units import Unit
from .names import Name

NOWHERE = Span()

FUNCTIONS = (
    "sin", "cos", "tan", "asin", "acos", "atan", "atan2", "sqrt", "exp", "ln", "log", "log10", "abs",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Num:
    """A number in a formula; `unit` is "" or, for an angle, "°" or "rad"."""

    number: Number
    unit: str = ""
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Sym:
    """A quantity by its name."""

    name: Name
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Pi:
    """The circle constant."""

    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Sum:
    """Terms with a sign before each; the first sign is "" where none was typed.

    Attributes:
        terms: the terms as typed.
        signs: one of "", "+", "-", "±", "∓" for each term.
    """

    terms: tuple[Expr, ...]
    signs: tuple[str, ...]
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Product:
    """Factors joined left to right, all operators binding equally.

    Attributes:
        factors: the factors as typed.
        joins: what stands before each factor after the first: "" (side by side), "·", "×" or "/".
    """

    factors: tuple[Expr, ...]
    joins: tuple[str, ...]
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Power:
    """A power."""

    base: Expr
    exponent: Expr
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Call:
    """A function of one argument (two for atan2).

    Attributes:
        function: one of FUNCTIONS.
        arguments: the arguments.
        bracketed: whether brackets were typed (`sin(θ)` against `sin θ`, `sqrt(x)` against `√x`).
        power: the exponent typed between name and argument, as in `sin² θ`; None where there is none.
    """

    function: str
    arguments: tuple[Expr, ...]
    bracketed: bool = True
    power: Expr | None = None
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Group:
    """Brackets typed by the author."""

    body: Expr
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Abs:
    """A magnitude, `|…|`."""

    body: Expr
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Printed:
    """A value ready to print.

    Attributes:
        numeral: the digits.
        unit: its unit; None where no unit is printed.
        direction: words that follow ("to the right"); empty where there are none.
        uncertainty: the digits after ±, with the numeral's own power of ten; None for none.
        width_unit: the unit of the uncertainty where it has one of its own (a percentage, a smaller unit); else
            the two share power of ten and unit.
    """

    numeral: Numeral
    unit: Unit | None = None
    direction: str = ""
    uncertainty: Numeral | None = None
    width_unit: Unit | None = None


@dataclass(frozen=True, slots=True)
class Put:
    """A value put in the place of a name (only in substitution lines, never typed).

    Attributes:
        printed: what stands there.
        name: the name it stands for.
    """

    printed: Printed
    name: Name
    span: Span = NOWHERE


Expr = Num | Sym | Pi | Sum | Product | Power | Call | Group | Abs | Put


@dataclass(frozen=True, slots=True)
class Equation:
    """A formula: two sides.

    Attributes:
        left, right: its sides as typed.
        span: the whole of it.
    """

    left: Expr
    right: Expr
    span: Span = NOWHERE


Sign = Literal["+", "-"]


#: The nodes without parts: most of a tree.
_LEAVES = frozenset((Sym, Num, Put, Pi))


def children(node: Expr) -> tuple[Expr, ...]:
    """The parts of a node, in the order typed."""
    match node:
        case Sum(terms=parts) | Product(factors=parts):
            return parts
        case Power(base, exponent):
            return (base, exponent)
        case Call(arguments=arguments, power=power):
            return arguments if power is None else (*arguments, power)
        case Group(body) | Abs(body):
            return (body,)
        case _:
            return ()


def rebuilt(node: Expr, change: Callable[[Expr], Expr]) -> Expr:
    """The node with each of its parts changed; one without parts is itself.

    A function whose argument is another one has brackets, whatever was typed.
    """
    if type(node) in _LEAVES:
        return node
    match node:
        case Sum(terms, signs, span):
            return Sum(tuple(change(term) for term in terms), signs, span)
        case Product(factors, joins, span):
            return Product(tuple(change(factor) for factor in factors), joins, span)
        case Power(base, exponent, span):
            return Power(change(base), change(exponent), span)
        case Call(function, arguments, bracketed, power, span):
            changed = tuple(change(argument) for argument in arguments)
            raised = None if power is None else change(power)
            return Call(function, changed, bracketed or changed != arguments, raised, span)
        case Group(body, span):
            return Group(change(body), span)
        case Abs(body, span):
            return Abs(change(body), span)
        case _:
            return node


def walk(node: Expr) -> Iterator[Expr]:
    """The node and everything below it, in the order typed."""
    waiting = [node]
    while waiting:
        found = waiting.pop()
        yield found
        if type(found) not in _LEAVES:
            waiting += reversed(children(found))


def names_in(*nodes: Expr) -> list[Name]:
    """The names that occur, each once, in the order of first appearance."""
    seen: dict[Name, None] = {}
    for node in nodes:
        for part in walk(node):
            if type(part) is Sym:
                seen[part.name] = None
    return list(seen)


def count(name: Name, *nodes: Expr) -> int:
    """How often a name occurs."""
    return sum(1 for node in nodes for part in walk(node) if isinstance(part, Sym) and part.name == name)
