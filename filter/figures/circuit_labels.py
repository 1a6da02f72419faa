"""What stands beside the parts of a circuit."""

from __future__ import annotations

from dataclasses import dataclass

from physcalc.checking.scope import Datum
from physcalc.figures.circuit_parts import SOURCES, CircuitDiagram, Part, Value

from .figure import Look
from .letters import runs_equal, runs_of_name, runs_of_text, width_of
from .picture import LABEL_SIZE, Run

#: A name stands inside a meter where it is no wider than this, in millimetres.
INSIDE = 6.0
_METERS = ("ammeter", "voltmeter", "galvanometer", "motor")

Runs = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class PartLabel:
    """The label of a part: on one line, or its name on one side and its value on the other.

    Attributes:
        whole: all of it.
        name, value: its two parts; empty where there is only one.
        inside: what stands inside the symbol.
    """

    whole: Runs = ()
    name: Runs = ()
    value: Runs = ()
    inside: Runs = ()


def shown(value: Value | None, look: Look) -> str:
    """A value as it stands in the figure; empty where it is not known, or a result that nobody is told."""
    datum = value.datum if value is not None else None
    if datum is None or hidden(datum):
        return ""
    return look.value(datum)


def hidden(datum: Datum) -> bool:
    """Whether a value is what a calculation found."""
    return datum.kind == "result"


def value_runs(value: Value | None, diagram: CircuitDiagram, look: Look) -> Runs:
    """The label of an emf or a resistance: "ε = 12 V", "12 V" or "ε"."""
    if value is None:
        return ()
    text = shown(value, look)
    if value.name is None:
        return runs_of_text(text)
    if not text or diagram.labels == "names":
        return runs_of_name(value.name)
    return runs_of_text(text) if diagram.labels == "values" else runs_equal(value.name, text)


def label_of(part: Part, diagram: CircuitDiagram, look: Look) -> PartLabel:
    """The label of a part that is no battery."""
    rating = diagram.ratings[part.number]
    name: Runs = runs_of_name(part.name) if part.name is not None else ()
    if part.name is not None and part.name.base != "R":
        name = upright(name)
    if part.kind == "terminals":
        return PartLabel()
    if part.kind in _METERS:
        letter = {"ammeter": "A", "voltmeter": "V", "galvanometer": "G", "motor": "M"}[part.kind]
        if (
            name
            and width_of(name, LABEL_SIZE) <= INSIDE
            and part.name is not None
            and part.name.base == letter
        ):
            inside, name = name, ()
        else:
            inside = (Run(letter),)
    else:
        inside = ()
    value = rating.resistance or rating.forward
    text = shown(value, look) if value is not None else ""
    if value is not None and not text and value.name is not None and value.name != part.name and part.values:
        # A resistor X of the unknown resistance R.
        text_runs = runs_of_name(value.name)
    else:
        text_runs = runs_of_text(text) if text else ()
    if diagram.labels == "names" and name:
        text_runs = ()
    if diagram.labels == "values" and text_runs:
        name = ()
    if not name or not text_runs:
        return PartLabel(name or text_runs, inside=inside)
    same = value is not None and value.name == part.name
    whole = runs_equal(part.name, text) if same and part.name is not None else (
        *name, Run("\u00a0("), *text_runs, Run(")")
    )  # fmt: skip
    return PartLabel(whole, name, text_runs, inside)


def upright(runs: Runs) -> Runs:
    """The letters of a thing, which is no quantity."""
    return tuple(Run(run.text, False, run.level) for run in runs)


def current_runs(part: Part, diagram: CircuitDiagram, look: Look) -> Runs:
    """What stands beside the arrow of a current: its symbol, and in memo and guide its value."""
    current = diagram.currents.get(part.number)
    if current is None:
        return ()
    if current.datum is None or (look.edition == "paper" and hidden(current.datum)):
        return runs_of_name(current.name)
    return runs_equal(current.name, look.value(current.datum))


def is_battery(part: Part) -> bool:
    """Whether a part is drawn as cells."""
    return part.kind in SOURCES
