"""Setup and solution → lines of working."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial

from ..checking.angles import put_bare
from ..checking.limits import ACUTE
from ..checking.replace import put_each, put_in
from ..checking.setup import Setup
from ..checking.value import NoValueError, evaluate
from ..exact import Real, RealError
from ..language import tree as t
from ..language.names import Name
from ..language.plain import plain, plain_name
from ..language.remarks import remark
from ..language.statements import Conventions
from ..language.tree import Printed
from ..language.words import language_of, punctuated
from ..solve.as_typed import is_pure
from ..solve.deviation import Deviation
from ..solve.linear import Linear, as_linear
from ..solve.single import solve_one
from ..solve.stage import Found
from ..solve.system import Move
from ..units import coherent_unit, from_si
from .algebra import eliminate, quadratic_lines
from .answers import make_answer
from .carried import Carried, results_in
from .enough import enough_figures
from .lines import Answer, Line, LineKind
from .uncertain import uncertain_answer
from .values import in_numbers_of_radians, put_value


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
    found: Found,
    conventions: Conventions,
    directions: dict[Name, str | None],
    trees: dict[Name, t.Expr] | None = None,
    deviations: Mapping[Name, Deviation] | None = None,
) -> Written:
    """The lines of one calculation: formula, substitution, answer, in the order of solving.

    Args:
        found: the solution, and what was solved.
        conventions: the settings in force.
        directions: for names whose answer carries a direction: fixed words (reasoned by the author), or None
            where the sign on the axis gives them.
        trees: what stands for names in substitutions other than their values (components of vectors).
        deviations: how far unknowns may lie off, where data have uncertainties.

    Raises:
        UncertaintyVanishes: an answer is asked more coarsely than its uncertainty.
        RealError: an uncertainty is beyond what a machine number holds.
    """
    setup = found.setup
    lines: list[Line] = []
    answers = {
        a.find.name: make_answer(a, found.solution.values[a.find.name], conventions, directions)
        for a in setup.asked
    }
    widths: dict[Name, list[Line]] = {}
    for a in setup.asked:
        deviation = (deviations or {}).get(a.find.name)
        if deviation is not None:
            name = a.find.name
            shown = from_si(found.solution.values[name], a.unit)
            if answers[name].printed.direction:
                shown = abs(shown)
            tree = _subject(setup, found, name)
            answers[name], widths[name] = uncertain_answer(
                a, answers[name], shown, deviation, conventions, tree
            )
    known: Known = {}
    known |= {
        name: put_value(datum, conventions, name in found.as_typed, setup.unsigned(name))
        for name, datum in setup.data.items()
        if name not in found.cancelled
    }
    radians = {
        name: in_numbers_of_radians(setup.data[name], found.values[name], conventions)
        for name in found.radians
        if name in known and name in setup.data
    }
    if not deviations:
        known, radians = enough_figures(setup, found, conventions, answers, known, radians)
    known.update(trees or {})
    if setup.sheet_form is not None:
        lines.append(Line(LineKind.FORMULA, (setup.sheet_form.left, setup.sheet_form.right)))
    carried = Carried(found, conventions, answers, bool(deviations))
    writer = _Writer(setup, found, conventions, carried, known, lines, widths, radians)
    for move in found.solution.moves:
        writer.move(move)
    lines = _answers_last(_to_the_last_answer(lines, frozenset(answers)), list(answers))
    return Written(tuple(lines), tuple(answers.values()))


def _subject(setup: Setup, found: Found, name: Name) -> t.Expr | None:
    """What a name equals by a single formula of data alone; None where it comes out in another way."""
    if len(setup.equations) != 1 or found.cancelled:
        return None
    (equation,) = setup.equations
    if equation.left == t.Sym(name, equation.left.span) and not t.count(name, equation.right):
        return equation.right
    return found.solution.trees.get(name)


class _Writer:
    """Writes the moves of a solution one after the other."""

    def __init__(
        self,
        setup: Setup,
        found: Found,
        conventions: Conventions,
        carried: Carried,
        known: Known,
        lines: list[Line],
        widths: Mapping[Name, list[Line]],
        radians: Mapping[Name, Printed],
    ) -> None:
        self.radians = radians
        self.widths = widths
        self.setup = setup
        self.found = found
        self.conventions = conventions
        self.carried = carried
        self.known = known
        self.lines = lines
        self.values = dict(found.values)
        self.numbered: dict[int, int] = {}
        self.waiting: list[tuple[Name, t.Expr]] = []
        #: What was found so far, in order.
        self.results: list[Name] = []
        #: Where the lines of those stand that were not asked.
        self.on_the_way: dict[Name, int] = {}

    def move(self, move: Move) -> None:
        if move.kind == "single":
            self._single_move(move)
        elif move.kind == "linear":
            self._linear_move(move)
        else:
            self._substitution(move)

    def _label(self, number: int) -> str:
        """Print a formula with its numbers put in, and give it the number by which it is called."""
        if number not in self.numbered:
            self.numbered[number] = len(self.numbered) + 1
            _formula(self.setup, number, self.lines)
            equation = _instance(self.setup, number, self.found)
            sides = (self._put(equation.left), self._put(equation.right))
            label = f"({self.numbered[number]})"
            shown = self.setup.shown[number]
            if sides == (equation.left, equation.right) and shown == self.setup.equations[number]:
                self.lines[-1] = replace(self.lines[-1], label=label)
            else:
                self.lines.append(Line(LineKind.SUBSTITUTION, sides, label=label))
        return f"({self.numbered[number]})"

    def _single_move(self, move: Move) -> None:
        (number,), (unknown,) = move.equations, move.unknowns
        equation = self.setup.equations[number]
        names = t.names_in(equation.left, equation.right)
        if not any(name in names for name, _ in self.waiting):
            self._carry(
                unknown,
                (equation.left, equation.right),
                lambda v: _roots(equation, unknown, {**self.values, **v}),
            )
            _formula(self.setup, number, self.lines)
            _single(self.setup, number, unknown, self.found, self._put, self.lines)
            equation = _instance(self.setup, number, self.found)
        else:
            # What was expressed before goes in first: the formula has this one unknown then.
            label = self._label(number)
            equation = self.setup.equations[number]
            for name, tree in reversed(self.waiting):
                equation = t.Equation(put_in(equation.left, name, tree), put_in(equation.right, name, tree))
            put = equation
            self._carry(unknown, (put.left, put.right), lambda v: _roots(put, unknown, {**self.values, **v}))
            left, right = (
                self._put(side.body if isinstance(side, t.Group) else side)
                for side in (equation.left, equation.right)
            )
            source = ", ".join(f"({n})" for n in list(self.numbered.values()) if f"({n})" != label)
            self.lines.append(
                Line(
                    LineKind.REMARK,
                    text=f"{source} → {label}",
                    pieces=(f"{source} → {label}: ", t.Equation(left, right)),
                )
            )
        self._quadratic(equation, unknown, move)
        _both_roots(self.carried, unknown, move, self.lines)
        self._value(unknown)
        self._expressed()

    def _quadratic(self, equation: t.Equation, unknown: Name, move: Move) -> None:
        """The standard form and the quadratic formula, where that is how the unknown came out."""
        if move.one is None or move.one.method != "polynomial" or move.one.polynomial is None:
            return
        try:
            again = solve_one(equation, unknown, self.values)
        except NoValueError:
            return  # A name that cancels later on, once other formulas are put in, has no value here.
        if again.polynomial is not None and len(again.polynomial) == 3:
            figures = self.carried.coefficients(unknown, again.polynomial)
            self.lines.extend(quadratic_lines(unknown, again.polynomial, self.conventions, figures))

    def _linear_move(self, move: Move) -> None:
        for number in move.equations:
            self._label(number)
        wanted = frozenset(move.unknowns)
        forms: list[Linear] = []
        for number in move.equations:
            equation = self.setup.equations[number]
            left = as_linear(equation.left, wanted, self.values)
            right = as_linear(equation.right, wanted, self.values)
            if left is not None and right is not None:
                names = dict.fromkeys([*left[0], *right[0]])
                zero = Real.of(0)
                merged = {n: left[0].get(n, zero) - right[0].get(n, zero) for n in names}
                forms.append((merged, left[1] - right[1]))
        asked_first = sorted(
            move.unknowns, key=lambda n: (n not in self.carried.asked, list(move.unknowns).index(n))
        )
        steps = None
        if len(forms) == len(wanted):
            steps = self.carried.eliminated(lambda f: eliminate(forms, asked_first, self.conventions, f))
        if steps is None:
            for unknown in move.unknowns:
                self._value(unknown)
            return
        for step in steps:
            for line in step.lines:
                if line.kind is LineKind.ALGEBRA:
                    line = replace(line, sides=tuple(self._put_known(side) for side in line.sides))
                self.lines.append(line)
            self._value(step.unknown)

    def _put(self, node: t.Expr) -> t.Expr:
        """A tree with everything known in it; angles as numbers of radians where they count so."""

        def radians(part: t.Expr) -> t.Expr:
            number = self.radians.get(part.name) if isinstance(part, t.Sym) else None
            return part if number is None or not isinstance(part, t.Sym) else t.Put(number, part.name)

        if self.radians:
            node = put_bare(node, radians, lambda name: is_pure(self.setup, name))
        return substitute(node, self.known)

    def _put_known(self, side: t.Expr | Printed) -> t.Expr | Printed:
        if isinstance(side, Printed | t.Sym):
            return side
        return self._put(side)

    def _substitution(self, move: Move) -> None:
        (number,), (unknown,) = move.equations, move.unknowns
        label = self._label(number)
        assert move.subject is not None
        subject = self._put(move.subject)
        pieces = (f"{label}: ", t.Equation(t.Sym(unknown), subject))
        self.lines.append(Line(LineKind.REMARK, text=label, pieces=pieces))
        self.waiting.append((unknown, move.subject))

    def _expressed(self) -> None:
        """Unknowns that were expressed by others, once those are known."""
        for name, tree in reversed(list(self.waiting)):
            if all(n in self.known for n in t.names_in(tree)):
                self.waiting.remove((name, tree))
                self._carry(name, (tree,), partial(self._evaluated, tree))
                self.lines.append(Line(LineKind.ALGEBRA, (t.Sym(name), self._put(tree))))
                self._value(name)

    def _evaluated(self, tree: t.Expr, results: dict[Name, Real]) -> list[Real]:
        return [evaluate(tree, {**self.values, **results})]

    def _carry(
        self, unknown: Name, trees: tuple[t.Expr, ...], solve: Callable[[dict[Name, Real]], list[Real]]
    ) -> None:
        """See to it that earlier results in a line have the figures it needs; those on the way are printed anew."""
        self.carried.enough(results_in(trees, self.results), unknown, solve)
        for name in self.results:
            self.known[name] = self.carried.put_with_unit(name)
            if name in self.on_the_way:
                self.lines[self.on_the_way[name]] = self.carried.line(name)

    def _value(self, unknown: Name) -> None:
        """The line of an unknown's value, asked or on the way."""
        self.lines.extend(self.widths.get(unknown, ()))
        if unknown not in self.carried.asked:
            self.on_the_way[unknown] = len(self.lines)
        self.lines.append(self.carried.line(unknown))
        self.known[unknown] = self.carried.put(unknown)
        self.values[unknown] = self.carried.number(unknown)
        self.results.append(unknown)


def _to_the_last_answer(lines: list[Line], asked: frozenset[Name]) -> list[Line]:
    """Lines without those behind the last answer: of a set, they work out what nobody asked."""

    def answers(line: Line) -> bool:
        first = line.sides[0] if line.sides else None
        name = first.body if isinstance(first, t.Abs) else first
        return line.kind is LineKind.ANSWER and isinstance(name, t.Sym) and name.name in asked

    last = max((index for index, line in enumerate(lines) if answers(line)), default=len(lines) - 1)
    return lines[: last + 1]


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
    equation = setup.shown[number]
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
    if isinstance(node, t.Sym):
        whole = known.get(node.name, node)
        if isinstance(whole, Printed):
            return t.Put(whole, node.name)
        return whole.body if isinstance(whole, t.Group) else whole
    values = {name: known[name] for name in t.names_in(node) if name in known}
    printed = {name: t.Put(value, name) for name, value in values.items() if isinstance(value, Printed)}
    node = put_each(node, printed) if printed else node
    for name, value in values.items():
        if not isinstance(value, Printed):
            node = put_in(node, name, value)
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


def _single(
    setup: Setup, number: int, unknown: Name, found: Found, put: Callable[[t.Expr], t.Expr], lines: list[Line]
) -> None:
    """The substitution in the formula's own layout; for a guide, the unknown made the subject first."""
    equation = _instance(setup, number, found)
    left, right = put(equation.left), put(equation.right)
    if (left, right) == (equation.left, equation.right) and setup.shown[number] == setup.equations[number]:
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
    lines.append(Line(LineKind.SUBSTITUTION, (subject, put(tree)), audience="guide"))


def _roots(equation: t.Equation, unknown: Name, values: Mapping[Name, Real]) -> list[Real]:
    try:
        return [root.value for root in solve_one(equation, unknown, values).roots]
    except (NoValueError, RealError):
        return []


def _both_roots(carried: Carried, unknown: Name, move: Move, lines: list[Line]) -> None:
    """Both roots and the reason for the one kept, where the formula gave more than a change of sign."""
    one, found, setup, conventions = move.one, carried.found, carried.setup, carried.conventions
    if one is None or len(one.roots) < 2 or not found.aside:
        return
    asked = carried.asked.get(unknown)
    dimension = setup.dimensions.of(unknown)
    unit = asked.unit if asked else (coherent_unit(dimension) if dimension else None)
    if unit is None:
        return
    aside = next((a for a in found.aside if unknown in a.solution.values), None)
    if aside is None or (one.method == "direct" and aside.reason != "take" and not unit.angle):
        return
    if aside.reason == "limits" and (aside.title == ACUTE or (unit.angle and aside.name == unknown)):
        # Nobody writes down the supplement of an angle of refraction.
        return
    pieces: list[str | t.Equation] = []
    lang = conventions.lang
    for root in one.roots:
        pieces += [f" {remark('or', lang)} ", _equality(unknown, carried.root(unknown, root.value))]
    pieces = pieces[1:]
    if aside.reason == "limits":
        how = setup.limits[aside.name].words(conventions.style, lang)
        # What sheets call a quantity is English: elsewhere its symbol is said.
        what = aside.title if language_of(lang) == "en" else plain_name(aside.name)
        pieces.append("; " + remark("is", lang, what=what, how=how))
    elif aside.reason == "take":
        kept = _equality(unknown, carried.root(unknown, found.solution.values[unknown]))
        pieces += [f"; {remark('taken', lang)}: ", kept]
    else:
        pieces.append("; " + remark("magnitude asked", lang))
    pieces = [punctuated(p, lang) if isinstance(p, str) else p for p in pieces]
    style = conventions.style
    text = "".join(p if isinstance(p, str) else plain(p, style, conventions.unit_style) for p in pieces)
    lines.append(Line(LineKind.REMARK, text=text, pieces=tuple(pieces)))


def _equality(name: Name, value: Printed) -> t.Equation:
    return t.Equation(t.Sym(name), t.Put(value, name))


__all__ = ["Written", "make_answer", "substitute", "write_working"]
