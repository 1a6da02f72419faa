"""Quantities as an author types them: a number with unit, uncertainty and direction, an expression, a reference."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from ..exact import Number, read_number
from ..problems import Problem, Span, Text
from ..problems.language import NameUnreadable, QuantityUnreadable, UnitInExpression
from ..problems.units import UnitUnknown, UnitUnreadable
from ..units import ONE, Dimension, Unit, read_unit
from . import tree as t
from .headings import Heading, own_heading_at, read_heading
from .money import may_be_product, read_money
from .names import GREEK, NAME_PATTERN, Name, read_name
from .parser import parse_expression
from .uncertain import read_uncertain

_REFERENCE = re.compile(
    rf"(?:(?P<name>{NAME_PATTERN})\s+)?from\s+(?P<id>[A-Za-z][\w:.-]*)(?P<shown>\s+shown)?"
)


@dataclass(frozen=True, slots=True)
class Typed:
    """A number with its unit as typed, perhaps with a direction.

    Attributes:
        number: the number.
        unit: the unit; ONE where none was typed.
        direction: the words after the comma as typed; None for none.
        span: the whole of it.
        heading: the direction in a plane, after `at`; None for none.
        across: the second of two components (`3 N, 4 N`); None for a single value.
        uncertainty: the number after ± with its unit (% for a share of the value); None for none.
    """

    number: Number
    unit: Unit
    direction: Text | None
    span: Span
    heading: Heading | None = None
    across: Typed | None = None
    uncertainty: tuple[Number, Unit] | None = None


@dataclass(frozen=True, slots=True)
class Formed:
    """A name or an expression that stands for a value, perhaps with a direction.

    Attributes:
        expression: the tree.
        direction: the words after the comma as typed; None for none.
        span: the whole of it.
        as_unit: what is wrong if the text was meant as a number with a unit ("3 kgs"): the problem to report
            where a name in it has no value.
        as_typed: the number with its unit that the text may be as well ("5 /s"): meant where a name in it has
            no value.
        heading: the direction in a plane, after `at`; None for none.
    """

    expression: t.Expr
    direction: Text | None
    span: Span
    as_unit: Problem | None = None
    as_typed: Typed | None = None
    heading: Heading | None = None


@dataclass(frozen=True, slots=True)
class Reference:
    """A result found elsewhere: `T from lift-tension`.

    Attributes:
        name: the result's name there; None where it is the name given here.
        target: the id of the question or block.
        shown: whether the value that a "show that" states is meant.
        span: the whole of it.
    """

    name: Name | None
    target: str
    shown: bool
    span: Span


def read_given_name(text: Text) -> Name:
    """The name before the colon of a datum. Raises NameUnreadable."""
    name = read_name(text.value)
    if name is None:
        raise NameUnreadable(text.span, text.value)
    return name


def _split_direction(text: Text) -> tuple[Text, Text | None]:
    """The value and the direction after its comma (a comma between digits is a decimal sign)."""
    for found in re.finditer(r",\s*(?=[^\W\d_])", text.value):
        return text.part(0, found.start()), text.part(found.end())
    return text, None


_AT = re.compile(r"\s+at\s+(?=\S)")
_COMPONENTS = re.compile(r"[;,]\s+(?=[-+−]?\s*[0-9.])|;")


def _heading_at(value: str, lang: str) -> tuple[int, int] | None:
    """Where a value ends and its direction in a plane begins: behind `at`, or with a word of the document's own."""
    if at := _AT.search(value):
        return at.span()
    own = own_heading_at(value, lang)
    return None if own is None else (own, own)


def read_typed(text: Text, decimal: str, lang: str = "en") -> Typed | None:
    """A number with its unit and direction, or None where the text does not begin with a number.

    Raises:
        NumberAmbiguous, UnitUnknown, UnitAmbiguous, UnitUnreadable, HeadingUnreadable.
    """
    if (at := _heading_at(text.value, lang)) is not None:
        inner = _read_typed(text.part(0, at[0]), decimal)
        if inner is None:
            return None
        return replace(inner, heading=read_heading(text.part(at[1]), decimal, lang), span=text.span)
    if parts := _COMPONENTS.search(text.value):
        first = _read_typed(text.part(0, parts.start()), decimal)
        second = _read_typed(text.part(parts.end()), decimal)
        if first is not None and second is not None and first.unit.dimension == second.unit.dimension:
            return replace(first, across=second, span=text.span)
    return _read_typed(text, decimal)


def _read_uncertain(text: Text, decimal: str) -> Typed:
    """A value with ±, perhaps with a direction."""

    def side(part: Text) -> tuple[Number, Unit] | None:
        typed = _read_typed(part, decimal)
        return None if typed is None or typed.direction is not None else (typed.number, typed.unit)

    value, direction = _split_direction(text)
    found = read_uncertain(value, decimal, side)  # type: ignore[arg-type]
    uncertainty = (found.width, found.width_unit)
    return Typed(found.number, found.unit, direction, text.span, uncertainty=uncertainty)


def _read_typed(text: Text, decimal: str) -> Typed | None:
    value, direction = _split_direction(text)
    if "±" in value.value:
        return _read_uncertain(text, decimal)
    if (money := read_money(value, decimal)) is not None:
        return Typed(*money, direction, text.span)
    found = read_number(value, 0, decimal)  # type: ignore[arg-type]
    if found is None:
        return None
    number, end = found
    rest = value.part(end)
    if rest.value and rest.value[0] in "*·×/^+-−(":
        if not (rest.value[0] == "/" and re.match(r"/\s*[A-Za-zµμΩ°%]", rest.value)):
            return None
        if rest.value[0] == "/":
            return None if _is_expression(value) else Typed(number, read_unit(rest), direction, text.span)
    unit = read_unit(rest) if rest.value else ONE
    _refuse_share(unit, rest)
    _refuse_kind_twice(unit, rest)
    return Typed(number, unit, direction, text.span)


def _refuse_share(unit: Unit, text: Text) -> None:
    """Refuse "25 % F" and "25 % of F", meant as a quarter of F; "0.4 %/K" is sound.

    Raises:
        UnitUnreadable.
    """
    first, *others = unit.factors or (None,)
    if first is not None and first.symbol == "%" and any(factor.power > 0 for factor in others):
        what = text.value.strip().lstrip("%").strip(" *·×")
        advice = f"for a share of a quantity write a product, as in 0.25*{what}"
        raise UnitUnreadable(text.span, text.value.strip(), "would be a unit made of % and another", advice)


#: Length, mass and time, whose units are never multiplied by another of their kind.
_SINGLE = frozenset(read_unit(Text(symbol)).dimension for symbol in ("m", "kg", "s"))


def _refuse_kind_twice(unit: Unit, text: Text) -> None:
    """Refuse "28 kg * g", meant as a mass times g; below a line km·h⁻¹·s⁻¹ is sound.

    Raises:
        UnitUnreadable.
    """
    seen: dict[Dimension, str] = {}
    for factor in unit.factors:
        if factor.power <= 0 or len(unit.factors) < 2:
            continue
        dimension = read_unit(Text(factor.symbol)).dimension
        if dimension in _SINGLE and seen.setdefault(dimension, factor.symbol) != factor.symbol:
            first, second = seen[dimension], factor.symbol
            advice = f"if {second} is the name of a quantity, give the number before it a name in a line of its own"
            raise UnitUnreadable(text.span, text.value.strip(), f"would be {first} times {second}", advice)


def _is_expression(text: Text) -> bool:
    try:
        parse_expression(text)
    except Problem:
        return False
    return True


def read_quantity(text: Text, decimal: str, lang: str = "en") -> Typed | Formed | Reference:
    """What stands after the colon of a datum: a quantity, a reference, a name or an expression.

    Raises:
        QuantityUnreadable and whatever numbers, units and formulas raise.
    """
    if not text.value.strip():
        raise QuantityUnreadable(text.span, text.value)
    if found := _REFERENCE.fullmatch(text.value.strip()):
        return Reference(
            read_name(found["name"]) if found["name"] else None, found["id"], bool(found["shown"]), text.span
        )
    if re.match(r"from\s", text.value.strip()):
        hint = (
            "write the id that stands behind # at the question: from lift-tension, "
            "or, if its name there is another, T from lift-tension"
        )
        raise QuantityUnreadable(text.span, text.value.strip(), hint)
    if (at := _heading_at(text.value, lang)) is not None:
        inner = read_quantity(text.part(0, at[0]), decimal)
        if not isinstance(inner, Reference):
            return replace(inner, heading=read_heading(text.part(at[1]), decimal, lang), span=text.span)
    as_unit: Problem | None = None
    value, direction = _split_direction(text)
    try:
        typed = read_typed(text, decimal)
    except (UnitUnknown, UnitUnreadable) as problem:
        # "4 ρ L / A" and "0.6 c" begin like quantities and are expressions, if their names have values.
        better = _unit_within(value, decimal) or problem
        if not _is_expression(value):
            raise better from None
        typed, as_unit = None, None if _is_fraction_of(value, problem, decimal) else better
    product = typed is not None and may_be_product(value)
    if typed is not None and not product:
        return typed
    words = value.value.split()
    prose = len(words) > 2 and all(word.isalpha() and len(word) > 2 for word in words)
    # "about 3 kg": an ordinary word before a number.
    hedged = re.match(r"([a-z]{3,})\s+[-−]?\d", value.value)
    if prose or (hedged is not None and hedged[1] not in (*GREEK, *t.FUNCTIONS)):
        raise QuantityUnreadable(text.span, text.value)
    tree = parse_expression(value, decimal)
    _refuse_unit_after_number(tree)
    return Formed(tree, direction, text.span, as_unit, typed if product else _per(text, decimal))


def _is_fraction_of(text: Text, problem: Problem, decimal: str) -> bool:
    """Whether "1/2 m v^2" is a product of names: a fraction, and a letter that is no unit."""
    found = read_number(text, 0, decimal)  # type: ignore[arg-type]
    fraction = found is not None and found[0].is_fraction
    return fraction and isinstance(problem, UnitUnknown) and len(problem.word) == 1


_JOINT = re.compile(r"\s+[-+−]\s*(?=[\w(])")


def _unit_within(text: Text, decimal: str) -> UnitInExpression | None:
    """What "6.0 kg - m_1" and "41 °C - 5 °C" are: a quantity, and then more of an expression."""
    joint = _JOINT.search(text.value)
    if joint is None:
        return None
    try:
        first = _read_typed(text.part(0, joint.start()), decimal)
    except Problem:
        return None
    if first is None or not first.unit.factors:
        return None
    return UnitInExpression(text.at(0, joint.start()), text.value[: joint.start()].strip())


def _refuse_unit_after_number(tree: t.Expr) -> None:
    """Refuse "30 * 2.5 h" and "20 + 273 K", whose last letter is meant as a unit and would be read as a name.

    An expression counts as such a one where it has two numbers, no name but units' symbols, and a number
    side by side with one of these.

    Raises:
        UnitInExpression.
    """
    nodes = list(t.walk(tree))
    raised = {id(part) for node in nodes if isinstance(node, t.Power) for part in t.walk(node.exponent)}
    found: UnitInExpression | None = None
    numbers = len([node for node in nodes if isinstance(node, t.Num) and id(node) not in raised])
    for node in nodes:
        if not isinstance(node, t.Product):
            continue
        for i, (before, after) in enumerate(pairwise(node.factors)):
            if not isinstance(before, t.Num):
                continue
            if isinstance(after, t.Num) and node.joins[i] == "/":
                numbers -= 1  # A fraction such as 1/2 is one number.
            elif isinstance(after, t.Sym) and not node.joins[i] and found is None:
                typed = f"{before.number.typed} {before.unit}{after.name.key}"
                found = UnitInExpression(before.span, typed)
    if found is not None and numbers > 1 and all(_is_unit(n) for n in nodes if isinstance(n, t.Sym)):
        raise found


def _is_unit(symbol: t.Sym) -> bool:
    try:
        read_unit(Text(symbol.name.key))
    except Problem:
        return False
    return True


def _per(text: Text, decimal: str) -> Typed | None:
    """The quantity that "5 /s" is, where the solidus begins its unit; None for anything else."""
    value, direction = _split_direction(text)
    try:
        found = read_number(value, 0, decimal)  # type: ignore[arg-type]
        if found is None or not value.value[found[1] :].lstrip().startswith("/"):
            return None
        return Typed(found[0], read_unit(value.part(found[1])), direction, text.span)
    except Problem:
        return None
