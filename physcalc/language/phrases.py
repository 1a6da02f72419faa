"""The short phrases of a calculation: find, use, take, a quantity, a reference."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from ..exact import Form, Number, read_number
from ..problems import Problem, Span, Text
from ..problems.language import NameUnreadable, PhraseUnreadable, QuantityUnreadable, UnitInExpression
from ..problems.units import UnitUnknown, UnitUnreadable
from ..units import ONE, Dimension, Unit, read_unit
from . import tree as t
from .headings import Heading, read_heading
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
    for found in re.finditer(r",\s*(?=[A-Za-z])", text.value):
        return text.part(0, found.start()), text.part(found.end())
    return text, None


_AT = re.compile(r"\s+at\s+(?=\S)")
_COMPONENTS = re.compile(r"[;,]\s+(?=[-+−]?\s*[0-9.])|;")


def read_typed(text: Text, decimal: str) -> Typed | None:
    """A number with its unit and direction, or None where the text does not begin with a number.

    Raises:
        NumberAmbiguous, UnitUnknown, UnitAmbiguous, UnitUnreadable, HeadingUnreadable.
    """
    if at := _AT.search(text.value):
        inner = _read_typed(text.part(0, at.start()), decimal)
        if inner is None:
            return None
        return replace(inner, heading=read_heading(text.part(at.end()), decimal), span=text.span)
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
    _refuse_kind_twice(unit, rest)
    return Typed(number, unit, direction, text.span)


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


def read_quantity(text: Text, decimal: str) -> Typed | Formed | Reference:
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
    if at := _AT.search(text.value):
        inner = read_quantity(text.part(0, at.start()), decimal)
        if not isinstance(inner, Reference):
            return replace(inner, heading=read_heading(text.part(at.end()), decimal), span=text.span)
    as_unit: Problem | None = None
    value, direction = _split_direction(text)
    try:
        typed = read_typed(text, decimal)
    except (UnitUnknown, UnitUnreadable) as problem:
        # "4 ρ L / A" and "0.6 c" begin like quantities and are expressions, if their names have values.
        better = _unit_within(value, decimal) or problem
        if not _is_expression(value):
            raise better from None
        typed, as_unit = None, better
    if typed is not None:
        return typed
    words = value.value.split()
    prose = len(words) > 2 and all(word.isalpha() and len(word) > 2 for word in words)
    # "about 3 kg": an ordinary word before a number.
    hedged = re.match(r"([a-z]{3,})\s+[-−]?\d", value.value)
    if prose or (hedged is not None and hedged[1] not in (*GREEK, *t.FUNCTIONS)):
        raise QuantityUnreadable(text.span, text.value)
    tree = parse_expression(value, decimal)
    _refuse_unit_after_number(tree)
    return Formed(tree, direction, text.span, as_unit, _per(text, decimal))


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


@dataclass(frozen=True, slots=True)
class Find:
    """What is asked.

    Attributes:
        name: the quantity.
        unit: the unit asked; None where not said.
        form: places or figures, and standard form; None where nothing is said.
        with_direction: whether the direction belongs to the answer.
        span: the whole phrase.
        heading: the direction in a plane that the author's reasoning gives it, after `at`; None for none.
        with_percentage: whether the uncertainty is asked as a percentage too.
        unit_span: the place of the unit, or of the whole phrase where none is said.
        direction_span: the place of the words "with direction", or of the whole phrase.
        magnitude: whether the magnitude alone is asked (`|a|`).
    """

    name: Name
    unit: Unit | None
    form: Form | None
    standard: bool
    with_direction: bool
    span: Span
    heading: Heading | None = None
    with_percentage: bool = False
    unit_span: Span = field(default_factory=Span)
    direction_span: Span = field(default_factory=Span)
    magnitude: bool = False


_ASKED = re.compile(rf"\|\s*(?P<sized>{NAME_PATTERN})\s*\||(?P<name>{NAME_PATTERN})")
_CLAUSE = re.compile(
    r"\s+in\s+(?P<standard>standard form)(?=\s|$)"
    r"|\s+to\s+(?P<count>\d{1,2})\s*(?P<kind>dp|sf|decimal places?|significant figures?)(?=\s|$)"
    r"|\s+(?P<direction>with direction)(?=\s|$)"
    r"|\s+(?P<percentage>with percentage)(?: uncertainty)?(?=\s|$)"
    r"|\s+at\s+(?P<heading>\S.*)$"
    r"|\s+in\s+(?P<unit>.+?)(?=\s+to\s+\d|\s+in\s+standard|\s+with\s+(?:direction|percentage)|\s+at\s+|\s*$)"
)
_FIND_FORM = "a name, then in UNIT, to 2 dp or to 3 sf, in standard form, with direction: T in N to 2 dp"


def read_find(text: Text, default: Form, decimal: str = ".") -> Find:
    """Read `q_B in µC to 2 dp`, `t to 3 sf`, `F in standard form`, `v with direction`, `|a| to 2 dp`.

    Raises:
        PhraseUnreadable, NameUnreadable, and what units raise.
    """
    head = _ASKED.match(text.value)
    if head is None:
        raise PhraseUnreadable(text.span, "find", text.value, _FIND_FORM)
    name = read_name(head["sized"] or head["name"])
    if name is None:
        raise NameUnreadable(text.at(0, head.end()), head[0])
    unit: Unit | None = None
    kind: Literal["places", "figures"] | None = None
    count = 0
    standard = direction = percentage = False
    heading: Heading | None = None
    unit_span = direction_span = text.span
    place = head.end()
    while place < len(text.value.rstrip()):
        found = _CLAUSE.match(text.value, place)
        if found is None:
            raise PhraseUnreadable(text.part(place).span, "find", text.value, _FIND_FORM)
        if found["standard"]:
            standard = True
        elif found["count"]:
            kind = "places" if found["kind"].startswith("d") else "figures"
            count = int(found["count"])
            if count > 30 or (kind == "figures" and count == 0):
                raise PhraseUnreadable(
                    text.at(found.start("count"), found.end("count")),
                    "find",
                    found["count"],
                    "at most 30 digits",
                )
        elif found["direction"]:
            direction = True
            direction_span = text.at(found.start("direction"), found.end("direction"))
        elif found["percentage"]:
            percentage = True
        elif found["heading"]:
            heading = read_heading(text.part(found.start("heading")), decimal)
        else:
            typed = text.part(found.start("unit"), found.end("unit"))
            unit, unit_span = read_unit(typed), typed.span
        place = found.end()
    form: Form | None = None
    if kind is not None:
        form = Form(kind, count, True if standard else None)
    elif standard:
        form = Form(default.kind, default.count, True)
    return Find(
        name, unit, form, standard, direction, text.span, heading, percentage, unit_span, direction_span,
        bool(head["sized"]),
    )  # fmt: skip


@dataclass(frozen=True, slots=True)
class Use:
    """A formula of the sheet and what stands for what.

    Attributes:
        slug: its name on the sheet.
        slug_span: where that stands.
        replaced: the sheet's names and the expressions that take their place.
    """

    slug: str
    slug_span: Span
    replaced: tuple[tuple[Name, t.Expr, Span], ...]


def read_use(text: Text, decimal: str) -> Use:
    """Read `coulomb (Q_1 = q_A, Q_2 = q_B)`.

    Raises:
        PhraseUnreadable, NameUnreadable, FormulaUnreadable.
    """
    form = "the formula's name on the sheet, then what stands for what: coulomb (Q_1 = q_A, Q_2 = q_B)"
    found = re.fullmatch(r"(?P<slug>[A-Za-z0-9][\w-]*)\s*(?:\((?P<pairs>.*)\))?", text.value.strip())
    if found is None:
        raise PhraseUnreadable(text.span, "use", text.value, form)
    lead = len(text.value) - len(text.value.lstrip())
    replaced = []
    if found["pairs"] is not None:
        start = lead + found.start("pairs")
        for begin, end in _pieces(found["pairs"]):
            piece = text.part(start + begin, start + end)
            name_text, equals, _ = piece.value.partition("=")
            name = read_name(name_text)
            if not equals or name is None:
                raise PhraseUnreadable(piece.span, "use", piece.value, form)
            replaced.append((name, parse_expression(piece.part(len(name_text) + 1), decimal), piece.span))
    return Use(found["slug"], text.at(lead, lead + len(found["slug"])), tuple(replaced))


def _pieces(text: str) -> list[tuple[int, int]]:
    """Stretches between the commas that stand outside brackets and braces and not between digits."""
    pieces, depth, start = [], 0, 0
    for index, character in enumerate(text):
        depth += (character in "({") - (character in ")}")
        between = text[index - 1 : index].isdigit() and text[index + 1 : index + 2].isdigit()
        if character in ",;" and depth == 0 and not (character == "," and between):
            pieces.append((start, index))
            start = index + 1
    pieces.append((start, len(text)))
    return pieces


@dataclass(frozen=True, slots=True)
class Take:
    """Which root is meant.

    Attributes:
        kind: "positive", "negative", "largest", "smallest", or a comparison "<", ">", "≤", "≥".
        name: the name compared; None for the words.
        bound: the value compared with.
        text: as typed.
        span: its place.
    """

    kind: str
    name: Name | None
    bound: Typed | None
    text: str
    span: Span


def read_take(text: Text, decimal: str) -> Take:
    """Read `positive`, `largest`, `t > 2 s`. Raises PhraseUnreadable and what quantities raise."""
    form = "positive, negative, largest, smallest, or a comparison: t > 2 s"
    word = text.value.strip().lower()
    if word in ("positive", "negative", "largest", "smallest"):
        return Take(word, None, None, text.value.strip(), text.span)
    found = re.fullmatch(
        rf"(?P<name>{NAME_PATTERN})\s*(?P<sign><=|>=|[<>≤≥])\s*(?P<value>.+)", text.value.strip()
    )
    if found is None:
        raise PhraseUnreadable(text.span, "take", text.value, form)
    lead = len(text.value) - len(text.value.lstrip())
    bound = read_typed(text.part(lead + found.start("value"), lead + found.end("value")), decimal)
    name = read_name(found["name"])
    if bound is None or name is None:
        raise PhraseUnreadable(text.span, "take", text.value, form)
    sign = {"<=": "≤", ">=": "≥"}.get(found["sign"], found["sign"])
    return Take(sign, name, bound, text.value.strip(), text.span)


@dataclass(frozen=True, slots=True)
class Accept:
    """What markers may accept.

    Attributes:
        kind: "percent" (of the computed value), "plus-minus", "range", or "choices": what honest choices lead to
            (intermediate results rounded or not, other customary values of a constant).
        low, high: percentage, or half-width, or the two ends (numbers in `unit`).
        unit: the unit; ONE for a percentage.
        span: its place.
    """

    kind: Literal["percent", "plus-minus", "range", "choices"]
    low: Fraction
    high: Fraction
    unit: Unit
    span: Span


def read_accept(text: Text, decimal: str) -> Accept:
    """Read `2 %`, `± 0.02 µC`, `0.70 to 0.74 µC` or `choices`. Raises PhraseUnreadable and what units raise."""
    form = "a percentage (2 %), a half-width (± 0.02 µC), a range (0.70 to 0.74 µC) or choices"
    value = text.value
    lead = len(value) - len(value.lstrip())
    if value.strip() == "choices":
        return Accept("choices", Fraction(0), Fraction(0), ONE, text.span)
    if value.strip().startswith("±"):
        start = value.index("±") + 1
        typed = read_typed(text.part(start), decimal)
        if typed is not None:
            return Accept("plus-minus", typed.number.value, typed.number.value, typed.unit, text.span)
    elif found := re.search(r"\s+to\s+", value):
        low = read_typed(text.part(lead, found.start()), decimal)
        high = read_typed(text.part(found.end()), decimal)
        if low is not None and high is not None and low.unit in (ONE, high.unit):
            return Accept("range", low.number.value, high.number.value, high.unit, text.span)
    else:
        typed = read_typed(text.part(lead), decimal)
        if typed is not None and typed.uncertainty is not None:
            number, unit = typed.number.value, typed.unit
            width, width_unit = typed.uncertainty
            if width_unit.text() == unit.text():
                return Accept("range", number - width.value, number + width.value, unit, text.span)
        elif typed is not None and [f.symbol for f in typed.unit.factors] == ["%"]:
            return Accept("percent", typed.number.value, typed.number.value, ONE, text.span)
    raise PhraseUnreadable(text.span, "accept", value, form)
