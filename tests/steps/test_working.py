"""Lines of working: what is printed, in which edition, and where the marks stand.

The numbers are worked by hand from the data of each test; the layout is that of the language's own reference.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from physcalc.checking.scope import Scope
from physcalc.engine import Outcome
from physcalc.steps.lines import LineKind

from ..authoring import (
    COMMA,
    POINT,
    answers,
    axis,
    layer,
    marked,
    printed,
    shown,
    slugs,
    statement,
    tidy,
    work,
)

LIFT = ["m: 640 kg", "a: 0.75 m/s^2"]


# ---- the example of the language's reference, line by line ------------------------------------------


def test_the_lift() -> None:
    outcome = work(
        "T - m g = m a",
        "T in N to 2 dp",
        use="newton-2",
        given=LIFT,
        answer="6752 N",
        total=4,
        conventions=COMMA,
    )
    assert outcome.problems == ()
    assert marked(outcome.working, conventions=COMMA) == [
        ("F_net = m a", 1),
        ("T − m g = m a", 0),
        ("T − (640)(9,8) = (640)(0,75)", 2),
        ("T = 6 752,00 N", 1),
    ]
    assert outcome.working is not None
    assert outcome.working.marks == 4
    assert outcome.used_laws == ("newton-2",)
    assert [name.key for name in outcome.used_constants] == ["g"]
    assert [line.kind for line in outcome.working.lines if line.audience != "guide"] == [
        LineKind.FORMULA, LineKind.INSTANCE, LineKind.SUBSTITUTION, LineKind.ANSWER,
    ]  # fmt: skip


def test_the_guide_of_the_lift() -> None:
    outcome = work(
        "T - m g = m a",
        "T in N",
        use="newton-2",
        given=LIFT,
        total=4,
        why="The cable pulls up.",
        conventions=COMMA,
    )
    assert marked(outcome.working, "guide", COMMA) == [
        ("F_net = m a", 1),
        ("T − m g = m a", 0),
        ("T = m a + m g", 0),
        ("T = (640)(0,75) + (640)(9,8)", 2),
        ("T = 6 752,00 N", 1),
    ]
    assert outcome.working is not None
    assert outcome.working.why == "The cable pulls up."


def test_the_power_of_the_cable_starts_from_the_tension_found() -> None:
    lift = work("T - m g = m a", "T in N to 2 dp", use="newton-2", given=LIFT)
    elsewhere = Scope((), {"lift-tension": lift.results})
    outcome = work(
        (), "P in kW to 2 dp", given=["v: 1.2 m/s", "F: T from lift-tension"], use="power-velocity",
        answer="8.10 kW", total=3, scope=elsewhere,
    )  # fmt: skip
    assert outcome.problems == ()
    assert marked(outcome.working) == [
        ("P = F v", 1),
        ("P = (6 752.00)(1.2)", 1),
        ("P = 8 102.40 W = 8.10 kW", 1),
    ]
    assert outcome.working is not None
    where = {origin.name.key: origin.where for origin in outcome.working.origins}
    assert where == {"F": "from lift-tension", "v": "line 20"}


# ---- the digits of a substitution -----------------------------------------------------------------------


def substituted(formula: str, find: str, *given: str, **keys: Any) -> str:
    """The one substitution line of the memo."""
    outcome = work(formula, find, given=given, **keys)
    assert outcome.working is not None, [str(p) for p in outcome.problems]
    (line,) = [x for x in outcome.working.lines if x.kind is LineKind.SUBSTITUTION and x.audience != "guide"]
    lines = [tidy(words) for words, _ in marked(outcome.working)]
    kinds = [x.kind for x in outcome.working.lines if x.audience != "guide"]
    return lines[kinds.index(line.kind)]


@pytest.mark.parametrize(
    ("formula", "find", "given", "line"),
    [
        # Powers of ten move, and the digits typed stay.
        ("F = K Q_1 Q_2 / r^2", "F in N", ["K: 9e9 N m²/C²", "Q_1: 3 µC", "Q_2: 4.0 nC", "r: 15 cm"],
         "F = (9 × 10⁹)(3 × 10⁻⁶)(4.0 × 10⁻⁹) / (0.15)²"),
        ("x = A d", "x in m^3", ["A: 2.50 mm^2", "d: 30 km"], "x = (2.50 × 10⁻⁶)(30 000)"),
        ("V = I R", "V in V", ["I: 250 mA", "R: 1200 Ω"], "V = (0.250)(1 200)"),
        ("V = I R", "V in V", ["I: 0.25 A", "R: 1.20 kΩ"], "V = (0.25)(1 200)"),
        # Where a conversion is more than a power of ten it is exact if it ends, else rounded.
        ("p = M v", "p in kg m/s", ["M: 3 kg", "v: 72 km/h"], "p = (3)(20)"),
        ("p = M v", "p in kg m/s", ["M: 3 kg", "v: 90 km/h"], "p = (3)(25)"),
        ("p = M v", "p in kg m/s", ["M: 3 kg", "v: 50 km/h"], "p = (3)(13.89)"),
        ("p V = n R T", "p in Pa", ["n: 2 mol", "V: 0.024 m^3", "T: 25 °C", "R: 8.31 J/(K mol)"],
         "p (0.024) = (2)(8.31)(298.15)"),
        ("Q = C ΔT", "Q in J", ["C: 300 J/K", "ΔT: 25 °C"], "Q = (300)(25)"),
        ("E = W_0 + K", "E in J", ["W_0: 2 eV", "K: 1 J"], "E = 3.204 × 10⁻¹⁹ + 1"),
        # Angles go in as they are, with their sign.
        ("F_x = F cos(θ)", "F_x in N", ["F: 20 N", "θ: 30°"], "F_x = 20 cos(30°)"),
        # The author's digits, whatever they are.
        ("F = M a", "F in N", ["M: 2.50 kg", "a: 4.0 m/s^2"], "F = (2.50)(4.0)"),
        ("F = M a", "F in N", ["M: 1/3 kg", "a: 6 m/s^2"], "F = (1/3)(6)"),
        ("v = u + a t", "v in m/s", ["u: -3 m/s", "a: 2 m/s^2", "t: 4 s"], "v = −3 + (2)(4)"),
        ("v = u + a t", "v in m/s", ["u: 3 m/s", "a: -2 m/s^2", "t: 4 s"], "v = 3 + (−2)(4)"),
    ],
)  # fmt: skip
def test_digits_of_a_substitution(formula: str, find: str, given: list[str], line: str) -> None:
    assert substituted(formula, find, *given) == line


def test_units_stay_as_typed_where_the_answer_comes_out_in_them() -> None:
    # A lens in centimetres: 1/v = 1/10 − 1/15 = 1/30.
    outcome = work("1/f = 1/u + 1/v", "v in cm", given=["f: 10 cm", "u: 15 cm"])
    assert shown(outcome.working)[1:] == ["1 / 10 = 1 / 15 + 1 / v", "v = 30.00 cm"]
    outcome = work("1/f = 1/u + 1/v", "v in m", given=["f: 10 cm", "u: 15 cm"])
    assert shown(outcome.working)[1:] == ["1 / 0.10 = 1 / 0.15 + 1 / v", "v = 0.30 m"]
    outcome = work("N = N_0 exp(-λ t)", "N in g", given=["N_0: 80 g", "λ: 0.1 s^-1", "t: 10 s"])
    assert shown(outcome.working)[1].startswith("N = 80 exp(")


def test_units_in_a_substitution_by_setting() -> None:
    line = substituted(
        "F = M v / t", "F in N", "M: 2 kg", "v: 72 km/h", "t: 4 s",
        conventions=replace(POINT, units_in_substitution=True),
    )  # fmt: skip
    assert line == "F = (2 kg)(20 m·s⁻¹) / 4 s"


def test_an_answer_in_another_unit_is_given_in_the_coherent_one_first() -> None:
    assert shown(work("E = 1/2 M v^2", "E in kJ", given=["M: 1200 kg", "v: 72 km/h"]).working)[-1] == (
        "E = 2.40 × 10⁵ J = 240.00 kJ"
    )


def test_standard_form_and_figures() -> None:
    given = ["M: 2 kg", "a: 3.456 m/s^2"]
    for find, printed_as in (
        ("F to 3 sf", "6.91 N"),
        ("F in standard form", "6.91 × 10⁰ N"),
        ("F in mN to 1 dp", "6 912.0 mN"),
        ("F in kN to 2 dp", "6.91 × 10⁻³ kN"),
        ("F in MN to 2 sf", "6.9 × 10⁻⁶ MN"),
        ("F to 0 dp", "7 N"),
    ):
        assert answers(work("F = M a", find, given=given)) == {"F": printed_as}


# ---- roots ------------------------------------------------------------------------------------------------


def test_both_roots_and_the_reason() -> None:
    # t² + 3 t − 10 = 0: t = 2 or −5.
    outcome = work("s = u t + 1/2 a t^2", "t in s", given=["s: 10 m", "u: 3 m/s", "a: 2 m/s^2"], total=4)
    lines = marked(outcome.working)
    assert lines[:2] == [("s = u t + 1/2 a t²", 1), ("10 = 3 t + 1/2(2) t²", 2)]
    assert lines[-2:] == [("t = −5.00 s or t = 2.00 s; time is not negative", 0), ("t = 2.00 s", 1)]


def test_two_roots_left_are_asked_about() -> None:
    given = ["h: 15 m", "u: 20 m/s", "g: 10 m/s^2"]
    outcome = work("h = u t - 1/2 g t^2", "t in s", given=given)
    assert slugs(outcome) == ["roots-several"]
    assert "1.00" in outcome.problems[0].sentence()
    assert "3.00" in outcome.problems[0].sentence()
    for take, root in (
        ("smallest", "1.00 s"),
        ("largest", "3.00 s"),
        ("t > 2 s", "3.00 s"),
        ("t < 2 s", "1.00 s"),
    ):
        assert answers(work("h = u t - 1/2 g t^2", "t in s", given=given, take=take)) == {"t": root}
    assert slugs(work("h = u t - 1/2 g t^2", "t in s", given=given, take="negative")) == ["roots-excluded"]
    assert slugs(work("h = u t - 1/2 g t^2", "t in s", given=given, take="positive")) == ["roots-several"]


def test_no_root() -> None:
    outcome = work("v^2 = u^2 + 2 a s", "v", given=["u: 3 m/s", "a: -2 m/s^2", "s: 9 m"])
    assert slugs(outcome) == ["no-real-root"]
    outcome = work("a = v / t", "a", given=["v: 3 m/s", "t: 0 s"])
    assert slugs(outcome) == ["divides-by-zero"]


# ---- signs ------------------------------------------------------------------------------------------------

COLLISION = "m_1 v_1 + m_2 v_2 = (m_1 + m_2) V"
TROLLEYS = ["m_1: 2 kg", "m_2: 3 kg", "v_1: 4 m/s, right", "v_2: 6 m/s, left"]
RIGHT = axis("right is positive")


def test_signs_are_carried_into_the_substitution() -> None:
    outcome = work(
        COLLISION, "V in m/s with direction", given=TROLLEYS, conventions=RIGHT, answer="2 m/s, left"
    )
    assert outcome.problems == () or slugs(outcome) == ["answer-coarse"]
    assert shown(outcome.working) == [
        "m₁ v₁ + m₂ v₂ = (m₁ + m₂) V",
        "(2)(4) + (3)(−6) = (2 + 3) V",
        "V = 2.00 m·s⁻¹ to the left",
    ]


def test_a_signed_answer_without_a_direction_asked() -> None:
    assert answers(work(COLLISION, "V in m/s", given=TROLLEYS, conventions=RIGHT)) == {"V": "−2.00 m·s⁻¹"}


def test_both_conventions_give_the_same_answer_and_marks() -> None:
    both = replace(RIGHT, signs="both")
    outcome = work(COLLISION, "V in m/s with direction", given=TROLLEYS, conventions=both, total=4)
    working = outcome.working
    assert working is not None
    (other,) = working.others
    assert (working.heading, other.heading) == ("to the right is positive", "to the left is positive")
    assert [line for line, _ in marked(other)] == [
        "m₁ v₁ + m₂ v₂ = (m₁ + m₂) V",
        "(2)(−4) + (3)(6) = (2 + 3) V",
        "V = 2.00 m·s⁻¹ to the left",
    ]
    assert [marks for _, marks in marked(other)] == [marks for _, marks in marked(working)] == [1, 2, 1]


def test_magnitudes() -> None:
    line = substituted(
        "F = K Q_1 Q_2 / r^2", "F in N", "K: 9e9 N m²/C²", "Q_1: 3 µC", "Q_2: -4 µC", "r: 3 m",
        conventions=replace(POINT, signs="magnitudes"),
    )  # fmt: skip
    assert line == "F = (9 × 10⁹)(3 × 10⁻⁶)(4 × 10⁻⁶) / (3)²"


def test_a_formula_that_the_sheet_marks_as_magnitudes() -> None:
    outcome = work(
        (), "F in N", given=["q_A: 3 µC", "q_B: -4 µC", "r: 15 cm"], use="coulomb (Q_1 = q_A, Q_2 = q_B)"
    )
    # By hand: 9.0e9 · 3e-6 · 4e-6 / 0.0225 = 4.8
    assert answers(outcome) == {"F": "4.80 N"}
    assert "−" not in shown(outcome.working)[1].replace("10⁻", "")


# ---- sets, steps, other methods -----------------------------------------------------------------------------


def test_a_set_is_solved_together() -> None:
    outcome = work(
        ["T - m g = m a", "M g - T = M a"], ["a in m/s^2", "T in N"], given=["m: 2 kg", "M: 3 kg"], total=6
    )
    # a = g/5, T = 12 g/5.
    earning = [line for line in marked(outcome.working) if line[1]]
    assert sorted(earning[:4]) == sorted(
        [
            ("T − m g = m a", 1),
            ("M g − T = M a", 1),
            ("T − (2)(9.8) = 2 a", 1),
            ("(3)(9.8) − T = 3 a", 1),
        ]
    )
    assert earning[4:] == [("a = 1.96 m·s⁻²", 1), ("T = 23.52 N", 1)]


STEPS = [
    statement("v^2 = 2 g h", "v in m/s to 1 dp", given=["h: 5 m"]),
    statement("p = m v", "p in kg m/s to 1 dp", given=["m: 0.15 kg"]),
]


def test_steps_see_what_those_before_them_found() -> None:
    outcome = work((), "p", steps=STEPS, total=5)
    assert marked(outcome.working) == [
        ("v² = 2 g h", 1),
        ("v² = 2(9.8)(5)", 1),
        ("v = 9.9 m·s⁻¹", 0),
        ("p = m v", 1),
        ("p = (0.15)(9.9)", 1),
        ("p = 1.5 kg·m·s⁻¹", 1),
    ]


def test_carry() -> None:
    # Unrounded: v = √98 = 9.8994…, p = 1.48492…, F = 74.246…; rounded: 9.9, 1.485 → 1.5, 75.
    keys: Any = {"given": ["t: 0.02 s"], "total": 7}
    outcome = work("F t = p", "F in N to 2 dp", steps=STEPS, **keys)
    assert answers(outcome) == {"F": "74.25 N"}
    assert slugs(outcome) == ["carry-matters"]
    assert "75.00" in outcome.problems[0].sentence()
    rounded = replace(POINT, carry="rounded")
    steps = [replace(step, conventions=rounded) for step in STEPS]
    outcome = work("F t = p", "F in N to 2 dp", steps=steps, conventions=rounded, **keys)
    assert answers(outcome) == {"F": "75.00 N"}
    assert slugs(outcome) == ["carry-matters"]


def test_carrying_that_is_accepted_is_not_noted() -> None:
    keys: Any = {"given": ["t: 0.02 s"], "total": 7, "steps": STEPS}
    for accept, told in (("choices", []), ("74 to 76 N", []), ("74 to 74.5 N", ["carry-matters"])):
        outcome = work("F t = p", "F in N to 2 dp", accept=accept, **keys)
        assert slugs(outcome) == told
    assert "accept: choices" in outcome.problems[0].mend()


def test_what_a_failed_step_would_have_found_is_not_missed() -> None:
    steps = [statement("v^2 = 2 g h", "v in kg"), statement("p = m v", "p", given=["m: 3 kg"])]
    outcome = work((), "p", steps=steps, given=["h: 5 m"])
    assert slugs(outcome) == ["unit-dimension-wrong"]
    # What no step was to find is missed all the same.
    steps[1] = statement("p = m v + q", "p", given=["m: 3 kg"])
    assert slugs(work((), "p", steps=steps, given=["h: 5 m"])) == [
        "unit-dimension-wrong",
        "name-without-value",
    ]


def test_another_method_has_the_data_of_the_first_and_its_own() -> None:
    given = ["m: 2 kg", "a: 3 m/s^2"]
    other = statement("W = 1/2 m v^2", given=["v: 6 m/s"])
    outcome = work("W = m a s", "W in J", given=[*given, "s: 6 m"], others=[other], total=3)
    assert slugs(outcome) == []
    assert outcome.working is not None
    assert "W = 1/2(2)(6)²" in shown(outcome.working.others[0])
    # Its own value of a name is the one that counts: 1/2 × 4 × 3² = 18 and 2 × 3 × 3 = 18.
    other = statement("W = 1/2 m v^2", given=["v: 3 m/s", "m: 4 kg"])
    assert slugs(work("W = m a s", "W in J", given=[*given, "s: 3 m"], others=[other], total=3)) == []


def test_where_carrying_changes_nothing_nothing_is_said() -> None:
    steps = [statement("v^2 = 2 a h", "v in m/s", given=["h: 4 m", "a: 2 m/s^2"])]
    assert slugs(work("p = m v", "p", given=["m: 3 kg"], steps=steps)) == []


def test_another_method_earns_the_same_marks() -> None:
    outcome = work(
        "v^2 = u^2 + 2 a s", "v in m/s", given=["u: 0 m/s", "a: 2 m/s^2", "s: 9 m", "m: 2 kg"], total=4,
        others=[statement("m a s = 1/2 m v^2")],
    )  # fmt: skip
    assert outcome.working is not None
    (other,) = outcome.working.others
    assert [marks for _, marks in marked(other)] == [1, 2, 1]
    assert printed(other.answers[0].printed) == "6.00 m·s⁻¹"


def test_another_method_must_agree() -> None:
    outcome = work(
        "v^2 = u^2 + 2 a s", "v in m/s", given=["u: 0 m/s", "a: 2 m/s^2", "s: 9 m"],
        others=[statement("a s = v^2")],
    )  # fmt: skip
    assert slugs(outcome) == ["methods-disagree"]
    assert "4.24" in outcome.problems[0].sentence()


# ---- slips, accept, show --------------------------------------------------------------------------------------

FORCE = ["q_1: 3e-6 C", "q_2: 4e-6 C", "r: 0.15 m", "K: 9e9 N m^2/C^2"]


def test_slips_lead_somewhere_else() -> None:
    outcome = work(
        "F = K q_1 q_2 / r^2", "F in N", given=FORCE,
        slips={"forgot to square r": "F = K q_1 q_2 / r", "added": "F = K (q_1 + q_2) / r^2"},
    )  # fmt: skip
    assert outcome.working is not None
    assert [(label, printed(value)) for label, value in outcome.working.slips] == [
        ("forgot to square r", "0.72 N"),
        ("added", "2.80 × 10⁶ N"),
    ]
    assert outcome.problems == ()


def test_a_slip_that_leads_nowhere_is_told() -> None:
    """v² = 2 · 1.5 · 8 − 36 is below zero."""
    outcome = work(
        "v^2 = u^2 + 2 a x",
        "v in m/s",
        given=["u: 6 m/s", "a: 1.5 m/s^2", "x: 8 m"],
        slips={"turned round": "v^2 = 2 a x - u^2", "left out": "v^2 = 2 a x"},
    )
    assert slugs(outcome) == ["slip-nowhere"]
    assert outcome.problems[0].level == "note"
    assert outcome.working is not None
    assert [label for label, _ in outcome.working.slips] == ["left out"]


def test_a_slip_that_is_right_is_no_slip() -> None:
    outcome = work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, slips={"swapped": "F = K q_2 q_1 / r^2"})
    assert slugs(outcome) == ["slip-right"]


@pytest.mark.parametrize(
    ("accept", "low", "high"),
    [("2 %", "4.70 N", "4.90 N"), ("± 0.2 N", "4.60 N", "5.00 N"), ("4.7 to 4.9 N", "4.70 N", "4.90 N"),
     ("4700 to 4900 mN", "4 700.00 mN", "4 900.00 mN")],
)  # fmt: skip
def test_accept(accept: str, low: str, high: str) -> None:
    outcome = work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, accept=accept)
    assert outcome.problems == ()
    assert outcome.working is not None
    assert outcome.working.accepted is not None
    assert [printed(end) for end in outcome.working.accepted] == [low, high]


def test_accept_must_hold_the_computed_value() -> None:
    assert slugs(work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, accept="4.9 to 5.2 N")) == [
        "accept-misses"
    ]
    assert slugs(work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, accept="4.7 to 4.9 m")) == [
        "unit-dimension-wrong"
    ]
    # An answer inside the range that is not the computed one still disagrees.
    outcome = work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, accept="2 %", answer="4.85 N")
    assert slugs(outcome) == ["answer-disagrees"]


def test_show_that() -> None:
    good = work(
        "F = K q_1 q_2 / r^2", "F in N to 2 dp", given=[*FORCE[:3], "K: 8.99e9 N m^2/C^2"], show="4.8 N"
    )
    # 8.99e9 · 12e-12 / 0.0225 = 4.7946…
    assert good.problems == ()
    assert good.working is not None
    assert good.working.shown is not None
    assert printed(good.working.shown) == "4.8 N"
    (datum,) = good.results.values()
    assert datum.shown is not None
    assert float(datum.shown.value) == 4.8
    bad = work("F = K q_1 q_2 / r^2", "F in N", given=FORCE, show="4.7 N")
    assert slugs(bad) == ["show-disagrees"]


def test_what_is_found_is_a_result_for_later_parts() -> None:
    outcome = work("F = M a", "F in N to 1 dp", given=["M: 3 kg", "a: 1.234 m/s^2"])
    (datum,) = outcome.results.values()
    assert (datum.kind, datum.quantity.unit.text()) == ("result", "N")
    assert float(datum.quantity.value) == pytest.approx(3.702)
    inner = Scope((outcome.results,))
    assert answers(work("W = F s", "W in J", given=["s: 2 m"], scope=inner)) == {"W": "7.40 J"}


def test_a_given_of_the_block_hides_the_question() -> None:
    question = Scope((layer("m: 2 kg"),))
    assert answers(work("w = m g", "w in N", given=["m: 5 kg"], scope=question)) == {"w": "49.00 N"}


@pytest.mark.parametrize(("lang", "said"), [("en", "time is not negative"), ("de", "Δt ist nicht negativ")])
def test_a_root_is_set_aside_in_the_words_of_the_document(lang: str, said: str) -> None:
    """Sheets call quantities by English names."""
    conventions = replace(POINT, lang=lang)
    given = ["v: 12 m/s", "s: -25 m", "b: 9.8 m/s^2"]
    outcome = work("s = v Δt - 1/2 b Δt^2", "Δt in s", given=given, conventions=conventions)
    (line,) = [line for line in shown(outcome.working) if ";" in line]
    assert line.endswith(f"; {said}")


LOOPS = ["I_1 + I_2 = I_3", "E_1 = I_1 R_1 + I_3 R_3", "E_2 = I_2 R_2 + I_3 R_3"]
LOOP_DATA = ["E_1: 12 V", "E_2: 9 V", "R_1: 4.7 Ω", "R_2: 2.2 Ω", "R_3: 6.8 Ω"]


def test_a_set_is_worked_out_as_far_as_it_is_asked() -> None:
    """By Cramer: I_2 = (9 · 11.5 − 12 · 6.8) / (11.5 · 9 − 6.8²) = 21.9 / 57.26 = 0.38246… A; I_3 was not asked."""
    lines = shown(work(LOOPS, "I_2 in A to 3 dp", given=LOOP_DATA).working)
    assert lines[-1] == "I₂ = 0.382 A"
    # What is put in gives it: 1.7647 − 1.6912 · 0.81732 = 0.38245, while 0.82 would give 0.378.
    assert lines[-2] == "I₂ = 1.7647 − (1.6912)(0.817 32)"
    assert "I₁ = 0.817 32 A" in lines


def test_units_stand_beside_results_of_a_set_too() -> None:
    conventions = replace(POINT, units_in_substitution=True)
    given = ["h: 19.6 m", "b: 9.8 m/s^2", "v: 3 m/s"]
    lines = shown(work(["h = 1/2 b t^2", "x = v t"], "x in m", given=given, conventions=conventions).working)
    assert lines[-2] == "x = (3 m·s⁻¹)(2.00 s)"


def test_a_size_is_never_below_zero() -> None:
    """By hand: 9e9 · 3e-9 / 0.2 = 135 V; with r squared 675 V."""
    keys = {"given": ["Q: -3 nC", "r: 20 cm", "K: 9e9 N*m^2/C^2"], "slips": {"squared": "V = K Q / r^2"}}
    outcome = work("V = K Q / r", "|V| in V", answer="135 V", **keys)
    assert not outcome.problems
    assert outcome.working is not None
    assert [printed(value) for _, value in outcome.working.slips] == ["675.00 V"]
    assert slugs(work("V = K Q / r", "|V| in V", answer="-135 V", **keys)) == ["answer-disagrees"]
    assert slugs(work("V = K Q / r", "V in V", answer="135 V", **keys)) == ["answer-disagrees"]


def test_a_direction_that_no_sign_says_is_reasoned() -> None:
    """By hand: 9e9 · 8e-9 · 3e-9 / 0.02² = 5.4e-4 N."""
    right = axis("right is positive")
    given = ["Q_1: 8 nC", "Q_2: -3 nC", "r: 20 mm"]

    def outcome(answer: str | None) -> Outcome:
        return work(
            find="F in N with direction", use="coulomb", given=given, answer=answer, conventions=right
        )

    assert slugs(outcome(None)) == ["direction-unreasoned"]
    assert slugs(outcome("5.40e-4 N, up")) == ["direction-unknown"]
    assert slugs(outcome("5.50e-4 N, left")) == ["answer-disagrees"]
    for words, sign in (("left", -1), ("right", 1)):
        done = outcome(f"5.40e-4 N, {words}")
        assert not done.problems
        assert answers(done) == {"F": f"5.40 × 10⁻⁴ N to the {words}"}
        assert [datum.quantity.value.sign() for datum in done.results.values()] == [sign]
    # A formula of the author's own takes signs, or sizes of which the difference says where it points.
    given = ["F_1: 20 N, left", "F_2: 25 N, right"]
    sizes = replace(right, signs="magnitudes")
    keys = {"given": given, "conventions": sizes}
    assert not work("F = F_2 - F_1", "F in N with direction", answer="5 N, right", **keys).problems
    assert slugs(work("F = F_1 - F_2", "F in N with direction", answer="5 N, right", **keys)) == [
        "direction-disagrees"
    ]
