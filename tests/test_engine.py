"""The engine's own doors: it never raises, whatever it is given, and says everything it found."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

import physcalc.engine as engine
from physcalc.checking.scope import Scope
from physcalc.engine import calculate, constants_layer, written
from physcalc.language.names import Name
from physcalc.language.statements import AnswerText
from physcalc.problems import Problem

from .authoring import POINT, answers, givens, layer, printed, sheet, slugs, statement, text, work

_PIECES = st.sampled_from(
    ["F", "m", "a", "g", "t", "x", "v_0", "θ", "e", "+", "-", "*", "/", "^", "^2", "(", ")", "|", "=", "= ", "sin", "√",
     "exp(", "2", "0", "1/2", "6e300", "9^9^9", "30°", " ", "N", "kg", "m/s", ", left", "from q", "% ", "to 3 sf", "in",
     "R5", "$3/kWh", "ZAR", "R"]
)  # fmt: skip
junk = st.lists(_PIECES, max_size=9).map(" ".join)
formulas = st.builds("{} = {}".format, junk, junk)


@settings(max_examples=250, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(
    st.lists(st.one_of(formulas, junk), max_size=3),
    st.lists(st.one_of(junk, st.sampled_from(["F", "a in m/s^2", "t to 3 sf"])), max_size=2),
    st.lists(st.builds("{}: {}".format, st.sampled_from(["m", "a", "t", "x", "θ"]), junk), max_size=4),
    junk,
    junk,
)
def test_nothing_is_raised(
    relations: list[str], finds: list[str], data: list[str], answer: str, other: str
) -> None:
    calculation = replace(
        statement(relations, finds, given=data, answer=answer, take=other, show=other, accept=other, total=3),
        slips=((text("slip"), text(other)),),
        answers=(AnswerText(text(answer)), AnswerText(text(other), text("F"))),
    )
    outcome = calculate(calculation, Scope((constants_layer(sheet()),)), sheet())
    assert all(isinstance(problem, Problem) for problem in outcome.problems)
    assert outcome.working is not None or outcome.problems
    for problem in outcome.problems:
        assert problem.sentence()
        assert problem.span.file == "page.md"


def test_every_mistake_is_said_at_once() -> None:
    outcome = work("F = m (a", "F as N", given=["m: 2 kgs"], take="biggest")
    assert sorted(slugs(outcome)) == [
        "formula-unreadable",
        "phrase-unreadable",
        "phrase-unreadable",
        "unit-unknown",
    ]


def test_the_public_names() -> None:
    for name in engine.__all__:
        assert hasattr(engine, name)


def test_constants_are_a_layer_of_names() -> None:
    constants = constants_layer(sheet())
    assert Name("g") in constants
    assert Name("nothing") not in constants
    assert constants[Name("g")].kind == "constant"
    assert len(list(constants)) == len(constants) > 5


def test_written_values() -> None:
    scope = Scope((layer("m: 640 kg", "v: 1.20 m/s"), constants_layer(sheet())))
    for name, value in (("m", "640 kg"), ("v", "1.20 m·s⁻¹"), ("g", "9.8 m·s⁻²")):
        shown, problems = written(text(name), scope, POINT)
        assert not problems
        assert shown is not None
        assert printed(shown) == value
    assert [p.slug for p in written(text("M"), scope, POINT)[1]] == ["name-without-value"]
    assert [p.slug for p in written(text("2m"), scope, POINT)[1]] == ["name-unreadable"]


def test_results_are_written_as_they_were_answered() -> None:
    outcome = work("F = M a", "F in kN to 3 sf", given=["M: 1000 kg", "a: 1.23456 m/s^2"])
    shown, _ = written(text("F"), Scope((outcome.results,)), POINT)
    assert shown is not None
    assert printed(shown) == "1.23 kN"


def test_a_given_block_is_read_apart() -> None:
    found, problems = engine.read_given(givens(["m: 2 kg", "v: 3 kgs"]), Scope(), POINT)
    assert list(found) == [Name("m")]
    assert [p.slug for p in problems] == ["unit-unknown"]


def test_which_law_and_constants_were_used() -> None:
    outcome = work((), "F in N", given=["Q_1: 1 µC", "Q_2: 2 µC", "r: 3 m"], use="coulomb")
    assert outcome.used_laws == ("coulomb",)
    assert [name.key for name in outcome.used_constants] == ["k"]
    assert answers(outcome)
