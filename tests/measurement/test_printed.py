"""How values with uncertainties are printed, and the working that leads to them.

The place of rounding and the one or two figures are common practice, no source; that at most two figures make sense
is GUM 7.2.6, and that unit and power of ten stand behind a bracket that holds both is NIST SP 811, 7.7.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from physcalc_filter import pipeline
from physcalc_filter.sources import Source

from physcalc.checking.scope import Scope
from physcalc.engine import written
from physcalc.language.plain import plain_printed
from physcalc.language.statements import Conventions
from physcalc.render import tex

from ..authoring import COMMA, POINT, answers, layer, shown, text, tidy, work

SUM = replace(POINT, uncertainty="sum")


@pytest.mark.parametrize(
    ("value", "width", "said"),
    [
        ("0.4812 m", "0.0314 m", "(0.48 ± 0.03) m"),
        ("4.1684e-7 m", "0.049e-7 m", "(4.17 ± 0.05) × 10⁻⁷ m"),
        # The first figure is a 1: two are kept.
        ("12.0413 m", "0.1443 m", "(12.04 ± 0.14) m"),
        ("12.0413 m", "0.098 m", "(12.04 ± 0.10) m"),
        ("12.0413 m", "0.95 m", "(12.0 ± 1.0) m"),
        # Ties go away from zero, though the size is a machine number.
        ("12.0413 m", "0.35 m", "(12.0 ± 0.4) m"),
        ("12.0413 m", "0.25 m", "(12.0 ± 0.3) m"),
        ("2345 m", "214 m", "(2 300 ± 200) m"),
        ("2345678 m", "21400 m", "(2.35 ± 0.02) × 10⁶ m"),
        # A value that rounds up to the next power of ten.
        ("9.996e-7 m", "0.05e-7 m", "(1.000 ± 0.005) × 10⁻⁶ m"),
        ("9.96e-7 m", "0.2e-7 m", "(1.00 ± 0.02) × 10⁻⁶ m"),
        # A value of zero takes the power of ten of its uncertainty, where that is small.
        ("0 m", "0.034 m", "(0.00 ± 0.03) m"),
        ("0 m", "3.4e-7 m", "(0 ± 3) × 10⁻⁷ m"),
        ("-0.4812 m", "0.0314 m", "(−0.48 ± 0.03) m"),
        ("0.04 m", "0.3 m", "(0.0 ± 0.3) m"),
        # In percent, and in a unit of its own.
        ("0.4812 m", "6 %", "(0.48 ± 0.03) m"),
        ("0.4812 m", "31 mm", "(0.48 ± 0.03) m"),
    ],
)
def test_an_answer(value: str, width: str, said: str) -> None:
    outcome = work("y = 1 x", "y in m", given=[f"x: {value} ± {width}"])
    assert answers(outcome) == {"y": said}


@pytest.mark.parametrize(
    ("figures", "said"), [(None, "(12.04 ± 0.14) m"), (1, "(12.0 ± 0.1) m"), (2, "(12.04 ± 0.14) m")]
)
def test_figures_by_setting(figures: int | None, said: str) -> None:
    conventions = replace(POINT, uncertainty_figures=figures)
    outcome = work("y = 1 x", "y in m", given=["x: 12.0413 ± 0.1443 m"], conventions=conventions)
    assert answers(outcome) == {"y": said}


def test_as_many_places_as_asked() -> None:
    outcome = work("y = 1 x", "y in m to 3 dp", given=["x: 12.0413 ± 0.1443 m"])
    assert answers(outcome) == {"y": "(12.041 ± 0.144) m"}


@pytest.mark.parametrize(
    ("typed", "said", "maths"),
    [
        ("12.0 ± 0.3 Ω", "(12,0 ± 0,3) Ω", r"(\text{12,0} \pm \text{0,3})\,\text{Ω}"),
        ("(4.17 ± 0.05) × 10^-7 C", "(4,17 ± 0,05) × 10⁻⁷ C", None),
        ("(4.17 ± 0.05)e-7 C", "(4,17 ± 0,05) × 10⁻⁷ C", None),
        ("4.17e-7 ± 5e-9 C", "(4,17 ± 0,05) × 10⁻⁷ C", None),
        ("0.36 mm ± 2 %", "0,36 mm ± 2 %", r"\text{0,36}\,\text{mm} \pm 2\,\text{\%}"),
        ("0.200 m ± 5 mm", "0,200 m ± 5 mm", None),
        ("36 ± 2 %", "(36 ± 2) %", None),
        ("20.0 ± 0.5 °C", "(20,0 ± 0,5) °C", None),
        ("30° ± 1°", "(30 ± 1)°", None),
        ("0.200 ± 0 m", "(0,200 ± 0) m", None),
        ("0.200 m", "0,200 m", r"\text{0,200}\,\text{m}"),
    ],
)
def test_data_keep_what_was_typed(typed: str, said: str, maths: str | None) -> None:
    scope = Scope((layer(f"x: {typed}", conventions=COMMA),))
    printed, problems = written(text("x"), scope, COMMA)
    assert printed is not None
    assert not problems
    assert tidy(plain_printed(printed, COMMA.style)) == said
    if maths is not None:
        assert tex(printed, COMMA) == maths


GIVEN = ["V: 6.0 ± 0.1 V", "I: 0.50 ± 0.01 A", "R_1: 12.0 ± 0.3 Ω", "d: 0.36 mm ± 2 %", "L: 0.850 m ± 5 mm"]


def lines(formula: str, find: str, conventions: Conventions, given: list[str] | None = None) -> list[str]:
    return shown(work(formula, find, given=given or GIVEN, conventions=conventions).working)


def test_only_the_value_goes_into_a_substitution() -> None:
    assert lines("R = V / I", "R in Ω with percentage", POINT) == [
        "R = V / I",
        "R = 6.0 / 0.50",
        "ΔR = √((0.20)² + (0.24)²) = 0.31 Ω",
        "ΔR / R = 2.6 %",
        "R = (12.0 ± 0.3) Ω",
    ]


def test_fractional_uncertainties_add_in_a_product() -> None:
    assert lines("R = V / I", "R in Ω with percentage", SUM) == [
        "R = V / I",
        "R = 6.0 / 0.50",
        "ΔR / R = ΔV / V + ΔI / I = 0.017 + 0.02 = 3.7 %",
        "ΔR = (0.037)(12.0) = 0.44 Ω",
        "R = (12.0 ± 0.4) Ω",
    ]


def test_an_uncertainty_shows_why_it_is_rounded_as_it_is() -> None:
    # √5 · 0.02 is 0.0447: as 0.045 it would seem to be 0.05.
    given = [f"t_{n}: 20.{n} s ± 0.02 s" for n in range(1, 6)]
    made = lines("t_m = t_1 + t_2 + t_3 + t_4 + t_5", "t_m in s", POINT, given)
    assert any(line.endswith("= 0.0447 s") for line in made)
    assert made[-1] == "t_m = (101.50 ± 0.04) s"


def test_a_power_counts_as_often_as_it_says() -> None:
    assert lines("R_1 = ρ L / (π d^2 / 4)", "ρ in Ω·m", SUM)[2:] == [
        "Δρ / ρ = ΔR₁ / R₁ + 2 Δd / d + ΔL / L = 0.025 + 2(0.02) + 0.0059 = 7.1 %",
        "Δρ = (0.071)(1.44 × 10⁻⁶) = 1.0 × 10⁻⁷ Ω·m",
        "ρ = (1.44 ± 0.10) × 10⁻⁶ Ω·m",
    ]


def test_a_root_counts_half() -> None:
    found = lines("T = 2 π sqrt(L / g)", "T in s", SUM, ["L: 0.64 ± 0.01 m", "g: 9.8 m/s^2"])
    assert found[2] == "ΔT / T = 1/2(ΔL / L) = 1/2(0.0156) = 0.78 %"


def test_absolute_uncertainties_add_in_a_sum() -> None:
    given = ["a: 4.2 ± 0.1 cm", "b: 31 ± 2 mm"]
    assert lines("P = 2 a + 2 b", "P in cm", SUM, given)[2:] == [
        "ΔP = 2 Δa + 2 Δb = 2(0.1) + 2(0.2) = 0.60 cm",
        "P = 0.146 m = (14.6 ± 0.6) cm",
    ]
    assert lines("P = a - b", "P in cm", SUM, given)[2] == "ΔP = Δa + Δb = 0.1 + 0.2 = 0.30 cm"


def test_what_is_neither_adds_what_each_datum_makes() -> None:
    found = lines("y = V + I R_1", "y in V", SUM, [GIVEN[0], GIVEN[1], "R_1: 12 Ω"])
    assert found[2] == "Δy = 0.10 + 0.12 = 0.22 V"


def test_a_name_that_cancels_adds_nothing() -> None:
    outcome = work("y = m x / m", "y in m", given=["m: 2.0 ± 0.5 kg", "x: 4.12 ± 0.03 m"])
    assert answers(outcome) == {"y": "(4.12 ± 0.03) m"}


def test_a_name_without_a_value_that_cancels() -> None:
    outcome = work("m a = m g sin(θ)", "a in m/s^2", given=["θ: 30° ± 1°"])
    assert answers(outcome) == {"a": "(4.90 ± 0.15) m·s⁻²"}


def test_a_difference_of_a_datum_from_itself() -> None:
    outcome = work("y = x - x_2", "y in m", given=["x: 4.12 ± 0.03 m", "x_2: x"])
    assert answers(outcome) == {"y": "0.00 m"}


def test_a_turned_datum_stays_correlated() -> None:
    """A datum taken over against the axis moves the other way: what the two share cancels."""
    from ..authoring import axis

    given = ["x: 4.12 ± 0.03 m, up", "x_2: x, down"]
    outcome = work("y = x + x_2", "y in m to 2 dp", given=given, conventions=axis("up is positive"))
    assert answers(outcome) == {"y": "0.00 m"}


def test_a_directed_answer() -> None:
    from ..authoring import axis

    given = ["v_i: 2.0 ± 0.1 m/s, right", "a: 3.0 ± 0.2 m/s^2, left", "t: 2.00 s"]
    outcome = work(
        "v_f = v_i + a t", "v_f in m/s with direction", given=given, conventions=axis("right is positive")
    )
    assert answers(outcome) == {"v_f": "(4.0 ± 0.4) m·s⁻¹ to the left"}


def document(body: str, settings: str = "") -> list[str]:
    """The slugs of a document's problems and notes."""
    text = f"---\nlang: en-ZA\nphyscalc:\n  sheet: school\n{settings}---\n\n{body}"
    return [problem.slug for problem in pipeline.check(Source("test.md", text)).problems]


CHAIN = """# Question 1 {.question marks=6}

```{.given}
V: 6.0 ± 0.1 V
I: 0.50 ± 0.01 A
```

::: {.question #first marks=3}
Calculate.

```{.calc}
formula: R = V / I
find: R in Ω
answer: ANSWER
```
:::

::: {.question #second marks=3}
Calculate.

```{.calc}
given:
  R: from first
formula: P = I^2 R
find: P in W
answer: POWER
```
:::
"""


@pytest.mark.parametrize(
    ("settings", "answer", "power"),
    [
        # P = I² V/I = I V: what R shares with I is counted once; 0.05, 0.06 and their sums by hand.
        ("", "12.0 ± 0.3 Ω", "3.00 ± 0.08 W"),
        ("  uncertainty: sum\n", "12.0 ± 0.4 Ω", "3.00 ± 0.11 W"),
        ("  uncertainty-figures: 2\n", "12.00 ± 0.31 Ω", "3,000 ± 0,078 W"),
        ("  uncertainty: sum\n  uncertainty-figures: 1\n", "12.0 ± 0.4 Ω", "3.0 ± 0.1 W"),
    ],
)
def test_a_result_reused_keeps_what_it_shares(settings: str, answer: str, power: str) -> None:
    assert document(CHAIN.replace("ANSWER", answer).replace("POWER", power), settings) == []


def test_carry_rounded_goes_on_from_the_printed_uncertainty() -> None:
    """The rounded width (0.3 for 0.312) goes on: 0.030 W would be 0.0312 W."""
    body = CHAIN.replace("ANSWER", "12.0 ± 0.3 Ω").replace("answer: POWER", "uncertainty-figures: 2")
    body = body.replace("P = I^2 R", "P = 0.1 R").replace("P in W", "P in Ω")
    assert (
        document(body.replace("uncertainty-figures: 2", "uncertainty-figures: 2\nanswer: 1,200 ± 0,031 Ω"))
        == []
    )
    carried = body.replace("uncertainty-figures: 2", "uncertainty-figures: 2\nanswer: 1,200 ± 0,030 Ω")
    assert document(carried, "  carry: rounded\n") == []


PROSE = """# Question 1 {.question marks=3}

The coil has VALUE. Calculate.

```{.given}
R: GIVEN
I: 2.0 A
```

```{.calc}
formula: V = I R
find: V in V
```
"""


@pytest.mark.parametrize(
    ("typed", "given", "slugs"),
    [
        ("[12,0 ± 0,3 Ω]{.value of=R}", "12.0 ± 0.3 Ω", []),
        ("[(12,0 ± 0,3) Ω]{.value of=R}", "12.0 ± 0.3 Ω", []),
        ("[12,0 Ω]{.value of=R}", "12.0 ± 0.3 Ω", []),
        ("[12,0 Ω ± 300 mΩ]{.value of=R}", "12.0 ± 0.3 Ω", []),
        ("[12,0 Ω ± 2,5 %]{.value of=R}", "12.0 ± 0.3 Ω", []),
        ("[12,0 Ω ± 2 %]{.value of=R}", "12.0 Ω ± 2 %", []),
        ("[12,0 ± 0,2 Ω]{.value of=R}", "12.0 ± 0.3 Ω", ["datum-disagrees"]),
        ("[12,0 Ω ± 3 %]{.value of=R}", "12.0 Ω ± 2 %", ["datum-disagrees"]),
        ("[12,0 ± 0,3 Ω]{.value of=R}", "12.0 Ω", ["datum-disagrees"]),
        ("[12,1 ± 0,3 Ω]{.value of=R}", "12.0 ± 0.3 Ω", ["datum-disagrees"]),
        ("`R`{.value}", "12.0 ± 0.3 Ω", []),
    ],
)
def test_a_datum_quoted_in_prose(typed: str, given: str, slugs: list[str]) -> None:
    assert document(PROSE.replace("VALUE", typed).replace("GIVEN", given)) == slugs


@pytest.mark.parametrize(
    ("format", "said"),
    [
        ("html", "12,0\u00a0±\u00a00,3"),
        ("plain", "(12,0\u00a0±\u00a00,3)\u00a0Ω"),
        ("typst", "12,0"),
        ("docx", "12,0"),
        ("latex", "12,0"),
    ],
)
@pytest.mark.parametrize("edition", ["paper", "guide"])
def test_every_output_is_made(format: str, said: str, edition: str) -> None:
    text = "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n" + PROSE.replace("VALUE", "`R`{.value}")
    built, report = pipeline.build(Source("test.md", text.replace("GIVEN", "12.0 ± 0.3 Ω")), edition, format)  # type: ignore[arg-type]
    assert not report.failed
    assert built is not None
    words: Callable[..., str] = __import__("panflute").stringify
    assert "12,0" in words(built)
    if format == "plain":
        assert said in words(built)


@pytest.mark.parametrize(
    ("typed", "slugs"),
    [
        ("[(12,0 ± 0,3) Ω]{.value of=R}", []),
        ("[12,0 Ω]{.value of=R}", []),
        ("[12,0 Ω ± 2,6 %]{.value of=R}", []),
        ("`R`{.value}", []),
        ("[(12,0 ± 0,4) Ω]{.value of=R}", ["answer-disagrees"]),
        ("[(12,1 ± 0,3) Ω]{.value of=R}", ["answer-disagrees"]),
    ],
)
def test_a_result_quoted_in_an_answer(typed: str, slugs: list[str]) -> None:
    data = "```{.given}\nV: 6.0 ± 0.1 V\nI: 0.50 ± 0.01 A\n```\n\n"
    question = f"# Question 1 {{.question marks=3}}\n\nCalculate.\n\n{data}"
    block = "```{.calc}\nformula: R = V / I\nfind: R in Ω\nmarks: 2\n```\n\n"
    answer = f"::: {{.answer marks=1}}\nThe coil has [{typed}]{{.mark}}.\n:::\n"
    assert document(question + block + answer) == slugs
