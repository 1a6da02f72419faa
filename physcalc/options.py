"""Options of a multiple-choice question: which one is right, and none alike.

Room 9, beside rendering: it needs names, solving by two trials where names cancel, and comparison.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from .checking.dimensions import Dimensions
from .checking.given import exponents_of, typed_quantity
from .checking.plane import refuse_sizes_added
from .checking.replace import put_in
from .checking.scope import Datum, Scope
from .checking.setup import without_value
from .checking.value import evaluate
from .exact import Form, Numeral, Real, RealError, round_places, write
from .language import tree as t
from .language.names import Name
from .language.parser import parse_expression
from .language.plain import plain, plain_printed
from .language.quantities import Typed, read_typed
from .language.statements import Conventions
from .language.tree import Printed
from .problems import Problem, Span, Text
from .problems.checking import UnitDimensionWrong
from .problems.solving import NumberBeyondSense, OptionsDoNotFit
from .units import ONE, Unit, coherent_unit, from_si


@dataclass(frozen=True, slots=True)
class Options:
    """An options block as the author wrote it.

    Attributes:
        span: where it begins.
        conventions: the settings in force.
        of: the quantity asked; None where the options are texts.
        options: (letter, text) in order.
        answer: the key as typed; None where it is computed only.
    """

    span: Span
    conventions: Conventions = field(default_factory=Conventions)
    of: Text | None = None
    options: tuple[tuple[Text, Text], ...] = ()
    answer: Text | None = None


@dataclass(frozen=True, slots=True)
class OptionsOutcome:
    """What came of an options block.

    Attributes:
        key: the letter of the right option; None where it could not be settled.
        printed: (letter, what is printed): a value, a tree, or the text as typed.
        value: the value asked, printed; None where the options are texts.
        problems: everything found.
    """

    key: str | None
    printed: tuple[tuple[str, Printed | t.Expr | str], ...]
    value: Printed | t.Expr | None
    problems: tuple[Problem, ...]


@dataclass(frozen=True, slots=True)
class _Valued:
    """An option or `of` with its values: two, from two trials, where names without a value stand in it."""

    values: tuple[Real, ...]
    unit: Unit
    printed: Printed | t.Expr
    dimension: object


class _Trials:
    """Evaluates with unlike numbers for the names without a value: what cancels is the same in both."""

    def __init__(self, scope: Scope, conventions: Conventions) -> None:
        self.scope = scope
        self.conventions = conventions
        self.free: dict[Name, int] = {}

    def value(self, tree: t.Expr, span: Span, names_free: bool) -> _Valued:
        data: dict[Name, Datum] = {}
        shown = tree
        for _ in range(8):
            opened = {n: body for n in t.names_in(tree) if (body := self.scope.open_tree(n)) is not None}
            for name, body in opened.items():
                tree = put_in(tree, name, body)
        for name in t.names_in(tree):
            datum = self.scope.find(name)
            if datum is not None:
                data[name] = datum
            elif names_free:
                self.free.setdefault(name, len(self.free))
            else:
                raise without_value(name, span, self.scope)
        dimensions = Dimensions(
            {n: d.quantity.unit.dimension for n, d in data.items()},
            exponents_of(data),
            {},
            self.conventions.style,
        )
        dimension = dimensions.check_expression(tree)
        refuse_sizes_added((tree,), self.scope)
        values = []
        for start in (Fraction(7, 3), Fraction(29, 11)):
            env = {n: d.quantity.value for n, d in data.items()}
            env.update({n: Real.of(start + 2 * i) for n, i in self.free.items()})
            try:
                values.append(evaluate(tree, env))
            except RealError as error:
                raise NumberBeyondSense(span, str(error)) from None
            if not self.free:
                break
        same = {
            d.quantity.unit.text(): d.quantity.unit
            for d in data.values()
            if d.quantity.unit.dimension == dimension
        }
        unit = (
            next(iter(same.values())) if len(same) == 1 else (coherent_unit(dimension) if dimension else ONE)
        )
        return _Valued(tuple(values), unit, shown, dimension)

    def read(self, text: Text, names_free: bool) -> _Valued:
        typed: Typed | None = None
        try:
            typed = read_typed(text, self.conventions.decimal, self.conventions.lang)
        except Problem:
            # "5 m g" is an expression although it begins with a number.
            tree = parse_expression(text, self.conventions.decimal)
            return self.value(tree, text.span, names_free)
        if typed is not None:
            quantity = typed_quantity(typed, None, self.conventions)
            printed = Printed(Numeral.of_number(typed.number), typed.unit, quantity.direction)
            return _Valued((quantity.value,), typed.unit, printed, typed.unit.dimension)
        return self.value(parse_expression(text, self.conventions.decimal), text.span, names_free)


def choose_option(options: Options, scope: Scope) -> OptionsOutcome:
    """Settle which option is right.

    Without `of` the options are texts, and the typed answer must be one of their letters. With it, exactly
    one option equals it, none equals another after rounding, and a typed answer must be that one.
    """
    letters = [letter.value.strip() for letter, _ in options.options]
    problems: list[Problem] = []
    if options.of is None:
        printed: list[tuple[str, Printed | t.Expr | str]] = [
            (letter.value.strip(), text.value.strip()) for letter, text in options.options
        ]
        seen: dict[str, str] = {}
        for letter, text in options.options:
            same = seen.setdefault(" ".join(text.value.split()).casefold(), letter.value)
            if same != letter.value:
                problems.append(OptionsDoNotFit(text.span, f"options {same} and {letter.value} are the same"))
        if options.answer is None:
            hint = "say which with answer: A; or what is asked with of:, so that it is computed"
            problems.append(
                OptionsDoNotFit(
                    options.span, "the options are texts, and no answer says which is right", hint
                )
            )
            return OptionsOutcome(None, tuple(printed), None, tuple(problems))
        key = options.answer.value.strip()
        if key not in letters:
            problems.append(_no_such(options.answer, key, letters))
            return OptionsOutcome(None, tuple(printed), None, tuple(problems))
        return OptionsOutcome(key, tuple(printed), None, tuple(problems))
    return _computed(options, scope, letters, problems)


def _no_such(answer: Text, key: str, letters: list[str]) -> Problem:
    return OptionsDoNotFit(
        answer.span, f'there is no option "{key}"', f"the options are {', '.join(letters)}"
    )


def _computed(options: Options, scope: Scope, letters: list[str], problems: list[Problem]) -> OptionsOutcome:
    assert options.of is not None
    conventions = options.conventions
    trials = _Trials(scope, conventions)
    try:
        asked = trials.read(options.of, True)
    except Problem as problem:
        printed = tuple((letter.value.strip(), text.value.strip()) for letter, text in options.options)
        return OptionsOutcome(None, printed, None, (problem,))
    read: list[tuple[str, Text, _Valued]] = []
    shown: list[tuple[str, Printed | t.Expr | str]] = []
    for letter, text in options.options:
        try:
            option = trials.read(text, True)
        except Problem as problem:
            problems.append(problem)
            shown.append((letter.value.strip(), text.value.strip()))
            continue
        if (
            option.dimension is not None
            and asked.dimension is not None
            and option.dimension != asked.dimension
        ):
            zero = all(v.sign() == 0 for v in option.values)
            if not zero:
                wrong = UnitDimensionWrong(
                    text.span, options.of.value.strip(), option.unit.text(), asked.unit.text()
                )
                problems.append(wrong)
        read.append((letter.value.strip(), text, option))
        shown.append((letter.value.strip(), option.printed))
    if len(read) < len(options.options):
        return OptionsOutcome(None, tuple(shown), None, tuple(problems))
    unit = next((o.unit for _, _, o in read if isinstance(o.printed, Printed)), asked.unit)
    value = _printed_value(asked, unit, conventions, bool(trials.free))
    alike = _alike(read, conventions)
    problems.extend(alike)
    right = [letter for letter, _, option in read if _exactly(asked, option)]
    right = right or [letter for letter, _, option in read if _equal(asked, option, conventions)]
    value_text = (
        plain_printed(value, conventions.style, conventions.unit_style)
        if isinstance(value, Printed)
        else plain(value, conventions.style)
    )
    of = options.of.value.strip()
    if not right:
        problems.append(
            OptionsDoNotFit(
                options.of.span,
                f"{of} is {value_text}, and no option equals it",
                "change an option or the data",
            )
        )
        return OptionsOutcome(None, tuple(shown), value, tuple(problems))
    if len(right) > 1:
        # Options that are alike are said so already; here it is two that differ and both round to it.
        if alike:
            return OptionsOutcome(None, tuple(shown), value, tuple(problems))
        problems.append(
            OptionsDoNotFit(
                options.of.span, f"{of} is {value_text}, and options {' and '.join(right)} equal it"
            )
        )
        return OptionsOutcome(None, tuple(shown), value, tuple(problems))
    if options.answer is not None:
        typed = options.answer.value.strip()
        if typed not in letters:
            problems.append(_no_such(options.answer, typed, letters))
        elif typed != right[0]:
            what = f"{of} is {value_text}: option {right[0]}, the document says {typed}"
            problems.append(OptionsDoNotFit(options.answer.span, what))
    return OptionsOutcome(right[0], tuple(shown), value, tuple(problems))


def _printed_value(asked: _Valued, unit: Unit, conventions: Conventions, free: bool) -> Printed | t.Expr:
    constant = len(asked.values) == 1 or asked.values[0].equals(asked.values[1])
    if free and not constant:
        assert not isinstance(asked.printed, Printed)
        return asked.printed
    _, numeral = write(from_si(asked.values[0], unit), conventions.form, conventions.rule, conventions.style)
    return Printed(numeral, unit)


def _equal(asked: _Valued, option: _Valued, conventions: Conventions) -> bool:
    """Whether an option is what is asked: equal as expressions, or as far as the option's own digits go."""
    if isinstance(option.printed, Printed) and option.printed.unit is not None:
        numeral = option.printed.numeral
        if "/" in numeral.whole:
            return asked.values[0].equals(option.values[0])
        places = len(numeral.part) - (numeral.exponent or 0)
        shown = [
            round_places(from_si(v, option.printed.unit), places, conventions.rule).fraction
            for v in asked.values
        ]
        wanted = from_si(option.values[0], option.printed.unit).fraction
        return all(s == wanted for s in shown) and all(_near(v, option.values[0]) for v in asked.values)
    return _exactly(asked, option)


#: So far an option may lie off by being rounded, as a share of it: 1 is not what 0,5 comes to.
_ROUNDED_OFF = Real.of(Fraction(1, 4))


def _near(value: Real, option: Real) -> bool:
    return (abs(value - option) - abs(option) * _ROUNDED_OFF).sign() <= 0


def _exactly(asked: _Valued, option: _Valued) -> bool:
    """Whether an option is what is asked without any rounding."""
    pairs = zip(
        asked.values if len(asked.values) > 1 else asked.values * len(option.values),
        option.values if len(option.values) > 1 else option.values * len(asked.values),
        strict=True,
    )
    return all(a.equals(b) for a, b in pairs)


def _alike(read: list[tuple[str, Text, _Valued]], conventions: Conventions) -> list[Problem]:
    """Options that are equal after rounding."""
    problems: list[Problem] = []
    for index, (letter, _, option) in enumerate(read):
        for other_letter, text, other in read[index + 1 :]:
            if len(option.values) != len(other.values) and max(len(option.values), len(other.values)) > 1:
                longer, shorter = sorted((option.values, other.values), key=len, reverse=True)
                same = all(v.equals(shorter[0]) for v in longer)
            else:
                same = all(a.equals(b) for a, b in zip(option.values, other.values, strict=True))
            if not same and len(option.values) == len(other.values) == 1 and not _both_typed(option, other):
                form = Form("figures", 4)
                a = write(option.values[0], form, conventions.rule, conventions.style)[0]
                b = write(other.values[0], form, conventions.rule, conventions.style)[0]
                same = a == b
            if same:
                problems.append(OptionsDoNotFit(text.span, f"options {letter} and {other_letter} are equal"))
    return problems


def _both_typed(a: _Valued, b: _Valued) -> bool:
    return isinstance(a.printed, Printed) and isinstance(b.printed, Printed)
