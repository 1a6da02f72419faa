"""Working of a formula between vectors in a plane: components, then size, then direction.

Room 10, beside the engine: it runs the stages twice, once for each component.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from .checking.plane import VectorFormula, component_tree
from .checking.scope import Datum, Plane, Scope
from .checking.setup import Parsed, Setup, resolve
from .exact import PI, Form, Number, Real, atan, atan2, sqrt, write
from .language import tree as t
from .language.headings import Kind, axis_word, phrase
from .language.names import Name
from .language.phrases import Find
from .language.plain import plain_name, plain_printed
from .language.statements import Calculation, Conventions
from .language.tree import Printed
from .problems import Problem, Text
from .solve.stage import Found, solve_setup
from .steps.enough import enough_for_sizes
from .steps.lines import Answer, Line, LineKind
from .steps.values import put_value
from .steps.working import substitute, write_working
from .units import Unit, from_si, read_unit

_THETA = Name("θ")


@dataclass(frozen=True, slots=True)
class VectorWork:
    """What came of a formula between vectors.

    Attributes:
        lines: the working.
        answer: the vector asked, its size rounded once, with its direction where that is asked.
        value: its exact size, in SI coherent units.
        plane: its exact components; None where its size alone is asked.
        unit: the unit asked.
        data: what went in.
        setup: the setup of the x components, for messages.
    """

    lines: tuple[Line, ...]
    answer: Answer
    value: Real
    plane: Plane | None
    unit: Unit
    data: dict[Name, Datum]
    setup: Setup


def solve_vector(
    calculation: Calculation, parsed: Parsed, vector: VectorFormula, scope: Scope, directed: bool
) -> tuple[VectorWork | None, list[Problem]]:
    """Solve a formula between vectors by components.

    Args:
        calculation: the statement.
        parsed: what was read of it.
        vector: its formula, taken apart.
        scope: what names mean.
        directed: whether the answer carries its direction.

    Returns:
        The work, or None where it could not be done; and every problem.
    """
    conventions = replace(calculation.conventions, axis=None)
    plain = replace(calculation, conventions=conventions, use=None, answers=(), take=None)
    (find,) = parsed.finds
    lines = _formula_lines(parsed, vector)
    parts, problems = _parts(parsed, plain, vector, scope, find)
    if parts is None:
        return None, problems
    form = find.form or conventions.form
    enough = _enough_places(parts, form, directed, conventions)
    if enough != form:
        # Whoever squares the rounded components would get another size, or another angle.
        parts = _parts(parsed, plain, vector, scope, replace(find, form=enough))[0] or parts
    lines += parts.lines
    values, answers, setups = parts.values, parts.answers, parts.setups
    unit = setups[0].asked[0].unit
    size = sqrt(values["x"] * values["x"] + values["y"] * values["y"])
    kinds = [k for name in _vectors_of(setups) if (k := _kind(scope.find(name.whole))) is not None]
    kind: Kind = kinds[0] if kinds else "angle"
    plane = Plane(values["x"], values["y"], kind)
    size_lines, answer = _size(vector.unknown, find, unit, size, answers, conventions)
    lines += size_lines
    if directed:
        direction_lines, words = _direction(vector.unknown, plane, answers, conventions)
        answer = replace(answer, printed=replace(answer.printed, direction=words))
        lines += [*direction_lines, Line(LineKind.ANSWER, (t.Sym(vector.unknown), answer.printed))]
    data: dict[Name, Datum] = {}
    for setup in setups:
        for name, datum in setup.data.items():
            whole = scope.find(name.whole)
            data[name.whole] = whole if whole is not None else datum
    return VectorWork(tuple(lines), answer, size, None if vector.sized else plane, unit, data, setups[0]), []


@dataclass(frozen=True, slots=True)
class _Parts:
    """Both components, each solved by itself: what was found, by "x" and "y", and the lines of it."""

    lines: list[Line]
    values: dict[str, Real]
    answers: dict[str, Answer]
    setups: list[Setup]


def _parts(
    parsed: Parsed, plain: Calculation, vector: VectorFormula, scope: Scope, find: Find
) -> tuple[_Parts | None, list[Problem]]:
    conventions = plain.conventions
    parts = _Parts([], {}, {}, [])
    for component, equation in (("x", vector.x), ("y", vector.y)):
        inner_find = replace(find, name=vector.unknown.along(component), with_direction=False)
        inner = replace(
            parsed,
            law=None,
            sheet_form=None,
            formulas=(equation,),
            symbols={},
            finds=(inner_find,),
            take=None,
        )
        setup, problems = resolve(inner, plain, scope)
        if setup is None:
            return None, problems
        found, problems = solve_setup(setup, conventions)
        if found is None:
            return None, problems
        trees = component_trees(found, scope, conventions)
        written = write_working(found, conventions, {}, trees)
        parts.lines.extend(
            replace(line, kind=LineKind.ALGEBRA) if line.kind is LineKind.FORMULA else line
            for line in written.lines
        )
        parts.values[component] = found.solution.values[inner_find.name]
        parts.answers[component] = written.answers[0]
        parts.setups.append(setup)
    return parts, []


#: So many digits more than the answer has are given to components at most.
_MORE_DIGITS = 4


def _enough_places(parts: _Parts, form: Form, directed: bool, conventions: Conventions) -> Form:
    """The form in which the components still give the size and the angle that are printed."""
    unit, rule, style = parts.setups[0].asked[0].unit, conventions.rule, conventions.style
    exact = [from_si(parts.values[c], unit) for c in "xy"]

    def printed(x: Real, y: Real) -> tuple[Fraction, Fraction]:
        size = write(sqrt(x * x + y * y), form, rule, style)[0].fraction
        if not directed or x.sign() == 0 or y.sign() == 0:
            return size, Fraction(0)
        angle = from_si(atan(abs(y) / abs(x)), read_unit(Text("°")))
        return size, write(angle, conventions.form, rule, style)[0].fraction

    wanted = printed(*exact)
    for more in range(_MORE_DIGITS + 1):
        wider = replace(form, count=form.count + more)
        rounded = [Real.of(write(value, wider, rule, style)[0].fraction) for value in exact]
        if printed(*rounded) == wanted:
            return wider
    return form


def _formula_lines(parsed: Parsed, vector: VectorFormula) -> list[Line]:
    sides = (vector.equation.left, vector.equation.right)
    if parsed.sheet_form is None:
        return [Line(LineKind.FORMULA, sides)]
    form = (parsed.sheet_form.left, parsed.sheet_form.right)
    lines = [Line(LineKind.FORMULA, form)]
    return lines if form == sides else [*lines, Line(LineKind.INSTANCE, sides)]


def _vectors_of(setups: list[Setup]) -> list[Name]:
    return [name for setup in setups for name in setup.data if name.component]


def _kind(datum: Datum | None) -> Kind | None:
    if datum is None or datum.quantity.plane is None:
        return None
    return datum.quantity.plane.kind


def component_trees(found: Found, scope: Scope, conventions: Conventions) -> dict[Name, t.Expr]:
    """The components that went in, as sizes times cosines and sines.

    A size that is converted has as many figures as it takes to come to the answers that are printed.

    Args:
        found: what was solved.
        scope: what names mean.
        conventions: the settings in force.
    """
    trees: dict[Name, t.Expr] = {}
    sizes: dict[Name, Printed] = {}
    exact: dict[Name, Real] = {}
    for name in found.setup.data:
        whole = scope.find(name.whole)
        if not name.component or whole is None:
            continue
        as_typed = name in found.as_typed
        put = put_value(whole, conventions, as_typed, True)
        if component_tree(name, scope, t.Put(put, name.whole)) is not None:
            sizes[name] = put
            value, unit = whole.quantity.value, whole.quantity.unit
            exact[name] = abs(from_si(value, unit) if as_typed else value)
    for name, put in enough_for_sizes(found, conventions, sizes, exact).items():
        tree = component_tree(name, scope, t.Put(put, name.whole))
        if tree is not None:
            trees[name] = tree
    return trees


def components_told(setup: Setup, scope: Scope) -> Setup:
    """A setup whose formula `F_x = F.x`, printed the same on both sides, says what the component is: F cos 30°."""

    def told(equation: t.Equation) -> t.Equation:
        match equation:
            case t.Equation(t.Sym(left), t.Sym(right), span) if right.component and plain_name(
                left
            ) == plain_name(right):
                tree = component_tree(right, scope, t.Sym(right.whole))
                if tree is not None and not isinstance(tree, t.Put):
                    return t.Equation(equation.left, tree.body if isinstance(tree, t.Group) else tree, span)
        return equation

    return replace(setup, shown=tuple(told(equation) for equation in setup.shown))


def _number(value: int) -> t.Num:
    return t.Num(Number(Fraction(value), str(value), None, str(value)))


def _size(
    name: Name, find: Find, unit: Unit, size: Real, answers: dict[str, Answer], conventions: Conventions
) -> tuple[list[Line], Answer]:
    """The size by Pythagoras."""
    x, y = name.along("x"), name.along("y")
    tree = t.Call("sqrt", (t.Sum((t.Power(t.Sym(x), _number(2)), t.Power(t.Sym(y), _number(2))), ("", "+")),))
    known: dict[Name, Printed | t.Expr] = {
        x: Printed(answers["x"].printed.numeral),
        y: Printed(answers["y"].printed.numeral),
    }
    form = find.form or conventions.form
    rounded, numeral = write(from_si(size, unit), form, conventions.rule, conventions.style)
    answer = Answer(name, Printed(numeral, unit), rounded)
    return [
        Line(LineKind.INSTANCE, (t.Sym(name), tree)),
        Line(LineKind.SUBSTITUTION, (t.Sym(name), substitute(tree, known))),
        Line(LineKind.ANSWER, (t.Sym(name), answer.printed)),
    ], answer


def _direction(
    name: Name, plane: Plane, answers: dict[str, Answer], conventions: Conventions
) -> tuple[list[Line], str]:
    """The direction by inverse tangent, in the right quadrant, said as the data say theirs."""
    x_sign, y_sign = plane.x.sign(), plane.y.sign()
    if x_sign == 0 and y_sign == 0:
        return [], ""
    if x_sign == 0 or y_sign == 0:
        quarter = (0 if x_sign > 0 else 2) if x_sign else (1 if y_sign > 0 else 3)
        return [], axis_word(quarter, plane.kind)
    degree = read_unit(Text("°"))

    def shown(angle: Real) -> Printed:
        _, numeral = write(from_si(angle, degree), conventions.form, conventions.rule, conventions.style)
        return Printed(numeral, degree)

    acute = atan(abs(plane.y) / abs(plane.x))
    over, under = (t.Abs(t.Sym(name.along(c))) for c in ("y", "x"))
    ratio = t.Product((over, under), ("/",))
    sizes = [replace(answers[c].printed.numeral, negative=False) for c in ("y", "x")]
    put = t.Product(tuple(t.Put(Printed(n), name.along(c)) for n, c in zip(sizes, "yx", strict=True)), ("/",))
    tangent = t.Call("tan", (t.Sym(_THETA),), bracketed=False)
    lines = [
        Line(LineKind.INSTANCE, (tangent, ratio)),
        Line(LineKind.SUBSTITUTION, (tangent, put)),
        Line(LineKind.ANSWER, (t.Sym(_THETA), shown(acute))),
    ]
    whole = atan2(plane.y, plane.x)
    full = PI * Real.of(2)
    if plane.kind == "bearing":
        whole = PI * Real.of(Fraction(1, 2)) - whole
    if plane.kind in ("bearing", "angle"):
        printed = shown(whole + full if whole.sign() < 0 else whole)
        if not printed.numeral.negative and printed.numeral.whole == "360":
            printed = shown(Real.of(0))  # A little less than a whole turn, rounded.
        if plane.kind == "bearing":
            digits = printed.numeral.whole.rjust(3, "0")
            printed = replace(printed, numeral=replace(printed.numeral, whole=digits))
    else:
        printed = shown(acute)
    text = plain_printed(printed, conventions.style)
    return lines, phrase(plane.kind, text, x_sign, y_sign, conventions.style.lang)
