"""Labels of quantities: their symbols with their values, and what a question paper must not show of them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from physcalc.figures.situation_reading import Amount
from physcalc.figures.situation_scenes import Body
from physcalc.language.plain import plain_name

from .figure import Look
from .letters import joined, runs_equal, runs_of_name, runs_of_text
from .picture import Run


@dataclass(frozen=True, slots=True)
class Labels:
    """Makes labels.

    Attributes:
        look: how figures look.
        values: whether values stand beside symbols.
    """

    look: Look
    values: bool

    def hides(self, amount: Amount) -> bool:
        """Whether a value is a result that this edition must not show."""
        return self.look.edition == "paper" and amount.found

    def value(self, amount: Amount) -> str:
        """The value with its unit, a charge with its sign; "?" where it is not shown."""
        if amount.datum is None or self.hides(amount):
            return "?"
        datum = amount.plain.datum
        assert datum is not None
        text = self.look.value(datum)
        if _charge(amount) and amount.value is not None and amount.value.sign() > 0:
            text = "+" + text
        return text

    def runs(self, amount: Amount) -> tuple[Run, ...]:
        """The label as letters of a picture."""
        if amount.name is None:
            return runs_of_text(self.value(amount))
        if amount.datum is None or not self.values or self.hides(amount):
            return runs_of_name(amount.name)
        return runs_equal(amount.name, self.value(amount))

    def text(self, amount: Amount) -> str:
        """The label as words."""
        if amount.name is None:
            return self.value(amount)
        if amount.datum is None or not self.values or self.hides(amount):
            return plain_name(amount.name)
        return f"{plain_name(amount.name)} = {self.value(amount)}"

    def of(self, amounts: Iterable[Amount]) -> tuple[Run, ...]:
        """Several labels in one."""
        return joined([self.runs(amount) for amount in amounts])

    def name(self, body: Body) -> str:
        """What a body is called in words: its labels, or the key that the author typed."""
        return ", ".join(self.text(label) for label in body.labels)


def _charge(amount: Amount) -> bool:
    return amount.datum is not None and amount.datum.quantity.unit.dimension.text() == "s·A"
