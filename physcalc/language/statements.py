"""What an author says in a calculation, as data: texts with their places, nothing resolved yet."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from ..exact import Form, NumberStyle, Rule
from ..problems import Span, Text
from .directions import Axis
from .names import read_name
from .points import Points


@dataclass(frozen=True, slots=True)
class Conventions:
    """The settings that the engine obeys, as they stand for one calculation.

    Attributes:
        decimal: the document's decimal sign, "." or ",": how an ambiguous typed number is told.
        style: how numbers are printed.
        form: the form of a result where `find` does not say (two decimals unless told otherwise).
        rule: how ties are rounded.
        carry: whether a later step starts from the exact result or from the rounded one.
        signs: whether signs go into the substitution or magnitudes first.
        axis: the axis in force, or None.
        units_in_substitution: whether units stand in substitution lines.
        unit_style: units by negative powers or by a solidus.
        points: points in a plane, or None.
        uncertainty: how uncertainties combine: in quadrature, or by the rule of thumb that adds them.
        uncertainty_figures: figures of a printed uncertainty; None for one, or two where the first is a 1.
        axis_labels: how the axis of a graph names its unit: `v / m·s⁻¹` or `v (m·s⁻¹)`.
        lang: the language tag of the document, for words that are typed ("negative", "halves").
    """

    decimal: Literal[".", ","] = "."
    style: NumberStyle = field(default_factory=NumberStyle)
    form: Form = field(default_factory=lambda: Form("places", 2, None))
    rule: Rule = "half-up"
    carry: Literal["unrounded", "rounded"] = "unrounded"
    signs: Literal["carried", "magnitudes", "both"] = "carried"
    axis: Axis | None = None
    units_in_substitution: bool = False
    unit_style: Literal["powers", "solidus"] = "powers"
    points: Points | None = None
    uncertainty: Literal["quadrature", "sum"] = "quadrature"
    uncertainty_figures: int | None = None
    axis_labels: Literal["solidus", "brackets"] = "solidus"
    lang: str = "en"


@dataclass(frozen=True, slots=True)
class GivenText:
    """One line of data: `m: 640 kg`.

    Attributes:
        name: the name before the colon.
        value: what stands after it.
    """

    name: Text
    value: Text


@dataclass(frozen=True, slots=True)
class AnswerText:
    """A typed answer to be checked.

    Attributes:
        value: the answer as typed.
        name: which result it states; None where the calculation finds one quantity only.
    """

    value: Text
    name: Text | None = None


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation as the author wrote it.

    Attributes:
        span: where it begins.
        conventions: the settings in force for it.
        given: its own data.
        use: the sheet's formula it takes; None for none.
        formulas: the formulas typed.
        find: the quantities asked, with unit and form.
        take: which root; None where not said.
        answers: typed answers.
        show: the value that a "show that" states.
        accept: what markers may accept.
        marks: marks by line ("" is the whole): (key text, value text) pairs.
        steps: smaller calculations, in order.
        others: other methods (`or`).
        slips: (what went wrong, the wrong formula).
        why: the sentence for the guide.
        bands: ranges of values with the marks they earn, as for a reading from a graph.
        change: which data change, where the factor of what is found is asked ("r doubled"); None for none.
        total_marks: marks that this calculation has to spread where `marks` does not say; None if unknown.
    """

    span: Span
    conventions: Conventions = field(default_factory=Conventions)
    given: tuple[GivenText, ...] = ()
    use: Text | None = None
    formulas: tuple[Text, ...] = ()
    find: tuple[Text, ...] = ()
    take: Text | None = None
    answers: tuple[AnswerText, ...] = ()
    show: Text | None = None
    accept: Text | None = None
    marks: tuple[tuple[Text, Text], ...] = ()
    steps: tuple[Calculation, ...] = ()
    others: tuple[Calculation, ...] = ()
    slips: tuple[tuple[Text, Text], ...] = ()
    why: Text | None = None
    change: Text | None = None
    bands: tuple[tuple[Text, Text], ...] = ()
    total_marks: int | None = None


def asked_names(calculation: Calculation) -> set[str]:
    """The names that a calculation was to find."""
    words = [text.value.split()[0] for text in calculation.find if text.value.split()]
    asked = {name.key for word in words if (name := read_name(word)) is not None}
    return asked.union(*(asked_names(step) for step in calculation.steps))
