"""The published worked examples, one by one, through the engine.

Source of each: in worked_examples.yaml, with a value recomputed independently from the printed data. What a
book's answer does not follow from is found to disagree, and follows once the rounded value that the book carried
is given instead.
"""

from __future__ import annotations

import re
from decimal import ROUND_HALF_UP, Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml

from physcalc.engine import Outcome
from physcalc.exact import Real
from physcalc.language.names import read_name
from physcalc.language.quantities import read_typed
from physcalc.units import difference_of, from_si

from ..authoring import text, work

CASES: list[dict[str, Any]] = yaml.safe_load(
    Path(__file__).with_name("worked_examples.yaml").read_text(encoding="utf-8")
)
CARRIED = [case for case in CASES if "carried" in case or "carried_values" in case]

#: What a teacher adds where a formula has more than one root.
TAKE = {"dark-room-collision": "u_2 > 0 m/s", "pursuit-cheetah": "positive"}
#: Names that the sheet holds as constants and that the example means as unknowns on the way.
ON_THE_WAY = {"redshift-distance": ("b",)}
_LONE_DIVISION = re.compile(r"(?<![\w)])([A-Za-z]\w*/[A-Za-z]\w*)\*")


def formula(relation: str) -> str:
    """A relation as an author writes it: `m/M*N_A` would be refused, `(m/M)*N_A` is clear."""
    return _LONE_DIVISION.sub(r"(\1)*", relation)


def key_of(name: str) -> str:
    """A name as the product spells it: `theta` is θ."""
    read = read_name(name)
    assert read is not None
    return read.key


def unit_of(value: object) -> str:
    return str(value).partition(" ")[2]


def figures(case: dict[str, Any], name: str) -> int:
    said = case["printed_sig_figs"]
    return int(said[name] if isinstance(said, dict) else said)


def solve(case: dict[str, Any], relations: list[str], given: dict[str, Any], find: dict[str, Any]) -> Outcome:
    asked = list(ON_THE_WAY.get(case["id"], ()))
    for name, value in find.items():
        unit = unit_of(value)
        asked.append(f"{name}{f' in {unit}' if unit else ''} to {figures(case, name)} sf")
    return work(
        [formula(relation) for relation in relations],
        asked,
        given=[f"{name}: {value}" for name, value in given.items()],
        answer={name: str(value) for name, value in find.items()},
        take=TAKE.get(case["id"], ""),
        sheet_name="codata",
    )


def by_name(case: dict[str, Any], numbers: Any) -> dict[str, float]:
    """The recomputed values by name: one number where one quantity is found."""
    if isinstance(numbers, dict):
        return {name: float(value) for name, value in numbers.items()}
    (name,) = case["find"]
    return {name: float(numbers)}


def in_unit(outcome: Outcome, name: str, printed: object) -> float:
    """What was computed, in the unit in which the book prints it."""
    key = read_name(name)
    typed = read_typed(text(str(printed)), ".")
    assert key is not None
    assert typed is not None
    datum = outcome.results[key]
    unit = typed.unit if datum.quantity.unit.offset else difference_of(typed.unit)
    value: Real = from_si(datum.quantity.value, unit)
    return float(value)


def disagreeing(case: dict[str, Any]) -> set[str]:
    """The answers that do not follow: as the source says, else those whose recomputed value rounds otherwise."""
    if case["agrees"]:
        return set()
    if "disagrees_on" in case:
        return set(case["disagrees_on"])
    return {
        name
        for name, value in by_name(case, case["recomputed"]).items()
        if not rounds_to(value, case["find"][name])
    }


def rounds_to(value: float, printed: object) -> bool:
    number = Decimal(str(printed).partition(" ")[0])
    exponent = number.as_tuple().exponent
    assert isinstance(exponent, int)
    return Decimal(repr(value)).quantize(Decimal(1).scaleb(exponent), rounding=ROUND_HALF_UP) == number


def problems(outcome: Outcome) -> list[Any]:
    return [problem for problem in outcome.problems if problem.level != "note"]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["id"])
def test_published(case: dict[str, Any], record_property: Any) -> None:
    record_property("topic of case", case["topic"])
    for shape in case["shape"]:
        record_property("shape of case", shape)
    outcome = solve(case, case["relations"], case["given"], case["find"])
    found = problems(outcome)
    assert {problem.slug for problem in found} <= {"answer-disagrees"}, [str(problem) for problem in found]
    assert {problem.name for problem in found} == {key_of(name) for name in disagreeing(case)}, [
        str(problem) for problem in found
    ]
    for name, value in by_name(case, case["recomputed"]).items():
        if name in case["find"]:
            computed = in_unit(outcome, name, case["find"][name])
            if unit_of(case["find"][name]) == "deg":
                # A direction may be given by any angle of the same place on the circle.
                computed += 360 * round((value - computed) / 360)
            assert computed == pytest.approx(value, rel=2e-5), name


@pytest.mark.parametrize("case", CARRIED, ids=lambda case: case["id"])
def test_what_the_book_carried_gives_what_it_printed(case: dict[str, Any]) -> None:
    carried = case.get("carried") or case["carried_values"]
    expected = by_name(case, case.get("carried_gives", case.get("recomputed_with_carried")))
    relations = list(case["relations"])
    for name in carried:
        if name not in case["given"]:
            # The formula that first gives the quantity is replaced by the rounded value that was carried.
            relations.remove(next(r for r in relations if re.search(rf"(?<!\w){re.escape(name)}(?!\w)", r)))
    find = {name: value for name, value in case["find"].items() if name not in carried}
    outcome = solve(case, relations, {**case["given"], **carried}, find)
    assert [str(problem) for problem in problems(outcome)] == []
    for name, value in find.items():
        assert in_unit(outcome, name, value) == pytest.approx(expected[name], rel=2e-5), name
