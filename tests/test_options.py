"""Options of multiple-choice questions: exactly one is right, none equals another."""

from __future__ import annotations

from dataclasses import replace

import pytest

from physcalc.checking.scope import Scope
from physcalc.engine import constants_layer
from physcalc.language.plain import plain
from physcalc.language.statements import Conventions
from physcalc.language.tree import Printed
from physcalc.options import Options, OptionsOutcome, choose_option
from physcalc.problems import Span

from .authoring import COMMA, POINT, axis, layer, sheet, text, tidy


def choose(
    *options: str,
    of: str = "",
    answer: str = "",
    given: tuple[str, ...] = (),
    conventions: Conventions = POINT,
) -> OptionsOutcome:
    letters = "ABCDEFGH"
    scope = Scope((layer(*given, conventions=conventions), constants_layer(sheet())))
    return choose_option(
        Options(
            Span("page.md", 1),
            conventions,
            text(of, 2) if of else None,
            tuple((text(letters[i], 3 + i), text(value, 3 + i, 4)) for i, value in enumerate(options)),
            text(answer, 9) if answer else None,
        ),
        scope,
    )


def slugs(outcome: OptionsOutcome) -> list[str]:
    return [problem.slug for problem in outcome.problems]


def sentences(outcome: OptionsOutcome) -> list[str]:
    return [tidy(problem.sentence()) for problem in outcome.problems]


def shown(outcome: OptionsOutcome) -> list[str]:
    return [
        f"{letter} {tidy(value if isinstance(value, str) else plain(value, POINT.style))}"
        for letter, value in outcome.printed
    ]


# ---- texts ------------------------------------------------------------------------------------------


def test_texts_need_an_answer() -> None:
    outcome = choose("it grows", "it shrinks", answer="B")
    assert (outcome.key, outcome.problems, outcome.value) == ("B", (), None)
    assert shown(outcome) == ["A it grows", "B it shrinks"]
    outcome = choose("it grows", "it shrinks")
    assert (outcome.key, slugs(outcome)) == (None, ["options-do-not-fit"])
    outcome = choose("it grows", "it shrinks", answer="C")
    assert sentences(outcome) == ['there is no option "C"']
    assert outcome.problems[0].span.line == 9


def test_texts_alike() -> None:
    outcome = choose("it grows", "it stays", "It  grows", answer="A")
    assert sentences(outcome) == ["options A and C are the same"]


# ---- computed ---------------------------------------------------------------------------------------

TWICE = ("F_1: 3 N", "F_2: 6 N")


def test_the_key_is_computed() -> None:
    outcome = choose("1/4", "1/2", "2", "4", of="F_2 / F_1", answer="C", given=TWICE)
    assert (outcome.key, outcome.problems) == ("C", ())
    assert shown(outcome) == ["A 1/4", "B 1/2", "C 2", "D 4"]
    assert isinstance(outcome.value, Printed)


def test_without_a_typed_answer_the_computed_one_holds() -> None:
    assert choose("1/4", "1/2", "2", of="F_1 / F_2", given=TWICE).key == "B"


def test_a_typed_answer_is_checked() -> None:
    outcome = choose("1/4", "1/2", "2", "4", of="F_2 / F_1", answer="B", given=TWICE)
    assert outcome.key == "C"
    assert sentences(outcome) == ["F_2 / F_1 is 2.00: option C, the document says B"]
    assert outcome.problems[0].span.line == 9
    assert sentences(choose("1", "2", of="F_2 / F_1", answer="E", given=TWICE)) == ['there is no option "E"']


def test_none_right() -> None:
    outcome = choose("1/4", "1/2", "3", of="F_2 / F_1", given=TWICE)
    assert outcome.key is None
    assert sentences(outcome) == ["F_2 / F_1 is 2.00, and no option equals it"]


def test_two_right() -> None:
    # √(2·9.8·2.6) = 7.1386…: both round to it, each as far as it goes.
    outcome = choose("7.1 m/s", "4 m/s", "7.14 m/s", of="√(2 g h)", given=("h: 2.6 m",))
    assert outcome.key is None
    assert sentences(outcome) == ["√(2 g h) is 7.14 m·s⁻¹, and options A and C equal it"]


def test_two_alike_after_conversion() -> None:
    outcome = choose("1 m", "100 cm", "3 m", of="L", given=("L: 3 m",))
    assert sentences(outcome) == ["options A and B are equal"]


@pytest.mark.parametrize(
    ("options", "of", "given", "key"),
    [
        # A quantity agrees as far as its own digits go: √(2·9.8·2.6) = 7.1386…
        (("7.1 m/s", "7.2 m/s", "51 m/s"), "√(2 g h)", ("h: 2.6 m",), "A"),
        (("25.7 km/h", "7.2 m/s"), "√(2 g h)", ("h: 2.6 m",), "A"),
        # Expressions are compared exactly.
        (("m g", "2*m*g", "m g / 2"), "w", ("m: 3 kg", "w: m*g"), "A"),
        (("2*F", "F", "F/2"), "F_2", ("F: 3 N", "F_2: 6 N"), "A"),
        (("30°", "60°", "90°"), "asin(1/2)", (), "A"),
        (("6 × 10⁻⁶ C", "6 × 10⁻³ C"), "q", ("q: 6 µC",), "A"),
    ],
)
def test_quantities_and_expressions(
    options: tuple[str, ...], of: str, given: tuple[str, ...], key: str
) -> None:
    outcome = choose(*options, of=of, given=given)
    assert outcome.problems == ()
    assert outcome.key == key


def test_names_that_cancel_need_no_value() -> None:
    outcome = choose("1/4", "1/2", "2", "4", of="(m (2 v)^2) / (m v^2)")
    assert (outcome.key, outcome.problems) == ("D", ())
    outcome = choose("m v", "2*m*v", "m v / 2", of="m v + m v")
    assert (outcome.key, outcome.problems) == ("B", ())


def test_names_that_do_not_cancel() -> None:
    outcome = choose("1/4", "1/2", of="m v / M")
    assert outcome.key is None
    assert slugs(outcome)


def test_a_unit_that_measures_something_else() -> None:
    outcome = choose("3 N", "6 N", "3 m", of="F", given=("F: 6 N",))
    assert "unit-dimension-wrong" in slugs(outcome)
    assert next(p for p in outcome.problems if p.slug == "unit-dimension-wrong").span.line == 5


def test_every_unreadable_option_is_said() -> None:
    outcome = choose("3 (N", "6 N", "1/0", of="F", given=("F: 6 N",))
    assert outcome.key is None
    assert len(outcome.problems) == 2


def test_of_must_be_readable() -> None:
    outcome = choose("1", "2", of="F_2 / (")
    assert slugs(outcome) == ["formula-unreadable"]
    assert shown(outcome) == ["A 1", "B 2"]


def test_directions() -> None:
    right = axis("right is positive")
    outcome = choose("3 m/s, right", "3 m/s, left", of="v", given=("v: 3 m/s, left",), conventions=right)
    assert (outcome.key, outcome.problems) == ("B", ())


def test_the_documents_decimal_sign() -> None:
    outcome = choose("0,5", "1,000", of="x", given=("x: 1",), conventions=COMMA)
    assert outcome.key == "B"
    even = replace(POINT, rule="half-even")
    assert choose("0.12", "0.13", of="x", given=("x: 1/8",), conventions=even).key == "A"
    assert choose("0.12", "0.13", of="x", given=("x: 1/8",)).key == "B"


@pytest.mark.parametrize(
    ("options", "given", "key"),
    [
        # One half is no other option's digits rounded: it is there itself.
        (("1/4", "1/2", "1", "2"), ("F_1: 6 N", "F_2: 3 N"), "B"),
        (("0.25", "0.5", "1", "2"), ("F_1: 6 N", "F_2: 3 N"), "B"),
        (("12 ", "12.5", "13", "25"), ("F_1: 2 N", "F_2: 25 N"), "B"),
        # Where it is not, an option may be rounded: 12.5 comes to 13, and 1.2 to 1.
        (("12", "13", "25"), ("F_1: 2 N", "F_2: 25 N"), "B"),
        (("1", "2", "4"), ("F_1: 5 N", "F_2: 6 N"), "A"),
        # But so far off it is no rounding that a learner could tell: 0.5 is not 1, and 1.4 neither.
        (("1/4", "1", "2", "4"), ("F_1: 6 N", "F_2: 3 N"), None),
        (("1", "2", "4"), ("F_1: 5 N", "F_2: 7 N"), None),
    ],
)
def test_an_option_that_is_exact_comes_before_one_that_is_rounded(
    options: tuple[str, ...], given: tuple[str, ...], key: str | None
) -> None:
    outcome = choose(*options, of="F_2 / F_1", given=given)
    assert outcome.key == key
    assert slugs(outcome) == ([] if key else ["options-do-not-fit"])
