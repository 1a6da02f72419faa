"""The settings in force at one place, and the laying of others over them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, Literal, cast

from physcalc.exact import Form, NumberStyle, Rule
from physcalc.problems import Problem, Span, Text, nearest

from ..problems import SettingMisplaced, SettingTwice, SettingUnknown, SettingUnreadable
from .grid import Targets
from .languages import DecimalSign, decimal_sign, money_place
from .table import LANG, NUMBERS, TABLE

Edition = Literal["memo", "paper", "guide"]
#: What settings stand on.
Scope = Literal["document", "question", "block"]

#: The names of all settings, `numbers` (which may hold some of them) among them.
SETTING_NAMES: tuple[str, ...] = (*TABLE, "numbers")
#: Those that may stand on a question or in a block.
LOCAL_NAMES: tuple[str, ...] = tuple(
    name for name in SETTING_NAMES if name == "numbers" or not TABLE[name].whole_document
)

_TWO_PLACES = Form("places", 2, None)
_NOWHERE = Span()


@dataclass(frozen=True, slots=True)
class Settings:
    """All settings in force at one place of a document.

    Attributes:
        sheet: name or path of the data and formula sheet.
        total: the sum that the questions' marks must reach; None where it is not said.
        draft: whether a document with problems is written, each framed in its place.
        edition: which edition is written.
        lang: the language tag of the document.
        decimal_typed: the decimal sign where a setting says it; None leaves it to the language.
        group: whether digits are set in groups of three.
        group_four: whether four digits before the decimal sign are split too.
        unit_style: units by negative powers or with a solidus.
        low, high: where the form is not said, rounded values below `low` and from `high` up are in standard
            form.
        form: to what results are rounded where `find` does not say.
        rule: how ties are rounded.
        carry: whether intermediate results go on unrounded or rounded.
        uncertainty: how uncertainties combine: in quadrature, or by adding them.
        uncertainty_figures: figures of a printed uncertainty; None for one, or two where the first is a 1.
        axis_labels: how the axis of a graph names its unit: with a solidus or in brackets.
        signs: what goes into a substitution: signs, magnitudes, or both choices of direction.
        axis: which way is positive, as typed; None where it is not said.
        points: positions in a plane: each name with its coordinates, as typed.
        units_in_substitution: whether substitution lines show units.
        writing_space: ruled lines for each mark in the paper; 0 for none.
        labels: words of the page with what is put in their place.
        appendix: whether the data and formula sheet follows the document: nothing of it, what is used, or all.
        grid: what share of the marks each topic and each level is to have; None where it is not said.
    """

    sheet: str = "school"
    total: int | None = None
    draft: bool = False
    edition: Edition = "paper"
    lang: str = "en"
    decimal_typed: DecimalSign | None = None
    group: bool = True
    group_four: bool = True
    unit_style: Literal["powers", "solidus"] = "powers"
    low: Fraction = Fraction(1, 10)
    high: Fraction = Fraction(100_000)
    form: Form = _TWO_PLACES
    rule: Rule = "half-up"
    carry: Literal["unrounded", "rounded"] = "unrounded"
    uncertainty: Literal["quadrature", "sum"] = "quadrature"
    uncertainty_figures: Literal[1, 2] | None = None
    axis_labels: Literal["solidus", "brackets"] = "solidus"
    signs: Literal["carried", "magnitudes", "both"] = "carried"
    axis: Text | None = None
    points: tuple[tuple[Text, Text], ...] = ()
    units_in_substitution: bool = False
    writing_space: int = 0
    labels: tuple[tuple[str, str], ...] = ()
    appendix: Literal["none", "used", "all"] = "none"
    grid: Targets | None = None

    @property
    def decimal(self) -> DecimalSign:
        """The decimal sign in force."""
        return self.decimal_typed or decimal_sign(self.lang)

    @property
    def numbers(self) -> NumberStyle:
        """How numbers are set."""
        return NumberStyle(
            self.decimal, self.group, self.group_four, self.low, self.high, money_place(self.lang), self.lang
        )

    @classmethod
    def from_metadata(
        cls,
        values: Mapping[str, object],
        places: Mapping[str, tuple[Text, Text]] | None = None,
        *,
        lang: str = "",
        where: Span = _NOWHERE,
    ) -> tuple[Settings, tuple[Problem, ...]]:
        """The settings of a document.

        Args:
            values: what stands below `physcalc` in the metadata: texts, numbers, truth values and mappings.
            places: for a path ("sheet", "numbers.decimal") the key and its value in the source.
            lang: the document's language tag; empty where it has none.
            where: the place for what has none.

        Returns:
            The settings (of what could be read) and every problem, sorted by place.
        """
        start = cls(lang=lang) if LANG.fullmatch(lang) else cls()
        return start.with_overrides(_placed(values, places or {}, where, ""))

    def with_overrides(
        self, pairs: Iterable[tuple[Text, object]], *, scope: Scope = "document", also: Iterable[str] = ()
    ) -> tuple[Settings, tuple[Problem, ...]]:
        """These settings with others laid over them.

        Args:
            pairs: names and values with their places; a value is a `Text` or, for `numbers`, `points` and
                `labels`, pairs of its own (a block's keys are such).
            scope: what they stand on; settings of the whole document are refused on a question or block.
            also: other names that may stand in the same place, to be proposed where a name is unknown.

        Returns:
            The settings (of what could be read) and every problem, sorted by place.
        """
        problems: list[Problem] = []
        flat = list(_flat(pairs, tuple(also), problems))
        # The decimal sign decides how the numbers beside it are read.
        flat.sort(key=lambda pair: pair[0].value not in {"lang", "decimal"})
        settings = self
        typed: dict[str, str] = {}
        for key, value in flat:
            row = TABLE[key.value]
            if scope != "document" and row.whole_document:
                problems.append(SettingMisplaced(key.span, key.value))
                continue
            shown = value.value if isinstance(value, Text) else "keys below it"
            try:
                change = row.read(value, settings.decimal)
            except Problem as problem:
                problems.append(problem)
                continue
            if change is None:
                span = value.span if isinstance(value, Text) and shown else key.span
                close = nearest(shown, row.words) if shown and row.words else None
                problems.append(SettingUnreadable(span, key.value, shown, row.allowed, close))
            elif before := [typed[field] for field in change if typed.get(field, shown) != shown]:
                problems.append(SettingTwice(key.span, key.value, before[0], shown))
            else:
                typed |= dict.fromkeys(change, shown)
                settings = settings._changed(change)
        return settings, tuple(sorted(problems, key=lambda problem: problem.span.order))

    def _changed(self, change: Mapping[str, object]) -> Settings:
        fields = cast("dict[str, Any]", dict(change))
        if "labels" in fields:
            fields["labels"] = tuple((dict(self.labels) | dict(fields["labels"])).items())
        return replace(self, **fields)


def _flat(
    pairs: Iterable[tuple[Text, object]], also: tuple[str, ...], problems: list[Problem]
) -> Iterator[tuple[Text, object]]:
    """The pairs whose name is known, those below `numbers` among them."""
    for key, value in pairs:
        if key.value in TABLE:
            yield key, value
        elif key.value != "numbers":
            close = nearest(key.value.replace("_", "-"), (*SETTING_NAMES, *also))
            problems.append(SettingUnknown(key.span, key.value, close))
        elif isinstance(value, Text) or not isinstance(value, Iterable):
            shown = value.value if isinstance(value, Text) else ""
            allowed = f"keys below it: {', '.join(NUMBERS)}"
            problems.append(SettingUnreadable(key.span, key.value, shown, allowed))
        else:
            for name, inner in cast("Iterable[tuple[Text, object]]", value):
                if name.value in NUMBERS:
                    yield name, inner
                else:
                    close = nearest(name.value, tuple(NUMBERS))
                    problems.append(SettingUnknown(name.span, name.value, close))


def _placed(
    values: Mapping[str, object], places: Mapping[str, tuple[Text, Text]], where: Span, above: str
) -> list[tuple[Text, object]]:
    """Plain values as pairs with places."""
    found: list[tuple[Text, object]] = []
    for name, value in values.items():
        key, typed = places.get(above + name, (Text(name, where), Text("", where)))
        placed = Text(name, key.span)
        if isinstance(value, Mapping):
            inner = cast("Mapping[str, object]", value)
            found.append((placed, _placed(inner, places, placed.span, f"{above}{name}.")))
        elif isinstance(value, bool):
            found.append((placed, Text("yes" if value else "no", typed.span)))
        elif isinstance(value, str | int | float):
            found.append((placed, Text(str(value), typed.span)))
        else:
            found.append((placed, None))
    return found
