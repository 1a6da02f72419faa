"""Setup and solution → lines of working."""

from __future__ import annotations

from dataclasses import dataclass

from ..checking.limits import ACUTE
from ..checking.replace import put_in
from ..checking.setup import Asked, Setup
from ..exact import Form, Real, write
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain_name, plain_printed
from ..language.statements import Conventions
from ..language.tree import Printed
from ..solve.stage import Found
from ..solve.system import Move
from ..units import Unit, coherent_unit, from_si
from .lines import Answer, Equality, Line, LineKind
from .values import put_value


@dataclass(frozen=True, slots=True)
class Written:
    """Lines with the answers they end in.

    Attributes:
        lines: the lines, without marks.
        answers: the answers, in the order asked.
    """

    lines: tuple[Line, ...]
    answers: tuple[Answer, ...]


#: What stands for a name in a substitution: a value, or the tree of a vector's component.
Known = dict[Name, Printed | t.Expr]


def write_working(
    setup: Setup,
    found: Found,
    conventions: Conventions,
    directions: dict[Name, str | None],
    trees: dict[Name, t.Expr] | None = None,
) -> Written:
    """The lines of one calculation: formula, substitution, answer, in the order of solving.

    Args:
        setup: the formulas, names and data.
        found: the solution.
        conventions: the settings in force.
        directions: for names whose answer carries a direction: fixed words (reasoned by the author), or None
            where the sign on the axis gives them.
        trees: what stands for names in substitutions other than their values (components of vectors).
    """
    lines: list[Line] = []
    answers = {
        a.find.name: make_answer(a, found.solution.values[a.find.name], conventions, directions)
        for a in setup.asked
    }
    known: Known = {
        name: put_value(datum, conventions, name in found.as_typed, setup.magnitudes)
        for name, datum in setup.data.items()
    }
    known.update(trees or {})
    if setup.sheet_form is not None:
        lines.append(Line(LineKind.FORMULA, (setup.sheet_form.left, setup.sheet_form.right)))
    moves = found.solution.moves
    together = any(move.kind != "single" for move in moves)
    if together:
        numbers = [n for move in moves for n in move.equations]
        for number in dict.fromkeys(numbers):
            _formula(setup, number, lines)
        for number in dict.fromkeys(numbers):
            _substituted(setup, number, found, known, lines)
    left = list(answers)
    for move in moves:
        if not together:
            (number,) = move.equations
            (unknown,) = move.unknowns
            _formula(setup, number, lines)
            _single(setup, number, unknown, found, known, lines)
        for unknown in move.unknowns:
            _roots(setup, unknown, move, found, conventions, lines)
            value = found.solution.values[unknown]
            if unknown in answers:
                asked = next(a for a in setup.asked if a.find.name == unknown)
                lines.append(
                    _answer_line(asked, answers[unknown], value, unknown in found.as_typed, conventions)
                )
                left.remove(unknown)
                known[unknown] = _put_answer(answers[unknown], value)
            else:
                line, printed = _on_the_way(setup, unknown, value, conventions)
                lines.append(line)
                known[unknown] = printed
    return Written(tuple(_answers_last(lines, list(answers))), tuple(answers.values()))


def _answers_last(lines: list[Line], asked: list[Name]) -> list[Line]:
    """Answers asked stand in the order asked where they follow each other at the end."""
    tail: list[Line] = []
    while lines and lines[-1].kind is LineKind.ANSWER:
        tail.append(lines.pop())

    def place(line: Line) -> int:
        first = line.sides[0]
        return asked.index(first.name) if isinstance(first, t.Sym) and first.name in asked else -1

    return lines + sorted(tail, key=place)


def _formula(setup: Setup, number: int, lines: list[Line]) -> None:
    """The formula line, or the instance below the sheet's form; none where it only renames the sheet's."""
    equation = setup.equations[number]
    sides = (equation.left, equation.right)
    if setup.sheet_form is None:
        lines.append(Line(LineKind.FORMULA, sides))
    elif not _same_shape(setup.sheet_form, equation):
        lines.append(Line(LineKind.INSTANCE, sides))


def _same_shape(a: t.Equation, b: t.Equation) -> bool:
    """Whether two formulas differ in names only."""

    def shape(node: t.Expr) -> object:
        match node:
            case t.Sym():
                return "name"
            case t.Num(number, unit):
                return number.value, unit
            case t.Sum(_, signs):
                return signs, tuple(shape(x) for x in t.children(node))
            case t.Product(_, joins):
                return joins, tuple(shape(x) for x in t.children(node))
            case t.Call(function):
                return function, tuple(shape(x) for x in t.children(node))
            case _:
                return type(node).__name__, tuple(shape(x) for x in t.children(node))

    return (shape(a.left), shape(a.right)) == (shape(b.left), shape(b.right))


def substitute(node: t.Expr, known: Known) -> t.Expr:
    """A tree with values (or the trees of a vector's components) in the places of names."""
    for name in t.names_in(node):
        if name in known:
            value = known[name]
            node = put_in(node, name, t.Put(value, name) if isinstance(value, Printed) else value)
    return node


def without_common_factor(equation: t.Equation, name: Name) -> t.Equation:
    """A formula divided by a factor that stands in both sides as a plain factor; else unchanged."""
    sides = []
    for side in (equation.left, equation.right):
        if not isinstance(side, t.Product):
            return equation
        index = next(
            (
                i
                for i, f in enumerate(side.factors)
                if isinstance(f, t.Sym) and f.name == name and (i == 0 or side.joins[i - 1] != "/")
            ),
            None,
        )
        if index is None or (index == 0 and side.joins[0] == "/"):
            return equation
        factors = side.factors[:index] + side.factors[index + 1 :]
        joins = (
            side.joins[:index][: max(0, index - 1)] + side.joins[max(index, 1) :] if index else side.joins[1:]
        )
        sides.append(factors[0] if len(factors) == 1 else t.Product(factors, joins, side.span))
    return t.Equation(sides[0], sides[1], equation.span)


def _instance(setup: Setup, number: int, found: Found) -> t.Equation:
    equation = setup.equations[number]
    for name in found.cancelled:
        equation = without_common_factor(equation, name)
    return equation


def _substituted(setup: Setup, number: int, found: Found, known: Known, lines: list[Line]) -> None:
    equation = _instance(setup, number, found)
    left, right = substitute(equation.left, known), substitute(equation.right, known)
    if (left, right) != (equation.left, equation.right):
        lines.append(Line(LineKind.SUBSTITUTION, (left, right)))


def _single(setup: Setup, number: int, unknown: Name, found: Found, known: Known, lines: list[Line]) -> None:
    """The substitution in the formula's own layout; for a guide, the unknown made the subject first."""
    equation = _instance(setup, number, found)
    left, right = substitute(equation.left, known), substitute(equation.right, known)
    if (left, right) == (equation.left, equation.right):
        return
    tree = found.solution.trees.get(unknown)
    alone = (
        isinstance(equation.left, t.Sym)
        and equation.left.name == unknown
        and not t.count(unknown, equation.right)
    )
    if tree is None or alone or found.cancelled:
        lines.append(Line(LineKind.SUBSTITUTION, (left, right)))
        return
    subject = t.Sym(unknown)
    lines.append(Line(LineKind.SUBSTITUTION, (left, right), audience="memo"))
    lines.append(Line(LineKind.REARRANGED, (subject, tree), audience="guide"))
    lines.append(Line(LineKind.SUBSTITUTION, (subject, substitute(tree, known)), audience="guide"))


def _roots(
    setup: Setup, unknown: Name, move: Move, found: Found, conventions: Conventions, lines: list[Line]
) -> None:
    """Both roots and the reason for the one kept, where the formula gave more than a change of sign."""
    one = move.one
    if one is None or len(one.roots) < 2 or not found.aside:
        return
    asked = next((a for a in setup.asked if a.find.name == unknown), None)
    dimension = setup.dimensions.of(unknown)
    unit = asked.unit if asked else (coherent_unit(dimension) if dimension else None)
    if unit is None:
        return
    form = asked.find.form if asked else None
    aside = next((a for a in found.aside if unknown in a.solution.values), None)
    if aside is None or (one.method == "direct" and aside.reason != "take" and not unit.angle):
        return
    if aside.reason == "limits" and aside.title == ACUTE:
        return
    pieces: list[str | Equality] = []
    for root in one.roots:
        pieces += [" or ", _equality(unknown, root.value, unit, form, conventions)]
    pieces = pieces[1:]
    if aside.reason == "limits":
        pieces.append(f"; {aside.title} is {setup.limits[aside.name].words()}")
    elif aside.reason == "take":
        kept = _equality(unknown, found.solution.values[unknown], unit, form, conventions)
        pieces += ["; here ", kept, " is meant"]
    else:
        pieces.append("; the magnitude is asked")
    text = "".join(p if isinstance(p, str) else _plain_equality(p, conventions) for p in pieces)
    lines.append(Line(LineKind.REMARK, text=text, pieces=tuple(pieces)))


def _equality(name: Name, value: Real, unit: Unit, form: Form | None, conventions: Conventions) -> Equality:
    _, numeral = write(from_si(value, unit), form or conventions.form, conventions.rule, conventions.style)
    return Equality(name, Printed(numeral, unit))


def _plain_equality(equality: Equality, conventions: Conventions) -> str:
    value = plain_printed(equality.printed, conventions.style, conventions.unit_style)
    return f"{plain_name(equality.name)} = {value}"


def make_answer(
    asked: Asked, value: Real, conventions: Conventions, directions: dict[Name, str | None]
) -> Answer:
    """Round a result once and write it with unit and direction."""
    name = asked.find.name
    shown = from_si(value, asked.unit)
    direction = ""
    if name in directions:
        fixed = directions[name]
        if fixed is not None:
            direction, shown = fixed, abs(shown)
        elif conventions.axis is not None and shown.sign() != 0:
            direction, shown = conventions.axis.words(shown.sign()), abs(shown)
    form = asked.find.form or conventions.form
    rounded, numeral = write(shown, form, conventions.rule, conventions.style)
    return Answer(name, Printed(numeral, asked.unit, direction), rounded)


def _put_answer(answer: Answer, value: Real) -> Printed:
    unit = answer.printed.unit
    if unit is not None and unit.angle:
        return Printed(answer.printed.numeral, unit)
    return Printed(answer.printed.numeral)


def _answer_line(asked: Asked, answer: Answer, value: Real, as_typed: bool, conventions: Conventions) -> Line:
    """The answer; where its unit is not the coherent one that went in, the value in that one first."""
    sides: tuple[t.Expr | Printed, ...] = (t.Sym(answer.name), answer.printed)
    unit = asked.unit
    converted = (
        not as_typed and not unit.angle and not unit.logarithmic and (unit.scale.fraction != 1 or unit.offset)
    )
    if converted:
        coherent = coherent_unit(unit.dimension)
        shown = abs(value) if answer.printed.direction else value
        _, numeral = write(shown, _si_form(conventions), conventions.rule, conventions.style)
        sides = (t.Sym(answer.name), Printed(numeral, coherent), answer.printed)
    return Line(LineKind.ANSWER, sides)


def _si_form(conventions: Conventions) -> Form:
    form = conventions.form
    return form if form.count >= 2 else Form(form.kind, 2, form.standard)


def _on_the_way(setup: Setup, name: Name, value: Real, conventions: Conventions) -> tuple[Line, Printed]:
    """The line of a quantity that was not asked, and what is put in for it afterwards."""
    dimension = setup.dimensions.of(name)
    unit = coherent_unit(dimension) if dimension is not None else None
    _, numeral = write(value, _si_form(conventions), conventions.rule, conventions.style)
    return Line(LineKind.ANSWER, (t.Sym(name), Printed(numeral, unit))), Printed(numeral)


__all__ = ["Written", "make_answer", "substitute", "write_working"]
