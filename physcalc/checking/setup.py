"""A calculation with its names resolved: which formulas are solved, for what, from which data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from ..exact import NumberStyle
from ..language import tree as t
from ..language.money import money_form
from ..language.names import Name, read_name
from ..language.parser import parse_formula
from ..language.phrases import Find, Take, Use, read_find, read_take, read_use
from ..language.plain import plain, plain_printed
from ..language.statements import Calculation
from ..limits import limit
from ..problems import Problem, Span, Text, nearest
from ..problems.checking import (
    BeyondSense,
    DimensionsDiffer,
    ExponentialUnclear,
    NameNotInFormula,
    NameWithoutValue,
    NothingToFind,
    UnitDimensionWrong,
)
from ..problems.runs import begins_with_function
from ..problems.stopped import UnknownsMany
from ..sheets import Law, Sheet, Symbol
from ..units import Dimension, Unit, coherent_unit, difference_of, read_unit
from .angles import angle_faults, is_angle
from .dimensions import Dimensions
from .doubt import doubtful_constant
from .exponential import with_exponentials
from .forms import beside_cosine, choose_form, form_above
from .given import exponents_of
from .limits import Limits, limits_of, percent_twice
from .printing import printed_datum
from .replace import put_in
from .scope import Datum, Scope


@dataclass(frozen=True, slots=True)
class Asked:
    """One quantity that is asked, with its unit settled.

    Attributes:
        find: the phrase.
        unit: the unit of the answer.
        said: whether the author said the unit.
    """

    find: Find
    unit: Unit
    said: bool


@dataclass(frozen=True, slots=True)
class Setup:
    """Everything that is settled before solving.

    Attributes:
        law: the sheet's formula that is used; None for none.
        sheet_form: that formula as the sheet prints it; None for none.
        shown: the formulas as they are printed, one for each of `equations`.
        equations: the formulas to be solved, with this calculation's names.
        asked: what is found, in order.
        unknowns: every name to be solved for: what is found and what has no value.
        data: the values that go in.
        limits: what names can be.
        dimensions: dimensions of all names.
        take: which root.
        magnitudes: whether magnitudes are put in, without signs.
        sizes: names of which the magnitude is put in though others keep their signs: forces and displacements
            beside the cosine of the angle between them, which says how they lie.
        span: where the formula stands.
        laws: slugs of the sheet's formulas that the equations are known as.
    """

    law: Law | None
    sheet_form: t.Equation | None
    shown: tuple[t.Equation, ...]
    equations: tuple[t.Equation, ...]
    asked: tuple[Asked, ...]
    unknowns: tuple[Name, ...]
    data: Mapping[Name, Datum]
    limits: Mapping[Name, Limits]
    dimensions: Dimensions
    take: Take | None
    magnitudes: bool
    span: Span
    laws: tuple[str, ...]
    sizes: frozenset[Name] = frozenset()

    def unsigned(self, name: Name) -> bool:
        """Whether the magnitude of a datum is put in."""
        return self.magnitudes or name in self.sizes


def _formulas(
    calculation: Calculation, sheet: Sheet, finds: list[Find], scope: Scope
) -> tuple[Law | None, t.Equation | None, list[t.Equation], dict[Name, Symbol], Span]:
    """The law, its printed form, the formulas to solve, what their names stand for, and where they stand."""
    decimal = calculation.conventions.decimal
    typed = [parse_formula(text, decimal) for text in calculation.formulas]
    if calculation.use is None:
        if not typed:
            raise NothingToFind(calculation.span, "formula")
        return None, None, typed, {}, calculation.formulas[0].span
    use = read_use(calculation.use, decimal)
    law = sheet.find_law(Text(use.slug, use.slug_span))
    symbols = {name: symbol for key, symbol in law.symbols.items() if (name := read_name(key)) is not None}
    replaced = _replaced(use, law, symbols)
    if typed:
        return law, form_above(law, typed), typed, replaced, calculation.formulas[0].span
    own = [name for given in calculation.given if (name := read_name(given.name.value)) is not None]
    asked = {find.name for find in finds}
    form = choose_form(law, use, asked, scope, own, calculation.conventions.style)
    return law, form.printed, [form.instance], replaced, use.slug_span


def _replaced(use: Use, law: Law, symbols: Mapping[Name, Symbol]) -> dict[Name, Symbol]:
    """What the calculation's own names stand for, after `use` has replaced the sheet's."""
    known = law.names
    out = dict(symbols)
    for name, expression, span in use.replaced:
        if name not in known:
            raise NameNotInFormula(span, name.key, law.title, tuple(n.key for n in known))
        inner = expression.body if isinstance(expression, t.Group) else expression
        if name in symbols:
            if name not in {e.name for _, x, _ in use.replaced for e in t.walk(x) if isinstance(e, t.Sym)}:
                out.pop(name, None)
            if isinstance(inner, t.Sym):
                out[inner.name] = symbols[name]
    return out


@dataclass(frozen=True, slots=True)
class Parsed:
    """A calculation read, before its names are looked up.

    Attributes:
        law, sheet_form: the sheet's formula that is used, and the form of it that is printed.
        formulas: the formulas to be solved.
        symbols: what the sheet says of the names in them.
        span: where the formulas stand.
        finds: what is asked.
        take: which root.
    """

    law: Law | None
    sheet_form: t.Equation | None
    formulas: tuple[t.Equation, ...]
    symbols: Mapping[Name, Symbol]
    span: Span
    finds: tuple[Find, ...]
    take: Take | None


def parse_calculation(
    calculation: Calculation, scope: Scope, sheet: Sheet
) -> tuple[Parsed | None, list[Problem]]:
    """Read a calculation's phrases and formulas.

    Returns:
        What was read, or None where something could not be; and every problem found.
    """
    problems: list[Problem] = []
    finds: list[Find] = []
    for text in calculation.find:
        try:
            finds.append(read_find(text, calculation.conventions.form, calculation.conventions.decimal))
        except Problem as problem:
            problems.append(problem)
    take: Take | None = None
    if calculation.take is not None:
        try:
            take = read_take(calculation.take, calculation.conventions.decimal)
        except Problem as problem:
            problems.append(problem)
    if not calculation.find:
        problems.append(NothingToFind(calculation.span, "find"))
    parsed = None
    try:
        law, form, formulas, symbols, span = _formulas(calculation, sheet, finds, scope)
        parsed = Parsed(law, form, tuple(formulas), symbols, span, tuple(finds), take)
    except Problem as problem:
        problems.append(problem)
        # The other formulas of a list may be wrong as well; all are said at once.
        for text in calculation.formulas:
            try:
                parse_formula(text, calculation.conventions.decimal)
            except Problem as other:
                if str(other) != str(problem):
                    problems.append(other)
    return (None if problems else parsed), problems


def resolve(parsed: Parsed, calculation: Calculation, scope: Scope) -> tuple[Setup | None, list[Problem]]:
    """Resolve the names of what was read and check its dimensions.

    Returns:
        The setup, or None where it can not be solved; and every problem found.
    """
    problems: list[Problem] = []
    law, sheet_form, symbols, span = parsed.law, parsed.sheet_form, parsed.symbols, parsed.span
    finds, take = list(parsed.finds), parsed.take
    shown = list(parsed.formulas)
    try:
        shown = [_exponentials(e, calculation, scope, finds) for e in shown]
    except ExponentialUnclear as problem:
        return None, [problem]
    equations = [_opened(e, scope, frozenset(find.name for find in finds)) for e in shown]
    asked_names = [find.name for find in finds]
    data: dict[Name, Datum] = {}
    missing: dict[Name, Span] = {}
    everything = t.names_in(*[side for e in equations for side in (e.left, e.right)])
    for name in everything:
        if name in asked_names:
            continue
        datum = scope.find(name)
        if datum is not None and not (datum.kind == "constant" and _defined(name, equations)):
            data[name] = datum
        else:
            place = _place(name, equations) if calculation.formulas else span
            missing[name] = place
    for find in finds:
        if find.name not in everything:
            formulas = " and ".join(plain(e, calculation.conventions.style) for e in equations)
            problems.append(
                NameNotInFormula(find.span, find.name.key, formulas, tuple(n.key for n in everything))
            )
    if problems:
        return None, problems
    at_use = None if calculation.formulas else span
    unknowns = (*asked_names, *missing)
    if len(unknowns) > limit("unknowns"):
        return None, [UnknownsMany(span, len(unknowns), limit("unknowns"))]
    if len(equations) == 1 and missing and not _may_cancel(equations[0], tuple(missing)):
        return None, [without_value(name, at, scope) for name, at in missing.items()]
    dimensions, found = _dimensions(calculation, equations, finds, data, symbols, at_use)
    if found:
        return None, found
    asked = _units_asked(finds, dimensions, symbols, equations, data)
    units = {a.find.name: a.unit for a in asked}
    places = {a.find.name: a.find.unit_span for a in asked if a.find.unit is not None}
    problems.extend(percent_twice(equations, [(a.find.name, a.unit, a.find.span) for a in asked]))
    problems.extend(angle_faults(equations, data, units, places, symbols))
    angles = frozenset(name for name in unknowns if is_angle(name, equations))
    limits = limits_of((*everything,), symbols, dimensions, angles)
    magnitudes = calculation.conventions.signs == "magnitudes" or (law is not None and law.magnitudes)
    problems.extend(_beyond(data, limits, magnitudes, calculation))
    if problems:
        return None, problems
    return Setup(
        law, sheet_form, tuple(shown), tuple(equations), tuple(asked), unknowns, data, limits, dimensions,
        take, magnitudes, span, (law.slug,) if law else (), beside_cosine(equations, data),
    ), []  # fmt: skip


def _place(name: Name, equations: list[t.Equation]) -> Span:
    for equation in equations:
        for side in (equation.left, equation.right):
            for node in t.walk(side):
                if isinstance(node, t.Sym) and node.name == name:
                    return node.span
    return equations[0].span


def _opened(equation: t.Equation, scope: Scope, asked: frozenset[Name]) -> t.Equation:
    """A formula with the names that were left open replaced by their expressions."""
    for _ in range(8):
        names = [n for n in t.names_in(equation.left, equation.right) if n not in asked]
        trees = {n: tree for n in names if (tree := scope.open_tree(n)) is not None}
        if not trees:
            return equation
        for name, tree in trees.items():
            left, right = put_in(equation.left, name, tree), put_in(equation.right, name, tree)
            equation = t.Equation(left, right, equation.span)
    return equation


def _defined(name: Name, equations: list[t.Equation]) -> bool:
    """Whether one formula of a list says what a name is: then the sheet's constant is not meant."""
    return len(equations) > 1 and any(isinstance(e.left, t.Sym) and e.left.name == name for e in equations)


def _may_cancel(equation: t.Equation, missing: tuple[Name, ...]) -> bool:
    """Whether every missing name stands twice (on both sides, or over and under), so that it may drop out."""
    return all(t.count(name, equation.left, equation.right) > 1 for name in missing)


def _exponentials(
    equation: t.Equation, calculation: Calculation, scope: Scope, finds: list[Find]
) -> t.Equation:
    asked, style = frozenset(find.name for find in finds), calculation.conventions.style
    return t.Equation(
        with_exponentials(equation.left, scope, asked, style),
        with_exponentials(equation.right, scope, asked, style),
        equation.span,
    )


#: Units of more than one letter that are typed into formulas by mistake; most single letters are names.
_MULTIPLES = frozenset(
    [
        *("kg", "km", "cm", "mm", "nm", "ms", "kN", "mN", "kJ", "MJ", "kW", "MW", "kPa", "Pa", "Hz", "kHz"),
        *("mV", "kV", "mA", "mT", "nC", "pC"),
    ]
)


def without_value(name: Name, at: Span, scope: Scope) -> NameWithoutValue:
    """The problem of a name without a value, with the likeliest mend."""
    known = tuple(n.key for n in scope.names())
    # The author's own names are likelier than the sheet's.
    own = tuple(n.key for n in scope.names() if (d := scope.find(n)) is not None and d.kind != "constant")
    known = own if nearest(name.key, own) else known
    split = ""
    if name.key in _MULTIPLES:
        return NameWithoutValue(at, name.key, known, unit=True)
    if len(name.base) > 1 and not name.delta:
        pieces = _split(name, scope)
        split = " ".join(pieces) if pieces else ""
    elsewhere = next((target for target, results in scope.elsewhere.items() if name in results), "")
    opened = scope.open_problem(name)
    if isinstance(opened, NameWithoutValue):
        return opened
    return NameWithoutValue(at, name.key, known, split, elsewhere, name.key == "e")


def _split(name: Name, scope: Scope) -> list[str] | None:
    """A run of letters as a product of names that have values ("mg" → m, g)."""
    letters = name.base
    if function := begins_with_function(letters):
        return [function, name.key[len(function) :]]
    if len(letters) > 6:
        return None
    rest = name.key[len(letters) :]
    parts = [*letters[:-1], letters[-1] + rest]
    if all((n := read_name(part)) is not None and scope.find(n) is not None for part in parts):
        return parts
    return None


def _dimensions(
    calculation: Calculation,
    equations: list[t.Equation],
    finds: list[Find],
    data: Mapping[Name, Datum],
    symbols: Mapping[Name, Symbol],
    place: Span | None,
) -> tuple[Dimensions, list[Problem]]:
    # A bare zero ("v_0: 0") is zero in any unit: its dimension is left to be inferred.
    known: dict[Name, Dimension] = {
        name: datum.quantity.unit.dimension
        for name, datum in data.items()
        if datum.quantity.unit.factors or datum.quantity.value.fraction != 0
    }
    for find in finds:
        if find.unit is not None:
            known[find.name] = find.unit.dimension
    bare = {
        name: datum.quantity.number.typed
        for name, datum in data.items()
        if datum.quantity.number is not None
        and not datum.quantity.unit.factors
        and datum.quantity.number.value != 0
    }
    dimensions = Dimensions(known, exponents_of(dict(data)), bare, calculation.conventions.style)
    problems: list[Problem] = []
    for equation in equations:
        try:
            dimensions.check(equation, place)
        except Problem as problem:
            blamed = _blame_unit(problem, equation, finds, data, symbols, calculation) or problem
            if isinstance(blamed, DimensionsDiffer | UnitDimensionWrong):
                blamed.constant = doubtful_constant(equation, known, data, calculation.conventions)
            problems.append(blamed)
    return dimensions, problems


def _blame_unit(
    problem: Problem,
    equation: t.Equation,
    finds: list[Find],
    data: Mapping[Name, Datum],
    symbols: Mapping[Name, Symbol],
    calculation: Calculation,
) -> Problem | None:
    """A formula of the sheet is right: what is wrong is a unit, and the sheet tells whose."""
    for find in finds:
        symbol = symbols.get(find.name)
        if symbol and find.unit is not None and find.unit.dimension != symbol.unit.dimension:
            return UnitDimensionWrong(find.unit_span, find.name.key, find.unit.text(), symbol.unit.text())
    for name, datum in data.items():
        symbol = symbols.get(name)
        if (
            symbol
            and datum.quantity.unit.dimension != symbol.unit.dimension
            and datum.quantity.value.sign() != 0
        ):
            return UnitDimensionWrong(
                datum.span or problem.span, name.key, datum.quantity.unit.text(), symbol.unit.text()
            )
    # The asked unit alone may be at fault: without it the formula is sound.
    for find in finds:
        if find.unit is None:
            continue
        known = {n: d.quantity.unit.dimension for n, d in data.items()}
        trial = Dimensions(known, exponents_of(dict(data)), {}, calculation.conventions.style)
        try:
            trial.check(equation)
        except Problem:
            continue
        wanted = trial.of(find.name)
        if wanted is not None and wanted != find.unit.dimension:
            return UnitDimensionWrong(
                find.unit_span, find.name.key, find.unit.text(), coherent_unit(wanted).text()
            )
    return None


def _units_asked(
    finds: list[Find],
    dimensions: Dimensions,
    symbols: Mapping[Name, Symbol],
    equations: list[t.Equation],
    data: Mapping[Name, Datum],
) -> list[Asked]:
    asked: list[Asked] = []
    for find in finds:
        if find.unit is not None:
            unit = difference_of(find.unit) if find.name.delta else find.unit
            asked.append(Asked(find, unit, True))
            continue
        dimension = dimensions.of(find.name)
        symbol = symbols.get(find.name)
        if symbol is not None and (dimension is None or symbol.unit.dimension == dimension):
            asked.append(Asked(find, symbol.unit, False))
        elif dimension is None:
            asked.append(Asked(find, coherent_unit(Dimension.of()), False))
        elif is_angle(find.name, equations):
            asked.append(Asked(find, read_unit(Text("°")), False))
        else:
            same = {
                datum.quantity.unit.text(): datum.quantity.unit
                for datum in data.values()
                if datum.quantity.unit.dimension == dimension
                and datum.quantity.unit.factors
                and not datum.quantity.unit.angle
            }
            units = list(same.values())
            unit = units[0] if len(units) == 1 and not units[0].offset else coherent_unit(dimension)
            asked.append(Asked(find, unit, False))
    return [replace(a, find=replace(a.find, form=money_form(a.find.form, a.unit))) for a in asked]


def _beyond(
    data: Mapping[Name, Datum], limits: Mapping[Name, Limits], magnitudes: bool, calculation: Calculation
) -> list[Problem]:
    """Data that can not be: a negative mass, an efficiency above 1."""
    problems: list[Problem] = []
    style = calculation.conventions.style
    for name, datum in data.items():
        limit = limits.get(name)
        if limit is None or datum.kind == "constant":
            continue
        value = abs(datum.quantity.value) if magnitudes or _may_be_signed(datum) else datum.quantity.value
        if not limit.allow(value):
            printed = plain_of(datum, style)
            problems.append(
                BeyondSense(
                    datum.span or calculation.span,
                    name.key,
                    printed,
                    limit.title,
                    limit.words(style),
                )
            )
    return problems


#: What has a direction even where a formula only takes its magnitude: velocities, forces, momenta.
SIGNED = ("m·s⁻¹", "kg·m·s⁻²", "m·s⁻²", "kg·m·s⁻¹")


def _may_be_signed(datum: Datum) -> bool:
    """Whether a minus is a direction, not nonsense."""
    if datum.quantity.direction or datum.name.delta:
        return datum.name.base != "t"
    return datum.quantity.unit.dimension.text() in SIGNED


def plain_of(datum: Datum, style: NumberStyle) -> str:
    """A datum's value as plain text."""
    return plain_printed(printed_datum(datum, style), style)
