"""Mistakes with uncertainties, ranges, methods, slips and changes: told once each, in their place, with a mend.

The place that must be shown stands between « and », which are taken out before a document is checked. What counts as
a mistake is the project's own choice.
"""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from physcalc_filter import pipeline
from physcalc_filter.sources import Source

from physcalc.problems import Problem

FRONT = "---\nlang: en-ZA\nphyscalc:\n  sheet: school\n---\n\n"


@dataclass(frozen=True)
class Case:
    """One mistake.

    Attributes:
        name: what it is.
        lines: the calculation's block, with its place marked.
        slug: the problem's slug; empty where all is well.
        sentence: words of its sentence.
        mend: words of its mend.
        given: data of the question.
        prose: the text of the question.
    """

    name: str
    lines: tuple[str, ...]
    slug: str
    sentence: str
    mend: str = ""
    given: tuple[str, ...] = ()
    prose: str = "Calculate."


R = ("formula: R = V / I", "find: R in Ω")
VI = ("V: 6.0 ± 0.1 V", "I: 0.50 ± 0.01 A")
EXACT = ("V: 6.0 V", "I: 0.50 A")
FORCE = ("formula: F = k Q_1 Q_2 / r^2", "find: F")
FALL = ("m: 3.1 kg", "h: 31.9 m", "v: 25.01 m/s")

CASES = [
    Case(
        "an uncertainty in another dimension",
        R, "uncertainty-unfit", "is in kg, the value in V", "percentage", ("V: 6.0 V ± «0.1 kg»", VI[1]),
    ),
    Case(
        "an uncertainty larger than sense",
        R, "uncertainty-too-large", "1667 %", "digits and the unit", ("V: «6.0 ± 100 V»", VI[1]),
    ),
    Case(
        "a percentage above a hundred",
        R, "uncertainty-too-large", "150 %", "digits and the unit", ("V: «6.0 V ± 150 %»", VI[1]),
    ),
    Case(
        "a negative uncertainty",
        R, "uncertainty-negative", '"-0.1 V" is negative', "sign", ("V: 6.0 ± «-0.1 V»", VI[1]),
    ),
    Case(
        "an uncertainty that is no number",
        R, "uncertainty-unreadable", '"some V" is not a number', "0.200 ± 0.005 m", ("V: «6.0 ± some V»", VI[1]),
    ),
    Case(
        "a bracket that is not closed",
        R, "uncertainty-unreadable", "counterpart", "", ("V: «(6.0 ± 0.1 V»", VI[1]),
    ),
    Case(
        "a power of ten behind the uncertainty alone",
        R, "uncertainty-unreadable", "alone", "× 10^-7", ("V: «6.0 ± 0.1 × 10^-3 V»", VI[1]),
    ),
    Case(
        "a percentage of a temperature on a scale",
        ("formula: y = T - T_0", "find: y in K"),
        "uncertainty-of-point", "in °C", "in °C", ("T: «20 °C ± 2 %»", "T_0: 10 °C"),
    ),
    Case(
        "a vector with an uncertainty",
        ("formula: F_x = F.x", "find: F_x in N"),
        "uncertainty-of-vector", "F can not have both", "F cos θ", ("F: «12.0 ± 0.3 N at 30°»",),
    ),
    Case(
        "a vector made of something uncertain",
        ("formula: R = |F|", "find: R in N"),
        "uncertainty-of-vector", "F can not have both", "", ("F_0: 12.0 ± 0.3 N", "F: «F_0 at 30°»"),
    ),
    Case(
        "a vector times something uncertain",
        ("formula: «F = m a»", "find: F in N", "answer: 24 N at 30°"),
        "uncertainty-of-vector", "m can not have both", "", ("m: 2.0 ± 0.1 kg", "a: 12 m/s^2 at 30°"),
    ),
    Case(
        "a value at the edge of its formula",
        ("formula: sin(θ) = s", "find: «θ in °»"),
        "uncertainty-at-edge", "of s can not be carried through to θ", "no slope", ("s: 1.00 ± 0.01",),
    ),
    Case(
        "so few digits asked that the uncertainty vanishes",
        ("formula: R = V / I", "find: «R in Ω to 0 dp»"),
        "uncertainty-vanishes", "its uncertainty, 0,3 Ω", "leave out", VI,
    ),
    Case(
        "a typed uncertainty that disagrees",
        (*R, "answer: «12.0 ± 0.2 Ω»"),
        "answer-disagrees", "R is (12,0 ± 0,3) Ω, the document says (12,0 ± 0,2) Ω", "", VI,
    ),
    Case(
        "a typed value that disagrees, its uncertainty right",
        (*R, "answer: «12.1 ± 0.3 Ω»"),
        "answer-disagrees", "the document says (12,1 ± 0,3) Ω", "", VI,
    ),
    Case(
        "a typed percentage that disagrees",
        (*R, "answer: «12.0 Ω ± 3.6 %»"),
        "answer-disagrees", "the document says 12,0 Ω ± 3,6 %", "", VI,
    ),
    Case("a typed percentage that agrees", (*R, "answer: 12.0 Ω ± 2.6 %"), "", "", "", VI),
    Case(
        "an uncertainty typed on a result that has none",
        (*R, "answer: «12.0 ± 0.3 Ω»"),
        "answer-disagrees", "R is 12,00 Ω", "nothing that it is computed from has an uncertainty", EXACT,
    ),
    Case(
        "a datum quoted with another uncertainty",
        R, "datum-disagrees", "V is (6,0 ± 0,1) V, the document says (6,0 ± 0,2) V", "", VI,
        "A cell of [«6,0 ± 0,2 V»]{.value of=V}.",
    ),
    Case(
        "a range that misses",
        (*R, "accept: «12.1 to 12.5 Ω»"), "accept-misses", "does not hold R = 12,00 Ω", "", EXACT,
    ),
    Case(
        "a range with its ends reversed",
        (*R, "accept: «12.5 to 11.5 Ω»"), "phrase-unreadable", "", "the smaller end first", EXACT,
    ),
    Case(
        "a range in another dimension",
        (*R, "accept: «11.5 to 12.5 A»"), "unit-dimension-wrong", "A", "", EXACT,
    ),
    Case("a range about a middle", (*R, "accept: 12.1 ± 0.3 Ω"), "", "", "", EXACT),
    Case(
        "a range about a middle that misses",
        (*R, "accept: «12.5 ± 0.3 Ω»"), "accept-misses", "", "", EXACT,
    ),
    Case(
        "methods that disagree",
        (*R, "or:", "  -", "    «formula»: R = 2 V / I"),
        "methods-disagree",
        "R is 12,00 Ω by the first method and 24,00 Ω by this one: 12 Ω (100 %) apart, which rounding does not explain",
        "correct the one that is wrong", EXACT,
    ),
    Case(
        "methods whose data do not fit to the last digit",
        ("formula: E = m g h", "find: E in J", "or:", "  -", "    «formula»: E = 1/2 m v^2"),
        "methods-disagree", "969,12 J by the first method and 969,53 J by this one: 0,41 J (0,042 %) apart, which the "
        "rounding of the data explains", "accept", FALL,
    ),
    Case(
        "the same with a range that holds both",
        ("formula: E = m g h", "find: E in J", "accept: 969.1 to 969.6 J", "or:", "  -",
         "    formula: E = 1/2 m v^2"),
        "", "", "", FALL,
    ),
    Case(
        "the same with a range that holds one",
        ("formula: E = m g h", "find: E in J", "accept: 969.0 to 969.2 J", "or:", "  -",
         "    «formula»: E = 1/2 m v^2"),
        "methods-disagree", "", "accept", FALL,
    ),
    Case(
        "the same with honest choices",
        ("formula: E = m g h", "find: E in J", "accept: choices", "or:", "  -", "    formula: E = 1/2 m v^2"),
        "", "", "", FALL,
    ),
    Case(
        "a mistake that a range happens to hold",
        (*R, "accept: 10 to 25 Ω", "or:", "  -", "    «formula»: R = 2 V / I"),
        "methods-disagree", "rounding does not explain", "correct", EXACT,
    ),
    Case(
        "a method that carries a rounded value",
        ("carry: rounded", "steps:", "  -", "    formula: F = m a", "    find: F in N to 1 dp", "  -",
         "    formula: W = F + m g", "    find: «W in N»", "or:", "  -", "    «formula»: W = m a + m g"),
        "carry-matters methods-disagree", "which rounding on the way explains", "accept",
        ("m: 3.1 kg", "a: 3.37 m/s^2"),
    ),
    Case(
        "a slip that is right",
        (*R, "slips:", "  «upside down»: R = 1 / (I / V)"),
        "slip-right", "12,00 Ω", "", EXACT,
    ),
    Case(
        "a slip that is right to the uncertainty's place",
        (*R, "slips:", "  «a hair off»: R = 1,002 V / I"),
        "slip-right", "12,0 Ω", "", VI,
    ),
    Case(
        "a change of a name that is not in the formula",
        (*FORCE, "change: «R doubled»"), "name-not-in-formula", "R", "",
    ),
    Case(
        "a change of a quantity asked that is not in the formula",
        ("formula: F = k Q_1 Q_2 / r^2", "find: «E»", "change: r doubled"), "name-not-in-formula", "E", "",
    ),
    Case(
        "a change of what is asked",
        (
            *FORCE,
            "change: «F doubled»",
        ),
        "change-unfit",
        "a change of F itself",
        "",
    ),
    Case(
        "a change that can not be read",
        (*FORCE, "change: «r made larger»"), "phrase-unreadable", "", "r doubled",
    ),
    Case(
        "a factor that depends on a datum without value",
        ("formula: «v^2 = v_0^2 + 2 a x»", "find: v", "change: x doubled"),
        "name-without-value", "v_0 has no value", "", ("a: 2 m/s^2", "x: 4 m"),
    ),
    Case(
        "a factor that says the wrong thing",
        (*FORCE, "change: r doubled", "answer: «1/2»"),
        "answer-disagrees", "1/4 times what it was (decreases)", "",
    ),
    Case(
        "a trend that is wrong",
        (*FORCE, "change: r doubled", "answer: «increases»"), "answer-disagrees", "decreases", "",
    ),
    Case(
        "a factor in words nobody knows",
        (*FORCE, "change: r doubled", "answer: «gets weaker»"), "answer-disagrees", "", "write a factor",
    ),
    Case(
        "a range where a factor is asked",
        (*FORCE, "change: r doubled", "accept: «2 %»"), "change-unfit", "accept has no meaning", "take accept out",
    ),
    Case(
        "a slip that gives the right factor",
        (*FORCE, "change: r doubled", "slips:", "  «signs»: F = -k Q_1 Q_2 / r^2"), "slip-right", "1/4", "",
    ),
    Case(
        "methods that give different factors",
        (*FORCE, "change: r doubled", "or:", "  -", "    «formula»: F = k Q_1 Q_2 / r"),
        "methods-disagree", "1/4 by the first method and 1/2 by this one", "",
    ),
]  # fmt: skip


def placed(text: str) -> tuple[str, tuple[int, int, int] | None]:
    """A document without its marks, and the line, column and length that the last of them stand round."""
    if "«" not in text:
        return text, None
    start, end = text.rindex("«"), text.rindex("»")
    before = text[:start].replace("«", "").replace("»", "")
    line, column = before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1
    return text.replace("«", "").replace("»", ""), (line, column, max(1, end - start - 1))


def problems_of(text: str) -> list[Problem]:
    return list(pipeline.check(Source("page.md", text)).problems)


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name.replace(" ", "-"))
def test_one_mistake(case: Case) -> None:
    data = ["```{.given}", *case.given, "```", ""] if case.given else []
    body = [
        "# Question 1 {.question marks=3}",
        "",
        case.prose,
        "",
        *data,
        "```{.calc}",
        *case.lines,
        "```",
        "",
    ]
    text, place = placed(FRONT + "\n".join(body))
    found = problems_of(text)
    assert " ".join(problem.slug for problem in found) == case.slug, [str(problem) for problem in found]
    if not case.slug:
        return
    problem = found[-1]
    assert (problem.span.line, problem.span.column, problem.span.length) == place
    assert case.sentence in tidy(problem.sentence())
    assert case.mend in problem.mend()


def tidy(words: str) -> str:
    return words.replace("\u00a0", " ").replace("\u202f", " ")


@pytest.mark.parametrize(
    ("typed", "mended"),
    [
        ("12.1 ± 0.3 Ω", "(12,0 ± 0,3) Ω"),
        ("12.0 ± 0.2 Ω", "(12,0 ± 0,3) Ω"),
        ("(12.1 ± 0.2) Ω", "(12,0 ± 0,3) Ω"),
    ],
)
def test_what_is_written_over_a_wrong_answer(typed: str, mended: str) -> None:
    def document(answer: str) -> str:
        data = "\n".join(["```{.given}", *VI, "```"])
        lines = "\n".join(["```{.calc}", *R, f"answer: {answer}", "```"])
        return f"{FRONT}# Question 1 {{.question marks=3}}\n\nCalculate.\n\n{data}\n\n{lines}\n"

    (problem,) = problems_of(document(typed))
    assert getattr(problem, "replacement", None) == mended
    assert problems_of(document(mended)) == []
