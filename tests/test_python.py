"""The Python interface: what `import physcalc` promises."""

from __future__ import annotations

import doctest
import subprocess
import sys
from fractions import Fraction

import pytest

import physcalc

LIFT = """
given:
  m: 640 kg
  a: 0.75 m/s^2
use: newton-2
formula: T - m g = m a
find: T in N
"""


def test_the_example_of_the_docstring_runs() -> None:
    assert doctest.testmod(physcalc).failed == 0
    assert doctest.testmod(physcalc).attempted


def test_values_steps_and_text() -> None:
    """T = 640 (9.8 + 0.75) = 6752 N by hand."""
    solution = physcalc.calculate(LIFT, lang="en-ZA", sheet="school")
    value = solution["T"]
    assert (value.number, value.exact, value.unit, float(value)) == (6752, 6752, "N", 6752.0)
    assert str(value) == "6\u202f752,00\u00a0N"
    assert list(solution) == ["T"]
    assert [step.kind for step in solution.steps] == ["formula", "instance", "substitution", "answer"]
    assert solution.text == str(solution) == "\n".join(map(str, solution.steps))
    assert str(solution).splitlines()[1] == "T − m g = m a"
    assert solution.tex.startswith("\\begin{aligned}\n")
    assert solution.tex.count("&") == 4


def test_data_as_arguments_and_other_methods() -> None:
    text = (
        "formula: W = F x\nfind: W in J\nor:\n  -\n    formula: W = m v^2 / 2\n    given:\n      v: 5 m/s\n"
    )
    solution = physcalc.calculate(text, given={"F": "12 N", "x": "2.5 m", "m": "2.4 kg"})
    assert solution["W"].number == 30
    assert len(solution.methods) == 1
    assert solution.methods[0][-1].text.startswith("W = 30.00")


def test_a_root_has_no_exact_fraction() -> None:
    value = physcalc.calculate("formula: v = sqrt(2 g h)\nfind: v in m/s", {"h": "1 m"}, sheet="school")["v"]
    assert value.exact is None
    assert value.number == Fraction(443, 100)


def test_everything_wrong_is_told_at_once_with_lines() -> None:
    text = "formula: T = m g\nfind: T in N\nansver: 3 N"
    with pytest.raises(physcalc.CalculationFailed) as failed:
        physcalc.calculate(text, {"m": "2 kg"}, sheet="school", signs="sideways")
    slugs = {problem.slug for problem in failed.value.problems}
    assert slugs == {"key-unknown", "setting-unreadable"}
    assert "line 3: key-unknown" in str(failed.value)


def test_a_typed_answer_is_checked() -> None:
    with pytest.raises(physcalc.CalculationFailed, match="answer-disagrees"):
        physcalc.calculate(LIFT + "answer: 6725 N", sheet="school")


@pytest.mark.parametrize(
    "text", ["", "   ", "find", "\x00", "formula: T = T\nfind: T", "- a\n- b", "given:\n"]
)
def test_nothing_but_our_own_exception(text: str) -> None:
    with pytest.raises(physcalc.CalculationFailed) as failed:
        physcalc.calculate(text)
    assert failed.value.problems


def test_the_names_are_there_without_the_engine() -> None:
    code = (
        "import sys, physcalc\n"
        "assert not any(m.startswith(('physcalc.', 'physcalc_filter')) for m in sys.modules)\n"
        "for name in physcalc.__all__: getattr(physcalc, name)\n"
        "try: physcalc.nothing\nexcept AttributeError: pass\nelse: raise SystemExit(1)"
    )
    subprocess.run([sys.executable, "-c", code], check=True)


def test_what_is_no_text_is_refused_as_python_does() -> None:
    with pytest.raises(TypeError, match="not int"):
        physcalc.calculate(1)  # type: ignore[arg-type]


def test_without_a_reader_it_says_what_is_missing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("importlib.metadata.entry_points", lambda **_: ())
    with pytest.raises(RuntimeError, match="install physcalc"):
        physcalc.calculate("formula: W = F x\nfind: W in J")


@pytest.mark.parametrize(
    ("formula", "change", "name", "factor"),
    [
        ("F = G m_1 m_2 / r^2", "r doubled, m_1 × 3", "F", Fraction(3, 4)),
        ("E_k = 1/2 m v^2", "v decreased by 50 %", "E_k", Fraction(1, 4)),
    ],
)
def test_a_change_gives_its_factor(formula: str, change: str, name: str, factor: Fraction) -> None:
    solution = physcalc.calculate(f"formula: {formula}\nchange: {change}\nfind: {name}", sheet="school")
    value = solution[name]
    assert (value.name, value.number, value.exact, value.unit) == (name, factor, factor, "")


def test_the_factor_of_a_change_that_is_a_root() -> None:
    """T is proportional to the root of L: twice L, 1.414… times T."""
    solution = physcalc.calculate("formula: T = 2 π sqrt(L / g)\nchange: L doubled\nfind: T", sheet="school")
    assert (solution["T"].number, solution["T"].exact) == (Fraction(141, 100), None)


def test_steps_of_a_set_are_whole_lines() -> None:
    """By hand: T = (m_1 F_2 + m_2 F_1) / (m_1 + m_2) = (3 · 4 + 2 · 10) / 5 = 6.4 N and a = 3.6/3 = 1.2 m/s²."""
    solution = physcalc.calculate(
        """
formula:
  - F_1 - T = m_1 a
  - T - F_2 = m_2 a
find:
  - a in m/s^2 to 1 dp
  - T in N to 1 dp
""",
        given={"m_1": "3 kg", "m_2": "2 kg", "F_1": "10 N", "F_2": "4 N"},
        sheet="school",
    )
    lines = [str(step).replace("\u00a0", " ") for step in solution.steps]
    assert lines == [
        "F₁ − T = m₁ a",
        "10 − T = 3 a   (1)",
        "T − F₂ = m₂ a",
        "T − 4 = 2 a   (2)",
        "(1) + (2): 5 a = 6",
        "a = 1.2 m·s⁻²",
        "T = 10 − (3)(1.2)",
        "T = 6.4 N",
    ]
    assert r"\text{(1) + (2): }5\,a &= 6 \\" in solution.tex
    assert r"\qquad \text{(2)} \\" in solution.tex
